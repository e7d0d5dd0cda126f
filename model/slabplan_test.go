package model

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// framed is a tray of 600 x 300 mm whose rim frames a slab in a photo.
func framed() (Project, *Slab) {
	p := tray(600, 300, 60, 40)
	p.AddSlab("")
	return p, &p.Slabs[0]
}

var rimCorners = mm2(0, 0, 600, 0, 600, 300, 0, 300)

// TestSlabByMoldCorners straightens by the corners of the rim, from every
// corner, either way round, tilted and straight: the outline must come out as
// it is, not mirrored, in the slab's axes.
func TestSlabByMoldCorners(t *testing.T) {
	wood := mm2(80, 60, 500, 60, 500, 110, 200, 130, 180, 240, 80, 240)
	knot := mm2(110, 90, 160, 90, 160, 140, 110, 140)
	want := float64(wood.Area() - knot.Area())
	for _, tilt := range []float64{0, 0.35, math.Pi / 4} {
		for _, towards := range []float64{0.3, 1.9, 4} {
			for first := range 4 {
				for _, way := range []int{1, 3} {
					p, s := framed()
					c := overhead(shape.Point{X: 0.3, Y: 0.15}, 1.1, tilt, towards)
					var places shape.Ring
					for k := range 4 {
						places = append(places, rimCorners[(first+way*k)%4])
					}
					c.shoot(&s.Upper, 0, places, wood, knot)
					s.Upper.Rise = mm(0)
					plan := Make(p)
					f := &plan.Slabs[0].Upper
					if !f.Solved || len(f.Wrong) > 0 {
						t.Fatalf("tilt %g towards %g: %+v", tilt, towards, f.Wrong)
					}
					if a := float64(f.Area.Value); math.Abs(a/want-1) > 1e-9 {
						t.Fatalf("tilt %g towards %g from corner %d by %d: area %g, want %g", tilt, towards, first+1, way, a, want)
					}
					if len(f.Region) != 2 || f.Region[0].Signed() < 0 || f.Region[1].Signed() > 0 {
						t.Fatalf("the wood runs counterclockwise and the hole clockwise: %v", f.Region)
					}
					if lo, hi := f.Region.Bounds(); math.Abs(lo.X+hi.X) > 1e-12 || math.Abs(lo.Y+hi.Y) > 1e-12 {
						t.Fatalf("the origin is not in the middle: %v %v", lo, hi)
					}
					// As the mold has it but for half a turn: the corner's turn from the
					// first side to the second is the same, so that it is not mirrored.
					near := func(flip float64) bool {
						for i, q := range f.Region[0] {
							if math.Hypot(q.X-flip*(wood[i].X-0.29), q.Y-flip*(wood[i].Y-0.15)) > 1e-9 {
								return false
							}
						}
						return true
					}
					if !near(1) && !near(-1) {
						t.Fatalf("tilt %g towards %g from corner %d by %d: %v", tilt, towards, first+1, way, f.Region[0])
					}
					for _, q := range wood {
						pixel := c.shows(q, 0)
						back := f.Plane.Pixel(f.Plane.At(pixel))
						if math.Hypot(back.X-pixel.X, back.Y-pixel.Y) > 1e-6 {
							t.Fatalf("a pixel comes back at %v, not %v", back, pixel)
						}
					}
				}
			}
		}
	}
}

