package views

import (
	"math"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// heatChart is the course of the chosen pour over time, with a line at the time
// that the slider above it shows. The slider's track lies right over its axis.
type heatChart struct {
	page    *layersPage
	root    *fyne.Container
	picture *drawing.Picture
	cursor  *canvas.Rectangle
	slider  *touch.Slider
	chart   drawing.Chart
	at      float64 // seconds since the first pour, that the cursor shows
}

// cursorWide is the width of the line that shows the slider's time.
const cursorWide float32 = 2

func newHeatChart(p *layersPage, slider *touch.Slider) *heatChart {
	c := &heatChart{page: p, slider: slider, cursor: canvas.NewRectangle(look.Current().Accent)}
	c.picture = drawing.NewPicture(p.desk.fonts, fyne.NewSize(300, 150), p.desk.palette().Ground, nil)
	c.root = container.New(c, c.picture, c.cursor)
	return c
}

// MinSize is that of the chart.
func (c *heatChart) MinSize([]fyne.CanvasObject) fyne.Size { return c.picture.MinSize() }

// Layout gives the chart all the room, and lines the slider up with its plot.
func (c *heatChart) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	c.picture.Resize(size)
	c.align(size)
}

// align lines the slider up with the plot and sets the cursor.
func (c *heatChart) align(size fyne.Size) {
	plot, ok := c.plot(size)
	if !ok {
		return
	}
	c.slider.SetTrack(float32(plot.Min.X), size.Width-float32(plot.Max.X))
	c.set(plot)
}

// plot gives where the chart's lines run.
func (c *heatChart) plot(size fyne.Size) (drawing.Box, bool) {
	return c.chart.Plot(drawing.Box{Max: drawing.Pt{X: float64(size.Width), Y: float64(size.Height)}}, c.page.desk.fonts)
}

// set places the cursor.
func (c *heatChart) set(plot drawing.Box) {
	x := plot.Min.X + plot.W()*(c.at/float64(unit.Hour)-c.chart.X.Min)/(c.chart.X.Max-c.chart.X.Min)
	c.cursor.Resize(fyne.NewSize(cursorWide, float32(plot.H())))
	c.cursor.Move(fyne.NewPos(float32(x)-cursorWide/2, float32(plot.Min.Y)))
}

// point shows another time.
func (c *heatChart) point(at float64) {
	c.at = at
	if plot, ok := c.plot(c.root.Size()); ok {
		c.set(plot)
	}
}

// see draws the course of the chosen pour.
func (c *heatChart) see(s *shotOf) {
	c.chart = heatCourse(s, c.page.desk.session.Now())
	style, chart := sectionStyle(c.page.desk, s.Snapshot), c.chart
	c.picture.Set(style.Palette.Ground, func(to drawing.Surface) { chart.Paint(to, style) })
	if accent := look.Current().Accent; c.cursor.FillColor != accent {
		c.cursor.FillColor = accent
		c.cursor.Refresh()
	}
	c.align(c.root.Size())
}

// heatCourse is the chart of the chosen pour: how warm its hottest place and the
// room are, how far its surface and its heart have cured, its limit and its
// windows.
func heatCourse(s *shotOf, now time.Time) drawing.Chart {
	c := &s.Curing
	_, to, _ := c.Trace.Ends()
	end := heatEnd(s, to)
	in := degrees(s.Project.Style)
	chart := drawing.Chart{
		X:     drawing.Axis{Max: end.Hours(), Format: func(v float64) string { return strconv.FormatFloat(v+0, 'f', -1, 64) + " h" }},
		Y:     drawing.Axis{Title: "Temperature", Unit: "°" + string(s.Project.Style.TempUnit())},
		Right: drawing.Axis{Title: "Cured", Unit: "%", Max: 100},
	}
	l, ok := s.curing()
	if !ok {
		return chart
	}
	index := s.index()
	hottest := course(c.Trace.HottestCourse(index), func(p model.TracePoint) float64 { return in(p.State.T) })
	cured := func(p model.TracePoint) float64 { return 100 * p.State.A }
	room := make([]drawing.Pt, 0, len(c.Trace.Frames))
	for i := range c.Trace.Frames {
		f := &c.Trace.Frames[i]
		room = append(room, drawing.Pt{X: f.At.Hours(), Y: in(f.Room)})
	}
	named := 0.8 // of its cure, where the heart's line has its name
	if l.RunsAway {
		named = 0.25 // clear of the end
	}
	surface, heart := c.Trace.SurfaceCourse(index), c.Trace.HeartCourse(index)
	chart.Series = []drawing.Series{
		{Name: "room", Points: room, Role: drawing.Hint, NameAt: end.Hours() / 20},
		{Name: "surface, cured", Points: course(surface, cured), Role: drawing.Second, Dashed: true, Right: true, NameAt: reaching(surface, 0.55)},
		{Name: "heart, cured", Points: course(heart, cured), Role: drawing.Second, Right: true, NameAt: reaching(heart, named)},
		{Name: "hottest place", Points: hottest, Role: drawing.Main, NameAt: highest(hottest)},
	}
	chart.Y.Min, chart.Y.Max = math.Inf(1), math.Inf(-1)
	for _, list := range [][]drawing.Pt{room, hottest} {
		for _, p := range list {
			chart.Y.Min, chart.Y.Max = min(chart.Y.Min, p.Y), max(chart.Y.Max, p.Y)
		}
	}
	heatLimits(&chart, s, l)
	const step = 10.0
	chart.Y.Min, chart.Y.Max = math.Floor((chart.Y.Min-2)/step)*step, math.Ceil((chart.Y.Max+1)/step)*step
	heatWindows(&chart, s, l)
	heatMarks(&chart, s, l, now)
	return chart
}

