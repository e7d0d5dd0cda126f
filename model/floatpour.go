package model

import (
	"math"

	"meniscus/model/unit"
)

// FloatPour is what has to be held down during one pour.
type FloatPour struct {
	Layer string      `json:"layer"`
	Name  string      `json:"name"`
	Hold  unit.Force  `json:"hold"`           // of all wood that it lifts or nearly lifts, twice the lift
	Open  bool        `json:"open,omitempty"` // it reaches wood whose weight is not known, which is not in Hold
	Stop  unit.Length `json:"stop,omitempty"` // level to stop it at, so that no wood lifts; 0 where there is none, or no need
	Adds  bool        `json:"adds,omitempty"` // stopping there makes one pour more; else the line below the next only moves
}

// leastStep is the thinnest band of resin that a pour is divided into, and how
// deep it must reach round the wood to hold it; common practice, no source.
const leastStep = 3 * unit.Millimetre

// floatPours sums up what each pour lifts, and finds where to stop it.
func (m *maker) floatPours() {
	plan := &m.plan.Float
	for k := range m.layers {
		l := m.layers[k].layer
		p := FloatPour{Layer: l.ID, Name: l.Name}
		for i := range plan.Things {
			if t := &plan.Things[i]; !t.Insert {
				p.Hold += t.Pours[k].Hold
				p.Open = p.Open || !t.Known && unit.Length(m.taken[k].top) > t.Bottom && unit.Length(m.taken[k].bottom) < t.Top
			}
		}
		if m.plan.Layers[k].Status == Planned {
			p.Stop, p.Adds = m.stopAt(k)
		}
		plan.Pours = append(plan.Pours, p)
	}
}

// stopAt finds the level at which to stop a pour so that it lifts no wood that
// nothing holds: below the lowest level that lifts one, with the margin, on a
// mark of the rule. It then sets round the wood and holds it. Inserts are left
// out: they are glued or pinned.
func (m *maker) stopAt(k int) (stop unit.Length, adds bool) {
	from, to := unit.Length(m.taken[k].bottom), unit.Length(m.taken[k].top)
	least := max(leastStep, m.leastOf(k))
	high, low := to, from+least
	wanted := false
	for i := range m.plan.Float.Things {
		t := &m.plan.Float.Things[i]
		in := &t.Pours[k]
		if t.Insert || in.By != HeldByNothing || !in.Lifts && !in.Near {
			continue
		}
		wanted = true
		high = min(high, t.Bottom+(t.LiftsAt-t.Bottom).Times(liftMargin))
		low = max(low, t.Bottom+leastStep)
	}
	if !wanted {
		return 0, false
	}
	grain := unit.Millimetre
	if m.p.Style.LengthUnit() == unit.InInches {
		grain = unit.Inch / 16
	}
	mark := func(z unit.Length) unit.Length { return grain.Times(math.Floor(z.Per(grain) + 1e-9)) }
	stop = mark(high)
	if stop < low {
		return 0, false
	}
	if m.moves(k, to-stop) {
		return stop, false
	}
	if to-stop < least {
		stop = mark(to - least)
	}
	if stop < low {
		return 0, false
	}
	return stop, true
}

// leastOf is the shallowest layer that the data sheet of a layer allows.
func (m *maker) leastOf(k int) unit.Length {
	if s := m.layers[k].sheet; s != nil && s.MinLayer.Given() {
		return s.MinLayer.Value
	}
	return 0
}

// moves tells whether the line between a layer and the next may come down by so
// much: both look alike, nothing stands on it, and the next bears being deeper.
func (m *maker) moves(k int, by unit.Length) bool {
	if k+1 >= len(m.layers) || !m.layers[k].layer.alike(m.layers[k+1].layer) || m.plan.Layers[k+1].Status != Planned {
		return false
	}
	for i := range m.p.Inserts {
		if s := &m.p.Inserts[i]; s.On == OnLayer && s.Layer == m.layers[k].layer.ID {
			return false
		}
	}
	next := m.layers[k+1].sheet
	return next != nil && next.MaxLayer.Given() && !next.tooDeep(m.plan.Layers[k+1].Depth+by)
}

// StopPour has the pour of a layer stop where its plan says that no wood lifts
// yet. What is left of it is poured once that has set, or goes with the next
// where both look alike. It is a *Problem where there is no such level.
func StopPour(p *Project, layer string) error {
	plan := Make(*p)
	k := p.LayerIndex(layer)
	if k == none || k >= len(plan.Float.Pours) || plan.Float.Pours[k].Stop <= 0 {
		return &Problem{"layers/" + layer + "/to", "there is no level to stop this pour at"}
	}
	stop := &plan.Float.Pours[k]
	s := StageProposal{Possible: true}
	for i := range plan.Layers {
		l := &plan.Layers[i]
		at := StageLayer{ID: l.ID, From: l.ID, Top: l.Top, Poured: l.Status == Poured}
		if i == k {
			at.Top = stop.Stop
		}
		s.Layers = append(s.Layers, at)
		if i == k && stop.Adds {
			s.Layers = append(s.Layers, StageLayer{From: l.ID, Top: l.Top})
			for j := range p.Inserts {
				if in := &p.Inserts[j]; in.On == OnLayer && in.Layer == layer {
					s.Inserts = append(s.Inserts, StageInsert{in.ID, len(s.Layers) - 1})
				}
			}
		}
	}
	return ApplyStages(p, s)
}

// Thing gives the thing at a path; nil where there is none.
func (f *FloatPlan) Thing(field string) *FloatThing {
	for i := range f.Things {
		if f.Things[i].Field == field {
			return &f.Things[i]
		}
	}
	return nil
}

// Pour gives what is held down in the pour of a layer; nil where it is not known.
func (f *FloatPlan) Pour(layer string) *FloatPour {
	for i := range f.Pours {
		if f.Pours[i].Layer == layer {
			return &f.Pours[i]
		}
	}
	return nil
}

// Most gives the pour in which most has to be held down; nil where none has.
func (f *FloatPlan) Most() *FloatPour {
	var most *FloatPour
	for i := range f.Pours {
		if p := &f.Pours[i]; p.Hold > 0 && (most == nil || p.Hold > most.Hold) {
			most = p
		}
	}
	return most
}

// Pull gives the layer whose pour a thing has to be held down in most, by its
// path, and with how much; "" and 0 where nothing pulls at it.
func (f *FloatPlan) Pull(field string) (layer string, hold unit.Force) {
	t := f.Thing(field)
	if t == nil {
		return "", 0
	}
	for k := range f.Pours {
		if k < len(t.Pours) && t.Pours[k].Hold > hold {
			layer, hold = f.Pours[k].Layer, t.Pours[k].Hold
		}
	}
	return layer, hold
}

// Heaviest gives the path of what needs most to hold it down, else of the first
// thing; empty where there is none.
func (f *FloatPlan) Heaviest() string {
	field, most := "", unit.Force(-1)
	for i := range f.Things {
		for k := range f.Things[i].Pours {
			if hold := f.Things[i].Pours[k].Hold; hold > most {
				field, most = f.Things[i].Field, hold
			}
		}
	}
	return field
}

// InsertsLift tells whether a pour lifts an insert that nothing holds.
func (f *FloatPlan) InsertsLift() bool {
	for i := range f.Things {
		for k := range f.Things[i].Pours {
			if in := &f.Things[i].Pours[k]; f.Things[i].Insert && in.Lifts && in.By == HeldByNothing {
				return true
			}
		}
	}
	return false
}
