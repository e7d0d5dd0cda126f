package views

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"meniscus/model"
	"meniscus/views/touch"
)

// TestPapersAreOffered: with a piece open each paper can be made, and lies where
// another program can open it; without one, or without a bottle, it is said why
// not.
func TestPapersAreOffered(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.desk.showPapers()
	p := b.notebook()
	if !p.papers.root.Visible() {
		t.Fatal("the papers are not shown")
	}
	p.papers.see(&p.shot)
	if !shows(p.papers.root, p.papers.rows[0].kind.what+" Open a piece first.") || !p.papers.rows[0].buttons[0].Disabled() {
		t.Errorf("papers without a piece: %q", texts(p.papers.root))
	}
	b.demo("poppy-stand")
	b.desk.showPapers()
	var names []string
	for _, r := range p.papers.rows {
		names = append(names, r.kind.name)
		if r.kind.shop {
			if !r.buttons[0].Disabled() || !strings.HasSuffix(r.said.Text(), "No bottle is on the shelf yet.") {
				t.Errorf("%s: %q", r.kind.name, r.said.Text())
			}
			continue
		}
		if r.buttons[0].Disabled() {
			t.Errorf("%s cannot be opened: %q", r.kind.name, r.said.Text())
		}
		path, ok := p.papers.lay(r.kind)
		if !ok {
			t.Fatalf("%s was not made", r.kind.name)
		}
		data, err := os.ReadFile(path)
		if err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
			t.Errorf("%s: %v %.20q", r.kind.name, err, data)
		}
		if base := filepath.Base(path); !strings.HasPrefix(base, "Poppy stand (demo) ") || !strings.HasSuffix(base, ".pdf") {
			t.Errorf("it is called %q", base)
		}
		defer os.RemoveAll(filepath.Dir(path))
	}
	for _, want := range []string{"Shop sheet", "Pour card", "Care card", "Price quote"} {
		if !slices.Contains(names, want) {
			t.Errorf("no %s among %q", want, names)
		}
	}
	tapOn(t, p.papers.root, "Open")
	if !shows(p.content(), "Shop sheet is handed to your system's program for PDF files") {
		t.Errorf("nothing is said after opening: %q", texts(p.content()))
	}
}

// TestPapersWaitForAPour: a piece without a pour has no shop sheet and no card.
func TestPapersWaitForAPour(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.Create("Empty")
	b.settle()
	for _, r := range b.notebook().papers.rows[:2] {
		if !r.buttons[0].Disabled() || !strings.HasSuffix(r.said.Text(), "Plan a pour first, in Layers.") {
			t.Errorf("%s: %q", r.kind.name, r.said.Text())
		}
	}
}

// TestDrawingsAreOffered: the drawing of what is shown can be saved beside it.
func TestDrawingsAreOffered(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	b.desk.Show(moldKey)
	b.desk.Show(layersKey)
	b.settle()
	for _, out := range []*touch.Button{b.desk.pages[moldKey].(*moldPage).draw.out, b.desk.pages[layersKey].(*layersPage).out} {
		if !out.Visible() {
			t.Error("a drawing cannot be saved")
		}
	}
	for _, which := range [][2]bool{{true, false}, {false, true}, {true, true}} {
		data, err := b.Drawing(which[0], which[1])
		if n := strings.Count(string(data), "Scale 1:"); err != nil || n == 0 || n > 2 || (n == 2) != (which[0] && which[1]) {
			t.Errorf("%v: %d scales, %v", which, n, err)
		}
	}
	if err := b.Edit("clear", "", func(p *model.Project) error { p.Mold = model.Mold{}; return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if b.desk.pages[layersKey].(*layersPage).out.Visible() {
		t.Error("a drawing of nothing is offered")
	}
}
