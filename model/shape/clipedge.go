package shape

import "meniscus/model/unit"

// AndCut gives what lies in both regions, and for each of its rings the open
// runs that are edges of b and not of a: where b cuts a. A run that goes all the
// way round ends where it begins. Edges that the two have in common count as
// those of a.
func (a Region) AndCut(b Region) (shared Region, cut [][]Ring) { return andCut(weave(a), weave(b)) }

func andCut(a, b *web) (shared Region, cut [][]Ring) {
	o := overlay(a, b, both)
	o.trace(func(loop []arc) {
		if r := o.ring(loop); r != nil {
			shared, cut = append(shared, r), append(cut, o.runs(loop))
		}
	})
	return shared, cut
}

// runs gives the stretches of a loop that belong to the second region alone.
func (o *overlaid) runs(loop []arc) []Ring {
	second := func(a arc) bool { return a.turns[0] == 0 }
	start := -1
	for i, a := range loop {
		if second(a) && !second(loop[(i+len(loop)-1)%len(loop)]) {
			start = i
			break
		}
	}
	all := start < 0
	if all {
		if !second(loop[0]) {
			return nil
		}
		start = 0
	}
	var list []Ring
	var run Ring
	for k := range loop {
		a := loop[(start+k)%len(loop)]
		if second(a) {
			o.points(a, func(p Point) { run = append(run, p) })
			continue
		}
		if run != nil {
			list, run = append(list, append(run, o.first(a))), nil
		}
	}
	if run != nil {
		list = append(list, append(run, o.first(loop[start])))
	}
	return list
}

// first gives the point at which an arc begins.
func (o *overlaid) first(a arc) Point {
	w := o.web[a.of]
	if a.back {
		return w.at[w.next[a.last(w)]]
	}
	return w.at[a.from]
}

// Along gives the length of the ring's points taken as an open run.
func (r Ring) Along() unit.Length {
	sum := 0.0
	for i := 1; i < len(r); i++ {
		sum += r[i].minus(r[i-1]).norm()
	}
	return unit.Length(sum)
}
