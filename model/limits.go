package model

import (
	"fmt"

	"meniscus/model/unit"
)

// limits holds a layer against its product's data sheet. Where the sheet is
// silent the verdict is NotKnown, never Fine; no computed result loosens a
// limit of the sheet.
func (m *maker) limits(k int, p *LayerPlan) []LimitCheck {
	l, s := &m.layers[k], m.p.Style
	sheet := l.sheet
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
	const hair = 1e-6 * unit.Metre
	depth("deepest layer", sheet.MaxLayer, sheet.MaxLayer.Given() && p.Depth > sheet.MaxLayer.Value+hair, "the data sheet does not say how deep one layer may be: ask the supplier before you pour")
	if sheet.MinLayer.Given() {
		depth("shallowest layer", sheet.MinLayer, p.Depth < sheet.MinLayer.Value-hair, "")
	}
	list = append(list, m.roomChecks(sheet, p.Times.Room)...)
	if share := l.layer.additiveShare(); share > 0 {
		limit := known(sheet.TintLimit, typicalTintLimit)
		c := LimitCheck{Kind: "tint and additives", Value: float64(share), Limit: float64(limit.Value), Verdict: Fine}
		whose := "the data sheet's limit"
		if limit.Typical {
			whose = "about 6 %, common practice where the sheet is silent"
		}
		c.Text = fmt.Sprintf("%s stirred in, %s is %s", s.Share(share), whose, s.Share(limit.Value))
		if limit.Typical {
			c.Text = fmt.Sprintf("%s stirred in; %s", s.Share(share), whose)
		}
		if share > limit.Value+1e-9 {
			c.Verdict = Beyond
		}
		list = append(list, c)
	}
	return list
}

// roomChecks holds the room's temperature against the sheet's range.
func (m *maker) roomChecks(sheet *Sheet, room unit.Temperature) []LimitCheck {
	s := m.p.Style
	_, measured := m.p.room()
	var list []LimitCheck
	add := func(kind string, f Figure[unit.Temperature], beyond bool) {
		c := LimitCheck{Kind: kind, Value: float64(room), Limit: float64(f.Value)}
		switch {
		case !f.Given():
			c.Verdict, c.Text = NotKnown, "the data sheet gives no "+kind+" room to work in"
		case !measured:
			c.Verdict, c.Text = NotKnown, "read the room's temperature: the "+kind+" the sheet allows is "+s.Temperature(f.Value)
		case beyond:
			c.Verdict, c.Text = Beyond, fmt.Sprintf("the room is at %s; the %s the sheet allows is %s", s.Temperature(room), kind, s.Temperature(f.Value))
		default:
			c.Verdict, c.Text = Fine, fmt.Sprintf("the room at %s is within the sheet's %s of %s", s.Temperature(room), kind, s.Temperature(f.Value))
		}
		list = append(list, c)
	}
	add("coldest", sheet.Coldest, sheet.Coldest.Given() && room < sheet.Coldest.Value)
	add("warmest", sheet.Warmest, sheet.Warmest.Given() && room > sheet.Warmest.Value)
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
