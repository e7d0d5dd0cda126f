package cure

import (
	"context"
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

func cupOf(k Kinetics, grams, celsius float64) Cup {
	t := unit.Celsius(celsius)
	return Cup{Mass: unit.Mass(grams) * unit.Gram, Matter: Resin, Cure: &k, Start: t, Room: Steady(t)}
}

func TestCupIsAsTallAsWide(t *testing.T) {
	c := cupOf(SlowAmine(), 500, 20)
	d := float64(c.Width())
	if v := math.Pi / 4 * d * d * d * float64(Resin.Density); math.Abs(v-0.5) > 1e-9 {
		t.Errorf("a cup of %.4f m holds %.4f kg, want 0.5", d, v)
	}
	// By hand: 500 g at 1100 kg/m³ are 454.5 ml, 83.3 mm wide and deep. Within
	// 83.3 mm/(10·0.20) = 0.0417 m²K/W; the open top 5.453e-3 m² through 0.125 + 0.0417,
	// the wall and floor five times that through 0.005 more: 0.0327 + 0.1588 W/K.
	if got := c.Loss(); math.Abs(got-0.1915) > 2e-4 {
		t.Errorf("loss = %.4f W/K, want 0.1915", got)
	}
}

func TestCupAgainstAdiabaticRise(t *testing.T) {
	// A cup of a tonne is as good as insulated. Times of an adiabatic cure with
	// cp 1900 from the notes' scipy run of the same equations without the
	// slowing: set A from 25 °C comes to conversion 0.1 at 0.6812 h, 0.5 at
	// 0.8913 h; set B to 0.5 at 1.7755 h and from 25 °C rises by 236.842 K.
	for _, x := range []struct {
		k    Kinetics
		a, h float64
	}{{FastAmine(), 0.1, 0.6812}, {FastAmine(), 0.5, 0.8913}, {SlowAmine(), 0.1, 1.4620}, {SlowAmine(), 0.5, 1.7755}, {SlowAmine(), 0.9, 1.7878}} {
		x.k.Steep = 0
		c := cupOf(x.k, 1e6, 25)
		c.Matter.Heat = 1900
		course, err := c.Run(context.Background(), 3*unit.Hour)
		if err != nil {
			t.Fatal(err)
		}
		at, ok := course.Reached(x.a)
		if !ok || math.Abs(at.Hours()/x.h-1) > 0.006 { // the tonne still loses a little
			t.Errorf("%s to %v at %.4f h, want %.4f", x.k.Name, x.a, at.Hours(), x.h)
		}
		rise, full := float64(course.Peak-c.Start), float64(x.k.Heat)/1900
		if rise > full || rise < 0.985*full {
			t.Errorf("%s rises by %.2f K, want just under %.2f", x.k.Name, rise, full)
		}
	}
}

func TestCupAgainstScipy(t *testing.T) {
	// The same two equations by scipy's LSODA and Radau at rtol 1e-10, which agree
	// to 1e-8: hours to conversion 0.06, 0.2 and gel, peak in °C and its hour
	// (testdata/cup.py).
	for _, x := range []struct {
		k              Kinetics
		grams, celsius float64
		h              [3]float64
		peak, at       float64
	}{
		{FastAmine(), 100, 20, [3]float64{0.820864, 1.433504, 1.728733}, 206.1416, 1.79136},
		{SlowAmine(), 50, 22, [3]float64{1.867708, 4.220824, 14.088321}, 30.4056, 4.59967},
		{SlowAmine(), 500, 22, [3]float64{1.663258, 2.716260, 3.043281}, 232.1244, 3.08531},
	} {
		c := cupOf(x.k, x.grams, x.celsius)
		course, err := c.Run(context.Background(), unit.Day)
		if err != nil {
			t.Fatal(err)
		}
		for i, a := range []float64{0.06, 0.2, 0.57735} {
			if at, ok := course.Reached(a); !ok || math.Abs(at.Hours()/x.h[i]-1) > 2e-4 {
				t.Errorf("%v g of %s to %v at %.6f h, want %.6f", x.grams, x.k.Name, a, at.Hours(), x.h[i])
			}
		}
		if got := course.Peak.Celsius(); math.Abs(got-x.peak) > 0.01 {
			t.Errorf("%v g of %s peaks at %.4f °C, want %.4f", x.grams, x.k.Name, got, x.peak)
		}
		if got := course.PeakAt.Hours(); math.Abs(got/x.at-1) > 1e-3 {
			t.Errorf("%v g of %s peaks at %.5f h, want %.5f", x.grams, x.k.Name, got, x.at)
		}
	}
}

func TestCupHangsOnNothingButItself(t *testing.T) {
	// Without heat of reaction it keeps the room's temperature, and cures as a
	// thin layer does.
	k := FastAmine()
	k.Heat = 0
	c := cupOf(k, 300, 22)
	course, err := c.Run(context.Background(), unit.Day)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(course.Peak-c.Start)) > 1e-9 {
		t.Errorf("peak %.6f K above the room", float64(course.Peak-c.Start))
	}
	at, ok := course.Reached(k.Gel)
	if want := k.TimeTo(c.Start, 0, k.Gel); !ok || math.Abs(float64(at/want)-1) > 1e-4 {
		t.Errorf("gels at %.4f h, a thin layer at %.4f", at.Hours(), want.Hours())
	}
	// A fresh cup that starts warm cools towards the room as one lump does.
	k.A1, k.A2 = 0, 0
	c = cupOf(k, 300, 22)
	c.Start += 20
	course, err = c.Run(context.Background(), 5*unit.Hour)
	if err != nil {
		t.Fatal(err)
	}
	slow := float64(c.Mass) * float64(Resin.Heat) / c.Loss()
	want := 20 * math.Exp(-float64(2*unit.Hour)/slow)
	if got := float64(course.At(2*unit.Hour).T) - float64(unit.Celsius(22)); math.Abs(got-want) > 0.01 {
		t.Errorf("after 2 h %.4f K above the room, want %.4f", got, want)
	}
}

