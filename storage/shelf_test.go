package storage

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"
	"pgregory.net/rapid"

	"meniscus/model"
	"meniscus/model/unit"
)

// shelfOfState is a shelf whose content follows from a number.
func shelfOfState(n int) model.Shelf {
	var m model.Shelf
	id := m.AddProduct()
	m.Product(id).Sheet.Note = fmt.Sprint("state ", n)
	b := m.Product(id).Bottle(m.AddBottle(id, model.PartA, "2026-11-20"))
	b.Lot, b.Tare = "A-17/3", weight(60)
	b.Weighings = []model.Weighing{{ID: "g9", At: noon.Add(-time.Hour), Gross: weight(float64(1000 + n))}}
	m.KeepMold(&model.Project{Name: "board", Mold: sample("x", n, 9).Mold})
	return m
}

// weight is so many grams as they were typed.
func weight(n float64) unit.Taken[unit.Mass] {
	return unit.Taken[unit.Mass]{Value: unit.Gram.Times(n), Written: fmt.Sprint(n, " g")}
}

// pouring is a project that took so many grams of A from the shelf in each of
// its readings.
func pouring(id string, takes ...float64) model.Project {
	p := sample(id, len(takes), 3)
	p.Sheets = []model.Sheet{{ID: "s1", Name: "slow", Product: "r1"}}
	p.Layers[0].Sheet, p.Layers[0].Lot = "s1", "A-17/3"
	for i, n := range takes {
		p.Journal = append(p.Journal, model.Entry{ID: fmt.Sprint("w", i), At: noon.Add(time.Duration(i) * time.Minute), Kind: model.EntryWeighedA, Layer: "l1", Cup: weight(40), Gross: weight(40 + n)})
	}
	return p
}

// keptShelf saves a shelf without ado.
func keptShelf(t testing.TB, n *Notebook, m model.Shelf, amend bool) int {
	t.Helper()
	r, err := n.SaveShelf(m, amend, "Change", noon)
	if err != nil {
		t.Fatal(err)
	}
	return r.Number
}

// grams adds up what the shelf says was taken.
func grams(m model.Shelf) (sum float64) {
	for _, u := range m.Uses {
		for _, x := range u.List {
			sum += x.Mass.Grams()
		}
	}
	return math.Round(sum*1000) / 1000
}

