package shape

import (
	"math"

	"meniscus/model/unit"
)

// Laid is how a ring is to be laid on another: turned counterclockwise about
// the origin, then moved.
type Laid struct {
	Turn unit.Angle
	By   Point
}

// Of gives the ring laid so.
func (l Laid) Of(r Ring) Ring { return r.Turned(l.Turn).Moved(l.By.X, l.By.Y) }

// Align gives the way to lay one outline on another, without stretching or
// turning it over, that makes the two agree best: the least sum of squares of
// the distances from places evenly around the one to the other's outline.
//
// It starts with the middles on each other and the principal directions of the
// two areas alike, each of the four ways round, and goes on from the best by
// stepping towards the nearest edges (Chen and Medioni, Object modelling by
// registration of multiple range images, 1992). Outlines that look the same in
// several turns are laid in the first of these that is as good as the best.
func Align(moving, still Ring) Laid {
	if len(moving) < 3 || len(still) < 3 {
		return Laid{}
	}
	const (
		fewPlaces, fewEdges, fewSteps = 64, 256, 12
		places, steps                 = 256, 30
		asGood                        = 1 + 1e-6
	)
	rough, crude := moving.evenly(fewPlaces), NewBorder(still.evenly(fewEdges))
	from, to := moving.Centroid(), still.Centroid()
	turn := still.direction() - moving.direction()
	var best Laid
	least := math.Inf(1)
	for quarter := range 4 {
		l := Laid{Turn: turn + unit.Angle(quarter)*math.Pi/2}
		m := Ring{from}.Turned(l.Turn)[0]
		l.By = to.minus(m)
		off := l.settle(rough, crude, fewSteps)
		if off*asGood < least {
			best, least = l, off
		}
	}
	best.settle(moving.evenly(places), NewBorder(still), steps)
	best.Turn = unit.Angle(math.Remainder(float64(best.Turn), 2*math.Pi))
	return best
}

// settle moves l towards the least sum of squares of the distances from some
// places to an outline and gives their mean.
func (l *Laid) settle(places Ring, outline Border, steps int) float64 {
	now, then := make([]touchdown, len(places)), make([]touchdown, len(places))
	off := l.land(places, outline, now)
	for range steps {
		next := l.stepped(now, outline)
		lower := next.land(places, outline, then)
		if !(lower < off) {
			break
		}
		gain := off - lower
		*l, off = next, lower
		now, then = then, now
		if gain <= 1e-9*off {
			break
		}
	}
	return off
}

// touchdown is a place as it was laid, with the nearest place on the outline
// and its edge.
type touchdown struct {
	at, on Point
	edge   int
}

// land lays places and gives the mean square of their distances to an outline.
func (l *Laid) land(places Ring, outline Border, down []touchdown) float64 {
	sin, cos := math.Sincos(float64(l.Turn))
	sum := 0.0
	for i, p := range places {
		d := &down[i]
		d.at = Point{cos*p.X - sin*p.Y + l.By.X, sin*p.X + cos*p.Y + l.By.Y}
		d.on, d.edge = outline.Nearest(d.at)
		sum += d.at.minus(d.on).dot(d.at.minus(d.on))
	}
	return sum / float64(len(places))
}

// stepped gives l turned and moved by what makes the places lie nearest to the
// lines of their nearest edges.
func (l *Laid) stepped(down []touchdown, outline Border) Laid {
	var a [3][3]float64
	var b [3]float64
	var c Point
	for i := range down {
		c.X, c.Y = c.X+down[i].at.X/float64(len(down)), c.Y+down[i].at.Y/float64(len(down))
	}
	r := outline.t.ring
	for i := range down {
		d := &down[i]
		u := r[r.next(d.edge)].minus(r[d.edge])
		length := u.norm()
		if length == 0 {
			continue
		}
		n := Point{-u.Y / length, u.X / length}
		away, arm := d.on.minus(d.at).dot(n), d.at.minus(c)
		row := [3]float64{n.X, n.Y, n.Y*arm.X - n.X*arm.Y}
		for j := range 3 {
			b[j] += row[j] * away
			for k := range 3 {
				a[j][k] += row[j] * row[k]
			}
		}
	}
	x, ok := solve3(a, b)
	if !ok {
		return *l
	}
	// A turn by x[2] about c, then a move, on top of what l does.
	sin, cos := math.Sincos(x[2])
	by := l.By.minus(c)
	return Laid{l.Turn + unit.Angle(x[2]), Point{cos*by.X - sin*by.Y + c.X + x[0], sin*by.X + cos*by.Y + c.Y + x[1]}}
}

// solve3 solves three equations that are symmetric and positive, held off from
// zero by a hair so that a round outline, which any turn suits, is left as it
// lies.
func solve3(a [3][3]float64, b [3]float64) (x [3]float64, ok bool) {
	const hair = 1e-9
	for i := range 3 {
		a[i][i] *= 1 + hair
	}
	a[2][2] += hair * (a[0][0] + a[1][1]) * 1e-6
	for k := range 3 {
		if !(a[k][k] > 0) {
			return x, false
		}
		for i := k + 1; i < 3; i++ {
			f := a[i][k] / a[k][k]
			for j := k; j < 3; j++ {
				a[i][j] -= f * a[k][j]
			}
			b[i] -= f * b[k]
		}
	}
	for k := 2; k >= 0; k-- {
		x[k] = b[k]
		for j := k + 1; j < 3; j++ {
			x[k] -= a[k][j] * x[j]
		}
		x[k] /= a[k][k]
	}
	return x, true
}

// direction gives the direction in which the area inside the ring is longest,
// by its second moments about its centroid.
func (r Ring) direction() unit.Angle {
	c := r.Centroid()
	var xx, xy, yy float64
	for i := range r {
		a, b := r[i].minus(c), r[r.next(i)].minus(c)
		k := a.cross(b)
		xx += k * (a.X*a.X + a.X*b.X + b.X*b.X)
		yy += k * (a.Y*a.Y + a.Y*b.Y + b.Y*b.Y)
		xy += k * (2*a.X*a.Y + a.X*b.Y + b.X*a.Y + 2*b.X*b.Y) / 2
	}
	if r.Signed() < 0 {
		xx, xy, yy = -xx, -xy, -yy
	}
	return unit.Angle(math.Atan2(2*xy, xx-yy) / 2)
}

// evenly gives n places at equal distances around the ring.
func (r Ring) evenly(n int) Ring {
	around := float64(r.Perimeter())
	out := make(Ring, 0, n)
	gone, k := 0.0, 0
	for i := range r {
		a, b := r[i], r[r.next(i)]
		length := b.minus(a).norm()
		for ; k < n && float64(k)*around <= (gone+length)*float64(n); k++ {
			f := 0.0
			if length > 0 {
				f = min(1, max(0, (float64(k)*around/float64(n)-gone)/length))
			}
			out = append(out, a.toward(b, f))
		}
		gone += length
	}
	for len(out) < n {
		out = append(out, r[0])
	}
	return out
}

// Apart gives how far one outline lies from another, at most and on average,
// going by places evenly around it.
func (r Ring) Apart(from Border) (most, mean unit.Length) {
	const places = 512
	if len(r) == 0 {
		return 0, 0
	}
	for _, p := range r.evenly(places) {
		q, _ := from.Nearest(p)
		d := unit.Length(p.minus(q).norm())
		most, mean = max(most, d), mean+d/places
	}
	return most, mean
}
