package assets

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/fyne-io/oksvg"
	"github.com/go-text/typesetting/font"
	"github.com/srwiley/rasterx"

	"meniscus/assets/fonts"
)

// wanted are the signs beyond ASCII that the screens use and that the typeface
// itself must have. The erase key's sign comes from the toolkit's own symbols.
const wanted = "½¼¾⅛⅜⅝⅞°²³µ±−′″⁄×·–—…≥≤≈←→↑↓√Δπρ●■▲"

func face(t *testing.T, data []byte) *font.Face {
	t.Helper()
	f, err := font.ParseTTF(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestFontsHaveEverySign(t *testing.T) {
	for name, data := range map[string][]byte{"regular": fonts.Regular, "bold": fonts.Bold} {
		f := face(t, data)
		for r := rune(' '); r <= '~'; r++ {
			if _, ok := f.NominalGlyph(r); !ok {
				t.Errorf("%s lacks %q", name, r)
			}
		}
		for _, r := range wanted {
			if _, ok := f.NominalGlyph(r); !ok {
				t.Errorf("%s lacks %q", name, r)
			}
		}
	}
}

func TestDigitsAreEquallyWide(t *testing.T) {
	for name, data := range map[string][]byte{"regular": fonts.Regular, "bold": fonts.Bold} {
		f := face(t, data)
		zero, _ := f.NominalGlyph('0')
		want := f.HorizontalAdvance(zero)
		for r := '1'; r <= '9'; r++ {
			g, _ := f.NominalGlyph(r)
			if got := f.HorizontalAdvance(g); got != want {
				t.Errorf("%s: %q is %v wide, 0 is %v", name, r, got, want)
			}
		}
	}
}

// The toolkit draws a line of text into a picture as high as the rounded line,
// with the baseline at the rounded ascent. The tails of the letters must fit
// below that at every size we use.
func TestTailsAreNotCut(t *testing.T) {
	for name, data := range map[string][]byte{"regular": fonts.Regular, "bold": fonts.Bold} {
		f := face(t, data)
		lines, _ := f.FontHExtents()
		em := float64(f.Upem())
		for size := 13.0; size <= 102; size++ {
			ascent, descent := float64(lines.Ascender)*size/em, float64(-lines.Descender)*size/em
			for _, r := range "gjpqy,(" {
				g, _ := f.NominalGlyph(r)
				box, _ := f.GlyphExtents(g)
				tail := -float64(box.YBearing+box.Height) * size / em
				if math.Ceil(ascent)+tail > math.Ceil(ascent+descent) {
					t.Errorf("%s cuts %q at %v px", name, r, size)
				}
			}
		}
	}
}

func TestFontsAreSmall(t *testing.T) {
	for name, data := range map[string][]byte{"regular": fonts.Regular, "bold": fonts.Bold} {
		if len(data) > 400_000 {
			t.Errorf("%s is %d bytes", name, len(data))
		}
	}
}

// TestIconDraws: the drawing is sound, and the picture for windows is it.
func TestIconDraws(t *testing.T) {
	drawing, err := os.ReadFile("icon.svg")
	if err != nil {
		t.Fatal(err)
	}
	pic, err := oksvg.ReadIconStream(bytes.NewReader(drawing), oksvg.StrictErrorMode)
	if err != nil {
		t.Fatal(err)
	}
	const size = 128
	img := image.NewRGBA(image.Rect(0, 0, size, size))
	pic.SetTarget(0, 0, size, size)
	pic.Draw(rasterx.NewDasher(size, size, rasterx.NewScannerGV(size, size, img, img.Bounds())), 1)

	amber := color.RGBA{0xC0, 0x7A, 0x0C, 0xFF}
	if got := img.RGBAAt(90, 110); got != amber {
		t.Errorf("below the surface the icon is %v, want amber %v", got, amber)
	}
	if got := img.RGBAAt(100, 40); got == amber || got.A != 0xFF {
		t.Errorf("above the surface the icon is %v, want the pale ground", got)
	}
	if *update {
		var out bytes.Buffer
		if err := png.Encode(&out, img); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile("icon.png", out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	kept, err := png.Decode(bytes.NewReader(icon))
	if err != nil || kept.Bounds() != img.Bounds() {
		t.Fatalf("icon.png: %v", err)
	}
	for i := range size * size {
		x, y := i%size, i/size
		want, got := img.RGBAAt(x, y), color.RGBAModel.Convert(kept.At(x, y)).(color.RGBA)
		for k, d := range [4]int{int(want.R) - int(got.R), int(want.G) - int(got.G), int(want.B) - int(got.B), int(want.A) - int(got.A)} {
			if max(d, -d) > 2 {
				t.Fatalf("icon.png is not icon.svg at %d,%d, channel %d: %v, want %v; run go test ./assets -run Icon -update", x, y, k, got, want)
			}
		}
	}
}

func TestLicenceIsThere(t *testing.T) {
	if !strings.Contains(FontLicence(), "Redistribution and use") {
		t.Error("the licence text is missing")
	}
}
