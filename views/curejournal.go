package views

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/storage"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// notePath names the entry of a note. It is no field of the project.
const notePath = "journal/note"

// cureJournal takes notes and pictures with one touch, and shows what happened
// beside what was planned, the latest first.
type cureJournal struct {
	page   *curePage
	root   *fyne.Container
	list   *touch.Card
	pane   *pane
	note   *touch.TextField
	said   *touch.Text
	photos *journalPhotos

	open    string // ID of the entry whose acts are shown; "" for the newest
	folded  bool   // the maker has put the newest one's acts away
	mending string // ID of the entry that is being corrected
	at      string // as typed, for when it was
	gross   string // as typed, for what the scale read
	problem *model.Problem
	minute  time.Time // when the rows were last made
	wide    bool
	project string
}

func newCureJournal(p *curePage, w fyne.Window) *cureJournal {
	j := &cureJournal{page: p, pane: newPane(p.in), said: touch.NewText("", touch.Body, touch.StopTone)}
	j.photos = newJournalPhotos(p.desk, j.draw)
	j.note = touch.NewTextField(p.in.form, notePath, "Something to note", 1)
	j.note.SetPlaceholder("a few words; a picture can be dropped here too")
	write := touch.NewButton("Note it with the time", j.write)
	photo := touch.NewButton("Add a photo…", j.choose)
	for _, b := range []*touch.Button{write, photo} {
		b.Bench, b.Debounce = true, touch.Settle
	}
	j.list = touch.NewCard("Planned, and what happened", j.pane.root)
	j.root = stack(container.New(layout.NewCustomPaddedLayout(0, 0, 4, 12), stack(j.note, pair(write, photo), j.said)), j.list)
	w.SetOnDropped(j.dropped)
	return j
}

// see shows the journal of a snapshot.
func (j *cureJournal) see(shot *app.Snapshot) {
	if j.project != shot.Project.ID {
		j.project, j.open, j.folded = shot.Project.ID, "", false
		j.stopMending()
		j.say(nil)
		j.photos.forget()
	}
	if _, stands := shot.Project.Entry(j.mending); j.mending != "" && !stands {
		j.stopMending()
	}
	j.draw()
}

// tick makes the rows anew once a minute, and where the window has become wider
// or narrower.
func (j *cureJournal) tick(now time.Time) {
	if now.Sub(j.minute).Abs() >= time.Minute || j.wide != j.roomForTwo() {
		j.draw()
	}
}

// roomForTwo tells whether plan and event have room beside each other.
func (j *cureJournal) roomForTwo() bool { return j.root.Size().Width >= 470 }

// draw shows the rows unless they stand already.
func (j *cureJournal) draw() {
	shot := &j.page.shot
	j.minute, j.wide = j.page.now.Truncate(time.Minute), j.roomForTwo()
	rows := model.Chronicle(&shot.Project, &j.page.timed, &shot.Curing, j.page.now)
	key := fmt.Sprint(shot.Project.Shop.Zone, rows, j.open, j.folded, j.mending, j.problem, j.wide, j.photos.arrived)
	j.pane.show(key, func() fyne.CanvasObject { return newJournalRows(j, shot, rows).build() })
}

// say tells what went wrong, or nothing.
func (j *cureJournal) say(err error) { j.said.SetText(capitalised(problemWords(err))) }

// write notes what is in the entry, with the time.
func (j *cureJournal) write() {
	text := j.note.Text()
	if text == "" {
		j.said.SetText("Write what there is to note first.")
		j.page.in.lead(notePath)
		return
	}
	err := j.page.desk.session.AddNote(text)
	j.say(err)
	if err == nil {
		j.note.SetText("")
	}
}

// choose asks for a picture.
func (j *cureJournal) choose() {
	j.page.in.form.CommitAll()
	choosePhoto(j.page.desk.Show(cureKey), j.take, j.say)
}

