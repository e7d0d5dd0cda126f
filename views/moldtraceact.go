package views

import (
	"errors"
	"slices"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/views/drawing"
)

// edit makes one step of undo of a change to the face that is worked on.
func (t *traceView) edit(label, key string, change func(p *model.Project, slab string, face model.Face) error) {
	page := t.slab.page
	page.in.form.CommitAll()
	page.desk.work(moldKey)
	slab, face := t.slab.slab, t.face
	err := page.desk.session.Edit(label, key, func(p *model.Project) error { return change(p, slab, face) })
	switch {
	case errors.Is(err, app.ErrSame):
	case err != nil:
		t.said(capitalised(problemWords(err)) + ".")
		t.push = pushing{}
		t.again()
	default:
		t.said("")
	}
}

// preview shows a change while a finger drags.
func (t *traceView) preview(change func(p *model.Project, slab string, face model.Face) error) {
	slab, face := t.slab.slab, t.face
	t.slab.page.desk.work(moldKey)
	t.slab.page.desk.session.Preview(func(p *model.Project) error { return change(p, slab, face) })
}

// touched does what a touch on empty ground means.
func (t *traceView) touched(at shape.Point) {
	face := t.tracing(&t.slab.page.shot.Project)
	if face == nil {
		return
	}
	switch t.work {
	case traceCorners:
		t.placeMark(face, at)
	case traceFind:
		t.seekAt(face, at)
	case tracePoints:
		t.placePoint(face, at)
	}
}

// placeMark sets the next mark.
func (t *traceView) placeMark(face *model.Tracing, at shape.Point) {
	if !wantsMark(face) {
		return
	}
	t.edit("Mark "+count(len(face.Marks)+1), "", func(p *model.Project, slab string, face model.Face) error {
		id, err := p.AddMark(slab, face, at.X, at.Y)
		t.spot = drawing.Spot{Mark: id}
		return err
	})
}

// placePoint begins an outline, or goes on with the one that is open.
func (t *traceView) placePoint(face *model.Tracing, at shape.Point) {
	if r := face.Ring(t.open); r != nil {
		t.edit("Point "+count(len(r.Points)+1), "", func(p *model.Project, slab string, face model.Face) error {
			last := lastPoint(p, slab, face, r.ID)
			t.spot = drawing.Spot{Ring: r.ID, Point: last + 1}
			return p.InsertPoint(slab, face, r.ID, last, at)
		})
		return
	}
	if face.Ring(t.spot.Ring) != nil { // a touch beside the chosen one lets go of it
		t.choose(drawing.Spot{})
		return
	}
	kind := t.kind
	t.edit("Point 1 of "+ringWord(kind), "", func(p *model.Project, slab string, face model.Face) error {
		id, err := p.AddRing(slab, face, kind, shape.Ring{at})
		t.open, t.spot = id, drawing.Spot{Ring: id}
		return err
	})
}

// lastPoint gives the index of an outline's last point in a project, which may
// be ahead of what is drawn; -1 without one.
func lastPoint(p *model.Project, slab string, face model.Face, ring string) int {
	if s := p.Slab(slab); s != nil {
		if r := s.Face(face).Ring(ring); r != nil {
			return len(r.Points) - 1
		}
	}
	return -1
}

// ringWord names what lies in an outline.
func ringWord(kind model.RingKind) string {
	if kind == model.RingHole {
		return "a hole"
	}
	return "the wood"
}

// closed ends the outline that is set point by point.
func (t *traceView) closed() {
	t.spot, t.open = drawing.Spot{Ring: t.open, Point: drawing.NoPoint}, ""
	t.again()
}

