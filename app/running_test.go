package app

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// takenIn imports a demo job under an ID and a name of its own, and opens it.
func (b *bench) takenIn(file, id string, entries ...model.Entry) {
	b.t.Helper()
	data, err := os.ReadFile("../testdata/demo-" + file + ".json")
	if err != nil {
		b.t.Fatal(err)
	}
	p, err := model.Import(data)
	if err != nil {
		b.t.Fatal(err)
	}
	p.ID, p.Name, p.Journal = id, "Piece "+id, entries
	if data, err = model.Export(p); err != nil {
		b.t.Fatal(err)
	}
	if err := b.Import(data); err != nil {
		b.t.Fatal(err)
	}
	b.settle()
}

// pour starts the pour of the first layer of the open project.
func (b *bench) pour() {
	b.t.Helper()
	if err := b.StartPour(b.Snapshot().Project.Layers[0].ID); err != nil {
		b.t.Fatal(err)
	}
	b.settle()
}

// simulated has the session simulate by the model, as the program does, but
// leave the bands out, which move no step; and each state of a project once, since
// a simulation follows from the project alone.
func (b *bench) simulated() *bench {
	var mu sync.Mutex
	known := map[string]model.Curing{}
	simulate := func(ctx context.Context, p *model.Project, pl *model.Plan) (model.Curing, error) {
		state, err := model.Export(*p)
		if err != nil {
			return model.Curing{}, err
		}
		mu.Lock()
		c, ok := known[string(state)]
		mu.Unlock()
		if ok {
			return c, ctx.Err()
		}
		if c, err = model.Simulate(ctx, p, pl); err == nil {
			mu.Lock()
			known[string(state)] = c
			mu.Unlock()
		}
		return c, err
	}
	b.reckon = Reckoner{Simulate: simulate, Widen: func(ctx context.Context, p *model.Project, pl *model.Plan, _ func(int, func(int))) (model.Curing, error) {
		return simulate(ctx, p, pl)
	}}.orModel()
	return b
}

// onCards gives the card of a project as it is on the disk, once all that is on
// its way there has arrived.
func (b *bench) onCards(id string) model.Card {
	b.t.Helper()
	b.settle()
	done := make(chan struct{})
	b.jobs.InOrder(func() { close(done) })
	<-done
	cards, err := b.store.Cards()
	if err != nil {
		b.t.Fatal(err)
	}
	return cards[slices.IndexFunc(cards, func(c model.Card) bool { return c.ID == id })]
}

// poured is a notebook with three pieces poured an hour after each other, and one
// that is not.
func poured(t *testing.T) *bench {
	t.Helper()
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil).simulated()
	for _, file := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		b.takenIn(file, file)
		b.pour()
		b.clock.advance(time.Hour)
	}
	b.takenIn("poppy-stand", "not-poured")
	return b
}

// clock gives the clock of a piece, open or closed.
func (b *bench) clockFor(id string) PieceClock {
	b.t.Helper()
	shot := b.Snapshot()
	c, ok := shot.Clock(id)
	if !ok {
		b.t.Fatal("no clock of ", id)
	}
	return c
}

