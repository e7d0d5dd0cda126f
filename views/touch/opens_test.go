package touch

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/views/look"
)

func TestOpensByFingerAndByKey(t *testing.T) {
	var log []bool
	o := NewOpens("38 °C (31 to 52)", Strong, func(byKey bool) { log = append(log, byKey) })
	win := show(t, container.NewVBox(o), 300, 100)
	if size := o.MinSize(); size.Height < look.Target || size.Width < o.text.LineWidth() {
		t.Errorf("the target is %v", size)
	}
	o.Tapped(&fyne.PointEvent{})
	if o.focused {
		t.Error("a tap shows the focus")
	}
	win.Canvas().Unfocus()
	o.Focus()
	if !o.focused {
		t.Error("the keyboard's focus does not show")
	}
	hit(win, fyne.KeyReturn)
	hit(win, fyne.KeySpace)
	hit(win, fyne.KeyDown)
	if len(log) != 3 || log[0] || !log[1] || !log[2] {
		t.Errorf("opened %v", log)
	}
}

// What makes the figure touchable is seen without its colour: a line below it
// and a sign in a box behind it, both within the target.
func TestOpensIsMarked(t *testing.T) {
	for _, align := range []fyne.TextAlign{fyne.TextAlignLeading, fyne.TextAlignCenter, fyne.TextAlignTrailing} {
		o := NewOpens("9 h", Strong, nil)
		o.Align = align
		show(t, o, 300, 100)
		o.Resize(fyne.NewSize(200, 44))
		r := o.CreateRenderer().(*opensRenderer)
		r.Layout(o.Size())
		if r.under.Size().Width != o.text.LineWidth() || r.sign.Text != "=" {
			t.Errorf("%v: line %v, sign %q", align, r.under.Size(), r.sign.Text)
		}
		for _, part := range []fyne.CanvasObject{r.under, r.box, o.text} {
			from, to := part.Position(), part.Position().Add(part.Size())
			if from.X < 0 || from.Y < 0 || to.X > 200 || to.Y > 44 {
				t.Errorf("%v: %T at %v to %v", align, part, from, to)
			}
		}
		o.SetText("a much longer figure")
		if o.MinSize().Width < o.text.LineWidth() {
			t.Errorf("%v: a longer figure has %v", align, o.MinSize())
		}
	}
}
