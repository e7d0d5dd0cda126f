package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// DryVerdict answers whether wood is dry enough to go into resin and out to its
// owner.
type DryVerdict string

// The answers.
const (
	DryEnough  DryVerdict = "yes"
	DryNotYet  DryVerdict = "not yet"
	DryTooMuch DryVerdict = "too dry"
	DryUnknown DryVerdict = "not known"
)

// NaturePlan is what follows from a piece's wood: whether it is dry enough, what
// it will do after delivery, and what its pores do to the pour.
type NaturePlan struct {
	Species *Species // nil where the table does not have it
	Near    bool     // the maker's words can mean another wood than that

	Moisture Known[unit.Share] // as the meter says
	AtRest   Known[unit.Share] // humidity in which such wood neither dries nor takes up water, at the shop's temperature
	Shop     Known[unit.Share] // what wood comes to in the shop
	Theirs   Known[unit.Share] // and in the room it will live in
	ShopAt   Climate
	TheirsAt Climate
	Settles  string // how the reading stands to the shop's air

	Dry      DryVerdict
	DryWhy   string
	DryLevel Level // how grave that is; empty where it is dry enough or not known

	Width  unit.Length // across the grain
	Moves  Known[unit.Length]
	Rate   float64     // of its width to a point of moisture, as used
	Words  string      // what it will do
	AtBond string      // and what that means for the bond
	Each   unit.Length // half of the movement: at each of two bonds
	Shows  bool        // it moves so far that a bond shows it

	Air  AirPlan
	Seal SealPlan
}

// What decides whether wood is dry enough (common practice, no source): 8 to
// 12 % is the usual advice, heated homes bring wood to 6 to 8 %, above 15 % the
// water troubles the resin too, and two points are what a meter and a hygrometer
// can tell apart.
const (
	dryUsual  = unit.Share(0.08)
	dryMost   = unit.Share(0.12)
	wetFrom   = unit.Share(0.15)
	dryLeast  = unit.Share(0.06)
	dryApart  = unit.Share(0.02)
	pinMeter  = unit.Share(0.015) // a pin meter's ±
	movesMuch = unit.Millimetre   // that shows at a bond
	movesSeen = unit.Length(5e-5)
)

// typicalHome is what wood comes to in a heated home in winter, and homeWarmth
// how warm that is (common practice, no source).
var (
	typicalHome = typical[unit.Share]{0.07, 0.06, 0.08}
	homeWarmth  = unit.Celsius(21)
)

// Nature tells what follows from the wood of a piece; false while the piece is
// not measured.
func (pl *Plan) Nature(p *Project, piece string) (NaturePlan, bool) {
	n, ok := pl.natureAlone(p, piece)
	if ok && n.Seal.Sheet != "" {
		n.Seal.All = pl.sealAll(p)
	}
	return n, ok
}

// natureAlone is Nature without what other pieces take.
func (pl *Plan) natureAlone(p *Project, piece string) (NaturePlan, bool) {
	w, plan := p.Piece(piece), pl.Piece(piece)
	if w == nil || plan == nil {
		return NaturePlan{}, false
	}
	n := NaturePlan{Width: plan.Grain.Across}
	if s, near, ok := SpeciesOf(w.Species); ok {
		n.Species, n.Near = &s, near
	}
	n.rooms(p, w)
	n.moves(w, p.Style)
	n.dry(p.Style)
	n.Air, n.Seal = pl.airOf(p, w, plan), pl.sealOf(w, plan)
	return n, true
}

// rooms holds the meter's reading against the two rooms.
func (n *NaturePlan) rooms(p *Project, w *Piece) {
	room, _ := p.room()
	n.ShopAt = Climate{unit.Taken[unit.Temperature]{Value: room}, p.Shop.Humidity}
	n.TheirsAt = Climate{unit.Taken[unit.Temperature]{Value: p.Shop.Theirs.Temperature.Or(homeWarmth)}, p.Shop.Theirs.Humidity}
	n.Shop = Known[unit.Share]{Absent: true, Source: "read the shop's humidity"}
	if p.Shop.Humidity.Given() {
		n.Shop = equilibriumOf(room, p.Shop.Humidity.Value)
	}
	n.Theirs = typicalHome.known()
	n.Theirs.Source = "a heated home in winter, common practice"
	if h := n.TheirsAt.Humidity; h.Given() {
		if m := equilibriumOf(n.TheirsAt.Temperature.Value, h.Value); !m.Absent {
			n.Theirs = m
		}
	}
	n.Moisture = Known[unit.Share]{Absent: true, Source: "read it with a moisture meter"}
	n.AtRest = Known[unit.Share]{Absent: true}
	if m := w.Nature.Moisture; m.Given() {
		n.Moisture = Known[unit.Share]{Value: m.Value, Low: max(0, m.Value-pinMeter), High: m.Value + pinMeter, Source: "yours"}
		if h, ok := HumidityFor(room, m.Value); ok {
			n.AtRest = exact(h, moistureLaw)
		}
	}
	if n.Moisture.Absent || n.Shop.Absent || n.odd() {
		return
	}
	switch apart := n.Moisture.Value - n.Shop.Value; {
	case apart > pinMeter:
		n.Settles = "It still dries in your shop."
	case apart < -pinMeter:
		n.Settles = "It still takes up water in your shop."
	default:
		n.Settles = "It has settled in your shop, as far as a meter can tell."
	}
}

// percents writes from one share to another.
func percents(from, to unit.Share) string {
	return fmt.Sprintf("%.0f to %.0f %%", from.Percent(), to.Percent())
}

