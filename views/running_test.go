package views

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// pourNext starts the next pour of the open piece.
func pourNext(b *bench) {
	b.t.Helper()
	shot := b.Snapshot()
	next, ok := shot.Plan.NextPour()
	if !ok {
		b.t.Fatal("nothing is left to pour")
	}
	if err := b.StartPour(next.ID); err != nil {
		b.t.Fatal(err)
	}
	rested(b)
}

// turnTo opens a piece.
func turnTo(b *bench, id string) {
	b.t.Helper()
	b.Open(id)
	b.until(id+" is open", func() bool { return b.Snapshot().Project.ID == id })
	rested(b)
}

// workshop is a desk with three pieces poured ten minutes after each other, the
// last of which is open. It gives their IDs.
func workshop(t *testing.T) (*bench, []string) {
	t.Helper()
	b := newBench(t, newFakeStore())
	var ids []string
	for _, name := range []string{"breakfast-boards", "hall-shelf", "poppy-stand"} {
		b.demo(name)
		pourNext(b)
		ids = append(ids, b.Snapshot().Project.ID)
		beat(b, time.Minute)
		runTo(b, b.Now().Add(9*time.Minute))
	}
	return b, ids
}

// rowOf gives the tapped row that shows some words.
func rowOf(t *testing.T, o fyne.CanvasObject, words string) *touch.Row {
	t.Helper()
	for _, x := range test.LaidOutObjects(o) {
		if r, ok := x.(*touch.Row); ok && shows(r, words) {
			return r
		}
	}
	t.Fatalf("no row with %q", words)
	return nil
}

// nextOf gives the step that comes next of a piece.
func nextOf(t *testing.T, b *bench, id string) model.Step {
	t.Helper()
	shot := b.Snapshot()
	c, _ := shot.Clock(id)
	s, ok := c.Next(b.Now())
	if !ok {
		t.Fatal("nothing comes next of ", id)
	}
	return s
}

// TestRunningStrip: the clocks that run stand in the Notebook, the one due
// soonest first, and move on by the second; a touch opens the piece.
func TestRunningStrip(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	if s := b.notebook().running; !s.root.Hidden {
		t.Error("a strip with nothing that runs")
	}
	b.end()
	b, ids := workshop(t)
	n := b.notebook()
	s := n.running
	if s.root.Hidden || len(s.entries) != 3 || s.every.Visible() {
		t.Fatalf("%d clocks, hidden %v", len(s.entries), s.root.Hidden)
	}
	var due []time.Time
	for _, e := range s.entries {
		step := nextOf(t, b, e.id)
		due = append(due, step.Due)
		if e.next.Text() != stepIn(&step, b.Now()) || !strings.HasSuffix(e.day.Text(), step.Label) {
			t.Errorf("%q, %q", e.next.Text(), e.day.Text())
		}
		if h := e.row.MinSize().Height; h < 57 {
			t.Errorf("a row of %v", h)
		}
		row := n.list.rows[e.id]
		if row.next.Text() != "next: "+e.next.Text() || !strings.HasPrefix(row.when.Text(), e.clock.near(step.Due, b.Now())) {
			t.Errorf("its row says %q, %q", row.next.Text(), row.when.Text())
		}
	}
	if !slices.IsSortedFunc(due, time.Time.Compare) {
		t.Errorf("not the soonest first: %v", due)
	}
	runTo(b, due[0].Add(-30*time.Second))
	first := s.entries[0]
	if step := nextOf(t, b, first.id); first.next.Text() != stepIn(&step, b.Now()) {
		t.Errorf("half a minute before: %q", first.next.Text())
	}
	was := first.next.Text()
	beat(b, time.Second)
	if first.next.Text() == was {
		t.Errorf("a second on it still says %q", was)
	}
	rowOf(t, s.root, first.name.Text()).OnTap()
	id := first.id
	b.until("it is open", func() bool { return b.Snapshot().Project.ID == id })
	if b.desk.front != cureKey {
		t.Error("the clock is not what opens")
	}

	// Out of its mold it is gone, and archived another.
	rested(b)
	if err := b.DemoldFelt(""); err != nil {
		t.Fatal(err)
	}
	rested(b)
	beat(b, time.Second)
	if len(s.entries) != 2 || slices.ContainsFunc(s.entries, func(e *runningEntry) bool { return e.id == id }) {
		t.Errorf("out of its mold: %d clocks", len(s.entries))
	}
	if row := n.list.rows[id]; row.next.Text() != "" {
		t.Errorf("out of its mold: %q", row.next.Text())
	}
	for _, other := range ids {
		if other != id {
			turnTo(b, other)
			b.Archive(true)
			rested(b)
		}
	}
	beat(b, time.Second)
	if !s.root.Hidden {
		t.Error("the strip stays with nothing that runs")
	}
}

