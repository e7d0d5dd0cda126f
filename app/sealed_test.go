package app

import (
	"bytes"
	"io"
	"slices"
	"sync"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/storage"
)

// watched is a notebook that tells what is written to it, and may say that it can
// only be read.
type watched struct {
	*storage.Notebook
	sealed bool

	mu    sync.Mutex
	wrote []string
}

func (w *watched) ReadOnly() bool { return w.sealed }

func (w *watched) note(what string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.wrote = append(w.wrote, what)
}

// told gives what was written since it was last asked for.
func (w *watched) told() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	list := w.wrote
	w.wrote = nil
	return list
}

func (w *watched) Save(p model.Project, c model.Card, after int, amend bool, label string, at time.Time) (model.Revision, error) {
	w.note("project")
	return w.Notebook.Save(p, c, after, amend, label, at)
}

func (w *watched) Turn(id string, number int, c model.Card) error {
	w.note("turn")
	return w.Notebook.Turn(id, number, c)
}

func (w *watched) SaveShelf(m model.Shelf, amend bool, label string, at time.Time) (model.Revision, error) {
	w.note("shelf")
	return w.Notebook.SaveShelf(m, amend, label, at)
}

func (w *watched) TurnShelf(number int) (model.Shelf, error) {
	w.note("shelf's turn")
	return w.Notebook.TurnShelf(number)
}

func (w *watched) PutRunning(of map[string]model.Running) error {
	w.note("clock")
	return w.Notebook.PutRunning(of)
}

func (w *watched) PutSetting(name string, v any) error {
	w.note("setting")
	return w.Notebook.PutSetting(name, v)
}

func (w *watched) PutPhoto(from io.Reader, limit int64) (string, error) {
	w.note("photo")
	return w.Notebook.PutPhoto(from, limit)
}

func (w *watched) CarryPhotos(path string) error {
	w.note("photos")
	return w.Notebook.CarryPhotos(path)
}

func (w *watched) Restore(path string, at time.Time) error {
	w.note("notebook")
	return w.Notebook.Restore(path, at)
}

// done waits until all is written that was on its way.
func (b *bench) done() {
	b.t.Helper()
	b.settle()
	written := make(chan struct{})
	b.jobs.InOrder(func() { close(written) })
	<-written
	b.settle()
}

