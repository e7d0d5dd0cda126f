package views

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/model"
	"meniscus/views/touch"
)

// shown is what a field of the open project shows.
func shown(b *bench, path string) string {
	shot := b.Snapshot()
	text, _ := model.Show(&shot.Project, path)
	return text
}

func TestHeatFieldsAreTyped(t *testing.T) {
	b, _ := cureOn(t, "poppy-stand")
	for _, c := range []struct{ key, path, typed, shown string }{
		{cureKey, "shop/night", "12.5", "12.5 °C"},
		{cureKey, "shop/resin", "70 °F", "70 °F"},
		{cureKey, "shop/wakes", "5:45", "05:45"},
		{cureKey, "shop/sleeps", "23.15", "23:15"},
		{cureKey, "shop/planned", "Fri 27 Nov 2026 18:40", "Fri 27 Nov 2026, 18:40"},
		{moldKey, "mold/thick", "12", "12 mm"},
		{layersKey, "layers/l3/lot", "B-2", "B-2"},
		{layersKey, "sheets/s2/workingOther", "5", "5 h"},
		{layersKey, "sheets/s2/workingOther/at", "14", "14 °C"},
		{layersKey, "sheets/s2/gelOther", "40", "40 h"},
		{layersKey, "sheets/s2/peak", "120", "120 °C"},
		{layersKey, "sheets/s2/peak/mass", "200", "200 g"},
		{layersKey, "sheets/s2/peakLimit", "55", "55 °C"},
		{layersKey, "sheets/s2/heat", "300", "300 J/g"},
	} {
		if b.desk.front != c.key {
			b.desk.Show(c.key).Resize(fyne.NewSize(1240, 700))
		}
		typeInto(t, b, c.key, c.path, c.typed)
		b.until(c.path+" shows "+c.shown, func() bool { return shown(b, c.path) == c.shown })
	}
}

func TestPlannedPourSaysItsDay(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	b.Enter("shop/zone", "UTC")
	b.settle()
	typeInto(t, b, cureKey, "shop/planned", "Fri 27 Nov 2026 18:40")
	b.until("the day is said", func() bool { return cureSays(p.content(), "Friday 27 November 2026, 18:40 UTC") })
	typeInto(t, b, cureKey, "shop/planned", "Thu 27 Nov 2026 18:40")
	b.until("what cannot be is kept beside the field", func() bool {
		text, reason, bad := problemOf(b, "shop/planned")
		return bad && text == "Thu 27 Nov 2026 18:40" && strings.Contains(reason, "is a Friday")
	})
	if got := b.Snapshot().Project.Shop.Planned; !got.Equal(time.Date(2026, 11, 27, 18, 40, 0, 0, time.UTC)) {
		t.Errorf("a day that is not took the place of one that is: %v", got)
	}
	typeInto(t, b, cureKey, "shop/planned", " ")
	b.until("it is cleared", func() bool { return b.Snapshot().Project.Shop.Planned.IsZero() })
}

func problemOf(b *bench, path string) (text, reason string, ok bool) {
	shot := b.Snapshot()
	return shot.Problem(path)
}

// TestUsualListSaysWhatStandsIn: what a mold stands on can be chosen and left
// open again, and then the window says what is used instead.
func TestUsualListSaysWhatStandsIn(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	p.tabs.turn("shop")
	list := func() *touch.Select {
		for _, x := range test.LaidOutObjects(p.content()) {
			if s, ok := x.(*touch.Select); ok && strings.Contains(s.Label, "bench") || ok && s.Label == "Not given" || ok && strings.Contains(s.Label, "Battens") {
				return s
			}
		}
		t.Fatal("no list")
		return nil
	}
	list().OnChange(string(model.BenchOpen))
	b.until("it stands on battens", func() bool { return b.Snapshot().Project.Shop.Bench == model.BenchOpen })
	if got := b.Snapshot().Project.Shop.Bench; cureSays(p.content(), "typical: wooden bench") {
		t.Errorf("it stands on %q", got)
	}
	list().OnChange("")
	b.until("it is left open", func() bool { return b.Snapshot().Project.Shop.Bench == "" })
	if got := b.Snapshot().Project.Shop.Bench; list().Label != "Not given" {
		t.Errorf("left open it stands on %q, shown %q", got, list().Label)
	}
	if !cureSays(p.content(), "typical: wooden bench") {
		t.Error("what stands in is not said")
	}
}

func TestJournalAheadOfTheClock(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	tapOn(t, p.bench.root, "Start the pour of smoke-grey base")
	b.until("the pour has begun", func() bool { return len(b.Snapshot().Project.Journal) == 1 })
	if cureSays(p.content(), "ahead of this machine's clock") {
		t.Error("a pour of now lies ahead")
	}
	b.clock.advance(-48 * time.Hour)
	p.see(b.Snapshot())
	if !cureSays(p.content(), "One entry lies ahead of this machine's clock") {
		t.Error("a clock set back is not told of")
	}
}
