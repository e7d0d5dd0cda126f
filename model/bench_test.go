package model

import (
	"fmt"
	"math"
	"testing"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// crowded is a project with so many kinds of insert and a piece traced by so many
// points.
func crowded(inserts, points int) Project {
	p := tray(1200, 500, 60, 25)
	p.Layers = append(p.Layers, Layer{ID: "l2", Name: "second", By: ToDepth, To: mm(20), Sheet: "s1"})
	var r shape.Ring
	for i := range points {
		a := 2 * math.Pi * float64(i) / float64(points)
		k := 0.15 + 0.01*math.Sin(9*a) + 0.002*math.Sin(211*a)
		r = append(r, shape.Point{X: 2 * k * math.Cos(a), Y: k * math.Sin(a)})
	}
	p.Pieces = []Piece{{ID: "p1", Name: "slab", Kind: PieceOutline, Outline: r, Thickness: mm(30)}}
	kinds := []InsertKind{InsertStanding, InsertLying, InsertHalf, InsertSphere, InsertBox, InsertRing, InsertFrustum, InsertDisplaces}
	for i := range inserts {
		p.Inserts = append(p.Inserts, Insert{
			ID: fmt.Sprintf("i%d", i), Name: "insert", Count: 1, Kind: kinds[i%len(kinds)], Diameter: mm(8), Inner: mm(3), Length: mm(10), Width: mm(6), Tall: mm(5),
			Displaces: given(unit.Volume(1e-6)), On: OnLayer, Layer: "l1",
		})
	}
	return p
}

func TestCrowdedPlan(t *testing.T) {
	pl := Make(crowded(200, 20_000))
	if len(pl.Inserts) != 200 || !pl.Layers[1].Mix.Ready {
		t.Fatal("the crowded project is not planned")
	}
}

func BenchmarkPlanCrowded(b *testing.B) {
	for _, n := range [][2]int{{10, 20_000}, {50, 20_000}, {200, 20_000}, {200, 500}, {200, 5000}} {
		b.Run(fmt.Sprintf("inserts=%d/points=%d", n[0], n[1]), func(b *testing.B) {
			p := crowded(n[0], n[1])
			for b.Loop() {
				Make(p)
			}
		})
	}
}
