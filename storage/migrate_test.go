package storage

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"meniscus/model"
	"meniscus/model/unit"
)

// renamed is a step to the schema to that writes a mark into every project's
// note, as a real step would rewrite every body.
func renamed(to int) step {
	return step{to: to, run: func(tx *bolt.Tx) error {
		projects := tx.Bucket([]byte(bucketProjects))
		return projects.ForEachBucket(func(k []byte) error {
			f, err := folderOf(tx, string(k))
			if err != nil {
				return err
			}
			h, err := f.readHead()
			if err != nil {
				return err
			}
			p, err := f.body(h.Current)
			if err != nil {
				return err
			}
			p.Note += fmt.Sprint(" form ", to)
			raw, err := json.Marshal(p)
			if err != nil {
				return err
			}
			return f.bodies.Put(numberKey(h.Current), seal(placeBody(f.id, h.Current), raw))
		})
	}}
}

// later is a program of a later schema.
func later(schema int, list ...step) Option {
	return func(n *Notebook) { n.schema, n.steps = schema, list }
}

// old makes a notebook of schema 1 and returns its bytes.
func old(t *testing.T, path string) []byte {
	t.Helper()
	n, err := Open(path, later(1))
	if err != nil {
		t.Fatal(err)
	}
	p := sample("a", 1, 400)
	p.Journal = []model.Entry{entry("e1", noon)}
	save(t, n, p, 0, noon)
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

func TestMigration(t *testing.T) {
	path := tempPath(t)
	old(t, path)
	clock := WithClock(func() time.Time { return noon })
	n, err := Open(path, clock, later(3, renamed(2), renamed(3)))
	if err != nil {
		t.Fatal(err)
	}
	p, r, err := n.Load("a")
	if err != nil || p.Note != "version 1 form 2 form 3" || len(p.Journal) != 1 || r.Number != 1 {
		t.Errorf("migrated: %q, %v, %v", p.Note, r, err)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	copied := filepath.Join(filepath.Dir(path), "backups", "before-form-3-2026-11-25T120000Z.db")
	b := opened(t, copied)
	if p, _, err := b.Load("a"); err != nil || p.Note != "version 1" {
		t.Errorf("the copy: %q, %v", p.Note, err)
	}
	// A second opening has nothing to do.
	n, err = Open(path, later(3, renamed(2), renamed(3)))
	if err != nil {
		t.Fatal(err)
	}
	if p, _, err := n.Load("a"); err != nil || p.Note != "version 1 form 2 form 3" {
		t.Errorf("opened again: %q, %v", p.Note, err)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	// And from schema 2 only the last step is run.
	path = tempPath(t)
	n, err = Open(path, later(2))
	if err != nil {
		t.Fatal(err)
	}
	save(t, n, sample("a", 1, 3), 0, noon)
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	n, err = Open(path, later(3, renamed(2), renamed(3)))
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	if p, _, err := n.Load("a"); err != nil || p.Note != "version 1 form 3" {
		t.Errorf("from form 2: %q, %v", p.Note, err)
	}
}

func TestMigrationFailsWhole(t *testing.T) {
	broken := errors.New("the step is broken")
	fail := step{to: 3, run: func(*bolt.Tx) error { return broken }}
	crash := step{to: 3, run: func(*bolt.Tx) error { panic("the step is broken") }}
	for _, last := range []step{fail, crash} {
		path := tempPath(t)
		old(t, path)
		_, err := Open(path, later(3, renamed(2), last))
		if !errors.Is(err, ErrFailed) || !strings.Contains(err.Error(), "form 1 to form 3") {
			t.Errorf("error: %v", err)
		}
		n := opened(t, path)
		if p, _, err := n.Load("a"); err != nil || p.Note != "version 1" {
			t.Errorf("after it: %q, %v", p.Note, err)
		}
	}
}

// The child is killed in the middle of a step.
func init() {
	children["migrate"] = func(args []string) {
		die := step{to: 3, run: func(*bolt.Tx) error {
			fmt.Println("3")
			time.Sleep(time.Minute)
			return nil
		}}
		_, err := Open(args[0], later(3, renamed(2), die))
		must(err)
	}
}

func TestKilledWhileMigrating(t *testing.T) {
	path := tempPath(t)
	old(t, path)
	killed(t, "migrate", path)
	n := opened(t, path)
	if p, _, err := n.Load("a"); err != nil || p.Note != "version 1" {
		t.Errorf("after it: %q, %v", p.Note, err)
	}
}

func TestNewerSchemaIsLeftAlone(t *testing.T) {
	path := tempPath(t)
	n, err := Open(path, later(7))
	if err != nil {
		t.Fatal(err)
	}
	save(t, n, sample("a", 1, 3), 0, noon)
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	_, err = Open(path)
	if !errors.Is(err, ErrNewer) || !strings.Contains(err.Error(), "form 7") || !strings.Contains(err.Error(), fmt.Sprint("up to ", schemaNow)) || !strings.Contains(err.Error(), path) {
		t.Errorf("error: %v", err)
	}
	if after, err := os.ReadFile(path); err != nil || !bytes.Equal(before, after) {
		t.Errorf("the file was changed, %v", err)
	}
	if left, _ := os.ReadDir(filepath.Dir(path)); len(left) != 1 {
		t.Errorf("something was put beside it: %v", left)
	}
}

var update = flag.Bool("update", false, "write testdata anew")

// golden is the content of testdata/form-N.db.
func golden(form int) model.Project {
	p := sample("golden", 1, 20)
	p.Journal = []model.Entry{entry("e1", noon)}
	if form >= 2 {
		warm := func(c float64) unit.Taken[unit.Temperature] {
			return unit.Taken[unit.Temperature]{Value: unit.Celsius(c), Written: fmt.Sprint(c, " °C")}
		}
		p.Mold.Floor, p.Mold.Thick = model.FloorHDPE, unit.Dim{Value: 0.01, Written: "10 mm"}
		p.Layers = []model.Layer{{ID: "l1", Name: "first", By: model.ToDepth, Lot: "A-17/3"}}
		p.Sheets = []model.Sheet{{
			ID: "s1", Name: "slow", Class: model.ClassSlow, PeakLimit: model.Figure[unit.Temperature]{Taken: warm(60)},
			Heat:         model.Figure[unit.SpecificEnergy]{Taken: unit.Taken[unit.SpecificEnergy]{Value: 290e3, Written: "290 J/g"}},
			WorkingOther: model.Figure[unit.Span]{Taken: unit.Taken[unit.Span]{Value: 7200, Written: "2 h"}, At: warm(15)},
		}}
		p.Shop = model.Shop{Night: warm(12), Resin: warm(20), Bench: model.BenchOpen, Planned: noon, Wakes: "06:30", Sleeps: "22:30"}
		p.Journal = append(p.Journal,
			model.Entry{ID: "e2", At: noon, Kind: model.EntryReading, Layer: "l1", Room: warm(14), Part: warm(24)},
			model.Entry{ID: "e3", At: noon, Kind: model.EntryTack, Layer: "l1", Feel: model.FeelTape},
			model.Entry{ID: "e4", At: noon, Kind: model.EntryProbe, Layer: "l1", Part: warm(41)},
			model.Entry{ID: "e5", At: noon, Kind: model.EntryDemolded, Feel: model.FeelStiff},
		)
	}
	if form >= 3 {
		g := func(n float64) unit.Taken[unit.Mass] {
			return unit.Taken[unit.Mass]{Value: unit.Gram.Times(n), Written: fmt.Sprint(n, " g")}
		}
		p.Layers[0].Tint = model.Tint{Name: "smoke grey", Mass: g(4.5), Kind: model.ColorantPaste, Grain: dim(3e-6)}
		p.Layers[0].Additives = []model.Additive{{ID: "a1", Name: "pearl", Kind: model.ColorantMica, Share: unit.Taken[unit.Share]{Value: 0.02, Written: "2 %"}}}
		p.Mixing.Vessel = model.Vessel{Floor: dim(0.08), Brim: dim(0.1), Tall: dim(0.12), Lined: unit.InMillilitres}
		p.Journal = append(p.Journal,
			model.Entry{ID: "e6", At: noon, Kind: model.EntryWeighedA, Layer: "l1", Gross: g(497.8), Cup: g(42.6)},
			model.Entry{ID: "e7", At: noon, Kind: model.EntryPlaced, Insert: "i1"},
			model.Entry{ID: "e8", At: noon, Kind: model.EntryChecked, Layer: "l1", Check: "level"},
			model.Entry{ID: "e9", At: noon, Kind: model.EntryPhoto, Photo: "0123"},
			model.Entry{ID: "f1", At: noon, Kind: model.EntryPourStarted, Layer: "l1", Clock: "13:00"},
		)
	}
	if form >= 4 {
		p.Sheets[0].Product = "r1"
		for i := range p.Journal {
			if e := &p.Journal[i]; e.ID == "e6" {
				e.Product, e.Lot = "r1", "A-17/3"
			}
		}
	}
	return p
}

// A card of form 2 loses what it told of its next step, and nothing else; one
// that cannot be read keeps no one from opening the notebook.
func TestCardsLoseTheirNextStep(t *testing.T) {
	path := tempPath(t)
	n, err := Open(path, later(2))
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range []string{"a", "b", "c"} {
		save(t, n, sample(id, 1, 3), 0, noon)
	}
	err = n.update(func(tx *bolt.Tx) error {
		cards := tx.Bucket([]byte(bucketCards))
		old := seal(placeCard("a"), []byte(`{"id":"a","name":"Board a","touched":"2026-11-25T12:00:00Z","state":"planned","next":"recoat window opens","due":"2026-11-26T12:00:00Z","stops":2,"sketch":{"colour":"#102030"}}`))
		return errors.Join(cards.Put([]byte("a"), old), cards.Put([]byte("b"), []byte("no card")))
	})
	if err != nil {
		t.Fatal(err)
	}
	before, err := n.Cards()
	if err != nil || len(before) != 3 {
		t.Fatalf("%v, %v", before, err)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	if n, err = Open(path); err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	after, err := n.Cards()
	if err != nil || len(after) != 3 {
		t.Fatalf("%v, %v", after, err)
	}
	for _, c := range after {
		switch {
		case c.ID == "a" && (c.State != "planned" || c.Stops != 2 || c.Drawn().Colour != "#102030" || !c.Touched.Equal(noon)):
			t.Errorf("%+v", c)
		case c.ID == "b" && c.Name != "Board b", c.ID == "c" && c.State != "version 1":
			t.Errorf("%+v", c)
		}
	}
}

func TestGolden(t *testing.T) {
	file := filepath.Join("testdata", fmt.Sprintf("form-%d.db", schemaNow))
	if *update {
		if err := os.Remove(file); err != nil && !errors.Is(err, os.ErrNotExist) {
			t.Fatal(err)
		}
		n, err := Open(file, WithClock(func() time.Time { return noon }), WithProgram("1.0.0"))
		if err != nil {
			t.Fatal(err)
		}
		save(t, n, golden(schemaNow), 0, noon)
		if _, err := n.SaveShelf(shelfOfState(1), false, "Keep it", noon); err != nil {
			t.Fatal(err)
		}
		if err := n.Close(); err != nil {
			t.Fatal(err)
		}
	}
	files, err := filepath.Glob(filepath.Join("testdata", "form-*.db"))
	if err != nil || len(files) != schemaNow {
		t.Fatalf("%d files for %d forms, %v", len(files), schemaNow, err)
	}
	for form := 1; form <= schemaNow; form++ {
		file := filepath.Join("testdata", fmt.Sprintf("form-%d.db", form))
		raw, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		path := tempPath(t)
		if err := os.WriteFile(path, raw, 0o600); err != nil {
			t.Fatal(err)
		}
		n := opened(t, path)
		p, _, err := n.Load("golden")
		if err != nil || !reflect.DeepEqual(p, golden(form)) {
			t.Errorf("%s: %v; content as it was: %t", file, err, reflect.DeepEqual(p, golden(form)))
		}
		if cards, err := n.Cards(); err != nil || len(cards) != 1 {
			t.Errorf("%s: %v, %v", file, cards, err)
		}
		m, list, at, err := n.LoadShelf()
		taken := m.Uses
		m.Uses = nil
		switch {
		case err != nil:
			t.Errorf("%s: the shelf: %v", file, err)
		case form < shelfForm && (at != 0 || len(list)+len(taken) != 0 || !reflect.DeepEqual(m, model.Shelf{})):
			t.Errorf("%s has a shelf: %d, %+v", file, at, m)
		case form >= shelfForm && (at != 1 || !reflect.DeepEqual(m, shelfOfState(1)) || len(taken) != 1 || len(taken[0].List) != 1 || taken[0].List[0].Product != "r1"):
			t.Errorf("%s: the shelf at %d differs; %+v was taken", file, at, taken)
		}
	}
}

// A notebook of form 1 is copied aside before it is brought up, and brought up
// once.
func TestFormOneIsBroughtUp(t *testing.T) {
	raw, err := os.ReadFile(filepath.Join("testdata", "form-1.db"))
	if err != nil {
		t.Fatal(err)
	}
	path := tempPath(t)
	if err := os.WriteFile(path, raw, 0o600); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		n, err := Open(path, WithClock(func() time.Time { return noon }))
		if err != nil {
			t.Fatal(err)
		}
		if err := n.Close(); err != nil {
			t.Fatal(err)
		}
	}
	copies, err := os.ReadDir(filepath.Join(filepath.Dir(path), "backups"))
	if err != nil || len(copies) != 1 || !strings.HasPrefix(copies[0].Name(), fmt.Sprintf("before-form-%d-", schemaNow)) {
		t.Errorf("copies: %v, %v", copies, err)
	}
	// A program that knows form 1 only says so of the notebook.
	if _, err := Open(path, later(1)); !errors.Is(err, ErrNewer) {
		t.Errorf("opened as form 1: %v", err)
	}
}
