package walk

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"meniscus/model"
	"meniscus/model/unit"
)

// warmed is what the windows said of the room and of the heat at one moment.
type warmed struct {
	typed, room float64 // in the field, and in the answer, in °C
	peak        string
	busy        bool // newer figures are being worked out
}

// TestEditsWhileBandsRun warms the room by keys, many at once and then one by
// one, while bands are worked out behind without a pause, and holds all that was
// drawn meanwhile against the model: every key counts, the edits are answered in
// their order, what counts as fresh is of the edit that it stands beside, and no
// older band ever comes after a newer figure.
func TestEditsWhileBandsRun(t *testing.T) {
	if testing.Short() {
		t.Skip("works real windows")
	}
	s := newScreen(t, "1366x768")
	notebook := filepath.Join(t.TempDir(), "n.db")
	p := s.start(notebook, checks+"=1")
	p.heat()
	p.key("Layers", "ctrl+5")
	p.await("the cure window", "Cure", func(w seen) bool { return len(w.Things) > 5 })
	p.tap("Cure", "line", "^Shop$")
	p.tap("Cure", "entry", "shop/room")
	p.question("load", 1)
	p.question("watch")
	const start, burst, single = 15, 8, 3
	p.tool("key", "--delay", "60", "--repeat", strconv.Itoa(burst), "Up")
	for i := range single + 1 {
		p.await("the room as it was stepped to", "Layers", func(w seen) bool {
			now, ok := warmth(w)
			return ok && now.room == float64(start+burst+i)
		})
		if i < single {
			p.tool("key", "Up")
		}
	}
	p.await("the last edit answered with its band", "Layers", func(w seen) bool {
		now, ok := warmth(w)
		return ok && !now.busy && strings.Contains(now.peak, "(")
	})
	p.question("load", "-")
	var states [][]seen
	if err := json.Unmarshal([]byte(p.question("watched")), &states); err != nil {
		t.Fatal(err)
	}
	p.finish()

	project, _ := kept(t, notebook, "Five breakfast boards (demo)")
	rooms, fresh := 0, 0
	last := warmed{}
	for _, state := range states {
		now := warmed{}
		for _, w := range state {
			if x, ok := w.find("field", "shop/room"); ok {
				now.typed, _ = leading(x.Text)
			}
			if heat, ok := warmth(w); ok {
				now.room, now.peak, now.busy = heat.room, heat.peak, heat.busy
			}
		}
		if now.peak == "" {
			continue
		}
		if now.typed < last.typed || now.room < last.room || now.room > now.typed {
			t.Errorf("%+v was drawn after %+v", now, last)
		}
		if before, _ := leading(last.peak); before > must(leading(now.peak)) {
			t.Errorf("an older peak came back: %+v was drawn after %+v", now, last)
		}
		if now.room != last.room {
			rooms++
		}
		if !now.busy && now != last {
			fresh++
			checkPeak(t, project, now)
		}
		last = now
	}
	if last.typed != last.room || !strings.Contains(last.peak, "(") || last.busy {
		t.Errorf("the last that was drawn is %+v", last)
	}
	if project.Shop.Room.Value.Celsius() != last.typed {
		t.Errorf("%v is kept, %v was typed", project.Shop.Room.Value, last.typed)
	}
	t.Logf("%d rooms and %d fresh figures drawn in %d states", rooms, fresh, len(states))
	if last.typed != start+burst+single || rooms < 2+single {
		t.Errorf("%d steps from %d °C led to %v °C by way of %d rooms", burst+single, start, last.typed, rooms)
	}
}

// checkPeak holds what was drawn of a room against the model's own figures.
func checkPeak(t *testing.T, project model.Project, now warmed) {
	t.Helper()
	if err := model.Enter(&project, "shop/room", fmt.Sprint(now.room)+" °C"); err != nil {
		t.Fatal(err)
	}
	plan := model.Make(project)
	c, err := model.Simulate(context.Background(), &project, &plan)
	if err != nil {
		t.Fatal(err)
	}
	want := c.Layers[len(c.Layers)-1].Peak.Value
	if got := must(leading(now.peak)); math.Abs(got-want.Celsius()) > 0.51 {
		t.Errorf("beside a room of %v °C the peak was drawn as %q, which is %v", now.room, now.peak, unit.Style{}.Temperature(want))
	}
}

var (
	today    = regexp.MustCompile(`^Today it is (\S+) °C`)
	anyPeak  = regexp.MustCompile(`^\d+ °C( \(\d+ to \d+\))?$`)
	number   = regexp.MustCompile(`^\d+(\.\d+)?`)
	isntDone = "working it out…"
)

// warmth reads the room and the peak from the window Layers; the peak is the
// figure behind the two answers.
func warmth(w seen) (warmed, bool) {
	var now warmed
	var figures []string
	for _, x := range append(slices.Clone(w.Things), w.Beyond...) {
		if m := today.FindStringSubmatch(x.Text); m != nil {
			now.room, _ = leading(m[1])
		}
		if x.Kind == "text" && x.Text == isntDone {
			now.busy = true
		}
		if x.Kind == "opens" {
			figures = append(figures, x.Text)
		}
	}
	for _, f := range figures[min(2, len(figures)):] {
		if anyPeak.MatchString(f) {
			now.peak = f
			return now, now.room != 0
		}
	}
	return now, false
}

// leading reads the number that a text begins with.
func leading(text string) (float64, error) { return strconv.ParseFloat(number.FindString(text), 64) }

// must gives a number that was read.
func must(v float64, err error) float64 {
	if err != nil {
		return math.NaN()
	}
	return v
}
