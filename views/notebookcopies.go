package views

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"

	"github.com/dustin/go-humanize"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// showCopies shows the copies of the notebook.
func (d *Desk) showCopies() {
	d.commitAll()
	d.Show(notebookKey)
	if p, ok := d.pages[notebookKey].(*notebookPage); ok {
		p.copies.show()
		p.turnTo(p.copies.root)
	}
}

// copyRow is one copy in the list.
type copyRow struct {
	row  *touch.Row
	what *touch.Brief // how the notebook stands to it
	copy model.Copy
}

// copiesPage lists the copies of the notebook, newest first, and where a second
// one goes.
type copiesPage struct {
	desk   *Desk
	box    *fyne.Container
	scroll *touch.Scroll
	second *touch.Text
	now    *touch.Button
	none   *touch.Button
	root   fyne.CanvasObject
	rows   []*copyRow
	round  int // counts the listings, so that what comes of an older one is dropped
	open   func(model.Copy)
}

func newCopiesPage(d *Desk, back func(), open func(model.Copy)) *copiesPage {
	p := &copiesPage{desk: d, box: container.New(layout.NewCustomPaddedVBoxLayout(8)), open: open}
	p.scroll = touch.NewScroll(inset(p.box))
	p.second = touch.NewText("", touch.Small, touch.Faint)
	p.now = touch.NewButton("Copy there now", func() { d.session.CopyAwayNow(p.copied) })
	p.none = touch.NewStyledButton("No second place", touch.Quiet, func() { d.session.SetSecondPlace("", func(error) { p.show() }) })
	choose := touch.NewButton("Choose a second place…", p.choose)
	acts := container.NewHBox(choose, p.now, p.none)
	foot := container.New(layout.NewCustomPaddedLayout(6, 8, 14, 14), container.New(layout.NewCustomPaddedVBoxLayout(6), p.second, acts))
	p.root = asRead(pageHead("Copies of the notebook", back), p.scroll, foot)
	return p
}

// see follows what can be done.
func (p *copiesPage) see(shot *app.Snapshot) {
	for _, b := range []*touch.Button{p.now, p.none} {
		if shot.Saved.Closed && shot.Look == nil {
			b.Disable()
		} else {
			b.Enable()
		}
	}
}

// show lists the copies anew.
func (p *copiesPage) show() {
	p.round++
	round := p.round
	folder := p.desk.session.SecondPlace()
	if folder == "" {
		p.second.SetText("Copies lie in the folder “backups” beside the notebook. A second place, such as a USB stick, keeps them and your photos when this disk fails.")
		p.now.Hide()
		p.none.Hide()
	} else {
		p.second.SetText("Each day a second copy goes, with your photos, to " + folder + ".")
		p.now.Show()
		p.none.Show()
	}
	p.desk.session.Copies(func(list []model.Copy, err error) {
		if round == p.round {
			touch.KeepFocus(p.box, func() { p.fill(list, err) })
			p.compare(round, 0)
		}
	})
}

// fill makes the rows.
func (p *copiesPage) fill(list []model.Copy, err error) {
	p.box.RemoveAll()
	p.rows = nil
	head := "The whole notebook is copied on the first change of a day. Of the last seven days each copy is kept, then the last of each week for two months, then the last of each month for a year."
	p.box.Add(touch.NewText(head, touch.Small, touch.Faint))
	switch {
	case err != nil:
		p.box.Add(touch.NewText(err.Error(), touch.Body, touch.StopTone))
	case len(list) == 0:
		p.box.Add(touch.NewText("There is no copy yet. The first is made with your next change.", touch.Body, touch.Ink))
	}
	for _, c := range list {
		x := &copyRow{copy: c, what: touch.NewBrief("…", touch.Small, touch.Ink)}
		words := container.New(layout.NewCustomPaddedVBoxLayout(1), touch.NewBrief(copyDate(c), touch.Strong, touch.Ink), x.what, touch.NewBrief(copyKind(c), touch.Small, touch.Faint))
		arrow := container.NewCenter(touch.NewLine("→", touch.Title, touch.Touchable))
		at := len(p.rows)
		x.row = touch.NewRow(container.NewBorder(nil, nil, nil, arrow, words), func() { p.open(c) })
		x.row.OnMove = func(dir int) {
			if to := at + dir; to >= 0 && to < len(p.rows) {
				p.rows[to].row.Focus()
			}
		}
		p.rows = append(p.rows, x)
		p.box.Add(x.row)
	}
	p.box.Refresh()
	p.scroll.Refresh()
	p.scroll.SetOffset(0)
}