// TestSlabReferences holds each kind of reference to what it needs.
func TestSlabReferences(t *testing.T) {
	wood := mm2(10, 10, 190, 10, 190, 90, 10, 90)
	c := overhead(shape.Point{X: 0.1, Y: 0.05}, 0.8, 0.3, 1)
	card := mm2(0, 0, 200, 0, 200, 100, 0, 100)
	for _, v := range []struct {
		name  string
		make  func(p *Project, s *Slab)
		field string // of what is wrong; none means that it is straightened
		say   string
	}{
		{"a card", func(p *Project, s *Slab) {
			s.Upper.By, s.Upper.Long, s.Upper.Broad = ByCard, mm(200), mm(100)
		}, "", ""},
		{"a card without its sides", func(p *Project, s *Slab) { s.Upper.By = ByCard }, "/long", "measure the side of the card from its first corner to its second"},
		{"points", func(p *Project, s *Slab) {
			s.Upper.By = ByPoints
			for i, q := range card {
				s.Upper.Marks[i].At, s.Upper.Marks[i].Up = mm(q.X*1000), mm(q.Y*1000)
			}
		}, "", ""},
		{"points not measured", func(p *Project, s *Slab) { s.Upper.By = ByPoints }, "/marks/k1/at", "measure where mark 1 lies; 0 is a measure too"},
		{"three points", func(p *Project, s *Slab) {
			s.Upper.By = ByPoints
			s.Upper.Marks = s.Upper.Marks[:3]
			for i := range s.Upper.Marks {
				s.Upper.Marks[i].At, s.Upper.Marks[i].Up = mm(card[i].X*1000), mm(card[i].Y*1000)
			}
		}, "/marks", "a photo is straightened by four marks or more, and there are 3; touch 1 more"},
		{"the corners of a mold", func(p *Project, s *Slab) {
			s.Upper.By = ByCorners
			p.Mold.Length, p.Mold.Width = mm(200), mm(100)
		}, "", ""},
		{"the corners of a mold with rounded corners", func(p *Project, s *Slab) {
			s.Upper.By = ByCorners
			p.Mold.Length, p.Mold.Width, p.Mold.Corner = mm(200), mm(100), mm(20)
		}, "", ""},
		{"the corners of a mold measured at its floor", func(p *Project, s *Slab) {
			s.Upper.By = ByCorners
			p.Mold.At, p.Mold.Length, p.Mold.Width = AtFloor, mm(180), mm(80)
			p.Mold.Draft = Lean{Kind: LeanSizes, Length: mm(200), Width: mm(100)}
		}, "", ""},
		{"the corners of a round mold", func(p *Project, s *Slab) {
			s.Upper.By = ByCorners
			p.Mold.Kind, p.Mold.Diameter = MoldRound, mm(300)
		}, "/by", "only a rectangular mold has four corners to go by; lay a card in the plane of the wood (rectangle), or measure four points (points)"},
		{"a corner short", func(p *Project, s *Slab) {
			s.Upper.By, s.Upper.Long, s.Upper.Broad = ByCard, mm(200), mm(100)
			s.Upper.Marks = s.Upper.Marks[:3]
		}, "/marks", "touch the fourth corner"},
		{"no corner and no side", func(p *Project, s *Slab) {
			s.Upper.By, s.Upper.Marks = ByCard, nil
		}, "/marks", "touch 4 more corners"},
		{"all corners and no side", func(p *Project, s *Slab) { s.Upper.By = ByCard }, "/long", "measure the side of the card"},
		{"corners that cross", func(p *Project, s *Slab) {
			s.Upper.By, s.Upper.Long, s.Upper.Broad = ByCard, mm(200), mm(100)
			s.Upper.Marks[2], s.Upper.Marks[3] = s.Upper.Marks[3], s.Upper.Marks[2]
		}, "/marks/k3", "swap marks 3 and 4"},
	} {
		p, s := framed()
		c.shoot(&s.Upper, 0, card, wood)
		s.Upper.Rise = mm(0)
		v.make(&p, s)
		plan := Make(p)
		f := &plan.Slabs[0].Upper
		if v.field == "" {
			if !f.Solved || math.Abs(float64(f.Area.Value)/float64(wood.Area())-1) > 1e-9 {
				t.Errorf("%s: %v, area %v, want %v", v.name, f.Wrong, f.Area.Value, wood.Area())
			}
			continue
		}
		if f.Solved || len(f.Wrong) != 1 || f.Wrong[0].Field != "slabs/"+s.ID+"/upper"+v.field || !strings.Contains(f.Wrong[0].Message, v.say) {
			t.Errorf("%s: %+v, want %s: %s", v.name, f.Wrong, v.field, v.say)
		}
		if g := finding(plan, "slab.marks"); g.Field != "slabs/"+s.ID+"/upper"+v.field || g.Level != Check {
			t.Errorf("%s: finding %+v", v.name, g)
		}
	}
}

