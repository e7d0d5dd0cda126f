package picture

import (
	"bytes"
	"encoding/binary"
	"errors"
)

// mostScans is how many times a progressive JPEG may go over its pixels. Cameras
// and programs write about ten; each takes as long as decoding once, however few
// bytes it has.
const mostScans = 100

// lookJPEG walks through the segments of a JPEG: 0xFF, a marker, and a length
// that counts itself (ISO/IEC 10918-1, B.1.1.4).
func lookJPEG(data []byte) (Head, error) {
	turn, frame, scans, plain := 1, jpegFrame{}, 0, true
	rest := data[2:]
	for len(rest) >= 4 {
		if rest[0] != 0xFF {
			break // what lies between is passed over below, behind a scan only
		}
		marker := rest[1]
		if marker == 0xFF || marker == 0x01 || marker >= 0xD0 && marker <= 0xD8 { // filling, or alone
			rest = rest[1:]
			if marker != 0xFF {
				rest = rest[1:]
			}
			continue
		}
		if marker == 0xD9 {
			break
		}
		n := 2 + int(binary.BigEndian.Uint16(rest[2:]))
		if n < 4 || n > len(rest) {
			break
		}
		body := rest[4:n]
		switch {
		case marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC:
			if frame.wide != 0 {
				return Head{}, errDamaged
			}
			if !frame.read(marker, body) {
				return Head{}, errDamaged
			}
		case marker == 0xE1 && turn == 1:
			if tiff, ok := bytes.CutPrefix(body, []byte("Exif\x00\x00")); ok {
				turn = tiffOrientation(tiff)
			}
		case marker == 0xEE && bytes.HasPrefix(body, []byte("Adobe")) && len(body) >= 12:
			plain = body[11] != 0 // else the samples are red, green and blue
		}
		rest = rest[n:]
		if marker == 0xDA {
			scans++
			rest = behindScan(rest)
		}
	}
	switch {
	case frame.parts == 0 || scans == 0:
		return Head{}, errDamaged
	case frame.marker > 0xC2 || frame.bits != 8:
		return Head{}, errors.New("this kind of JPEG is not read: save it as a plain JPEG and add that")
	case scans > mostScans:
		return Head{}, errors.New("the JPEG is built up in far too many passes: save it as a plain JPEG and add that")
	}
	return Head{}.as(JPEG, frame.wide, frame.high, turn, frame.room(plain)), nil
}

// behindScan passes over the coded pixels of a scan, to the next marker: a 0xFF
// in them is followed by zero or a restart (ISO/IEC 10918-1, B.1.1.5).
func behindScan(rest []byte) []byte {
	for {
		i := bytes.IndexByte(rest, 0xFF)
		if i < 0 || i+1 >= len(rest) {
			return nil
		}
		if m := rest[i+1]; m != 0 && (m < 0xD0 || m > 0xD7) && m != 0xFF {
			return rest[i:]
		}
		rest = rest[i+1:]
	}
}

// jpegFrame is what the header of a frame tells (ISO/IEC 10918-1, B.2.2).
type jpegFrame struct {
	marker     byte // 0xC0 and 0xC1 sequential, 0xC2 progressive, others are not read
	bits       int
	wide, high int
	parts      int   // of a pixel: 1 grey, 3 colours, 4 for printing
	samples    int64 // of all parts, over the whole picture
}

// read takes a frame's header; false where it is damaged.
func (f *jpegFrame) read(marker byte, body []byte) bool {
	if len(body) < 6 {
		return false
	}
	f.marker, f.bits, f.parts = marker, int(body[0]), int(body[5])
	f.high, f.wide = int(binary.BigEndian.Uint16(body[1:])), int(binary.BigEndian.Uint16(body[3:]))
	if f.parts != 1 && f.parts != 3 && f.parts != 4 || len(body) != 6+3*f.parts {
		return false
	}
	most, sum := int64(1), int64(0)
	for i := range f.parts {
		across, down := int64(body[7+3*i]>>4), int64(body[7+3*i]&15)
		if across < 1 || across > 4 || down < 1 || down > 4 {
			return false
		}
		most, sum = max(most, across*down), sum+across*down
	}
	if f.parts == 1 {
		most, sum = 1, 1
	}
	// Whole blocks of up to 32 pixels a side are stored.
	wide, high := int64(f.wide+31), int64(f.high+31)
	f.samples = wide * high * sum / most
	return true
}

// room is how many bytes decoding takes: one a sample, four more where it is
// progressive and every coefficient is kept until the last scan, and four a
// pixel where what is decoded is turned into other colours.
func (f *jpegFrame) room(plain bool) int64 {
	room := f.samples
	if f.marker == 0xC2 {
		room *= 5
	}
	if f.parts == 4 || f.parts == 3 && !plain {
		room += 4 * int64(f.wide) * int64(f.high)
	}
	return room
}
