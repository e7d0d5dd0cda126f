package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
)

// fill makes the disk of a failing store full, or gives it room again.
func (f *failing) fill(full bool) { f.mu.Lock(); f.full = full; f.mu.Unlock() }

// onDisk opens the notebook of a bench anew and brings up what was open last.
func (b *bench) onDisk() *bench {
	b.t.Helper()
	if err := b.Close(); err != nil {
		b.t.Fatal(err)
	}
	c := newBench(b.t, b.path, nil)
	if !c.Reopen() {
		b.t.Fatal("nothing to open again")
	}
	c.settle()
	b.t.Cleanup(func() { c.Close() })
	return c
}

// until does what is posted until something is so.
func (b *bench) until(so func() bool) {
	b.t.Helper()
	deadline := time.After(10 * time.Second)
	for !so() {
		select {
		case f := <-b.posts:
			f()
		case <-time.After(time.Millisecond): // it may come to be in the background
		case <-deadline:
			b.t.Fatal("it never came to be")
		}
	}
}

// labels are the names of the saved states, oldest first.
func (b *bench) labels() string {
	var list []string
	for _, r := range b.Revisions() {
		list = append(list, r.Label)
	}
	return strings.Join(list, ", ")
}

// TestEditWhileOpeningStaysInItsProject: what is entered while another project
// is being opened belongs to the one on the screen.
func TestEditWhileOpeningStaysInItsProject(t *testing.T) {
	b := started(t)
	first := b.Snapshot().Project.ID
	b.Create("Shelf")
	b.settle()
	shelf := b.Snapshot().Project.ID
	b.Open(first)
	b.Enter("mold/depth", "77 mm")
	b.settle()
	if b.Snapshot().Project.ID != first || b.text("mold/depth") != "" {
		t.Errorf("the project that was opened has the depth %q", b.text("mold/depth"))
	}
	b.Open(shelf)
	b.settle()
	if b.text("name") != "Shelf" || b.text("mold/depth") != "77 mm" {
		t.Errorf("%s has the depth %q", b.text("name"), b.text("mold/depth"))
	}
	b.Create("Third")
	b.Enter("mold/length", "300 mm")
	b.settle()
	if b.text("name") != "Third" || b.text("mold/length") != "" {
		t.Errorf("%s has the length %q", b.text("name"), b.text("mold/length"))
	}
	b.Open(shelf)
	b.settle()
	if b.text("mold/length") != "300 mm" {
		t.Error("what was entered while a new project was made is lost")
	}
	b.Close()
}

// TestCloseWhileMoving: an edit behind an undo that is on its way, an import
// and an opening are all done before the notebook closes.
func TestCloseWhileMoving(t *testing.T) {
	for range 5 {
		b := started(t)
		b.enter("mold/depth", "30 mm")
		b.enter("mold/width", "90 mm")
		b.Undo()
		b.Enter("mold/length", "300 mm")
		c := b.onDisk()
		if c.text("mold/width") != "" || c.text("mold/length") != "300 mm" {
			t.Fatalf("undone and closed: width %q, length %q", c.text("mold/width"), c.text("mold/length"))
		}
		data, err := os.ReadFile("../testdata/demo-poppy-stand.json")
		if err != nil {
			t.Fatal(err)
		}
		c.Enter("name", "Renamed")
		if err := c.Import(data); err != nil {
			t.Fatal(err)
		}
		d := c.onDisk()
		if len(d.cards) != 2 || d.cards[1].Name != "Renamed" || !d.Snapshot().Project.Demo {
			t.Fatalf("imported and closed: %+v", d.cards)
		}
	}
}

