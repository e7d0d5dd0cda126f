package unit

import (
	"errors"
	"math"
	"testing"
	"unicode/utf8"
)

// seeds are texts that reach every branch of the reader.
var seeds = []string{
	"", " ", "10 3/8", `10-3/8"`, "3/32", `1' 10 1/2"`, "½", "10½", "1⁄16", "¹⁄₁₆", "10.375", "263,5 mm", "26.4cm", "1,234.5 mm", "1 234,5 mm", "1.234,5 mm",
	"1,234", "10 3/", "/", "1e9", "NaN", "Inf", "∞", "--5", "±0.5", "−5 °C", "72 ℉", "0 K", "2 lb 3 oz", "15 fl. oz.", "82 in³", "82 in^3", "2:30", "2:", "1:02:03", "2h30m",
	"450 mPa·s", "290 J/g", "70 cal / g", "125 Btu/lb", "1100 kg/m3", "4.5 %", "$1,234.50", "12,50 €", "\x00", "\xff", "5\u200b", "٣", "1 ft.5 in", "999999999999", "1''", "'''", "1 000 000 000", "0,375",
	"0000000000000000000000000000000000000000000000000000000000000000", "22 degrees", "22°",
}

// checkFuzz asserts what holds for every text: either a finite quantity, or an
// error that says what is wrong and where.
func checkFuzz(t *testing.T, text string, v float64, err error) {
	t.Helper()
	if err == nil {
		if math.IsNaN(v) || math.Abs(v) > 1e15 || utf8.RuneCountInString(text) > mostRunes || (v == 0 && math.Signbit(v)) {
			t.Fatalf("%q is read as %v", text, v)
		}
		return
	}
	var fault *ParseError
	if !errors.As(err, &fault) {
		t.Fatalf("%q: %v is no *ParseError", text, err)
	}
	if v != 0 || fault.Text != text || fault.Reason == "" || fault.Want == "" || fault.Pos < 0 || fault.Pos > len(text) || !utf8.ValidString(fault.Error()) {
		t.Fatalf("%q: value %v, fault %#v", text, v, fault)
	}
	if fault.Pos < len(text) && !utf8.RuneStart(text[fault.Pos]) && utf8.ValidString(text) {
		t.Fatalf("%q: the fault at %d is within a character", text, fault.Pos)
	}
}

func FuzzParseLength(f *testing.F) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, bare := range []LengthUnit{"", InCentimetres, InInches} {
			l, err := ParseLength(text, bare)
			checkFuzz(t, text, float64(l), err)
			style := Style{Lengths: bare}
			style.Length(l)
			if taken, err := style.TakeLength(text, ""); err == nil {
				if back, err := ParseLength(taken.Written, ""); err != nil || back != l {
					t.Fatalf("%q is kept as %q, which is %v, %v; want %v", text, taken.Written, back, err, l)
				}
			}
		}
	})
}

func FuzzParseTemperature(f *testing.F) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, bare := range []TempUnit{"", InFahrenheit} {
			v, err := ParseTemperature(text, bare)
			checkFuzz(t, text, float64(v), err)
			if taken, err := (Style{Temperatures: bare}).TakeTemperature(text); err == nil {
				if back, err := ParseTemperature(taken.Written, ""); err != nil || back != v {
					t.Fatalf("%q is kept as %q, which is %v, %v; want %v", text, taken.Written, back, err, v)
				}
			}
		}
	})
}

func FuzzParseOthers(f *testing.F) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		volume, err := ParseVolume(text, InFluidOunces)
		checkFuzz(t, text, float64(volume), err)
		mass, err := ParseMass(text, InPounds)
		checkFuzz(t, text, float64(mass), err)
		area, err := ParseArea(text, InInches)
		checkFuzz(t, text, float64(area), err)
		density, err := ParseDensity(text)
		checkFuzz(t, text, float64(density), err)
		share, err := ParseShare(text)
		checkFuzz(t, text, float64(share), err)
		angle, err := ParseAngle(text)
		checkFuzz(t, text, float64(angle), err)
		span, err := ParseSpan(text)
		checkFuzz(t, text, float64(span), err)
		energy, err := ParseMolarEnergy(text)
		checkFuzz(t, text, float64(energy), err)
		heat, err := ParseSpecificEnergy(text)
		checkFuzz(t, text, float64(heat), err)
		viscosity, err := ParseViscosity(text)
		checkFuzz(t, text, float64(viscosity), err)
		number, err := ParseNumber(text)
		checkFuzz(t, text, float64(number), err)
		money, err := ParseMoney(text, "EUR")
		checkFuzz(t, text, float64(money.Minor), err)
	})
}
