package views

import (
	"context"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/look"
)

// TestLessMotion: with less motion an alarm stands still, and the choice is there again after a restart; turned back, an
// alarm turns its ground once a second.
func TestLessMotion(t *testing.T) {
	store := newFakeStore()
	b := newBench(t, store)
	b.demo("poppy-stand")
	turns := func() (n int) {
		b.desk.alarms.ringing = []model.Alarm{{Step: model.Step{Label: "time", Due: b.Now()}}}
		b.desk.ring()
		c := b.desk.covers[notebookKey]
		for was := c.flash.turned; n < 1; n++ {
			b.desk.ring()
			if c.flash.turned == was {
				break
			}
		}
		b.desk.alarms.ringing = nil
		b.desk.ring()
		return n
	}
	if turns() == 0 || b.desk.still() {
		t.Error("with all motion an alarm stands still")
	}
	b.entries(notebookKey)["Look/Less motion"].Action()
	if !b.desk.still() || turns() != 0 {
		t.Error("with less motion an alarm turns its ground")
	}
	if !b.entries(notebookKey)["Look/Less motion"].Checked {
		t.Error("the menu does not mark the choice")
	}
	b.settle()
	b.end()
	again := newBench(t, store)
	if !again.desk.still() {
		t.Error("the choice is gone after a restart")
	}
	again.entries(notebookKey)["Look/Less motion"].Action()
	if again.desk.still() || again.entries(notebookKey)["Look/Less motion"].Checked {
		t.Error("it cannot be turned back")
	}
}

// TestDesktopAsksForStill: as long as the maker says nothing, things move as the
// desktop was told; what the maker says goes before that.
func TestDesktopAsksForStill(t *testing.T) {
	posts := make(chan func(), 100)
	store := newFakeStore()
	if err := store.PutSetting(layoutName, arrangement{}); err != nil {
		t.Fatal(err)
	}
	s, err := app.New(app.Options{Store: store, Clock: &fakeClock{now: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}, Post: func(f func()) { posts <- f }, NewID: func() string { return "id" },
		Still: func(context.Context) bool { return true }})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	d, err := NewDesk(look.Calm(test.NewTempApp(t)), s, nil)
	if err != nil {
		t.Fatal(err)
	}
	for deadline := time.After(10 * time.Second); !d.still(); {
		select {
		case f := <-posts:
			f()
		case <-deadline:
			t.Fatal("the desktop's wish never came")
		}
	}
	if fyne.CurrentApp().Settings().ShowAnimations() || !look.Still() {
		t.Error("the toolkit was not told")
	}
	d.turnMotion()
	if d.still() || look.Still() {
		t.Error("the maker's word does not go before the desktop's")
	}
}
