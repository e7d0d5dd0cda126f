package walk

import (
	"encoding/json"
	"fmt"
	"math"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
	"meniscus/storage"
)

// slabJob is a tray of 400 by 250 mm with a pour planned, and a slab of about
// 700 by 300 mm with a live edge of 5,000 points, traced in a photo from
// straight above of two pixels a millimetre.
func slabJob() model.Project {
	dim := func(mm float64) unit.Dim {
		return unit.Dim{Value: unit.Length(mm) * unit.Millimetre, Written: fmt.Sprint(mm)}
	}
	p := model.Blank("slab-job", "Slab job")
	p.Mold.Length, p.Mold.Width, p.Mold.Depth = dim(400), dim(250), dim(40)
	layer := p.AddLayer()
	p.Layers[p.LayerIndex(layer)].To = dim(26)
	slab := p.Slab(p.AddSlab("Elm slab"))
	slab.Thickness = dim(26)
	t := &slab.Upper
	t.Wide, t.High, t.By, t.Touch = 2000, 1200, model.ByCard, 1
	t.Long, t.Broad = dim(300), dim(200)
	for i, at := range [][2]float64{{600, 400}, {1200, 400}, {1200, 800}, {600, 800}} {
		t.Marks = append(t.Marks, model.Mark{ID: fmt.Sprint("m", i), X: at[0], Y: at[1]})
	}
	ring := shape.Ring{{X: 300, Y: 300}, {X: 1700, Y: 300}}
	const points = 5000
	for i := range points {
		x := 1700 - 1400*float64(i)/(points-1)
		ring = append(ring, shape.Point{X: x, Y: 860 + 40*math.Sin(x/130) + 6*math.Sin(x/17)})
	}
	t.Rings = []model.TracedRing{{ID: "r1", Kind: model.RingWood, Points: ring}}
	return p
}

// resinOf reads what a lay-up needs of resin from the pane, and what undo would
// take back.
func resinOf(w seen) (resin, undo string) {
	all := append(slices.Clone(w.Things), w.Beyond...)
	for i, x := range all {
		if strings.HasPrefix(x.Text, "Undo") {
			undo = x.Text
		}
		if x.Text != "Resin to the fill line" {
			continue
		}
		// The value stands in the same row, before its name or behind it.
		for _, y := range all[max(i-1, 0):min(i+2, len(all))] {
			if y.Kind == "text" && strings.Contains(y.Text, " ml") && math.Abs(float64(y.Y-x.Y)) < 12 {
				resin = y.Text
			}
		}
	}
	return resin, undo
}

// slabNotebook makes a notebook with the slab job in it.
func slabNotebook(t *testing.T) string {
	t.Helper()
	notebook := filepath.Join(t.TempDir(), "n.db")
	n, err := storage.Open(notebook)
	if err != nil {
		t.Fatal(err)
	}
	project := slabJob()
	plan := model.Make(project)
	now := time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)
	if _, err := n.Save(project, model.NewCard(&project, &plan, now), 0, false, "New", now); err != nil {
		t.Fatal(err)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	return notebook
}

// atLayUp starts the program on a notebook with the slab job and tries a place of
// the cavity.
func atLayUp(t *testing.T) (p *program, notebook string) {
	t.Helper()
	s := newScreen(t, "1366x768")
	notebook = slabNotebook(t)
	p = s.start(notebook, checks+"=1")
	p.tap("Notebook", "line", "^Slab job$")
	p.await("the job", "Notebook · Slab job", func(seen) bool { return true })
	p.key("Notebook", "ctrl+2")
	p.await("the mold's window", "Mold and inserts · Slab job", func(w seen) bool { return len(w.Things) > 10 })
	p.tap("Mold", "line", "^Slab$")
	p.tap("Mold", "line", "^Lay-up$")
	p.tap("Mold", "button", "^Try a place$")
	return p, notebook
}

