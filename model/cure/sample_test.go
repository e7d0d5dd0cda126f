package cure

import (
	"context"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// invented is a product whose true figures are drawn from the stated bands, and
// the sheet that it comes with, which gives only some of them.
type invented struct {
	sheet Product
	true  Calibrated
}

// invent draws a product. Its sheet gives, by kind: 0 the working time of a
// cup; 1 the gel time of a thin layer and the softening temperature; 2 a gel
// time and the peak of a cup; 3 the start of the recoat window of a layer, the
// deepest layer, the working time and the activation energy.
func invent(t testing.TB, random *splitmix, kind int) invented {
	p := Product{Class: SlowClass}
	if random.unit() < 0.5 {
		p.Class = FastClass
	}
	if kind == 3 {
		p.Deepest = unit.Length(0.008 + 0.012*random.unit())
	}
	var f Figures
	for i := range Inputs {
		f[i] = p.Band(i).At(random.unit())
	}
	k := p.Class.kinetics()
	k = k.Shifted(unit.MolarEnergy(f[InActivation])-k.Activation(unit.Celsius(20), k.Gel), unit.Celsius(20)).Scaled(math.Exp(1.4*random.unit() - 0.7))
	k.Gel, k.Heat, k.Glass.Full = f[InGels], unit.SpecificEnergy(f[InHeat]), unit.Temperature(f[InSoftening])
	matter := Matter{"resin", Resin.Density, unit.SpecificHeat(f[InHeatStored]), unit.Conductivity(f[InConducts]), ""}
	at, mass := unit.Celsius(20+5*random.unit()), unit.Mass(0.1+0.3*random.unit())
	cup := func() *CupCourse {
		c := Cup{mass, matter, &k, at, Steady(at)}
		course, err := c.Run(context.Background(), 2*k.TimeTo(at, 0, k.Gel))
		if err != nil {
			t.Fatal(err)
		}
		return course
	}
	working := func() Quoted {
		w, _ := cup().Reached(f[InWorkingEnds])
		return Quoted{w, at, mass}
	}
	gel := Quoted{k.TimeTo(at, 0, k.Gel), at, 0}
	switch kind {
	case 0:
		p.Working = working()
	case 1:
		p.Gel, p.Softening = gel, unit.Temperature(f[InSoftening])
	case 2:
		p.Gel, p.Peak = gel, QuotedPeak{cup().Peak, at, mass}
	case 3:
		s := solver{f: f, c: Calibrated{Matter: matter}}
		layer, _ := s.tested(&k, at)
		c := course(t, &layer, Options{Until: 2 * gel.After, Limit: mostT})
		opens, ok := c.Reached(len(c.Owner)-1, k.Gel)
		if !ok {
			t.Fatal("the layer does not set")
		}
		p.RecoatFrom, p.Working, p.Activation = Quoted{opens, at, 0}, working(), unit.MolarEnergy(f[InActivation])
	}
	return invented{p, Calibrated{Kinetics: k.Scaled(f[InLot]), Matter: matter, From: k.Gel, glassy: max(f[InGlassy], k.Gel+leastWindow)}}
}

// The answers that are looked at: the peak of 250 g at 24 °C in K, and the hours
// to gel at 15 °C and to the end of the recoat window at 17 °C.
const answers = 3

func answer(t testing.TB, c *Calibrated) [answers]float64 {
	at := unit.Celsius(24)
	cup := Cup{0.25, c.Matter, &c.Kinetics, at, Steady(at)}
	course, err := cup.Run(context.Background(), 2*c.Kinetics.TimeTo(at, 0, c.Kinetics.Gel))
	if err != nil {
		t.Fatal(err)
	}
	return [answers]float64{
		float64(course.Peak),
		c.Kinetics.TimeTo(unit.Celsius(15), 0, c.Kinetics.Gel).Hours(),
		c.Kinetics.TimeTo(unit.Celsius(17), 0, c.RecoatTo(unit.Celsius(17))).Hours(),
	}
}

// coverage tells in which part of so many invented products the 80 % band of
// each answer holds the truth.
func coverage(t testing.TB, seed uint64, products int) (held [answers]float64) {
	random := splitmix(seed)
	for i := range products {
		x := invent(t, &random, i%4)
		var results [answers][]float64
		for _, s := range x.sheet.Samples(random.next(), 64) {
			c, err := s.Calibrate(context.Background(), Calibrated{})
			if err != nil {
				t.Fatal(err)
			}
			for j, v := range answer(t, &c) {
				results[j] = append(results[j], v)
			}
		}
		for j, truth := range answer(t, &x.true) {
			if low, high := Range(results[j]); low <= truth && truth <= high {
				held[j] += 100 / float64(products)
			}
		}
	}
	return held
}

func TestBandsHoldTheTruth(t *testing.T) {
	held := coverage(t, 1, 200)
	t.Logf("the 80 %% band holds the truth in %.1f %% of peaks, %.1f %% of gels, %.1f %% of recoat ends", held[0], held[1], held[2])
	for j, part := range held {
		if part < 74 || part > 86 {
			t.Errorf("answer %d: the 80 %% band holds the truth in %.1f %% of 200 products", j, part)
		}
	}
}

func TestSamplesFollowTheirSeed(t *testing.T) {
	p := allRoundResin()
	a, b, c := p.Samples(7, 64), p.Samples(7, 64), p.Samples(8, 64)
	same := true
	for i := range a {
		if a[i].Drawn != b[i].Drawn {
			t.Fatalf("sample %d of one seed differs", i)
		}
		same = same && a[i].Drawn == c[i].Drawn
	}
	if same {
		t.Error("two seeds give the same samples")
	}
	// A figure that becomes known does not stir the others, and is not drawn.
	q := p
	q.Heat = 300e3
	for i, s := range q.Samples(7, 64) {
		if s.Drawn[InHeat] != 300e3 || s.Drawn[InActivation] != a[i].Drawn[InActivation] {
			t.Fatalf("sample %d: %v, before %v", i, s.Drawn, a[i].Drawn)
		}
	}
	if got := p.Samples(1, -3); len(got) != 0 {
		t.Errorf("%d samples of -3", len(got))
	}
}

func TestStratifiedFillsEveryPart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 200).Draw(t, "n")
		list := Stratified(rapid.Uint64().Draw(t, "seed"), rapid.IntRange(0, 20).Draw(t, "column"), n)
		slices.Sort(list)
		for i, u := range list {
			if int(u*float64(n)) != i && math.Abs(u*float64(n)-float64(i)) > 1e-9 {
				t.Fatalf("number %d of %d is %v", i, n, u)
			}
		}
	})
}

