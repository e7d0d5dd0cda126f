package model

import (
	"math"
	"math/rand/v2"

	"meniscus/model/shape"
)

// pinhole is a camera over a plane in the tests' own words: a picture of 3000 x
// 4000 with a lens of 3000 pixels, so high above the plane, tilted by so much
// towards a compass direction, with the place aim in the middle of the picture
// (Hartley and Zisserman, Multiple View Geometry, 2nd ed., 6.1). Its picture's
// y runs down.
type pinhole struct {
	at               [3]float64
	right, down, out [3]float64
}

func overhead(aim shape.Point, distance, tilt, towards float64) pinhole {
	sin, cos := math.Sincos(tilt)
	se, ce := math.Sincos(towards)
	var c pinhole
	c.out = [3]float64{sin * ce, sin * se, -cos}
	c.right = [3]float64{se, -ce, 0}
	c.down = [3]float64{-cos * ce, -cos * se, -sin}
	c.at = [3]float64{aim.X - distance*c.out[0], aim.Y - distance*c.out[1], -distance * c.out[2]}
	return c
}

func (c *pinhole) shows(p shape.Point, z float64) shape.Point {
	d := [3]float64{p.X - c.at[0], p.Y - c.at[1], z - c.at[2]}
	along := func(v [3]float64) float64 { return d[0]*v[0] + d[1]*v[1] + d[2]*v[2] }
	far := along(c.out)
	return shape.Point{X: 1500 + 3000*along(c.right)/far, Y: 2000 + 3000*along(c.down)/far}
}

// ring gives the pixels of an outline so high above the plane.
func (c *pinhole) ring(r shape.Ring, z float64) shape.Ring {
	out := make(shape.Ring, len(r))
	for i, p := range r {
		out[i] = c.shows(p, z)
	}
	return out
}

// shoot fills in a tracing by a camera: marks at places of the plane and
// outlines so high above it, unrounded.
func (c *pinhole) shoot(t *Tracing, z float64, places shape.Ring, wood shape.Ring, holes ...shape.Ring) {
	t.Photo, t.Wide, t.High = "a photo", 3000, 4000
	t.Marks, t.Rings = nil, nil
	for i, p := range places {
		q := c.shows(p, 0)
		t.Marks = append(t.Marks, Mark{ID: "k" + itoa(i+1), X: q.X, Y: q.Y})
	}
	t.Rings = append(t.Rings, TracedRing{ID: "r1", Kind: RingWood, Points: c.ring(wood, z)})
	for i, h := range holes {
		t.Rings = append(t.Rings, TracedRing{ID: "r" + itoa(i+2), Kind: RingHole, Points: c.ring(h, z)})
	}
}

// mm2 is an outline in millimetres.
func mm2(xy ...float64) shape.Ring {
	var r shape.Ring
	for i := 0; i+1 < len(xy); i += 2 {
		r = append(r, shape.Point{X: xy[i] / 1000, Y: xy[i+1] / 1000})
	}
	return r
}

// wandering is a slab with a live edge of so many points, about so long and
// broad in metres.
func wandering(n int, long, broad float64, seed uint64) shape.Ring {
	random := rand.New(rand.NewPCG(seed, 1))
	var size, shift [6]float64
	for k := range size {
		size[k], shift[k] = 0.05*random.Float64()/float64(k+1), 7*random.Float64()
	}
	r := make(shape.Ring, n)
	for i := range r {
		a := 2 * math.Pi * float64(i) / float64(n)
		f := 1.0
		for k := range size {
			f += size[k] * math.Sin(float64(k+1)*a+shift[k])
		}
		sin, cos := math.Sincos(a)
		r[i] = shape.Point{X: long / 2 * f * cos, Y: broad / 2 * f * math.Copysign(math.Sqrt(math.Abs(sin)), sin)}
	}
	return r
}
