package drawing

import (
	"fmt"
	"math"
	"testing"
)

// courseChart is a chart with a second axis, crowded as in the window Layers.
func courseChart() Chart {
	var warm, cured, room []Pt
	for h := 0.0; h <= 60; h += 0.05 {
		warm = append(warm, Pt{h, 20 + 25*math.Exp(-math.Pow((h-9)/5, 2))})
		cured = append(cured, Pt{h, 100 * math.Pow(h/(h+6), 3)})
		room = append(room, Pt{h, 20 + math.Sin(h*math.Pi/12)})
	}
	return Chart{
		X:     Axis{Max: 60},
		Y:     Axis{Title: "Temperature", Unit: "°C", Min: 10, Max: 60},
		Right: Axis{Title: "Cured", Unit: "%", Max: 100},
		Series: []Series{
			{Name: "room", Points: room, Role: Hint, NameAt: 3},
			{Name: "surface, cured", Points: cured, Role: Second, Dashed: true, Right: true, NameAt: 8},
			{Name: "hottest place", Points: warm, NameAt: 9},
		},
		Marks: []Mark{{X: math.NaN(), Y: 50, Text: "limit 50 °C", Role: Halt}, {X: 20, Y: math.NaN(), Text: "now"}},
		Bands: []Band{{From: 30, To: 40, Text: "next pour", Role: Well}},
	}
}

func TestChartWithTwoAxes(t *testing.T) {
	r := record(t, 690, 160)
	c := courseChart()
	c.Paint(r, styleOf(paper))
	for _, words := range []string{"Temperature, °C", "Cured, %", "100", "limit 50 °C", "next pour", "now", "room", "surface, cured", "hottest place"} {
		if !r.says(words) {
			t.Errorf("the chart does not say %q", words)
		}
	}
	for i, a := range r.texts {
		for _, b := range r.texts[:i] {
			if a.box.Overlaps(b.box) {
				t.Errorf("%q at %v covers %q at %v", a.text, a.box, b.text, b.box)
			}
		}
		if !r.box.Grown(1).Holds(a.box) {
			t.Errorf("%q leaves the chart: %v", a.text, a.box)
		}
	}
}

// TestChartPlotIsWhereItIsPainted: what lines up with the plot lines up with
// what is painted, and the right axis has its own scale.
func TestChartPlotIsWhereItIsPainted(t *testing.T) {
	r := record(t, 690, 160)
	c := courseChart()
	plot, ok := c.Plot(r.Bounds(), r.fonts)
	if !ok {
		t.Fatal("no room for the plot")
	}
	c.Paint(r, styleOf(paper))
	now := r.lines("mark")[1].path.Points[0]
	if want := plot.Min.X + plot.W()*20/60; math.Abs(now.X-want) > 1e-9 {
		t.Errorf("hour 20 is painted at %g, the plot has it at %g", now.X, want)
	}
	half := chartPainter{c: &c, plot: plot}
	if y := half.of(&Series{Right: true}, Pt{0, 50}).Y; math.Abs(y-plot.Centre().Y) > 1e-9 {
		t.Errorf("50 %% is at %g, the middle at %g", y, plot.Centre().Y)
	}
	if _, ok := c.Plot(Box{Max: Pt{50, 40}}, r.fonts); ok {
		t.Error("a plot fits into 50 by 40")
	}
	if _, ok := (Chart{}).Plot(r.Bounds(), r.fonts); ok {
		t.Error("a chart without axes has a plot")
	}
}

func BenchmarkChart(b *testing.B) {
	c := courseChart()
	for _, scale := range []int{1, 2} {
		b.Run(fmt.Sprintf("scale=%d", scale), func(b *testing.B) {
			m := NewImage(690*scale, 160*scale, float64(scale), testFonts(b))
			for b.Loop() {
				m.Clear(paper.Ground)
				c.Paint(m, styleOf(paper))
			}
		})
	}
}