// odd tells of a reading that no meter gives of seasoned wood.
func (n *NaturePlan) odd() bool {
	return !n.Moisture.Absent && (n.Moisture.Value <= 0 || n.Moisture.Value > fibreSaturation)
}

// moves works out by how much the piece moves on its way to the room it will
// live in, with the band of the meter, of that room and of how much one tree
// differs from another.
func (n *NaturePlan) moves(w *Piece, st unit.Style) {
	n.Moves = Known[unit.Length]{Absent: true}
	by, ok := w.shrinkageOf(n.Species)
	switch {
	case n.Moisture.Absent || n.odd():
		n.Moves.Source = "Read its moisture, then it says here by how much it moves."
		return
	case !ok:
		n.Moves.Source = "Choose its species or give its shrinkage, then it says here by how much it moves."
		return
	}
	m, to := n.Moisture.Value, n.Theirs.Value
	moves := by.Moves(n.Width, m, to)
	step := unit.Percent
	if m > 0.10 {
		step = -step
	}
	n.Rate = math.Abs(by.Moves(1, m, m+step).Per(unit.Metre))
	if apart := math.Abs((to - m).Percent()); apart > 1e-9 {
		n.Rate = math.Abs(by.Moves(1, m, to).Per(unit.Metre)) / apart
	}
	meter, room := float64(pinMeter.Percent())/sqrt3, float64(n.Theirs.sigma().Percent())
	points := n.Width.Times(n.Rate * math.Hypot(meter, room))
	tree := moves.Times(shrinkageVaries)
	if w.Nature.Radial.Given() || w.Nature.Tangential.Given() {
		tree = 0
	}
	half := unit.Length(quantile5 * math.Hypot(float64(points), float64(tree)))
	n.Moves = Known[unit.Length]{Value: moves, Low: moves - half, High: moves + half, Typical: n.Theirs.Typical, Source: n.source(w, by)}
	n.say(w, st)
}

// source tells whose figures a movement rests on.
func (n *NaturePlan) source(w *Piece, by Shrinkage) string {
	if w.Nature.Radial.Given() || w.Nature.Tangential.Given() || n.Species == nil {
		return "by your own shrinkage"
	}
	text := "by the Wood Handbook's figures for " + n.Species.Name
	from := ColumnRates
	if by.Rate == 0 {
		from = columnsShrink
	}
	if n.Species.Memory&from != 0 {
		text += ", a value from memory"
	}
	return text
}

// say puts the movement into words.
func (n *NaturePlan) say(w *Piece, st unit.Style) {
	by := n.Moves.Value
	size := by
	if by < 0 {
		size = -by
	}
	n.Each, n.Shows = size/2, size > movesMuch
	both := w.Nature.Bond == BondBoth
	switch {
	case size < movesSeen:
		n.Words, n.AtBond = "It will stay as wide as it is", "Nothing to see at the bond."
	case by < 0:
		n.Words = "It will shrink by " + st.Length(size) + " across"
		n.AtBond = "Bonded at one edge, its far edge comes in by " + st.Length(size) + " and the bond holds; where that edge is held too, a gap of up to as much, or a split."
		if both {
			n.AtBond = "Held at both edges: a gap of up to " + st.Length(size) + " at one bond or " + st.Length(n.Each) + " at each, or a split in the wood."
		}
	default:
		n.Words = "It will swell by " + st.Length(size) + " across"
		n.AtBond = "Bonded at one edge, its far edge goes out by " + st.Length(size) + "; leave it that room."
		if both {
			n.AtBond = "Held at both edges it presses " + st.Length(n.Each) + " at each: it bows, or shears off the resin."
		}
	}
}

// dry answers whether the wood is dry enough.
func (n *NaturePlan) dry(st unit.Style) {
	m, theirs := n.Moisture, n.Theirs
	points := func(s unit.Share) string { return fmt.Sprintf("%.1f points", math.Abs(s.Percent())) }
	const there = "in the room it goes to"
	apart := m.Value - theirs.Value
	switch {
	case m.Absent:
		n.Dry, n.DryWhy = DryUnknown, "Read it with a moisture meter, in three places and on a fresh cut."
	case n.odd():
		n.Dry, n.DryWhy = DryUnknown, "No meter reads this well: it is good from about 6 to 30 %."
	case m.Value > wetFrom:
		n.Dry, n.DryWhy = DryNotYet, "Above "+st.Share(wetFrom)+" its water troubles the resin as well: bubbles, a milky edge."
	case m.Value > dryMost:
		n.Dry, n.DryWhy = DryNotYet, percents(dryUsual, dryMost)+" is the usual advice for wood in resin."
	case !theirs.Typical && apart > dryApart:
		n.Dry, n.DryWhy = DryNotYet, "It is "+points(apart)+" wetter than it will be "+there+"."
	case !theirs.Typical && apart < -dryApart:
		n.Dry, n.DryWhy = DryTooMuch, "It is "+points(apart)+" drier than it will be "+there+"."
	case theirs.Typical && m.Value < dryLeast:
		n.Dry, n.DryWhy = DryTooMuch, "Heated homes bring wood to "+percents(typicalHome.low, typicalHome.high)+", so it will swell."
	case theirs.Typical:
		n.Dry, n.DryWhy = DryEnough, percents(dryUsual, dryMost)+" is the usual advice; say what room it goes to, to be surer."
	default:
		n.Dry, n.DryWhy = DryEnough, "It is within "+points(dryApart)+" of what it will be "+there+"."
	}
	switch {
	case n.Dry == DryNotYet && m.Value > wetFrom:
		n.DryLevel = Stop
	case n.Dry == DryNotYet || n.Dry == DryTooMuch:
		n.DryLevel = Check
	}
}
