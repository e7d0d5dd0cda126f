package picture

import (
	"image"
	"image/color"
	"os"
	"path/filepath"
	"testing"
)

// readFile gives one of the pictures of testdata/photos. All of them show the
// same four fields, 96 by 64 pixels upright, the HEIC ones three times as many
// either way or more: red and green above, blue and yellow below. They were written by programs other than this one (ImageMagick,
// heif-enc), so that reading is held to what is written out there.
func readFile(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "photos", name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// fields are the colours of the four fields, each at its middle.
var fourFields = map[image.Point]color.RGBA{
	{X: 24, Y: 16}: {0xE0, 0x20, 0x20, 0xFF}, {X: 72, Y: 16}: {0x20, 0xC0, 0x20, 0xFF},
	{X: 24, Y: 48}: {0x20, 0x20, 0xE0, 0xFF}, {X: 72, Y: 48}: {0xE0, 0xE0, 0x20, 0xFF},
}

// showsFields holds a picture to the four fields.
func showsFields(t *testing.T, name string, p *image.RGBA) {
	t.Helper()
	off := 12 // of 255: what the pictures lose by being written small
	if name == "lossy.webp" {
		off = 20 // its decoder takes its colours, which leave out the darkest and the brightest, as they are
	}
	for x := range 24 { // where a picture begins nothing else is written
		if got, want := p.RGBAAt(x, 0), p.RGBAAt(x, 1); far(got.R, want.R)+far(got.G, want.G)+far(got.B, want.B) > 60 {
			t.Errorf("%s: %v at %d in the first line, %v below", name, got, x, want)
		}
	}
	for at, want := range fourFields {
		at = image.Pt(at.X*p.Rect.Dx()/96, at.Y*p.Rect.Dy()/64)
		got := p.RGBAAt(at.X, at.Y)
		if far(got.R, want.R) > off || far(got.G, want.G) > off || far(got.B, want.B) > off || got.A != 255 {
			t.Errorf("%s: %v at %v, not %v", name, got, at, want)
		}
	}
}

func far(a, b uint8) int { return max(int(a)-int(b), int(b)-int(a)) }

// TestEveryKindIsRead: each kind that cameras and programs write comes out
// upright, in its size and colours, whatever it was stored like.
func TestEveryKindIsRead(t *testing.T) {
	for name, kind := range map[string]Kind{
		"plain.jpg": JPEG, "progressive.jpg": JPEG, "cmyk.jpg": JPEG,
		"plain.png": PNG, "deep-interlaced.png": PNG, "moving.gif": GIF,
		"lossy.webp": WebP, "lossless.webp": WebP,
		"upright.heic": HEIC, "turned.heic": HEIC, "mirrored.heic": HEIC, "odd.heic": HEIC, "tiles.heic": HEIC,
	} {
		data := readFile(t, name)
		h, err := Look(data)
		if err != nil || h.Kind != kind {
			t.Errorf("%s: %v, %v", name, h, err)
		}
		r, err := Trace(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		want := image.Pt(96, 64)
		if kind == HEIC {
			want = want.Mul(3)
		}
		switch name {
		case "odd.heic":
			want = want.Sub(image.Pt(1, 1))
		case "tiles.heic": // four, put together as phones do, and turned
			want = image.Pt(512, 512)
		}
		if r.Image.Rect.Size() != want || r.Wide != want.X || r.High != want.Y || r.Scale != 1 {
			t.Errorf("%s: %v, %d by %d, scale %v", name, r.Image.Rect, r.Wide, r.High, r.Scale)
			continue
		}
		showsFields(t, name, r.Image)
	}
}
