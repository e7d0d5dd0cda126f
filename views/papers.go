package views

import (
	"net/url"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// showPapers leads to the choice of papers in the notebook.
func (d *Desk) showPapers() {
	d.commitAll()
	d.Show(notebookKey)
	if p, ok := d.pages[notebookKey].(*notebookPage); ok {
		p.turnTo(p.papers.root)
	}
}

// paperKind is one thing that can be printed.
type paperKind struct {
	name    string
	what    string // what it is for, and on which paper
	ending  string // of the file's name
	content func() ([]byte, error)
	lacks   func(*app.Snapshot) string // why there is none; empty where there is
	shop    bool                       // it is of the shelf, not of the open piece
}

// paperRow is one paper in the list.
type paperRow struct {
	kind    paperKind
	said    *touch.Text
	buttons []*touch.Button
}

// papersPage is the choice of papers in the notebook.
type papersPage struct {
	desk *Desk
	rows []*paperRow
	root fyne.CanvasObject
}

func newPapersPage(d *Desk, back func()) *papersPage {
	p := &papersPage{desk: d}
	s := d.session
	poured := func(shot *app.Snapshot) string {
		if len(shot.Plan.Layers) == 0 {
			return "Plan a pour first, in Layers."
		}
		return ""
	}
	always := func(*app.Snapshot) string { return "" }
	list := container.New(layout.NewCustomPaddedVBoxLayout(10))
	for _, k := range []paperKind{
		{name: "Shop sheet", what: "All of the piece on one page for the bench: drawings, amounts, heat, times, what to tick, and room to write.", ending: " shop sheet.pdf", content: s.ShopSheet, lacks: poured},
		{name: "Pour card", what: "What to weigh and when, to be read at arm's length: A5 pages.", ending: " card.pdf", content: s.PourCard, lacks: poured},
		{name: "Care card", what: "Goes with the piece to its owner: A6, or A5 where there is more to say.", ending: " care card.pdf", content: s.CareCard, lacks: always},
		{name: "Labels, one each", what: "Name, size, lot and day of the piece, 62 × 29 mm, for a label printer.", ending: " labels.pdf", content: func() ([]byte, error) { return s.PieceLabels(false) }, lacks: always},
		{name: "Labels on a sheet", what: "The same side by side, with lines to cut along.", ending: " label sheet.pdf", content: func() ([]byte, error) { return s.PieceLabels(true) }, lacks: always},
		{name: "Price quote", what: "What it takes, what that costs, and the price for one, three, ten: one page.", ending: " quote.pdf", content: s.Quote, lacks: always},
		{name: "Labels for the bottles", what: "Of all bottles on the shelf: product, part, lot, when opened. On sheets, with lines to cut along.", ending: "Bottle labels.pdf", content: func() ([]byte, error) { return s.BottleLabels(true) }, lacks: noBottles, shop: true},
	} {
		list.Add(p.row(k))
	}
	foot := "Open shows the paper in your system's own program, from which it can be printed too. Print at 100 %, not fit to page."
	if !s.CanPrint() {
		foot += " This system has no print command, so there is no button for it here."
	}
	list.Add(touch.NewText(foot, touch.Small, touch.Faint))
	p.root = asRead(pageHead("Paper", back), touch.NewScroll(inset(list)), nil)
	return p
}

// noBottles says why no bottle can be labelled.
func noBottles(shot *app.Snapshot) string {
	if len(model.BottleLabels(&shot.Shelf)) == 0 {
		return "No bottle is on the shelf yet."
	}
	return ""
}

// row makes the card of one paper.
func (p *papersPage) row(k paperKind) fyne.CanvasObject {
	r := &paperRow{kind: k, said: touch.NewText(k.what, touch.Body, touch.Ink)}
	r.buttons = append(r.buttons, touch.NewButton("Open", func() { p.open(k) }))
	if p.desk.session.CanPrint() {
		r.buttons = append(r.buttons, touch.NewButton("Print", func() { p.print(k) }))
	}
	r.buttons = append(r.buttons, touch.NewButton("Save…", func() { p.save(k) }))
	var beside []fyne.CanvasObject
	for _, b := range r.buttons {
		beside = append(beside, b)
	}
	p.rows = append(p.rows, r)
	return touch.NewCard(k.name, r.said, beside...)
}

// see tells which papers there are.
func (p *papersPage) see(shot *app.Snapshot) {
	for _, r := range p.rows {
		why := "Open a piece first."
		if shot.Open || r.kind.shop {
			why = r.kind.lacks(shot)
		}
		r.said.SetText(joinedSentences(r.kind.what, why))
		for _, b := range r.buttons {
			if why == "" {
				b.Enable()
			} else {
				b.Disable()
			}
		}
	}
}

// name is what the file of a paper is called.
func (p *papersPage) name(k paperKind) string {
	if k.shop {
		return k.ending
	}
	return fileName(p.desk.session.Snapshot().Project.Name, k.ending)
}

// lay makes a paper and puts it where another program can read it.
func (p *papersPage) lay(k paperKind) (string, bool) {
	p.desk.commitAll()
	data, err := k.content()
	path := ""
	if err == nil {
		path, err = p.desk.session.Lay(p.name(k), data)
	}
	if err != nil {
		p.desk.say(notice{level: model.Stop, what: "The paper was not made", do: err.Error()})
		return "", false
	}
	return path, true
}

// open shows a paper in the system's own program.
func (p *papersPage) open(k paperKind) {
	path, ok := p.lay(k)
	if !ok {
		return
	}
	slashed := filepath.ToSlash(path)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed
	}
	if err := p.desk.app.OpenURL(&url.URL{Scheme: "file", Path: slashed}); err != nil {
		p.desk.say(notice{level: model.Stop, what: "Nothing on this system opened the paper", do: "It was made, but no program for PDF files was found here. Save it instead, and open it where you can."})
		return
	}
	p.desk.sayBriefly(k.name+" is handed to your system's program for PDF files", "Print it at 100 %, not fit to page.")
}

// print hands a paper to the printer.
func (p *papersPage) print(k paperKind) {
	path, ok := p.lay(k)
	if !ok {
		return
	}
	p.desk.session.Print(path, func(err error) {
		if err != nil {
			p.desk.say(notice{level: model.Stop, what: k.name + " was not printed", do: err.Error()})
			return
		}
		p.desk.sayBriefly(k.name+" is on its way to the printer", "")
	})
}

// save asks for a place and writes a paper there.
func (p *papersPage) save(k paperKind) {
	p.desk.commitAll()
	f := saving{ending: k.ending, content: k.content, failed: k.name + " was not saved", done: k.name + " is saved in ", then: "Print it at 100 %, not fit to page."}
	if k.shop {
		f.name, f.ending = strings.TrimSuffix(k.ending, ".pdf"), ".pdf"
	}
	p.desk.saveFile(p.desk.Show(notebookKey), f)
}

// saveDrawing asks over a window for a place and writes the drawing of the open
// project's mold there.
func (d *Desk) saveDrawing(key string, above, section bool) {
	d.commitAll()
	d.saveFile(d.Show(key), saving{ending: " drawing.svg", content: func() ([]byte, error) { return d.session.Drawing(above, section) },
		failed: "The drawing was not saved", done: "The drawing is saved in ", then: "It is in millimetres; the scale is written in it."})
}
