package app

import (
	"errors"
	"strings"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
)

// pouring is a bench with one layer whose pour has just been started.
func pouring(t *testing.T) (b *bench, layer string) {
	t.Helper()
	b = started(t)
	if err := b.Edit("Add a layer", "", func(p *model.Project) error { p.AddSheet(); p.AddLayer(); return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	layer = b.Snapshot().Project.Layers[0].ID
	if err := b.StartPour(layer); err != nil {
		t.Fatal(err)
	}
	b.settle()
	return b, layer
}

// TestWhatHappenedIsKept: readings, tack tests and peaks are on the disk, each
// at the time that it happened, also those written down late.
func TestWhatHappenedIsKept(t *testing.T) {
	b, layer := pouring(t)
	start := b.clock.Now()
	b.clock.advance(20 * time.Hour)
	now := b.clock.Now()
	for what, err := range map[string]error{
		"a reading":         b.AddReading(layer, "14.5", "21", time.Time{}),
		"one of the room":   b.AddReading("", "59 °F", "", start.Add(9*time.Hour)),
		"a tack test":       b.AddTack(layer, model.FeelTape, time.Time{}),
		"one of last night": b.AddTack(layer, model.FeelStrings, start.Add(8*time.Hour)),
		"a peak":            b.AddProbe(layer, "30.6", start.Add(11*time.Hour)),
		"the end":           b.DemoldFelt(model.FeelStiff),
	} {
		if err != nil {
			t.Errorf("%s: %v", what, err)
		}
	}
	b.settle()
	steps := len(b.Revisions())
	b.Close()
	b = newBench(t, b.path, nil)
	b.Reopen()
	b.settle()
	journal := b.Snapshot().Project.Journal
	if len(journal) != 7 || len(b.Revisions()) != steps {
		t.Fatalf("%d entries, %d states: %+v", len(journal), len(b.Revisions()), journal)
	}
	found := map[model.EntryKind][]model.Entry{}
	for i, e := range journal {
		if i > 0 && e.At.Before(journal[i-1].At) {
			t.Errorf("out of order: %+v", journal)
		}
		found[e.Kind] = append(found[e.Kind], e)
	}
	tacks := found[model.EntryTack]
	if len(tacks) != 2 || tacks[0].Feel != model.FeelStrings || !tacks[0].At.Equal(start.Add(8*time.Hour)) || tacks[1].Feel != model.FeelTape || !tacks[1].At.Equal(now) {
		t.Errorf("tack tests: %+v", tacks)
	}
	readings := found[model.EntryReading]
	if len(readings) != 2 || readings[0].Room.Written != "59 °F" || readings[1].Part.Value != unit.Celsius(21) || readings[1].Room.Written != "14.5 °C" {
		t.Errorf("readings: %+v", readings)
	}
	if p := found[model.EntryProbe]; len(p) != 1 || p[0].Part.Value != unit.Celsius(30.6) {
		t.Errorf("peak: %+v", p)
	}
	if d := found[model.EntryDemolded]; len(d) != 1 || d[0].Feel != model.FeelStiff {
		t.Errorf("taken out: %+v", d)
	}
	b.Close()
}

func TestWhatCannotHaveHappenedIsRefused(t *testing.T) {
	b, layer := pouring(t)
	start := b.clock.Now()
	b.clock.advance(5 * time.Hour)
	for says, err := range map[string]error{
		"still to come":  b.AddTack(layer, model.FeelTape, start.Add(6*time.Hour)),
		"before the":     b.AddTack(layer, model.FeelTape, start.Add(-time.Hour)),
		"how it felt":    b.AddTack(layer, "sticky", time.Time{}),
		"a temperature":  b.AddReading(layer, "", "", time.Time{}),
		"-20 to 60":      b.AddReading(layer, "95", "", time.Time{}),
		"no such pour":   b.AddProbe("l99", "30", time.Time{}),
		"stiff or bent":  b.DemoldFelt(model.FeelTape),
		"taken back":     b.Correct("e99", func(*model.Entry) {}),
		"number is want": b.AddProbe(layer, "warm", time.Time{}),
	} {
		var problem *model.Problem
		if !errors.As(err, &problem) || !strings.Contains(problem.Message, says) {
			t.Errorf("%v, want a problem that says %q", err, says)
		}
	}
	b.settle()
	if n := len(b.Snapshot().Project.Journal); n != 1 {
		t.Errorf("%d entries", n)
	}
	b.Close()
}

// TestCorrectionMovesThePast: a pour that was started earlier than was marked
// moves all that follows, and undo leaves it so.
func TestCorrectionMovesThePast(t *testing.T) {
	b, layer := pouring(t)
	marked := b.clock.Now()
	b.clock.advance(3 * time.Hour)
	first := b.Snapshot().Project.Journal[0].ID
	if err := b.Correct(first, func(e *model.Entry) { e.At = marked.Add(-time.Hour) }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	b.enter("name", "Poured")
	b.Undo()
	b.settle()
	shot := b.Snapshot()
	if len(shot.Project.Journal) != 3 || !shot.Project.TakenBack()[first] {
		t.Errorf("the journal: %+v", shot.Project.Journal)
	}
	for _, s := range shot.Plan.Steps {
		if s.Kind == model.StepPour && s.Layer == layer && !s.Due.Equal(marked.Add(-time.Hour)) {
			t.Errorf("poured at %v", s.Due)
		}
	}
	b.Close()
}
