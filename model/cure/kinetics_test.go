package cure

import (
	"math"

	"meniscus/model/unit"
)

// The rate law as it is written in its sources, to hold that of the kernel
// against.

// Rate gives da/dt in 1/s at conversion a (0 to 1) and temperature t. It is
// never negative, and 0 from conversion 1 on.
func (k *Kinetics) Rate(a float64, t unit.Temperature) float64 {
	if a >= 1 || t <= 0 {
		return 0
	}
	a = max(a, 0)
	rt := GasConstant * float64(t)
	grow := 0.0
	if k.A2 != 0 {
		grow = k.A2 * math.Exp(-float64(k.E2)/rt) * math.Pow(a, k.M)
	}
	rate := (k.A1*math.Exp(-float64(k.E1)/rt) + grow) * math.Pow(1-a, k.N)
	return rate * k.Slowing(a, t)
}

// Slowing gives the factor, 1 down to 0, by which the rate is slowed as the
// resin turns to glass.
func (k *Kinetics) Slowing(a float64, t unit.Temperature) float64 {
	if k.Steep == 0 {
		return 1
	}
	return 1 / (1 + math.Exp(k.Steep*(a-k.StallsAt(t))))
}

// StallsAt gives the conversion at which a cure at the temperature t has all
// but stopped: that whose softening temperature lies Margin above t. It may be
// above 1.
func (k *Kinetics) StallsAt(t unit.Temperature) float64 {
	return k.Glass.Conversion(t + unit.Temperature(k.Margin))
}
