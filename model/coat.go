package model

import (
	"cmp"
	"fmt"

	"meniscus/model/unit"
)

// What a coat usually takes on 1 m², and how many are usual (common practice, no
// source); the first coat on bare wood takes more and later ones less.
var typicalCoat = map[CoatKind]struct {
	spread typical[unit.Volume]
	count  int
}{
	CoatOil:     {typical[unit.Volume]{40e-6, 20e-6, 80e-6}, 3},
	CoatHardwax: {typical[unit.Volume]{30e-6, 20e-6, 50e-6}, 2},
	CoatWax:     {typical[unit.Volume]{10e-6, 5e-6, 20e-6}, 1},
	CoatVarnish: {typical[unit.Volume]{80e-6, 60e-6, 120e-6}, 3},
}

// coatPlan works out the area and what the coats take.
func (m *maker) coatPlan() CoatPlan {
	f := &m.p.Finish.Coat
	t := &m.plan.Finish.Trim
	p := CoatPlan{Kind: f.Kind, Volume: Known[unit.Volume]{Absent: true}, Mass: Known[unit.Mass]{Absent: true}}
	usual, coats := typicalCoat[f.Kind]
	p.Lustre = lustre(f.Kind, m.p.Finish.Sand.Want, m.p.Finish.Sand.Series)
	if !coats || t.Ring == nil {
		p.Lines = m.coatLines(&p)
		return p
	}
	top, under := 1.0, 1.0
	if f.Where == CoatWood {
		top, under = m.woodShare(t.High), m.woodShare(t.Low)
	}
	edges := t.Around.By(max(0, t.High-t.Low)).Times((top + under) / 2)
	p.Area = (t.Area.Times(top+under) + edges).Times(float64(m.p.Mold.Cavities()))
	p.Count = cmp.Or(f.Count, usual.count)
	square := p.Area.Per(unit.SquareMetre) * float64(p.Count)
	if !f.Weighs.Given() || f.Spread.Given() {
		k := taken(f.Spread, usual.spread)
		p.Volume = Known[unit.Volume]{Value: k.Value.Times(square), Low: k.Low.Times(square), High: k.High.Times(square), Typical: k.Typical, Source: k.Source}
		p.Each = p.Volume.Value.Times(1 / float64(p.Count))
	}
	if f.Weighs.Given() {
		mass := f.Weighs.Value.Times(square)
		p.Mass = Known[unit.Mass]{Value: mass, Low: mass, High: mass, Source: "yours"}
	}
	p.Lines = m.coatLines(&p)
	return p
}

// woodShare is the part of a face at a height that is wood.
func (m *maker) woodShare(z unit.Length) float64 {
	all := m.fillNow.cavity.AreaAt(z).Times(float64(m.fillNow.count))
	if all <= 0 {
		return 0
	}
	return max(0, min(1, 1-m.fillNow.Surface(z).Per(all)))
}

// dulls tells whether a coat takes the lustre of polished resin away.
func (c CoatKind) dulls() bool { return c == CoatOil || c == CoatHardwax || c == CoatVarnish }

// lustre tells what a coat does to the shine of the resin, in the marks of a
// series.
func lustre(c CoatKind, want SurfaceKind, series GritSeries) string {
	if want != SurfaceClear {
		switch c {
		case CoatOil, CoatHardwax:
			return "Over resin that is sanded matt it fills the scratches and evens the sheen; wipe off all that does not soak in, since resin takes none."
		case CoatVarnish:
			return "It gives wood and resin one sheen. It holds on resin only where that is sanded matt."
		}
		return "Resin stays as matt as its last grit left it."
	}
	switch c {
	case CoatOil, CoatHardwax:
		return "Over polished resin it dries to a dull, greasy film that shows every wipe: put it on the wood, and buff it off the resin before it sets. Where it has dulled already, wipe it off with a soft cloth, wet it with P3000 and polish again: the shine comes back."
	case CoatVarnish:
		return "Over polished resin it hardly holds, and a matt one hides the depth: leave the resin bare, or sand it to " + string(endOf(SurfaceSilk, series).Mark) + " and choose a gloss. To bring bare resin back, wet it with P3000 and polish again."
	case CoatWax:
		return "A thin wax does not dull polished resin, but it hides fine scratches only until it wears."
	}
	return "The shine is the polish alone. Fine scratches come later with use; wet with P3000 and polish brings it back."
}

func (m *maker) coatLines(p *CoatPlan) []WorkingInput {
	f := &m.p.Finish.Coat
	if p.Kind == "" {
		return []WorkingInput{line("Finish coat", "not chosen", "choose what goes on last").at("finish/coat/kind")}
	}
	name := string(p.Kind)
	if f.Name != "" {
		name = f.Name + ", " + name
	}
	list := []WorkingInput{line("Finish coat", name, "yours").at("finish/coat/kind")}
	if p.Area > 0 {
		where := cmp.Or(f.Where, CoatAll)
		list = append(list, line("Area", m.p.Style.Area(p.Area), string(where)+", both faces and the edges"+m.ofPieces()).at("finish/coat/where"),
			line("Coats", itoa(p.Count), coatsFrom(f)).at("finish/coat/count").standing(f.Count == 0))
	}
	if !p.Volume.Absent {
		list = append(list, line("All coats take", bandWords(p.Volume, m.p.Style.Volume), orSource(p.Volume)).at("finish/coat/spread").standing(p.Volume.Typical),
			line("Each coat", m.p.Style.Volume(p.Each), "of equal coats"))
	}
	if !p.Mass.Absent {
		list = append(list, line("By weight", m.p.Style.Mass(p.Mass.Value), p.Mass.Source).at("finish/coat/weighs"))
	}
	return append(list, line(LineOnResin, p.Lustre, commonPractice))
}

func coatsFrom(f *Coat) string {
	if f.Count > 0 {
		return "yours"
	}
	return fmt.Sprintf("usual for %s, %s", f.Kind, commonPractice)
}
