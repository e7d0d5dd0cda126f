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

func cureOn(t *testing.T, demo string) (*bench, *curePage) {
	b, p := pageOn(t, cureKey, demo)
	return b, p.(*curePage)
}

// tapToggle turns the first toggle over.
func tapToggle(t *testing.T, o fyne.CanvasObject) {
	t.Helper()
	for _, x := range test.LaidOutObjects(o) {
		if g, ok := x.(*touch.Toggle); ok {
			g.Tapped(&fyne.PointEvent{})
			return
		}
	}
	t.Fatal("no toggle")
}

// cureSays tells whether one text below o holds all of some words.
func cureSays(o fyne.CanvasObject, words string) bool {
	for _, x := range test.LaidOutObjects(o) {
		if text, ok := x.(*touch.Text); ok && strings.Contains(text.Text(), words) {
			return true
		}
	}
	return false
}

func TestCureCountsDownToTheNextStep(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	if got := p.frame.answer.Text(); got != "Nothing has been poured yet; next, pour smoke-grey base" || p.left.Visible() {
		t.Errorf("before the pour: %q", got)
	}
	tapOn(t, p.bench.root, "Start the pour of smoke-grey base")
	b.settle()
	plan := b.Snapshot().Plan
	step, ok := plan.NextStep(b.Now())
	if !ok {
		t.Fatal("no step")
	}
	if got, want := p.left.text.Text, until(step.Due, b.Now()); got != want {
		t.Errorf("countdown %q, want %q", got, want)
	}
	if !shows(p.content(), capitalised(step.Label)) || !shows(p.content(), p.clock.full(step.Due)) {
		t.Errorf("%q", texts(p.content()))
	}
	b.clock.advance(time.Second)
	p.tick(b.Now())
	if got, want := p.left.text.Text, until(step.Due, b.Now()); got != want {
		t.Errorf("a second later %q, want %q", got, want)
	}
	// The working time passes unseen.
	b.clock.advance(3 * time.Hour)
	p.tick(b.Now())
	if got := p.missed.Text(); !strings.Contains(got, "Due 24 min ago: ") && !strings.Contains(got, " ago: "+step.Label) {
		t.Errorf("missed: %q", got)
	}
}

func TestCureTellsOfThePourAgainstItsWindow(t *testing.T) {
	for _, c := range []struct {
		name, before, after string
		wait                time.Duration
	}{
		{"early", "Early: the window on smoke-grey base opens", "Poured early", 5 * time.Hour},
		{"open", "In the window on smoke-grey base", "Poured in the window", 36 * time.Hour},
		{"late", "Late: the window on smoke-grey base closed", "Poured late", 60 * time.Hour},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, p := cureOn(t, "poppy-stand")
			tapOn(t, p.bench.root, "Start the pour of smoke-grey base")
			b.settle()
			b.clock.advance(c.wait)
			p.tick(b.Now())
			if got := p.bench.window.Text(); !strings.HasPrefix(got, c.before) {
				t.Errorf("before: %q", got)
			}
			if err := b.StartPour(p.bench.next); err != nil {
				t.Fatal(err)
			}
			b.settle()
			if !cureSays(p.times.root, c.after) {
				t.Errorf("after: %q", texts(p.times.root))
			}
		})
	}
}