// TestLayDrag drags the cavity over a slab of 5,000 points in the real window:
// the resin it would need changes while the finger is down and nothing is kept;
// letting go is one step, and undo takes it back.
func TestLayDrag(t *testing.T) {
	if testing.Short() {
		t.Skip("works real windows")
	}
	p, notebook := atLayUp(t)
	began := p.await("what it gives", "Mold", func(w seen) bool { resin, _ := resinOf(w); return resin != "" })
	first, undo := resinOf(began)

	drawing := p.reach("Mold", "canvas", "")
	id := p.raise("Mold")
	x, y := drawing.X+drawing.W/2, drawing.Y+drawing.H/2
	p.tool(p.path(id, x, y, x, y+45, 12)...)
	under := ""
	p.await("the resin under the finger", "Mold", func(w seen) bool {
		resin, now := resinOf(w)
		if now != undo {
			t.Errorf("under the finger undo would take back %q, %q before", now, undo)
		}
		under = resin
		return resin != "" && resin != first
	})
	// On, and back and forth, as fast as a hand moves.
	var acts []string
	for i := range 120 {
		acts = append(acts, "mousemove", "--window", id, fmt.Sprint(int(x)+int(40*math.Sin(float64(i)/9))), fmt.Sprint(int(y)+45+i/3), "sleep", "0.014")
	}
	act := p.doing(acts...)
	var all beats
	if err := json.Unmarshal([]byte(p.question("beat", 1500)), &all); err != nil {
		t.Fatal(err)
	}
	act.Wait()
	last := ""
	p.await("the resin farther on", "Mold", func(w seen) bool {
		last, _ = resinOf(w)
		return last != under && last != first
	})
	time.Sleep(300 * time.Millisecond)
	last, _ = resinOf(p.await("the window", "Mold", func(seen) bool { return true }))
	p.tool("mouseup", "1")
	p.await("one step", "Mold", func(w seen) bool {
		resin, now := resinOf(w)
		return resin == last && strings.Contains(strings.ToLower(now), "move lay-up 1")
	})
	slices.Sort(all.Frames)
	if k := len(all.Frames); k > 0 {
		t.Logf("while it was dragged: %d rounds of drawing, half of them within %.1f ms, the longest %.1f ms", k, float64(all.Frames[k/2])/1000, float64(all.Frames[k-1])/1000)
	}
	p.tap("Mold", "button", "^Undo")
	p.await("it lies where it did", "Mold", func(w seen) bool { resin, _ := resinOf(w); return resin == first })
	p.finish()

	after, _ := kept(t, notebook, "Slab job")
	if list := after.Slabs[0].Layups; len(list) != 1 || math.Abs(float64(list[0].Y)) > 0.03 {
		t.Errorf("kept is %+v", list)
	}
}

// TestCuttingSheetSaved saves the cutting sheet from its button in the real
// window: the file is a PDF of a first page and as many more as that says, each
// of its paper's size for an independent reader (pdfinfo, of the poppler tools),
// and it says which job, slab and place it is of.
func TestCuttingSheetSaved(t *testing.T) {
	if testing.Short() {
		t.Skip("works real windows")
	}
	t.Parallel()
	p, notebook := atLayUp(t)
	p.await("what it gives", "Mold", func(w seen) bool { resin, _ := resinOf(w); return resin != "" })
	p.tap("Mold", "button", "^Cutting sheet \\(PDF\\)$")
	p.tap("Mold", "line", "^Save$")
	said := regexp.MustCompile(`cutting sheet is saved in (/.*\.pdf)`)
	file := ""
	p.await("that it is saved", "Mold", func(w seen) bool {
		for _, x := range w.Things {
			if m := said.FindStringSubmatch(x.Text); m != nil {
				file = m[1]
			}
		}
		return file != ""
	})
	p.finish()

	if want := "Slab job lay-up 1 cutting sheet.pdf"; filepath.Base(file) != want {
		t.Errorf("it is called %q, want %q", filepath.Base(file), want)
	}
	read := func(name string, args ...string) string {
		out, err := exec.Command(name, args...).CombinedOutput()
		if err != nil {
			t.Fatalf("%s: %v: %s", name, err, out)
		}
		return string(out)
	}
	info := read("pdfinfo", file)
	pages := 0
	if m := regexp.MustCompile(`Pages: +(\d+)`).FindStringSubmatch(info); m != nil {
		fmt.Sscan(m[1], &pages)
	}
	// The blank of 397 by 247 mm is less high than what is drawn on an upright A4,
	// 260 mm, and needs three of 186 mm beside each other; lying it would take four.
	if pages != 4 || !strings.Contains(info, "(A4)") {
		t.Errorf("%d pages:\n%s", pages, info)
	}
	text := read("pdftotext", "-layout", file, "-")
	for _, want := range []string{"Slab job, Elm slab, lay-up 1", "One row of 3 pages, A4. Cut the right edge of each page", "Kerf 3.2 mm (usual, not given; measure yours)", "Row 1, column 3 · page 4 of 4"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in it:\n%s", want, text)
		}
	}
	after, _ := kept(t, notebook, "Slab job")
	if l := after.Slabs[0].Layups[0]; l.Gap.Given() || l.Kerf.Given() {
		t.Errorf("kept is a gap or kerf that nobody gave: %+v", l)
	}
}
