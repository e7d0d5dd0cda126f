package views

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/model"
	"meniscus/views/drawing"
)

// lifeLine is the time line of all layers.
type lifeLine struct {
	page    *curePage
	root    *fyne.Container
	picture *drawing.Picture
	rows    int
	drawn   time.Time // the minute that it shows; zero when the plan is a new one
}

func newLifeLine(p *curePage) *lifeLine { return &lifeLine{page: p, root: container.NewStack()} }

// see draws the time line anew for another plan, or once a minute.
func (c *lifeLine) see(plan *model.Plan, planned, now time.Time) {
	if minute := now.Truncate(time.Minute); !minute.Equal(c.drawn) {
		c.drawn = minute
		c.draw(plan, planned, now)
	}
}

// draw takes what has not been poured to be poured from now on, or from when
// the first pour is planned.
func (c *lifeLine) draw(plan *model.Plan, planned, now time.Time) {
	first := now
	if planned.After(now) {
		first = planned
	}
	lives := plan.Timeline(first)
	c.root.Hidden = len(lives) == 0
	t := timeline{lives: lives, now: now, clock: c.page.clock, palette: c.page.desk.palette()}
	if c.picture == nil || c.rows != len(lives) {
		c.rows = len(lives)
		c.picture = drawing.NewPicture(c.page.desk.fonts, fyne.NewSize(300, float32(len(lives))*lifeHeight+lineFoot+lineHead), t.palette.Ground, t.paint)
		c.root.Objects = []fyne.CanvasObject{c.picture}
		c.root.Refresh()
		return
	}
	c.picture.Set(t.palette.Ground, t.paint)
}

// The sizes of the time line in dp.
const (
	lifeHeight = 104
	lineHead   = 22
	lineFoot   = 26
	barBelow   = 26.0 // from the top of a life
	lifeBar    = 30.0
)

// timeline paints the lives of layers below each other over one axis of time.
type timeline struct {
	lives   []model.Life
	now     time.Time
	clock   shopClock
	palette drawing.Palette

	s           drawing.Surface
	left, width float64
	from, to    time.Time
	long        time.Duration
}

func (t timeline) paint(s drawing.Surface) {
	if len(t.lives) == 0 {
		return
	}
	t.s = s
	b := s.Bounds()
	t.left, t.width = b.Min.X+6, b.W()-12
	t.from = t.now
	to, all := t.now.Add(time.Hour), t.now.Add(time.Hour)
	for _, l := range t.lives {
		if l.Start.Before(t.from) {
			t.from = l.Start
		}
		for _, bar := range l.Bars {
			if bar.Late.After(all) {
				all = bar.Late
			}
			if bar.Kind != model.BarCure && bar.Late.After(to) {
				to = bar.Late
			}
		}
	}
	// A full cure that takes much longer than the rest would leave that no room:
	// it runs out of the picture.
	if all.Sub(t.from) < 2*to.Sub(t.from) {
		to = all
	}
	t.long = to.Sub(t.from) + to.Sub(t.from)/50
	t.to = t.from.Add(t.long)
	bottom := b.Max.Y - lineFoot
	t.axis(b.Min.Y+lineHead, bottom)
	row := func(i int) float64 { return b.Min.Y + lineHead + float64(i)*lifeHeight }
	for i, l := range t.lives {
		for k := len(l.Bars) - 1; k >= 0; k-- {
			t.bar(l.Bars[k], row(i)+barBelow, l.Assumed)
		}
	}
	t.mark(b.Min.Y, bottom)
	for i, l := range t.lives {
		t.life(l, row(i))
	}
}

// x is the place of an instant; one past the end is at the end.
func (t *timeline) x(at time.Time) float64 {
	if at.After(t.to) {
		at = t.to
	}
	return t.left + t.width*float64(at.Sub(t.from))/float64(t.long)
}

