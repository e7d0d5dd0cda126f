package unit

import (
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"
)

// near tells whether got is want to a relative 1e-12.
func near(got, want float64) bool {
	return math.Abs(got-want) <= 1e-12*math.Abs(want)
}

func TestParseLengthAccepts(t *testing.T) {
	const in, ft = 0.0254, 0.3048
	tests := []struct {
		text string
		bare LengthUnit
		want float64 // metres
	}{
		{`10 3/8`, InInches, 10.375 * in},
		{`10-3/8"`, "", 10.375 * in},
		{`10+3/8 in`, "", 10.375 * in},
		{`3/32`, InInches, 3. / 32 * in},
		{`3 / 32 in`, "", 3. / 32 * in},
		{`1' 10 1/2"`, "", 22.5 * in},
		{`1'-10 1/2"`, "", 22.5 * in},
		{`1' - 10 1/2"`, "", 22.5 * in},
		{`1'10"`, InCentimetres, 22 * in},
		{`1′ 10½″`, "", 22.5 * in},
		{`1’ 10 1/2”`, "", 22.5 * in},
		{`1' 10''`, "", 22 * in},
		{`5''`, "", 5 * in},
		{`1' 10`, "", 22 * in},
		{`1 ft 10`, InCentimetres, 22 * in},
		{`1 ft, 10 in`, "", 22 * in},
		{`1ft2in`, "", 14 * in},
		{`6 feet 3/8 inch`, "", 6*ft + 0.375*in},
		{`6'`, "", 6 * ft},
		{`½`, InInches, 0.5 * in},
		{`10½`, InInches, 10.5 * in},
		{`10 ½ in`, "", 10.5 * in},
		{`10-½ in`, "", 10.5 * in},
		{`1⁄16`, InInches, in / 16},
		{`10 3⁄8"`, "", 10.375 * in},
		{`¹⁄₁₆ in`, "", in / 16},
		{`10³⁄₈ in`, "", 10.375 * in},
		{`10.375`, InInches, 10.375 * in},
		{`10.375`, "", 0.010375},
		{`263,5 mm`, "", 0.2635},
		{`263.5MM`, "", 0.2635},
		{`26.4cm`, "", 0.264},
		{`26.4`, InCentimetres, 0.264},
		{`264`, InMillimetres, 0.264},
		{`264`, LengthUnit("cubit"), 0.264},
		{`1 1/2 in`, "", 1.5 * in},
		{`1 1/2 In.`, "", 1.5 * in},
		{`11/8 in`, "", 1.375 * in},
		{`1,234.5 mm`, "", 1.2345},
		{`1 234,5 mm`, "", 1.2345},
		{`1.234,5 mm`, "", 1.2345},
		{"1\u00a0234.5\u202fmm", "", 1.2345},
		{"1\u2009234 mm", "", 1.234},
		{`1,234,567 mm`, "", 1234.567},
		{`1.234.567 mm`, "", 1234.567},
		{`1 234 567,8 mm`, "", 1234.5678},
		{`1 125/1000 in`, "", 1.125 * in},
		{`1 234 1/2 mm`, "", 1.2345},
		{`1.234 mm`, "", 0.001234},
		{`0,375 in`, "", 0.375 * in},
		{`1234,567 mm`, "", 1.234567},
		{`.5 in`, "", 0.5 * in},
		{`,5 in`, "", 0.5 * in},
		{`2 m`, "", 2},
		{`2 m 30 cm`, "", 2.3},
		{`26 cm 4 mm`, "", 0.264},
		{`1 yd 2 ft 3 in`, "", 63 * in},
		{`12 inches`, "", 12 * in},
		{`1 Inch`, "", in},
		{`5 millimeters`, "", 0.005},
		{`-3 mm`, "", -0.003},
		{`- 1' 2"`, "", -14 * in},
		{`−10-3/8 in`, "", -10.375 * in},
		{`±0.5 mm`, "", 0.0005},
		{`+5`, "", 0.005},
		{`-0`, "", 0},
		{"\t 12 mm \n", "", 0.012},
		{`007`, "", 0.007},
		{`1 ft .5 in`, "", ft + 0.5*in},
	}
	for _, test := range tests {
		got, err := ParseLength(test.text, test.bare)
		if err != nil {
			t.Errorf("ParseLength(%q, %q): %v", test.text, test.bare, err)
		} else if !near(float64(got), test.want) || math.Signbit(float64(got)) != (test.want < 0) {
			t.Errorf("ParseLength(%q, %q) = %v m, want %v m", test.text, test.bare, float64(got), test.want)
		}
	}
}

