package app

import (
	"bytes"
	"errors"
	"image"
	"io"

	"meniscus/app/picture"
	"meniscus/model"
)

// Album keeps pictures beside the notebook. A Store need not be one.
type Album interface {
	// PutPhoto keeps a picture of at most limit bytes and gives its name, once
	// it is on the disk.
	PutPhoto(from io.Reader, limit int64) (string, error)
	// Photo opens a kept picture by its name.
	Photo(name string) (io.ReadCloser, error)
}

// errNoAlbum says that pictures cannot be kept.
var errNoAlbum = errors.New("this notebook keeps no pictures")

// AddPhoto keeps a picture and notes it in the journal of the open project with
// the time of the call, of a layer where one is named; done is told on the
// interface's goroutine. from is read in the background and closed. A picture
// that could not be shown later is not kept.
func (s *Session) AddPhoto(from io.ReadCloser, layer, text string, done func(error)) {
	album, ok := s.store.(Album)
	refused := s.pictureRefused()
	switch {
	case !s.open:
		done(errors.Join(errNoProject, from.Close()))
		return
	case refused != nil:
		done(errors.Join(refused, from.Close()))
		return
	case !ok:
		done(errors.Join(errNoAlbum, from.Close()))
		return
	}
	at, project := s.instant(), s.project.ID
	var name string
	// A key of its own: each is kept, and none holds up what is on its way to the
	// disk.
	Newest(s.jobs, "photo "+s.entryID(), func() (err error) {
		name, err = keepPhoto(album, from)
		return err
	}, func(err error) {
		switch {
		case err != nil:
		case s.project.ID != project:
			err = errors.New("another piece was opened meanwhile: the picture was noted in none")
		default:
			err = s.log(at, func(*model.Project) (model.Entry, error) {
				return model.Entry{Kind: model.EntryPhoto, Layer: layer, Photo: name, Text: text}, nil
			})
		}
		done(err)
	})
}

// keepPhoto reads a picture, looks whether it can be shown, and keeps it.
func keepPhoto(album Album, from io.ReadCloser) (string, error) {
	data, err := readPhoto(from)
	if err != nil {
		return "", err
	}
	if _, err := picture.Small(data, 1); err != nil {
		return "", err
	}
	return album.PutPhoto(bytes.NewReader(data), picture.MostBytes)
}

// readPhoto reads a picture's file to its end, or to where it is too large, and
// closes it.
func readPhoto(from io.ReadCloser) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(from, picture.MostBytes+1))
	return data, errors.Join(err, from.Close())
}

// keptPhoto reads a picture that was kept.
func keptPhoto(store Store, name string) ([]byte, error) {
	album, ok := store.(Album)
	if !ok {
		return nil, errNoAlbum
	}
	from, err := album.Photo(name)
	if err != nil {
		return nil, err
	}
	return readPhoto(from)
}

// wantedPicture is a picture that waits to be made small enough.
type wantedPicture struct {
	name string
	side int
	done func(image.Image, error)
}

// Picture has a kept picture decoded in the background, no larger than side
// pixels either way, and handed to done on the interface's goroutine. One after
// the other is decoded, so that many together take no more room than one.
func (s *Session) Picture(name string, side int, done func(image.Image, error)) {
	s.pictures = append(s.pictures, wantedPicture{name, side, done})
	if len(s.pictures) == 1 {
		s.nextPicture()
	}
}

// nextPicture decodes the first picture that waits, and then those behind it.
func (s *Session) nextPicture() {
	p := s.pictures[0]
	var err error
	Newest(s.jobs, "picture", func() image.Image {
		var small image.Image
		small, err = decoded(s.store, p.name, p.side)
		return small
	}, func(small image.Image) {
		p.done(small, err)
		s.pictures = s.pictures[1:]
		if len(s.pictures) > 0 {
			s.nextPicture()
		}
	})
}

// decoded reads a kept picture and makes it no larger than side pixels.
func decoded(store Store, name string, side int) (image.Image, error) {
	data, err := keptPhoto(store, name)
	if err != nil {
		return nil, err
	}
	return picture.Small(data, side)
}
