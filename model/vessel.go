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
	Water unit.Taken[unit.Mass]   `json:"lineWater,omitzero"`   // of the water that it takes up to that line, without the cup
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

// LineCheck is what came of checking the lines of a cup.
type LineCheck struct {
	Checked bool        // one of them was held against water or against its height
	True    bool        // and every check agreed
	Apart   float64     // by how much what the cup takes up to the line differs from what is printed there, as a share of that; of the check that is farthest off
	Takes   unit.Volume // by that check
	ByWater bool        // that check was weighed water
}

// Lines checks the cup's own lines by the one that was measured: by the water
// that it takes up to there, and by the cup's sizes up to its height. They are
// true where each check that was made is within 3 %, or for the sizes within
// what these leave open; lines that nothing was held against are not gone by.
func (v *Vessel) Lines(p *Project) LineCheck {
	var c LineCheck
	if v.Lined == "" || v.Reads.Value <= 0 {
		return c
	}
	c.True = true
	held := func(takes unit.Volume, slack float64, water bool) {
		apart := takes.Per(v.Reads.Value) - 1
		if !c.Checked || math.Abs(apart) > math.Abs(c.Apart) {
			c.Apart, c.Takes, c.ByWater = apart, takes, water
		}
		c.Checked = true
		c.True = c.True && math.Abs(apart) <= slack
	}
	if v.Water.Value > 0 {
		held(v.Water.Value.Over(waterDensity), linesOff, true)
	}
	if v.Given() && v.At.Value > 0 {
		open := 2 * math.Hypot(v.spread(v.At.Value, p), (p.HalfWidth(v.At.By)/sqrt3).Per(v.At.Value))
		held(v.Volume(v.At.Value), max(linesOff, open), false)
	}
	c.True = c.True && c.Checked
	return c
}

// checkByWater says how the lines of a cup are checked: by the line that was
// named, else by one that the mix needs.
func (v *Vessel) checkByWater(line unit.Volume, p *Project) string {
	if v.Reads.Value > 0 {
		line = v.Reads.Value
	}
	of := unit.Style{Volumes: v.Lined}
	return fmt.Sprintf("its own lines are not gone by until one is checked: fill it with water to its line of %s, and the water should weigh %s", of.Volume(line), p.Style.MassTo(line.Of(waterDensity), p.usualStep()))
}

// findLines looks for a measuring cup whose own lines are not true.
func (m *maker) findLines() {
	v := &m.p.Mixing.Vessel
	c := v.Lines(m.p)
	if !c.Checked || c.True {
		return
	}
	why, do := "up to "+m.length(v.At.Value)+" it takes "+m.vol(c.Takes)+" by its sizes", "measure both again, inside the cup; until they agree go by the rule"
	if c.ByWater {
		why, do = "the water up to there weighs "+m.p.Style.Mass(v.Water.Value)+", which is "+m.vol(c.Takes), "weigh it again, without the cup; until it agrees go by the rule"
	}
	m.say(Check, OfMixing, "marks.lines", "mixing/vessel/lineReads", "The lines of your measuring cup are not true",
		fmt.Sprintf("%s, and %s is printed there: %+.0f %%", why, m.vol(v.Reads.Value), 100*c.Apart), do)
}
