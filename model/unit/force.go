package unit

// EarthPull is the standard acceleration of free fall in m/s² (NIST SP 811,
// exact).
const EarthPull = 9.80665

// Force is a push or a pull in newtons.
type Force float64

// Times scales the force by a plain number.
func (f Force) Times(k float64) Force { return Force(float64(f) * k) }

// Per divides two forces to a plain number.
func (f Force) Per(d Force) float64 { return float64(f) / float64(d) }

// Mass gives the mass that weighs as much as the force pushes: what a weight
// laid on must have to hold it.
func (f Force) Mass() Mass { return Mass(float64(f) / EarthPull) }

// Weight gives the force that a mass presses down with.
func (m Mass) Weight() Force { return Force(float64(m) * EarthPull) }

// Pressure is a force per area in pascal. The stiffness of a material, its
// modulus of elasticity, is one too.
type Pressure float64

// Units of pressure.
const (
	Pascal     Pressure = 1
	Gigapascal          = 1e9 * Pascal
)

// Times scales the pressure by a plain number.
func (p Pressure) Times(k float64) Pressure { return Pressure(float64(p) * k) }

// Per divides two pressures to a plain number.
func (p Pressure) Per(d Pressure) float64 { return float64(p) / float64(d) }

// On gives the force of a pressure on an area.
func (p Pressure) On(a Area) Force { return Force(float64(p) * float64(a)) }

// Over gives the pressure of a force that is spread evenly over an area.
func (f Force) Over(a Area) Pressure { return Pressure(float64(f) / float64(a)) }

// Head gives the pressure below so much of a liquid: ρ g h.
func (d Density) Head(h Length) Pressure { return Pressure(float64(d) * EarthPull * float64(h)) }

// Force writes a force in newtons, to 1 N, and under 10 N to 0.1.
func (s Style) Force(f Force) string { return with(float64(f), falling(float64(f), 10, 1, 0), "N") }

// Pressure writes a pressure in pascal, from 10 kPa on in kPa, and a stiffness in
// GPa.
func (s Style) Pressure(p Pressure) string {
	switch a := max(p, -p); {
	case a >= 0.01*Gigapascal:
		return with(float64(p/Gigapascal), 1, "GPa")
	case a >= 1e4:
		return with(float64(p)/1000, 1, "kPa")
	}
	return with(float64(p), 0, "Pa")
}

// Load writes a mass that is laid on or that pulls: in g below 1 kg, and to 0.1
// kg from there on; in ounces and pounds in a style that weighs in those.
func (s Style) Load(m Mass) string {
	if u := s.MassUnit(); u == InOunces || u == InPounds {
		if max(m, -m) < Pound {
			return with(float64(m)/float64(Ounce), falling(float64(m)/float64(Ounce), 1, 2, 1), string(InOunces))
		}
		return with(float64(m)/float64(Pound), 1, string(InPounds))
	}
	if max(m, -m) < Kilogram {
		return with(m.Grams(), falling(m.Grams(), 10, 1, 0), string(InGrams))
	}
	return with(float64(m), 1, string(InKilograms))
}
