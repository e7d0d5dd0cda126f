package walk

import (
	"math"
	"path/filepath"
	"testing"

	"meniscus/model"
)

// TestFinishing goes through the tabs of the real window Finishing: the edges are
// cut to a circle, the finish is chosen, and a foot is added, dragged and
// mirrored. All of it is kept.
func TestFinishing(t *testing.T) {
	if testing.Short() {
		t.Skip("works real windows")
	}
	t.Parallel()
	s := newScreen(t, "1366x768")
	notebook := filepath.Join(t.TempDir(), "n.db")
	p := s.start(notebook, checks+"=1")
	p.await("the demo job", "Notebook · Poppy stand", func(seen) bool { return true })
	p.key("Notebook", "ctrl+6")
	p.await("the window", "Finishing · Poppy stand", func(w seen) bool { return len(w.Things) > 10 })

	// 320 mm across flats: the largest circle is as wide.
	p.tap("Finishing", "line", "^Circle$")
	p.text("Finishing", `^320 mm across, 25.5 mm thick, give or take 0.\d mm$`)
	p.tap("Finishing", "line", "^Flatten$")
	p.enter("Finishing", "finish/bottom", "1 mm")
	p.text("Finishing", `^320 mm across, 25 mm thick, give or take 0.\d mm$`)
	p.tap("Finishing", "line", "^Sand$")
	p.tap("Finishing", "select", "^Not chosen$")
	p.tap("Finishing", "line", "^Silk, to P600$")
	p.reach("Finishing", "text", "^P600$")

	p.tap("Finishing", "line", "^Drill$")
	p.tap("Finishing", "select", "^Add a mount$")
	p.tap("Finishing", "line", "^Foot$")
	p.reads("Finishing", "^1. Pilot hole")
	drawing := p.reach("Finishing", "canvas", "")
	x, y := drawing.X+drawing.W/2, drawing.Y+drawing.H/2
	p.drag(p.raise("Finishing"), x, y, x+40, y-20)
	p.find("Finishing", "button", "^Undo: move foot 1$")
	p.tap("Finishing", "button", "^Mirror along$")
	p.find("Finishing", "button", "^Undo: mirror along$")
	p.text("Finishing", "^kept")
	p.finish()

	project, _ := kept(t, notebook, "Poppy stand (demo)")
	f := &project.Finish
	if f.Trim.Shape != model.TrimCircle || f.Sand.Want != model.SurfaceSilk || len(f.Mounts) != 2 {
		t.Fatalf("kept is %+v", f)
	}
	a, b := f.Mounts[0], f.Mounts[1]
	if a.X <= 0 || a.Y <= 0 || math.Abs(float64(a.X+b.X)) > 1e-3 || math.Abs(float64(a.Y-b.Y)) > 1e-9 {
		t.Errorf("the feet lie at %v, %v and %v, %v", a.X, a.Y, b.X, b.Y)
	}
}
