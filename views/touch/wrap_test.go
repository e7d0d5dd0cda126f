package touch

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"meniscus/views/look"
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

// wrapEach breaks text as wrap does, but measures the line anew with each word
// that is put to it.
func wrapEach(text string, width float32, measure func(string) float32) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(text, "\n") {
		if width <= 0 || measure(paragraph) <= width {
			lines = append(lines, paragraph)
			continue
		}
		line := ""
		for word := range words(paragraph) {
			for whole := longestWord; len([]rune(word)) > whole && measure(word) > width; whole = brokenWord {
				if line != "" {
					lines = append(lines, line)
				}
				line, word = broken(word, width, measure)
				lines, line = append(lines, line), ""
			}
			switch longer := line + " " + word; {
			case line == "":
				line = word
			case measure(longer) <= width:
				line = longer
			default:
				lines = append(lines, line)
				line = word
			}
		}
		lines = append(lines, line)
	}
	return lines
}

// However the end of a line is guessed, it lies where it would if each word had
// been tried, in the typeface of the program and in every role.
func TestWrapAsIfEachWordWereTried(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(look.Light))
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.OneOf(
			rapid.StringMatching(`[A-Za-zÀ-ÿ]{1,12}[.,:;)]?`),
			rapid.StringMatching(`(AV|To|Wa|fi|ffl|LT|Ty|"y|r\.)[a-z]{0,5}`), // pairs that are kerned or joined
			rapid.StringMatching(`[0-9]{1,4}(\.[0-9])? (mm|ml|g|°C|min|in)`),
			rapid.StringMatching(`[a-zäöü]{21,60}`),
			rapid.StringMatching(`[₂³µ×·–…Ωжא한]{1,3}`),
		)
		text := ""
		for range rapid.IntRange(0, 30).Draw(t, "words") {
			text += word.Draw(t, "word") + rapid.SampledFrom([]string{" ", " ", " ", " ", "  ", "\n"}).Draw(t, "gap")
		}
		role := Role(rapid.IntRange(int(Body), int(Countdown)).Draw(t, "role"))
		width := float32(rapid.Float64Range(-10, 900).Draw(t, "width"))
		measure := func(s string) float32 { return fyne.MeasureText(s, role.size(), role.style()).Width }
		if got, want := wrap(text, width, measure), wrapEach(text, width, measure); !slices.Equal(got, want) {
			t.Fatalf("%q at %v breaks into\n%q, each word tried into\n%q", text, width, got, want)
		}
	})
}

// A text is measured as a whole, word by word, and twice a line about its end.
func TestWrapMeasuresLittle(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(look.Light))
	text := strings.Repeat("Measure from the floor to the rim with a rule, at four places. ", 10)
	whole := map[string]int{}
	lines := wrap(text, 400, func(s string) float32 {
		whole[s]++
		return fyne.MeasureText(s, look.Body, fyne.TextStyle{}).Width
	})
	different := map[string]bool{"": true, " ": true, text: true}
	for word := range words(text) {
		different[word] = true
	}
	if most := len(different) + 2*len(lines); len(whole) > most || len(lines) < 10 {
		t.Errorf("%d texts were measured for %d lines, at most %d would do", len(whole), len(lines), most)
	}
}
