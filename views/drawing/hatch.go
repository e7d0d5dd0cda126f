package drawing

import (
	"image/color"
	"math"
	"sort"
)

// Pattern is a way of hatching.
type Pattern uint8

// The patterns: slanted lines for what is cut (ISO 128-50), wandering lines
// for wood seen along its grain, parts of growth rings for its end.
const (
	Slanted Pattern = iota
	LongGrain
	EndGrain
)

// Hatching is how rings are hatched.
type Hatching struct {
	Name    string
	Pattern Pattern
	Spacing float64 // dp
	Angle   float64 // of the lines on screen, radians clockwise from x
	Anchor  Pt      // a place that the lines keep to; the pith of end grain
	Seed    uint32  // sets the wandering of the grain apart from other pieces'
	Width   float64 // dp
	Colour  color.NRGBA
}

// Hatch draws hatching inside rings; a ring inside another is a hole.
func Hatch(s Surface, h Hatching, rings ...[]Pt) {
	visible := s.Bounds().Grown(h.Spacing)
	if h.Spacing <= 0 || !anyVisible(visible, rings) {
		return
	}
	var paths []Path
	if h.Pattern == EndGrain {
		paths = growthRings(h, visible, rings)
	} else {
		paths = ruled(h, visible, rings)
	}
	if len(paths) > 0 {
		s.Stroke(Pen{Name: h.Name, Width: h.Width, Colour: h.Colour}, paths...)
	}
}

func anyVisible(visible Box, rings [][]Pt) bool {
	for _, r := range rings {
		if len(r) > 2 && visible.Overlaps(BoxOf(r...)) {
			return true
		}
	}
	return false
}

// maxLines bounds the work of one hatching, whatever is asked.
const maxLines = 2000

// ruled hatches with lines along one direction. Long grain is ruled in axes
// that are bent along it, so that cutting at the outline stays exact.
func ruled(h Hatching, visible Box, rings [][]Pt) []Path {
	sin, cos := math.Sincos(h.Angle)
	bend := func(float64) float64 { return 0 }
	if h.Pattern == LongGrain {
		p := 6.28 * chance(h.Seed, 0)
		bend = func(u float64) float64 {
			return h.Spacing * (0.55*math.Sin(u/37+p) + 0.3*math.Sin(u/91-2*p))
		}
	}
	to := func(p Pt) Pt {
		x, y := p.X-h.Anchor.X, p.Y-h.Anchor.Y
		u := x*cos + y*sin
		return Pt{u, y*cos - x*sin - bend(u)}
	}
	from := func(u, v float64) Pt {
		v += bend(u)
		return Pt{h.Anchor.X + u*cos - v*sin, h.Anchor.Y + u*sin + v*cos}
	}
	place := func(k int) float64 { return float64(k) * h.Spacing }
	if h.Pattern == LongGrain {
		place = func(k int) float64 { return (float64(k) + 0.7*chance(h.Seed, k)) * h.Spacing }
	}
	cuts := map[int][]float64{}
	for _, ring := range rings {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			steps := 1
			if h.Pattern == LongGrain {
				steps = min(max(int(a.To(b)/6), 1), 400)
			}
			p := to(a)
			for n := 1; n <= steps; n++ {
				q := to(a.Lerp(b, float64(n)/float64(steps)))
				cross(cuts, p, q, h.Spacing, place)
				p = q
			}
		}
	}
	reach := BoxOf(to(visible.Min), to(visible.Max), to(Pt{visible.Min.X, visible.Max.Y}), to(Pt{visible.Max.X, visible.Min.Y}))
	var paths []Path
	for _, k := range keys(cuts) {
		us := cuts[k]
		v := place(k)
		if v < reach.Min.Y-h.Spacing || v > reach.Max.Y+h.Spacing {
			continue
		}
		sort.Float64s(us)
		for i := 0; i+1 < len(us); i += 2 {
			a, b := max(us[i], reach.Min.X), min(us[i+1], reach.Max.X)
			if h.Pattern == Slanted {
				if b > a {
					paths = append(paths, Line(from(a, v), from(b, v)))
				}
				continue
			}
			paths = append(paths, strands(h, k, a, b, v, from)...)
		}
	}
	return paths
}

// cross notes where the edge p to q meets the ruled lines.
func cross(cuts map[int][]float64, p, q Pt, spacing float64, place func(int) float64) {
	if p.Y > q.Y {
		p, q = q, p
	}
	first, last := int(math.Floor(p.Y/spacing))-1, int(math.Ceil(q.Y/spacing))
	if last-first > maxLines {
		return
	}
	for k := first; k <= last; k++ {
		if v := place(k); v >= p.Y && v < q.Y {
			cuts[k] = append(cuts[k], p.X+(v-p.Y)/(q.Y-p.Y)*(q.X-p.X))
		}
	}
}

