package views

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/views/touch"
)

// TestBenchTellsOfAFullDisk: what was touched last stands there with its
// countdown, and that it is not kept, until there is room again.
func TestBenchTellsOfAFullDisk(t *testing.T) {
	b, l := benchOn(t, cureKey, "poppy-stand", 1366, 768)
	full := func(is bool) {
		b.store.mu.Lock()
		defer b.store.mu.Unlock()
		b.store.full = is
	}
	for range 4 {
		hit(b, l, fyne.KeySpace)
	}
	full(true)
	b.clock.advance(time.Second)
	l.buttons()[l.mark].Tapped(nil)
	b.until("the trouble is known", func() bool { return b.Snapshot().Saved.What != "" && l.told.Text() != "" })
	if s := l.told.Text(); !strings.HasPrefix(s, "Stop: Not kept: "+errFull.Error()) || !l.stripSign.Visible() || l.seen != nil {
		t.Errorf("%q", s)
	}
	if l.at.Number != model.NumberLeft || l.number.Text() == "" || !strings.HasPrefix(l.at.Next, "Pour") {
		t.Errorf("the countdown: %+v", l.at)
	}
	was := l.number.Text()
	beat(b, time.Minute)
	if l.number.Text() == was {
		t.Error("the countdown stands still")
	}
	checkBench(t, "a full disk", l, fyne.NewSize(1366, 768))
	full(false)
	b.Retry()
	b.until("it is kept", func() bool { return b.Snapshot().Saved.What == "" && l.told.Text() == "" })
	if !strings.HasSuffix(kinds(b), "pour started") || l.stripSign.Visible() {
		t.Errorf("%s, %q", kinds(b), l.told.Text())
	}
}

// TestBenchTellsWhatWasMissed: the machine sleeps past two steps with the bench
// look open; it is told once, in order, with what is still possible, and put away
// with one touch, in every window. So is a clock that was set back.
func TestBenchTellsWhatWasMissed(t *testing.T) {
	for _, size := range benchScreens {
		b, l := benchOn(t, cureKey, "poppy-stand", size.Width, size.Height)
		beat(b, 0)
		for range 6 {
			hit(b, l, fyne.KeySpace)
		}
		rested(b)
		shot := b.Snapshot()
		steps := shot.Steps()
		work, open := dueOf(t, steps, model.StepWorkEnds), dueOf(t, steps, model.StepRecoat)
		runTo(b, work.Add(-time.Minute))
		beat(b, open.Add(time.Hour).Sub(b.Now()))
		whole := readOn(t, b, l, "what was missed", size)
		at := 0
		for _, words := range []string{"Check: 2 steps came due while you were away", "working time of smoke-grey base ends, ", "recoat window of smoke-grey base opens, ", "In the window on smoke-grey base"} {
			if i := strings.Index(whole, words); i < at {
				t.Errorf("%q is not in its place in %q", words, whole)
			} else {
				at = i
			}
		}
		if l.cover.flash != nil || strings.Count(whole, "working time") != 1 {
			t.Errorf("%q", whole)
		}
		checkBench(t, "what was missed", l, size)
		press(t, b, l, "More")
		checkBench(t, "what was missed, more", l, size)
		press(t, b, l, "Temperature now")
		checkBench(t, "what was missed, keys", l, size)
		// By keys alone: up to it, and Space.
		for range 3 {
			if l.seen == nil || l.seen.Marked() {
				break
			}
			hit(b, l, fyne.KeyUp)
		}
		if l.low() {
			hit(b, l, fyne.KeyEscape)
			press(t, b, l, "Read on")
		}
		hit(b, l, fyne.KeySpace)
		if l.told.Text() != "" || l.seen != nil || b.desk.notice != nil {
			t.Errorf("it stays: %q", l.told.Text())
		}
		for range 5 {
			beat(b, time.Second)
		}
		if l.told.Text() != "" {
			t.Errorf("told again: %q", l.told.Text())
		}
		beat(b, -3*time.Hour)
		if !strings.HasPrefix(l.told.Text(), "Check: This machine's clock was set back by 3 h.") {
			t.Errorf("told of a clock that was set back: %q", l.told.Text())
		}
		checkBench(t, "a clock that was set back", l, size)
		if l.low() {
			press(t, b, l, "Read on")
		}
		press(t, b, l, "I have seen it")
		if l.told.Text() != "" {
			t.Errorf("it stays: %q", l.told.Text())
		}
		b.end()
	}
}

// readOn gives all that the strip tells, by its button where only the beginning has
// room, and looks at what that shows.
func readOn(t *testing.T, b *bench, l *benchLook, what string, size fyne.Size) string {
	t.Helper()
	if !l.low() {
		return l.told.Text()
	}
	if !strings.HasSuffix(l.told.Text(), "…") {
		t.Errorf("%s on %v: %q has more behind it", what, size, l.told.Text())
	}
	press(t, b, l, "Read on")
	checkBench(t, what+", read on", l, size)
	defer hit(b, l, fyne.KeyEscape)
	return l.of.Text() + ": " + l.next.Text()
}

