package drawing

// Button is one of the buttons at the edge of a drawing.
type Button uint8

// The buttons. NoButton is none of them.
const (
	NoButton Button = iota
	Closer
	Farther
	Whole
)

// Where the buttons stand: in a row at the top right.
const (
	buttonApart = 8.0
	buttonEdge  = 8.0
)

// buttonBox gives the place of a button.
func buttonBox(b Button, bounds Box) Box {
	n := float64(Whole - b)
	right := bounds.Max.X - buttonEdge - n*(Target+buttonApart)
	top := bounds.Min.Y + buttonEdge
	return Box{Pt{right - Target, top}, Pt{right, top + Target}}
}

// buttonAt gives the button at a place.
func buttonAt(p Pt, bounds Box) Button {
	for _, b := range [3]Button{Closer, Farther, Whole} {
		if buttonBox(b, bounds).Contains(p) {
			return b
		}
	}
	return NoButton
}

// paintButtons draws the buttons.
func paintButtons(d drafter) {
	for _, b := range [3]Button{Closer, Farther, Whole} {
		box := buttonBox(b, d.s.Bounds())
		ring := rounded(box.Grown(-1), 8)
		d.s.Fill("button", Fade(d.p.Panel, 0.92), ring)
		d.line("button", narrow, Fade(d.p.Accent, 0.9), nil, Loop(ring...))
		m := box.Centre()
		switch b {
		case Closer:
			d.line("button", wide, d.p.Ink, nil, Line(m.Add(-8, 0), m.Add(8, 0)), Line(m.Add(0, -8), m.Add(0, -1)), Line(m.Add(0, 1), m.Add(0, 8)))
		case Farther:
			d.line("button", wide, d.p.Ink, nil, Line(m.Add(-8, 0), m.Add(8, 0)))
		case Whole:
			d.s.Text(m.Add(0, title*0.36), "Fit", Lettering{Name: "button", Size: title, Anchor: Middle, Colour: d.p.Ink})
		}
	}
}
