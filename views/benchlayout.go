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
	if n := len(b.rows); n > 0 {
		benchRow(b.rows[n-1], edge, bottom-look.Glove, wide, look.Glove)
		bottom -= look.Glove + edge
	} else {
		bottom -= look.Glove + edge // the lock keeps everything where it is
	}
	high := max(look.Glove+10, 150*k)
	acts := b.rows[:max(len(b.rows)-1, 0)]
	if len(acts) == 2 {
		high = max(look.Glove, 118*k)
		benchPad(acts, edge, bottom-2*high-look.Apart, wide, high)
		bottom -= 2*high + look.Apart
	} else {
		if len(acts) == 1 && len(acts[0]) > 0 {
			benchRow(acts[0], edge, bottom-high, wide, high)
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
	words(b.more, benchFar*0.66, 20, 96*k)
	top := edge
	if b.mode == benchHot { // what to do has all the room
		head := 90 * k
		words(b.next, benchFar, 20, bottom-top-head)
		words(b.of, benchFar*1.3, 24, head)
		b.number.Resize(fyne.Size{})
		b.box.Resize(fyne.Size{})
		return
	}
	words(b.next, benchFar*1.2, 24, 96*k)
	words(b.of, benchFar, 24, 80*k)
	b.number.Most = 460 * k
	high = bottom - top
	b.box.Move(fyne.NewPos(edge, top))
	b.box.Resize(fyne.NewSize(wide, high))
	const inside = 20
	b.number.Move(fyne.NewPos(edge+inside, top))
	b.number.Resize(fyne.NewSize(wide-2*inside, high))
	side := min(high*0.32, 150*k)
	b.sign.Move(fyne.NewPos(edge+30, top+(high-side)/2))
	b.sign.Resize(fyne.NewSquareSize(side))
}

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

// benchPad lays out two rows of six keys with one or two buttons at their right.
func benchPad(rows [][]*touch.Glove, x, y, wide, high float32) {
	const keys = 6
	each := (wide*0.6 - keys*look.Apart) / keys
	beside := keys * (each + look.Apart)
	single := len(rows[1]) == keys
	for i, row := range rows {
		top := y + float32(i)*(high+look.Apart)
		benchRow(row[:keys], x, top, beside-look.Apart, high)
		for _, g := range row[keys:] {
			tall := high
			if single {
				tall = 2*high + look.Apart
			}
			g.Move(fyne.NewPos(x+beside, top))
			g.Resize(fyne.NewSize(wide-beside, tall))
		}
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
	list := []fyne.CanvasObject{b.ground, b.box, b.sign, b.number, b.of, b.next, b.more}
	for _, g := range b.buttons() {
		list = append(list, g)
	}
	return list
}

func (r *benchRenderer) Destroy() {}
