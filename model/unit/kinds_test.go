package unit

import (
	"errors"
	"testing"
)

// ParseTemperature reads a temperature as ParseMass reads a mass.
func ParseTemperature(text string, bare TempUnit) (Temperature, error) {
	t, _, err := readTemperature(text, bare)
	return t, err
}

// reading and refusing of every kind but length; want is in SI.
type kindCase struct {
	text string
	want float64
}

func checkKind[Q Quantity](t *testing.T, name string, parse func(string) (Q, error), accepts []kindCase, refuses map[string]string) {
	t.Helper()
	for _, c := range accepts {
		if got, err := parse(c.text); err != nil {
			t.Errorf("%s(%q): %v", name, c.text, err)
		} else if !near(float64(got), c.want) {
			t.Errorf("%s(%q) = %v, want %v", name, c.text, float64(got), c.want)
		}
	}
	for text, reason := range refuses {
		got, err := parse(text)
		var fault *ParseError
		if !errors.As(err, &fault) {
			t.Errorf("%s(%q) = %v, %v; want it refused", name, text, got, err)
		} else if fault.Reason != reason || fault.Want == "" {
			t.Errorf("%s(%q): %q, want %q", name, text, fault.Reason, reason)
		}
	}
}

func TestParseVolume(t *testing.T) {
	metric := func(s string) (Volume, error) { return ParseVolume(s, "") }
	checkKind(t, "ParseVolume", metric, []kindCase{
		{"450", 450e-6}, {"450 ml", 450e-6}, {"450 mL", 450e-6}, {"1,5 l", 1.5e-3}, {"1.5 L", 1.5e-3}, {"1.5ℓ", 1.5e-3},
		{"25 cl", 250e-6}, {"2 dl", 200e-6}, {"1 l 200 ml", 1.2e-3}, {"30 cc", 30e-6}, {"30 cm³", 30e-6}, {"30 cm3", 30e-6},
		{"15 fl oz", 15 * 29.5735295625e-6}, {"15 fl. oz.", 15 * 29.5735295625e-6}, {"15 US fl oz", 15 * 29.5735295625e-6},
		{"15 imp fl oz", 15 * 28.4130625e-6}, {"1/2 gal", 0.5 * 3785.411784e-6}, {"1 qt 8 fl oz", (32 + 8) * 29.5735295625e-6},
		{"2 pints", 946.352946e-6}, {"82 cu in", 82 * 16.387064e-6}, {"82 in3", 82 * 16.387064e-6}, {"82 in³", 82 * 16.387064e-6},
		{"82 in^3", 82 * 16.387064e-6}, {"2 bd ft", 2 * 2359.737216e-6}, {"2 cubic feet", 2 * 28316.846592e-6},
	}, map[string]string{
		"5 oz":        "is a mass, and a volume is wanted,",
		"5 in":        "is a length, and a volume is wanted,",
		"-5 ml":       "is below zero, which a volume cannot be,",
		"1 l 1200 ml": "has more ml than make one L",
		"1 gal 1 l":   "mixes gal and L",
		"2 cups":      "has a unit that is not known, “cups”,",
		"1 l 200":     "has no unit after the last number",
		"1,250 ml":    "can be read as 1250 and as 1.250: the comma is unclear",
	})
	for bare, want := range map[VolumeUnit]Volume{InLitres: 2 * Litre, InFluidOunces: 2 * USFluidOunce, InCubicInches: 2 * CubicInch, "": 2 * Millilitre} {
		if got, err := ParseVolume("2", bare); err != nil || !near(float64(got), float64(want)) {
			t.Errorf("ParseVolume(2, %q) = %v, %v", bare, got, err)
		}
	}
}

func TestParseMass(t *testing.T) {
	metric := func(s string) (Mass, error) { return ParseMass(s, "") }
	checkKind(t, "ParseMass", metric, []kindCase{
		{"450", 0.45}, {"450g", 0.45}, {"1.2 kg", 1.2}, {"1 kg 250 g", 1.25}, {"500 mg", 0.0005}, {"15.5 oz", 15.5 * 0.028349523125},
		{"2 lb 3 oz", 35 * 0.028349523125}, {"2 lbs", 2 * 0.45359237}, {"2 lb, 3 1/2 oz", 35.5 * 0.028349523125}, {"3 Pounds", 3 * 0.45359237},
	}, map[string]string{
		"5 ml":       "is a volume, and a mass is wanted,",
		"-1 g":       "is below zero, which a mass cannot be,",
		"2 lb 3":     "has no unit after the last number",
		"2 lb 18 oz": "has more oz than make one lb",
		"5 gr":       "has a unit that is not known, “gr”,",
		"":           "is empty",
	})
	for bare, want := range map[MassUnit]Mass{InKilograms: 2 * Kilogram, InOunces: 2 * Ounce, InPounds: 2 * Pound, "": 2 * Gram} {
		if got, err := ParseMass("2", bare); err != nil || !near(float64(got), float64(want)) {
			t.Errorf("ParseMass(2, %q) = %v, %v", bare, got, err)
		}
	}
}

