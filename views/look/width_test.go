package look

import (
	"bytes"
	"fmt"
	"testing"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/go-text/typesetting/font"
	"pgregory.net/rapid"

	"meniscus/assets"
)

// sizesAsked are those of the roles, and some between.
var sizesAsked = []float32{11, 12, 13, 13.5, 14, 15, 16, 18, 20.25, 24, 28, 64, 220}

// TestWidthIsTheToolkits: every letter of the face, alone and between others, is
// as wide as the toolkit shows it (reference: its text shaper, go-text).
func TestWidthIsTheToolkits(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(New(Light))
	for i, data := range [][]byte{assets.Regular.Content(), assets.Bold.Content()} {
		style := fyne.TextStyle{Bold: i == 1}
		face, err := font.ParseTTF(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		told := 0
		for r := rune(1); r < 0x3000; r++ {
			if _, ok := face.NominalGlyph(r); !ok {
				continue
			}
			for _, s := range []string{string(r), fmt.Sprintf("f%ci%cA%cV", r, r, r)} {
				if _, ok := ours(s, 14, style); ok {
					told++
				}
				if got, want := Width(s, 14, style), fyne.MeasureText(s, 14, style).Width; got != want {
					t.Errorf("%q (%U), bold %t: %g, and the toolkit says %g", s, r, style.Bold, got, want)
				}
			}
		}
		if told < 1000 {
			t.Errorf("bold %t: only %d are told without the toolkit", style.Bold, told)
		}
	}
}

// Texts of any letters, and of what the face does not have.
func TestWidthOfAnyText(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(New(Dark))
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.RuneFrom([]rune("AVToWay fi ffl 1234,5°½−×→mm²·“”…é\u0301漢\u00a0\u2009"), unicode.Latin, unicode.Greek, unicode.Cyrillic, unicode.P, unicode.Sm)).Draw(t, "text")
		style := fyne.TextStyle{Bold: rapid.Bool().Draw(t, "bold"), Monospace: rapid.IntRange(0, 9).Draw(t, "monospace") == 0}
		size := rapid.SampledFrom(sizesAsked).Draw(t, "size")
		if got, want := Width(text, size, style), fyne.MeasureText(text, size, style).Width; got != want {
			t.Errorf("%q at %g: %g, and the toolkit says %g", text, size, got, want)
		}
	})
}

// Another theme has another typeface.
func TestWidthInAnotherTheme(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(test.NewTheme())
	const text = "Walnut slab 12.5 mm"
	if got, want := Width(text, 14, fyne.TextStyle{}), fyne.MeasureText(text, 14, fyne.TextStyle{}).Width; got != want {
		t.Errorf("%g, and the toolkit says %g", got, want)
	}
}

func BenchmarkWidth(b *testing.B) {
	test.NewTempApp(b).Settings().SetTheme(New(Light))
	const text = "Measure the mold as it stands, inside, at the floor."
	b.Run("ours", func(b *testing.B) {
		for b.Loop() {
			Width(text, 14, fyne.TextStyle{})
		}
	})
	b.Run("toolkit", func(b *testing.B) {
		for i := 0; b.Loop(); i++ { // another text each time, as it keeps what it measured
			fyne.MeasureText(fmt.Sprint(text, i), 14, fyne.TextStyle{})
		}
	})
}