func TestSplitmix(t *testing.T) {
	// The first numbers of the published generator from the state 1234567 (test
	// vector of its reference code, value from memory).
	s := splitmix(1234567)
	for i, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423} {
		if got := s.next(); got != want {
			t.Errorf("number %d is %d, want %d", i, got, want)
		}
	}
}

func TestBandAt(t *testing.T) {
	b := Band{50, 42, 60}
	for u, want := range map[float64]float64{0: 42, 0.25: 46, 0.5: 50, 0.75: 55, 1: 60} {
		if got := b.At(u); math.Abs(got-want) > 1e-12 {
			t.Errorf("at %v: %v, want %v", u, got, want)
		}
	}
	if got := (Band{20, 20, 25}).At(0.2); math.Abs(got-21) > 1e-12 {
		t.Errorf("to one side: %v, want 21", got)
	}
}

func TestQuantile(t *testing.T) {
	list := []float64{5, 1, 4, 2, 3, 9, 8, 7, 6} // point q(n+1) of the order, by hand
	for q, want := range map[float64]float64{0.1: 1, 0.5: 5, 0.9: 9, 0.25: 2.5, 0: 1, 1: 9} {
		if got := Quantile(list, q); math.Abs(got-want) > 1e-12 {
			t.Errorf("quantile %v = %v, want %v", q, got, want)
		}
	}
	if got := Quantile([]float64{math.NaN(), 2}, 0.5); got != 2 {
		t.Errorf("without what is no number: %v", got)
	}
	if got := Quantile(nil, 0.5); !math.IsNaN(got) {
		t.Errorf("of nothing: %v", got)
	}
	inf := math.Inf(1)
	if got := Quantile([]float64{1, inf, inf, inf}, 0.9); got != inf {
		t.Errorf("of what never comes: %v", got)
	}
}

func TestCausesNameTheFigureThatMatters(t *testing.T) {
	// Of a result that is the heat and a little of the activation energy, nearly
	// all is the heat; what was not drawn and what makes nothing is not named.
	p := Product{Gel: quoted(9, 20, 0)}
	samples := p.Samples(3, 64)
	var results []float64
	for _, s := range samples {
		results = append(results, math.Exp((s.Drawn[InHeat]-290e3)/70e3+0.2*(s.Drawn[InActivation]-55e3)/10e3))
	}
	list := Causes(samples, results)
	if len(list) == 0 || list[0].Input != InHeat || list[0].Part < 0.85 || list[0].Part > 1 {
		t.Fatalf("causes: %+v", list)
	}
	total := 0.0
	for _, c := range list {
		total += c.Part
		if c.Input == InSheetTemp || c.Input == InWorking {
			t.Errorf("%s was not drawn", c.Input.Label())
		}
		if c.Input.Label() == "" || c.Input.Learn() == "" {
			t.Errorf("input %d has no words", c.Input)
		}
	}
	if total > 1+1e-9 {
		t.Errorf("the parts come to %.3f", total)
	}
	// A result that nothing changes has no cause.
	for i := range results {
		results[i] = 4
	}
	if list := Causes(samples, results); len(list) != 0 {
		t.Errorf("causes of nothing: %+v", list)
	}
}

func BenchmarkSamples(b *testing.B) {
	p := allRoundResin()
	for b.Loop() {
		for _, s := range p.Samples(1, 64) {
			if _, err := s.Calibrate(context.Background(), Calibrated{}); err != nil {
				b.Fatal(err)
			}
		}
	}
}
