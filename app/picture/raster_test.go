package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestTraceScale: no more pixels than are worked on, not many less, and both
// sides whole to a tenth of a pixel unless the picture is a mere strip.
func TestTraceScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide := rapid.IntRange(1, mostSide).Draw(t, "wide")
		high := rapid.IntRange(1, min(mostSide, mostPixels/wide)).Draw(t, "high")
		s := traceScale(wide, high)
		n := float64(wide) / s * float64(high) / s
		if n > MostTraced+1 && s > 1 || s < 1 || s > 1 && n < 0.85*MostTraced {
			t.Fatalf("scale %v gives %v pixels", s, n)
		}
		most := 0.1
		if max(wide, high) > 3*min(wide, high) {
			most = 0.5
		}
		for _, side := range []int{wide, high} {
			w := float64(side) / s
			if off := math.Abs(w - math.Round(w)); off > most {
				t.Fatalf("scale %v leaves %v of a pixel", s, off)
			}
		}
	})
}

// TestHalves: each level is half of the one before, rounded up, and each pixel
// the mean of those that it stands for.
func TestHalves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(1, 9).Draw(t, "w"), rapid.IntRange(1, 9).Draw(t, "h")
		p := image.NewRGBA(image.Rect(0, 0, w, h))
		for i := range p.Pix {
			p.Pix[i] = rapid.Byte().Draw(t, "v")
		}
		got := half(p)
		if got.Rect.Size() != image.Pt((w+1)/2, (h+1)/2) {
			t.Fatal(got.Rect)
		}
		for y := range got.Rect.Dy() {
			for x := range got.Rect.Dx() {
				sum := 0
				for _, d := range []image.Point{{0, 0}, {1, 0}, {0, 1}, {1, 1}} {
					sum += int(p.RGBAAt(min(2*x+d.X, w-1), min(2*y+d.Y, h-1)).G)
				}
				if int(got.RGBAAt(x, y).G) != (sum+2)/4 {
					t.Fatalf("%d, %d", x, y)
				}
			}
		}
	})
}

// TestLevels of a picture that is worked on smaller, and turned by its tag: the
// spot that is upright at the upper left stays there on every level.
func TestLevels(t *testing.T) {
	p := image.NewRGBA(image.Rect(0, 0, 6000, 4000))
	for i := 3; i < len(p.Pix); i += 4 {
		p.Pix[i] = 255
	}
	for y := 2000; y < 4000; y++ { // lower left as stored
		for x := range 3000 {
			p.SetRGBA(x, y, color.RGBA{255, 255, 255, 255})
		}
	}
	data := exif(t, p, binary.BigEndian, 6) // a quarter to the right
	r, err := Trace(data)
	if err != nil {
		t.Fatal(err)
	}
	if r.Wide != 4000 || r.High != 6000 || r.Scale <= 1 || math.Abs(float64(r.Image.Rect.Dx())*r.Scale-4000) > 0.1 {
		t.Errorf("%d by %d, %v at %v", r.Wide, r.High, r.Image.Rect, r.Scale)
	}
	last := r.Level(r.Levels() - 1)
	if max(last.Rect.Dx(), last.Rect.Dy()) > smallest || r.Level(99) != last || r.Level(0) != r.Image || r.Level(-1) != r.Image {
		t.Errorf("%d levels to %v", r.Levels(), last.Rect)
	}
	for k := range r.Levels() {
		l := r.Level(k)
		w, h := l.Rect.Dx(), l.Rect.Dy()
		if l.RGBAAt(w/4, h/4).R < 250 || l.RGBAAt(3*w/4, h/4).R > 5 || l.RGBAAt(w/4, 3*h/4).R > 5 {
			t.Errorf("level %d is not upright", k)
		}
	}
	// One that is small has no halves.
	var out bytes.Buffer
	if err := jpeg.Encode(&out, image.NewGray(image.Rect(0, 0, 3, 2)), nil); err != nil {
		t.Fatal(err)
	}
	if r, err := Trace(out.Bytes()); err != nil || r.Levels() != 1 || r.Level(1) != r.Image {
		t.Errorf("%v", err)
	}
}

// BenchmarkTrace of a photo of 12 million pixels.
func BenchmarkTrace(b *testing.B) {
	p := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	for i := range p.Pix {
		p.Pix[i] = uint8(i*i>>7 | 0x40)
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, p, nil); err != nil {
		b.Fatal(err)
	}
	for name, data := range map[string][]byte{"JPEG": out.Bytes(), "HEIC of 24": readFile(b, "large.heic")} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Trace(data); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
