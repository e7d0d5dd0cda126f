package views

import (
	"image/color"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/views/look"
)

// benchOn opens the bench look from a window on a screen of a size.
func benchOn(t *testing.T, key, demo string, wide, high float32) (*bench, *benchLook) {
	t.Helper()
	b, _ := pageOn(t, key, demo)
	b.until("the simulation is in", func() bool { return b.Snapshot().CuringFresh })
	b.desk.benchFrom(key)
	c := b.desk.covers[key]
	c.window.Resize(fyne.NewSize(wide, high))
	return b, c.bench
}

// hit presses a key in the bench look, as the toolkit would, some time after the
// last.
func hit(b *bench, l *benchLook, key fyne.KeyName) {
	b.clock.advance(time.Second)
	ev := &fyne.KeyEvent{Name: key}
	focused := l.cover.window.Canvas().Focused()
	focused.(interface{ KeyDown(*fyne.KeyEvent) }).KeyDown(ev)
	focused.TypedKey(ev)
	b.settle()
}

// typed types into the bench look.
func typed(l *benchLook, text string) {
	for _, r := range text {
		l.cover.window.Canvas().Focused().TypedRune(r)
	}
}

// press touches a button of the bench look by its label, some time after the
// last.
func press(t *testing.T, b *bench, l *benchLook, label string) {
	t.Helper()
	b.clock.advance(time.Second)
	for _, g := range l.buttons() {
		if strings.HasPrefix(g.Label(), label) {
			g.Tapped(nil)
			b.settle()
			return
		}
	}
	t.Fatalf("no button %q", label)
}

// kinds lists the kinds of the entries that stand, oldest first.
func kinds(b *bench) string {
	shot := b.Snapshot()
	var list []string
	for _, e := range shot.Project.Journal {
		list = append(list, string(e.Kind))
	}
	return strings.Join(list, ", ")
}

// TestBenchByPedal walks a pour through by Space alone, which acts on the
// primary button: that is all that a foot pedal sends.
func TestBenchByPedal(t *testing.T) {
	b, l := benchOn(t, mixingKey, "poppy-stand", 1366, 768)
	for range 6 {
		hit(b, l, fyne.KeySpace)
	}
	if got, want := kinds(b), "weighed A, weighed B, mixing, mixed, pour started, pour done"; got != want {
		t.Fatalf("the journal holds %s", got)
	}
	if l.at.Number != model.NumberLeft || l.mark != -1 {
		t.Errorf("after the pour: %+v, mark %d", l.at, l.mark)
	}
	hit(b, l, fyne.KeySpace)
	if got := kinds(b); strings.Count(got, ",") != 5 {
		t.Errorf("Space does something while there is nothing to do: %s", got)
	}
	// The times are those of the touches, a second apart.
	j := b.Snapshot().Project.Journal
	if d := j[1].At.Sub(j[0].At); d != time.Second {
		t.Errorf("B %v after A", d)
	}
	// Left by Escape, the window is as before.
	hit(b, l, fyne.KeyEscape)
	if c := l.cover; c.bench != nil || c.root.Objects[0] != c.room {
		t.Error("Escape does not leave")
	}
}

// TestBenchTakesBack: what was touched last is taken back by a further entry,
// and the step before stands there again.
func TestBenchTakesBack(t *testing.T) {
	b, l := benchOn(t, cureKey, "poppy-stand", 1366, 768)
	was := l.at
	press(t, b, l, "A is in")
	if l.at.Next == was.Next {
		t.Fatalf("nothing happened: %+v", l.at)
	}
	press(t, b, l, "Take back: A is in")
	if l.at.Next != was.Next || l.at.Figure != was.Figure || kinds(b) != "weighed A, withdrawn" {
		t.Errorf("taken back: %+v, %s", l.at, kinds(b))
	}
	for _, g := range l.buttons() {
		if strings.HasPrefix(g.Label(), "Take back") {
			t.Errorf("there is more to take back: %s", g.Label())
		}
	}
}

// TestBenchTouchesOnce: a wet glove touches twice, and a held key repeats.
func TestBenchTouchesOnce(t *testing.T) {
	b, l := benchOn(t, cureKey, "poppy-stand", 1366, 768)
	touchAfter := func(wait time.Duration) int {
		b.clock.advance(wait)
		l.rows[0][0].Tapped(nil)
		b.settle()
		return len(b.Snapshot().Project.Journal)
	}
	if n := touchAfter(time.Second); n != 1 {
		t.Fatalf("%d entries", n)
	}
	for range 5 {
		if n := touchAfter(290 * time.Millisecond); n != 1 {
			t.Fatalf("290 ms after the last touch it does the next: %d", n)
		}
	}
	if n := touchAfter(300 * time.Millisecond); n != 2 {
		t.Errorf("%d entries", n)
	}
	// A key that is held down comes again and again, without being pressed.
	hit(b, l, fyne.KeySpace)
	for range 20 {
		b.clock.advance(time.Second)
		l.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
		b.settle()
	}
	if n := len(b.Snapshot().Project.Journal); n != 3 {
		t.Errorf("a held key did %d things", n-2)
	}
}