// choose notes what was touched; a touch of the first point closes the outline
// that is set point by point.
func (t *traceView) choose(s drawing.Spot) {
	if face := t.tracing(&t.slab.page.shot.Project); face != nil && t.open != "" && s.Ring == t.open && s.Point == 0 {
		if r := face.Ring(t.open); r != nil && len(r.Points) > 2 {
			t.closed()
			return
		}
	}
	ring := t.spot.Ring
	t.spot = s
	if t.open != "" && s.Ring != t.open {
		t.open = ""
	}
	if ring != s.Ring || s == (drawing.Spot{}) {
		t.again()
		return
	}
	t.slab.page.drawn()
}

// insert puts a point into an outline.
func (t *traceView) insert(ring string, after int, at shape.Point) {
	t.spot = drawing.Spot{Ring: ring, Point: after + 1}
	t.edit("New point", "", func(p *model.Project, slab string, face model.Face) error {
		return p.InsertPoint(slab, face, ring, after, at)
	})
}

// remove takes the chosen mark or point away.
func (t *traceView) remove(s drawing.Spot) {
	face := t.tracing(&t.slab.page.shot.Project)
	if face == nil {
		return
	}
	if s.Mark != "" {
		i := slices.IndexFunc(face.Marks, func(m model.Mark) bool { return m.ID == s.Mark })
		t.spot = drawing.Spot{}
		t.edit("Remove mark "+count(i+1), "", func(p *model.Project, slab string, face model.Face) error {
			return p.RemoveMark(slab, face, s.Mark)
		})
		return
	}
	t.spot = drawing.Spot{Ring: s.Ring, Point: max(s.Point-1, 0)}
	t.edit("Remove a point", "", func(p *model.Project, slab string, face model.Face) error {
		return p.RemovePoint(slab, face, s.Ring, s.Point)
	})
}

// mostPreviewed is from how many points on only the surface itself shows what a
// drag does to an outline, and the plan follows when the finger lets go.
const mostPreviewed = 2000

// move moves a mark or a point by so many pixels from where it was; steps by key
// in a row are one step of undo.
func (t *traceView) move(s drawing.Spot, by shape.Point, done bool) {
	face := t.tracing(&t.slab.page.shot.Project)
	if face == nil {
		return
	}
	change := func(p *model.Project, slab string, face model.Face) error {
		at, ok := spotIn(p, slab, face, s)
		switch {
		case !ok:
			return app.ErrSame
		case s.Mark != "":
			return p.MoveMark(slab, face, s.Mark, at.X+by.X, at.Y+by.Y)
		}
		return p.MovePoint(slab, face, s.Ring, s.Point, shape.Point{X: at.X + by.X, Y: at.Y + by.Y})
	}
	ring := face.Ring(s.Ring)
	many := ring != nil && len(ring.Points) > mostPreviewed
	if !done {
		t.dragging = true
		if !many {
			t.preview(change)
		}
		return
	}
	label, key := "Move a point", ""
	if s.Mark != "" {
		label = "Move mark " + count(1+slices.IndexFunc(face.Marks, func(m model.Mark) bool { return m.ID == s.Mark }))
	}
	if !t.dragging {
		key = "nudge " + s.Mark + s.Ring + count(s.Point)
	}
	if many {
		points := slices.Clone(ring.Points)
		if s.Point >= 0 && s.Point < len(points) {
			points[s.Point].X += by.X
			points[s.Point].Y += by.Y
		}
		t.push = pushing{ring: s.Ring, points: points, before: ring.Points}
	}
	t.dragging = false
	t.edit(label, key, change)
}

// spotIn gives where a mark or point of a face is in a project.
func spotIn(p *model.Project, slab string, face model.Face, s drawing.Spot) (shape.Point, bool) {
	of := p.Slab(slab)
	if of == nil {
		return shape.Point{}, false
	}
	if m := of.Face(face).Mark(s.Mark); s.Mark != "" && m != nil {
		return shape.Point{X: m.X, Y: m.Y}, true
	}
	if r := of.Face(face).Ring(s.Ring); s.Ring != "" && r != nil && s.Point >= 0 && s.Point < len(r.Points) {
		return r.Points[s.Point], true
	}
	return shape.Point{}, false
}
