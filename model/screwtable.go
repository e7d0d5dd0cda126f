package model

import (
	"math"

	"meniscus/model/unit"
)

// Screw is one size of screw with its holes.
type Screw struct {
	Size   ScrewSize
	Metric bool        // inch and metric threads never fit each other
	Wood   bool        // a wood screw, which cuts its own thread
	Thick  unit.Length // basic major diameter
	Pitch  unit.Length // 0 for a wood screw
	Tap    unit.Length // drill for the thread that takes it; a wood screw's pilot in hardwood
	Close  unit.Length // clearance holes
	Normal unit.Length
	Loose  unit.Length
	Nut    unit.Length // height of a usual hexagon nut
	Source string
}

// Head is the size of a screw's head.
type Head struct {
	Size   ScrewSize
	Kind   HeadKind
	Wide   unit.Length // largest diameter as made
	Sharp  unit.Length // flat: the diameter to which its cone runs out, by which it is sunk
	High   unit.Length // largest height
	Angle  float64     // flat: of its cone, degrees
	Source string
}

const (
	screwsInch   = "basic diameters of ASME B1.1; clearance ASME B18.2.8, normal fit as printed in Machinery's Handbook 31, close and loose from memory"
	screwsMetric = "ISO 68 and 724; clearance ISO 273, by a published table"
	screwsWood   = "ANSI/ASME B18.6.1 diameters; the root about two thirds of it, the pilot 90 % of the root in hardwood (Wood Handbook, as a civil engineering text has it)"
	headsInch    = "ASME B18.6.3, by published tables"
	headsMemory  = "ASME B18.6.3; the sharp diameter from memory"
	headsPan     = "ISO 7045, by a published table"
	headsFlat    = "ISO 7046, by a published table; the sharp diameter of ISO 7721 from memory"
	headsWood    = "as the machine screw of the same number, from memory"
)

// numbered gives the basic diameter of a numbered screw: 0.060 in and 0.013 in
// more for each number (ASME B1.1).
func numbered(n int) unit.Length { return unit.Length(0.060+0.013*float64(n)) * unit.Inch }

// inchScrew writes a numbered machine screw: threads to the inch, drill for 75 %
// of a thread, and the three clearance holes in inches.
func inchScrew(n, threads int, tap, closeFit, normal, loose, nut float64) Screw {
	return Screw{ScrewSize("#" + itoa(n) + "-" + itoa(threads)), false, false, numbered(n), unit.Inch.Times(1 / float64(threads)),
		unit.Length(tap) * unit.Inch, unit.Length(closeFit) * unit.Inch, unit.Length(normal) * unit.Inch, unit.Length(loose) * unit.Inch, unit.Length(nut) * unit.Inch, screwsInch}
}

// metricScrew writes a metric screw in millimetres.
func metricScrew(d, pitch, tap, closeFit, normal, loose, nut float64) Screw {
	const mm = unit.Millimetre
	return Screw{ScrewSize("M" + trimZeros(unit.Style{}.Number(unit.Number(d)))), true, false, unit.Length(d) * mm, unit.Length(pitch) * mm,
		unit.Length(tap) * mm, unit.Length(closeFit) * mm, unit.Length(normal) * mm, unit.Length(loose) * mm, unit.Length(nut) * mm, screwsMetric}
}

// rootPart and pilotPart make the pilot hole of a wood screw in hardwood.
const (
	rootPart  = 2.0 / 3
	pilotPart = 0.9
)

// woodScrew writes a numbered wood screw; its shank passes the clearance hole of
// the machine screw of the same number.
func woodScrew(n int, closeFit, normal, loose float64) Screw {
	d := numbered(n)
	return Screw{ScrewSize("#" + itoa(n) + " wood screw"), false, true, d, 0, d.Times(rootPart * pilotPart),
		unit.Length(closeFit) * unit.Inch, unit.Length(normal) * unit.Inch, unit.Length(loose) * unit.Inch, 0, screwsWood}
}

// screwTable holds the screws. Nuts are ANSI/ASME B18.6.3 machine screw nuts and
// ISO 4032 (values from memory).
var screwTable = []Screw{
	inchScrew(6, 32, .1065, .153, .170, .190, .114),
	inchScrew(8, 32, .136, .180, .196, .213, .130),
	inchScrew(10, 24, .1495, .206, .221, .238, .130),
	inchScrew(10, 32, .159, .206, .221, .238, .130),
	metricScrew(3, 0.5, 2.5, 3.2, 3.4, 3.6, 2.4),
	metricScrew(4, 0.7, 3.3, 4.3, 4.5, 4.8, 3.2),
	metricScrew(5, 0.8, 4.2, 5.3, 5.5, 5.8, 4.7),
	metricScrew(6, 1.0, 5.0, 6.4, 6.6, 7.0, 5.2),
	woodScrew(6, .153, .170, .190),
	woodScrew(8, .180, .196, .213),
	woodScrew(10, .206, .221, .238),
}

// headTable holds the heads: for each its largest diameter, height, and for a
// flat one the diameter to which its cone runs out. A flat head as made is
// rounded at the rim; sunk by that diameter its hole would be too shallow (for a
// #8 by a quarter), so the countersink goes by the sharp one.
var headTable = append(append(
	inchHeads(6, 8, 10), metricHeads()...), woodHeads(6, 8, 10)...)