// TestEveryWayIntoTheNotebook goes through all ways to change the notebook. In
// one that can only be read none writes anything. In a look into a copy those that
// are of the project on the screen or of the shelf write nothing either, and what
// they tried out of the shelf is gone with the look; those that add something to
// the notebook, or put something in the place of it, do.
func TestEveryWayIntoTheNotebook(t *testing.T) {
	photo := pictureOf(t, 40, 30)
	for _, c := range []struct {
		name string
		adds bool // also in a look
		act  func(b *bench, copied model.Copy, tray string)
	}{
		{"edit", false, func(b *bench, _ model.Copy, _ string) { b.Enter("mold/depth", "51 mm") }},
		{"journal", false, func(b *bench, _ model.Copy, _ string) { _ = b.AddNote("seen") }},
		{"undo", false, func(b *bench, _ model.Copy, _ string) { b.Undo() }},
		{"redo", false, func(b *bench, _ model.Copy, _ string) { b.Redo() }},
		{"restore a state", false, func(b *bench, _ model.Copy, _ string) { b.Restore(1) }},
		{"archive", false, func(b *bench, _ model.Copy, _ string) { b.Archive(true) }},
		{"units", false, func(b *bench, _ model.Copy, _ string) { b.SetStyle(unit.Style{Lengths: unit.InInches}) }},
		{"photo", false, func(b *bench, _ model.Copy, _ string) {
			b.AddPhoto(io.NopCloser(bytes.NewReader(photo)), "", "", func(err error) {
				if err == nil {
					b.t.Error("a photo is taken")
				}
			})
		}},
		{"slab photo", false, func(b *bench, _ model.Copy, _ string) {
			b.AddSlabPhoto(io.NopCloser(bytes.NewReader(photo)), "", model.FaceUpper, func(_ string, err error) {
				if err == nil {
					b.t.Error("a photo of a slab is taken")
				}
			})
		}},
		{"shelf", false, func(b *bench, _ model.Copy, _ string) {
			_ = b.EditShelf("Add a tint", "", func(m *model.Shelf) error { m.AddTint(); return nil })
		}},
		{"keep on the shelf", false, func(b *bench, _ model.Copy, _ string) { _ = b.KeepMold() }},
		{"losses", false, func(b *bench, _ model.Copy, _ string) {
			_ = b.KeepLosses(model.Losses{CupLeast: unit.Taken[unit.Mass]{Value: 9 * unit.Gram, Written: "9 g"}})
		}},
		{"undo the shelf", false, func(b *bench, _ model.Copy, _ string) { b.UndoShelf() }},
		{"redo the shelf", false, func(b *bench, _ model.Copy, _ string) { b.RedoShelf() }},
		{"setting", true, func(b *bench, _ model.Copy, _ string) { b.Remember("windows", 3) }},
		{"create", true, func(b *bench, _ model.Copy, _ string) { b.Create("Bowl") }},
		{"copy", true, func(b *bench, _ model.Copy, _ string) { b.Session.Copy() }},
		{"import", true, func(b *bench, _ model.Copy, _ string) {
			data, err := model.Export(model.Blank("brought", "Brought"))
			if err != nil {
				b.t.Fatal(err)
			}
			if err := b.Import(data); (err != nil) != b.notebookSealed() {
				b.t.Errorf("import: %v", err)
			}
		}},
		{"make again", true, func(b *bench, _ model.Copy, _ string) {
			p := model.Blank("again", "Again")
			p.Made.Name = "Tray"
			if err := b.TakeAgain(Reissued{Project: p}); (err != nil) != b.notebookSealed() {
				b.t.Errorf("make again: %v", err)
			}
		}},
		{"bring back", true, func(b *bench, copied model.Copy, tray string) { b.BringBack(copied, tray, func() {}) }},
		{"restore a copy", true, func(b *bench, copied model.Copy, _ string) { b.RestoreCopy(copied, func() {}) }},
	} {
		for _, sealed := range []bool{true, false} {
			b, tray := withCopy(t)
			if err := b.EditShelf("Add moss", "", func(m *model.Shelf) error { m.AddTint(); return nil }); err != nil {
				t.Fatal(err)
			}
			b.settle()
			copied := b.copies()[0]
			if err := b.Close(); err != nil {
				t.Fatal(err)
			}
			var disk *watched
			b = newBench(t, b.path, func(s Store) Store {
				disk = &watched{Notebook: s.(*storage.Notebook), sealed: sealed}
				return disk
			})
			b.Reopen()
			b.done()
			if !sealed {
				b.LookAt(copied, tray)
				b.done()
			}
			if shot := b.Snapshot(); !shot.Saved.Closed || shot.Undo != "" || shot.ShelfUndo != "" {
				t.Fatalf("%s, sealed %t: closed %t, undo %q, of the shelf %q", c.name, sealed, shot.Saved.Closed, shot.Undo, shot.ShelfUndo)
			}
			disk.told()
			was, shot := b.shelf.now.Clone(), b.Snapshot()
			c.act(b, copied, tray)
			b.done()
			wrote := disk.told()
			if got := len(wrote) > 0; got != (c.adds && !sealed) {
				t.Errorf("%s, sealed %t: written %q", c.name, sealed, wrote)
			}
			if !sealed && !c.adds {
				if b.EndLook(); !shot.Look.Back() {
					t.Fatalf("%s: no way back", c.name)
				}
				b.done()
				if now := b.shelf.now; len(now.Tints) != len(was.Tints) || len(now.Molds) != len(was.Molds) || now.Losses != was.Losses || now.Style != was.Style {
					t.Errorf("%s: tried out on the shelf and left there: %+v", c.name, now)
				}
				if left := b.Snapshot(); left.Saved.Closed || len(left.Shelf.Tints) != len(was.Tints) || left.ShelfUndo != "Add moss" {
					t.Errorf("%s: after the look %+v, undo of the shelf %q", c.name, left.Saved, left.ShelfUndo)
				}
				if wrote := slices.DeleteFunc(disk.told(), func(what string) bool { return what == "setting" }); len(wrote) > 0 {
					t.Errorf("%s: with the end of the look written %q", c.name, wrote)
				}
			}
			if err := b.Close(); err != nil {
				t.Errorf("%s: %v", c.name, err)
			}
		}
	}
}
