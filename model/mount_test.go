package model

import (
	"strings"
	"testing"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// overDisc is a board 25 mm thick with wood right through its left half, a disc
// 3 mm high on its floor, and a handle whose left hole is in that wood and whose
// right one is not.
func overDisc() Project {
	p := handled()
	p.Pieces = []Piece{{ID: "p1", Name: "oak", Kind: PieceRectangle, Length: mm(150), Width: mm(150), Thickness: mm(25), X: -0.1}}
	p.Inserts = []Insert{{ID: "i1", Name: "disc", Count: 1, Kind: InsertStanding, Diameter: mm(20), Tall: mm(3), On: OnFloor, Fixed: true}}
	return p
}

// TestEveryHoleIsLookedAt: of a mount of two holes the first is in wood, in which
// no insert can lie; the second alone is at the height of one, and stops.
func TestEveryHoleIsLookedAt(t *testing.T) {
	p := overDisc()
	pl := Make(p)
	holes := pl.Finish.Mounts[0].Holes
	if len(holes) != 2 || holes[0].In != "oak" || holes[1].In != "resin" || len(holes[0].Passes) != 0 || len(holes[1].Passes) != 1 {
		t.Fatalf("%+v", holes)
	}
	f := finding(pl, "mount.insert")
	if f.Level != Stop || !strings.Contains(f.What, "disc") || !strings.Contains(f.Do, "looked") {
		t.Errorf("%+v", f)
	}
	// With both holes in the wood nothing can be in their way.
	p.Finish.Mounts[0].X = -0.1
	if f := finding(Make(p), "mount.insert"); f.Kind != "" {
		t.Errorf("in the wood: %+v", f)
	}
}

// TestBlindHoleBesideInsert: a foot from below with a screw 30 mm long through 6
// mm of it goes 18 mm deep at least, into the disc's 3 mm; from the top, with 25
// mm of board, it ends 25 - 20.4 = 4.6 mm above the floor and clears them.
func TestBlindHoleBesideInsert(t *testing.T) {
	p := overDisc()
	p.Finish.Mounts = nil
	id := p.AddMount(MountFoot)
	s := p.Mount(id)
	s.X, s.Thickness = 0.1, mm(6)
	if f := finding(Make(p), "mount.insert"); f.Level != Stop || f.Field != "finish/mounts/"+id+"/looked" {
		t.Errorf("from below: %+v", f)
	}
	s.Top = true
	pl := Make(p)
	within(t, "deep", pl.Finish.Mounts[0].Deep.Millimetres(), 20.4, 1e-6)
	if f := finding(pl, "mount.insert"); f.Kind != "" {
		t.Errorf("from the top: %+v", f)
	}
}

// TestLookedThrough: what the maker saw of the holes lets them be drilled, for as
// long as they stay where they are; for another casting it holds nothing.
func TestLookedThrough(t *testing.T) {
	p := overDisc()
	id := p.Finish.Mounts[0].ID
	at := "finish/mounts/" + id + "/"
	look := func() {
		t.Helper()
		if err := Enter(&p, at+"looked", "yes"); err != nil || !p.Mount(id).Looked {
			t.Fatal(err)
		}
		pl := Make(p)
		if f := finding(pl, "mount.insert"); f.Kind != "" {
			t.Fatalf("looked through: %+v", f)
		}
		said := false
		for _, l := range pl.Finish.Mounts[0].Lines {
			said = said || l.Value == "looked through, clear" && strings.Contains(l.Source, "disc")
		}
		if !said {
			t.Fatalf("%+v", pl.Finish.Mounts[0].Lines)
		}
	}
	if text, _ := Show(&p, at+"looked"); text != "no" {
		t.Errorf("at first it is %q", text)
	}
	for name, change := range map[string]func(){
		"dragged":        func() { p.MoveMount(id, shape.Point{X: 0.01}) },
		"turned":         func() { p.TurnMount(id, unit.Degree) },
		"centred":        func() { pl := Make(p); p.CentreMount(&pl.Finish, id, AlongWidth) },
		"its place":      func() { _ = Enter(&p, at+"y", "3 mm") },
		"its direction":  func() { _ = Enter(&p, at+"turn", "10°") },
		"its other hole": func() { _ = Enter(&p, at+"apart", "98 mm") },
		"its side":       func() { _ = Enter(&p, at+"top", "yes") },
		"its screw":      func() { _ = Enter(&p, at+"long", "25 mm") },
	} {
		look()
		if change(); p.Mount(id).Looked {
			t.Errorf("%s: it still counts as looked through", name)
		}
	}
	_ = Enter(&p, at+"y", "3 mm")
	look()
	for _, text := range []string{"handle by the door", "handle by the door"} {
		_ = Enter(&p, at+"name", text)
	}
	_ = Enter(&p, at+"y", "3 mm") // as it was
	if !p.Mount(id).Looked {
		t.Error("another name or the same place takes it back")
	}
	pl := Make(p)
	p.Mount(id).X = 0.05
	p.Mount(id).Looked = true
	other, err := p.MirrorMount(&pl.Finish, id, AlongLength)
	if err != nil || p.Mount(other).Looked || !p.Mount(id).Looked {
		t.Errorf("mirrored: %v", err)
	}
	if r := p.Recipe(); r.Mount(id).Looked || !p.Mount(id).Looked {
		t.Error("another casting counts as looked through")
	}
}
