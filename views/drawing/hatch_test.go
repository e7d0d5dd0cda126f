package drawing

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestHatchStaysInside(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(rt, "n")
		ring := make([]Pt, n)
		for i := range ring {
			r := rapid.Float64Range(20, 150).Draw(rt, "r")
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			ring[i] = Pt{200 + r*cos, 200 + r*sin}
		}
		hole := circle(Pt{200, 200}, 6, 12)
		h := Hatching{
			Pattern: Pattern(rapid.IntRange(0, 2).Draw(rt, "pattern")), Spacing: 6,
			Angle: rapid.Float64Range(-3, 3).Draw(rt, "angle"), Anchor: Pt{210, 380}, Seed: rapid.Uint32().Draw(rt, "seed"),
		}
		r := record(t, 400, 400)
		Hatch(r, h, ring, hole)
		if len(r.strokes) == 0 {
			rt.Fatal("no lines")
		}
		for _, s := range r.strokes {
			for i := 1; i < len(s.path.Points); i++ {
				p := s.path.Points[i-1].Lerp(s.path.Points[i], 0.5)
				if !inside(p, ring, hole) && edgeDistance(p, ring, hole) > 1.5 {
					rt.Fatalf("line at %v is %.1f dp outside", p, edgeDistance(p, ring, hole))
				}
			}
		}
	})
}

func edgeDistance(p Pt, rings ...[]Pt) float64 {
	d := math.Inf(1)
	for _, r := range rings {
		for i, a := range r {
			d = math.Min(d, fromSegment(p, a, r[(i+1)%len(r)]))
		}
	}
	return d
}

func TestHatchIsTheSameEachTime(t *testing.T) {
	a, b := record(t, 400, 400), record(t, 400, 400)
	h := Hatching{Pattern: LongGrain, Spacing: 7, Seed: 9}
	for _, r := range []*recorder{a, b} {
		Hatch(r, h, circle(Pt{200, 200}, 120, 40))
	}
	if len(a.strokes) != len(b.strokes) {
		t.Fatalf("%d lines, then %d", len(a.strokes), len(b.strokes))
	}
	for i := range a.strokes {
		if a.strokes[i].path.Points[0] != b.strokes[i].path.Points[0] {
			t.Fatalf("line %d differs", i)
		}
	}
}

func TestSlantedHatchDensity(t *testing.T) {
	r := record(t, 400, 400)
	Hatch(r, Hatching{Spacing: 5, Angle: 0.7}, Box{Pt{50, 50}, Pt{250, 250}}.Ring())
	sum := 0.0
	for _, s := range r.strokes {
		sum += s.path.Points[0].To(s.path.Points[1])
	}
	// Lines a distance d apart cover an area A with a length of A/d.
	if want := 200 * 200 / 5.0; math.Abs(sum-want) > 0.03*want {
		t.Errorf("%.0f dp of lines, want about %.0f", sum, want)
	}
}

func TestHatchOfHugeRingIsBounded(t *testing.T) {
	r := record(t, 700, 500)
	for _, p := range []Pattern{Slanted, LongGrain, EndGrain} {
		Hatch(r, Hatching{Pattern: p, Spacing: 6, Anchor: Pt{350, 9000}}, Box{Pt{-20000, -4000}, Pt{20000, 4000}}.Ring())
	}
	if len(r.strokes) > 5000 {
		t.Errorf("%d lines", len(r.strokes))
	}
}
