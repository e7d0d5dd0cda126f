package views

import (
	"fyne.io/fyne/v2"

	"meniscus/views/look"
	"meniscus/views/touch"
)

// CreateRenderer is used by the toolkit.
func (b *benchLook) CreateRenderer() fyne.WidgetRenderer { return &benchRenderer{b} }

// benchRenderer lays the bench look out: the number has what room the words and
// the buttons leave.
type benchRenderer struct{ look *benchLook }

// benchScale is how large the words are: 1 on a screen of 1920 by 1080, and less
// on a smaller one.
func benchScale(size fyne.Size) float32 { return min(size.Width/1920, size.Height/1080) }

// low tells whether the screen is so low, as one of 1080 lines at twice the size is,
// that beside the buttons and the number no more than a line has room.
func (b *benchLook) low() bool { return b.Size().Height > 0 && b.Size().Height < 660 }

func (r *benchRenderer) Layout(size fyne.Size) {
	b, k := r.look, benchScale(size)
	b.ground.Resize(size)
	edge := max(28*k, look.Apart)
	wide := size.Width - 2*edge
	place := func(o fyne.CanvasObject, y, high float32) {
		o.Move(fyne.NewPos(edge, y))
		o.Resize(fyne.NewSize(wide, high))
	}
	bottom := size.Height - edge
	pad := len(b.rows) == 2
	if !pad { // without a foot, or under the lock, everything stays where it is
		benchRow(b.foot, edge, bottom-look.Glove, wide, look.Glove)
		bottom -= look.Glove + edge
	}
	if pad {
		high := max(look.Glove, 118*k)
		benchPad(b.rows, edge, bottom-2*high-look.Apart, wide, high)
		bottom -= 2*high + look.Apart
	} else {
		high := max(look.Glove, 150*k)
		if len(b.rows) == 1 {
			benchRow(b.rows[0], edge, bottom-high, wide, high)
		}
		bottom -= high
	}
	bottom -= edge * 0.6
	words := func(f *touch.Fit, most, least, high float32) {
		if f.Text() == "" {
			high = 0
		}
		f.Most, f.Least = most*k, min(least, most*k)
		place(f, bottom-high, high)
		bottom -= high
	}
	top := edge
	if b.reads() { // what to do has all the room
		b.layStrip(edge, top, wide, 0, k)
		b.more.Hidden = false
		words(b.more, benchFurther, 20, 112*k)
		head := 90 * k
		words(b.next, benchFar, 17, bottom-top-head)
		words(b.of, benchFar*1.3, 24, head)
		b.number.Resize(fyne.Size{})
		b.box.Resize(fyne.Size{})
		return
	}
	// What is told at the top leaves the number its least height. Where it is to be
	// put away with a touch, or the screen is low, it may take the place of what else
	// there is to know.
	further, next, of := 112*k, 96*k, 80*k
	spare := bottom - top - edge*0.6 - next - of - benchLeast*k
	stays := b.told.Text() == "" || b.seen == nil && !b.low() || spare-further >= look.Glove*1.8
	switch {
	case b.more.Text() == "":
	case stays:
		spare -= further
	default:
		further = 0
	}
	b.more.Hidden = further == 0
	if high := b.layStrip(edge, top, wide, spare, k); high > 0 {
		top += high + edge*0.6
	}
	words(b.more, benchFurther, 20, further)
	words(b.next, benchFar*1.2, 24, next)
	words(b.of, benchFar, 24, of)
	b.number.Most = 460 * k
	high := bottom - top
	b.box.Move(fyne.NewPos(edge, top))
	b.box.Resize(fyne.NewSize(wide, high))
	side := min(high*0.32, 150*k)
	inside := float32(20)
	if !b.sign.Hidden { // beside the number, not under it
		inside += side + 20
	}
	b.number.Move(fyne.NewPos(edge+inside, top))
	b.number.Resize(fyne.NewSize(wide-2*inside, high))
	b.sign.Move(fyne.NewPos(edge+30, top+(high-side)/2))
	b.sign.Resize(fyne.NewSquareSize(side))
}

// benchLeast is the height on a screen of 1080 lines at which the digits of the
// number are 155 pixels high.
const benchLeast float32 = 264

// benchRow shares a row among its buttons.
func benchRow(row []*touch.Glove, x, y, wide, high float32) {
	n := float32(len(row))
	each := (wide - (n-1)*look.Apart) / n
	for _, g := range row {
		g.Move(fyne.NewPos(x, y))
		g.Resize(fyne.NewSize(each, high))
		x += each + look.Apart
	}
}

// benchPad lays out two rows of six keys with the buttons of each row at their
// right.
func benchPad(rows [][]*touch.Glove, x, y, wide, high float32) {
	const keys = 6
	each := max((wide*0.56-keys*look.Apart)/keys, look.Glove)
	beside := keys * (each + look.Apart)
	for i, row := range rows {
		top := y + float32(i)*(high+look.Apart)
		benchRow(row[:keys], x, top, beside-look.Apart, high)
		benchRow(row[keys:], x+beside, top, wide-beside, high)
	}
}

func (r *benchRenderer) MinSize() fyne.Size { return fyne.NewSize(640, 420) }

func (r *benchRenderer) Refresh() {
	r.Layout(r.look.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *benchRenderer) Objects() []fyne.CanvasObject {
	b := r.look
	list := []fyne.CanvasObject{b.ground, b.stripBox, b.stripSign, b.told, b.box, b.sign, b.number, b.of, b.next, b.more}
	for _, g := range b.buttons() {
		list = append(list, g)
	}
	return list
}

func (r *benchRenderer) Destroy() {}
