package drawing

import (
	"image/color"
	"math"
)

// Ramp is a run of colours for a value between two ends: every step along it
// looks as large as every other, and it gets lighter all the way, so that it
// reads in grey as well and for those who see fewer colours.
type Ramp struct {
	colours [rampSteps]color.NRGBA
}

const rampSteps = 256

// The ramps. Warmth runs from plum over rose to cream, Cured from navy over teal
// to pale mint: neither comes near the amber that is kept for what a finger may
// act on, and the two are not taken for each other.
var (
	Warmth = newRamp(lch{0.33, 0.105, 305}, lch{0.50, 0.145, 342}, lch{0.70, 0.110, 8}, lch{0.93, 0.040, 75})
	Cured  = newRamp(lch{0.33, 0.085, 265}, lch{0.52, 0.095, 225}, lch{0.72, 0.090, 190}, lch{0.93, 0.050, 155})
)

// lch is a colour by lightness (0 to 1), chroma and hue (degrees) in Björn
// Ottosson's OKLab.
type lch struct{ l, c, h float64 }

// lab is a colour in OKLab, in which equal distances look equal.
type lab struct{ l, a, b float64 }

func (x lch) lab() lab {
	sin, cos := math.Sincos(x.h * math.Pi / 180)
	return lab{x.l, x.c * cos, x.c * sin}
}

// newRamp makes a ramp through some colours, in even steps.
func newRamp(stops ...lch) *Ramp {
	const fine = 4000
	path := make([]lab, fine+1)
	along := make([]float64, fine+1)
	for i := range path {
		path[i] = through(stops, float64(i)/fine).lab()
		if i > 0 {
			along[i] = along[i-1] + path[i].to(path[i-1])
		}
	}
	r := &Ramp{}
	k := 0
	for i := range r.colours {
		want := along[fine] * float64(i) / (rampSteps - 1)
		for k < fine && along[k] < want {
			k++
		}
		r.colours[i] = path[k].nrgba()
	}
	return r
}

// through gives the colour at t, 0 to 1, of a smooth curve through the stops,
// which are as far apart as their lightness is: a cubic that keeps to the
// slopes between the neighbours of each stop.
func through(stops []lch, t float64) lch {
	n := len(stops) - 1
	l := stops[0].l + (stops[n].l-stops[0].l)*t
	i := 0
	for i < n-1 && l > stops[i+1].l {
		i++
	}
	a, b := stops[i], stops[i+1]
	before, after := stops[max(i-1, 0)], stops[min(i+2, n)]
	w := (l - a.l) / (b.l - a.l)
	curve := func(of func(lch) float64) float64 {
		span := b.l - a.l
		left := (of(b) - of(before)) / (b.l - before.l) * span
		right := (of(after) - of(a)) / (after.l - a.l) * span
		w2, w3 := w*w, w*w*w
		return (2*w3-3*w2+1)*of(a) + (w3-2*w2+w)*left + (3*w2-2*w3)*of(b) + (w3-w2)*right
	}
	turned := func(x lch) float64 { // so that hues go the short way round
		return a.h + math.Remainder(x.h-a.h, 360)
	}
	return lch{l, curve(func(x lch) float64 { return x.c }), curve(turned)}
}

// to gives how different two colours look.
func (x lab) to(y lab) float64 {
	return math.Sqrt((x.l-y.l)*(x.l-y.l) + (x.a-y.a)*(x.a-y.a) + (x.b-y.b)*(x.b-y.b))
}

// linear gives the colour's red, green and blue light, by Ottosson's matrices.
func (x lab) linear() (r, g, b float64) {
	l := x.l + 0.3963377774*x.a + 0.2158037573*x.b
	m := x.l - 0.1055613458*x.a - 0.0638541728*x.b
	s := x.l - 0.0894841775*x.a - 1.2914855480*x.b
	l, m, s = l*l*l, m*m*m, s*s*s
	return 4.0767416621*l - 3.3077115913*m + 0.2309699292*s,
		-1.2684380046*l + 2.6097574011*m - 0.3413193965*s,
		-0.0041960863*l - 0.7034186147*m + 1.7076147010*s
}

func (x lab) nrgba() color.NRGBA {
	r, g, b := x.linear()
	return color.NRGBA{shade(r), shade(g), shade(b), 255}
}

// shade gives a channel's byte from its light, 0 to 1 (IEC 61966-2-1).
func shade(light float64) uint8 {
	light = min(max(light, 0), 1)
	v := 12.92 * light
	if light > 0.0031308 {
		v = 1.055*math.Pow(light, 1/2.4) - 0.055
	}
	return uint8(v*255 + 0.5)
}

// step gives the ramp's step for t, 0 to 1; what lies outside has the nearer
// end's.
func (r *Ramp) step(t float64) int {
	switch {
	case !(t > 0):
		return 0
	case t >= 1:
		return rampSteps - 1
	}
	return int(t*(rampSteps-1) + 0.5)
}

// At gives the colour at t, 0 to 1.
func (r *Ramp) At(t float64) color.NRGBA { return r.colours[r.step(t)] }

// on gives the ink of lines and figures upon the colour at t.
func (r *Ramp) on(t float64) color.NRGBA {
	c := r.At(t)
	if 0.2126*light(c.R)+0.7152*light(c.G)+0.0722*light(c.B) > 0.199 {
		return color.NRGBA{0x1A, 0x18, 0x16, 255}
	}
	return color.NRGBA{255, 255, 255, 255}
}

// light undoes shade.
func light(v uint8) float64 {
	s := float64(v) / 255
	if s <= 0.04045 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}
