package views

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// settling says for each size of grain whether the pour has to wait.
func (t *mixTint) settling(shot *app.Snapshot, l *model.LayerPlan, list []model.Settling) fyne.CanvasObject {
	s, w := shot.Project.Style, t.page.working
	of := func(shot *app.Snapshot) (model.Working, bool) {
		return shot.Plan.SettlingWorking(&shot.Project, &shot.Curing, l.ID)
	}
	rows := container.New(layout.NewCustomPaddedVBoxLayout(4))
	for _, g := range list {
		rows.Add(opensRow(w, shot, brief(capitalised(g.What), 34)+", "+model.SmallLength(g.Size), settlesShort(s, &g), of))
		rows.Add(touch.NewText(settlesWords(s, l, &g), touch.Small, touch.Faint))
	}
	return rows
}

// settlesShort is the one thing to do about a grain.
func settlesShort(s unit.Style, g *model.Settling) string {
	switch {
	case g.After.Value == 0:
		return "stays"
	case g.Late:
		return "will settle"
	}
	return "pour after " + s.Span(upTo5(g.After.Value))
}

// settlesWords says what becomes of a grain in a layer.
func settlesWords(s unit.Style, l *model.LayerPlan, g *model.Settling) string {
	sinks := fmt.Sprintf("it sinks %s (%s to %s)", model.SmallLength(g.Sinks.Value), model.SmallLength(g.Sinks.Low), model.SmallLength(g.Sinks.High))
	floor := g.Sinks.Value >= l.Depth
	if floor {
		sinks = "it ends on the floor"
	}
	switch {
	case g.After.Value == 0:
		return "poured at once " + sinks + " before the resin sets"
	case g.Late:
		return fmt.Sprintf("poured at once %s; it would have to wait for %s, longer than the working time of %s. Use finer grains, or a resin that sets sooner", sinks, s.Span(upTo5(g.After.Value)), s.Span(l.Times.Working.Value))
	case floor:
		return fmt.Sprintf("pour it after minute %.0f, or it will lie on the floor", float64(upTo5(g.After.Value)/unit.Minute))
	}
	return fmt.Sprintf("pour it after minute %.0f; poured at once %s", float64(upTo5(g.After.Value)/unit.Minute), sinks)
}

// upTo5 rounds a wait up to five minutes.
func upTo5(t unit.Span) unit.Span {
	return unit.Span(math.Ceil(float64(t/(5*unit.Minute)))) * 5 * unit.Minute
}
