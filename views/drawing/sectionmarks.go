package drawing

import (
	"strings"

	"meniscus/model/unit"
)

// chain draws the depths of the layers and the freeboard as a chain of
// dimensions to the left, and the depth of the mold beyond it.
func (p *sectionPainter) chain() {
	in := p.inner()
	marks := p.c.levels()
	left := BoxOf(in...).Min.X - band
	x := left - 20
	type piece struct {
		name   string
		lo, hi float64
	}
	var pieces []piece
	for _, m := range marks {
		pieces = append(pieces, piece{m.name, m.below, m.level})
	}
	top := p.d.FillLine
	if len(marks) > 0 {
		top = marks[len(marks)-1].level
	}
	if p.d.Depth > top+1e-9 {
		name := "Freeboard"
		if len(marks) == 0 {
			name = "Depth"
		}
		pieces = append(pieces, piece{name, top, p.d.Depth})
	}
	if len(pieces) == 0 {
		return
	}
	floor := p.place(0, 0).Y
	// From the top down, as the surface runs.
	var want []float64
	for i := len(pieces) - 1; i >= 0; i-- {
		want = append(want, (p.place(0, pieces[i].lo).Y+p.place(0, pieces[i].hi).Y)/2)
	}
	b := p.s.Bounds()
	room := b.H() - 80
	each := 33.0
	if each*float64(len(pieces)) > room {
		each = 17 // a name goes beside its figure
	}
	at := spread(want, each, b.Min.Y+40, b.Max.Y-40)
	ticks := []Path{Line(Pt{left - extensionGap, floor}, Pt{x - extensionOver, floor})}
	for i := range pieces {
		q := pieces[len(pieces)-1-i]
		lo, hi := Pt{x, p.place(0, q.lo).Y}, Pt{x, p.place(0, q.hi).Y}
		l, _ := p.across(q.hi)
		ticks = append(ticks, Line(Pt{min(l.X, left) - extensionGap, hi.Y}, Pt{x - extensionOver, hi.Y}))
		p.dimensionLine(Line(hi, lo))
		if lo.Y-hi.Y >= arrowsInside {
			p.arrowsIn(hi, lo, 0, 1)
		} else {
			// A chain too tight for arrows is closed by dots (ISO 129-1, 5.4).
			p.s.Fill("arrow", p.p.Dimension, circle(hi, 2.2, 16))
			p.s.Fill("arrow", p.p.Dimension, circle(lo, 2.2, 16))
		}
		switch figure := p.st.Length(unit.Length(q.hi - q.lo)); {
		case each*float64(len(pieces)) > room: // no room for any
		case each < 33:
			p.chainLabel(x, want[i], at[i], "", q.name+" "+figure)
		default:
			p.chainLabel(x, want[i], at[i], q.name, figure)
		}
	}
	p.dimensionLine(ticks...)
	if far := x - 130; len(pieces) > 1 && far > b.Min.X+18 {
		p.upright(Pt{left, p.place(0, p.d.Depth).Y}, Pt{left, floor}, far, p.st.Length(unit.Length(p.d.Depth)))
	}
}

// chainLabel writes one depth and its name beside the chain, with a bent
// leader where it stands aside of its place.
func (p *sectionPainter) chainLabel(x, want, at float64, name, figure string) {
	end := x - 9
	if d := at - want; d > 3 || d < -3 {
		p.line("leader", narrow, p.p.Dimension, nil, Line(Pt{x, want}, Pt{x - 9, at}, Pt{x - 14, at}))
		end = x - 17
	}
	room := end - p.s.Bounds().Min.X - 8
	if room > 112 {
		room = 112
	}
	l := p.figure(End)
	if name == "" {
		p.s.Text(Pt{end, at + figures*0.36}, shortened(p.s, figure, l, room), l)
		return
	}
	p.s.Text(Pt{end, at - 2}, figure, l)
	n := p.note(End)
	p.s.Text(Pt{end, at + 12}, shortened(p.s, name, n, room), n)
}

