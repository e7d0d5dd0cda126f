package views

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// TestHeadThatGrowsPushesDown: what stands below a head follows it, also where
// the toolkit has forgotten to lay the whole out anew.
func TestHeadThatGrowsPushesDown(t *testing.T) {
	head, middle, foot := canvas.NewRectangle(nil), canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	head.SetMinSize(fyne.NewSize(10, 20))
	foot.SetMinSize(fyne.NewSize(10, 30))
	c := asRead(head, middle, foot)
	c.Resize(fyne.NewSize(100, 300))
	before := middle.Size().Height
	head.SetMinSize(fyne.NewSize(10, 70))
	foot.Hide()
	c.MinSize() // as before each frame
	if got := middle.Position().Y; got < 70 {
		t.Errorf("below a head of 70 the middle begins at %v", got)
	}
	if got, want := middle.Size().Height, before-50+30; got < want {
		t.Errorf("the middle is %v high, at least %v is free", got, want)
	}
}
