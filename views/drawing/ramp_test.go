package drawing

import (
	"image/color"
	"math"
	"testing"
)

var ramps = map[string]*Ramp{"warmth": Warmth, "cured": Cured}

// oklab gives a screen colour in OKLab, by the matrices of its author's page
// (bottosson.github.io/posts/oklab, value from memory), the way back from
// linear.
func oklab(c color.NRGBA) lab {
	r, g, b := light(c.R), light(c.G), light(c.B)
	l := math.Cbrt(0.4122214708*r + 0.5363325363*g + 0.0514459929*b)
	m := math.Cbrt(0.2119034982*r + 0.6806995451*g + 0.1073969566*b)
	s := math.Cbrt(0.0883024619*r + 0.2817188376*g + 0.6299787005*b)
	return lab{
		0.2104542553*l + 0.7936177850*m - 0.0040720468*s,
		1.9779984951*l - 2.4285922050*m + 0.4505937099*s,
		0.0259040371*l + 0.7827717662*m - 0.8086757660*s,
	}
}

// TestRampsAreEven: a sixteenth of the ramp looks as large anywhere, within a
// tenth, and it only gets lighter.
func TestRampsAreEven(t *testing.T) {
	for name, r := range ramps {
		var whole, last float64
		var steps []float64
		for i := 1; i <= 16; i++ {
			a, b := oklab(r.At(float64(i-1)/16)), oklab(r.At(float64(i)/16))
			steps = append(steps, a.to(b))
			whole += a.to(b)
		}
		for i, s := range steps {
			if got := s / (whole / 16); got < 0.9 || got > 1.1 {
				t.Errorf("%s: step %d is %.2f of the mean", name, i, got)
			}
		}
		for i := range rampSteps {
			l := oklab(r.colours[i]).l
			if l < last-1e-3 {
				t.Errorf("%s gets darker at %d: %.4f after %.4f", name, i, l, last)
			}
			last = l
		}
	}
}

// TestRampsAreOnTheScreen: no colour had to be cut to what a screen can show.
func TestRampsAreOnTheScreen(t *testing.T) {
	for name, stops := range map[string][]lch{
		"warmth": {{0.33, 0.105, 305}, {0.50, 0.145, 342}, {0.70, 0.110, 8}, {0.93, 0.040, 75}},
		"cured":  {{0.33, 0.085, 265}, {0.52, 0.095, 225}, {0.72, 0.090, 190}, {0.93, 0.050, 155}},
	} {
		for i := 0; i <= 100; i++ {
			r, g, b := through(stops, float64(i)/100).lab().linear()
			for _, v := range []float64{r, g, b} {
				if v < -0.001 || v > 1.001 {
					t.Errorf("%s at %d %%: %.3f %.3f %.3f", name, i, r, g, b)
					break
				}
			}
		}
	}
}

// TestRampsWithFewerColours: to one who lacks a kind of cones, and in grey,
// quarters of a ramp still differ clearly. The matrices are those of Viénot,
// Brettel and Mollon (1999) for red and green blindness (values from memory).
func TestRampsWithFewerColours(t *testing.T) {
	kinds := map[string][3][3]float64{
		"red-blind":   {{0.11238, 0.88762, 0}, {0.11238, 0.88762, 0}, {0.00401, -0.00401, 1}},
		"green-blind": {{0.29275, 0.70725, 0}, {0.29275, 0.70725, 0}, {-0.02234, 0.02234, 1}},
		"grey":        {{0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}},
	}
	for name, r := range ramps {
		for kind, k := range kinds {
			see := func(c color.NRGBA) lab {
				in := [3]float64{light(c.R), light(c.G), light(c.B)}
				var out [3]uint8
				for i, row := range k {
					out[i] = shade(row[0]*in[0] + row[1]*in[1] + row[2]*in[2])
				}
				return oklab(color.NRGBA{out[0], out[1], out[2], 255})
			}
			for i := 1; i <= 4; i++ {
				if d := see(r.At(float64(i) / 4)).to(see(r.At(float64(i-1) / 4))); d < 0.1 {
					t.Errorf("%s, %s: quarter %d differs by only %.3f", name, kind, i, d)
				}
			}
		}
	}
}

// TestRampsCarryInk: figures on any colour of a ramp have at least 4.15:1, which
// is about the most that either black or white has on a middle grey.
func TestRampsCarryInk(t *testing.T) {
	lum := func(c color.NRGBA) float64 { return 0.2126*light(c.R) + 0.7152*light(c.G) + 0.0722*light(c.B) }
	for name, r := range ramps {
		for i := 0; i <= 50; i++ {
			x := float64(i) / 50
			a, b := lum(r.At(x)), lum(r.on(x))
			if got := (max(a, b) + 0.05) / (min(a, b) + 0.05); got < 4.15 {
				t.Errorf("%s at %.2f: %.2f:1", name, x, got)
			}
		}
	}
	if Warmth.At(math.NaN()) != Warmth.At(0) || Warmth.At(7) != Warmth.At(1) || Warmth.At(-7) != Warmth.At(0) {
		t.Error("beyond its ends a ramp has other colours than its ends'")
	}
}

// TestRampsKeepClearOfAmber: no colour of a ramp is taken for the accent.
func TestRampsKeepClearOfAmber(t *testing.T) {
	for name, r := range ramps {
		for _, p := range []Palette{paper, evening} {
			for i := range rampSteps {
				if d := oklab(r.colours[i]).to(oklab(p.Accent)); d < 0.09 {
					t.Errorf("%s: step %d is %.3f from the accent", name, i, d)
				}
			}
		}
	}
}
