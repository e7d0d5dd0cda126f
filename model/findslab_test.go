package model

import (
	"math"
	"testing"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// TestSlabFindings holds what is noticed of a slab to the slip that it tells of.
func TestSlabFindings(t *testing.T) {
	wood := mm2(100, 60, 500, 60, 500, 240, 100, 240)
	straight := overhead(shape.Point{X: 0.3, Y: 0.15}, 1.1, 0, 1)
	eight := func(s *Slab, c *pinhole) {
		places := append(mm2(300, 0, 600, 150, 300, 300, 0, 150), rimCorners...)
		c.shoot(&s.Upper, 0, places, wood)
		s.Upper.By = ByPoints
		for i, q := range places {
			s.Upper.Marks[i].At, s.Upper.Marks[i].Up = mm(q.X*1000), mm(q.Y*1000)
		}
	}
	for _, v := range []struct {
		slip, kind, field string
		make              func(s *Slab)
	}{
		{"a corner not touched", "slab.marks", "/upper/marks", func(s *Slab) { s.Upper.Marks = s.Upper.Marks[:3] }},
		{"the rise not given", "slab.rise", "/upper/rise", func(s *Slab) { s.Upper.Rise = unit.Dim{} }},
		{"the face at the lens", "slab.rise", "/upper/rise", func(s *Slab) { s.Upper.Rise, s.Upper.Camera = mm(950), mm(1000) }},
		{"the lens not told", "slab.lens", "/upper/camera", func(s *Slab) { s.Upper.Rise = mm(40) }},
		{"the lens measured wrong", "slab.lens", "/upper/camera", func(s *Slab) {
			c := overhead(shape.Point{X: 0.3, Y: 0.15}, 1.1, 0.6, 1)
			c.shoot(&s.Upper, 0, rimCorners, wood)
			s.Upper.Camera = mm(2000)
		}},
		{"the lens too low", "slab.low", "/upper/camera", func(s *Slab) { s.Thickness, s.Upper.Camera = mm(80), mm(390) }},
		{"a mark measured wrong", "slab.residual", "/upper/marks/k3", func(s *Slab) {
			eight(s, &straight)
			s.Upper.Marks[2].Up = mm(312)
		}},
		{"a small card far off", "slab.doubt", "/upper/marks", func(s *Slab) {
			straight.shoot(&s.Upper, 0, mm2(0, 0, 40, 0, 40, 30, 0, 30), wood)
			s.Upper.By, s.Upper.Long, s.Upper.Broad = ByCard, mm(40), mm(30)
		}},
		{"the sides of the card swapped", "slab.card", "/upper/long", func(s *Slab) {
			straight.shoot(&s.Upper, 0, mm2(0, 0, 200, 0, 200, 100, 0, 100), wood)
			s.Upper.By, s.Upper.Long, s.Upper.Broad = ByCard, mm(100), mm(200)
		}},
		{"another slab from below", "slab.faces", "/under", func(s *Slab) {
			s.Thickness = mm(40)
			straight.shoot(&s.Under, 0, rimCorners, mm2(20, 20, 580, 20, 580, 280, 20, 280, 20, 180, 300, 150, 20, 120))
			s.Under.Rise = mm(0)
			s.Upper.Rings[0].Points = straight.ring(mm2(250, 110, 350, 110, 350, 190, 250, 190), 0)
		}},
		{"an outline that crosses itself", "slab.outline", "/upper/rings/r1", func(s *Slab) {
			r := s.Upper.Rings[0].Points
			s.Upper.Rings[0].Points = shape.Ring{r[0], r[2], r[1], r[3]}
		}},
		{"a hole outside the wood", "slab.outline", "/upper/rings/r2", func(s *Slab) {
			straight.shoot(&s.Upper, 0, rimCorners, wood, mm2(20, 20, 40, 20, 40, 40))
		}},
		{"a hole over the edge", "slab.outline", "/upper/rings/r2", func(s *Slab) {
			straight.shoot(&s.Upper, 0, rimCorners, wood, mm2(80, 100, 120, 100, 120, 140))
		}},
		{"wood in wood", "slab.outline", "/upper/rings/r2", func(s *Slab) {
			straight.shoot(&s.Upper, 0, rimCorners, wood, mm2(200, 100, 220, 100, 220, 140))
			s.Upper.Rings[1].Kind = RingWood
		}},
		{"a point in the sky", "slab.outline", "/upper/rings/r1", func(s *Slab) {
			c := overhead(shape.Point{X: 0.3, Y: 0.15}, 1.1, math.Pi/4, 1)
			c.shoot(&s.Upper, 0, rimCorners, wood)
			s.Upper.Rings[0].Points[2] = shape.Point{X: 1500, Y: -2000}
		}},
	} {
		p, s := framed()
		straight.shoot(&s.Upper, 0, rimCorners, wood)
		s.Upper.Rise = mm(0)
		if f := finding(Make(p), v.kind); f.Kind != "" {
			t.Fatalf("%s: noticed before it is there: %+v", v.slip, f)
		}
		v.make(s)
		plan := Make(p)
		f := finding(plan, v.kind)
		if f.Level != Check || f.Subject != OfMold || f.Field != "slabs/"+s.ID+v.field || f.Why == "" {
			t.Errorf("%s: %+v, want %s at %s; wrong: %+v", v.slip, f, v.kind, v.field, plan.Slabs[0].Upper.Wrong)
		} else {
			t.Logf("%s: %s: %s; %s", v.slip, f.What, f.Why, f.Do)
		}
		if _, err := locate(&p, f.Field); err != nil {
			t.Errorf("%s: the finding points at nothing: %v", v.slip, err)
		}
	}
	// One that has only been begun is no more than noted.
	for n := 1; n <= 3; n++ {
		p, s := framed()
		straight.shoot(&s.Upper, 0, rimCorners, wood, mm2(200, 100, 300, 100, 300, 200))
		s.Upper.Rise = mm(0)
		s.Upper.Rings[1].Points = s.Upper.Rings[1].Points[:n]
		if f := finding(Make(p), "slab.outline"); n < 3 && (f.Level != Note || f.Field != "slabs/"+s.ID+"/upper/rings/r2") || n == 3 && f.Kind != "" {
			t.Errorf("an outline of %d points: %+v", n, f)
		}
	}
	// An island in a hole is wood again.
	p, s := framed()
	straight.shoot(&s.Upper, 0, rimCorners, wood, mm2(200, 100, 300, 100, 300, 200, 200, 200), mm2(240, 140, 260, 140, 260, 160, 240, 160))
	s.Upper.Rings[2].Kind = RingWood
	s.Upper.Rise = mm(0)
	f := Make(p).Slabs[0].Upper
	if want := 0.4*0.18 - 0.1*0.1 + 0.02*0.02; len(f.Wrong) > 0 || math.Abs(float64(f.Area.Value)-want) > 1e-9 {
		t.Errorf("with an island: %v m², want %g; %+v", f.Area.Value, want, f.Wrong)
	}
}

// TestUsualOfSlab tells what stands in for what was not said of a photo.
func TestUsualOfSlab(t *testing.T) {
	p, s := framed()
	s.Under.Wide, s.Under.High = 3000, 4000
	for _, v := range []struct{ field, value, why string }{
		{"under/touch", "2.0", commonPractice},
		{"upper/rise", "", "the face is taken to be level with the marks"},
		{"upper/camera", "", "it is taken from the perspective where the photo is tilted enough to tell, else a usual lens stands in"},
	} {
		if u, ok := p.Usual("slabs/" + s.ID + "/" + v.field); !ok || u.Value != v.value || u.Why != v.why {
			t.Errorf("%s: %+v", v.field, u)
		}
	}
	if _, ok := p.Usual("slabs/nowhere/upper/rise"); ok {
		t.Error("something stands in for a slab that is not there")
	}
}
