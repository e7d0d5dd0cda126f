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
	"meniscus/views/look"
	"meniscus/views/touch"
)

// mixAir tells of the bubbles in a pour.
type mixAir struct {
	page *mixingPage
	root *fyne.Container
	pane *pane
}

func newMixAir(p *mixingPage) *mixAir {
	a := &mixAir{page: p, pane: newPane(p.in)}
	a.root = container.NewStack(a.pane.root)
	return a
}

// see tells of a layer.
func (a *mixAir) see(shot *app.Snapshot, l *model.LayerPlan) {
	a.root.Hidden = true
	if l == nil || l.Status == model.Poured {
		return
	}
	air, ok := shot.Plan.Air(&shot.Project, l.ID)
	if !ok {
		return
	}
	a.root.Hidden = false
	flame := ""
	for _, n := range shot.Plan.Safety {
		if n.Kind == "flame" {
			flame = n.Text
		}
	}
	key := fmt.Sprint(shot.Project.ID, shot.Project.Style, l.ID, l.Name, air, flame)
	a.pane.show(key, func() fyne.CanvasObject {
		all := stack(touch.NewCard("Air: bubbles in "+l.Name, a.bubbles(shot, l, &air)))
		all.Add(touch.NewCard("Getting the air out", a.out(shot, l, &air, flame)))
		return all
	})
}

// airWorkingOf looks up the working of a figure about the air in a layer.
func airWorkingOf(layer string, fig model.Figured) workingOf {
	return func(shot *app.Snapshot) (model.Working, bool) { return shot.Plan.AirWorking(&shot.Project, layer, fig) }
}

// bubbles lists how long bubbles take to the surface.
func (a *mixAir) bubbles(shot *app.Snapshot, l *model.LayerPlan, air *model.Air) fyne.CanvasObject {
	s, w := shot.Project.Style, a.page.working
	of := airWorkingOf(l.ID, model.FigBubbles)
	rows := container.New(layout.NewCustomPaddedVBoxLayout(4))
	rows.Add(opensRow(w, shot, "As thick as, at "+s.Temperature(air.Resin), viscosityWords(s, air.Viscosity), of))
	if air.Viscosity.Typical {
		rows.Add(newDotted("typical viscosity, not all from the sheet").root)
	}
	if !air.Smallest.Absent {
		rows.Add(opensRow(w, shot, "Smallest that gets out in time", model.SmallLength(air.Smallest.Value), of))
		rows.Add(touch.NewText(fmt.Sprintf("between %s and %s; smaller ones stay, most too fine to see", model.SmallLength(air.Smallest.Low), model.SmallLength(air.Smallest.High)), touch.Small, touch.Faint))
	}
	rows.Add(touch.NewText("To rise through "+s.Length(air.Depth)+" in freshly mixed resin:", touch.Body, touch.Faint))
	for _, b := range air.Bubbles {
		words := bandedSpan(s, b.Time)
		if b.Reynolds >= 1 {
			words = "at once"
		}
		rows.Add(opensRow(w, shot, "a bubble of "+model.SmallLength(b.Size), words, of))
	}
	return rows
}

// viscosityWords writes a viscosity with its band.
func viscosityWords(s unit.Style, k model.Known[unit.Viscosity]) string {
	if k.Low == k.High {
		return s.Viscosity(twoFigures(k.Value))
	}
	return fmt.Sprintf("%s (%s to %s)", s.Viscosity(twoFigures(k.Value)), s.Viscosity(twoFigures(k.Low)), s.Viscosity(twoFigures(k.High)))
}

// twoFigures rounds what is known no finer.
func twoFigures[Q ~float64](v Q) Q {
	if v <= 0 {
		return v
	}
	ten := math.Pow10(int(math.Floor(math.Log10(float64(v)))) - 1)
	return Q(math.Round(float64(v)/ten) * ten)
}

// coarse rounds a time to whole minutes, and one of less than two minutes to
// five seconds.
func coarse(t unit.Span) unit.Span {
	grain := 5 * unit.Second
	switch {
	case t >= 2*unit.Minute:
		grain = unit.Minute
	case t < 20*unit.Second:
		grain = unit.Second
	}
	return unit.Span(math.Round(float64(t/grain))) * grain
}

// bandedSpan writes a time with its band.
func bandedSpan(s unit.Style, k model.Known[unit.Span]) string {
	return fmt.Sprintf("%s (%s to %s)", s.Span(coarse(k.Value)), s.Span(coarse(k.Low)), s.Span(coarse(k.High)))
}

// out tells what a warm bath, a vacuum and a flame do.
func (a *mixAir) out(shot *app.Snapshot, l *model.LayerPlan, air *model.Air, flame string) fyne.CanvasObject {
	s, w := shot.Project.Style, a.page.working
	rows := container.New(layout.NewCustomPaddedVBoxLayout(4))
	head := func(words string) {
		rows.Add(container.New(layout.NewCustomPaddedLayout(look.Gap, 0, 0, 0), touch.NewText(words, touch.Strong, touch.Ink)))
	}
	if len(air.Baths) > 0 {
		head("The mixed cup in warm water, not hot: about " + s.Temperature(model.BathWater))
		for _, b := range air.Baths {
			words := "costs " + s.Span(b.Costs.Value)
			if !b.Leaves.Absent {
				words += ", leaves " + s.Span(b.Leaves.Value)
			}
			rows.Add(opensRow(w, shot, s.Span(b.Minutes), words, airWorkingOf(l.ID, model.FigBath)))
			rows.Add(touch.NewText(fmt.Sprintf("it comes to %s (%s to %s); bubbles from %s leave the cup, without the bath from %s; it costs %s to %s of the working time",
				s.Temperature(b.Comes.Value), s.Temperature(b.Comes.Low), s.Temperature(b.Comes.High), model.SmallLength(b.Clears), model.SmallLength(b.Else), s.Span(b.Costs.Low), s.Span(b.Costs.High)), touch.Small, touch.Faint))
		}
		rows.Add(touch.NewText("20 to 30 minutes is common practice. Where it leaves little, warm the bottles before they are mixed instead.", touch.Small, touch.Faint))
	}
	if len(air.Vacuum) > 0 {
		head("Under vacuum")
		of := airWorkingOf(l.ID, model.FigVacuum)
		rows.Add(opensRow(w, shot, "Cup that holds the foam", fmt.Sprintf("%s to %s", s.Volume(twoFigures(air.Foam.Low)), s.Volume(twoFigures(air.Foam.High))), of))
		for _, v := range air.Vacuum {
			rows.Add(opensRow(w, shot, fmt.Sprintf("at %.0f kPa bubbles are %.1f times as wide", v.Pressure/1000, v.Diameter), "foam "+s.Volume(twoFigures(v.Foam.Value)), of))
		}
	}
	head("Flame or hot air")
	if air.LastPass.Absent {
		rows.Add(touch.NewText("How late it still helps is not known: the working time is missing.", touch.Body, touch.Ink))
	} else {
		rows.Add(opensRow(w, shot, "Helps until", s.Span(air.LastPass.Value)+" after mixing", airWorkingOf(l.ID, model.FigPass)))
		rows.Add(touch.NewText("Only for bubbles that have come to the surface: a short pass about 3, 10 and 25 minutes after the pour. It reaches none that are deeper.", touch.Small, touch.Faint))
	}
	if flame != "" {
		rows.Add(signed(touch.Check, flame))
	}
	return rows
}
