package drawing

import "image/color"

// Palette holds the colours of a drawing.
type Palette struct {
	Ground    color.NRGBA // the sheet
	Panel     color.NRGBA // buttons and plates on it
	Ink       color.NRGBA // outlines and titles
	Faint     color.NRGBA // lesser words
	Line      color.NRGBA // grids and hatching of what is cut
	Accent    color.NRGBA // what the finger may act on
	AccentInk color.NRGBA // on accent
	Stop      color.NRGBA
	Check     color.NRGBA
	Good      color.NRGBA
	Wood      color.NRGBA
	WoodGrain color.NRGBA
	Resin     color.NRGBA // where a layer names no colour
	Dimension color.NRGBA // dimension lines and their figures
}

// mix gives the colour at t of the way from a to b, opaque.
func mix(a, b color.NRGBA, t float64) color.NRGBA {
	f := func(x, y uint8) uint8 { return uint8(float64(x) + (float64(y)-float64(x))*t + 0.5) }
	return color.NRGBA{f(a.R, b.R), f(a.G, b.G), f(a.B, b.B), 255}
}

// Fade gives the colour with alpha a from 0 to 1.
func Fade(c color.NRGBA, a float64) color.NRGBA {
	c.A = uint8(a*255 + 0.5)
	return c
}

// grain gives the colour of the lines in wood: quiet, so that outlines lead.
func (p Palette) grain() color.NRGBA { return mix(p.Wood, p.WoodGrain, 0.5) }

// Hex reads a colour written as #rrggbb; false where the text is none.
func Hex(text string) (color.NRGBA, bool) {
	if len(text) != 7 || text[0] != '#' {
		return color.NRGBA{}, false
	}
	var v [3]uint8
	for i := range v {
		hi, ok1 := digit(text[1+2*i])
		lo, ok2 := digit(text[2+2*i])
		if !ok1 || !ok2 {
			return color.NRGBA{}, false
		}
		v[i] = hi<<4 | lo
	}
	return color.NRGBA{v[0], v[1], v[2], 255}, true
}

// hue reads a colour written as #rrggbb, or gives other.
func hue(text string, other color.NRGBA) color.NRGBA {
	if c, ok := Hex(text); ok {
		return c
	}
	return other
}

func digit(c byte) (uint8, bool) {
	switch {
	case c >= '0' && c <= '9':
		return c - '0', true
	case c >= 'a' && c <= 'f':
		return c - 'a' + 10, true
	case c >= 'A' && c <= 'F':
		return c - 'A' + 10, true
	}
	return 0, false
}

// tint gives how a layer's colour covers what is below it: opaque resin hides
// it, water-clear resin only tinges it. Clear runs from 0 to 1.
func (p Palette) tint(colour string, clear float64) color.NRGBA {
	clear = min(max(clear, 0), 1)
	return Fade(hue(colour, p.Resin), 0.96-0.70*clear)
}