// TestClockIsTheSameOpenAndClosed: every instant, in the session that poured,
// with another project open, and in a program that is started anew.
func TestClockIsTheSameOpenAndClosed(t *testing.T) {
	b := poured(t)
	want := map[string]PieceClock{}
	for _, id := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		b.Open(id)
		b.settle()
		shot := b.Snapshot()
		c := b.clockFor(id)
		if !c.Open || c.Hold || len(c.Steps) < 3 || !slices.EqualFunc(c.Steps, shot.Agenda(b.Now()), func(x, y model.Step) bool { return x == y }) {
			t.Fatalf("%s open: %+v", id, c)
		}
		sheet := model.NewRunning(&shot.Project, &shot.Plan, true)
		if id == "hall-shelf" && c.Like(sheet) {
			t.Error("the simulation moves nothing, so that this test shows nothing")
		}
		want[id] = c
	}
	check := func(b *bench, when string) {
		t.Helper()
		for id, c := range want {
			if got := b.clockFor(id); got.Hold || !got.Like(&c.Running) || got.Name != c.Name {
				t.Errorf("%s, %s: %+v\nwant %+v", when, id, got, c)
			}
		}
		shot := b.Snapshot()
		ticking := shot.Ticking(b.Now())
		if len(ticking) != 3 || !shot.Wound() {
			t.Fatalf("%s: %d clocks run, wound %v", when, len(ticking), shot.Wound())
		}
		for i := 1; i < len(ticking); i++ {
			x, _ := ticking[i-1].Next(b.Now())
			if y, _ := ticking[i].Next(b.Now()); y.Due.Before(x.Due) {
				t.Errorf("%s: %v comes before %v", when, x.Due, y.Due)
			}
		}
	}
	check(b, "another is open")
	b.Open("not-poured")
	b.settle()
	check(b, "one that is not poured is open")
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	c := newBench(t, b.path, nil)
	c.clock.advance(3 * time.Hour)
	check(c, "started anew, nothing open")
	if n := c.heat.count("heat"); n != 0 {
		t.Errorf("%d simulations of what is kept", n)
	}
	c.Close()
}

// TestClockIsKeptAtTheTouch: the clock of a pour is in the notebook with the
// pour, by the data sheets until the simulation is in. A program that ends
// between the two works it out at its next start.
func TestClockIsKeptAtTheTouch(t *testing.T) {
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil).simulated()
	b.takenIn("poppy-stand", "a")
	b.reckon.Simulate = func(ctx context.Context, _ *model.Project, _ *model.Plan) (model.Curing, error) {
		<-ctx.Done()
		return model.Curing{}, ctx.Err()
	}
	if err := b.StartPour(b.Snapshot().Project.Layers[0].ID); err != nil {
		t.Fatal(err)
	}
	b.until(func() bool {
		shot := b.Snapshot()
		return !shot.Saved.Pending && len(shot.Plan.Layers) > 0 && shot.Plan.Layers[0].Status == model.Poured
	})
	shot := b.Snapshot()
	cards, err := b.store.Cards()
	if err != nil || cards[0].Running.Settled || !cards[0].Running.Like(model.NewRunning(&shot.Project, &shot.Plan, false)) || len(cards[0].Running.Steps) < 4 {
		t.Fatalf("%v, %+v", err, cards[0].Running)
	}
	if !b.clockFor("a").Hold || shot.Wound() {
		t.Error("it rings by instants that are about to move")
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	n := newBench(t, b.path, nil) // nothing is opened
	if r := n.onCards("a").Running; !r.Settled || n.clockFor("a").Hold {
		t.Errorf("%+v", r)
	}
	n.Close()
}

// forgetful is a store whose cards say nothing of clocks, as those of a
// notebook from before they were kept.
type forgetful struct{ Store }

func (f forgetful) Cards() ([]model.Card, error) {
	cards, err := f.Store.Cards()
	for i := range cards {
		cards[i].Running = nil
	}
	return cards, err
}

// TestOldNotebookIsWound: the clocks of a notebook that has none come by
// themselves, one after the other, and stay.
func TestOldNotebookIsWound(t *testing.T) {
	b := poured(t)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	under, most := 0, 0
	var old *bench
	old = newBench(t, b.path, func(s Store) Store { return forgetful{s} })
	old.until(func() bool {
		under = len(old.jobs.loose)
		most = max(most, under)
		shot := old.Snapshot()
		return shot.Wound()
	})
	if n := old.heat.count("heat"); n != 3 || most > 1 {
		t.Errorf("%d simulated, %d at a time; want the three that were poured, one at a time", n, most)
	}
	shot := old.Snapshot()
	if got := len(shot.Ticking(old.Now())); got != 3 {
		t.Errorf("%d clocks run", got)
	}
	if err := old.Close(); err != nil {
		t.Fatal(err)
	}
	again := newBench(t, b.path, nil)
	if shot := again.Snapshot(); !shot.Wound() || len(again.jobs.loose) > 0 {
		t.Error("they are worked out again")
	}
	again.Close()
}

