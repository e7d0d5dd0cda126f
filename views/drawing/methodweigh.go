package drawing

import "math"

// The places on a scale of a method, from its middle and from the bench that it stands on.
const (
	scaleHalf = 56.0
	scaleTall = 30.0
	panTop    = scaleTall + 6
)

// scale draws a scale on the bench at height y, with what it reads.
func (m *methodPainter) scale(x, y float64, reads string) {
	m.solid("scale", m.ring(x-scaleHalf, y, x-scaleHalf+8, y-scaleTall, x+scaleHalf-8, y-scaleTall, x+scaleHalf, y))
	m.line("pan", 3, m.p.Ink, nil, Line(m.at(x-34, y-panTop+1), m.at(x+34, y-panTop+1)))
	m.line("pan", narrow, m.p.Ink, nil, Line(m.at(x, y-scaleTall), m.at(x, y-panTop)))
	m.say(x, y-10, Middle, reads)
}

// cup draws a cup that stands at height y, with what is in it from the bottom up, each
// up to a share of its height.
func (m *methodPainter) cup(x, y float64, parts ...cupPart) {
	const tall, foot, brim = 62.0, 20.0, 27.0
	half := func(share float64) float64 { return foot + (brim-foot)*share }
	low := 0.0
	for i, p := range parts {
		a, b := half(low), half(p.to)
		m.hatched(m.ring(x-a, y-tall*low, x-b, y-tall*p.to, x+b, y-tall*p.to, x+a, y-tall*low), math.Pi/4-float64(i)*math.Pi/2)
		if p.name != "" {
			m.plated(m.at(x, y-tall*(low+p.to)/2).Add(0, 5), p.name, Lettering{Name: "part", Size: figures, Bold: true, Anchor: Middle, Colour: m.p.Ink}, m.p.Panel)
		}
		low = p.to
	}
	m.line("outline", wide, m.p.Ink, nil, Line(m.ring(x-brim, y-tall, x-foot, y, x+foot, y, x+brim, y-tall)...))
}

// cupPart is what stands in a cup.
type cupPart struct {
	name string
	to   float64 // the share of the cup's height that it comes up to
}

// poured marks what is poured into a cup that stands at height y.
func (m *methodPainter) poured(x, y float64, part string) {
	m.say(x, y-92, Middle, part)
	m.lead(x, y-88, x, y-68)
}

// mix draws one cup three times: alone, with A, and with A and B.
func (m *methodPainter) mix() {
	const bench = 160.0
	a, b := cupPart{"A", 0.42}, cupPart{"B", 0.78}
	for i, x := range [3]float64{66, 200, 334} {
		m.scale(x, bench, [3]string{"cup", "cup + A", "cup + A + B"}[i])
		m.cup(x, bench-panTop, [3][]cupPart{nil, {a}, {a, b}}[i]...)
		m.say(x, bench+19, Middle, [3]string{"1  empty, dry", "2  read with A", "3  read with B"}[i])
	}
	m.poured(200, bench-panTop, "A, resin")
	m.poured(334, bench-panTop, "B, hardener")
	m.bench(bench, 0, 400)
	m.remark(200, bench+43, Middle, "The same cup each time, and no zeroing in between.")
}

// bench draws the top that things stand on.
func (m *methodPainter) bench(y, from, to float64) {
	m.line("bench", wide, m.p.Ink, nil, Line(m.at(from, y), m.at(to, y)))
}

// lessThan draws two scales beside each other and what the first reads more.
func (m *methodPainter) lessThan(bench float64, reads, less, is string) {
	m.scale(70, bench, reads)
	m.scale(212, bench, less)
	m.bench(bench, 0, 282)
	sign := Lettering{Name: "sign", Size: 24, Anchor: Middle, Colour: m.p.Ink}
	m.s.Text(m.at(141, bench-50), "−", sign)
	m.s.Text(m.at(296, bench-50), "=", sign)
	m.say(310, bench-52, Start, is)
}

// bottle draws a bottle as it is, less an empty one.
func (m *methodPainter) bottle() {
	const bench = 166.0
	m.lessThan(bench, "it reads", "empty, it reads", "what is in it")
	for i, x := range [2]float64{70, 212} {
		foot := bench - panTop
		body := m.ring(x-24, foot, x-24, foot-62, x-11, foot-78, x-11, foot-88, x+11, foot-88, x+11, foot-78, x+24, foot-62, x+24, foot)
		m.s.Fill("bottle", m.p.Panel, body)
		if i == 0 {
			m.hatched(m.box(x-24, foot-48, x+24, foot), math.Pi/4)
			m.solid("label", m.box(x-17, foot-40, x+17, foot-12))
			m.line("label", narrow, m.p.Ink, nil, Line(m.at(x-12, foot-32), m.at(x+12, foot-32)), Line(m.at(x-12, foot-26), m.at(x+12, foot-26)), Line(m.at(x-12, foot-20), m.at(x+4, foot-20)))
		}
		m.line("outline", wide, m.p.Ink, nil, Loop(body...))
		m.solid("cap", m.box(x-13, foot-98, x+13, foot-88))
		m.say(x, bench+19, Middle, [2]string{"as it is, capped", "one like it, empty"}[i])
	}
	m.say(252, 32, Start, "label: lot, amount,")
	m.say(252, 48, Start, "good until")
	m.lead(248, 28, 130, 28, 87, bench-panTop-32)
	m.remark(141, bench+40, Middle, "Both with their caps.")
}

// left draws a cup that was poured out, less a clean one.
func (m *methodPainter) left() {
	const bench = 150.0
	m.lessThan(bench, "poured out", "clean", "what stayed")
	foot := bench - panTop
	m.cup(212, foot)
	film := m.ring(50, foot, 45, foot-44, 50, foot-44, 55, foot-6, 86, foot-6, 90, foot-34, 95, foot-34, 90, foot)
	m.s.Fill("film", mix(m.p.Ground, m.p.Resin, 0.8), film)
	m.line("film", narrow, m.p.Ink, nil, Loop(film...))
	m.cup(70, foot)
	m.say(104, 20, Start, "a film stays on wall and floor")
	m.lead(100, 16, 72, 16, 54, foot-18)
	m.remark(141, bench+19, Middle, "Scraped as ever, the stick in it both times.")
}
