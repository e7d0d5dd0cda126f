package views

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// stop is one thing that a window can show.
type stop struct {
	name, key string
	turn      func()
}

var everyWindow = []string{notebookKey, moldKey, layersKey, mixingKey, cureKey, finishKey, shelfKey, helpKey}

// stops lists every window with each of its parts.
func stops(b *bench) (list []stop) {
	for _, key := range everyWindow {
		b.desk.Show(key)
	}
	b.settle()
	add := func(key, part string, turn func()) {
		list = append(list, stop{strings.TrimSpace(key + " " + part), key, turn})
	}
	pages := b.desk.pages
	n := pages[notebookKey].(*notebookPage)
	for _, root := range []fyne.CanvasObject{n.piece.root, n.units.root, n.history.root, n.papers.root} {
		add(notebookKey, fmt.Sprint("page ", len(list)), func() { n.turnTo(root) })
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
	for _, key := range []string{mixingKey, cureKey, finishKey} {
		var tabs *pageTabs
		switch p := pages[key].(type) {
		case *mixingPage:
			tabs = p.tabs.pageTabs
		case *curePage:
			tabs = p.tabs
		case *finishPage:
			tabs = p.tabs
		}
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

// TestEverywhereAtTheStart goes the way of TestEverywhere through a notebook with one
// new piece in it, of which nothing is known, and with nothing on the shelf.
func TestEverywhereAtTheStart(t *testing.T) {
	onlyDrawn(t)
	b := newBench(t, newFakeStore())
	b.Create("")
	b.until("it is open", func() bool { return b.Snapshot().Open })
	all := stops(b)
	for _, size := range screens {
		b.walk(t, "at the start ", all, size)
	}
}

// walk goes through parts of the windows at a size.
func (b *bench) walk(t *testing.T, when string, all []stop, size fyne.Size) {
	t.Helper()
	b.resize(size)
	for _, s := range all {
		s.turn()
		b.settle()
		where := fmt.Sprintf("%s %son %.0f × %.0f", s.name, when, size.Width, size.Height)
		b.checkSpots(t, where, b.spots(s.key, size))
		if n := len(texts(b.desk.covers[s.key].root)); n < 5 {
			t.Errorf("%s: only %d words are to be seen", where, n)
		}
		least := b.desk.pages[s.key].content().MinSize()
		if scrolls := when != "" || size.Height < 600; least.Width > size.Width || least.Height > size.Height && !scrolls {
			t.Errorf("%s needs %.0f × %.0f", where, least.Width, least.Height)
		}
	}
}

// TestEverywhere walks every part of every window with the longest texts and the
// largest numbers on each screen, before the first pour and after it, and the parts
// with the most in them with all findings unfolded and the keys for numbers up.
func TestEverywhere(t *testing.T) {
	onlyDrawn(t)
	b := longest(t)
	all := stops(b)
	for _, size := range screens {
		b.walk(t, "", all, size)
	}
	unfold := func(open bool) {
		for _, key := range everyWindow {
			f := frameOf(b.desk.pages[key])
			f.findings.open = open
			f.findings.see(f.findings.list, f.findings.notes)
			if f.in != nil && f.in.pad != nil {
				f.in.pad.SetFolded(!open)
			}
		}
	}
	unfold(true)
	b.walk(t, "with all unfolded ", all, screens[0])
	unfold(false)
	shot := b.Snapshot()
	layer := shot.Plan.Layers[0].ID
	for _, err := range []error{
		b.AddWeighed(layer, model.EntryWeighedA, "9999 g", false), b.AddNote(longNote), b.StartPour(layer), b.AddReading(layer, "104 °F", "140 °F", time.Time{}),
	} {
		if err != nil {
			t.Fatal(err)
		}
		b.clock.advance(time.Minute)
	}
	b.settle()
	b.until("the simulation is in", func() bool { return b.Snapshot().CuringFresh })
	b.walk(t, "while it cures ", all, screens[2])
}

// spots lists what a window of a size shows, once it has come to rest.
func (b *bench) spots(key string, size fyne.Size) []*spot {
	root := b.desk.covers[key].root
	for range 3 {
		layOut(root)
	}
	return spotsOf(root, size)
}

// frameOf gives the frame of a window.
func frameOf(p page) *frame {
	switch p := p.(type) {
	case *notebookPage:
		return p.frame
	case *moldPage:
		return p.frame
	case *layersPage:
		return p.frame
	case *mixingPage:
		return p.frame
	case *curePage:
		return p.frame
	case *finishPage:
		return p.frame
	case *shelfPage:
		return p.frame
	}
	return p.(*helpPage).frame
}

// checkFits checks that nothing is cut off and that nothing lies on anything else.
func checkFits(t *testing.T, where string, spots []*spot) {
	t.Helper()
	var things []*spot
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
		things, areas = append(things, s), append(areas, a)
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
