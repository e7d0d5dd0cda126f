package views

import (
	"fmt"
	"maps"
	"reflect"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// panelOf gives the place of a window where a figure's working is opened; nil where
// it has none.
func panelOf(p page) *workingPanel {
	switch p := p.(type) {
	case *moldPage:
		return p.working
	case *layersPage:
		return p.opened
	case *mixingPage:
		return p.working
	case *curePage:
		return p.working
	case *finishPage:
		return p.working
	case *notebookPage:
		return p.how
	case *shelfPage:
		return p.opened
	}
	return nil
}

// TestEverythingThatOpens goes the way of TestEverywhere with what opens from a part
// of a window: how each figure came about, and the list of every choice, each once.
func TestEverythingThatOpens(t *testing.T) {
	onlyDrawn(t)
	b := longest(t)
	all := stops(b)
	panels, lists := 0, 0
	for _, key := range everyWindow {
		// The toolkit's driver for tests knows where things stand in the newest window only.
		w := test.NewTempWindow(t, b.desk.covers[key].root)
		w.SetPadded(false)
		for _, size := range []fyne.Size{screens[0], screens[2]} {
			w.Resize(size)
			p, l := b.openAll(t, key, w.Canvas(), all)
			panels, lists = panels+p, lists+l
		}
	}
	if panels < 60 || lists < 100 {
		t.Errorf("only %d figures and %d lists opened", panels, lists)
	}
}

// openAll opens what can be opened in a window, and tells of how many figures and
// lists there are.
func (b *bench) openAll(t *testing.T, key string, c fyne.Canvas, all []stop) (figures, choices int) {
	t.Helper()
	size := c.Size()
	panels, lists := map[string]bool{}, map[*touch.Select]bool{}
	panel := panelOf(b.desk.pages[key])
	for _, s := range all {
		if s.key != key {
			continue
		}
		s.turn()
		b.settle()
		where := fmt.Sprintf("%s on %.0f × %.0f", s.name, size.Width, size.Height)
		for _, x := range b.spots(key, size) {
			switch o := x.o.(type) {
			case *touch.Opens:
				o.Tapped(nil)
				if panel == nil || !panel.root.Visible() {
					t.Errorf("%s: %v opens nothing", where, x)
					continue
				}
				if !panels[panel.built] {
					panels[panel.built] = true
					b.checkSpots(t, where+", "+o.Text(), b.spots(key, size))
				}
				panel.hide()
				b.spots(key, size)
			case *touch.Select:
				if !lists[o] && !o.Disabled() {
					lists[o] = true
					o.OnTapped()
					b.checkList(t, where+", the list of "+o.Label, c)
				}
			}
		}
	}
	return len(panels), len(lists)
}

// resize gives every window a size.
func (b *bench) resize(size fyne.Size) {
	for _, key := range everyWindow {
		b.desk.windows.Window(key).Resize(size)
	}
}

// checkSpots checks what is to be seen for fit and fingers.
func (b *bench) checkSpots(t *testing.T, where string, spots []*spot) {
	t.Helper()
	checkFits(t, where, spots)
	checkTargets(t, where, spots)
}

// checkList checks the list that lies over a window, and takes it away.
func (b *bench) checkList(t *testing.T, where string, c fyne.Canvas) {
	t.Helper()
	size, over := c.Size(), c.Overlays()
	list := over.Top()
	if list == nil {
		t.Errorf("%s does not open", where)
		return
	}
	defer over.Remove(list)
	for range 3 {
		layOut(list)
	}
	spots := spotsOf(list, size)
	b.checkSpots(t, where, spots)
	for _, s := range spots {
		if _, ok := s.o.(*container.Scroll); ok && s.area.beyond(area{0, 0, size.Width, size.Height}) > 0 {
			t.Errorf("%s: %v reaches past the window", where, s)
		}
		if text, ok := s.o.(*canvas.Text); ok && strings.HasSuffix(text.Text, "…") && !strings.HasSuffix(s.label(), "…") {
			t.Errorf("%s: %q is cut short", where, text.Text)
		}
	}
}

// TestEverythingThatComesUp goes through what lies over the windows for a while, with
// the longest words: a notice, an alarm of several pieces, the line about a full disk,
// and a look into a copy with the pages that lead there.
func TestEverythingThatComesUp(t *testing.T) {
	onlyDrawn(t)
	v := &vault{fakeStore: newFakeStore(), then: map[string]*fakeStore{}}
	for i, kind := range []model.CopyKind{model.CopyDaily, model.CopyAside, model.CopyUpdate, model.CopyOther} {
		v.list = append(v.list, model.Copy{Path: string(kind), Kind: kind, At: time.Date(2026, 9, 23, 9, i, 0, 0, time.UTC), Bytes: 143_000_000_000, Away: i == 0})
	}
	b := longestOn(newBenchOn(t, v.fakeStore, v))
	v.mu.Lock()
	copied := newFakeStore()
	copied.cards, copied.current = append(copied.cards, v.cards...), maps.Clone(v.current)
	copied.states, copied.revs = maps.Clone(v.states), maps.Clone(v.revs)
	copied.cards[0].Touched = copied.cards[0].Touched.Add(-time.Hour)
	only := copied.cards[1]
	only.ID = "only there"
	copied.cards[1] = only
	v.then[string(model.CopyDaily)] = copied
	v.mu.Unlock()
	all := stops(b)
	due := b.clock.Now()
	var ringing []model.Alarm
	for i, label := range []string{"scrape the walls of the cup and the bottom, then on into a clean cup", "working time of " + longName + " ends", "the first pieces can come out of their mold", "recoat window of " + longName + " closes"} {
		ringing = append(ringing, model.Alarm{Key: label, Piece: longName, Project: fmt.Sprint(i), Step: model.Step{Kind: model.StepRecoatEnd, Label: label, Due: due.Add(-time.Minute)}})
	}
	n := b.notebook()
	for _, size := range []fyne.Size{screens[0], screens[2]} {
		b.resize(size)
		fronts := func(what string, look func(where, key string)) {
			seen := map[string]bool{}
			for _, s := range all {
				if !seen[s.key] {
					seen[s.key] = true
					s.turn()
					b.settle()
					look(fmt.Sprintf("%s, %s, on %.0f × %.0f", s.name, what, size.Width, size.Height), s.key)
				}
			}
		}
		shot := b.Snapshot()
		b.desk.say(missedNotice(span{from: due.Add(-30 * time.Hour), to: due}, ringing, &shot))
		fronts("a notice", func(where, key string) {
			var over []*spot
			for _, s := range b.spots(key, size) {
				if s.under(frameOf(b.desk.pages[key]).banner.over) {
					over = append(over, s)
				}
			}
			b.checkSpots(t, where, over)
			if len(over) == 0 {
				t.Errorf("%s: nothing is told", where)
			}
		})
		b.desk.hush()
		for i := range ringing {
			b.desk.alarms.ringing = ringing[i:]
			b.desk.ring()
			c := b.desk.covers[cureKey]
			layOut(c.root)
			b.checkSpots(t, fmt.Sprintf("an alarm on %.0f × %.0f", size.Width, size.Height), spotsOf(c.flash, size))
			b.desk.alarms.ringing = nil
			b.desk.ring()
		}

		for _, root := range []fyne.CanvasObject{n.copies.root, n.copy.root} {
			where := fmt.Sprintf("the copies on %.0f × %.0f", size.Width, size.Height)
			if b.desk.showCopies(); root == n.copy.root {
				where = fmt.Sprintf("a copy on %.0f × %.0f", size.Width, size.Height)
				n.copies.rows[0].row.Tapped(nil)
			}
			b.settle()
			if !root.Visible() || root == n.copy.root && len(n.copy.rows) < 3 {
				t.Fatalf("%s: %q", where, texts(n.content()))
			}
			b.checkSpots(t, where, b.spots(notebookKey, size))
		}
		v.mu.Lock()
		v.full = true
		v.mu.Unlock()
		b.Enter("mold/tolerance", unit.Style{}.Length(unit.Length(size.Width)/1e6))
		b.until("the trouble is known", func() bool { return b.Snapshot().Saved.What != "" })
		b.desk.redraw()
		for _, key := range everyWindow {
			b.checkSpots(t, fmt.Sprintf("%s with a full disk on %.0f × %.0f", key, size.Width, size.Height), b.spots(key, size))
		}
		v.mu.Lock()
		v.full = false
		v.mu.Unlock()
		b.Retry()
		b.until("it is kept", func() bool { return b.Snapshot().Saved.What == "" })
		b.settle()
	}
}

// under tells whether a spot stands in something.
func (s *spot) under(o fyne.CanvasObject) bool {
	for ; s != nil; s = s.parent {
		if s.o == o {
			return true
		}
	}
	return false
}

// label is that of the button that a spot stands in.
func (s *spot) label() string {
	for ; s != nil; s = s.parent {
		if label := reflect.Indirect(reflect.ValueOf(s.o)).FieldByName("Label"); label.IsValid() {
			return label.String()
		}
	}
	return ""
}

// TestTraceFits goes through a photo of a slab from what to photograph to the outline
// that is pushed, in a window of each size.
func TestTraceFits(t *testing.T) {
	onlyDrawn(t)
	for _, size := range screens {
		b, p := moldOn(t, "")
		w := b.desk.windows.Window(moldKey)
		w.Resize(size)
		check := func(what string) {
			t.Helper()
			b.settle()
			where := fmt.Sprintf("%s on %.0f × %.0f", what, size.Width, size.Height)
			b.checkSpots(t, where, b.spots(moldKey, size))
			if least := p.content().MinSize(); least.Width > size.Width {
				t.Errorf("%s needs %.0f in width", where, least.Width)
			}
		}
		shown := func(o fyne.CanvasObject, what string) {
			t.Helper()
			if !o.Visible() {
				t.Errorf("%v: %q is not there", size, what)
			}
		}
		p.pane.show(moldSlabs)
		check("what to photograph")
		b.end()

		b, p, v := traceOn(t)
		w = b.desk.windows.Window(moldKey)
		w.Resize(size)
		if err := b.Session.Edit("Inches", "", func(p *model.Project) error {
			p.Style.Lengths = unit.InInches
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		check("the first corner")
		b.Enter("slabs/"+b.Snapshot().Project.Slabs[0].ID+"/upper/by", string(model.ByCard))
		check("a card's first corner")
		b.spots(moldKey, size)
		b.corners(v)
		check("a card without its sides")
		shown(v.give, "Give the sides")
		b.Enter("slabs/"+b.Snapshot().Project.Slabs[0].ID+"/upper/by", string(model.ByCorners))
		check("four corners")
		v.turn(traceFind)
		check("nothing found yet")
		b.tapAt(v, 350, 400)
		b.until("the outline is found", func() bool { return len(b.face().Rings) > 0 })
		check("found")
		shown(v.reach, "Reach")
		b.around(v, model.RingHole)
		v.turn(tracePoints)
		check("a hole's points")
		b.tapAt(v, 950, 750)
		b.tapAt(v, 980, 750)
		b.tapAt(v, 980, 780)
		check("an outline that is open")
		shown(v.close, "Close the outline")
		v.key(fyne.KeyEscape)
		v.turn(tracePush)
		check("pushing")
		v.said("“" + longName + ".heic” was not kept: " + longNote)
		check("a picture that was not taken")
		p.focus("slabs/" + b.Snapshot().Project.Slabs[0].ID + "/under")
		check("the under face")
		b.end()

		b, p, _ = layOn(t, 200)
		w = b.desk.windows.Window(moldKey)
		w.Resize(size)
		check("a slab to be laid")
		b.end()
	}
}
