package views

import (
	"context"
	"strings"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// stirBench opens a demo job in Mixing, turned to the mixing of its first pour.
func stirBench(t *testing.T) (*bench, *mixingPage) {
	t.Helper()
	b, p := mixingTurned(t, "poppy-stand", "stir")
	rested(b)
	beat(b, 0)
	return b, p
}

// TestStirByTouch goes through a mixing: each prompt when it is due, the end,
// what it leaves, and taking back.
func TestStirByTouch(t *testing.T) {
	b, p := stirBench(t)
	m := p.stir
	if m.prompt.Text() != "Not begun" || m.mixed.Visible() || m.back.Visible() || !m.begin.Visible() || m.begin.Style != touch.Primary {
		t.Errorf("before it: %q", texts(m.root))
	}
	total := m.timer.Total
	if !shows(m.root, "Common practice, no source") || !shows(m.root, "streaks") || !shows(m.root, "no funnel") {
		t.Errorf("it does not say what it goes by: %q", texts(m.root))
	}
	tapOn(t, m.root, "Begin mixing")
	b.rested()
	beat(b, 0)
	for _, prompt := range m.timer.Prompts[:4] {
		runTo(b, m.timer.Due(prompt).Add(time.Second))
		if m.prompt.Text() != prompt.Words {
			t.Errorf("after %v: %q, want %q", prompt.At, m.prompt.Text(), prompt.Words)
		}
		if want := mixClock(total - prompt.At - 1); m.left.text.Text != want {
			t.Errorf("after %v: %s left, want %s", prompt.At, m.left.text.Text, want)
		}
		if prompt.At > 0 && m.ground.StrokeWidth != 8 {
			t.Errorf("after %v nothing stands out", prompt.At)
		}
		if !strings.Contains(m.next.Text(), lowered(m.timer.Next.Words)) {
			t.Errorf("after %v: next %q", prompt.At, m.next.Text())
		}
		moldLegible(t, "mixing", m.root)
	}
	if !shows(m.root, "Pour it by") {
		t.Errorf("it does not say by when: %q", texts(m.root))
	}
	runTo(b, m.timer.Begun.Add(total.Duration()).Add(time.Second))
	if m.prompt.Text() != "Hold it to the light" || m.left.text.Text != "0:00 min" || !m.heard.Visible() {
		t.Errorf("at the end: %q", texts(m.root))
	}
	tapOn(t, m.root, "It is mixed")
	b.rested()
	beat(b, time.Second)
	if m.prompt.Text() != "Mixed" || m.mixed.Visible() || m.heard.Visible() || m.begin.Label != "Begin mixing another cup" {
		t.Errorf("mixed: %q", texts(m.root))
	}
	tapOn(t, m.root, "Take back that it is mixed")
	b.rested()
	if m.timer.State != model.MixOver {
		t.Errorf("taken back: %+v", m.timer)
	}
	tapOn(t, m.root, "Take the beginning back")
	b.rested()
	if m.timer.State != model.MixNotBegun || len(b.Snapshot().Project.Journal) != 4 {
		t.Errorf("taken back: %+v, %+v", m.timer, b.Snapshot().Project.Journal)
	}
}

// TestStirByKeys: Space on the button that has the focus begins and ends it.
func TestStirByKeys(t *testing.T) {
	b, p := stirBench(t)
	m := p.stir
	canvas := b.desk.windows.Window(mixingKey).Canvas()
	press := func(on *touch.Button) {
		t.Helper()
		canvas.Focus(on)
		on.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
		on.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace}) // a bounce
		b.rested()
	}
	press(m.begin)
	press(m.mixed)
	journal := b.Snapshot().Project.Journal
	if len(journal) != 2 || journal[0].Kind != model.EntryMixing || journal[1].Kind != model.EntryMixed {
		t.Errorf("%+v", journal)
	}
	press(m.hot)
	if !p.hot.root.Visible() || canvas.Focused() != fyne.Focusable(p.hot.back) {
		t.Fatal("the card is not open, or has not the focus")
	}
	p.hot.back.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if p.hot.root.Visible() || !p.frame.root.Visible() {
		t.Error("Escape does not close the card")
	}
}

// listen has what a bench sounds counted by its kind.
func listen(t *testing.T) func(model.StepKind) int {
	var mu sync.Mutex
	counts := map[string]int{}
	ear = func(_ context.Context, wav []byte) error {
		mu.Lock()
		defer mu.Unlock()
		counts[string(wav)]++
		return nil
	}
	t.Cleanup(func() { ear = nil })
	return func(kind model.StepKind) int {
		mu.Lock()
		defer mu.Unlock()
		return counts[string(app.Tone(kind))]
	}
}

