package picture

import (
	"bytes"
	"encoding/binary"
	"image/gif"
)

// lookPNG reads the header of a PNG and the chunks before its pixels (ISO/IEC
// 15948, 11.2.2; eXIf as in its third edition, 11.3.3.5).
func lookPNG(data []byte) (Head, error) {
	const signature, header = 8, 13
	if len(data) < signature+8+header || string(data[signature+4:signature+8]) != "IHDR" {
		return Head{}, errDamaged
	}
	h := data[signature+8:]
	wide, high := int64(binary.BigEndian.Uint32(h)), int64(binary.BigEndian.Uint32(h[4:]))
	if wide > 1<<31-1 || high > 1<<31-1 {
		return Head{}, errDamaged
	}
	bits, palette, interlaced := h[8], h[9] == 3, h[12] != 0
	room := int64(4)
	switch {
	case palette:
		room = 1
	case bits == 16:
		room = 8
	}
	if interlaced { // its seven passes are kept beside the whole
		room *= 2
	}
	if wide != 0 && high > (1<<62)/8/2/wide {
		room = 1 << 62
	} else {
		room *= wide * high
	}
	turn := 1
	for rest := data[signature:]; len(rest) >= 12; {
		n := int64(binary.BigEndian.Uint32(rest))
		name := string(rest[4:8])
		if n+12 > int64(len(rest)) || name == "IDAT" {
			break
		}
		if name == "eXIf" {
			turn = tiffOrientation(rest[8 : 8+n])
		}
		rest = rest[12+n:]
	}
	return Head{}.as(PNG, int(wide), int(high), turn, room), nil
}

// lookGIF reads the screen of a GIF. Only the first picture of a moving one is
// decoded, and it lies on the screen.
func lookGIF(data []byte) (Head, error) {
	size, err := gif.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return Head{}, errDamaged
	}
	return Head{}.as(GIF, size.Width, size.Height, 1, int64(size.Width)*int64(size.Height)), nil
}

// lookWebP reads the chunks of a WebP (RFC 9649): the size is in the one that
// holds the pixels.
func lookWebP(data []byte) (Head, error) {
	turn, wide, high, each := 1, 0, 0, int64(0)
	for rest := data[12:]; len(rest) >= 8; {
		n := int64(binary.LittleEndian.Uint32(rest[4:]))
		body := rest[8:min(8+n, int64(len(rest)))]
		switch name := string(rest[:4]); {
		case name == "VP8 " && len(body) >= 10 && each == 0:
			// 2.6: a key frame's size, 14 bits each, behind three bytes and a start code.
			wide, high, each = int(binary.LittleEndian.Uint16(body[6:])&0x3FFF), int(binary.LittleEndian.Uint16(body[8:])&0x3FFF), 7
		case name == "VP8L" && len(body) >= 5 && each == 0:
			b := binary.LittleEndian.Uint32(body[1:])
			wide, high, each = int(b&0x3FFF)+1, int(b>>14&0x3FFF)+1, 8
		case name == "ANIM":
			return Head{}, errMoving
		case name == "EXIF":
			turn = tiffOrientation(bytes.TrimPrefix(body, []byte("Exif\x00\x00")))
		}
		n += n & 1
		if 8+n > int64(len(rest)) {
			break
		}
		rest = rest[8+n:]
	}
	if each == 0 {
		return Head{}, errDamaged
	}
	return Head{}.as(WebP, wide, high, turn, each*int64(wide)*int64(high)), nil
}