// TestManyAreWoundTogether: of a notebook with many projects that need no
// simulation, the clocks are shown and written some at a time, each once.
func TestManyAreWoundTogether(t *testing.T) {
	path := filepath.Join(t.TempDir(), "n.db")
	n, err := storage.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	p := model.Blank("p", "Shelf")
	for i := range 2*windAtOnce + 1 {
		p.ID = fmt.Sprint("p", i)
		if _, err := n.Save(p, model.Card{ID: p.ID, Name: p.Name}, 0, false, "New piece", time.Time{}); err != nil {
			t.Fatal(err)
		}
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	var count *winds
	b := newBench(t, path, func(s Store) Store { count = &winds{Store: s, of: map[string]int{}}; return count })
	shown := 0
	b.Subscribe(func(Snapshot) { shown++ })
	b.settle()
	if shot := b.Snapshot(); !shot.Wound() {
		t.Error("not all are wound")
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	if shown > 5 || count.writes != 3 || len(count.of) != 2*windAtOnce+1 {
		t.Errorf("shown %d times, written %d times for %d clocks", shown, count.writes, len(count.of))
	}
	for id, times := range count.of {
		if times != 1 {
			t.Errorf("%s was written %d times", id, times)
		}
	}
}

// winds counts how often clocks are written, and each of them.
type winds struct {
	Store
	writes int
	of     map[string]int
}

func (w *winds) PutRunning(of map[string]model.Running) error {
	w.writes++
	for id := range of {
		w.of[id]++
	}
	return w.Store.PutRunning(of)
}

// unreadable is a store of which one project cannot be loaded.
type unreadable struct{ forgetful }

func (u unreadable) Load(id string) (model.Project, model.Revision, error) {
	if id == "hall-shelf" {
		return model.Project{}, model.Revision{}, errors.New("damaged")
	}
	return u.Store.Load(id)
}

// TestClockThatCannotBeWound: one that cannot be worked out holds up no other,
// is tried once, and where only the simulation fails it goes by the sheets.
func TestClockThatCannotBeWound(t *testing.T) {
	b := poured(t)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	c := newBench(t, b.path, func(s Store) Store { return unreadable{forgetful{s}} }, func(o *Options) {
		o.Reckoner.Simulate = func(context.Context, *model.Project, *model.Plan) (model.Curing, error) {
			return model.Curing{}, errors.New("no")
		}
	})
	c.settle()
	shot := c.Snapshot()
	if _, ok := shot.Clock("poppy-stand"); !shot.Wound() || !ok || len(shot.Ticking(c.Now())) != 2 {
		t.Errorf("wound %v, %d run", shot.Wound(), len(shot.Ticking(c.Now())))
	}
	c.Close()
}

// TestClockFollowsItsProject: an edit that moves a step and its undo, a pour
// that is taken back, the archive, a copy and an import.
func TestClockFollowsItsProject(t *testing.T) {
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil).simulated()
	b.takenIn("poppy-stand", "a")
	b.pour()
	kept := func() *model.Running { return b.onCards("a").Running }
	first := kept()
	b.enter("shop/room", "27 °C")
	warm := kept()
	if warm.Like(first) || !warm.Settled {
		t.Fatalf("in a warmer room: %+v", warm)
	}
	b.Undo()
	if got := kept(); !got.Like(first) {
		t.Errorf("undone: %+v\nwant %+v", got, first)
	}
	b.Redo()
	if got := kept(); !got.Like(warm) {
		t.Errorf("done again: %+v\nwant %+v", got, warm)
	}

	b.Archive(true)
	kept()
	shot := b.Snapshot()
	if n := len(shot.Clocks()); n != 0 {
		t.Errorf("archived and open: %d clocks", n)
	}
	b.Archive(false)
	kept()
	b.Copy()
	kept()
	if shot = b.Snapshot(); len(shot.Cards) != 2 || len(shot.Clocks()) != 1 || len(shot.Ticking(b.Now())) != 1 {
		t.Errorf("beside a copy %d clocks run", len(shot.Clocks()))
	}
	b.Open("a")
	b.settle()
	b.Archive(true)
	b.settle()
	b.takenIn("poppy-stand", "b")
	if shot = b.Snapshot(); len(shot.Clocks()) != 0 {
		t.Errorf("archived and closed: %+v", shot.Clocks())
	}
	b.Open("a")
	b.settle()
	b.Archive(false)
	b.settle()
	if err := b.Withdraw(b.Snapshot().Project.Journal[0].ID); err != nil {
		t.Fatal(err)
	}
	if got := kept(); len(got.Steps) != 0 || !got.Settled {
		t.Errorf("taken back: %+v", got)
	}

	layer := b.Snapshot().Project.Layers[0].ID
	b.takenIn("poppy-stand", "c", model.Entry{ID: "e1", Kind: model.EntryPourStarted, Layer: layer, At: b.Now().Add(-time.Minute)})
	b.Open("a")
	b.settle()
	if shot = b.Snapshot(); len(shot.Ticking(b.Now())) != 1 || shot.Ticking(b.Now())[0].ID != "c" {
		t.Errorf("imported while it runs: %+v", shot.Clocks())
	}
	b.Close()
}

// TestClockOfAPreview: what a finger drags past is not kept.
func TestClockOfAPreview(t *testing.T) {
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil).simulated()
	b.takenIn("poppy-stand", "a")
	b.pour()
	was := b.Snapshot().Cards[0].Running
	b.Preview(func(p *model.Project) error { return model.Enter(p, "shop/room", "30 °C") })
	b.settle()
	if got := b.Snapshot().Cards[0].Running; !got.Like(was) {
		t.Errorf("%+v, want %+v", got, was)
	}
	b.Close()
}

