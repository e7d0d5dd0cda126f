package views

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"meniscus/views/look"
	"meniscus/views/touch"
)

// stop is one thing that a window can show.
type stop struct {
	name, key string
	turn      func()
}

// stops lists every window with each of its parts.
func stops(b *bench) (list []stop) {
	for _, key := range []string{notebookKey, moldKey, layersKey, mixingKey, cureKey, finishKey, shelfKey, helpKey} {
		b.desk.Show(key)
	}
	b.settle()
	add := func(key, part string, turn func()) {
		list = append(list, stop{strings.TrimSpace(key + " " + part), key, turn})
	}
	pages := b.desk.pages
	n := pages[notebookKey].(*notebookPage)
	for name, root := range map[string]fyne.CanvasObject{"piece": n.piece.root, "units": n.units.root, "history": n.history.root, "papers": n.papers.root} {
		add(notebookKey, name, func() { n.turnTo(root) })
	}
	add(notebookKey, "copies", func() { b.desk.showCopies() })
	for _, part := range []string{againOnce, againRun, againCompare, againShop} {
		add(notebookKey, part, func() { b.desk.showAgain(part) })
	}
	m := pages[moldKey].(*moldPage)
	for _, part := range []string{moldSizes, moldSlabs, moldWood, moldInserts, moldNature, moldFloat, moldTight, moldLevel} {
		add(moldKey, part, func() { m.pane.show(part) })
	}
	l := pages[layersKey].(*layersPage)
	for _, part := range []string{layersPour, layersHeat, layersAmount, layersSheet} {
		add(layersKey, part, func() { l.open(part) })
	}
	for key, tabs := range map[string]*pageTabs{mixingKey: pages[mixingKey].(*mixingPage).tabs.pageTabs, cureKey: pages[cureKey].(*curePage).tabs, finishKey: pages[finishKey].(*finishPage).tabs} {
		for _, tab := range tabs.tabs {
			add(key, tab.option.ID, func() { tabs.turn(tab.option.ID) })
		}
	}
	s := pages[shelfKey].(*shelfPage)
	for _, part := range []string{shelfProducts, shelfMolds, shelfSmall, shelfBuying, shelfPricing} {
		add(shelfKey, part, func() { s.open(part) })
		for i, row := range s.list.rows(part) {
			add(shelfKey, fmt.Sprint(part, " ", i), func() { s.open(part); s.choose(row.path) })
		}
	}
	h := pages[helpKey].(*helpPage)
	for _, part := range helpParts {
		add(helpKey, part, func() { h.turn(part) })
	}
	return list
}

// screens are the sizes of the screens that every window is held to, in units: what
// a title bar of 22 and a menu of 37 leave of 1366 × 768, 1920 × 1080, and
// 1920 × 1080 at twice the size.
var screens = []fyne.Size{{Width: 1366, Height: 709}, {Width: 1920, Height: 1021}, {Width: 960, Height: 492}}

// TestEverywhere walks every part of every window with the longest texts and the
// largest numbers, on each screen and in both lights.
func TestEverywhere(t *testing.T) {
	b := longest(t)
	all := stops(b)
	for _, size := range screens {
		for _, key := range []string{notebookKey, moldKey, layersKey, mixingKey, cureKey, finishKey, shelfKey, helpKey} {
			b.desk.windows.Window(key).Resize(size)
		}
		for _, s := range all {
			s.turn()
			b.settle()
			root := b.desk.covers[s.key].root
			where := fmt.Sprintf("%s on %.0f × %.0f", s.name, size.Width, size.Height)
			for range 3 {
				layOut(root)
			}
			least := b.desk.pages[s.key].content().MinSize()
			if low := size.Height < 600; least.Width > size.Width || least.Height > size.Height && !low {
				t.Errorf("%s needs %.0f × %.0f", where, least.Width, least.Height)
			}
			spots := spotsOf(root, size)
			checkFits(t, where, spots)
			checkTargets(t, where, spots)
		}
	}
}

// checkFits checks that nothing is cut off and that nothing lies on anything else.
func checkFits(t *testing.T, where string, spots []*spot) {
	t.Helper()
	var words, things []*spot
	var areas []area
	for _, s := range spots {
		a, isWords := s.drawn()
		if isWords && !s.within("touch.Brief") {
			if over := a.x1 - a.x0 - s.o.Size().Width; over > 1 {
				t.Errorf("%s: %v is %.0f wider than its room", where, s, over)
			}
		}
		if text, ok := s.o.(*touch.Text); ok && text.Text() != "" {
			if need := text.HeightFor(text.Size().Width); need > text.Size().Height+1 {
				t.Errorf("%s: %v needs %.0f in height", where, s, need)
			}
		}
		if fit, ok := s.o.(*touch.Fit); ok && fit.Cut() {
			t.Errorf("%s: %v is cut", where, s)
		}
		if !isWords && !s.target() && !entry(s.o) {
			continue
		}
		if !isWords {
			a = s.area
		}
		if over := a.beyond(s.clip); over > 1 {
			t.Errorf("%s: %v reaches %.0f past what is shown", where, s, over)
		}
		if strings.HasPrefix(fmt.Sprintf("%T", s.o), "*drawing.") || s.within("*drawing.") {
			continue // lies below what stands over it
		}
		a = a.meet(s.seen)
		for i, other := range things {
			if a.meet(areas[i]).more() > 1.5 && !s.in(other) && !other.in(s) {
				t.Errorf("%s: %v lies on %v", where, s, other)
			}
		}
		words, things, areas = append(words, s), append(things, s), append(areas, a)
	}
	if len(words) < 5 {
		t.Errorf("%s: only %d things are to be seen", where, len(words))
	}
}

// checkTargets checks that a finger meets everything that can be touched.
func checkTargets(t *testing.T, where string, spots []*spot) {
	t.Helper()
	for _, s := range spots {
		if size := s.o.Size(); s.target() && min(size.Width, size.Height) < look.Target {
			t.Errorf("%s: %v is too small for a finger", where, s)
		}
	}
}
