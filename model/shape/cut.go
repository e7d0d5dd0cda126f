package shape

import "slices"

// Interval is a stretch of a line, in metres; Lo is at most Hi.
type Interval struct{ Lo, Hi float64 }

// Long gives the length of the interval in metres.
func (i Interval) Long() float64 { return i.Hi - i.Lo }

// CutAtX gives the stretches of the upright line at x that lie inside the
// ring, as values of y, lowest first.
func (r Ring) CutAtX(x float64) []Interval {
	var at []float64
	for i, a := range r {
		b := r[r.next(i)]
		if (a.X > x) != (b.X > x) {
			at = append(at, a.Y+(x-a.X)/(b.X-a.X)*(b.Y-a.Y))
		}
	}
	return intervals(at)
}

// CutAtY gives the stretches of the level line at y that lie inside the ring,
// as values of x, lowest first.
func (r Ring) CutAtY(y float64) []Interval {
	var at []float64
	for i, a := range r {
		b := r[r.next(i)]
		if (a.Y > y) != (b.Y > y) {
			at = append(at, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
		}
	}
	return intervals(at)
}

// intervals pairs the places where a line crosses an outline. A closed
// outline is crossed an even number of times.
func intervals(at []float64) []Interval {
	slices.Sort(at)
	var in []Interval
	for i := 0; i+1 < len(at); i += 2 {
		in = append(in, Interval{at[i], at[i+1]})
	}
	return in
}
