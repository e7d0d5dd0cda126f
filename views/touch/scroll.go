package touch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// Scroll shows part of a content that is taller than the room for it. A finger
// drawn anywhere over it scrolls, so does the wheel; a tap that slips less than
// Slop is still a tap on what was pressed.
type Scroll struct {
	widget.BaseWidget
	inner *container.Scroll
	body  *scrollBody
	shown fyne.CanvasObject // what was brought into view last
	outer *Scroll           // that this one stands in; nil for none
}

// Parent is a widget that lets a Scroll reach the inputs inside it, so that
// they can bring themselves into view. Containers need not be one.
type Parent interface {
	Children() []fyne.CanvasObject
}

// scrolled is an input that wants to know the scroller it stands in.
type scrolled interface {
	within(*Scroll)
}

var _ fyne.Widget = (*Scroll)(nil)

// NewScroll makes a scroller around content.
func NewScroll(content fyne.CanvasObject) *Scroll {
	s := &Scroll{}
	s.fill(content)
	s.ExtendBaseWidget(s)
	return s
}

func (s *Scroll) fill(content fyne.CanvasObject) {
	s.body = &scrollBody{scroll: s, content: content}
	s.body.ExtendBaseWidget(s.body)
	s.inner = container.NewVScroll(s.body)
}

func (s *Scroll) within(outer *Scroll) { s.outer = outer }

// CreateRenderer is used by the toolkit.
func (s *Scroll) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(s.inner)
}

// SetContent shows another content from its top.
func (s *Scroll) SetContent(content fyne.CanvasObject) {
	s.body.content, s.shown = content, nil
	s.inner.ScrollToOffset(fyne.Position{})
	s.body.Refresh()
	s.inner.Refresh()
}

// SetMinSize sets the least room that the scroller asks for.
func (s *Scroll) SetMinSize(size fyne.Size) {
	s.inner.SetMinSize(size)
	s.Refresh()
}

// Offset is how far the content is scrolled down.
func (s *Scroll) Offset() float32 { return s.inner.Offset.Y }

// SetOffset scrolls the content down to y, as far as it goes.
func (s *Scroll) SetOffset(y float32) {
	most := max(0, s.body.MinSize().Height-s.inner.Size().Height)
	s.inner.ScrollToOffset(fyne.NewPos(0, min(max(0, y), most)))
}

// Resize is used by the toolkit. Where the room shrinks, as when keys come up
// below, what was brought into view last stays in view if it was.
func (s *Scroll) Resize(size fyne.Size) {
	keep := s.shown != nil && size.Height < s.Size().Height && s.inView(s.shown)
	s.BaseWidget.Resize(size)
	if keep {
		s.ScrollTo(s.shown)
	}
}

// inView tells whether some of o, which is in the content, is to be seen.
func (s *Scroll) inView(o fyne.CanvasObject) bool {
	top := s.topOf(o)
	return top+o.Size().Height > s.Offset() && top < s.Offset()+s.inner.Size().Height
}

// topOf is how far below the top of the content o begins.
func (s *Scroll) topOf(o fyne.CanvasObject) float32 {
	d := fyne.CurrentApp().Driver()
	return d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(s.body).Y
}

// ScrollTo brings o, which must be somewhere in the content, into view with a
// little room around it, moving as little as it can.
func (s *Scroll) ScrollTo(o fyne.CanvasObject) {
	room := s.inner.Size().Height
	if room <= 0 {
		return
	}
	s.shown = o
	top := s.topOf(o) - look.Gap
	bottom := top + o.Size().Height + 2*look.Gap
	switch {
	case top < s.Offset() || bottom-top > room:
		s.SetOffset(top)
	case bottom > s.Offset()+room:
		s.SetOffset(bottom - room)
	}
	if s.outer != nil {
		s.outer.ScrollTo(o)
	}
}

