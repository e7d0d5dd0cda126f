package views

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// TestChecklistByTouchAndKeys: one touch ticks and keeps the time, a slip counts
// once, another touch takes it back; arrows and Space do the same.
func TestChecklistByTouchAndKeys(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "day")
	b.settle()
	c := p.list
	n := len(c.rows)
	if want := fmt.Sprintf("Before the pour: 0 of %d done", n); n < 6 || !shows(c.root, want) {
		t.Fatalf("%d rows: %q", n, texts(c.root))
	}
	for id, r := range c.rows {
		if r.root.MinSize().Height < look.Bench {
			t.Errorf("%s is %v high", id, r.root.MinSize().Height)
		}
	}
	gloves := c.rows["gloves"]
	gloves.root.Tapped(&fyne.PointEvent{})
	gloves.root.Tapped(&fyne.PointEvent{})
	b.rested()
	journal := b.Snapshot().Project.Journal
	if len(journal) != 1 || journal[0].Kind != model.EntryChecked || journal[0].Check != "gloves" || journal[0].Layer != p.chosen().ID || journal[0].Text == "" {
		t.Fatalf("%+v", journal)
	}
	if !gloves.tick.on || !strings.Contains(gloves.why.Text(), "done, ") || !shows(c.root, fmt.Sprintf("1 of %d done", n)) {
		t.Errorf("ticked: %q", texts(gloves.root))
	}
	moldLegible(t, "the checklist", c.root)
	// By keys: down to the next line, and Space.
	b.desk.windows.Window(mixingKey).Canvas().Focus(gloves.root)
	gloves.root.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	air := c.rows["air"]
	if focused := b.desk.windows.Window(mixingKey).Canvas().Focused(); focused != fyne.Focusable(air.root) {
		t.Fatalf("the focus is on %v", focused)
	}
	air.root.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	b.rested()
	if !air.tick.on || !shows(c.root, fmt.Sprintf("2 of %d done", n)) {
		t.Error("Space does not tick")
	}
	time.Sleep(time.Millisecond)
	gloves.root.Tapped(&fyne.PointEvent{})
	b.rested()
	journal = b.Snapshot().Project.Journal
	if gloves.tick.on || len(journal) != 3 || journal[2].Kind != model.EntryWithdrawn || journal[2].Of != journal[0].ID && journal[2].Of != journal[1].ID {
		t.Errorf("taken back: %+v", journal)
	}
	b.clock.advance(touch.Settle - time.Millisecond)
	gloves.root.Tapped(&fyne.PointEvent{})
	b.rested()
	if gloves.tick.on {
		t.Error("a slip of the finger ticks")
	}
	b.clock.advance(time.Millisecond)
	gloves.root.Tapped(&fyne.PointEvent{})
	b.rested()
	if !gloves.tick.on {
		t.Error("what has settled cannot be ticked again")
	}
	// Poured, there is nothing to look at before it.
	if err := b.StartPour(p.chosen().ID); err != nil {
		t.Fatal(err)
	}
	b.settle()
	p.choose(b.Snapshot().Plan.Layers[0].ID)
	if c.root.Visible() {
		t.Error("it is poured, and the list stands")
	}
}
