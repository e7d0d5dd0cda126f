package walk

import (
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// TestFlow does the main job in the real windows as a maker would, typing,
// touching and dragging: a new piece, its mold, wood and inserts, two pours;
// reads the grams, starts the clock, quits, starts again, and finds it all.
func TestFlow(t *testing.T) {
	if testing.Short() {
		t.Skip("works real windows")
	}
	t.Parallel()
	s := newScreen(t, "1366x768")
	notebook := filepath.Join(t.TempDir(), "n.db")
	p := s.start(notebook, checks+"=1")
	p.await("the demo job", "Notebook · Poppy stand", func(seen) bool { return true })

	p.tap("Notebook", "button", "^New piece$")
	p.await("a new piece", "Notebook · New piece", func(w seen) bool { _, ok := w.find("field", "name"); return ok })
	p.enter("Notebook", "name", "Flow tray")
	p.await("its name", "Notebook · Flow tray", func(seen) bool { return true })

	// The mold, 400 x 200 x 40, and a board with two inserts beside it.
	p.key("Notebook", "ctrl+2")
	p.await("the mold's window", "Mold and inserts · Flow tray", func(w seen) bool { return len(w.Things) > 10 })
	p.enter("Mold", "mold/length", "400 mm")
	p.enter("Mold", "mold/width", "200")
	p.enter("Mold", "mold/depth", "40")
	p.text("Mold", `Holds 3200 ml`)
	p.tap("Mold", "line", "^Wood$")
	p.tap("Mold", "select", "Add a piece of wood")
	p.tap("Mold", "line", "^Rectangle: length and width$")
	p.enter("Mold", "pieces/p1/length", "150 mm")
	p.enter("Mold", "pieces/p1/width", "3 15/16 in")
	p.enter("Mold", "pieces/p1/thickness", "20 mm")
	p.tap("Mold", "line", "^Inserts$")
	p.tap("Mold", "select", "Add")
	p.tap("Mold", "line", "(?i)box")
	p.enter("Mold", "inserts/i2/count", "2")
	p.enter("Mold", "inserts/i2/length", "20")
	p.enter("Mold", "inserts/i2/width", "20")
	p.enter("Mold", "inserts/i2/tall", "5")

	// The wood is dragged 50 px to the right on the drawing.
	before := p.piecePlace("Mold")
	drawing := p.reach("Mold", "canvas", "")
	id := p.raise("Mold")
	p.drag(id, drawing.X+drawing.W/2, drawing.Y+drawing.H/2, drawing.X+drawing.W/2+50, drawing.Y+drawing.H/2)
	p.text("Mold", "kept")
	if after := p.piecePlace("Mold"); after == before || !strings.HasSuffix(after, "mm") {
		t.Errorf("the wood was dragged from %q to %q", before, after)
	}

	// Two pours of one resin.
	p.key("Mold", "ctrl+3")
	p.await("the layers' window", "Layers · Flow tray", func(w seen) bool { return len(w.Things) > 10 })
	p.tap("Layers", "button", "^Add")
	p.enter("Layers", "layers/l3/to", "10 mm")
	p.tap("Layers", "line", "^Data sheet$")
	p.tap("Layers", "button", "^New data sheet$")
	p.enter("Layers", "sheets/s4/volumeRatio/a", "2")
	p.enter("Layers", "sheets/s4/volumeRatio/b", "1")
	p.enter("Layers", "sheets/s4/densityA", "1.13")
	p.enter("Layers", "sheets/s4/densityB", "1.02")
	p.enter("Layers", "sheets/s4/workingTime", "45 min")
	p.enter("Layers", "sheets/s4/maxLayer", "30 mm")
	p.tap("Layers", "button", "^Add")
	p.tap("Layers", "line", "^Pour$")
	p.enter("Layers", "layers/l5/to", "8 mm")
	p.text("Layers", `2 pours: 10 mm, then 8 mm`)

	// The grams of the pour that comes next, as the plan of the same document says.
	p.key("Layers", "ctrl+4")
	p.await("the mixing window", "Mixing · Flow tray", func(w seen) bool { return len(w.Things) > 10 })
	p.text("Mixing", `for layer 1: 5\d\d g of A, 2\d\d g of B`)

	// The clock.
	p.key("Mixing", "ctrl+5")
	p.await("the cure window", "Cure · Flow tray", func(w seen) bool { return len(w.Things) > 5 })
	p.tap("Cure", "button", "^Start the pour of layer 1")
	p.text("Cure", `^4\d min$`)
	second := p.text("Mixing", `for layer 2: 4\d\d g of A, 1\d\d g of B`).Text
	p.finish()

	project, entries := kept(t, notebook, "Flow tray")
	plan := model.Make(project)
	for i, pattern := range []string{`5\d\d g`, `4\d\d g`} {
		if a := fmt.Sprintf("%.0f g", plan.Layers[i].Mix.A.Grams()); !regexp.MustCompile(pattern).MatchString(a) {
			t.Errorf("layer %d takes %s of A, the window read %s", i+1, a, pattern)
		}
	}
	// 400 · 200 · 10 mm less the board, 150 mm by 3 15/16 in, and two boxes of 2 ml.
	if net := plan.Layers[0].Net.Millilitres(); math.Abs(net-(800-150*100.0125*10/1000-2*2)) > 1e-6 {
		t.Errorf("the first layer's net is %.3f ml", net)
	}
	if len(entries) != 1 || entries[0].Kind != model.EntryPourStarted || time.Since(entries[0].At) > time.Minute {
		t.Errorf("the journal holds %+v", entries)
	}

	p = s.start(notebook, checks+"=1")
	p.await("the piece again", "Notebook · Flow tray", func(seen) bool { return true })
	for _, title := range []string{"Mold and inserts · Flow tray", "Layers · Flow tray", "Mixing · Flow tray", "Cure · Flow tray"} {
		p.await("the window left open", title, func(w seen) bool { return len(w.Things) > 5 })
	}
	p.text("Cure", `^4\d min$`)
	p.text("Mixing", regexp.QuoteMeta(second))
	p.text("Layers", `2 pours: 10 mm, then 8 mm`)
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
