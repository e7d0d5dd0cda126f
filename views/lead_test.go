package views

import (
	"testing"

	"fyne.io/fyne/v2"

	"meniscus/views/touch"
)

// focused is what has the focus in the window of a page.
func focused(o fyne.CanvasObject) fyne.Focusable {
	return fyne.CurrentApp().Driver().CanvasForObject(o).Focused()
}

// watchFocus keeps the path of the input that has the focus.
func watchFocus(in *inputs) *string {
	path, before := new(string), in.form.OnFocus
	in.form.OnFocus = func(now string) { *path = now; before(now) }
	return path
}

func TestMissingResinLeadsToItsChoice(t *testing.T) {
	b, p := layersOn(t, "")
	at := watchFocus(p.in)
	tapOn(t, p.list.root, "Add the first pour")
	b.settle()
	id := b.Snapshot().Project.Layers[0].ID
	if in := p.in.form.Field("layers/" + id + "/to"); in == nil || *at != "layers/"+id+"/to" {
		t.Errorf("a new pour does not ask for its depth, but for %q", *at)
	}
	if p.frame.answer.Text() != "Say how deep the first pour is" {
		t.Errorf("answers %q", p.frame.answer.Text())
	}
	if !p.focus("layers/" + id + "/sheet") {
		t.Fatal("the resin has no input")
	}
	if s, ok := focused(p.content()).(*touch.Select); !ok || s.Label != "Choose a resin" {
		t.Errorf("leads to %T", focused(p.content()))
	}
}

func TestNewWoodAsksForItsFirstMeasure(t *testing.T) {
	b, p := moldOn(t, "")
	at := watchFocus(p.in)
	p.pane.show(moldWood)
	p.pane.addPiece("stations")
	b.settle()
	if got, want := *at, "pieces/"+p.piece+"/spacing"; got != want {
		t.Errorf("asks for %q, want %q", got, want)
	}
	p.pane.show(moldSizes)
	b.Enter("mold/draft/kind", "angle")
	b.settle()
	if got := *at; got != "mold/draft/angle" {
		t.Errorf("a chosen lean asks for %q", got)
	}
}

// An input that is not painted yet is waited for, but not for ever.
func TestLeadWaitsForThePaint(t *testing.T) {
	b, p := layersOn(t, "")
	tries, done := 0, 0
	p.in.once(func() bool { tries++; return tries > 3 }, func() { done++ }, 10)
	b.until("it is done when it can be", func() bool { return done > 0 })
	if tries != 4 || done != 1 {
		t.Errorf("tried %d times, done %d times", tries, done)
	}
	tries, done = 0, 0
	p.in.once(func() bool { tries++; return false }, func() { done++ }, 2)
	b.until("it is given up", func() bool { return tries == 3 })
	b.settle()
	if tries != 3 || done != 0 {
		t.Errorf("tried %d times, done %d times", tries, done)
	}
}
