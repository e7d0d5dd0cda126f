package views

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"meniscus/views/touch"
)

// The Tab key goes from the head through the middle to the foot.
func TestAsReadIsWalkedFromTheTop(t *testing.T) {
	test.NewTempApp(t)
	head, middle, foot := touch.NewButton("head", nil), touch.NewButton("middle", nil), touch.NewButton("foot", nil)
	for _, c := range []struct {
		name string
		box  *fyne.Container
		want []fyne.Focusable
	}{
		{"all", asRead(head, middle, foot), []fyne.Focusable{head, middle, foot, head}},
		{"no foot", asRead(head, middle, nil), []fyne.Focusable{head, middle, head}},
		{"no head", asRead(nil, middle, foot), []fyne.Focusable{middle, foot, middle}},
	} {
		w := test.NewTempWindow(t, container.NewStack(c.box))
		w.Resize(fyne.NewSize(400, 400))
		for i, want := range c.want {
			if w.Canvas().FocusNext(); w.Canvas().Focused() != want {
				t.Errorf("%s: step %d leads elsewhere", c.name, i)
			}
		}
		if middle.Size().Height < 300-head.MinSize().Height {
			t.Errorf("%s: the middle is only %.0f high", c.name, middle.Size().Height)
		}
	}
}