func TestParseTemperature(t *testing.T) {
	celsius := func(s string) (Temperature, error) { return ParseTemperature(s, "") }
	checkKind(t, "ParseTemperature", celsius, []kindCase{
		{"22", 295.15}, {"22 °C", 295.15}, {"22C", 295.15}, {"22°", 295.15}, {"22 ℃", 295.15}, {"22 deg C", 295.15}, {"21,5 celsius", 294.65},
		{"-5", 268.15}, {"−5 °C", 268.15}, {"32 F", 273.15}, {"72 °F", (72-32)/1.8 + 273.15}, {"212 ℉", 373.15}, {"300 K", 300}, {"-40 F", 233.15}, {"0", 273.15},
	}, map[string]string{
		"-300":    "is not above absolute zero",
		"0 K":     "is not above absolute zero",
		"-500 °F": "is not above absolute zero",
		"22 mm":   "is a length, and a temperature is wanted,",
		"20-25":   "has two numbers with a dash between them",
		"22 °Z":   "has a word too many, “Z”,",
	})
	if got, err := ParseTemperature("212°", InFahrenheit); err != nil || !near(float64(got), 373.15) {
		t.Errorf("212° in Fahrenheit = %v, %v", got, err)
	}
}

func TestParseSpan(t *testing.T) {
	checkKind(t, "ParseSpan", ParseSpan, []kindCase{
		{"24", 86400}, {"2.4 h", 8640}, {"2 h 30 min", 9000}, {"2h30m", 9000}, {"2h30", 9000}, {"2:30", 9000}, {"0:45 h", 2700}, {"48:00", 172800},
		{"1:02:03", 3723}, {"45 min", 2700}, {"90 s", 90}, {"7 d", 604800}, {"1 day 4 hours", 100800}, {"½ h", 1800}, {"1 1/2 hrs", 5400}, {"2 weeks", 1209600},
	}, map[string]string{
		"2:5":        "needs two digits behind the colon",
		"2:60":       "has more than 59 behind the colon",
		"2:":         "stops after the colon",
		":30":        "has no hours in front of the colon",
		"2 30:":      "has a colon in the wrong place",
		"2:30 min":   "has something behind the hours and minutes",
		"1:02:03:04": "has something behind the hours and minutes",
		"999999:00":  "is larger than anything in a shop",
		"2 h 75 min": "has more min than make one h",
		"-2 h":       "is below zero, which a time cannot be,",
		"20-30 min":  "has two numbers with a dash between them",
	})
}

func TestParseOthers(t *testing.T) {
	checkKind(t, "ParseDensity", ParseDensity, []kindCase{
		{"1.1", 1100}, {"1,1 g/ml", 1100}, {"1.1 g/cm³", 1100}, {"1100", 1100}, {"1100 kg/m3", 1100}, {"1.1 kg/L", 1100}, {"30", 30000}, {"30.5", 30.5},
		{"20 g / ml", 20000}, {"42 lb/ft3", 42 * 16.018463373960138}, {"9.2 lb/gal", 9.2 * 119.82642731689663},
	}, map[string]string{"1.1 g": "is a mass, and a density is wanted,", "-1": "is below zero, which a density cannot be,", "": "is empty"})
	checkKind(t, "ParseShare", ParseShare, []kindCase{{"4.5", 0.045}, {"4,5 %", 0.045}, {"100%", 1}, {"1/2 %", 0.005}, {"12 per cent", 0.12}},
		map[string]string{"4 %%": "has a sign that does not belong there, “%”,", "5 g": "is a mass, and a share is wanted,"})
	checkKind(t, "ParseAngle", ParseAngle, []kindCase{{"3", float64(3 * Degree)}, {"2.5°", float64(2.5 * Degree)}, {"3 deg", float64(3 * Degree)}, {"0.1 rad", 0.1}, {"-2°", float64(-2 * Degree)}},
		map[string]string{"3 mm": "is a length, and an angle is wanted,", "3°C": "is a temperature, and an angle is wanted,"})
	checkKind(t, "ParseMolarEnergy", ParseMolarEnergy, []kindCase{{"55", 55000}, {"55 kJ/mol", 55000}, {"55000 J/mol", 55000}, {"14 kcal/mol", 58576}},
		map[string]string{"55 kJ": "has a unit that is not known, “kJ”,"})
	checkKind(t, "ParseSpecificEnergy", ParseSpecificEnergy, []kindCase{{"290", 290e3}, {"290 J/g", 290e3}, {"290 kJ/kg", 290e3}, {"290 j / g", 290e3}, {"290000 J/kg", 290e3}, {"0,29 kJ/g", 290e3}, {"70 cal/g", 292880}, {"125 Btu/lb", 290750}, {"0", 0}},
		map[string]string{"290 J": "has a unit that is not known, “J”,", "55 kJ/mol": "is an energy per mole, and a heat per mass is wanted,", "-290": "is below zero, which a heat per mass cannot be,", "250-300 J/g": "has two numbers with a dash between them", "": "is empty"})
	checkKind(t, "ParseViscosity", ParseViscosity, []kindCase{{"450", 0.45}, {"450 mPa·s", 0.45}, {"450 mPa s", 0.45}, {"450 cP", 0.45}, {"4.5 P", 0.45}, {"0.45 Pa·s", 0.45}, {"0.45 Pa*s", 0.45}},
		map[string]string{"450 ml": "is a volume, and a viscosity is wanted,"})
	checkKind(t, "ParseNumber", ParseNumber, []kindCase{{"2.5", 2.5}, {"100", 100}, {"1/3", 1. / 3}, {"-2", -2}, {"31,58", 31.58}},
		map[string]string{"2 g": "has a unit, but a plain number is wanted,", "2:1": "has a sign that does not belong there, “:”,", "x": "has a word where a number is wanted"})
	square := func(bare LengthUnit) func(string) (Area, error) {
		return func(s string) (Area, error) { return ParseArea(s, bare) }
	}
	checkKind(t, "ParseArea", square(""), []kindCase{{"450", 450e-6}, {"450 mm²", 450e-6}, {"45 cm2", 45e-4}, {"2 sq in", 2 * 645.16e-6}, {"1 m²", 1}, {"1 sq ft", 0.09290304}},
		map[string]string{"450 mm": "is a length, and an area is wanted,", "450 mm³": "is a volume, and an area is wanted,"})
	checkKind(t, "ParseArea", square(InInches), []kindCase{{"2", 2 * 645.16e-6}}, nil)
	checkKind(t, "ParseArea", square(InCentimetres), []kindCase{{"2", 2e-4}}, nil)
}

