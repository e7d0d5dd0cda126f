package views

import (
	"math"
	"testing"

	"meniscus/model"
	"meniscus/model/unit"
)

// TestMoldFloatStopsAPour: the window says what to hold down, and its act stops
// the pour below the level that lifts the wood, as one step of undo.
func TestMoldFloatStopsAPour(t *testing.T) {
	b, p := moldOn(t, "breakfast-boards")
	p.pane.show(moldFloat)
	// 0.85 of 11.19 mm, on the rule 9 mm.
	if !shows(p.pane.root, "Hold down") || !shows(p.pane.root, "only just not lifted") {
		t.Errorf("it shows %q", texts(p.pane.root))
	}
	tapOn(t, p.pane.root, "Stop first lift at 9 mm")
	b.settle()
	shot := b.Snapshot()
	if at := shot.Plan.Layers[0].Top; math.Abs(float64(at)-0.009) > 1e-9 || len(shot.Plan.Layers) != 2 {
		t.Fatalf("the first lift ends at %v of %d", at, len(shot.Plan.Layers))
	}
	if !shows(p.pane.root, "No wood to hold down") || shows(p.pane.root, "Stop first lift") {
		t.Errorf("then it shows %q", texts(p.pane.root))
	}
	b.Undo()
	b.settle()
	if at := b.Snapshot().Plan.Layers[0].Top; math.Abs(float64(at)-0.010) > 1e-9 {
		t.Errorf("undone, the first lift ends at %v", at)
	}
}

// TestMoldSeamsComeAndGo: a seam is added, measured and taken away, and what
// leaves by it is said.
func TestMoldSeamsComeAndGo(t *testing.T) {
	b, p := moldOn(t, "poppy-stand")
	p.pane.show(moldTight)
	tapOn(t, p.pane.root, "Add a seam")
	b.settle()
	seams := b.Snapshot().Project.Mold.Hold.Seams
	if len(seams) != 1 {
		t.Fatalf("seams %v", seams)
	}
	at := moldSeams + "/" + seams[0].ID
	if p.in.form.Field(at+"/gap") == nil {
		t.Fatal("its gap cannot be entered")
	}
	b.Enter(at+"/gap", "0.2 mm")
	b.settle()
	if !shows(p.pane.root, "Up to") || !shows(p.pane.root, "Tray below the mold") {
		t.Errorf("it shows %q", texts(p.pane.root))
	}
	tapOn(t, p.pane.root, "Remove this seam")
	b.settle()
	if len(b.Snapshot().Project.Mold.Hold.Seams) != 0 || p.in.form.Field(at+"/gap") != nil {
		t.Error("the seam is still there")
	}
}

// TestMoldFourDepths: the four depths have their inputs once they are wanted, and
// tell the shims.
func TestMoldFourDepths(t *testing.T) {
	b, p := moldOn(t, "poppy-stand")
	p.pane.show(moldLevel)
	if p.in.form.Field(moldDepths+"/0") != nil {
		t.Error("the depths are asked for unasked")
	}
	tapToggle(t, p.pane.root)
	b.settle()
	for i, text := range []string{"40", "41", "42", "41"} {
		b.Enter(moldDepths+"/"+string(rune('0'+i)), text)
	}
	b.settle()
	for _, words := range []string{"Shim corner B, near right, by", "1 mm", "Shim corner C, far right, by", "2 mm", "By the four depths"} {
		if !shows(p.pane.root, words) {
			t.Errorf("it does not say %q: %q", words, texts(p.pane.root))
		}
	}
}

// TestMoldFloatUnweighed: where wood is not weighed no pour is said to lift
// nothing, and what is to be held down is said to be without it.
func TestMoldFloatUnweighed(t *testing.T) {
	b, p := moldOn(t, "breakfast-boards")
	p.pane.show(moldFloat)
	pieces := b.Snapshot().Project.Pieces
	drop := func(from int) {
		t.Helper()
		if err := b.Edit("Drop the weights", "", func(q *model.Project) error {
			for i := range q.Pieces[from:] {
				w := &q.Pieces[from+i]
				w.Weight, w.Density = unit.Taken[unit.Mass]{}, unit.Taken[unit.Density]{}
			}
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		b.settle()
	}
	if len(pieces) < 2 {
		t.Fatalf("%d pieces", len(pieces))
	}
	if shows(p.pane.root, "not weighed") {
		t.Errorf("all is weighed, and it shows %q", texts(p.pane.root))
	}
	drop(len(pieces) - 1)
	if !shows(p.pane.root, ", without what is not weighed") {
		t.Errorf("one not weighed, it shows %q", texts(p.pane.root))
	}
	drop(0)
	if !shows(p.pane.root, "not known: weigh the wood") || shows(p.pane.root, "lifts no wood") {
		t.Errorf("none weighed, it shows %q", texts(p.pane.root))
	}
}

// TestMoldPressInWeights: loads are told as weights, and pressures only where
// how they come about is asked for.
func TestMoldPressInWeights(t *testing.T) {
	_, p := moldOn(t, "poppy-stand")
	p.pane.show(moldTight)
	for _, words := range []string{"Resin, wood and inserts on the floor", "Pushes outwards on each metre of wall like"} {
		if !shows(p.pane.root, words) {
			t.Errorf("it does not say %q: %q", words, texts(p.pane.root))
		}
	}
	if shows(p.pane.root, " Pa") || shows(p.pane.root, "GPa") {
		t.Errorf("it shows a pressure unasked: %q", texts(p.pane.root))
	}
	tapOn(t, p.pane.root, "How")
	if !shows(p.pane.root, " Pa") {
		t.Errorf("asked how, it shows %q", texts(p.pane.root))
	}
}

// TestMoldLevelWithoutCorners: a mold without four corners is told where its four
// depths are measured.
func TestMoldLevelWithoutCorners(t *testing.T) {
	b, p := moldOn(t, "poppy-stand") // a hexagon
	p.pane.show(moldLevel)
	for _, words := range []string{"no four corners: measure at the wall", "Measured at four places"} {
		if !shows(p.pane.root, words) {
			t.Errorf("it does not say %q: %q", words, texts(p.pane.root))
		}
	}
	b.Enter("mold/kind", string(model.MoldRectangle))
	b.settle()
	if shows(p.pane.root, "no four corners") {
		t.Error("a rectangle is said to have no corners")
	}
}
