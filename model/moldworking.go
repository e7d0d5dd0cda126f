package model

import (
	"fmt"

	"meniscus/model/unit"
)

// SolidShare is the part of the room up to the fill line that wood and inserts take
// up together, from 0 to 1; 0 where nothing is planned.
func (pl *Plan) SolidShare() float64 {
	room := pl.roomToLine()
	if room <= 0 {
		return 0
	}
	return 1 - pl.Mold.Resin.Per(room)
}

// roomToLine is the room in all cavities from floor to fill line, or to the rim
// where the line is above it, with nothing in them.
func (pl *Plan) roomToLine() unit.Volume {
	f := pl.Drawing.Fill
	if f == nil || pl.Mold.FillLine <= 0 {
		return 0
	}
	return f.cavity.VolumeBelow(min(pl.Mold.FillLine, pl.Mold.Depth)).Times(float64(f.count))
}

// MoldWorking tells how the mold's capacity and, where a pour is planned, the resin
// to the fill line, the share of solids, what one more millimetre costs and the
// height left to the rim came about. False where the mold is not measured.
func (pl *Plan) MoldWorking(p *Project) (Working, bool) {
	m, s := &pl.Mold, p.Style
	if m.Capacity.Value <= 0 {
		return Working{}, false
	}
	w := Working{
		Title:   "What the mold holds",
		Formula: "The section of a cavity is summed up from floor to rim: its capacity.",
		Inputs:  p.moldSizeLines(),
		Source:  "closed forms of the cavity and the solids; sureness by the law of propagation of uncertainty (JCGM 100) from the ± of each instrument",
		Band:    fmt.Sprintf("The capacity is from %s to %s in 90 of 100 cases", s.Volume(m.Capacity.Low), s.Volume(m.Capacity.High)),
	}
	w.Inputs = append(w.Inputs,
		WorkingInput{Label: "Section of a cavity at the floor", Value: s.Area(m.FloorArea), Source: "from the sizes and how the walls lean", Field: "mold/draft/kind"},
		WorkingInput{Label: "Section of a cavity at the rim", Value: s.Area(m.RimArea), Source: "from the sizes and how the walls lean", Field: "mold/draft/kind"})
	if m.Count > 1 {
		w.Inputs = append(w.Inputs, WorkingInput{Label: "Equal cavities", Value: itoa(m.Count), Source: "as entered", Field: "mold/count"})
	}
	w.Inputs = append(w.Inputs, WorkingInput{Label: "Capacity to the rim", Value: s.Volume(m.Capacity.Value), Source: "with nothing in it"})
	room := pl.roomToLine()
	if room <= 0 || len(pl.Layers) == 0 {
		return w, true
	}
	top := &pl.Layers[len(pl.Layers)-1]
	w.Formula += " The same up to the fill line, less wood and inserts, is the resin; those over the room up to there are the solids. What lies between the line and a little higher, times the density, is what that costs. The depth less the height of the line is free."
	step, more := "millimetre", top.PerMM
	if s.LengthUnit() == unit.InInches {
		step, more = "sixteenth of an inch", top.PerGrain
	}
	wood := room.Times(m.WoodShare)
	for _, line := range []struct {
		label string
		v     unit.Volume
		said  string
	}{
		{"Room up to the fill line", room, "with nothing in it"},
		{"Wood up to there", wood, "as measured, its hollows taken out"},
		{"Inserts up to there", room - wood - m.Resin, "as measured, all of them"},
		{"Resin up to there", m.Resin, "the room less wood and inserts"},
	} {
		if line.v > unit.Millilitre/1000 {
			w.Inputs = append(w.Inputs, WorkingInput{Label: line.label, Value: s.Volume(line.v), Source: line.said})
		}
	}
	w.Inputs = append(w.Inputs,
		WorkingInput{Label: "Solids", Value: fmt.Sprintf("%.0f %%", 100*pl.SolidShare()), Source: "wood and inserts over the room"},
		WorkingInput{Label: "Surface of resin at the line", Value: s.Area(m.Surface), Source: "the section there, less what stands out of the resin"},
		WorkingInput{Label: "Density of the mix", Value: s.Density(top.Density.Value), Source: top.Density.Source, Typical: top.Density.Typical, Field: "sheets/" + top.Sheet + "/densityMixed"},
		WorkingInput{Label: "One more " + step, Value: s.Mass(more), Source: "what lies between the line and there, times the density"},
		WorkingInput{Label: "Height of the fill line", Value: s.Length(m.FillLine), Source: "the top of " + top.Name, Field: "layers/" + top.ID + "/to"},
		WorkingInput{Label: "Free to the rim", Value: s.Length(m.Freeboard), Source: "the depth less the height of the line"},
	)
	return w, true
}

