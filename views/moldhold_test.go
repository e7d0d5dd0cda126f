package views

import (
	"math"
	"testing"
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
