package model

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestStokesRise holds the speed of bubbles against the table worked out by
// scipy from the formula for 1,100 kg/m³ (references, section 6), and against
// the textbook's bubble of 10 mm radius that rises at 3.5 mm/s in a liquid of
// 1.75 g/cm³ and so tells a viscosity of 1,088.9 poise (Lal and Subrahmanyam,
// Properties of Matter; from memory).
func TestStokesRise(t *testing.T) {
	for _, c := range []struct{ eta, d, speed float64 }{
		{0.5, 0.1, 0.0120}, {0.5, 0.3, 0.1079}, {0.5, 0.5, 0.2996}, {0.5, 1, 1.1986}, {0.5, 2, 4.7944},
		{0.3, 0.5, 0.4994}, {0.3, 1, 1.9977}, {0.6, 1, 0.9988}, {1, 1, 0.5993}, {12, 1, 0.0499},
	} {
		slow, fast := StokesRise(unit.Length(c.d)*unit.Millimetre, 1100, unit.Viscosity(c.eta))
		if math.Abs(1000*slow-c.speed) > 1e-3*c.speed+6e-5 {
			t.Errorf("%v mm at %v Pa·s rises at %.5f mm/s, want %v", c.d, c.eta, 1000*slow, c.speed)
		}
		within(t, "the freely moving skin", fast/slow, 1.5, 1e-12)
		if re := Reynolds(fast, unit.Length(c.d)*unit.Millimetre, 1100, unit.Viscosity(c.eta)); re >= 1 {
			t.Errorf("%v mm at %v Pa·s: Reynolds %v", c.d, c.eta, re)
		}
	}
	slow, _ := StokesRise(0.02, 1750, 108.89)
	within(t, "textbook", 1000*slow, 3.5, 0.005) // it reckons with 9.80 m/s²
	// 0.5 mm through 28 mm at 500 mPa·s takes about 95 s (shop notes, D22).
	slow, _ = StokesRise(0.5e-3, 1093, 0.5)
	within(t, "28 mm", 0.028/slow, 95, 1)
	// 0.1 mm takes 39 min.
	slow, _ = StokesRise(0.1e-3, 1093, 0.5)
	within(t, "28 mm of a fine one", 0.028/slow/60, 39, 0.5)
	if slow, fast := StokesRise(1e-3, 1100, 0); slow != 0 || fast != 0 {
		t.Error("a resin of no viscosity has a speed")
	}
}

// TestClears: the smallest that clears a depth is the one that takes that time.
func TestClears(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		depth := unit.Length(rapid.Float64Range(1e-3, 0.1).Draw(t, "depth"))
		time := unit.Span(rapid.Float64Range(60, 1e5).Draw(t, "time"))
		eta := unit.Viscosity(rapid.Float64Range(0.05, 50).Draw(t, "viscosity"))
		slow, _ := StokesRise(Clears(depth, time, 1100, eta), 1100, eta)
		if got := float64(depth) / slow; math.Abs(got/float64(time)-1) > 1e-9 {
			t.Fatalf("it takes %v of %v s", got, time)
		}
	})
}

// TestThickerInTheCold holds the factor for ten degrees against measured
// viscosities, mPa·s (supplement to doi 10.1016/j.polymer.2022.125216): a resin
// with 5 to 20 % of a thinner at 29.8 and 39.8 °C lies within the band, and one
// that is hardly thinned beyond it.
func TestThickerInTheCold(t *testing.T) {
	for _, c := range []struct{ cold, warm float64 }{
		{1243, 449}, {598, 284}, {368, 193}, {221, 145}, // butyl glycidyl ether 5, 10, 15, 20 %
		{1264, 504}, {699, 318}, {482, 241}, {346, 196}, // benzyl alcohol, the same
		{437, 214}, // phenyl glycidyl ether, 20 %
	} {
		if f := unit.Number(c.cold / c.warm); f < thicker.low || f > thicker.high {
			t.Errorf("%v to %v is %.2f-fold, outside the band", c.cold, c.warm, f)
		}
	}
	// The fit of Vogel, Fulcher and Tammann to the hardly thinned resin.
	vft := func(t float64) float64 { return math.Exp(-3.72813 + 1098.175/(t+273.15-210.277)) }
	within(t, "the fit at 25 °C", vft(25), 6433, 1)
	if f := unit.Number(vft(20) / vft(30)); f < thicker.high {
		t.Errorf("a resin that nothing thins is %.2f-fold: the band says that it thickens more", f)
	}
	s := Sheet{Viscosity: Figure[unit.Viscosity]{Taken: given(unit.Viscosity(0.5)), At: given(unit.Celsius(25))}}
	k := s.viscosity(unit.Celsius(15))
	if !close(float64(k.Value), 1, 1e-9) || !close(float64(k.Low), 0.75, 1e-9) || !close(float64(k.High), 1.4, 1e-9) || k.Typical {
		t.Errorf("500 mPa·s at 25 °C is at 15 °C %+v", k)
	}
	if k := (&Sheet{}).viscosity(unit.Celsius(25)); k.Value != 0.45 || k.Low != 0.3 || k.High != 0.6 || !k.Typical {
		t.Errorf("a silent sheet gives %+v", k)
	}
	s.Viscosity.At = unit.Taken[unit.Temperature]{}
	if k := s.viscosity(unit.Celsius(20)); k.Value != 0.5 || k.Low != 0.5 || !close(float64(k.High), 0.5*math.Sqrt(2.8), 1e-9) || !k.Typical {
		t.Errorf("at no temperature: %+v", k)
	}
}

