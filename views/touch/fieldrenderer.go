package touch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"meniscus/views/look"
)

// leastEntry is the narrowest an entry may be beside its steps.
const leastEntry float32 = 120

// fieldRenderer lays a Field out for the width it gets: the instrument goes
// below the entry where it would squeeze it, the echo below the name.
type fieldRenderer struct {
	field *Field
	width float32 // at the last layout
}

// place is where one part of a field goes.
type place struct {
	o    fyne.CanvasObject
	pos  fyne.Position
	size fyne.Size
}

// places computes where everything goes at a width, and the height of all.
func (r *fieldRenderer) places(width float32) (all []place, height float32) {
	f := r.field
	f.less.Hidden, f.more.Hidden = f.OnStep == nil, f.OnStep == nil
	y := float32(0)
	put := func(o fyne.CanvasObject, x, w, h float32) {
		all = append(all, place{o, fyne.NewPos(x, y), fyne.NewSize(w, h)})
	}

	echo := f.echo.LineWidth()
	beside := echo > 0 && f.label.LineWidth()+look.Gap+echo <= width
	nameWidth := width
	if beside {
		nameWidth = width - echo - look.Gap
		put(f.echo, width-echo, echo, f.echo.HeightFor(0))
	}
	name := f.label.HeightFor(nameWidth)
	put(f.label, 0, nameWidth, name)
	y += name
	if !beside {
		put(f.echo, 0, width, f.echo.HeightFor(0))
		y += f.echo.HeightFor(0)
	}
	y += 3

	line := max(look.Target, f.entry.MinSize().Height)
	x, end := float32(0), width
	below := false
	if f.instrument.Visible() {
		w := f.instrument.MinSize().Width
		below = width-w-look.Gap-r.steps() < leastEntry
		if !below {
			end -= w
			put(f.instrument, end, w, line)
			end -= look.Gap
		}
	}
	if f.OnStep != nil {
		put(f.less, 0, look.Target, line)
		x = look.Target + look.Gap
		end -= look.Target
		put(f.more, end, look.Target, line)
		end -= look.Gap
	}
	put(f.entry, x, end-x, line)
	put(f.veil, x, end-x, line)
	y += line
	if below {
		y += look.Gap
		put(f.instrument, 0, width, line)
		y += line
	}
	for _, words := range []interface {
		fyne.CanvasObject
		HeightFor(float32) float32
	}{f.help, f.problem} {
		if h := words.HeightFor(width); h > 0 {
			y += 3
			put(words, 0, width, h)
			y += h
		} else {
			put(words, 0, width, 0)
		}
	}
	return all, y
}

// steps is the width that the two step keys take.
func (r *fieldRenderer) steps() float32 {
	if r.field.OnStep == nil {
		return 0
	}
	return 2 * (look.Target + look.Gap)
}

func (r *fieldRenderer) Layout(size fyne.Size) {
	r.width = size.Width
	all, _ := r.places(size.Width)
	for _, p := range all {
		p.o.Move(p.pos)
		p.o.Resize(p.size)
	}
	r.field.ring.Move(r.field.entry.Position().SubtractXY(3, 3))
	r.field.ring.Resize(r.field.entry.Size().AddWidthHeight(6, 6))
	r.field.glow.Move(fyne.NewPos(-4, -4))
	r.field.glow.Resize(size.AddWidthHeight(8, 8))
}

func (r *fieldRenderer) MinSize() fyne.Size {
	least := r.steps() + leastEntry
	_, height := r.places(max(r.width, least))
	return fyne.NewSize(least, height)
}

func (r *fieldRenderer) Refresh() {
	r.Layout(r.field.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
	canvas.Refresh(r.field)
}

func (r *fieldRenderer) Objects() []fyne.CanvasObject {
	f := r.field
	return []fyne.CanvasObject{f.glow, f.label, f.echo, f.less, f.entry, f.veil, f.more, f.instrument, f.help, f.problem, f.ring}
}

func (r *fieldRenderer) Destroy() {}