// TestAllDates: the file has the steps of every piece whose clock runs, at the
// instants that the windows show.
func TestAllDates(t *testing.T) {
	b := poured(t)
	file, err := b.AllDates()
	if err != nil {
		t.Fatal(err)
	}
	shot := b.Snapshot()
	events := 0
	for _, c := range shot.Ticking(b.Now()) {
		for _, s := range c.Steps {
			events++
			if !bytes.Contains(file, []byte("DTSTART:"+s.Due.Round(time.Second).Format("20060102T150405Z")+"\r\n")) {
				t.Errorf("%s of %s is not in it", s.Label, c.Name)
			}
		}
	}
	if n := bytes.Count(file, []byte("BEGIN:VEVENT\r\n")); n != events || n < 9 {
		t.Errorf("%d events for %d steps", n, events)
	}
	b.clock.advance(10 * 365 * 24 * time.Hour)
	if _, err := b.AllDates(); err == nil {
		t.Error("dates of nothing that runs")
	}
	b.Close()
}

// BenchmarkClocks is what a second costs with 200 projects of which 50 run.
func BenchmarkClocks(b *testing.B) {
	now := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	var shot Snapshot
	for i := range 200 {
		c := model.Card{ID: fmt.Sprint("p", i), Name: "Piece", Running: &model.Running{Settled: true}}
		if i%4 == 0 {
			for k := range 6 {
				kind := []model.StepKind{model.StepPour, model.StepWorkEnds, model.StepRecoat, model.StepRecoatEnd, model.StepDemold, model.StepCured}[k]
				c.Running.Steps = append(c.Running.Steps, model.Step{Kind: kind, Layer: "l1", Label: "a step", Past: k == 0, Due: now.Add(time.Duration(k-2) * time.Hour)})
			}
		}
		shot.Cards = append(shot.Cards, c)
	}
	b.ReportAllocs()
	for b.Loop() {
		due := 0
		for _, c := range shot.Clocks() {
			due += len(c.Alarms(now))
		}
		if len(shot.Ticking(now)) != 50 || due != 100 || !shot.Wound() {
			b.Fatal(due)
		}
	}
}
