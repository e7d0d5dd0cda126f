package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Palette is one set of named colours. Text colours (Ink, Faint, AccentText,
// Stop, Check, Good, Dimension) keep at least 4.5:1 against Ground and Panel,
// lines that mean something (Line, Accent) at least 3:1 (WCAG 2.2, 1.4.3 and
// 1.4.11). Hair is for edges that only please the eye.
type Palette struct {
	Ground     color.NRGBA // the sheet everything lies on
	Panel      color.NRGBA // a card or an input upon the sheet
	Ink        color.NRGBA // words, outlines
	Faint      color.NRGBA // help, units, what matters less
	Line       color.NRGBA // the outline of an input, an axis
	Hair       color.NRGBA // a quiet edge
	Accent     color.NRGBA // what a finger may act on
	AccentInk  color.NRGBA // words upon Accent
	AccentText color.NRGBA // words that may be touched, upon Ground or Panel
	Press      color.NRGBA // the tint of a control under the finger
	Stop       color.NRGBA // a finding that stops the pour
	Check      color.NRGBA // a finding to look into
	Good       color.NRGBA // done, in order
	Wood       color.NRGBA // wood in a drawing
	WoodGrain  color.NRGBA // hatching and edges of wood
	Resin      color.NRGBA // resin that was given no colour
	Dimension  color.NRGBA // dimension lines and their numbers
}

// Paper is the palette for daylight: warm white and graphite.
var Paper = Palette{
	Ground:     rgb(0xF7F3EA),
	Panel:      rgb(0xFFFDF8),
	Ink:        rgb(0x2B2926),
	Faint:      rgb(0x625C53),
	Line:       rgb(0x857D70),
	Hair:       rgb(0xDDD6C8),
	Accent:     rgb(0xC07A0C),
	AccentInk:  rgb(0x1F1708),
	AccentText: rgb(0x7C4B00),
	Press:      rgb(0xF3E2C2),
	Stop:       rgb(0xA8281E),
	Check:      rgb(0x2F5F8A),
	Good:       rgb(0x3C6B38),
	Wood:       rgb(0xD2AE7A),
	WoodGrain:  rgb(0x6E4C2A),
	Resin:      rgb(0x7FAEBB),
	Dimension:  rgb(0x4B5A63),
}

// Evening is the palette for a dim shop: warm near-black and chalk.
var Evening = Palette{
	Ground:     rgb(0x1B1815),
	Panel:      rgb(0x262220),
	Ink:        rgb(0xEFE9DD),
	Faint:      rgb(0xB5AC9C),
	Line:       rgb(0x847B6D),
	Hair:       rgb(0x3F3932),
	Accent:     rgb(0xE9A23B),
	AccentInk:  rgb(0x1F1708),
	AccentText: rgb(0xF0B559),
	Press:      rgb(0x4A3A20),
	Stop:       rgb(0xF08A7C),
	Check:      rgb(0x8FBCE6),
	Good:       rgb(0x9CCB8F),
	Wood:       rgb(0x6E5134),
	WoodGrain:  rgb(0xD0A873),
	Resin:      rgb(0x5F95A6),
	Dimension:  rgb(0xB4C3CC),
}

// Of gives the palette of a variant: Evening for the dark one, otherwise Paper.
func Of(variant fyne.ThemeVariant) Palette {
	if variant == theme.VariantDark {
		return Evening
	}
	return Paper
}

// Current gives the palette that the running app shows now, whichever mode the
// maker chose. It is Paper where no app runs.
func Current() Palette {
	a := fyne.CurrentApp()
	if a == nil {
		return Paper
	}
	variant := a.Settings().ThemeVariant()
	if own, ok := a.Settings().Theme().(*Theme); ok {
		variant = own.variant(variant)
	}
	return Of(variant)
}

// rgb makes an opaque colour of 0xRRGGBB.
func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 0xFF}
}
