package unit

import "time"

// Length is a distance in metres.
type Length float64

// Units of length. The inch is exactly 25.4 mm (NIST SP 811, appendix B).
const (
	Metre      Length = 1
	Centimetre        = Metre / 100
	Millimetre        = Metre / 1000
	Inch              = 25.4 * Millimetre
	Foot              = 12 * Inch
)

// Millimetres gives the length in mm.
func (l Length) Millimetres() float64 { return float64(l) * 1000 }

// Inches gives the length in inches.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// By multiplies two lengths to an area.
func (l Length) By(w Length) Area { return Area(float64(l) * float64(w)) }

// Times scales the length by a plain number.
func (l Length) Times(k float64) Length { return Length(float64(l) * k) }

// Per divides two lengths to a plain number.
func (l Length) Per(d Length) float64 { return float64(l) / float64(d) }

// Area is a surface in square metres.
type Area float64

// Units of area.
const (
	SquareMetre      Area = 1
	SquareMillimetre      = SquareMetre / 1e6
	SquareInch            = 645.16 * SquareMillimetre
)

// SquareMillimetres gives the area in mm².
func (a Area) SquareMillimetres() float64 { return float64(a) * 1e6 }

// Times scales the area by a plain number.
func (a Area) Times(k float64) Area { return Area(float64(a) * k) }

// Per divides two areas to a plain number.
func (a Area) Per(d Area) float64 { return float64(a) / float64(d) }

// By multiplies an area and a height to a volume.
func (a Area) By(h Length) Volume { return Volume(float64(a) * float64(h)) }

// Volume is a space in cubic metres.
type Volume float64

// Units of volume. The US gallon is exactly 231 cubic inches and holds 128 US
// fluid ounces; the imperial fluid ounce is exactly 28.4130625 ml
// (NIST Handbook 44, appendix C).
const (
	CubicMetre         Volume = 1
	Litre                     = CubicMetre / 1000
	Millilitre                = CubicMetre / 1e6
	CubicInch                 = 16.387064 * Millilitre
	USGallon                  = 231 * CubicInch
	USFluidOunce              = USGallon / 128
	ImperialFluidOunce        = 28.4130625 * Millilitre
)

// Millilitres gives the volume in ml (cm³).
func (v Volume) Millilitres() float64 { return float64(v) * 1e6 }

// USFluidOunces gives the volume in US fluid ounces.
func (v Volume) USFluidOunces() float64 { return float64(v) / float64(USFluidOunce) }

// Times scales the volume by a plain number.
func (v Volume) Times(k float64) Volume { return Volume(float64(v) * k) }

// Per divides two volumes to a plain number.
func (v Volume) Per(d Volume) float64 { return float64(v) / float64(d) }

// Of gives the mass of this volume of a material of density d.
func (v Volume) Of(d Density) Mass { return Mass(float64(v) * float64(d)) }

// Mass is an amount of matter in kilograms.
type Mass float64

// Units of mass. The avoirdupois pound is exactly 453.59237 g (NIST SP 811).
const (
	Kilogram Mass = 1
	Gram          = Kilogram / 1000
	Pound         = 453.59237 * Gram
	Ounce         = Pound / 16
)

// Grams gives the mass in g.
func (m Mass) Grams() float64 { return float64(m) * 1000 }

// Times scales the mass by a plain number.
func (m Mass) Times(k float64) Mass { return Mass(float64(m) * k) }

// Per divides two masses to a plain number.
func (m Mass) Per(d Mass) float64 { return float64(m) / float64(d) }

// Over gives the volume that this mass of a material of density d takes up.
// The result is infinite for a zero density.
func (m Mass) Over(d Density) Volume { return Volume(float64(m) / float64(d)) }

// Density is a mass per volume in kilograms per cubic metre.
type Density float64

// GramsPerMillilitre gives the density in g/ml (g/cm³).
func (d Density) GramsPerMillilitre() float64 { return float64(d) / 1000 }

