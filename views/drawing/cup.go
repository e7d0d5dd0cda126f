package drawing

import (
	"math"

	"meniscus/model/unit"
)

// Cup is the maker's own measuring cup, cut through its middle, with the marks
// of one mix.
type Cup struct {
	Floor, Brim unit.Length // inside diameters
	Tall        unit.Length // inside, upright
	Marks       []CupMark   // from the lowest up
	Size        func(unit.Length) string
}

// CupMark is a level in a cup that a part is poured up to.
type CupMark struct {
	Part  string      // that stands below it, down to the mark before
	Tall  unit.Length // upright
	Words []string    // beside it, one line each
}

// Room around a cup in dp: below for its width, above for that of its brim.
const (
	cupBelow = 34.0
	cupAbove = 30.0
	cupWall  = 5.0
	cupLine  = 17.0 // from one line of words to the next
)

// cupPainter draws one cup.
type cupPainter struct {
	drafter
	c    Cup
	k    float64 // dp to a metre
	foot Pt      // the middle of its floor
}

// PaintCup draws a cup at its true proportions, as large as the surface allows,
// with the words of its marks to the right of it. What stands below each mark is
// hatched its own way and named, so that the parts are told apart without their
// colours.
func PaintCup(s Surface, c Cup, st Style) {
	if !(c.Floor > 0) || !(c.Tall > 0) {
		return
	}
	p := cupPainter{drafter: newDrafter(s, st), c: c}
	b := s.Bounds()
	words := 0.0
	for _, m := range c.Marks {
		for i, text := range m.Words {
			words = max(words, s.Measure(text, p.words(i)))
		}
	}
	widest := float64(max(c.Floor, c.Brim))
	room := b.W() - words - 4*cupWall - 44
	p.k = min(max(40, room)/widest, (b.H()-cupBelow-cupAbove)/float64(c.Tall))
	p.foot = Pt{b.Min.X + 2*cupWall + p.k*widest/2, b.Max.Y - cupBelow}
	p.fillings()
	p.walls()
	p.sizes()
	p.marks()
}

// words is the lettering of a line beside a mark: the first stands out.
func (p *cupPainter) words(line int) Lettering {
	if line == 0 {
		return Lettering{Name: "mark", Size: title, Bold: true, Colour: p.p.Ink}
	}
	return Lettering{Name: "mark", Size: figures, Colour: p.p.Ink}
}

// at is a place on the wall, at a height; side is -1 for the left one.
func (p *cupPainter) at(h unit.Length, side float64) Pt {
	r := float64(p.c.Floor)/2 + h.Per(p.c.Tall)*float64(p.c.Brim-p.c.Floor)/2
	return p.foot.Add(side*r*p.k, -float64(h)*p.k)
}

// fillings hatches what stands between the marks, the first one way and the next
// the other.
func (p *cupPainter) fillings() {
	low := unit.Length(0)
	for i, m := range p.c.Marks {
		ring := []Pt{p.at(low, -1), p.at(m.Tall, -1), p.at(m.Tall, 1), p.at(low, 1)}
		p.s.Fill("part", Fade(p.p.Resin, 0.30-0.14*float64(i%2)), ring)
		Hatch(p.s, Hatching{Name: "hatch", Pattern: Slanted, Spacing: 7 + 3*float64(i%2), Angle: math.Pi/4 - float64(i%2)*math.Pi/2, Anchor: p.foot, Width: fine, Colour: Fade(p.p.Ink, 0.45)}, ring)
		middle := p.at((low+m.Tall)/2, 0)
		if float64(m.Tall-low)*p.k > title+6 {
			p.plated(middle.Add(0, title*0.35), m.Part, Lettering{Name: "part", Size: title, Bold: true, Anchor: Middle, Colour: p.p.Ink}, p.p.Panel)
		}
		low = m.Tall
	}
}

// walls draws the cup itself.
func (p *cupPainter) walls() {
	p.line("outline", cupWall, p.p.Ink, nil, Line(p.at(p.c.Tall, -1).Add(-cupWall/2, 0), p.at(0, -1).Add(-cupWall/2, cupWall/2), p.at(0, 1).Add(cupWall/2, cupWall/2), p.at(p.c.Tall, 1).Add(cupWall/2, 0)))
}

// sizes writes the cup's own sizes, so that it is known for the one that was
// measured.
func (p *cupPainter) sizes() {
	n := p.note(Middle)
	p.s.Text(p.at(0, 0).Add(0, cupWall+title+4), p.c.Size(p.c.Floor), n)
	above, words := p.at(p.c.Tall, 0).Add(0, -10), p.c.Size(p.c.Brim)+", "+p.c.Size(p.c.Tall)+" tall"
	above.X = max(above.X, p.s.Bounds().Min.X+p.s.Measure(words, n)/2+2) // of a narrow cup
	p.s.Text(above, words, n)
}

// marks draws the lines to pour up to, each with its words: the last one solid
// and the others dashed.
func (p *cupPainter) marks() {
	b := p.s.Bounds()
	high := 0
	var want []float64
	for i := len(p.c.Marks) - 1; i >= 0; i-- { // downwards, as the places rise
		want = append(want, p.at(p.c.Marks[i].Tall, 1).Y)
		high = max(high, len(p.c.Marks[i].Words))
	}
	tall := cupLine * float64(high)
	places := spread(want, tall+8, b.Min.Y+tall/2+4, b.Max.Y-tall/2-4)
	x := p.foot.X + p.k*float64(max(p.c.Floor, p.c.Brim))/2 + 2*cupWall + 26
	for i, m := range p.c.Marks {
		dash := dashed
		if i == len(p.c.Marks)-1 {
			dash = nil
		}
		l, r := p.at(m.Tall, -1), p.at(m.Tall, 1)
		p.line("mark", wide, p.p.Accent, dash, Line(l, r))
		y := places[len(places)-1-i]
		p.line("leader", narrow, p.p.Dimension, nil, Line(r.Add(cupWall+2, 0), Pt{x - 10, y}, Pt{x - 4, y}))
		top := y - tall/2 + title*0.9
		for j, text := range m.Words {
			p.s.Text(Pt{x, top + cupLine*float64(j)}, text, p.words(j))
		}
	}
}
