package look

import (
	"image/color"
	"math"
)

// Contrast is the contrast ratio of two opaque colours, from 1 to 21, by the
// formula of WCAG 2.2 ("contrast ratio" and "relative luminance").
func Contrast(a, b color.Color) float64 {
	la, lb := luminance(a), luminance(b)
	if la < lb {
		la, lb = lb, la
	}
	return (la + 0.05) / (lb + 0.05)
}

// InkOn gives the one of black and white that is easier to read on the colour
// c, for words upon a colour that the maker chose.
func InkOn(c color.Color) color.NRGBA {
	dark, light := rgb(0x1A1816), rgb(0xFFFFFF)
	if Contrast(c, dark) >= Contrast(c, light) {
		return dark
	}
	return light
}

// luminance is the relative luminance of a colour, 0 to 1.
func luminance(c color.Color) float64 {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	return 0.2126*linear(n.R) + 0.7152*linear(n.G) + 0.0722*linear(n.B)
}

// linear undoes the sRGB transfer function for one channel.
func linear(v uint8) float64 {
	s := float64(v) / 255
	if s <= 0.04045 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}
