package drawing

// sheetLines are what to look up in a data sheet, in the order in which most give it.
var sheetLines = [...]string{
	"mixing ratio: by weight, and by volume",
	"density of A and of B, or of the mix",
	"working time: how warm, of how much",
	"deepest pour in one go",
	"next pour: from when, until when",
	"out of the mold, full cure: how warm",
}

// sheet draws a data sheet with the lines that are asked for marked and named.
func (m *methodPainter) sheet() {
	const left, top, right, foot, fold = 8.0, 6.0, 112.0, 204.0, 18.0
	m.solid("sheet", m.ring(left, top, right-fold, top, right, top+fold, right, foot, left, foot))
	m.line("outline", wide, m.p.Ink, nil, Line(m.ring(right-fold, top, right-fold, top+fold, right, top+fold)...))
	m.line("lines", 5, m.p.Ink, nil, Line(m.at(left+12, top+16), m.at(left+62, top+16)))
	for i, text := range sheetLines {
		y := top + 42 + 27*float64(i)
		m.line("lines", narrow, m.p.Faint, nil, Line(m.at(left+12, y-9), m.at(right-14, y-9)))
		m.line("looked up", 4, m.p.Ink, nil, Line(m.at(left+12, y), m.at(right-30-6*float64(i%3), y)))
		m.lead(136, y, right+5, y)
		m.say(142, y+4, Start, text)
	}
}
