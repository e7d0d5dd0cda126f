package look

import (
	"image/color"
	"math"
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meniscus/assets"
)

// Mode is the light that the maker chose to work in.
type Mode string

// The modes. System follows the desktop.
const (
	System Mode = "system"
	Light  Mode = "light"
	Dark   Mode = "dark"
)

// Theme is the look handed to the toolkit.
type Theme struct {
	mode Mode
}

var _ fyne.Theme = (*Theme)(nil)

// New makes the theme for a mode; an unknown mode is System. The environment's
// FYNE_THEME (light or dark), where it is set, goes before the mode, so that a
// picture of either light can be taken from outside.
func New(mode Mode) fyne.Theme {
	switch env := Mode(os.Getenv("FYNE_THEME")); env {
	case Light, Dark:
		mode = env
	}
	return &Theme{mode: mode}
}

// variant is the variant really shown when the desktop asks for asked.
func (t *Theme) variant(asked fyne.ThemeVariant) fyne.ThemeVariant {
	switch t.mode {
	case Light:
		return theme.VariantLight
	case Dark:
		return theme.VariantDark
	}
	return asked
}

// Font gives our typeface; monospaced text and symbols come from the toolkit.
func (t *Theme) Font(style fyne.TextStyle) fyne.Resource {
	switch {
	case style.Monospace, style.Symbol:
		return theme.DefaultTheme().Font(style)
	case style.Bold:
		return assets.Bold
	}
	return assets.Regular
}

// Icon gives the toolkit's own icons.
func (t *Theme) Icon(name fyne.ThemeIconName) fyne.Resource {
	return theme.DefaultTheme().Icon(name)
}

// cleared is the colour that a window must be cleared with to be c: the toolkit
// divides the 16 bits of a channel by 255 times 255, not by 65,535, and so
// shows a clearing colour a shade brighter than the same colour drawn.
func cleared(c color.NRGBA) color.NRGBA {
	channel := func(v uint8) uint8 { return uint8(math.Round(float64(v) * 255 * 255 / 65535)) }
	return color.NRGBA{channel(c.R), channel(c.G), channel(c.B), c.A}
}

// legible is an opaque colour that the toolkit shows as it is where it writes the
// keys beside an entry of a menu. It takes nineteen twentieths of the opacity there
// and of that, in 16 bits, the lower eight: of 65,535 these leave a fifth, and the
// keys could not be read.
type legible struct{ color.NRGBA }

// RGBA gives the colour with the opacity of which these eight bits are all set,
// less than a thousandth below the full one.
func (c legible) RGBA() (r, g, b, a uint32) {
	r, g, b, _ = c.NRGBA.RGBA()
	const opaque = 65482
	return min(r, opaque), min(g, opaque), min(b, opaque), opaque
}

// Color gives the colour of a toolkit part from the palette.
func (t *Theme) Color(name fyne.ThemeColorName, asked fyne.ThemeVariant) color.Color {
	v := t.variant(asked)
	p := Of(v)
	switch name {
	case theme.ColorNameBackground:
		return cleared(p.Ground)
	case theme.ColorNameForeground:
		return legible{p.Ink}
	case theme.ColorNamePlaceHolder:
		return p.Faint
	case theme.ColorNameDisabled:
		return p.Line
	case theme.ColorNameInputBackground, theme.ColorNameButton, theme.ColorNameMenuBackground,
		theme.ColorNameOverlayBackground, theme.ColorNameHeaderBackground:
		return p.Panel
	case theme.ColorNameDisabledButton, theme.ColorNameScrollBarBackground:
		return p.Ground
	case theme.ColorNameInputBorder:
		return p.Line
	case theme.ColorNamePrimary:
		return p.Accent
	case theme.ColorNameForegroundOnPrimary:
		return p.AccentInk
	case theme.ColorNameHyperlink:
		return p.AccentText
	case theme.ColorNameFocus, theme.ColorNameSelection:
		return faded(p.Accent, 0x66)
	case theme.ColorNameHover:
		return faded(p.Accent, 0x1E)
	case theme.ColorNamePressed:
		return faded(p.Accent, 0x55)
	case theme.ColorNameScrollBar:
		return p.Line
	case theme.ColorNameSeparator:
		return p.Hair
	case theme.ColorNameError:
		return p.Stop
	case theme.ColorNameWarning:
		return p.Check
	case theme.ColorNameSuccess:
		return p.Good
	case theme.ColorNameForegroundOnError, theme.ColorNameForegroundOnWarning, theme.ColorNameForegroundOnSuccess:
		return p.Ground
	case theme.ColorNameShadow:
		return color.NRGBA{A: 0x38}
	}
	return theme.DefaultTheme().Color(name, v)
}

// faded gives c with another opacity, 0 to 255.
func faded(c color.NRGBA, alpha uint8) color.NRGBA {
	c.A = alpha
	return c
}
