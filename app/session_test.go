package app

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/storage"
)

// fakeClock is a clock that the test sets.
type fakeClock struct {
	mu  sync.Mutex
	now time.Time
}

func (c *fakeClock) Now() time.Time { c.mu.Lock(); defer c.mu.Unlock(); return c.now }

func (c *fakeClock) advance(d time.Duration) { c.mu.Lock(); c.now = c.now.Add(d); c.mu.Unlock() }

// bench is a session over a real notebook, with the test's own goroutine as
// that of the interface.
type bench struct {
	*Session
	t     *testing.T
	clock *fakeClock
	posts chan func()
	post  atomic.Int32 // how what is posted is done
	store Store
	path  string
	heat  *heat
}

// What becomes of what is posted: the test does it, nobody does, or the
// goroutine that posts does it.
const (
	queueing int32 = iota
	dropping
	inPlace
)

func newBench(t *testing.T, path string, wrap func(Store) Store, how ...func(*Options)) *bench {
	t.Helper()
	n, err := storage.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	var store Store = n
	if wrap != nil {
		store = wrap(n)
	}
	b := &bench{t: t, clock: &fakeClock{now: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}, posts: make(chan func(), 1000), store: store, path: path, heat: &heat{}}
	number := 0
	o := Options{Store: store, Clock: b.clock, Reckoner: b.heat.reckoner(), Post: func(f func()) {
		switch b.post.Load() {
		case queueing:
			b.posts <- f
		case inPlace:
			f()
		}
	}, NewID: func() string {
		number++
		return filepath.Base(path) + time.Now().Format("150405.000000") + string(rune('a'+number%26))
	}}
	for _, do := range how {
		do(&o)
	}
	if b.Session, err = New(o); err != nil {
		t.Fatal(err)
	}
	return b
}

// settle runs what is posted until the session is at rest.
func (b *bench) settle() {
	b.t.Helper()
	deadline := time.After(time.Minute) // where it is held up by the race detector and other work
	for {
		select {
		case f := <-b.posts:
			f()
			continue
		default:
		}
		if (len(b.saves) == 0 || b.stuck()) && !b.moving && len(b.jobs.latest)+len(b.jobs.loose) == 0 {
			return
		}
		select {
		case f := <-b.posts:
			f()
		case <-deadline:
			b.t.Fatal("the session does not come to rest")
		}
	}
}

// stuck tells whether the first save failed and waits.
func (b *bench) stuck() bool { return len(b.saves) > 0 && !b.saves[0].flying && b.saves[0].err != nil }

func (b *bench) enter(field, text string) {
	b.t.Helper()
	b.Enter(field, text)
	b.settle()
}

func (b *bench) text(field string) string {
	shot := b.Snapshot()
	text, _ := model.Show(&shot.Project, field)
	return text
}

func started(t *testing.T) *bench {
	t.Helper()
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil)
	b.Create("Tray")
	b.settle()
	return b
}

func TestEditIsPlannedAndKept(t *testing.T) {
	b := started(t)
	b.enter("mold/length", "300 mm")
	b.enter("mold/width", "200 mm")
	b.enter("mold/depth", "30 mm")
	shot := b.Snapshot()
	if got := shot.Plan.Mold.Capacity.Value.Millilitres(); got < 1799.999 || got > 1800.001 {
		t.Errorf("capacity %v ml", got)
	}
	if shot.Saved.Pending || shot.Saved.At.IsZero() {
		t.Errorf("not kept: %+v", shot.Saved)
	}
	id := shot.Project.ID
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	c := newBench(t, b.path, nil)
	if !c.Reopen() {
		t.Fatal("nothing to open again")
	}
	c.settle()
	if got := c.Snapshot(); got.Project.ID != id || c.text("mold/depth") != "30 mm" {
		t.Errorf("after a restart: %q %q", got.Project.ID, c.text("mold/depth"))
	}
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
}

