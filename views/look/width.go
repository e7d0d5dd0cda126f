package look

import (
	"math"
	"sync"
	"unicode"

	"fyne.io/fyne/v2"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"meniscus/assets"
)

// Width gives how wide a text of one line stands at a size in the theme that is
// shown, in the toolkit's units: what fyne.MeasureText says, to the last digit,
// some hundred times sooner. The letters of our typeface neither join nor move
// closer, so a text is as wide as its letters are; what else stands in it, or
// another theme, is left to the toolkit.
func Width(text string, size float32, style fyne.TextStyle) float32 {
	if w, ok := ours(text, size, style); ok {
		return w
	}
	return fyne.MeasureText(text, size, style).Width
}

// ours is Width by our typeface alone; false where it does not tell.
func ours(text string, size float32, style fyne.TextStyle) (float32, bool) {
	if style != (fyne.TextStyle{Bold: style.Bold}) {
		return 0, false
	}
	if _, ok := fyne.CurrentApp().Settings().Theme().(*Theme); !ok {
		return 0, false
	}
	face := &widths[0]
	if style.Bold {
		face = &widths[1]
	}
	return face.width(text, size)
}

// widths are the letters' of our two faces.
var widths = [2]letters{{data: assets.Regular.Content()}, {data: assets.Bold.Content()}}

// letters are how wide those of one face are. It may be asked from anywhere.
type letters struct {
	data []byte

	mu    sync.Mutex
	face  *sfnt.Font
	buf   sfnt.Buffer
	em    int64
	known map[rune]int64 // in units of the em; -1 where the face does not tell
}

// width sums the letters up as the toolkit does: it takes the size in whole
// units, the next above, and rounds each letter to a 64th of one.
func (l *letters) width(text string, size float32) (float32, bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if !l.read() {
		return 0, false
	}
	scale := int64(math.Ceil(math.Trunc(float64(size)*64)/64)) * 64
	var sum int64
	for _, r := range text {
		wide := l.letter(r)
		if wide < 0 {
			return 0, false
		}
		sum += (2*wide*scale + l.em) / (2 * l.em)
	}
	return float32(float64(sum) / 64), true
}

// read parses the face once.
func (l *letters) read() bool {
	if l.known == nil {
		l.known = map[rune]int64{}
		if face, err := sfnt.Parse(l.data); err == nil {
			l.face, l.em = face, int64(face.UnitsPerEm())
		}
	}
	return l.face != nil
}

// letter is how wide one stands, -1 where the face has none or it may stand with
// the one before it.
func (l *letters) letter(r rune) int64 {
	wide, ok := l.known[r]
	if ok {
		return wide
	}
	wide = -1
	switch i, err := l.face.GlyphIndex(&l.buf, r); {
	case unicode.IsControl(r):
	case err != nil || i == 0:
		whole.wanted.Store(true)
	case !unicode.In(r, unicode.C, unicode.M):
		// At as many pixels as the em has units an advance comes in those.
		if a, err := l.face.GlyphAdvance(&l.buf, i, fixed.I(int(l.em)), font.HintingNone); err == nil {
			wide = int64(a.Round())
		}
	}
	l.known[r] = wide
	return wide
}
