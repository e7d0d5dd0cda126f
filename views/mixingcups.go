package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// mixCups tells how the mix of a layer is shared among cups, so that each is
// poured before it thickens.
type mixCups struct {
	page *mixingPage
	root *touch.Card
	pane *pane
}

// cupRests are how long a mixed cup can be let rest.
var cupRests = []touch.Option{{ID: "", Label: "none"}, {ID: "5 min", Label: "5 min"}, {ID: "10 min", Label: "10 min"}, {ID: "20 min", Label: "20 min"}}

func newMixCups(p *mixingPage) *mixCups {
	c := &mixCups{page: p, pane: newPane(p.in)}
	holds := p.in.measured("mixing/cupHolds", "Your largest cup takes", "how much of the mix you would fill it with, leaving room to stir", touch.Mass)
	c.root = touch.NewCard("Cups", container.New(layout.NewCustomPaddedVBoxLayout(10), c.pane.root, holds, touch.Labelled("Let it rest once it is mixed", c.rest())))
	return c
}

// rest chooses how long each cup rests before it is poured.
func (c *mixCups) rest() fyne.CanvasObject {
	const path = "mixing/cupRest"
	in := c.page.in
	choice := touch.NewChoice(cupRests, "", func(id string) { in.choose(path, id) })
	in.bind(path, func(shot *app.Snapshot) {
		text, _ := model.Show(&shot.Project, path)
		choice.SetChosen(text)
	})
	return choice
}

// see tells of a layer, which may be nil.
func (c *mixCups) see(shot *app.Snapshot, l *model.LayerPlan) {
	cups, words := cupsOf(shot, l)
	if cups == nil {
		c.pane.show(words, func() fyne.CanvasObject { return touch.NewText(words, touch.Body, touch.Faint) })
		return
	}
	s := shot.Project.Style
	c.pane.show(fmt.Sprintf("%v %v %v %+v", s, l.Mix.Step, len(l.ByCavity), *cups), func() fyne.CanvasObject { return cupRows(s, l, cups) })
}

// cupsOf gives the cups of a layer's mix, or says why there are none to show.
func cupsOf(shot *app.Snapshot, l *model.LayerPlan) (*model.CupPlan, string) {
	if l == nil {
		return nil, "For each pour: the fewest cups that are poured out before they thicken."
	}
	c := curingOf(shot, l.ID)
	fresh := shot.CuringFresh
	switch {
	case l.Status == model.Poured && (c == nil || c.Cups == nil):
		return nil, capitalised(l.Name) + " has been poured."
	case !l.Mix.Ready:
		return nil, "Not known yet: " + missingWords(l) + "."
	case c != nil && c.Cups != nil && c.Cups.Ready && (fresh || c.Cups.Possible && c.Cups.Of(&l.Mix)):
		return c.Cups, ""
	case !fresh && shot.CuringTrouble == "":
		return nil, "Being worked out…"
	case shot.CuringTrouble != "":
		return nil, capitalised(shot.CuringTrouble) + "."
	case c != nil && c.Why != "":
		return nil, "Not known: " + c.Why + "."
	}
	return nil, "Not known: it cannot be simulated."
}

// cupRows shows the cups one below the other, and what to know about them.
func cupRows(s unit.Style, l *model.LayerPlan, cups *model.CupPlan) fyne.CanvasObject {
	rows := container.New(layout.NewCustomPaddedVBoxLayout(8))
	if !cups.Possible {
		rows.Add(signed(touch.Stop, "It cannot be poured in time: "+cups.Why+"."))
		rows.Add(touch.NewText("The smallest change: "+cups.Change+".", touch.Strong, touch.Ink))
		return forgottenRow(rows, cups)
	}
	rows.Add(touch.NewText(cupsHead(s, l.Mix.Step, cups), touch.Title, touch.Ink))
	last := ""
	for i := range cups.Batches {
		row := cupRow(s, l, cups, i)
		if words := cupTimes(s, &cups.Batches[i]); words != last {
			row.Add(touch.NewText(words, touch.Small, touch.Faint))
			last = words
		}
		rows.Add(container.New(layout.NewCustomPaddedLayout(0, look.Gap/2, 0, 0), row))
	}
	if cups.Binds != "" {
		rows.Add(touch.NewText("Not fewer, because of "+cups.Binds+".", touch.Body, touch.Ink))
	}
	for _, words := range cups.Cautions {
		rows.Add(signed(touch.Check, capitalised(words)+"."))
	}
	forgottenRow(rows, cups)
	rows.Add(stack(newDotted("usual times, not yours").root, touch.NewText(model.CupHabits(s), touch.Small, touch.Faint)))
	return rows
}

// forgottenRow adds what a cup left standing comes to, where that is known.
func forgottenRow(rows *fyne.Container, cups *model.CupPlan) fyne.CanvasObject {
	if cups.Forgotten.Text != "" {
		rows.Add(signed(touch.Check, cups.Forgotten.Text))
	}
	return rows
}

// cupsHead says how many cups there are, and how long they take.
func cupsHead(s unit.Style, step unit.Mass, cups *model.CupPlan) string {
	if len(cups.Batches) == 1 {
		b := &cups.Batches[0]
		return fmt.Sprintf("One cup of %s, poured %s after its parts meet", s.MassTo(b.Mass, step), s.Span(b.PourEnds()))
	}
	return fmt.Sprintf("%d cups, the last poured %s after the first is begun", len(cups.Batches), s.Span(cups.Ends))
}

// cupRow shows one cup: when to begin it, what to weigh, and where it goes.
func cupRow(s unit.Style, l *model.LayerPlan, cups *model.CupPlan, i int) *fyne.Container {
	b, step := &cups.Batches[i], l.Mix.Step
	rows := container.New(layout.NewCustomPaddedVBoxLayout(1))
	if len(cups.Batches) > 1 {
		begin := "first"
		if b.Start > 0 {
			begin = "begin after " + s.Span(b.Start)
		}
		rows.Add(timeHead(fmt.Sprintf("Cup %d · %s", i+1, begin), s.MassTo(b.Mass, step)))
		rows.Add(touch.NewText(fmt.Sprintf("A %s, B %s", s.MassTo(b.A, step), s.MassTo(b.B, step)), touch.Strong, touch.Ink))
	}
	if len(l.ByCavity) > 1 {
		rows.Add(touch.NewText(intoWords(s, step, b), touch.Body, touch.Ink))
	}
	return rows
}

// cupTimes says how long a cup takes, and how much time is left.
func cupTimes(s unit.Style, b *model.Batch) string {
	rest := ""
	if b.Rest > 0 {
		rest = "rest " + s.Span(b.Rest) + ", "
	}
	return fmt.Sprintf("Mix %s, %spour within %s: %s to spare before %v of its working time of %s is over", s.Span(b.Mix), rest, s.Span(b.Pour), s.Span(b.Spare), model.WorkingPart, s.Span(b.Working))
}

// intoWords says which cavities a cup goes into.
func intoWords(s unit.Style, step unit.Mass, b *model.Batch) string {
	var list []string
	for _, in := range b.Into {
		words := fmt.Sprintf("%d: %s", in.Cavity, s.MassTo(in.Mass, step))
		if in.Part {
			words += ", part of it"
		}
		list = append(list, words)
	}
	return "Into cavity " + strings.Join(list, " · ")
}