// scrollBody is the content of a Scroll and the taker of its drags.
type scrollBody struct {
	widget.BaseWidget
	scroll  *Scroll
	content fyne.CanvasObject
	bare    bool // no room is kept free around the content

	held    press
	moved   fyne.Delta
	dragged bool
	swiping bool
}

var (
	_ fyne.Draggable    = (*scrollBody)(nil)
	_ desktop.Mouseable = (*scrollBody)(nil)
)

// MouseDown is used by the toolkit where nothing in the content takes the press.
func (b *scrollBody) MouseDown(*desktop.MouseEvent) { pressed = press{} }

// MouseUp is used by the toolkit.
func (b *scrollBody) MouseUp(*desktop.MouseEvent) {}

// Dragged is used by the toolkit: movements are summed until they are more
// than a slip, and scroll from then on.
func (b *scrollBody) Dragged(ev *fyne.DragEvent) {
	if !b.dragged {
		b.dragged = true
		if pressed.beganAt(ev.AbsolutePosition.SubtractXY(ev.Dragged.DX, ev.Dragged.DY)) {
			b.held = pressed
		}
		pressed = press{}
	}
	b.moved.DX += ev.Dragged.DX
	b.moved.DY += ev.Dragged.DY
	if b.swiping {
		b.scroll.SetOffset(b.scroll.Offset() - ev.Dragged.DY)
		return
	}
	if length(b.moved) < Slop {
		return
	}
	b.swiping = true
	if b.held.on != nil {
		b.held.on.letGo()
	}
	b.scroll.SetOffset(b.scroll.Offset() - b.moved.DY)
}

// DragEnd is used by the toolkit: a drag that stayed within the slop taps.
func (b *scrollBody) DragEnd() {
	held, swiping := b.held, b.swiping
	b.held, b.moved, b.dragged, b.swiping = press{}, fyne.Delta{}, false, false
	if held.on == nil || swiping {
		return
	}
	held.on.letGo()
	held.on.Tapped(&held.at)
}

// Refresh redraws the body and tells its inputs where they stand.
func (b *scrollBody) Refresh() {
	b.adopt(b.content)
	b.BaseWidget.Refresh()
}

// CreateRenderer is used by the toolkit.
func (b *scrollBody) CreateRenderer() fyne.WidgetRenderer {
	return &scrollBodyRenderer{body: b}
}

// adopt tells every input under o that it stands in this scroller.
func (b *scrollBody) adopt(o fyne.CanvasObject) {
	if in, ok := o.(scrolled); ok {
		in.within(b.scroll)
	}
	switch o := o.(type) {
	case *fyne.Container:
		for _, child := range o.Objects {
			b.adopt(child)
		}
	case Parent:
		for _, child := range o.Children() {
			b.adopt(child)
		}
	}
}

// Room kept free around the content: at its edges for the mark of the focus,
// beside it for the scroll bar.
const (
	edgeRoom float32 = 4
	barRoom  float32 = 8
)

type scrollBodyRenderer struct {
	body *scrollBody
}

// margins gives the room at the upper left, and in all.
func (r *scrollBodyRenderer) margins() (fyne.Position, fyne.Size) {
	if r.body.bare {
		return fyne.Position{}, fyne.Size{}
	}
	return fyne.NewPos(edgeRoom, edgeRoom), fyne.NewSize(2*edgeRoom+barRoom, 2*edgeRoom)
}

func (r *scrollBodyRenderer) Layout(size fyne.Size) {
	at, all := r.margins()
	r.body.content.Move(at)
	r.body.content.Resize(size.Subtract(all))
	r.body.adopt(r.body.content)
}

func (r *scrollBodyRenderer) MinSize() fyne.Size {
	_, all := r.margins()
	return r.body.content.MinSize().Add(all)
}

func (r *scrollBodyRenderer) Refresh() { r.Layout(r.body.Size()) }

func (r *scrollBodyRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.body.content}
}

func (r *scrollBodyRenderer) Destroy() {}