// TestRefusedWithNobodyWaiting: where what is refused waited for the end of a move, or
// comes from a field, the snapshot says what was not done and why, in words; what
// would change nothing is not said.
func TestRefusedWithNobodyWaiting(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	b.enter("mold/length", "300 mm")
	b.enter("mold/width", "200 mm")
	refuse := func(*model.Project) error {
		return &model.Problem{Field: "pieces/p1", Message: "it is no longer there"}
	}
	for what, ask := range map[string]func(){
		"Take it out": func() {
			b.Undo()
			if err := b.Edit("Take it out", "", refuse); err != nil {
				t.Errorf("during undo it answers %v", err)
			}
		},
		"Instrument for": func() { b.SetInstrument("mold/kind", unit.Rule) },
	} {
		ask()
		b.settle()
		said := b.Snapshot().Saved
		if !strings.Contains(said.What, what) || !strings.Contains(said.What, "nothing has changed") || said.Do == "" || strings.Contains(said.What+said.Do, "pieces/") {
			t.Errorf("of %s it says %q, %q", what, said.What, said.Do)
		}
		b.Retry() // which puts away what was said
		b.settle()
	}
	b.Undo()
	if err := b.Edit("Nothing", "", func(*model.Project) error { return ErrSame }); err != nil {
		t.Error(err)
	}
	b.settle()
	if said := b.Snapshot().Saved.What; said != "" {
		t.Errorf("of nothing it says %q", said)
	}
}

// TestEditBetweenMoves: an edit behind an undo and before an opening is made in
// the project that it was meant for.
func TestEditBetweenMoves(t *testing.T) {
	b := started(t)
	first := b.Snapshot().Project.ID
	b.Create("Shelf")
	b.settle()
	shelf := b.Snapshot().Project.ID
	b.enter("mold/depth", "30 mm")
	b.Undo()
	b.Open(first)
	b.Enter("mold/length", "300 mm")
	b.Undo() // of the shelf, which is left before its turn comes
	b.Open(shelf)
	b.settle()
	if b.text("mold/depth") != "" || b.text("mold/length") != "300 mm" {
		t.Errorf("depth %q, length %q", b.text("mold/depth"), b.text("mold/length"))
	}
	b.Close()
}

// TestCloseAfterTheInterface closes as the toolkit leaves it: what is posted
// after its end is dropped at first, and then done on the goroutine that posts.
func TestCloseAfterTheInterface(t *testing.T) {
	for range 10 {
		b := started(t)
		b.post.Store(dropping)
		b.Enter("name", "Dropped")
		b.Enter("mold/depth", "30 mm")
		b.Undo()
		b.Enter("mold/width", "90 mm")
		b.post.Store(inPlace)
		if c := b.onDisk(); c.text("name") != "Dropped" || c.text("mold/width") != "90 mm" || c.text("mold/depth") != "" {
			t.Fatalf("%q, %q, %q", c.text("name"), c.text("mold/width"), c.text("mold/depth"))
		}
	}
}

// TestEditDuringUndoFollows: an edit of the field that is being undone is a new
// step; it does not take the place of the state undone to.
func TestEditDuringUndoFollows(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	b.Undo()
	b.Enter("mold/depth", "40 mm")
	b.settle()
	if got := b.labels(); got != "New piece, Mold depth, Mold depth" {
		t.Errorf("the states are %s", got)
	}
	b.Undo()
	b.settle()
	if got := b.text("mold/depth"); got != "" || b.Snapshot().Redo != "Mold depth" {
		t.Errorf("undone the depth is %q", got)
	}
	b.Close()
}

// TestEveryUndoCounts: steps back asked for in a row are all taken.
func TestEveryUndoCounts(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	b.enter("mold/width", "90 mm")
	b.enter("mold/length", "300 mm")
	b.Undo()
	b.Undo()
	b.Undo()
	b.Redo()
	b.settle()
	if b.text("mold/depth") != "30 mm" || b.text("mold/width") != "" {
		t.Errorf("depth %q, width %q", b.text("mold/depth"), b.text("mold/width"))
	}
	b.Close()
}

// TestFullDiskBlocksNothing: while nothing can be kept, undo and opening do not
// leave the screen stuck, and say why they do not come; edits go on and are
// kept in the end.
func TestFullDiskBlocksNothing(t *testing.T) {
	var disk *failing
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), func(s Store) Store { disk = &failing{Store: s}; return disk })
	b.Create("First")
	b.settle()
	first := b.Snapshot().Project.ID
	b.Create("Tray")
	b.settle()
	for _, move := range []func(){b.Undo, func() { b.Open(first) }, func() { b.Restore(1) }, func() { b.Create("Other") }} {
		disk.fill(true)
		b.enter("mold/depth", "30 mm")
		move()
		b.enter("mold/length", "300 mm")
		if shot := b.Snapshot(); b.text("mold/length") != "300 mm" || b.text("name") != "Tray" || !strings.Contains(shot.Saved.What, "no room") {
			t.Fatalf("%s, length %q; it says %q", b.text("name"), b.text("mold/length"), shot.Saved.What)
		}
		disk.fill(false)
		b.Retry()
		b.settle()
		if shot := b.Snapshot(); shot.Saved.Pending || shot.Saved.What != "" {
			t.Fatalf("with room again: %+v", shot.Saved)
		}
		b.enter("mold/length", "")
		b.enter("mold/depth", "")
	}
	disk.fill(true)
	b.enter("mold/width", "90 mm")
	disk.fill(false)
	b.Open(first) // tries again
	b.settle()
	if b.text("name") != "First" {
		t.Error("not opened once there was room")
	}
	b.Close()
}

