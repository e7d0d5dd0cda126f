package picture

import (
	"encoding/binary"
	"image"
)

// How a camera was held is kept in a tag, 1 to 8 (Exif 2.32, 4.6.4, tag 0x0112);
// 1 is as it is. HEIC has properties of its own for it (ISO/IEC 23008-12: irot
// and imir), which its decoder obeys; a tag beside them says the same again, and
// is passed over so that nothing is turned twice.

// tiffOrientation looks the tag up in the first directory of a TIFF header
// (TIFF 6.0, section 2); 1 where it is not there.
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

// upright turns a picture by its tag: 2 to 4 mirror it or turn it half round, 5
// to 8 also change its sides.
func upright(p *image.RGBA, turn int) *image.RGBA {
	w, h := p.Rect.Dx(), p.Rect.Dy()
	// Where the first pixel of the upright picture is in what was stored, and how
	// far it is from there to the next one to the right and below, in bytes.
	var start, right, down int
	const dot = 4
	line := p.Stride
	switch turn {
	case 2:
		start, right, down = dot*(w-1), -dot, line
	case 3:
		start, right, down = line*(h-1)+dot*(w-1), -dot, -line
	case 4:
		start, right, down = line*(h-1), dot, -line
	case 5:
		start, right, down = 0, line, dot
	case 6:
		start, right, down = line*(h-1), -line, dot
	case 7:
		start, right, down = line*(h-1)+dot*(w-1), -line, -dot
	case 8:
		start, right, down = dot*(w-1), line, -dot
	default:
		return p
	}
	if turn >= 5 {
		w, h = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		from, row := start+y*down, out.Pix[y*out.Stride:]
		for x := 0; x < dot*w; x, from = x+dot, from+right {
			copy(row[x:x+dot], p.Pix[from:from+dot])
		}
	}
	return out
}