// TestSlabRise traces a face above the marks and one below them.
func TestSlabRise(t *testing.T) {
	wood := mm2(100, 60, 500, 60, 500, 240, 100, 240)
	for _, v := range []struct {
		name         string
		rise, tilt   float64
		camera       float64 // as measured, m
		within       float64
		costs, costd float64
	}{
		{"tilted, the perspective tells the lens", 0.042, 0.5, 0, 1e-6, 0.0925, 0.02},
		{"straight down, the lens measured", 0.042, 0, 1.1, 1e-9, 0.0810, 1e-3},
		{"straight down, below the rim", -0.04, 0, 1.1, 1e-9, -0.0689, 1e-3},
		{"straight down, by a usual lens", 0.042, 0, 0, 0.03, 0.081, 0.03},
	} {
		p, s := framed()
		c := overhead(shape.Point{X: 0.3, Y: 0.15}, 1.1, v.tilt, 1)
		c.shoot(&s.Upper, v.rise, rimCorners, wood)
		s.Upper.Rise = mm(v.rise * 1000)
		if v.camera > 0 {
			s.Upper.Camera = mm(v.camera * 1000)
		}
		f := Make(p).Slabs[0].Upper
		if off := float64(f.Area.Value)/float64(wood.Area()) - 1; math.Abs(off) > v.within {
			t.Errorf("%s: area off by %g", v.name, off)
		} else if math.Abs(off) > 3*float64(f.Area.Sigma)/float64(f.Area.Value) {
			t.Errorf("%s: off by %g and said to be within %g", v.name, off, float64(f.Area.Sigma)/float64(f.Area.Value))
		}
		if math.Abs(f.RiseCosts-v.costs) > v.costd {
			t.Errorf("%s: ignoring the rise costs %g, want %g", v.name, f.RiseCosts, v.costs)
		}
		ignored := p.Clone()
		ignored.Slabs[0].Upper.Rise = mm(0)
		flat := Make(ignored).Slabs[0].Upper
		if got := float64(flat.Area.Value)/float64(f.Area.Value) - 1; math.Abs(got-f.RiseCosts) > 1e-9 {
			t.Errorf("%s: ignored, the area is off by %g; it said %g", v.name, got, f.RiseCosts)
		}
	}
}

// TestUnderFace turns a slab over whichever way and shoots its other side: it
// must be laid below the upper face as it lies in the wood, and its lean told.
func TestUnderFace(t *testing.T) {
	upper := wandering(400, 0.5, 0.2, 3)
	// The live edge leans out by up to 12 mm on one long side.
	under := make(shape.Ring, len(upper))
	for i, q := range upper {
		lean := 0.0
		if q.Y > 0 {
			lean = 0.012 * math.Sin(math.Pi*(q.X+0.25)/0.5)
		}
		under[i] = shape.Point{X: q.X, Y: q.Y + max(0, lean)}
	}
	hole := shape.EllipseRing(0.03, 0.02).Moved(0.12, 0.01)
	for _, turn := range []float64{0, 0.4, 1.6, math.Pi, 4.4} {
		p, s := framed()
		s.Thickness = mm(40)
		c := overhead(shape.Point{X: 0.3, Y: 0.15}, 1.1, 0.3, 1)
		c.shoot(&s.Upper, 0, rimCorners, upper.Moved(0.3, 0.15), hole.Moved(0.3, 0.15))
		over := func(r shape.Ring) shape.Ring { // turned over about a line, and then about
			return r.Scaled(-1, 1).Turned(unit.Angle(turn)).Moved(0.31, 0.14)
		}
		d := overhead(shape.Point{X: 0.3, Y: 0.15}, 1, 0.2, 2)
		d.shoot(&s.Under, 0, rimCorners, over(under), over(hole))
		s.Upper.Rise, s.Under.Rise = mm(0), mm(0)
		s.Under.By = ByCorners
		plan := Make(p)
		u, f := &plan.Slabs[0].Under, &plan.Slabs[0].Upper
		if !u.Solved || len(u.Region) != 2 {
			t.Fatalf("turned by %g: %+v", turn, u.Wrong)
		}
		if a := float64(u.Area.Value); math.Abs(a/float64(under.Area()-hole.Area())-1) > 1e-9 {
			t.Errorf("turned by %g: the under face was stretched: %g, want %g", turn, a, float64(under.Area()-hole.Area()))
		}
		// The hole goes straight through, so that it shows how well the faces lie.
		a, b := f.Region[1].Centroid(), u.Region[1].Centroid()
		if d := math.Hypot(a.X-b.X, a.Y-b.Y); d > 0.006 {
			t.Errorf("turned by %g: the hole lies %g mm away", turn, 1000*d)
		}
		if most := float64(u.LeanMost); most < 0.006 || most > 0.014 {
			t.Errorf("turned by %g: the edge leans by %g mm at most, of 12", turn, 1000*most)
		}
		if mean := float64(u.LeanMean); mean <= 0 || mean > 0.006 {
			t.Errorf("turned by %g: the edge leans by %g mm on average", turn, 1000*mean)
		}
	}
	// Without lean the faces agree to the last digit, and a face that was not
	// shot is a copy.
	p, s := framed()
	c := overhead(shape.Point{X: 0.3, Y: 0.15}, 1.1, 0.3, 1)
	c.shoot(&s.Upper, 0, rimCorners, upper.Moved(0.3, 0.15))
	c.shoot(&s.Under, 0, rimCorners, upper.Scaled(-1, 1).Turned(2).Moved(0.3, 0.15))
	s.Upper.Rise, s.Under.Rise = mm(0), mm(0)
	plan := Make(p)
	if u := &plan.Slabs[0].Under; u.LeanMost > 1e-6 || !u.Shot {
		t.Errorf("the same outline from below leans by %g m", float64(u.LeanMost))
	}
	s.Under = Tracing{}
	plan = Make(p)
	if u := &plan.Slabs[0].Under; u.Shot || !u.Solved || u.Area != plan.Slabs[0].Upper.Area || len(u.Region) != 1 {
		t.Errorf("a face that was not shot is not a copy: %+v", u.Shot)
	}
}

