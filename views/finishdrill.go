package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// finishMountKinds is what can be screwed on, as it is offered.
var finishMountKinds = []touch.Option{
	{ID: string(model.MountHandle), Label: "Handle"}, {ID: string(model.MountFoot), Label: "Foot"}, {ID: string(model.MountHanger), Label: "Hanger"},
}

func drillFigure(t *finishPart, shot *app.Snapshot) string {
	switch m := shot.Plan.Finish.Mount(t.page.mount); {
	case m != nil:
		return m.ScrewWords()
	case !shot.Plan.Finish.Ready:
		return "Not known yet"
	}
	return "Nothing is screwed on"
}

func drillWorking(t *finishPart, shot *app.Snapshot) (model.Working, bool) {
	if m := shot.Plan.Finish.Mount(t.page.mount); m != nil {
		return m.Working()
	}
	return model.Working{}, false
}

func drillKey(t *finishPart, shot *app.Snapshot) string {
	var b strings.Builder
	b.WriteString(t.page.mount)
	for i := range shot.Project.Finish.Mounts {
		b.WriteString(" " + shot.Project.Finish.Mounts[i].ID)
	}
	if s := shot.Project.Mount(t.page.mount); s != nil {
		fmt.Fprint(&b, s.Kind, s.Way, s.Screw)
	}
	if m := shot.Plan.Finish.Mount(t.page.mount); m != nil {
		fmt.Fprint(&b, m.Way)
	}
	return b.String()
}

// drillCards are the mounts, and of one of them what may be in its way, its
// holes, its place and its screw.
func drillCards(t *finishPart, shot *app.Snapshot) []fyne.CanvasObject {
	list := moldRows()
	if len(shot.Project.Finish.Mounts) == 0 {
		list.Add(touch.NewText("Handles, feet and hangers: add one, and drag it in the drawing to where it goes. The shortest screw that works and its holes follow.", touch.Body, touch.Faint))
	} else {
		list.Add(t.tools.items(mountNames, t.page.mount, t.page.selectMount))
	}
	list.Add(t.tools.adder("Add a mount", finishMountKinds, t.addMount))
	cards := []fyne.CanvasObject{}
	s := shot.Project.Mount(t.page.mount)
	if s == nil {
		return append(cards, touch.NewCard("What is screwed on", list))
	}
	at := "finish/mounts/" + s.ID
	id := s.ID
	return append(cards,
		t.inTheWay(at, s.ID),
		t.follows(func(shot *app.Snapshot) string { return drillsKey(shot, id) }, func(shot *app.Snapshot) fyne.CanvasObject { return drillCard(shot, id) }),
		touch.NewCard("What is screwed on", list),
		t.tools.mark(at, touch.NewCard("Where it goes", t.mountPlace(at, s.ID))),
		touch.NewCard("The screw", t.mountScrew(shot, at, s)),
		t.facts("How it holds", mountFacts(s.ID)),
		container.NewHBox(touch.NewStyledButton("Remove it", touch.Danger, func() {
			t.page.in.edit("Remove "+s.Name, "", func(p *model.Project) error { return p.Remove(at) })
		})),
	)
}

// mountNames lists the mounts.
func mountNames(shot *app.Snapshot) []touch.Option {
	var list []touch.Option
	for i := range shot.Project.Finish.Mounts {
		s := &shot.Project.Finish.Mounts[i]
		list = append(list, touch.Option{ID: s.ID, Label: capitalised(s.Name)})
	}
	return list
}

// addMount adds a mount and turns to it.
func (t *finishPart) addMount(kind string) {
	var id string
	if t.page.in.edit("Add a "+kind, "", func(p *model.Project) error {
		id = p.AddMount(model.MountKind(kind))
		return nil
	}) {
		t.page.mount, t.page.lead = id, "finish/mounts/"+id+"/x"
	}
}

// inTheWay says which inserts are as high as the holes of a mount go, and asks
// whether the maker has looked for them.
func (t *finishPart) inTheWay(at, id string) fyne.CanvasObject {
	says := touch.NewText("", touch.Body, touch.Ink)
	card := touch.NewCard("Inserts in its way", moldRows(says, t.tools.toggleField(at+"/looked", "Looked through: clear here")))
	t.tools.follow(func(shot *app.Snapshot) {
		m := shot.Plan.Finish.Mount(id)
		names := ""
		if m != nil {
			names = strings.Join(m.Passes(), ", ")
		}
		if says.SetText("As high as its holes go: " + names + ". Where they lie is not known. Look through the piece where each hole goes, and mark it only if nothing is in the way. To move it or change its screw asks again."); card.Hidden != (names == "") {
			card.Hidden = names == ""
			card.Refresh()
		}
	})
	return card
}

// drillsKey is what the drills of a mount hang on.
func drillsKey(shot *app.Snapshot, id string) string {
	m := shot.Plan.Finish.Mount(id)
	if m == nil {
		return ""
	}
	return fmt.Sprint(m.From, m.Drills(shot.Project.Style))
}

