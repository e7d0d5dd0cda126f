package drawing

import (
	"image/color"

	"meniscus/model/shape"
)

// Corners is the floor of a mold from above with its four corners named, and
// words beside each. They are in turn from the near left one.
type Corners struct {
	Floor shape.Ring
	At    [4]shape.Point // where they are
	Names [4]string
	Words [4]string // empty where there is nothing to say
}

// Room in dp beside the floor, for the words of its corners, and above and below it.
const (
	cornerSide = 96.0
	cornerEnd  = 30.0
)

// PaintCorners draws the floor to scale with its corners, as large as the surface
// allows. Corners with words stand out.
func PaintCorners(s Surface, c Corners, st Style) {
	d := newDrafter(s, st)
	if len(c.Floor) < 3 {
		return
	}
	lo, hi := c.Floor.Bounds()
	v := Fit(lo, hi, s.Bounds(), Margins{cornerSide, cornerEnd, cornerSide, cornerEnd}, 1)
	ring := v.Ring(c.Floor)
	s.Fill("resin", mix(d.p.Panel, d.p.Resin, 0.35), ring)
	d.line("outline", 1.5, d.p.Ink, nil, Loop(ring...))
	box := v.Ring(c.At[:])
	// The words go outwards, and on a narrow floor the letters move apart too.
	const apart = 22.0
	spread := max(0, apart-(box[0].Y-box[3].Y)) / 2
	for i, at := range box {
		anchor, x, out := Start, 13.0, -1.0
		if i == 0 || i == 3 {
			anchor, x = End, -13
		}
		if i < 2 { // the near ones
			out = 1
		}
		y := out*spread + title*0.36
		s.Text(at.Add(x, y), c.Names[i], Lettering{Name: "corner", Size: title, Bold: true, Anchor: anchor, Colour: d.p.Ink})
		half := 2.5
		if c.Words[i] != "" {
			half = 5
			s.Text(at.Add(x, y+out*(title+3)), c.Words[i], Lettering{Name: "shim", Size: figures, Anchor: anchor, Colour: d.p.Ink})
		}
		s.Fill("corner", d.mark(c.Words[i] != ""), []Pt{at.Add(-half, -half), at.Add(half, -half), at.Add(half, half), at.Add(-half, half)})
	}
}

// mark is the colour of a corner: one with a shim below it stands out.
func (d drafter) mark(shim bool) color.NRGBA {
	if shim {
		return d.p.Check
	}
	return d.p.Ink
}
