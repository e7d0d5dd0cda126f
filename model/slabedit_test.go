package model

import (
	"encoding/json"
	"math"
	"slices"
	"testing"

	"meniscus/model/shape"
	"pgregory.net/rapid"
)

// TestCornersNeverCross touches four corners in any order and moves them about:
// their sides never cross, and the photo can be straightened.
func TestCornersNeverCross(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tray(600, 300, 60, 40)
		id := p.AddSlab("plank")
		s := p.Slab(id)
		s.Upper.Photo, s.Upper.Wide, s.Upper.High = "a", 3000, 4000
		corner := [4]shape.Point{{X: 400, Y: 900}, {X: 2600, Y: 1000}, {X: 2700, Y: 2200}, {X: 300, Y: 2300}}
		for _, k := range rapid.Permutation([]int{0, 1, 2, 3}).Draw(t, "order") {
			if _, err := p.AddMark(id, FaceUpper, corner[k].X, corner[k].Y); err != nil {
				t.Fatal(err)
			}
		}
		marks := p.Slab(id).Upper.Marks
		for i, c := range corner {
			if marks[i].X != c.X || marks[i].Y != c.Y {
				t.Fatalf("corner %d is at (%g, %g), want %v: from the upper left as on a clock", i+1, marks[i].X, marks[i].Y, c)
			}
		}
		if _, err := p.AddMark(id, FaceUpper, 10, 10); err == nil {
			t.Fatal("a fifth corner was taken")
		}
		first := marks[0].ID
		for range 6 {
			k := rapid.SampledFrom(marks).Draw(t, "mark")
			x, y := rapid.Float64Range(0, 3000).Draw(t, "x"), rapid.Float64Range(0, 4000).Draw(t, "y")
			before, was := p.Clone(), slices.Clone(marks)
			if err := p.MoveMark(id, FaceUpper, k.ID, x, y); err != nil {
				t.Fatal(err)
			}
			if now := p.Slab(id).Upper.Marks; crossed(now) || now[0].ID != first {
				t.Fatalf("after a move: %v", now)
			}
			if !slices.Equal(before.Slabs[0].Upper.Marks, was) {
				t.Fatal("the project before it changed")
			}
			marks = p.Slab(id).Upper.Marks
		}
	})
	p := tray(600, 300, 60, 40)
	id := p.AddSlab("")
	if s := p.Slab(id); s.Name != "slab 1" || s.Upper.By != ByCorners {
		t.Errorf("a new slab: %+v", s)
	}
	p.Mold.Kind = MoldRound
	if s := p.Slab(p.AddSlab("other")); s.Name != "other" || s.Upper.By != ByCard {
		t.Errorf("a slab for a round mold: %+v", s)
	}
}

// TestRingEdits goes through every edit of an outline and holds it to what it
// says, with the project before it unchanged.
func TestRingEdits(t *testing.T) {
	p := tray(600, 300, 60, 40)
	slab := p.AddSlab("")
	ring, err := p.AddRing(slab, FaceUnder, RingWood, shape.Ring{{X: 10.123456, Y: 20}, {X: 110, Y: 20}, {X: 110, Y: 90}})
	if err != nil {
		t.Fatal(err)
	}
	points := func() shape.Ring { return p.Slab(slab).Under.Ring(ring).Points }
	if q := points()[0]; q != (shape.Point{X: 10.12, Y: 20}) {
		t.Errorf("pixels are kept to a hundredth: %v", q)
	}
	for _, e := range []struct {
		name string
		edit func() error
		want shape.Ring
	}{
		{"move", func() error { return p.MovePoint(slab, FaceUnder, ring, 1, shape.Point{X: 120, Y: 30.005}) }, shape.Ring{{X: 10.12, Y: 20}, {X: 120, Y: 30.01}, {X: 110, Y: 90}}},
		{"insert", func() error { return p.InsertPoint(slab, FaceUnder, ring, 2, shape.Point{X: 10, Y: 90}) }, shape.Ring{{X: 10.12, Y: 20}, {X: 120, Y: 30.01}, {X: 110, Y: 90}, {X: 10, Y: 90}}},
		{"insert first", func() error { return p.InsertPoint(slab, FaceUnder, ring, -1, shape.Point{X: 5, Y: 50}) }, shape.Ring{{X: 5, Y: 50}, {X: 10.12, Y: 20}, {X: 120, Y: 30.01}, {X: 110, Y: 90}, {X: 10, Y: 90}}},
		{"remove", func() error { return p.RemovePoint(slab, FaceUnder, ring, 0) }, shape.Ring{{X: 10.12, Y: 20}, {X: 120, Y: 30.01}, {X: 110, Y: 90}, {X: 10, Y: 90}}},
	} {
		before, was := p.Clone(), slices.Clone(points())
		if err := e.edit(); err != nil {
			t.Fatalf("%s: %v", e.name, err)
		}
		if !slices.Equal(points(), e.want) {
			t.Errorf("%s: %v, want %v", e.name, points(), e.want)
		}
		if !slices.Equal(before.Slab(slab).Under.Ring(ring).Points, was) {
			t.Errorf("%s: the project before it changed", e.name)
		}
	}
	for _, e := range []struct {
		name string
		err  error
	}{
		{"no slab", p.MovePoint("x", FaceUnder, ring, 0, shape.Point{})},
		{"no face", p.MovePoint(slab, "side", ring, 0, shape.Point{})},
		{"no ring", p.MovePoint(slab, FaceUpper, ring, 0, shape.Point{})},
		{"no point", p.MovePoint(slab, FaceUnder, ring, 4, shape.Point{})},
		{"no number", p.MovePoint(slab, FaceUnder, ring, 0, shape.Point{X: math.NaN()})},
		{"no radius", p.Brush(slab, FaceUnder, ring, shape.Point{}, shape.Point{}, 0)},
		{"no mark", p.RemoveMark(slab, FaceUnder, "k9")},
	} {
		if _, ok := e.err.(*Problem); !ok {
			t.Errorf("%s: %v", e.name, e.err)
		}
	}
	for range 4 {
		if err := p.RemovePoint(slab, FaceUnder, ring, 0); err != nil {
			t.Fatal(err)
		}
	}
	if p.Slab(slab).Under.Ring(ring) != nil {
		t.Error("with its last point the outline goes")
	}
}

