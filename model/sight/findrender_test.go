package sight

import (
	"bytes"
	"cmp"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"math"
	"math/rand/v2"

	"meniscus/model/shape"
)

// scene is an invented picture of a slab lying on something.
type scene struct {
	wide, high int
	ground     string // one of grounds
	mold       string // what the slab's mold is made of, where it lies in one; the ground is the bench then
	species    int
	bark       float64 // share of the slab's half width
	knots      int
	holes      int
	shadow     float64 // how much light is lost in it
	uneven     float64 // fall of light from one corner to the other
	vignette   float64
	noise      float64 // of the sensor, of 255
	quality    int     // of the JPEG, 0 none
	sapwood    float64
	flat       bool    // no walls are seen between the mold's floor and the bench
	room       float64 // how much wider the mold is than usual, 0 none
	out        float64 // how far the slab runs out of the picture, in parts of its longer side
	tone       string  // the colour of the things on the bench, "" any
	blur       float64 // how broad the shadow's edge is, 0 usual
	deep       bool    // the floor lies so far down that holes show it wholly in shadow
}

// rendered is the picture with what is true of it.
type rendered struct {
	pic   *image.RGBA
	truth []bool
	holes int
	touch shape.Point
}

// waves is a smooth random function of two variables.
type waves struct {
	w     [][4]float64
	scale float64
}

// sines is a table of one turn, for speed.
var sines = func() (t [4096]float64) {
	for i := range t {
		t[i] = math.Sin(2 * math.Pi * float64(i) / 4096)
	}
	return t
}()

func newWaves(rnd *rand.Rand, n int, low, high float64) waves {
	w := make([][4]float64, n)
	sum := 1e-9
	for i := range w {
		f := low * math.Pow(high/low, rnd.Float64())
		a := 2 * math.Pi * rnd.Float64()
		w[i] = [4]float64{4096 * f * math.Cos(a), 4096 * f * math.Sin(a), 4096 * (rnd.Float64() + 4096), math.Sqrt(low / f)}
		sum += low / f
	}
	return waves{w, 1 / math.Sqrt(sum)}
}

func (w waves) at(x, y float64) float64 {
	s := 0.0
	for i := range w.w {
		k := &w.w[i]
		s += k[3] * sines[int(k[0]*x+k[1]*y+k[2])&4095]
	}
	return s * w.scale
}

// woods are heart, grain and sapwood in sRGB: invented, about as oak, walnut,
// ash, cherry and olive look.
var woods = [][3][3]float64{
	{{181, 137, 92}, {140, 98, 60}, {214, 184, 142}},
	{{104, 72, 52}, {70, 46, 32}, {196, 166, 128}},
	{{214, 186, 148}, {186, 152, 112}, {228, 206, 174}},
	{{176, 106, 72}, {150, 84, 54}, {222, 188, 150}},
	{{190, 152, 98}, {104, 74, 44}, {216, 186, 134}},
}

// grounds are colours in sRGB of what wood is laid on.
var grounds = map[string][3]float64{
	"white": {232, 234, 232}, // HDPE
	"grey":  {158, 160, 163}, // melamine
	"blue":  {70, 92, 128},   // a tarpaulin
	"board": {206, 190, 166}, // raw chipboard, paler and greyer than the wood
	"bench": {150, 146, 138},
	"ply":   {196, 166, 124}, // a bench of plywood, with things on it
	"black": {40, 41, 43},
	"oak":   {170, 126, 82},  // a bench of the first wood
	"dark":  {90, 92, 96},    // a bench nearer to the wood than to a pale floor
	"pale":  {222, 222, 222}, // such a floor
	"knot":  {74, 46, 30},    // the colour of the knots
}

func linear(c [3]float64) (l [3]float64) {
	for k, v := range c {
		l[k] = float64(light[int(v)])
	}
	return l
}

func blend(a, b [3]float64, t float64) [3]float64 {
	return [3]float64{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1]), a[2] + t*(b[2]-a[2])}
}

func smooth(e float64) float64 { return min(1, max(0, 0.5+0.5*e)) }

