package sight

import (
	"math"
	"math/rand/v2"

	"meniscus/model/shape"
)

// camera is a pinhole camera in the test's own words: it stands at a place
// above the plane and looks at a point of it. X of the world runs right and Y
// away, seen from above; the picture's x runs right and its y down (Hartley and
// Zisserman, Multiple View Geometry, 2nd ed., 6.1).
type camera struct {
	focal, cx, cy    float64
	at               [3]float64
	right, down, out [3]float64
}

// looking makes a camera of a 3000 x 4000 picture, so high above the plane and
// tilted by so much from straight down, towards a compass direction, rolled
// about its axis, with the point aim in the middle of the picture.
func looking(aim shape.Point, distance, tilt, towards, roll float64) camera {
	c := camera{focal: 3000, cx: 1500, cy: 2000}
	sin, cos := math.Sincos(tilt)
	se, ce := math.Sincos(towards)
	c.out = [3]float64{sin * ce, sin * se, -cos} // the way it looks
	c.at = [3]float64{aim.X - distance*c.out[0], aim.Y - distance*c.out[1], -distance * c.out[2]}
	side := [3]float64{se, -ce, 0} // level, to the right of the way it looks
	up := [3]float64{cos * ce, cos * se, sin}
	sr, cr := math.Sincos(roll)
	for i := range 3 {
		c.right[i] = cr*side[i] + sr*up[i]
		c.down[i] = sr*side[i] - cr*up[i]
	}
	return c
}

// shows gives the pixel of a point so high above the plane.
func (c *camera) shows(p shape.Point, z float64) shape.Point {
	d := [3]float64{p.X - c.at[0], p.Y - c.at[1], z - c.at[2]}
	far := dot(d, c.out)
	return shape.Point{X: c.cx + c.focal*dot(d, c.right)/far, Y: c.cy + c.focal*dot(d, c.down)/far}
}

// marks gives the marks of places as the camera shows them.
func (c *camera) marks(places ...shape.Point) []Mark {
	list := make([]Mark, len(places))
	for i, p := range places {
		list[i] = Mark{c.shows(p, 0), p}
	}
	return list
}

// touched gives marks with pixels that are off by up to so much.
func touched(marks []Mark, by float64, random *rand.Rand) []Mark {
	list := make([]Mark, len(marks))
	for i, m := range marks {
		list[i] = Mark{jolted(m.Pixel, by, random), m.Place}
	}
	return list
}

func jolted(p shape.Point, by float64, random *rand.Rand) shape.Point {
	return shape.Point{X: p.X + by*(2*random.Float64()-1), Y: p.Y + by*(2*random.Float64()-1)}
}

func rectangle(long, broad float64) shape.Ring {
	return shape.Ring{{X: 0, Y: 0}, {X: long, Y: 0}, {X: long, Y: broad}, {X: 0, Y: broad}}
}

func apart(p, q shape.Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }
