package app

import (
	"errors"
	"math"
	"testing"

	"meniscus/model"
)

// What the scale read is on the disk once it is kept: undo takes nothing of it
// back, and what cannot have been read is refused with its field.
func TestWhatTheScaleReadIsKept(t *testing.T) {
	b := started(t)
	if err := b.Edit("Add a layer", "", func(p *model.Project) error { p.AddSheet(); p.AddLayer(); return nil }); err != nil {
		t.Fatal(err)
	}
	b.Enter("mixing/cup", "64.3 g")
	b.settle()
	layer := b.Snapshot().Project.Layers[0].ID
	if err := b.AddWeighed(layer, model.EntryWeighedA, "519.5", false); err != nil {
		t.Fatal(err)
	}
	if err := b.AddWeighed(layer, model.EntryWeighedB, "724.3", false); err != nil {
		t.Fatal(err)
	}
	var p *model.Problem
	if err := b.AddWeighed(layer, model.EntryWeighedB, "some", false); !errors.As(err, &p) {
		t.Errorf("some: %v", err)
	}
	b.settle()
	b.Undo()
	b.settle()
	b.Close()
	b = newBench(t, b.path, nil)
	b.Reopen()
	b.settle()
	shot := b.Snapshot()
	c := shot.Project.InCup(layer)
	if shot.Project.Mixing.Cup.Given() || math.Abs(c.A.Grams()-455.2) > 1e-9 || math.Abs(c.B.Grams()-204.8) > 1e-9 || math.Abs(c.Cup.Grams()-64.3) > 1e-9 {
		t.Errorf("after undo: cup %+v, in it %+v", shot.Project.Mixing.Cup, c)
	}
	if err := b.Withdraw(c.Last); err != nil {
		t.Fatal(err)
	}
	b.settle()
	shot = b.Snapshot()
	if c := shot.Project.InCup(layer); c.HasB || len(shot.Project.Journal) != 3 {
		t.Errorf("taken back: %+v of %+v", c, shot.Project.Journal)
	}
}