// Temperature is a thermodynamic temperature in kelvin; 0 means none given.
type Temperature float64

// Celsius makes a temperature of degrees Celsius: 0 °C is 273.15 K.
func Celsius(c float64) Temperature { return Temperature(c + 273.15) }

// Fahrenheit makes a temperature of degrees Fahrenheit.
func Fahrenheit(f float64) Temperature { return Temperature((f-32)/1.8 + 273.15) }

// Celsius gives the temperature in °C.
func (t Temperature) Celsius() float64 { return float64(t) - 273.15 }

// Fahrenheit gives the temperature in °F.
func (t Temperature) Fahrenheit() float64 { return t.Celsius()*1.8 + 32 }

// TempRise is a difference of temperatures in kelvin.
type TempRise float64

// Angle is a plane angle in radians.
type Angle float64

// Degree is one degree of arc.
const Degree Angle = 3.14159265358979323846 / 180

// Degrees gives the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) / float64(Degree) }

// Share is a part of a whole as a fraction: 0.05 is five per cent.
type Share float64

// Percent is one hundredth.
const Percent Share = 0.01

// Percent gives the share in per cent.
func (s Share) Percent() float64 { return float64(s) * 100 }

// Span is a length of time in seconds. It is what data sheets give and what
// files hold; arithmetic on instants uses time.Duration.
type Span float64

// Units of time.
const (
	Second Span = 1
	Minute      = 60 * Second
	Hour        = 60 * Minute
	Day         = 24 * Hour
)

// Hours gives the span in hours.
func (s Span) Hours() float64 { return float64(s) / float64(Hour) }

// Times scales the span by a plain number.
func (s Span) Times(k float64) Span { return Span(float64(s) * k) }

// Per divides two spans to a plain number.
func (s Span) Per(d Span) float64 { return float64(s) / float64(d) }

// Duration gives the span as a time.Duration, to the nanosecond; what is longer
// than a century counts as one.
func (s Span) Duration() time.Duration {
	const most = 36525 * Day
	return time.Duration(float64(max(-most, min(s, most))) * float64(time.Second))
}

// SpanOf makes a span of a duration.
func SpanOf(d time.Duration) Span { return Span(d.Seconds()) }

// MolarEnergy is an energy per amount of substance in joules per mole.
type MolarEnergy float64

// KilojoulePerMole is a thousand joules per mole.
const KilojoulePerMole MolarEnergy = 1000

// Viscosity is a dynamic viscosity in pascal seconds.
type Viscosity float64

// MillipascalSecond is one thousandth of a pascal second (one centipoise).
const MillipascalSecond Viscosity = 0.001

// Money is an amount in whole minor units (cents) of a currency.
type Money struct {
	Minor    int64  `json:"minor"`
	Currency string `json:"currency"` // ISO 4217 code
}

// Number is a plain number, such as a part of a ratio.
type Number float64

// SpecificEnergy is an energy per mass in joules per kilogram.
type SpecificEnergy float64

// JoulePerGram is a thousand joules per kilogram.
const JoulePerGram SpecificEnergy = 1000

// Times scales the energy by a plain number.
func (e SpecificEnergy) Times(k float64) SpecificEnergy { return SpecificEnergy(float64(e) * k) }

// Per divides two energies per mass to a plain number.
func (e SpecificEnergy) Per(d SpecificEnergy) float64 { return float64(e) / float64(d) }

// JoulesPerGram gives the heat in J/g.
func (e SpecificEnergy) JoulesPerGram() float64 { return float64(e) / float64(JoulePerGram) }

// SpecificHeat is a heat capacity per mass in joules per kilogram and kelvin.
type SpecificHeat float64

// Conductivity is a thermal conductivity in watts per metre and kelvin.
type Conductivity float64

// FilmCoefficient is a heat flow per area and difference of temperature, in
// watts per square metre and kelvin.
type FilmCoefficient float64
