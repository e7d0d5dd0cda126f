package picture

import (
	"bytes"
	"errors"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"runtime"
	"sync"

	"golang.org/x/image/webp"
)

// errMoving says that a picture moves.
var errMoving = errors.New("this picture moves: export one of its pictures as JPEG and add that")

// one is held while a picture is decoded and made smaller: several never are at
// once, so that many together take no more room than one.
var one sync.Mutex

// decode reads a picture as it is stored, not turned upright. A decoder that
// fails in any way is a damaged picture.
func decode(data []byte) (p image.Image, h Head, err error) {
	if h, err = Look(data); err != nil {
		return nil, h, err
	}
	defer func() {
		if recover() != nil {
			p, err = nil, errDamaged
		}
	}()
	if h.room > 32<<20 {
		runtime.GC() // what the one before left
	}
	from := bytes.NewReader(data)
	switch h.Kind {
	case JPEG:
		p, err = jpeg.Decode(from)
	case PNG:
		p, err = png.Decode(from)
	case GIF:
		p, err = gif.Decode(from)
	case WebP:
		p, err = webp.Decode(from)
	case HEIC:
		p, err = decodeHEIC(data)
	}
	if err != nil {
		return nil, h, errDamaged
	}
	if size := p.Bounds().Size(); h.Kind == GIF || h.Kind == HEIC {
		// Of a moving picture the first need not fill the screen, and a HEIC's may be
		// cropped and turned.
		h.Wide, h.High = size.X, size.Y
	} else if size != h.stored() {
		return nil, h, errDamaged
	}
	return p, h, nil
}

// stored is the size before it is turned upright.
func (h *Head) stored() image.Point {
	if h.turn >= 5 {
		return image.Pt(h.High, h.Wide)
	}
	return image.Pt(h.Wide, h.High)
}