func TestThinLayersSeedDoesNotMatter(t *testing.T) {
	// With m below 1 the rate has no slope at conversion 0, so that a cure starts a
	// hair above it. That leaves out less than the seed takes at the rate of
	// conversion 0, and a seed ten times higher is no 0.15 % sooner at the end of a
	// working time.
	at := unit.Celsius(22)
	for _, k := range []Kinetics{FastAmine(), SlowAmine()} {
		whole, later := k.TimeTo(at, Seed, 0.06), k.TimeTo(at, 10*Seed, 0.06)
		if off := Seed / k.Rate(0, at) / float64(whole); off > 2e-4 {
			t.Errorf("%s: the seed leaves out up to %.4f %%", k.Name, 100*off)
		}
		if off := float64((whole - later) / whole); off < 0 || off > 1.5e-3 {
			t.Errorf("%s from a seed ten times higher: %.4f %% sooner", k.Name, 100*off)
		}
	}
}

func TestCupIsHotterTheBiggerAndTheWarmer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := []Kinetics{FastAmine(), SlowAmine()}[rapid.IntRange(0, 1).Draw(t, "class")].Scaled(rapid.Float64Range(0.3, 3).Draw(t, "scale"))
		grams, celsius := rapid.Float64Range(20, 2000).Draw(t, "grams"), rapid.Float64Range(5, 30).Draw(t, "celsius")
		peak := func(grams, celsius float64) float64 {
			c := cupOf(k, grams, celsius)
			course, err := c.Run(context.Background(), 2*k.TimeTo(c.Start, 0, k.Gel))
			if err != nil {
				t.Fatal(err)
			}
			if rise, full := float64(course.Peak-c.Start), float64(k.Heat)/float64(Resin.Heat); rise > full+0.1 {
				t.Fatalf("rises by %.2f K, more than all its heat gives (%.2f)", rise, full)
			}
			return float64(course.Peak)
		}
		base := peak(grams, celsius)
		if got := peak(grams*1.2, celsius); got < base-0.05 {
			t.Fatalf("%v g peak at %.2f, %v g more at %.2f", grams, base, grams*0.2, got)
		}
		if got := peak(grams, celsius+1); got < base-0.05 {
			t.Fatalf("a warmer room lowers the peak from %.2f to %.2f", base, got)
		}
	})
}

func TestCupRefuses(t *testing.T) {
	k := FastAmine()
	bad := []Cup{{}, cupOf(k, 0, 20), cupOf(k, -1, 20), cupOf(k, math.NaN(), 20), cupOf(k, 100, -300), cupOf(k, 100, math.NaN())}
	for i := range bad {
		if _, err := bad[i].Run(context.Background(), unit.Hour); !errors.Is(err, ErrUnusable) {
			t.Errorf("cup %d: %v", i, err)
		}
	}
	c := cupOf(k, 100, 20)
	for _, until := range []unit.Span{0, -1, unit.Span(math.NaN()), unit.Span(math.Inf(1))} {
		if _, err := c.Run(context.Background(), until); !errors.Is(err, ErrUnusable) {
			t.Errorf("until %v: %v", until, err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := c.Run(ctx, unit.Hour); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

func BenchmarkCup(b *testing.B) {
	c := cupOf(SlowAmine(), 500, 22)
	for b.Loop() {
		if _, err := c.Run(context.Background(), unit.Day); err != nil {
			b.Fatal(err)
		}
	}
}
