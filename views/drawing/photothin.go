package drawing

import "meniscus/model/shape"

// seen is how far apart two points of a line must be to be told apart, in dp.
const seen = 0.8

// visible gives the runs of an outline that can be seen, without the points
// that could not be told from the one before: the work of drawing 20,000 points
// is that of the few hundred that matter.
func (v photoView) visible(points shape.Ring, closed bool, box Box) []Path {
	n := len(points)
	if n < 2 {
		return nil
	}
	var paths []Path
	var run []Pt
	flush := func() {
		if len(run) > 1 {
			paths = append(paths, Path{Points: run})
		}
		run = nil
	}
	first := v.toScreen(points[0])
	last, side := first, sideOf(first, box)
	whole := side == 0
	if side == 0 {
		run = append(run, last)
	}
	ends := n - 1
	if closed {
		ends = n
	}
	for i := 1; i <= ends; i++ {
		q := first
		if i < n {
			q = v.toScreen(points[i])
		}
		if !finite(q) {
			continue
		}
		s := sideOf(q, box)
		whole = whole && s == 0
		if s&side != 0 { // all of this line is beyond one side
			flush()
			last, side = q, s
			continue
		}
		if len(run) == 0 {
			run = append(run, last)
		}
		if prev := run[len(run)-1]; i < ends && s == 0 && near(prev, q, seen) {
			last, side = q, s
			continue
		}
		run = append(run, q)
		last, side = q, s
	}
	flush()
	if whole && closed && len(paths) == 1 {
		p := paths[0].Points
		paths[0] = Path{Points: p[:len(p)-1], Closed: true}
	}
	return paths
}

// sideOf tells beyond which sides of a box a place lies (Cohen and Sutherland's
// code); 0 is inside.
func sideOf(p Pt, box Box) uint8 {
	var s uint8
	if p.X < box.Min.X {
		s |= 1
	} else if p.X > box.Max.X {
		s |= 2
	}
	if p.Y < box.Min.Y {
		s |= 4
	} else if p.Y > box.Max.Y {
		s |= 8
	}
	return s
}

// dots gives the points of an outline that are shown one by one: those that
// lie far enough from the last one shown.
func (v photoView) dots(points shape.Ring, box Box) []Pt {
	const apart, most = 11, 1200
	var list []Pt
	for i, p := range points {
		q := v.toScreen(p)
		if !finite(q) || !box.Contains(q) {
			continue
		}
		if n := len(list); n > 0 && i < len(points)-1 && near(list[n-1], q, apart) {
			continue
		}
		if list = append(list, q); len(list) >= most {
			break
		}
	}
	return list
}
