package views

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// keyed is a window that is worked with the Tab key and Space alone.
type keyed struct {
	*bench
	canvas fyne.Canvas
}

// words are those of the button or toggle that has the focus; "" of anything else.
func (k keyed) words() string {
	switch w := k.canvas.Focused().(type) {
	case *touch.Button:
		return w.Label
	case *touch.Toggle:
		return texts(w)[0]
	}
	return ""
}

// tab goes on with the Tab key to the control with some words.
func (k keyed) tab(words string) {
	k.t.Helper()
	for range 400 {
		if k.canvas.FocusNext(); k.words() == words {
			return
		}
	}
	k.t.Fatalf("the Tab key does not come to %q", words)
}

// space presses Space and lets it go, and waits for what comes of it.
func (k keyed) space() {
	k.t.Helper()
	space := &fyne.KeyEvent{Name: fyne.KeySpace}
	held := k.canvas.Focused().(desktop.Keyable)
	held.KeyDown(space)
	held.(fyne.Focusable).TypedKey(space)
	held.KeyUp(space)
	k.settle()
}

// TestFocusComesBackByKeyboard: a part that is built anew by its own touch leaves the
// focus on what was touched, so that the next Space goes on there, and the next Tab
// from there; where that is gone, it is on what stands in its place.
func TestFocusComesBackByKeyboard(t *testing.T) {
	b, p := pageOn(t, finishKey, "hall-shelf")
	p.(*finishPage).tabs.turn(finishFlatten)
	k := keyed{b, b.desk.windows.Window(finishKey).Canvas()}
	was := len(b.newest().Finish.Flatten.Points)
	k.tab("Measured in five places")
	for range 2 {
		before := k.canvas.Focused()
		k.space()
		if k.words() != "Measured in five places" || k.canvas.Focused() == before {
			t.Fatalf("after Space the focus is on %q, built anew %v", k.words(), k.canvas.Focused() != before)
		}
	}
	if now := len(b.newest().Finish.Flatten.Points); now != was {
		t.Errorf("turned over twice, %d places became %d", was, now)
	}
	b.end()

	b, p = pageOn(t, layersKey, "poppy-stand")
	k = keyed{b, b.desk.windows.Window(layersKey).Canvas()}
	const add = "Add powder, filler or thinner"
	k.tab(add)
	k.space()
	if k.words() != add || len(b.newest().Layers[1].Additives)+len(b.newest().Layers[0].Additives) != 1 {
		t.Fatalf("the focus is on %q", k.words())
	}
	k.tab("Take it out")
	k.space()
	if k.words() != add {
		t.Errorf("of the last that was taken out the focus went to %q", k.words())
	}
	b.end()

	b, p = pageOn(t, moldKey, "poppy-stand")
	b.did(b.Edit("By stations", "", func(m *model.Project) error {
		m.Pieces[0].Kind = model.PieceStations
		m.Pieces[0].Stations = make([]unit.Dim, 4)
		return nil
	}))
	b.settle()
	p.(*moldPage).pane.show(moldWood)
	b.settle()
	k = keyed{b, b.desk.windows.Window(moldKey).Canvas()}
	const less = "Remove the last"
	k.tab(less)
	k.space()
	if n := len(b.newest().Pieces[0].Stations); k.words() != less || n != 3 {
		t.Errorf("with %d stations the focus is on %T", n, k.canvas.Focused())
	}
	k.space() // with two left there is nothing to take away
	if n := len(b.newest().Pieces[0].Stations); k.canvas.Focused() == nil || k.words() == less || n != 2 {
		t.Errorf("with %d stations the focus is on %T", n, k.canvas.Focused())
	}
}