// dropped takes the pictures that were dropped on the window.
func (j *cureJournal) dropped(_ fyne.Position, files []fyne.URI) {
	j.page.tabs.turn(journalTab)
	for _, u := range files {
		from, err := storage.Reader(u)
		if err != nil {
			j.say(err)
			continue
		}
		j.take(from)
	}
}

// take has a picture kept and noted, with the pour that is in the mold.
func (j *cureJournal) take(from fyne.URIReadCloser) {
	name := from.URI().Name()
	j.said.SetText("")
	j.page.desk.session.AddPhoto(from, seenLayer(&j.page.shot.Plan), j.note.Text(), func(err error) {
		if err != nil {
			j.said.SetText(notKept(name, err))
			return
		}
		j.note.SetText("")
	})
}

// takeBack takes an entry back by a further one.
func (j *cureJournal) takeBack(id string) {
	j.page.in.form.CommitAll()
	j.stopMending()
	j.say(j.page.desk.session.Withdraw(id))
}

// mend opens the entries with which an entry of the journal is corrected.
func (j *cureJournal) mend(e model.Entry) {
	j.page.in.form.CommitAll()
	j.open, j.mending, j.problem = e.ID, e.ID, nil
	j.at, j.gross = j.page.shot.Project.Amendable(&e)
	j.draw()
	j.page.in.lead(model.AmendAt)
}

// stopMending puts the correcting away.
func (j *cureJournal) stopMending() { j.mending, j.at, j.gross, j.problem = "", "", "", nil }

// correct writes the entry that is being corrected down again as it was typed.
func (j *cureJournal) correct() {
	j.page.in.form.CommitAll()
	p, s := j.page.shot.Project, j.page.desk.session
	amended, err := p.Amended(j.mending, j.at, j.gross, s.Now())
	if err == nil {
		err = s.Correct(j.mending, func(e *model.Entry) { e.At, e.Gross = amended.At, amended.Gross })
	}
	if err == nil {
		j.stopMending()
		j.open = ""
		j.draw()
		return
	}
	if p, ok := err.(*model.Problem); ok && (p.Field == model.AmendAt || p.Field == model.AmendGross) {
		j.problem = p
	} else {
		j.problem = &model.Problem{Field: model.AmendAt, Message: problemWords(err)}
	}
	j.draw()
}

// entryFields are the inputs with which an entry is corrected.
func (j *cureJournal) entryFields(e *model.Entry) fyne.CanvasObject {
	rows := container.New(layout.NewCustomPaddedVBoxLayout(8))
	add := func(path, label, help string, kind touch.Kind, typed *string) {
		f := touch.NewField(j.page.in.form, path, label, kind)
		f.SetHelp(help)
		f.SetText(*typed)
		f.OnDraft = func(text string) { *typed = text }
		f.OnCommit = f.OnDraft
		if kind == touch.Mass {
			f.SetUnit(unitOf(kind, j.page.shot.Project.Style))
		}
		if j.problem != nil && j.problem.Field == path {
			f.SetProblem(j.problem.Message)
		}
		j.page.in.shows[path] = func(*app.Snapshot) {} // it shows nothing of the project
		rows.Add(f)
	}
	add(model.AmendAt, "When it was", "such as 14:05, yesterday 18:00 or Fri 27 Nov 18:40", touch.Time, &j.at)
	if e.Gross.Given() {
		add(model.AmendGross, "The scale read", "cup and all", touch.Mass, &j.gross)
	}
	keep := touch.NewStyledButton("Keep it corrected", touch.Primary, j.correct)
	leave := touch.NewButton("Leave it", func() { j.stopMending(); j.draw() })
	for _, b := range []*touch.Button{keep, leave} {
		b.Debounce = touch.Settle
	}
	rows.Add(pair(keep, leave))
	rows.Add(touch.NewText("The old entry stays in the journal, taken back.", touch.Small, touch.Faint))
	return rows
}