// TestSlabAreaAgainstMonteCarlo draws all that a traced area hangs on, the
// touches of marks and outline, the mold's two sizes, the rise and the height
// of the lens, and plans each time anew (JCGM 101:2008): the standard
// uncertainty that the plan gives must come out within 10 %.
func TestSlabAreaAgainstMonteCarlo(t *testing.T) {
	const touch, draws = 4.0, 3000
	random := rand.New(rand.NewPCG(21, 22))
	drawn := func(half float64) float64 { return half * (2*random.Float64() - 1) }
	p, s := framed()
	c := overhead(shape.Point{X: 0.3, Y: 0.15}, 1.1, 0.05, 1)
	wood := shape.EllipseRing(0.42, 0.16)
	c.shoot(&s.Upper, 0.04, rimCorners, wood.Moved(0.3, 0.15))
	s.Upper.Touch, s.Upper.Rise, s.Upper.Camera = touch, mm(40), mm(c.at[2]*1000)
	f := Make(p).Slabs[0].Upper
	if len(f.Wrong) > 0 || math.Abs(float64(f.Area.Value)/float64(wood.Area())-1) > 1e-6 {
		t.Fatalf("%+v", f)
	}
	rule := float64(p.HalfWidth(unit.Rule))
	lens := math.Hypot(rule, math.Hypot(float64(lensInto), lensShare*c.at[2]))
	pixels := s.Upper.Rings[0].Points
	around := float64(pixels.Perimeter())
	var areas []float64
	for range draws {
		q := p.Clone()
		u := &q.Slabs[0].Upper
		for i := range u.Marks {
			u.Marks[i].X, u.Marks[i].Y = u.Marks[i].X+drawn(touch), u.Marks[i].Y+drawn(touch)
		}
		q.Mold.Length.Value += unit.Length(drawn(rule))
		q.Mold.Width.Value += unit.Length(drawn(rule))
		u.Rise.Value += unit.Length(drawn(rule))
		u.Camera.Value += unit.Length(drawn(lens))
		u.Rings[0].Points = slices.Clone(pixels)
		run, off := math.Inf(1), shape.Point{}
		for i, k := range pixels {
			if run >= around/16*(1-1e-9) {
				run, off = 0, shape.Point{X: drawn(touch), Y: drawn(touch)}
			}
			u.Rings[0].Points[i] = shape.Point{X: k.X + off.X, Y: k.Y + off.Y}
			n := pixels[(i+1)%len(pixels)]
			run += math.Hypot(n.X-k.X, n.Y-k.Y)
		}
		m := &maker{stack: compile(&q)}
		m.slabs()
		if g := &m.plan.Slabs[0].Upper; len(g.Wrong) == 0 { // a drawn outline may cross itself where two stretches meet
			areas = append(areas, float64(g.Area.Value))
		}
	}
	mean, square := 0.0, 0.0
	for _, a := range areas {
		mean += a / float64(len(areas))
	}
	for _, a := range areas {
		square += (a - mean) * (a - mean) / float64(len(areas))
	}
	got := math.Sqrt(square)
	t.Logf("propagated %.3f %%, drawn %.3f %% of the area in %d draws", 100*float64(f.Area.Sigma)/mean, 100*got/mean, len(areas))
	if len(areas) < draws/2 || math.Abs(float64(f.Area.Sigma)/got-1) > 0.1 {
		t.Errorf("propagated %g, drawn %g in %d draws", float64(f.Area.Sigma), got, len(areas))
	}
}

