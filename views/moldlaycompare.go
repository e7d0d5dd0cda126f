package views

import (
	"slices"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// layMeasure is a figure that lay-ups are compared by.
type layMeasure struct {
	name string
	best string // says what is best of it
	less bool   // the least is best; else the most
	of   func(*model.LayPlan) float64
	say  func(*model.LayPlan, unit.Style) string // nothing for an area
}

// said writes a figure of several lay-ups; areas all in one unit.
func (m *layMeasure) said(list []model.LayPlan, s unit.Style) []string {
	words, areas := make([]string, len(list)), make([]unit.Area, len(list))
	for i := range list {
		if areas[i] = unit.Area(m.of(&list[i])); m.say != nil {
			words[i] = m.say(&list[i], s)
		}
	}
	if m.say == nil {
		return s.Areas(areas...)
	}
	return words
}

// layMeasures are the figures that lay-ups are compared by.
var layMeasures = []layMeasure{
	{"Resin", "least", true, func(l *model.LayPlan) float64 { return float64(l.Resin) }, layResin},
	{"Wood in the cavity", "most", false, func(l *model.LayPlan) float64 { return l.Share }, func(l *model.LayPlan, _ unit.Style) string { return layShare(l.Share) }},
	{"The blank", "largest", false, func(l *model.LayPlan) float64 { return float64(l.Area) }, nil},
	{"Live edge in the resin", "most", false, func(l *model.LayPlan) float64 { return float64(l.Live) }, func(l *model.LayPlan, s unit.Style) string { return layLength(l.Live, s) }},
	{"Left of the slab", "most", false, func(l *model.LayPlan) float64 { return float64(l.Left) }, nil},
	{"Length of saw cut", "shortest", true, func(l *model.LayPlan) float64 { return float64(l.Cut) }, func(l *model.LayPlan, s unit.Style) string { return layLength(l.Cut, s) }},
}

// compareCard holds the lay-ups of a slab beside each other, figure by figure.
func (v *layView) compareCard(m *moldPane) fyne.CanvasObject {
	rows := moldRows()
	for _, of := range layMeasures {
		rows.Add(touch.Labelled(of.name, m.facts(func(shot *app.Snapshot) []moldFact { return v.compared(shot, of) })))
	}
	return touch.NewCard("Compared", rows)
}

// compared is one figure of every lay-up; those that show the best one have a
// mark and a word.
func (v *layView) compared(shot *app.Snapshot, m layMeasure) []moldFact {
	plan, slab := shot.Plan.Slab(v.slab.slab), v.slabOf(&shot.Project)
	if plan == nil || slab == nil {
		return nil
	}
	said := m.said(plan.Lay, shot.Project.Style)
	best, text, any := 0.0, "", false
	for i := range plan.Lay {
		// Without wood there is nothing to be better at.
		if l := &plan.Lay[i]; l.Pieces > 0 && (!any || m.less == (m.of(l) < best) && m.of(l) != best) {
			best, text, any = m.of(l), said[i], true
		}
	}
	var list []moldFact
	for i := range slab.Layups {
		f := moldFact{name: brief(slab.Layups[i].Name, 24), value: "no wood"}
		k := slices.IndexFunc(plan.Lay, func(l model.LayPlan) bool { return l.ID == slab.Layups[i].ID })
		if k >= 0 && plan.Lay[k].Pieces > 0 {
			if f.value = said[k]; f.value == text {
				f.value, f.tone = layBest+m.best+"  "+f.value, touch.GoodTone
			}
		}
		list = append(list, f)
	}
	return list
}

// layBest goes before the word at the best figure.
const layBest = "● "