func TestShelfAcrossReopening(t *testing.T) {
	path := tempPath(t)
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	m, list, at, err := n.LoadShelf()
	if err != nil || at != 0 || len(list) != 0 || !reflect.DeepEqual(m, model.Shelf{}) {
		t.Errorf("at first: %+v, %v, %d, %v", m, list, at, err)
	}
	for i := range 3 {
		if got := keptShelf(t, n, shelfOfState(i+1), false); got != i+1 {
			t.Errorf("kept as %d", got)
		}
	}
	if got := keptShelf(t, n, shelfOfState(4), true); got != 3 {
		t.Errorf("amended as %d", got)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	n = opened(t, path)
	m, list, at, err = n.LoadShelf()
	if err != nil || at != 3 || len(list) != 3 || list[2].After != 2 || !reflect.DeepEqual(m, shelfOfState(4)) {
		t.Errorf("%v, %d, %v", list, at, err)
	}

	// Undo twice, and a further state takes the place of what was undone.
	if m, err = n.TurnShelf(1); err != nil || !reflect.DeepEqual(m, shelfOfState(1)) {
		t.Errorf("turned: %v", err)
	}
	if _, err := n.TurnShelf(9); !errors.Is(err, ErrMissing) {
		t.Errorf("to a state that was never there: %v", err)
	}
	keptShelf(t, n, shelfOfState(5), false)
	m, list, at, err = n.LoadShelf()
	if err != nil || len(list) != 2 || list[1].Number != at || list[1].After != 1 || !reflect.DeepEqual(m, shelfOfState(5)) {
		t.Errorf("%v, %d, %v", list, at, err)
	}

	// However many there are, the newest stay.
	for i := range mostShelfStates + 20 {
		keptShelf(t, n, shelfOfState(i), false)
	}
	if _, list, _, err := n.LoadShelf(); err != nil || len(list) != mostShelfStates {
		t.Errorf("%d states, %v", len(list), err)
	}
}

// TestUsesGoWithTheProject: what was taken is on the disk with the very save, and
// is the same after undo, after the same save again, and from a copy.
func TestUsesGoWithTheProject(t *testing.T) {
	n := opened(t, tempPath(t))
	keptShelf(t, n, shelfOfState(1), false)
	save(t, n, sample("b", 1, 3), 0, noon)
	plain := pouring("a", 250)
	plain.Sheets[0].Product = ""
	for step, c := range []struct {
		p     model.Project
		after int
		want  float64
	}{
		{plain, 0, 0}, // not linked yet
		{pouring("a", 250), 1, 250},
		{pouring("a", 250, 130), 2, 380},
		{pouring("a", 250, 130), 3, 380},
		{plain, 4, 0}, // linked no more
		{pouring("a", 250, 130), 5, 380},
	} {
		save(t, n, c.p, c.after, noon)
		m, _, _, err := n.LoadShelf()
		if err != nil || grams(m) != c.want {
			t.Errorf("step %d: %v g, want %v g, %v", step, grams(m), c.want, err)
		}
	}
	// Undo goes back to where nothing was linked; the journal stays.
	for number, want := range map[int]float64{1: 0, 3: 380} {
		p, err := n.At("a", number)
		if err == nil {
			err = n.Turn("a", number, card(p, noon))
		}
		m, _, _, err2 := n.LoadShelf()
		if err := errors.Join(err, err2); err != nil || grams(m) != want {
			t.Errorf("turned to %d: %v g, want %v g, %v", number, grams(m), want, err)
		}
	}
	// A reading that was taken back is not counted.
	p := pouring("a", 250, 130)
	p.Journal = append(p.Journal, model.Entry{ID: "x", At: noon.Add(time.Hour), Kind: model.EntryWithdrawn, Of: "w1"})
	_, r, _ := n.Load("a")
	save(t, n, p, r.Number, noon)
	if m, _, _, _ := n.LoadShelf(); grams(m) != 250 {
		t.Errorf("taken back: %v g", grams(m))
	}
	// And a copy of the notebook holds the shelf with it.
	to := filepath.Join(t.TempDir(), "copy.db")
	if err := n.Backup(to); err != nil {
		t.Fatal(err)
	}
	if m, _, at, err := opened(t, to).LoadShelf(); err != nil || at != 1 || grams(m) != 250 || len(m.Molds) != 1 {
		t.Errorf("the copy: %d, %v g, %v", at, grams(m), err)
	}
}

// TestDamagedShelf: whatever of the shelf is damaged is named, and the projects
// go on.
func TestDamagedShelf(t *testing.T) {
	for _, c := range []struct {
		name    string
		buckets []string
		key     []byte
		at      int     // that is shown
		taken   float64 // as told
		flaw    bool    // it is told when the shelf is loaded
	}{
		{"the current state", []string{bucketShelf, bucketBodies}, numberKey(3), 2, 250, true},
		{"an old state", []string{bucketShelf, bucketBodies}, numberKey(1), 3, 250, false},
		{"a note of a state", []string{bucketShelf, bucketRevisions}, numberKey(2), 3, 250, true},
		{"the head", []string{bucketShelf}, []byte(rowHead), 3, 250, true},
		{"what was taken, which is worked out again", []string{bucketShelf, bucketUses}, []byte("a"), 3, 250, false},
	} {
		n, err := Open(tempPath(t))
		if err != nil {
			t.Fatal(err)
		}
		for i := range 3 {
			keptShelf(t, n, shelfOfState(i+1), false)
		}
		save(t, n, pouring("a", 250), 0, noon)
		spoil(t, n, c.buckets, c.key)
		if err := n.Check(); !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), "helf") {
			t.Errorf("%s: Check: %v", c.name, err)
		}
		m, _, at, err := n.LoadShelf()
		if c.flaw != (err != nil) || err != nil && (!isPartial(err) || !errors.Is(err, ErrDamaged)) {
			t.Errorf("%s: %v", c.name, err)
		}
		if at != c.at || grams(m) != c.taken || m.Product("r1").Sheet.Note != fmt.Sprint("state ", c.at) {
			t.Errorf("%s: at %d, %v g, %+v", c.name, at, grams(m), m.Products)
		}
		if p, _, err := n.Load("a"); err != nil || p.ID != "a" {
			t.Errorf("%s: the project: %v", c.name, err)
		}
		// It can be worked with, and what is saved now is there afterwards.
		if _, err := n.SaveShelf(shelfOfState(7), false, "Change", noon); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		save(t, n, pouring("a", 250, 20), 1, noon)
		if m, _, _, err := n.LoadShelf(); err != nil && !isPartial(err) || m.Product("r1").Sheet.Note != "state 7" || grams(m) != 270 {
			t.Errorf("%s, saved anew: %v g, %v", c.name, grams(m), err)
		}
		if err := n.Close(); err != nil {
			t.Error(err)
		}
	}

	// Both what was taken and its project.
	n := spoiled(t, []string{bucketProjects, "a", bucketBodies}, numberKey(3))
	err := n.update(func(tx *bolt.Tx) error {
		s, _ := shelfOf(tx)
		return s.uses.Put([]byte("a"), []byte("nothing that can be read"))
	})
	if err != nil {
		t.Fatal(err)
	}
	m, _, _, err := n.LoadShelf()
	if !isPartial(err) || len(m.Uses) != 0 {
		t.Errorf("%+v, %v", m, err)
	}
	named(t, err)
}

