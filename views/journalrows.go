package views

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// journalRows builds the lines of the journal, the latest first, with the days
// as headings.
type journalRows struct {
	j    *cureJournal
	shot *app.Snapshot
	rows []model.ChronicleRow
	open string // ID of the entry whose acts are shown
	seen int    // pictures shown so far
}

func newJournalRows(j *cureJournal, shot *app.Snapshot, rows []model.ChronicleRow) *journalRows {
	b := &journalRows{j: j, shot: shot, rows: rows, open: j.open}
	if b.open == "" && !j.folded { // the newest, which is what a slip of the finger made
		var last *model.ChronicleRow
		for i := range rows {
			if r := &rows[i]; b.opens(r) && (last == nil || r.At.After(last.At) || r.At.Equal(last.At) && i > 0) {
				last = r
			}
		}
		if last != nil {
			b.open = last.Entry.ID
		}
	}
	return b
}

// opens tells whether a line has acts to show.
func (b *journalRows) opens(r *model.ChronicleRow) bool {
	return r.Entry.Kind != "" && r.Entry.Kind != model.EntryWithdrawn && !r.Back
}

func (b *journalRows) build() fyne.CanvasObject {
	if len(b.rows) == 0 {
		return container.New(layout.NewCustomPaddedVBoxLayout(4), touch.NewText("Nothing yet. What you touch at the bench and note here is kept with its time: it can be taken back, never erased.", touch.Body, touch.Faint))
	}
	var list []fyne.CanvasObject // laid out once, not line by line
	add := func(o fyne.CanvasObject) { list = append(list, o) }
	past := slices.IndexFunc(b.rows, func(r model.ChronicleRow) bool { return r.ToCome })
	if past < 0 {
		past = len(b.rows)
	}
	if past < len(b.rows) {
		add(touch.NewText("Still to come", touch.Strong, touch.Ink))
	}
	for i := past; i < len(b.rows); i++ {
		r := &b.rows[i]
		add(touch.NewText(b.j.page.clock.dayTime(r.At)+"  "+r.Planned, touch.Body, touch.Faint))
	}
	if past > 0 {
		add(container.New(layout.NewCustomPaddedLayout(look.Gap, 0, 0, 0), touch.NewText("Until now: touch a line to correct it or to take it back", touch.Strong, touch.Ink)))
	}
	if b.j.wide {
		add(inRow(b.columns("", touch.NewText("planned, as the plan is now", touch.Small, touch.Faint), touch.NewText("what happened", touch.Small, touch.Faint))))
	}
	day := ""
	for i := past - 1; i >= 0; i-- {
		r := &b.rows[i]
		if d := b.j.page.clock.in(r.At).Format("Monday 2 January 2006"); d != day {
			day = d
			add(container.New(layout.NewCustomPaddedLayout(6, 0, 0, 0), touch.NewText(d, touch.Strong, touch.Ink)))
		}
		add(b.line(r))
	}
	return container.New(layout.NewCustomPaddedVBoxLayout(4), list...)
}

// line is one row with what belongs to it.
func (b *journalRows) line(r *model.ChronicleRow) fyne.CanvasObject {
	all := b.words(r)
	if len(r.Inside) > 0 {
		return b.folded(r, all)
	}
	rows := container.New(layout.NewCustomPaddedVBoxLayout(4))
	if !b.opens(r) {
		rows.Add(inRow(all))
	} else {
		row := touch.NewRow(all, func() { b.turn(r.Entry.ID) })
		row.SetChosen(r.Entry.ID == b.open)
		rows.Add(row)
	}
	if name := r.Entry.Photo; name != "" && !r.Back && r.Entry.Kind == model.EntryPhoto {
		rows.Add(b.picture(name))
	}
	if r.Entry.ID == b.open && b.opens(r) {
		rows.Add(container.New(layout.NewCustomPaddedLayout(0, 8, 14, 0), b.acts(r.Entry)))
	}
	return rows
}

// turn opens the acts of a line, or puts them away.
func (b *journalRows) turn(id string) {
	b.j.page.in.form.CommitAll()
	b.j.stopMending()
	if id == b.open {
		b.j.open, b.j.folded = "", true
	} else {
		b.j.open, b.j.folded = id, false
	}
	b.j.draw()
}

// folded is a row that stands for several, which it shows once it is touched.
func (b *journalRows) folded(r *model.ChronicleRow, all fyne.CanvasObject) fyne.CanvasObject {
	id := "inside " + r.Inside[0].Entry.ID
	inside := func(id string) bool {
		for i := range r.Inside {
			if r.Inside[i].Entry.ID == id {
				return true
			}
		}
		return false
	}
	rows := container.New(layout.NewCustomPaddedVBoxLayout(4), touch.NewRow(all, func() {
		if b.open == id || inside(b.open) {
			id = ""
		}
		b.j.open, b.j.folded = id, id == ""
		b.j.stopMending()
		b.j.draw()
	}))
	if b.open == id || inside(b.open) {
		held := container.New(layout.NewCustomPaddedVBoxLayout(4))
		for i := range r.Inside {
			held.Add(b.line(&r.Inside[i]))
		}
		rows.Add(container.New(layout.NewCustomPaddedLayout(0, 0, 18, 0), held))
	}
	return rows
}

