package cure

import (
	"math"

	"meniscus/model/unit"
)

// Seed is the conversion that a fresh mix starts from. With m below 1 the rate
// has no slope at zero conversion, so a run starts a hair above it; a test
// shows that the answers do not hang on it.
const Seed = 1e-6

// Kinetics is how fast a resin cures and how much heat that sets free: the
// autocatalytic rate law of Kamal and Sourour (Polym. Eng. Sci. 13 (1973) 59),
//
//	da/dt = (k1 + k2 a^m) (1-a)^n,  ki = Ai exp(-Ei/RT),
//
// slowed as the resin turns to glass by the factor of Chern and Poehlein
// (Polym. Eng. Sci. 27 (1987) 782), 1/(1 + exp(Steep (a - ac))). Here ac is the
// conversion whose softening temperature lies Margin above the resin's own
// temperature.
type Kinetics struct {
	Name   string
	Source string
	Unsure string // what is not known of it

	A1, A2 float64 // 1/s
	E1, E2 unit.MolarEnergy
	M, N   float64
	Heat   unit.SpecificEnergy // of the mix, at conversion 1
	Gel    float64             // conversion at which it gels

	Glass  Glass
	Steep  float64       // 0: never slowed
	Margin unit.TempRise // how far the softening temperature climbs past the resin's own before it all but stops
}

// How the two classes of resin are slowed towards glass, which stand in for
// products whose makers publish no kinetics: by Chern and Poehlein's factor
// rather than by the term published with the first, which throttles even the
// liquid below about 40 °C, outside the range it was fitted in. The figures are
// common practice with no source: a room temperature cure ends with a softening
// temperature some 10 to 20 K above the room.
const (
	TypicalSteep  = 30
	TypicalMargin = unit.TempRise(15)
)

// FastAmine is an infusion epoxy-amine that cures in hours at room temperature.
func FastAmine() Kinetics {
	return Kinetics{
		Name:   "fast amine",
		Source: "Thermochim. Acta 2016, doi 10.1016/j.tca.2015.11.014, table 5, read through a public repository",
		Unsure: "the paper itself was not read; its diffusion term is left out, since it was fitted above 40 °C",
		A1:     35982, E1: 54960, A2: 3574.1, E2: 44289, M: 0.39845, N: 1.5361,
		Heat:  446 * unit.JoulePerGram,
		Gel:   GelPoint(4, 2, 1),
		Glass: Glass{unit.Celsius(-57), unit.Celsius(91), 0.36903},
		Steep: TypicalSteep, Margin: TypicalMargin,
	}
}

// SlowAmine is a slower infusion epoxy-amine, the nearer stand-in for a slow
// casting resin.
func SlowAmine() Kinetics {
	return Kinetics{
		Name:   "slow amine",
		Source: "calorimetry fit of a public research project on blade infusion, not a journal's table",
		Unsure: "its softening temperatures are marked as guesses by their authors",
		A1:     2.0e5, E1: 63267.9637, A2: 118000.438, E2: 55157.8279, M: 0.30450112, N: 1.61742134,
		Heat:  450 * unit.JoulePerGram,
		Gel:   GelPoint(4, 2, 1),
		Glass: Glass{unit.Celsius(-10), unit.Celsius(87), 0.36903},
		Steep: TypicalSteep, Margin: TypicalMargin,
	}
}

// GelPoint gives the conversion of the scarcer group at which a mix of
// molecules with f and g reactive groups gels, for r ≤ 1 of the scarcer group
// to the other: 1/√(r (f-1)(g-1)) (Flory 1941; Stockmayer, J. Polym. Sci. 9
// (1952) 69). Above 1 it does not gel.
func GelPoint(f, g int, r float64) float64 {
	return 1 / math.Sqrt(r*float64(f-1)*float64(g-1))
}

// Scaled gives the kinetics s times as fast at every temperature: each time at
// constant temperature is divided by s, and the heat stays.
func (k Kinetics) Scaled(s float64) Kinetics {
	k.A1, k.A2 = k.A1*s, k.A2*s
	return k
}

// Shifted gives the kinetics with d added to both activation energies, and as
// fast as before at the temperature at.
func (k Kinetics) Shifted(d unit.MolarEnergy, at unit.Temperature) Kinetics {
	k.E1, k.E2 = k.E1+d, k.E2+d
	return k.Scaled(math.Exp(float64(d) / (GasConstant * float64(at))))
}
