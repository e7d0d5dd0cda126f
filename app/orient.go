package app

import (
	"bytes"
	"encoding/binary"
	"image"
)

// orientation gives how a JPEG is to be turned to stand upright, 1 to 8 as its
// camera noted it (Exif 2.32, 4.6.4, tag 0x0112); 1, as it is, where it does not
// say, or for any other kind of file.
func orientation(data []byte) int {
	if !bytes.HasPrefix(data, []byte("\xFF\xD8")) {
		return 1
	}
	// Segments: 0xFF, a marker, and a length that counts itself (ISO/IEC 10918-1,
	// B.1.1.4); the picture begins behind 0xFFDA.
	for rest := data[2:]; len(rest) >= 4 && rest[0] == 0xFF && rest[1] != 0xDA; {
		n := 2 + int(binary.BigEndian.Uint16(rest[2:]))
		if n < 4 || n > len(rest) {
			return 1
		}
		if body, ok := bytes.CutPrefix(rest[4:n], []byte("Exif\x00\x00")); ok && rest[1] == 0xE1 {
			return tiffOrientation(body)
		}
		rest = rest[n:]
	}
	return 1
}

// tiffOrientation looks the tag up in the first directory of a TIFF header
// (TIFF 6.0, section 2).
func tiffOrientation(t []byte) int {
	if len(t) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.LittleEndian
	if t[0] == 'M' {
		order = binary.BigEndian
	}
	at := int64(order.Uint32(t[4:]))
	if at+2 > int64(len(t)) {
		return 1
	}
	const entry, tag, short = 12, 0x0112, 3
	count := int(order.Uint16(t[at:]))
	for list := t[at+2:]; count > 0 && len(list) >= entry; count, list = count-1, list[entry:] {
		if order.Uint16(list) == tag && order.Uint16(list[2:]) == short {
			if o := int(order.Uint16(list[8:])); o >= 1 && o <= 8 {
				return o
			}
			return 1
		}
	}
	return 1
}

// upright turns a picture by its orientation: 2 to 4 mirror it or turn it half
// round, 5 to 8 also change its sides.
func upright(p *image.NRGBA, orientation int) *image.NRGBA {
	w, h := p.Rect.Dx(), p.Rect.Dy()
	if orientation <= 1 || orientation > 8 {
		return p
	}
	size := image.Rect(0, 0, w, h)
	if orientation >= 5 {
		size = image.Rect(0, 0, h, w)
	}
	out := image.NewNRGBA(size)
	for y := range size.Dy() {
		for x := range size.Dx() {
			var sx, sy int // where the dot is in what was stored
			switch orientation {
			case 2:
				sx, sy = w-1-x, y
			case 3:
				sx, sy = w-1-x, h-1-y
			case 4:
				sx, sy = x, h-1-y
			case 5:
				sx, sy = y, x
			case 6:
				sx, sy = y, h-1-x
			case 7:
				sx, sy = w-1-y, h-1-x
			case 8:
				sx, sy = w-1-y, x
			}
			out.SetNRGBA(x, y, p.NRGBAAt(sx, sy))
		}
	}
	return out
}
