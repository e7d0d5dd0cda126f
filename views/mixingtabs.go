package views

import (
	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
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
// done.
type mixTabs struct {
	*pageTabs
	hint *touch.Text
	list []mixTab
}

func newMixTabs(p *mixingPage, list ...mixTab) *mixTabs {
	t := &mixTabs{list: list, hint: touch.NewText("Plan a pour first, in Layers: how deep, and of which resin.", touch.Body, touch.Faint)}
	var tabs []pageTab
	for _, x := range list {
		tabs = append(tabs, pageTab{x.option, x.content})
	}
	t.pageTabs = newPageTabs(p.in, func() { p.see(p.shot) }, tabs...)
	return t
}

// see shows one layer in what is turned to.
func (t *mixTabs) see(shot *app.Snapshot, l *model.LayerPlan) {
	tab := &t.list[t.now]
	content := tab.content
	if l == nil && !tab.always {
		content = t.hint
	}
	t.show(content)
	for _, p := range tab.parts {
		p.see(shot, l)
	}
}
