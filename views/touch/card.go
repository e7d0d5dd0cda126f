package touch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// Card is a section: a quiet title, a body below it, and at the title's end,
// where given, what acts on the whole section.
type Card struct {
	widget.BaseWidget
	title *Text
	body  *fyne.Container
	all   *fyne.Container
	panel *canvas.Rectangle
}

var (
	_ fyne.Widget = (*Card)(nil)
	_ Parent      = (*Card)(nil)
)

// NewCard makes a section; trailing stands at the end of the title's line.
func NewCard(title string, body fyne.CanvasObject, trailing ...fyne.CanvasObject) *Card {
	c := &Card{title: NewText(title, Title, Ink), body: container.NewStack(body), panel: canvas.NewRectangle(nil)}
	var end fyne.CanvasObject
	if len(trailing) > 0 {
		end = container.NewHBox(trailing...)
	}
	name := container.NewVBox(layout.NewSpacer(), c.title, layout.NewSpacer())
	head := container.NewBorder(nil, nil, nil, end, name)
	c.all = container.New(layout.NewCustomPaddedLayout(12, 14, 14, 14), container.NewVBox(head, c.body))
	c.ExtendBaseWidget(c)
	return c
}

// SetTitle shows another title.
func (c *Card) SetTitle(title string) { c.title.SetText(title) }

// SetBody shows another body.
func (c *Card) SetBody(body fyne.CanvasObject) {
	c.body.Objects = []fyne.CanvasObject{body}
	c.body.Refresh()
	c.Refresh()
}

// Children are what stands in the section.
func (c *Card) Children() []fyne.CanvasObject { return []fyne.CanvasObject{c.all} }

// CreateRenderer is used by the toolkit.
func (c *Card) CreateRenderer() fyne.WidgetRenderer {
	r := &cardRenderer{card: c}
	c.panel.CornerRadius, c.panel.StrokeWidth = 8, 1
	r.style()
	return r
}

type cardRenderer struct{ card *Card }

func (r *cardRenderer) style() {
	p := look.Current()
	r.card.panel.FillColor, r.card.panel.StrokeColor = p.Panel, p.Hair
}

func (r *cardRenderer) Layout(size fyne.Size) {
	r.card.panel.Resize(size)
	r.card.all.Resize(size)
}

func (r *cardRenderer) MinSize() fyne.Size { return r.card.all.MinSize() }

func (r *cardRenderer) Refresh() {
	r.style()
	r.Layout(r.card.Size())
	r.card.panel.Refresh()
	r.card.all.Refresh()
}

func (r *cardRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.card.panel, r.card.all}
}

func (r *cardRenderer) Destroy() {}

// Labelled puts a name above an input that has none of its own.
func Labelled(name string, o fyne.CanvasObject) *fyne.Container {
	return container.New(layout.NewCustomPaddedVBoxLayout(3), NewText(name, Strong, Ink), o)
}
