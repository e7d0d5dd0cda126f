package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// Vessel is the maker's own cup to measure parts in by volume, by its inside
// sizes: round, with a flat floor, straight or evenly tapered.
type Vessel struct {
	Floor unit.Dim                `json:"floorAcross,omitzero"` // diameter at the floor
	Brim  unit.Dim                `json:"brimAcross,omitzero"`  // diameter at the brim; not given means that it is straight
	Tall  unit.Dim                `json:"cupTall,omitzero"`     // upright, from the floor to the brim
	Lined unit.VolumeUnit         `json:"lineUnit,omitempty"`   // the unit of its own lines; empty for a cup that has none
	Step  unit.Taken[unit.Volume] `json:"lineStep,omitzero"`    // from one of its lines to the next
	Reads unit.Taken[unit.Volume] `json:"lineReads,omitzero"`   // one of its lines, to check them by
	At    unit.Dim                `json:"lineAt,omitzero"`      // how high that line is, upright
}

// Given tells whether the cup's sizes are complete.
func (v *Vessel) Given() bool { return v.Floor.Value > 0 && v.Tall.Value > 0 }

// lean is by how much the radius grows for each length upwards, a plain ratio.
func (v *Vessel) lean() float64 {
	return (v.Brim.Or(v.Floor.Value) - v.Floor.Value).Per(2 * v.Tall.Value)
}

// radius gives the inside radius at a height above the floor.
func (v *Vessel) radius(h unit.Length) unit.Length { return v.Floor.Value/2 + h.Times(v.lean()) }

// Volume gives what the cup takes up to a height above its floor: the frustum
// of a cone, π h (r₀² + r₀ r + r²)/3. Below the floor it is nothing, and above
// the brim what a taller cup of the same walls would take.
func (v *Vessel) Volume(h unit.Length) unit.Volume {
	h = max(0, h)
	r0, r := v.Floor.Value/2, v.radius(h)
	return (r0.By(r0) + r0.By(r) + r.By(r)).By(h).Times(math.Pi / 3)
}

// Height gives how high a volume stands in the cup, upright. The cone that the
// walls are part of has r³ = r₀³ + 3 k V/π, where k is their lean; then
// h = 3 V/(π (r₀² + r₀ r + r²)), which also holds for a straight cup. More than
// walls that lean inwards can ever hold gives infinity.
func (v *Vessel) Height(of unit.Volume) unit.Length {
	if of <= 0 {
		return 0
	}
	r0 := float64(v.Floor.Value / 2)
	cube := r0*r0*r0 + 3*v.lean()*float64(of)/math.Pi
	if cube < 0 {
		return unit.Length(math.Inf(1))
	}
	r := math.Cbrt(cube)
	return unit.Length(3 * float64(of) / (math.Pi * (r0*r0 + r0*r + r*r)))
}

// Wall gives how far up the wall, with a rule laid along it from the corner at
// the floor, a height is: h √(1 + k²).
func (v *Vessel) Wall(h unit.Length) unit.Length { return h.Times(math.Hypot(1, v.lean())) }

// Holds is what the cup takes up to its brim.
func (v *Vessel) Holds() unit.Volume { return v.Volume(v.Tall.Value) }

// spread is the standard uncertainty, as a share, of what the cup takes up to a
// height, from how it was measured: each size is the middle of a rectangle as
// wide as its instrument's ± (JCGM 100:2008, 4.3.7 and 5.1.2).
func (v *Vessel) spread(h unit.Length, p *Project) float64 {
	sum := 0.0
	for _, size := range []func(*Vessel) *unit.Dim{
		func(c *Vessel) *unit.Dim { return &c.Floor },
		func(c *Vessel) *unit.Dim { return &c.Brim },
		func(c *Vessel) *unit.Dim { return &c.Tall },
	} {
		d := *size(v)
		if !d.Given() {
			continue // the brim of a straight cup follows its floor
		}
		u := p.HalfWidth(d.By) / sqrt3
		more, less := *v, *v
		size(&more).Value += u
		size(&less).Value = max(0, d.Value-u)
		sum += math.Pow(float64(more.Volume(h)-less.Volume(h))/2, 2)
	}
	if of := float64(v.Volume(h)); of > 0 {
		return math.Sqrt(sum) / of
	}
	return 0
}

// linesOff is how far a cup's own lines may be off before they are not gone by
// (common practice, no source).
const linesOff = 0.03

// LinesTrue holds the cup's own lines against its sizes: by how much what it
// takes up to the line that was measured differs from what is printed there, as
// a share of that. Checked is false where it has none or none was measured; true is that it
// is within 3 %, or within what the sizes themselves leave open.
func (v *Vessel) LinesTrue(p *Project) (apart float64, checked, ok bool) {
	if !v.Given() || v.Lined == "" || v.Reads.Value <= 0 || v.At.Value <= 0 {
		return 0, false, true
	}
	apart = v.Volume(v.At.Value).Per(v.Reads.Value) - 1
	open := 2 * math.Hypot(v.spread(v.At.Value, p), (p.HalfWidth(v.At.By)/sqrt3).Per(v.At.Value))
	return apart, true, math.Abs(apart) <= max(linesOff, open)
}

// findLines looks for a measuring cup whose own lines are not true.
func (m *maker) findLines() {
	v := &m.p.Mixing.Vessel
	if apart, _, ok := v.LinesTrue(m.p); !ok {
		m.say(Check, OfMixing, "marks.lines", "mixing/vessel/lineReads", "The lines of your measuring cup are not true to its sizes",
			fmt.Sprintf("up to %s it takes %s by its sizes, and %s is printed there: %+.0f %%", m.length(v.At.Value), m.vol(v.Volume(v.At.Value)), m.vol(v.Reads.Value), 100*apart), "measure both again, inside the cup; until they agree go by the rule")
	}
}
