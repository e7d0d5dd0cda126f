package cure

import (
	"math"

	"meniscus/model/unit"
)

// Matter is what conducts and stores heat.
type Matter struct {
	Name         string
	Density      unit.Density
	Heat         unit.SpecificHeat
	Conductivity unit.Conductivity
	Source       string
}

// Stuff round a casting. Figures marked "from memory" were not read again.
var (
	Board     = Matter{"board", 600, 1700, 0.14, "EN ISO 10456, MDF and particle board of 600 kg/m³ (from memory)"}
	Plywood   = Matter{"plywood", 500, 1600, 0.13, "EN ISO 10456 (from memory)"}
	Hardwood  = Matter{"hardwood", 700, 1600, 0.18, "prEN 12524"}
	HDPE      = Matter{"HDPE", 950, 2200, 0.25, "Plastics Engineering, table 1.8; another published list has twice the conductivity"}
	Silicone  = Matter{"silicone", 1200, 1000, 0.35, "EN ISO 10077-2 (heat capacity from memory)"}
	Aluminium = Matter{"aluminium", 2700, 880, 230, "CIBSE Guide A"}
	Glazing   = Matter{"glass", 2500, 750, 1.0, "EN ISO 10456 (from memory)"}
	Steel     = Matter{"steel", 7800, 450, 50, "EN ISO 10456"}
	// Resin is a mixed epoxy resin in the shop's range of temperature; typical.
	Resin = Matter{"resin", 1100, 1800, 0.20, "liquid 1,670 to 1,900 J/(kg K), cured 1,100 to 2,100; 0.15 to 0.21 W/(m K) (shop range, from memory)"}
)

// Wood gives wood of a density, across its grain at about 8 % moisture; of no
// density, a hardwood. The conductivity is that of the Wood Handbook
// (FPL-GTR-190, equation 4-15), G (0.1941 + 0.004064 x) + 0.01864 W/(m K) for
// the specific gravity G and the moisture x in per cent; the heat capacity
// 1,500 J/(kg K), rounded from its equations 4-16 to 4-18 (from
// memory).
func Wood(d unit.Density) Matter {
	if !(d > 50 && d < 2000) {
		return Hardwood
	}
	const moisture = 8
	gravity := float64(d) / 1000 / (1 + moisture/100.)
	return Matter{"wood", d, 1500, unit.Conductivity(gravity*(0.1941+0.004064*moisture) + 0.01864), "Wood Handbook FPL-GTR-190, chapter 4"}
}

// StillAir is the film between a surface and the still air of a room,
// convection and radiation together: 8 to 12 W/(m² K) by the correlations of
// Incropera chapter 9 with 5.5 of radiation (from memory); the lower end, which
// keeps the heat in.
const StillAir unit.FilmCoefficient = 8

// Underneath is the film below a bench top: heat goes down less readily,
// 5.9 W/(m² K) by ISO 6946 (from memory).
const Underneath unit.FilmCoefficient = 5.9

// usable tells whether the matter can be reckoned with.
func (m *Matter) usable() bool {
	for _, v := range []float64{float64(m.Density), float64(m.Heat), float64(m.Conductivity)} {
		if !(v > 0) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