// TestRunningStripOfMany: more than fit are a touch away, and the window still
// fits the screen.
func TestRunningStripOfMany(t *testing.T) {
	b, _ := workshop(t)
	b.demo("poppy-stand")
	pourNext(b)
	b.demo("poppy-stand")
	pourNext(b)
	beat(b, time.Second)
	n := b.notebook()
	if s := n.running; len(s.entries) != 3 || !shows(s.root, "Show all 5") {
		t.Fatalf("%d clocks: %q", len(s.entries), texts(s.root))
	}
	tapOn(t, n.running.root, "Show all 5")
	if len(n.running.entries) != 5 {
		t.Errorf("%d clocks", len(n.running.entries))
	}
	tapOn(t, n.running.root, "Show fewer")
	if least := n.content().MinSize(); len(n.running.entries) != 3 || least.Width > 1180 || least.Height > 700 {
		t.Errorf("%d clocks, the window needs %v", len(n.running.entries), least)
	}
	tapOn(t, n.running.root, "Save all dates")
	if b.desk.windows.Window(notebookKey).Canvas().Overlays().Top() == nil {
		t.Error("no place is asked for")
	}
}

// TestAlarmOfAClosedPiece: a piece that is closed rings on its second with its
// name; one touch opens it, and it never rings again.
func TestAlarmOfAClosedPiece(t *testing.T) {
	b, ids := workshop(t)
	b.desk.Show(cureKey)
	step := nextOf(t, b, ids[0])
	due := dueOf(t, []model.Step{step}, model.StepWorkEnds)
	runTo(b, due.Add(-time.Second))
	a := b.desk.alarms
	if len(a.ringing) > 0 {
		t.Fatalf("too early: %+v", a.ringing)
	}
	want := fyne.NewNotification(capitalised(step.Label), "Five breakfast boards (demo)")
	test.AssertNotificationSent(t, want, func() { beat(b, time.Second) })
	if len(a.ringing) != 1 || a.ringing[0].Project != ids[0] || !shows(b.flash(), "Five breakfast boards (demo): working time of ") {
		t.Fatalf("%+v, %q", a.ringing, texts(b.flash()))
	}
	b.desk.ring()
	f := b.desk.covers[cureKey].flash
	if f.open.Hidden || f.open.Size().Height < look.Glove {
		t.Errorf("the way to it: hidden %v, %v", f.open.Hidden, f.open.Size())
	}
	f.open.OnTapped()
	if len(a.ringing) != 1 {
		t.Error("a touch that was under way when it appeared answers it")
	}
	b.clock.advance(touch.Settle)
	// By keys: the arrows lead to it and back, and Space does what is marked.
	for _, open := range []bool{true, false, true} {
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
		if f.open.Marked() != open || f.heard.Marked() == open {
			t.Errorf("the arrows mark it: %v, not %v", f.open.Marked(), open)
		}
	}
	f.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	b.until("it is open", func() bool { return b.Snapshot().Project.ID == ids[0] })
	rested(b)
	test.AssertNotificationSent(t, nil, func() {
		for range 40 {
			beat(b, time.Second)
		}
	})
	if len(a.ringing) > 0 || b.desk.front != cureKey {
		t.Errorf("opened, and it rings on: %+v", a.ringing)
	}
	turnTo(b, ids[1])
	c := again(t, b)
	test.AssertNotificationSent(t, nil, func() { beat(c, time.Second) })
}

// TestAlarmsOfTwoPieces: what rings for one is not answered by opening another,
// and "I have heard it" answers all.
func TestAlarmsOfTwoPieces(t *testing.T) {
	b, ids := workshop(t)
	b.desk.Show(cureKey)
	a := b.desk.alarms
	runTo(b, nextOf(t, b, ids[0]).Due)
	for len(a.ringing) < 2 {
		at := b.Now().Add(48 * time.Hour)
		for _, id := range ids {
			if d := nextOf(t, b, id).Due; d.After(b.Now()) && d.Before(at) {
				at = d
			}
		}
		runTo(b, at.Add(time.Second))
	}
	first, last := a.ringing[0], a.ringing[len(a.ringing)-1]
	if first.Project == last.Project || last.Due.Before(first.Due) {
		t.Fatalf("%+v", a.ringing)
	}
	rings := len(a.ringing)
	a.show(last.Project)
	if len(a.ringing) != rings-1 || a.ringing[0].Key != first.Key {
		t.Errorf("after opening one: %+v", a.ringing)
	}
	b.until("it is open", func() bool { return b.Snapshot().Project.ID == last.Project })
	rested(b)
	beat(b, time.Second)
	b.desk.covers[cureKey].flash.Tapped(nil)
	beat(b, time.Minute)
	if len(a.ringing) > 0 {
		t.Errorf("answered: %+v", a.ringing)
	}
}

// TestCopyDoesNotRing: a copy has none of the pours, so that nothing rings
// twice.
func TestCopyDoesNotRing(t *testing.T) {
	b, _, steps := alarmBench(t)
	b.Copy()
	b.until("the copy is open", func() bool { return strings.HasSuffix(b.Snapshot().Project.Name, "(copy)") })
	rested(b)
	runTo(b, dueOf(t, steps, model.StepWorkEnds).Add(time.Second))
	if r := b.desk.alarms.ringing; len(r) != 1 || r[0].Piece != "Poppy stand (demo)" {
		t.Errorf("%+v", r)
	}
}