func TestCureTakesBackAndDemolds(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	tapOn(t, p.bench.root, "Start the pour of smoke-grey base")
	tapOn(t, p.bench.root, "Start the pour of smoke-grey base") // a glove fires twice
	b.settle()
	if n := len(b.Snapshot().Project.Journal); n != 1 {
		t.Fatalf("%d entries after one start", n)
	}
	p.tabs.turn(journalTab)
	if !shows(p.journal.root, "Pour of smoke-grey base started, the room at 21 °C") {
		t.Errorf("journal %q", texts(p.journal.root))
	}
	tapOn(t, p.journal.root, "Take back")
	b.settle()
	shot := b.Snapshot()
	if next, _ := shot.Plan.NextPour(); next.Name != "smoke-grey base" || len(shot.Project.Journal) != 2 || !shows(p.journal.root, "(taken back)") {
		t.Errorf("taken back: %+v", shot.Project.Journal)
	}
	for _, l := range shot.Plan.Layers {
		if b.desk.pages[cureKey].(*curePage).shot.Plan.CanDemold() {
			t.Error("it could come out before " + l.Name + " is poured")
		}
		if err := b.StartPour(l.ID); err != nil {
			t.Fatal(err)
		}
		b.settle()
	}
	tapOn(t, p.bench.root, "It is out of the mold")
	b.settle()
	plan := b.Snapshot().Plan
	if plan.CanDemold() || !shows(p.journal.root, "Out of the mold") {
		t.Errorf("demolded: %q", texts(p.journal.root))
	}
	p.journal.note.Restore("strings at the touch")
	tapOn(t, p.journal.root, "Note it with the time")
	b.settle()
	if j := b.Snapshot().Project.Journal; j[len(j)-1].Text != "strings at the touch" || p.journal.note.Text() != "" {
		t.Errorf("noted %+v, the field holds %q", j[len(j)-1], p.journal.note.Text())
	}
}

func TestCureTimesHereAndOnTheSheet(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	b.until("the simulation is in", func() bool { return b.Snapshot().CuringFresh })
	if !cureSays(p.times.root, "sheet: 2 h 24 min at 22 °C, 500 g; in this room 2 h 46 min") {
		t.Errorf("%q", texts(p.times.root))
	}
	typeInto(t, b, cureKey, "shop/room", "16")
	typeInto(t, b, cureKey, "shop/humidity", "60")
	shot := b.Snapshot()
	if shot.Project.Shop.Room.Written != "16 °C" || shot.Project.Shop.Humidity.Written != "60 %" || cureSays(p.times.root, "500 g; in this room 2 h 46 min") {
		t.Errorf("room %+v", shot.Project.Shop)
	}
	if err := b.Edit("bare", "", func(m *model.Project) error {
		m.Sheets[0] = model.Sheet{ID: "s2", Name: "bare"}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	silent := cureSays(p.times.root, "not known") || cureSays(p.times.root, "the sheet does not say") // before it is simulated, or after
	if !silent || !cureSays(p.times.root, "typical, not from the sheet") {
		t.Errorf("a bare sheet: %q", texts(p.times.root))
	}
}

func TestCureFitsTheScreen(t *testing.T) {
	for _, demo := range []string{"poppy-stand", "hall-shelf", ""} {
		b, p := cureOn(t, demo)
		check := func(when string) {
			if p.times.root.Visible() {
				moldLegible(t, demo+" "+when, p.times.root)
			}
			for _, tab := range p.tabs.tabs {
				p.tabs.turn(tab.option.ID)
				moldLegible(t, demo+" "+when+", "+tab.option.ID, tab.content)
				if least := p.content().MinSize(); least.Width > 1240 || least.Height > 700 {
					t.Errorf("%s, %s: the window needs %v for %s", demo, when, least, tab.option.ID)
				}
			}
		}
		check("before")
		if l, ok := p.shot.Plan.NextPour(); ok {
			if err := b.StartPour(l.ID); err != nil {
				t.Fatal(err)
			}
			b.settle()
			check("after the first pour")
		}
	}
}

// TestCureDemoldNotKnown: where nothing tells when the piece can come out of its mold
// the window says so and how to try it, and that it is out can be noted.
func TestCureDemoldNotKnown(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	b.did(b.Edit("No resin", "", func(m *model.Project) error {
		for i := range m.Layers {
			m.Layers[i].Sheet = ""
		}
		return nil
	}))
	for _, l := range b.newest().Layers {
		b.did(b.StartPour(l.ID))
	}
	b.settle()
	for _, want := range []string{"When it can come out of the mold is not known", "takes the mark of a thumbnail", "under Data sheet"} {
		if !shows(p.frame.root, want) {
			t.Errorf("it does not say %q: %q", want, texts(p.frame.root))
		}
	}
	if p.bench.stiff.Disabled() {
		t.Error("that it is out cannot be noted")
	}
	tapOn(t, p.frame.root, "It is out of the mold, stiff")
	b.settle()
	if shot := b.Snapshot(); !shot.Plan.Demolded() || shows(p.frame.root, "When it can come out of the mold is not known") {
		t.Error("it was not noted")
	}
}
