package model

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"meniscus/model/unit"
)

// densityApart is how far a piece's density may lie from what is typical of its
// species before one of the two is doubted: two and a half times what trees vary
// by.
const densityApart = 2.5 * gravityVaries

// findNature looks at what the wood is like: its moisture, its movement, its
// pores and its warmth.
func (m *maker) findNature() {
	read := false
	for k := range m.pieces {
		w := m.pieces[k].piece
		n, ok := m.plan.natureAlone(m.p, w.ID)
		if !ok {
			continue
		}
		at, name := "pieces/"+w.ID, m.plan.Pieces[k].Name
		if w.Nature.Moisture.Given() {
			read = true
			m.findMoisture(at, name, w, &n)
		}
		m.findSpecies(at, name, w, &m.plan.Pieces[k], &n)
		m.findBare(at, name, w, &m.plan.Pieces[k], &n)
	}
	if !read {
		return
	}
	if !m.p.Shop.Humidity.Given() {
		m.say(Note, OfMold, "wood.shop-air", "shop/humidity", "Whether the wood has settled in the shop is not known", "the shop's humidity was not read", "hang a hygrometer beside the wood")
	}
	if !m.p.Shop.Theirs.Humidity.Given() {
		m.say(Note, OfMold, "wood.their-air", "shop/theirs/humidity", "What room the piece goes to is not known", "its wood comes to what that room's air makes it; until it is said, a heated home in winter stands in: "+m.p.Style.Share(typicalHome.low)+" to "+m.p.Style.Share(typicalHome.high), "ask how humid it is there in winter")
	}
	if wood := m.p.Shop.Wood; wood.Given() && wood.Value < unit.Celsius(0) {
		m.say(Check, OfMold, "wood.frozen", "shop/wood", "The wood is frozen", "at "+m.p.Style.Temperature(wood.Value)+" a moisture meter reads far too little", "let it thaw and read it again")
	}
}

// findMoisture holds the meter's reading against what resin and room want.
func (m *maker) findMoisture(at, name string, w *Piece, n *NaturePlan) {
	st, field := m.p.Style, at+"/nature/moisture"
	reading := n.Moisture.Value
	do := "let it dry in a warm room with air all round and weigh it each week: it has settled when it loses less than 0.1 %; never in an oven"
	switch {
	case n.odd():
		m.say(Check, OfMold, "piece.moisture-odd", field, name+" cannot be as wet as was read", "the meter says "+st.Share(reading)+"; it reads well from about 6 to 30 %", "read it again on a fresh cut, away from metal, with the meter set to its species")
		return
	case reading > wetFrom:
		m.say(Stop, OfMold, "piece.wet", field, name+" must dry before any resin", "the meter says "+st.Share(reading)+"; "+st.Share(dryMost)+" is the usual most", do)
	case reading > dryMost:
		m.say(Check, OfMold, "piece.wet", field, name+" should dry further first", "the meter says "+st.Share(reading)+"; "+st.Share(dryMost)+" is the usual most", do)
	}
	if n.Moves.Absent {
		m.say(Check, OfMold, "piece.shrinkage", at+"/species", name+" cannot be found in the table of woods", "so how much it will move is not known", "choose the nearest in the list, or give its shrinkage by hand")
		return
	}
	if n.Shows {
		where, level := "in the room it goes to", Check
		if n.Theirs.Typical { // nobody said that it goes there
			where, level = "in a heated home", Note
		}
		do := "let it settle in such air before you cut it to size, and leave its far edge free"
		m.say(level, OfMold, "piece.moves", field, name+m.willMove(n.Moves.Value),
			fmt.Sprintf("%s wide at %s, it comes to %s %s; %s", m.length(n.Width), st.Share(reading), st.Share(n.Theirs.Value), where, asPhrase(n.AtBond)), do)
	}
}

func (m *maker) willMove(by unit.Length) string {
	if by < 0 {
		return " will shrink by " + m.length(-by)
	}
	return " will swell by " + m.length(by)
}

// findSpecies doubts a density that its species hardly has, and tells of wood
// that resin does not hold to.
func (m *maker) findSpecies(at, name string, w *Piece, p *PiecePlan, n *NaturePlan) {
	if n.Species == nil {
		return
	}
	usual := n.Species.usualDensity(w.Nature.Moisture.Or(typicalMoisture.value))
	if p.Density > 0 && !n.odd() {
		if apart := p.Density.GramsPerMillilitre()/usual.Value.GramsPerMillilitre() - 1; math.Abs(apart) > densityApart {
			m.say(Check, OfMold, "piece.density-species", at+"/species", name+" can hardly be "+n.Species.Name+" by its density",
				fmt.Sprintf("it comes to %s, typical is %s: %+.0f %%", m.p.Style.Density(p.Density), m.p.Style.Density(usual.Value), 100*apart),
				"check its species, its weight and its sizes; a knot, much water or a hollow would explain it")
		}
	}
	if n.Species.Oily {
		m.say(Note, OfMold, "piece.oily", at+"/species", name+" may shed resin", n.Species.Name+" has oil or resin of its own in it", "sand its edges fresh, wipe them as the data sheet says, and pour on the same day")
	}
}

// findBare tells of wood that will blow bubbles: open and not sealed, or warming
// while it is poured upon.
func (m *maker) findBare(at, name string, w *Piece, p *PiecePlan, n *NaturePlan) {
	l := m.plan.firstOn(p)
	if w.Sealed || l == nil || l.Status != Planned {
		return
	}
	if n.Seal.Needed {
		why := "it is bare, and its pores are open: they give off air and drink resin"
		if w.pores() == PoresPunky {
			why = "it is bare and punky: it gives off air and drinks resin"
		}
		m.say(Check, OfMold, "piece.bare", at+"/sealed", name+" will blow bubbles unless sealed", why, "brush on a seal coat first, end grain twice, and tick it as sealed")
	}
	warms := unit.TempRise(0)
	if n.Air.Breath == BreathOut {
		warms = unit.TempRise(n.Air.To - n.Air.From)
	}
	if warms < breathes || m.p.Shop.Wood.Given() && warms >= woodColder { // said of the day already
		return
	}
	why := asPhrase(n.Air.Why)
	if n.Air.Moves > 0 {
		why += ": about " + m.vol(n.Air.Moves) + " of air, as " + ManyBubbles(n.Air.Bubbles) + " bubbles of " + SmallLength(n.Air.Bubble)
	}
	m.say(Check, OfMold, "piece.warms", "shop/wood", name+" will push air into the pour", why, "pour while the wood cools, or seal it first")
}

// ManyBubbles writes a count to two figures: 87,000.
func ManyBubbles(n float64) string {
	if n < 1 {
		return "no"
	}
	step := math.Pow10(max(0, int(math.Floor(math.Log10(n)))-1))
	text := strconv.Itoa(int(math.Round(n/step) * step))
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}

// unweighed says what is known of the density of a piece that was neither
// weighed nor given one.
func (m *maker) unweighed(p *PiecePlan) string {
	const silent = "neither a weight nor a density is given"
	if t := p.Typical; t.Value > 0 {
		return fmt.Sprintf("%s; %s it would be %s, from tree to tree %s to %s", silent, t.Source, m.p.Style.Density(t.Value), m.p.Style.Density(t.Low), m.p.Style.Density(t.High))
	}
	return silent + ", and most wood is lighter than resin"
}

// asPhrase makes a part of a longer sentence of a sentence.
func asPhrase(sentence string) string {
	if sentence == "" {
		return ""
	}
	return strings.ToLower(sentence[:1]) + strings.TrimSuffix(sentence[1:], ".")
}
