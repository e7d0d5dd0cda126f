package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// mixPart is a card, or some, of the window Mixing.
type mixPart interface {
	// see shows one layer, nil for none.
	see(shot *app.Snapshot, l *model.LayerPlan)
}

// mixTab is a part of the work at the bench, with what it needs.
type mixTab struct {
	option  touch.Option
	content fyne.CanvasObject
	parts   []mixPart
	always  bool // it has inputs also while there is no pour
}

// mixTabs shows one part of the work at a time, in the order in which it is
// done. Only what is shown is drawn.
type mixTabs struct {
	page   *mixingPage
	root   *fyne.Container
	choice *touch.Choice
	held   *fyne.Container
	hint   *touch.Text
	scroll *touch.Scroll
	list   []mixTab
	now    int
}

func newMixTabs(p *mixingPage, list ...mixTab) *mixTabs {
	t := &mixTabs{page: p, list: list, held: container.NewStack(list[0].content), hint: touch.NewText("Plan a pour first, in Layers: how deep, and of which resin.", touch.Body, touch.Faint)}
	var options []touch.Option
	for _, x := range list {
		options = append(options, x.option)
	}
	t.choice = touch.NewChoice(options, options[0].ID, t.turn)
	t.scroll = touch.NewScroll(inset(t.held))
	t.root = container.NewBorder(container.New(layout.NewCustomPaddedLayout(look.Gap, 0, 14, 14), t.choice), nil, nil, nil, t.scroll)
	return t
}

// turn shows another part, from its beginning.
func (t *mixTabs) turn(id string) {
	for i := range t.list {
		if t.list[i].option.ID == id && i != t.now {
			t.page.in.form.CommitAll()
			t.now = i
			t.choice.SetChosen(id)
			t.scroll.SetOffset(0)
			t.page.see(t.page.shot)
			return
		}
	}
}

// see shows one layer in what is turned to.
func (t *mixTabs) see(shot *app.Snapshot, l *model.LayerPlan) {
	tab := &t.list[t.now]
	content := tab.content
	if l == nil && !tab.always {
		content = t.hint
	}
	if t.held.Objects[0] != content {
		t.held.Objects[0] = content
		t.held.Refresh()
	}
	for _, p := range tab.parts {
		p.see(shot, l)
	}
}

// turnTo shows the part that holds the input of a field.
func (t *mixTabs) turnTo(field string) {
	input, ok := t.page.in.form.Input(field).(fyne.CanvasObject)
	if !ok || input == nil {
		return
	}
	for _, x := range t.list {
		if holds(x.content, input) {
			t.turn(x.option.ID)
			return
		}
	}
}

// holds tells whether an object stands in another.
func holds(o, sought fyne.CanvasObject) bool {
	if o == sought {
		return true
	}
	var inside []fyne.CanvasObject
	switch o := o.(type) {
	case *fyne.Container:
		inside = o.Objects
	case touch.Parent:
		inside = o.Children()
	}
	for _, x := range inside {
		if holds(x, sought) {
			return true
		}
	}
	return false
}
