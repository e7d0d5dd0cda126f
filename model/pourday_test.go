package model

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestPourDay goes through the days that a shop knows.
func TestPourDay(t *testing.T) {
	for _, c := range []struct {
		day     string
		make    func(s *Shop)
		verdict DayVerdict
		kind    string
	}{
		{"dry and warm", func(s *Shop) {}, DayGo, ""},
		{"no hygrometer", func(s *Shop) { s.Humidity = unit.Taken[unit.Share]{} }, DayUnknown, ""},
		{"no thermometer", func(s *Shop) { s.Room = unit.Taken[unit.Temperature]{} }, DayUnknown, ""},
		{"damp", func(s *Shop) { s.Humidity = given(unit.Share(0.88)) }, DayWait, "day.damp"},
		{"wood from outside", func(s *Shop) { s.Wood = given(unit.Celsius(11)) }, DayWait, "day.dew"},
		{"cool wood, dry air", func(s *Shop) { s.Humidity, s.Wood = given(unit.Share(0.3)), given(unit.Celsius(16)) }, DayWait, "day.cold-wood"},
		{"a cold bottle", func(s *Shop) { s.Humidity, s.Resin = given(unit.Share(0.3)), given(unit.Celsius(12)) }, DayWarm, "day.crystals"},
		{"bottles from the shed", func(s *Shop) { s.Humidity, s.Bottles = given(unit.Share(0.3)), given(unit.Celsius(12)) }, DayWarm, "day.crystals"},
		{"bottles from the shed, colder than the sheet allows", func(s *Shop) { s.Humidity, s.Bottles = given(unit.Share(0.3)), given(unit.Celsius(15.5)) }, DayWarm, "day.cold-bottles"},
		{"bottles below the dew point", func(s *Shop) { s.Humidity, s.Bottles = given(unit.Share(0.9)), given(unit.Celsius(17)) }, DayWait, "day.dew"},
		{"a cool mix out of warm bottles", func(s *Shop) {
			s.Humidity, s.Resin, s.Bottles = given(unit.Share(0.2)), given(unit.Celsius(16)), given(unit.Celsius(20))
		}, DayGo, ""},
		{"a cool bottle in damp air", func(s *Shop) { s.Humidity, s.Resin = given(unit.Share(0.7)), given(unit.Celsius(18)) }, DayWarm, "day.dew"},
		{"a damp night to come", func(s *Shop) { s.Humidity, s.Night = given(unit.Share(0.7)), given(unit.Celsius(16)) }, DayGo, "day.night-dew"},
		{"too cold for the sheet", func(s *Shop) { s.Room, s.Humidity = given(unit.Celsius(15.5)), given(unit.Share(0.3)) }, DayWait, "room.coldest"},
		{"the bottle colder than the sheet allows", func(s *Shop) { s.Resin = given(unit.Celsius(15.5)) }, DayWarm, "resin.cold"},
	} {
		p := tray(300, 200, 30, 10)
		p.Sheets[0].Coldest = Figure[unit.Temperature]{Taken: given(unit.Celsius(16))}
		p.Shop.Room, p.Shop.Humidity = given(unit.Celsius(21)), given(unit.Share(0.5))
		c.make(&p.Shop)
		pl := Make(p)
		d := pl.PourDay(&p, "l1")
		if d.Verdict != c.verdict {
			t.Errorf("%s: %s, want %s: %+v", c.day, d.Verdict, c.verdict, d.Reasons)
		}
		said := c.kind == ""
		for _, r := range d.Reasons {
			said = said || r.Finding.Kind == c.kind
			if r.Finding.What == "" || r.Finding.Why == "" || r.Finding.Do == "" {
				t.Errorf("%s: a reason does not speak: %+v", c.day, r)
			}
			if finding(pl, r.Finding.Kind).Kind == "" {
				t.Errorf("%s: %s is no finding", c.day, r.Finding.Kind)
			}
		}
		if !said || c.kind == "" && len(d.Reasons) > 0 {
			t.Errorf("%s: the reasons are %+v", c.day, d.Reasons)
		}
	}
}