func TestUndoSurvivesRestart(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	b.clock.advance(time.Minute)
	b.enter("mold/depth", "40 mm")
	b.enter("name", "Table top")
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	b = newBench(t, b.path, nil)
	b.Reopen()
	b.settle()
	if shot := b.Snapshot(); shot.Undo != "Name" || shot.Redo != "" {
		t.Errorf("undo %q, redo %q", shot.Undo, shot.Redo)
	}
	b.Undo()
	b.settle()
	b.Undo()
	b.settle()
	if got := b.text("mold/depth"); got != "30 mm" || b.text("name") != "Tray" {
		t.Errorf("two steps back: %q %q", got, b.text("name"))
	}
	b.Redo()
	b.settle()
	if got := b.text("mold/depth"); got != "40 mm" {
		t.Errorf("one step forward: %q", got)
	}
	// A new edit after undo does not lose the branch that was undone.
	b.enter("mold/depth", "50 mm")
	for _, r := range b.Revisions() {
		if r.Label == "Name" {
			b.Restore(r.Number)
		}
	}
	b.settle()
	if b.text("name") != "Table top" || b.text("mold/depth") != "40 mm" {
		t.Errorf("as it was: %q %q", b.text("name"), b.text("mold/depth"))
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
}

// TestTypingIsOneStep: the keys of one value in a row are one step of undo.
func TestTypingIsOneStep(t *testing.T) {
	b := started(t)
	for _, text := range []string{"1", "10", "10 ", "10 3", "10 3/", "10 3/8"} {
		b.enter("mold/depth", text+" in")
	}
	b.Undo()
	b.settle()
	if got := b.text("mold/depth"); got != "" {
		t.Errorf("after one undo the depth is %q", got)
	}
	b.Close()
}

// TestStepsAllCount: steps that come before the plan of the first is shown each
// go on from the one before, as one step of undo.
func TestStepsAllCount(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "40 mm")
	b.settle()
	for range 5 {
		b.Nudge("mold/depth", true)
	}
	b.Nudge("mold/depth", false)
	b.settle()
	if got := b.text("mold/depth"); got != "42 mm" {
		t.Errorf("after five half millimetres up and one down from 40 mm the depth is %q", got)
	}
	b.Close()
}

// TestDraftIsKept: text that cannot be taken is there after a restart, and the
// last good value stands.
func TestDraftIsKept(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "40 mm")
	b.enter("mold/depth", "40 m m m")
	b.Close()
	b = newBench(t, b.path, nil)
	b.Reopen()
	b.settle()
	shot := b.Snapshot()
	text, reason, ok := shot.Problem("mold/depth")
	if !ok || text != "40 m m m" || reason == "" || b.text("mold/depth") != "40 mm" {
		t.Errorf("draft %q because %q; value %q", text, reason, b.text("mold/depth"))
	}
	b.enter("mold/depth", "41")
	shot = b.Snapshot()
	if _, _, ok := shot.Problem("mold/depth"); ok || b.text("mold/depth") != "41 mm" {
		t.Error("a good value leaves the draft standing")
	}
	b.Close()
}

// TestClockStaysStarted: undo takes back edits, never what happened.
func TestClockStaysStarted(t *testing.T) {
	b := started(t)
	if err := b.Edit("Add a layer", "", func(p *model.Project) error { p.AddSheet(); p.AddLayer(); return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	layer := b.Snapshot().Project.Layers[0].ID
	at := b.clock.Now()
	if err := b.StartPour(layer); err != nil {
		t.Fatal(err)
	}
	b.settle()
	b.enter("name", "Poured")
	b.Undo()
	b.settle()
	b.Undo()
	b.settle()
	if got := b.Snapshot(); len(got.Project.Journal) != 1 || !got.Project.Journal[0].At.Equal(at) {
		t.Errorf("the journal after undo: %+v", got.Project.Journal)
	}
	b.Redo()
	b.settle()
	if got := b.Snapshot().Plan.Layers[0].Status; got != model.Poured {
		t.Errorf("the layer is %s", got)
	}
	if err := b.Withdraw(b.Snapshot().Project.Journal[0].ID); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if got := b.Snapshot(); len(got.Project.Journal) != 2 || got.Plan.Layers[0].Status != model.Planned {
		t.Errorf("withdrawn: %+v", got.Project.Journal)
	}
	b.Close()
}

// failing is a store whose disk is full while full is set.
type failing struct {
	Store
	mu   sync.Mutex
	full bool
}

func (f *failing) Save(p model.Project, card model.Card, after int, amend bool, label string, at time.Time) (model.Revision, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.full {
		return model.Revision{}, errors.New("no room on the disk")
	}
	return f.Store.Save(p, card, after, amend, label, at)
}

func TestFullDiskLosesNothing(t *testing.T) {
	var disk *failing
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), func(s Store) Store { disk = &failing{Store: s}; return disk })
	b.Create("Tray")
	b.settle()
	disk.mu.Lock()
	disk.full = true
	disk.mu.Unlock()
	b.enter("mold/depth", "30 mm")
	b.enter("mold/length", "300 mm")
	if shot := b.Snapshot(); !strings.Contains(shot.Saved.What, "no room") || !shot.Saved.Pending || shot.Saved.Do == "" {
		t.Errorf("a full disk says %+v", shot.Saved)
	}
	if b.text("mold/length") != "300 mm" || b.Snapshot().Plan.Mold.Depth != 30*unit.Millimetre {
		t.Error("the screen lost what was entered")
	}
	disk.mu.Lock()
	disk.full = false
	disk.mu.Unlock()
	b.Retry()
	b.settle()
	if shot := b.Snapshot(); shot.Saved.Pending || shot.Saved.What != "" {
		t.Errorf("with room again: %+v", shot.Saved)
	}
	b.Close()
	b = newBench(t, b.path, nil)
	b.Reopen()
	b.settle()
	if b.text("mold/length") != "300 mm" || b.text("mold/depth") != "30 mm" {
		t.Error("not kept in the end")
	}
	b.Close()
}

