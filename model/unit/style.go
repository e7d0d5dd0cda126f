package unit

// Style is how a project writes its quantities, and which unit a bare number
// has. The zero Style is metric: mm to 0.1, ml, g, °C. A graduation that does
// not belong to the unit of length (1/16 in beside mm) counts as not given.
type Style struct {
	Lengths      LengthUnit `json:"length,omitempty"`      // "mm" (default), "cm" or "in"
	Grain        Grain      `json:"grain,omitempty"`       // graduation that lengths are written to
	Volumes      VolumeUnit `json:"volume,omitempty"`      // "ml" (default), "L", "fl oz", "cu in"
	Masses       MassUnit   `json:"mass,omitempty"`        // "g" (default), "kg", "oz" or "lb"
	Temperatures TempUnit   `json:"temperature,omitempty"` // "C" (default) or "F"
}

// LengthUnit is the unit of a bare length.
type LengthUnit string

// VolumeUnit is the unit of a bare volume.
type VolumeUnit string

// MassUnit is the unit of a bare mass.
type MassUnit string

// TempUnit is the unit of a bare temperature.
type TempUnit string

// Grain is the graduation that lengths are written to.
type Grain string

// The units and graduations a project can choose.
const (
	InMillimetres LengthUnit = "mm"
	InCentimetres LengthUnit = "cm"
	InInches      LengthUnit = "in"

	InMillilitres VolumeUnit = "ml"
	InLitres      VolumeUnit = "L"
	InFluidOunces VolumeUnit = "fl oz"
	InCubicInches VolumeUnit = "cu in"

	InGrams     MassUnit = "g"
	InKilograms MassUnit = "kg"
	InOunces    MassUnit = "oz"
	InPounds    MassUnit = "lb"

	InCelsius    TempUnit = "C"
	InFahrenheit TempUnit = "F"

	TenthMillimetre Grain = "0.1 mm"
	WholeMillimetre Grain = "1 mm"
	Sixteenth       Grain = "1/16 in"
	ThirtySecond    Grain = "1/32 in"
	SixtyFourth     Grain = "1/64 in"
)
