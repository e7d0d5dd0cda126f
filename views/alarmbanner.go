package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/model"
	"meniscus/views/touch"
)

// mostAlarms is how many alarms are told of one by one.
const mostAlarms = 3

// alarmBanner tells across the whole window what has fallen due, until it is
// touched.
type alarmBanner struct {
	page  *curePage
	root  *fyne.Container
	heard *touch.Button
	built string // what it says now
}

func newAlarmBanner(p *curePage) *alarmBanner {
	b := &alarmBanner{page: p, root: container.NewStack()}
	b.heard = touch.NewStyledButton("I have heard it", touch.Primary, func() {
		p.desk.alarms.answer()
		b.see()
	})
	b.heard.Bench, b.heard.Debounce = true, touch.Settle
	b.root.Hide()
	return b
}

// see shows what rings now.
func (b *alarmBanner) see() {
	list := b.page.desk.alarms.ringing
	lines := alarmLines(list, &b.page.clock)
	if b.page.desk.session.Silent() {
		lines = append(lines, "There is no sound on this machine.")
	}
	if len(list) == 0 {
		lines = nil
	}
	if key := fmt.Sprint(lines); key != b.built {
		b.built = key
		b.root.RemoveAll()
		if len(list) > 0 {
			b.root.Add(b.build(list[len(list)-1].Kind, lines))
		}
		b.root.Hidden = len(list) == 0
		b.page.root.Refresh()
	}
}

// build puts the lines beside the button that ends the ringing, as grave as the
// kind of step that the first is about.
func (b *alarmBanner) build(kind model.StepKind, lines []string) fyne.CanvasObject {
	level, tone := touch.Check, touch.CheckTone
	if kind == model.StepWorkEnds || kind == model.StepRecoatEnd {
		level, tone = touch.Stop, touch.StopTone // it is too late for something
	}
	words := container.New(layout.NewCustomPaddedVBoxLayout(2), touch.NewText(lines[0], touch.Question, tone))
	for _, l := range lines[1:] {
		words.Add(touch.NewText(l, touch.Strong, touch.Ink))
	}
	sign := container.New(layout.NewCustomPaddedLayout(0, 0, 0, 10), touch.NewSign(level, 40))
	return container.New(layout.NewCustomPaddedLayout(8, 8, 14, 14), touch.NewCard("Due now",
		container.NewBorder(nil, nil, sign, nil, words), b.heard))
}

// alarmLines words alarms, the latest first.
func alarmLines(list []model.Alarm, c *shopClock) []string {
	var lines []string
	for i := len(list) - 1; i >= max(len(list)-mostAlarms, 0); i-- {
		lines = append(lines, capitalised(list[i].Label)+", "+c.dated(list[i].Due))
	}
	if n := len(list) - mostAlarms; n > 0 {
		lines = append(lines, fmt.Sprintf("and %d more before", n))
	}
	return lines
}
