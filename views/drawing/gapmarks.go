package drawing

import (
	"math"

	"meniscus/model"
	"meniscus/model/unit"
)

// gaps draws the room around the selected piece, or around the only one.
func (p *planPainter) gaps() {
	id := p.c.Piece
	if id == "" && len(p.c.Plan.Pieces) == 1 {
		id = p.c.Plan.Pieces[0].ID
	}
	plan, home, piece := p.plan(id), p.home(id), p.c.piece(id)
	if plan == nil || home == nil || piece == nil {
		return
	}
	gap, ring := plan.Fit.GapFloor, piece.Bottom
	if plan.Fit.GapFill.Least < gap.Least {
		gap, ring = plan.Fit.GapFill, piece.Top
	}
	face, wall, rim := p.v.Ring(ring), p.v.Ring(p.wallAt(home, float64(gap.Height))), p.v.Ring(home.Rim)
	if len(face) < 3 || len(wall) < 3 || len(rim) < 3 {
		return
	}
	for _, g := range []struct {
		dx, dy float64
		room   unit.Length
	}{{1, 0, gap.Right}, {0, -1, gap.Far}, {-1, 0, gap.Left}, {0, 1, gap.Near}} {
		if g.room <= 0 {
			continue
		}
		if from, to, ok := narrowest(face, wall, g.dx, g.dy); ok {
			p.gap(from, to, rim, g.dx, g.dy, p.st.Length(g.room))
		}
	}
	p.least(home, gap)
}

// least dots the place where a piece is nearest to the wall.
func (p *planPainter) least(home *model.CavityDrawing, gap model.Gap) {
	if gap.Least <= 0 || gap.At.X == 0 && gap.At.Y == 0 {
		return
	}
	at := gap.At
	at.X, at.Y = at.X+home.Centre.X, at.Y+home.Centre.Y
	p.s.Fill("least gap", p.p.Ground, circle(p.v.ToScreen(at), 4.5, 20))
	p.s.Fill("least gap", p.p.Dimension, circle(p.v.ToScreen(at), 3, 20))
}

// seat is a place for the figure of a gap and the end of its line.
type seat struct {
	at     Pt
	l      Lettering
	end    Pt
	knee   []Pt // where the line goes on to
	within bool
}

// gap draws one gap. Its figure stands in the gap where there is room, else
// beyond the rim; it keeps clear of outlines, grips and other words where it
// can.
func (p *planPainter) gap(from, to Pt, rim []Pt, dx, dy float64, text string) {
	seats := p.seats(from, to, rim, dx, dy, text)
	pick, least := seats[0], math.MaxInt
	for _, s := range seats {
		if n := p.harm(plateOf(p.s, s.at, text, s.l)); n < least {
			pick, least = s, n
		}
	}
	// A pale line below keeps the dark one legible on any resin.
	begin := from.Add(-dx*13, -dy*13)
	if pick.within {
		begin = from
	}
	line := Line(append([]Pt{begin, pick.end}, pick.knee...)...)
	p.line("halo", 3.5, Fade(p.p.Ground, 0.55), nil, line)
	p.dimensionLine(line)
	if pick.within {
		p.arrow(p.p.Dimension, from, -dx, -dy)
		p.arrow(p.p.Dimension, to, dx, dy)
	} else {
		p.arrow(p.p.Dimension, from, dx, dy)
		p.arrow(p.p.Dimension, to, -dx, -dy)
	}
	p.taken = append(p.taken, p.plated(pick.at, text, pick.l, Fade(p.p.Ground, 0.88)))
}

// seats gives the places for a gap's figure, the best first.
func (p *planPainter) seats(from, to Pt, rim []Pt, dx, dy float64, text string) []seat {
	l := p.figure(Middle)
	w := p.s.Measure(text, l)
	var seats []seat
	mid := from.Lerp(to, 0.5)
	if from.To(to) >= w+14 {
		for _, side := range [2]float64{1, -1} {
			s := seat{l: l, end: to, within: true}
			if dx != 0 {
				s.at = Pt{mid.X, mid.Y + figures*0.36 - side*(textAbove+figures*0.6)}
			} else {
				s.l.Up = true
				s.at = Pt{mid.X + figures*0.36 - side*(textAbove+figures*0.6), mid.Y}
			}
			seats = append(seats, s)
		}
	}
	out := to
	if r, ok := ray(from, dx, dy, rim, false); ok {
		out = r
	}
	for i, far := range [6]float64{16, 22, 32, 46, 62, 80} {
		if i == 2 {
			seats = append(seats, inward(from, to, dx, dy, p.figure(Start))...)
		}
		end := out.Add(dx*far, dy*far)
		switch {
		case dx < 0:
			seats = append(seats, seat{at: end.Add(-5, figures*0.36), l: p.figure(End), end: end})
		case dx > 0:
			seats = append(seats, seat{at: end.Add(5, figures*0.36), l: p.figure(Start), end: end})
		default:
			foot := end.Y + figures*0.36 - dy*figures*0.3
			seats = append(seats,
				seat{at: Pt{end.X + 6, foot}, l: p.figure(Start), end: end},
				seat{at: Pt{end.X - 6, foot}, l: p.figure(End), end: end},
				seat{at: Pt{end.X + 28, end.Y + figures*0.36}, l: p.figure(Start), end: end, knee: []Pt{end.Add(24, 0)}},
				seat{at: Pt{end.X - 28, end.Y + figures*0.36}, l: p.figure(End), end: end, knee: []Pt{end.Add(-24, 0)}})
		}
	}
	return seats
}

// inward gives the places for a gap's figure on the piece itself.
func inward(from, to Pt, dx, dy float64, l Lettering) []seat {
	end := to.Add(dx*13, dy*13)
	at := from.Add(-dx*17, -dy*17)
	if dx > 0 {
		l.Anchor = End
	}
	if dx != 0 {
		return []seat{
			{at: at.Add(0, figures*0.36), l: l, end: end},
			{at: at.Add(0, figures*0.36-8), l: l, end: end},
			{at: at.Add(0, figures*0.36+8), l: l, end: end},
		}
	}
	at.Y += figures*0.36 - dy*figures*0.3
	right, left := l, l
	left.Anchor = End
	return []seat{{at: at.Add(6, 0), l: right, end: end}, {at: at.Add(-6, 0), l: left, end: end}}
}

// harm tells how badly words in a box would be placed: 0 where they are clear
// of everything, little where an outline runs through them, much where they
// cover other words or leave the surface.
func (p *planPainter) harm(b Box) int {
	n := 0
	if p.isTaken(b) || !p.s.Bounds().Grown(-4).Holds(b) {
		n += 4
	}
	for _, r := range p.lines {
		if crossed(b, r) {
			return n + 1
		}
	}
	return n
}
