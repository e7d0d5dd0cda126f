package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/views/look"
)

// Choice shows two to five options side by side, each as wide as the others where
// there is room for it; the chosen one stands out by weight, ground and a line
// below it. Left and Right choose by keyboard.
type Choice struct {
	control
	OnChange func(id string)

	options []Option
	chosen  string
}

var (
	_ fyne.Tappable     = (*Choice)(nil)
	_ fyne.Focusable    = (*Choice)(nil)
	_ desktop.Mouseable = (*Choice)(nil)
	_ pressable         = (*Choice)(nil)
	_ scrolled          = (*Choice)(nil)
)

// NewChoice makes a chooser with one option chosen.
func NewChoice(options []Option, chosen string, change func(id string)) *Choice {
	c := &Choice{options: options, chosen: chosen, OnChange: change}
	c.extend(c)
	return c
}

// Chosen is the option that is chosen.
func (c *Choice) Chosen() string { return c.chosen }

// Words are those of the option that is chosen; "" where none is.
func (c *Choice) Words() string {
	for _, o := range c.options {
		if o.ID == c.chosen {
			return o.Label
		}
	}
	return ""
}

// SetChosen shows an option as chosen without telling of it.
func (c *Choice) SetChosen(id string) {
	if c.chosen != id {
		c.chosen = id
		c.Refresh()
	}
}

// Tapped chooses the option under the finger.
func (c *Choice) Tapped(ev *fyne.PointEvent) {
	pressed = press{}
	c.take()
	if len(c.options) == 0 || c.Size().Width <= 0 {
		return
	}
	widths, x, at := c.widths(c.Size().Width), float32(0), 0
	for i, w := range widths[:len(widths)-1] {
		if x += w; ev.Position.X >= x {
			at = i + 1
		}
	}
	c.choose(at)
}

// least is how wide an option is at least.
func (o *Option) least() float32 {
	return max(look.Target, look.Width(o.Label, look.Body, fyne.TextStyle{Bold: true})+20)
}

// widths shares a width out: alike where the longest label has room in that, else
// to each label what it needs and the rest alike.
func (c *Choice) widths(width float32) []float32 {
	n := float32(len(c.options))
	list := make([]float32, len(c.options))
	var widest, sum float32
	for i := range c.options {
		list[i] = c.options[i].least()
		widest, sum = max(widest, list[i]), sum+list[i]
	}
	for i := range list {
		if list[i] += (width - sum) / n; widest <= width/n {
			list[i] = width / n
		}
	}
	return list
}

// TypedKey moves the choice on Left and Right.
func (c *Choice) TypedKey(ev *fyne.KeyEvent) {
	at := 0
	for i, o := range c.options {
		if o.ID == c.chosen {
			at = i
		}
	}
	switch ev.Name {
	case fyne.KeyEscape:
		unheard(c, ev)
	case fyne.KeyLeft, fyne.KeyUp:
		c.choose(max(0, at-1))
	case fyne.KeyRight, fyne.KeyDown:
		c.choose(min(at+1, len(c.options)-1))
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		if len(c.options) > 0 {
			c.choose((at + 1) % len(c.options))
		}
	}
}

func (c *Choice) choose(i int) {
	if i < 0 || c.options[i].ID == c.chosen {
		return
	}
	c.chosen = c.options[i].ID
	c.Refresh()
	if c.OnChange != nil {
		c.OnChange(c.chosen)
	}
}

// CreateRenderer is used by the toolkit.
func (c *Choice) CreateRenderer() fyne.WidgetRenderer {
	r := &choiceRenderer{
		choice: c,
		frame:  canvas.NewRectangle(color.Transparent),
		ground: canvas.NewRectangle(color.Transparent),
		line:   canvas.NewRectangle(color.Transparent),
		ring:   newRing(),
	}
	r.frame.CornerRadius, r.frame.StrokeWidth = corner, 1.5
	for range c.options {
		label := canvas.NewText("", color.Transparent)
		label.Alignment = fyne.TextAlignCenter
		r.labels = append(r.labels, label)
	}
	r.style()
	return r
}

type choiceRenderer struct {
	choice *Choice
	frame  *canvas.Rectangle
	ground *canvas.Rectangle // below the chosen label
	line   *canvas.Rectangle // the accent under it
	labels []*canvas.Text
	ring   *canvas.Rectangle
}

func (r *choiceRenderer) style() {
	p := look.Current()
	r.frame.FillColor, r.frame.StrokeColor = p.Panel, p.Line
	r.ground.FillColor, r.line.FillColor = p.Press, p.Accent
	for i, label := range r.labels {
		chosen := r.choice.options[i].ID == r.choice.chosen
		label.Text, label.TextSize, label.TextStyle.Bold = r.choice.options[i].Label, look.Body, chosen
		label.Color = p.AccentText
		if chosen {
			label.Color = p.Ink
		}
	}
	showRing(r.ring, r.choice.focused)
}

func (r *choiceRenderer) Layout(size fyne.Size) {
	r.frame.Resize(size)
	r.ring.Move(fyne.NewPos(-2, -2))
	r.ring.Resize(size.AddWidthHeight(4, 4))
	r.ground.Hidden, r.line.Hidden = true, true
	if len(r.labels) == 0 {
		return
	}
	widths, x := r.choice.widths(size.Width), float32(0)
	for i, label := range r.labels {
		each := widths[i]
		height := label.MinSize().Height
		label.Move(fyne.NewPos(x, (size.Height-height)/2-1))
		label.Resize(fyne.NewSize(each, height))
		if r.choice.options[i].ID == r.choice.chosen {
			r.ground.Hidden, r.line.Hidden = false, false
			r.ground.Move(fyne.NewPos(x+3, 3))
			r.ground.Resize(fyne.NewSize(each-6, size.Height-6))
			r.line.Move(fyne.NewPos(x+3, size.Height-7))
			r.line.Resize(fyne.NewSize(each-6, 4))
		}
		x += each
	}
}

func (r *choiceRenderer) MinSize() fyne.Size {
	var sum float32
	for i := range r.choice.options {
		sum += r.choice.options[i].least()
	}
	return fyne.NewSize(sum, look.Target+2)
}

func (r *choiceRenderer) Refresh() {
	r.style()
	r.Layout(r.choice.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *choiceRenderer) Objects() []fyne.CanvasObject {
	objects := []fyne.CanvasObject{r.frame, r.ground, r.line}
	for _, label := range r.labels {
		objects = append(objects, label)
	}
	return append(objects, r.ring)
}

func (r *choiceRenderer) Destroy() {}
