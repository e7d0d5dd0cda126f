package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"meniscus/views/look"
)

// corner is the radius of the corners of controls.
const corner float32 = 6

// newRing makes the mark of the focus: a frame in ink, which stands out on any
// of our grounds.
func newRing() *canvas.Rectangle {
	ring := canvas.NewRectangle(color.Transparent)
	ring.StrokeWidth, ring.CornerRadius = 3, corner+2
	ring.Hide()
	return ring
}

// showRing draws the ring around an area, or hides it.
func showRing(ring *canvas.Rectangle, on bool) {
	ring.StrokeColor = look.Current().Ink
	ring.Hidden = !on
	ring.Refresh()
}

type buttonRenderer struct {
	button *Button
	face   *canvas.Rectangle
	ring   *canvas.Rectangle
	label  *canvas.Text
	trail  *canvas.Text
	icon   *canvas.Image
}

func newButtonRenderer(b *Button) *buttonRenderer {
	r := &buttonRenderer{
		button: b,
		face:   canvas.NewRectangle(color.Transparent),
		ring:   newRing(),
		label:  canvas.NewText("", color.Transparent),
		trail:  canvas.NewText("", color.Transparent),
		icon:   canvas.NewImageFromResource(nil),
	}
	r.face.CornerRadius = corner
	r.icon.FillMode = canvas.ImageFillContain
	r.style()
	return r
}

// style sets colours and words from the button's state.
func (r *buttonRenderer) style() {
	b, p := r.button, look.Current()
	ink, face, edge := p.Ink, p.Panel, p.Accent
	name := theme.ColorNameForeground
	switch b.Style {
	case Primary:
		ink, face = p.AccentInk, p.Accent
		name = theme.ColorNameForegroundOnPrimary
	case Quiet:
		ink, face, edge = p.AccentText, color.NRGBA{}, color.NRGBA{}
		name = theme.ColorNameHyperlink
	case Danger:
		ink, edge = p.Stop, p.Stop
		name = theme.ColorNameError
	}
	if b.hovered && b.Style != Primary {
		face = blend(p.Panel, p.Press, 0.5)
	}
	if b.down {
		face = p.Press
		if b.Style == Primary {
			ink = p.Ink
		}
	}
	if b.off {
		ink, face, edge = p.Line, color.NRGBA{}, p.Hair
		name = theme.ColorNameDisabled
		if b.Style == Quiet {
			edge = color.NRGBA{}
		}
	}
	r.face.FillColor, r.face.StrokeColor, r.face.StrokeWidth = face, edge, 1.5
	size := look.Body
	if b.Bench {
		size = look.Title
	}
	if b.size > 0 {
		size = b.size
	}
	r.label.Color, r.label.TextSize = ink, size
	r.label.TextStyle.Bold = b.Style == Primary || b.Bench
	r.trail.Text, r.trail.Color, r.trail.TextSize = b.trail, ink, 11
	r.icon.Hidden = b.Icon == nil
	if b.Icon != nil {
		r.icon.Resource = theme.NewColoredResource(b.Icon, name)
	}
	showRing(r.ring, b.focused)
}

// blend mixes two colours; part is the share of the second, 0 to 1.
func blend(a, b color.NRGBA, part float32) color.NRGBA {
	mix := func(x, y uint8) uint8 { return uint8(float32(x) + part*(float32(y)-float32(x)) + 0.5) }
	return color.NRGBA{mix(a.R, b.R), mix(a.G, b.G), mix(a.B, b.B), mix(a.A, b.A)}
}

func (r *buttonRenderer) Layout(size fyne.Size) {
	r.face.Resize(size)
	r.ring.Move(fyne.NewPos(-2, -2))
	r.ring.Resize(size.AddWidthHeight(4, 4))

	width := float32(0)
	if r.button.Icon != nil {
		width = iconSide
		if r.button.Label != "" {
			width += iconGap
		}
	}
	r.label.Text = shorten(r.button.Label, size.Width-width-2*r.side()-r.trailing()+0.5, r.measure)
	label := r.label.MinSize()
	x := (size.Width - width - label.Width) / 2
	if r.button.left {
		x = r.side()
	}
	if r.button.trail != "" {
		x = r.side()
		trail := r.trail.MinSize()
		r.trail.Move(fyne.NewPos(size.Width-trail.Width-r.side(), (size.Height-trail.Height)/2))
		r.trail.Resize(trail)
	}
	if r.button.Icon != nil {
		r.icon.Move(fyne.NewPos(x, (size.Height-iconSide)/2))
		r.icon.Resize(fyne.NewSquareSize(iconSide))
	}
	r.label.Move(fyne.NewPos(x+width, (size.Height-label.Height)/2))
	r.label.Resize(label)
}

// The room inside a button.
const (
	iconSide  float32 = 22
	iconGap   float32 = 8
	mostLabel float32 = 340 // that a button asks for its label: a longer one, of a maker's long name, ends in … where there is no more
)

// measure is the width of words in the type of the label.
func (r *buttonRenderer) measure(words string) float32 {
	return look.Width(words, r.label.TextSize, r.label.TextStyle)
}

// trailing is the room that the sign at the right end takes.
func (r *buttonRenderer) trailing() float32 {
	if r.button.trail == "" {
		return 0
	}
	return iconGap + r.trail.MinSize().Width
}

// side is the room left and right of the label.
func (r *buttonRenderer) side() float32 {
	switch {
	case r.button.compact:
		return 4
	case r.button.trail != "":
		return 12
	}
	return 16
}

func (r *buttonRenderer) MinSize() fyne.Size {
	size := fyne.MeasureText(r.button.Label, r.label.TextSize, r.label.TextStyle)
	size.Width = min(size.Width, mostLabel)
	if r.button.Icon != nil {
		size.Width += iconSide
		if r.button.Label != "" {
			size.Width += iconGap
		}
	}
	size.Width += r.trailing()
	least := look.Target
	if r.button.Bench {
		least = look.Bench
	}
	return fyne.NewSize(max(least, size.Width+2*r.side()), max(least, size.Height+16))
}

func (r *buttonRenderer) Refresh() {
	r.style()
	r.Layout(r.button.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *buttonRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.face, r.icon, r.label, r.trail, r.ring}
}

func (r *buttonRenderer) Destroy() {}
