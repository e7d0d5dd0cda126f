package model

import (
	"strings"
	"testing"

	"meniscus/model/unit"
)

// valueAt gives the value of a line of a working, by its label.
func valueAt(t *testing.T, w Working, label string) string {
	t.Helper()
	for _, in := range w.Inputs {
		if in.Label == label {
			return in.Value
		}
	}
	t.Errorf("there is no %q in %+v", label, w.Inputs)
	return ""
}

// told checks the values of lines, and that every line says where it is from and
// leads nowhere but to a field of the document.
func told(t *testing.T, p *Project, w Working, want map[string]string) {
	t.Helper()
	for label, value := range want {
		if got := valueAt(t, w, label); got != value {
			t.Errorf("%s: %q, by hand %q", label, got, value)
		}
	}
	for _, in := range w.Inputs {
		if in.Label == "" || in.Value == "" || in.Source == "" {
			t.Errorf("a line that does not say all: %+v", in)
		}
		text, _ := Show(p, in.Field)
		if text = strings.TrimPrefix(text, "as given"); in.Field != "" && Enter(p, in.Field, text) != nil {
			t.Errorf("%s leads to %q, which takes no %q", in.Label, in.Field, text)
		}
	}
}

// boardInTray is a tray of 300 · 200 · 40 mm with a board of 280 · 150 · 20 mm in
// its middle, and a pour of 10 mm of 1.0934 g/ml.
func boardInTray() Project {
	p := tray(300, 200, 40, 10)
	p.Pieces = []Piece{{ID: "p1", Name: "board", Kind: PieceRectangle, Length: mm(280), Width: mm(150), Thickness: mm(20), Density: given(unit.Density(600))}}
	return p
}

// TestMoldWorking: the tray holds 2.4 l. Up to 10 mm it has room for 600 ml, of
// which 280 · 150 · 10 mm = 420 ml are wood, 70 %, so 180 ml of resin. A millimetre
// more is 60,000 less 42,000 mm² by 1 mm, 18 ml of 1.0934 g/ml, 19.7 g. 30 mm
// are free.
func TestMoldWorking(t *testing.T) {
	p := boardInTray()
	pl := Make(p)
	w, ok := pl.MoldWorking(&p)
	if !ok {
		t.Fatal("there is no working")
	}
	told(t, &p, w, map[string]string{
		"Length": "300 mm", "Width": "200 mm", "Depth": "40 mm", "Capacity to the rim": "2400 ml",
		"Room up to the fill line": "600 ml", "Wood up to there": "420 ml", "Resin up to there": "180 ml",
		"Solids": "70 %", "One more millimetre": "20 g", "Height of the fill line": "10 mm", "Free to the rim": "30 mm",
	})
	p.Layers = nil
	pl = Make(p)
	if w, ok := pl.MoldWorking(&p); !ok || strings.Contains(w.Formula, "fill line") {
		t.Errorf("without a pour: %v %q", ok, w.Formula)
	}
	p.Mold.Depth = unit.Dim{}
	pl = Make(p)
	if _, ok := pl.MoldWorking(&p); ok {
		t.Error("a mold that is not measured has a working")
	}
}

// TestSolidShareCountsInserts: by hand, ten discs of 20 mm and 2 mm are
// 10 · π/4 · 400 · 2 = 6,283 mm³ of 600,000, 1.05 %, without any wood.
func TestSolidShareCountsInserts(t *testing.T) {
	p := tray(300, 200, 40, 10)
	p.Inserts = []Insert{{ID: "i1", Name: "disc", Kind: InsertStanding, Diameter: mm(20), Tall: mm(2), On: OnFloor, Count: 10}}
	pl := Make(p)
	within(t, "share", pl.SolidShare(), 0.010472, 1e-6)
}

// TestGapWorking: 10 mm to either end and 25 to either side; the least is 10.
func TestGapWorking(t *testing.T) {
	p := boardInTray()
	pl := Make(p)
	w, ok := pl.GapWorking(&p)
	if !ok {
		t.Fatal("there is no working")
	}
	told(t, &p, w, map[string]string{"Tightest piece": "board", "Least gap": "10 mm", "Room to the left": "10 mm", "Room to the right": "10 mm", "Room on the near side": "25 mm", "Room on the far side": "25 mm"})
	p.Pieces = nil
	pl = Make(p)
	if _, ok := pl.GapWorking(&p); ok {
		t.Error("without wood there is a gap")
	}
}

// TestLeakWorking: the worked example of TestShelfLeaks, 2.5 ml and 2.8 g in an
// hour by 0.1 mm over 200 mm, 18 mm deep, under 24 mm.
func TestLeakWorking(t *testing.T) {
	p := leaking(t)
	pl := Make(p)
	w, ok := pl.LeakWorking(&p, pl.Layers[0].ID)
	if !ok {
		t.Fatal("there is no working")
	}
	told(t, &p, w, map[string]string{"Gap of end joint": "0.1 mm", "Its length": "200 mm", "Way through it": "18 mm", "Pressure there": "262 Pa", "In an hour": "2.5 ml, 2.8 g"})
	if _, ok := pl.LeakWorking(&p, pl.Layers[1].ID); ok {
		t.Error("a pour that wets no seam has a working")
	}
}

// TestSagWorking: the load of a tray full of resin to 10 mm, 600 ml of 1.0934 g/ml
// or 656 g on 600 cm², is 0.656 · 9.80665/0.06 = 107 Pa.
func TestSagWorking(t *testing.T) {
	p := tray(300, 200, 40, 10)
	p.Mold.Floor, p.Mold.Thick, p.Mold.Hold.Spacing = FloorBoard, mm(18), mm(300)
	pl := Make(p)
	w, ok := pl.SagWorking(&p)
	if !ok {
		t.Fatal("there is no working")
	}
	told(t, &p, w, map[string]string{"Load, spread over the floor": "107 Pa", "Thickness of the floor": "18 mm", "Between the supports": "300 mm"})
	p.Mold.Floor = FloorSilicone
	pl = Make(p)
	if _, ok := pl.SagWorking(&p); ok {
		t.Error("a floor that bears nothing has a working")
	}
}

// TestHoldWorking: the walnut board of TestLiftOfABody: it weighs 1.8 · 0.611 =
// 1.0998 kg, pushes 1.8 l of 1.1 g/ml aside, is lifted by 0.8802 kg and held down
// with twice that, 1.7604 kg or 17.26 N, told as 1.8 kg and 17 N.
func TestHoldWorking(t *testing.T) {
	p := floatingBoard()
	pl := Make(p)
	w, ok := pl.HoldWorking(&p, "l1", "")
	if !ok {
		t.Fatal("there is no working")
	}
	told(t, &p, w, map[string]string{"Walnut weighs": "1.1 kg", "Resin that it pushes aside": "1800 ml", "It is lifted by": "880 g", "To hold it down with": "1.8 kg", "In all": "1.8 kg, 17 N"})
	if _, ok := pl.HoldWorking(&p, "l1", "pieces/none"); ok {
		t.Error("a piece that is not there has a working")
	}
}
