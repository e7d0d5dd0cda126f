package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// The tabs.
const (
	finishTrim    = "trim"
	finishFlatten = "flatten"
	finishSand    = "sand"
	finishDrill   = "drill"
	finishCoat    = "coat"
	finishUse     = "use"
)

// finishTab is one part of the work after the casting.
type finishTab struct {
	id, label string
	figure    func(*finishPart, *app.Snapshot) string                // what it comes to
	working   func(*finishPart, *app.Snapshot) (model.Working, bool) // how that came about
	key       func(*finishPart, *app.Snapshot) string                // what its inputs hang on
	cards     func(*finishPart, *app.Snapshot) []fyne.CanvasObject
}

// finishTabs are the tabs in the order of the work.
func finishTabs() []finishTab {
	return []finishTab{
		{finishTrim, "Trim", trimFigure, trimWorking, trimKey, trimCards},
		{finishFlatten, "Flatten", flattenFigure, flattenWorking, flattenKey, flattenCards},
		{finishSand, "Sand", sandFigure, sandWorking, sandKey, sandCards},
		{finishDrill, "Drill", drillFigure, drillWorking, drillKey, drillCards},
		{finishCoat, "Coat", coatFigure, coatWorking, coatKey, coatCards},
		{finishUse, "Use", useFigure, useWorking, useKey, useCards},
	}
}

// finishPart is what one tab shows: what it comes to in large type, what follows
// from that, and the inputs.
type finishPart struct {
	page  *finishPage
	tab   finishTab
	pane  *pane
	tools *cards
}

func newFinishPart(p *finishPage, tab finishTab) *finishPart {
	return &finishPart{page: p, tab: tab, pane: newPane(p.in), tools: newCards(p.in)}
}

// see shows a snapshot.
func (t *finishPart) see(shot *app.Snapshot) {
	if !shot.Open {
		t.pane.show("none", func() fyne.CanvasObject {
			return touch.NewText(openFirst, touch.Body, touch.Faint)
		})
		return
	}
	_, opens := t.tab.working(t, shot)
	t.pane.show(fmt.Sprint(shot.Project.ID, shot.Project.Style, opens, t.tab.key(t, shot)), func() fyne.CanvasObject {
		t.tools.clear()
		all := moldColumn(container.New(layout.NewCustomPaddedLayout(4, 0, 2, 2), t.lead(opens)))
		for _, card := range t.tab.cards(t, shot) {
			all.Add(card)
		}
		return all
	})
	t.tools.see(shot)
}

// lead is what the tab comes to; where it has a working, that opens.
func (t *finishPart) lead(opens bool) fyne.CanvasObject {
	if !opens {
		plain := touch.NewText("", touch.Question, touch.Ink)
		t.tools.follow(func(shot *app.Snapshot) { plain.SetText(t.tab.figure(t, shot)) })
		return plain
	}
	figure := t.page.working.opens("", touch.Question, func(shot *app.Snapshot) (model.Working, bool) { return t.tab.working(t, shot) })
	t.tools.follow(func(shot *app.Snapshot) { figure.SetText(t.tab.figure(t, shot)) })
	return figure
}

// follows is a part without inputs that is built anew when its key changes; the
// inputs beside it stay as they are, so that nobody who types in them is upset.
// Where build gives nil it takes no room.
func (t *finishPart) follows(key func(*app.Snapshot) string, build func(*app.Snapshot) fyne.CanvasObject) *fyne.Container {
	box := container.NewStack()
	built, begun := "", false
	t.tools.follow(func(shot *app.Snapshot) {
		now := key(shot)
		if begun && now == built {
			return
		}
		built, begun = now, true
		touch.KeepFocus(box, func() {
			box.RemoveAll()
			o := build(shot)
			if box.Hidden = o == nil; o != nil {
				box.Add(o)
			}
			box.Refresh()
		})
	})
	return box
}

// facts shows results in a card.
func (t *finishPart) facts(title string, of func(*app.Snapshot) []moldFact) fyne.CanvasObject {
	return touch.NewCard(title, t.tools.facts(of))
}

// choice is a list to choose one of the words of a field from.
func (t *finishPart) choice(path, label, open string, words ...string) fyne.CanvasObject {
	return t.tools.mark(path, t.page.in.usualList(path, label, open, wordOptions(words)))
}

// wordOptions offers words as they are.
func wordOptions(words []string) []touch.Option {
	var list []touch.Option
	for _, w := range words {
		list = append(list, touch.Option{ID: w, Label: capitalised(w)})
	}
	return list
}

// openCount is an input for a whole number of which 0 means that it is not given.
func (t *finishPart) openCount(path, label, help string) fyne.CanvasObject {
	f := t.page.in.count(path, label, help)
	mark := newTypicalMark()
	t.page.in.also(path, func(shot *app.Snapshot) {
		u, known := shot.Usual(path)
		text, _ := shot.Show(path)
		open := text == "" || text == "0"
		if open && f.Text() == "0" {
			f.SetText("")
		}
		f.SetPlaceholder("")
		if open && known {
			f.SetPlaceholder(u.Value)
		}
		mark.set(u, open && known)
	})
	return container.New(layout.NewCustomPaddedVBoxLayout(3), f, mark.root)
}