func TestParseLengthRefuses(t *testing.T) {
	tests := []struct {
		text   string
		char   int // counted from 1
		reason string
	}{
		{``, 1, "is empty"},
		{"  \t", 1, "is empty"},
		{`10 3/`, 5, "stops after the slash"},
		{`10 3/ in`, 5, "stops after the slash"},
		{`/8`, 1, "starts with a slash"},
		{`10 3/0`, 6, "divides by zero"},
		{`3/8/2`, 4, "has a slash too many"},
		{`10 8/8`, 4, "has a fraction that is not smaller than one after a whole number"},
		{`10.5 3/8`, 6, "has a fraction after a decimal"},
		{`1.5/2`, 1, "has a decimal in a fraction"},
		{`3/8.5`, 4, "has a decimal in a fraction"},
		{`1,234`, 2, "can be read as 1234 and as 1.234: the comma is unclear"},
		{`12,345 mm`, 3, "can be read as 12345 and as 12.345: the comma is unclear"},
		{`1,23,456`, 3, "has thousands that are not in groups of three"},
		{`1234,567.8`, 1, "has thousands that are not in groups of three"},
		{`1.234,5.6`, 8, "mixes marks in one number"},
		{`1 234,567,890`, 10, "mixes marks in one number"},
		{`10.`, 3, "has no digit after the mark"},
		{`.`, 1, "has no digit after the mark"},
		{`1..5`, 2, "has no digit after the mark"},
		{`1e9`, 2, "has an exponent; write the number out"},
		{`1E-3 mm`, 2, "has an exponent; write the number out"},
		{`NaN`, 1, "is not a number that can be measured"},
		{`Inf mm`, 1, "is not a number that can be measured"},
		{`-∞`, 2, "is not a number that can be measured"},
		{`10-12 mm`, 3, "has two numbers with a dash between them"},
		{`10 - 3/8`, 4, "has two numbers with a dash between them"},
		{`10 -`, 4, "stops after the dash"},
		{`-`, 1, "stops after the sign"},
		{`--5`, 2, "has two signs"},
		{`5 ± 1`, 3, "has a tolerance behind it"},
		{`10 x 20`, 4, "has more than one size"},
		{`10×20 mm`, 3, "has more than one size"},
		{`10 20`, 4, "has two numbers with no unit between them"},
		{`½ 3`, 3, "has two numbers with no unit between them"},
		{`10 furlongs`, 4, "has a unit that is not known, “furlongs”,"},
		{`10 inx`, 4, "has a unit that is not known, “inx”,"},
		{`5 mil`, 3, "has a unit that means two things, “mil”,"},
		{`450 ml`, 5, "is a volume, and a length is wanted,"},
		{`5 mm²`, 3, "is an area, and a length is wanted,"},
		{`5 g`, 3, "is a mass, and a length is wanted,"},
		{`mm`, 1, "has a unit but no number in front of it"},
		{`about 5`, 1, "has a word where a number is wanted"},
		{`~5`, 1, "has a sign that does not belong there, “~”,"},
		{`5 mm!`, 5, "has a sign that does not belong there, “!”,"},
		{`5 mm deep`, 6, "has a word too many, “deep”,"},
		{`1 ft 5 cm`, 6, "mixes ft and cm"},
		{`1' 14"`, 4, "has more in than make one ft"},
		{`2" 1'`, 4, "has the larger unit behind the smaller one"},
		{`2" 1"`, 4, "has the same unit twice"},
		{`1.5' 3"`, 1, "has a fraction in front of the last unit"},
		{`2 m 30`, 5, "has no unit after the last number"},
		{`1 ft.5 in`, 5, "has a point that is unclear after the unit"},
		{`9999999999`, 1, "is larger than anything in a shop"},
		{`99999999999999/2`, 1, "is larger than anything in a shop"},
		{strings.Repeat("9", 65), 65, "is too long to be a length"},
		{"5\xff", 2, "has a sign that cannot be read"},
		{"5\u200b mm", 2, "has a sign that cannot be seen"},
		{`٣ mm`, 1, "has a digit of another script, “٣”,"},
		{`10²`, 3, "has two numbers with no unit between them"},
		{`²`, 1, "has a raised digit that belongs to no fraction"},
	}
	for _, test := range tests {
		got, err := ParseLength(test.text, InMillimetres)
		var fault *ParseError
		if !errors.As(err, &fault) {
			t.Errorf("ParseLength(%q) = %v, %v; want it refused", test.text, got, err)
			continue
		}
		if fault.Reason != test.reason || fault.Character() != test.char {
			t.Errorf("ParseLength(%q): %q at %d, want %q at %d", test.text, fault.Reason, fault.Character(), test.reason, test.char)
		}
		if fault.Text != test.text || fault.Want == "" {
			t.Errorf("ParseLength(%q): text %q, example %q", test.text, fault.Text, fault.Want)
		}
	}
}

func TestParseErrorWords(t *testing.T) {
	tests := []struct {
		text string
		bare LengthUnit
		want string
	}{
		{`10 3/`, "", `“10 3/” stops after the slash at character 5; write it like 10 3/8 in`},
		{`1,234`, "", `“1,234” can be read as 1234 and as 1.234: the comma is unclear at character 2; write it like 1234 or 1.234`},
		{` `, InInches, `nothing is written; write it like 10 3/8 in`},
		{"5\n\u200b", InCentimetres, `“5 �” has a sign that cannot be seen at character 3; write it like 26.4 cm`},
	}
	for _, test := range tests {
		_, err := ParseLength(test.text, test.bare)
		if err == nil || err.Error() != test.want {
			t.Errorf("ParseLength(%q): %v, want %s", test.text, err, test.want)
		}
	}
	_, err := ParseLength(strings.Repeat("1 mm ", 100), "")
	if n := utf8.RuneCountInString(err.Error()); n > 140 {
		t.Errorf("the error for a long text has %d characters: %v", n, err)
	}
}

func TestExamplesCanBeRead(t *testing.T) {
	for _, k := range kinds {
		if _, _, err := readAll(k.want, k, measure{num: 1, den: 1}, ""); err != nil {
			t.Errorf("the example for %s: %v", k.noun, err)
		}
	}
	for name := range lengths.units {
		if _, err := ParseLength("1 "+name, ""); err != nil {
			t.Errorf("the unit %q: %v", name, err)
		}
	}
}
