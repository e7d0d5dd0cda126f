package drawing

import "math"

// layer draws a mold cut through, with a layer that has set and the pour above it.
func (m *methodPainter) layer() {
	const left, right, rim, floor, below, top = 76.0, 324.0, 40.0, 184.0, 132.0, 84.0
	const wall, creep = 10.0, 11.0
	m.s.Fill("wall", mix(m.p.Ground, m.p.Line, 0.6), m.ring(left-wall, rim, left, rim, left, floor, right, floor, right, rim, right+wall, rim, right+wall, floor+wall, left-wall, floor+wall))
	m.hatched(m.box(left, below, right, floor), math.Pi/4)
	pour := m.ring(left, below, left, top-creep, left+4, top-4, left+14, top, right-14, top, right-4, top-4, right, top-creep, right, below)
	m.hatched(pour, -math.Pi/4)
	m.line("outline", narrow, m.p.Ink, nil, Line(m.at(left, below), m.at(right, below)), Line(pour[1:len(pour)-1]...))
	m.line("outline", wide, m.p.Ink, nil, Line(m.ring(left, rim, left, floor, right, floor, right, rim)...))

	m.rule(200, rim+8, floor)
	name := Lettering{Name: "name", Size: figures, Anchor: Middle, Colour: m.p.Ink}
	m.plated(m.at(134, (below+top)/2).Add(0, 5), "this pour", name, m.p.Panel)
	m.plated(m.at(134, (below+floor)/2).Add(0, 5), "layer below", name, m.p.Panel)
	m.surfaceMark(m.at(258, top))
	m.upright(m.at(left-wall, top), m.at(left-wall, floor), m.at(left-wall-24, 0).X, "Level")
	m.upright(m.at(right+wall, top), m.at(right+wall, below), m.at(right+wall+26, 0).X, "Depth")
	m.say(4, 18, Start, "read it in the middle")
	m.lead(136, 18, 190, top-1)
	m.say(396, 18, End, "not at the wall: it creeps up")
	m.lead(300, 24, right-2, top-creep)
}

// rule draws a rule that stands upright about x.
func (m *methodPainter) rule(x, top, foot float64) {
	const half = 9.0
	ring := m.box(x-half, top, x+half, foot)
	m.s.Fill("rule", Fade(m.p.Panel, 0.9), ring)
	m.line("rule", narrow, m.p.Ink, nil, Loop(ring...))
	var ticks []Path
	for i := 1; foot-6*float64(i) > top+2; i++ {
		long := 5.0
		if i%5 == 0 {
			long = 9
		}
		y := foot - 6*float64(i)
		ticks = append(ticks, Line(m.at(x-half, y), m.at(x-half+long, y)))
	}
	m.line("rule", narrow, m.p.Ink, nil, ticks...)
}

// warmth draws the shop with the places of its thermometers.
func (m *methodPainter) warmth() {
	const bench, floor = 138.0, 102.0
	m.bench(bench, 16, 384)
	m.line("bench", wide, m.p.Ink, nil, Line(m.at(40, bench), m.at(40, bench+14)), Line(m.at(360, bench), m.at(360, bench+14)))

	m.sun(26, 26)
	m.say(50, 31, Start, "not in sun or draught")

	m.hatched(m.box(168, floor-2, 252, bench-6), math.Pi/4)
	m.line("outline", wide, m.p.Ink, nil, Line(m.ring(166, floor-14, 166, bench-5, 254, bench-5, 254, floor-14)...))
	m.line("probe", 3, m.p.Ink, nil, Line(m.at(268, 52), m.at(211, 116)))
	m.s.Fill("probe", m.p.Ink, circle(m.at(210, 117), 4.5, 20))
	m.say(396, 31, End, "probe: half way down,")
	m.say(396, 47, End, "in the middle")

	m.thermometer(104, floor-30, bench-6)
	m.line("level", narrow, m.p.Dimension, dashed, Line(m.at(116, floor+8), m.at(164, floor+8)))
	m.say(104, bench+30, Middle, "room: at the mold's height")
	m.solid("bottle", m.ring(306, bench-1, 306, bench-40, 314, bench-50, 330, bench-50, 338, bench-40, 338, bench-1))
	m.solid("strip", m.box(318, bench-36, 326, bench-8))
	m.line("strip", narrow, m.p.Ink, nil, Line(m.at(318, bench-29), m.at(326, bench-29)), Line(m.at(318, bench-22), m.at(326, bench-22)), Line(m.at(318, bench-15), m.at(326, bench-15)))
	m.say(322, bench+30, Middle, "bottles: a strip on each")
	m.remark(200, bench+58, Middle, "Night: the lowest that it kept, read in the morning.")
}

