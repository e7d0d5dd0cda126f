package look

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
)

// TestMenuKeysAreLegible: what the toolkit makes of the colour of words where it
// writes the keys in a menu (shortcutColor in widget/menu_item.go) is that colour.
func TestMenuKeysAreLegible(t *testing.T) {
	for _, v := range []fyne.ThemeVariant{theme.VariantLight, theme.VariantDark} {
		r, g, b, a := New(System).Color(theme.ColorNameForeground, v).RGBA()
		a = uint32(float32(a) * 0.95)
		want := Of(v).Ink
		if got := (color.NRGBA{R: uint8(r), G: uint8(g), B: uint8(b), A: uint8(a)}); got != want {
			t.Errorf("the keys are %v, want %v", got, want)
		}
	}
}

// TestCalm: what the toolkit's controls ask before they move is what was said, and
// the rest of its settings are its own; nothing is still before anything is said.
func TestCalm(t *testing.T) {
	inner := test.NewTempApp(t)
	a := Calm(inner)
	if Still() {
		t.Error("nothing is to move though nobody said so")
	}
	still := true
	a.Obey(func() bool { return still })
	if !Still() || fyne.CurrentApp().Settings().ShowAnimations() {
		t.Error("the toolkit moves things")
	}
	if still = false; Still() {
		t.Error("nothing moves any more")
	}
	a.Settings().SetTheme(New(Dark))
	if inner.Settings().Theme() != a.Settings().Theme() || Current() != Evening {
		t.Error("the theme is not that of the app within")
	}
}
