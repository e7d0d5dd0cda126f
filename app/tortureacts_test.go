package app

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// rack is the torture's session: a shop over a telling notebook, with the dice
// that choose what is done.
type rack struct {
	*shop
	store *telling
	dir   string
	r     *rand.Rand
	turn  int // of acts, for what is entered
}

// tortured are the kinds of write that the torture knows, by name. The first two
// happen while a notebook is opened.
var tortured = []string{
	"new notebook", "older form", "edit", "amended edit", "undo and redo", "state brought back", "draft", "journal", "withdrawal", "running clock",
	"photo", "shelf", "use of the shelf", "setting", "new project", "renamed, put away", "copied, opened", "zip out and in", "copy of the day",
	"second copy", "restore", "compaction",
}

// acts does each kind once. What it returns is an error of the program.
var acts = map[string]func(k *rack) error{
	"edit": (*rack).edit,
	"amended edit": func(k *rack) error {
		for range 3 {
			k.Enter("note", k.fresh())
		}
		return nil
	},
	"undo and redo": func(k *rack) error {
		k.Undo()
		if k.r.IntN(2) == 0 {
			k.Undo()
		}
		k.Redo()
		return nil
	},
	"state brought back": func(k *rack) error {
		if list := k.Revisions(); len(list) > 0 {
			k.Restore(list[k.r.IntN(len(list))].Number)
		}
		return nil
	},
	"draft": func(k *rack) error { k.Enter("mold/depth", k.fresh()+" paces"); return nil },
	"journal": func(k *rack) error {
		if k.r.IntN(2) == 0 {
			return k.AddReading("", fmt.Sprint(15+k.r.IntN(9)), "", time.Time{})
		}
		return k.AddNote(k.fresh())
	},
	"withdrawal": func(k *rack) error {
		id := "e" + k.newID()
		return errors.Join(k.Edit("", "", func(p *model.Project) error {
			return p.Log(model.Entry{ID: id, Kind: model.EntryNote, Text: "taken back", At: k.instant()}, k.instant())
		}), k.Withdraw(id))
	},
	"running clock": func(k *rack) error {
		layers := k.project.Layers
		if len(layers) == 0 {
			return k.AddNote("no layer")
		}
		layer := layers[0].ID
		if _, begun := k.project.PourStart(layer); !begun {
			return k.StartPour(layer)
		}
		return k.Withdraw(k.began(layer))
	},
	"photo": func(k *rack) error {
		var picture bytes.Buffer
		p := image.NewRGBA(image.Rect(0, 0, 8, 8))
		p.Set(k.r.IntN(8), k.r.IntN(8), color.RGBA{uint8(k.r.IntN(256)), uint8(k.r.IntN(256)), uint8(k.r.IntN(256)), 255})
		if err := png.Encode(&picture, p); err != nil {
			return err
		}
		if err := k.settles(); err != nil { // it is noted in the piece that is open
			return err
		}
		return k.waits(func(done func(error)) { k.AddPhoto(io.NopCloser(&picture), "", k.fresh(), done) })
	},
	"shelf": (*rack).onShelf,
	"use of the shelf": func(k *rack) error {
		if len(k.project.Sheets) == 0 || len(k.project.Layers) == 0 {
			return k.AddNote("no sheet")
		}
		if k.project.Sheets[0].Product == "" {
			if err := k.KeepProduct(k.project.Sheets[0].ID); err != nil {
				return err
			}
		}
		return k.AddWeighed(k.project.Layers[0].ID, model.EntryWeighedA, fmt.Sprint(200+k.r.IntN(200), " g"), true)
	},
	"setting": (*rack).set,
	"new project": func(k *rack) error {
		k.Create(k.fresh())
		return nil
	},
	"renamed, put away": func(k *rack) error {
		k.Enter("name", k.fresh())
		k.Archive(!k.project.Archived)
		return nil
	},
	"copied, opened": func(k *rack) error {
		k.Copy()
		id := k.Snapshot().Cards[k.r.IntN(len(k.Snapshot().Cards))].ID
		if id == "golden" { // whose random outline no file of ours may have
			id = "demo-poppy"
		}
		k.Open(id)
		return nil
	},
	"zip out and in": func(k *rack) error {
		path := filepath.Join(k.dir, "piece.zip")
		to, err := os.Create(path)
		if err != nil {
			return err
		}
		if err := k.settles(); err != nil {
			return errors.Join(err, to.Close())
		}
		if err := k.waits(func(done func(error)) { k.ExportWithPhotos(to, func(_ int, err error) { done(err) }) }); err != nil {
			return err
		}
		from, err := os.Open(path)
		if err != nil {
			return err
		}
		info, err := from.Stat()
		if err != nil {
			return err
		}
		return k.waits(func(done func(error)) {
			k.ImportWithPhotos(from, info.Size(), func(_ int, err error) { done(err) })
		})
	},
	"copy of the day": func(k *rack) error {
		k.clock.advance(24 * time.Hour)
		for range 4 { // the copy is made while the later ones are saved
			if err := k.AddNote(k.fresh()); err != nil {
				return err
			}
			if err := k.until("it is saved", func() bool { return !k.Snapshot().Saved.Pending }); err != nil {
				return err
			}
		}
		return k.rests("copy of the day")
	},
	"second copy": func(k *rack) error {
		if k.SecondPlace() == "" {
			return k.waits(func(done func(error)) { k.SetSecondPlace(filepath.Join(k.dir, "stick"), done) })
		}
		if err := k.AddNote(k.fresh()); err != nil {
			return err
		}
		return k.waits(k.CopyAwayNow)
	},
	"restore": func(k *rack) error {
		name := fmt.Sprint("then-", k.newID(), ".db")
		path := filepath.Join(k.dir, name)
		if err := errors.Join(k.settles(), k.store.Backup(path)); err != nil {
			return err
		}
		fmt.Println("copied", name)
		if err := errors.Join(k.edit(), k.onShelf(), k.set(), k.settles()); err != nil {
			return err
		}
		return k.waits(func(done func(error)) { k.RestoreCopy(model.Copy{Path: path}, func() { done(nil) }) })
	},
	"compaction": func(k *rack) error {
		// What is written and taken out again leaves room that is free.
		room := make([]byte, 4_500_000)
		for i := range room {
			room[i] = byte(k.r.Uint32())
		}
		err := errors.Join(k.store.PutSetting("filler", room), k.store.PutSetting("filler", ""), k.store.PutSetting("filler", "gone"))
		k.tick(k.clock.Now()) // from which the hour counts
		k.clock.advance(2 * tidyEvery)
		k.tick(k.clock.Now())
		return errors.Join(err, k.rests("tidy"))
	},
}

