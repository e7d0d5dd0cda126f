package model

import (
	"cmp"
	"fmt"
	"math"

	"meniscus/model/unit"
)

// What one pass takes at most (common practice, no source): little where there
// is resin, which chips, melts and pulls, and more on wood alone.
var typicalPass = map[ToolKind]struct{ resin, wood typical[unit.Length] }{
	ToolRouter: {typical[unit.Length]{0.5e-3, 0.3e-3, 1e-3}, typical[unit.Length]{1.5e-3, 1e-3, 3e-3}},
	ToolPlaner: {typical[unit.Length]{0.4e-3, 0.2e-3, 0.8e-3}, typical[unit.Length]{1e-3, 0.5e-3, 1.5e-3}},
	ToolHand:   {typical[unit.Length]{0.05e-3, 0.02e-3, 0.1e-3}, typical[unit.Length]{0.1e-3, 0.05e-3, 0.2e-3}},
	ToolBelt:   {typical[unit.Length]{0.15e-3, 0.1e-3, 0.3e-3}, typical[unit.Length]{0.3e-3, 0.2e-3, 0.5e-3}},
	ToolSaw:    {typical[unit.Length]{2e-3, 1e-3, 4e-3}, typical[unit.Length]{3e-3, 1e-3, 6e-3}},
}

// flattensBy gives the tool that makes the faces flat.
func (f *Finish) flattensBy() ToolKind { return cmp.Or(f.Flatten.Tool, ToolRouter) }

// passDepths gives the deepest pass of a tool with resin and on wood.
func (f *Finish) passDepths() (resin, wood Known[unit.Length]) {
	t, ok := typicalPass[f.flattensBy()]
	if !ok {
		t = typicalPass[ToolRouter]
	}
	return taken(f.Flatten.Resin, t.resin), taken(f.Flatten.Wood, t.wood)
}

// MeasureBlank makes room for the thickness at the four corners and in the
// middle, or drops it.
func (p *Project) MeasureBlank(on bool) {
	p.Finish.Flatten.Points = nil
	if on {
		p.Finish.Flatten.Points = make([]unit.Dim, len(moldCorners)+1)
	}
}

// BlankPoint names the place that a thickness of Flatten.Points is of.
func BlankPoint(i int) (name, where string) {
	if i == len(moldCorners) {
		return "M", "middle"
	}
	return CornerName(i)
}

// blank is the casting before its faces are touched, and where they end up.
type blank struct {
	measured    bool
	thin, thick unit.Length // of the casting
	proud       unit.Length // that wood stands above the thickest place
	tallest     string      // the name of that wood
	by          unit.Instrument
	top, under  unit.Length // that is to come off each face at the least, sanding with it
	low, high   unit.Length // the finished faces, above the mold's floor
	promised    unit.Length
	best        unit.Length // thickness that can still be reached
}

func (b *blank) reached() unit.Length { return b.high - b.low }

// blank works out the thickness of the casting, as measured or as planned, and
// where its faces will be. What is to come off is what the maker said, and no
// less than what sanding takes by itself. A thickness that was promised is kept
// where the thinnest place has as much to spare.
func (m *maker) blank() *blank {
	f := &m.p.Finish
	b := &blank{
		top:      max(f.Top.Value, m.plan.Finish.Sand.Top),
		under:    max(f.Bottom.Value, m.plan.Finish.Sand.Under),
		promised: f.Thickness.Value,
	}
	if f.flattensBy() == ToolNone {
		b.top, b.under = m.plan.Finish.Sand.Top, m.plan.Finish.Sand.Under
	}
	for _, d := range f.Flatten.Points {
		switch {
		case !d.Given():
		case !b.measured:
			b.measured, b.thin, b.thick, b.by = true, d.Value, d.Value, d.By
		default:
			b.thin, b.thick = min(b.thin, d.Value), max(b.thick, d.Value)
		}
	}
	middle := m.plan.Mold.FillLine - m.plan.Mold.Sink
	if !b.measured {
		b.thin, b.thick = middle, middle
		if t := m.plan.Mold.Tilt; t != nil {
			b.thin, b.thick = middle-t.Wedge/2, middle+t.Wedge/2
		}
	}
	for i := range m.plan.Pieces {
		if w := &m.plan.Pieces[i]; w.Bottom < m.plan.Mold.FillLine && w.Top-b.thick > b.proud+1e-6 {
			b.proud, b.tallest = w.Top-b.thick, cmp.Or(w.Name, "wood")
		}
	}
	want := middle - b.top - b.under
	if b.measured {
		want = b.thin - b.top - b.under
	}
	if b.promised > 0 {
		want = b.promised
	}
	b.best = max(0, b.thin-m.plan.Finish.Sand.Top-b.under)
	b.low = b.under
	b.high = b.low + max(0, min(want, b.best))
	return b
}

// woodAbove names the passes that take wood down to where the resin begins.
const woodAbove = "wood above the resin"

