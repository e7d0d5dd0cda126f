package cure

import "meniscus/model/unit"

// Glass tells the softening temperature (the glass transition) of a resin from
// its conversion, by DiBenedetto's equation in the form of Pascault and
// Williams (1990): Tg = Tg0 + (Tg∞ - Tg0) λa/(1 - (1-λ)a).
type Glass struct {
	Liquid unit.Temperature // Tg0, unreacted
	Full   unit.Temperature // Tg∞, at conversion 1
	Lambda float64          // ratio of the steps in heat capacity, above 0, usually 0.2 to 0.6
}

// At gives the softening temperature at conversion a, 0 to 1.
func (g Glass) At(a float64) unit.Temperature {
	return g.Liquid + unit.Temperature(float64(g.Full-g.Liquid)*g.Lambda*a/(1-(1-g.Lambda)*a))
}

// Conversion gives the conversion whose softening temperature is t: the inverse
// of At. Below Liquid it is negative and above Full it is above 1.
func (g Glass) Conversion(t unit.Temperature) float64 {
	rise, whole := float64(t-g.Liquid), float64(g.Full-g.Liquid)
	return rise / (g.Lambda*whole + (1-g.Lambda)*rise)
}