// moldSizeLines lists the sizes that the mold was given.
func (p *Project) moldSizeLines() []WorkingInput {
	m := &p.Mold
	var list []WorkingInput
	at := "as measured, at the rim"
	if m.At == AtFloor {
		at = "as measured, at the floor"
	}
	add := func(label, field string, d unit.Dim, said string) {
		if d.Given() {
			list = append(list, WorkingInput{Label: label, Value: p.Style.Length(d.Value), Source: said, Field: "mold/" + field})
		}
	}
	switch m.Kind {
	case MoldRound:
		add("Diameter", "diameter", m.Diameter, at)
	case MoldPolygon:
		list = append(list, WorkingInput{Label: "Sides", Value: itoa(m.Sides), Source: "as entered", Field: "mold/sides"})
		add("Size across "+string(m.Across), "span", m.Span, at)
	case MoldOutline:
		list = append(list, WorkingInput{Label: "Corners of the outline", Value: itoa(len(m.Outline)), Source: at, Field: "mold/outline"})
	default:
		add("Length", "length", m.Length, at)
		add("Width", "width", m.Width, at)
		if m.Kind == MoldRectangle {
			add("Corner radius", "corner", m.Corner, at)
		}
	}
	add("Depth", "depth", m.Depth, "from rim to floor")
	return list
}

// Tightest gives the piece of wood that comes nearest to a wall, and the gap there;
// nil where no wood is measured.
func (pl *Plan) Tightest() (*PiecePlan, Gap) {
	var piece *PiecePlan
	var least Gap
	for i := range pl.Pieces {
		w := &pl.Pieces[i]
		for _, g := range []Gap{w.Fit.GapFloor, w.Fit.GapFill} {
			if piece == nil || g.Least < least.Least {
				piece, least = w, g
			}
		}
	}
	return piece, least
}

// GapWorking tells how the tightest gap between wood and wall came about; false
// where no wood is measured.
func (pl *Plan) GapWorking(p *Project) (Working, bool) {
	s := p.Style
	w, g := pl.Tightest()
	if w == nil {
		return Working{}, false
	}
	field := "pieces/" + w.ID + "/"
	x := Working{
		Title:   "The tightest gap",
		Formula: "Each piece's outline is held against the wall's at its underside and at the fill line, or at its top where that is lower. The least distance between the two is the gap.",
		Source:  "distance between two outlines, in any direction",
		Inputs: []WorkingInput{
			{Label: "Tightest piece", Value: w.Name, Source: "the least gap of all pieces", Field: field + "x"},
			{Label: "Height above the floor", Value: s.Length(g.Height), Source: "where it is least"},
			{Label: "Least gap", Value: s.Length(max(0, g.Least)), Source: "at " + s.Length(unit.Length(g.At.X)) + ", " + s.Length(unit.Length(g.At.Y)) + " from the middle"},
		},
	}
	for _, side := range []struct {
		label string
		gap   unit.Length
		field string
	}{{"Room to the left", g.Left, "x"}, {"Room to the right", g.Right, "x"}, {"Room on the near side", g.Near, "y"}, {"Room on the far side", g.Far, "y"}} {
		x.Inputs = append(x.Inputs, WorkingInput{Label: side.label, Value: s.Length(side.gap), Source: "between the farthest points of wood and wall", Field: field + side.field})
	}
	x.Inputs = append(x.Inputs, WorkingInput{Label: "Below this a sawn piece may not go in", Value: s.Length(LeastGap), Source: "how far a cut wanders; common practice, no source", Typical: true})
	x.Band = p.gapBand(field)
	return x, true
}

// gapBand says how sure a gap between the wall and the piece at a path is: to what
// either may be off by what it was measured with.
func (p *Project) gapBand(piece string) string {
	off := func(fields ...string) (unit.Length, string) {
		for _, f := range fields {
			if by, _, ok := Instrument(p, f); ok {
				if text, _ := Show(p, f); text != "" {
					return p.HalfWidth(by), p.Style.Length(p.HalfWidth(by))
				}
			}
		}
		return 0, "what its outline was traced to"
	}
	wall, w := off("mold/length", "mold/diameter", "mold/span")
	wood, d := off(piece+"width", piece+"stations/0")
	words := fmt.Sprintf("The wall may be off by %s, the wood by %s", w, d)
	if wall > 0 && wood > 0 {
		words += ", so the gap by up to " + p.Style.Length(wall+wood)
	}
	return words + ". Where the wood lies is as it was placed in the drawing"
}

