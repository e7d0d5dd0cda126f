package drawing

import (
	"math"
	"strings"
	"testing"

	"meniscus/model"
	"meniscus/model/unit"
)

// finishOf gives the view from above of a tray of 300 by 200 mm whose walls lean
// by 5°, cut to a rectangle, with a handle of two holes and a foot.
func finishOf(t *testing.T) FinishScene {
	t.Helper()
	dim := func(mm float64) unit.Dim { return unit.Dim{Value: unit.Length(mm) * unit.Millimetre} }
	p := model.Project{
		Mold:   model.Mold{Kind: model.MoldRectangle, Length: dim(300), Width: dim(200), Depth: dim(50), Draft: model.Lean{Kind: model.LeanAngle, Angle: unit.Taken[unit.Angle]{Value: 5 * unit.Degree, Written: "5°"}}},
		Layers: []model.Layer{{ID: "l1", Name: "Pour", By: model.ToDepth, To: dim(40)}},
	}
	p.Finish.Trim.Shape = model.TrimRectangle
	p.Finish.Top, p.Finish.Bottom = dim(3), dim(2)
	handle := p.Mount(p.AddMount(model.MountHandle))
	handle.X, handle.Apart, handle.Turn = 60*unit.Millimetre, dim(64), 90*unit.Degree
	foot := p.Mount(p.AddMount(model.MountFoot))
	foot.X, foot.Y = -100*unit.Millimetre, 50*unit.Millimetre
	plan := model.Make(p)
	style := styleOf(paper)
	style.Live, style.Length = true, unit.Style{}.Length
	if !plan.Finish.Ready || plan.Finish.Trim.Ring == nil {
		t.Fatalf("it is not ready: %+v", plan.Findings)
	}
	return FinishScene{Plan: &plan, Mold: p.Mold, Mounts: p.Finish.Mounts, Mount: p.Finish.Mounts[0].ID, Style: style}
}

// TestFinishToScale: the finished outline and the holes are where the plan has
// them, by one scale in both directions; what comes off has its hatching.
func TestFinishToScale(t *testing.T) {
	c := finishOf(t)
	r := record(t, 800, 560)
	v := c.Fit(r.Bounds())
	c.Paint(r, v)
	if v.X != v.Y {
		t.Errorf("%v along, %v across", v.X, v.Y)
	}
	outline := r.lines("finished outline")
	if len(outline) != 1 {
		t.Fatalf("%d finished outlines", len(outline))
	}
	box := BoxOf(outline[0].path.Points...)
	if want := float64(c.Plan.Finish.Trim.Length.Value) * v.X; math.Abs(box.W()-want) > 0.5 {
		t.Errorf("the outline is %v dp long, want %v", box.W(), want)
	}
	for _, name := range []string{"comes off", "cut", "as cast", "middle line", "hole", "counterbore"} {
		if len(r.lines(name)) == 0 {
			t.Errorf("no %s is drawn", name)
		}
	}
	for _, words := range []string{c.Style.Length(c.Plan.Finish.Trim.Length.Value), "handle 1", "foot 1", "hatched: comes off"} {
		if !r.says(words) {
			t.Errorf("it does not say %q", words)
		}
	}
}

// TestFinishMountsInReach: each hole is taken hold of, the selected mount has its
// grips apart, and nothing is drawn or held where nothing is known.
func TestFinishMountsInReach(t *testing.T) {
	c := finishOf(t)
	box := Box{Max: Pt{800, 560}}
	v := c.Fit(box)
	for i := range c.Plan.Finish.Mounts {
		m := &c.Plan.Finish.Mounts[i]
		for _, h := range m.Holes {
			if got := c.Hit(v.ToScreen(h.At), v); got != m.ID {
				t.Errorf("at a hole of %s lies %q", m.Name, got)
			}
		}
	}
	hs := c.Handles(box, v)
	if len(hs) != 2 || hs[0].At.To(hs[1].At) < Target {
		t.Fatalf("the grips are %+v", hs)
	}
	for _, h := range hs {
		if !box.Contains(h.At) {
			t.Errorf("a grip lies outside, at %v", h.At)
		}
	}
	for _, m := range c.Mounts { // its name is not under a grip
		r := record(t, 800, 560)
		one := c.Select(m.ID).(FinishScene)
		one.Paint(r, v)
		for _, h := range one.Handles(box, v) {
			for _, x := range r.texts {
				if x.l.Name == "mount" && x.box.Overlaps(BoxOf(h.At).Grown(14)) {
					t.Errorf("%q is under a grip of %s", x.text, m.Name)
				}
			}
		}
	}
	r := record(t, 800, 560)
	c.Preview(r, v, Change{Kind: MovePiece, ID: c.Mount, DX: 10 * unit.Millimetre})
	if !r.says("70 mm along, 0 mm across from the middle") {
		t.Errorf("dragged it says %+v", r.texts)
	}
	none := FinishScene{Plan: &model.Plan{}, Style: c.Style}
	none.Paint(record(t, 800, 560), none.Fit(box))
	if none.Hit(Pt{400, 300}, v) != "" || none.Handles(box, v) != nil {
		t.Error("something is held of nothing")
	}
}

// TestFinishSectionSays: of the 40 mm that are poured the resin sinks a little;
// 2 mm come off the underside and what is above the finished top off the top.
func TestFinishSectionSays(t *testing.T) {
	f := finishOf(t)
	c := FinishSection{Plan: f.Plan, Style: f.Style, Fine: f.Style.Length}
	for _, w := range []float64{480, 800, 1300} {
		r := record(t, w, 480)
		v := c.Fit(r.Bounds())
		c.Paint(r, v)
		for _, words := range []string{"off the top", "off the underside", "2 mm", c.Style.Length(f.Plan.Finish.Trim.Thickness.Value)} {
			if !r.says(words) {
				t.Errorf("%v wide it does not say %q", w, words)
			}
		}
		for _, x := range r.texts {
			if !r.Bounds().Grown(1).Holds(x.box) || strings.Contains(x.text, "…") {
				t.Errorf("%v wide %q stands at %v", w, x.text, x.box)
			}
		}
	}
}

// TestFinishSectionOfTheDemos: what comes off is told apart from wood that stands
// above the resin.
func TestFinishSectionOfTheDemos(t *testing.T) {
	for _, e := range demos(t) {
		c := FinishSection{Plan: e.plan, Style: styleOf(paper), Fine: unit.Style{}.Length}
		r := record(t, 900, 480)
		c.Paint(r, c.Fit(r.Bounds()))
		proud := c.woodTop() > float64(e.plan.Finish.Flatten.Thickest)+5e-6
		if r.says("of wood stands above") != proud || !r.says("off the underside") {
			t.Errorf("%s: it says %+v", e.name, r.texts)
		}
	}
}