// TestCloseKeepsWhatIsOnItsWay closes right behind an edit.
func TestCloseKeepsWhatIsOnItsWay(t *testing.T) {
	for range 20 {
		b := started(t)
		b.Enter("mold/depth", "30 mm")
		b.Enter("mold/length", "300 mm")
		b.Enter("name", "At the last moment")
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		b = newBench(t, b.path, nil)
		b.Reopen()
		b.settle()
		if b.text("name") != "At the last moment" || b.text("mold/length") != "300 mm" {
			t.Fatalf("lost: %q %q", b.text("name"), b.text("mold/length"))
		}
		if n := len(b.Revisions()); n != 4 {
			t.Fatalf("%d states kept, want 4", n)
		}
		b.Close()
	}
}

func TestImportExportCopy(t *testing.T) {
	b := started(t)
	data, err := os.ReadFile("../testdata/demo-hall-shelf.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Import(data); err != nil {
		t.Fatal(err)
	}
	b.settle()
	first := b.Snapshot().Project.ID
	out, err := b.Export()
	if err != nil || string(out) != string(data) {
		t.Errorf("exported again the demo differs (%v)", err)
	}
	if err := b.Import(data); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if b.Snapshot().Project.ID == first || len(b.Snapshot().Cards) != 3 {
		t.Error("importing twice does not give two projects")
	}
	b.Copy()
	b.settle()
	if shot := b.Snapshot(); shot.Project.Demo || !strings.HasSuffix(shot.Project.Name, "(copy)") || len(shot.Cards) != 4 {
		t.Errorf("copy: %q demo %v, %d cards", shot.Project.Name, shot.Project.Demo, len(shot.Cards))
	}
	was := b.Snapshot()
	if err := b.Import([]byte(`{"format":"meniscus-project","version":1,"project":{"id":"x","colour":1}}`)); err == nil {
		t.Error("an unknown field passed")
	}
	b.settle()
	if now := b.Snapshot(); now.Project.ID != was.Project.ID || len(now.Cards) != len(was.Cards) {
		t.Error("a refused import changed something")
	}
	b.Archive(true)
	b.settle()
	if !b.Snapshot().Cards[0].Archived {
		t.Error("not archived")
	}
	b.Close()
}

// TestPreviewKeepsNothing: what is shown while a finger drags is not kept.
func TestPreviewKeepsNothing(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	n := len(b.Revisions())
	b.Preview(func(p *model.Project) error { return model.Enter(p, "mold/depth", "55 mm") })
	b.settle()
	if got := b.Snapshot().Plan.Mold.Depth; got != 55*unit.Millimetre {
		t.Errorf("previewed depth %v", got)
	}
	b.enter("name", "After")
	if got := b.text("mold/depth"); got != "30 mm" || len(b.Revisions()) != n+1 {
		t.Errorf("after the preview: %q, %d states", got, len(b.Revisions()))
	}
	b.Close()
}

func TestLabel(t *testing.T) {
	data, _ := os.ReadFile("../testdata/demo-poppy-stand.json")
	p, err := model.Import(data)
	if err != nil {
		t.Fatal(err)
	}
	for field, want := range map[string]string{
		"name": "Name", "mold/depth": "Mold depth", "pieces/p1/thickness": "Thickness of field maple offcut", "sheets/s2/workingTime": "Working time of slow casting resin A", "shop/tiltRise": "Shop tilt rise", "layers/l3/to": "Height of smoke-grey base", "sheets/s2/workingTime/at": "Temperature of the working time of slow casting resin A", "pieces/p1/stations/2": "Station 3 of field maple offcut", "mold/hold/depths/0": "Mold depth 1",
		"shop/planned": "Shop time of the first pour", "shop/night": "Shop temperature at night", "mold/thick": "Mold floor thickness", "sheets/s2/peakLimit": "Hottest allowed of slow casting resin A",
	} {
		if got := Label(&p, field); got != want {
			t.Errorf("%s is %q, want %q", field, got, want)
		}
	}
}
