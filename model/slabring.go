package model

import (
	"fmt"
	"math"
	"slices"

	"meniscus/model/shape"
)

// AddRing adds an outline to a face, in pixels, and gives its ID. It may have a
// single point to begin with.
func (p *Project) AddRing(slab string, face Face, kind RingKind, points shape.Ring) (id string, err error) {
	t, path, err := p.tracing(slab, face)
	if err != nil {
		return "", err
	}
	path += "/rings"
	switch {
	case kind != RingWood && kind != RingHole:
		return "", &Problem{path, "an outline goes round wood or round a hole"}
	case len(points) == 0:
		return "", &Problem{path, "an outline needs points"}
	case len(points) > mostPoints:
		return "", &Problem{path, tooManyPoints}
	case len(t.Rings) >= mostRings:
		return "", &Problem{path, fmt.Sprintf("a face can have at most %d outlines", mostRings)}
	}
	kept := make(shape.Ring, len(points))
	for i, q := range points {
		if !inPhoto(q.X, q.Y) {
			return "", &Problem{path, fmt.Sprintf("point %d is not in the photo", i+1)}
		}
		kept[i] = centsOf(q)
	}
	r := TracedRing{ID: p.NewID("r"), Kind: kind, Points: kept}
	t.Rings = append(slices.Clip(t.Rings), r)
	return r.ID, nil
}

// MovePoint moves point i of an outline, counted from 0, to another pixel.
func (p *Project) MovePoint(slab string, face Face, ring string, i int, to shape.Point) error {
	return p.reshape(slab, face, ring, func(r shape.Ring) (shape.Ring, string) {
		if i < 0 || i >= len(r) {
			return nil, noPoint
		}
		if !inPhoto(to.X, to.Y) {
			return nil, notInPhoto
		}
		moved := slices.Clone(r)
		moved[i] = centsOf(to)
		return moved, ""
	})
}

// InsertPoint puts a further point into an outline behind the point with the
// index after; with -1 it becomes the first.
func (p *Project) InsertPoint(slab string, face Face, ring string, after int, at shape.Point) error {
	return p.reshape(slab, face, ring, func(r shape.Ring) (shape.Ring, string) {
		switch {
		case after < none || after >= len(r):
			return nil, noPoint
		case !inPhoto(at.X, at.Y):
			return nil, notInPhoto
		case len(r) >= mostPoints:
			return nil, tooManyPoints
		}
		return slices.Insert(slices.Clone(r), after+1, centsOf(at)), ""
	})
}

// RemovePoint takes point i out of an outline, and with its last point the
// outline.
func (p *Project) RemovePoint(slab string, face Face, ring string, i int) error {
	if t, _, err := p.tracing(slab, face); err == nil {
		if r := t.Ring(ring); r != nil && i == 0 && len(r.Points) == 1 {
			return p.RemoveRing(slab, face, ring)
		}
	}
	return p.reshape(slab, face, ring, func(r shape.Ring) (shape.Ring, string) {
		if i < 0 || i >= len(r) {
			return nil, noPoint
		}
		return slices.Delete(slices.Clone(r), i, i+1), ""
	})
}

// RemoveRing takes an outline away.
func (p *Project) RemoveRing(slab string, face Face, ring string) error {
	t, path, err := p.tracing(slab, face)
	if err != nil {
		return err
	}
	i := slices.IndexFunc(t.Rings, func(r TracedRing) bool { return r.ID == ring })
	if i < 0 {
		return &Problem{path + "/rings/" + ring, "it is no longer there"}
	}
	t.Rings = slices.Delete(slices.Clone(t.Rings), i, i+1)
	return nil
}

// Brush pushes an outline about as a fingertip of this radius does that is set
// down at one place and drawn to another, all in pixels. What lies below the
// middle of the fingertip goes all the way, what lies farther out less, what
// lies outside stays. A long side that runs below the fingertip gets points of
// its own there, so that it bends.
func (p *Project) Brush(slab string, face Face, ring string, from, to shape.Point, radius float64) error {
	return p.reshape(slab, face, ring, func(r shape.Ring) (shape.Ring, string) {
		switch {
		case !inPhoto(from.X, from.Y) || !inPhoto(to.X, to.Y):
			return nil, notInPhoto
		case !(radius >= leastFinger && radius <= farPixel):
			return nil, "the fingertip needs a size"
		}
		moved := bendable(r, from, radius)
		push(moved, from, to, radius)
		for i, q := range moved {
			moved[i] = centsOf(shape.Point{X: max(-farPixel, min(farPixel, q.X)), Y: max(-farPixel, min(farPixel, q.Y))})
		}
		return moved, ""
	})
}

