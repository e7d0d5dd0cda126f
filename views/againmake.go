package views

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// Where the mold of a piece that is made again comes from; one of the shelf is
// named by its ID behind onShelf.
const (
	castOwn   = "own"
	castSizes = "sizes"
	castPiece = "piece"
	onShelf   = "shelf/"
)

// againMake is the part in which a piece is made again: the choices, and beside
// them what would change by them. Nothing is kept until it is taken.
type againMake struct {
	page *againPage
	base model.Project // the recipe of the open piece
	next model.Project // the same with what the maker enters: its mold, shop and finish are taken
	of   string        // the piece and its state that base is of, and what the shelf offers
	set  bool          // the maker has chosen something
	bad  map[string]bool
	show []func() // shows each field

	name   string
	mold   string // where the mold comes from
	season bool
	usual  bool
	lots   bool
	levels model.LevelRule
	wood   model.WoodRule
	resins []*againResin
	finish *touch.Field  // nil while nothing is built
	pick   *touch.Select // of the mold
	finder *pieceFinder  // of the piece whose mold is taken
	got    *app.Reissued
	round  int

	box    *fyne.Container
	scroll *touch.Scroll
	sheet  *changesSheet
	take   *touch.Button
	root   fyne.CanvasObject
}

func newAgainMake(page *againPage) *againMake {
	m := &againMake{page: page, box: container.New(layout.NewCustomPaddedVBoxLayout(10)), sheet: newChangesSheet()}
	m.scroll = touch.NewScroll(container.New(layout.NewCustomPaddedLayout(8, 8, 14, 8), m.box))
	m.take = touch.NewStyledButton("Make it", touch.Primary, m.make)
	m.root = againSides(m.scroll, m.sheet.scroll)
	return m
}

func (m *againMake) content() fyne.CanvasObject { return m.root }

func (m *againMake) act() *touch.Button { return m.take }

// see follows the open piece. One that was chosen anew begins with itself.
func (m *againMake) see(shot *app.Snapshot, fresh bool) {
	of := fmt.Sprint(shot.Project.ID, " ", shot.Planned, " ", len(shot.Shelf.Molds), " ", len(shot.Shelf.Products))
	if of != m.of {
		m.page.commit() // what is half typed is a choice as well
	}
	switch other := shot.Project.ID != m.base.ID; {
	case other || of != m.of && !m.set:
		m.begin(shot, other)
	case of != m.of:
		m.base = shot.Project.Recipe()
	case !fresh:
		return
	}
	m.of = of
	m.ask()
}

// begin makes the choices for the open piece, all of them as it was.
func (m *againMake) begin(shot *app.Snapshot, other bool) {
	m.base = shot.Project.Recipe()
	m.next = m.base.Clone()
	m.set, m.bad, m.show = false, map[string]bool{}, nil
	m.name, m.mold, m.season, m.usual, m.levels, m.wood = "", castOwn, false, false, model.KeepLevels, model.KeepWood
	m.lots = shot.Project.Learns()
	m.build(shot)
	if other {
		m.scroll.SetOffset(0)
		m.sheet.scroll.SetOffset(0)
	}
}

// how is what the maker has chosen.
func (m *againMake) how() model.Reissue {
	how := model.Reissue{Name: m.name, Levels: m.levels, Wood: m.wood, Usual: m.usual, Shelf: m.onShelf()}
	if m.mold != castOwn {
		how.Mold = &m.next.Mold
	}
	if m.season {
		s := &m.next.Shop
		how.Season = &model.Season{Room: s.Room, Night: s.Night, Resin: s.Resin, Bottles: s.Bottles, Wood: s.Wood, Humidity: s.Humidity}
	}
	if m.levels == model.ToFinished {
		how.Finished = m.next.Finish.Thickness
	}
	for _, r := range m.resins {
		if x, other := r.supply(); other {
			how.Supplies = append(how.Supplies, x)
		}
	}
	return how
}

// onShelf is the mold of the shelf that is chosen; nil where it is none.
func (m *againMake) onShelf() *model.ShelfMold {
	molds := m.page.desk.session.Snapshot().Shelf.Molds
	if i := slices.IndexFunc(molds, func(x model.ShelfMold) bool { return onShelf+x.ID == m.mold }); i >= 0 {
		return &molds[i]
	}
	return nil
}

// lacks says what is still to be entered; empty where nothing is.
func (m *againMake) lacks() string {
	for path := range m.bad {
		mold := strings.HasPrefix(path, "mold/") && m.mold == castSizes
		room := strings.HasPrefix(path, "shop/") && m.season
		thick := strings.HasPrefix(path, "finish/") && m.levels == model.ToFinished
		if mold || room || thick {
			return "One of the fields at the left is not readable yet: it says there what would be right."
		}
	}
	if m.mold == castPiece && m.finder.chosen() == "" {
		return "Choose the piece whose mold it is to be cast in."
	}
	if m.levels == model.ToFinished && !m.next.Finish.Thickness.Given() {
		return "Say at the left how thick the finished piece is to be."
	}
	return ""
}

// changed takes a choice of the maker's.
func (m *againMake) changed() {
	m.set = true
	m.ask()
}

// ask works out what would come of the choices.
func (m *againMake) ask() {
	m.got = nil
	m.take.Disable()
	m.round++
	m.finish.SetProblem("")
	if lacks := m.lacks(); lacks != "" {
		m.sheet.say(lacks, touch.CheckTone)
		return
	}
	round := m.round
	m.sheet.wait()
	m.page.desk.session.MakeAgain(m.base.ID, m.how(), m.lots, func(r app.Reissued, err error) {
		if round == m.round {
			m.answer(r, err)
		}
	})
}

// answer shows what came of the choices.
func (m *againMake) answer(r app.Reissued, err error) {
	if err != nil {
		var problem *model.Problem
		if errors.As(err, &problem) && problem.Field == "reissue/finished" {
			m.finish.SetProblem(problem.Message)
		}
		m.sheet.say("It cannot be made again like this: "+problemWords(err)+".", touch.StopTone)
		return
	}
	m.got = &r
	m.sheet.show(&r.Page)
	if !m.page.desk.session.Snapshot().Saved.Closed {
		m.take.Enable()
	}
}

// make keeps what is shown, and opens it.
func (m *againMake) make() {
	m.page.commit()
	if m.got == nil {
		return // what was still being typed changes it: it is shown first
	}
	name := nameOf(m.got.Project.Name)
	if err := m.page.desk.session.TakeAgain(*m.got); err != nil {
		m.page.desk.say(notice{level: model.Stop, what: "It was not made", do: err.Error()})
		return
	}
	m.of = ""
	m.page.leave()
	m.page.desk.sayBriefly("“"+brief(name, 60)+"” is in the notebook", "It is made again from "+brief(nameOf(m.base.Name), 60)+", which stays as it is.")
}
