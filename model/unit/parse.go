package unit

import "slices"

// The readers below take a text as a maker writes it. All of them take whole
// numbers, decimals with a point or a comma (10.375, 263,5), thousands set
// apart by commas, points or spaces (1,234.5, 1.234,5, 1 234,5), fractions
// (3/8, 10 3/8, 10-3/8, 10½, ¹⁄₁₆), and units in any case with or without a
// space. A single point is always a decimal point. A single comma in front of
// exactly three digits (1,234) is refused, because it can be read both ways.
// A text of more than 64 characters, an exponent, a range and two sizes are
// refused. Every error is a *ParseError.

// ParseLength reads a length. A number without a unit is in the unit bare, or
// in millimetres where bare is empty. Feet and inches can stand together, with
// or without marks: 1' 10 1/2", 1 ft 10. A length can be below zero.
func ParseLength(text string, bare LengthUnit) (Length, error) {
	unit, want := bareLength(bare)
	v, err := read(text, &lengths, unit, want)
	return Length(v), err
}

// ParseArea reads an area. A number without a unit is in the square of the
// length unit bare.
func ParseArea(text string, bare LengthUnit) (Area, error) {
	unit, want := areas.units["mm2"], areas.want
	switch bare {
	case InCentimetres:
		unit, want = areas.units["cm2"], "45 cm²"
	case InInches:
		unit, want = areas.units["in2"], "12.5 sq in"
	}
	v, err := read(text, &areas, unit, want)
	return Area(v), err
}

// ParseVolume reads a volume. A number without a unit is in the unit bare, or
// in millilitres where bare is empty. Fluid ounces, pints, quarts and gallons
// are the US ones unless "imp" is written in front of them.
func ParseVolume(text string, bare VolumeUnit) (Volume, error) {
	unit, want := bareVolume(bare)
	v, err := read(text, &volumes, unit, want)
	return Volume(v), err
}

// ParseMass reads a mass. A number without a unit is in the unit bare, or in
// grams where bare is empty. Ounces are avoirdupois: 2 lb 3 oz.
func ParseMass(text string, bare MassUnit) (Mass, error) {
	unit, want := bareMass(bare)
	v, err := read(text, &masses, unit, want)
	return Mass(v), err
}

// readTemperature reads a temperature, and tells whether its scale was written.
// A number without a unit, or with a mere degree sign, is in the unit bare, or
// in degrees Celsius where bare is empty. What is not above absolute zero is
// refused.
func readTemperature(text string, bare TempUnit) (t Temperature, stated bool, err error) {
	scale, want := measure{name: "C"}, temperatures.want
	if bare == InFahrenheit {
		scale, want = measure{name: "F"}, "72 °F"
	}
	negative, parts, err := readAll(text, &temperatures, scale, want)
	if err != nil {
		return 0, false, err
	}
	v, p := parts[0].value, parts[0]
	if negative {
		v = -v
	}
	if p.unit.name == "°" {
		p.unit, p.stated = scale, false
	}
	switch p.unit.name {
	case "F":
		t = Fahrenheit(v)
	case "K":
		t = Temperature(v)
	default:
		t = Celsius(v)
	}
	if t <= 0 {
		return 0, false, &ParseError{Text: text, Pos: p.pos, Reason: "is not above absolute zero", Want: want}
	}
	return t, p.stated, nil
}

// ParseDensity reads a density. A number without a unit is in g/ml, except
// that one above 30 is in kg/m³: nothing that is cast weighs 30 g/ml, and
// nothing weighs as little as 30 kg/m³.
func ParseDensity(text string) (Density, error) {
	_, parts, err := readAll(text, &densities, densities.units["g/ml"], densities.want)
	if err != nil {
		return 0, err
	}
	p := parts[0]
	if !p.stated && p.value > 30 {
		p.unit = densities.units["kg/m3"]
	}
	return Density(p.unit.si(p.value)), nil
}

// ParseShare reads a share. A number without a sign is in per cent.
func ParseShare(text string) (Share, error) {
	v, err := read(text, &shares, shares.units["%"], shares.want)
	return Share(v), err
}

// ParseAngle reads an angle. A number without a unit is in degrees.
func ParseAngle(text string) (Angle, error) {
	v, err := read(text, &angles, angles.units["°"], angles.want)
	return Angle(v), err
}

// ParseMolarEnergy reads an energy per mole. A number without a unit is in
// kJ/mol.
func ParseMolarEnergy(text string) (MolarEnergy, error) {
	v, err := read(text, &energies, energies.units["kj/mol"], energies.want)
	return MolarEnergy(v), err
}

// ParseSpecificEnergy reads a heat per mass. A number without a unit is in J/g,
// which is the same as kJ/kg.
func ParseSpecificEnergy(text string) (SpecificEnergy, error) {
	v, err := read(text, &heats, heats.units["j/g"], heats.want)
	return SpecificEnergy(v), err
}

// ParseViscosity reads a viscosity. A number without a unit is in mPa·s.
func ParseViscosity(text string) (Viscosity, error) {
	v, err := read(text, &viscosities, viscosities.units["mpas"], viscosities.want)
	return Viscosity(v), err
}

// ParseNumber reads a plain number, such as a part of a ratio.
func ParseNumber(text string) (Number, error) {
	v, err := read(text, &numbers, measure{num: 1, den: 1}, numbers.want)
	return Number(v), err
}

func bareLength(u LengthUnit) (measure, string) {
	switch u {
	case InCentimetres:
		return lengths.units["cm"], "26.4 cm"
	case InInches:
		return lengths.units["in"], "10 3/8 in"
	}
	return lengths.units["mm"], lengths.want
}

func bareVolume(u VolumeUnit) (measure, string) {
	switch u {
	case InLitres:
		return volumes.units["l"], "1.42 L"
	case InFluidOunces:
		return volumes.units["floz"], "15.5 fl oz"
	case InCubicInches:
		return volumes.units["cuin"], "82 cu in"
	}
	return volumes.units["ml"], volumes.want
}

func bareMass(u MassUnit) (measure, string) {
	switch u {
	case InKilograms:
		return masses.units["kg"], "1.2 kg"
	case InOunces:
		return masses.units["oz"], "15.5 oz"
	case InPounds:
		return masses.units["lb"], "2 lb 3 oz"
	}
	return masses.units["g"], masses.want
}

// statesUnit tells whether text, which was read before, says its unit.
func statesUnit(text string, k *kind) bool {
	_, parts, err := readAll(text, k, measure{num: 1, den: 1}, "")
	return err == nil && slices.ContainsFunc(parts, func(r reading) bool { return r.stated })
}
