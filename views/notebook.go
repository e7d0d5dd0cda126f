package views

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// searchField is where Ctrl+F leads to.
const searchField = "search"

// notebookPage is the window Notebook: the projects at the left, the open one
// at the right.
type notebookPage struct {
	desk    *Desk
	window  fyne.Window
	in      *inputs
	frame   *frame
	running *runningStrip
	list    *projectList
	piece   *openPiece
	how     *workingPanel // a figure of the piece is opened in it
	units   *unitsPage
	history *historyPage
	copies  *copiesPage
	copy    *copyPage
	papers  *papersPage
	again   *againPage
	empty   fyne.CanvasObject
	showing fyne.CanvasObject // what stands at the right when a project is open
	naming  bool              // a new project is on its way, to be named
	shot    app.Snapshot
}

func newNotebook(d *Desk, w fyne.Window) page {
	p := &notebookPage{desk: d, window: w, in: newInputs(d, notebookKey)}
	p.running = newRunningStrip(d)
	p.list = newProjectList(d)
	p.how = newWorkingPanel(d)
	p.piece = newOpenPiece(d, p.in, p.how, func() { p.turnTo(p.history.root) }, func() { p.turnTo(p.units.root) })
	back := func() { p.in.form.CommitAll(); p.turnTo(p.piece.root) }
	p.units = newUnitsPage(d, p.in, back)
	p.history = newHistoryPage(d, back)
	p.copies = newCopiesPage(d, back, func(c model.Copy) { p.copy.show(c); p.turnTo(p.copy.root) })
	p.copy = newCopyPage(d, func() { p.copies.show(); p.turnTo(p.copies.root) }, back)
	p.papers = newPapersPage(d, back)
	p.again = newAgainPage(d, w, back)
	p.empty = newEmptyPage(d)
	right := container.NewStack(p.piece.root, p.units.root, p.history.root, p.copies.root, p.copy.root, p.papers.root, p.again.root, p.empty)
	body := asRead(p.running.root, container.New(listBeside{}, p.list.root, widget.NewSeparator(), p.how.over(right)), nil)
	p.frame = newFrame(d, "Which piece, and what comes next?", nil, body, nil)
	p.turnTo(p.piece.root)
	w.SetOnDropped(p.dropped)
	return p
}

func (p *notebookPage) content() fyne.CanvasObject { return p.frame.root }

func (p *notebookPage) see(shot app.Snapshot) {
	other := shot.Open != p.shot.Open || shot.Project.ID != p.shot.Project.ID
	p.shot = shot
	now := p.desk.session.Now()
	p.frame.see(&shot)
	p.frame.setAnswer(headline(&shot, now))
	p.how.see(&shot)
	p.run(now)
	p.list.see(shot)
	if shot.Open {
		p.in.see(&shot)
		p.piece.see(&shot, now)
		p.units.see(&shot)
		p.history.see(&shot, now)
	}
	p.copies.see(&shot)
	p.copy.see(&shot)
	p.papers.see(&shot)
	p.again.see(&shot)
	if other && !(shot.Open && p.showing == p.again.root) {
		p.piece.scroll.SetOffset(0)
		p.turnTo(p.piece.root)
	}
	if other && shot.Open && p.naming {
		p.naming = false
		p.in.lead("name")
	}
}

// turnTo shows a page at the right; with no project open there is only one, the
// copies and the papers.
func (p *notebookPage) turnTo(to fyne.CanvasObject) {
	p.how.hide()
	p.showing = to
	if !p.shot.Open && to != p.copies.root && to != p.copy.root && to != p.papers.root {
		to = p.empty
	}
	for _, o := range []fyne.CanvasObject{p.piece.root, p.units.root, p.history.root, p.copies.root, p.copy.root, p.papers.root, p.again.root, p.empty} {
		if o == to {
			o.Show()
		} else {
			o.Hide()
		}
	}
}

func (p *notebookPage) focus(field string) bool {
	if field == searchField {
		p.list.search.Focus()
		return true
	}
	if p.in.form.Input(field) == nil {
		return false
	}
	switch field {
	case "name", "note":
		p.turnTo(p.piece.root)
	default:
		p.turnTo(p.units.root)
	}
	return p.in.lead(field)
}

// part is the page beside the list, where it is not the open piece.
func (p *notebookPage) part() string {
	switch p.showing {
	case p.history.root:
		return "History"
	case p.units.root:
		return "Units and instruments"
	case p.copies.root, p.copy.root:
		return "Copies"
	case p.papers.root:
		return "Paper"
	case p.again.root:
		return "Make again"
	}
	return ""
}

func (p *notebookPage) commit() {
	p.in.form.CommitAll()
	p.again.commit()
}

// run moves all clocks on.
func (p *notebookPage) run(now time.Time) {
	if p.running.see(&p.shot, now) {
		p.frame.root.Refresh()
	}
}

func (p *notebookPage) tick(now time.Time) {
	p.run(now)
	p.list.tick(now)
	if !p.shot.Open {
		return
	}
	p.frame.setAnswer(headline(&p.shot, now))
	p.piece.tick(&p.shot, now)
	if p.showing == p.history.root {
		p.history.tick(now)
	}
}

// newEmptyPage stands at the right when no project is open.
func newEmptyPage(d *Desk) fyne.CanvasObject {
	fresh := touch.NewStyledButton("New piece", touch.Primary, d.newProject)
	fresh.Bench = true
	words := container.New(layout.NewCustomPaddedVBoxLayout(14),
		touch.NewText("Start with the mold in front of you.", touch.Question, touch.Ink),
		touch.NewText("A piece begins with the inside of its mold: how long, how wide, how deep. Then come the wood, what you set beside it, and the layers. The amounts to mix and the times follow by themselves.", touch.Body, touch.Ink),
		container.NewHBox(fresh, touch.NewButton("First steps", func() { d.help(helpStart) })),
		touch.NewText("Or choose a piece at the left, bring in a demo job to look around, or drop an exported file on this window. Everything you enter is kept as you go.", touch.Body, touch.Faint),
		newFixed(d, fyne.NewSize(420, 330), func(p drawing.Palette) color.NRGBA { return p.Ground }, func(s drawing.Surface, st drawing.Style) {
			drawing.PaintMoldMeasure(s, drawing.MoldMeasure{Form: model.MoldRectangle}, st)
		}))
	return touch.NewScroll(container.New(layout.NewCustomPaddedLayout(60, 20, 60, 60), words))
}

// listBeside gives the list a column of a fixed width, a narrower one where the
// screen is narrow, a line beside it, and the open project the rest.
type listBeside struct{}

// Widths of the list, and of the open project at least: words that wrap need to
// know of some room before a window has its size.
const (
	listWidth  = 400
	listLeast  = 300 // where the screen is narrow
	pieceWidth = 620
)

func (listBeside) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[2].MinSize()
	return fyne.NewSize(max(listLeast, a.Width)+1+max(pieceWidth, b.Width), max(a.Height, b.Height))
}

func (listBeside) Layout(o []fyne.CanvasObject, size fyne.Size) {
	width := max(min(listWidth, size.Width-1-max(pieceWidth, o[2].MinSize().Width)), listLeast, o[0].MinSize().Width)
	o[0].Resize(fyne.NewSize(width, size.Height))
	o[1].Move(fyne.NewPos(width, 0))
	o[1].Resize(fyne.NewSize(1, size.Height))
	o[2].Move(fyne.NewPos(width+1, 0))
	o[2].Resize(fyne.NewSize(size.Width-width-1, size.Height))
}