// TestBenchStripHoldsTheMost that may come at once: a full disk, and steps of
// three pieces that were missed, one of them past its window; nothing is clipped,
// and no line on the larger screen is below 34 pixels.
func TestBenchStripHoldsTheMost(t *testing.T) {
	onlyDrawn(t)
	for _, size := range benchScreens {
		b, l := benchOn(t, cureKey, "poppy-stand", size.Width, size.Height)
		for range 6 {
			hit(b, l, fyne.KeySpace)
		}
		rested(b)
		late := dueOf(t, l.timed.Steps, model.StepRecoatEnd).Add(time.Hour)
		b.clock.advance(late.Sub(b.Now()))
		var due []model.Alarm
		for i, label := range []string{"working time of smoke-grey base ends", "recoat window of smoke-grey base opens", "recoat window of smoke-grey base closes", "working time of second lift of the slab ends", "can come out of its mold", "has cured fully"} {
			piece := []string{"Poppy stand (demo)", "Five breakfast boards (demo)", "River table with two slabs of elm (demo)"}[i/2]
			due = append(due, model.Alarm{Key: label, Project: []string{b.Snapshot().Project.ID, "two", "three"}[i/2], Piece: piece, Step: model.Step{Label: label, Due: late.Add(-time.Hour)}})
		}
		shot := b.Snapshot()
		b.desk.say(missedNotice(span{from: late.Add(-30 * time.Hour), to: late}, due, &shot))
		check := func(what string) {
			t.Helper()
			checkBench(t, what, l, size)
			if line := fyne.MeasureText("Mg", l.told.TextSize(), fyne.TextStyle{Bold: true}).Height; size.Width == 1920 && line < 34 {
				t.Errorf("%s: a line of the strip is %v high", what, line)
			}
		}
		check("six that were missed")
		if whole := readOn(t, b, l, "six that were missed", size); !strings.Contains(whole, "3 before, and then ") || !strings.Contains(whole, "sand before you pour") {
			t.Errorf("%q", whole)
		}
		l.shot.Saved.Pending, l.shot.Saved.What, l.shot.Saved.Do = true, "There is no room left on the disk for /home/maker/.local/share/meniscus/notebook.db.", "Make room on the disk and save again; nothing saved before is lost."
		l.show()
		if !strings.HasPrefix(l.told.Text(), "Stop: Not kept: There is no room") {
			t.Errorf("%q", l.told.Text())
		}
		check("that and a full disk")
		readOn(t, b, l, "that and a full disk", size)
		b.desk.notice = nil
		l.show()
		check("a full disk")
		b.end()
	}
}

// TestBenchMends a cup with too much of B: what to add, what that makes and the
// time left for it; past a third of the working time nothing is added any more,
// and another cup is weighed.
func TestBenchMends(t *testing.T) {
	for _, size := range benchScreens {
		b, l := benchOn(t, cureKey, "poppy-stand", size.Width, size.Height)
		hit(b, l, fyne.KeySpace)
		m := b.Snapshot().Plan.Layers[0].Mix
		typed(l, strings.TrimSuffix(b.Snapshot().Project.Style.MassTo(m.A+m.B.Times(1.4), m.Step), " g"))
		hit(b, l, fyne.KeyReturn)
		rested(b)
		l.show()
		for _, words := range []string{"+40.0 % hardener. In all ", " too much: into a spare mold", " min left for it."} {
			if !strings.Contains(l.more.Text(), words) {
				t.Errorf("no %q in %q", words, l.more.Text())
			}
		}
		if !strings.HasPrefix(l.next.Text(), "Add ") || !l.at.Hot {
			t.Errorf("%+v", l.at)
		}
		checkBench(t, "too much of B", l, size)
		b.desk.notice = &notice{level: model.Check, what: "Two steps came due while you were away"}
		if l.show(); l.told.Text() != "" || l.more.Hidden || !strings.Contains(l.more.Text(), "+40.0 %") {
			t.Errorf("a notice lies over the mending: %q", l.told.Text())
		}
		b.desk.notice = nil
		press(t, b, l, "Type a reading")
		typed(l, "1")
		checkBench(t, "too much of B, a reading", l, size)
		hit(b, l, fyne.KeyEscape)
		hit(b, l, fyne.KeyEscape)
		beat(b, 90*time.Minute)
		l.show()
		if !strings.HasPrefix(l.next.Text(), "Bin it") || len(l.rows[0]) != 1 || !l.rows[0][0].Marked() || l.rows[0][0].Label() != "Weigh another cup" {
			t.Errorf("too late: %+v", l.at)
		}
		checkBench(t, "too late", l, size)
		was := kinds(b)
		hit(b, l, fyne.KeySpace)
		if kinds(b) != was || !strings.HasSuffix(l.next.Text(), "of A") {
			t.Errorf("another cup: %q, %s", l.next.Text(), kinds(b))
		}
		checkBench(t, "another cup", l, size)
		hit(b, l, fyne.KeySpace)
		if !strings.HasSuffix(l.next.Text(), "of B") {
			t.Errorf("after its A: %q", l.next.Text())
		}
		b.end()
	}
}

