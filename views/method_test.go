package views

import (
	"testing"

	"meniscus/model"
	"meniscus/views/drawing"
)

// shownMethod tells whether a window shows how something is measured.
func (b *bench) shownMethod(key string) bool {
	for _, s := range b.spots(key, screens[0]) {
		if p, ok := s.o.(*drawing.Picture); ok && p.MinSize().Width == drawing.MethodWide && p.MinSize().Height >= drawing.MethodHigh && p.Size().Width >= drawing.MethodWide {
			return true
		}
	}
	return false
}

// TestEmptyPlacesShowHow: in a piece of which nothing is known yet, each place that
// waits for something to be measured shows how; all of it fits each screen; and once
// the piece is measured, the places of the plan have room for the plan.
func TestEmptyPlacesShowHow(t *testing.T) {
	onlyDrawn(t)
	b := newBench(t, newFakeStore())
	for _, size := range screens {
		b.desk.windows.Window(notebookKey).Resize(size)
		b.checkSpots(t, "empty notebook", b.spots(notebookKey, size))
	}
	b.desk.newProject()
	b.settle()
	all := stops(b)
	for _, size := range screens {
		b.resize(size)
		for _, s := range all {
			s.turn()
			b.settle()
			b.checkSpots(t, "blank "+s.name, b.spots(s.key, size))
		}
	}
	b.resize(screens[0])
	waits := []string{"layers pour", "mixing day", "cure now", "cure shop", "finish trim", "shelf products", "notebook run", "notebook shop"}
	seen := map[string]bool{}
	for _, s := range all {
		s.turn()
		b.settle()
		seen[s.name] = b.shownMethod(s.key)
	}
	for _, name := range waits {
		if shown, ok := seen[name]; !ok || !shown {
			t.Errorf("%s shows nothing of how to measure (%v)", name, ok)
		}
	}
	b.demo("poppy-stand")
	for _, s := range all {
		switch s.name {
		case "layers pour", "mixing day", "cure now", "finish trim":
			s.turn()
			b.settle()
			if b.shownMethod(s.key) {
				t.Errorf("%s still shows how to measure what is measured", s.name)
			}
		}
	}
}

// TestMethodOfWhatIsMissing: what keeps a pour from being mixed is shown by the drawing
// of how it is found.
func TestMethodOfWhatIsMissing(t *testing.T) {
	for field, want := range map[string]drawing.Method{
		"": drawing.MethodMix, "sheets/s1/weightRatio/a": drawing.MethodSheet, "layers/l1/to": drawing.MethodLayer,
	} {
		if got, ok := methodOf(field); !ok || got != want {
			t.Errorf("%q: %v, %v", field, got, ok)
		}
	}
	for _, field := range []string{"layers/l1/sheet", "mold/depth"} {
		if got, ok := methodOf(field); ok {
			t.Errorf("%q: %v", field, got)
		}
	}
	b := newBench(t, newFakeStore())
	b.desk.newProject()
	b.settle()
	b.desk.Show(layersKey)
	p := b.desk.pages[layersKey].(*layersPage)
	b.desk.windows.Window(layersKey).Resize(screens[0])
	if err := b.Edit("Add a pour", "", func(m *model.Project) error { m.AddLayer(); return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	p.open(layersSheet)
	b.settle()
	if !b.shownMethod(layersKey) {
		t.Error("without a data sheet it does not show which lines of one to look up")
	}
}