// TestThinSpan holds the closed form against adding up in small steps.
func TestThinSpan(t *testing.T) {
	sum := 0.0
	for i := range 100000 {
		sum += math.Pow(10, -(float64(i)+0.5)/100000) / 100000
	}
	within(t, "tenfold", float64(thinSpan(1, 10)), sum, 1e-6)
}

// TestVacuum holds Boyle's law against the table of references, section 6, and
// gauges: 29 in of mercury below the atmosphere leave 3.120 kPa, at which a
// bubble is 32.48 times as large.
func TestVacuum(t *testing.T) {
	for _, c := range []struct{ kPa, volume, diameter float64 }{
		{50, 2.027, 1.265}, {20, 5.066, 1.718}, {10, 10.133, 2.164}, {5, 20.265, 2.726}, {3.386, 29.925, 3.105}, {1, 101.325, 4.662},
	} {
		v, d := VacuumGrowth(1000 * c.kPa)
		within(t, "volume", v, c.volume, 0.001)
		within(t, "diameter", d, c.diameter, 0.001)
	}
	v, _ := VacuumGrowth(StandardAir - 29*3386.389)
	within(t, "29 in of mercury", v, 32.48, 0.02)
}

// TestWoodAir: 991 cm³ of maple that warms by 3 °C pushes out about 5.7 cm³
// (shop notes, D5).
func TestWoodAir(t *testing.T) {
	within(t, "maple", WoodAir(991*unit.Millilitre, 654, unit.Celsius(20), unit.Celsius(23)).Millilitres(), 5.7, 0.05)
	if WoodAir(1, 654, unit.Celsius(23), unit.Celsius(20)) != 0 || WoodAir(1, 1600, unit.Celsius(20), unit.Celsius(23)) != 0 {
		t.Error("wood that cools, or has no pores, pushes air out")
	}
}

// TestAirOfAPour looks at the whole answer for a pour of the poppy stand.
func TestAirOfAPour(t *testing.T) {
	p := demo(t, "poppy-stand")
	p.Sheets[0].Viscosity = Figure[unit.Viscosity]{Taken: given(unit.Viscosity(0.5)), At: given(unit.Celsius(21))}
	pl := Make(p)
	a, ok := pl.Air(&p, "l4")
	if !ok || a.Viscosity.Value != 0.5 || a.Viscosity.Low != 0.5 || len(a.Bubbles) != len(bubbleSizes) || len(a.Vacuum) != len(vacuumSteps) {
		t.Fatalf("%+v", a)
	}
	// 0.5 mm at 1,093 kg/m³ rises at 0.2977 mm/s: 16 mm take 53.7 s; a free skin 35.8 s.
	half := a.Bubbles[2]
	within(t, "slow", float64(half.Time.Value), 53.7, 0.1)
	within(t, "fast", float64(half.Time.Low), 35.8, 0.1)
	if len(a.Baths) != len(bathMinutes) {
		t.Fatalf("%d baths", len(a.Baths))
	}
	for i, b := range a.Baths {
		if b.Comes.Value <= a.Resin || b.Comes.Value >= BathWater || b.Clears >= b.Else || b.Costs.Value <= b.Minutes || b.Costs.Low > b.Costs.Value || b.Costs.High < b.Costs.Value {
			t.Errorf("bath %d: %+v", i, b)
		}
		if i > 0 && (b.Comes.Value <= a.Baths[i-1].Comes.Value || b.Leaves.Value >= a.Baths[i-1].Leaves.Value) {
			t.Errorf("a longer bath warms less or costs less: %+v", b)
		}
	}
	mix := pl.Layer("l4").Mix.Total.Over(pl.Layer("l4").Density.Value)
	within(t, "foam at 5 kPa", a.Vacuum[2].Foam.Value.Per(mix), 1+0.05*20.265, 0.001)
	p.Shop.Resin = given(unit.Celsius(40))
	if a, _ := ptr(Make(p)).Air(&p, "l4"); len(a.Baths) != 0 {
		t.Error("warmer resin than the bath is put into it")
	}
	if _, ok := pl.Air(&p, "l99"); ok {
		t.Error("a pour that is none has air")
	}
	p.Shop.Resin, p.Sheets[0].WorkingTime = unit.Taken[unit.Temperature]{}, Figure[unit.Span]{}
	if a, _ := ptr(Make(p)).Air(&p, "l4"); !a.Smallest.Absent || !a.LastPass.Absent || !a.Baths[0].Leaves.Absent {
		t.Error("without a working time it is told when the pour is too thick")
	}
}

func ptr[T any](v T) *T { return &v }

// TestSmallLength: bubbles are told in mm and dust in µm, never in powers.
func TestSmallLength(t *testing.T) {
	for l, want := range map[unit.Length]string{0.5e-3: "0.5 mm", 40e-6: "40 µm", 0.1e-3: "0.1 mm", 0.123: "123 mm", 12.6e-3: "13 mm", 1.234e-3: "1.2 mm", 99e-6: "0.099 mm"} {
		if got := SmallLength(l); got != want || strings.Contains(got, "e") {
			t.Errorf("%v is written %q", float64(l), got)
		}
	}
}
