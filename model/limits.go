package model

import (
	"fmt"
	"math"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// limits holds a layer against its product's data sheet. Where the sheet is
// silent the verdict is NotKnown, never Fine; no computed result loosens a
// limit of the sheet.
// measured tells whether the room's temperature was.
func (m *maker) limits(k int, p *LayerPlan, measured bool) []LimitCheck {
	s, sheet := m.p.Style, m.layers[k].sheet
	if sheet == nil {
		return []LimitCheck{{Kind: "deepest layer", Verdict: NotKnown, Value: float64(p.Depth), Text: "no resin is chosen for this layer"}}
	}
	var list []LimitCheck
	depth := func(kind string, f Figure[unit.Length], beyond bool, silent string) {
		c := LimitCheck{Kind: kind, Value: float64(p.Depth), Limit: float64(f.Value)}
		switch {
		case !f.Given():
			c.Verdict, c.Text = NotKnown, silent
		case beyond:
			c.Verdict = Beyond
			c.Text = fmt.Sprintf("%s deep; the data sheet's %s is %s%s", s.Length(p.Depth), kind, s.Length(f.Value), conditions(s, f.At, f.Mass))
		default:
			c.Verdict = Fine
			c.Text = fmt.Sprintf("%s deep, within the data sheet's %s of %s%s", s.Length(p.Depth), kind, s.Length(f.Value), conditions(s, f.At, f.Mass))
		}
		list = append(list, c)
	}
	depth("deepest layer", sheet.MaxLayer, sheet.tooDeep(p.Depth), "the data sheet does not say how deep one layer may be: ask the supplier before you pour")
	if c := &list[0]; c.Verdict == Fine {
		c.Verdict, c.Text = m.warmer(sheet, p.Depth, p.Times.Room, measured, c.Text)
	}
	depth("shallowest layer", sheet.MinLayer, sheet.MinLayer.Given() && p.Depth < sheet.MinLayer.Value-hairsBreadth, "the data sheet does not say how shallow one layer may be")
	list = append(list, m.roomChecks(sheet, p.Times.Room, measured)...)
	return list
}

// hairsBreadth is within what two depths are one: they are sums of what was
// typed.
const hairsBreadth = 1e-6 * unit.Metre

// tooDeep tells whether a layer is deeper than the sheet allows. A sheet that is
// silent allows nothing and forbids nothing: see limits.
func (s *Sheet) tooDeep(depth unit.Length) bool {
	return s.MaxLayer.Given() && depth > s.MaxLayer.Value+hairsBreadth
}

// tooCold and tooWarm tell whether a room is outside what the sheet allows.
func (s *Sheet) tooCold(room unit.Temperature) bool {
	return s.Coldest.Given() && room < s.Coldest.Value
}

func (s *Sheet) tooWarm(room unit.Temperature) bool {
	return s.Warmest.Given() && room > s.Warmest.Value
}

// roomRefused says how warm a room is that is outside what a sheet allows, and
// what that is; kind is "coldest" or "warmest".
func roomRefused(s unit.Style, room unit.Temperature, kind string, allowed unit.Temperature) string {
	than := "no more than "
	if kind == "coldest" {
		than = "no less than "
	}
	return "at " + s.Temperature(room) + ", and the data sheet allows " + than + s.Temperature(allowed)
}

// roomSlack is how much warmer than a figure's own temperature a room may read
// before the figure no longer holds: what a shop thermometer may be off by
// (common practice, no source).
const roomSlack = unit.Temperature(2)

// deepestAt is the depth that gets as hot in a room as the deepest layer of the
// sheet does at its own temperature; in a room no warmer than that it is the
// sheet's. The heat that a layer makes grows with its rate and its depth squared
// (the number of Frank-Kamenetskii), so that in a room where it cures k times as
// fast it is smaller by √k.
func (s *Sheet) deepestAt(room unit.Temperature) unit.Length {
	most, at := s.MaxLayer.Value, s.MaxLayer.At
	if !at.Given() || room <= at.Value+roomSlack {
		return most
	}
	return most.Times(1 / math.Sqrt(cure.AgeFactor(known(s.Activation, typicalActivation).High, room, at.Value)))
}

// warmer answers for a layer within the deepest that the sheet allows: that
// depth holds at a temperature, and a warmer room makes a pour hotter. Between
// that depth and the one that gets as hot in this room the sheet does not tell.
func (m *maker) warmer(sheet *Sheet, depth unit.Length, room unit.Temperature, measured bool, text string) (Verdict, string) {
	at, s := sheet.MaxLayer.At, m.p.Style
	if !at.Given() {
		return Fine, text
	}
	if !measured {
		return NotKnown, text + "; read the room's temperature to tell whether that holds"
	}
	if alike := sheet.deepestAt(room); depth > alike {
		return NotKnown, fmt.Sprintf("%s; in a room at %s a layer of about %s gets as hot as that", text, s.Temperature(room), s.Length(alike))
	}
	return Fine, text
}

// roomChecks holds the room's temperature against the sheet's range.
func (m *maker) roomChecks(sheet *Sheet, room unit.Temperature, measured bool) []LimitCheck {
	s := m.p.Style
	var list []LimitCheck
	add := func(kind string, f Figure[unit.Temperature], beyond bool) {
		c := LimitCheck{Kind: kind, Value: float64(room), Limit: float64(f.Value)}
		switch {
		case !f.Given():
			c.Verdict, c.Text = NotKnown, "the data sheet gives no "+kind+" room to work in"
		case !measured:
			c.Verdict, c.Text = NotKnown, "read the room's temperature: the "+kind+" the sheet allows is "+s.Temperature(f.Value)
		case beyond:
			c.Verdict, c.Text = Beyond, "the room is "+roomRefused(s, room, kind, f.Value)
		default:
			c.Verdict, c.Text = Fine, fmt.Sprintf("the room at %s is within the sheet's %s of %s", s.Temperature(room), kind, s.Temperature(f.Value))
		}
		list = append(list, c)
	}
	add("coldest", sheet.Coldest, sheet.tooCold(room))
	add("warmest", sheet.Warmest, sheet.tooWarm(room))
	return list
}

// conditions says at which temperature and mass a figure holds.
func conditions(s unit.Style, at unit.Taken[unit.Temperature], mass unit.Taken[unit.Mass]) string {
	switch {
	case at.Given() && mass.Given():
		return fmt.Sprintf(" (at %s, %s)", s.Temperature(at.Value), s.Mass(mass.Value))
	case at.Given():
		return fmt.Sprintf(" (at %s)", s.Temperature(at.Value))
	case mass.Given():
		return fmt.Sprintf(" (for %s)", s.Mass(mass.Value))
	}
	return ""
}
