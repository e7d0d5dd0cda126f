package drawing

import (
	"fmt"
	"image/color"
	"math"
	"strconv"
	"testing"
)

// warm is a section of the hexagon whose lowest two layers are poured: the lower
// one steady at 30, the upper one from 30 at its bottom to 50 at its top.
func warm() SectionScene {
	e := hexagon()
	h := &Heat{Ramp: Warmth, Min: 20, Max: 60, Step: 5, Limit: 45, Dry: "not poured yet", Format: func(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) + " °C" }}
	const cells = 40
	for k := range cells {
		lo, hi := 0.006+0.016*float64(k)/cells, 0.006+0.016*float64(k+1)/cells
		h.Slices = append(h.Slices, HeatSlice{"l2", lo, hi, 30 + 20*(float64(k)+0.5)/cells})
	}
	h.Slices = append([]HeatSlice{{"l1", 0, 0.003, 30}, {"l1", 0.003, 0.006, 30}}, h.Slices...)
	return SectionScene{Plan: e.plan, Style: styleOf(paper), Layer: "l1", Heat: h}
}

func TestHeatValueBetweenSlices(t *testing.T) {
	of := []HeatSlice{{"a", 0, 2, 10}, {"a", 2, 4, 30}, {"a", 4, 8, 20}}
	for z, want := range map[float64]float64{-1: 10, 0: 10, 1: 10, 2: 20, 3: 30, 4.5: 25, 6: 20, 8: 20, 99: 20} {
		if got := valueAt(of, z); math.Abs(got-want) > 1e-12 {
			t.Errorf("at %g: %g, want %g", z, got, want)
		}
	}
	if got := crossings(of, 20); len(got) != 1 || got[0] != 2 {
		t.Errorf("20 is passed at %v, want 2 only: at 6 it is reached, not passed", got)
	}
	if got := crossings(of, 25); len(got) != 2 || got[0] != 2.5 || got[1] != 4.5 {
		t.Errorf("25 is passed at %v, want 2.5 and 4.5", got)
	}
}

// TestHeatShowsWhatIsThere: the pixels of the resin have the colours of their
// values, and those of the wood none of them.
func TestHeatShowsWhatIsThere(t *testing.T) {
	m := NewImage(760, 320, 1, testFonts(t))
	c := warm()
	m.Clear(paper.Ground)
	v := c.Fit(m.Bounds())
	c.Paint(m, v)
	p := sectionPainter{newDrafter(m, c.Style), c, &c.Plan.Drawing.Section, v}
	at := func(y, z float64) color.NRGBA {
		q := p.place(y, z)
		r, g, b, _ := m.RGBA.At(int(q.X), int(q.Y)).RGBA()
		return color.NRGBA{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), 255}
	}
	for _, x := range []struct{ y, z, value float64 }{{0.13, 0.002, 30}, {0.13, 0.004, 30}, {0.13, 0.0087, 33.4}, {0.13, 0.0128, 38.5}} {
		want := c.Heat.Ramp.At(c.Heat.share(x.value))
		if got := at(x.y, x.z); oklab(got).to(oklab(want)) > 0.02 {
			t.Errorf("%g °C at %g is %v, want %v", x.value, x.z, got, want)
		}
	}
	if got := at(0.13, 0.025); got != paper.Panel {
		t.Errorf("resin that is not poured is %v", got)
	}
	wood := at(0.02, 0.003)
	for i := range rampSteps {
		if wood == Warmth.colours[i] {
			t.Errorf("wood has a colour of the ramp: %v", wood)
		}
	}
}

// TestHeatHasNoSeams: rows of one layer leave no gap between them, and reach
// from its top to its bottom.
func TestHeatHasNoSeams(t *testing.T) {
	r := record(t, 760, 320)
	c := warm()
	v := c.Fit(r.Bounds())
	c.Paint(r, v)
	p := sectionPainter{newDrafter(r, c.Style), c, &c.Plan.Drawing.Section, v}
	next := p.place(0, 0.022).Y
	for _, f := range r.fills {
		b := BoxOf(f.rings[0]...)
		if f.name != "layer" || b.Min.Y > p.place(0, 0.006).Y-0.01 || b.Min.Y < p.place(0, 0.022).Y-0.01 {
			continue
		}
		if math.Abs(b.Min.Y-next) > 1e-6 {
			t.Fatalf("a row begins at %g, the one above ended at %g", b.Min.Y, next)
		}
		next = b.Max.Y - 1
		if b.Max.Y >= p.place(0, 0.006).Y-1e-6 {
			next = p.place(0, 0.006).Y
		}
	}
	if math.Abs(next-p.place(0, 0.006).Y) > 1e-6 {
		t.Errorf("the layer ends at %g, want %g", next, p.place(0, 0.006).Y)
	}
}

