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

// moldSeams is the path of the mold's seams.
const moldSeams = "mold/hold/seams"

// tightSignature is the structure of the section of leaks.
func (m *moldPane) tightSignature(shot *app.Snapshot) string {
	var b strings.Builder
	fmt.Fprintf(&b, " %s\n", m.seam)
	for i := range shot.Project.Mold.Hold.Seams {
		b.WriteString(" " + shot.Project.Mold.Hold.Seams[i].ID)
	}
	fmt.Fprintf(&b, "\n%v %v", has(shot, moldLeakWorking), has(shot, moldSagWorking))
	return b.String()
}

// tight makes the section of whether the mold keeps the resin in, bears it, and
// lets the piece out.
func (m *moldPane) tight(shot *app.Snapshot) fyne.CanvasObject {
	seams := shot.Project.Mold.Hold.Seams
	list := moldRows()
	if len(seams) == 0 {
		list.Add(touch.NewText("Go along every joint of the empty mold with a feeler gauge. Add each gap that it finds: what leaves by it grows with the cube of the gap.", touch.Body, touch.Faint))
	} else {
		if !moldHasSeam(seams, m.seam) {
			m.seam = seams[0].ID
		}
		list.Add(m.leading(shot, moldLeakLead, moldLeakWorking))
		list.Add(m.items(moldSeamNames, m.seam, func(id string) {
			m.seam = id
			m.again()
		}))
	}
	list.Add(touch.NewButton("Add a seam", m.addSeam))
	cards := moldColumn(m.mark(moldSeams, touch.NewCard("Seams", list)))
	if len(seams) > 0 {
		at, id := moldSeams+"/"+m.seam, m.seam
		one := moldRows(
			m.in.words(at+"/name", "Name", 1),
			m.in.length(at+"/gap", "Gap", "the thickest leaf of the feeler gauge that goes in"),
			m.in.length(at+"/long", "Length of it", "along the joint; left empty it is all round"),
			m.in.length(at+"/way", "Way through it", "how thick the wall or the floor is there; left empty it is the floor's thickness"),
			m.in.length(at+"/height", "Height above the floor", "0 or empty for the joint at the floor"),
			m.facts(func(shot *app.Snapshot) []moldFact { return moldSeamFacts(shot, id) }),
			m.remover("Remove this seam", at),
		)
		cards.Add(m.mark(at, touch.NewCard("This seam", one)))
		cards.Add(touch.NewCard("What would leak, if nothing is sealed", moldRows(
			m.facts(moldLeaks),
			touch.NewText("Test with water a day before the wood goes in, and dry the mold fully: damp clouds resin. What is sealed from outside with warm wax holds for one pour.", touch.Small, touch.Faint),
		)))
	}
	cards.Add(touch.NewCard("Sag of the floor", moldRows(
		m.in.length("mold/hold/spacing", "Between the supports", "from middle to middle, below the floor; leave it empty where the floor lies flat on a bench"),
		m.leading(shot, moldSagLead, moldSagWorking),
		m.facts(moldSags),
	)))
	cards.Add(touch.NewCard("How hard the resin presses", moldRows(m.facts(moldPresses), m.how(moldPressHow))))
	cards.Add(touch.NewCard("Getting the piece out", m.facts(moldReleases)))
	return cards
}

func moldHasSeam(list []model.Seam, id string) bool {
	for i := range list {
		if list[i].ID == id {
			return true
		}
	}
	return false
}

// addSeam adds a seam and turns to it.
func (m *moldPane) addSeam() {
	m.addItem("Add a seam", func(p *model.Project) (string, error) { return p.AddSeam(), nil }, func(id string) {
		m.seam, m.lead = id, moldSeams+"/"+id+"/gap"
	})
}

// moldLeakLead is the one figure about leaks, and what it is of.
func moldLeakLead(shot *app.Snapshot) (figure, words string) {
	s := shot.Project.Style
	p := shot.Plan.Leaks.Worst()
	switch {
	case p == nil && len(shot.Plan.Leaks.Pours) == 0:
		return "No pour yet", "Plan one in the window Layers to see what would leave by the seams."
	case p == nil:
		return "Nothing leaks", "No pour gets to a seam with a gap."
	case p.ByGel.Absent:
		return s.Mass(p.Hour) + " an hour", "of " + p.Name + ", for as long as it runs, if nothing is sealed."
	}
	return "Up to " + s.Mass(p.ByGel.Value) + " lost", s.Share(unit.Share(p.Share)) + " of " + p.Name + ", if nothing is sealed and it stays as thin as mixed until it sets."
}

// moldSeamNames lists the seams.
func moldSeamNames(shot *app.Snapshot) []touch.Option {
	var list []touch.Option
	for _, s := range shot.Project.Mold.Hold.Seams {
		list = append(list, touch.Option{ID: s.ID, Label: s.Name})
	}
	return list
}

// moldSeamFacts is what leaves by one seam, pour by pour.
func moldSeamFacts(shot *app.Snapshot, id string) []moldFact {
	s := shot.Project.Style
	var list []moldFact
	for i := range shot.Plan.Leaks.Pours {
		p := &shot.Plan.Leaks.Pours[i]
		for j := range p.Seams {
			leak := &p.Seams[j]
			if leak.ID != id {
				continue
			}
			switch leak.State {
			case model.SeamWet:
				value := s.Mass(leak.Hour) + " an hour"
				if !p.Gel.Absent {
					value += ", at most " + s.Mass(leak.ByGel)
				}
				list = append(list, moldFact{name: "In " + p.Name, value: value})
				if leak.Gap > 0 {
					list = append(list, moldFact{name: "Gap here that alone would lose 1 %", value: model.GapWords(s, leak.Gap)})
				}
			case model.SeamBlank:
				list = append(list, moldFact{name: "In " + p.Name, value: "measure its gap"})
			default:
				list = append(list, moldFact{name: "In " + p.Name, value: string(leak.State)})
			}
		}
	}
	if len(list) == 0 {
		return []moldFact{{name: "Plan a pour in the window Layers to see what would leave here.", tone: touch.Faint}}
	}
	return list
}

