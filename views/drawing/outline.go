package drawing

import "math"

// miterLimit is how far a corner may reach, in line widths, before it is cut.
const miterLimit = 2.0

// outline calls add with the closed outlines of a line of a width along a
// path: one for an open path, two for a closed one.
func outline(points []Pt, closed bool, width float64, add func([]Pt)) {
	p := distinct(points, closed)
	n := len(p)
	if n < 2 {
		return
	}
	if closed && n < 3 {
		closed = false
	}
	half := width / 2
	left, right := make([]Pt, 0, n+4), make([]Pt, 0, n+4)
	for i := range p {
		var in, out Pt // unit normals of the lines before and after
		hasIn, hasOut := closed || i > 0, closed || i < n-1
		if hasIn {
			in = normal(p[(i+n-1)%n], p[i])
		}
		if hasOut {
			out = normal(p[i], p[(i+1)%n])
		}
		switch {
		case !hasIn:
			left, right = append(left, p[i].Add(out.X*half, out.Y*half)), append(right, p[i].Add(-out.X*half, -out.Y*half))
		case !hasOut:
			left, right = append(left, p[i].Add(in.X*half, in.Y*half)), append(right, p[i].Add(-in.X*half, -in.Y*half))
		default:
			left, right = corner(left, right, p[i], in, out, half)
		}
	}
	if closed {
		add(left)
		reverse(right)
		add(right)
		return
	}
	reverse(right)
	add(append(left, right...))
}

// corner adds the two sides of a line at a corner: mitred, or cut where the
// corner is sharp.
func corner(left, right []Pt, p, in, out Pt, half float64) ([]Pt, []Pt) {
	d := 1 + in.X*out.X + in.Y*out.Y // twice the square of cos of half the turn
	if d > 2/(miterLimit*miterLimit) {
		m := Pt{(in.X + out.X) / d * half, (in.Y + out.Y) / d * half}
		return append(left, p.Add(m.X, m.Y)), append(right, p.Add(-m.X, -m.Y))
	}
	return append(left, p.Add(in.X*half, in.Y*half), p.Add(out.X*half, out.Y*half)),
		append(right, p.Add(-in.X*half, -in.Y*half), p.Add(-out.X*half, -out.Y*half))
}

func normal(a, b Pt) Pt {
	l := a.To(b)
	return Pt{(b.Y - a.Y) / l, (a.X - b.X) / l}
}

func reverse(p []Pt) {
	for i, j := 0, len(p)-1; i < j; i, j = i+1, j-1 {
		p[i], p[j] = p[j], p[i]
	}
}

// distinct drops points that repeat the one before.
func distinct(points []Pt, closed bool) []Pt {
	const same = 1e-6
	out := make([]Pt, 0, len(points))
	for _, p := range points {
		if len(out) == 0 || p.To(out[len(out)-1]) > same {
			out = append(out, p)
		}
	}
	for closed && len(out) > 1 && out[0].To(out[len(out)-1]) <= same {
		out = out[:len(out)-1]
	}
	return out
}

// dashes calls add with the drawn parts of a path that lie within a box. With
// no pattern these are the visible runs.
func dashes(path Path, pattern []float64, visible Box, add func(points []Pt, closed bool)) {
	points := path.Points
	if len(pattern) == 0 && visible.Holds(BoxOf(points...)) {
		add(points, path.Closed)
		return
	}
	if path.Closed && len(points) > 0 {
		points = append(append(make([]Pt, 0, len(points)+1), points...), points[0])
	}
	total := 0.0
	for _, d := range pattern {
		total += d
	}
	if total <= 0 {
		runs(points, visible, func(run []Pt, _ float64) { add(run, false) })
		return
	}
	runs(points, visible, func(run []Pt, from float64) {
		at, k := math.Mod(from, total), 0
		for at >= pattern[k] {
			at -= pattern[k]
			k = (k + 1) % len(pattern)
		}
		rest := pattern[k] - at
		dash := []Pt{run[0]}
		for i := 1; i < len(run); i++ {
			a, b := run[i-1], run[i]
			length, done := a.To(b), 0.0
			for length-done > rest {
				done += rest
				p := a.Lerp(b, done/length)
				if k%2 == 0 {
					add(append(dash, p), false)
				}
				dash = []Pt{p}
				k = (k + 1) % len(pattern)
				rest = math.Max(pattern[k], 1e-3)
			}
			rest -= length - done
			if k%2 == 0 {
				dash = append(dash, b)
			}
		}
		if k%2 == 0 && len(dash) > 1 {
			add(dash, false)
		}
	})
}

// runs calls add with the parts of a polyline in a box and how far along it
// each begins.
func runs(points []Pt, visible Box, add func(run []Pt, from float64)) {
	var run []Pt
	from, along := 0.0, 0.0
	flush := func() {
		if len(run) > 1 {
			add(run, from)
		}
		run = nil
	}
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		length := a.To(b)
		t0, t1, ok := visible.clip(a, b)
		if !ok {
			flush()
			along += length
			continue
		}
		if len(run) == 0 || t0 > 0 {
			flush()
			run, from = []Pt{a.Lerp(b, t0)}, along+t0*length
		}
		run = append(run, a.Lerp(b, t1))
		if t1 < 1 {
			flush()
		}
		along += length
	}
	flush()
}