// TestMissedOfSeveralPieces: what fell due in a sleep is told once, in order,
// whichever piece it is of.
func TestMissedOfSeveralPieces(t *testing.T) {
	b, ids := workshop(t)
	slept := b.Now()
	beat(b, 30*time.Hour)
	shot := b.Snapshot()
	var want []model.Alarm
	for _, c := range shot.Clocks() {
		for _, a := range c.Alarms(b.Now()) {
			if a.Due.After(slept) {
				want = append(want, a)
			}
		}
	}
	slices.SortFunc(want, func(x, y model.Alarm) int { return x.Due.Compare(y.Due) })
	n := b.desk.notice
	if n == nil || len(want) < 3 || len(ids) != 3 {
		t.Fatalf("%+v of %d", n, len(want))
	}
	from := 0
	for _, a := range want {
		i := strings.Index(n.do[from:], a.Piece+": "+a.Label)
		if i < 0 {
			t.Fatalf("%s of %s is not told of in order: %q", a.Label, a.Piece, n.do)
		}
		from += i
	}
	for _, id := range ids {
		c, _ := shot.Clock(id)
		if due := c.CameDue(slept, b.Now()); len(due) > 0 && !c.Open {
			if do, _ := c.Leaves(due[len(due)-1], b.Now()); do == "" || !strings.Contains(n.do, c.Name+": "+do) {
				t.Errorf("it does not say that %q: %q", do, n.do)
			}
		}
	}
	b.desk.hush()
	beat(b, time.Second)
	if b.desk.notice != nil || len(b.desk.alarms.ringing) > 0 {
		t.Errorf("said twice: %+v, %+v", b.desk.notice, b.desk.alarms.ringing)
	}
}

// TestCureShowsOtherClocks: the other pieces that run stand in the window, and
// a touch opens one.
func TestCureShowsOtherClocks(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	beat(b, 0)
	if !p.also.root.Hidden {
		t.Error("it tells of clocks with none that runs")
	}
	b.end()
	b, ids := workshop(t)
	b.desk.Show(cureKey)
	p = b.desk.pages[cureKey].(*curePage)
	beat(b, time.Second)
	step := nextOf(t, b, ids[0])
	for _, words := range []string{"Also running: Five breakfast boards (demo)", stepIn(&step, b.Now()), "Also running: Hall shelf (demo)"} {
		if !shows(p.also.root, words) {
			t.Errorf("it does not say %q: %q", words, texts(p.also.root))
		}
	}
	if shows(p.also.root, "Poppy stand") || len(p.also.shown) != 2 {
		t.Errorf("it tells of the open piece: %q", texts(p.also.root))
	}
	row := rowOf(t, p.also.root, "Five breakfast boards")
	if row.MinSize().Height < 50 {
		t.Errorf("a row of %v", row.MinSize())
	}
	row.OnTap()
	b.until("it is open", func() bool { return b.Snapshot().Project.ID == ids[0] })
	rested(b)
	beat(b, time.Second)
	if !shows(p.also.root, "Poppy stand (demo)") {
		t.Errorf("after opening another: %q", texts(p.also.root))
	}
	b.demo("poppy-stand")
	beat(b, time.Second)
	if !shows(p.also.root, "and 1 more piece, in the Notebook") {
		t.Errorf("of three others: %q", texts(p.also.root))
	}
	if least := p.content().MinSize(); least.Width > 1240 || least.Height > 700 {
		t.Errorf("the window needs %v", least)
	}
}

// BenchmarkTickOfManyPieces is a second that passes with many projects of which
// a quarter run, the Notebook and Cure open.
func BenchmarkTickOfManyPieces(b *testing.B) {
	for _, count := range []int{50, 200, 800} {
		b.Run(fmt.Sprintf("pieces=%d", count), func(b *testing.B) { tickOf(b, count) })
	}
}

func tickOf(b *testing.B, count int) {
	store := newFakeStore()
	start := time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC)
	for i := range count {
		c := model.Card{ID: fmt.Sprint("p", i), Name: fmt.Sprint("Piece ", i), Touched: start, Running: &model.Running{Settled: true}}
		for k, kind := range []model.StepKind{model.StepPour, model.StepWorkEnds, model.StepRecoat, model.StepRecoatEnd} {
			if i%4 == 0 {
				c.Running.Steps = append(c.Running.Steps, model.Step{Kind: kind, Layer: "l1", Label: "a step of the base", Past: k == 0, Due: start.Add(time.Duration(k*k*(i+40)) * time.Hour)})
			}
		}
		store.cards = append(store.cards, c)
	}
	bench := newBench(b, store)
	bench.demo("poppy-stand")
	rested(bench)
	bench.desk.Show(cureKey).Resize(fyne.NewSize(1240, 700))
	beat(bench, time.Second)
	if n := len(bench.notebook().running.entries); n != mostRunning {
		b.Fatal(n, " clocks")
	}
	b.ReportAllocs()
	for b.Loop() {
		beat(bench, time.Second)
	}
}
