package views

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

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
		path, ok := r.lay()
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
	if !shows(p.content(), "The shop sheet was handed to your system's program for PDF files") {
		t.Errorf("nothing is said after opening: %q", texts(p.content()))
	}
}

// pagesOf counts the pages of a paper, by the entries that its writer makes for
// each (ISO 32000-1, 7.7.3.3).
func pagesOf(t *testing.T, r *paperRow) int {
	t.Helper()
	data, err := r.kind.content()
	if err != nil {
		t.Fatal(err)
	}
	return bytes.Count(data, []byte("/Type /Page\n"))
}

// TestQuoteHidesCosts: what a piece costs the maker is on a page of the quote only
// after the maker ticked that; and where there is no price, that is said.
func TestQuoteHidesCosts(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	b.desk.showPapers()
	rows := b.notebook().papers.rows
	quote := rows[slices.IndexFunc(rows, func(r *paperRow) bool { return r.kind.name == "Price quote" })]
	costs, ok := quote.kind.also.(*touch.Toggle)
	if !ok || costs.On() || pagesOf(t, quote) != 1 {
		t.Errorf("at first %d pages", pagesOf(t, quote))
	}
	costs.Tapped(nil)
	if pagesOf(t, quote) != 2 {
		t.Errorf("with costs %d pages", pagesOf(t, quote))
	}
	if err := b.Edit("no price", "", func(p *model.Project) error { p.Money = model.Costing{}; return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	quote.open()
	if !shows(b.notebook().content(), "say in Shelf, Price what you ask for one") {
		t.Errorf("a quote of nothing: %q", texts(b.notebook().content()))
	}
}

// TestLabelsStandByTheBottle: in the window Shelf the labels of a product's
// bottles are offered with the product, and one bottle's with the bottle.
func TestLabelsStandByTheBottle(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	b, p := shelfOn(t, "poppy-stand")
	var product string
	add := func(part model.PartName) (path string) {
		if err := b.EditShelf("add", "", func(m *model.Shelf) error {
			if product == "" {
				product = m.AddProduct()
			}
			path = "shelf/products/" + product + "/bottles/" + m.AddBottle(product, part, "2026-11-25")
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		b.settle()
		return path
	}
	one, _ := add(model.PartA), add(model.PartB)
	for path, want := range map[string]struct{ says, paper string }{
		"shelf/products/" + product: {"For all its bottles", "/MediaBox [0 0 595.28 841.89]"}, // A4 in points
		one:                         {"For this bottle", "/MediaBox [0 0 170.08 85.04"},       // 60 by 30 mm
	} {
		p.choose(path)
		b.settle()
		if !shows(p.body.root, want.says) {
			t.Fatalf("%s: no labels are offered: %q", path, texts(p.body.root))
		}
		for _, x := range test.LaidOutObjects(p.body.root) {
			if button, ok := x.(*touch.Button); ok && button.Label == "Open" {
				button.Tapped(&fyne.PointEvent{})
			}
		}
		laid, err := filepath.Glob(filepath.Join(os.TempDir(), "meniscus-paper-*", bottleLabels))
		if err != nil || len(laid) != 1 {
			t.Fatalf("%s: laid %q, %v", path, laid, err)
		}
		if data, err := os.ReadFile(laid[0]); err != nil || !bytes.Contains(data, []byte(want.paper)) {
			t.Errorf("%s: not on %s: %v", path, want.paper, err)
		}
		if !shows(p.frame.root, "handed to your system's program") {
			t.Errorf("%s: nothing is said: %q", path, texts(p.frame.root))
		}
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
	b.desk.Show(finishKey)
	b.settle()
	finish := b.desk.pages[finishKey].(*finishPage).draw
	if !finish.out.Visible() {
		t.Error("a drawing of the finishing cannot be saved")
	}
	for _, section := range []bool{false, true} {
		data, err := b.FinishDrawing(section)
		if text := string(data); err != nil || strings.Count(text, "Scale 1:") != 1 || strings.Contains(text, "off the underside") != section {
			t.Errorf("section %v: %v, %s", section, err, text)
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
	if finish.out.Visible() {
		t.Error("a drawing of the finishing of nothing is offered")
	}
}
