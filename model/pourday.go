package model

import (
	"fmt"

	"meniscus/model/unit"
)

// DayVerdict answers whether it is a day to pour.
type DayVerdict string

// The answers.
const (
	DayGo      DayVerdict = "go"
	DayWarm    DayVerdict = "warm the bottle"
	DayWait    DayVerdict = "wait"
	DayUnknown DayVerdict = "not known"
)

// DayPlan is whether it is a day to pour, and why.
type DayPlan struct {
	Verdict DayVerdict
	Reasons []DayReason // that speak against it, gravest first, or else what speaks for it
	Dew     Known[unit.Temperature]
	Coldest unit.Temperature // of what the resin will touch, and of the resin
	Where   string           // that is: "the room and the mold", "the wood", "the resin", "the bottles"
	Margin  Known[unit.TempRise]
}

// DayReason is one thing that speaks for or against pouring today.
type DayReason struct {
	Verdict DayVerdict
	Finding Finding
	known   bool // said as a finding elsewhere already, or no finding at all
}

// What decides the day (common practice, no source): how far above the dew point
// everything should be, the dampest air, how much colder than the room wood may
// be, and below which temperature crystals are common in resin.
const (
	dewMargin    = unit.TempRise(3)
	dampest      = unit.Share(0.85)
	woodColder   = unit.TempRise(3)
	crystalsFrom = 288.15 // K, which is 15 °C
)

// hygrometer is what a cheap hygrometer may be off by (common practice, no
// source).
const hygrometer = unit.Share(0.04)

// PourDay tells whether today is a day to pour a layer.
func (pl *Plan) PourDay(p *Project, layer string) DayPlan {
	d := DayPlan{Verdict: DayGo}
	s, st := &p.Shop, p.Style
	room, measured := p.room()
	l := pl.Layer(layer)
	d.Dew = Known[unit.Temperature]{Absent: true, Source: "read the room's temperature and its humidity"}
	d.Margin = Known[unit.TempRise]{Absent: true, Source: d.Dew.Source}
	d.Coldest, d.Where = room, "the room and the mold"
	if s.Wood.Given() && s.Wood.Value < d.Coldest {
		d.Coldest, d.Where = s.Wood.Value, "the wood"
	}
	if s.Resin.Given() && s.Resin.Value < d.Coldest {
		d.Coldest, d.Where = s.Resin.Value, "the resin"
	}
	if s.Bottles.Given() && s.Bottles.Value < d.Coldest {
		d.Coldest, d.Where = s.Bottles.Value, "the bottles"
	}
	if l != nil {
		d.bySheet(p, l)
	}
	if dew, ok := DewPoint(room, s.Humidity.Value); ok && measured {
		low, known := DewPoint(room, s.Humidity.Value-hygrometer)
		if !known {
			low = dew
		}
		high, _ := DewPoint(room, min(1, s.Humidity.Value+hygrometer))
		d.Dew = Known[unit.Temperature]{Value: dew, Low: low, High: high, Source: "the Magnus formula"}
		d.Margin = Known[unit.TempRise]{Value: unit.TempRise(d.Coldest - dew), Low: unit.TempRise(d.Coldest - high), High: unit.TempRise(d.Coldest - low)}
		d.byDew(p, dew)
	}
	if s.Humidity.Given() && s.Humidity.Value > dampest {
		d.say(DayWait, Check, "day.damp", "shop/humidity", "The air is too damp to pour in", st.Share(s.Humidity.Value)+"; above "+st.Share(dampest)+" hardener takes up water and the surface turns waxy or cloudy", "wait for drier air, or dry the room")
	}
	d.byWood(p, pl, room, measured)
	if t, field, whence := p.bottles(); (field != "shop/room" || measured) && t < crystalsFrom {
		d.say(DayWarm, Check, "day.crystals", field, "So cold, resin may hold crystals", "the bottles stand at "+st.Temperature(t)+whence+"; below "+st.Temperature(crystalsFrom)+" it can turn cloudy or grainy, and it is thick",
			"look through the bottle: a cloudy one is stood in water of about "+st.Temperature(unit.Celsius(50))+" and stirred until it is clear, then cooled to the warmth of the pour; a clear one is warmed to "+st.Temperature(unit.Celsius(22)))
	}
	d.decide(p, measured)
	return d
}

