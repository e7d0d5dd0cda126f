package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// timeLine is one figure of a layer on a line of its own.
type timeLine struct {
	name  string
	value string
	tone  touch.Tone
	of    workingOf // its working; nil for none
	clock string    // what the clock shows then
	sheet string    // what the data sheet says of it
	dots  string    // the mark of a typical value
	check model.Verdict

	noLimit bool // there is none that the peak could be held against
}

// peakWords are how hot a pour gets against its limit, in a word.
var peakWords = map[model.Verdict]string{model.Fine: "cool enough", model.Beyond: "too hot", model.NotKnown: "may get too hot"}

// timeShares are the line's columns.
var timeShares = shares{0.20, 0.28, 0.19, 0.33}

// row draws the line.
func (l timeLine) row(w *workingPanel, shot *app.Snapshot) fyne.CanvasObject {
	var value fyne.CanvasObject = touch.NewText(l.value, touch.Strong, l.tone)
	if l.of != nil && has(shot, l.of) {
		o := w.opens(l.value, touch.Strong, l.of)
		o.SetTone(l.tone)
		value = o
	} else {
		value = container.New(layout.NewCustomPaddedLayout(0, 0, 6, 0), value)
	}
	sheet := container.New(layout.NewCustomPaddedVBoxLayout(0))
	switch l.check {
	case model.Fine:
		sheet.Add(touch.NewLine(peakWords[l.check], touch.Strong, touch.GoodTone))
	case model.Beyond:
		sheet.Add(touch.NewLine(peakWords[l.check], touch.Strong, touch.StopTone))
	case model.NotKnown:
		word := peakWords[l.check]
		if l.noLimit {
			word = string(l.check)
		}
		sheet.Add(touch.NewLine(word, touch.Strong, touch.CheckTone))
	}
	sheet.Add(touch.NewText(l.sheet, touch.Small, touch.Faint))
	if l.dots != "" {
		sheet.Add(newDotted(l.dots).root)
	}
	return container.New(timeShares, touch.NewText(l.name, touch.Body, touch.Ink), value, touch.NewText(l.clock, touch.Small, touch.Ink), sheet)
}

// simulated gives the lines of a layer that could be simulated.
func (t *cureTimes) simulated(shot *app.Snapshot, i int, sheet *model.Sheet, c *model.LayerCuring) []timeLine {
	s, plan := shot.Project.Style, &shot.Plan.Layers[i]
	here := plan.Times
	list := []timeLine{t.peak(s, c)}
	add := func(name string, k model.Known[unit.Span], fig model.Figured, said string) {
		line := timeLine{name: name, value: "not known", of: figureOf(c.ID, fig), sheet: said}
		if k.Absent {
			line.sheet = k.Source
		} else {
			line.value = spanWords(s, k)
			line.clock = t.at(c, k)
		}
		list = append(list, line)
	}
	nothing := model.Known[unit.Span]{Absent: true}
	if !c.RunsAway && !c.Peak.Absent {
		add("Hottest after", c.PeakAfter, model.FigPeak, "")
	}
	add("Working time", c.Working, model.FigWorking, besideWords(s, sheet.WorkingTime, here.Working))
	if c.RunsAway {
		return list // past that nothing can be told
	}
	add("Sets, the first of it", c.GelFirst, model.FigGel, besideWords(s, sheet.Gel, nothing))
	add("Sets, the last of it", c.GelLast, model.FigGel, "")
	last := i == len(shot.Plan.Layers)-1
	if !last && c.Shut() {
		closed := c.RecoatFrom
		closed.Absent, closed.Source = true, "no time is sure: let it harden, and sand it"
		add("Next pour", closed, model.FigRecoat, besideWords(s, sheet.RecoatFrom, here.RecoatFrom))
	} else if !last {
		add("Next pour from", c.RecoatFrom, model.FigRecoat, besideWords(s, sheet.RecoatFrom, here.RecoatFrom))
		add("Next pour, best", c.RecoatBest, model.FigRecoat, "")
		add("Next pour until", c.RecoatTo, model.FigRecoat, besideWords(s, sheet.RecoatTo, here.RecoatTo))
	}
	add("Ready to demold", c.Demold, model.FigDemold, besideWords(s, sheet.Demold, here.Demold))
	add("Ready to cut and sand", c.Sand, model.FigSand, "")
	if last {
		list = append(list, t.scaledLine(shot, plan, "Full cure", sheet.FullCure, here.FullCure, model.FigFullCure))
	}
	return list
}

