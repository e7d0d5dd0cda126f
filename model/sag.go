package model

import (
	"math"

	"meniscus/model/unit"
)

// SagPlan is how far the floor of a mold sinks between its supports under all
// that comes to lie on it.
type SagPlan struct {
	Mass    unit.Mass            `json:"mass"`  // of resin, wood and inserts
	Load    unit.Pressure        `json:"load"`  // of them, spread over the floor
	Bears   bool                 `json:"bears"` // the floor spans from support to support; silicone does not
	Stiff   Known[unit.Pressure] `json:"stiff"` // modulus of elasticity
	Thick   Known[unit.Length]   `json:"thick"`
	Spacing unit.Length          `json:"spacing,omitempty"` // of the supports; 0 where it is not given
	Sinks   Known[unit.Length]   `json:"sinks,omitzero"`    // in the middle between two of them
	Allowed unit.Length          `json:"allowed"`
	Most    Known[unit.Length]   `json:"most"` // spacing that keeps it to that
}

// PressPlan is how hard the resin presses while it is liquid.
type PressPlan struct {
	Pour  string        `json:"pour,omitempty"` // name of the one that presses most
	Depth unit.Length   `json:"depth"`
	Floor unit.Pressure `json:"floor"` // at its foot
	Wall  unit.Force    `json:"wall"`  // outwards on each metre of wall
}

// stiffness is the modulus of elasticity of floors, in bending. Boards: EN 312
// and EN 622-5 ask for 1.6 to 2.5 GPa of particle board and MDF of this
// thickness, plywood has 4 and more. HDPE is that of a load of an hour; over a
// night it creeps to half. Glass: EN 572-1. All values from memory.
var stiffness = map[FloorKind]typical[unit.Pressure]{
	FloorBoard:     {2.5e9, 1.8e9, 4e9},
	FloorMelamine:  {2.0e9, 1.6e9, 2.8e9},
	FloorHDPE:      {0.6e9, 0.3e9, 1.1e9},
	FloorAluminium: {70e9, 68e9, 72e9},
	FloorGlass:     {70e9, 63e9, 77e9},
}

// mostSag is how far a floor may sink where nothing of that is taken off; common
// practice, no source.
const mostSag = unit.Millimetre

// widestSpan is the largest spacing of supports that is told: no mold is longer.
const widestSpan = 10 * unit.Metre

// Sag gives how far a plate sinks in the middle between two supports that it
// only rests on, under a load spread over it: 5 q L⁴/(384 E I) with I = t³/12 for
// each metre of width (the beam of every handbook of strength). A floor that goes
// on over several supports sinks less.
func Sag(load unit.Pressure, spacing unit.Length, stiff unit.Pressure, thick unit.Length) unit.Length {
	if stiff <= 0 || thick <= 0 {
		return 0
	}
	return unit.Length(5 * float64(load) * math.Pow(float64(spacing), 4) / (384 * float64(stiff) * math.Pow(float64(thick), 3) / 12))
}

// SagSpacing gives the spacing of the supports at which a plate sinks so far.
func SagSpacing(load unit.Pressure, sinks unit.Length, stiff unit.Pressure, thick unit.Length) unit.Length {
	if load <= 0 {
		return unit.Length(math.Inf(1))
	}
	return unit.Length(math.Pow(384*float64(stiff)*math.Pow(float64(thick), 3)/12*float64(sinks)/(5*float64(load)), 0.25))
}

// holding works out whether the mold holds, once its pours are planned.
func (m *maker) holding() {
	if !m.ok || len(m.layers) == 0 {
		return
	}
	m.plan.Mold.Sag = m.sag()
	m.plan.Mold.Press = m.press()
	m.leaks()
}

// sag works out the floor; nil while nothing lies on it.
func (m *maker) sag() *SagPlan {
	area := m.plan.Mold.FloorArea.Times(float64(m.fillNow.count))
	if area <= 0 || m.plan.Mold.FillLine <= 0 {
		return nil
	}
	load := unit.Mass(0)
	for k := range m.layers {
		load += m.taken[k].volume().Of(m.layers[k].known.Value)
	}
	for i := range m.plan.Float.Things {
		t := &m.plan.Float.Things[i]
		mass := t.Mass
		if !t.Known { // then as heavy as the resin, which most wood is not
			mass = unit.Mass(0)
			if w := m.plan.Piece(t.ID); w != nil {
				mass = w.Volume.Value.Of(m.resinAt(w.Bottom))
			}
		}
		load += mass
	}
	kind, _ := m.p.floor()
	load = max(0, load)
	s := &SagPlan{Mass: load, Load: load.Weight().Over(area), Thick: m.p.thick(), Spacing: m.p.Mold.Hold.Spacing.Value, Allowed: mostSag}
	if off := m.p.Finish.Bottom.Value; off > 0 {
		s.Allowed = min(s.Allowed, off)
	}
	stiff, bears := stiffness[kind]
	if !bears {
		return s
	}
	s.Bears, s.Stiff = true, stiff.known()
	s.Stiff.Source = "usual of " + string(kind) + " (from memory)"
	most := func(stiff unit.Pressure, thick unit.Length) unit.Length {
		return min(SagSpacing(s.Load, s.Allowed, stiff, thick), widestSpan)
	}
	s.Most = Known[unit.Length]{Value: most(stiff.value, s.Thick.Value), Low: most(stiff.low, s.Thick.Low), High: most(stiff.high, s.Thick.High), Typical: true}
	if s.Spacing > 0 {
		s.Sinks = Known[unit.Length]{
			Value: Sag(s.Load, s.Spacing, stiff.value, s.Thick.Value),
			Low:   Sag(s.Load, s.Spacing, stiff.high, s.Thick.High), High: Sag(s.Load, s.Spacing, stiff.low, s.Thick.Low), Typical: true,
		}
	}
	return s
}

// press finds the pour that presses most. What has set below it does not press.
func (m *maker) press() PressPlan {
	var most PressPlan
	for k := range m.layers {
		deep := unit.Length(m.taken[k].top - m.taken[k].bottom)
		if deep <= 0 {
			continue
		}
		foot := m.layers[k].known.Value.Head(deep)
		if foot > most.Floor {
			most = PressPlan{m.layers[k].layer.Name, deep, foot, (foot / 2).On(deep.By(unit.Metre))}
		}
	}
	return most
}
