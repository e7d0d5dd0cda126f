package views

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"meniscus/model"
)

// alarmBench opens a demo job with its first pour started, in the Cure window,
// and gives its steps.
func alarmBench(t *testing.T) (*bench, *curePage, []model.Step) {
	t.Helper()
	b, p := cureOn(t, "poppy-stand")
	beat(b, 0)
	if err := b.StartPour(b.Snapshot().Plan.Layers[0].ID); err != nil {
		t.Fatal(err)
	}
	rested(b)
	shot := b.Snapshot()
	return b, p, shot.Steps()
}

// rested waits until the curing is that of the plan and every window shows it.
func rested(b *bench) {
	b.settle()
	b.until("the simulation is in", func() bool { return b.Snapshot().CuringFresh })
	b.until("the windows behind show it", func() bool { return !b.desk.behind })
}

// beat lets time pass and the clock tick once.
func beat(b *bench, d time.Duration) {
	b.clock.advance(d)
	now := b.clock.Now()
	b.desk.alarms.tick(now)
	b.desk.tick(now)
	b.desk.keepWatch(now)
}

// flashing tells whether the window Cure flashes.
func (b *bench) flashing() bool { return b.desk.covers[cureKey].flash != nil }

// flash is what flashes in the window Cure, or nothing.
func (b *bench) flash() fyne.CanvasObject {
	if b.flashing() {
		return b.desk.covers[cureKey].flash
	}
	return container.NewStack()
}

// runTo lets time pass by steps that a machine that is awake makes.
func runTo(b *bench, at time.Time) {
	for left := at.Sub(b.clock.Now()); left > 0; left = at.Sub(b.clock.Now()) {
		beat(b, min(left, absence))
	}
}

// dueOf gives the instant of a kind of step.
func dueOf(t *testing.T, steps []model.Step, kind model.StepKind) time.Time {
	t.Helper()
	for _, s := range steps {
		if s.Kind == kind && !s.Due.IsZero() {
			return s.Due
		}
	}
	t.Fatal("no ", kind)
	return time.Time{}
}

// TestAlarmRingsUntilTouched: on the second, again every 30 s, once touched
// never again, also not in a program that is started anew.
func TestAlarmRingsUntilTouched(t *testing.T) {
	b, _, steps := alarmBench(t)
	due := dueOf(t, steps, model.StepWorkEnds)
	runTo(b, due.Add(-time.Second))
	a := b.desk.alarms
	if len(a.ringing) > 0 || b.flashing() {
		t.Fatalf("it rings too early: %+v", a.ringing)
	}
	want := fyne.NewNotification("Working time of smoke-grey base ends", "Poppy stand (demo)")
	test.AssertNotificationSent(t, want, func() { beat(b, time.Second) })
	if len(a.ringing) != 1 || !a.rang.Equal(b.Now()) || !b.flashing() {
		t.Fatalf("at its instant: %+v, last rung %v", a.ringing, a.rang)
	}
	for _, words := range []string{"Poppy stand (demo): working time of smoke-grey base ends", "no sound on this machine"} {
		if !shows(b.flash(), words) {
			t.Errorf("it does not say %q: %q", words, texts(b.flash()))
		}
	}
	test.AssertNotificationSent(t, nil, func() { beat(b, 29*time.Second) })
	if !a.rang.Equal(due) {
		t.Errorf("it rings again after 29 s: %v", a.rang.Sub(due))
	}
	beat(b, time.Second)
	if !a.rang.Equal(due.Add(30 * time.Second)) {
		t.Errorf("it does not ring again after 30 s: %v", a.rang.Sub(due))
	}
	b.desk.covers[cureKey].flash.Tapped(nil)
	if b.flashing() || len(a.ringing) > 0 {
		t.Error("it rings on")
	}
	for range 100 {
		beat(b, time.Second)
	}
	// The clock is set back to before the instant, and comes to it again.
	beat(b, -10*time.Minute)
	runTo(b, due.Add(time.Minute))
	if len(a.ringing) > 0 {
		t.Error("it rings again for a clock that was set back")
	}
	b.settle()
	c := again(t, b)
	beat(c, time.Second)
	if len(c.desk.alarms.ringing) > 0 {
		t.Error("it rings again in a program that is started anew")
	}
}

// again closes the program and starts it anew on the same notebook, at the same
// time.
func again(t *testing.T, b *bench) *bench {
	t.Helper()
	now, store := b.clock.Now(), b.store
	b.end()
	c := newBench(t, store)
	c.clock.advance(now.Sub(c.clock.Now()))
	c.until("it is open", func() bool { return c.Snapshot().Open })
	rested(c)
	return c
}

// TestAlarmUntouchedRingsAfterARestart: what began to ring goes on, however
// long the program was closed.
func TestAlarmUntouchedRingsAfterARestart(t *testing.T) {
	b, _, steps := alarmBench(t)
	runTo(b, dueOf(t, steps, model.StepWorkEnds))
	b.clock.advance(5 * time.Hour)
	c := again(t, b)
	test.AssertNotificationSent(t, nil, func() { beat(c, time.Second) })
	if r := c.desk.alarms.ringing; len(r) != 1 || r[0].Kind != model.StepWorkEnds || c.desk.alarms.rang.IsZero() {
		t.Errorf("%+v", r)
	}
}

// TestAlarmsMissedInSleep: what fell due while the machine slept, or while the
// clock was set forwards, is told of once, in order, by the notice alone.
func TestAlarmsMissedInSleep(t *testing.T) {
	b, p, steps := alarmBench(t)
	work, open, shut := dueOf(t, steps, model.StepWorkEnds), dueOf(t, steps, model.StepRecoat), dueOf(t, steps, model.StepRecoatEnd)
	runTo(b, work.Add(-time.Minute))
	beat(b, open.Add(time.Minute).Sub(b.Now()))
	if len(b.desk.alarms.ringing) > 0 || b.flashing() {
		t.Errorf("said twice: %+v", b.desk.alarms.ringing)
	}
	n := b.desk.notice
	if n == nil || !strings.HasPrefix(n.what, "2 steps came due") || strings.Index(n.do, "working time") > strings.Index(n.do, "window") {
		t.Fatalf("%+v", n)
	}
	runTo(b, shut)
	if r := b.desk.alarms.ringing; len(r) != 1 || r[0].Kind != model.StepRecoatEnd {
		t.Errorf("after waking: %+v", r)
	}
	// A pour that is started overtakes what rings.
	if err := b.StartPour(p.bench.next); err != nil {
		t.Fatal(err)
	}
	rested(b)
	beat(b, time.Second)
	if r := b.desk.alarms.ringing; len(r) > 0 || b.flashing() {
		t.Errorf("overtaken, and it rings: %+v", r)
	}
}

// TestAlarmsFitTheScreen: the window with an alarm still fits.
func TestAlarmsFitTheScreen(t *testing.T) {
	b, p, steps := alarmBench(t)
	runTo(b, dueOf(t, steps, model.StepWorkEnds))
	if least := p.content().MinSize(); least.Width > 1240 || least.Height > 700 {
		t.Errorf("the window needs %v", least)
	}
	if size := b.flash().Size(); size.Width < 1200 {
		t.Errorf("the banner is %v", size)
	}
	var many []model.Alarm
	for range 5 {
		many = append(many, b.desk.alarms.ringing...)
	}
	if lines := alarmLines(many, &p.clock); len(lines) != 4 || lines[3] != "and 2 more before" {
		t.Errorf("%q", lines)
	}
}