// moldLeaks is what each pour would lose.
func moldLeaks(shot *app.Snapshot) []moldFact {
	s := shot.Project.Style
	var list []moldFact
	for i := range shot.Plan.Leaks.Pours {
		p := &shot.Plan.Leaks.Pours[i]
		if p.Hour <= 0 {
			list = append(list, moldFact{name: p.Name, value: "nothing"})
			continue
		}
		list = append(list, moldFact{name: p.Name + ", in an hour", value: s.Mass(p.Hour)})
		if p.ByGel.Absent {
			list = append(list, moldFact{name: "How long it runs is not known: copy the gel time or the working time from its data sheet.", tone: touch.CheckTone})
			continue
		}
		tone := touch.GoodTone
		if p.TooMuch() {
			tone = touch.CheckTone
		}
		list = append(list, moldFact{name: "until it sets in " + s.Span(p.Gel.Value) + ", at most", value: s.Mass(p.ByGel.Value) + ", " + s.Share(unit.Share(p.Share)), tone: tone})
		if less, ok := shot.Plan.LeakByCure(&shot.Project, &shot.Curing, p.Layer); ok {
			list = append(list, moldFact{name: "as it thickens by its cure", value: moldBand(less, s.Mass)})
		}
		list = append(list, moldFact{name: "A gap in all its seams that would lose 1 %", value: model.GapWords(s, p.Gap)})
		list = append(list, moldFact{name: "at a viscosity, as poured, of", value: moldBand(p.Viscosity, s.Viscosity)})
	}
	return append(list, moldFact{name: "Tray below the mold, for 110 % of the largest pour", value: s.Volume(shot.Plan.Leaks.Tray)})
}

// moldSags is how far the floor sinks.
func moldSags(shot *app.Snapshot) []moldFact {
	p, s := shot.Plan.Mold.Sag, shot.Project.Style
	switch {
	case p == nil:
		return []moldFact{{name: "Measure the mold and plan a pour, then it says here how far its floor sinks.", tone: touch.Faint}}
	case !p.Bears:
		return []moldFact{{name: "A silicone floor lies as flat as what is below it: set it on a flat, stiff board.", tone: touch.Faint}}
	}
	var list []moldFact
	if p.Spacing > 0 {
		tone := touch.GoodTone
		if p.Sinks.Value > p.Allowed {
			tone = touch.CheckTone
		}
		list = append(list, moldFact{name: "Sinks between the supports by", value: moldBand(p.Sinks, s.Length), tone: tone})
	}
	return append(list,
		moldFact{name: "May sink by", value: s.Length(p.Allowed)},
		moldFact{name: "Largest distance between supports for that", value: model.SpacingWords(s, p.Most.Value)},
		moldFact{name: "Resin, wood and inserts on the floor", value: s.Load(p.Mass)},
		moldFact{name: "Thickness of the floor", value: s.Length(p.Thick.Value)},
		moldFact{name: "Thickness and material are under Mold. A floor that goes on over several supports sinks less.", tone: touch.Faint},
	)
}

// moldBand writes a figure with its band, where it has one.
func moldBand[Q unit.Quantity](k model.Known[Q], write func(Q) string) string {
	low, high := write(k.Low), write(k.High)
	if i := strings.LastIndexByte(high, ' '); i > 0 {
		low = strings.TrimSuffix(low, high[i:])
	}
	return banded(write(k.Value), low, high, k.Low != k.High)
}

// moldPresses is how hard the liquid resin presses on floor and walls.
func moldPresses(shot *app.Snapshot) []moldFact {
	p, s := &shot.Plan.Mold.Press, shot.Project.Style
	if p.Floor <= 0 {
		return []moldFact{{name: "Plan a pour to see it.", tone: touch.Faint}}
	}
	return []moldFact{
		{name: "Most in", value: p.Pour + ", " + s.Length(p.Depth) + " deep"},
		{name: "Pushes outwards on each metre of wall like", value: moldWeight(s, p.Wall)},
	}
}

// moldPressHow is what the push on the walls is worked out with.
func moldPressHow(shot *app.Snapshot) []moldFact {
	p, s := &shot.Plan.Mold.Press, shot.Project.Style
	if p.Floor <= 0 {
		return nil
	}
	return []moldFact{
		{name: "Pressure at its foot, ρ g h", value: s.Pressure(p.Floor)},
		{name: "On each metre of wall, half of that times the depth", value: s.Force(p.Wall)},
	}
}

// moldReleases is what lets the piece out.
func moldReleases(shot *app.Snapshot) []moldFact {
	var list []moldFact
	for _, l := range shot.Plan.Release(&shot.Project) {
		tone := touch.Ink
		switch l.Level {
		case model.Stop:
			tone = touch.StopTone
		case model.Check:
			tone = touch.CheckTone
		}
		list = append(list, moldFact{name: l.Words, tone: tone})
	}
	return list
}
