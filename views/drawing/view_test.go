package drawing

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/shape"
)

func drawPoint(t *rapid.T, name string) shape.Point {
	f := rapid.Float64Range(-3, 3)
	return shape.Point{X: f.Draw(t, name+".x"), Y: f.Draw(t, name+".y")}
}

func drawView(t *rapid.T) View {
	k := rapid.Float64Range(5, 5000)
	o := rapid.Float64Range(-2000, 2000)
	x := k.Draw(t, "scale")
	return View{X: x, Y: x * rapid.Float64Range(1, 10).Draw(t, "stretch"), Origin: Pt{o.Draw(t, "ox"), o.Draw(t, "oy")}}
}

func TestViewGoesThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, p := drawView(t), drawPoint(t, "p")
		q := v.ToWorld(v.ToScreen(p))
		if math.Hypot(p.X-q.X, p.Y-q.Y) > 1e-9 {
			t.Fatalf("%v came back as %v", p, q)
		}
	})
}

func TestViewZoomHoldsThePlaceStill(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, p := drawView(t), drawPoint(t, "p")
		at := v.ToScreen(p)
		k := rapid.Float64Range(0.1, 10).Draw(t, "k")
		z := v.About(at, k)
		if z.ToScreen(p).To(at) > 1e-6*(1+math.Abs(at.X)+math.Abs(at.Y)) {
			t.Fatalf("the place moved from %v to %v", at, z.ToScreen(p))
		}
		if math.Abs(z.X-v.X*k) > 1e-9*z.X {
			t.Fatalf("scale %g, want %g", z.X, v.X*k)
		}
	})
}

func TestFitKeepsMarginsAndProportion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawPoint(t, "a"), drawPoint(t, "b")
		lo := shape.Point{X: math.Min(a.X, b.X), Y: math.Min(a.Y, b.Y)}
		hi := shape.Point{X: math.Max(a.X, b.X) + 0.01, Y: math.Max(a.Y, b.Y) + 0.01}
		m := Margins{Left: 40, Top: 30, Right: 20, Bottom: 50}
		box := Box{Max: Pt{rapid.Float64Range(200, 2000).Draw(t, "w"), rapid.Float64Range(200, 2000).Draw(t, "h")}}
		v := Fit(lo, hi, box, m, 1)
		room := Box{Pt{40, 30}, Pt{box.Max.X - 20, box.Max.Y - 50}}.Grown(1e-6)
		drawn := BoxOf(v.ToScreen(lo), v.ToScreen(hi))
		if !room.Holds(drawn) {
			t.Fatalf("%v leaves %v", drawn, room)
		}
		if v.X != v.Y {
			t.Fatalf("scales differ: %g, %g", v.X, v.Y)
		}
		if drawn.W() < room.W()-1e-3 && drawn.H() < room.H()-1e-3 {
			t.Fatalf("%v does not fill %v", drawn, room)
		}
	})
}

func TestRingIsSimplifiedToWhatCanBeSeen(t *testing.T) {
	v := View{X: 800, Y: 800, Origin: Pt{400, 300}}
	r := polygon(20000, 0.3, 0, shape.Point{})
	got := v.Ring(r)
	if len(got) > 400 || len(got) < 24 {
		t.Errorf("%d points left of 20000", len(got))
	}
	for k := 0; k < len(r); k += 37 {
		p, least := v.ToScreen(r[k]), math.Inf(1)
		for i, a := range got {
			least = math.Min(least, fromSegment(p, a, got[(i+1)%len(got)]))
		}
		if least > 0.5 {
			t.Fatalf("point %d is %.2f dp off", k, least)
		}
	}
}

func TestRoundBelow(t *testing.T) {
	for _, c := range []struct {
		limit  float64
		inches bool
		want   float64 // metres
	}{
		{0.37, false, 0.2}, {0.2, false, 0.2}, {0.0199, false, 0.01}, {0.055, false, 0.05},
		{0.13, true, 5 * 0.0254}, {0.0254, true, 0.0254}, {0.02, true, 0.0127}, {0.003, true, 0.0254 / 16},
	} {
		if got := float64(RoundBelow(c.limit, c.inches)); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("RoundBelow(%g, %v) = %g, want %g", c.limit, c.inches, got, c.want)
		}
	}
}

func TestTicksAreRoundAndWithin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-1e4, 1e4).Draw(t, "lo")
		hi := lo + rapid.Float64Range(1e-3, 1e4).Draw(t, "span")
		n := rapid.IntRange(2, 12).Draw(t, "n")
		at, step := Ticks(lo, hi, n)
		if len(at) > max(n+1, 6) || len(at) < 2 {
			t.Fatalf("%d ticks for %d", len(at), n)
		}
		m := step / math.Pow(10, math.Floor(math.Log10(step)+1e-9))
		if math.Abs(m-1) > 1e-6 && math.Abs(m-2) > 1e-6 && math.Abs(m-5) > 1e-6 {
			t.Fatalf("step %g is not 1, 2 or 5", step)
		}
		for _, x := range at {
			if x < lo-1e-6*step || x > hi+1e-6*step {
				t.Fatalf("tick %g outside %g to %g", x, lo, hi)
			}
		}
	})
}

func TestSpreadKeepsApartAndInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfN(rapid.Float64Range(0, 400), 1, 8).Draw(t, "want")
		for i := 1; i < len(want); i++ {
			want[i] = max(want[i], want[i-1])
		}
		at := spread(want, 44, 0, 400)
		for i := range at {
			if at[i] < -1e-9 || at[i] > 400+1e-9 {
				t.Fatalf("%v leaves 0 to 400", at)
			}
			if i > 0 && at[i]-at[i-1] < 44-1e-9 {
				t.Fatalf("%v closer than 44", at)
			}
		}
	})
}

func TestSpreadLeavesAloneWhatIsApart(t *testing.T) {
	at := spread([]float64{50, 120, 300}, 44, 0, 400)
	if at[0] != 50 || at[1] != 120 || at[2] != 300 {
		t.Errorf("moved to %v", at)
	}
}