// The child weighs for ever, moves the shelf on with every third reading, and
// prints how often it was told that a reading is on the disk.
func init() {
	children["weigh"] = func(args []string) {
		n, err := Open(args[0])
		must(err)
		var takes []float64
		after := 0
		if p, r, err := n.Load("a"); err == nil {
			after = r.Number
			for range p.Journal {
				takes = append(takes, 10)
			}
		}
		for {
			takes = append(takes, 10)
			p := pouring("a", takes...)
			r, err := n.Save(p, card(p, noon), after, false, "", noon)
			must(err)
			after = r.Number
			if len(takes)%3 == 0 {
				_, err = n.SaveShelf(shelfOfState(len(takes)), len(takes)%2 == 0, "", noon)
				must(err)
			}
			fmt.Println(len(takes))
		}
	}
}

// TestKilledWhileWeighing: however the program ends, the shelf and the journal
// tell the same.
func TestKilledWhileWeighing(t *testing.T) {
	path := tempPath(t)
	before := 0 // readings when the round began
	for round := range 12 {
		last := killed(t, "weigh", path)
		kept := last - last%3 // the last one after which the shelf was moved on
		if kept <= before {
			kept = 0 // that was in a round before, and may have been cut off there
		}
		n, err := Open(path)
		if err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		p, _, err := n.Load("a")
		m, _, _, err2 := n.LoadShelf()
		if err := errors.Join(err, err2); err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		if len(p.Journal) < last || len(p.Journal) > last+1 || grams(m) != 10*float64(len(p.Journal)) {
			t.Fatalf("round %d: %d readings, %d were kept, and %v g are off the shelf", round, len(p.Journal), last, grams(m))
		}
		if len(m.Products) == 1 {
			var state int
			_, _ = fmt.Sscanf(m.Products[0].Sheet.Note, "state %d", &state)
			if state%3 != 0 || state > len(p.Journal) || state < kept {
				t.Fatalf("round %d: the shelf is at %d after %d", round, state, last)
			}
		} else if kept > 0 {
			t.Fatalf("round %d: no shelf after %d", round, last)
		}
		before = len(p.Journal)
		if err := errors.Join(n.Check(), n.Close()); err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
	}
}

