package cure

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

func quoted(hours, celsius, grams float64) Quoted {
	return Quoted{unit.Span(hours) * unit.Hour, unit.Celsius(celsius), unit.Mass(grams) * unit.Gram}
}

// The three products of the demonstration jobs.
func deepResin() Product {
	return Product{
		Density: 1093, Softening: unit.Celsius(55), Working: quoted(2.4, 22, 500), Gel: quoted(24, 22, 0),
		RecoatFrom: quoted(22, 22, 0), RecoatTo: quoted(40, 22, 0), Demold: quoted(120, 22, 0),
	}
}

func allRoundResin() Product {
	return Product{
		Density: 1090, Working: quoted(50./60, 20, 150),
		RecoatFrom: quoted(4, 20, 0), RecoatTo: quoted(7, 20, 0), Demold: quoted(30, 20, 0),
	}
}

func deepestResin() Product {
	return Product{
		Density: 1115, Softening: unit.Celsius(52), Working: quoted(4, 22, 0), Gel: quoted(44, 22, 0),
		RecoatFrom: quoted(36, 22, 0), RecoatTo: quoted(60, 22, 0), Demold: quoted(168, 22, 0),
	}
}

// sheetTest simulates a sheet's own test and gives how far off the sheet's own
// number it comes out, as a part of it.
func sheetTest(t testing.TB, p *Product, c *Calibrated, mass float64, q Quoted, to float64) float64 {
	t.Helper()
	if mass == 0 {
		return float64(c.Kinetics.TimeTo(q.At, 0, to)/q.After) - 1
	}
	cup := Cup{unit.Mass(mass) * unit.Gram, c.Matter, &c.Kinetics, q.At, Steady(q.At)}
	at, ok, err := cup.WhenCured(context.Background(), to, 3*q.After)
	if err != nil || !ok {
		t.Fatalf("the cup never gets there: %v", err)
	}
	return float64(at/q.After) - 1
}

func TestCalibrationGivesTheSheetItsOwnNumbers(t *testing.T) {
	for name, p := range map[string]Product{"deep": deepResin(), "all-round": allRoundResin(), "deepest": deepestResin()} {
		c, err := Calibrate(context.Background(), p)
		if err != nil {
			t.Fatal(name, err)
		}
		t.Logf("%s: %s, working ends at %.3f, recoat %.3f to %.3f, demold %.3f, sand %.3f, stalls at %.3f; %q", name, c.Class, c.Working, c.From, c.RecoatTo(p.RecoatTo.At), c.Demold(p.Demold.At), c.Sand(p.Demold.At), c.Kinetics.StallsAt(p.RecoatTo.At), c.Notes)
		grams := max(float64(p.Working.Mass/unit.Gram), 0)
		if grams == 0 {
			grams = 100
		}
		check := func(what string, off float64) {
			if math.Abs(off) > 0.005 {
				t.Errorf("%s: %s is %.2f %% off the sheet's", name, what, 100*off)
			}
		}
		check("working time", sheetTest(t, &p, &c, grams, p.Working, c.Working))
		check("recoat from", sheetTest(t, &p, &c, 0, p.RecoatFrom, c.From))
		check("recoat to", sheetTest(t, &p, &c, 0, p.RecoatTo, c.RecoatTo(p.RecoatTo.At)))
		check("demold", sheetTest(t, &p, &c, 0, p.Demold, c.Demold(p.Demold.At)))
		if p.Gel.Given() {
			check("gel", sheetTest(t, &p, &c, 0, p.Gel, c.Kinetics.Gel))
		}
	}
}

func TestSlabGivesTheSheetItsOwnHours(t *testing.T) {
	// The solver of pours agrees: a layer of half a millimetre held at the sheet's
	// temperature gels, opens and closes at the sheet's hours.
	for name, p := range map[string]Product{"deep": deepResin(), "all-round": allRoundResin()} {
		c, err := Calibrate(context.Background(), p)
		if err != nil {
			t.Fatal(name, err)
		}
		at := p.RecoatFrom.At
		slab := Slab{Strata: []Stratum{{Matter: c.Matter, Thickness: 0.5e-3, Cells: 5, Cure: &c.Kinetics, From: at}}, Below: unit.FilmCoefficient(math.Inf(1)), Above: StillAir, Room: Steady(at)}
		course, err := slab.Run(context.Background(), Options{Until: 2 * p.RecoatTo.After})
		if err != nil {
			t.Fatal(name, err)
		}
		for _, x := range []struct {
			q Quoted
			a float64
		}{{p.Gel, c.Kinetics.Gel}, {p.RecoatFrom, c.From}, {p.RecoatTo, c.RecoatTo(at)}} {
			if !x.q.Given() {
				continue
			}
			if got, ok := course.Reached(4, x.a); !ok || math.Abs(float64(got/x.q.After)-1) > 0.005 {
				t.Errorf("%s: the surface comes to %.3f at %.3f h, by the sheet %.3f", name, x.a, got.Hours(), x.q.After.Hours())
			}
		}
	}
}