// TestBrush pushes outlines: nothing outside the fingertip moves, its middle
// goes all the way, and an outline that does not cross itself does not start
// to.
func TestBrush(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tray(600, 300, 60, 40)
		slab := p.AddSlab("")
		n := rapid.SampledFrom([]int{4, 20, 700}).Draw(t, "points")
		ring := make(shape.Ring, n)
		for i := range ring {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			ring[i] = shape.Point{X: 1500 + 900*cos, Y: 2000 + 500*sin}
		}
		id, err := p.AddRing(slab, FaceUpper, RingWood, ring)
		if err != nil {
			t.Fatal(err)
		}
		was := p.Slab(slab).Upper.Ring(id).Points
		from := shape.Point{X: rapid.Float64Range(400, 2600).Draw(t, "x"), Y: rapid.Float64Range(1200, 2800).Draw(t, "y")}
		to := shape.Point{X: from.X + rapid.Float64Range(-300, 300).Draw(t, "dx"), Y: from.Y + rapid.Float64Range(-300, 300).Draw(t, "dy")}
		radius := rapid.Float64Range(30, 400).Draw(t, "radius")
		if err := p.Brush(slab, FaceUpper, id, from, to, radius); err != nil {
			t.Fatal(err)
		}
		now := p.Slab(slab).Upper.Ring(id).Points
		for _, q := range was {
			if math.Sqrt(squareTo(q, from, to)) >= radius && !slices.Contains(now, q) {
				t.Fatalf("%v lies outside the fingertip and has moved", q)
			}
		}
	})
	p := tray(600, 300, 60, 40)
	slab := p.AddSlab("")
	id, _ := p.AddRing(slab, FaceUpper, RingWood, shape.Ring{{X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: 1000}, {X: 0, Y: 1000}})
	// A long side with no points below the finger bends all the same.
	if err := p.Brush(slab, FaceUpper, id, shape.Point{X: 500, Y: 0}, shape.Point{X: 500, Y: -50}, 100); err != nil {
		t.Fatal(err)
	}
	now := p.Slab(slab).Upper.Ring(id).Points
	lo, hi := now.Bounds()
	if lo.Y > -45 || lo.Y < -50 || hi.X != 1000 || len(now) < 8 {
		t.Errorf("the side did not follow the finger: %v", now)
	}
	if math.Abs(math.Abs(now.Signed())-1e6-50*100*16/15*0.98) > 400 {
		// The push is 50·(1-t²)² high over 200 pixels: 50·100·16/15 px².
		t.Errorf("area grew by %g px²", math.Abs(now.Signed())-1e6)
	}
	// Dense outlines pushed far do not cross themselves.
	id, _ = p.AddRing(slab, FaceUpper, RingWood, shape.EllipseRing(2, 1).Scaled(800, 800).Moved(1500, 1500))
	for k := range 12 {
		sin, cos := math.Sincos(float64(k))
		from := shape.Point{X: 1500 + 760*cos, Y: 1500 + 380*sin}
		if err := p.Brush(slab, FaceUpper, id, from, shape.Point{X: from.X + 160*sin, Y: from.Y + 120*cos}, 150); err != nil {
			t.Fatal(err)
		}
	}
	if err := p.Slab(slab).Upper.Ring(id).Points.Scaled(1e-3, 1e-3).Validate(); err != nil {
		t.Errorf("pushed about: %v", err)
	}
}