// TestShelfMachine holds the shelf of a notebook against a plain list.
func TestShelfMachine(t *testing.T) {
	dir, runs := t.TempDir(), 0
	rapid.Check(t, func(t *rapid.T) {
		runs++
		path := filepath.Join(dir, fmt.Sprint(runs), "notebook.db")
		n, err := Open(path, quick)
		if err != nil {
			t.Fatal(err)
		}
		defer func() {
			if err := errors.Join(n.Check(), n.Close(), os.RemoveAll(filepath.Dir(path))); err != nil {
				t.Error(err)
			}
		}()
		type state struct{ number, content int }
		var line []state
		at, content := -1, 0
		takes := map[string][]float64{}
		after := map[string]int{}
		t.Repeat(map[string]func(*rapid.T){
			"save": func(t *rapid.T) {
				content++
				amend := rapid.Bool().Draw(t, "amend")
				number := keptIn(t, n, content, amend)
				line = line[:at+1]
				if amend && at >= 0 {
					line[at].content = content
				} else {
					line = append(line, state{number, content})
					at++
				}
				if line[at].number != number {
					t.Fatalf("kept as %d, want %d", number, line[at].number)
				}
			},
			"turn": func(t *rapid.T) {
				if len(line) == 0 {
					t.Skip("nothing yet")
				}
				at = rapid.IntRange(0, len(line)-1).Draw(t, "to")
				if _, err := n.TurnShelf(line[at].number); err != nil {
					t.Fatal(err)
				}
			},
			"pour": func(t *rapid.T) {
				id := rapid.SampledFrom([]string{"a", "b", "c"}).Draw(t, "project")
				takes[id] = append(takes[id], float64(rapid.IntRange(1, 500).Draw(t, "grams")))
				p := pouring(id, takes[id]...)
				r, err := n.Save(p, card(p, noon), after[id], false, "", noon)
				if err != nil {
					t.Fatal(err)
				}
				after[id] = r.Number
			},
			"reopen": func(t *rapid.T) {
				if err := n.Close(); err != nil {
					t.Fatal(err)
				}
				if n, err = Open(path, quick); err != nil {
					t.Fatal(err)
				}
			},
			"": func(t *rapid.T) {
				m, list, current, err := n.LoadShelf()
				if err != nil || len(list) != len(line) {
					t.Fatalf("%d states, want %d; %v", len(list), len(line), err)
				}
				var want float64
				for _, grams := range takes {
					for _, x := range grams {
						want += x
					}
				}
				if grams(m) != want {
					t.Fatalf("%v g, want %v g", grams(m), want)
				}
				m.Uses = nil
				if at >= 0 && (current != line[at].number || !reflect.DeepEqual(m, shelfOfState(line[at].content))) {
					t.Fatalf("at %d, want %+v", current, line[at])
				}
				if !slices.IsSortedFunc(list, func(a, b model.Revision) int { return a.Number - b.Number }) {
					t.Fatal("out of order")
				}
			},
		})
	})
}

// keptIn saves a shelf in a property test.
func keptIn(t *rapid.T, n *Notebook, content int, amend bool) int {
	r, err := n.SaveShelf(shelfOfState(content), amend, "", noon)
	if err != nil {
		t.Fatal(err)
	}
	return r.Number
}

// BenchmarkLoadShelf: each project took three readings from the shelf.
func BenchmarkLoadShelf(b *testing.B) {
	for _, count := range []int{1000, 10_000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) { loadShelf(b, count) })
	}
}

func loadShelf(b *testing.B, count int) {
	n := opened(b, tempPath(b), quick)
	keptShelf(b, n, shelfOfState(1), false)
	err := n.update(func(tx *bolt.Tx) error {
		s, _ := shelfOf(tx)
		for i := range count {
			p := pouring(fmt.Sprintf("p%05d", i), 250, 130, 20)
			if err := encode(s.uses, []byte(p.ID), placeUses(p.ID), model.UsesOf(&p)); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if m, _, _, err := n.LoadShelf(); err != nil || len(m.Uses) != count {
			b.Fatal(len(m.Uses), err)
		}
	}
}

// TestUsesWithoutAResin: a project that pours nothing of the shelf and only notes
// what it used up, or sets an insert of it, is kept with what it took.
func TestUsesWithoutAResin(t *testing.T) {
	n := opened(t, tempPath(t), quick)
	keptShelf(t, n, shelfOfState(1), false)
	discs := sample("a", 1, 3)
	discs.Journal = []model.Entry{{ID: "u1", At: noon, Kind: model.EntryUsed, Stock: "w1", Count: 2}}
	set := sample("b", 1, 3)
	set.Inserts = []model.Insert{{ID: "i1", Name: "washer", Kind: model.InsertRing, Count: 5, On: model.OnFloor, Stock: "i7"}}
	set.Journal = []model.Entry{{ID: "p1", At: noon, Kind: model.EntryPlaced, Insert: "i1"}}
	for _, p := range []model.Project{discs, set} {
		save(t, n, p, 0, noon)
	}
	m, _, _, err := n.LoadShelf()
	if err != nil || len(m.Uses) != 2 || m.Uses[0].List[0].Count != 2 || m.Uses[1].List[0].Count != 5 || m.Uses[1].List[0].Thing != "i7" {
		t.Errorf("%+v, %v", m.Uses, err)
	}
}
