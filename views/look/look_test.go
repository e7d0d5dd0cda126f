package look

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Ratios worked by hand from the formula of WCAG 2.2; #777777 on white is the
// well-known near miss of 4.5:1.
func TestContrastFormula(t *testing.T) {
	for _, c := range []struct {
		a, b uint32
		want float64
	}{
		{0x000000, 0xFFFFFF, 21},
		{0xFFFFFF, 0xFFFFFF, 1},
		{0x777777, 0xFFFFFF, 4.48},
		{0x767676, 0xFFFFFF, 4.54},
		{0xFF0000, 0xFFFFFF, 4.00},
	} {
		if got := Contrast(rgb(c.a), rgb(c.b)); math.Abs(got-c.want) > 0.01 {
			t.Errorf("contrast of %06x on %06x is %.2f, want %.2f", c.a, c.b, got, c.want)
		}
		if got, back := Contrast(rgb(c.a), rgb(c.b)), Contrast(rgb(c.b), rgb(c.a)); got != back {
			t.Errorf("contrast is not the same both ways: %v, %v", got, back)
		}
	}
}

func TestPalettesAreLegible(t *testing.T) {
	for name, p := range map[string]Palette{"paper": Paper, "evening": Evening} {
		least := func(what string, a, b color.Color, want float64) {
			if got := Contrast(a, b); got < want {
				t.Errorf("%s: %s has %.2f:1, wants %.1f:1", name, what, got, want)
			}
		}
		for ground, g := range map[string]color.Color{"ground": p.Ground, "panel": p.Panel} {
			least("ink on "+ground, p.Ink, g, 7)
			least("faint on "+ground, p.Faint, g, 4.5)
			least("accent text on "+ground, p.AccentText, g, 4.5)
			least("stop on "+ground, p.Stop, g, 4.5)
			least("check on "+ground, p.Check, g, 4.5)
			least("good on "+ground, p.Good, g, 4.5)
			least("dimension on "+ground, p.Dimension, g, 4.5)
			least("line on "+ground, p.Line, g, 3)
			least("accent on "+ground, p.Accent, g, 3)
		}
		least("words on accent", p.AccentInk, p.Accent, 4.5)
		least("ink on a pressed control", p.Ink, p.Press, 4.5)
		least("accent text on a pressed control", p.AccentText, p.Press, 4.5)
		least("stop on a pressed control", p.Stop, p.Press, 3)
		least("grain on wood", p.WoodGrain, p.Wood, 3)
		least("ink on wood", p.Ink, p.Wood, 4.5)
	}
}

func TestInkOnIsReadable(t *testing.T) {
	for v := uint32(0); v < 1<<24; v += 0x010305 {
		if c := rgb(v); Contrast(InkOn(c), c) < 4.2 {
			t.Fatalf("no readable ink on %06x: %.2f", v, Contrast(InkOn(c), c))
		}
	}
}

func TestModeDecidesTheVariant(t *testing.T) {
	t.Setenv("FYNE_THEME", "")
	for _, c := range []struct {
		mode  Mode
		asked fyne.ThemeVariant
		want  Palette
	}{
		{System, theme.VariantDark, Evening},
		{System, theme.VariantLight, Paper},
		{"", theme.VariantDark, Evening},
		{Light, theme.VariantDark, Paper},
		{Dark, theme.VariantLight, Evening},
	} {
		if got := New(c.mode).Color(theme.ColorNameBackground, c.asked); got != cleared(c.want.Ground) {
			t.Errorf("mode %q asked for %d shows %v", c.mode, c.asked, got)
		}
	}
}

func TestEnvironmentGoesBeforeMode(t *testing.T) {
	t.Setenv("FYNE_THEME", "dark")
	if got := New(Light).Color(theme.ColorNameBackground, theme.VariantLight); got != cleared(Evening.Ground) {
		t.Errorf("ground is %v, want that of evening", got)
	}
}

func TestCurrentFollowsTheApp(t *testing.T) {
	t.Setenv("FYNE_THEME", "")
	a := test.NewTempApp(t)
	a.Settings().SetTheme(New(Dark))
	if Current() != Evening {
		t.Error("a dark theme does not show the evening palette")
	}
	a.Settings().SetTheme(New(Light))
	if Current() != Paper {
		t.Error("a light theme does not show the paper palette")
	}
}

func TestToolkitControlsFitAFinger(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(New(Light))
	for name, o := range map[string]fyne.CanvasObject{
		"entry":  widget.NewEntry(),
		"button": widget.NewButton("Pour", nil),
		"select": widget.NewSelect([]string{"mm", "in"}, nil),
		"check":  widget.NewCheck("Sealed", nil),
	} {
		if got := o.MinSize().Height; got < Target {
			t.Errorf("%s is %.1f high, want %.0f", name, got, Target)
		}
	}
}

func TestEveryColourIsSet(t *testing.T) {
	test.NewTempApp(t)
	th := New(Light)
	for _, n := range []fyne.ThemeColorName{
		theme.ColorNameBackground, theme.ColorNameForeground, theme.ColorNamePlaceHolder, theme.ColorNamePrimary,
		theme.ColorNameInputBorder, theme.ColorNameInputBackground, theme.ColorNameSelection, theme.ColorNameFocus,
	} {
		if c := color.NRGBAModel.Convert(th.Color(n, theme.VariantLight)).(color.NRGBA); c.A == 0 {
			t.Errorf("%s is invisible", n)
		}
	}
}

// TestClearedGround: what the toolkit makes of the colour it clears with is the
// ground that the drawings have.
func TestClearedGround(t *testing.T) {
	for _, p := range []Palette{Paper, Evening} {
		r, g, b, _ := cleared(p.Ground).RGBA()
		shown := func(v uint32) uint8 { return uint8(math.Round(float64(v) / (255 * 255) * 255)) }
		if shown(r) != p.Ground.R || shown(g) != p.Ground.G || shown(b) != p.Ground.B {
			t.Errorf("cleared with %v the window is %d %d %d, the ground is %v", cleared(p.Ground), shown(r), shown(g), shown(b), p.Ground)
		}
	}
}
