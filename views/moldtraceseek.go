package views

import (
	"math"
	"slices"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/sight"
	"meniscus/views/drawing"
)

// seeking is the last touch that an outline was looked for from.
type seeking struct {
	at          shape.Point
	kind        model.RingKind
	reach       float64 // as chosen by itself; 0 until it is known
	sure        float64
	busy, found bool
	number      int             // counts the asks
	before      map[string]bool // the outlines that were there
	ring        string          // the outline that was found
	there       bool            // it was seen in the project
}

// undone forgets the search once the outline that it found is gone again, so
// that it is not found anew by a touch of the reach.
func (s *seeking) undone(face *model.Tracing) {
	switch {
	case s.ring == "" || s.busy:
	case face.Ring(s.ring) != nil:
		s.there = true
	case s.there:
		*s = seeking{}
	}
}

// seekAt looks for the outline around a touch.
func (t *traceView) seekAt(face *model.Tracing, at shape.Point) {
	t.seek = seeking{at: at, kind: t.kind, before: map[string]bool{}}
	for i := range face.Rings {
		t.seek.before[face.Rings[i].ID] = true
	}
	t.reach.SetValue(0)
	t.look(0)
}

// reachTimes is by how much a place of the slider multiplies the reach that was
// chosen by itself: 4/7 to 7/4. At half of it the wood itself is in doubt, and at
// twice of it the ground is.
func reachTimes(v float64) float64 { return math.Pow(1.75, v) }

// seekAgain looks for the outline at the same touch with another reach.
func (t *traceView) seekAgain(v float64) {
	if t.seek.reach > 0 {
		t.look(t.seek.reach * reachTimes(v))
	}
}

// look has the outline found around the last touch.
func (t *traceView) look(reach float64) {
	page := t.slab.page
	page.in.form.CommitAll()
	t.said("")
	t.seek.number++
	t.seek.busy = true
	at, place, number := t.seek.at, t.place, t.seek.number
	page.desk.session.FindOutline(t.slab.slab, t.face, t.seek.kind, at, reach, func(ring string, found sight.Found, err error) {
		if t.place != place || t.seek.at != at {
			return
		}
		t.seek.busy = t.seek.busy && number != t.seek.number
		if t.seek.reach == 0 {
			t.seek.reach = found.Reach
		}
		if err != nil {
			t.said(capitalised(problemWords(err)) + ".")
			t.seek.found = t.seek.found || found.Reach > 0
		} else {
			t.said("")
			t.seek.found, t.seek.sure = true, found.Sure
			t.seek.ring, t.seek.there = ring, false
			t.replace(ring)
			t.spot = drawing.Spot{Ring: ring, Point: drawing.NoPoint}
		}
		t.again()
	})
	t.again()
}

// replace takes away the outlines of the same thing that were there before the
// touch, as part of the same step, so that none lies on top of another.
func (t *traceView) replace(ring string) {
	slab, face, before := t.slab.slab, t.face, t.seek.before
	desk := t.slab.page.desk
	desk.did("Take the outline in place of the one before", desk.session.Edit("", "", func(p *model.Project) error {
		of := p.Slab(slab)
		if of == nil || of.Face(face).Ring(ring) == nil {
			return app.ErrSame
		}
		rings := of.Face(face).Rings
		kept := slices.DeleteFunc(slices.Clone(rings), func(old model.TracedRing) bool {
			return before[old.ID] && slices.ContainsFunc(rings, func(r model.TracedRing) bool { return !before[r.ID] && alike(&old, &r) })
		})
		if len(kept) == len(rings) {
			return app.ErrSame
		}
		of.Face(face).Rings = kept
		return nil
	}))
}

// alike tells whether two outlines go round the same thing: of one kind, and the
// middle of each inside the other.
func alike(a, b *model.TracedRing) bool {
	return a.Kind == b.Kind && len(a.Points) > 2 && len(b.Points) > 2 &&
		a.Points.Contains(b.Points.Centroid()) && b.Points.Contains(a.Points.Centroid())
}