// squareTo is the square of the distance from p to a segment.
func squareTo(p, a, b shape.Point) float64 {
	ux, uy := b.X-a.X, b.Y-a.Y
	f := 0.0
	if l := ux*ux + uy*uy; l > 0 {
		f = max(0, min(1, ((p.X-a.X)*ux+(p.Y-a.Y)*uy)/l))
	}
	dx, dy := p.X-a.X-f*ux, p.Y-a.Y-f*uy
	return dx*dx + dy*dy
}

// TestSlabDocumentStaysSmall writes an outline of 20,000 points: under 20 bytes
// a point.
func TestSlabDocumentStaysSmall(t *testing.T) {
	p := tray(600, 300, 60, 40)
	slab := p.AddSlab("")
	r := wandering(20000, 2500, 1200, 3).Moved(1500, 2000)
	if _, err := p.AddRing(slab, FaceUpper, RingWood, r); err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(p.Slabs)
	if err != nil || len(text) > 20*len(r) {
		t.Errorf("%d bytes for %d points, %v", len(text), len(r), err)
	}
	if list := p.Validate(); len(list) > 0 {
		t.Errorf("what was traced is refused: %+v", list)
	}
	p.Slabs[0].Upper.Rings[0].Points[3].X = 1e6
	if list := p.Validate(); len(list) != 1 || list[0].Field != "slabs/"+slab+"/upper/rings/"+p.Slabs[0].Upper.Rings[0].ID+"/points/3" {
		t.Errorf("a point out of any picture: %+v", list)
	}
}

// FuzzSlab edits and plans whatever can be decoded as slabs: nothing panics.
func FuzzSlab(f *testing.F) {
	p := tray(600, 300, 60, 40)
	s := &p.Slabs
	p.AddSlab("")
	c := overhead(shape.Point{X: 0.3, Y: 0.15}, 1.1, 0.3, 1)
	c.shoot(&(*s)[0].Upper, 0.04, rimCorners, mm2(100, 60, 500, 60, 500, 240, 100, 240), mm2(200, 100, 300, 100, 300, 200, 200, 200))
	c.shoot(&(*s)[0].Under, 0.04, rimCorners, mm2(100, 60, 500, 60, 500, 240, 100, 240))
	text, err := json.Marshal(*s)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text, 100.0, 200.0, 50.0, 1)
	f.Add([]byte(`[{"id":"b1","upper":{"photo":"x","wide":1,"by":"points","marks":[{"id":"k"},{"id":"k"}],"rings":[{"id":"r1","points":[]}]}}]`), math.NaN(), 0.0, math.Inf(1), -5)
	f.Add([]byte(`[{"id":"b1","upper":{"photo":"x","wide":-1,"high":9,"by":"rectangle","long":{"value":1},"broad":{"value":1e300},"marks":[{"id":"1","x":1e300},{"id":"2","y":1},{"id":"3","x":1,"y":1},{"id":"4"}],"rings":[{"id":"r1","kind":"hole","points":[[0,0]]}]}}]`), 1e300, -1e300, 1e-300, 0)
	f.Fuzz(func(t *testing.T, text []byte, x, y, radius float64, i int) {
		if len(text) > 20000 {
			t.Skip()
		}
		q := tray(600, 300, 60, 40)
		if json.Unmarshal(text, &q.Slabs) != nil {
			t.Skip()
		}
		plan := Make(q)
		if len(q.Validate()) == 0 {
			if _, err := json.Marshal(plan); err != nil {
				t.Fatalf("a document in order gives a plan that cannot be written: %v", err)
			}
		}
		for k := range q.Slabs {
			for _, face := range []Face{FaceUpper, FaceUnder} {
				id, s := q.Slabs[k].ID, &q.Slabs[k]
				q.AddMark(id, face, x, y)
				for _, m := range slices.Clone(s.Face(face).Marks) {
					q.MoveMark(id, face, m.ID, y, x)
				}
				q.AddRing(id, face, RingWood, shape.Ring{{X: x, Y: y}, {X: y, Y: x}})
				for _, r := range slices.Clone(s.Face(face).Rings) {
					q.MovePoint(id, face, r.ID, i, shape.Point{X: x, Y: y})
					q.InsertPoint(id, face, r.ID, i, shape.Point{X: y, Y: x})
					q.Brush(id, face, r.ID, shape.Point{X: x, Y: y}, shape.Point{X: y, Y: y}, radius)
					q.RemovePoint(id, face, r.ID, i)
				}
				if len(s.Face(face).Marks) > 0 {
					q.RemoveMark(id, face, s.Face(face).Marks[0].ID)
				}
			}
		}
		Make(q)
	})
}