// inchHeads gives the heads of numbered machine screws, cross recessed; with a
// square recess and a slot a pan head is up to 0.006 in higher, and the truss
// head of a #10 0.010 in.
func inchHeads(numbers ...int) []Head {
	rows := map[int][]Head{
		6: {
			inchHead(HeadPan, .270, 0, .097, 0), inchHead(HeadTruss, .321, 0, .086, 0), inchHead(HeadFlat82, .262, .279, .083, 82), inchHead(HeadFlat100, .262, 0, .060, 100),
		},
		8: {
			inchHead(HeadPan, .322, 0, .115, 0), inchHead(HeadTruss, .384, 0, .102, 0), inchHead(HeadFlat82, .312, .332, .100, 82), inchHead(HeadFlat100, .312, 0, .072, 100),
		},
		10: {
			inchHead(HeadPan, .373, 0, .133, 0), inchHead(HeadTruss, .448, 0, .118, 0), inchHead(HeadFlat82, .362, .385, .116, 82), inchHead(HeadFlat100, .362, 0, .083, 100),
		},
	}
	var list []Head
	for _, s := range screwTable {
		for _, n := range numbers {
			if s.Metric || s.Wood || s.Thick != numbered(n) {
				continue
			}
			for _, h := range rows[n] {
				h.Size = s.Size
				if h.Kind == HeadFlat100 {
					h.Sharp = sharpFor(s.Thick, h.High, h.Angle)
				}
				list = append(list, h)
			}
		}
	}
	return list
}

func inchHead(kind HeadKind, wide, sharp, high, angle float64) Head {
	source := headsInch
	if angle == 82 {
		source = headsMemory
	}
	return Head{"", kind, unit.Length(wide) * unit.Inch, unit.Length(sharp) * unit.Inch, unit.Length(high) * unit.Inch, angle, source}
}

func metricHeads() []Head {
	var list []Head
	for _, r := range []struct {
		size                            ScrewSize
		pan, panHigh, flat, sharp, high float64
	}{
		{"M3", 5.6, 2.4, 5.5, 6.3, 1.65}, {"M4", 8.0, 3.1, 8.4, 9.4, 2.7}, {"M5", 9.5, 3.7, 9.3, 10.4, 2.7}, {"M6", 12, 4.6, 11.3, 12.6, 3.3},
	} {
		const mm = unit.Millimetre
		list = append(list,
			Head{r.size, HeadPan, unit.Length(r.pan) * mm, 0, unit.Length(r.panHigh) * mm, 0, headsPan},
			Head{r.size, HeadFlat90, unit.Length(r.flat) * mm, unit.Length(r.sharp) * mm, unit.Length(r.high) * mm, 90, headsFlat})
	}
	return list
}

// woodHeads gives wood screws the pan and flat heads of the machine screws of
// their number.
func woodHeads(numbers ...int) []Head {
	var list []Head
	for _, n := range numbers {
		done := map[HeadKind]bool{}
		for _, h := range inchHeads(n) {
			if (h.Kind == HeadPan || h.Kind == HeadFlat82) && !done[h.Kind] {
				done[h.Kind] = true
				h.Size, h.Source = ScrewSize("#"+itoa(n)+" wood screw"), headsWood
				list = append(list, h)
			}
		}
	}
	return list
}

// sharpFor gives the diameter to which the cone of a flat head runs out: its
// thread and twice the height times the tangent of half the angle.
func sharpFor(thick, high unit.Length, angle float64) unit.Length {
	return thick + high.Times(2*math.Tan(angle/2*math.Pi/180))
}

// ScrewOf finds a screw by its size; false where the table does not have it.
func ScrewOf(size ScrewSize) (Screw, bool) {
	for _, s := range screwTable {
		if s.Size == size {
			return s, true
		}
	}
	return Screw{}, false
}

// HeadOf finds the head of a screw; false where it is not made so.
func HeadOf(size ScrewSize, kind HeadKind) (Head, bool) {
	for _, h := range headTable {
		if h.Size == size && h.Kind == kind {
			return h, true
		}
	}
	return Head{}, false
}

// HeadsOf lists the heads that a screw is made with.
func HeadsOf(size ScrewSize) []HeadKind {
	var list []HeadKind
	for _, h := range headTable {
		if h.Size == size {
			list = append(list, h.Kind)
		}
	}
	return list
}

// Flat tells whether a head is flat, so that its length counts the head.
func (h Head) Flat() bool { return h.Angle > 0 }

func screwSizes() []string {
	list := make([]string, len(screwTable))
	for i, s := range screwTable {
		list[i] = string(s.Size)
	}
	return list
}

// screwLengths gives the lengths that a screw is sold in: ASME B18.6.3 in
// inches, ISO 888 in millimetres (values from memory).
func screwLengths(s Screw) []unit.Length {
	var list []unit.Length
	if s.Metric {
		for _, l := range []float64{5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 70, 80} {
			list = append(list, unit.Length(l)*unit.Millimetre)
		}
		return list
	}
	for _, l := range []float64{1. / 4, 5. / 16, 3. / 8, 7. / 16, 1. / 2, 5. / 8, 3. / 4, 7. / 8, 1, 1.125, 1.25, 1.375, 1.5, 1.75, 2, 2.25, 2.5, 2.75, 3} {
		if s.Wood && l < 3./8 {
			continue
		}
		list = append(list, unit.Length(l)*unit.Inch)
	}
	return list
}