// LeakWorking tells how much a pour would lose until it gels came about; false
// where no seam that it wets is measured.
func (pl *Plan) LeakWorking(p *Project, layer string) (Working, bool) {
	s, l := p.Style, pl.Layer(layer)
	for i := range pl.Leaks.Pours {
		k := &pl.Leaks.Pours[i]
		if k.Layer != layer || l == nil || k.Hour <= 0 {
			continue
		}
		sheet := "sheets/" + l.Sheet
		w := Working{
			Title:   "What " + k.Name + " loses by the seams",
			Formula: "Through a seam goes, in each second, length · gap³ · pressure/(12 · viscosity · way). That times the time until the resin gels, but never more than stands above the seam.",
			Source:  "flow between two plates (White, Fluid Mechanics; from memory). It stays as thin as mixed here, which is the careful bound",
		}
		for j := range k.Seams {
			leak := &k.Seams[j]
			at := p.seam(leak.ID)
			if leak.State != SeamWet || at == nil {
				continue
			}
			field := "mold/hold/seams/" + leak.ID + "/"
			w.Inputs = append(w.Inputs,
				WorkingInput{Label: "Gap of " + at.Name, Value: s.Length(at.Gap.Value), Source: "as measured", Field: field + "gap"},
				WorkingInput{Label: "Its length", Value: s.Length(leak.Long), Source: givenOr(at.Long, "not given: all round the cavities"), Field: field + "long"},
				WorkingInput{Label: "Way through it", Value: s.Length(leak.Way), Source: givenOr(at.Way, "not given: the floor's thickness"), Field: field + "way"},
				WorkingInput{Label: "Pressure there", Value: s.Pressure(leak.Press), Source: s.Length(l.Top-at.Height.Value) + " of this pour above it, times the density and g", Field: field + "height"},
				WorkingInput{Label: "In an hour", Value: s.Volume(leak.Hour.Over(l.Density.Value)) + ", " + s.Mass(leak.Hour), Source: "as thin as poured"})
		}
		w.Inputs = append(w.Inputs,
			WorkingInput{Label: "Viscosity as poured", Value: s.Viscosity(k.Viscosity.Value), Source: k.Viscosity.Source, Typical: k.Viscosity.Typical, Field: sheet + "/viscosity"},
			WorkingInput{Label: "Density of the mix", Value: s.Density(l.Density.Value), Source: l.Density.Source, Typical: l.Density.Typical, Field: sheet + "/densityMixed"})
		if !k.ByGel.Absent {
			w.Inputs = append(w.Inputs,
				WorkingInput{Label: "Time until it gels", Value: s.Span(k.Gel.Value), Source: k.Gel.Source, Typical: k.Gel.Typical, Field: sheet + "/gel"},
				WorkingInput{Label: "Lost until then", Value: s.Volume(k.ByGel.Value.Over(l.Density.Value)) + ", " + s.Mass(k.ByGel.Value), Source: "all seams together, at most"})
			w.Band = "From " + s.Mass(k.ByGel.Low) + " to " + s.Mass(k.ByGel.High) + ", by the bands of viscosity and gel time"
		} else {
			w.Band = "How much in all is not known, since the time until it gels is not; it goes with the cube of the gap: one that is a tenth wider loses a third more"
		}
		return w, true
	}
	return Working{}, false
}

// seam looks a seam of the mold up; nil where there is none of that ID.
func (p *Project) seam(id string) *Seam {
	for i := range p.Mold.Hold.Seams {
		if s := &p.Mold.Hold.Seams[i]; s.ID == id {
			return s
		}
	}
	return nil
}

// givenOr says whether a length was measured, or what stands in for it.
func givenOr(d unit.Dim, otherwise string) string {
	if d.Given() {
		return "as measured"
	}
	return otherwise
}