// words are what a row says.
func (b *journalRows) words(r *model.ChronicleRow) fyne.CanvasObject {
	at := b.j.page.clock.in(r.At).Format("15:04")
	tone := touch.Ink
	happened := r.Happened
	if r.Back {
		tone, happened = touch.Faint, happened+" (taken back)"
	}
	done := container.New(layout.NewCustomPaddedVBoxLayout(0))
	if happened != "" {
		done.Add(touch.NewText(happened, touch.Body, tone))
	}
	if r.Off != "" {
		level := map[model.Level]touch.Level{model.Check: touch.Check, model.Stop: touch.Stop}[r.Level]
		if r.Level == model.Note {
			done.Add(touch.NewText(capitalised(r.Off), touch.Strong, touch.Ink))
		} else {
			done.Add(container.NewBorder(nil, nil, container.NewVBox(touch.NewSign(level, 18)), nil, touch.NewText(capitalised(r.Off), touch.Strong, touch.Ink)))
		}
	}
	if b.j.wide {
		planned := r.Planned
		if planned == "" {
			planned = "–"
		}
		return b.columns(at, touch.NewText(planned, touch.Body, touch.Faint), done)
	}
	if r.Planned != "" {
		planned := r.Planned
		if happened != "" {
			planned = "planned: " + planned
		}
		plan := touch.NewText(planned, touch.Small, touch.Faint)
		if happened == "" {
			plan = touch.NewText(planned, touch.Body, touch.Faint)
		}
		done.Objects = append([]fyne.CanvasObject{plan}, done.Objects...)
	}
	return b.timed(at, done)
}

// timed sets a time of day before a line.
func (b *journalRows) timed(at string, rest fyne.CanvasObject) fyne.CanvasObject {
	return container.New(timeColumn{}, touch.NewLine(at, touch.Strong, touch.Ink), rest)
}

// columns sets what was planned and what happened side by side.
func (b *journalRows) columns(at string, planned, happened fyne.CanvasObject) fyne.CanvasObject {
	return b.timed(at, container.NewGridWithColumns(2, planned, happened))
}

// acts are what can be done with an entry that stands.
func (b *journalRows) acts(e model.Entry) fyne.CanvasObject {
	if b.j.mending == e.ID {
		return b.j.entryFields(&e)
	}
	label := "Correct its time"
	if e.Gross.Given() {
		label = "Correct its time or weight"
	}
	mend := touch.NewButton(label, func() { b.j.mend(e) })
	back := touch.NewButton("Take back", func() { b.j.takeBack(e.ID) })
	for _, x := range []*touch.Button{mend, back} {
		x.Debounce = touch.Settle
	}
	return container.NewHBox(mend, back)
}

// picture is a kept picture, which is seen large when it is touched.
func (b *journalRows) picture(name string) fyne.CanvasObject {
	show := func() { b.j.photos.show(name) }
	b.seen++
	if b.seen > mostSmall {
		return container.NewHBox(touch.NewButton("Show the picture", show))
	}
	p := b.j.photos.of(name)
	switch {
	case p.err != nil:
		return inRow(signed(touch.Check, photoTrouble(p.err)))
	case p.picture == nil:
		return inRow(touch.NewText("Opening the picture…", touch.Small, touch.Faint))
	}
	i := newPhoto(p.picture)
	size := p.picture.Bounds().Size()
	const high = 150
	i.SetMinSize(fyne.NewSize(min(high*float32(size.X)/float32(size.Y), 300), high))
	return touch.NewRow(container.NewHBox(i), show)
}

// inRow sets a line that cannot be touched as one that can.
func inRow(o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(layout.NewCustomPaddedLayout(2, 2, 14, 10), o)
}

// timeColumn gives a time of day its column and what it belongs to the rest.
type timeColumn struct{}

const timeWide = 56

func (timeColumn) MinSize(o []fyne.CanvasObject) fyne.Size {
	rest := o[1].MinSize()
	return fyne.NewSize(timeWide+rest.Width, max(o[0].MinSize().Height, rest.Height))
}

func (timeColumn) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(timeWide, o[0].MinSize().Height))
	o[1].Move(fyne.NewPos(timeWide, 0))
	o[1].Resize(fyne.NewSize(size.Width-timeWide, size.Height))
}
