package model

import (
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// begun is a tray whose pour started at noon.
func begun() (Project, time.Time) {
	p := tray(300, 200, 30, 10)
	noon := time.Date(2026, 11, 27, 12, 0, 0, 0, time.UTC)
	p.Journal = []Entry{{ID: "e1", Kind: EntryPourStarted, Layer: "l1", At: noon, Room: given(unit.Celsius(15))}}
	return p, noon
}

func TestLogTakesWhatHappened(t *testing.T) {
	p, noon := begun()
	now := noon.Add(30 * time.Hour)
	reading, err := p.Reading("l1", "14.5", "75 °F")
	if err != nil || reading.Room.Written != "14.5 °C" || reading.Part.Written != "75 °F" {
		t.Fatalf("%+v, %v", reading, err)
	}
	room, err := p.Reading("", "12", "")
	if err != nil {
		t.Fatal(err)
	}
	probe, err := p.Probe("l1", "30.6")
	if err != nil {
		t.Fatal(err)
	}
	for i, e := range []Entry{reading, room, probe, {Kind: EntryTack, Layer: "l1", Feel: FeelStrings}, {Kind: EntryDemolded, Feel: FeelBent}, {Kind: EntryDemolded}, {Kind: EntryNote, Text: "x"}} {
		e.ID, e.At = "n"+itoa(i), now.Add(-time.Duration(i)*time.Hour)
		if err := p.Log(e, now); err != nil {
			t.Errorf("%+v: %v", e, err)
		}
	}
	if !slices.IsSortedFunc(p.Journal, inTime) || len(p.Journal) != 8 {
		t.Errorf("what was written down late does not stand in its place: %+v", p.Journal)
	}
	if problems := p.Validate(); len(problems) > 0 {
		t.Errorf("the journal is not whole: %v", problems)
	}
}

func TestLogRefuses(t *testing.T) {
	p, noon := begun()
	now := noon.Add(10 * time.Hour)
	p.Layers = append(p.Layers, Layer{ID: "l2", Name: "second", By: ToDepth, To: mm(5), Sheet: "s1"})
	before := p.Clone()
	warm := given(unit.Celsius(20))
	for _, c := range []struct {
		e     Entry
		field string
		says  string
	}{
		{Entry{Kind: EntryNote, At: now.Add(time.Second)}, "at", "still to come"},
		{Entry{Kind: EntryReading, At: now}, "room", "needs a temperature"},
		{Entry{Kind: EntryReading, At: now, Part: warm}, "layer", "which pour"},
		{Entry{Kind: EntryReading, At: now, Part: warm, Layer: "l2"}, "layer", "second has not been poured yet"},
		{Entry{Kind: EntryReading, At: now, Part: warm, Layer: "l9"}, "layer", "no such pour"},
		{Entry{Kind: EntryProbe, At: now, Layer: "l1"}, "part", "how hot"},
		{Entry{Kind: EntryProbe, At: now, Part: warm}, "layer", "which pour"},
		{Entry{Kind: EntryTack, At: now, Layer: "l1"}, "feel", "how it felt"},
		{Entry{Kind: EntryTack, At: now, Layer: "l1", Feel: FeelStiff}, "feel", "how it felt"},
		{Entry{Kind: EntryTack, At: now, Feel: FeelTape}, "layer", "which pour"},
		{Entry{Kind: EntryTack, At: noon.Add(-time.Second), Layer: "l1", Feel: FeelTape}, "at", "before the pour"},
		{Entry{Kind: EntryDemolded, At: now, Feel: FeelTape}, "feel", "stiff or bent"},
		{Entry{Kind: EntryNote, At: now, Feel: FeelHard}, "feel", "only a tack test"},
	} {
		c.e.ID = "x"
		err := p.Log(c.e, now)
		var problem *Problem
		if !errors.As(err, &problem) || problem.Field != "journal/x/"+c.field || !strings.Contains(problem.Message, c.says) {
			t.Errorf("%+v: %v, want %q at %s", c.e, err, c.says, c.field)
		}
	}
	if !reflect.DeepEqual(p, before) {
		t.Error("what was refused has left something")
	}
	for _, typed := range [][2]string{{"hot", ""}, {"72", ""}, {"", "900"}, {"", "5 mm"}} {
		_, err := p.Reading("l1", typed[0], typed[1])
		var problem *Problem
		if !errors.As(err, &problem) || problem.Message == "" {
			t.Errorf("read as typed %q: %v", typed, err)
		}
	}
}

// TestCorrectedStartMovesTheTimes: a start that was marked ten minutes late is
// put right the next day, and all instants move with it; the mistake stays on
// paper.
func TestCorrectedStartMovesTheTimes(t *testing.T) {
	p, noon := begun()
	p.Sheets[0].Demold = Figure[unit.Span]{Taken: given(30 * unit.Hour), At: given(unit.Celsius(15))}
	was := stepOf(t, Make(p), StepDemold).Due
	right, _ := p.Entry("e1")
	right.ID, right.At = "e3", noon.Add(-10*time.Minute)
	now := noon.Add(20 * time.Hour)
	if err := p.Correct("e1", "e2", right, now); err != nil {
		t.Fatal(err)
	}
	if due := stepOf(t, Make(p), StepDemold).Due; was.Sub(due) != 10*time.Minute {
		t.Errorf("the piece comes out at %v, was %v", due, was)
	}
	if len(p.Journal) != 3 || !p.TakenBack()["e1"] {
		t.Errorf("the journal forgot something: %+v", p.Journal)
	}
	if err := p.Correct("e1", "e4", right, now); err == nil {
		t.Error("what was taken back was corrected")
	}
	still := p.Clone()
	right.ID, right.At = "e5", now.Add(time.Hour)
	if err := p.Correct("e3", "e4", right, now); err == nil || !reflect.DeepEqual(p, still) {
		t.Errorf("a correction into what is to come: %v", err)
	}
}

// TestJournalOrderDoesNotMatter: the plan is the same in whatever order the
// entries were written down.
func TestJournalOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, noon := begun()
		p.Journal = append(p.Journal, Entry{ID: "e2", Kind: EntryPourStarted, Layer: "l1", At: noon.Add(time.Hour), Room: given(unit.Celsius(25))},
			Entry{ID: "e3", Kind: EntryTack, Layer: "l1", Feel: FeelTape, At: noon.Add(30 * time.Minute)}, Entry{ID: "e4", Kind: EntryWithdrawn, Of: "e9", At: noon})
		want := Make(p)
		q := p.Clone()
		q.Journal = rapid.Permutation(p.Journal).Draw(t, "order")
		if got := Make(q); !reflect.DeepEqual(got.Steps, want.Steps) || !reflect.DeepEqual(got.Findings, want.Findings) {
			t.Fatal("another order gives another plan")
		}
	})
}

func TestAhead(t *testing.T) {
	p, noon := begun()
	if list := p.Ahead(noon); len(list) != 0 {
		t.Errorf("at its time: %v", list)
	}
	if list := p.Ahead(noon.Add(-time.Minute)); len(list) != 1 {
		t.Errorf("with the clock set back: %v", list)
	}
}

func TestEntriesMadeOfNothingAreRefused(t *testing.T) {
	p, noon := begun()
	p.Shop.Wakes = "7:30"
	p.Journal = append(p.Journal, Entry{ID: "e2", Kind: EntryReading, At: noon}, Entry{ID: "e3", Kind: EntryTack, Layer: "l1", Feel: FeelBent, At: noon},
		Entry{ID: "e4", Kind: EntryProbe, Layer: "l1", Part: given(unit.Celsius(900)), At: noon})
	var fields []string
	for _, x := range p.Validate() {
		fields = append(fields, x.Field)
	}
	for _, want := range []string{"shop/wakes", "journal/e2/room", "journal/e3/feel", "journal/e4/part"} {
		if !slices.Contains(fields, want) {
			t.Errorf("%s is taken; refused are %q", want, fields)
		}
	}
}
