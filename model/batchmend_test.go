package model

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"meniscus/model/unit"
)

// What would let it be done is enough, and a little less of it is not.
func TestTheSmallestChangeIsEnoughAndNotMore(t *testing.T) {
	able := func(p Project) bool {
		plan, _ := cupsOf(t, p)
		return plan.Possible
	}
	for _, x := range []struct {
		name, want string
		less, more func(*Project, float64) // by the figure that was named
		make       func(*Project)
	}{
		{"a cup too small", `take a cup that holds ([0-9.]+) g`, func(p *Project, v float64) { p.Mixing.CupHolds = given(unit.Gram.Times(v - 1)) },
			func(p *Project, v float64) { p.Mixing.CupHolds = given(unit.Gram.Times(v)) },
			func(p *Project) { p.Mixing.CupHolds = given(20 * unit.Gram) }},
		{"too long a rest", `let it rest no longer than ([0-9.]+) min`, func(p *Project, v float64) { p.Mixing.CupRest = given(unit.Minute.Times(v + 1)) },
			func(p *Project, v float64) { p.Mixing.CupRest = given(unit.Minute.Times(v)) },
			func(p *Project) { p.Mixing.CupRest = given(60 * unit.Minute) }},
		{"a resin too warm", `cool the resin to ([0-9.]+) °C, and the room by as much`, func(p *Project, v float64) { cooled(p, v+1) }, cooled,
			func(p *Project) {
				p.Sheets[0].WorkingTime.Value, p.Sheets[0].Coldest = 20*unit.Minute, Figure[unit.Temperature]{}
				p.Shop.Room, p.Shop.Resin, p.Shop.Night = given(unit.Celsius(30)), given(unit.Celsius(30)), unit.Taken[unit.Temperature]{}
			}},
		{"a resin too fast", `take a resin that can be worked for ([0-9.]+) min here`, nil, nil,
			func(p *Project) { p.Sheets[0].WorkingTime.Value = 3 * unit.Minute }},
	} {
		p := boards(t)
		x.make(&p)
		plan, _ := cupsOf(t, p)
		if plan.Possible || plan.Why == "" {
			t.Errorf("%s: it can be done: %+v", x.name, plan)
			continue
		}
		found := regexp.MustCompile(x.want).FindStringSubmatch(plan.Change)
		if found == nil {
			t.Errorf("%s: %q, since %q", x.name, plan.Change, plan.Why)
			continue
		}
		if x.more == nil {
			continue
		}
		var v float64
		if _, err := fmt.Sscan(strings.ReplaceAll(found[1], ",", ""), &v); err != nil {
			t.Fatal(err)
		}
		q := p
		if x.more(&q, v); !able(q) {
			t.Errorf("%s: %q is not enough", x.name, plan.Change)
		}
		q = p
		if x.less(&q, v); able(q) {
			t.Errorf("%s: less than %q would do", x.name, plan.Change)
		}
	}
}

func TestACupThatThickensStopsThePour(t *testing.T) {
	p := boards(t)
	late := func() bool {
		return slices.ContainsFunc(simulateOf(t, p).Findings, func(f Finding) bool {
			return f.Kind == "cups.late" && f.Level == Stop && f.Why != "" && f.Do != ""
		})
	}
	if late() {
		t.Error("a pour that can be made is stopped")
	}
	p.Sheets[0].WorkingTime.Value = 3 * unit.Minute
	if !late() {
		t.Error("nothing stops a pour that sets in the cup")
	}
}

// cooled brings the resin to so many °C, and the room by as much.
func cooled(p *Project, v float64) {
	by := p.Shop.Resin.Value - unit.Celsius(v)
	p.Shop.Resin, p.Shop.Room = given(unit.Celsius(v)), given(p.Shop.Room.Value-by)
}
