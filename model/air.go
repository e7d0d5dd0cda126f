package model

import (
	"math"

	"meniscus/model/unit"
)

// earthPull is the standard acceleration of free fall in m/s².
const earthPull = unit.EarthPull

// StokesRise gives how fast, in m/s, a bubble of a diameter rises in a resin,
// between its two bounds. The slow one is a bubble whose skin does not move, as
// in a resin with additives: ρ g d²/(18 η), after Stokes. The fast one has a
// skin that moves freely: half as fast again, ρ g d²/(12 η), after Hadamard and
// Rybczynski. The weight of the gas is left out. Both hold while Reynolds is
// below one, and far from other bubbles and walls.
func StokesRise(d unit.Length, rho unit.Density, eta unit.Viscosity) (slow, fast float64) {
	if eta <= 0 {
		return 0, 0
	}
	slow = float64(rho) * earthPull * float64(d) * float64(d) / (18 * float64(eta))
	return slow, 1.5 * slow
}

// Reynolds gives the Reynolds number ρ v d/η of something of a size that moves
// at a speed in m/s.
func Reynolds(speed float64, d unit.Length, rho unit.Density, eta unit.Viscosity) float64 {
	return float64(rho) * speed * float64(d) / float64(eta)
}

// Clears gives the smallest bubble that rises through a depth within a time at
// a bubble's slow bound: the diameter √(18 η h/(ρ g t)).
func Clears(depth unit.Length, within unit.Span, rho unit.Density, eta unit.Viscosity) unit.Length {
	return unit.Length(math.Sqrt(18 * float64(eta) * float64(depth) / (float64(rho) * earthPull * float64(within))))
}

// Thicker is by how much a mixed resin thickens when it is ten degrees colder.
// That it doubles is common practice. Published figures of thinned resins (the
// supplement to doi 10.1016/j.polymer.2022.125216) lie between 1.5 and 2.8; a
// resin that nothing thins thickens more.
var thicker = typical[unit.Number]{2, 1.5, 2.8}

// viscosityAt carries a viscosity from one temperature to another, k-fold for
// every ten degrees colder.
func viscosityAt(eta unit.Viscosity, at, to unit.Temperature, k unit.Number) unit.Viscosity {
	return unit.Viscosity(float64(eta) * math.Pow(float64(k), float64(at-to)/10))
}

// What stands in for a viscosity that the sheet does not give: casting resins
// at 25 °C, mixed (value from memory).
var (
	typicalViscosity   = typical[unit.Viscosity]{0.45, 0.3, 0.6}
	typicalViscosityAt = unit.Celsius(25)
)

// viscosity gives how thick a freshly mixed product is at a temperature: the
// sheet's figure carried there from the temperature that it holds at, with the
// band of what carries it.
func (s *Sheet) viscosity(t unit.Temperature) Known[unit.Viscosity] {
	k := known(s.Viscosity, typicalViscosity)
	at := taken(s.Viscosity.At, typicalSheetTemp)
	if !s.Viscosity.Given() {
		at = Known[unit.Temperature]{Value: typicalViscosityAt, Low: typicalViscosityAt, High: typicalViscosityAt, Typical: true}
	}
	out := k
	out.Value = viscosityAt(k.Value, at.Value, t, thicker.value)
	out.Low, out.High = out.Value, out.Value
	for _, from := range []unit.Temperature{at.Low, at.High} {
		for _, by := range []unit.Number{thicker.low, thicker.high} {
			out.Low = min(out.Low, viscosityAt(k.Low, from, t, by))
			out.High = max(out.High, viscosityAt(k.High, from, t, by))
		}
	}
	out.Typical = k.Typical || at.Typical
	return out
}

// thickens is how much thicker a resin is at the end of its working time than
// when it was mixed (common practice, no source).
var thickens = typical[unit.Number]{10, 4, 30}

// thinSpan is the time for which a resin would have to stay as thin as it was
// mixed for a bubble to rise as far as it does in the working time: with a
// viscosity that grows k-fold by equal parts in equal times, ∫ η₀/η dt over the
// working time t is t (1 - 1/k)/ln k.
func thinSpan(working unit.Span, k unit.Number) unit.Span {
	return working.Times((1 - 1/float64(k)) / math.Log(float64(k)))
}

// StandardAir is the pressure of the standard atmosphere in pascal (exact).
const StandardAir = 101325.0

// VacuumGrowth gives by how much bubbles grow in volume and in diameter when
// the air over the resin is drawn down to a pressure in pascal, by Boyle's law:
// p₀/p and its cube root.
func VacuumGrowth(pressure float64) (volume, diameter float64) {
	volume = StandardAir / pressure
	return volume, math.Cbrt(volume)
}

// woodSolid is the density of wood without its pores (Forest Products
// Laboratory, Wood Handbook; from memory).
const woodSolid = unit.Density(1500)

// WoodAir gives how much of the air in bare wood comes out as it warms from one
// temperature to another; nothing where it cools.
func WoodAir(wood unit.Volume, density unit.Density, from, to unit.Temperature) unit.Volume {
	return max(0, WoodBreath(wood, density, from, to))
}
