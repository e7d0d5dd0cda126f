package touch

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestAddFraction(t *testing.T) {
	for _, c := range []struct {
		text     string
		num, den int
		want     string
	}{
		{"", 1, 2, "1/2"},
		{"10", 1, 2, "10 1/2"},
		{"10 1/2", 1, 4, "10 3/4"},
		{"10 1/2", 1, 8, "10 5/8"},
		{"10 7/8", 1, 8, "11"},
		{"1/8", 1, 16, "3/16"},
		{"10 in", 1, 2, "10 1/2 in"},
		{"5 ft 3", 3, 8, "5 ft 3 3/8"},
		{"-2", 1, 4, "-2 1/4"},
		{"10.5", 1, 2, "10.5"},
		{"10,5", 1, 2, "10,5"},
		{"1/0", 1, 2, "1/0"},
		{`3"`, 1, 2, `3 1/2"`},
	} {
		if got := addFraction(c.text, c.num, c.den); got != c.want {
			t.Errorf("%q and %d/%d make %q, want %q", c.text, c.num, c.den, got, c.want)
		}
	}
}

func TestSetUnit(t *testing.T) {
	for _, c := range []struct{ text, unit, want string }{
		{"264", "mm", "264 mm"},
		{"264 mm", "in", "264 in"},
		{"10 1/2", "in", "10 1/2 in"},
		{"5 ft 3", "in", "5 ft 3 in"},
		{"", "in", ""},
		{"1.2 fl oz", "L", "1.2 L"},
		{"23 °C", "°F", "23 °F"},
	} {
		if got := setUnit(c.text, c.unit); got != c.want {
			t.Errorf("%q with %q is %q, want %q", c.text, c.unit, got, c.want)
		}
	}
}

func TestErase(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"10 1/2 in", "10 1/2"},
		{"10 1/2", "10"},
		{"10", "1"},
		{"1", ""},
		{"", ""},
		{"1/2", ""},
		{"10 1/", "10 1"},
		{"-", ""},
		{"10.", "10"},
	} {
		if got := erase(c.text); got != c.want {
			t.Errorf("erasing in %q leaves %q, want %q", c.text, got, c.want)
		}
	}
}

func TestNeedsSpace(t *testing.T) {
	for text, want := range map[string]bool{
		"": false, "10": false, "5 ft": true, "5 ft ": false, "1/": false, "1.": false, "-": false, "1 h": true, "2:": false, "±": false,
	} {
		if got := needsSpace(text); got != want {
			t.Errorf("a digit behind %q: space %v, want %v", text, got, want)
		}
	}
}

func TestSignFlipsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[0-9]{1,4}( [0-9]/[0-9])?( in| mm)?`).Draw(t, "text")
		if got := flipSign(flipSign(text)); got != text {
			t.Fatalf("%q becomes %q", text, got)
		}
	})
}

// Erasing shortens, and so ends; adding a fraction and its rest to one makes
// the next whole number.
func TestEditsEnd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		if got := erase(text); text != "" && len(got) >= len(text) {
			t.Fatalf("erasing in %q leaves %q", text, got)
		}
		if strings.TrimSpace(setUnit(text, "mm")) == "" && strings.TrimSpace(text) != "" {
			t.Fatalf("the unit ate %q", text)
		}
		den := 1 << rapid.IntRange(1, 6).Draw(t, "power")
		num := rapid.IntRange(1, den-1).Draw(t, "num")
		if got := addFraction(addFraction("7", num, den), den-num, den); got != "8" {
			t.Fatalf("7 + %d/%d + the rest is %q", num, den, got)
		}
	})
}
