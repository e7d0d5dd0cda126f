package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"testing"
)

// exif is a JPEG of a size that says how it is to be turned.
func exif(t testing.TB, p image.Image, order binary.AppendByteOrder, orientation uint16) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := jpeg.Encode(&out, p, nil); err != nil {
		t.Fatal(err)
	}
	body := []byte("Exif\x00\x00II*\x00")
	if order.String() == "BigEndian" {
		body = []byte("Exif\x00\x00MM\x00*")
	}
	body = order.AppendUint32(body, 8)           // the first directory
	body = order.AppendUint16(body, 1)           // of one entry
	body = order.AppendUint16(body, 0x0112)      // orientation
	body = order.AppendUint16(body, 3)           // short
	body = order.AppendUint32(body, 1)           // one of it
	body = order.AppendUint16(body, orientation) // here
	body = append(body, 0, 0, 0, 0, 0, 0)
	segment := binary.BigEndian.AppendUint16([]byte{0xFF, 0xE1}, uint16(2+len(body)))
	return append(append([]byte("\xFF\xD8"), append(segment, body...)...), out.Bytes()[2:]...)
}

// TestUpright: the corner that was at the top left of the scene comes to the top
// left, for each of the eight ways in which a camera may have been held. Where
// row 0 and column 0 of what is stored lie in the scene is the table of Exif
// 2.32, 4.6.4.
func TestUpright(t *testing.T) {
	mark, plain := color.RGBA{R: 255, A: 255}, color.RGBA{B: 255, A: 255}
	for orientation, corner := range map[int]image.Point{ // where the scene's top left is stored, in 3 by 2
		1: {0, 0}, 2: {2, 0}, 3: {2, 1}, 4: {0, 1}, 5: {0, 0}, 6: {0, 1}, 7: {2, 1}, 8: {2, 0},
	} {
		p := image.NewRGBA(image.Rect(0, 0, 3, 2))
		for i := range 6 {
			p.SetRGBA(i%3, i/3, plain)
		}
		p.SetRGBA(corner.X, corner.Y, mark)
		got := upright(p, orientation)
		want := image.Pt(3, 2)
		if orientation >= 5 {
			want = image.Pt(2, 3)
		}
		if got.Rect.Size() != want || got.RGBAAt(0, 0) != mark {
			t.Errorf("%d: %v, %v", orientation, got.Rect, got.Pix)
		}
		for i := 1; i < 6; i++ {
			if got.RGBAAt(i%want.X, i/want.X) != plain {
				t.Errorf("%d: the mark is twice there", orientation)
			}
		}
	}
}

// TestOrientationIsRead from files as cameras write them, in both byte orders.
func TestOrientationIsRead(t *testing.T) {
	p := image.NewNRGBA(image.Rect(0, 0, 8, 8))
	for o := range uint16(12) {
		want := int(o)
		if o == 0 || o > 8 {
			want = 1 // reserved
		}
		for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
			data := exif(t, p, order, o)
			h, err := Look(data)
			if err != nil || h.turn != want {
				t.Errorf("%v: %d read as %d, %v", order, o, h.turn, err)
			}
		}
	}
}

// FuzzOrientation: no file makes it fail, or gives what there is not.
func FuzzOrientation(f *testing.F) {
	f.Add(exif(f, image.NewNRGBA(image.Rect(0, 0, 2, 2)), binary.LittleEndian, 6))
	f.Add([]byte("\xFF\xD8\xFF\xE1\x00\x10Exif\x00\x00MM\x00*\xFF\xFF\xFF\xFF"))
	f.Add([]byte("\xFF\xD8\xFF\xE1\x00"))
	f.Add([]byte("MM\x00*\xFF\xFF\xFF\xFF"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if o := tiffOrientation(data); o < 1 || o > 8 {
			t.Error(o)
		}
		if h, err := Look(data); err == nil && (h.turn < 1 || h.turn > 8) {
			t.Error(h)
		}
	})
}