// TestFailedCloseSaysSo: what could not be kept until the end is an error, and
// is still there to be exported.
func TestFailedCloseSaysSo(t *testing.T) {
	var disk *failing
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), func(s Store) Store { disk = &failing{Store: s}; return disk })
	b.Create("Tray")
	b.settle()
	disk.fill(true)
	b.Enter("mold/depth", "30 mm")
	b.Undo()
	b.Enter("mold/depth", "31 mm")
	if err := b.Close(); err == nil || !strings.Contains(err.Error(), "no room") {
		t.Fatalf("closed with %v", err)
	}
	if data, err := b.Export(); err != nil || !strings.Contains(string(data), `"31 mm"`) || !b.Snapshot().Saved.Pending {
		t.Errorf("not there to export: %v", err)
	}
}

// TestImportTwiceAtOnce: the same file dropped twice gives two projects.
func TestImportTwiceAtOnce(t *testing.T) {
	b := started(t)
	data, err := os.ReadFile("../testdata/demo-poppy-stand.json")
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		if err := b.Import(data); err != nil {
			t.Fatal(err)
		}
	}
	b.settle()
	if shot := b.Snapshot(); len(shot.Cards) != 4 || shot.Saved.What != "" {
		t.Errorf("%d projects; %q", len(shot.Cards), shot.Saved.What)
	}
	b.Close()
}

// TestNoteLeavesItsStepAlone: what happened is no step: the state that it was
// noted in keeps its name and its time, and a field typed in before and after
// is not taken for another.
func TestNoteLeavesItsStepAlone(t *testing.T) {
	b := started(t)
	b.enter("name", "Table")
	b.Enter("mold/depth", "30 mm")
	at := b.clock.Now()
	b.clock.advance(time.Second)
	if err := b.AddNote("stirred"); err != nil {
		t.Fatal(err)
	}
	b.Enter("name", "Table top")
	b.settle()
	if got := b.labels(); got != "New piece, Name, Mold depth, Name" {
		t.Errorf("the states are %s", got)
	}
	b.Undo()
	b.settle()
	b.clock.advance(24 * time.Hour)
	if err := b.AddNote("poured"); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if r := b.Revisions()[2]; !r.At.Equal(at) || r.Label != "Mold depth" || b.Snapshot().Undo != "Mold depth" || b.Snapshot().Redo != "Name" {
		t.Errorf("the step is %+v, undo %q, redo %q", r, b.Snapshot().Undo, b.Snapshot().Redo)
	}
	if n := len(b.Snapshot().Project.Journal); n != 2 {
		t.Errorf("%d entries", n)
	}
	b.Close()
}

// TestNothingToUndoInANewProject: a note in it is no step either.
func TestNothingToUndoInANewProject(t *testing.T) {
	b := started(t)
	if err := b.AddNote("bought resin"); err != nil {
		t.Fatal(err)
	}
	if got := b.undoLabel(); got != "" {
		t.Errorf("undo offers %q", got)
	}
	b.settle()
	b.Close()
}

// TestClockSetBack: a value typed after the clock was set back is a step of its
// own, and the newest state is still the last one.
func TestClockSetBack(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	b.clock.advance(-48 * time.Hour)
	b.enter("mold/depth", "31 mm")
	b.enter("mold/depth", "32 mm")
	c := b.onDisk()
	if got := c.labels(); got != "New piece, Mold depth, Mold depth" || c.text("mold/depth") != "32 mm" {
		t.Errorf("%s, depth %q", got, c.text("mold/depth"))
	}
}
