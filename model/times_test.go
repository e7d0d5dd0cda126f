package model

import (
	"testing"
	"time"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// poured starts the pour of a tray of a product with all times at 20 °C.
func poured(t *testing.T, start time.Time, room float64) Plan {
	t.Helper()
	p := tray(300, 200, 30, 10)
	s := &p.Sheets[0]
	at20 := given(unit.Celsius(20))
	s.WorkingTime = Figure[unit.Span]{Taken: given(50 * unit.Minute), At: at20}
	s.RecoatFrom = Figure[unit.Span]{Taken: given(4 * unit.Hour), At: at20}
	s.RecoatTo = Figure[unit.Span]{Taken: given(7 * unit.Hour), At: at20}
	s.Demold = Figure[unit.Span]{Taken: given(30 * unit.Hour), At: at20}
	s.FullCure = Figure[unit.Span]{Taken: given(7 * unit.Day), At: at20}
	p.Layers = append(p.Layers, Layer{ID: "l2", Name: "second", By: ToDepth, To: mm(5), Sheet: "s1"})
	p.Shop.Room = given(unit.Celsius(room))
	p.Journal = []Entry{{ID: "e1", Kind: EntryPourStarted, Layer: "l1", At: start.UTC()}}
	return Make(p)
}

func stepOf(t *testing.T, pl Plan, kind StepKind) Step {
	t.Helper()
	for _, s := range pl.Steps {
		if s.Kind == kind {
			return s
		}
	}
	t.Fatalf("no step %q", kind)
	return Step{}
}

// TestClockChangeMovesLabelsOnly pours in Britain on the evening before the
// clocks go back (25 October 2026, 02:00 BST to 01:00 GMT): the window opens
// after the same number of hours as on any other night.
func TestClockChangeMovesLabelsOnly(t *testing.T) {
	london, err := time.LoadLocation("Europe/London")
	if err != nil {
		t.Skip("no time zone data on this machine")
	}
	for _, night := range []struct {
		start        time.Time
		label, opens string
	}{
		{time.Date(2026, 10, 24, 22, 30, 0, 0, london), "01:30 GMT", "2026-10-25T01:30:00Z"},
		{time.Date(2026, 3, 28, 22, 30, 0, 0, london), "03:30 BST", "2026-03-29T02:30:00Z"},
		{time.Date(2026, 10, 17, 22, 30, 0, 0, london), "02:30 BST", "2026-10-18T01:30:00Z"},
	} {
		s := stepOf(t, poured(t, night.start, 20), StepRecoat)
		if got := s.Due.Sub(night.start); got != 4*time.Hour {
			t.Errorf("from %v the window opens after %v", night.start, got)
		}
		if got := s.Due.Format(time.RFC3339); got != night.opens {
			t.Errorf("from %v it opens at %s, want %s", night.start, got, night.opens)
		}
		if got := s.Due.In(london).Format("15:04 MST"); got != night.label {
			t.Errorf("from %v the label is %s, want %s", night.start, got, night.label)
		}
	}
}

// TestColdShopLengthens: 22 to 12 °C lengthens by 2.195 at 55 kJ/mol (Arrhenius).
func TestColdShopLengthens(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.Sheets[0].WorkingTime = Figure[unit.Span]{Taken: given(2 * unit.Hour), At: given(unit.Celsius(22)), Mass: given(500 * unit.Gram)}
	p.Shop.Room = given(unit.Celsius(12))
	k := Make(p).Layers[0].Times
	within(t, "factor", k.Factor, 2.195, 0.005)
	within(t, "working time", k.Working.Value.Hours(), 4.39, 0.01)
	if !(k.Working.Low < k.Working.Value && k.Working.Value < k.Working.High) {
		t.Errorf("the unknown activation energy gives no band: %+v", k.Working)
	}
}

func TestStepsFollowTheJournal(t *testing.T) {
	start := time.Date(2026, 11, 25, 18, 40, 0, 0, time.UTC)
	pl := poured(t, start, 20)
	if s, ok := pl.NextStep(start.Add(time.Minute)); !ok || s.Kind != StepWorkEnds || !s.Due.Equal(start.Add(50*time.Minute)) {
		t.Errorf("next is %+v", s)
	}
	if s, ok := pl.NextStep(start.Add(5 * time.Hour)); !ok || s.Kind != StepRecoatEnd {
		t.Errorf("five hours on, next is %+v", s)
	}
	if missed := pl.Missed(start.Add(8 * time.Hour)); len(missed) != 3 || missed[0].Kind != StepWorkEnds {
		t.Errorf("missed after eight hours: %+v", missed)
	}
	p := tray(300, 200, 30, 10)
	p.Journal = []Entry{{ID: "e1", Kind: EntryPourStarted, Layer: "l1", At: start}, {ID: "e2", Kind: EntryWithdrawn, Of: "e1", At: start}}
	if _, begun := p.PourStart("l1"); begun {
		t.Error("a withdrawn start still counts")
	}
}

func TestTimesGoByTheReadings(t *testing.T) {
	// A pour at 20 °C, 12 °C from hour 4 on, by equivalent age: what is left of the
	// sheet's time then takes as much longer as Arrhenius has it (ASTM C1074).
	p := tray(200, 200, 30, 10)
	p.Shop.Room = given(unit.Celsius(20))
	p.Sheets[0].RecoatFrom = Figure[unit.Span]{Taken: given(unit.Span(10 * unit.Hour)), At: given(unit.Celsius(20))}
	p.Sheets[0].Activation = Figure[unit.MolarEnergy]{Taken: given(55 * unit.KilojoulePerMole)}
	start := time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC)
	p.Journal = []Entry{{ID: "a", At: start, Kind: EntryPourStarted, Layer: "l1", Room: p.Shop.Room}}
	reading := func(id string, after time.Duration, c float64, part bool) Entry {
		e := Entry{ID: id, At: start.Add(after), Kind: EntryReading, Layer: "l1", Room: given(unit.Celsius(c))}
		if part {
			e.Room, e.Part = unit.Taken[unit.Temperature]{}, given(unit.Celsius(c))
		}
		return e
	}
	opens := func(p Project) float64 { return Make(p).Layers[0].Times.RecoatFrom.Value.Hours() }
	steady := opens(p)
	if !close(steady, 10, 1e-9) {
		t.Fatalf("steady: %v h", steady)
	}
	cold := p.Clone()
	cold.Journal = append(cold.Journal, reading("c", 4*time.Hour, 12, false), reading("b", 4*time.Hour-time.Second, 20, false))
	want := 4 + 6*cure.Lengthening(55*unit.KilojoulePerMole, unit.Celsius(12), unit.Celsius(20))
	if got := opens(cold); !close(got, want, 0.002) {
		t.Errorf("with a cold night: %v h, want %v", got, want)
	}
	// The part's own temperature counts before the room's.
	warm := cold.Clone()
	warm.Journal = append(warm.Journal, reading("d", time.Hour, 20, true), reading("e", 4*time.Hour, 20, true))
	if got := opens(warm); !close(got, 10, 0.01) {
		t.Errorf("with the part at 20 °C: %v h", got)
	}
	// Taken back, the past is as it was.
	cold.Journal = append(cold.Journal, Entry{ID: "f", At: start.Add(5 * time.Hour), Kind: EntryWithdrawn, Of: "b"}, Entry{ID: "g", At: start.Add(5 * time.Hour), Kind: EntryWithdrawn, Of: "c"})
	if got := opens(cold); !close(got, steady, 1e-9) {
		t.Errorf("taken back: %v h", got)
	}
}
