package walk

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// banded is a temperature of the simulation with its band.
const banded = `^\d+ °C \(\d+ to \d+\)$`

// TestHeat looks at a job's heat in the real windows: waits for the bands, draws
// the time along, asks what if, opens a figure's working, takes the planner's
// levels and puts them back.
func TestHeat(t *testing.T) {
	if testing.Short() {
		t.Skip("works real windows")
	}
	s := newScreen(t, "1366x768")
	p := s.start(filepath.Join(t.TempDir(), "n.db"), checks+"=1")
	p.heat()

	// The time is drawn along, and what the section shows goes with it.
	p.during("Layers", "Time", 0.5, 0.1, func() string { return p.text("Layers", "^Not poured yet; the room is at").Text })
	warm := p.during("Layers", "Time", 0.1, 0.4, func() string { return p.text("Layers", "^Hottest ").Text })
	if cooler := p.during("Layers", "Time", 0.4, 0.8, func() string { return p.text("Layers", "^hour [23]").Text + p.text("Layers", "^Hottest ").Text }); strings.Contains(cooler, warm) {
		t.Errorf("at hour 20 and more it says %q as well", cooler)
	}
	p.tap("Layers", "button", "^At its hottest$")
	p.text("Layers", `^Hottest 3[01](\.\d)? °C`)

	// What if the room were warmer: the answer moves while the finger is down, the
	// limits stay where they are drawn.
	limits := regexp.MustCompile("^limit |^deepest safe here ")
	p.reach("Layers", "slider", "Room")
	p.reach("Layers", "drawn", "^deepest safe here ") // the lower of the limits, with the sliders still in sight
	p.find("Layers", "drawn", `^31 °C$`)
	before := p.drawn("Layers", limits)
	p.during("Layers", "Room", 0.5, 0.9, func() string {
		p.find("Layers", "drawn", `^(3[5-9]|[4-9]\d) °C`)
		p.text("Layers", `^2\d(\.\d)? °C \(\+\d`)
		return ""
	})
	if after := p.drawn("Layers", limits); len(before) < 3 || strings.Join(after, "|") != strings.Join(before, "|") {
		t.Errorf("the limits went from %q to %q", before, after)
	}
	p.during("Layers", "This pour", 0.5, 0.95, func() string { return p.find("Layers", "drawn", `^1\d mm, too deep$`).Text })
	p.tap("Layers", "button", "^Back to the plan$")
	p.find("Layers", "drawn", `^31 °C$`)

	// How the peak came about.
	p.tap("Layers", "opens", banded)
	p.text("Layers", "^What went in$")
	p.tap("Layers", "button", "^Close$")
	p.find("Layers", "opens", banded)

	// The planner's levels, taken with one touch and put back with one.
	p.tap("Layers", "button", "^Take these levels$")
	p.text("Layers", `^2 pours: 8 mm, then 11 mm`)
	p.reach("Layers", "text", "^As it is planned it is best") // the planner has looked anew, the card is at rest
	p.tap("Layers", "button", "^Put the levels back as they were$")
	p.text("Layers", `^2 pours: 10 mm, then 9 mm`)
	p.reach("Layers", "button", "^Take these levels$")
	p.finish()
}

// demo brings in a demo job and waits until it is open.
func (p *program) demo(name string) {
	p.t.Helper()
	p.await("a job", "Notebook · ", func(seen) bool { return true })
	p.tap("Notebook", "select", "^Bring in a demo job$")
	p.tap("Notebook", "line", "^"+regexp.QuoteMeta(name)+"$")
	p.await("the demo job", "Notebook · "+name, func(seen) bool { return true })
	p.tap("Notebook", "button", "^OK$") // else the windows move once the notice goes by itself
}

// find waits until a window shows a thing of a kind that matches the pattern,
// without scrolling to it.
func (p *program) find(title, kind, pattern string) shown {
	p.t.Helper()
	var found shown
	p.await(kind+" "+pattern, title, func(w seen) (ok bool) {
		found, ok = w.find(kind, pattern)
		return ok
	})
	return found
}

// drawn lists what the window's pictures write that matches, and how far to the right.
func (p *program) drawn(title string, pattern *regexp.Regexp) []string {
	p.t.Helper()
	var list []string
	w, _ := p.window(title)
	for _, x := range w.Things {
		if x.Kind == "drawn" && pattern.MatchString(x.Text) {
			list = append(list, fmt.Sprintf("%s at %.0f", x.Text, x.X))
		}
	}
	return list
}

// during draws a slider from one share of its length to another and looks, with
// the finger still down.
func (p *program) during(title, slider string, from, to float32, look func() string) string {
	p.t.Helper()
	x := p.reach(title, "slider", slider)
	id, y := p.id(title), x.Y+x.H-20
	p.tool(p.path(id, x.X+from*x.W, y, x.X+to*x.W, y, 6)...)
	said := look()
	p.tool("mouseup", "1")
	return said
}

// heat opens the boards with the heat of their second pour.
func (p *program) heat() {
	p.t.Helper()
	p.demo("Five breakfast boards")
	p.key("Notebook", "ctrl+3")
	p.await("the layers' window", "Layers · Five breakfast boards", func(w seen) bool { return len(w.Things) > 10 })
	p.tap("Layers", "line", "^Heat$")
	p.reach("Layers", "opens", banded)
}