// strands breaks one line of grain into long strokes with small gaps, as a
// hand would draw it.
func strands(h Hatching, k int, a, b, v float64, from func(u, v float64) Pt) []Path {
	var paths []Path
	const step = 7.0
	n := int(math.Floor(a / 160))
	for u := a; u < b; n++ {
		gapAt := (float64(n) + 0.15 + 0.8*chance(h.Seed+77, k*31+n)) * 160
		gap := 6 + 26*chance(h.Seed+5, k*17+n)
		end := min(b, gapAt)
		if end-u > 2 {
			pts := []Pt{from(u, v)}
			for t := u + step; t < end-step/2; t += step {
				pts = append(pts, from(t, v))
			}
			paths = append(paths, Path{Points: append(pts, from(end, v))})
		}
		u = max(u, gapAt+gap)
	}
	return paths
}

// growthRings hatches with parts of circles around the pith at the anchor.
func growthRings(h Hatching, visible Box, rings [][]Pt) []Path {
	var box Box
	for i, r := range rings {
		if i == 0 {
			box = BoxOf(r...)
		} else {
			box = box.And(BoxOf(r...))
		}
	}
	var paths []Path
	radius := func(k int) float64 { return (float64(k) + 0.55*chance(h.Seed, k)) * h.Spacing }
	near, far := reach(box, h.Anchor)
	first, last := int(near/h.Spacing)-1, int(far/h.Spacing)+1
	for k := max(first, 1); k <= min(last, max(first, 1)+maxLines); k++ {
		r := radius(k)
		paths = append(paths, arcs(h.Anchor, r, visible, rings)...)
	}
	return paths
}

// arcs gives the parts of a circle inside rings.
func arcs(c Pt, r float64, visible Box, rings [][]Pt) []Path {
	var at []float64
	for _, ring := range rings {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			dx, dy, fx, fy := b.X-a.X, b.Y-a.Y, a.X-c.X, a.Y-c.Y
			qa, qb, qc := dx*dx+dy*dy, 2*(fx*dx+fy*dy), fx*fx+fy*fy-r*r
			disc := qb*qb - 4*qa*qc
			if disc <= 0 || qa == 0 {
				continue
			}
			root := math.Sqrt(disc)
			for _, t := range [2]float64{(-qb - root) / (2 * qa), (-qb + root) / (2 * qa)} {
				if t >= 0 && t < 1 {
					at = append(at, math.Atan2(fy+t*dy, fx+t*dx))
				}
			}
		}
	}
	if len(at) == 0 {
		return nil
	}
	sort.Float64s(at)
	at = append(at, at[0]+2*math.Pi)
	point := func(t float64) Pt {
		sin, cos := math.Sincos(t)
		return Pt{c.X + r*cos, c.Y + r*sin}
	}
	var paths []Path
	for i := 0; i+1 < len(at); i++ {
		a, b := at[i], at[i+1]
		if (b-a)*r < 1.5 || !inside(point((a+b)/2), rings...) {
			continue
		}
		n := min(max(int((b-a)*r/5), 1), 200)
		pts := make([]Pt, 0, n+1)
		for k := 0; k <= n; k++ {
			pts = append(pts, point(a+(b-a)*float64(k)/float64(n)))
		}
		if visible.Overlaps(BoxOf(pts...).Grown(0.1)) {
			paths = append(paths, Path{Points: pts})
		}
	}
	return paths
}

// reach gives the least and greatest distance of a box from a point.
func reach(b Box, p Pt) (near, far float64) {
	dx := max(b.Min.X-p.X, 0, p.X-b.Max.X)
	dy := max(b.Min.Y-p.Y, 0, p.Y-b.Max.Y)
	for _, c := range b.Ring() {
		far = max(far, c.To(p))
	}
	return math.Hypot(dx, dy), far
}

// chance gives a number from 0 to 1 that looks random but hangs only on its
// arguments (the finaliser of MurmurHash3).
func chance(seed uint32, k int) float64 {
	x := seed*0x9e3779b9 + uint32(k)*0x85ebca6b + 0x27d4eb2f
	x ^= x >> 16
	x *= 0x85ebca6b
	x ^= x >> 13
	x *= 0xc2b2ae35
	x ^= x >> 16
	return float64(x) / (1 << 32)
}

// seedOf gives a number for a name (FNV-1a).
func seedOf(name string) uint32 {
	h := uint32(2166136261)
	for i := 0; i < len(name); i++ {
		h = (h ^ uint32(name[i])) * 16777619
	}
	return h
}

func keys(m map[int][]float64) []int {
	out := make([]int, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	sort.Ints(out)
	return out
}
