package app

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"meniscus/model"
)

// copies lists the copies of the notebook.
func (b *bench) copies() []model.Copy {
	b.t.Helper()
	var list []model.Copy
	err := errors.New("no answer")
	b.Copies(func(l []model.Copy, e error) { list, err = l, e })
	b.settle()
	if err != nil {
		b.t.Fatal(err)
	}
	return list
}

// compared compares the notebook with a copy, by the names of the projects.
func (b *bench) compared(c model.Copy) map[string]model.Standing {
	b.t.Helper()
	standing, err := map[string]model.Standing{}, errors.New("no answer")
	b.CompareCopy(c.Path, func(list []model.Compared, e error) {
		for _, x := range list {
			standing[x.Card.Name] = x.Standing
		}
		err = e
	})
	b.settle()
	if err != nil {
		b.t.Fatal(err)
	}
	return standing
}

// withCopy is a session on a notebook with a copy of the day, in which the tray
// is 30 mm deep; now it is 40, and there is a shelf.
func withCopy(t *testing.T) (b *bench, tray string) {
	b = started(t)
	tray = b.Snapshot().Project.ID
	b.enter("mold/depth", "30 mm")
	for _, c := range b.copies() { // of the first save, which came before
		if err := os.Remove(c.Path); err != nil {
			t.Fatal(err)
		}
	}
	b.clock.advance(24 * time.Hour)
	b.enter("mold/length", "300 mm")
	if n := len(b.copies()); n != 1 {
		t.Fatalf("%d copies", n)
	}
	b.clock.advance(time.Minute)
	b.enter("mold/depth", "40 mm")
	b.Create("Shelf")
	b.settle()
	return b, tray
}

// TestLookIntoACopy: a project of a copy can be seen and tried out, and nothing
// of it is kept: the one in the notebook, its clock and what is open next time
// stay.
func TestLookIntoACopy(t *testing.T) {
	b, tray := withCopy(t)
	c := b.copies()[0]
	if got := b.compared(c); got["Tray"] != model.NewerNow || got["Shelf"] != model.OnlyNow || len(got) != 2 {
		t.Errorf("%v", got)
	}
	b.LookAt(c, tray)
	b.settle()
	shot := b.Snapshot()
	if b.text("mold/depth") != "30 mm" || shot.Look == nil || shot.Look.ID != tray || !shot.Saved.Closed || shot.Undo != "" {
		t.Fatalf("the look: %q, %+v, %+v", b.text("mold/depth"), shot.Look, shot.Saved)
	}
	b.enter("mold/depth", "50 mm")
	if err := b.AddNote("not kept"); err != nil {
		t.Error(err)
	}
	b.settle()
	if b.Snapshot().Saved.Pending || b.text("mold/depth") != "50 mm" {
		t.Error("it cannot be tried out, or is on its way to the disk")
	}
	data, err := b.Export()
	if p, bad := model.Import(data); err != nil || bad != nil || p.ID != tray {
		t.Errorf("exported under %q, %v, %v", p.ID, err, bad)
	}
	b.LookAt(c, tray) // once more, from within a look
	b.settle()
	if b.text("mold/depth") != "30 mm" || !b.Snapshot().Look.Back() {
		t.Error("no look from within a look")
	}
	b.EndLook()
	b.settle()
	if shot := b.Snapshot(); shot.Project.Name != "Shelf" || shot.Look != nil || shot.Saved.Closed {
		t.Errorf("after the look: %q, %+v", shot.Project.Name, shot.Saved)
	}
	b.Open(tray)
	b.settle()
	if b.text("mold/depth") != "40 mm" || len(b.Snapshot().Project.Journal) != 0 {
		t.Error("the look changed the project")
	}
	b.LookAt(c, tray)
	b.settle()
	b.Create("Made from a look")
	b.settle()
	if shot := b.Snapshot(); shot.Look != nil || shot.Saved.Closed || shot.Project.Name != "Made from a look" {
		t.Errorf("%+v", shot.Saved)
	}
	b.LookAt(c, tray)
	b.settle()
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	b = newBench(t, b.path, nil)
	b.Reopen()
	b.settle()
	if b.text("name") != "Made from a look" {
		t.Errorf("opened next time: %q", b.text("name"))
	}
	if err := b.Close(); err != nil {
		t.Error(err)
	}
}

