package model

import (
	"time"

	"meniscus/model/unit"
)

// The lines of a pour's checklist, by the IDs under which the journal keeps them.
const (
	checkDay     = "day"
	checkLevel   = "level"
	checkRelease = "release"
	checkLeaks   = "leaks"
	checkTray    = "tray"
	checkBark    = "bark"
	checkSealed  = "sealed"
	checkFitted  = "fitted"
	checkFixed   = "fixed"
	checkHeld    = "held"
	checkWindow  = "window"
	checkClean   = "clean"
	checkCup     = "cup"
	checkGloves  = "gloves"
	checkAir     = "air"
)

// CheckLine is one line of a pour's checklist.
type CheckLine struct {
	ID     string
	Words  string
	Why    string
	Safety bool // it guards people, not only the piece
	Done   bool
	At     time.Time // when it was ticked, UTC
	Entry  string    // ID of the entry of that
}

// Checklist lists what to look at before the pour of a layer, in the order in
// which it is done; empty where there is no such layer. Only what applies to
// this pour is in it (common practice, no source). A line is ticked by an entry
// that stands in the journal, the last where there are several.
func (p *Project) Checklist(pl *Plan, layer string) []CheckLine {
	k := p.LayerIndex(layer)
	l := pl.Layer(layer)
	if l == nil || k == none {
		return nil
	}
	var list []CheckLine
	add := func(id, words, why string) {
		list = append(list, CheckLine{ID: id, Words: words, Why: why, Safety: id == checkGloves || id == checkAir})
	}
	add(checkDay, "Room, humidity and bottles looked at", p.dayWhy(pl, layer))
	wood := p.reached(pl, l)
	if k == 0 {
		add(checkLevel, "Mold level along and across, shimmed", p.levelWhy(pl))
		if p.mustCoat() {
			add(checkRelease, "Release or lining on floor and walls", "resin bonds to bare wood, board, metal and glass")
		}
		add(checkLeaks, "Mold tested for leaks", "with water, a day before the wood goes in, then dried fully: thin resin finds every gap, for hours until it has set")
		if pl.Leaks.Tray > 0 {
			add(checkTray, "A tray for "+p.Style.Volume(pl.Leaks.Tray)+" below the mold", "a leak at night then loses resin, not the floor")
		}
	}
	p.checkWood(add, pl, l, wood)
	if k > 0 {
		add(checkWindow, "Layer below sticky like tape, or sanded", "too early colours bleed, too late it does not hold")
		add(checkClean, "Layer below dry, free of dust and waxy film", "what lies on it shows for good and keeps it from bonding")
		add(checkLevel, "Mold still level", "a clamp or a bump can have moved it")
	}
	add(checkCup, "Cup, sticks and scale ready, and a second cup", "once the parts meet the clock runs")
	add(checkGloves, "Gloves, glasses and sleeves on", "resin and hardener can cause lasting skin allergy")
	add(checkAir, "Air moving; people, pets and flames away", "vapour, and solvents that burn")
	p.tick(list, layer)
	return list
}

// tick fills in what the journal says of a checklist.
func (p *Project) tick(list []CheckLine, layer string) {
	for _, e := range p.standing() {
		if e.Kind != EntryChecked || e.Layer != layer {
			continue
		}
		for i := range list {
			if list[i].ID == e.Check {
				list[i].Done, list[i].At, list[i].Entry = true, e.At.UTC(), e.ID
			}
		}
	}
}

// reaches tells whether the pour of a layer is the first to reach what stands at
// a height above the mold's floor.
func (l *LayerPlan) reaches(bottom unit.Length) bool {
	return bottom >= l.Bottom-clearEnough && bottom < l.Top-clearEnough
}

// reached lists the pieces, by index, whose undersides the pour of a layer is
// the first to reach.
func (p *Project) reached(pl *Plan, l *LayerPlan) []int {
	var list []int
	for i := range pl.Pieces {
		if w := &pl.Pieces[i]; l.reaches(w.Bottom) {
			list = append(list, i)
		}
	}
	return list
}

