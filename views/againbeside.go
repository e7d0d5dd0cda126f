package views

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// besideShares are the columns of two runs: the figure, the other piece, the
// open one.
var besideShares = againColumns{0.34, 0.33, 0.33}

// againBeside is the part that lists in what the open piece differs from another
// one.
type againBeside struct {
	page    *againPage
	finder  *pieceFinder
	other   string // ID of the other piece; "" for none
	of      string // the piece that it stands beside
	planned int    // the edition of it that is compared
	round   int
	box     *fyne.Container
	scroll  *touch.Scroll
	root    fyne.CanvasObject
}

func newAgainBeside(page *againPage) *againBeside {
	b := &againBeside{page: page, box: container.New(layout.NewCustomPaddedVBoxLayout(12))}
	b.finder = newPieceFinder(page.desk, "Choose another piece", func(id string) {
		b.other = id
		b.ask()
	})
	help := touch.NewText("Only what differs is listed: what was planned, and what happened in the two runs.", touch.Small, touch.Faint)
	side := touch.NewScroll(container.New(layout.NewCustomPaddedLayout(8, 8, 14, 8), container.NewVBox(touch.NewCard("The other piece", stack(b.finder.root, help)))))
	b.scroll = touch.NewScroll(container.New(layout.NewCustomPaddedLayout(8, 8, 8, 14), b.box))
	b.root = againSides(side, b.scroll)
	return b
}

func (b *againBeside) content() fyne.CanvasObject { return b.root }

func (*againBeside) act() *touch.Button { return nil }

// see follows the open piece. One that was made from another begins beside it.
func (b *againBeside) see(shot *app.Snapshot, fresh bool) {
	b.finder.see(shot)
	if b.of == shot.Project.ID && b.planned == shot.Planned && !fresh {
		return
	}
	if b.of != shot.Project.ID {
		b.of, b.other = shot.Project.ID, shot.Project.Made.Project
		if nameOfCard(shot, b.other) == "" {
			b.other = ""
		}
		b.scroll.SetOffset(0)
	}
	b.planned = shot.Planned
	b.finder.pick.SetSelected(b.other)
	b.ask()
}

// nameOfCard is the name of a piece in the notebook; "" where it is not there.
func nameOfCard(shot *app.Snapshot, id string) string {
	for i := range shot.Cards {
		if shot.Cards[i].ID == id {
			return nameOf(shot.Cards[i].Name)
		}
	}
	return ""
}

// ask compares the two.
func (b *againBeside) ask() {
	b.round++
	round := b.round
	say := func(words string, tone touch.Tone) { refill(b.box, b.scroll, touch.NewText(words, touch.Body, tone)) }
	if b.other == "" {
		say("Choose another piece at the left, such as the same one a year before. Then it says here in what the two differ, side by side.", touch.Faint)
		return
	}
	say("Comparing…", touch.Faint)
	b.page.desk.session.CompareWith(b.other, func(list []model.Difference, err error) {
		list = slices.DeleteFunc(list, func(d model.Difference) bool { return d.Path == "name" }) // they stand above
		switch {
		case round != b.round:
		case err != nil:
			say("The other piece could not be read: "+problemWords(err)+".", touch.StopTone)
		case len(list) == 0:
			say("The two do not differ in anything but their names.", touch.GoodTone)
		default:
			b.fill(list)
		}
	})
}

// fill lists the differences in groups; the order of the groups is that in
// which they first come.
func (b *againBeside) fill(found []model.Difference) {
	shot := b.page.desk.session.Snapshot()
	list := []fyne.CanvasObject{againHead(besideShares, "", brief(nameOfCard(&shot, b.other), 40), brief(nameOf(shot.Project.Name), 40))}
	var names []string
	groups := map[string][]fyne.CanvasObject{}
	for _, d := range found {
		if groups[d.Group] == nil {
			names = append(names, d.Group)
			groups[d.Group] = []fyne.CanvasObject{touch.NewText(d.Group, touch.Strong, touch.Ink)}
		}
		groups[d.Group] = append(groups[d.Group], againRow(besideShares, touch.Ink, capitalised(d.Label), orNone(d.A), orNone(d.B)))
	}
	for _, name := range names {
		list = append(list, container.New(layout.NewCustomPaddedVBoxLayout(4), groups[name]...))
	}
	refill(b.box, b.scroll, list...)
}
