package app

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
)

// pouredOnce is a session with the hexagon poured and its cup weighed.
func pouredOnce(t *testing.T) *bench {
	t.Helper()
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil)
	data, err := os.ReadFile("../testdata/demo-poppy-stand.json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := model.Import(data)
	if err != nil {
		t.Fatal(err)
	}
	p.Demo, p.ID, p.Name = false, "poppy", "Poppy stand"
	b.adopt(p, "Imported")
	b.settle()
	do := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		b.clock.advance(time.Minute)
		b.settle()
	}
	do(b.AddWeighed("l3", model.EntryWeighedA, "455.3 g", false))
	do(b.AddWeighed("l3", model.EntryWeighedB, "660.2 g", false))
	do(b.StartPour("l3"))
	do(b.AddEmptied("l3", "30 g", ""))
	do(b.AddLeftOver("l3", "5 g", "a tile"))
	do(b.AddMeasured("25.2 mm", "the middle"))
	return b
}

// What is made again is worked out without being kept, and kept when the maker
// takes it: with a project of its own that names where it comes from.
func TestMakeAgain(t *testing.T) {
	b := pouredOnce(t)
	defer b.Close()
	m := b.project.Mold
	m.Span = unit.Dim{Value: 0.26, Written: "260 mm"}
	var got Reissued
	b.MakeAgain("poppy", model.Reissue{Name: "Small poppy stand", Mold: &m, Wood: model.ScaleWood}, true, func(r Reissued, err error) {
		if err != nil {
			t.Error(err)
		}
		got = r
	})
	b.settle()
	if len(b.Snapshot().Cards) != 1 || b.Snapshot().Project.ID != "poppy" {
		t.Fatal("it was kept before it was taken")
	}
	if !strings.Contains(got.Page.Headline, "copper washers 14 → 9") || len(got.Page.Changes) == 0 {
		t.Errorf("the page reads %+v", got.Page)
	}
	if err := b.TakeAgain(got); err != nil {
		t.Fatal(err)
	}
	b.settle()
	shot := b.Snapshot()
	if shot.Saved.Pending || !shot.Saved.At.Equal(b.clock.Now()) {
		t.Errorf("it is kept, and nothing says so: %+v", shot.Saved)
	}
	if shot.Project.Name != "Small poppy stand" || shot.Project.Made != (model.Origin{Project: "poppy", Name: "Poppy stand", Revision: shot.Project.Made.Revision}) || shot.Project.Made.Revision == 0 {
		t.Errorf("opened %q, made from %+v", shot.Project.Name, shot.Project.Made)
	}
	if len(shot.Project.Journal) > 0 || shot.Project.Insert("i5").Count != 9 || !shot.Project.Created.Equal(b.clock.Now().UTC().Round(time.Second)) {
		t.Errorf("it is %+v", shot.Project)
	}
	past, _, err := b.store.Load("poppy")
	if err != nil || len(past.Journal) != 6 || past.Insert("i5").Count != 14 {
		t.Errorf("the past project has %d entries (%v)", len(past.Journal), err)
	}

	// The new one beside the past one.
	var apart []model.Difference
	b.CompareWith("poppy", func(d []model.Difference, err error) {
		if err != nil {
			t.Error(err)
		}
		apart = d
	})
	b.settle()
	found := map[string]string{}
	for _, d := range apart {
		if found[d.Path] != "" {
			t.Errorf("%s is listed twice", d.Path)
		}
		found[d.Path] = d.A + " → " + d.B
	}
	for path, want := range map[string]string{"mold/span": "320 mm by rule → 260 mm, not said by what", "inserts/i5/count": "14 → 9", "name": "Poppy stand → Small poppy stand", "run/l3/mix": "660.2 g → ", "run/thickness": "25.2 mm → "} {
		if path == "mold/span" {
			want = "320 mm → 260 mm"
		}
		if found[path] != want {
			t.Errorf("%s: %q, want %q", path, found[path], want)
		}
	}
	if found["layers/l3/to"] != "" {
		t.Errorf("a height that stayed is listed: %s", found["layers/l3/to"])
	}
}

// What cannot be made again is said by its field, and one that is not there by
// the disk's error.
func TestMakeAgainRefused(t *testing.T) {
	b := pouredOnce(t)
	defer b.Close()
	ask := func(id string, how model.Reissue) (err error) {
		b.MakeAgain(id, how, false, func(_ Reissued, e error) { err = e })
		b.settle()
		return err
	}
	var problem *model.Problem
	if err := ask("poppy", model.Reissue{Levels: model.ToFinished}); !errors.As(err, &problem) || problem.Field != "reissue/finished" {
		t.Errorf("without a thickness: %v", err)
	}
	if err := ask("gone", model.Reissue{}); err == nil {
		t.Error("a project that is not there was made again")
	}
	b.CompareWith("gone", func(_ []model.Difference, err error) {
		if err == nil {
			t.Error("a project that is not there was compared")
		}
	})
	b.settle()
}

