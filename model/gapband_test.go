package model

import (
	"strings"
	"testing"

	"meniscus/model/unit"
)

// TestGapBand: a wall by a rule to 1 mm and wood by a caliper to 0.1 mm may be off by
// 1.1 mm together (by hand); of a traced outline no sum is told.
func TestGapBand(t *testing.T) {
	p := Blank("b", "Blank")
	for field, text := range map[string]string{"mold/length": "400 mm", "mold/width": "200 mm", "mold/depth": "40 mm"} {
		if err := Enter(&p, field, text); err != nil {
			t.Fatal(err)
		}
	}
	p.Pieces = []Piece{{ID: "w", Kind: PieceRectangle}}
	if got := p.gapBand("pieces/w/"); !strings.Contains(got, "traced") || strings.Contains(got, "so the gap") {
		t.Errorf("%q", got)
	}
	if err := Enter(&p, "pieces/w/width", "80 mm"); err != nil {
		t.Fatal(err)
	}
	for field, by := range map[string]unit.Instrument{"mold/length": unit.Rule, "pieces/w/width": unit.Caliper} {
		if err := Measure(&p, field, by); err != nil {
			t.Fatal(err)
		}
	}
	for by, off := range map[unit.Instrument]string{unit.Rule: "1 mm", unit.Caliper: "0.1 mm"} {
		if err := SetAccuracy(&p, by, off); err != nil {
			t.Fatal(err)
		}
	}
	if got := p.gapBand("pieces/w/"); !strings.Contains(got, "so the gap by up to 1.1 mm") {
		t.Errorf("%q", got)
	}
}
