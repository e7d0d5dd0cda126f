package cure

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// Age gives the equivalent age of a cure in a room between two times: for how
// long it would have had to lie at the temperature ref to cure as far (ASTM
// C1074), which is what AgedAt solves for. Where to does not lie after from it is
// 0.
func (r *Room) Age(e unit.MolarEnergy, ref unit.Temperature, from, to unit.Span) unit.Span {
	age := unit.Span(0)
	r.stretches(from, to, func(a, b unit.Span) bool {
		age += r.stretch(e, ref, a, b)
		return true
	})
	return age
}

// logOf is a log in hours and °C.
func logOf(points ...[2]float64) []Reading {
	var list []Reading
	for _, p := range points {
		list = append(list, Reading{unit.Span(p[0]) * unit.Hour, unit.Celsius(p[1])})
	}
	return list
}

// stepped is how long before a reading a step to it is made.
const stepped = unit.Second / 1000

// inSteps gives a log in which each reading holds until the next, as a room is
// that was switched from one temperature to another. The readings may come in
// any order.
func inSteps(log []Reading) []Reading {
	var room Room
	sorted := room.Logged(log).Log
	var list []Reading
	for i, x := range sorted {
		if before := x.At - stepped; i > 0 && before > sorted[i-1].At && before < x.At {
			list = append(list, Reading{before, sorted[i-1].T})
		}
		list = append(list, x)
	}
	return list
}

func TestAgeOfAStepProfile(t *testing.T) {
	// 6 h at 18 °C, 6 h at 22 °C, 12 h at 26 °C: the equation of ASTM C1074 with
	// Q = 5000 K to 20 °C, and with 54.96 kJ/mol to 25 °C, computed with scipy.
	room := Steady(unit.Celsius(20)).Logged(inSteps(logOf([2]float64{0, 18}, [2]float64{6, 22}, [2]float64{12, 26}, [2]float64{24, 26})))
	for _, x := range []struct {
		e    unit.MolarEnergy
		ref  float64
		want float64
	}{{5000 * GasConstant, 20, 28.966}, {54960, 25, 21.234}} {
		got := room.Age(x.e, unit.Celsius(x.ref), 0, unit.Day).Hours()
		if math.Abs(got-x.want) > 0.001 {
			t.Errorf("to %v °C: %.4f h, want %.3f", x.ref, got, x.want)
		}
	}
}

func TestAgeOfASteadyRoom(t *testing.T) {
	// The closed form of a room that stays: hours times the age factor.
	room := Steady(unit.Celsius(15))
	if got, want := room.Age(54960, unit.Celsius(25), 0, 10*unit.Hour).Hours(), 4.633; math.Abs(got-want) > 0.002 {
		t.Errorf("10 h at 15 °C are %.4f h at 25, want %.3f", got, want)
	}
}

func TestAgeOfARamp(t *testing.T) {
	// Between two readings it runs straight. Of a straight ramp the trapezoidal
	// rule with a million parts is another way to the same.
	room := Steady(unit.Celsius(20)).Logged(logOf([2]float64{0, 12}, [2]float64{20, 38}))
	e, ref := unit.MolarEnergy(55e3), unit.Celsius(20)
	const n = 1_000_000
	want := 0.0
	for i := range n {
		want += 20. / n * AgeFactor(e, unit.Celsius(12+26*(float64(i)+0.5)/n), ref)
	}
	if got := room.Age(e, ref, 0, 20*unit.Hour).Hours(); math.Abs(got/want-1) > 1e-8 {
		t.Errorf("age %.9f h, want %.9f", got, want)
	}
	// Stepping through the readings instead would be 0.5 % off and more.
	steps := Steady(unit.Celsius(20)).Logged(inSteps(room.Log))
	if got := steps.Age(e, ref, 0, 20*unit.Hour).Hours(); math.Abs(got/want-1) < 0.005 {
		t.Errorf("steps come to the same, %.4f h", got)
	}
}

func TestAgeOfDayAndNight(t *testing.T) {
	room := Room{Mean: unit.Celsius(17), Swing: 4, Warmest: 3 * unit.Hour}
	const n = 1_000_000
	want := 0.0
	for i := range n {
		want += 50. / n * AgeFactor(55e3, room.At(unit.Span(50*(float64(i)+0.5)/n)*unit.Hour), unit.Celsius(20))
	}
	if got := room.Age(55e3, unit.Celsius(20), 0, 50*unit.Hour).Hours(); math.Abs(got/want-1) > 1e-8 {
		t.Errorf("age %.9f h, want %.9f", got, want)
	}
}

