package views

import (
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
	say  func(*model.LayPlan, unit.Style) string
}

// layMeasures are the figures that lay-ups are compared by.
var layMeasures = []layMeasure{
	{"Resin", "least", true, func(l *model.LayPlan) float64 { return float64(l.Resin) }, layResin},
	{"Wood in the cavity", "most", false, func(l *model.LayPlan) float64 { return l.Share }, func(l *model.LayPlan, _ unit.Style) string { return layShare(l.Share) }},
	{"The piece", "largest", false, func(l *model.LayPlan) float64 { return float64(l.Area) }, func(l *model.LayPlan, s unit.Style) string { return s.Area(l.Area) }},
	{"Live edge in the resin", "most", false, func(l *model.LayPlan) float64 { return float64(l.Live) }, func(l *model.LayPlan, s unit.Style) string { return layLength(l.Live, s) }},
	{"Left of the slab", "most", false, func(l *model.LayPlan) float64 { return float64(l.Left) }, func(l *model.LayPlan, s unit.Style) string { return s.Area(l.Left) }},
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
	s := shot.Project.Style
	best, text, any := 0.0, "", false
	for i := range plan.Lay {
		// Without wood there is nothing to be better at.
		if l := &plan.Lay[i]; l.Pieces > 0 && (!any || m.less == (m.of(l) < best) && m.of(l) != best) {
			best, text, any = m.of(l), m.say(l, s), true
		}
	}
	var list []moldFact
	for i := range slab.Layups {
		f := moldFact{name: moldShort(slab.Layups[i].Name, 24), value: "no wood"}
		if l := plan.Layup(slab.Layups[i].ID); l != nil && l.Pieces > 0 {
			if f.value = m.say(l, s); f.value == text {
				f.value, f.tone = layBest+m.best+"  "+f.value, touch.GoodTone
			}
		}
		list = append(list, f)
	}
	return list
}

// layBest goes before the word at the best figure.
const layBest = "● "
