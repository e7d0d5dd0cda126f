package model

import "meniscus/model/unit"

// The typical ground of a casting: a form built of coated board on a wooden
// bench, which keeps the heat in more than any other that is usual. Common
// practice, no source.
const (
	typicalFloor = FloorBoard
	typicalBench = BenchWood
)

// typicalThick is how thick floors of each kind usually are; common practice,
// no source.
var typicalThick = map[FloorKind]typical[unit.Length]{
	FloorHDPE:      {10e-3, 6e-3, 15e-3},
	FloorBoard:     {18e-3, 12e-3, 22e-3},
	FloorMelamine:  {18e-3, 16e-3, 19e-3},
	FloorSilicone:  {8e-3, 4e-3, 15e-3},
	FloorAluminium: {3e-3, 2e-3, 6e-3},
	FloorGlass:     {6e-3, 4e-3, 10e-3},
}

// floor gives what the mold's floor is made of; false where the maker did not
// say and the typical one stands in.
func (p *Project) floor() (FloorKind, bool) {
	if _, known := typicalThick[p.Mold.Floor]; known {
		return p.Mold.Floor, true
	}
	return typicalFloor, false
}

// thick gives the thickness of the mold's floor, or what is typical of its
// kind.
func (p *Project) thick() Known[unit.Length] {
	kind, _ := p.floor()
	return taken(p.Mold.Thick, typicalThick[kind])
}

// bench gives what the mold stands on; false where the maker did not say and
// the typical one stands in.
func (p *Project) bench() (BenchKind, bool) {
	if p.Shop.Bench != "" {
		return p.Shop.Bench, true
	}
	return typicalBench, false
}
