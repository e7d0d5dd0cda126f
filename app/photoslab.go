package app

import (
	"bytes"
	"errors"
	"io"

	"meniscus/app/picture"
	"meniscus/model"
)

// slabPhoto is a picture that was looked at and kept.
type slabPhoto struct {
	name   string
	raster *Raster
}

// AddSlabPhoto keeps a picture and makes it the photo of a face of a slab, of a
// new slab where none is named; done is told which on the interface's goroutine.
// It is one step of undo. A photo that takes the place of another one of the
// same size keeps its marks and outlines; with another size they mean nothing any
// more and go. from is read in the background and closed. A picture that cannot
// be read is not kept, and nothing changes.
func (s *Session) AddSlabPhoto(from io.ReadCloser, slab string, face model.Face, done func(slab string, err error)) {
	album, ok := s.store.(Album)
	refused := s.pictureRefused()
	switch {
	case !s.open:
		done(slab, errors.Join(errNoProject, from.Close()))
		return
	case refused != nil:
		done(slab, errors.Join(refused, from.Close()))
		return
	case !ok:
		done(slab, errors.Join(errNoAlbum, from.Close()))
		return
	}
	project := s.project.ID
	var kept slabPhoto
	Newest(s.jobs, "photo "+s.entryID(), func() (err error) {
		kept, err = keepSlabPhoto(album, from)
		return err
	}, func(err error) {
		switch {
		case err != nil:
		case s.project.ID != project:
			err = errors.New("another piece was opened meanwhile: the picture was added to none")
		default:
			s.rasters.put(kept.name, kept.raster)
			slab, err = s.putSlabPhoto(kept, slab, face)
		}
		done(slab, err)
	})
}

// keepSlabPhoto reads a picture to be traced in, and keeps it.
func keepSlabPhoto(album Album, from io.ReadCloser) (slabPhoto, error) {
	data, err := readPhoto(from)
	if err != nil {
		return slabPhoto{}, err
	}
	raster, err := picture.Trace(data)
	if err != nil {
		return slabPhoto{}, err
	}
	name, err := album.PutPhoto(bytes.NewReader(data), picture.MostBytes)
	return slabPhoto{name, raster}, err
}

// putSlabPhoto makes a kept picture the photo of a face, as one step.
func (s *Session) putSlabPhoto(kept slabPhoto, slab string, face model.Face) (string, error) {
	if face != model.FaceUpper && face != model.FaceUnder {
		return slab, errors.New("a slab has an upper and an under face")
	}
	wide, high := kept.raster.Wide, kept.raster.High
	label := "New slab from a photo"
	if slab != "" {
		old := s.project.Slab(slab)
		if old == nil {
			return slab, errors.New("the slab is no longer there: the picture was added to none")
		}
		label = "Photo of " + old.Name
		if face == model.FaceUnder {
			label = "Under photo of " + old.Name
		}
		if t := old.Face(face); otherSize(t, wide, high) && len(t.Marks)+len(t.Rings) > 0 {
			label += ", its marks and outlines dropped"
		}
	}
	err := s.Edit(label, "", func(p *model.Project) error {
		if slab == "" {
			slab = p.AddSlab("")
		}
		of := p.Slab(slab)
		if of == nil {
			return errors.New("the slab is no longer there: the picture was added to none")
		}
		t := of.Face(face)
		if otherSize(t, wide, high) {
			t.Marks, t.Rings = nil, nil
		}
		t.Photo, t.Wide, t.High = kept.name, wide, high
		return nil
	})
	return slab, err
}

// otherSize tells whether what was touched in a face's photo means nothing in
// one of this size.
func otherSize(t *model.Tracing, wide, high int) bool {
	return t.Wide != wide || t.High != high
}
