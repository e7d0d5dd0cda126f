package sight

import (
	"math"
	"testing"
)

// The corners of sRGB in OKLab, as the sample code of CSS Color 4 gives them;
// values from memory.
func TestOKLab(t *testing.T) {
	for _, c := range []struct {
		name string
		rgb  [3]uint8
		want [3]float64
	}{
		{"white", [3]uint8{255, 255, 255}, [3]float64{1, 0, 0}},
		{"black", [3]uint8{0, 0, 0}, [3]float64{0, 0, 0}},
		{"red", [3]uint8{255, 0, 0}, [3]float64{0.62796, 0.22486, 0.12585}},
		{"lime", [3]uint8{0, 255, 0}, [3]float64{0.86644, -0.23389, 0.17950}},
		{"blue", [3]uint8{0, 0, 255}, [3]float64{0.45201, -0.03246, -0.31153}},
	} {
		got := okLab(light[c.rgb[0]], light[c.rgb[1]], light[c.rgb[2]])
		for k := range got {
			if math.Abs(float64(got[k])-c.want[k]) > 2e-4 {
				t.Errorf("%s: %v, not %v", c.name, got, c.want)
			}
		}
	}
}

// An eighth of the light is half of each number: shadows lie on a line towards
// black.
func TestShadowsAreScaled(t *testing.T) {
	full, eighth := okLab(0.5, 0.3, 0.2), okLab(0.0625, 0.0375, 0.025)
	for k := range full {
		if math.Abs(float64(full[k]/2-eighth[k])) > 1e-6 {
			t.Errorf("%v in full light, %v in an eighth", full, eighth)
		}
	}
}
