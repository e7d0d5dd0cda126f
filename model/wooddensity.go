package model

import "meniscus/model/unit"

// waterForWood is the density of water that specific gravities are given
// against (Wood Handbook, FPL-GTR-282, chapter 4).
const waterForWood = unit.Density(1000)

// WoodDensity gives the density of wood at a moisture from its specific gravity
// on oven-dry mass and green volume, after Simpson (1993, FPL-GTR-76): the
// gravity at that moisture is G/(1 - 0.265 a G) with a = (30 - M)/30 below 30 %,
// and the density that times water's and 1 + M.
func WoodDensity(green unit.Number, moisture unit.Share) unit.Density {
	a := float64((fibreSaturation - held(moisture)) / fibreSaturation)
	return moistDensity(green/unit.Number(1-0.265*a*float64(green)), moisture)
}

// moistDensity gives the density of wood from its specific gravity on oven-dry
// mass and its volume at a moisture.
func moistDensity(gravity unit.Number, moisture unit.Share) unit.Density {
	return waterForWood * unit.Density(float64(gravity)*(1+float64(moisture)))
}

// What is not known of a board by its species alone: its specific gravity
// varies by 10 % and its shrinkage by 15 % from tree to tree, as standard
// deviations (Wood Handbook, chapters 4 and 5; values from memory).
const (
	gravityVaries   = 0.10
	shrinkageVaries = 0.15
)

// typicalMoisture stands in for a moisture that was not read: what is usual for
// wood that goes into resin (common practice, no source).
var typicalMoisture = typical[unit.Share]{0.10, 0.08, 0.12}

// usualDensity gives the density that is typical of a species at a piece's
// moisture, with the band of a rectangle as wide as its trees vary.
func (s *Species) usualDensity(moisture unit.Share) Known[unit.Density] {
	d := WoodDensity(s.Green, moisture)
	half := unit.Density(float64(d) * gravityVaries * sqrt3)
	return Known[unit.Density]{Value: d, Low: d - half, High: d + half, Typical: true, Source: "typical of " + s.Name}
}

// typicalOf gives the density that is typical of a piece's species, where it was
// neither weighed nor given; the zero Known where that is not known.
func (w *Piece) typicalOf() Known[unit.Density] {
	s, _, ok := SpeciesOf(w.Species)
	if !ok || w.Weight.Given() || w.Density.Given() {
		return Known[unit.Density]{}
	}
	return s.usualDensity(w.Nature.Moisture.Or(typicalMoisture.value))
}
