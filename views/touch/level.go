package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// Level is how much a finding matters.
type Level int

// The levels of a finding.
const (
	Note  Level = iota // worth knowing: a dot
	Check              // to look into: a triangle
	Stop               // stops the pour: an octagon

	Fine Level = -1 // in order, which no finding is: a tick
)

// Word is the level's name on screen.
func (l Level) Word() string {
	switch l {
	case Stop:
		return "Stop"
	case Check:
		return "Check"
	}
	return "Note"
}

// tone is the colour of the level's words.
func (l Level) tone() Tone {
	switch l {
	case Stop:
		return StopTone
	case Check:
		return CheckTone
	case Fine:
		return GoodTone
	}
	return Faint
}

// Sign is the shape of a level: an octagon, a triangle or a dot, each with its
// mark, or a tick, so that it is known without its colour.
type Sign struct {
	widget.BaseWidget
	level Level
	side  float32
}

var _ fyne.Widget = (*Sign)(nil)

// NewSign makes the shape of a level, side high and wide, or less where it is given less.
func NewSign(level Level, side float32) *Sign {
	s := &Sign{level: level, side: side}
	s.ExtendBaseWidget(s)
	return s
}

// Level is the level whose shape is shown.
func (s *Sign) Level() Level { return s.level }

// SetLevel shows the shape of another level.
func (s *Sign) SetLevel(level Level) {
	if s.level != level {
		s.level = level
		s.Refresh()
	}
}

// CreateRenderer is used by the toolkit.
func (s *Sign) CreateRenderer() fyne.WidgetRenderer {
	r := &signRenderer{
		sign:    s,
		polygon: canvas.NewPolygon(8, color.Transparent),
		dot:     canvas.NewCircle(color.Transparent),
		mark:    canvas.NewText("", color.Transparent),
		down:    canvas.NewLine(color.Transparent),
		up:      canvas.NewLine(color.Transparent),
	}
	r.mark.TextStyle.Bold = true
	r.style()
	return r
}

type signRenderer struct {
	sign     *Sign
	polygon  *canvas.Polygon
	dot      *canvas.Circle
	mark     *canvas.Text
	down, up *canvas.Line // the two strokes of the tick
}

func (r *signRenderer) style() {
	p := look.Current()
	level := r.sign.level
	fill := level.tone().in(p)
	r.polygon.FillColor, r.dot.FillColor = fill, fill
	tick := level == Fine
	r.polygon.Hidden, r.dot.Hidden = tick || level == Note, level != Note
	for _, l := range []*canvas.Line{r.down, r.up} {
		l.StrokeColor, l.Hidden = fill, !tick
	}
	r.polygon.Sides, r.polygon.Angle = 8, 22.5
	if level == Check {
		r.polygon.Sides, r.polygon.Angle = 3, 0
	}
	r.mark.Text, r.mark.Color = map[Level]string{Stop: "×", Check: "!", Note: "i"}[level], look.InkOn(fill)
}

// Layout draws it smaller where there is less room.
func (r *signRenderer) Layout(size fyne.Size) {
	side := min(r.sign.side, size.Width, size.Height)
	r.mark.TextSize, r.down.StrokeWidth, r.up.StrokeWidth = side*0.66, side/7, side/7
	at := fyne.NewPos((size.Width-side)/2, (size.Height-side)/2)
	radius, middle := side/2, side/2 // of the polygon, and where its middle is
	if r.sign.level == Check {
		radius, middle = side*0.62, side*0.66
	}
	r.polygon.Move(at.AddXY(side/2-radius, middle-radius))
	r.polygon.Resize(fyne.NewSquareSize(2 * radius))
	inset := side * 0.08
	r.dot.Move(at.AddXY(inset, inset))
	r.dot.Resize(fyne.NewSquareSize(side - 2*inset))
	on := func(x, y float32) fyne.Position { return at.AddXY(x*side, y*side) }
	r.down.Position1, r.down.Position2 = on(0.14, 0.54), on(0.38, 0.78)
	r.up.Position1, r.up.Position2 = on(0.38, 0.78), on(0.86, 0.24)
	mark := r.mark.MinSize()
	r.mark.Move(at.AddXY((side-mark.Width)/2, middle-mark.Height/2))
	r.mark.Resize(mark)
}

func (r *signRenderer) MinSize() fyne.Size { return fyne.NewSquareSize(r.sign.side) }

func (r *signRenderer) Refresh() {
	r.style()
	r.Layout(r.sign.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *signRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.polygon, r.dot, r.mark, r.down, r.up}
}

func (r *signRenderer) Destroy() {}
