package model

import (
	"slices"
	"testing"

	"meniscus/model/unit"
)

// TestTried: each thing that the guidance asks for is known by the change that it is,
// and by no other.
func TestTried(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Project)
		want   []Try
	}{
		"nothing":        {func(*Project) {}, nil},
		"wood moved":     {func(p *Project) { p.Pieces[0].Y += unit.Millimetre }, []Try{TryWood}},
		"wood turned":    {func(p *Project) { p.Pieces[0].Turn += 0.1 }, []Try{TryWood}},
		"wood planed":    {func(p *Project) { p.Pieces[0].Thickness.Value += unit.Millimetre }, nil},
		"wood added":     {func(p *Project) { p.Pieces = append(p.Pieces, Piece{ID: "other", X: 1}) }, nil},
		"deeper pour":    {func(p *Project) { p.Layers[0].To.Value += unit.Millimetre }, []Try{TryPour}},
		"given anew":     {func(p *Project) { p.Layers[0].By = ToBelow; p.Layers[0].To.Value += unit.Millimetre }, nil},
		"pour added":     {func(p *Project) { p.Layers = append(p.Layers, Layer{ID: "other"}) }, nil},
		"colder room":    {func(p *Project) { p.Shop.Room.Value -= 3 }, []Try{TryRoom}},
		"colder night":   {func(p *Project) { p.Shop.Night.Value -= 3 }, nil},
		"another piece":  {func(p *Project) { p.ID = "other"; p.Shop.Room.Value -= 3 }, nil},
		"two at a time":  {func(p *Project) { p.Pieces[0].X += 1; p.Shop.Room.Value++ }, []Try{TryWood, TryRoom}},
		"pour taken out": {func(p *Project) { p.Layers = nil }, nil},
	} {
		before := demo(t, "poppy-stand")
		after := before.Clone()
		c.change(&after)
		if got := Tried(&before, &after); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// TestTryField: what a thing is tried with can be shown, and is empty where there is
// none.
func TestTryField(t *testing.T) {
	p, blank := demo(t, "poppy-stand"), Blank("b", "Blank")
	for _, try := range []Try{TryPour, TryRoom} {
		if text, _ := Show(&p, p.TryField(try)); text == "" {
			t.Errorf("%s: %q says nothing", try, p.TryField(try))
		}
	}
	if got := p.TryField(TryWood); got != "pieces/"+p.Pieces[0].ID {
		t.Errorf("wood: %q", got)
	}
	for try, want := range map[Try]string{TryWood: "", TryPour: "", TryRoom: "shop/room", TryUndo: "", TryWorking: "", TryOwn: ""} {
		if got := blank.TryField(try); got != want {
			t.Errorf("%s of a blank piece: %q, want %q", try, got, want)
		}
	}
}
