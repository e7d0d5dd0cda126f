package model

import (
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// FloatPlan is what the resin does to the wood and the inserts that lie in it,
// pour by pour. While a pour is liquid only it lifts: what was poured before has
// set by then and holds what it has risen round.
type FloatPlan struct {
	Things []FloatThing `json:"things"`
	Pours  []FloatPour  `json:"pours"`
}

// HeldBy tells what keeps a thing down while a pour is liquid.
type HeldBy string

// What can hold a thing. One that only lies there is held by nothing: that it
// sticks to a tacky layer is not relied on.
const (
	HeldByNothing HeldBy = ""
	HeldByBond    HeldBy = "stuck down"      // for as long as that holds
	HeldBySet     HeldBy = "the resin below" // an earlier pour has set above its underside
)

// FloatThing is one piece of wood or one kind of insert. Forces are of all of
// that kind together, net of their own weight.
type FloatThing struct {
	ID      string      `json:"id"`
	Name    string      `json:"name"`
	Field   string      `json:"field"` // path of it
	Insert  bool        `json:"insert,omitempty"`
	Count   int         `json:"count"`
	Known   bool        `json:"known"` // its weight is known; without it nothing below is
	Mass    unit.Mass   `json:"mass,omitempty"`
	Bottom  unit.Length `json:"bottom"`
	Top     unit.Length `json:"top"`
	LiftsAt unit.Length `json:"liftsAt,omitempty"` // level above the floor at which it lifts, if nothing holds it; 0 never
	AtOnce  unit.Force  `json:"atOnce"`            // lift if all were poured at once, up to the fill line
	Pours   []FloatIn   `json:"pours"`             // one for each pour of the plan
}

// FloatIn is what one pour does to a thing while it is liquid.
type FloatIn struct {
	Reaches bool        `json:"reaches,omitempty"` // it touches the thing
	By      HeldBy      `json:"by,omitempty"`
	Lift    unit.Force  `json:"lift"`            // the greatest while it rises; below 0 the thing is pressed down. Of one that is stuck down: should resin get below
	Lifts   bool        `json:"lifts,omitempty"` // it lifts what is held by nothing
	Near    bool        `json:"near,omitempty"`  // it comes so close to lifting it that the figures cannot tell
	Hold    unit.Force  `json:"hold,omitempty"`  // to hold it down with, twice the lift; where that is near, of all poured at once or of wood that much lighter
	Curve   []LiftPoint `json:"-"`
}

// LiftPoint is the net lift at one level of the resin, above the mold's floor.
type LiftPoint struct {
	Level unit.Length `json:"level"`
	Lift  unit.Force  `json:"lift"`
}

// holdFactor is by how much more than it is lifted a thing is held down; common
// practice, no source.
const holdFactor = 2

// liftMargin is how much of the level that lifts a thing a pour may come to and
// still count as not lifting it: a slab's density is known to a tenth or so;
// common practice, no source.
const liftMargin = 0.85

// Lift is the net force by Archimedes on a body of a mass that a liquid covers a
// volume of: (ρ V - m) g, below 0 where it is pressed down.
func Lift(rho unit.Density, covered unit.Volume, mass unit.Mass) unit.Force {
	return (covered.Of(rho) - mass).Weight()
}

// floating is a thing as the arithmetic sees it.
type floating struct {
	body        *placed
	open, blind []*placed // voids that fill from below, and such as only fill from above
	mass        unit.Mass // of all
	bond        bool
}

func (f *floating) bottom() unit.Length { return f.body.solid.Bottom() }
func (f *floating) top() unit.Length    { return f.body.solid.Top() }

// covered is how much of the thing lies between two levels. A hole that opens
// only at the top stays dry, and so lifts, until the resin runs in there.
func (f *floating) covered(lo, hi unit.Length) unit.Volume {
	between := func(p *placed) unit.Volume {
		return (p.solid.VolumeBelow(hi) - p.solid.VolumeBelow(lo)).Times(math.Abs(p.count))
	}
	v := between(f.body)
	for _, p := range f.open {
		v -= between(p)
	}
	if hi >= f.top() {
		for _, p := range f.blind {
			v -= between(p)
		}
	}
	return v
}

// area is the section of the thing at a level.
func (f *floating) area(z unit.Length) unit.Area {
	a := f.body.solid.AreaAt(z).Times(math.Abs(f.body.count))
	for _, p := range f.open {
		if z >= p.solid.Bottom() && z < p.solid.Top() {
			a -= p.solid.AreaAt(z).Times(math.Abs(p.count))
		}
	}
	return a
}

// lift is the net lift by resin that is liquid between two levels. Where the
// thing stands in what has set below it has no underside in the liquid: of the
// lift of what is covered, the pressure on that missing face is taken off.
func (f *floating) lift(rho unit.Density, from, z unit.Length) unit.Force {
	if z <= from || z <= f.bottom() {
		return Lift(0, 0, f.mass)
	}
	v := f.covered(max(from, f.bottom()), z)
	if from > f.bottom()+clearEnough {
		v -= f.area(from).By(z - from)
	}
	return Lift(rho, v, f.mass)
}

// lifts gives the level at which a liquid from below its underside up lifts the
// thing; false where it never does.
func (f *floating) lifts(rho unit.Density) (unit.Length, bool) {
	lo, hi := f.bottom(), f.top()
	dry := hi - (hi-lo)*1e-9 // before the holes in its top fill
	if rho <= 0 || f.mass <= 0 || f.lift(rho, lo, dry) <= 0 {
		return 0, false
	}
	z, found := shape.Root(func(z float64) float64 { return float64(f.lift(rho, lo, unit.Length(z))) }, float64(lo), float64(dry), 1e-9)
	return unit.Length(z), found
}

// pieceFloating makes a piece ready, of a mass that may be 0.
func (m *maker) pieceFloating(w *stackPiece, mass unit.Mass) floating {
	f := floating{body: &m.fillNow.parts[w.body], mass: mass, bond: w.piece.Bedded}
	for _, k := range w.voids {
		p := &m.fillNow.parts[k]
		if p.solid.Bottom() > f.bottom()+clearEnough {
			f.blind = append(f.blind, p)
		} else {
			f.open = append(f.open, p)
		}
	}
	return f
}

// floats works out what floats, once wood, inserts and pours are planned.
func (m *maker) floats() {
	if !m.ok || len(m.layers) == 0 {
		return
	}
	plan := &m.plan.Float
	for k := range m.pieces {
		w, p := &m.pieces[k], &m.plan.Pieces[k]
		f := m.pieceFloating(w, w.piece.Weight.Or(p.Volume.Value.Of(p.Density)))
		plan.Things = append(plan.Things, m.floatThing(FloatThing{ID: p.ID, Name: p.Name, Field: "pieces/" + p.ID, Count: 1, Known: p.Density > 0}, &f))
	}
	for i := range m.plan.Inserts {
		s, p := &m.p.Inserts[i], &m.plan.Inserts[i]
		k := m.insert[i]
		if k == none || s.Count == 0 {
			continue
		}
		rho := s.density(p.Each)
		each := s.Mass.Or(p.Each.Of(rho))
		f := floating{body: &m.fillNow.parts[k], mass: each.Times(float64(s.Count)), bond: s.Fixed}
		plan.Things = append(plan.Things, m.floatThing(FloatThing{ID: p.ID, Name: p.Name, Field: "inserts/" + p.ID, Insert: true, Count: s.Count, Known: rho > 0}, &f))
	}
	m.floatPours()
}

// curvePoints is at how many levels of a pour the lift is given.
const curvePoints = 17

// floatThing works out one thing.
func (m *maker) floatThing(t FloatThing, f *floating) FloatThing {
	t.Bottom, t.Top = f.bottom(), f.top()
	t.Pours = make([]FloatIn, len(m.layers))
	if t.Known {
		t.Mass = f.mass
		t.AtOnce = f.lift(m.resinAt(t.Bottom), t.Bottom, m.plan.Mold.FillLine)
		if z, found := f.lifts(m.resinAt(t.Bottom)); found {
			t.LiftsAt = z
		}
	}
	for k := range m.layers {
		from, to := unit.Length(m.taken[k].bottom), unit.Length(m.taken[k].top)
		in := &t.Pours[k]
		in.Reaches = to > from && to > t.Bottom+clearEnough && from < t.Top-clearEnough
		if !in.Reaches {
			continue
		}
		switch {
		case from > t.Bottom+clearEnough:
			in.By = HeldBySet
		case f.bond:
			in.By = HeldByBond
		}
		if t.Known {
			m.floatIn(in, &t, f, k, from, to)
		}
	}
	return t
}

// floatIn works out what one pour does to one thing.
func (m *maker) floatIn(in *FloatIn, t *FloatThing, f *floating, k int, from, to unit.Length) {
	rho := m.layers[k].known.Value
	at := func(z unit.Length) unit.Force { return f.lift(rho, from, z) }
	for i := range curvePoints {
		z := from + (to - from).Times(float64(i)/(curvePoints-1))
		in.Curve = append(in.Curve, LiftPoint{z, at(z)})
	}
	in.Lift = at(to)
	if t.Top <= to { // where it is just about to be covered it may be lifted most
		in.Lift = max(in.Lift, at(t.Top-(t.Top-t.Bottom)*1e-9))
	}
	if in.By == HeldBySet {
		return
	}
	in.Lifts = in.Lift > 0
	in.Near = !in.Lifts && t.LiftsAt > 0 && to-t.Bottom > (t.LiftsAt-t.Bottom).Times(liftMargin)
	switch {
	case in.Lifts:
		in.Hold = in.Lift.Times(holdFactor)
	case in.Near:
		light := f.lift(rho, from, to) + f.mass.Times(1-liftMargin).Weight() // should it weigh that much less
		in.Hold = max(0, t.AtOnce, light).Times(holdFactor)
	}
}
