package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// Rung is one step of weighing in one cup.
type Rung struct {
	What  string    // "cup", "A", "B", or what is stirred in
	Add   unit.Mass // that goes in at this step
	Gross unit.Mass // that the scale reads afterwards
	Fine  bool      // it is stirred in: Add is its own mass, which a finer scale weighs
}

// Adds writes what goes in at this step: A and B in the last digit of the scale,
// what is stirred in by 0.01 g.
func (r *Rung) Adds(s unit.Style, step unit.Mass) string {
	if r.Fine {
		step = TintGrain(s)
	}
	return s.MassTo(r.Add, step)
}

// Ladder is what the scale should read at each step, from the empty cup on. The
// readings, and what goes in of A and B, are whole numbers of the scale's last
// digit, so that each reading is the one before and what goes in, exactly. What
// is stirred in is a few grams: it goes in by its own mass, and each reading is
// the cup, A, B and all that is stirred in up to then, within half a last digit.
func (m *MixPlan) Ladder(cup unit.Mass) []Rung {
	var list []Rung
	whole := func(mass unit.Mass) unit.Mass { return m.Step.Times(math.Round(mass.Per(m.Step))) }
	var gross unit.Mass
	for _, r := range []Rung{{What: "cup", Add: whole(cup)}, {What: "A", Add: whole(m.A)}, {What: "B", Add: whole(m.B)}} {
		gross += r.Add
		r.Gross = whole(gross)
		list = append(list, r)
	}
	for _, a := range m.Additives {
		gross += a.Mass
		list = append(list, Rung{What: a.Name, Add: a.Mass, Gross: whole(gross), Fine: true})
	}
	return list
}

// ForCup is the part of a mix that one cup of it takes, with its share of what
// is stirred in.
func (m *MixPlan) ForCup(b *Batch) MixPlan {
	c := *m
	c.Total, c.A, c.B = b.Mass, b.A, b.B
	c.VolumeA, c.VolumeB = m.VolumeA.Times(b.A.Per(m.A)), m.VolumeB.Times(b.B.Per(m.B))
	c.Tint = m.Tint.Times(b.Mass.Per(m.Total))
	c.Additives = nil
	for _, a := range m.Additives {
		a.Mass = b.Mass.Times(a.Share)
		c.Additives = append(c.Additives, a)
	}
	return c
}

// InCup is what the journal says is in the cup of a layer.
type InCup struct {
	Begun bool
	Cup   unit.Mass // empty
	A, B  unit.Mass
	Gross unit.Mass // the last reading that was kept
	HasB  bool
	Last  string // ID of the entry of the last reading
}

// weighed tells whether an entry is a reading of the scale.
func (e *Entry) weighed() bool { return e.Kind == EntryWeighedA || e.Kind == EntryWeighedB }

// InCup adds up what was weighed for a layer since its last cup was begun: what
// each reading shows more than the one before is the part that it names. A
// reading whose cup was taken back counts for nothing.
func (p *Project) InCup(layer string) InCup {
	var c InCup
	for _, e := range p.standing() {
		if !e.weighed() || e.Layer != layer {
			continue
		}
		c.take(&e)
	}
	return c
}

// take adds a reading of the scale to what is in the cup, and gives by how much
// it is more than the one before.
func (c *InCup) take(e *Entry) unit.Mass {
	if e.Cup.Given() {
		*c = InCup{Begun: true, Cup: e.Cup.Value, Gross: e.Cup.Value}
	}
	if !c.Begun {
		return 0
	}
	more := e.Gross.Value - c.Gross
	c.Gross, c.Last = e.Gross.Value, e.ID
	if e.Kind == EntryWeighedA {
		c.A += more
	} else {
		c.B, c.HasB = c.B+more, true
	}
	return more
}

// WeighedEntry makes the entry of what the scale read once a part was in the
// cup of a layer; afresh begins another cup. Errors are a *Problem.
func (p *Project) WeighedEntry(layer string, kind EntryKind, gross string, afresh bool) (Entry, error) {
	const at = "journal/e/gross"
	e := Entry{Kind: kind, Layer: layer}
	e.Product, e.Lot = p.sourceOf(&e)
	var err error
	if e.Gross, err = p.Style.TakeMass(gross); err != nil {
		return e, &Problem{at, words(err)}
	}
	if g := float64(e.Gross.Value); g < someMass.low || g > someMass.high {
		return e, &Problem{at, "this should be " + someMass.words}
	}
	c := p.InCup(layer)
	if !c.Begun || afresh {
		e.Cup = p.Mixing.Cup
		if !e.Cup.Given() {
			e.Cup = unit.Taken[unit.Mass]{Written: p.Style.Mass(0)}
		}
		c = InCup{Cup: e.Cup.Value, Gross: e.Cup.Value}
	}
	switch {
	case kind == EntryWeighedB && c.A <= 0:
		return e, &Problem{at, "A goes in first: keep its reading, then that of B"}
	case e.Gross.Value < c.Cup:
		return e, &Problem{at, fmt.Sprintf("that is less than the empty cup, %s: type what the scale reads, cup and all", p.Style.Mass(c.Cup))}
	case e.Gross.Value <= c.Gross:
		return e, &Problem{at, fmt.Sprintf("nothing has gone in since %s: type what the scale reads, cup and all", p.Style.Mass(c.Gross))}
	}
	return e, nil
}