// TestStirRings: each prompt once, also with the window closed; the end until it
// is mixed; nothing of it twice by a clock that was set back.
func TestStirRings(t *testing.T) {
	sounds := listen(t)
	b, p := stirBench(t)
	tapOn(t, p.stir.root, "Begin mixing")
	b.rested()
	beat(b, 0)
	timer := p.stir.timer
	a := b.desk.alarms
	b.desk.windows.Close(mixingKey)
	heard := func() int {
		b.settle()
		return sounds(model.StepMixPrompt)
	}
	for i, prompt := range timer.Prompts[1:4] {
		runTo(b, timer.Due(prompt).Add(-time.Second))
		if heard() != i {
			t.Errorf("before prompt %d: %d rang", i+1, heard())
		}
		beat(b, time.Second)
		b.until("the prompt sounds", func() bool { return sounds(model.StepMixPrompt) == i+1 })
		beat(b, time.Second)
	}
	beat(b, -100*time.Second)
	beat(b, time.Second)
	if heard() != 3 {
		t.Errorf("set back: %d rang", heard())
	}
	end := timer.Due(timer.Prompts[4])
	runTo(b, end.Add(-time.Second))
	want := fyne.NewNotification("Mixing time of smoke-grey base is over", "Poppy stand (demo)")
	test.AssertNotificationSent(t, want, func() { beat(b, time.Second) })
	b.until("the end sounds", func() bool { return sounds(model.StepMixed) == 1 })
	if len(a.ringing) != 1 || a.ringing[0].Kind != model.StepMixed || !a.rang.Equal(b.Now()) {
		t.Fatalf("the end: %+v", a.ringing)
	}
	for key, c := range b.desk.covers {
		if c.flash == nil {
			t.Errorf("%s does not flash", key)
		}
	}
	beat(b, 30*time.Second)
	if !a.rang.Equal(end.Add(30 * time.Second)) {
		t.Error("it does not ring again")
	}
	if err := b.Happened(model.Entry{Kind: model.EntryMixed, Layer: timer.Layer}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	beat(b, time.Second)
	if len(a.ringing) > 0 {
		t.Errorf("it is mixed, and it rings: %+v", a.ringing)
	}
}

// TestStirRingsForAClosedPiece: a cup rings also when the maker has turned to
// another piece, and offers to open its own; a cup of that other piece with the
// same layer is another.
func TestStirRingsForAClosedPiece(t *testing.T) {
	sounds := listen(t)
	b, p := stirBench(t)
	tapOn(t, p.stir.root, "Begin mixing")
	b.rested()
	mixed, timer := b.Snapshot().Project.ID, p.stir.timer
	b.demo("hall-shelf")
	beat(b, 0)
	if err := b.Happened(model.Entry{Kind: model.EntryMixing, Layer: b.Snapshot().Plan.Layers[0].ID}); err != nil {
		t.Fatal(err)
	}
	rested(b)
	runTo(b, timer.Due(timer.Prompts[1]))
	b.until("the prompt sounds", func() bool { return sounds(model.StepMixPrompt) > 0 })
	runTo(b, timer.Due(timer.Prompts[4]))
	a := b.desk.alarms
	of := func() (list []model.Alarm) {
		for _, x := range a.ringing {
			if x.Project == mixed {
				list = append(list, x)
			}
		}
		return list
	}
	if list := of(); len(list) != 1 || list[0].Kind != model.StepMixed || list[0].Layer != timer.Layer {
		t.Fatalf("of the closed piece: %+v", a.ringing)
	}
	a.hearStir(timer.Layer) // of the piece that is open
	if len(of()) != 1 {
		t.Error("heard for one piece, and the other is silent")
	}
	a.show(mixed)
	b.until("it is open", func() bool { return b.Snapshot().Project.ID == mixed })
	if len(of()) != 0 {
		t.Errorf("heard, and it rings: %+v", a.ringing)
	}
}

// TestStirSurvivesAKill: what was begun goes on in a program that is started
// anew, to the second.
func TestStirSurvivesAKill(t *testing.T) {
	b, p := stirBench(t)
	tapOn(t, p.stir.root, "Begin mixing")
	b.rested()
	begun := p.stir.timer.Begun
	if begun.IsZero() {
		t.Fatal("not begun")
	}
	b.settle()
	b.clock.advance(70 * time.Second)
	c := again(t, b)
	shot := c.Snapshot()
	timer := shot.Plan.MixTimer(&shot.Project, shot.Plan.Layers[0].ID, c.Now())
	if !timer.Begun.Equal(begun) || timer.State != model.MixRuns || timer.Elapsed < 70 || timer.Elapsed > 72 {
		t.Errorf("%+v", timer)
	}
}
