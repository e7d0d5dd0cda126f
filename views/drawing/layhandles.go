package drawing

import (
	"meniscus/model"
)

// Handles gives the grips of the cavity.
func (c LayScene) Handles(box Box, v View) []Handle { return c.grips(box, v, Change{}) }

func (c LayScene) grips(box Box, v View, ch Change) []Handle {
	lay := c.lay(ch)
	if !c.Style.Live || lay == nil || len(lay.Rim) == 0 {
		return nil
	}
	l := c.place(ch)
	at := v.ToScreen(layMiddle(l))
	ends := model.PieceDrawing{Centre: layMiddle(l), Turn: l.Turn, Top: lay.Rim[0]}
	return []Handle{
		{Kind: MovePiece, ID: l.ID, At: at},
		{Kind: TurnPiece, ID: l.ID, At: turnGrip(&ends, box, v), Pivot: at},
	}
}

// Hit gives the lay-up where its cavity is touched.
func (c LayScene) Hit(at Pt, v View) string {
	if lay := c.lay(Change{}); lay != nil {
		p := layPainter{c: c, v: v}
		if inside(at, p.rings(lay.Rim)...) {
			return c.Cut.ID
		}
	}
	return ""
}

// handles draws the grips.
func (p *layPainter) handles(ch Change) {
	q := planPainter{drafter: p.drafter}
	for _, h := range p.c.grips(p.s.Bounds(), p.v, ch) {
		q.handle(h.At, ch.Kind == h.Kind)
		if h.Kind == MovePiece {
			q.crossArrows(h.At)
			continue
		}
		q.line("handle", narrow, p.p.Accent, dashed, Line(h.Pivot.Lerp(h.At, 16/max(16, h.Pivot.To(h.At))), h.At.Lerp(h.Pivot, 13/max(13, h.Pivot.To(h.At)))))
		q.turnArrow(h.At)
	}
}

// key says what the lines mean, at the foot.
func (p *layPainter) key(walls bool) {
	type sign struct {
		words string
		width float64
		dash  []float64
		paint func(a, b Pt)
	}
	list := []sign{{words: "live edge", width: narrow * 1.2, dash: liveEdge}}
	if walls {
		list = append(list, sign{words: "cut", width: wide * 1.3})
	}
	if p.c.Kerf > 0 {
		list = append(list, sign{words: "kerf", width: 5})
	}
	const sample, gap = 34.0, 16.0
	b := p.s.Bounds()
	l := p.note(Start)
	x, y := b.Max.X-16, b.Max.Y-14
	for i := len(list) - 1; i >= 0; i-- {
		s := list[i]
		x -= p.s.Measure(s.words, l)
		if x-sample-8 < b.Min.X+230 {
			return // the scale bar's room
		}
		p.s.Text(Pt{x, y}, s.words, l)
		from := Pt{x - sample - 6, y - 4}
		c := p.p.Ink
		if s.words == "kerf" {
			c = kerfOf(p.p)
		}
		p.line(s.words, s.width, c, s.dash, Line(from, from.Add(sample, 0)))
		x = from.X - gap
	}
}

// figures writes what the lay-up gives along the upper edge, as many figures as
// there is room for beside the buttons.
func (p *layPainter) figures(lay *model.LayPlan) {
	if p.c.Tell == nil {
		return
	}
	b := p.s.Bounds()
	x := b.Min.X + 10
	room := buttonBox(Closer, b).Min.X - 10
	name, value := p.note(Start), Lettering{Name: "figure", Size: title + 1, Bold: true, Colour: p.p.Ink}
	for _, f := range p.c.Tell(lay) {
		w := max(p.s.Measure(f.Name, name), p.s.Measure(f.Value, value)) + 20
		if x+w > room {
			return
		}
		box := Box{Pt{x, b.Min.Y + 8}, Pt{x + w, b.Min.Y + 8 + Target}}
		p.s.Fill("plate", Fade(p.p.Panel, 0.94), rounded(box, 6))
		p.s.Text(box.Min.Add(10, 17), f.Name, name)
		p.s.Text(box.Min.Add(10, 36), f.Value, value)
		x += w + 8
	}
}
