package model

import (
	"fmt"

	"meniscus/model/unit"
)

// SizeWords writes the finished size: length by width by thickness, or the
// diameter and the thickness of a circle.
func (t *TrimPlan) SizeWords(s unit.Style) string {
	write := func(l unit.Length) string { return s.Length(l) }
	if t.Length.Value <= 0 {
		return "nothing left"
	}
	if t.Shape == TrimCircle {
		return fmt.Sprintf("%s across, %s thick", write(t.Length.Value), write(t.Thickness.Value))
	}
	return fmt.Sprintf("%s × %s × %s", write(t.Length.Value), write(t.Width.Value), write(t.Thickness.Value))
}

// most gives the most that comes off any edge.
func (t *TrimPlan) most() unit.Length {
	l := unit.Length(0)
	for _, e := range t.Edges {
		l = max(l, e.Most)
	}
	return l
}

func (m *maker) trimLines(t *TrimPlan) []WorkingInput {
	if t.Ring == nil {
		return []WorkingInput{line(LineFinishedSize, "nothing left", "less comes off the edges, or less off the faces").at("finish/trim/extra")}
	}
	length, width := "Length", "Width"
	list := []WorkingInput{
		line(LineFinishedSize, t.SizeWords(m.p.Style), "the narrowest section between the two finished faces").at("finish/trim/shape"),
	}
	if t.Shape == TrimCircle {
		length = "Diameter"
	}
	list = append(list, line(length, m.between(t.Length), "5 to 95 % by how well the mold was measured").at("mold/length"))
	if t.Shape != TrimCircle {
		list = append(list, line(width, m.between(t.Width), "5 to 95 % by how well the mold was measured").at("mold/width"))
	}
	list = append(list, line("Thickness", m.between(t.Thickness), "5 to 95 %").at("finish/thickness"))
	if t.Draft > 5e-6 {
		list = append(list, line("The lean of the walls", m.fine(t.Draft)+" on each edge",
			fmt.Sprintf("%s over the finished thickness", m.p.Style.Angle(max(m.plan.Mold.Draft, -m.plan.Mold.Draft)))).at("mold/draft/angle"))
	} else {
		list = append(list, line("The lean of the walls", "none", "the walls were measured as upright").at("mold/draft/kind"))
	}
	if d := t.Turn.Degrees(); d != 0 {
		list = append(list, line("Turned", fmt.Sprintf("%.1f°", d), "from the length of the mold, anticlockwise").at("finish/trim/anyTurn"))
	}
	off := func(e TrimEdge) string {
		if e.Most-e.Least > 5e-6 {
			return fmt.Sprintf("%s to %s", m.fine(e.Least), m.fine(e.Most))
		}
		return m.fine(e.Most)
	}
	alike := true
	for _, e := range t.Edges {
		alike = alike && off(e) == off(t.Edges[0])
	}
	for _, e := range t.Edges {
		if alike {
			list = append(list, line("Off every edge", off(e), "at its least and its most over the thickness"))
			break
		}
		list = append(list, line("Off the "+e.Name+" edge", off(e), "at its least and its most over the thickness"))
	}
	list = append(list, line("Saw kerf", m.fine(t.Kerf.Value), orSource(t.Kerf)).at("finish/trim/kerf").standing(t.Kerf.Typical))
	list = append(list, line("Face", m.p.Style.Area(t.Area), fmt.Sprintf("edge %s long", m.tenth(t.Around))))
	list = append(list, line("Cut away", fmt.Sprintf("%.1f %%", 100*t.Lost), "of the casting between the two finished faces"))
	return list
}