// TestBenchAtTheScale: digits typed at once show what is to go; Enter keeps the
// reading; Escape takes the digits away before it leaves.
func TestBenchAtTheScale(t *testing.T) {
	b, l := benchOn(t, mixingKey, "poppy-stand", 1366, 768)
	typed(l, "30")
	if l.mode != benchKeys || l.number.Text() == l.at.Of || l.at.Number != model.NumberToGo {
		t.Fatalf("%+v", l.at)
	}
	togo := l.number.Text()
	typed(l, "0")
	if l.number.Text() == togo {
		t.Error("a further digit changes nothing")
	}
	hit(b, l, fyne.KeyBackspace)
	if l.number.Text() != togo || l.typed != "30" {
		t.Errorf("%q after a backspace: %s", l.typed, l.number.Text())
	}
	hit(b, l, fyne.KeyEscape)
	hit(b, l, fyne.KeyEscape)
	if l.mode != benchActs || l.cover.bench == nil {
		t.Fatal("Escape")
	}
	m := b.Snapshot().Plan.Layers[0].Mix
	s := b.Snapshot().Project.Style
	for _, c := range []struct {
		off  float64 // last digits
		word string
	}{{-30, "Slowly"}, {0, "Stop"}, {40, "Too much"}} {
		l.turn(benchKeys)
		typed(l, strings.TrimSuffix(s.MassTo(m.A+m.Step.Times(c.off), m.Step), " g"))
		if !strings.HasPrefix(l.of.Text(), c.word+" · ") || !l.sign.Visible() {
			t.Errorf("%v last digits off: %q", c.off, l.of.Text())
		}
	}
	hit(b, l, fyne.KeyReturn)
	if e := b.Snapshot().Project.Journal; len(e) != 1 || e[0].Gross.Written == "" || e[0].Text != "" {
		t.Fatalf("%+v", e)
	}
	if !strings.Contains(l.more.Text(), "because A is") {
		t.Errorf("B is not re-aimed: %q", l.more.Text())
	}
	// Less than there is in the cup cannot be kept, and it says why.
	typed(l, "1")
	hit(b, l, fyne.KeyReturn)
	if n := len(b.Snapshot().Project.Journal); n != 1 || !strings.Contains(l.more.Text(), "othing has gone in") {
		t.Errorf("%d entries, %q", n, l.more.Text())
	}
}

// TestBenchMore: a note, a temperature and a stop by keys alone.
func TestBenchMore(t *testing.T) {
	b, l := benchOn(t, cureKey, "poppy-stand", 1920, 1080)
	press(t, b, l, "More")
	press(t, b, l, "Note")
	typed(l, "a leak at the seam")
	hit(b, l, fyne.KeyReturn)
	press(t, b, l, "More")
	press(t, b, l, "Temperature")
	typed(l, "18.5")
	press(t, b, l, "It is the room")
	for range 2 {
		hit(b, l, fyne.KeySpace) // A and B
	}
	press(t, b, l, "Stop: too hot")
	if l.mode != benchHot || !strings.Contains(l.next.Text(), "smoke") {
		t.Errorf("no card: %q", l.next.Text())
	}
	hit(b, l, fyne.KeySpace)
	if j := b.Snapshot().Project.Journal; kinds(b) != "note, reading, weighed A, weighed B, too hot" || j[0].Text != "a leak at the seam" || j[1].Room.Written != "18.5 °C" || l.mode != benchActs {
		t.Errorf("%+v", j)
	}
}

// TestBenchPhoto: a picture is asked for over the bench look, and kept with the
// time and the pour that is in the mold.
func TestBenchPhoto(t *testing.T) {
	b, l := benchOn(t, cureKey, "poppy-stand", 1920, 1080)
	press(t, b, l, "More")
	press(t, b, l, "Photo")
	over := l.cover.window.Canvas().Overlays()
	if over.Top() == nil || l.mode != benchActs {
		t.Fatal("no picture is asked for")
	}
	over.Remove(over.Top())
}

