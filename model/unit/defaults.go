package unit

// LengthUnit gives the unit of a bare length: millimetres where none, or one
// that is not known, was chosen.
func (s Style) LengthUnit() LengthUnit {
	switch s.Lengths {
	case InCentimetres, InInches:
		return s.Lengths
	}
	return InMillimetres
}

// VolumeUnit gives the unit of a bare volume, by default millilitres.
func (s Style) VolumeUnit() VolumeUnit {
	switch s.Volumes {
	case InLitres, InFluidOunces, InCubicInches:
		return s.Volumes
	}
	return InMillilitres
}

// MassUnit gives the unit of a bare mass, by default grams.
func (s Style) MassUnit() MassUnit {
	switch s.Masses {
	case InKilograms, InOunces, InPounds:
		return s.Masses
	}
	return InGrams
}

// TempUnit gives the unit of a bare temperature, by default degrees Celsius.
func (s Style) TempUnit() TempUnit {
	if s.Temperatures == InFahrenheit {
		return InFahrenheit
	}
	return InCelsius
}

// LengthGrain gives the graduation that lengths are really written to: the
// chosen one where it belongs to the unit of length, else 0.1 mm for
// millimetres and centimetres and 1/16 in for inches.
func (s Style) LengthGrain() Grain { return grainFor(s.LengthUnit(), s.Grain) }

// grainFor gives g where it is a graduation of the unit u, else u's default.
func grainFor(u LengthUnit, g Grain) Grain {
	switch g {
	case Sixteenth, ThirtySecond, SixtyFourth:
		if u == InInches {
			return g
		}
	case TenthMillimetre, WholeMillimetre:
		if u != InInches {
			return g
		}
	}
	if u == InInches {
		return Sixteenth
	}
	return TenthMillimetre
}

// Graduation gives the size of one step of the graduation g. A graduation that
// is empty or not known has the size of the metric default, 0.1 mm.
func Graduation(g Grain) Length {
	switch g {
	case WholeMillimetre:
		return Millimetre
	case Sixteenth:
		return Inch / 16
	case ThirtySecond:
		return Inch / 32
	case SixtyFourth:
		return Inch / 64
	}
	return Millimetre / 10
}