// checkWood adds the lines about the wood that a pour is the first to reach and
// the inserts that stand in it.
func (p *Project) checkWood(add func(id, words, why string), pl *Plan, l *LayerPlan, wood []int) {
	var bare, lifts, unknown, in, floats []string
	for _, i := range wood {
		w := &pl.Pieces[i]
		piece := p.Piece(w.ID)
		if piece == nil {
			continue
		}
		if !piece.Sealed {
			bare = append(bare, w.Name)
		}
		switch {
		case w.LiftsAt > 0 && l.Top-w.Bottom > w.LiftsAt.Times(liftMargin): // as for the finding
			lifts = append(lifts, w.Name)
		case w.Density <= 0:
			unknown = append(unknown, w.Name)
		}
	}
	for i := range pl.Inserts {
		s := &pl.Inserts[i]
		if s.Count > 0 && l.reaches(s.Bottom) {
			in = append(in, s.Name)
			if s.Floats {
				floats = append(floats, s.Name)
			}
		}
	}
	if len(wood) > 0 {
		add(checkBark, "Loose bark and dust off the wood", "it comes away in the resin and holds nothing")
	}
	if len(bare) > 0 {
		add(checkSealed, "Bare wood sealed, or left bare on purpose", listed(bare)+": bare, it drinks resin and gives bubbles")
	}
	if len(wood)+len(in) > 0 {
		add(checkFitted, "All parts laid in dry, and they fit", "with resin in the mold there is no time to saw")
	}
	if len(in) > 0 {
		why := "what is loose drifts or turns"
		if len(floats) > 0 {
			why = listed(floats) + " would float"
		}
		add(checkFixed, "Fixed in place: "+listed(in), why)
	}
	switch {
	case len(lifts) > 0:
		why := "it floats before this pour is at its height"
		if pour := pl.Float.Pour(l.ID); pour != nil && pour.Hold > 0 {
			why += "; " + p.Style.Load(pour.Hold.Mass()) + " in all, clamps or weights at hand before mixing"
		}
		add(checkHeld, "Held down from above: "+listed(lifts), why)
	case len(unknown) > 0:
		add(checkHeld, "Held down from above: "+listed(unknown), "whether it floats is not known without its weight")
	}
}

// levelWhy says what being out of level does, and where to put shims where that
// is known.
func (p *Project) levelWhy(pl *Plan) string {
	s := &p.Shop
	switch l := pl.Mold.Level; {
	case l != nil && len(l.Shims()) > 0:
		return l.shimWords(p.Style)
	case l == nil && s.TiltRise.Value != 0 && s.TiltOver.Given():
		return "the bench rises " + p.Style.Length(s.TiltRise.Value) + " over " + p.Style.Length(s.TiltOver.Value) + ": the piece comes out as a wedge"
	}
	return "resin finds its own level: a tilt comes out as a wedge"
}

// dayWhy says in few words what the day is like.
func (p *Project) dayWhy(pl *Plan, layer string) string {
	day := pl.PourDay(p, layer)
	switch {
	case len(day.Reasons) > 0:
		return "now: " + string(day.Verdict) + "; " + lowerFirst(day.Reasons[0].Finding.What)
	case day.Verdict == DayUnknown:
		return "read the room and its humidity first"
	}
	return "now: go; above the dew point by " + p.Style.TempRise(day.Margin.Value)
}

// findChecklist tells, of a maker who goes by the checklist, which of the lines
// that guard people are still open once a part is in the cup. One who ticks
// nothing is not asked.
func (m *maker) findChecklist() {
	for k := range m.plan.Layers {
		l := &m.plan.Layers[k]
		if l.Status != Planned || !m.p.InCup(l.ID).Begun {
			continue
		}
		ticked := false
		var open []string
		for _, c := range m.p.Checklist(&m.plan, l.ID) {
			ticked = ticked || c.Done
			if c.Safety && !c.Done {
				open = append(open, lowerFirst(c.Words))
			}
		}
		if ticked && len(open) > 0 {
			m.say(Check, OfMixing, "check.open", "layers/"+l.ID, "Not ticked yet, with resin in the cup: "+listed(open), "gloves guard your skin and fresh air your lungs", "see to it, and tick it on the checklist")
		}
	}
}