// flattenPlan counts the passes, the top first: on it the casting was free, so
// that it carries the wedge, the sink and wood that stands higher than the resin,
// while the underside took its form from the mold's floor.
func (m *maker) flattenPlan(b *blank) FlattenPlan {
	f, sand := &m.p.Finish, &m.plan.Finish.Sand
	p := FlattenPlan{
		Tool: f.flattensBy(), Measured: b.measured, Thinnest: b.thin, Thickest: b.thick, Promised: b.promised, Proud: b.proud, Tallest: b.tallest,
		Reached: b.reached(), Leave: b.reached() + sand.Top + sand.Under, Least: f.MinCover.Or(typicalMinCover),
	}
	if b.promised > 0 {
		p.Short = max(0, b.promised-p.Reached)
	}
	resin, wood := f.passDepths()
	if p.Tool != ToolNone {
		// The top is cut down to the finished thickness with both faces' sanding and
		// the underside's cut still on it; the underside then down to Leave.
		under := max(0, b.under-sand.Under)
		stop := p.Leave + under
		if b.proud > 0 {
			p.Faces = append(p.Faces, m.passes(woodAbove, 0, b.proud, false, resin, wood))
		}
		p.Faces = append(p.Faces,
			m.passes("top", b.thin-stop, b.thick-stop, m.showsResin(b.high), resin, wood),
			m.passes("underside", under, under, m.showsResin(b.low), resin, wood))
	}
	for i := range m.plan.Inserts {
		if s := &m.plan.Inserts[i]; m.insert[i] != none && s.Count > 0 {
			c := CoverLeft{Insert: s.ID, Name: s.Name, Over: b.high - s.Top, Under: s.Bottom - b.low}
			c.Fine = c.Over >= p.Least-1e-9 && c.Under >= -1e-9
			p.Cover = append(p.Cover, c)
		}
	}
	p.Lines = m.flattenLines(&p, resin, wood)
	return p
}

// showsResin tells whether a face at a height shows resin anywhere.
func (m *maker) showsResin(z unit.Length) bool { return m.fillNow.Surface(z) > 0 }

// passes counts how often a face has to be gone over.
func (m *maker) passes(face string, thin, thick unit.Length, hasResin bool, resin, wood Known[unit.Length]) FacePasses {
	p := FacePasses{Face: face, Thin: max(0, thin), Thick: max(0, thick), Resin: hasResin, Deep: wood.Value}
	if hasResin {
		p.Deep = min(resin.Value, wood.Value)
	}
	p.Passes, p.Each = passesFor(p.Thick, p.Deep)
	return p
}

// passesFor gives the fewest passes, none deeper than the deepest, that take so
// much off, and how deep they are when all are alike.
func passesFor(off, deepest unit.Length) (passes int, each unit.Length) {
	if off <= 1e-9 || deepest <= 0 {
		return 0, 0
	}
	const most = 100000
	n := min(most, max(1, math.Ceil(off.Per(deepest)-1e-9)))
	return int(n), off.Times(1 / n)
}

func (m *maker) flattenLines(p *FlattenPlan, resin, wood Known[unit.Length]) []WorkingInput {
	var list []WorkingInput
	from, field := "fill line less the sink and half the wedge of a bench out of level", "finish/flatten/points/0"
	if p.Measured {
		from = "as measured"
	}
	blank := m.tenth(p.Thinnest)
	if p.Thickest > p.Thinnest+1e-5 {
		blank = fmt.Sprintf("%s to %s", m.tenth(p.Thinnest), m.tenth(p.Thickest))
	}
	list = append(list, line("The casting is thick", blank, from).at(field))
	if p.Proud > 0 {
		list = append(list, line("Its highest place is wood", m.tenth(p.Thickest+p.Proud), fmt.Sprintf("%s stands %s above the thickest resin, by its height and thickness in the mold", p.Tallest, m.fine(p.Proud))))
	}
	if p.Tool == ToolNone {
		list = append(list, line("Flattened", "no, as cast", "yours").at("finish/flatten/tool"))
	} else {
		list = append(list,
			line("Deepest pass with resin", m.fine(resin.Value), orSource(resin)).at("finish/flatten/resin").standing(resin.Typical),
			line("Deepest pass on wood alone", m.fine(wood.Value), orSource(wood)).at("finish/flatten/wood").standing(wood.Typical))
	}
	for i, f := range p.Faces {
		what := fmt.Sprintf("%d. The %s", i+1, f.Face)
		if f.Passes == 0 {
			list = append(list, line(what, "no pass, the sanding is enough", "nothing more is to come off"))
			continue
		}
		words := "passes"
		if f.Passes == 1 {
			words = "pass"
		}
		off := m.fine(f.Thick)
		if f.Face == woodAbove {
			off += ", on wood alone"
		} else if f.Thin < f.Thick-1e-5 {
			off = fmt.Sprintf("%s at the thickest place, %s at the thinnest", m.fine(f.Thick), m.fine(f.Thin))
		}
		list = append(list, line(what, fmt.Sprintf("%d %s of %s", f.Passes, words, m.fine(f.Each)), off))
	}
	list = append(list, line("Stop flattening at", m.tenth(p.Leave), "finished thickness and what sanding takes"))
	reached := "flattened and sanded"
	if p.Short > 0 {
		reached = fmt.Sprintf("%s short of what was promised", m.fine(p.Short))
	}
	list = append(list, line("Finished thickness", m.tenth(p.Reached), reached).at("finish/thickness"))
	for _, c := range p.Cover {
		list = append(list, line("Over "+c.Name, m.tenth(c.Over), fmt.Sprintf("at least %s is wanted", m.tenth(p.Least))).at("inserts/"+c.Insert))
	}
	return list
}
