package touch

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"meniscus/views/look"
)

// The words are as large as they would be if each size had been tried, from the
// largest down.
func TestFitAsIfEachSizeWereTried(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(look.Light))
	rapid.Check(t, func(t *rapid.T) {
		most := float32(rapid.IntRange(8, 200).Draw(t, "most"))
		f := NewFit(most, float32(rapid.IntRange(4, 60).Draw(t, "least")), rapid.IntRange(0, 5).Draw(t, "lines"))
		f.text = strings.Join(rapid.SliceOfN(rapid.StringMatching(`[A-Za-z]{1,12}|[0-9]{1,3} (mm|g|ml)|AVATAR|Wolfram|[a-z]{30}`), 0, 12).Draw(t, "words"), " ")
		room := fyne.NewSize(float32(rapid.IntRange(0, 900).Draw(t, "width")), float32(rapid.IntRange(0, 300).Draw(t, "height")))
		f.fit(room)

		size, cut := most, false
		for ; ; size = max(size*0.96, f.Least) {
			style := fyne.TextStyle{Bold: true}
			measure := func(s string) float32 { return fyne.MeasureText(s, size, style).Width }
			parts := wrapEach(f.text, room.Width, measure)
			if len(parts) <= max(f.Lines, 1) && widestWord(f.text, measure) <= room.Width && float32(len(parts))*lineOf(size, style) <= room.Height {
				break
			}
			if cut = size <= f.Least; cut {
				break
			}
		}
		if got := f.TextSize(); f.text != "" && got != size || f.Cut() != cut {
			t.Fatalf("%q in %v is %v high, cut %v; tried out, %v and %v", f.text, room, got, f.Cut(), size, cut)
		}
	})
}