// TestBenchTemperatureUnchanged: one touch keeps the one that was noted last; the
// first key that is typed takes its place.
func TestBenchTemperatureUnchanged(t *testing.T) {
	b, l := benchOn(t, cureKey, "poppy-stand", 1366, 768)
	press(t, b, l, "More")
	press(t, b, l, "Temperature now")
	last := b.Snapshot().Project.Style.Temperature(b.Snapshot().Project.Shop.Room.Value)
	if l.number.Text() != last {
		t.Errorf("it shows %q", l.number.Text())
	}
	press(t, b, l, "Keep "+last+": room")
	if j := b.Snapshot().Project.Journal; len(j) != 1 || j[0].Room.Written != last || l.mode != benchActs {
		t.Fatalf("%+v", j)
	}
	press(t, b, l, "More")
	press(t, b, l, "Temperature now")
	typed(l, "17")
	press(t, b, l, "It is the room")
	press(t, b, l, "More")
	press(t, b, l, "Temperature now")
	if l.number.Text() != "17 °C" {
		t.Errorf("it shows %q", l.number.Text())
	}
}

// TestBenchKeypadBounces: the same key within 120 ms is one touch, another key at
// once is its own, and the same one later is a second.
func TestBenchKeypadBounces(t *testing.T) {
	b, l := benchOn(t, cureKey, "poppy-stand", 1366, 768)
	press(t, b, l, "Type a reading")
	for _, c := range []struct {
		wait time.Duration
		key  string
		want string
	}{{time.Second, "1", "1"}, {119 * time.Millisecond, "1", "1"}, {120 * time.Millisecond, "1", "11"}, {0, "2", "112"}, {time.Millisecond, "3", "1123"}, {0, "3", "1123"}} {
		b.clock.advance(c.wait)
		for _, g := range l.buttons() {
			if g.Label() == c.key {
				g.Tapped(nil)
			}
		}
		if l.typed != c.want {
			t.Fatalf("%q after %v of %q, want %q", l.typed, c.wait, c.key, c.want)
		}
	}
}

// TestCureNotesThePour: what was placed, and that the pour has ended, with one
// touch each in Cure, only while they apply.
func TestCureNotesThePour(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	if p.bench.ended.Visible() || p.bench.placed.Visible() {
		t.Error("offered before a pour")
	}
	tapOn(t, p.bench.root, "Start the pour")
	b.settle()
	if !p.bench.ended.Visible() {
		t.Fatal("no way to say that the pour has ended")
	}
	b.clock.advance(time.Minute)
	tapOn(t, p.bench.root, "Pour ended")
	b.settle()
	if p.bench.ended.Visible() || !strings.HasSuffix(kinds(b), "pour done") {
		t.Errorf("%s", kinds(b))
	}
	if err := b.AddTack(b.Snapshot().Plan.Layers[0].ID, model.FeelTape, b.Now()); err != nil {
		t.Fatal(err)
	}
	b.settle()
	for n := 0; p.bench.placed.Visible(); n++ {
		if n > 9 {
			t.Fatal("there is no end to what is placed")
		}
		time.Sleep(touch.Settle)
		tapOn(t, p.bench.root, "Placed ")
		b.settle()
	}
	if !strings.HasSuffix(kinds(b), "placed") {
		t.Errorf("%s", kinds(b))
	}
}

// TestBenchReaims: why B is re-aimed, after too much of A or too little, stands
// there in two lines.
func TestBenchReaims(t *testing.T) {
	for _, size := range benchScreens {
		for _, share := range []float64{0.9, 1.08} {
			b, l := benchOn(t, cureKey, "poppy-stand", size.Width, size.Height)
			m, s := b.Snapshot().Plan.Layers[0].Mix, b.Snapshot().Project.Style
			typed(l, strings.TrimSuffix(s.MassTo(m.A.Times(share), m.Step), " g"))
			checkBench(t, "A off", l, size)
			hit(b, l, fyne.KeyReturn)
			if !strings.Contains(l.more.Text(), "B is ") {
				t.Errorf("%q", l.more.Text())
			}
			checkBench(t, "B re-aimed", l, size)
			b.end()
		}
	}
}
