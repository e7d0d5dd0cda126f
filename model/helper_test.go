package model

import (
	"fmt"
	"math"
	"os"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// close tells whether two numbers agree to a share of the larger.
func close(got, want, share float64) bool {
	return math.Abs(got-want) <= share*math.Max(math.Abs(got), math.Abs(want))
}

// mm is a length measured with a rule.
func mm(v float64) unit.Dim {
	return unit.Dim{Value: unit.Length(v) * unit.Millimetre, Written: fmt.Sprintf("%g mm", v), By: unit.Rule}
}

func given[Q unit.Quantity](v Q) unit.Taken[Q] { return unit.Taken[Q]{Value: v, Written: "as given"} }

// sheetBy is a product with a ratio by weight and densities.
func sheetBy(id string, parts float64) Sheet {
	return Sheet{
		ID: id, Name: "resin " + id,
		Weight:   Ratio{A: given(unit.Number(100)), B: given(unit.Number(parts))},
		DensityA: Figure[unit.Density]{Taken: given(unit.Density(1130))},
		DensityB: Figure[unit.Density]{Taken: given(unit.Density(1020))},
		MaxLayer: Figure[unit.Length]{Taken: mm(50)},
		Shrink:   Figure[unit.Share]{Taken: given(unit.Share(0.03))},
	}
}

// tray is a rectangular mold with one layer and nothing in it.
func tray(l, w, depth, layer float64) Project {
	p := Blank("t", "tray")
	p.Created = time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC)
	p.Mold.Length, p.Mold.Width, p.Mold.Depth = mm(l), mm(w), mm(depth)
	p.Sheets = []Sheet{sheetBy("s1", 45)}
	p.Layers = []Layer{{ID: "l1", Name: "pour", By: ToDepth, To: mm(layer), Sheet: "s1"}}
	return p
}

