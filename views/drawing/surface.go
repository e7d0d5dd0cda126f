package drawing

import (
	"image/color"
	"math"
)

// Pt is a place on a surface in dp, x to the right and y down.
type Pt struct{ X, Y float64 }

// Add gives the point moved by dx and dy.
func (p Pt) Add(dx, dy float64) Pt { return Pt{p.X + dx, p.Y + dy} }

// To gives the distance between two points in dp.
func (p Pt) To(q Pt) float64 { return math.Hypot(q.X-p.X, q.Y-p.Y) }

// Lerp gives the point at t of the way to q.
func (p Pt) Lerp(q Pt, t float64) Pt { return Pt{p.X + (q.X-p.X)*t, p.Y + (q.Y-p.Y)*t} }

// Path is a run of straight lines; a closed one returns to its first point.
type Path struct {
	Points []Pt
	Closed bool
}

// Line makes an open path through points.
func Line(points ...Pt) Path { return Path{Points: points} }

// Loop makes a closed path through points.
func Loop(points ...Pt) Path { return Path{Points: points, Closed: true} }

// Pen is how a line is drawn. Name says what it stands for ("outline",
// "dimension"): an SVG gives it as the class.
type Pen struct {
	Name   string
	Width  float64   // dp
	Dash   []float64 // lengths of line and gap in dp; empty is continuous
	Colour color.NRGBA
}

// Anchor is the part of a text that sits at its place.
type Anchor uint8

// The anchors of a text.
const (
	Start Anchor = iota
	Middle
	End
)

// Lettering is how a text is written. Its place is the end of the baseline
// named by Anchor. Up turns it by a quarter to be read from the right side.
type Lettering struct {
	Name   string
	Size   float64 // em height in dp
	Bold   bool
	Up     bool
	Anchor Anchor
	Colour color.NRGBA
}

// Surface is what a painter paints on. Later calls cover earlier ones.
type Surface interface {
	// Bounds gives the visible part.
	Bounds() Box
	// Stroke draws lines.
	Stroke(pen Pen, paths ...Path)
	// Fill colours the inside of rings; a ring inside another is a hole.
	Fill(name string, c color.NRGBA, rings ...[]Pt)
	// Text writes one line of text.
	Text(at Pt, text string, l Lettering)
	// Measure gives the width of a text in dp.
	Measure(text string, l Lettering) float64
}

// TextBox gives the box that a text covers, from the tops of its capitals to
// the feet of its descenders.
func TextBox(s Surface, at Pt, text string, l Lettering) Box {
	w := s.Measure(text, l)
	lead := 0.0
	switch l.Anchor {
	case Middle:
		lead = w / 2
	case End:
		lead = w
	}
	up, down := capHeight*l.Size, descent*l.Size
	if l.Up {
		return Box{Pt{at.X - up, at.Y + lead - w}, Pt{at.X + down, at.Y + lead}}
	}
	return Box{Pt{at.X - lead, at.Y - up}, Pt{at.X - lead + w, at.Y + down}}
}

// capHeight and descent are parts of the em that hold for the humanist sans
// faces used here, within a few per cent.
const (
	capHeight = 0.72
	descent   = 0.22
)