// push moves points as Brush says. In steps of less than 0.65 of the radius
// the push maps the plane onto itself one to one (the steepest slope of the
// fall-off is 1.54 per radius), so it folds nothing over.
func push(r shape.Ring, from, to shape.Point, radius float64) {
	const (
		stride    = 0.5
		mostSteps = 200
	)
	dx, dy := to.X-from.X, to.Y-from.Y
	steps := int(max(1, min(mostSteps, math.Ceil(math.Hypot(dx, dy)/(stride*radius)))))
	dx, dy = dx/float64(steps), dy/float64(steps)
	for k := range steps {
		x, y := from.X+float64(k)*dx, from.Y+float64(k)*dy
		for i, q := range r {
			if f := falloff(((q.X-x)*(q.X-x) + (q.Y-y)*(q.Y-y)) / (radius * radius)); f > 0 {
				r[i] = shape.Point{X: q.X + f*dx, Y: q.Y + f*dy}
			}
		}
	}
}

// falloff is how much of a push reaches a point, by the square of its distance
// over the radius: 1 in the middle, flat there and at the rim.
func falloff(square float64) float64 {
	if square >= 1 {
		return 0
	}
	return (1 - square) * (1 - square)
}

// bendable gives a copy of a ring with points added where a side longer than a
// third of the radius runs through the circle.
func bendable(r shape.Ring, middle shape.Point, radius float64) shape.Ring {
	const part = 3
	out := make(shape.Ring, 0, len(r)+8*part)
	for i, a := range r {
		out = append(out, a)
		b := r[(i+1)%len(r)]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		if len(r) < 2 || length <= radius/part || len(out)+len(r)-i+2*part > mostPoints {
			continue
		}
		in, through := chordOf(a, b, middle, radius)
		if n := int(min(2*part, math.Ceil((through-in)*length*part/radius))); in < through {
			for k := range n + 1 {
				if f := in + (through-in)*float64(k)/float64(n); f > 0 && f < 1 {
					out = append(out, shape.Point{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y)})
				}
			}
		}
	}
	return out
}

// chordOf gives the part of the side from a to b that lies in a circle, as
// shares of its length; none where the second is not above the first.
func chordOf(a, b, middle shape.Point, radius float64) (in, out float64) {
	ux, uy := b.X-a.X, b.Y-a.Y
	vx, vy := a.X-middle.X, a.Y-middle.Y
	square := ux*ux + uy*uy
	half := (ux*vx + uy*vy) / square
	under := half*half - (vx*vx+vy*vy-radius*radius)/square
	if !(under > 0) {
		return 0, 0
	}
	root := math.Sqrt(under)
	return max(0, -half-root), min(1, -half+root)
}

// reshape replaces the points of a ring by what change makes of them, or tells
// what is wrong.
func (p *Project) reshape(slab string, face Face, ring string, change func(shape.Ring) (shape.Ring, string)) error {
	t, path, err := p.tracing(slab, face)
	if err != nil {
		return err
	}
	path += "/rings/" + ring
	i := slices.IndexFunc(t.Rings, func(r TracedRing) bool { return r.ID == ring })
	if i < 0 {
		return &Problem{path, "it is no longer there"}
	}
	points, wrong := change(t.Rings[i].Points)
	if wrong != "" {
		return &Problem{path, wrong}
	}
	t.Rings = slices.Clone(t.Rings)
	t.Rings[i].Points = points
	return nil
}

const (
	mostRings   = 200
	leastFinger = 0.5 // pixels
)

const (
	noPoint    = "the outline has no such point"
	notInPhoto = "this place is not in the photo"
)

var tooManyPoints = fmt.Sprintf("an outline can have at most %d points", mostPoints)
