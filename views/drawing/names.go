package drawing

import (
	"slices"

	"meniscus/model"
)

// names writes the pieces' names on them where there is room: in the middle
// or farther along, level, or upright on tall pieces.
func (p *planPainter) names() {
	for i := range p.c.Plan.Drawing.Cavities {
		pieces := p.c.Plan.Drawing.Cavities[i].Pieces
		for j := range pieces {
			p.name(&pieces[j])
		}
	}
}

func (p *planPainter) name(d *model.PieceDrawing) {
	top := p.v.Ring(d.Top)
	if len(top) < 3 {
		return
	}
	mid, box := p.v.ToScreen(d.Centre), BoxOf(top...)
	for _, up := range [2]bool{false, true} {
		if up && box.H() < box.W() {
			return
		}
		l := Lettering{Name: "name", Size: title, Anchor: Middle, Up: up, Colour: p.p.Ink}
		for _, t := range nameSpots {
			at := mid.Add(t.X*box.W(), t.Y*box.H())
			if up {
				at = mid.Add(t.Y*box.W()+title*0.36, t.X*box.H())
			} else {
				at.Y += title * 0.36
			}
			if b := TextBox(p.s, at, d.Name, l).Grown(4); p.roomy(b, d, top) {
				p.taken = append(p.taken, p.plated(at, d.Name, l, Fade(p.p.Wood, 0.85)))
				return
			}
		}
	}
}

// nameSpots are places for a name, in widths and heights from the middle.
var nameSpots = func() []Pt {
	var spots []Pt
	for _, y := range [5]float64{0, -0.2, 0.2, -0.3, 0.3} {
		for _, x := range [7]float64{0, -0.14, 0.14, -0.22, 0.22, -0.3, 0.3} {
			spots = append(spots, Pt{x, y})
		}
	}
	return spots
}()

// roomy tells whether a box lies on a piece, clear of its voids and of grips.
func (p *planPainter) roomy(b Box, d *model.PieceDrawing, top []Pt) bool {
	for _, c := range b.Ring() {
		if !inside(c, top) {
			return false
		}
	}
	for _, v := range d.Voids {
		if b.Overlaps(BoxOf(p.v.Ring(v)...)) {
			return false
		}
	}
	if x, ok := p.cut(); ok && b.Min.X < x && x < b.Max.X {
		return false
	}
	return !crossed(b, top) && !p.isTaken(b)
}

func (p *planPainter) isTaken(b Box) bool {
	return slices.ContainsFunc(p.taken, b.Overlaps)
}
