package views

import (
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// last gives the newest entry of the journal.
func last(b *bench) model.Entry {
	j := b.Snapshot().Project.Journal
	if len(j) == 0 {
		return model.Entry{}
	}
	return j[len(j)-1]
}

// choose touches an option.
func choose(c *touch.Choice, id string) {
	c.SetChosen(id)
	c.OnChange(id)
}

// inJournal tells whether the journal, once it is turned to, says something; what
// was turned to before is shown again.
func inJournal(p *curePage, words string) bool {
	was := p.tabs.at()
	p.tabs.turn(journalTab)
	defer p.tabs.turn(was)
	return shows(p.journal.root, words)
}

func TestNotesTakeAReadingWithOneTouch(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	p.notes.note.Debounce = 0
	tapOn(t, p.notes.root, "Note it") // the room as the shop has it
	b.settle()
	if e := last(b); e.Kind != model.EntryReading || e.Room.Value != unit.Celsius(21) || e.Part.Given() || !e.At.Equal(b.Now()) {
		t.Errorf("the room: %+v", e)
	}
	choose(p.notes.what, readPart)
	if !p.notes.note.Disabled() || !p.notes.tacks[0].Disabled() {
		t.Error("the resin can be read before it is poured")
	}
	tapOn(t, p.bench.root, "Start the pour of smoke-grey base")
	b.settle()
	typeInto(t, b, cureKey, readingPath, "31.5")
	b.clock.advance(time.Hour)
	tapOn(t, p.notes.root, "Note it")
	b.settle()
	if e := last(b); e.Kind != model.EntryReading || e.Layer == "" || e.Part.Value != unit.Celsius(31.5) || e.Room.Given() {
		t.Errorf("the resin: %+v", e)
	}
	if !inJournal(p, "Read 31.5 °C in smoke-grey base") {
		t.Errorf("journal %q", texts(p.journal.root))
	}
	// Another touch notes that it has not changed; a step moves it by half a degree.
	if p.notes.field.Text() != "31.5 °C" {
		t.Errorf("the last reading is not in the field, but %q", p.notes.field.Text())
	}
	p.notes.field.OnStep(1)
	b.clock.advance(time.Hour)
	tapOn(t, p.notes.root, "Note it")
	b.settle()
	if e := last(b); e.Part.Value != unit.Celsius(32) {
		t.Errorf("after a step: %+v", e)
	}
	choose(p.notes.what, readProbe)
	if p.notes.field.Text() != "" {
		t.Errorf("a probe that showed nothing yet: %q", p.notes.field.Text())
	}
	n := len(b.Snapshot().Project.Journal)
	tapOn(t, p.notes.root, "Note it")
	b.settle()
	if len(b.Snapshot().Project.Journal) != n || !shows(p.notes.root, "say what the thermometer shows") {
		t.Errorf("nothing was noted: %q", texts(p.notes.root))
	}
	typeInto(t, b, cureKey, readingPath, "52")
	tapOn(t, p.notes.root, "Note it")
	b.settle()
	if e := last(b); e.Kind != model.EntryProbe || e.Part.Value != unit.Celsius(52) || !inJournal(p, "A probe in smoke-grey base showed 52 °C at most") {
		t.Errorf("the probe: %+v", e)
	}
}

func TestNotesTakeWhatAFingerFeels(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	tapOn(t, p.bench.root, "Start the pour of smoke-grey base")
	b.settle()
	for _, f := range tackFinds {
		b.clock.advance(time.Hour)
		tapOn(t, p.notes.root, f.label)
		b.settle()
		if e := last(b); e.Kind != model.EntryTack || e.Feel != f.feel || e.Layer == "" {
			t.Errorf("%s: %+v", f.label, e)
		}
		if !inJournal(p, "Touched smoke-grey base: "+f.feel.Words()) {
			t.Errorf("journal %q", texts(p.journal.root))
		}
	}
	p.tabs.turn(journalTab)
	tapOn(t, p.journal.root, "Take back")
	b.settle()
	if _, stands := p.shot.Project.Entry(last(b).Of); stands {
		t.Error("it is not taken back")
	}
}

func TestNotesTakeWhatHappenedEarlier(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	shot := b.Snapshot()
	zone := shot.Project.Shop.Place()
	if p.notes.at.Visible() {
		t.Error("a time is asked for before it is needed")
	}
	choose(p.notes.when, "earlier")
	if !p.notes.at.Visible() {
		t.Fatal("no time is asked for")
	}
	late := b.Now().In(zone).Add(-10 * time.Hour).Format("15:04")
	typeInto(t, b, cureKey, whenPath, late)
	tapOn(t, p.notes.root, "The pour of smoke-grey base began then")
	b.settle()
	want := b.Now().Add(-10 * time.Hour)
	if e := last(b); e.Kind != model.EntryPourStarted || e.At.Sub(want).Abs() > time.Minute {
		t.Fatalf("the pour: %+v, want %v", e, want)
	}
	if p.notes.when.Chosen() != "now" {
		t.Error("what comes next would be noted as earlier too")
	}
	choose(p.notes.when, "earlier")
	typeInto(t, b, cureKey, whenPath, "11 h ago")
	tapOn(t, p.notes.root, tackFinds[0].label)
	b.settle()
	if e := last(b); e.Kind == model.EntryTack || !shows(p.notes.root, "This is before the pour of smoke-grey base was started") {
		t.Errorf("before the pour: %+v, %q", e, texts(p.notes.root))
	}
	typeInto(t, b, cureKey, whenPath, "some day")
	p.notes.tacks[0].Debounce = 0
	tapOn(t, p.notes.root, tackFinds[0].label)
	if !shows(p.notes.root, "write it like 23:30") {
		t.Errorf("%q", texts(p.notes.root))
	}
}

func TestBenchTellsHowThePieceCameOut(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	for _, l := range b.Snapshot().Plan.Layers {
		if err := b.StartPour(l.ID); err != nil {
			t.Fatal(err)
		}
		b.settle()
	}
	tapOn(t, p.bench.root, "It is out, but soft and bent")
	b.settle()
	if e := last(b); e.Kind != model.EntryDemolded || e.Feel != model.FeelBent || !inJournal(p, "Out of the mold, bent") {
		t.Errorf("%+v, %q", e, texts(p.journal.root))
	}
}