// TestRestoreACopy: all is as it was then, and restoring what was set aside
// undoes it.
func TestRestoreACopy(t *testing.T) {
	b, tray := withCopy(t)
	b.Open(tray)
	b.settle()
	b.enter("mold/depth", "41 mm")
	told := 0
	b.RestoreCopy(b.copies()[0], func() { told++ })
	b.settle()
	if shot := b.Snapshot(); b.text("mold/depth") != "30 mm" || len(shot.Cards) != 1 || shot.Saved.What != "" || told != 1 {
		t.Fatalf("%q, %d projects, %q, told %d times", b.text("mold/depth"), len(shot.Cards), shot.Saved.What, told)
	}
	b.enter("mold/depth", "31 mm") // it is worked on
	var aside model.Copy
	for _, c := range b.copies() {
		if c.Kind == model.CopyAside {
			aside = c
		}
	}
	if got := b.compared(aside); got["Shelf"] != model.OnlyThen {
		t.Errorf("%v", got)
	}
	b.Open(tray)
	b.RestoreCopy(aside, func() { told++ })
	b.settle()
	if shot := b.Snapshot(); b.text("mold/depth") != "41 mm" || len(shot.Cards) != 2 || told != 2 {
		t.Errorf("undone: %q, %d projects, %q", b.text("mold/depth"), len(shot.Cards), shot.Saved.What)
	}
	if err := os.WriteFile(aside.Path, []byte("spoilt"), 0o600); err != nil {
		t.Fatal(err)
	}
	b.RestoreCopy(aside, func() { told++ })
	b.settle()
	if shot := b.Snapshot(); shot.Saved.What == "" || told != 2 || b.text("mold/depth") != "41 mm" {
		t.Errorf("a spoilt copy: %+v, %q", shot.Saved, b.text("mold/depth"))
	}
	b.enter("mold/depth", "42 mm")
	if err := b.Close(); err != nil {
		t.Error(err)
	}
	b = newBench(t, b.path, nil)
	b.Open(tray)
	b.settle()
	if b.text("mold/depth") != "42 mm" {
		t.Errorf("next time: %q", b.text("mold/depth"))
	}
	if err := b.Close(); err != nil {
		t.Error(err)
	}
}

// TestBringBackOne: only one project comes back, as a step that undo takes back,
// and its journal keeps all that happened since.
func TestBringBackOne(t *testing.T) {
	b, tray := withCopy(t)
	c := b.copies()[0]
	b.Open(tray)
	b.settle()
	if err := b.AddNote("since the copy"); err != nil {
		t.Fatal(err)
	}
	b.settle()
	shelf := ""
	for _, x := range b.Snapshot().Cards {
		if x.Name == "Shelf" {
			shelf = x.ID
		}
	}
	b.Open(shelf)
	told := 0
	b.BringBack(c, tray, func() { told++ })
	b.settle()
	shot := b.Snapshot()
	if b.text("mold/depth") != "30 mm" || len(shot.Cards) != 2 || told != 1 || len(shot.Project.Journal) != 1 || !strings.HasPrefix(shot.Undo, "As it was in the copy") {
		t.Errorf("%q, %d projects, told %d, %d entries, undo %q", b.text("mold/depth"), len(shot.Cards), told, len(shot.Project.Journal), shot.Undo)
	}
	b.Undo()
	b.settle()
	if b.text("mold/depth") != "40 mm" || len(b.Snapshot().Project.Journal) != 1 {
		t.Errorf("undone: %q", b.text("mold/depth"))
	}
	if err := b.Close(); err != nil {
		t.Error(err)
	}
	// In a notebook that has no such project it is a new one, under its own ID.
	other := started(t)
	other.BringBack(c, tray, func() { told++ })
	other.settle()
	if shot := other.Snapshot(); shot.Project.ID != tray || other.text("mold/depth") != "30 mm" || told != 2 || len(shot.Cards) != 2 {
		t.Errorf("%q %q, told %d", shot.Project.ID, other.text("mold/depth"), told)
	}
	if err := other.Close(); err != nil {
		t.Error(err)
	}
}

