// Package cure tells how resin hardens and warms itself: equivalent age, the
// kinetics of a cure, products calibrated from their data sheets, a cup, and
// heat through the thickness of a pour or across its section.
package cure

import (
	"math"

	"meniscus/model/unit"
)

// GasConstant is R in J/(mol K) (exact since the 2019 SI).
const GasConstant = 8.31446261815324

// TypicalActivation is the activation energy that is used where none is known:
// 55 kJ/mol, with a band of 45 to 65. Published values for the primary amine
// step of epoxy-amine systems lie at 55 to 60 (Thermochim. Acta 447 (2006) 167).
const TypicalActivation = 55 * unit.KilojoulePerMole

// AgeFactor tells how many hours at the reference temperature one hour at t is
// worth: exp(-E/R (1/t - 1/ref)), the rate factor of equivalent age after
// Freiesleben Hansen and Pedersen as standardised in ASTM C1074. Both
// temperatures are absolute and must be above zero, else the result is 1.
func AgeFactor(e unit.MolarEnergy, t, ref unit.Temperature) float64 {
	if t <= 0 || ref <= 0 {
		return 1
	}
	return math.Exp(-float64(e) / GasConstant * (1/float64(t) - 1/float64(ref)))
}

// Lengthening tells by what a time that holds at the reference temperature is
// multiplied at t: the inverse of AgeFactor.
func Lengthening(e unit.MolarEnergy, t, ref unit.Temperature) float64 {
	return 1 / AgeFactor(e, t, ref)
}
