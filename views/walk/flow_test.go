package walk

import (
	"math"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// TestFlow does the main job in the real windows as README.md tells it under "A
// first piece, step by step", typing, touching and dragging: a new piece, its
// mold, wood and inserts, two pours of a tinted resin, the room; reads the grams,
// starts the clock, quits, starts again, and finds it all, in about as many
// touches and keys as README.md says. By the keystroke-level model (Card, Moran
// and Newell 1980, values from memory) a touch is 3.5 s with the thought before
// it and the hand's way there and back, a key 1.2 s where one looks for it:
// 45 · 3.5 + 110 · 1.2 is 290 s, under the ten minutes that README.md gives.
func TestFlow(t *testing.T) {
	if testing.Short() {
		t.Skip("works real windows")
	}
	t.Parallel()
	s := newScreen(t, "1366x768")
	notebook := filepath.Join(t.TempDir(), "n.db")
	p := s.start(notebook, checks+"=1")
	p.await("the demo job", "Notebook · Poppy stand", func(seen) bool { return true })
	touches, typed := 0, 0
	tap := func(title, kind, pattern string) { p.t.Helper(); touches++; p.tap(title, kind, pattern) }
	enter := func(title, path, text string) {
		p.t.Helper()
		touches, typed = touches+1, typed+len(text)+1
		p.enter(title, path, text)
	}
	open := func(from, key, title string) {
		p.t.Helper()
		touches++
		p.key(from, key)
		p.await("the window "+title, title+" · Walnut slab", func(w seen) bool { return len(w.Things) > 5 })
	}

	tap("Notebook", "button", "^New piece$")
	p.await("a new piece", "Notebook · New piece", func(w seen) bool { _, ok := w.find("field", "name"); return ok })
	enter("Notebook", "name", "Walnut slab")
	p.await("its name", "Notebook · Walnut slab", func(seen) bool { return true })

	// The mold, 340 x 200 x 45, and a slab with two inserts beside it.
	open("Notebook", "ctrl+2", "Mold and inserts")
	p.text("Mold", `^stand a rule on the floor|Measure the mold as it stands`)
	enter("Mold", "mold/length", "340 mm")
	enter("Mold", "mold/width", "200")
	enter("Mold", "mold/depth", "45")
	p.text("Mold", `Holds 3060 ml`)
	tap("Mold", "line", "^Wood$")
	tap("Mold", "select", "Add a piece of wood")
	tap("Mold", "line", "^Rectangle: length and width$")
	enter("Mold", "pieces/p1/length", "310 mm")
	enter("Mold", "pieces/p1/width", "7 1/16 in")
	enter("Mold", "pieces/p1/thickness", "28 mm")
	tap("Mold", "line", "^Inserts$")
	tap("Mold", "select", "Add")
	tap("Mold", "line", "(?i)box")
	enter("Mold", "inserts/i2/count", "2")
	enter("Mold", "inserts/i2/length", "8")
	enter("Mold", "inserts/i2/width", "8")
	enter("Mold", "inserts/i2/tall", "5")

	// The wood is dragged 12 px to the right on the drawing.
	before := p.piecePlace("Mold")
	drawing := p.reach("Mold", "canvas", "")
	id := p.raise("Mold")
	touches++
	p.drag(id, drawing.X+drawing.W/2, drawing.Y+drawing.H/2, drawing.X+drawing.W/2+12, drawing.Y+drawing.H/2)
	p.text("Mold", "kept")
	if after := p.piecePlace("Mold"); after == before || !strings.HasSuffix(after, "mm") {
		t.Errorf("the wood was dragged from %q to %q", before, after)
	}

	// Two pours of one tinted resin.
	open("Mold", "ctrl+3", "Layers")
	tap("Layers", "button", "^Add")
	enter("Layers", "layers/l3/to", "15 mm")
	tap("Layers", "line", "^Data sheet$")
	tap("Layers", "button", "^New data sheet$")
	enter("Layers", "sheets/s4/weightRatio/a", "100")
	enter("Layers", "sheets/s4/weightRatio/b", "45")
	enter("Layers", "sheets/s4/densityA", "1.13")
	enter("Layers", "sheets/s4/densityB", "1.02")
	enter("Layers", "sheets/s4/workingTime", "45 min")
	enter("Layers", "sheets/s4/maxLayer", "30 mm")
	tap("Layers", "button", "^Add")
	tap("Layers", "line", "^Pour$")
	enter("Layers", "layers/l5/to", "16 mm")
	p.text("Layers", `2 pours: 15 mm, then 16 mm`)

	// The grams of the pour that comes next, as the plan of the same document says.
	open("Layers", "ctrl+4", "Mixing")
	tap("Mixing", "line", "^Tint$")
	enter("Mixing", "layers/l3/tint/share", "1 %")
	p.text("Mixing", `for layer 1: 1\d\d(\.\d)? g of A, \d\d(\.\d)? g of B`)

	// The room, and the clock.
	open("Mixing", "ctrl+5", "Cure")
	tap("Cure", "line", "^Shop$")
	enter("Cure", "shop/room", "21")
	tap("Cure", "line", "^Now$")
	tap("Cure", "button", "^Start the pour of layer 1")
	p.text("Cure", `^4\d min$`)
	second := p.text("Mixing", `for layer 2: 3\d\d(\.\d)? g of A, 1\d\d(\.\d)? g of B`).Text
	p.finish()
	if touches > 48 || typed > 120 {
		t.Errorf("it took %d touches and %d keys, README.md says about 45 and 110", touches, typed)
	}

	project, entries := kept(t, notebook, "Walnut slab")
	plan := model.Make(project)
	if a := project.Style.MassTo(plan.Layers[1].Mix.A, plan.Layers[1].Mix.Step); !strings.Contains(second, ": "+a+" of A") {
		t.Errorf("layer 2 takes %s of A, the window read %q", a, second)
	}
	// 340 · 200 · 15 mm less the slab, 310 mm by 7 1/16 in, and two boxes of 0.32 ml.
	if net := plan.Layers[0].Net.Millilitres(); math.Abs(net-(1020-310*179.3875*15/1000-2*0.32)) > 1e-6 {
		t.Errorf("the first layer's net is %.3f ml", net)
	}
	if len(entries) != 1 || entries[0].Kind != model.EntryPourStarted || time.Since(entries[0].At) > time.Minute {
		t.Errorf("the journal holds %+v", entries)
	}

	p = s.start(notebook, checks+"=1")
	p.await("the piece again", "Notebook · Walnut slab", func(seen) bool { return true })
	for _, title := range []string{"Mold and inserts · Walnut slab", "Layers · Walnut slab", "Mixing · Walnut slab", "Cure · Walnut slab"} {
		p.await("the window left open", title, func(w seen) bool { return len(w.Things) > 5 })
	}
	p.text("Cure", `^4\d min$`)
	p.text("Mixing", regexp.QuoteMeta(second))
	p.text("Layers", `2 pours: 15 mm, then 16 mm`)
	p.finish()
}

// kept reads the project of a name out of the notebook.
func kept(t *testing.T, notebook, name string) (model.Project, []model.Entry) {
	t.Helper()
	n, err := storage.Open(notebook)
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	cards, err := n.Cards()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cards {
		if c.Name == name {
			project, _, err := n.Load(c.ID)
			if err != nil {
				t.Fatal(err)
			}
			return project, project.Journal
		}
	}
	t.Fatal(name, " is not in the notebook")
	return model.Project{}, nil
}

// TestSecondCopy starts the program twice on one notebook: the second says in a
// window what is so and what to do, and leaves when that is closed; the first
// goes on.
func TestSecondCopy(t *testing.T) {
	if testing.Short() {
		t.Skip("works real windows")
	}
	t.Parallel()
	s := newScreen(t, "1366x768")
	notebook := filepath.Join(t.TempDir(), "n.db")
	first := s.start(notebook, checks+"=1")
	first.await("the demo job", "Notebook · Poppy stand", func(seen) bool { return true })
	second := s.start(notebook, checks+"=1")
	second.text("Meniscus", "(?i)open in|already|another|in use")
	second.tap("Meniscus", "button", "^Close$")
	if err := second.cmd.Wait(); err == nil || second.cmd.ProcessState.ExitCode() != 1 {
		t.Errorf("the second copy ended with %v", err)
	}
	first.enter("Notebook", "name", "Still here")
	first.await("the new name", "Notebook · Still here", func(seen) bool { return true })
	first.finish()
}

// key presses a key in a window.
func (p *program) key(title, key string) {
	p.raise(title)
	time.Sleep(80 * time.Millisecond)
	p.tool("key", key)
}

// text waits until a window shows a text that matches the pattern.
func (p *program) text(title, pattern string) shown {
	p.t.Helper()
	var found shown
	p.await(pattern, title, func(w seen) bool {
		re := regexp.MustCompile(pattern)
		for _, x := range w.Things {
			if (x.Kind == "text" || x.Kind == "line" || x.Kind == "opens") && re.MatchString(x.Text) {
				found = x
				return true
			}
		}
		return false
	})
	return found
}

// piecePlace reads where the first piece lies.
func (p *program) piecePlace(title string) string {
	p.t.Helper()
	p.tap(title, "line", "^Wood$")
	x := p.reach(title, "field", "pieces/p1/x")
	return x.Text
}
