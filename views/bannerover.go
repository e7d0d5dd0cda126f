package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// overHead lays a notice over the head of a page: over the question and the
// answer, beside what can be touched there. It takes no room of its own.
type overHead struct {
	head, acts fyne.CanvasObject
}

// leastNotice is the width below which a notice covers the acts too.
const leastNotice = 360

// MinSize is nothing: the page below keeps its size.
func (l *overHead) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// Layout gives the notice the height of the head, or more where its words need
// it.
func (l *overHead) Layout(o []fyne.CanvasObject, size fyne.Size) {
	width := size.Width - l.acts.MinSize().Width - 2*look.Gap
	if width < leastNotice {
		width = size.Width
	}
	for _, n := range o {
		n.Move(fyne.Position{})
		n.Resize(fyne.NewSize(width, l.head.MinSize().Height)) // so that the words know how wide they run
		n.Resize(fyne.NewSize(width, max(l.head.MinSize().Height, n.MinSize().Height)))
	}
}

// noticeGround is what a notice stands on. A touch puts the notice away, and
// never gets through to what lies below.
type noticeGround struct {
	widget.BaseWidget
	away   func()
	ground *canvas.Rectangle
	edge   *canvas.Rectangle
}

var _ fyne.Tappable = (*noticeGround)(nil)

func newNoticeGround(away func()) *noticeGround {
	g := &noticeGround{away: away, ground: canvas.NewRectangle(nil), edge: canvas.NewRectangle(nil)}
	g.ExtendBaseWidget(g)
	return g
}

// Tapped puts the notice away.
func (g *noticeGround) Tapped(*fyne.PointEvent) { g.away() }

// CreateRenderer is used by the toolkit.
func (g *noticeGround) CreateRenderer() fyne.WidgetRenderer {
	r := &noticeRenderer{g}
	r.Refresh()
	return r
}

type noticeRenderer struct{ g *noticeGround }

func (r *noticeRenderer) Layout(size fyne.Size) {
	r.g.ground.Resize(size)
	r.g.edge.Move(fyne.NewPos(0, size.Height-2))
	r.g.edge.Resize(fyne.NewSize(size.Width, 2))
}

func (r *noticeRenderer) MinSize() fyne.Size { return fyne.Size{} }

func (r *noticeRenderer) Refresh() {
	p := look.Current()
	r.g.ground.FillColor, r.g.edge.FillColor = p.Ground, p.Hair
	r.g.ground.Refresh()
	r.g.edge.Refresh()
}

func (r *noticeRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.g.ground, r.g.edge}
}

func (r *noticeRenderer) Destroy() {}
