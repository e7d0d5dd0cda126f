package views

import (
	"testing"

	"meniscus/model"
	"meniscus/views/touch"
)

// figuresThatOpen lists the figures that a window shows and that open how they came
// about.
func (b *bench) figuresThatOpen(key string) (list []*touch.Opens) {
	for _, s := range b.spots(key, screens[0]) {
		if figure, ok := s.o.(*touch.Opens); ok {
			list = append(list, figure)
		}
	}
	return list
}

// TestEveryFigureExplainsItself: in each part of each window, with each demo, whatever
// can be opened says what it was worked out by, what went in, where that is from and how
// sure it is.
func TestEveryFigureExplainsItself(t *testing.T) {
	onlyDrawn(t)
	for _, name := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		b := newBench(t, newFakeStore())
		b.demo(name)
		b.until("the simulation is in", func() bool { return b.Snapshot().CuringFresh })
		all := stops(b)
		b.resize(screens[0])
		opened := 0
		for _, s := range all {
			s.turn()
			b.settle()
			root := b.desk.covers[s.key].root
			for _, figure := range b.figuresThatOpen(s.key) {
				words := figure.Text()
				figure.OnOpen(false)
				opened++
				for _, part := range []string{"What went in", "How sure it is", "Where it is from"} {
					if !shows(root, part) {
						t.Errorf("%s, %s: %q opens without %q", name, s.name, words, part)
					}
				}
				if shows(root, "Close") {
					tapOn(t, root, "Close")
				}
			}
		}
		if opened < 20 {
			t.Errorf("%s: only %d figures open", name, opened)
		}
		b.end()
	}
}

// TestLeadingFiguresOpen: the figure that each part of the work leads with can be
// opened, once the piece is planned.
func TestLeadingFiguresOpen(t *testing.T) {
	onlyDrawn(t)
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	b.until("the simulation is in", func() bool { return b.Snapshot().CuringFresh })
	if err := b.EditShelf("Add a product", "", func(m *model.Shelf) error {
		m.Products = append(m.Products, model.Product{ID: "r", Bottles: []model.Bottle{{ID: "b", Part: model.PartA}}})
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.EnterShelf("shelf/products/r/bottles/b/holds", "1 kg")
	b.Enter("finish/sand/want", string(model.SurfaceSatin))
	b.Enter("finish/coat/kind", string(model.CoatOil))
	b.settle()
	all := map[string]stop{}
	for _, s := range stops(b) {
		all[s.name] = s
	}
	b.resize(screens[0])
	for _, name := range []string{
		"notebook page 0", "layers heat", "layers amount", "mixing amount", "mixing tint", "mixing day", "mixing air", "cure now",
		"mold mold", "finish trim", "finish flatten", "finish sand", "finish coat", "finish use", "shelf products 1", "shelf price",
	} {
		s, ok := all[name]
		if !ok {
			t.Errorf("there is no %s among them", name)
			continue
		}
		s.turn()
		b.settle()
		if len(b.figuresThatOpen(s.key)) == 0 {
			t.Errorf("%s: no figure opens how it came about", name)
		}
	}
}
