package app

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"meniscus/model"
)

// heat is a simulation that a test steers. What it finds says which state of
// the project it was of.
type heat struct {
	mu     sync.Mutex
	holds  map[string]chan struct{} // work of that name waits for its channel, or to be called off
	deaf   bool                     // it does not look whether it is called off
	breaks map[string]error
	began  []string
	off    []string // called off
}

// state names a state of a project by what the tests change.
func state(p *model.Project) string {
	depth, _ := model.Show(p, "mold/depth")
	return p.Name + " " + depth
}

// do is work of a name.
func (h *heat) do(ctx context.Context, name string) error {
	h.mu.Lock()
	h.began = append(h.began, name)
	hold, broken, deaf := h.holds[name], h.breaks[name], h.deaf
	h.mu.Unlock()
	if hold != nil && deaf {
		<-hold
	} else if hold != nil {
		select {
		case <-hold:
		case <-ctx.Done():
		}
	}
	if ctx.Err() != nil {
		h.mu.Lock()
		h.off = append(h.off, name)
		h.mu.Unlock()
		return ctx.Err()
	}
	return broken
}

// hold makes work of a name wait until it is let go.
func (h *heat) hold(name string) (letGo func()) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.holds == nil {
		h.holds = map[string]chan struct{}{}
	}
	gate := make(chan struct{})
	h.holds[name] = gate
	return func() { close(gate) }
}

// has tells whether work of a name has begun, or was called off.
func (h *heat) has(list *[]string, name string) func() bool {
	return func() bool {
		h.mu.Lock()
		defer h.mu.Unlock()
		return slices.Contains(*list, name)
	}
}

// count tells how often work of that kind has begun.
func (h *heat) count(kind string) int {
	h.mu.Lock()
	defer h.mu.Unlock()
	n := 0
	for _, name := range h.began {
		if strings.HasPrefix(name, kind) {
			n++
		}
	}
	return n
}

func (h *heat) reckoner() Reckoner {
	return Reckoner{
		Simulate: func(ctx context.Context, p *model.Project, pl *model.Plan) (model.Curing, error) {
			return model.Curing{Project: p.ID, Findings: []model.Finding{{What: state(p)}}}, h.do(ctx, "heat of "+state(p))
		},
		Widen: func(ctx context.Context, p *model.Project, pl *model.Plan, do func(int, func(int))) (model.Curing, error) {
			c := model.Curing{Project: p.ID, Findings: []model.Finding{{What: state(p)}}, Banded: true}
			parts := make([]bool, 64)
			do(len(parts), func(i int) { parts[i] = true })
			if slices.Contains(parts, false) {
				return c, errors.New("a part was left out")
			}
			return c, h.do(ctx, "bands of "+state(p))
		},
		Ask: func(ctx context.Context, p *model.Project, pl *model.Plan, layer string, w model.WhatIf) (model.WhatIfAnswer, error) {
			return model.WhatIfAnswer{Depth: w.Depth, Texts: []string{layer + " of " + state(p)}}, h.do(ctx, fmt.Sprintf("what if %.3f of %s", w.Depth, state(p)))
		},
		Propose: func(ctx context.Context, p *model.Project, pl *model.Plan) (model.StageProposal, error) {
			return model.StageProposal{Binds: state(p)}, h.do(ctx, "stages of "+state(p))
		},
		Starts: func(ctx context.Context, p *model.Project, pl *model.Plan, now time.Time) (model.CalendarAnswer, error) {
			return model.CalendarAnswer{None: state(p) + " " + now.Format("15:04")}, h.do(ctx, "starts of "+state(p))
		},
	}
}

// shown is what a snapshot says of the curing: of which state it is, whether
// that is the one on the screen, and whether it has bands.
func shown(shot Snapshot) string {
	said := state(&shot.Project) + ":"
	if len(shot.Curing.Findings) > 0 {
		said += " " + shot.Curing.Findings[0].What
	}
	if shot.CuringFresh {
		said += ", fresh"
	}
	if shot.Curing.Banded {
		said += ", banded"
	}
	return said
}

// watch notes what every snapshot with a new drawing says of the curing.
func (b *bench) watch() *[]string {
	var list []string
	edition := b.Snapshot().Edition
	b.Subscribe(func(shot Snapshot) {
		if shot.Edition != edition {
			edition = shot.Edition
			list = append(list, shown(shot))
		}
	})
	return &list
}

func (b *bench) mustSee(seen *[]string, want ...string) {
	b.t.Helper()
	if !slices.Equal(*seen, want) {
		b.t.Errorf("seen:\n%s\nwant:\n%s", strings.Join(*seen, "\n"), strings.Join(want, "\n"))
	}
	*seen = nil
}

// TestCuringComesBehindThePlan: first the plan with the curing as it was, then
// the best estimate, then its bands, each of them a new drawing.
func TestCuringComesBehindThePlan(t *testing.T) {
	b := started(t)
	seen := b.watch()
	b.enter("mold/depth", "30 mm")
	b.mustSee(seen, "Tray 30 mm: Tray , banded", "Tray 30 mm: Tray 30 mm, fresh", "Tray 30 mm: Tray 30 mm, fresh, banded")
	b.Close()
}

