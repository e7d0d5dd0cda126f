package app

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// closed is a store that can only be read.
type closed struct{ Store }

func (closed) ReadOnly() bool { return true }
func (closed) Save(model.Project, model.Card, int, bool, string, time.Time) (model.Revision, error) {
	return model.Revision{}, errors.New("saved in what can only be read")
}
func (closed) Turn(string, int, model.Card) error {
	return errors.New("turned in what can only be read")
}
func (closed) PutSetting(string, any) error {
	return errors.New("set in what can only be read")
}

// TestReadOnlyCanBeLookedAt: in a notebook that can only be read edits are
// tried out, not kept, and hold up nothing.
func TestReadOnlyCanBeLookedAt(t *testing.T) {
	b := started(t)
	first := b.Snapshot().Project.ID
	b.Create("Shelf")
	b.settle()
	shelf := b.Snapshot().Project.ID
	b.enter("mold/depth", "30 mm")
	b.Close()
	b = newBench(t, b.path, func(s Store) Store { return closed{s} })
	b.Reopen()
	b.settle()
	b.enter("mold/depth", "40 mm")
	if shot := b.Snapshot(); b.text("mold/depth") != "40 mm" || shot.Saved.Pending || shot.Undo != "" {
		t.Errorf("tried out: %q, %+v, undo %q", b.text("mold/depth"), shot.Saved, shot.Undo)
	}
	b.Undo()
	b.Open(first)
	b.settle()
	if b.text("name") != "Tray" {
		t.Error("another project does not open")
	}
	b.Open(shelf)
	b.settle()
	if b.text("mold/depth") != "30 mm" || b.Snapshot().Saved.What != "" {
		t.Errorf("opened again: %q, %q", b.text("mold/depth"), b.Snapshot().Saved.What)
	}
	data, err := b.Export()
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Import(data); err == nil {
		t.Error("an import into it is not refused")
	}
	b.Copy()
	b.settle()
	if b.Snapshot().Saved.What == "" {
		t.Error("a copy that is not made is passed over in silence")
	}
	if err := b.Close(); err != nil {
		t.Error(err)
	}
}

// unset is a store whose settings cannot be written.
type unset struct{ Store }

func (unset) PutSetting(string, any) error { return errors.New("no room for a setting") }

// TestOpensWithoutSettings: a project opens and is made also where it cannot be
// noted that it is the open one.
func TestOpensWithoutSettings(t *testing.T) {
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), func(s Store) Store { return unset{s} })
	b.Create("First")
	b.settle()
	first := b.Snapshot().Project.ID
	b.Create("Second")
	b.settle()
	b.Open(first)
	b.settle()
	b.until(func() bool { return b.Snapshot().Saved.What != "" })
	if shot := b.Snapshot(); b.text("name") != "First" || len(shot.Cards) != 2 || !strings.Contains(shot.Saved.What, "no room") {
		t.Errorf("%s is open of %d; it says %q", b.text("name"), len(shot.Cards), shot.Saved.What)
	}
	b.Close()
}

// torn is a store in which the current state of each project is damaged.
type torn struct{ *storage.Notebook }

type tornError struct{}

func (tornError) Error() string           { return "saved state is damaged" }
func (tornError) Words() (string, string) { return "Saved state is damaged.", "Open an earlier one." }
func (tornError) Usable() bool            { return false }

func (s torn) Load(string) (model.Project, model.Revision, error) {
	return model.Project{}, model.Revision{}, tornError{}
}

func (s torn) At(id string, number int) (model.Project, error) {
	if number == 3 {
		return model.Project{}, tornError{}
	}
	return s.Notebook.At(id, number)
}

// TestDamagedStateOpensAtTheOneBefore: where the current state is damaged the
// newest that can be read is opened, it is said, and work goes on from there.
func TestDamagedStateOpensAtTheOneBefore(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	b.enter("mold/width", "90 mm")
	b.Close()
	b = newBench(t, b.path, func(s Store) Store { return torn{s.(*storage.Notebook)} })
	b.Reopen()
	b.settle()
	shot := b.Snapshot()
	if !shot.Open || b.text("mold/depth") != "30 mm" || b.text("mold/width") != "" || b.Current() != 2 {
		t.Fatalf("open %v, depth %q, at %d", shot.Open, b.text("mold/depth"), b.Current())
	}
	if !strings.Contains(shot.Saved.What, "damaged") || !strings.Contains(shot.Saved.Do, "Mold depth") {
		t.Errorf("it says %q %q", shot.Saved.What, shot.Saved.Do)
	}
	b.enter("mold/width", "95 mm")
	d := b.onDisk()
	if d.text("mold/width") != "95 mm" || d.labels() != "New piece, Mold depth, Mold width, Mold width" {
		t.Errorf("width %q of %s", d.text("mold/width"), d.labels())
	}
}

// flawed is a store that cannot list all its projects.
type flawed struct{ Store }

type flawedError struct{ tornError }

func (flawedError) Usable() bool { return true }

func (s flawed) Cards() ([]model.Card, error) {
	list, _ := s.Store.Cards()
	return list, flawedError{}
}

// TestFlawedListIsTold: that a project is missing from the list is still said
// once the last one is open again.
func TestFlawedListIsTold(t *testing.T) {
	b := started(t)
	b.Close()
	b = newBench(t, b.path, func(s Store) Store { return flawed{s} })
	b.Reopen()
	b.settle()
	if got := b.Snapshot().Saved.What; !strings.Contains(got, "damaged") {
		t.Errorf("it says %q", got)
	}
	b.Close()
}

// uncopied is a store whose copy of the day cannot be made.
type uncopied struct {
	*storage.Notebook
	tried int
}

func (u *uncopied) KeepDaily(time.Time) (bool, error) {
	u.tried++
	return false, errors.New("no place for copies")
}

// TestFailedCopyIsToldOnceADay: a copy of the notebook that cannot be made
// holds up no save, is said once, and can be put away.
func TestFailedCopyIsToldOnceADay(t *testing.T) {
	var u *uncopied
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), func(s Store) Store { u = &uncopied{Notebook: s.(*storage.Notebook)}; return u })
	b.Create("Tray")
	b.settle()
	b.enter("mold/depth", "30 mm")
	if saved := b.Snapshot().Saved; !strings.Contains(saved.What, "copies") || saved.Pending || saved.At.IsZero() {
		t.Errorf("it says %+v", saved)
	}
	b.Retry()
	b.settle()
	if what := b.Snapshot().Saved.What; what != "" {
		t.Errorf("put away it says %q", what)
	}
	b.enter("mold/width", "30 mm")
	b.enter("mold/length", "30 mm")
	if what := b.Snapshot().Saved.What; what != "" || u.tried != 1 {
		t.Errorf("tried %d times; it says %q", u.tried, what)
	}
	b.clock.advance(24 * time.Hour)
	b.enter("mold/width", "31 mm")
	if u.tried != 2 {
		t.Errorf("tried %d times in two days", u.tried)
	}
	b.Close()
}
