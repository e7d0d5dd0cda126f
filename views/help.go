package views

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"meniscus/app"
	"meniscus/views/touch"
)

// helpTitle is what the window of help is called.
const helpTitle = "Help"

// The parts of the help that are about no window. That about a window has the
// window's key.
const (
	helpStart   = "start"
	helpBench   = "bench"
	helpWords   = "words"
	helpFigures = "figures"
	helpTrouble = "trouble"
	helpSafety  = "safety"
	helpKeys    = "keys"
	helpAbout   = "about"
	helpTerms   = "licences"
)

// helpParts lists all parts in their order.
var helpParts = []string{
	helpStart, notebookKey, moldKey, layersKey, mixingKey, helpBench, cureKey, finishKey, shelfKey,
	helpWords, helpFigures, helpTrouble, helpSafety, helpKeys, helpAbout, helpTerms,
}

// helpPage is the window Help: its parts at the left, what the chosen one says at
// the right.
type helpPage struct {
	desk   *Desk
	frame  *frame
	rows   map[string]*touch.Row
	list   *touch.Scroll
	scroll *touch.Scroll
	now    string // the part that is shown
	open   string // what is open in the window that was asked about; "" for none
	term   string // the licence that is open; "" for their list
}

func newHelp(d *Desk, _ fyne.Window) page {
	p := &helpPage{desk: d, rows: map[string]*touch.Row{}}
	names := container.New(layout.NewCustomPaddedVBoxLayout(2))
	for i, part := range helpParts {
		row := touch.NewRow(amid(touch.NewLine(helpTextOf(part).title, touch.Body, touch.Ink)), func() { p.turn(part) })
		row.OnMove = func(dir int) { p.walk(i + dir) }
		p.rows[part] = row
		names.Add(row)
	}
	p.list = touch.NewScroll(inset(names))
	p.scroll = touch.NewScroll(container.NewStack())
	body := container.New(partsBeside{}, p.list, widget.NewSeparator(), p.scroll)
	p.frame = newFrame(d, "What would you like to know?", nil, body, nil)
	p.frame.acts.Remove(p.frame.undo) // nothing is changed here
	p.frame.acts.Remove(p.frame.redo)
	p.frame.answer.Lines = 1 // a title, which never wraps
	p.turn(helpStart)
	return p
}

func (p *helpPage) content() fyne.CanvasObject { return p.frame.root }

func (p *helpPage) see(shot app.Snapshot) { p.frame.kept(&shot) } // no findings, which are not what is asked for here

func (p *helpPage) focus(part string) bool {
	if _, ok := p.rows[part]; !ok {
		return false
	}
	p.turn(part)
	p.rows[part].Focus()
	return true
}

func (p *helpPage) commit() {}

func (p *helpPage) tick(time.Time) {}

// walk goes to the part with a number and gives its row the focus.
func (p *helpPage) walk(to int) {
	if to >= 0 && to < len(helpParts) {
		p.focus(helpParts[to])
	}
}

// turn shows a part from its beginning.
func (p *helpPage) turn(part string) {
	p.now, p.term, p.open = part, "", ""
	for key, row := range p.rows {
		row.SetChosen(key == part)
	}
	p.list.ScrollTo(p.rows[part])
	p.show()
}

// show shows what the chosen part says.
func (p *helpPage) show() {
	text := helpTextOf(p.now)
	p.frame.setAnswer(text.title)
	all := container.New(layout.NewCustomPaddedVBoxLayout(10))
	var open fyne.CanvasObject
	for _, b := range text.blocks {
		o := p.block(b)
		if b.kind == helpTerm && b.lead == p.open {
			o = touch.NewCard("Open in your window now", o)
			open = o
		}
		all.Add(o)
	}
	switch p.now {
	case helpKeys:
		p.addKeys(all)
	case helpAbout:
		p.addAbout(all)
	case helpTerms:
		p.addTerms(all)
	}
	p.scroll.SetContent(container.New(readable{}, inset(all)))
	if open != nil {
		p.scroll.ScrollTo(open)
	}
}

// parted is a page that shows a part of its work at a time.
type parted interface {
	// part is what the part that is shown is called on its tab; "" for none.
	part() string
}

// help shows a part of the help.
func (d *Desk) help(part string) {
	d.Show(helpKey)
	if p, ok := d.pages[helpKey].(*helpPage); ok {
		p.turn(part)
	}
}

// helpWith shows the help on what a window shows, with the part that is open in
// it marked.
func (d *Desk) helpWith(key string) {
	switch c := d.covers[key]; {
	case key == helpKey:
		d.help(helpStart)
	case c != nil && c.bench != nil:
		d.help(helpBench)
	default:
		d.help(key)
		if from, ok := d.pages[key].(parted); ok {
			p := d.pages[helpKey].(*helpPage)
			p.open = from.part()
			p.show()
		}
	}
}

// amid sets a line in the middle of its height.
func amid(line fyne.CanvasObject) fyne.CanvasObject {
	return container.NewVBox(layout.NewSpacer(), line, layout.NewSpacer())
}

// partsBeside gives the list of parts a column of a fixed width, a line beside
// it, and the text the rest.
type partsBeside struct{}

const partsWidth = 300

func (partsBeside) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(partsWidth+1+480, max(o[0].MinSize().Height, o[2].MinSize().Height))
}

func (partsBeside) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(partsWidth, size.Height))
	o[1].Move(fyne.NewPos(partsWidth, 0))
	o[1].Resize(fyne.NewSize(1, size.Height))
	o[2].Move(fyne.NewPos(partsWidth+1, 0))
	o[2].Resize(fyne.NewSize(size.Width-partsWidth-1, size.Height))
}

// readable keeps lines of text so short that the eye finds the next one: about
// 80 signs (common practice, no source), with room for links beside them.
type readable struct{}

const readableWidth = 860

func (readable) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

func (readable) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.Position{})
	o[0].Resize(fyne.NewSize(min(size.Width, readableWidth), size.Height))
}