// drillCard are the drills in turn, large enough to be read at the bench; nil
// where no screw works.
func drillCard(shot *app.Snapshot, id string) fyne.CanvasObject {
	m := shot.Plan.Finish.Mount(id)
	if m == nil || !m.Works {
		return nil
	}
	rows := container.New(layout.NewCustomPaddedVBoxLayout(8))
	for i, d := range m.Drills(shot.Project.Style) {
		what := fmt.Sprintf("%d. %s", i+1, d.What)
		if d.Deep != "" {
			what += ", " + d.Deep
		}
		rows.Add(container.New(layout.NewCustomPaddedVBoxLayout(0),
			touch.NewText(what, touch.Body, touch.Faint),
			touch.NewText("Ø "+d.Wide, touch.Reading, touch.Ink)))
	}
	return touch.NewCard("Drill from the "+m.From, rows)
}

// mountFacts tells what is left and how far each hole is from the edge.
func mountFacts(id string) func(*app.Snapshot) []moldFact {
	return func(shot *app.Snapshot) []moldFact {
		m := shot.Plan.Finish.Mount(id)
		if m == nil {
			return []moldFact{{name: poursFirst, tone: touch.Faint}}
		}
		var list []moldFact
		for _, l := range m.Lines {
			switch l.Label {
			case model.LineShortest, model.LineSuits, model.LineThread, model.LineUnderHead:
				list = append(list, moldFact{name: l.Label, value: l.Value})
			}
		}
		for i, h := range m.Holes {
			fact := moldFact{name: fmt.Sprintf("Hole %d, from the nearest edge", i+1), value: shot.Project.Style.Length(h.Edge)}
			if h.Edge <= 0 {
				fact.tone = touch.StopTone
			}
			list = append(list, fact, moldFact{name: "it is drilled in", value: h.In})
		}
		return list
	}
}

// mountPlace are the inputs for where a mount goes, and the buttons that centre
// and mirror it.
func (t *finishPart) mountPlace(at, id string) fyne.CanvasObject {
	in := t.page.in
	act := func(label string, do func(*model.Project, *model.FinishPlan) error) *touch.Button {
		return touch.NewButton(label, func() {
			plan := t.page.shot.Plan.Finish
			t.page.in.edit(label, "", func(p *model.Project) error { return do(p, &plan) })
		})
	}
	centre := func(along model.Along) func(*model.Project, *model.FinishPlan) error {
		return func(p *model.Project, f *model.FinishPlan) error {
			p.CentreMount(f, id, along)
			return nil
		}
	}
	mirror := func(along model.Along) func(*model.Project, *model.FinishPlan) error {
		return func(p *model.Project, f *model.FinishPlan) error {
			other, err := p.MirrorMount(f, id, along)
			if err == nil {
				t.page.mount = other
			}
			return err
		}
	}
	return moldRows(
		touch.NewText("Drag it in the drawing. The arrow keys move it by a millimetre, with Shift by ten.", touch.Small, touch.Faint),
		sideBySideUpTo(2,
			act("Centre along", centre(model.AlongLength)), act("Centre across", centre(model.AlongWidth)),
			act("Mirror along", mirror(model.AlongLength)), act("Mirror across", mirror(model.AlongWidth))),
		in.quantity(at+"/x", "Its middle, along the mold", "from the middle of the mold; to the right is above 0", touch.Length),
		in.quantity(at+"/y", "Its middle, across the mold", "away from you is above 0", touch.Length),
		in.usualLength(at+"/apart", "Between its two holes", "from middle to middle; left empty it has one hole"),
		in.quantity(at+"/turn", "Turned by", "anticlockwise, seen from above", touch.Angle),
	)
}

// mountScrew are the inputs for the screw and what it bites in.
func (t *finishPart) mountScrew(shot *app.Snapshot, at string, s *model.Mount) fyne.CanvasObject {
	in := t.page.in
	screws := func(*app.Snapshot) []touch.Option { return wordOptions(model.ScrewSizes()) }
	rows := moldRows(
		in.words(at+"/name", "Name", 1),
		t.tools.mark(at+"/screw", in.list(at+"/screw", "Screw", "Choose the screw", screws)),
		t.tools.mark(at+"/head", in.list(at+"/head", "Head", "Choose its head", func(shot *app.Snapshot) []touch.Option {
			var list []touch.Option
			if s := shot.Project.Mount(s.ID); s != nil {
				for _, h := range model.HeadsOf(s.Screw) {
					list = append(list, touch.Option{ID: string(h), Label: capitalised(string(h))})
				}
			}
			return list
		})),
		in.usualLength(at+"/long", "Length of the screw on hand", "left empty the shortest that suits is named"),
		t.choice(at+"/way", "It goes", "As usual", string(model.ScrewThrough), string(model.ScrewInto)),
	)
	m := shot.Plan.Finish.Mount(s.ID)
	if m != nil && m.Way == model.ScrewInto {
		rows.Add(t.tools.toggleField(at+"/top", "It sits on the top face"))
		rows.Add(in.length(at+"/thickness", "The screw passes through", "how thick the thing itself is there"))
	}
	rows.Add(t.choice(at+"/bite", "Its thread bites in", "As usual", string(model.BiteMetal), string(model.BiteInsert), string(model.BiteNut), string(model.BiteWood)))
	rows.Add(in.usualLength(at+"/takes", "Depth of the thread that takes it", "screw one in by hand until it stops, and measure"))
	rows.Add(t.tools.mark(at+"/thread", in.list(at+"/thread", "Thread of the thing, as its maker says", "As the screw", func(*app.Snapshot) []touch.Option {
		return append([]touch.Option{{ID: "", Label: "As the screw"}}, screws(nil)...)
	})))
	return rows
}