// Lessons come from all runs of the notebook, open and closed, and are put into
// the open project as one step of undo when the maker takes them.
func TestLessonsOfTheNotebook(t *testing.T) {
	b := pouredOnce(t)
	defer b.Close()
	b.Create("Never poured")
	b.settle()
	gather := func() (l model.Lessons) {
		t.Helper()
		b.Lessons(func(got model.Lessons, err error) {
			if err != nil {
				t.Error(err)
			}
			l = got
		})
		b.settle()
		return l
	}
	l := gather()
	// 30 of 660.2 g, where the usual is 3 %: a third of the way, in logarithms.
	if want := 0.03 * math.Exp(math.Log(30/660.2/0.03)/3); len(l.Points) != 1 || math.Abs(float64(l.Film.Value)-want) > 1e-9 {
		t.Errorf("%d points, film %.5f, want %.5f", len(l.Points), float64(l.Film.Value), want)
	}
	if again := gather(); again.Film != l.Film {
		t.Errorf("gathered twice it is %+v and %+v", l.Film, again.Film)
	}
	if b.Snapshot().Project.Mixing.CupFilm.Given() {
		t.Error("it was taken by itself")
	}
	if err := b.TakeLessons(l); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if got := b.Snapshot().Project.Mixing.CupFilm.Value; got != l.Film.Value {
		t.Errorf("the film is %v", got)
	}
	b.Undo()
	b.settle()
	if b.Snapshot().Project.Mixing.CupFilm.Given() {
		t.Error("undo left it there")
	}
}

// What is taken from another project is read without its run, and one that is
// not there is said.
func TestRecipeOf(t *testing.T) {
	b := pouredOnce(t)
	defer b.Close()
	var got model.Project
	b.RecipeOf("poppy", func(p model.Project, err error) {
		if err != nil {
			t.Error(err)
		}
		got = p
	})
	b.settle()
	if got.Mold.Span.Written != "320 mm" || len(got.Journal) != 0 || len(b.project.Journal) == 0 {
		t.Errorf("it read %q with %d entries", got.Mold.Span.Written, len(got.Journal))
	}
	told := error(nil)
	b.RecipeOf("none", func(_ model.Project, err error) { told = err })
	b.settle()
	if told == nil {
		t.Error("a project that is not there was read")
	}
}

// The cost that two makings are held against each other by counts what the shelf
// knows: a resin that only the shelf has a price of.
func TestCostOfAgainByTheShelf(t *testing.T) {
	b := started(t)
	defer b.Close()
	for field, text := range map[string]string{"mold/length": "300 mm", "mold/width": "200 mm", "mold/depth": "30 mm"} {
		b.enter(field, text)
	}
	var id string
	err := errors.Join(
		b.Edit("Pour", "", func(p *model.Project) error {
			s := p.Sheet(p.AddSheet())
			s.Weight = model.Ratio{A: unit.Taken[unit.Number]{Value: 100, Written: "100"}, B: unit.Taken[unit.Number]{Value: 45, Written: "45"}}
			p.AddLayer()
			l := &p.Layers[0]
			l.Sheet, l.By, l.To = s.ID, model.ToDepth, unit.Dim{Value: 0.01, Written: "10 mm"}
			return nil
		}),
		b.KeepProduct(b.project.Sheets[0].ID),
		b.EditShelf("Price", "", func(m *model.Shelf) error {
			id = m.Products[0].ID
			m.AddKit(id)
			m.Products[0].Kits[0].Price = unit.Money{Minor: 4800, Currency: string(m.Currency)}
			return nil
		}),
	)
	if err != nil {
		t.Fatal(err)
	}
	b.settle()
	for _, c := range []struct {
		shelf  model.Shelf
		priced bool
	}{{b.shelf.now, true}, {model.Shelf{}, false}} {
		if got, err := b.issue(t.Context(), b.project, &c.shelf); err != nil || (got.Cost != nil) != c.priced {
			t.Errorf("with %d products it costs %v, %v", len(c.shelf.Products), got.Cost, err)
		}
	}
}