// render makes the picture. Lengths are in parts of its longer side.
func (s scene) render(rnd *rand.Rand) rendered {
	long := float64(max(s.wide, s.high))
	turn := (rnd.Float64() - 0.5) * 0.7
	if s.high > s.wide {
		turn += math.Pi / 2
	}
	cos, sin := math.Cos(turn), math.Sin(turn)
	short := float64(min(s.wide, s.high)) / long
	halfLong, halfWide := 0.30+0.06*rnd.Float64(), short*(0.20+0.09*rnd.Float64())
	cx, cy := float64(s.wide)/long/2+0.02*(rnd.Float64()-0.5), float64(s.high)/long/2+0.02*(rnd.Float64()-0.5)
	cx, cy = cx-s.out*cos, cy-s.out*sin
	upper, lower := newWaves(rnd, 10, 1.5, 25), newWaves(rnd, 10, 1.5, 25)
	warp, fine, mottle := newWaves(rnd, 7, 1, 8), newWaves(rnd, 10, 40, 300), newWaves(rnd, 8, 2, 40)
	rough := newWaves(rnd, 8, 20, 120)
	type spot struct{ x, y, r float64 }
	place := func(r float64) spot {
		return spot{(rnd.Float64()*2 - 1) * (halfLong - 2.5*r), (rnd.Float64()*2 - 1) * max(0, halfWide*0.75-2*r), r}
	}
	var knots, holes []spot
	for range s.knots {
		knots = append(knots, place(0.008+0.016*rnd.Float64()))
	}
	for len(holes) < s.holes {
		h := place(0.014 + 0.014*rnd.Float64())
		apart := true
		for _, o := range holes {
			apart = apart && math.Hypot(h.x-o.x, h.y-o.y) > 1.5*(h.r+o.r)+0.02
		}
		if apart {
			holes = append(holes, h)
		}
	}
	// depth is how far a place lies inside the slab, and rim how far from the
	// live edges.
	depth := func(x, y float64) (d, rim float64, u, v float64) {
		u, v = (x-cx)*cos+(y-cy)*sin, (y-cy)*cos-(x-cx)*sin
		top := halfWide + 0.10*halfWide*upper.at(u, 0)
		low := halfWide + 0.10*halfWide*lower.at(u, 0)
		rim = min(top-v, low+v)
		d = min(rim, halfLong-math.Abs(u))
		for _, h := range holes {
			r := h.r * (1 + 0.12*math.Sin(3*math.Atan2(v-h.y, u-h.x)+h.x*40))
			d = min(d, math.Hypot(u-h.x, v-h.y)-r)
		}
		return d, rim, u, v
	}
	tone := woods[s.species%len(woods)]
	heart, grain, sap := linear(tone[0]), linear(tone[1]), linear(tone[2])
	barkTone := linear([3]float64{66, 52, 42})
	under := linear(grounds[s.ground])
	bark := s.bark * halfWide
	centre := rnd.Float64()*0.6 - 0.3
	slab := func(rim, u, v float64) [3]float64 {
		ring := (v*1.0+0.3*centre)*60 + 2.2*warp.at(u*0.6, v*1.4)
		knotted := 0.0
		for _, k := range knots {
			d := math.Hypot((u-k.x)/1.3, v-k.y)
			ring += 5 * math.Exp(-d*d/(6*k.r*k.r))
			knotted = max(knotted, smooth((k.r-d)/(0.3*k.r)))
		}
		_, part := math.Modf(ring + 1000)
		late := math.Pow(part, 3)
		c := blend(heart, grain, 0.15+0.75*late)
		if s.sapwood > 0 {
			c = blend(c, sap, smooth((bark+s.sapwood*halfWide-rim+0.004*warp.at(u*3, v))/0.006))
		}
		f := 1 + 0.05*fine.at(u*0.05, v) + 0.05*mottle.at(u*0.3, v)
		c = [3]float64{c[0] * f, c[1] * f, c[2] * f}
		c = blend(c, linear([3]float64{74, 46, 30}), 0.85*knotted)
		if bark > 0 {
			b := smooth((bark - rim + 0.15*bark*rough.at(u, v)) / 0.0015)
			f := 1 + 0.25*rough.at(u*2, v*2)
			c = blend(c, [3]float64{barkTone[0] * f, barkTone[1] * f, barkTone[2] * f}, b)
		}
		return c
	}
	mold := linear(grounds[s.mold])
	type thing struct {
		x, y, long, wide, turn float64
		tone                   [3]float64
	}
	var things []thing
	if s.ground == "bench" || s.ground == "ply" || s.tone != "" {
		for range 26 {
			a := rnd.Float64() * 2 * math.Pi
			x, y := cx+0.75*math.Cos(a)*rnd.Float64(), cy+0.75*math.Sin(a)*rnd.Float64()
			t := thing{x, y, 0.02 + 0.07*rnd.Float64(), 0.008 + 0.03*rnd.Float64(), rnd.Float64() * 3,
				linear([3]float64{30 + 200*rnd.Float64(), 30 + 180*rnd.Float64(), 30 + 190*rnd.Float64()})}
			if s.tone != "" {
				t.tone = linear(grounds[s.tone])
			}
			if d, _, _, _ := depth(x, y); d < -t.long-0.02 || s.mold != "" {
				things = append(things, t)
			}
		}
	}
	floor := func(x, y float64) [3]float64 {
		f := 1 + 0.012*mottle.at(x, y)
		if s.ground == "board" {
			f = 1 + 0.05*rough.at(x*1.7, y*1.7)
		}
		c := [3]float64{under[0] * f, under[1] * f, under[2] * f}
		for _, t := range things {
			u, v := (x-t.x)*math.Cos(t.turn)+(y-t.y)*math.Sin(t.turn), (y-t.y)*math.Cos(t.turn)-(x-t.x)*math.Sin(t.turn)
			e := min(t.long-math.Abs(u), t.wide-math.Abs(v))
			c = blend(c, t.tone, smooth(e/0.0008))
		}
		if s.mold != "" {
			_, _, u, v := depth(x, y)
			in := min((1.12+s.room)*halfLong-math.Abs(u), (1.5+s.room)*halfWide-math.Abs(v))
			wall := 0.7 + 0.3*smooth(v/0.01) // each wall in its own light
			if !s.flat {
				c = blend(c, [3]float64{wall * mold[0], wall * mold[1], wall * mold[2]}, smooth((in+0.014)/0.0008))
			}
			c = blend(c, [3]float64{f * mold[0], f * mold[1], f * mold[2]}, smooth(in/0.0008))
		}
		return c
	}
	lightFrom := rnd.Float64() * 2 * math.Pi
	lx, ly := math.Cos(lightFrom), math.Sin(lightFrom)
	cast := 0.012 + 0.014*rnd.Float64()
	out := rendered{pic: image.NewRGBA(image.Rect(0, 0, s.wide, s.high)), truth: make([]bool, s.wide*s.high), holes: s.holes}
	soft := 0.8 / long // half a pixel and a little of blur
	deepest := -1.0
	blur := cmp.Or(s.blur, 0.008)
	for j := range s.high {
		for i := range s.wide {
			x, y := (float64(i)+0.5)/long, (float64(j)+0.5)/long
			d, rim, u, v := depth(x, y)
			out.truth[j*s.wide+i] = d > 0
			if i%16 == 8 && j%16 == 8 {
				clear := d - bark - s.sapwood*halfWide
				for _, k := range knots {
					clear = min(clear, math.Hypot(u-k.x, v-k.y)-1.5*k.r)
				}
				if clear = min(clear, 0.03) * (1 + 0.5*rnd.Float64()); clear > deepest {
					deepest, out.touch = clear, shape.Point{X: float64(i), Y: float64(j)}
				}
			}
			var c [3]float64
			if d > -2*soft {
				c = slab(rim, u, v)
			}
			if d < 2*soft {
				g := floor(x, y)
				sd, _, _, _ := depth(x-cast*lx, y-cast*ly)
				if s.deep && rim > 0 && math.Abs(u) < halfLong {
					sd = 1
				}
				shade := 1 - s.shadow*smooth(sd/blur)
				shade *= 1 - 0.35*s.shadow*math.Exp(-max(0, -d)/0.006) // where it touches down
				g = [3]float64{g[0] * shade, g[1] * shade, g[2] * shade}
				c = blend(g, c, smooth(d/soft))
			}
			fall := 1 + s.uneven*((x-cx)*lx+(y-cy)*ly)
			fall *= 1 - s.vignette*((x-cx)*(x-cx)+(y-cy)*(y-cy))*2
			var b [3]uint8
			for k := range 3 {
				b[k] = encode(c[k]*fall, s.noise*rnd.NormFloat64())
			}
			out.pic.SetRGBA(i, j, color.RGBA{b[0], b[1], b[2], 255})
		}
	}
	if s.quality > 0 {
		out.pic = pressed(out.pic, s.quality)
	}
	return out
}

// encode gives the byte for linear light, with noise added to it.
func encode(l, noise float64) uint8 {
	return uint8(min(255, max(0, encoded[int(8191*min(1, max(0, l)))]+noise+0.5)))
}

// encoded is sRGB (IEC 61966-2-1) of linear light, of 255.
var encoded = func() (t [8192]float64) {
	for i := range t {
		l := float64(i) / 8191
		if t[i] = 255 * 12.92 * l; l > 0.0031308 {
			t[i] = 255 * (1.055*math.Pow(l, 1/2.4) - 0.055)
		}
	}
	return t
}()

// pressed gives the picture after it was kept as a JPEG.
func pressed(pic *image.RGBA, quality int) *image.RGBA {
	var file bytes.Buffer
	if err := jpeg.Encode(&file, pic, &jpeg.Options{Quality: quality}); err != nil {
		panic(err)
	}
	back, err := jpeg.Decode(&file)
	if err != nil {
		panic(err)
	}
	return opaque(back)
}

// opaque gives a picture as RGBA.
func opaque(pic image.Image) *image.RGBA {
	b := pic.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(out, out.Rect, pic, b.Min, draw.Src)
	return out
}