// compare tells of one copy after the other how the notebook stands to it.
func (p *copiesPage) compare(round, i int) {
	if i >= len(p.rows) || !p.root.Visible() && i > 0 {
		return
	}
	x := p.rows[i]
	p.desk.session.CompareCopy(x.copy.Path, func(list []model.Compared, err error) {
		if round != p.round {
			return
		}
		if err != nil {
			x.what.SetText(err.Error())
		} else {
			counts := model.CountStandings(list)
			x.what.SetText(counted(model.Had(counts), "piece", "pieces") + " · " + standingWords(counts))
		}
		p.compare(round, i+1)
	})
}

// choose asks for the folder of second copies.
func (p *copiesPage) choose() {
	w := p.desk.windows.Window(notebookKey)
	ask := dialog.NewFolderOpen(func(to fyne.ListableURI, err error) {
		if err != nil {
			p.desk.say(notice{level: model.Stop, what: "No second place was chosen", do: err.Error()})
		} else if to != nil {
			p.desk.session.SetSecondPlace(to.Path(), p.copied)
			p.show()
		}
	}, w)
	ask.Resize(w.Canvas().Size().SubtractWidthHeight(80, 80))
	ask.Show()
}

// copied tells what came of a second copy.
func (p *copiesPage) copied(err error) {
	if err != nil {
		p.desk.say(notice{level: model.Check, what: "No second copy was made", do: err.Error()})
	} else {
		p.desk.sayBriefly("A second copy is made", "It lies with your photos in "+p.desk.session.SecondPlace()+".")
	}
	p.show()
}

// copyMoment is how an instant is written beside copies, which are kept for a year
// and longer.
const copyMoment = "Monday 2 January 2006, 15:04"

// copyDate tells when a copy was made.
func copyDate(c model.Copy) string { return local(c.At).Format(copyMoment) }

// copyDay is the day of a copy within a sentence.
func copyDay(c model.Copy) string { return local(c.At).Format("Monday 2 January 2006") }

// copyKind tells why a copy was made, and how large it is.
func copyKind(c model.Copy) string {
	why := map[model.CopyKind]string{
		model.CopyDaily: "copy of the day", model.CopyAside: "set aside when another copy was restored",
		model.CopyUpdate: "before the program was renewed", model.CopyOther: "put there by hand",
	}[c.Kind]
	if c.Away {
		why += ", in the second place"
	}
	return why + " · " + humanize.Bytes(uint64(max(c.Bytes, 0)))
}

// standingWords tells what restoring a copy would change: how its pieces stand,
// each counted once, and then those that it does not have.
func standingWords(counts map[model.Standing]int) string {
	var parts []string
	for _, x := range []struct {
		standing model.Standing
		words    string
	}{
		{model.NewerNow, "worked on since"}, {model.NewerThen, "newer in the copy"}, {model.OnlyThen, "only in the copy"},
	} {
		if n := counts[x.standing]; n > 0 {
			parts = append(parts, counted(n, x.words, x.words))
		}
	}
	same, others := counts[model.Same], counts[model.OnlyNow]
	words := "the same as now"
	if len(parts) > 0 {
		if same > 0 {
			parts = append(parts, counted(same, words, words))
		}
		words = strings.Join(parts, ", ")
	}
	switch {
	case others == 0:
		return words
	case model.Had(counts) == 0:
		return counted(others, "piece is", "pieces are") + " not in the copy"
	}
	return words + "; " + counted(others, "more is", "more are") + " not in the copy"
}
