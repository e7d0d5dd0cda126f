package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// floatSignature is the structure of the section of what floats.
func (m *moldPane) floatSignature(shot *app.Snapshot) string {
	var b strings.Builder
	fmt.Fprintf(&b, " %s\n%v %v", m.thing, has(shot, moldHoldWorking), has(shot, moldPullWorking(m.thing)))
	for i := range shot.Plan.Float.Things {
		b.WriteString(" " + shot.Plan.Float.Things[i].Field)
	}
	for _, p := range shot.Plan.Float.Pours {
		fmt.Fprintf(&b, "\n%s %v", p.Layer, p.Stop > 0)
	}
	return b.String()
}

// float makes the section of what the resin lifts: what to hold down in which
// pour, and each thing's own lift.
func (m *moldPane) float(shot *app.Snapshot) fyne.CanvasObject {
	plan := &shot.Plan.Float
	if len(plan.Things) == 0 {
		return moldColumn(touch.NewCard("What the resin lifts", touch.NewText("Once the mold is measured, a pour is planned, and wood or inserts lie in it, this tells what floats, at what level, and what holds it.", touch.Body, touch.Faint)))
	}
	rows := moldRows(m.leading(shot, moldHoldLead, moldHoldWorking), m.facts(moldHoldsDown))
	for k := range plan.Pours {
		if plan.Pours[k].Stop > 0 {
			rows.Add(m.stopper(plan.Pours[k].Layer))
		}
	}
	cards := moldColumn(touch.NewCard("What the resin lifts", rows))
	if plan.Thing(m.thing) == nil {
		m.thing = plan.Heaviest()
	}
	one := moldRows()
	if len(plan.Things) > 1 {
		one.Add(m.items(moldThings, m.thing, func(field string) {
			m.thing = field
			m.again()
		}))
	}
	field := m.thing
	one.Add(m.facts(func(shot *app.Snapshot) []moldFact { return moldLifts(shot, field) }))
	pull := moldPullWorking(field)
	one.Add(m.leading(shot, func(*app.Snapshot) (string, string) { return moldPullLead(shot, field) }, pull))
	if t := plan.Thing(field); t != nil && t.Known {
		one.Add(m.liftPicture(field))
	}
	cards.Add(touch.NewCard("One by one", one))
	return cards
}

// moldThings lists what lies in the mold.
func moldThings(shot *app.Snapshot) []touch.Option {
	var list []touch.Option
	for i := range shot.Plan.Float.Things {
		t := &shot.Plan.Float.Things[i]
		label := t.Name
		if t.Count > 1 {
			label = fmt.Sprintf("%d × %s", t.Count, t.Name)
		}
		list = append(list, touch.Option{ID: t.Field, Label: label})
	}
	return list
}

// moldHoldLead is the one figure of the section, and what it is of.
func moldHoldLead(shot *app.Snapshot) (figure, words string) {
	plan, s := &shot.Plan.Float, shot.Project.Style
	for i := range plan.Things {
		if t := &plan.Things[i]; !t.Known {
			words = "What is not weighed is not in it: most wood floats."
			break
		}
	}
	most := plan.Most()
	if most == nil {
		if words != "" {
			return "Not known for all", "Weigh the wood, or give its density: most wood is lighter than resin."
		}
		words = "Either it is too heavy, or each pour stops before it lifts and then holds it."
		if plan.InsertsLift() {
			words = "The wood stays down by itself; inserts float, and are glued or pinned."
		}
		return "No wood to hold down", words
	}
	return "Hold down " + moldWeight(s, most.Hold), strings.TrimSpace("in " + most.Name + ", all wood together: twice what lifts it. " + words)
}

// moldWeight writes a force as the mass that weighs so much, in kg from 1 kg on.
func moldWeight(s unit.Style, f unit.Force) string { return s.Load(f.Mass()) }

// moldHoldsDown tells of each pour what it lifts, and of each insert what its
// glue has to hold.
func moldHoldsDown(shot *app.Snapshot) []moldFact {
	plan, s := &shot.Plan.Float, shot.Project.Style
	var list []moldFact
	for k := range plan.Pours {
		p := &plan.Pours[k]
		fact := moldFact{name: p.Name, value: "lifts no wood"}
		if p.Hold > 0 {
			fact.value = "hold down " + moldWeight(s, p.Hold)
		}
		switch {
		case p.Open && p.Hold > 0:
			fact.value, fact.tone = fact.value+", without what is not weighed", touch.CheckTone
		case p.Open:
			fact.value, fact.tone = "not known: weigh the wood", touch.CheckTone
		}
		list = append(list, fact)
		for i := range plan.Things {
			t := &plan.Things[i]
			if in := &t.Pours[k]; t.Insert && in.Lifts {
				name := capitalised(t.Name) + " in it, lifted by"
				list = append(list, moldFact{name: name, value: moldEach(s, t, in.Lift)})
			}
		}
	}
	return list
}