// thermometer draws one that stands upright about x.
func (m *methodPainter) thermometer(x, top, foot float64) {
	m.solid("thermometer", rounded(Box{m.at(x-5, top), m.at(x+5, foot-4)}, 5*m.k))
	m.s.Fill("thermometer", m.p.Ink, circle(m.at(x, foot-6), 7*m.k, 24))
	m.line("thermometer", 3, m.p.Ink, nil, Line(m.at(x, foot-8), m.at(x, top+26)))
}

// sun draws the sun, struck out.
func (m *methodPainter) sun(x, y float64) {
	m.line("sun", wide, m.p.Ink, nil, Loop(circle(m.at(x, y), 8*m.k, 24)...))
	for i := range 8 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 4)
		m.line("sun", wide, m.p.Ink, nil, Line(m.at(x+11*cos, y+11*sin), m.at(x+16*cos, y+16*sin)))
	}
	m.line("strike", 3, m.p.Stop, nil, Line(m.at(x-17, y+17), m.at(x+17, y-17)))
}

// casting draws a casting from above with its five places, and beside it how two of
// them are reached.
func (m *methodPainter) casting() {
	const left, top, right, foot = 14.0, 34.0, 186.0, 158.0
	ring := rounded(Box{m.at(left, top), m.at(right, foot)}, 14*m.k)
	m.solid("casting", ring)
	m.say((left+right)/2, 18, Middle, "five places, from above")
	for i, p := range [5]Pt{{left + 22, foot - 22}, {right - 22, foot - 22}, {right - 22, top + 22}, {left + 22, top + 22}, {(left + right) / 2, (top + foot) / 2}} {
		c := m.at(p.X, p.Y)
		m.line("place", wide, m.p.Ink, nil, Loop(circle(c, 12, 32)...))
		m.s.Text(c.Add(0, 5), [5]string{"A", "B", "C", "D", "M"}[i], Lettering{Name: "place", Size: figures, Bold: true, Anchor: Middle, Colour: m.p.Ink})
	}
	m.remark((left+right)/2, foot+18, Middle, "A: near left, then round")

	m.say(218, 18, Start, "A to D: a caliper")
	m.hatched(m.box(262, 44, 392, 66), math.Pi/4)
	m.line("outline", wide, m.p.Ink, nil, Line(m.ring(392, 44, 262, 44, 262, 66, 392, 66)...))
	m.solid("caliper", m.ring(228, 30, 296, 30, 296, 44, 242, 44, 242, 66, 296, 66, 296, 80, 228, 80))

	m.say(218, 112, Start, "M: straightedge on two")
	m.say(218, 128, Start, "blocks, down to the face")
	const table = 192.0
	m.bench(table, 210, 396)
	m.hatched(m.box(248, table-22, 358, table-1), math.Pi/4)
	m.line("outline", wide, m.p.Ink, nil, Loop(m.box(248, table-22, 358, table-1)...))
	for _, x := range [2]float64{220, 366} {
		m.solid("block", m.box(x, table-40, x+20, table-1))
	}
	m.solid("straightedge", m.box(216, table-47, 390, table-40))
	m.dimensionLine(Line(m.at(303, table-40), m.at(303, table-22)))
	m.arrow(m.p.Dimension, m.at(303, table-22), 0, 1)
	m.remark(303, table+15, Middle, "block less gap is the thickness")
}