func TestHeatIsToldWithoutColour(t *testing.T) {
	r := record(t, 760, 320)
	c := warm()
	c.Paint(r, c.Fit(r.Bounds()))
	for _, words := range []string{"35 °C", "40 °C", "not poured yet"} {
		if !r.says(words) {
			t.Errorf("nowhere does it say %q", words)
		}
	}
	if len(r.lines("equal")) < 3 || len(r.lines("beyond")) == 0 {
		t.Errorf("%d lines of equal value, %d of hatching beyond the limit", len(r.lines("equal")), len(r.lines("beyond")))
	}
	if r.says("Fill line") || r.says("A – A") {
		t.Error("the words around the plain section crowd it")
	}
	checkFigures(t, "warm", r, "outline", "piece")
	cool := warm()
	cool.Heat.Limit = 0
	q := record(t, 760, 320)
	cool.Paint(q, cool.Fit(q.Bounds()))
	if len(q.lines("beyond")) != 0 {
		t.Error("without a limit something is hatched")
	}
}

func TestHeatOfBadValues(t *testing.T) {
	for name, change := range map[string]func(*Heat){
		"no range":         func(h *Heat) { h.Max = h.Min },
		"no values":        func(h *Heat) { h.Slices = nil },
		"nothing is known": func(h *Heat) { h.Slices[0].Value, h.Slices[5].Value = math.NaN(), math.Inf(1) },
		"a flat slice":     func(h *Heat) { h.Slices[0].Top = h.Slices[0].Bottom },
		"a tiny step":      func(h *Heat) { h.Step = 1e-9 },
		"a broken field":   func(h *Heat) { h.Field = &HeatField{Layer: "l2", Y: []float64{0, 1}} },
		"no resin in it": func(h *Heat) {
			h.Field = &HeatField{Layer: "l2", Y: []float64{0, 1}, Z: []float64{0, 1}, Value: []float64{30}, Resin: []bool{false}}
		},
	} {
		c := warm()
		change(c.Heat)
		m := NewImage(760, 320, 1, testFonts(t))
		c.Paint(m, c.Fit(m.Bounds()))
		if name == "nothing is known" && valueAt(c.Heat.Slices[:2], 1) != 30 {
			t.Error("a value that is known is lost")
		}
	}
}

// rivers is the river's section with a field between its wood, warmest in the
// middle.
func rivers(half bool) SectionScene {
	e := river()
	h := &Heat{Ramp: Warmth, Min: 20, Max: 60, Step: 5, Format: func(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) + " °C" }}
	f := &HeatField{Layer: "l3"}
	const columns, rows = 60, 22
	for i := 0; i <= columns; i++ {
		f.Y = append(f.Y, 0.160*float64(i)/columns)
	}
	for j := 0; j <= rows; j++ {
		f.Z = append(f.Z, 0.044*float64(j)/rows)
	}
	for j := range rows {
		for i := range columns {
			y := (f.Y[i] + f.Y[i+1]) / 2
			from, to := 0.030, 0.130
			if half {
				from = 0
			}
			f.Resin = append(f.Resin, y > from && y < to)
			f.Value = append(f.Value, 30+25*math.Exp(-math.Pow((y-(from+to)/2)/0.03, 2))*math.Sin(math.Pi*(float64(j)+0.5)/rows))
		}
	}
	for _, l := range e.plan.Layers[:3] {
		h.Slices = append(h.Slices, HeatSlice{l.ID, float64(l.Bottom), float64(l.Top), 30})
	}
	h.Field = f
	return SectionScene{Plan: e.plan, Style: styleOf(paper), Layer: "l3", Heat: h}
}

