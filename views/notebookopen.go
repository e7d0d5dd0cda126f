package views

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// openPiece is the right side of the notebook: the open project at a glance,
// and the ways into the other windows.
type openPiece struct {
	desk    *Desk
	mark    *touch.Text
	guide   *guideCard
	doors   *doors
	mixes   *mixList
	next    *nextStep
	archive *touch.Button
	scroll  *touch.Scroll
	root    fyne.CanvasObject
}

func newOpenPiece(d *Desk, in *inputs, how *workingPanel, history, units func()) *openPiece {
	o := &openPiece{desk: d, mark: touch.NewText("", touch.Strong, touch.Ink), guide: newGuideCard(d.guide), doors: newDoors(d), mixes: newMixList(how), next: newNextStep()}
	name := in.words("name", "Name", 1)
	note := in.words("note", "Note", 3)
	note.SetPlaceholder("for whom, where the wood is from, what to watch")

	o.archive = touch.NewButton("Archive", func() {
		d.commitAll()
		d.session.Archive(!d.session.Snapshot().Project.Archived)
	})
	after := func(do func()) func() { return func() { d.commitAll(); do() } }
	acts := container.New(layout.NewCustomPaddedVBoxLayout(8),
		container.NewHBox(touch.NewButton("Paper", after(d.showPapers)), touch.NewButton("History", after(history)), touch.NewButton("Units and instruments", after(units))),
		container.NewHBox(touch.NewButton("Copy", after(d.session.Copy)), o.archive, touch.NewButton("Export…", after(d.exportFile)), touch.NewButton("Export with its photos…", after(d.exportWithPhotos))))

	o.scroll = touch.NewScroll(inset(container.New(layout.NewCustomPaddedVBoxLayout(10),
		pair(container.New(layout.NewCustomPaddedVBoxLayout(4), name, o.mark), note), o.guide.root, o.doors.root,
		container.New(&mostAndRest{}, touch.NewCard("To mix", o.mixes.root), touch.NewCard("Next", o.next.root)), acts)))
	o.root = o.scroll
	return o
}

// see shows a snapshot with a project open.
func (o *openPiece) see(shot *app.Snapshot, now time.Time) {
	mark, archive := "", "Archive"
	if shot.Project.Demo {
		mark = "Demo, invented. Change anything: Undo takes it back."
	}
	if shot.Project.Archived {
		archive = "Take out of the archive"
		mark = sentences(mark, "This piece is in the archive.")
	}
	o.mark.SetText(mark)
	o.archive.SetLabel(archive)
	o.guide.see(shot)
	o.mixes.see(shot, now)
	o.tick(shot, now)
}

// tick brings what is told of the time up to date.
func (o *openPiece) tick(shot *app.Snapshot, now time.Time) {
	o.doors.see(shot, now)
	o.next.see(shot, now)
}

// mostAndRest puts two things side by side, the first with most of the room, or
// below each other where the room is narrow.
type mostAndRest struct{ width float32 }

const mostShare = 0.63

func (l *mostAndRest) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	least := fyne.NewSize(max(a.Width, b.Width), max(a.Height, b.Height))
	if l.narrow(o) {
		least.Height = a.Height + look.Gap + b.Height
	}
	return least
}

func (l *mostAndRest) narrow(o []fyne.CanvasObject) bool {
	most := (l.width - look.Gap) * mostShare
	return l.width > 0 && (o[0].MinSize().Width > most || o[1].MinSize().Width > l.width-look.Gap-most)
}

func (l *mostAndRest) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	if l.narrow(o) {
		a := o[0].MinSize().Height
		o[0].Resize(fyne.NewSize(size.Width, a))
		o[1].Move(fyne.NewPos(0, a+look.Gap))
		o[1].Resize(fyne.NewSize(size.Width, size.Height-a-look.Gap))
		return
	}
	width := (size.Width - look.Gap) * mostShare
	o[0].Resize(fyne.NewSize(width, size.Height))
	o[1].Move(fyne.NewPos(width+look.Gap, 0))
	o[1].Resize(fyne.NewSize(size.Width-width-look.Gap, size.Height))
}