// TestNewestEditWins: an edit calls off the simulation and the bands of the
// state before, and what they would have said is never shown.
func TestNewestEditWins(t *testing.T) {
	for _, kind := range []string{"heat", "bands"} {
		b := started(t)
		b.enter("mold/depth", "30 mm")
		seen := b.watch()
		b.heat.hold(kind + " of Tray 40 mm")
		b.Enter("mold/depth", "40 mm")
		b.until(b.heat.has(&b.heat.began, kind+" of Tray 40 mm"))
		b.Enter("mold/depth", "50 mm")
		b.until(b.heat.has(&b.heat.off, kind+" of Tray 40 mm"))
		b.settle()
		if kind == "heat" {
			b.mustSee(seen, "Tray 40 mm: Tray 30 mm, banded", "Tray 50 mm: Tray 30 mm, banded", "Tray 50 mm: Tray 50 mm, fresh", "Tray 50 mm: Tray 50 mm, fresh, banded")
		} else {
			b.mustSee(seen, "Tray 40 mm: Tray 30 mm, banded", "Tray 40 mm: Tray 40 mm, fresh", "Tray 50 mm: Tray 40 mm", "Tray 50 mm: Tray 50 mm, fresh", "Tray 50 mm: Tray 50 mm, fresh, banded")
		}
		b.Close()
	}
}

// TestWhatNoResinFeels: a price, a name or a note leaves the curing as it is, fresh
// and banded, and calls off none that is under way; what resin feels has it worked
// out anew, also after that.
func TestWhatNoResinFeels(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	begun := len(b.heat.began)
	name := b.text("name")
	b.enter("name", name+", of oak")
	b.enter("costing/rate", "30")
	if err := b.AddNote("a bubble near the knot"); err != nil {
		t.Fatal(err)
	}
	b.settle()
	shot := b.Snapshot()
	if len(b.heat.began) != begun || !shot.CuringFresh || !shot.Curing.Banded {
		t.Errorf("began %q; fresh %t, banded %t", b.heat.began[begun:], shot.CuringFresh, shot.Curing.Banded)
	}
	if shot.Plan.Steps == nil && shot.Curing.Steps != nil || !shot.settled() {
		t.Error("the steps are not those of the curing")
	}

	// One under way goes on.
	letGo := b.heat.hold("heat of " + name + ", of oak 40 mm")
	b.Enter("mold/depth", "40 mm")
	b.until(b.heat.has(&b.heat.began, "heat of "+name+", of oak 40 mm"))
	b.Enter("costing/rate", "31")
	b.until(func() bool { return b.text("costing/rate") != "30" })
	letGo()
	b.settle()
	if shot := b.Snapshot(); !shot.CuringFresh || !shot.Curing.Banded || b.heat.has(&b.heat.off, "heat of "+name+", of oak 40 mm")() {
		t.Errorf("fresh %t, banded %t; called off %q", shot.CuringFresh, shot.Curing.Banded, b.heat.off)
	}

	// A finger that dragged and went back has its bands again.
	begun = len(b.heat.began)
	b.preview("41 mm")
	b.until(func() bool { return b.text("mold/depth") == "41 mm" })
	b.enter("costing/rate", "32")
	b.settle()
	if shot := b.Snapshot(); len(b.heat.began) == begun || !shot.CuringFresh || !shot.Curing.Banded {
		t.Errorf("after a drag: fresh %t, banded %t", shot.CuringFresh, shot.Curing.Banded)
	}
	b.Close()
}

// preview drags the depth to a value.
func (b *bench) preview(depth string) {
	b.Preview(func(p *model.Project) error { return model.Enter(p, "mold/depth", depth) })
}

// TestCuringFollowsTheFinger: while a finger drags the best estimate moves with
// it, also that of a place that the finger has left, and no bands are asked
// for. Those come once it lets go.
func TestCuringFollowsTheFinger(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	bands := b.heat.count("bands")
	letGo := b.heat.hold("heat of Tray 31 mm")
	seen := b.watch()
	b.preview("31 mm")
	b.until(b.heat.has(&b.heat.began, "heat of Tray 31 mm"))
	b.preview("32 mm")
	b.until(func() bool { return b.text("mold/depth") == "32 mm" })
	b.preview("33 mm")
	b.until(func() bool { return b.text("mold/depth") == "33 mm" })
	letGo()
	b.settle()
	b.mustSee(seen, "Tray 31 mm: Tray 30 mm, banded", "Tray 32 mm: Tray 30 mm, banded", "Tray 33 mm: Tray 30 mm, banded", "Tray 33 mm: Tray 31 mm", "Tray 33 mm: Tray 33 mm, fresh")
	if b.heat.has(&b.heat.began, "heat of Tray 32 mm")() || b.heat.count("bands") != bands {
		t.Errorf("began: %q", b.heat.began)
	}
	b.enter("mold/depth", "33 mm")
	b.mustSee(seen, "Tray 33 mm: Tray 33 mm", "Tray 33 mm: Tray 33 mm, fresh", "Tray 33 mm: Tray 33 mm, fresh, banded")
	b.Close()
}