// moldEach writes the lift of inserts: of each, and of all.
func moldEach(s unit.Style, t *model.FloatThing, f unit.Force) string {
	if t.Count <= 1 {
		return moldWeight(s, f)
	}
	return moldWeight(s, f.Times(1/float64(t.Count))) + " each, " + moldWeight(s, f) + " in all"
}

// moldLifts is what becomes of one thing.
func moldLifts(shot *app.Snapshot, field string) []moldFact {
	plan, s := &shot.Plan.Float, shot.Project.Style
	t := plan.Thing(field)
	if t == nil {
		return nil
	}
	if !t.Known {
		return []moldFact{{name: "Its weight is not known. Weigh it, or give its density, under " + moldPlaceOf(t) + "; until then count on it floating.", tone: touch.CheckTone}}
	}
	list := []moldFact{{name: "Weighs", value: s.Load(t.Mass)}}
	if t.Count > 1 {
		list[0].name = fmt.Sprintf("All %d weigh", t.Count)
	}
	if t.LiftsAt > 0 {
		list = append(list, moldFact{name: "Lifts at a level above the floor of", value: s.Length(t.LiftsAt)})
	} else {
		list = append(list, moldFact{name: "Lifts at a level of", value: "none, it is heavier than resin"})
	}
	for k := range plan.Pours {
		in := &t.Pours[k]
		name := plan.Pours[k].Name
		if l := shot.Plan.Layer(plan.Pours[k].Layer); l != nil {
			name += ", up to " + s.Length(l.Top)
		}
		switch {
		case !in.Reaches:
			continue
		case in.By == model.HeldBySet:
			list = append(list, moldFact{name: name, value: "held by the resin below"})
			continue
		case in.Lifts:
			list = append(list, moldFact{name: name, value: "lifted by " + moldEach(s, t, in.Lift), tone: touch.CheckTone})
		case in.Near:
			list = append(list, moldFact{name: name, value: "only just not lifted", tone: touch.CheckTone})
		default:
			list = append(list, moldFact{name: name, value: "not lifted", tone: touch.GoodTone})
		}
		if in.Hold > 0 {
			what := "Hold it down with"
			switch {
			case in.By == model.HeldByBond:
				what = "What it is stuck by has to hold"
			case t.Insert:
				what = "The glue has to hold"
			}
			list = append(list, moldFact{name: what, value: moldEach(s, t, in.Hold) + ", " + s.Force(in.Hold)})
			list = append(list, moldFact{name: moldHow(t, in), tone: touch.Faint})
		}
	}
	if t.AtOnce > 0 {
		list = append(list, moldFact{name: "Lift if all were poured at once", value: moldEach(s, t, t.AtOnce)})
	}
	return list
}

// moldPlaceOf names the section that a thing is measured in.
func moldPlaceOf(t *model.FloatThing) string {
	if t.Insert {
		return "Inserts"
	}
	return "Wood"
}

// moldHow says what holds a thing.
func moldHow(t *model.FloatThing, in *model.FloatIn) string {
	switch {
	case t.Insert && in.By == model.HeldByBond:
		return "Glued or pinned: no more than a dab each, and hard before the pour."
	case t.Insert:
		return "A small dab of glue each. That it sticks to a tacky layer is not enough to rely on."
	case in.By == model.HeldByBond:
		return "While no resin gets below it nothing lifts it. Where the bond lets go, this is what pulls: clamp it as well."
	}
	return "Clamps or weights on covered bars across the mold, or blocks wedged below a batten; not fingers, and nothing that can slip into the resin."
}

// stopper is the act that ends a pour before it lifts the wood.
func (m *moldPane) stopper(layer string) fyne.CanvasObject {
	say := touch.NewText("", touch.Small, touch.Faint)
	b := touch.NewButton("", func() {
		m.in.form.CommitAll()
		err := m.in.session.Edit("Stop a pour before it lifts", "", func(p *model.Project) error { return model.StopPour(p, layer) })
		if err != nil {
			say.SetText("It stays as it is: " + problemWords(err) + ".")
		}
	})
	m.follow(func(shot *app.Snapshot) {
		p := shot.Plan.Float.Pour(layer)
		if p == nil || p.Stop <= 0 {
			return
		}
		b.SetLabel("Stop " + brief(p.Name, 20) + " at " + shot.Project.Style.Length(p.Stop))
		if p.Adds {
			say.SetText("It lifts no wood there, sets round it and holds it; the rest of it is poured as one pour more. The fill line stays.")
			return
		}
		say.SetText("It lifts no wood there, sets round it and holds it; the next pour, of the same mix, takes the rest. The fill line stays.")
	})
	return container.NewVBox(container.NewHBox(b), say)
}