// edit changes the open project by one step.
func (k *rack) edit() error {
	return k.Edit("Note", "", func(p *model.Project) error { p.Note = k.fresh(); return nil })
}

// set keeps a setting.
func (k *rack) set() error { k.Remember("torture", k.fresh()); return nil }

// onShelf changes the shelf, and may undo that.
func (k *rack) onShelf() error {
	err := k.EditShelf("Add a tint", "", func(m *model.Shelf) error {
		m.Tints = m.Tints[:min(len(m.Tints), 4)]
		m.AddTint()
		m.Tints[len(m.Tints)-1].Name = k.fresh()
		return nil
	})
	switch k.r.IntN(3) {
	case 0:
		k.UndoShelf()
	case 1:
		k.UndoShelf()
		k.RedoShelf()
	}
	return err
}

// fresh is a word that was never entered before.
func (k *rack) fresh() string {
	k.turn++
	return fmt.Sprint("turn ", k.turn, " of ", k.newID())
}

// began is the entry with which the pour of a layer began.
func (k *rack) began(layer string) string {
	for _, e := range slices.Backward(k.project.Journal) {
		if e.Kind == model.EntryPourStarted && e.Layer == layer && !slices.ContainsFunc(k.project.Journal, func(w model.Entry) bool { return w.Of == e.ID }) {
			return e.ID
		}
	}
	return ""
}

// waits does what is done at another time.
func (k *rack) waits(do func(done func(error))) (err error) {
	over := false
	do(func(e error) { over, err = true, e })
	return errors.Join(k.until("it is done", func() bool { return over || k.Snapshot().Saved.What != "" }), err)
}

// rests waits until the work under a key is done.
func (k *rack) rests(key string) error {
	return k.until(key+" rests", func() bool { return k.jobs.latest[key] == nil })
}

// settles waits until all is acknowledged, and says so.
func (k *rack) settles() error {
	over := false
	err := k.until("all is kept", func() bool {
		shot := k.Snapshot()
		if what := shot.Saved.What; what != "" {
			must(fmt.Errorf("it says %s %s", what, shot.Saved.Do))
		}
		return shot.Open && !k.moving && !k.shelf.turning && !shot.Saved.Pending && shot.CuringFresh && digestOf(shot.Project) == digestOf(k.project)
	})
	// What else is in line for the disk goes first.
	k.jobs.InOrder(func() { k.jobs.hand(func() { over = true }) })
	if err = errors.Join(err, k.until("the line is empty", func() bool { return over })); err != nil {
		return err
	}
	k.store.mu.Lock()
	value, written := k.store.written["project/"+k.project.ID]
	k.store.mu.Unlock()
	if written && value != digestOf(k.project) {
		return errors.New("what was written is not what is on the screen")
	}
	k.store.acknowledge()
	return nil
}

// The child works in a notebook: some acts by the dice, the one that is named,
// and then more, until it is killed or has done enough.
func init() {
	children["torture"] = func(args []string) {
		dir, run, kind := args[0], args[1], args[2]
		var seed uint64
		_, err := fmt.Sscan(args[3], &seed)
		must(err)
		fmt.Println("opens")
		n, err := storage.Open(filepath.Join(dir, "n.db"))
		must(err)
		k := &rack{store: &telling{Notebook: n, written: map[string]string{}}, dir: dir, r: rand.New(rand.NewPCG(seed, 3))}
		k.shop, err = over(k.store, "r"+run, pourDay.Add(time.Duration(seed%5000)*time.Hour), false)
		must(err)
		if !k.Reopen() {
			demo, err := os.ReadFile("../testdata/demo-poppy-stand.json")
			must(err)
			must(k.Import(demo))
		}
		must(k.until("it is open", func() bool { return k.Snapshot().Open }))
		must(k.settles())
		var may []string // what the dice choose among: the quick ones
		for _, name := range tortured[2:] {
			if name != "compaction" && name != "restore" && name != "second copy" && name != "zip out and in" {
				may = append(may, name)
			}
		}
		before := k.r.IntN(4)
		for i := range before + 6 {
			name := may[k.r.IntN(len(may))]
			if i == before && acts[kind] != nil {
				name = kind
			}
			k.clock.advance(time.Duration(k.r.IntN(90)) * time.Second)
			fmt.Println("sends", i == before, name)
			must(acts[name](k))
			if k.r.IntN(4) > 0 {
				must(k.settles())
				fmt.Println("done", name)
			}
		}
		must(k.settles())
		must(k.Close())
		k.store.acknowledge() // what was written while it closed
		fmt.Println("closed")
	}
}
