package app

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"meniscus/app/bundle"
	"meniscus/app/picture"
	"meniscus/model"
)

// A project with its photos travels as one file, see bundle.

// WithPhotos tells by the first bytes of a file whether it is such a file, and
// not a project alone.
func WithPhotos(start []byte) bool { return bundle.Is(start) }

// ExportWithPhotos writes the open project with all photos that it and its
// journal name, in the background, and closes to. done is told on the
// interface's goroutine, with the number of photos that could not be read and
// are not in the file.
func (s *Session) ExportWithPhotos(to io.WriteCloser, done func(missing int, err error)) {
	album, ok := s.store.(Album)
	switch {
	case !s.open:
		done(0, errors.Join(errNoProject, to.Close()))
		return
	case !ok:
		done(0, errors.Join(errNoAlbum, to.Close()))
		return
	}
	p := s.travelling()
	var missing []string
	Newest(s.jobs, "carry "+s.entryID(), func() (err error) {
		missing, err = bundle.Write(to, p, album.Photo)
		return errors.Join(err, to.Close())
	}, func(err error) { done(len(missing), err) })
}

// File is a file that is read at any place of it.
type File interface {
	io.ReaderAt
	io.Closer
}

// ImportWithPhotos takes in a project with its photos from a file of size bytes,
// which is read in the background and closed. All of it is looked through
// before anything is kept; then the photos are kept, and the project comes in as
// by Import. done is told on the interface's goroutine, with the number of
// photos that neither the file nor the notebook has.
func (s *Session) ImportWithPhotos(from File, size int64, done func(missing int, err error)) {
	album, ok := s.store.(Album)
	switch {
	case s.notebookSealed():
		done(0, errors.Join(errClosed, from.Close()))
		return
	case !ok:
		done(0, errors.Join(errNoAlbum, from.Close()))
		return
	}
	var p model.Project
	var missing int
	Newest(s.jobs, "carry "+s.entryID(), func() error {
		b, err := bundle.Read(from, size)
		if err == nil {
			p, missing = b.Project, absent(album, b.Missing)
			err = keepPhotos(album, b)
		}
		return errors.Join(err, from.Close())
	}, func(err error) {
		if err == nil {
			s.adopt(p, "Imported")
		}
		done(missing, err)
	})
}

// keepPhotos keeps the photos of a file that was read through.
func keepPhotos(album Album, b *bundle.Bundle) error {
	for _, name := range b.Photos {
		data, err := b.Photo(name)
		if err != nil {
			return err
		}
		kept, err := album.PutPhoto(bytes.NewReader(data), picture.MostBytes)
		if err != nil {
			return err
		}
		if kept != name {
			return fmt.Errorf("the photo %s was kept under another name", name)
		}
	}
	return nil
}

// absent counts the photos that the notebook does not have either.
func absent(album Album, names []string) int {
	n := 0
	for _, name := range names {
		f, err := album.Photo(name)
		if err != nil {
			n++
			continue
		}
		_ = f.Close()
	}
	return n
}
