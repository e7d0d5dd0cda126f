package app

import (
	"context"
	"errors"
	"slices"
	"strconv"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/sight"
)

// touched is where the wood, or a hole, was touched to have its outline found.
type touched struct {
	project, slab string
	face          model.Face
	kind          model.RingKind
	photo         string
	at            shape.Point
}

// outline is what was found at the last touch.
type outline struct {
	touched
	rings  []string // that it added
	number int      // counts the touches
}

// FindOutline follows the edge of what was touched in the photo of a face, in
// the background, and adds what it finds as one step of undo: the outline as the
// kind that was touched and, round wood, the holes in it and the islands in
// those. Places are pixels of the whole photo. Reach is how different a pixel
// may be and still belong; 0 is chosen from the picture. Asked again at the same
// place with another reach, as fast as a finger moves, it puts what it finds in
// the place of what it added there before. done is told the ID of the outer
// outline on the interface's goroutine. Where the photo is another one by then
// nothing is added, and done is told so.
func (s *Session) FindOutline(slab string, face model.Face, kind model.RingKind, at shape.Point, reach float64, done func(ring string, found sight.Found, err error)) {
	of := s.project.Slab(slab)
	switch {
	case !s.open:
		done("", sight.Found{}, errNoProject)
		return
	case of == nil:
		done("", sight.Found{}, errors.New("the slab is no longer there"))
		return
	case of.Face(face).Photo == "":
		done("", sight.Found{}, errors.New("there is no photo to find an outline in: add one"))
		return
	}
	t := touched{s.project.ID, slab, face, kind, of.Face(face).Photo, at}
	s.Raster(t.photo, func(r *Raster, err error) {
		if err != nil {
			done("", sight.Found{}, err)
			return
		}
		Follow(s.jobs, "outline", func(context.Context) (sight.Found, error) {
			return s.findIn(r, at, reach)
		}, func(found sight.Found, err error) {
			ring := ""
			if err == nil {
				ring, err = s.putOutline(t, found)
			}
			done(ring, found, err)
		})
	})
}

// findIn looks for an outline in a picture, in pixels of the whole photo.
func (s *Session) findIn(r *Raster, at shape.Point, reach float64) (sight.Found, error) {
	found, err := s.reckon.Find(sight.Seek{
		At:     shape.Point{X: at.X / r.Scale, Y: at.Y / r.Scale},
		Within: r.Image, Reach: reach, Split: s.jobs.Split,
	})
	found.Outer = scaled(found.Outer, r.Scale)
	for _, list := range [][]shape.Ring{found.Holes, found.Islands} {
		for i := range list {
			list[i] = scaled(list[i], r.Scale)
		}
	}
	return found, err
}

// scaled is an outline made larger about the corner of the picture.
func scaled(r shape.Ring, by float64) shape.Ring {
	out := make(shape.Ring, len(r))
	for i, p := range r {
		out[i] = shape.Point{X: p.X * by, Y: p.Y * by}
	}
	return out
}

// putOutline adds what was found, in the place of what the same touch added
// before.
func (s *Session) putOutline(t touched, found sight.Found) (ring string, err error) {
	of := s.project.Slab(t.slab)
	if s.project.ID != t.project || of == nil || of.Face(t.face).Photo != t.photo {
		return "", errors.New("the photo is another one by now: touch it again")
	}
	if s.found.touched != t {
		s.found = outline{touched: t, number: s.found.number + 1}
	}
	err = s.Edit("Outline of "+of.Name, "outline "+strconv.Itoa(s.found.number), func(p *model.Project) error {
		if now := p.Slab(t.slab); now != nil {
			face := now.Face(t.face)
			face.Rings = slices.DeleteFunc(slices.Clone(face.Rings), func(r model.TracedRing) bool { return slices.Contains(s.found.rings, r.ID) })
		}
		var added []string
		add := func(kind model.RingKind, list ...shape.Ring) error {
			for _, points := range list {
				id, err := p.AddRing(t.slab, t.face, kind, points)
				if err != nil {
					return err
				}
				added = append(added, id)
			}
			return nil
		}
		err := add(t.kind, found.Outer)
		if t.kind == model.RingWood {
			err = errors.Join(err, add(model.RingHole, found.Holes...), add(model.RingWood, found.Islands...))
		}
		if err == nil {
			s.found.rings, ring = added, added[0]
		}
		return err
	})
	return ring, err // no ring yet where an undo is under way: it is added behind it
}
