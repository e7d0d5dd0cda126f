package drawing

// Method is something that is measured, weighed or looked up, whose drawing shows how.
type Method uint8

// The methods.
const (
	MethodLayer   Method = iota // where the top of a layer is read
	MethodMix                   // a cup on the scale, alone and with each part
	MethodBottle                // a bottle on the scale, less an empty one
	MethodLeft                  // a cup that was poured out, less a clean one
	MethodWarmth                // where thermometers go in the shop and in the pour
	MethodCasting               // the thickness of a casting in five places
	MethodSheet                 // which lines of a data sheet to look up
)

// The sheet that methods are drawn on, in dp. Where there is other room they are drawn
// larger or smaller, with lettering of the same size, so that they need some room at
// least.
const (
	methodWide  = 400.0
	methodHigh  = 210.0
	methodGrows = 1.5 // times
	MethodWide  = 376.0
	MethodHigh  = 198.0
)

// methodPainter draws one method.
type methodPainter struct {
	drafter
	o Pt      // the corner of its sheet
	k float64 // how much larger it is drawn
}

// PaintMethod draws how something is measured, at the top of a surface, as large as it
// allows. Nothing in it is to scale.
func PaintMethod(s Surface, x Method, st Style) {
	b := s.Bounds()
	const slack = 1                                           // for the pixels of a screen that cuts a dp
	if b.W() < MethodWide-slack || b.H() < MethodHigh-slack { // its words would run into each other
		return
	}
	k := min(b.W()/methodWide, b.H()/methodHigh, methodGrows)
	m := methodPainter{newDrafter(s, st), Pt{b.Centre().X - k*methodWide/2, b.Min.Y}, k}
	switch x {
	case MethodLayer:
		m.layer()
	case MethodMix:
		m.mix()
	case MethodBottle:
		m.bottle()
	case MethodLeft:
		m.left()
	case MethodWarmth:
		m.warmth()
	case MethodCasting:
		m.casting()
	case MethodSheet:
		m.sheet()
	}
}

// at is a place of the sheet.
func (m *methodPainter) at(x, y float64) Pt { return m.o.Add(m.k*x, m.k*y) }

// box is an upright rectangle on the sheet.
func (m *methodPainter) box(x0, y0, x1, y1 float64) []Pt {
	return Box{m.at(x0, y0), m.at(x1, y1)}.Ring()
}

// ring places points of the sheet, each an x and a y.
func (m *methodPainter) ring(xy ...float64) []Pt {
	var list []Pt
	for i := 0; i+1 < len(xy); i += 2 {
		list = append(list, m.at(xy[i], xy[i+1]))
	}
	return list
}

// solid fills a ring and draws it round.
func (m *methodPainter) solid(name string, ring []Pt) {
	m.s.Fill(name, m.p.Panel, ring)
	m.line("outline", wide, m.p.Ink, nil, Loop(ring...))
}

// say writes what is to be measured.
func (m *methodPainter) say(x, y float64, a Anchor, text string) {
	m.s.Text(m.at(x, y), text, Lettering{Name: "dimension", Size: figures, Anchor: a, Colour: m.p.Ink})
}

// remark writes what to mind.
func (m *methodPainter) remark(x, y float64, a Anchor, text string) {
	m.s.Text(m.at(x, y), text, m.note(a))
}

// lead draws a line from words to what they are about, with an arrow at its end.
func (m *methodPainter) lead(xy ...float64) {
	p := m.ring(xy...)
	m.dimensionLine(Line(p...))
	tip, before := p[len(p)-1], p[len(p)-2]
	long := before.To(tip)
	m.arrow(m.p.Dimension, tip, (tip.X-before.X)/long, (tip.Y-before.Y)/long)
}

// hatched marks a liquid or what has set, so that two are told apart by the run of
// their lines.
func (m *methodPainter) hatched(ring []Pt, turn float64) {
	m.s.Fill("part", Fade(m.p.Resin, 0.24), ring)
	Hatch(m.s, Hatching{Name: "hatch", Pattern: Slanted, Spacing: 7, Angle: turn, Anchor: m.o, Width: fine, Colour: Fade(m.p.Ink, 0.4)}, ring)
}
