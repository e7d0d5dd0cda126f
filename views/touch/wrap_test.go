package touch

import (
	"slices"
	"testing"
)

// A number and its unit are one word: a line never ends between them.
func TestWrapKeepsUnitsWithTheirNumbers(t *testing.T) {
	measure := func(s string) float32 { return float32(len([]rune(s))) }
	for _, c := range []struct {
		text  string
		width float32
		want  []string
	}{
		{"the deepest layer of 25 mm", 23, []string{"the deepest layer of", "25 mm"}},
		{"it holds 1.5 l, or 1.6 kg", 12, []string{"it holds", "1.5 l, or", "1.6 kg"}},
		{"7 1/4 in down", 7, []string{"7", "1/4 in", "down"}},
		{"it goes in", 8, []string{"it goes", "in"}},
		{"at 20 °C (68 °F).", 9, []string{"at 20 °C", "(68 °F)."}},
		{"", 9, []string{""}},
		{"a Sideboardplattenverlängerung of oak", 16, []string{"a", "Sideboardplatten", "verlängerung of", "oak"}},
		{"Sideboardplattenverlängerung", 9, []string{"Sideboardp", "lattenverl", "ängerung"}},
	} {
		if got := wrap(c.text, c.width, measure); !slices.Equal(got, c.want) {
			t.Errorf("%q at %v breaks into %q, want %q", c.text, c.width, got, c.want)
		}
	}
	if got := widestWord("a layer of 25 mm", measure); got != 5 {
		t.Errorf("the widest word is %v, want 5", got)
	}
}
