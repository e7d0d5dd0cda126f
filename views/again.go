package views

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// The parts of the page about a piece that was cast.
const (
	againOnce    = "once more"
	againRun     = "run"
	againCompare = "compare"
	againShop    = "shop"
)

// showAgain leads to a part of the page in the notebook about a piece that was
// cast.
func (d *Desk) showAgain(part string) {
	d.commitAll()
	d.Show(notebookKey)
	if p, ok := d.pages[notebookKey].(*notebookPage); ok {
		p.turnTo(p.again.root)
		p.again.turn(part)
	}
}

// againPart is one part of the page.
type againPart interface {
	content() fyne.CanvasObject
	// act is what the part is for, at the head of the page; nil where there is
	// nothing of that kind.
	act() *touch.Button
	// see follows a snapshot while the part is shown; fresh tells that it has
	// just been turned to.
	see(shot *app.Snapshot, fresh bool)
}

// againPage is where the open piece is made again, how its run went, what it is
// beside another, and what all runs say of the shop. Another piece is chosen in
// the list beside it.
type againPage struct {
	desk  *Desk
	in    *inputs
	tabs  *touch.Choice
	parts map[string]againPart
	at    string
	title *touch.Brief
	acts  *fyne.Container
	leave func()
	root  fyne.CanvasObject
}

func newAgainPage(d *Desk, w fyne.Window, back func()) *againPage {
	p := &againPage{desk: d, in: newInputs(d, notebookKey), at: againOnce}
	p.leave = func() { p.in.form.CommitAll(); back() }
	p.parts = map[string]againPart{againOnce: newAgainMake(p), againRun: newAgainRan(p), againCompare: newAgainBeside(p), againShop: newAgainLessons(p)}
	p.tabs = touch.NewChoice([]touch.Option{
		{ID: againOnce, Label: "Make again"}, {ID: againRun, Label: "How it went"},
		{ID: againCompare, Label: "Beside another"}, {ID: againShop, Label: "What my shop uses"},
	}, p.at, p.turn)
	held := container.NewStack()
	for _, id := range []string{againOnce, againRun, againCompare, againShop} {
		held.Add(p.parts[id].content())
	}
	p.title = touch.NewBrief("", touch.Title, touch.Ink)
	p.acts = container.NewStack()
	for _, x := range p.parts {
		if b := x.act(); b != nil {
			p.acts.Add(b)
		}
	}
	leaves := touch.NewButton("← Back", p.leave)
	name := container.New(layout.NewCustomPaddedLayout(0, 0, 12, 0), container.NewVBox(layout.NewSpacer(), p.title, layout.NewSpacer()))
	head := container.New(layout.NewCustomPaddedLayout(4, look.Gap, 14, 14), container.New(layout.NewCustomPaddedVBoxLayout(look.Gap), container.NewBorder(nil, nil, leaves, p.acts, name), p.tabs))
	p.in.pad.SetFolded(true)
	p.root = asRead(head, held, p.in.pad)
	p.root.Hide()
	p.escape(w)
	p.turn(p.at)
	return p
}

// escape leaves the page by its key, in an input once there is nothing to take back.
func (p *againPage) escape(w fyne.Window) {
	w.Canvas().SetOnTypedKey(func(ev *fyne.KeyEvent) {
		if ev.Name == fyne.KeyEscape && p.root.Visible() && w.Canvas().Overlays().Top() == nil {
			p.leave()
		}
	})
}

// turn shows another part.
func (p *againPage) turn(id string) {
	p.in.form.CommitAll()
	p.in.form.Rest()
	p.at = id
	p.tabs.SetChosen(id)
	for name, x := range p.parts {
		showIf(x.content(), name == id)
		if b := x.act(); b != nil {
			showIf(b, name == id)
		}
	}
	p.show()
}

// show brings the part that is turned to up to date.
func (p *againPage) show() {
	shot := p.desk.session.Snapshot()
	p.follow(&shot, true)
}

// see follows a snapshot, as long as the page is shown.
func (p *againPage) see(shot *app.Snapshot) { p.follow(shot, false) }

func (p *againPage) follow(shot *app.Snapshot, fresh bool) {
	if !p.root.Visible() || !shot.Open {
		return
	}
	p.title.SetText(nameOf(shot.Project.Name))
	p.parts[p.at].see(shot, fresh)
}

// commit takes what is still being typed.
func (p *againPage) commit() { p.in.form.CommitAll() }

// againSides puts what is chosen or entered at the left, and what follows from
// it at the right, each with a scroll of its own.
func againSides(left, right fyne.CanvasObject) *fyne.Container {
	return container.New(againHalves{}, left, right)
}

// againHalves gives the left side two fifths of the room, but no less than it
// needs, nor more than is of use or than the right side leaves.
type againHalves struct{}

func (againHalves) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	return fyne.NewSize(max(620, a.Width+b.Width), max(a.Height, b.Height))
}

func (againHalves) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const least, most = 366, 460
	left := max(min(max(size.Width*0.4, least), most, size.Width-o[1].MinSize().Width), o[0].MinSize().Width)
	o[0].Resize(fyne.NewSize(left, size.Height))
	o[1].Move(fyne.NewPos(left, 0))
	o[1].Resize(fyne.NewSize(size.Width-left, size.Height))
}

// againColumns lays a row of figures out, each column with its share of the
// width, or what it needs where that is more.
type againColumns []float32

func (againColumns) MinSize(cells []fyne.CanvasObject) fyne.Size {
	var h float32
	for _, o := range cells {
		h = max(h, o.MinSize().Height)
	}
	return fyne.NewSize(0, h)
}

func (c againColumns) Layout(cells []fyne.CanvasObject, size fyne.Size) {
	x, widths := float32(0), shares(c).widths(cells, size.Width)
	for i, o := range cells {
		w := widths[i]
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(w-8, size.Height))
		x += w
	}
}

// againRow is a row of figures: the first says what they are, and the last one
// stands out, not counting a ratio behind it.
func againRow(shares againColumns, tone touch.Tone, words ...string) fyne.CanvasObject {
	row := container.New(shares)
	last := len(words) - 1
	if words[last] == "" || strings.HasPrefix(words[last], "×") {
		last--
	}
	for i, text := range words {
		role, hue := touch.Body, tone
		switch {
		case i == 0:
			hue = touch.Faint
		case i == last && tone == touch.Ink:
			role = touch.Strong
		}
		row.Add(touch.NewText(text, role, hue))
	}
	return row
}

// againHead is the line above a table that names its columns.
func againHead(shares againColumns, words ...string) fyne.CanvasObject {
	row := container.New(shares)
	for _, text := range words {
		row.Add(touch.NewText(text, touch.Small, touch.Faint))
	}
	return row
}

// refill shows other objects in a box with a scroll, which stays where it is.
func refill(box *fyne.Container, scroll *touch.Scroll, objects ...fyne.CanvasObject) {
	touch.KeepFocus(box, func() {
		box.Objects = objects
		box.Refresh()
	})
	scroll.Refresh()
}

// againLine tells on the door to the page what is there.
func againLine(shot *app.Snapshot) string {
	if from := shot.Project.Made.Name; from != "" {
		return "was made again from “" + brief(from, 24) + "”"
	}
	return "in its mold or another, this season or the next"
}

// wentLine tells on the door to a run whether there is any.
func wentLine(shot *app.Snapshot) string {
	if len(shot.Project.Journal) == 0 {
		return "planned against actual, once it is poured"
	}
	return "planned against actual, what I lose"
}
