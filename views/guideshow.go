package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// putAwayLabel is on the buttons that end the guidance for good.
const putAwayLabel = "Put away"

// guideCard lists the steps of the guidance in the notebook, each leading to its place.
type guideCard struct {
	guide *guide
	root  *touch.Card
	ticks []*tickBox
}

func newGuideCard(g *guide) *guideCard {
	c := &guideCard{guide: g}
	rows := sideBySideUpTo(2)
	for i, step := range guideSteps {
		tick := newTickBox(22)
		c.ticks = append(c.ticks, tick)
		arrow := container.NewCenter(touch.NewLine("→", touch.Title, touch.Touchable))
		words := container.New(layout.NewCustomPaddedLayout(0, 0, 8, 6), amid(touch.NewText(step.words, touch.Body, touch.Ink)))
		rows.Add(touch.NewRow(container.NewBorder(nil, nil, container.NewCenter(tick), arrow, words), func() { g.lead(i) }))
	}
	c.root = touch.NewCard("Six things to try", rows, touch.NewStyledButton(putAwayLabel, touch.Quiet, g.putAway))
	return c
}

// see shows what has been tried.
func (c *guideCard) see(shot *app.Snapshot) {
	for i, step := range guideSteps {
		c.ticks[i].set(c.guide.done(step.try))
	}
	showIf(c.root, c.guide.on(shot))
}

// guideStrip is the step that was led to, across the top of its window.
type guideStrip struct {
	guide *guide
	key   string // of its window
	root  *fyne.Container
	tick  *tickBox
	words *touch.Text
	next  *touch.Button
}

func newGuideStrip(g *guide, key string) *guideStrip {
	s := &guideStrip{guide: g, key: key, tick: newTickBox(22), words: touch.NewText("", touch.Body, touch.Ink)}
	s.next = touch.NewButton("Next", func() {
		if i, ok := g.next(); ok {
			g.lead(i)
		}
	})
	acts := container.NewHBox(s.next, touch.NewStyledButton(putAwayLabel, touch.Quiet, g.putAway))
	s.root = container.NewStack(canvas.NewRectangle(look.Current().Panel), container.New(layout.NewCustomPaddedLayout(4, 4, 14, 14),
		container.NewBorder(nil, nil, container.NewCenter(s.tick), acts, container.New(layout.NewCustomPaddedLayout(0, 0, look.Gap, look.Gap), amid(s.words)))))
	s.root.Hide()
	return s
}

// see shows the step where it is of this window.
func (s *guideStrip) see(shot *app.Snapshot) {
	g := s.guide
	here := g.on(shot) && g.at >= 0 && g.in == s.key
	if here {
		step := guideSteps[g.at]
		s.tick.set(g.done(step.try))
		s.words.SetText(fmt.Sprintf("%d of %d. %s", g.at+1, len(guideSteps), step.words))
		_, more := g.next()
		showIf(s.next, more)
		s.root.Objects[0].(*canvas.Rectangle).FillColor = look.Current().Panel
	}
	showIf(s.root, here)
	if here {
		s.root.Refresh()
	}
}
