package model

import (
	"errors"

	"meniscus/model/unit"
)

// MixPart is one part of what is mixed for a layer, and where it goes.
type MixPart struct {
	Kind  AllowanceKind // empty for the layer itself and the margin
	Label string
	Mass  unit.Mass
}

// Parts divides the mixed total: what the layer takes, each allowance, and the
// margin that makes it suffice with the chosen confidence, with the rounding to
// the scale. They add up to the total. There are none while nothing is mixed.
func (l *LayerPlan) Parts() []MixPart {
	if l.Mix.Total <= 0 {
		return nil
	}
	net := l.Net.Of(l.Density.Value)
	parts := []MixPart{{Label: "the layer itself", Mass: net}}
	rest := l.Mix.Total - net
	for _, a := range l.Allowances {
		parts = append(parts, MixPart{a.Kind, a.Label, a.Mass})
		rest -= a.Mass
	}
	return append(parts, MixPart{Label: "margin to be sure", Mass: rest})
}

// MoreFor95 is how much more would be mixed to suffice in 95 % of all cases;
// negative when more than that is mixed now.
func (m *MixPlan) MoreFor95() unit.Mass { return m.At95 - m.Total }

// Sureness is how sure a mix is to suffice: the maker's choice, or the usual one.
func (m *Mixing) Sureness() unit.Share { return m.Confidence.Or(typicalConfident) }

// Allowance gives one allowance of a layer; false when it takes none.
func (l *LayerPlan) Allowance(kind AllowanceKind) (Allowance, bool) {
	for _, a := range l.Allowances {
		if a.Kind == kind {
			return a, true
		}
	}
	return Allowance{}, false
}

// MixField is the path of the field that keeps a layer from being mixed; empty
// when nothing does.
func (p *Project) MixField(l *LayerPlan) string {
	if l.Mix.Ready {
		return ""
	}
	sheet := p.Sheet(l.Sheet)
	var missing *Problem
	switch {
	case l.Depth <= 0:
		return "layers/" + l.ID + "/to"
	case sheet == nil:
		return "layers/" + l.ID + "/sheet"
	}
	if _, err := sheet.PartsByWeight(); errors.As(err, &missing) {
		return missing.Field
	}
	return "mold/depth"
}

// Room gives the resin, and its mass, that a layer would take if its top were
// at a level, with nothing added for wood and cup. Both are 0 while the mold is
// not measured.
func (pl *Plan) Room(layer string, level unit.Length) (unit.Volume, unit.Mass) {
	l := pl.Layer(layer)
	if l == nil || pl.Drawing.Fill == nil {
		return 0, 0
	}
	v := max(0, pl.Drawing.Fill.Between(l.Bottom, level))
	return v, v.Of(l.Density.Value)
}

// CopySheet adds a copy of a data sheet and gives its ID; empty when there is
// no such sheet.
func (p *Project) CopySheet(id string) string {
	s := p.Sheet(id)
	if s == nil {
		return ""
	}
	c := *s
	c.ID, c.Name = p.NewID("s"), s.Name+" (copy)"
	p.Sheets = append(p.Sheets, c)
	return c.ID
}

// TakenBack tells which entries of the journal have been withdrawn by a later
// one.
func (p *Project) TakenBack() map[string]bool {
	gone := map[string]bool{}
	for _, e := range p.Journal {
		if e.Kind == EntryWithdrawn {
			gone[e.Of] = true
		}
	}
	return gone
}