// bottles is the temperature of the bottles where they stood: as it was read, or
// else that of the mixed resin, or of the room. field is what it was taken from,
// and whence says so where it was not read.
func (p *Project) bottles() (t unit.Temperature, field, whence string) {
	switch s := &p.Shop; {
	case s.Bottles.Given():
		return s.Bottles.Value, "shop/bottles", ""
	case s.Resin.Given():
		return s.Resin.Value, "shop/resin", ", taken from the mixed resin"
	}
	room, _ := p.room()
	return room, "shop/room", ", taken from the room"
}

// say adds a reason against pouring that is a finding too.
func (d *DayPlan) say(v DayVerdict, level Level, kind, field, what, why, do string) {
	d.Reasons = append(d.Reasons, DayReason{v, Finding{kind, level, OfMixing, field, what, why, do}, false})
}

// bySheet takes up what the data sheet says of the room and the resin, which
// is said as a finding elsewhere.
func (d *DayPlan) bySheet(p *Project, l *LayerPlan) {
	st := p.Style
	for _, c := range l.Checks {
		if (c.Kind == "coldest" || c.Kind == "warmest") && c.Verdict == Beyond {
			d.Reasons = append(d.Reasons, DayReason{DayWait, Finding{Kind: "room." + c.Kind, Level: Stop, Subject: OfCure, Field: "shop/room", What: "The room is outside what the data sheet allows", Why: c.Text, Do: "wait, or bring the room into its range"}, true})
		}
	}
	sheet := p.Sheet(l.Sheet)
	if sheet == nil {
		return
	}
	if b := p.Shop.Bottles; b.Given() && sheet.Coldest.Given() && b.Value < sheet.Coldest.Value {
		d.say(DayWarm, Check, "day.cold-bottles", "shop/bottles", "The bottles are colder than the data sheet allows", st.Temperature(b.Value)+" against "+st.Temperature(sheet.Coldest.Value), "stand the closed bottles in warm water until they are as warm as the room should be")
	}
	if !p.Shop.Resin.Given() {
		return
	}
	t := p.Shop.Resin.Value
	switch {
	case sheet.Coldest.Given() && t < sheet.Coldest.Value:
		d.Reasons = append(d.Reasons, DayReason{DayWarm, Finding{Kind: "resin.cold", Level: Check, Subject: OfCure, Field: "shop/resin", What: "The resin is colder than its data sheet allows", Why: st.Temperature(t) + " against " + st.Temperature(sheet.Coldest.Value), Do: "stand the closed bottles in warm water"}, true})
	case sheet.Warmest.Given() && t > sheet.Warmest.Value:
		d.Reasons = append(d.Reasons, DayReason{DayWait, Finding{Kind: "resin.warm", Level: Check, Subject: OfCure, Field: "shop/resin", What: "The resin is warmer than its data sheet allows", Why: st.Temperature(t) + " against " + st.Temperature(sheet.Warmest.Value), Do: "let it cool before the parts meet"}, true})
	}
}

// byDew holds the coldest of all against the dew point, and the night that is to
// come.
func (d *DayPlan) byDew(p *Project, dew unit.Temperature) {
	s, st := &p.Shop, p.Style
	field, verdict, do := "shop/humidity", DayWait, "wait for drier or warmer air, or warm the room, the wood and the mold"
	switch d.Where {
	case "the wood":
		field, do = "shop/wood", "bring the wood into the warmth and wait until it is as warm as the room"
	case "the resin", "the bottles":
		if field = "shop/resin"; d.Where == "the bottles" {
			field = "shop/bottles"
		}
		verdict, do = DayWarm, "warm the closed bottles to "+st.Temperature(dew+unit.Temperature(dewMargin))+" or more, and wipe them dry"
	}
	why := fmt.Sprintf("%s at %s, the dew point %s: %s apart, and %s is wanted", d.Where, st.Temperature(d.Coldest), st.Temperature(dew), st.TempRise(d.Margin.Value), st.TempRise(dewMargin))
	switch night := s.Night; {
	case d.Margin.Value <= 0:
		d.say(verdict, Stop, "day.dew", field, "Water will settle on "+d.Where, fmt.Sprintf("%s at %s, the dew point %s", d.Where, st.Temperature(d.Coldest), st.Temperature(dew)), do)
	case d.Margin.Value < dewMargin:
		d.say(verdict, Check, "day.dew", field, upperFirst(d.Where)+" may take up water from the air", why, do)
	case night.Given() && unit.TempRise(night.Value-dew) < dewMargin:
		d.say(DayGo, Check, "day.night-dew", "shop/night", "At night the surface may turn waxy or cloudy", fmt.Sprintf("the room falls to %s and this air's dew point is %s: %s apart, and %s is wanted", st.Temperature(night.Value), st.Temperature(dew), st.TempRise(unit.TempRise(night.Value-dew)), st.TempRise(dewMargin)),
			"keep the room warm until it has set, or wash the waxy film off with water before the next pour")
	}
}

