package views

import (
	"fmt"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// What the section is coloured by.
const (
	byTemperature = "temperature"
	byCure        = "cure"
)

// heatStage is what stands below the section while the part "heat" is open: the
// scale of its colours, the time that it shows, and the chart of the whole
// course over the same axis of time.
type heatStage struct {
	page   *layersPage
	root   *fyne.Container
	shown  *touch.Choice
	top    *touch.Button // goes to the hottest moment
	key    *drawing.Picture
	words  *touch.Brief
	when   *touch.Text
	busy   *touch.Text
	why    *touch.Text // why there is nothing to show
	slider *touch.Slider
	body   *fyne.Container
	chart  *heatChart

	clock  shopClock
	minute time.Time // that the chart was last drawn in
	shot   *shotOf
	layer  string // whose peak the slider was last taken to
	across bool   // the section across the wood, at its hottest, is shown
	scale  heatScale
}

func newHeatStage(p *layersPage) *heatStage {
	h := &heatStage{page: p}
	h.shown = touch.NewChoice([]touch.Option{{ID: byTemperature, Label: "Temperature"}, {ID: byCure, Label: "How far cured"}}, byTemperature, func(string) { h.draw() })
	h.top = touch.NewButton("At its hottest", h.toPeak)
	h.key = drawing.NewPicture(p.desk.fonts, fyne.NewSize(180, look.Target+2), p.desk.palette().Ground, nil)
	h.words = touch.NewBrief("", touch.Body, touch.Ink)
	h.when = touch.NewLine("", touch.Strong, touch.Ink)
	h.when.Align = fyne.TextAlignTrailing
	h.busy = touch.NewLine("working it out…", touch.Small, touch.Faint)
	h.why = touch.NewText("", touch.Body, touch.Faint)
	h.slider = touch.NewSlider("Time", 0, 1, 0, func(float64) {
		h.across = false
		h.draw()
	})
	h.slider.Words, h.slider.Bare = h.hour, true
	h.chart = newHeatChart(p, h.slider)
	head := container.New(&orBelow{}, h.shown, container.NewBorder(nil, nil, nil, h.top, h.key))
	said := container.NewBorder(nil, nil, nil, container.NewHBox(h.busy, container.NewGridWrap(fyne.NewSize(170, 22), h.when)), h.words)
	h.body = container.NewBorder(container.New(layout.NewCustomPaddedVBoxLayout(4), head, said, h.slider), nil, nil, nil, h.chart.root)
	h.root = container.New(layout.NewCustomPaddedLayout(4, 2, 16, 12), container.NewStack(h.body, h.why))
	h.root.Hide()
	return h
}

// see shows a snapshot.
func (h *heatStage) see(s *shotOf) {
	h.shot = s
	h.clock.set(s.Project.Shop.Zone)
	c := &s.Curing
	from, to, ok := c.Trace.Ends()
	why := heatWhy(s)
	h.body.Hidden, h.why.Hidden = !ok || why != "", ok && why == ""
	h.why.SetText(why)
	h.busy.Hidden = s.CuringFresh
	if !ok || why != "" {
		return
	}
	h.scale = scaleOf(s)
	h.slider.SetRange(float64(from), float64(heatEnd(s, to)), float64(unit.Hour)/20)
	h.slider.Keys = float64(unit.Hour) / 2
	if s.layer != nil && h.layer != s.layer.ID {
		h.layer = s.layer.ID
		h.rest()
	}
	h.chart.see(s)
	h.draw()
}

// rest takes the slider to where a look at the chosen pour begins: now, while it
// cures, else its hottest hour.
func (h *heatStage) rest() {
	now := unit.SpanOf(h.page.desk.session.Now().Sub(h.shot.Curing.Start))
	l, ok := h.shot.curing()
	if !ok {
		return
	}
	at := h.shot.poured() + l.PeakAfter.Value
	if _, to, _ := h.shot.Curing.Trace.Ends(); !l.Assumed && now > h.shot.poured() && now < to {
		at = now
	}
	h.across = false
	h.slider.SetValue(float64(at))
}

// tick moves the mark of the instant that is now, once a minute.
func (h *heatStage) tick(now time.Time) {
	if minute := now.Truncate(time.Minute); !minute.Equal(h.minute) {
		h.minute = minute
		if h.shot != nil && h.root.Visible() && !h.body.Hidden {
			h.chart.see(h.shot)
		}
	}
}

// toPeak goes to the hottest hour of the chosen pour.
func (h *heatStage) toPeak() {
	l, ok := h.shot.curing()
	if !ok {
		return
	}
	at := h.shot.poured() + l.PeakAfter.Value
	if h.across = l.Beside != nil && l.Beside.Field != nil; h.across {
		at = h.shot.poured() + l.Beside.PeakAfter
	}
	h.slider.SetValue(float64(at))
	h.draw()
}

// curing gives what the simulation says of the chosen pour; false when there is
// none, or it could not be simulated.
func (s *shotOf) curing() (*model.LayerCuring, bool) {
	i := s.index()
	if i < 0 {
		return nil, false
	}
	return &s.Curing.Layers[i], s.Curing.Layers[i].Ready
}

// poured gives when the chosen pour begins, since the first.
func (s *shotOf) poured() unit.Span {
	at, _ := s.Curing.Trace.PouredAt(s.index())
	return at
}

// index is the place of the chosen pour in the simulation, which may be of an
// older plan; below zero when it is not in it.
func (s *shotOf) index() int {
	for i := range s.Curing.Layers {
		if s.layer != nil && s.Curing.Layers[i].ID == s.layer.ID {
			return i
		}
	}
	return -1
}

// at is the time that is shown.
func (h *heatStage) at() unit.Span { return unit.Span(h.slider.Value()) }

// draw shows the time that the slider stands at; it is all that a finger on the
// slider costs.
func (h *heatStage) draw() {
	if h.shot == nil || h.body.Hidden {
		return
	}
	frame := h.shot.Curing.Trace.At(h.at())
	cured := h.shown.Chosen() == byCure
	p := h.page
	p.colour(h.scale.section(h.shot, &frame, cured, h.across))
	ground, key := p.desk.palette().Ground, h.scale.key(h.shot, &frame, cured)
	style := sectionStyle(p.desk, h.shot.Snapshot)
	h.key.Set(ground, func(s drawing.Surface) { key.Paint(s, style) })
	h.words.SetText(heatWords(h.shot, &frame, h.across))
	h.when.SetText(h.slider.Text())
	h.chart.point(h.slider.Value())
}

// hour writes a time of the slider: "hour 14.5, Sat 08:30".
func (h *heatStage) hour(v float64) string {
	if h.shot == nil {
		return ""
	}
	at := unit.Span(v)
	words := "hour " + strconv.FormatFloat(at.Hours(), 'f', 1, 64)
	if h.shot.Curing.Start.IsZero() {
		return words // no day is planned yet
	}
	return words + ", " + h.clock.short(h.shot.Curing.Start.Add(at.Duration()).Round(time.Minute))
}

// heatEnd is where the axis of time ends: when every pour is past its peak and
// the window for the next has closed, or a little after all can come out, where
// that is sooner.
func heatEnd(s *shotOf, to unit.Span) unit.Span {
	const least = 6 * unit.Hour
	var end, out unit.Span
	for i := range s.Curing.Layers {
		l := &s.Curing.Layers[i]
		at, ok := s.Curing.Trace.PouredAt(i)
		if !ok || !l.Ready {
			continue
		}
		end = max(end, at+max(least, l.PeakAfter.Value.Times(4), l.RecoatTo.Value.Times(1.4)))
		if l.Demold.Absent {
			out = to
		}
		out = max(out, at+l.Demold.Value.Times(1.15))
	}
	if end = min(end, to, max(out, least)); end <= 0 {
		return to
	}
	return end
}

// heatWhy says why there is no course to show; "" when there is one.
func heatWhy(s *shotOf) string {
	if len(s.Curing.Trace.Frames) > 0 {
		return ""
	}
	switch {
	case s.layer == nil:
		return "How warm a pour gets is told once one is planned."
	case !s.CuringFresh:
		return "Working out how warm it gets…"
	case s.CuringTrouble != "":
		return capitalised(s.CuringTrouble) + "."
	}
	for i := range s.Curing.Layers {
		if l := &s.Curing.Layers[i]; !l.Ready && l.Why != "" {
			return capitalised(l.Why) + "."
		}
	}
	return "How warm it gets is not known."
}

// heatWords says what the resin does at the time that is shown.
func heatWords(s *shotOf, f *model.TraceFrame, across bool) string {
	if across {
		if l, ok := s.curing(); ok {
			return fmt.Sprintf("Across the resin between the wood, at its hottest: %s.", tempWords(s.Project.Style, l.Beside.Peak))
		}
	}
	st, at := s.Project.Style, s.index()
	hot, poured := f.Hottest(at)
	if !poured {
		return fmt.Sprintf("Not poured yet; the room is at %s.", st.Temperature(f.Room))
	}
	var top model.TraceCell
	for _, c := range f.Cells {
		if c.Layer == at {
			top = c
		}
	}
	warm := func(t unit.Temperature) string { return tempWords(st, model.Known[unit.Temperature]{Value: t}) }
	return fmt.Sprintf("Hottest %s, %s up, %s cured; surface %s, %s cured", warm(hot.State.T), heightWords(st, hot.Middle()),
		percent(hot.State.A), warm(top.State.T), percent(top.State.A))
}

// heightWords writes the height of a place in the resin in whole millimetres,
// or to the sixteenth of an inch: no simulation tells it finer.
func heightWords(s unit.Style, h unit.Length) string {
	if s.LengthUnit() == unit.InInches {
		return s.LengthIn(h, unit.InInches, unit.Sixteenth)
	}
	return s.LengthIn(h, s.LengthUnit(), unit.WholeMillimetre)
}

// percent writes a conversion in whole percent.
func percent(a float64) string { return strconv.Itoa(int(a*100+0.5)) + " %" }
