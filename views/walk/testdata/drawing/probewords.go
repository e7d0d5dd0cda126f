package drawing

import "image/color"

// Word is one line of text in a picture.
type Word struct {
	At   Pt // in dp from the picture's corner
	Text string
}

// Words gives what a picture writes.
func (p *Picture) Words() []Word {
	if p.paint == nil {
		return nil
	}
	s := p.Size()
	r := &reader{Image: NewImage(1, 1, 1, p.fonts), box: Box{Max: Pt{X: float64(s.Width), Y: float64(s.Height)}}}
	p.paint(r)
	return r.words
}

// reader is a surface that only takes note of what is written on it.
type reader struct {
	*Image // measures texts
	box    Box
	words  []Word
}

func (r *reader) Bounds() Box                          { return r.box }
func (r *reader) Stroke(Pen, ...Path)                  {}
func (r *reader) Fill(string, color.NRGBA, ...[]Pt)    {}
func (r *reader) Text(at Pt, text string, _ Lettering) { r.words = append(r.words, Word{at, text}) }
