package picture

import (
	"bytes"
	"errors"
	"fmt"
)

// What a picture may be at most: the bytes of its file, the pixels that it has,
// the pixels along one side, and the bytes that decoding it may take; a HEIC has
// a limit of its own, mostHEIC.
const (
	MostBytes  = 25 << 20
	mostPixels = 50_000_000
	mostSide   = 32_768
	mostRoom   = 400 << 20
)

// Kind is a kind of picture file.
type Kind string

// The kinds that are read.
const (
	JPEG Kind = "JPEG"
	PNG  Kind = "PNG"
	GIF  Kind = "GIF"
	WebP Kind = "WebP"
	HEIC Kind = "HEIC"
)

// Head is what a picture says of itself before any of it is decoded.
type Head struct {
	Kind       Kind
	Wide, High int // pixels, as it is seen upright

	turn int   // how what is stored is turned to stand upright, 1 to 8, see orient.go
	room int64 // bytes that decoding takes
}

// as notes the size of what is stored.
func (h Head) as(kind Kind, wide, high, turn int, room int64) Head {
	if turn >= 5 {
		wide, high = high, wide
	}
	return Head{Kind: kind, Wide: wide, High: high, turn: turn, room: room}
}

// errDamaged says that a picture breaks off or is garbled.
var errDamaged = errors.New("the picture is damaged or cut short: copy it from the phone or camera again")

// Look reads what a picture says of itself, and tells in words why it cannot be
// read: it is no picture, of another kind, too large, or its header is damaged.
func Look(data []byte) (Head, error) {
	if len(data) > MostBytes {
		return Head{}, errBytes
	}
	var h Head
	var err error
	switch kindOf(data) {
	case JPEG:
		h, err = lookJPEG(data)
	case PNG:
		h, err = lookPNG(data)
	case GIF:
		h, err = lookGIF(data)
	case WebP:
		h, err = lookWebP(data)
	case HEIC:
		h, err = lookHEIC(data)
	default:
		return Head{}, noPicture(data)
	}
	if err != nil {
		return Head{}, err
	}
	switch {
	case h.Wide <= 0 || h.High <= 0:
		return Head{}, errors.New("the picture has no pixels: it is damaged; copy it from the phone or camera again")
	case h.Wide > mostPixels/h.High:
		return Head{}, fmt.Errorf("the picture has %d by %d pixels, more than %d million: make it smaller and add it again", h.Wide, h.High, mostPixels/1_000_000)
	case max(h.Wide, h.High) > mostSide:
		return Head{}, fmt.Errorf("the picture has %d by %d pixels, more than %d along one side: crop it and add it again", h.Wide, h.High, mostSide)
	case h.room > mostRoom:
		return Head{}, fmt.Errorf("the picture of %d by %d pixels takes too much memory the way it is stored: save it as a plain JPEG and add that", h.Wide, h.High)
	}
	return h, nil
}

// errBytes says that a file is too large.
var errBytes = fmt.Errorf("the picture is larger than %d MB: make it smaller and add it again", MostBytes>>20)

// kindOf tells the kind of a picture by its first bytes, "" where it is none
// that is read. Signatures: ISO/IEC 10918-1 (JPEG), ISO/IEC 15948 (PNG), the
// GIF87a and GIF89a specifications, RFC 9649 (WebP), ISO/IEC 23008-12 (HEIC).
func kindOf(data []byte) Kind {
	switch {
	case bytes.HasPrefix(data, []byte("\xFF\xD8\xFF")):
		return JPEG
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1A\n")):
		return PNG
	case bytes.HasPrefix(data, []byte("GIF87a")), bytes.HasPrefix(data, []byte("GIF89a")):
		return GIF
	case len(data) >= 12 && string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP":
		return WebP
	case heicBrand(data):
		return HEIC
	}
	return ""
}

// noPicture says that a file is none that is read, and what it is instead where
// its first bytes tell.
func noPicture(data []byte) error {
	is := "this is no picture"
	switch {
	case len(data) == 0:
		is = "the file is empty"
	case bytes.HasPrefix(data, []byte("%PDF-")):
		is = "this is a PDF, no picture"
	case bytes.HasPrefix(data, []byte("II*\x00")), bytes.HasPrefix(data, []byte("MM\x00*")):
		is = "this is a TIFF or a camera's raw picture, which is not read"
	case len(data) >= 12 && string(data[4:8]) == "ftyp":
		is = "this is a film, or a picture of a kind that is not read"
	}
	return errors.New(is + ": choose a JPEG, PNG, GIF, WebP or HEIC file, or export it as JPEG")
}
