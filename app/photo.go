package app

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	_ "image/gif" // the kinds of picture that are shown
	_ "image/jpeg"
	_ "image/png"
	"io"

	"golang.org/x/image/draw"
	_ "golang.org/x/image/webp"

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

// What a picture may be at most: bytes to be kept, and pixels to be shown, of
// which each takes up to four bytes while it is made smaller.
const (
	mostPhoto  = 25 << 20
	mostPixels = 50_000_000
)

// errNoAlbum says that pictures cannot be kept.
var errNoAlbum = errors.New("this notebook keeps no pictures")

// AddPhoto keeps a picture and notes it in the journal of the open project with
// the time of the call, of a layer where one is named; done is told on the
// interface's goroutine. from is read in the background and closed. A picture
// that could not be shown later is not kept.
func (s *Session) AddPhoto(from io.ReadCloser, layer, text string, done func(error)) {
	album, ok := s.store.(Album)
	switch {
	case !s.open:
		done(errors.Join(errNoProject, from.Close()))
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

// keepPhoto reads a picture, looks at how large it is, and keeps it.
func keepPhoto(album Album, from io.ReadCloser) (string, error) {
	data, err := io.ReadAll(io.LimitReader(from, mostPhoto+1))
	if err = errors.Join(err, from.Close()); err != nil {
		return "", err
	}
	if len(data) > mostPhoto {
		return "", fmt.Errorf("the picture is larger than %d MB: make it smaller and add it again", mostPhoto>>20)
	}
	if err := showable(data); err != nil {
		return "", err
	}
	return album.PutPhoto(bytes.NewReader(data), mostPhoto)
}

// showable tells why a picture cannot be shown, before any of it is decoded;
// nil when it can.
func showable(data []byte) error {
	size, _, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil:
		return errors.New("this is no picture that can be shown: choose a JPEG, PNG, GIF or WebP file")
	case size.Width <= 0 || size.Height <= 0 || size.Width > mostPixels/size.Height:
		return fmt.Errorf("the picture has %d by %d pixels, more than %d million: make it smaller", size.Width, size.Height, mostPixels/1_000_000)
	}
	return nil
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
	album, ok := store.(Album)
	if !ok {
		return nil, errNoAlbum
	}
	from, err := album.Photo(name)
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(from, mostPhoto+1))
	if err = errors.Join(err, from.Close()); err != nil {
		return nil, err
	}
	if err := showable(data); err != nil {
		return nil, err
	}
	whole, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("the picture is damaged: %w", err)
	}
	return upright(smaller(whole, side), orientation(data)), nil
}

// smaller makes a picture no larger than side pixels either way, in its own
// proportions.
func smaller(whole image.Image, side int) *image.NRGBA {
	size := whole.Bounds().Size()
	w, h := size.X, size.Y
	if long := max(w, h); long > side {
		w, h = max(w*side/long, 1), max(h*side/long, 1)
	}
	small := image.NewNRGBA(image.Rect(0, 0, w, h))
	draw.ApproxBiLinear.Scale(small, small.Bounds(), whole, whole.Bounds(), draw.Src, nil)
	return small
}