// peak is the line of the hottest that a layer gets.
func (t *cureTimes) peak(s unit.Style, c *model.LayerCuring) timeLine {
	line := timeLine{name: "Peak heat", of: figureOf(c.ID, model.FigPeak), check: c.PeakCheck}
	limit := "the limit is not known"
	if !c.PeakLimit.Absent {
		limit = "limit " + tempWords(s, c.PeakLimit)
		if c.PeakLimit.Source != "" {
			limit += ", " + c.PeakLimit.Source
		}
		if c.PeakLimit.Typical {
			line.dots = "a typical limit"
		}
	}
	line.sheet, line.noLimit = limit, c.PeakLimit.Absent
	switch {
	case c.RunsAway:
		line.value, line.tone = "runs away", touch.StopTone
		line.check = model.Beyond
		if !c.RunsAfter.Absent && c.RunsAfter.Value > 0 {
			line.sheet = "after " + spanWords(s, c.RunsAfter) + "; " + limit
			line.clock = t.at(c, c.RunsAfter)
		}
	case c.Peak.Absent:
		line.value, line.sheet = "not known", c.Peak.Source
	default:
		line.value = tempWords(s, c.Peak)
		if c.PeakCheck == model.Beyond {
			line.tone = touch.StopTone
		}
	}
	return line
}

// at gives what the clock shows so long after a layer's pour; nothing where no
// pour has been started or planned.
func (t *cureTimes) at(c *model.LayerCuring, after model.Known[unit.Span]) string {
	if c.Start.IsZero() {
		return ""
	}
	return t.page.clock.dayTime(c.Start.Add(after.Value.Duration()))
}

// besideWords says what the sheet gives, and what that makes in this room, its
// nights and readings counted.
func besideWords(s unit.Style, f model.Figure[unit.Span], here model.Known[unit.Span]) string {
	if !f.Given() {
		return "the sheet does not say"
	}
	said := "sheet: " + s.Span(f.Value) + sheetConditions(s, f)
	if !here.Absent {
		said += "; in this room " + s.Span(here.Value)
	}
	return said
}

// scaled gives the lines of a layer that was not simulated: the sheet's times
// in this room.
func (t *cureTimes) scaled(shot *app.Snapshot, i int, sheet *model.Sheet) []timeLine {
	l := &shot.Plan.Layers[i]
	list := []timeLine{t.scaledLine(shot, l, "Working time", sheet.WorkingTime, l.Times.Working, model.FigWorking)}
	if i < len(shot.Plan.Layers)-1 {
		return append(list,
			t.scaledLine(shot, l, "Next pour from", sheet.RecoatFrom, l.Times.RecoatFrom, model.FigRecoat),
			t.scaledLine(shot, l, "Next pour until", sheet.RecoatTo, l.Times.RecoatTo, model.FigRecoatEnd))
	}
	return append(list,
		t.scaledLine(shot, l, "Demold after", sheet.Demold, l.Times.Demold, model.FigDemold),
		t.scaledLine(shot, l, "Full cure after", sheet.FullCure, l.Times.FullCure, model.FigFullCure))
}

// scaledLine is a time of the sheet in this room.
func (t *cureTimes) scaledLine(shot *app.Snapshot, l *model.LayerPlan, name string, f model.Figure[unit.Span], k model.Known[unit.Span], fig model.Figured) timeLine {
	if k.Absent {
		return timeLine{name: name, value: "not known", sheet: k.Source}
	}
	s := shot.Project.Style
	said := "in this room"
	if f.Given() {
		said = "sheet: " + s.Span(f.Value) + sheetConditions(s, f) + "; " + said
	}
	if k.Low != k.High {
		said += ", between " + s.Span(k.Low) + " and " + s.Span(k.High)
	}
	line := timeLine{name: name, value: s.Span(k.Value), sheet: said, of: func(shot *app.Snapshot) (model.Working, bool) {
		return shot.Plan.ScaledWorking(&shot.Project, l.ID, fig)
	}}
	if start, begun := shot.Project.PourStart(l.ID); begun {
		line.clock = t.page.clock.dayTime(start.At.Add(k.Value.Duration()))
	}
	switch {
	case !f.Given():
		line.dots = "typical, not from the sheet"
	case k.Typical:
		line.dots = "temperature not given: 20 °C"
	}
	return line
}