// SagWorking tells how far the floor sinks came about, or, where no supports are
// given, how far apart they may be; false where the floor bears nothing.
func (pl *Plan) SagWorking(p *Project) (Working, bool) {
	k, s := pl.Mold.Sag, p.Style
	if k == nil || !k.Bears {
		return Working{}, false
	}
	area := pl.Mold.FloorArea.Times(float64(pl.Mold.Count))
	w := Working{
		Title:   "How far the floor sinks",
		Formula: "A plate that only rests on two supports sinks in the middle by 5 q L⁴/(384 E I), I = t³/12 for each metre of width: q the load on it, L between the supports, E its stiffness, t its thickness. A floor that goes on over several supports sinks less.",
		Source:  "the beam of every handbook of strength (from memory)",
		Inputs: []WorkingInput{
			{Label: "Resin, wood and inserts on the floor", Value: s.Load(k.Mass), Source: "all pours, with what lies in them"},
			{Label: "Floor", Value: s.Area(area), Source: "of all cavities, by the mold's sizes"},
			{Label: "Load, spread over the floor", Value: s.Pressure(k.Load), Source: "the weight over the floor"},
			{Label: "Stiffness of the floor", Value: s.Pressure(k.Stiff.Value), Source: k.Stiff.Source, Typical: k.Stiff.Typical, Field: "mold/floor"},
			{Label: "Thickness of the floor", Value: s.Length(k.Thick.Value), Source: k.Thick.Source, Typical: k.Thick.Typical, Field: "mold/thick"},
		},
	}
	if k.Spacing > 0 {
		w.Inputs = append(w.Inputs,
			WorkingInput{Label: "Between the supports", Value: s.Length(k.Spacing), Source: "as measured", Field: "mold/hold/spacing"},
			WorkingInput{Label: "It sinks by", Value: s.Length(k.Sinks.Value), Source: "by the formula above"})
		w.Band = "From " + s.Length(k.Sinks.Low) + " to " + s.Length(k.Sinks.High) + ", by the bands of stiffness and thickness"
	}
	if w.Band == "" {
		w.Band = "The distance is from " + SpacingWords(s, k.Most.Low) + " to " + SpacingWords(s, k.Most.High) + ", by the bands of stiffness and thickness"
	}
	w.Inputs = append(w.Inputs,
		WorkingInput{Label: "It may sink by", Value: s.Length(k.Allowed), Source: "common practice, no source; never more than is taken off below", Typical: k.Allowed == mostSag, Field: "finish/bottom"},
		WorkingInput{Label: "Largest distance between supports for that", Value: SpacingWords(s, k.Most.Value), Source: "the formula the other way round"})
	return w, true
}

// HoldWorking tells how what has to be held down in a pour came about, thing by
// thing: all wood that it lifts, or, with the path of one piece or kind of insert,
// that alone. False where nothing is to be held down.
func (pl *Plan) HoldWorking(p *Project, layer, field string) (Working, bool) {
	s, l := p.Style, pl.Layer(layer)
	k := p.LayerIndex(layer)
	if l == nil || k == none {
		return Working{}, false
	}
	w := Working{
		Title:   "What to hold down in " + l.Name,
		Formula: "What the resin pushes aside times its density, less the thing's own mass, is what lifts it, at the level where that is greatest. It is held down with twice as much. Where it is only just not lifted, with twice what would lift it were all poured at once or the wood lighter by 15 %.",
		Source:  "Archimedes; that it is twice is common practice, no source",
		Band:    "No band is worked out: that it is twice is there for what weights, density and sizes may be off by",
	}
	hold := unit.Force(0)
	for i := range pl.Float.Things {
		t := &pl.Float.Things[i]
		if k >= len(t.Pours) || field == "" && t.Insert || field != "" && t.Field != field {
			continue
		}
		in := &t.Pours[k]
		if in.Hold <= 0 || l.Density.Value <= 0 {
			continue
		}
		own, said := p.ownWeight(t)
		aside := (in.Lift.Mass() + t.Mass).Over(l.Density.Value)
		w.Inputs = append(w.Inputs,
			WorkingInput{Label: upperFirst(t.Name) + " weighs", Value: s.Load(t.Mass), Source: said, Field: own},
			WorkingInput{Label: "Resin that it pushes aside", Value: s.Volume(aside), Source: "at the level where it is lifted most"},
			WorkingInput{Label: "It is lifted by", Value: s.Load(in.Lift.Mass()), Source: "what is pushed aside times the density, less what it weighs"},
			WorkingInput{Label: "To hold it down with", Value: s.Load(in.Hold.Mass()), Source: holdSaid(in)})
		hold += in.Hold
	}
	if hold <= 0 {
		return Working{}, false
	}
	w.Inputs = append(w.Inputs,
		WorkingInput{Label: "Density of the mix", Value: s.Density(l.Density.Value), Source: l.Density.Source, Typical: l.Density.Typical, Field: "sheets/" + l.Sheet + "/densityMixed"},
		WorkingInput{Label: "In all", Value: s.Load(hold.Mass()) + ", " + s.Force(hold), Source: "everything above, added up"})
	return w, true
}

// holdSaid says what is doubled to hold a thing down.
func holdSaid(in *FloatIn) string {
	if in.Lifts {
		return "twice what lifts it"
	}
	return "it is only just not lifted: twice what would"
}

// ownWeight gives the path of what a thing's weight follows from, and says how.
func (p *Project) ownWeight(t *FloatThing) (field, said string) {
	weighed, name := false, "/weight"
	if w := p.Piece(t.ID); w != nil && !t.Insert {
		weighed = w.Weight.Given()
	} else {
		name = "/mass"
		for i := range p.Inserts {
			weighed = weighed || p.Inserts[i].ID == t.ID && p.Inserts[i].Mass.Given()
		}
	}
	if weighed {
		return t.Field + name, "as weighed"
	}
	return t.Field + "/density", "its density times its volume"
}
