package views

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// atOnce is how many projects the list shows before it is asked for more.
const atOnce = 40

// projectList is the left side of the notebook: the projects, last touched
// first, and how to find one, start one or bring one in.
type projectList struct {
	desk     *Desk
	search   *touch.Search
	clear    *touch.Button
	archived *touch.Toggle
	rows     map[string]*projectRow
	order    []string // the projects shown
	most     int      // how many are shown at most
	box      *fyne.Container
	more     *touch.Button
	demos    *touch.Select
	copies   *touch.Button
	none     *touch.Text
	scroll   *touch.Scroll
	root     fyne.CanvasObject
	shot     app.Snapshot
	hits     hits
}

// hits are the projects found, and what they were found by: most snapshots
// bring the same list and look for the same.
type hits struct {
	cards    []model.Card
	words    string
	archived bool
	open     string
	list     []*model.Card
}

func newProjectList(d *Desk) *projectList {
	l := &projectList{desk: d, rows: map[string]*projectRow{}, most: atOnce, box: container.New(layout.NewCustomPaddedVBoxLayout(8))}
	l.search = touch.NewSearch("Search name or state", func(string) { l.most = atOnce; l.fill(); l.scroll.SetOffset(0) })
	l.search.OnMove = func(dir int) { l.walk(-1, dir) }
	l.search.OnEnter = func() {
		if len(l.order) > 0 {
			l.open(l.order[0])
		}
	}
	l.clear = touch.NewStyledButton("Show all again", touch.Quiet, func() { l.search.SetText("") })
	l.archived = touch.NewToggle("Archived", false, func(bool) { l.fill() })
	l.more = touch.NewStyledButton("", touch.Quiet, func() { l.most += atOnce; l.fill() })
	l.none = touch.NewText("", touch.Body, touch.Faint)
	l.scroll = touch.NewScroll(l.box)

	l.demos = newDemoChooser(d)
	top := container.NewBorder(nil, nil, nil, l.archived, l.search)
	fresh := touch.NewStyledButton("New piece", touch.Primary, d.newProject)
	bring := touch.NewButton("Import…", d.importFile)
	l.copies = touch.NewStyledButton("Copies of the notebook", touch.Quiet, d.showCopies)
	foot := container.NewGridWithColumns(2, fresh, bring)
	inside := asRead(top, l.scroll, foot)
	l.root = container.New(layout.NewCustomPaddedLayout(4, 8, 14, 10), inside)
	return l
}

// newDemoChooser offers the demo jobs.
func newDemoChooser(d *Desk) *touch.Select {
	var options []touch.Option
	for _, demo := range d.demos {
		options = append(options, touch.Option{ID: demo.Name, Label: demo.Name})
	}
	var s *touch.Select
	s = touch.NewSelect("Bring in a demo job", options, func(name string) {
		s.SetSelected("")
		for _, demo := range d.demos {
			if demo.Name == name {
				d.takeIn(demo.File, demo.Name)
			}
		}
	})
	return s
}

// see shows a snapshot. When another project is opened that is not among those
// looked for, all are shown again.
func (l *projectList) see(shot app.Snapshot) {
	other := shot.Open && shot.Project.ID != l.shot.Project.ID
	l.shot = shot
	l.fill()
	if other && l.search.Text() != "" && !slices.Contains(l.order, shot.Project.ID) {
		l.search.SetText("")
	}
}

// fill shows the projects that are looked for.
func (l *projectList) fill() {
	if l.search.Text() == "" {
		l.clear.Hide()
	} else {
		l.clear.Show()
	}
	found := l.again()
	shown := found[:min(len(found), l.most)]
	now := l.desk.session.Now()
	open := ""
	if l.shot.Open {
		open = l.shot.Project.ID
	}
	order := make([]string, len(shown))
	for i, c := range shown {
		order[i] = c.ID
		row := l.rows[c.ID]
		if row == nil {
			row = newProjectRow(l.desk, func() { l.open(c.ID) })
			row.row.OnMove = func(dir int) { l.walk(slices.Index(l.order, c.ID), dir) }
			l.rows[c.ID] = row
		}
		row.see(*c, l.clockOf(c.ID), open, now)
	}
	l.say(len(found), len(shown))
	if slices.Equal(order, l.order) && len(l.box.Objects) > 0 {
		return
	}
	l.order = order
	l.arrange()
}