// TestHeatFieldLiesBetweenTheWood: the middle of the field is the middle of the
// opening, and its top that of the layer.
func TestHeatFieldLiesBetweenTheWood(t *testing.T) {
	r := record(t, 760, 320)
	c := rivers(false)
	v := c.Fit(r.Bounds())
	c.Paint(r, v)
	p := sectionPainter{newDrafter(r, c.Style), c, &c.Plan.Drawing.Section, v}
	l, right := p.across(0.034)
	a, b := p.open(l, right)
	var hottest Box
	for _, f := range r.fills {
		if f.name == "layer" && f.c == Warmth.At(c.Heat.share(54.9)) {
			hottest = BoxOf(f.rings[0]...)
		}
	}
	if mid := hottest.Centre().X; hottest.W() == 0 || math.Abs(mid-(a+b)/2) > 2 {
		t.Errorf("the hottest cells are at %v, the middle of the opening at %g", hottest, (a+b)/2)
	}
	marked := 0
	for _, x := range r.texts {
		if x.l.Name != "equal" {
			continue
		}
		marked++
		if x.box.Min.X < a || x.box.Max.X > b {
			t.Errorf("%q at %v leaves the opening from %g to %g", x.text, x.box, a, b)
		}
	}
	if marked < 2 {
		t.Errorf("%d lines are marked", marked)
	}
}

func TestHeatFieldAtAWall(t *testing.T) {
	f := rivers(true).Heat.Field
	if !f.walled() || rivers(false).Heat.Field.walled() {
		t.Error("a wall is where there is none, or is not where it is")
	}
	w := f.turned()
	if w.walled() {
		t.Error("turned, its wall is still at the left")
	}
	columns := len(f.Y) - 1
	for k := range f.Value {
		m := k - k%columns + columns - 1 - k%columns
		if w.Value[m] != f.Value[k] || w.Resin[m] != f.Resin[k] {
			t.Fatalf("cell %d is not where it should be", k)
		}
	}
	for i := 1; i < len(w.Y); i++ {
		if w.Y[i] <= w.Y[i-1] {
			t.Fatal("turned, its edges run backwards")
		}
	}
}

func TestHeatKeyStandsInItsRoom(t *testing.T) {
	for _, limit := range []float64{0, 40, 60, 90} {
		r := record(t, 300, 46)
		k := HeatKey{Ramp: Warmth, Min: 20, Max: 60, Step: 10, Low: 25, High: 41, Limit: limit, LimitText: "limit 60 °C",
			Format: func(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) + " °C" }}
		k.Paint(r, styleOf(paper))
		if r.says("limit") != (limit > 0) || !r.says("20 °C") || len(r.lines("now")) == 0 {
			t.Errorf("limit %g: %+v", limit, r.texts)
		}
		for i, a := range r.texts {
			if !r.box.Grown(1).Holds(a.box) {
				t.Errorf("limit %g: %q leaves the picture: %v", limit, a.text, a.box)
			}
			for _, b := range r.texts[:i] {
				if a.box.Overlaps(b.box) {
					t.Errorf("limit %g: %q covers %q", limit, a.text, b.text)
				}
			}
		}
	}
	for _, k := range []HeatKey{{Ramp: Warmth}, {Ramp: Warmth, Min: 5, Max: 5}, {Ramp: Cured, Max: 100, Low: math.NaN(), Step: 1e-9, Format: func(float64) string { return "" }}} {
		k.Paint(record(t, 300, 46), styleOf(paper))
		k.Paint(record(t, 30, 10), styleOf(paper))
	}
}

func BenchmarkHeatSection(b *testing.B) {
	for name, c := range map[string]SectionScene{"slices": warm(), "field": rivers(false)} {
		for _, scale := range []int{1, 2} {
			b.Run(fmt.Sprintf("%s/scale=%d", name, scale), func(b *testing.B) {
				m := NewImage(760*scale, 230*scale, float64(scale), testFonts(b))
				v := c.Fit(m.Bounds())
				for b.Loop() {
					m.Clear(paper.Ground)
					c.Paint(m, v)
				}
			})
		}
	}
}

func BenchmarkHeatKey(b *testing.B) {
	k := HeatKey{Ramp: Warmth, Min: 20, Max: 60, Step: 10, Low: 25, High: 41, Limit: 50, LimitText: "limit 50 °C", Format: func(v float64) string { return strconv.Itoa(int(v)) + " °C" }}
	for _, scale := range []int{1, 2} {
		b.Run(fmt.Sprintf("scale=%d", scale), func(b *testing.B) {
			m := NewImage(300*scale, 46*scale, float64(scale), testFonts(b))
			for b.Loop() {
				k.Paint(m, styleOf(paper))
			}
		})
	}
}