// TestDraggingEndsTheBands: a finger that begins to drag calls off the bands of
// the state that was kept.
func TestDraggingEndsTheBands(t *testing.T) {
	b := started(t)
	b.heat.hold("bands of Tray 30 mm")
	b.Enter("mold/depth", "30 mm")
	b.until(b.heat.has(&b.heat.began, "bands of Tray 30 mm"))
	b.preview("31 mm")
	b.until(b.heat.has(&b.heat.off, "bands of Tray 30 mm"))
	b.settle()
	if got := shown(b.Snapshot()); got != "Tray 31 mm: Tray 31 mm, fresh" {
		t.Error(got)
	}
	b.Close()
}

// TestBandsNeverOnAnotherState: the estimate of a kept state that comes in when
// a finger has begun to drag brings no bands onto the place dragged to.
func TestBandsNeverOnAnotherState(t *testing.T) {
	b := started(t)
	letGo := b.heat.hold("heat of Tray 30 mm")
	letBandsGo := b.heat.hold("bands of Tray 30 mm")
	b.Enter("mold/depth", "30 mm")
	b.until(b.heat.has(&b.heat.began, "heat of Tray 30 mm"))
	b.preview("31 mm")
	letGo()
	b.until(func() bool { return b.text("mold/depth") == "31 mm" })
	letBandsGo()
	b.settle()
	if got := shown(b.Snapshot()); got != "Tray 31 mm: Tray 31 mm, fresh" {
		t.Error(got)
	}
	b.Close()
}

// TestCuringStaysWithItsProject: neither the curing of a project that is left
// nor what is still being worked out for it is shown with the next one, even
// by a simulation that does not listen.
func TestCuringStaysWithItsProject(t *testing.T) {
	for _, kind := range []string{"heat", "bands"} {
		for _, deaf := range []bool{false, true} {
			b := started(t)
			b.Create("Shelf")
			b.settle()
			shelf := b.Snapshot().Project.ID
			b.Create("Box")
			b.settle()
			b.heat.deaf = deaf
			letGo := b.heat.hold(kind + " of Box 30 mm")
			b.Enter("mold/depth", "30 mm")
			b.until(b.heat.has(&b.heat.began, kind+" of Box 30 mm"))
			b.Subscribe(func(shot Snapshot) {
				if c := shot.Curing.Project; c != "" && c != shot.Project.ID {
					t.Errorf("%s shows the curing of %s", shot.Project.Name, shot.Curing.Findings[0].What)
				}
			})
			b.Open(shelf)
			b.until(func() bool { return b.text("name") == "Shelf" })
			if got := shown(b.Snapshot()); got != "Shelf :" {
				t.Error(got)
			}
			if deaf {
				letGo()
			}
			b.settle()
			if got := shown(b.Snapshot()); got != "Shelf : Shelf , fresh, banded" {
				t.Error(got)
			}
			b.Close()
		}
	}
}

// TestCuringTrouble: what cannot be worked out is said, and the estimate stays
// where only its bands cannot.
func TestCuringTrouble(t *testing.T) {
	b := started(t)
	b.heat.breaks = map[string]error{"heat of Tray 30 mm": errors.New("no sheet"), "bands of Tray 40 mm": errors.New("no bands")}
	b.enter("mold/depth", "30 mm")
	if shot := b.Snapshot(); shot.CuringTrouble != "no sheet" || shown(shot) != "Tray 30 mm:, fresh" || shot.Curing.Project != shot.Project.ID {
		t.Errorf("%s, %q", shown(shot), shot.CuringTrouble)
	}
	b.enter("mold/depth", "40 mm")
	if shot := b.Snapshot(); shot.CuringTrouble != "no bands" || shown(shot) != "Tray 40 mm: Tray 40 mm, fresh" {
		t.Errorf("%s, %q", shown(shot), shot.CuringTrouble)
	}
	b.enter("mold/depth", "50 mm")
	if shot := b.Snapshot(); shot.CuringTrouble != "" || !shot.Curing.Banded {
		t.Errorf("%s, %q", shown(shot), shot.CuringTrouble)
	}
	b.Close()
}

// TestCloseDoesNotWaitForTheBands: closing calls them off, and what was entered
// is kept.
func TestCloseDoesNotWaitForTheBands(t *testing.T) {
	for _, kind := range []string{"heat", "bands"} {
		b := started(t)
		b.heat.hold(kind + " of Tray 30 mm")
		b.Enter("mold/depth", "30 mm")
		b.until(b.heat.has(&b.heat.began, kind+" of Tray 30 mm"))
		c := b.onDisk()
		if !b.heat.has(&b.heat.off, kind+" of Tray 30 mm")() {
			t.Error("not called off")
		}
		if c.text("mold/depth") != "30 mm" {
			t.Error("not kept")
		}
	}
}
