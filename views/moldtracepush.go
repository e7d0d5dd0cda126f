package views

import (
	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/views/drawing"
)

// pushing is a push that is under way: what the finger did, to be done once as
// one step, and the outline as it shows already, until the plan that follows is
// there.
type pushing struct {
	ring    string
	strokes []stroke
	points  shape.Ring
	before  shape.Ring // as it is in the project without the push
	scratch model.Project
}

// stroke is one movement of the finger, in pixels.
type stroke struct {
	from, to shape.Point
	radius   float64
}

// pushOn pushes the outline on the surface.
func (t *traceView) pushOn(ring string, from, to shape.Point, radius float64) {
	shot := &t.slab.page.shot
	face := t.tracing(&shot.Project)
	if face == nil || face.Ring(ring) == nil {
		return
	}
	if t.push.ring != ring || t.push.scratch.ID == "" {
		t.push = pushing{ring: ring, before: face.Ring(ring).Points, scratch: shot.Project.Clone()}
		t.spot = drawing.Spot{Ring: ring, Point: drawing.NoPoint}
	}
	if t.push.scratch.Brush(t.slab.slab, t.face, ring, from, to, radius) != nil {
		return
	}
	t.push.strokes = append(t.push.strokes, stroke{from, to, radius})
	t.push.points = t.tracing(&t.push.scratch).Ring(ring).Points
	t.surface.SetScene(t.scene(face), t.slab.page.desk.palette())
}

// pushed makes one step of the push.
func (t *traceView) pushed() {
	ring, strokes, before, points := t.push.ring, t.push.strokes, t.push.before, t.push.points
	t.push.strokes = nil
	if len(strokes) == 0 {
		return
	}
	t.edit("Push the outline", "", func(p *model.Project, slab string, face model.Face) error {
		if of := p.Slab(slab); of != nil {
			if r := of.Face(face).Ring(ring); r != nil && sameRing(r.Points, before) {
				r.Points = points // as the surface has it already
				return nil
			}
		}
		for _, s := range strokes {
			if err := p.Brush(slab, face, ring, s.from, s.to, s.radius); err != nil {
				return err
			}
		}
		return nil
	})
}

// settle lets go of an outline that was shown ahead of its plan once that is
// there, or another one.
func (t *traceView) settle(face *model.Tracing) {
	if len(t.push.strokes) > 0 {
		return
	}
	r := face.Ring(t.push.ring)
	if r == nil || !sameRing(r.Points, t.push.before) {
		t.push = pushing{}
	}
}

// sameRing tells whether two outlines are one and the same, by where they are
// kept: outlines are replaced whole and never changed.
func sameRing(a, b shape.Ring) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}
