package views

import (
	"testing"

	"meniscus/model"
	"meniscus/model/shape"
)

// TestTracedHole: a hole that came with a slab shows its area and takes a name
// and a depth, but no size; one that the maker adds beside it has its sizes.
func TestTracedHole(t *testing.T) {
	b, p, v := layOn(t, 60)
	if err := b.Session.Edit("Hole", "", func(pr *model.Project) error {
		s := &pr.Slabs[0]
		s.Upper.Rings = append(s.Upper.Rings, model.TracedRing{ID: "r2", Kind: model.RingHole, Points: shape.Ring{{X: 990, Y: 590}, {X: 1010, Y: 590}, {X: 1010, Y: 610}, {X: 990, Y: 610}}})
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	v.add()
	b.settle()
	v.use()
	b.settle()
	shot := b.Snapshot()
	w := shot.Project.Piece(p.piece)
	if w == nil || len(w.Voids) != 1 || w.Voids[0].Kind != model.VoidOutline {
		t.Fatalf("the piece is %+v", w)
	}
	// 20 by 20 pixels of half a millimetre.
	if a := float64(w.Voids[0].Outline.Area()); a < 0.99e-4 || a > 1.01e-4 {
		t.Errorf("the hole has %v m²", a)
	}
	if plan := shot.Plan.Piece(w.ID); plan == nil || plan.Voids <= 0 {
		t.Errorf("the hole takes no resin: %+v", plan)
	}
	p.void = w.Voids[0].ID
	p.pane.show(moldSizes)
	p.pane.show(moldWood)
	b.settle()
	at := "pieces/" + w.ID + "/voids/" + p.void
	if f := p.in.form; f.Field(at+"/depth") == nil || f.Field(at+"/diameter") != nil || f.Field(at+"/width") != nil {
		t.Error("a traced hole does not have the inputs that it needs")
	}
	if err := b.Session.Edit("Weigh", "", func(pr *model.Project) error {
		pr.Piece(w.ID).Weight.Value = 0.8
		pr.Slabs[0].Layups[0].Y += 0.02
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	p.pane.show(moldSlabs)
	p.slab.turn(slabLay)
	v.use()
	b.settle()
	shot = b.Snapshot()
	if w := shot.Project.Piece(p.piece); w == nil || w.Weight.Given() {
		t.Errorf("cut otherwise it keeps its weight: %+v", w)
	}
}