// TestSecondPlaceGoesOn: a folder that is gone is said once, keeps nothing from
// being saved, and is tried again once it is there.
func TestSecondPlaceGoesOn(t *testing.T) {
	b := withPictures(t)
	stick := filepath.Join(t.TempDir(), "stick")
	var err error
	b.SetSecondPlace(stick, func(e error) { err = e })
	b.settle()
	if err == nil || b.SecondPlace() != stick {
		t.Errorf("a folder that is not there: %v, %q", err, b.SecondPlace())
	}
	b.clock.advance(24 * time.Hour)
	b.enter("mold/depth", "31 mm")
	if s := b.Snapshot().Saved; !strings.Contains(s.What, stick) || s.Pending {
		t.Errorf("%+v", s)
	}
	b.Retry() // puts away what was said
	if err := os.Mkdir(stick, 0o700); err != nil {
		t.Fatal(err)
	}
	b.clock.advance(2 * time.Hour)
	b.enter("mold/depth", "32 mm")
	away := 0
	for _, c := range b.copies() {
		if c.Away {
			away++
		}
	}
	photos, _ := filepath.Glob(filepath.Join(stick, "Meniscus", "*", "photos", "*.png"))
	if s := b.Snapshot().Saved; s.What != "" || away != 1 || len(photos) != 2 {
		t.Errorf("%q, %d copies, %d photos", s.What, away, len(photos))
	}
	b.CopyAwayNow(func(e error) { err = e })
	b.settle()
	if err != nil {
		t.Error(err)
	}
	b.SetSecondPlace("", func(e error) { err = e })
	b.settle()
	if b.SecondPlace() != "" || err != nil {
		t.Error(err)
	}
	if err := b.Close(); err != nil {
		t.Error(err)
	}
}

// TestCopyComesWithItsPhotos: what a copy in the second place has and the
// notebook has not comes along.
func TestCopyComesWithItsPhotos(t *testing.T) {
	b := withPictures(t)
	id := b.Snapshot().Project.ID
	stick := t.TempDir()
	b.SetSecondPlace(stick, func(err error) {
		if err != nil {
			t.Error(err)
		}
	})
	b.settle()
	fresh := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil)
	fresh.second = &stick
	for _, c := range fresh.copies() {
		if c.Away && fresh.compared(c)[b.Snapshot().Project.Name] == model.OnlyThen {
			fresh.BringBack(c, id, func() {})
			fresh.settle()
		}
	}
	if shot := fresh.Snapshot(); shot.Project.ID != id || len(fresh.kept()) != 2 {
		t.Errorf("%q with %d photos", shot.Project.ID, len(fresh.kept()))
	}
	if err := errors.Join(b.Close(), fresh.Close()); err != nil {
		t.Error(err)
	}
}

// TestDayHasItsYear: a state of a year gone by is told with its year, one of this
// year without.
func TestDayHasItsYear(t *testing.T) {
	now := time.Date(2026, 11, 25, 9, 0, 0, 0, time.Local)
	for at, want := range map[time.Time]string{
		time.Date(2026, 1, 2, 0, 0, 0, 0, time.Local):     "Friday 2 January",
		time.Date(2025, 12, 31, 23, 59, 0, 0, time.Local): "Wednesday 31 December 2025",
	} {
		if got := onDay(at, now); got != want {
			t.Errorf("%v: %q", at, got)
		}
	}
}
