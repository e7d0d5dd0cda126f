package views

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// frame is what every window has around its own content: the question that it
// answers and the answer in large type at the top, with undo and how safe the
// notebook is; the drawing and the inputs; the findings and the safety notes of
// its subjects at the foot; and the keypad.
type frame struct {
	desk     *Desk
	subjects []model.Subject
	ownNotes bool // the page shows the safety notes itself
	shelf    bool // its steps are those of the shelf
	in       *inputs

	question, answer *touch.Text
	acts             *fyne.Container // at the right of the header
	undo, redo       *touch.Button
	saved            *touch.Text
	banner           *banner
	findings         *findings
	root             *fyne.Container
}

// newFrame builds a frame. drawing may be nil, the inputs then have all room.
func newFrame(d *Desk, question string, drawing, side fyne.CanvasObject, in *inputs, subjects ...model.Subject) *frame {
	f := &frame{desk: d, subjects: subjects, in: in}
	f.question = touch.NewLine(question, touch.Small, touch.Faint)
	f.answer = touch.NewText("", touch.Question, touch.Ink)
	f.answer.Lines = 2 // so that nothing below moves under the finger when it comes to wrap
	f.undo = touch.NewStyledButton(undoLabel, touch.Quiet, nil)
	f.redo = touch.NewStyledButton(redoLabel, touch.Quiet, nil)
	f.ofProject()
	f.saved = touch.NewLine("", touch.Small, touch.Faint)
	f.banner = newBanner(d)
	f.findings = newFindings(d)
	f.acts = container.NewHBox(layout.NewSpacer(), container.NewCenter(f.saved), f.undo, f.redo)
	header := container.NewBorder(nil, nil, nil, container.NewVBox(f.acts), container.NewVBox(f.question, f.answer))
	inset := container.New(layout.NewCustomPaddedLayout(8, 8, 14, 14), header)

	var right fyne.CanvasObject = side
	if in != nil {
		right = container.New(onPad{}, side, in.pad)
	}
	var body fyne.CanvasObject = right
	if drawing != nil {
		body = container.New(sideBySide{}, drawing, right)
	}
	f.root = container.NewStack(
		asRead(container.NewVBox(inset, f.banner.root), body, f.findings.root),
		container.New(&overHead{inset, f.acts}, f.banner.over))
	return f
}

// see shows what the frame itself shows of a snapshot; the page sets the
// answer.
func (f *frame) see(shot *app.Snapshot) {
	f.kept(shot)
	notes := shot.Safety(f.subjects...)
	if f.ownNotes {
		notes = nil
	}
	f.findings.see(shot.Findings(f.subjects...), notes)
	if f.in != nil {
		f.in.see(shot)
	}
}

// kept shows how the notebook stands: what can be undone, and how safe it is.
func (f *frame) kept(shot *app.Snapshot) {
	undo, redo := shot.Undo, shot.Redo
	if f.shelf {
		undo, redo = shot.ShelfUndo, shot.ShelfRedo
	}
	f.setUndo(f.undo, undoLabel, undo)
	f.setUndo(f.redo, redoLabel, redo)
	text, tone := savedText(shot)
	f.saved.SetText(text)
	f.saved.SetTone(tone)
	f.banner.see(shot)
}

// ofShelf has undo and redo be those of the shelf.
func (f *frame) ofShelf() {
	f.shelf = true
	f.undo.OnTapped = func() { f.desk.commitAll(); f.desk.session.UndoShelf() }
	f.redo.OnTapped = func() { f.desk.commitAll(); f.desk.session.RedoShelf() }
}

// ofProject has them be those of the open project.
func (f *frame) ofProject() {
	f.shelf = false
	f.undo.OnTapped = func() { f.desk.commitAll(); f.desk.session.Undo() }
	f.redo.OnTapped = func() { f.desk.commitAll(); f.desk.session.Redo() }
}

// offerBench puts the way to the bench look into the header.
func (f *frame) offerBench(key string) {
	b := touch.NewButton("Bench look", func() { f.desk.commitAll(); f.desk.benchFrom(key) })
	b.Bench, b.Debounce = true, touch.Settle
	f.acts.Add(b)
}

// setAnswer shows the answer to the window's question.
func (f *frame) setAnswer(text string) { f.answer.SetText(text) }

// ask shows a question and its answer.
func (f *frame) ask(question, answer string) {
	f.question.SetText(question)
	f.setAnswer(answer)
}

// setUndo says on a button what it takes back or brings back, in so many letters as
// leave the answer its room.
func (f *frame) setUndo(b *touch.Button, verb, what string) {
	if what == "" {
		b.SetLabel(verb)
		b.Disable()
		return
	}
	most := 22
	if f.root.Size().Width > 1150 {
		most = 38
	}
	b.SetLabel(stepLabel(verb, what, most))
	b.Enable()
}

// stepLabel says what a verb is about, in so many letters at most; the verb alone
// where it is about nothing.
func stepLabel(verb, what string, most int) string {
	if what == "" {
		return verb
	}
	return verb + ": " + brief(strings.ToLower(what[:1])+what[1:], most)
}

// savedText says in words how far the disk is behind the screen.
func savedText(shot *app.Snapshot) (string, touch.Tone) {
	switch s := shot.Saved; {
	case s.Closed:
		return "read only", touch.StopTone
	case s.What != "":
		return "not kept", touch.StopTone
	case s.Pending:
		return "keeping…", touch.Faint
	case s.At.IsZero():
		return "", touch.Faint
	default:
		return "kept " + local(s.At).Format("15:04:05"), touch.Faint
	}
}

// onPad lets the inputs end where their keypad begins; the toolkit's own border would
// leave a gap between them.
type onPad struct{}

func (onPad) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	return fyne.NewSize(max(a.Width, b.Width), a.Height+b.Height)
}

func (onPad) Layout(o []fyne.CanvasObject, size fyne.Size) {
	pad := min(o[1].MinSize().Height, size.Height)
	o[0].Move(fyne.Position{})
	o[0].Resize(fyne.NewSize(size.Width, size.Height-pad))
	o[1].Move(fyne.NewPos(0, size.Height-pad))
	o[1].Resize(fyne.NewSize(size.Width, pad))
}

// sideBySide gives the inputs a column as wide as they need and the drawing
// the rest.
type sideBySide struct{}

func (sideBySide) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	return fyne.NewSize(a.Width+b.Width, max(a.Height, b.Height))
}

func (sideBySide) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const least, most = 440, 560
	width := min(max(size.Width*0.38, least), most, size.Width)
	width = max(width, min(o[1].MinSize().Width, size.Width))
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(size.Width-width, size.Height))
	o[1].Move(fyne.NewPos(size.Width-width, 0))
	o[1].Resize(fyne.NewSize(width, size.Height))
}

// inset puts room around a window's inputs.
func inset(o fyne.CanvasObject) *fyne.Container {
	return container.New(layout.NewCustomPaddedLayout(look.Gap, look.Gap, 14, 14), o)
}

// local is an instant by this machine's clock, for what concerns the notebook or
// the shelf as a whole; what concerns a piece goes by its shopClock.
func local(t time.Time) time.Time { return t.Local() }