func TestCalibrationFindsKnownKinetics(t *testing.T) {
	// Figures produced by known kinetics lead back to them: the rate by a gel time
	// or a working time, the activation energy by either at two temperatures, and
	// the heat by a peak.
	rapid.Check(t, func(t *rapid.T) {
		class := []Class{FastClass, SlowClass}[rapid.IntRange(0, 1).Draw(t, "class")]
		scale, shift := rapid.Float64Range(0.3, 3).Draw(t, "scale"), rapid.Float64Range(-8e3, 8e3).Draw(t, "shift")
		heat := unit.SpecificEnergy(rapid.Float64Range(220e3, 420e3).Draw(t, "heat"))
		byCup, grams := rapid.Bool().Draw(t, "by a cup"), rapid.Float64Range(50, 600).Draw(t, "grams")
		p := Product{Class: class, Softening: unit.Celsius(rapid.Float64Range(45, 90).Draw(t, "softening"))}
		true := class.kinetics().Shifted(unit.MolarEnergy(shift), unit.Celsius(20)).Scaled(scale)
		true.Heat, true.Glass.Full = heat, p.Softening
		f := p.typical()
		cup := func(celsius float64) Cup {
			c := cupOf(true, grams, celsius)
			return c
		}
		course := func(celsius float64, to float64) (*CupCourse, unit.Span) {
			c := cup(celsius)
			course, err := c.Run(context.Background(), 2*true.TimeTo(c.Start, 0, true.Gel))
			if err != nil {
				t.Fatal(err)
			}
			at, _ := course.Reached(to)
			return course, at
		}
		mass := unit.Mass(grams) * unit.Gram
		warm, at := course(21, f[InWorkingEnds])
		p.Peak = QuotedPeak{warm.Peak, unit.Celsius(21), mass}
		if byCup {
			_, other := course(27, f[InWorkingEnds])
			p.Working, p.WorkingOther = Quoted{at, unit.Celsius(21), mass}, Quoted{other, unit.Celsius(27), mass}
		} else {
			p.Gel = Quoted{true.TimeTo(unit.Celsius(21), 0, true.Gel), unit.Celsius(21), 0}
			p.GelOther = Quoted{true.TimeTo(unit.Celsius(29), 0, true.Gel), unit.Celsius(29), 0}
		}
		if warm.Peak < unit.Celsius(22) {
			t.Skip("a cup that hardly warms tells nothing of its heat")
		}
		c, err := Calibrate(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(c.Kinetics.Heat / heat); math.Abs(got-1) > 0.005 {
			t.Fatalf("heat is %.4f of the true one (peak %.2f °C)", got, warm.Peak.Celsius())
		}
		for _, celsius := range []float64{12, 21, 30} {
			for _, a := range []float64{0.05, 0.4, 0.7} {
				got, want := c.Kinetics.TimeTo(unit.Celsius(celsius), 0, a), true.TimeTo(unit.Celsius(celsius), 0, a)
				if math.Abs(float64(got/want)-1) > 0.01 {
					t.Fatalf("%.2f at %v °C after %.4f h, by the true kinetics %.4f", a, celsius, got.Hours(), want.Hours())
				}
			}
		}
	})
}

func TestFasterSheetIsFasterThroughout(t *testing.T) {
	// All hours of a sheet of thin layers divided by s divide every time by s.
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.Float64Range(0.25, 4).Draw(t, "s")
		p := deepestResin()
		p.Class, p.Working = SlowClass, Quoted{}
		a, err := Calibrate(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range []*Quoted{&p.Gel, &p.RecoatFrom, &p.RecoatTo, &p.Demold} {
			q.After /= unit.Span(s)
		}
		b, err := Calibrate(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		at := unit.Celsius(rapid.Float64Range(10, 30).Draw(t, "at"))
		for _, x := range [][2]float64{{a.Kinetics.Gel, b.Kinetics.Gel}, {a.From, b.From}, {a.RecoatTo(at), b.RecoatTo(at)}, {a.Demold(at), b.Demold(at)}} {
			if x[0] >= 1 {
				continue
			}
			got, want := b.Kinetics.TimeTo(at, 0, x[1])*unit.Span(s), a.Kinetics.TimeTo(at, 0, x[0])
			if math.Abs(float64(got/want)-1) > 1e-6 {
				t.Fatalf("%.5f h times %.3f, want %.5f", got.Hours(), s, want.Hours())
			}
		}
	})
}

func TestMomentsOfAPour(t *testing.T) {
	// What a sheet is silent on follows from the softening temperature. By hand
	// for one of 91 °C from -57 °C with λ 0.36903 (published set A): it softens at
	// 20 °C at conversion 0.7461, at 25 °C at 0.7710, at 40 °C at 0.8375.
	p := Product{Class: FastClass, Softening: unit.Celsius(91), Gel: quoted(9, 20, 0)}
	c, err := Calibrate(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	near := func(what string, got, want float64) {
		if math.Abs(got-want) > 1e-4 {
			t.Errorf("%s at %.4f, want %.4f", what, got, want)
		}
	}
	near("opens", c.From, 0.57735)
	near("closes at 20 °C", c.RecoatTo(unit.Celsius(20)), 0.7461)
	near("closes at 25 °C", c.RecoatTo(unit.Celsius(25)), 0.7710)
	near("closes at 40 °C", c.RecoatTo(unit.Celsius(40)), 0.78)
	near("comes out at 15 °C", c.Demold(unit.Celsius(15)), 0.7710)
	near("sands at 20 °C", c.Sand(unit.Celsius(20)), 0.8375)
	near("sands at 35 °C", c.Sand(unit.Celsius(35)), c.Kinetics.Glass.Conversion(unit.Celsius(45)))
	// One that softens at 42 °C keeps no shape in a shop of 35 °C.
	p.Softening = unit.Celsius(42)
	if c, err = Calibrate(context.Background(), p); err != nil {
		t.Fatal(err)
	}
	if got := c.Demold(unit.Celsius(35)); got <= 1 {
		t.Errorf("comes out at conversion %.3f, want never", got)
	}
}

func TestSheetIsNeverLoosenedByAWarmerShop(t *testing.T) {
	p := deepResin()
	c, err := Calibrate(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	own := c.Demold(p.Demold.At)
	for _, celsius := range []float64{5, 15, 22, 25, 30, 40} {
		if got := c.Demold(unit.Celsius(celsius)); got < own-1e-12 || celsius > 22 && got < c.Kinetics.Glass.Conversion(unit.Celsius(celsius))-1e-12 && c.margin >= 0 {
			t.Errorf("at %v °C comes out at conversion %.4f, at the sheet's own at %.4f", celsius, got, own)
		}
	}
}

func TestContradictionsAreSaid(t *testing.T) {
	for _, x := range []struct {
		name string
		p    Product
		says string
	}{
		{"working time above gel", Product{Gel: quoted(3, 20, 0), Working: quoted(5, 20, 200)}, "has set before the working time of 5 h ends"},
		{"window that closes first", Product{Gel: quoted(9, 20, 0), RecoatFrom: quoted(12, 20, 0), RecoatTo: quoted(8, 20, 0)}, "closes, at 8 h, before it opens"},
		{"window long before gel", Product{Gel: quoted(24, 20, 0), RecoatFrom: quoted(4, 20, 0)}, "opens at 4 h while"},
		{"demold in the liquid", Product{Gel: quoted(24, 20, 0), Demold: quoted(6, 20, 0)}, "demold time of 6 h comes before"},
		{"warmth that slows", Product{Gel: quoted(9, 20, 0), GelOther: quoted(12, 30, 0)}, "two gel times do not tell"},
		{"two times at one temperature", Product{Working: quoted(1, 20, 100), WorkingOther: quoted(0.5, 20, 100)}, "two working times do not tell"},
		{"activation against times", Product{Gel: quoted(12, 20, 0), GelOther: quoted(6, 30, 0), Activation: 80e3}, "activation energy of 51.2 kJ/mol, not its 80 kJ/mol"},
		{"peak that nothing gives", Product{Gel: quoted(40, 20, 0), Peak: QuotedPeak{unit.Celsius(300), unit.Celsius(20), 0.1}}, "gives the sheet's peak of 300 °C"},
		{"peak below the start", Product{Gel: quoted(9, 20, 0), Peak: QuotedPeak{unit.Celsius(15), unit.Celsius(20), 0.1}}, "no warmer than the cup"},
		{"peak against heat", Product{Gel: quoted(4, 20, 0), Heat: 200e3, Peak: QuotedPeak{unit.Celsius(150), unit.Celsius(20), 0.3}}, "the larger was taken"},
		{"cup of no mass", Product{Working: quoted(1, 20, 0)}, "100 g in a cup was taken"},
		{"nothing at all", Product{}, "gives no time"},
	} {
		c, err := Calibrate(context.Background(), x.p)
		if err != nil {
			t.Errorf("%s: %v", x.name, err)
			continue
		}
		if !strings.Contains(strings.Join(c.Notes, "\n"), x.says) {
			t.Errorf("%s: notes are %q, want one that says %q", x.name, c.Notes, x.says)
		}
		// The strongest figure holds all the same.
		if x.p.Gel.Given() {
			if off := sheetTest(t, &x.p, &c, 0, x.p.Gel, c.Kinetics.Gel); math.Abs(off) > 0.005 {
				t.Errorf("%s: gel is %.2f %% off", x.name, 100*off)
			}
		}
		if c.RecoatTo(unit.Celsius(20)) <= c.From {
			t.Errorf("%s: the window closes at %.3f and opens at %.3f", x.name, c.RecoatTo(unit.Celsius(20)), c.From)
		}
	}
}

func TestClassByItsTimes(t *testing.T) {
	for _, x := range []struct {
		p    Product
		want Class
	}{
		{Product{}, SlowClass},
		{Product{Working: quoted(0.5, 20, 100)}, FastClass},
		{Product{Working: quoted(3, 20, 100)}, SlowClass},
		{Product{Working: quoted(0.8, 32, 100)}, SlowClass}, // 1.9 h at 20 °C
		{Product{Gel: quoted(5, 20, 0)}, FastClass},
		{Product{Gel: quoted(30, 20, 0)}, SlowClass},
		{Product{Gel: quoted(30, 20, 0), Class: FastClass}, FastClass},
		{deepResin(), SlowClass}, {allRoundResin(), FastClass}, {deepestResin(), SlowClass},
	} {
		if got := x.p.class(); got != x.want {
			t.Errorf("%+v: %s, want %s", x.p, got, x.want)
		}
	}
}

func FuzzCalibrate(f *testing.F) {
	f.Add(3600., 293.15, 0.1, 86400., 295.15, 90000., 350., 290e3, 55e3, 325.)
	f.Add(-1., 0., 0., 0., 1e9, 1., math.Inf(1), math.NaN(), 1., 274.)
	f.Add(1e-9, 233.15, 1e-9, 1e7, 423.15, 1e-9, 201., 1e4, 150e3, 273.2)
	f.Fuzz(func(t *testing.T, working, at, mass, gel, gelAt, demold, peak, heat, activation, softening float64) {
		p := Product{
			Working:    Quoted{unit.Span(working), unit.Temperature(at), unit.Mass(mass)},
			Gel:        Quoted{unit.Span(gel), unit.Temperature(gelAt), 0},
			Demold:     Quoted{unit.Span(demold), unit.Temperature(at), 0},
			Peak:       QuotedPeak{unit.Temperature(peak), unit.Temperature(at), unit.Mass(mass)},
			Heat:       unit.SpecificEnergy(heat),
			Activation: unit.MolarEnergy(activation), Softening: unit.Temperature(softening),
		}
		c, err := Calibrate(context.Background(), p)
		if err != nil {
			if !errors.Is(err, ErrUnusable) {
				t.Errorf("refused with %v", err)
			}
			return
		}
		for _, v := range []float64{c.Kinetics.A1, c.Kinetics.A2, float64(c.Kinetics.Heat), c.Working, c.From, c.RecoatTo(293), c.Demold(293), c.Sand(293)} {
			if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
				t.Errorf("%+v gives %+v", p, c)
			}
		}
	})
}

func BenchmarkCalibrate(b *testing.B) {
	full := deepResin()
	cup := Product{Working: quoted(2.4, 22, 500)}
	peak := cup
	peak.Peak = QuotedPeak{unit.Celsius(80), unit.Celsius(22), 0.5}
	two := peak
	two.WorkingOther = quoted(1.4, 30, 500)
	for name, p := range map[string]Product{"gel": full, "cup": cup, "cup and peak": peak, "two cups and peak": two} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Calibrate(context.Background(), p); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func TestAPeakBeyondWhatThereIsIsNotForgotten(t *testing.T) {
	p := deepResin()
	p.Peak = QuotedPeak{}
	plain, err := Calibrate(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	p.Peak = QuotedPeak{T: unit.Celsius(400), At: unit.Celsius(22), Mass: 0.1}
	hot, err := Calibrate(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	if hot.Kinetics.Heat <= plain.Kinetics.Heat || len(hot.Notes) == 0 {
		t.Errorf("with a quoted peak of 400 °C it sets free %v J/kg, with none %v; %q", hot.Kinetics.Heat, plain.Kinetics.Heat, hot.Notes)
	}
}