// fillLine marks the surface and says where it is.
func (p *sectionPainter) fillLine() {
	if p.d.FillLine <= 0 {
		return
	}
	l, r := p.across(p.d.FillLine)
	at := p.openWater(l, r)
	p.surfaceMark(at)
	if p.c.Heat != nil {
		return
	}
	text := "Fill line " + p.st.Length(unit.Length(p.d.FillLine)) + " from floor · "
	if down := p.d.Depth - p.d.FillLine; down >= 0 {
		text += p.st.Length(unit.Length(down)) + " down from rim"
	} else {
		text += p.st.Length(unit.Length(-down)) + " above the rim"
	}
	f := Lettering{Name: "fill line", Size: title, Anchor: Start, Colour: p.p.Ink}
	w := p.s.Measure(text, f)
	if b := p.s.Bounds(); p.c.Style.Live && w > b.W()-buttonsWide-16 {
		text, _, _ = strings.Cut(text, " · ") // the freeboard stands among the heights as well
		w = p.s.Measure(text, f)
	}
	mark := at.Add(0, -11)
	at = p.fillNote(mark, w)
	p.s.Text(at, text, f)
	// The leader runs along under the words and straight down to the mark.
	under := Pt{min(at.X, mark.X), at.Y + 6}
	p.line("leader", narrow, p.p.Dimension, nil, Line(under, Pt{max(at.X+w, mark.X), under.Y}), Line(Pt{mark.X, under.Y}, mark))
}

// buttonsWide is the room that the buttons of a live drawing take at its right.
const buttonsWide = 180.0

// fillNote gives where the words on the fill line, w wide, begin: straight above
// its mark where the mold is wide enough for them, else in the upper corner.
func (p *sectionPainter) fillNote(mark Pt, w float64) Pt {
	b := p.s.Bounds()
	corner := Pt{b.Min.X + 16, b.Min.Y + 30}
	if p.c.Style.Live && corner.X+w > b.Max.X-buttonsWide {
		corner.Y = b.Min.Y + 72 // below the buttons
	}
	in := BoxOf(p.inner()...)
	top := in.Min.Y
	for _, piece := range p.d.Pieces {
		for _, part := range piece.Parts {
			if ring := p.v.Ring(part); len(ring) > 0 {
				top = min(top, BoxOf(ring...).Min.Y)
			}
		}
	}
	from, to := in.Min.X-band, in.Max.X+band
	y := min(top, mark.Y) - 20
	if p.c.Style.Live && y < b.Min.Y+72 {
		to = min(to, b.Max.X-buttonsWide) // the buttons stand beside it
	}
	if w <= to-from && y > b.Min.Y+24 {
		return Pt{min(max(mark.X-w/2, from), to-w), y}
	}
	return corner
}

// openWater gives a place on a level that no wood hides, right of the middle
// where there is one.
func (p *sectionPainter) openWater(l, r Pt) Pt {
	best, place := -1.0, l.Lerp(r, 0.62)
	p.outside(l, r, func(a, b Pt) {
		w := min(b.X-a.X, 60)
		if w >= best {
			best, place = w, Pt{min(max(l.Lerp(r, 0.62).X, a.X+w/2), b.X-w/2), l.Y}
		}
	})
	return place
}

// foot draws the scale and the section's letters.
func (p *sectionPainter) foot() {
	p.scaleFoot()
	words := Lettering{Name: "section", Size: title, Bold: true, Anchor: Middle, Colour: p.p.Ink}
	in := BoxOf(p.inner()...)
	if p.c.Heat == nil {
		p.s.Text(Pt{in.Centre().X, in.Max.Y + band + 22}, "A – A", words)
	}
}

// scaleFoot draws the scale bar and says when heights are stretched.
func (p *sectionPainter) scaleFoot() {
	b := p.s.Bounds()
	at := Pt{b.Min.X + 16, b.Max.Y - 14}
	k := stretch(p.v)
	after := ""
	if k > 1.01 {
		after = " across"
	}
	bar := p.scaleBar(at, p.v.X, after)
	if k > 1.01 {
		n := p.note(Start)
		n.Colour = p.p.Ink
		p.s.Text(Pt{bar.Max.X + 22, at.Y}, "heights drawn ×"+trimmed(k, 1), n)
	}
}