// TestDemosOnTheirDay: the boards' room falls at night to 2.4 °C above the dew
// point (shop notes, 7.2), and the shelf's resin is poured cooler than the room.
func TestDemosOnTheirDay(t *testing.T) {
	p := demo(t, "breakfast-boards")
	pl := Make(p)
	d := pl.PourDay(&p, p.Layers[0].ID)
	within(t, "dew point of the boards", d.Dew.Value.Celsius(), 9.1, 0.2)
	within(t, "margin by day", float64(d.Margin.Value), 15-9.13, 0.05)
	if f := finding(pl, "day.night-dew"); f.Level != Check || !strings.Contains(f.Why, "2.4 °C apart") {
		t.Errorf("the night is %+v", f)
	}
	p = demo(t, "hall-shelf")
	pl = Make(p)
	d = pl.PourDay(&p, p.Layers[0].ID)
	within(t, "dew point of the shelf", d.Dew.Value.Celsius(), 18.6, 0.2)
	if d.Verdict != DayWarm || d.Where != "the resin" {
		t.Errorf("the shelf: %+v", d)
	}
	p = demo(t, "poppy-stand")
	pl = Make(p)
	if d := pl.PourDay(&p, p.Layers[0].ID); d.Verdict != DayGo {
		t.Errorf("the stand: %+v", d)
	}
}

// TestDamperIsNeverBetter: damper air never turns a day that says wait into one
// that says go.
func TestDamperIsNeverBetter(t *testing.T) {
	rank := map[DayVerdict]int{DayGo: 0, DayWarm: 1, DayWait: 2}
	base := tray(300, 200, 30, 10)
	rapid.Check(t, func(t *rapid.T) {
		p := base.Clone()
		p.Shop.Room = given(unit.Celsius(rapid.Float64Range(5, 35).Draw(t, "room")))
		p.Shop.Resin = given(unit.Celsius(rapid.Float64Range(5, 35).Draw(t, "resin")))
		p.Shop.Wood = given(unit.Celsius(rapid.Float64Range(5, 35).Draw(t, "wood")))
		h := rapid.Float64Range(0.1, 0.95).Draw(t, "humidity")
		var pl Plan
		p.Shop.Humidity = given(unit.Share(h))
		dry := pl.PourDay(&p, "l1").Verdict
		p.Shop.Humidity = given(unit.Share(h + 0.04))
		if damp := pl.PourDay(&p, "l1").Verdict; rank[damp] < rank[dry] {
			t.Fatalf("%s, damper %s", dry, damp)
		}
	})
}

// TestCrystalsGoByTheBottles: by the bottles where they were read, else by the
// mixed resin, else by the room, and it says which.
func TestCrystalsGoByTheBottles(t *testing.T) {
	for _, c := range []struct {
		room, resin, bottles float64 // 0 is not read
		field, why           string  // "" is no crystals
	}{
		{21, 21, 12, "shop/bottles", "the bottles stand at 12 °C; below"},
		{21, 12, 20, "", ""},
		{21, 12, 0, "shop/resin", "12 °C, taken from the mixed resin;"},
		{12, 0, 0, "shop/room", "12 °C, taken from the room;"},
		{12, 21, 0, "", ""},
		{12, 0, 21, "", ""},
	} {
		p := tray(300, 200, 30, 10)
		set := func(to *unit.Taken[unit.Temperature], degrees float64) {
			if *to = (unit.Taken[unit.Temperature]{}); degrees > 0 {
				*to = given(unit.Celsius(degrees))
			}
		}
		set(&p.Shop.Room, c.room)
		set(&p.Shop.Resin, c.resin)
		set(&p.Shop.Bottles, c.bottles)
		f := finding(Make(p), "day.crystals")
		if f.Field != c.field || !strings.Contains(f.Why, c.why) {
			t.Errorf("%+v: %+v", c, f)
		}
	}
}
