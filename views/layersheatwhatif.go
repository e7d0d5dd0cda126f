package views

import (
	"math"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// whatIf is the strip of sliders that asks what would become of the chosen pour
// in a warmer room, or deeper, or with the next one later, or with the ratio
// off. The limits stay drawn where they are; the answers move with the finger.
type whatIf struct {
	page   *layersPage
	layer  string
	root   fyne.CanvasObject
	shot   *shotOf
	room   *touch.Slider
	depth  *touch.Slider
	delay  *touch.Slider // nil for the last pour
	ratio  *touch.Slider
	back   *touch.Button
	gauges *drawing.Picture
	words  *touch.Text
	seen   int // edition that the sliders were last asked about
}

// How far the sliders of the strip go to either side.
const (
	mostWarmer = 8.0  // K
	mostDeeper = 10.0 // mm
	mostLater  = 6.0  // h
	mostOff    = 0.10 // of the hardener
)

func newWhatIf(p *layersPage, s *shotOf) *whatIf {
	w := &whatIf{page: p, layer: s.layer.ID, shot: s}
	changed := func(float64) { w.ask() }
	w.room = touch.NewSlider("Room", -mostWarmer, mostWarmer, 0.5, changed)
	w.room.Words = func(v float64) string {
		st := w.shot.Project.Style
		return shifted(v, st.Temperature(w.shot.layer.Times.Room+unit.Temperature(v)), st.TempRise(unit.TempRise(v)))
	}
	step, most := 1.0, mostDeeper
	if s.Project.Style.LengthUnit() == unit.InInches {
		step, most = unit.Inch.Millimetres()/16, unit.Inch.Millimetres()*6/16
	}
	w.depth = touch.NewSlider("This pour", -most, most, step, changed)
	w.depth.Words = func(v float64) string {
		st := w.shot.Project.Style
		return shifted(v, st.Length(w.shot.layer.Depth+unit.Millimetre.Times(v)), st.Length(unit.Millimetre.Times(v)))
	}
	w.ratio = touch.NewSlider("Hardener", -mostOff, mostOff, 0.01, changed)
	w.ratio.Words = func(v float64) string {
		off := strconv.FormatFloat(math.Round(100*math.Abs(v)), 'f', 0, 64) + " %"
		switch {
		case v > 0.001:
			return off + " too much"
		case v < -0.001:
			return off + " too little"
		}
		return "as it should be"
	}
	sliders := container.New(layout.NewGridLayout(2))
	if s.Plan.Layers[len(s.Plan.Layers)-1].ID != w.layer {
		w.delay = touch.NewSlider("Next pour", -mostLater, mostLater, 0.5, changed)
		w.delay.Words = func(v float64) string {
			h := w.shot.Project.Style.Span(unit.Hour.Times(math.Abs(v)))
			switch {
			case v > 0.01:
				return h + " later"
			case v < -0.01:
				return h + " too early"
			}
			return "as it opens"
		}
	}
	for i, x := range w.all() {
		x.SetHome(0)
		x.SetValue(0)
		sliders.Add(container.New(layout.NewCustomPaddedLayout(0, 0, 8*float32(i%2), 8*float32(1-i%2)), x)) // apart from its neighbour
	}
	w.back = touch.NewStyledButton("Back to the plan", touch.Quiet, w.rest)
	w.gauges = drawing.NewPicture(p.desk.fonts, fyne.NewSize(200, gaugeHigh*3), p.desk.palette().Panel, nil)
	w.words = touch.NewText("", touch.Body, touch.Ink)
	w.root = touch.NewCard("What if", container.New(layout.NewCustomPaddedVBoxLayout(8), sliders, w.gauges, w.words), w.back)
	return w
}

// shifted writes a value that was moved off the plan, with by how much.
func shifted(v float64, value, by string) string {
	switch {
	case v > 1e-9:
		return value + " (+" + by + ")"
	case v < -1e-9:
		return value + " (" + by + ")"
	}
	return value
}

// all are the sliders of the strip.
func (w *whatIf) all() []*touch.Slider {
	list := []*touch.Slider{w.room, w.depth}
	if w.delay != nil {
		list = append(list, w.delay)
	}
	return append(list, w.ratio)
}

// asked is what the sliders ask.
func (w *whatIf) asked() model.WhatIf {
	q := model.WhatIf{Room: unit.TempRise(w.room.Value()), Depth: unit.Millimetre.Times(w.depth.Value()), Ratio: w.ratio.Value()}
	if w.delay != nil {
		q.Delay = unit.Hour.Times(w.delay.Value())
	}
	return q
}

// rest puts the sliders back to the plan.
func (w *whatIf) rest() {
	for _, x := range w.all() {
		x.SetValue(0)
	}
	w.ask()
}

// see shows a snapshot; what the sliders ask is asked of it anew.
func (w *whatIf) see(s *shotOf) {
	w.shot = s
	for _, x := range w.all() {
		x.Refresh()
	}
	if w.seen == 0 || w.seen != s.Edition {
		w.seen = s.Edition
		w.ask()
	}
}

// ask asks what the sliders say; the strip at rest shows the plan.
func (w *whatIf) ask() {
	q := w.asked()
	if q == (model.WhatIf{}) {
		w.back.Disable()
		w.show(nil, "")
		return
	}
	w.back.Enable()
	w.page.panel.ask(w.layer, q, func(a model.WhatIfAnswer, err error) {
		if w.asked() == (model.WhatIf{}) {
			return // put back meanwhile
		}
		if err != nil {
			w.show(nil, capitalised(problemWords(err))+".")
			return
		}
		text := ""
		for _, t := range a.Texts {
			text += capitalised(t) + ". "
		}
		w.show(&a, text)
	})
}

// show draws an answer, or the plan for none.
func (w *whatIf) show(a *model.WhatIfAnswer, words string) {
	w.words.SetText(words)
	l, ok := w.shot.curing()
	if !ok {
		return
	}
	palette := w.page.desk.palette()
	g := gauges{s: w.shot, l: l, a: a, palette: palette, last: w.delay == nil}
	w.gauges.Set(palette.Panel, g.paint)
}
