package views

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/views/look"
)

// flashBench is alarmBench at the instant at which its first alarm rings.
func flashBench(t *testing.T) *bench {
	t.Helper()
	b, _, steps := alarmBench(t)
	runTo(b, dueOf(t, steps, model.StepWorkEnds).Add(-time.Second))
	return b
}

// TestFlashCoversEveryWindow: at the instant, calmly, until it is touched in any
// one of them.
func TestFlashCoversEveryWindow(t *testing.T) {
	b := flashBench(t)
	b.desk.Show(layersKey)
	for key, c := range b.desk.covers {
		if c.flash != nil {
			t.Errorf("%s flashes too early", key)
		}
	}
	beat(b, time.Second)
	looks := []bool{}
	for range 4 {
		for key, c := range b.desk.covers {
			f := c.flash
			if f == nil {
				t.Fatalf("%s does not flash", key)
			}
			if size := c.root.Size(); f.Size() != size || !strings.Contains(strings.ToLower(f.first.Text()), "working time") || f.heard.Size().Height < look.Glove || f.heard.Size().Width < size.Width-60 {
				t.Errorf("%s: %v of %v, %q, button %v", key, f.Size(), size, f.first.Text(), f.heard.Size())
			}
			if f.first.Cut() || f.others.Cut() || f.first.TextSize() < 2*look.Question {
				t.Errorf("%s: the words are %v high, cut off: %v", key, f.first.TextSize(), f.first.Cut())
			}
		}
		looks = append(looks, b.desk.covers[layersKey].flash.turned)
		beat(b, time.Second)
	}
	if looks[0] == looks[1] || looks[1] == looks[2] || looks[0] != looks[2] {
		t.Errorf("it does not change once a second: %v", looks)
	}
	b.desk.covers[layersKey].flash.Tapped(nil)
	for key, c := range b.desk.covers {
		if c.flash != nil || len(c.root.Objects) != 1 {
			t.Errorf("%s flashes on", key)
		}
	}
	if len(b.desk.alarms.ringing) > 0 {
		t.Error("it rings on")
	}
}

// TestFlashLosesNoTyping: what is being typed goes on into its entry; only once
// it rests does Enter answer, and then the entry has the keys again.
func TestFlashLosesNoTyping(t *testing.T) {
	b := flashBench(t)
	b.desk.Show(cureKey)
	p := b.desk.pages[cureKey].(*curePage)
	p.tabs.turnTo("shop/room")
	p.in.lead("shop/room")
	canvas := b.desk.covers[cureKey].window.Canvas()
	entry := canvas.Focused()
	if entry == nil {
		t.Fatal("nothing has the focus")
	}
	entry.TypedRune('1')
	beat(b, time.Second)
	f := b.desk.covers[cureKey].flash
	for _, r := range "8" {
		if canvas.Focused() != entry {
			t.Fatal("the flash takes the keys from what is being typed")
		}
		canvas.Focused().TypedRune(r)
	}
	beat(b, time.Second) // a digit came since the last look
	if canvas.Focused() != entry {
		t.Fatal("the flash takes the keys too early")
	}
	beat(b, time.Second)
	if canvas.Focused() != fyne.Focusable(f) {
		t.Fatalf("the keys go to %T", canvas.Focused())
	}
	b.settle()
	if got := b.Snapshot().Project.Shop.Room.Written; got != "18 °C" {
		t.Errorf("what was typed became %q", got)
	}
	f.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	if b.desk.covers[cureKey].flash != nil || canvas.Focused() != entry {
		t.Errorf("after Space: the keys go to %T", canvas.Focused())
	}
}

// TestFlashIsNotTouchedAway by a touch that was under way when it appeared, nor
// by the wiping hand; in the bench look Space answers it and goes on there.
func TestFlashIsNotTouchedAway(t *testing.T) {
	b := flashBench(t)
	b.desk.benchFrom(cureKey)
	c := b.desk.covers[cureKey]
	c.setLock(true)
	beat(b, time.Second)
	if c.flash == nil || c.root.Objects[len(c.root.Objects)-1] != fyne.CanvasObject(c.lock) {
		t.Fatal("the lock does not lie over the flash")
	}
	c.flash.Tapped(nil)
	if c.flash == nil {
		t.Fatal("a touch in the same moment answers it")
	}
	hitFlash := func(key fyne.KeyName) {
		b.clock.advance(time.Second)
		f := c.window.Canvas().Focused().(*flash)
		f.KeyDown(&fyne.KeyEvent{Name: key})
		f.TypedKey(&fyne.KeyEvent{Name: key})
	}
	hitFlash(fyne.KeySpace)
	if c.flash == nil || c.lock == nil {
		t.Error("a key answers it while the screen is wiped")
	}
	hitFlash(fyne.KeyEscape)
	if c.lock != nil || c.flash == nil {
		t.Error("Escape does not take the lock off")
	}
	hitFlash(fyne.KeySpace)
	if c.flash != nil || c.window.Canvas().Focused() != fyne.Focusable(c.bench) {
		t.Errorf("after Space the keys go to %T", c.window.Canvas().Focused())
	}
}
