package drawing

import (
	"image/color"
	"strings"
	"testing"
)

// recorder is a Surface that keeps what it is asked to draw.
type recorder struct {
	box     Box
	fonts   *Fonts
	strokes []stroke
	fills   []fill
	texts   []text
}

type stroke struct {
	pen  Pen
	path Path
}

type fill struct {
	name  string
	c     color.NRGBA
	rings [][]Pt
}

type text struct {
	at   Pt
	text string
	l    Lettering
	box  Box
}

func record(t testing.TB, w, h float64) *recorder {
	return &recorder{box: Box{Max: Pt{w, h}}, fonts: testFonts(t)}
}

func (r *recorder) Bounds() Box { return r.box }

func (r *recorder) Stroke(p Pen, paths ...Path) {
	for _, q := range paths {
		r.strokes = append(r.strokes, stroke{p, q})
	}
}

func (r *recorder) Fill(name string, c color.NRGBA, rings ...[]Pt) {
	r.fills = append(r.fills, fill{name, c, rings})
}

func (r *recorder) Text(at Pt, s string, l Lettering) {
	r.texts = append(r.texts, text{at, s, l, TextBox(r, at, s, l)})
}

func (r *recorder) Measure(s string, l Lettering) float64 { return r.fonts.Measure(s, l.Size, l.Bold) }

func (r *recorder) lines(name string) []stroke {
	var out []stroke
	for _, s := range r.strokes {
		if s.pen.Name == name {
			out = append(out, s)
		}
	}
	return out
}

func (r *recorder) says(part string) bool {
	for _, t := range r.texts {
		if strings.Contains(t.text, part) {
			return true
		}
	}
	return false
}

// crosses tells whether a path runs through a box.
func crosses(b Box, p Path) bool {
	if p.Closed {
		return crossed(b, p.Points)
	}
	for i := 1; i < len(p.Points); i++ {
		if _, _, ok := b.clip(p.Points[i-1], p.Points[i]); ok {
			return true
		}
	}
	return false
}