// reaching gives the hour at which a course has cured to a share of what it comes
// to.
func reaching(list []model.TracePoint, share float64) float64 {
	for _, p := range list {
		if p.State.A >= share*list[len(list)-1].State.A {
			return p.At.Hours()
		}
	}
	return 0
}

// highest gives where a line is highest.
func highest(list []drawing.Pt) float64 {
	var top drawing.Pt
	for i, p := range list {
		if i == 0 || p.Y > top.Y {
			top = p
		}
	}
	return top.X
}

// course puts the points of a course on the chart's axes.
func course(list []model.TracePoint, value func(model.TracePoint) float64) []drawing.Pt {
	pts := make([]drawing.Pt, len(list))
	for i, p := range list {
		pts[i] = drawing.Pt{X: p.At.Hours(), Y: value(p)}
	}
	return pts
}

// heatLimits marks the hottest that the pour may get. A limit far above all
// that it comes to is left to the words beside.
func heatLimits(chart *drawing.Chart, s *shotOf, l *model.LayerCuring) {
	if l.PeakLimit.Absent {
		return
	}
	limit := degrees(s.Project.Style)(l.PeakLimit.Value)
	const over = 0.2 // of the axis, kept free above the limit for its words
	chart.Y.Max = max(chart.Y.Max, limit+over*(limit-chart.Y.Min))
	chart.Marks = append(chart.Marks, drawing.Mark{X: math.NaN(), Y: limit, Text: "limit " + wholeDegrees(s.Project.Style, limit), Role: drawing.Halt})
}

// heatWindows shades when the next pour may go on and from when it can come out.
func heatWindows(chart *drawing.Chart, s *shotOf, l *model.LayerCuring) {
	if l.RunsAway {
		return // past that nothing can be told
	}
	from := s.poured()
	at := func(k model.Known[unit.Span]) float64 { return (from + k.Value).Hours() }
	last := s.Plan.Layers[len(s.Plan.Layers)-1].ID == l.ID
	if !last && !l.RecoatFrom.Absent && !l.RecoatTo.Absent {
		chart.Bands = append(chart.Bands, drawing.Band{From: at(l.RecoatFrom), To: at(l.RecoatTo), Text: "next pour", Role: drawing.Well})
	}
	if last && !l.Demold.Absent {
		if out := at(l.Demold); out < chart.X.Max {
			chart.Bands = append(chart.Bands, drawing.Band{From: out, To: chart.X.Max, Text: "demold", Role: drawing.Well})
		}
	}
}

// heatMarks marks the instant that is now and the peak.
func heatMarks(chart *drawing.Chart, s *shotOf, l *model.LayerCuring, now time.Time) {
	if at := now.Sub(s.Curing.Start).Hours(); !s.Curing.Start.IsZero() && at > 0 && at < chart.X.Max {
		chart.Marks = append(chart.Marks, drawing.Mark{X: at, Y: math.NaN(), Text: "now", Role: drawing.Main})
	}
	if l.RunsAway {
		chart.Marks = append(chart.Marks, drawing.Mark{X: (s.poured() + l.RunsAfter.Value).Hours(), Y: math.NaN(), Text: "runs away", Role: drawing.Halt})
	}
}
