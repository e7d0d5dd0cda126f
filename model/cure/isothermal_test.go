package cure

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// free gives kinetics without the slowing towards glass.
func free(k Kinetics) Kinetics {
	k.Steep = 0
	return k
}

func TestThinLayerAgainstScipy(t *testing.T) {
	// Conversions after 1, 2, 4, 8 and 24 h and times in hours to conversion 0.1,
	// 0.5, gel and 0.9, computed with scipy's LSODA at rtol 1e-10 from the rate law
	// of both published sets without the slowing.
	for _, x := range []struct {
		k Kinetics
		c float64
		a [5]float64
		h [4]float64
	}{
		{FastAmine(), 20, [5]float64{.05297, .12503, .27664, .51927, .86407}, [4]float64{1.6659, 7.6087, 9.3077, 29.4610}},
		{FastAmine(), 25, [5]float64{.08019, .18427, .38095, .63995, .91580}, [4]float64{1.1969, 5.5217, 6.7613, 21.4839}},
		{FastAmine(), 40, [5]float64{.23735, .45874, .71094, .88421, .98099}, [4]float64{.4701, 2.2338, 2.7433, 8.8184}},
		{FastAmine(), 80, [5]float64{.87552, .95777, .98717, .99631, .99951}, [4]float64{.0554, .2832, .3504, 1.1608}},
		{SlowAmine(), 20, [5]float64{.01673, .04059, .09672, .21638, .56536}, [4]float64{4.1108, 19.9890, 24.8273, 87.9811}},
		{SlowAmine(), 25, [5]float64{.02762, .06641, .15356, .32084, .69485}, [4]float64{2.7872, 13.6003, 16.8978, 59.9559}},
		{SlowAmine(), 60, [5]float64{.41931, .65932, .84325, .93931, .98862}, [4]float64{.2521, 1.2607, 1.5699, 5.6203}},
		{SlowAmine(), 80, [5]float64{.79020, .91440, .96898, .98940, .99816}, [4]float64{.0786, .3984, .4967, 1.7874}},
	} {
		k, at := free(x.k), unit.Celsius(x.c)
		times := []unit.Span{1 * unit.Hour, 2 * unit.Hour, 4 * unit.Hour, 8 * unit.Hour, 24 * unit.Hour}
		along, err := k.Along(context.Background(), Steady(at), 0, times)
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range x.a {
			if got := k.CuredAfter(at, 0, times[i]); math.Abs(got-want) > 1e-4 {
				t.Errorf("%s at %v °C after %v h: %.5f, want %.5f", k.Name, x.c, times[i].Hours(), got, want)
			}
			if math.Abs(along[i]-want) > 1e-4 {
				t.Errorf("%s at %v °C step by step to %v h: %.5f, want %.5f", k.Name, x.c, times[i].Hours(), along[i], want)
			}
		}
		for i, a := range []float64{.1, .5, GelPoint(4, 2, 1), .9} {
			if got := k.TimeTo(at, 0, a).Hours(); math.Abs(got-x.h[i]) > 0.002*x.h[i] {
				t.Errorf("%s at %v °C to %.3f: %.4f h, want %.4f", k.Name, x.c, a, got, x.h[i])
			}
		}
	}
}

func TestThinLayerAgainstClosedForms(t *testing.T) {
	// Analytic: first order, second order, and m = n = 1.
	plain := func(a1, a2, m, n float64) Kinetics { return Kinetics{A1: a1, A2: a2, M: m, N: n} }
	at := unit.Celsius(20)
	for _, x := range []struct {
		name string
		k    Kinetics
		a    func(t float64) float64
	}{
		{"first order", plain(1e-4, 0, 0, 1), func(t float64) float64 { return -math.Expm1(-1e-4 * t) }},
		{"second order", plain(1e-4, 0, 0, 2), func(t float64) float64 { return 1 - 1/(1+1e-4*t) }},
		{"order 1.5", plain(1e-4, 0, 0, 1.5), func(t float64) float64 { return 1 - math.Pow(1+1e-4*t/2, -2) }},
		{"m = n = 1", plain(1e-5, 1e-4, 1, 1), func(t float64) float64 {
			e := math.Exp(-1.1e-4 * t)
			return (1 - e) / (1 + 10*e)
		}},
	} {
		for _, h := range []float64{1, 4, 12, 24} {
			// The seed is worth 1e-6 of conversion at the start.
			if got, want := x.k.CuredAfter(at, 0, unit.Span(h)*unit.Hour), x.a(h*3600); math.Abs(got-want) > 2e-5 {
				t.Errorf("%s after %v h: %.8f, want %.8f", x.name, h, got, want)
			}
		}
	}
}

func TestTimeAndConversionAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := []Kinetics{FastAmine(), SlowAmine()}[rapid.IntRange(0, 1).Draw(t, "class")]
		at := unit.Celsius(rapid.Float64Range(0, 60).Draw(t, "at"))
		a := rapid.Float64Range(0.001, 0.97).Draw(t, "a")
		after := k.TimeTo(at, 0, a)
		if got := k.CuredAfter(at, 0, after); math.Abs(got-a) > 1e-6 {
			t.Fatalf("%.2f h come to %.8f, want %.8f", after.Hours(), got, a)
		}
		mid := a * rapid.Float64Range(0.01, 0.99).Draw(t, "mid")
		if got := k.TimeTo(at, 0, mid) + k.TimeTo(at, mid, a); math.Abs(float64(got/after)-1) > 1e-5 {
			t.Fatalf("in two parts %.4f h, in one %.4f", got.Hours(), after.Hours())
		}
		// A rate s times as fast divides every time by s, exactly.
		s := rapid.Float64Range(0.1, 10).Draw(t, "s")
		faster := k.Scaled(s)
		if got := faster.TimeTo(at, 0, a) * unit.Span(s); math.Abs(float64(got/after)-1) > 1e-9 {
			t.Fatalf("%v times as fast: %.6f h times that, want %.6f", s, got.Hours(), after.Hours())
		}
	})
}

func TestActivation(t *testing.T) {
	// A law with one activation energy gives it back.
	k := FastAmine()
	k.E1, k.E2 = 57000, 57000
	if got := k.Activation(unit.Celsius(20), 0.5); math.Abs(float64(got)-57000) > 20 {
		t.Errorf("activation = %.0f, want 57000", float64(got))
	}
	// The two of a published set come to one between them: by the scipy times of
	// set A to conversion 0.5 at 20 and 25 °C (7.6087 and 5.5217 h) 46.6 kJ/mol.
	k = FastAmine()
	want := GasConstant * math.Log(7.6087/5.5217) / (1/293.15 - 1/298.15)
	if got := float64(k.Activation(unit.Celsius(22.5), 0.5)); math.Abs(got-want) > 100 {
		t.Errorf("activation = %.0f, want %.0f", got, want)
	}
	// A shift adds itself, exactly.
	shifted := k.Shifted(4000, unit.Celsius(20))
	if got := float64(shifted.Activation(unit.Celsius(20), 0.5) - k.Activation(unit.Celsius(20), 0.5)); math.Abs(got-4000) > 5 {
		t.Errorf("shifted by %.1f, want 4000", got)
	}
}

func TestAlongALog(t *testing.T) {
	// With one activation energy a history comes to its equivalent age.
	k := free(FastAmine())
	k.E1, k.E2 = 54960, 54960
	k.A1, k.A2 = 36000, 300000
	room := Steady(unit.Celsius(20)).Logged([]Reading{{0, unit.Celsius(18)}, {6 * unit.Hour, unit.Celsius(24)}, {9 * unit.Hour, unit.Celsius(21)}, {15 * unit.Hour, unit.Celsius(12)}})
	list, err := k.Along(context.Background(), room, 0, []unit.Span{12 * unit.Hour})
	if err != nil {
		t.Fatal(err)
	}
	age := room.Age(54960, unit.Celsius(20), 0, 12*unit.Hour)
	if want := k.CuredAfter(unit.Celsius(20), 0, age); math.Abs(list[0]-want) > 1e-4 {
		t.Errorf("conversion %.6f, by equivalent age %.6f", list[0], want)
	}
}

func BenchmarkTimeTo(b *testing.B) {
	k := SlowAmine()
	for b.Loop() {
		k.TimeTo(295, 0, 0.78)
	}
}