// arrange puts the rows in their order, and forgets those that went.
func (l *projectList) arrange() {
	l.box.Objects = []fyne.CanvasObject{l.clear}
	kept := make(map[string]*projectRow, len(l.order))
	for _, id := range l.order {
		kept[id] = l.rows[id]
		l.box.Objects = append(l.box.Objects, l.rows[id].row)
	}
	l.rows = kept
	l.box.Objects = append(l.box.Objects, l.more, l.none, l.demos, l.copies)
	l.box.Refresh()
	l.scroll.Refresh()
}

// say tells how many more there are, or why there are none.
func (l *projectList) say(found, shown int) {
	l.more.SetLabel("Show more (" + counted(found-shown, "piece", "pieces") + ")")
	if found > shown {
		l.more.Show()
	} else {
		l.more.Hide()
	}
	switch {
	case found > 0:
		l.none.SetText("")
	case len(l.shot.Cards) == 0:
		l.none.SetText("The notebook is empty.")
	case l.search.Text() != "":
		l.none.SetText("No piece has “" + brief(l.search.Text(), 30) + "” in its name or state.")
	default:
		l.none.SetText("All pieces are archived.")
	}
}

// again gives what found lists, without looking once more where nothing changed.
func (l *projectList) again() []*model.Card {
	now := hits{cards: l.shot.Cards, words: l.search.Text(), archived: l.archived.On()}
	if l.shot.Open {
		now.open = l.shot.Project.ID
	}
	was := &l.hits
	same := len(was.cards) > 0 && len(was.cards) == len(now.cards) && &was.cards[0] == &now.cards[0] && // a changed list is another one
		was.words == now.words && was.archived == now.archived && was.open == now.open
	if !same {
		now.list = l.found()
		l.hits = now
	}
	return l.hits.list
}

// found lists the projects that have every word looked for. The open one is
// shown though it is archived, for it is what the window is about.
func (l *projectList) found() []*model.Card {
	words := strings.Fields(strings.ToLower(l.search.Text()))
	var list []*model.Card
	for i := range l.shot.Cards {
		c := &l.shot.Cards[i]
		open := l.shot.Open && c.ID == l.shot.Project.ID
		if c.Archived && !l.archived.On() && !open {
			continue
		}
		if len(words) == 0 {
			list = append(list, c)
			continue
		}
		text := strings.ToLower(c.Name + " " + c.State)
		if c.Demo {
			text += " demo invented"
		}
		if c.Archived {
			text += " archived"
		}
		if !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(text, w) }) {
			list = append(list, c)
		}
	}
	return list
}

// walk gives the focus to the row above or below; from the search line, which
// is before the first, down goes to the first.
func (l *projectList) walk(from, dir int) {
	switch to := from + dir; {
	case to < 0:
		l.search.Focus()
	case to < len(l.order):
		l.rows[l.order[to]].row.Focus()
	}
}

// open opens a project, unless it is open already.
func (l *projectList) open(id string) {
	l.desk.commitAll()
	if l.shot.Open && l.shot.Project.ID == id {
		return
	}
	l.desk.session.Open(id)
}

// tick brings what is told of the time up to date.
func (l *projectList) tick(now time.Time) {
	for id, row := range l.rows {
		row.clock = l.clockOf(id)
		row.tick(now)
	}
}

// clockOf gives the clock of a piece; nil when it has none.
func (l *projectList) clockOf(id string) *app.PieceClock {
	if c, ok := l.shot.Clock(id); ok {
		return &c
	}
	return nil
}
