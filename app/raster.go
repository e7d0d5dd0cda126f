package app

import (
	"slices"

	"meniscus/app/picture"
)

// Raster is a kept picture to trace in; see picture.Raster.
type Raster = picture.Raster

// rasters keeps the pictures that were traced in last, at most two: the faces of
// a slab.
type rasters struct {
	list []namedRaster // the last used first
}

type namedRaster struct {
	name   string
	raster *Raster
}

const mostRasters = 2

// get gives a picture that is kept, nil where it is not.
func (r *rasters) get(name string) *Raster {
	i := slices.IndexFunc(r.list, func(n namedRaster) bool { return n.name == name })
	if i < 0 {
		return nil
	}
	found := r.list[i]
	r.list = slices.Insert(slices.Delete(r.list, i, i+1), 0, found)
	return found.raster
}

// put keeps a picture, and lets go of the one that was used longest ago.
func (r *rasters) put(name string, raster *Raster) {
	if r.get(name) != nil {
		return
	}
	r.list = slices.Insert(r.list, 0, namedRaster{name, raster})
	r.list = slices.Delete(r.list, min(len(r.list), mostRasters), len(r.list))
}

// wantedRaster is a picture that waits to be decoded for tracing, and all who
// asked for it.
type wantedRaster struct {
	name string
	done []func(*Raster, error)
}

// Raster has a kept picture decoded for tracing in the background, and hands it
// to done on the interface's goroutine; at once where it is one of the two that
// were used last. A larger picture than is worked on is made smaller; its Scale
// tells by how much.
func (s *Session) Raster(name string, done func(*Raster, error)) {
	if r := s.rasters.get(name); r != nil {
		done(r, nil)
		return
	}
	for i := range s.tracings {
		if s.tracings[i].name == name {
			s.tracings[i].done = append(s.tracings[i].done, done)
			return
		}
	}
	s.tracings = append(s.tracings, wantedRaster{name, []func(*Raster, error){done}})
	if len(s.tracings) == 1 {
		s.nextRaster()
	}
}

// nextRaster decodes the first picture that waits, and then those behind it.
func (s *Session) nextRaster() {
	name := s.tracings[0].name
	var err error
	Newest(s.jobs, "raster", func() *Raster {
		var data []byte
		var r *Raster
		if data, err = keptPhoto(s.store, name); err == nil {
			r, err = picture.Trace(data)
		}
		return r
	}, func(r *Raster) {
		if err == nil {
			s.rasters.put(name, r)
		}
		w := s.tracings[0]
		s.tracings = s.tracings[1:]
		for _, done := range w.done {
			done(r, err)
		}
		if len(s.tracings) > 0 {
			s.nextRaster()
		}
	})
}
