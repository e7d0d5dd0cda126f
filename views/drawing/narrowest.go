package drawing

import "math"

// narrowest gives the line along (dx, dy), one of the four sides, on which a
// face is nearest to the wall around it; of several alike, that nearest the
// middle of the face.
func narrowest(face, wall []Pt, dx, dy float64) (from, to Pt, ok bool) {
	const alike = 0.25 // dp
	mid := centroid(face)
	best, aside := math.Inf(1), math.Inf(1)
	try := func(a, b Pt) {
		d := (b.X-a.X)*dx + (b.Y-a.Y)*dy
		off := math.Abs((a.X-mid.X)*dy) + math.Abs((a.Y-mid.Y)*dx)
		if d < best-alike || d < best+alike && off < aside {
			best, aside, from, to, ok = math.Min(best, d), off, a, b, true
		}
	}
	for _, q := range dense(face) {
		if b, hit := ray(q, dx, dy, wall, false); hit {
			if a, inner := ray(q, dx, dy, face, true); inner {
				q = a // the last of the face on this line
			}
			try(q, b)
		}
	}
	for _, q := range wall {
		if a, hit := ray(q, -dx, -dy, face, false); hit {
			try(a, q)
		}
	}
	return from, to, ok
}

// dense adds points along the sides of a coarse ring.
func dense(ring []Pt) []Pt {
	n := max(1, 96/len(ring))
	if n%2 == 1 {
		n++
	}
	out := make([]Pt, 0, len(ring)*n)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		for k := 0; k < n; k++ {
			out = append(out, a.Lerp(b, float64(k)/float64(n)))
		}
	}
	return out
}

// ray gives the first point of a ring met from p along (dx, dy), one of the
// four sides, or the last one.
func ray(p Pt, dx, dy float64, ring []Pt, last bool) (Pt, bool) {
	best, found := 0.0, false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		// Offsets across the ray, and distances along it.
		ua, ub := (a.X-p.X)*dy+(a.Y-p.Y)*dx, (b.X-p.X)*dy+(b.Y-p.Y)*dx
		if (ua > 0) == (ub > 0) {
			continue
		}
		ta, tb := (a.X-p.X)*dx+(a.Y-p.Y)*dy, (b.X-p.X)*dx+(b.Y-p.Y)*dy
		t := ta + (tb-ta)*ua/(ua-ub)
		if t > 1e-9 && (!found || (t > best) == last) {
			best, found = t, true
		}
	}
	return p.Add(dx*best, dy*best), found
}