// The maker's own losses are kept for new pieces by an act of their own, go into a
// new piece as a step that undo takes back, and are said there to be so. Without
// that act a new piece has none.
func TestOwnLossesInNewPieces(t *testing.T) {
	b := pouredOnce(t)
	defer b.Close()
	var l model.Lessons
	b.Lessons(func(got model.Lessons, err error) { l = got })
	b.settle()
	own := l.Losses()
	if !own.Given() {
		t.Fatalf("no run tells anything: %+v", l)
	}
	fresh := func() model.Project {
		t.Helper()
		b.clock.advance(time.Minute)
		b.Open("poppy")
		b.settle()
		if err := b.Edit("Demo", "", func(p *model.Project) error { p.Demo = true; return nil }); err != nil && !errors.Is(err, ErrSame) {
			t.Fatal(err)
		}
		b.settle()
		b.Create("Next")
		b.settle()
		return b.Snapshot().Project
	}
	if p := fresh(); p.Mixing.CupFilm.Given() || p.LossBy("mixing/cupFilm") != "" {
		t.Errorf("a new piece has %+v before they were kept", p.Mixing)
	}
	if err := b.KeepLosses(own); err != nil {
		t.Fatal(err)
	}
	b.settle()
	p := fresh()
	if p.Mixing.CupFilm.Value != own.CupFilm.Value || p.LossBy("mixing/cupFilm") != "your own, by 1 run" {
		t.Errorf("a new piece has %+v, by %q", p.Mixing, p.LossBy("mixing/cupFilm"))
	}
	if label := b.Snapshot().Undo; label != "Own losses" {
		t.Errorf("undo takes back %q", label)
	}
	b.Undo()
	b.settle()
	if p := b.Snapshot().Project; p.Name != "Next" || p.Mixing.CupFilm.Given() {
		t.Errorf("undone: %q, %+v", p.Name, p.Mixing)
	}
	b.UndoShelf()
	b.settle()
	if p := fresh(); p.Mixing.CupFilm.Given() {
		t.Errorf("no longer kept, and still %+v", p.Mixing)
	}
}

// What is made again is held against the shelf as it is now, and the page says
// whether it could be: a resin of which no bottle is left does not suffice.
func TestAgainAsksTheShelf(t *testing.T) {
	b := pouredOnce(t)
	defer b.Close()
	page := func() (got model.ReissueSheet) {
		b.MakeAgain("poppy", model.Reissue{}, false, func(r Reissued, err error) {
			if err != nil {
				t.Error(err)
			}
			got = r.Page
		})
		b.settle()
		return got
	}
	if got := page(); !strings.Contains(got.Tested, "Not tested: what is left on the shelf") || len(got.Refused) > 0 {
		t.Errorf("without a shelf it was tested: %q, %+v", got.Tested, got.Refused)
	}
	err := errors.Join(b.KeepProduct("s2"), b.EditShelf("Bottle", "", func(m *model.Shelf) error {
		id := m.AddBottle(m.Products[0].ID, model.PartA, model.DateOf(b.clock.Now()))
		m.Products[0].Bottle(id).Holds = unit.Taken[unit.Mass]{Value: 0.1, Written: "100 g"}
		return nil
	}))
	if err != nil {
		t.Fatal(err)
	}
	b.settle()
	got := page()
	if !strings.Contains(got.Tested, "; what is left on the shelf.") || len(got.Refused) == 0 || !strings.HasPrefix(got.Refused[0].Kind, "stock.") {
		t.Errorf("it was tested against %q: %+v", got.Tested, got.Refused)
	}
}

// TestShelfThatWaitsLeavesTheStateOfAProject: what is made again names the state
// that it was made from also while a change of the shelf waits for the disk; only
// a state that is not on the disk itself has no number.
func TestShelfThatWaitsLeavesTheStateOfAProject(t *testing.T) {
	var disk *failing
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), func(s Store) Store { disk = &failing{Store: s}; return disk })
	b.Create("Tray")
	b.settle()
	b.enter("mold/depth", "30 mm")
	disk.fill(true)
	if err := b.EditShelf("Add a tint", "", func(m *model.Shelf) error { m.AddTint(); return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if _, revision, err := b.reader(b.project.ID)(); revision != b.current || revision == 0 || err != nil {
		t.Errorf("state %d of %d, %v", revision, b.current, err)
	}
	b.enter("mold/depth", "40 mm")
	if _, revision, err := b.reader(b.project.ID)(); revision != 0 || err != nil {
		t.Errorf("not kept yet, and it is state %d, %v", revision, err)
	}
	disk.fill(false)
	b.Retry()
	b.settle()
	if err := b.Close(); err != nil {
		t.Error(err)
	}
}