// axis draws the days, or the hours where few days are shown.
func (t *timeline) axis(top, bottom float64) {
	l := drawing.Lettering{Name: "axis", Size: 12, Anchor: drawing.Middle, Colour: t.palette.Faint}
	grid := drawing.Pen{Name: "grid", Width: 1, Colour: drawing.Fade(t.palette.Line, 0.35)}
	t.s.Stroke(drawing.Pen{Name: "axis", Width: 1, Colour: t.palette.Line}, drawing.Line(drawing.Pt{X: t.left, Y: bottom}, drawing.Pt{X: t.left + t.width, Y: bottom}))
	for _, at := range t.ticks() {
		x := t.x(at)
		t.s.Stroke(grid, drawing.Line(drawing.Pt{X: x, Y: top}, drawing.Pt{X: x, Y: bottom}))
		text := t.clock.in(at).Format("15:04")
		if h, m, _ := t.clock.in(at).Clock(); h == 0 && m == 0 {
			text = t.clock.in(at).Format("Mon 2 Jan")
		}
		half := t.s.Measure(text, l) / 2
		t.s.Text(drawing.Pt{X: min(max(x, t.left+half), t.left+t.width-half), Y: bottom + 17}, text, l)
	}
}

// ticks are whole hours or days of the shop's clock, far enough apart for their
// labels.
func (t *timeline) ticks() []time.Time {
	const apart = 84.0
	hours := 24.0 * 28
	for _, h := range []float64{1, 2, 3, 6, 12, 24, 48, 96, 168, 336} {
		if t.width*h*float64(time.Hour)/float64(t.long) >= apart {
			hours = h
			break
		}
	}
	start := t.clock.in(t.from)
	y, m, d := start.Date()
	var list []time.Time
	for h := 0.0; ; h += hours {
		at := time.Date(y, m, d, int(h), 0, 0, 0, start.Location())
		if at.Sub(t.from) > t.long {
			return list
		}
		if !at.Before(t.from) {
			list = append(list, at)
		}
	}
}

// life names one layer and says what its bars are.
func (t *timeline) life(l model.Life, top float64) {
	name := drawing.Lettering{Name: "name", Size: 14, Bold: true, Colour: t.palette.Ink}
	note := drawing.Lettering{Name: "note", Size: 12, Colour: t.palette.Faint}
	words := "poured " + t.clock.happened(l.Start, t.now)
	switch {
	case l.Unsure:
		words = "not poured yet; when it may be is not known"
	case l.Assumed:
		words = "not poured yet; if poured " + t.clock.dated(l.Start)
	}
	switch {
	case l.NoResin:
		words += "; no resin is chosen for it"
	case len(l.Bars) == 0:
		words += "; its data sheet gives no times here"
	}
	x := t.left + 8 // clear of the line that marks now
	t.plated(drawing.Pt{X: x, Y: top + 17}, l.Name, name)
	t.plated(drawing.Pt{X: x + t.s.Measure(l.Name, name) + 12, Y: top + 17}, words, note)
	t.words(l, top+barBelow+lifeBar)
}

// plated writes on a plate, so that no line runs through the words.
func (t *timeline) plated(at drawing.Pt, text string, l drawing.Lettering) {
	t.s.Fill("plate", t.palette.Ground, drawing.TextBox(t.s, at, text, l).Grown(2).Ring())
	t.s.Text(at, text, l)
}