// TestBenchLock: no touch comes through; two corners in their order within 2 s,
// with nothing between, or Escape take it off, and the number goes on.
func TestBenchLock(t *testing.T) {
	b, l := benchOn(t, cureKey, "poppy-stand", 1366, 768)
	for range 6 {
		hit(b, l, fyne.KeySpace)
	}
	press(t, b, l, "Lock to wipe")
	c := l.cover
	if c.lock == nil || len(l.buttons()) > 0 {
		t.Fatal("it is not locked")
	}
	was := l.number.Text()
	b.clock.advance(time.Hour)
	b.desk.tick(b.clock.Now())
	if l.number.Text() == was {
		t.Error("the number stands still")
	}
	at := func(wait time.Duration, what fyne.Tappable) {
		b.clock.advance(wait)
		what.Tapped(&fyne.PointEvent{})
	}
	for i, wrong := range [][]fyne.Tappable{{c.lock.second, c.lock.first}, {c.lock.first, c.lock, c.lock.second}, {c.lock, c.lock}} {
		for _, what := range wrong {
			at(300*time.Millisecond, what)
		}
		at(time.Minute, c.lock)
		if c.lock == nil {
			t.Fatalf("%d unlocks", i)
		}
	}
	at(0, c.lock.first)
	at(2001*time.Millisecond, c.lock.second)
	hit(b, l, fyne.KeySpace)
	if c.lock == nil || strings.Count(kinds(b), ",") != 5 {
		t.Fatal("too slowly, and it unlocks")
	}
	at(0, c.lock.first)
	at(time.Second, c.lock.second)
	if c.lock != nil || len(l.buttons()) == 0 {
		t.Error("it stays locked")
	}
	press(t, b, l, "Lock to wipe")
	hit(b, l, fyne.KeyEscape)
	if c.lock != nil || c.bench == nil {
		t.Error("Escape")
	}
}

// TestBenchContrast measures everything that is read in the bench look and the
// flash, in both lights: 7:1 (WCAG 2.2, 1.4.6), and 3:1 for edges and signs that
// mean something (1.4.11).
func TestBenchContrast(t *testing.T) {
	for name, p := range map[string]look.Palette{"paper": look.Paper, "evening": look.Evening} {
		for what, pair := range map[string][2]color.NRGBA{
			"words on the ground": {p.Ink, p.Ground}, "words on a button": {p.Ink, p.Panel}, "words on the primary button": {p.Ink, p.Press},
			"the number near its mark": {p.Ink, p.Press}, "the flash": {p.Ground, p.Ink},
		} {
			if got := look.Contrast(pair[0], pair[1]); got < 7 {
				t.Errorf("%s: %s has %.2f:1", name, what, got)
			}
		}
		for what, pair := range map[string][2]color.NRGBA{
			"the edge of a button": {p.Line, p.Ground}, "the edge of the primary button": {p.Accent, p.Ground}, "the mark": {p.Ink, p.Ground}, "the edge of too much": {p.Stop, p.Ground},
		} {
			if got := look.Contrast(pair[0], pair[1]); got < 3 {
				t.Errorf("%s: %s has %.2f:1", name, what, got)
			}
		}
	}
}

// TestBenchDrawsLittle: a second that changes no words draws nothing.
func TestBenchDrawsLittle(t *testing.T) {
	b, l := benchOn(t, cureKey, "poppy-stand", 1366, 768)
	for range 6 {
		hit(b, l, fyne.KeySpace)
	}
	was, rows := l.number.Text(), l.rows[0]
	for range 20 {
		b.clock.advance(time.Second)
		b.desk.tick(b.clock.Now())
	}
	if &rows[0] != &l.rows[0][0] {
		t.Error("the buttons are made anew every second")
	}
	if now := l.number.Text(); strings.Count(now, ":") > 0 || len(was) != len(now) {
		t.Errorf("%q became %q", was, now)
	}
}

// TestBenchFromAnyWindow: a window that has no bench look of its own opens that
// of the clock; the size that is remembered is that of the page.
func TestBenchFromAnyWindow(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	b.desk.Show(cureKey).Resize(fyne.NewSize(901, 602))
	b.desk.noteSizes()
	b.desk.benchFrom(notebookKey)
	c := b.desk.covers[cureKey]
	if c.bench == nil || c.window.Canvas().Focused() != fyne.Focusable(c.bench) {
		t.Fatal("the bench look does not open with the keys in its hand")
	}
	c.window.Resize(fyne.NewSize(1920, 1080))
	b.desk.noteSizes()
	b.desk.close(cureKey)
	if got := b.desk.sizes[cureKey]; got != fyne.NewSize(901, 602) {
		t.Errorf("the window is remembered as %v", got)
	}
	if _, open := b.desk.covers[cureKey]; open {
		t.Error("it is still there")
	}
}