// byWood notices wood that will warm after the pour and push its air out.
func (d *DayPlan) byWood(p *Project, pl *Plan, room unit.Temperature, measured bool) {
	s, st := &p.Shop, p.Style
	if !measured || !s.Wood.Given() || unit.TempRise(room-s.Wood.Value) < woodColder {
		return
	}
	out := unit.Volume(0)
	for i := range p.Pieces {
		w := &p.Pieces[i]
		if plan := pl.Piece(w.ID); plan != nil && !w.Sealed && plan.Density > 0 {
			out += WoodAir(plan.Volume.Value, plan.Density, s.Wood.Value, room)
		}
	}
	why := fmt.Sprintf("the wood is at %s and the room at %s: as it warms, its air comes out into the resin", st.Temperature(s.Wood.Value), st.Temperature(room))
	if out > 0 {
		why += ", about " + st.Volume(out)
	}
	d.say(DayWait, Check, "day.cold-wood", "shop/wood", "The wood is colder than the room", why, "wait until it is as warm as the room; pour while it cools, never while it warms")
}

// decide comes to the answer: what is missing counts only where nothing speaks
// against the day.
func (d *DayPlan) decide(p *Project, measured bool) {
	rank := map[DayVerdict]int{DayGo: 0, DayWarm: 1, DayWait: 2}
	for _, r := range d.Reasons {
		if rank[r.Verdict] > rank[d.Verdict] {
			d.Verdict = r.Verdict
		}
	}
	if d.Verdict == DayGo && (d.Dew.Absent || !measured) {
		d.Verdict = DayUnknown
	}
}

// findDay says what speaks against pouring, of the next pour to come, and of
// bubbles that would stay.
func (m *maker) findDay() {
	for k := range m.plan.Layers {
		l := &m.plan.Layers[k]
		if l.Status != Planned {
			continue
		}
		for _, r := range m.plan.PourDay(m.p, l.ID).Reasons {
			if f := r.Finding; !r.known {
				m.say(f.Level, f.Subject, f.Kind, f.Field, f.What, f.Why, f.Do)
			}
		}
		break
	}
	for k := range m.plan.Layers {
		l := &m.plan.Layers[k]
		s := m.p.Sheet(l.Sheet)
		if s == nil || l.Depth <= 0 || l.Status != Planned {
			continue
		}
		a := bubblesOf(m.p, l, s)
		if a.Smallest.Absent || a.Smallest.Value <= seenBubble {
			continue
		}
		m.say(Check, OfMixing, "air.stays", "sheets/"+l.Sheet+"/viscosity", "Bubbles that show will stay in "+l.Name,
			fmt.Sprintf("at %s it is as thick as %s; those under %s do not rise through %s before it is too thick", m.p.Style.Temperature(a.Resin), m.p.Style.Viscosity(a.Viscosity.Value), SmallLength(a.Smallest.Value), m.length(l.Depth)),
			"check the unit of the viscosity (1 cP is 1 mPa·s); warm the bottles, pour it in thinner layers, or let the mix stand before you pour")
	}
}

// SmallLength writes the size of a bubble or a grain: in mm to two figures, and
// under a tenth in µm.
func SmallLength(l unit.Length) string {
	switch mm := l.Millimetres(); {
	case mm >= 9.5:
		return fmt.Sprintf("%.0f mm", mm)
	case mm >= 0.095:
		return fmt.Sprintf("%.2g mm", mm)
	}
	return fmt.Sprintf("%.2g µm", float64(l)*1e6)
}