// TestSlabRiseOpen: while it is not said how high the face lies, the area's band
// reaches what it is wherever the slab may lie, and what is said of it has its
// sign and its size. By similar triangles a face 25 mm below marks that the lens
// stands 1.1 m above comes out (1.1/1.125)² = 0.956 of what it is, one 35 mm
// above (1.1/1.065)² = 1.067.
func TestSlabRiseOpen(t *testing.T) {
	wood := mm2(100, 60, 500, 60, 500, 240, 100, 240)
	c := overhead(shape.Point{X: 0.3, Y: 0.15}, 1.1, 0, 1)
	p, s := framed() // 60 mm deep
	s.Thickness, s.Upper.Camera = mm(35), mm(1100)
	offers := p.Rises(s.ID, FaceUpper)
	if len(offers) != 2 || offers[0].Words != "It lies on the mold's floor" || math.Abs(offers[0].Rise.Millimetres()+25) > 1e-9 || math.Abs(offers[1].Rise.Millimetres()-35) > 1e-9 {
		t.Errorf("offered: %+v", offers)
	}
	for _, rise := range []float64{-0.025, 0, 0.035} {
		c.shoot(&s.Upper, rise, rimCorners, wood)
		s.Upper.Rise = unit.Dim{}
		f := Make(p).Slabs[0].Upper
		half := sqrt3 * float64(f.Area.Sigma)
		if off := math.Abs(float64(f.Area.Value) - float64(wood.Area())); off > half {
			t.Errorf("%g m above: off by %g m², said to be within %g", rise, off, half)
		}
		if math.Abs(f.RiseOpen-0.0668) > 1e-3 {
			t.Errorf("not sure by %g", f.RiseOpen)
		}
		s.Upper.Rise = mm(rise * 1000)
		if g := Make(p).Slabs[0].Upper; g.RiseOpen != 0 || float64(g.Area.Sigma) > 0.3*float64(f.Area.Sigma) || math.Abs(float64(g.Area.Value)/float64(wood.Area())-1) > 1e-9 {
			t.Errorf("%g m above and said: %+v, open %g", rise, g.Area, g.RiseOpen)
		}
	}
	s.Upper.Rise = unit.Dim{}
	why := finding(Make(p), "slab.rise").Why
	for _, words := range []string{"25 mm below the corners comes out 4.4 % too small", "35 mm above the corners comes out 6.7 % too large"} {
		if !strings.Contains(why, words) {
			t.Errorf("it says %q, not %q", why, words)
		}
	}
	if g := finding(Make(p), "slab.doubt"); g.Kind != "" {
		t.Errorf("it is said twice: %+v", g)
	}
	// Pieces of it that are set up in the mold raise it.
	p.Pieces = append(p.Pieces, Piece{ID: "w1", From: s.ID + "/y1", Height: mm(5)})
	if r := p.Rises(s.ID, FaceUpper); math.Abs(r[0].Rise.Millimetres()+20) > 1e-9 {
		t.Errorf("set up by 5 mm: %+v", r)
	}
	s.Upper.By = ByCard
	if r := p.Rises(s.ID, FaceUpper); len(r) != 2 || r[0].Rise != 0 || math.Abs(r[1].Rise.Millimetres()-35) > 1e-9 {
		t.Errorf("by a card: %+v", r)
	}
	s.Thickness, s.Upper.By = unit.Dim{}, ByCorners
	if r := p.Rises(s.ID, FaceUpper); len(r) != 0 {
		t.Errorf("offered with nothing measured: %+v", r)
	}
}
