package picture

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"

	"github.com/gen2brain/heic"
)

// The decoder of HEIC is a library for C run as WebAssembly: whatever a file does
// to it stays in a memory of its own, which is thrown away afterwards. That
// memory has no limit of ours, so all sizes that a file can claim are looked at
// before: those of its items, of the grids that put tiles together, and of the
// coded pictures in them.

func init() { heic.ForceWasmMode = true } // never the machine's own library, which runs unguarded

// decodeHEIC decodes the main picture of a HEIC, turned as the file says.
func decodeHEIC(data []byte) (image.Image, error) {
	p, err := heic.Decode(bytes.NewReader(data))
	if err == nil && min(p.Bounds().Dx(), p.Bounds().Dy()) < leastHEIC { // a part of a larger one
		err = errSmallHEIC
	}
	if err != nil {
		return nil, err
	}
	switch p := p.(type) {
	case *image.YCbCr:
		mendStart(p.Y, p.YStride)
	case *image.Gray:
		mendStart(p.Pix, p.Stride)
	case *image.RGBA:
		mendStart(p.Pix, p.Stride)
	case *image.NRGBA:
		mendStart(p.Pix, p.Stride)
	}
	return p, nil
}

// mendStart takes the first bytes of a picture from its second line: the decoder
// gives its memory back before it hands the picture on, and notes in these bytes
// where more is free.
func mendStart(dots []byte, stride int) {
	const noted = 24 // six words of four bytes, as its allocator keeps of a large block
	if len(dots) >= stride+noted && stride >= noted {
		copy(dots[:noted], dots[stride:])
	}
}

// mostHEIC is how many pixels a HEIC may have. Its decoder takes some 30 bytes for
// each, measured with tiles as phones write them: as decoded, put together, turned,
// handed out, and while its memory grows. The photos of phones have 12 or 24
// million pixels unless asked for more.
const mostHEIC = 25_000_000

// mostItems is how many parts a HEIC may have; phones write up to some two
// hundred tiles.
const mostItems = 2000

// heicBrand tells whether a file says that it is a HEIC (ISO/IEC 14496-12, 4.3,
// with the brands of ISO/IEC 23008-12).
func heicBrand(data []byte) bool {
	if len(data) < 12 || string(data[4:8]) != "ftyp" {
		return false
	}
	switch string(data[8:12]) {
	case "heic", "heix", "heim", "heis":
		return true
	}
	return false
}

var errTooMuchHEIC = errors.New("the HEIC claims parts that are too large: export it as JPEG and add that")

// leastHEIC is how many pixels a HEIC has either way at least: the decoder lays
// out the lines of smaller ones in another way than it hands them on.
const leastHEIC = 128

var errSmallHEIC = fmt.Errorf("a HEIC of less than %d pixels either way is not read: export it as JPEG and add that", leastHEIC)

// boxes calls see with the boxes that data is made of, until one is damaged or
// see says that it is (ISO/IEC 14496-12, 4.2). It tells whether all were well.
func boxes(data []byte, see func(kind string, body []byte) bool) bool {
	for len(data) > 0 {
		if len(data) < 8 {
			return false
		}
		n, head := uint64(binary.BigEndian.Uint32(data)), uint64(8)
		switch n {
		case 0:
			n = uint64(len(data))
		case 1:
			if len(data) < 16 {
				return false
			}
			n, head = binary.BigEndian.Uint64(data[8:]), 16
		}
		if n < head || n > uint64(len(data)) {
			return false
		}
		if !see(string(data[4:8]), data[head:n]) {
			return false
		}
		data = data[n:]
	}
	return true
}

// lookHEIC reads the sizes that a HEIC claims. The size that it gives is that of
// its largest part; which part is the picture and how it is turned is left to
// the decoder.
func lookHEIC(data []byte) (Head, error) {
	h := heicFile{data: data, kinds: map[uint32]string{}}
	metas := 0
	ok := boxes(data, func(kind string, body []byte) bool {
		if kind != "meta" {
			return true
		}
		metas++
		return metas == 1 && len(body) >= 4 && boxes(body[4:], h.meta)
	})
	if !ok || metas == 0 || !h.items() {
		return Head{}, errDamaged
	}
	switch {
	case h.tooMuch:
		return Head{}, errTooMuchHEIC
	case min(h.wide, h.high) < leastHEIC:
		return Head{}, errSmallHEIC
	case h.wide*h.high > mostHEIC:
		return Head{}, fmt.Errorf("the HEIC has %d by %d pixels, more than %d million: make it smaller, or export it as JPEG and add that", h.wide, h.high, mostHEIC/1_000_000)
	}
	return Head{}.as(HEIC, h.wide, h.high, 1, 16*int64(h.wide)*int64(h.high)), nil
}

// heicFile is what is read of a HEIC.
type heicFile struct {
	data       []byte
	idat, iloc []byte
	kinds      map[uint32]string // of the items, by ID
	wide, high int               // of the largest part
	tooMuch    bool
}

// claims notes a size that a part has.
func (h *heicFile) claims(wide, high uint32) {
	if wide > mostSide || high > mostSide {
		h.tooMuch = true
		return
	}
	if int(wide)*int(high) >= h.wide*h.high {
		h.wide, h.high = int(wide), int(high)
	}
}

// meta reads the boxes that describe the items (ISO/IEC 14496-12, 8.11).
func (h *heicFile) meta(kind string, body []byte) bool {
	switch kind {
	case "idat":
		h.idat = body
	case "iloc":
		h.iloc = body
	case "iinf":
		head := 6
		if len(body) > 0 && body[0] > 0 {
			head = 8
		}
		return len(body) >= head && boxes(body[head:], h.info)
	case "iprp":
		return boxes(body, func(kind string, body []byte) bool {
			return kind != "ipco" || boxes(body, h.property)
		})
	}
	return true
}

// info reads what kind an item is (8.11.6; its versions 2 and 3).
func (h *heicFile) info(kind string, body []byte) bool {
	if kind != "infe" || len(body) < 4 || body[0] < 2 {
		return true
	}
	f := fields{rest: body[4:]}
	id := f.number(2)
	if body[0] >= 3 {
		f = fields{rest: body[4:]}
		id = f.number(4)
	}
	f.number(2)
	name := f.bytes(4)
	if f.short || len(h.kinds) >= mostItems {
		return false
	}
	h.kinds[uint32(id)] = string(name)
	return true
}

// property reads the sizes that properties claim: ispe (ISO/IEC 23008-12,
// 6.5.3) and the parameter sets in hvcC (ISO/IEC 14496-15, 8.3.2.1).
func (h *heicFile) property(kind string, body []byte) bool {
	f := fields{rest: body}
	switch kind {
	case "ispe":
		f.number(4)
		w, t := f.number(4), f.number(4)
		if f.short {
			return false
		}
		h.claims(uint32(w), uint32(t))
	case "hvcC":
		f.bytes(22)
		for arrays := f.number(1); arrays > 0 && !f.short; arrays-- {
			f.number(1)
			for units := f.number(2); units > 0 && !f.short; units-- {
				h.unit(f.bytes(f.number(2)))
			}
		}
		return !f.short
	}
	return true
}