// demo reads one of the demo jobs.
func demo(t testing.TB, name string) Project {
	t.Helper()
	data, err := os.ReadFile("../testdata/demo-" + name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := Import(data)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// randomMold draws a mold of any form.
func randomMold(t *rapid.T) Mold {
	m := Mold{Kind: rapid.SampledFrom([]MoldKind{MoldRectangle, MoldRound, MoldOval, MoldPolygon, MoldOutline}).Draw(t, "form"), At: rapid.SampledFrom([]End{AtRim, AtFloor}).Draw(t, "end")}
	m.Depth = mm(rapid.Float64Range(10, 80).Draw(t, "depth"))
	m.Length, m.Width = mm(rapid.Float64Range(150, 900).Draw(t, "length")), mm(rapid.Float64Range(150, 400).Draw(t, "width"))
	m.Diameter, m.Span = m.Width, m.Width
	m.Sides, m.Across = rapid.IntRange(3, 12).Draw(t, "sides"), rapid.SampledFrom([]Across{AcrossFlats, AcrossCorners}).Draw(t, "across")
	m.Corner = mm(rapid.Float64Range(0, 60).Draw(t, "corner"))
	m.Draft.Kind = rapid.SampledFrom([]LeanKind{LeanNone, LeanAngle, LeanSizes}).Draw(t, "lean")
	m.Draft.Angle = given(unit.Angle(rapid.Float64Range(0, 8).Draw(t, "angle")) * unit.Degree)
	far := rapid.Float64Range(0.85, 1).Draw(t, "far")
	m.Draft.Length, m.Draft.Width, m.Draft.Corner = mm(m.Length.Value.Millimetres()*far), mm(m.Width.Value.Millimetres()*far), mm(m.Corner.Value.Millimetres()*far)
	m.Draft.Diameter, m.Draft.Span = m.Draft.Width, m.Draft.Width
	m.Count = rapid.IntRange(1, 4).Draw(t, "count")
	l, w := float64(m.Length.Value)/2, float64(m.Width.Value)/2
	m.Outline = shape.Ring{{X: -l, Y: -w}, {X: l, Y: -w * 0.8}, {X: l * 0.9, Y: w}, {X: 0, Y: w * 0.7}, {X: -l * 0.95, Y: w}}
	return m
}

// randomProject draws a mold with wood, inserts and layers in it; the wood is
// small enough to leave room.
func randomProject(t *rapid.T) Project {
	p := Blank("r", "random")
	p.Mold = randomMold(t)
	p.Sheets = []Sheet{sheetBy("s1", rapid.Float64Range(20, 100).Draw(t, "parts"))}
	for i := range rapid.IntRange(0, 3).Draw(t, "pieces") {
		w := Piece{ID: fmt.Sprintf("p%d", i), Name: "wood", Kind: rapid.SampledFrom([]PieceKind{PieceRectangle, PieceStations, PieceOutline}).Draw(t, "measured"), Cavity: rapid.IntRange(1, p.Mold.Cavities()).Draw(t, "cavity")}
		w.Length, w.Width = mm(rapid.Float64Range(20, 60).Draw(t, "long")), mm(rapid.Float64Range(10, 40).Draw(t, "wide"))
		w.Spacing = mm(10)
		for range rapid.IntRange(2, 7).Draw(t, "stations") {
			w.Stations = append(w.Stations, mm(rapid.Float64Range(10, 30).Draw(t, "station")))
		}
		w.Outline = shape.Ring{{X: -.02, Y: -.01}, {X: .02, Y: -.015}, {X: .025, Y: .01}, {X: 0, Y: .02}, {X: -.02, Y: .012}}
		if rapid.Bool().Draw(t, "bevelled") {
			w.Top.Length, w.Top.Outline = mm(w.Length.Value.Millimetres()*0.8), w.Outline.Scaled(0.8, 0.9)
		}
		w.Thickness, w.Height = mm(rapid.Float64Range(3, 60).Draw(t, "thick")), mm(rapid.Float64Range(0, 10).Draw(t, "up"))
		w.X, w.Y, w.Turn = unit.Length(rapid.Float64Range(-.05, .05).Draw(t, "x")), unit.Length(rapid.Float64Range(-.05, .05).Draw(t, "y")), unit.Angle(rapid.Float64Range(0, 6).Draw(t, "turn"))
		if rapid.Bool().Draw(t, "knotty") {
			w.Voids = []Void{{ID: "v" + w.ID, Kind: VoidRound, Diameter: mm(5), Depth: mm(2), Count: 2}}
		}
		p.Pieces = append(p.Pieces, w)
	}
	for i := range rapid.IntRange(1, 4).Draw(t, "layers") {
		p.Layers = append(p.Layers, Layer{ID: fmt.Sprintf("l%d", i), Name: "pour", By: ToDepth, To: mm(rapid.Float64Range(1, p.Mold.Depth.Value.Millimetres()/4).Draw(t, "deep")), Sheet: "s1"})
	}
	kinds := []InsertKind{InsertStanding, InsertLying, InsertHalf, InsertSphere, InsertBox, InsertRing, InsertFrustum, InsertDisplaces, InsertMass}
	for i := range rapid.IntRange(0, 4).Draw(t, "inserts") {
		p.Inserts = append(p.Inserts, Insert{
			ID: fmt.Sprintf("i%d", i), Name: "insert", Count: rapid.IntRange(1, 20).Draw(t, "many"), Kind: rapid.SampledFrom(kinds).Draw(t, "kind"),
			Diameter: mm(rapid.Float64Range(3, 12).Draw(t, "d")), Inner: mm(2), Length: mm(9), Width: mm(7), Tall: mm(rapid.Float64Range(1, 15).Draw(t, "tall")),
			Displaces: given(unit.Volume(1e-6)), Mass: given(unit.Mass(0.005)), Density: given(unit.Density(2500)),
			On: rapid.SampledFrom([]RestKind{OnFloor, OnHeight, OnLayer}).Draw(t, "on"), Height: mm(3), Layer: "l0",
		})
	}
	return p
}
