package shape

import "meniscus/model/unit"

// StationWeights gives the weight of each of n equally spaced widths, in units
// of the spacing, so that the weighted sum is the area. An odd number follows
// Simpson's rule; an even number ends with Simpson's 3/8 rule over the last
// three spaces; two follow the trapezoid rule. From three on, all are exact
// for widths that run as a cubic. Fewer than two have no area.
func StationWeights(n int) []float64 {
	if n < 1 {
		return nil
	}
	w := make([]float64, n)
	if n == 1 {
		return w
	}
	if n == 2 {
		w[0], w[1] = 0.5, 0.5
		return w
	}
	even := n%2 == 0
	end := n - 1
	if even {
		end = n - 4
		for i, k := range [4]float64{3.0 / 8, 9.0 / 8, 9.0 / 8, 3.0 / 8} {
			w[n-4+i] += k
		}
	}
	for i := 0; i < end; i += 2 {
		w[i] += 1.0 / 3
		w[i+1] += 4.0 / 3
		w[i+2] += 1.0 / 3
	}
	return w
}

// StationArea gives the area of a piece from its widths at equal spacing.
func StationArea(widths []unit.Length, spacing unit.Length) unit.Area {
	sum := unit.Length(0)
	for i, w := range StationWeights(len(widths)) {
		sum += widths[i].Times(w)
	}
	return sum.By(spacing)
}

// leastWidth is what a width between two stations is not let fall below, in
// metres, where the curve through them would dip to nothing.
const leastWidth = 1e-5

// StationRing gives the outline of a piece from its widths at equal spacing
// along x, centred on the middle of its bounding box. Its edge follows the
// parabolas (and at the end of an even number the cubic) that StationArea
// integrates, cut to chords so fine that the areas agree to a few parts in ten
// thousand or better. With straight the lower edge runs along x and the upper
// wanders; otherwise both wander alike.
func StationRing(widths []unit.Length, spacing unit.Length, straight bool) Ring {
	if len(widths) < 2 {
		return nil
	}
	w := stationCurve(widths)
	step := float64(spacing) * float64(len(widths)-1) / float64(len(w)-1)
	left := -float64(spacing) * float64(len(widths)-1) / 2
	r := make(Ring, 0, 2*len(w))
	if straight {
		r = append(r, Point{left, 0}, Point{-left, 0})
	} else {
		for i, v := range w {
			r = append(r, Point{left + step*float64(i), -v / 2})
		}
	}
	for i := len(w) - 1; i >= 0; i-- {
		v := w[i]
		if !straight {
			v /= 2
		}
		r = append(r, Point{left + step*float64(i), v})
	}
	r, _ = r.tidy()
	lo, hi := r.Bounds()
	return r.Moved(0, -(lo.Y+hi.Y)/2)
}

// stationCurve gives widths in metres at equal steps, each space between
// stations cut into the same number of them.
func stationCurve(widths []unit.Length) []float64 {
	n := len(widths)
	if n == 2 {
		return []float64{float64(widths[0]), float64(widths[1])}
	}
	fine := max(4, min(32, 2048/n))
	w := make([]float64, 0, (n-1)*fine+1)
	for i := range n - 1 {
		from, count := i-i%2, 3
		if n%2 == 0 && i >= n-4 {
			from, count = n-4, 4
		}
		floor := min(float64(widths[i]), float64(widths[i+1]), leastWidth)
		for k := range fine {
			x := float64(i-from) + float64(k)/float64(fine)
			v := float64(widths[i])
			if k > 0 {
				v = max(floor, lagrange(widths[from:from+count], x))
			}
			w = append(w, v)
		}
	}
	return append(w, float64(widths[n-1]))
}

// lagrange gives the value at x of the polynomial through the points (0, y0),
// (1, y1) and so on.
func lagrange(y []unit.Length, x float64) float64 {
	sum := 0.0
	for i := range y {
		term := float64(y[i])
		for j := range y {
			if j != i {
				term *= (x - float64(j)) / float64(i-j)
			}
		}
		sum += term
	}
	return sum
}