// AimState is how near a reading is to where it should be.
type AimState string

// The states of an aim, in order.
const (
	AimFar   AimState = "pour"
	AimNear  AimState = "slowly"
	AimThere AimState = "stop"
	AimOver  AimState = "too much"
)

// nearly is the share of what goes in at a step from which it is poured slowly.
const nearly = 0.05

// Aim is what a reading of the scale comes to.
type Aim struct {
	What  string    // that is being poured: "A", "B" or what is stirred in; "" once all is in
	Kind  EntryKind // under which a reading of it is kept; none for what is stirred in
	Until unit.Mass // gross
	ToGo  unit.Mass // below zero it is over
	Grain unit.Mass // to which ToGo is worth showing: ten last digits far from the target
	State AimState
	Why   string // why the aim is not the plan's, or what to do; may be empty
}

// Aim tells what is to go at a reading of the scale, with so much in the cup
// already. Where more or less A went in than planned, B follows it, so that the
// ratio holds; where both are in and off ratio, the aim is the rescue.
func (m *MixPlan) Aim(c InCup, reading unit.Mass, s unit.Style) Aim {
	write := func(x unit.Mass) string { return s.MassTo(x, m.Step) }
	var a Aim
	adds := m.A
	switch {
	case !c.HasB && c.A <= 0:
		a = Aim{What: "A", Kind: EntryWeighedA, Until: c.Cup + m.A}
		if over := reading - a.Until; over >= m.Step/2 {
			b := m.bFor(m.A + over)
			a.Why = fmt.Sprintf("%s of A too much: keep the reading, and B becomes %s instead of %s, so that the ratio holds; the mix is %s.", write(over), write(b), write(m.B), write(m.A+over+b))
		}
	case !c.HasB:
		b := m.bFor(c.A)
		a, adds = Aim{What: "B", Kind: EntryWeighedB, Until: c.Gross + b}, b
		if off := c.A - m.A; math.Abs(float64(off)) >= float64(m.Step/2) {
			a.Why = fmt.Sprintf("B is %s instead of %s because A is %s instead of %s: so the ratio holds.", write(b), write(m.B), write(c.A), write(m.A))
			if off < 0 {
				a.Why += fmt.Sprintf(" The mix is then %s short; to have all of it pour %s more of A first.", write(m.Total-c.A-b), write(-off))
			}
		}
	default:
		r, off := m.Rescue(c)
		if !off {
			return m.aimStirred(c, reading)
		}
		a, adds = Aim{What: r.Part, Kind: r.Kind, Until: c.Gross + r.Add}, r.Add
	}
	a.ToGo = a.Until - reading
	m.judge(&a, adds)
	return a
}

// aimStirred aims at the next thing to stir in whose reading is not reached yet;
// their shares are of what really is in the cup.
func (m *MixPlan) aimStirred(c InCup, reading unit.Mass) Aim {
	until := c.Gross
	for i, d := range m.Additives {
		adds := (c.A + c.B).Times(d.Share)
		until += adds
		a := Aim{What: d.Name, Until: until, ToGo: until - reading}
		if a.ToGo >= m.Step/2 || i == len(m.Additives)-1 {
			m.judge(&a, adds)
			return a
		}
	}
	return Aim{State: AimThere, Until: c.Gross, Grain: m.Step}
}

// bFor is B for so much A: the plan's for A as planned, else on ratio, in whole
// last digits.
func (m *MixPlan) bFor(a unit.Mass) unit.Mass {
	if math.Abs(float64(a-m.A)) < float64(m.Step/2) {
		return m.B
	}
	return m.Step.Times(math.Round(a.Times(m.Parts / 100).Per(m.Step)))
}

// judge tells how near an aim is, and how finely it is worth showing.
func (m *MixPlan) judge(a *Aim, adds unit.Mass) {
	a.Grain = m.Step
	switch {
	case a.ToGo <= -m.Step/2:
		a.State = AimOver
	case a.ToGo < m.Step/2:
		a.State = AimThere
	case a.ToGo <= max(adds.Times(nearly), m.Step):
		a.State = AimNear
	default:
		a.State, a.Grain = AimFar, 10*m.Step
		if a.ToGo < a.Grain {
			a.Grain = m.Step
		}
	}
}

// Shown writes what is to go, or how much is over: far from the target in tens
// of the last digit and never more than there is, near it to the last digit.
func (a *Aim) Shown(s unit.Style) string {
	n := math.Abs(a.ToGo.Per(a.Grain))
	if a.State == AimFar {
		n = math.Floor(n + 1e-9)
	} else {
		n = math.Round(n)
	}
	return s.MassTo(a.Grain.Times(n), a.Grain)
}