func TestAgeHangsOnTheReadingsAlone(t *testing.T) {
	// In whatever order readings come in, late or not, the past is the same; one
	// that is put right counts as if it had been so from the first; and an age is
	// the sum of its parts.
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		var log []Reading
		for i := range n {
			log = append(log, Reading{unit.Span(3600*i + rapid.IntRange(0, 3599).Draw(t, "second")), unit.Celsius(rapid.Float64Range(0, 40).Draw(t, "°C"))})
		}
		own := Steady(unit.Celsius(18))
		room := own.Logged(log)
		e, ref, end := unit.MolarEnergy(55e3), unit.Celsius(20), unit.Span(n+10)*unit.Hour
		age := room.Age(e, ref, 0, end)

		late := rapid.Permutation(slices.Clone(log)).Draw(t, "order")
		again := own.Logged(late)
		if got := again.Age(e, ref, 0, end); got != age {
			t.Fatalf("in another order %v, want %v", got, age)
		}
		wrong := slices.Clone(log)
		wrong[0].T += 5
		put := own.Logged(append(wrong, log[0]))
		if got := put.Age(e, ref, 0, end); got != age {
			t.Fatalf("put right %v, want %v", got, age)
		}
		cut := unit.Span(rapid.Float64Range(0, float64(end)).Draw(t, "cut"))
		if got := room.Age(e, ref, 0, cut) + room.Age(e, ref, cut, end); math.Abs(float64(got/age)-1) > 1e-6 {
			t.Fatalf("in two parts %v, want %v", got, age)
		}
		at, ok := room.AgedAt(e, ref, 0, end, age*0.6)
		if !ok || math.Abs(float64(room.Age(e, ref, 0, at)/(age*0.6))-1) > 1e-6 {
			t.Fatalf("aged %v at %v, %v", age*0.6, at, ok)
		}
		if _, ok := room.AgedAt(e, ref, 0, end, age*1.01); ok {
			t.Fatal("found an age past the end")
		}
	})
}

func TestAgeOfNothing(t *testing.T) {
	room := Steady(unit.Celsius(20))
	nan, inf := unit.Span(math.NaN()), unit.Span(math.Inf(1))
	for _, x := range [][2]unit.Span{{5, 5}, {5, 4}, {nan, 5}, {0, nan}, {-inf, 5}, {0, inf}} {
		if got := room.Age(55e3, unit.Celsius(20), x[0], x[1]); got != 0 {
			t.Errorf("from %v to %v: %v", x[0], x[1], got)
		}
	}
	if at, ok := room.AgedAt(55e3, unit.Celsius(20), 7, 100, 0); at != 7 || !ok {
		t.Errorf("no age at all: %v %v", at, ok)
	}
	if _, ok := room.AgedAt(55e3, unit.Celsius(20), 7, 100, nan); ok {
		t.Error("found an age that is no number")
	}
}

func TestGaps(t *testing.T) {
	log := logOf([2]float64{9, 20}, [2]float64{2, 20}, [2]float64{3, 21}, [2]float64{40, 19})
	got := Gaps(log, 0, 24*unit.Hour, 4*unit.Hour)
	want := []Gap{{3 * unit.Hour, 9 * unit.Hour}, {9 * unit.Hour, 24 * unit.Hour}}
	if !slices.Equal(got, want) {
		t.Errorf("gaps %v, want %v", got, want)
	}
	if got := Gaps(nil, 0, 3*unit.Hour, 4*unit.Hour); len(got) != 0 {
		t.Errorf("a short log without readings has gaps %v", got)
	}
}

func FuzzAge(f *testing.F) {
	f.Add(0., 293., 3600., 280., -5., 300., 0., 86400.)
	f.Add(math.NaN(), math.Inf(1), 1e300, -4., 0., 0., math.Inf(-1), math.NaN())
	f.Add(3600., 333., 0., 262., 3600., 290., -1e6, 1e6)
	f.Add(math.NaN(), math.Inf(1), 1e300, 23.2, 0., 178., 0., 1e6)
	f.Fuzz(func(t *testing.T, a, ta, b, tb, c, tc, from, to float64) {
		log := []Reading{{unit.Span(a), unit.Temperature(ta)}, {unit.Span(b), unit.Temperature(tb)}, {unit.Span(c), unit.Temperature(tc)}}
		room := Steady(unit.Celsius(20)).Logged(log)
		if age := room.Age(55e3, unit.Celsius(20), unit.Span(from), unit.Span(to)); math.IsNaN(float64(age)) || age < 0 {
			t.Errorf("%v from %v to %v comes to an age of %v", log, from, to, age)
		}
		last := math.Inf(-1)
		for _, x := range inSteps(log) {
			if !(float64(x.At) > last) {
				t.Errorf("steps of %v go back to %v", log, x.At)
			}
			last = float64(x.At)
		}
		for _, g := range Gaps(log, unit.Span(from), unit.Span(to), unit.Hour) {
			if !(g.To-g.From > unit.Hour) {
				t.Errorf("%v is no gap", g)
			}
		}
	})
}
