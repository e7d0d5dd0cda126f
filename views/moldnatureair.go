package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// natureAir are the facts of the air in the wood and of its seal coat, and the
// inputs that they hang on.
func (m *moldPane) natureAir(at, id string) fyne.CanvasObject {
	return moldRows(
		m.facts(func(shot *app.Snapshot) []moldFact { return natureBreath(shot, id) }),
		m.facts(func(shot *app.Snapshot) []moldFact { return natureSeal(shot, id) }),
		m.in.measured("shop/wood", "The wood is at", "a thermometer laid on it, under a cloth", touch.Temperature),
		m.mark(at+"/nature/pores", m.in.list(at+"/nature/pores", "Its pores", "As its species", func(*app.Snapshot) []touch.Option { return naturePores })),
		m.toggleField(at+"/sealed", "Sealed all round, so it drinks no resin"),
	)
}

// naturePores are the kinds of pores as they are offered.
var naturePores = []touch.Option{
	{ID: "", Label: "As its species"}, {ID: string(model.PoresOpen), Label: "Open, as of oak or ash"},
	{ID: string(model.PoresFine), Label: "Fine, as of maple or beech"}, {ID: string(model.PoresPunky), Label: "Punky or spalted"},
}

// natureBreath says when to pour, and what the air in the wood does.
func natureBreath(shot *app.Snapshot, id string) []moldFact {
	s := shot.Project.Style
	n, ok := shot.Plan.Nature(&shot.Project, id)
	if !ok {
		return nil
	}
	a := &n.Air
	tone := map[model.Breath]touch.Tone{model.BreathSealed: touch.GoodTone, model.BreathIn: touch.GoodTone, model.BreathOut: touch.CheckTone}[a.Breath]
	list := []moldFact{{name: a.When, tone: tone}}
	if a.Breath == model.BreathSealed {
		return list
	}
	if a.Why != "" {
		list = append(list, moldFact{name: a.Why, tone: touch.Faint})
	}
	switch {
	case a.Density.Absent:
		return append(list, moldFact{name: "How much air: " + a.Density.Source + ".", tone: touch.Faint})
	case a.Moves > 0:
		list = append(list, moldFact{name: "It pushes out", value: s.Volume(a.Moves) + " of air", tone: touch.CheckTone},
			moldFact{name: "as bubbles of " + model.SmallLength(a.Bubble), value: model.ManyBubbles(a.Bubbles)})
	case a.Moves < 0:
		list = append(list, moldFact{name: "It draws in, of resin or air", value: s.Volume(-a.Moves)})
	}
	list = append(list, moldFact{name: "For each 1 °C that it warms", value: s.Volume(a.PerDegree) + " out"})
	if s.TempUnit() == unit.InFahrenheit {
		list[len(list)-1] = moldFact{name: "For each 1 °F that it warms", value: s.Volume(a.PerDegree.Times(5.0/9)) + " out"}
	}
	if a.Density.Typical {
		list = append(list, moldFact{name: fmt.Sprintf("At %s, %s: weigh it to know.", s.Density(a.Density.Value), a.Density.Source), tone: touch.Faint})
	}
	return list
}

// natureSeal says what a seal coat takes, and when the pour may follow.
func natureSeal(shot *app.Snapshot, id string) []moldFact {
	s := shot.Project.Style
	w := shot.Project.Piece(id)
	n, ok := shot.Plan.Nature(&shot.Project, id)
	if !ok || w == nil || w.Sealed {
		return nil
	}
	c := &n.Seal
	list := []moldFact{{name: "Seal it first: its pores are open.", tone: touch.CheckTone}}
	if !c.Needed {
		list[0] = moldFact{name: "Its pores are fine: sealing is worth it for end grain and bark edges.", tone: touch.Faint}
	}
	if c.Sheet == "" {
		return append(list, moldFact{name: "Plan a pour in the window Layers to see what a seal coat takes.", tone: touch.Faint})
	}
	mass := func(k model.Known[unit.Mass]) string {
		bare := func(v unit.Mass) string { return strings.TrimSuffix(s.Mass(v), " "+string(s.MassUnit())) }
		return banded(s.Mass(k.Value), bare(k.Low), bare(k.High), k.Low < k.High)
	}
	list = append(list, moldFact{name: "Seal coat, of " + c.Product, value: mass(c.Total)})
	if c.FaceArea > 0 {
		list = append(list, moldFact{name: "on " + s.Area(c.FaceArea) + " of faces and sides", value: mass(c.Face)})
	}
	list = append(list, moldFact{name: "on " + s.Area(c.EndArea) + " that drinks: end grain, punky wood", value: mass(c.End)})
	if c.All.Value > c.Total.Value {
		list = append(list, moldFact{name: "All bare pieces together", value: mass(c.All)})
	}
	switch {
	case c.From.Absent && c.To.Absent:
		list = append(list, moldFact{name: "When the pour may follow: in the recoat window, which its sheet does not say.", tone: touch.Faint})
	case c.To.Absent:
		list = append(list, moldFact{name: "The pour may follow after", value: s.Span(c.From.Value)})
	default:
		list = append(list, moldFact{name: "The pour may follow within", value: s.Span(c.From.Value) + " to " + s.Span(c.To.Value)})
	}
	return append(list, moldFact{name: "After that window, sand it dull first. The data sheet stands above this.", tone: touch.Faint})
}
