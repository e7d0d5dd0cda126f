package model

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

func TestReadOutlineSeparators(t *testing.T) {
	inches := unit.Style{Lengths: unit.InInches}
	for _, c := range []struct {
		name, text string
		style      unit.Style
		x, y       float64 // mm, of the second point
	}{
		{"comma and space", "0, 0\n12.5, 30\n0, 30", unit.Style{}, 12.5, 30},
		{"comma alone", "0,0\n12.5,30\n0,30", unit.Style{}, 12.5, 30},
		{"semicolon and decimal commas", "0; 0\n12,5; 30\n0; 30", unit.Style{}, 12.5, 30},
		{"tab", "0\t0\n12,5\t30\n0\t30", unit.Style{}, 12.5, 30},
		{"space", "0 0\n12.5 30\n0 30", unit.Style{}, 12.5, 30},
		{"space and decimal commas", "0 0\n12,5 30,0\n0 30", unit.Style{}, 12.5, 30},
		{"brackets, empty lines and a closing point", "\n(0, 0)\n\n(12.5, 30)\r\n[0, 30]\n(0, 0)\n", unit.Style{}, 12.5, 30},
		{"units", "0 mm 0 mm\n1 in, 3 cm\n0, 30", unit.Style{}, 25.4, 30},
		{"inches with fractions", "0, 0\n10 3/8, 5 1/4\n0, 5", inches, 10.375 * 25.4, 5.25 * 25.4},
	} {
		r, err := ReadOutline(c.text, c.style)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if len(r) != 3 || math.Abs(r[1].X*1000-c.x) > 1e-9 || math.Abs(r[1].Y*1000-c.y) > 1e-9 {
			t.Errorf("%s: got %v, want three points with the second at (%g, %g) mm", c.name, r, c.x, c.y)
		}
	}
}

func TestReadOutlineNamesTheBadLine(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"0, 0\n\n10, x\n0, 10", "line 3"},
		{"0, 0\n10\n0, 10", "line 2"},
		{"0, 0\n10 3/8 5\n0, 10", "line 2"},
		{"0, 0\n1, 2, 3\n0, 10", "line 2"},
		{"0, 0\n10, 0", "three points"},
		{"", "three points"},
		{"0, 0\n10, 10\n10, 0\n0, 10", "crosses itself"},
	} {
		_, err := ReadOutline(c.text, unit.Style{})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: got %v, want an error with %q", c.text, err, c.want)
		}
	}
	if _, err := ReadOutline(strings.Repeat("0, 0\n", mostPoints+1), unit.Style{}); err == nil || !strings.Contains(err.Error(), "50000") {
		t.Errorf("too many points: %v", err)
	}
}

func TestReadOutlineTurnsClockwiseOnes(t *testing.T) {
	r, err := ReadOutline("0, 0\n0, 10\n10, 10\n10, 0", unit.Style{})
	if err != nil || r.Signed() <= 0 {
		t.Errorf("got %v (%v), want it counterclockwise", r, err)
	}
}

// What is written reads back to within a micrometre, in any unit.
func TestWriteOutlineReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 40).Draw(t, "points")
		s := unit.Style{Lengths: rapid.SampledFrom([]unit.LengthUnit{unit.InMillimetres, unit.InCentimetres, unit.InInches}).Draw(t, "unit")}
		r := make(shape.Ring, n)
		for i := range r {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			far := rapid.Float64Range(0.05, 2).Draw(t, "radius")
			r[i] = shape.Point{X: far * cos, Y: far * sin}
		}
		back, err := ReadOutline(WriteOutline(r, s), s)
		if err != nil {
			t.Fatal(err)
		}
		if len(back) != n {
			t.Fatalf("%d points came back of %d", len(back), n)
		}
		for i := range r {
			if math.Hypot(r[i].X-back[i].X, r[i].Y-back[i].Y) > 1e-6 {
				t.Fatalf("point %d moved from %v to %v", i, r[i], back[i])
			}
		}
	})
}

func TestEnterOutline(t *testing.T) {
	p := Blank("x", "x")
	id := p.AddPiece(PieceOutline)
	at := "pieces/" + id + "/outline"
	if err := EnterOutline(&p, at, "100, 100\n300, 100\n300, 200\n100, 200"); err != nil {
		t.Fatal(err)
	}
	if lo, hi := p.Pieces[0].Outline.Bounds(); math.Abs(lo.X+0.1) > 1e-12 || math.Abs(hi.Y-0.05) > 1e-12 {
		t.Errorf("a trace is to be moved to its middle, got %v to %v", lo, hi)
	}
	if err := EnterOutline(&p, at, "0, 0\n10, nought"); err == nil || len(p.Pieces[0].Outline) != 4 {
		t.Errorf("a bad line must leave the outline alone, got %v and %d points", err, len(p.Pieces[0].Outline))
	}
	top := "pieces/" + id + "/top/outline"
	if err := EnterOutline(&p, top, "-90, -50\n100, -50\n100, 50\n-90, 50"); err != nil {
		t.Fatal(err)
	}
	if lo, _ := p.Pieces[0].Top.Outline.Bounds(); math.Abs(lo.X+0.09) > 1e-12 {
		t.Errorf("a top face that lies over the underside stays where it is, got %v", lo)
	}
	if err := EnterOutline(&p, top, "1100, 100\n1280, 100\n1280, 190\n1100, 190"); err != nil {
		t.Fatal(err)
	}
	if lo, hi := p.Pieces[0].Top.Outline.Bounds(); math.Abs(lo.X+hi.X) > 1e-12 || math.Abs(lo.Y+hi.Y) > 1e-12 {
		t.Errorf("a top face with an origin of its own is laid middle over middle, got %v to %v", lo, hi)
	}
	if err := EnterOutline(&p, top, " "); err != nil || p.Pieces[0].Top.Outline != nil {
		t.Errorf("empty text takes an outline away: %v", err)
	}
	for _, path := range []string{"pieces/p9/outline", "mold/depth"} {
		if err := EnterOutline(&p, path, "0, 0"); err == nil {
			t.Errorf("%s took an outline", path)
		}
	}
	if err := EnterOutline(&p, "mold/outline", "0, 0\n50000, 0\n50000, 10\n0, 10"); err == nil {
		t.Error("an outline of 50 m was taken")
	}
}

func FuzzReadOutline(f *testing.F) {
	for _, text := range []string{"0, 0\n10, 0\n10, 10", "0;0\n1,5;2", "1 mm 2 mm\n\n3\t4", "(1, 2)\n[", "10 3/8, 5\n,\n;", "0 0\n-\n´ ″"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ReadOutline(text, unit.Style{})
		if err == nil && (len(r) < 3 || r.Validate() != nil || r.Signed() <= 0) {
			t.Errorf("%q gave a bad outline %v", text, r)
		}
	})
}
