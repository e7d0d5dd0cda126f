package views

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/views/look"
	"meniscus/views/touch"
)

// pageTab is a part of the work in a window, with what it needs.
type pageTab struct {
	option  touch.Option
	content fyne.CanvasObject
}

// pageTabs shows one part of a window's work at a time. Only what is shown is
// drawn.
type pageTabs struct {
	in     *inputs
	root   *fyne.Container
	choice *touch.Choice
	held   *fyne.Container
	scroll *touch.Scroll
	tabs   []pageTab
	now    int
	width  float32 // of the widest part so far, so that turning moves nothing beside it
	turned func()  // draws what has been turned to
}

func newPageTabs(in *inputs, turned func(), tabs ...pageTab) *pageTabs {
	t := &pageTabs{in: in, turned: turned, tabs: tabs}
	t.held = container.New(&asWide{&t.width}, tabs[0].content)
	var options []touch.Option
	for _, x := range tabs {
		options = append(options, x.option)
		t.width = max(t.width, x.content.MinSize().Width)
	}
	t.choice = touch.NewChoice(options, options[0].ID, t.turn)
	t.scroll = touch.NewScroll(inset(t.held))
	t.root = asRead(container.New(layout.NewCustomPaddedLayout(look.Gap, 0, 14, 14), t.choice), t.scroll, nil)
	return t
}

// turn shows another part, from its beginning.
func (t *pageTabs) turn(id string) {
	for i := range t.tabs {
		if t.tabs[i].option.ID == id && i != t.now {
			t.in.form.CommitAll()
			t.now = i
			t.choice.SetChosen(id)
			t.scroll.SetOffset(0)
			t.show(t.tabs[i].content)
			t.turned()
			return
		}
	}
}

// asWide gives a content all room, and asks for no less than it ever asked for
// and the width given.
type asWide struct{ width *float32 }

func (w *asWide) MinSize(o []fyne.CanvasObject) fyne.Size {
	least := o[0].MinSize()
	*w.width = max(*w.width, least.Width)
	return fyne.NewSize(*w.width, least.Height)
}

func (w *asWide) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.Position{})
	o[0].Resize(size)
}

// at tells which part is shown.
func (t *pageTabs) at() string { return t.tabs[t.now].option.ID }

// words are those on the tab of the part that is shown.
func (t *pageTabs) words() string { return t.tabs[t.now].option.Label }

// show puts something in the place of the part that is turned to.
func (t *pageTabs) show(content fyne.CanvasObject) {
	if t.held.Objects[0] != content {
		t.held.Objects[0] = content
		t.held.Refresh()
	}
}

// turnTo shows the part that holds the input of a field.
func (t *pageTabs) turnTo(field string) {
	input, ok := t.in.form.Input(field).(fyne.CanvasObject)
	if !ok || input == nil {
		return
	}
	for _, x := range t.tabs {
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
	return slices.ContainsFunc(childrenOf(o), func(x fyne.CanvasObject) bool { return holds(x, sought) })
}
