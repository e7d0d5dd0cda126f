package drawing

import (
	"fmt"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Fonts measures and outlines text in a regular and a bold face. It may be
// used from several goroutines.
type Fonts struct {
	mu    sync.Mutex
	faces [2]*sfnt.Font
	buf   sfnt.Buffer
	known [2]map[rune]glyph
}

// glyph is a character's outline and advance, in ems, y down.
type glyph struct {
	loops   [][]Pt
	advance float64
}

// ParseFonts reads two TrueType or OpenType faces. An empty bold is the
// regular face again.
func ParseFonts(regular, bold []byte) (*Fonts, error) {
	f := &Fonts{known: [2]map[rune]glyph{{}, {}}}
	for i, data := range [][]byte{regular, bold} {
		if i == 1 && len(data) == 0 {
			f.faces[1] = f.faces[0]
			continue
		}
		face, err := sfnt.Parse(data)
		if err != nil {
			return nil, fmt.Errorf("drawing: font %d: %w", i+1, err)
		}
		f.faces[i] = face
	}
	return f, nil
}

// Measure gives the width of a text in the unit of size.
func (f *Fonts) Measure(text string, size float64, bold bool) float64 {
	f.mu.Lock()
	defer f.mu.Unlock()
	w := 0.0
	for _, r := range text {
		w += f.glyph(r, bold).advance
	}
	return w * size
}

// each calls do with the outlines of a text's characters and their places
// along the baseline, in ems.
func (f *Fonts) each(text string, bold bool, do func(loops [][]Pt, at float64)) {
	f.mu.Lock()
	defer f.mu.Unlock()
	at := 0.0
	for _, r := range text {
		g := f.glyph(r, bold)
		do(g.loops, at)
		at += g.advance
	}
}

// glyph outlines one character. A face without it gives its own sign for a
// missing character.
func (f *Fonts) glyph(r rune, bold bool) glyph {
	i := 0
	if bold {
		i = 1
	}
	if g, ok := f.known[i][r]; ok {
		return g
	}
	face := f.faces[i]
	const em = 1024 // pixels to the em while reading
	ppem := fixed.I(em)
	var g glyph
	index, err := face.GlyphIndex(&f.buf, r)
	if err == nil {
		if a, err := face.GlyphAdvance(&f.buf, index, ppem, font.HintingNone); err == nil {
			g.advance = float64(a) / 64 / em
		}
		if s, err := face.LoadGlyph(&f.buf, index, ppem, nil); err == nil {
			g.loops = flatten(s, 64*em)
		}
	}
	f.known[i][r] = g
	return g
}

// flatten turns a glyph's curves into straight lines, fine enough for letters
// of up to a hundred pixels.
func flatten(segments sfnt.Segments, scale float64) [][]Pt {
	var loops [][]Pt
	var loop []Pt
	at := func(p fixed.Point26_6) Pt { return Pt{float64(p.X) / scale, float64(p.Y) / scale} }
	const steps = 5
	for _, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if len(loop) > 2 {
				loops = append(loops, loop)
			}
			loop = []Pt{at(s.Args[0])}
		case sfnt.SegmentOpLineTo:
			loop = append(loop, at(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			a, b, c := loop[len(loop)-1], at(s.Args[0]), at(s.Args[1])
			for k := 1; k <= steps; k++ {
				t := float64(k) / steps
				loop = append(loop, a.Lerp(b, t).Lerp(b.Lerp(c, t), t))
			}
		case sfnt.SegmentOpCubeTo:
			a, b, c, d := loop[len(loop)-1], at(s.Args[0]), at(s.Args[1]), at(s.Args[2])
			for k := 1; k <= steps; k++ {
				t := float64(k) / steps
				ab, bc, cd := a.Lerp(b, t), b.Lerp(c, t), c.Lerp(d, t)
				loop = append(loop, ab.Lerp(bc, t).Lerp(bc.Lerp(cd, t), t))
			}
		}
	}
	if len(loop) > 2 {
		loops = append(loops, loop)
	}
	return loops
}