func TestParseMoney(t *testing.T) {
	tests := []struct {
		text, currency string
		minor          int64
	}{
		{"12.50", "EUR", 1250}, {"12,50 €", "EUR", 1250}, {"€12.5", "EUR", 1250}, {"EUR 12", "EUR", 1200}, {"12 eur", "EUR", 1200},
		{"$1,234.50", "USD", 123450}, {"1,234", "USD", 123400}, {"1.234,50", "EUR", 123450}, {"1 234,50", "EUR", 123450}, {"-3.20", "EUR", -320},
		{"0.29", "USD", 29}, {"1500 ¥", "JPY", 1500}, {"1.234", "KWD", 1234}, {"5", "", 500},
	}
	for _, test := range tests {
		got, err := ParseMoney(test.text, test.currency)
		if err != nil || got != (Money{Minor: test.minor, Currency: test.currency}) {
			t.Errorf("ParseMoney(%q, %q) = %v, %v; want %d", test.text, test.currency, got, err, test.minor)
		}
	}
	for text, reason := range map[string]string{
		"12.505":      "has more decimals than the currency",
		"12 USD":      "has “USD”, which is not the currency in use,",
		"$12":         "has “$”, which is not the currency in use,",
		"12½":         "has two numbers with no unit between them",
		"½":           "has a fraction, which money cannot have,",
		"12 - 13":     "has two numbers with a dash between them",
		"EUR 12 EUR":  "has a unit, but an amount of money is wanted,",
		"":            "is empty",
		"99999999999": "is larger than anything in a shop",
	} {
		got, err := ParseMoney(text, "EUR")
		var fault *ParseError
		if !errors.As(err, &fault) {
			t.Errorf("ParseMoney(%q) = %v, %v; want it refused", text, got, err)
		} else if fault.Reason != reason {
			t.Errorf("ParseMoney(%q): %q, want %q", text, fault.Reason, reason)
		}
	}
}

func TestTakeKeepsTheUnit(t *testing.T) {
	inch := Style{Lengths: InInches, Temperatures: InFahrenheit}
	d, err := inch.TakeLength(" 10 3/8 ", Rule)
	if err != nil || d.Written != "10 3/8 in" || d.By != Rule || !near(d.Value.Inches(), 10.375) {
		t.Errorf("TakeLength = %+v, %v", d, err)
	}
	if d, err := inch.TakeLength("264 mm", ""); err != nil || d.Written != "264 mm" {
		t.Errorf("TakeLength = %+v, %v", d, err)
	}
	if d, err := inch.TakeLength(`1' 10`, ""); err != nil || d.Written != `1' 10` {
		t.Errorf("TakeLength = %+v, %v", d, err)
	}
	for text, want := range map[string]string{"72": "72 °F", "72°": "72 °F", "72 deg": "72 °F", "22 C": "22 C"} {
		if got, err := inch.TakeTemperature(text); err != nil || got.Written != want {
			t.Errorf("TakeTemperature(%q) = %+v, %v; want %q", text, got, err, want)
		}
	}
	if m, err := inch.TakeMass("5"); err != nil || m.Written != "5 g" || m.Value != 5*Gram {
		t.Errorf("TakeMass = %+v, %v", m, err)
	}
	if v, err := (Style{Volumes: InFluidOunces}).TakeVolume("5"); err != nil || v.Written != "5 fl oz" {
		t.Errorf("TakeVolume = %+v, %v", v, err)
	}
	if _, err := inch.TakeLength("0.00000000000000000000000000000000000000000000000000000000000001", ""); err == nil {
		t.Error("a number of 64 characters leaves no room for a unit and was taken")
	}
}