// bar draws one stretch of time. Its kind shows in its tone and its hatching;
// where its ends are not sure it is lighter and has no outline but dots.
func (t *timeline) bar(b model.Bar, y float64, assumed bool) {
	x0, x1 := t.x(b.From), t.x(b.To)
	x1 = max(x1, x0+3)
	box := func(x0, x1 float64) []drawing.Pt {
		return []drawing.Pt{{X: x0, Y: y}, {X: x1, Y: y}, {X: x1, Y: y + lifeBar}, {X: x0, Y: y + lifeBar}}
	}
	fill, hatch := t.palette.Panel, 0.0
	switch b.Kind {
	case model.BarWorking:
		fill = t.palette.Dimension
	case model.BarRecoat:
		fill, hatch = drawing.Fade(t.palette.Good, 0.45), -math.Pi/4
	case model.BarDemold:
		fill = drawing.Fade(t.palette.Resin, 0.55)
	case model.BarCure:
		hatch = math.Pi / 4
	}
	sure := box(x0, x1)
	if b.Early.Before(b.SureFrom) || b.SureTo.Before(b.Late) {
		wide := box(t.x(b.Early), t.x(b.Late))
		t.s.Fill("unsure", drawing.Fade(fill, float64(fill.A)/255*0.35), wide)
		t.s.Stroke(drawing.Pen{Name: "unsure", Width: 1, Colour: t.palette.Line, Dash: []float64{1.5, 3}}, drawing.Loop(wide...))
		sure = box(t.x(b.SureFrom), t.x(b.SureTo))
	}
	if sure[0].X < sure[1].X {
		t.s.Fill("bar", fill, sure)
		if hatch != 0 {
			drawing.Hatch(t.s, drawing.Hatching{Name: "hatch", Pattern: drawing.Slanted, Spacing: 7, Angle: hatch, Anchor: sure[0], Width: 0.8, Colour: t.palette.Faint}, sure)
		}
	}
	pen := drawing.Pen{Name: "outline", Width: 1, Colour: t.palette.Ink}
	if assumed {
		pen.Dash = []float64{4, 3}
	}
	t.s.Stroke(pen, drawing.Loop(box(x0, x1)...))
}

// words says below the bars what each is.
func (t *timeline) words(l model.Life, y float64) {
	letters := drawing.Lettering{Name: "note", Size: 12.5, Anchor: drawing.Middle, Colour: t.palette.Ink}
	pen := drawing.Pen{Name: "leader", Width: 1, Colour: t.palette.Line}
	var middles, widths []float64
	var texts []string
	for _, b := range l.Bars {
		at := (t.x(b.From) + t.x(b.To)) / 2
		text := ""
		switch b.Kind {
		case model.BarWorking:
			text = "working time to " + t.clock.near(b.To, t.now)
		case model.BarRecoat:
			text = "next pour " + t.clock.near(b.From, t.now) + " to " + t.clock.near(b.To, t.now)
		case model.BarDemold:
			text, at = "demold "+t.clock.near(b.To, t.now), t.x(b.To)
		case model.BarCure:
			text, at = "full cure "+t.clock.in(b.To).Format("Mon 2 Jan"), t.x(b.To)
			if b.To.After(t.to) {
				text += " ›"
			}
		}
		if b.Typical {
			text += ", typical"
		}
		texts = append(texts, text)
		middles = append(middles, at)
		widths = append(widths, t.s.Measure(text, letters)+14)
	}
	at := spaceOut(middles, widths, t.left, t.left+t.width)
	for i, text := range texts {
		t.s.Stroke(pen, drawing.Line(drawing.Pt{X: middles[i], Y: y}, drawing.Pt{X: at[i], Y: y + 12}))
		t.plated(drawing.Pt{X: at[i], Y: y + 25}, text, letters)
	}
}

// mark draws the instant that is now.
func (t *timeline) mark(top, bottom float64) {
	x := t.x(t.now)
	l := drawing.Lettering{Name: "now", Size: 13, Bold: true, Anchor: drawing.Middle, Colour: t.palette.Ink}
	text := "now " + t.clock.in(t.now).Format("15:04")
	half := t.s.Measure(text, l) / 2
	t.s.Stroke(drawing.Pen{Name: "now", Width: 2, Colour: t.palette.Ink}, drawing.Line(drawing.Pt{X: x, Y: top + 16}, drawing.Pt{X: x, Y: bottom}))
	t.s.Text(drawing.Pt{X: min(max(x, t.left+half), t.left+t.width-half), Y: top + 13}, text, l)
}
