package drawing

import (
	"encoding/xml"
	"math"
	"regexp"
	"strconv"
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

// TestInsertsAreDrawnFaint: inserts are scattered by the drawing, not by the
// maker, so they are faint and dashed, and it says that their places are not known;
// where there are none nothing is said of them.
func TestInsertsAreDrawnFaint(t *testing.T) {
	told := 0
	for _, e := range demos(t) {
		above := FinishScene{Plan: e.plan, Mold: e.mold, Style: styleOf(paper)}
		cut := FinishSection{Plan: e.plan, Style: styleOf(paper), Fine: unit.Style{}.Length}
		for _, d := range []struct {
			c    Scene
			n    int
			says string
		}{{above, len(e.plan.Drawing.Cavities[0].Inserts), insertsFaint}, {cut, len(e.plan.Drawing.Section.Inserts), insertsSection}} {
			r := record(t, 900, 560)
			d.c.Paint(r, d.c.Fit(r.Bounds()))
			list := r.lines("insert")
			if (len(list) > 0) != (d.n > 0) || r.says(d.says) != (d.n > 0) {
				t.Errorf("%s: %d inserts, %d lines of them, and it says %v", e.name, d.n, len(list), r.says(d.says))
			}
			for _, x := range list {
				if len(x.pen.Dash) == 0 || x.pen.Colour.A > 128 {
					t.Errorf("%s: an insert is drawn with %+v", e.name, x.pen)
				}
				told++
			}
			for _, x := range r.fills {
				if x.name == "insert" && x.c.A > 128 {
					t.Errorf("%s: an insert is filled with %+v", e.name, x.c)
				}
			}
		}
	}
	if told == 0 {
		t.Error("no demo has inserts")
	}
}

// TestFinishDrawingIsTrueToItsScale: in the SVG of either view the finished outline
// has the finished size divided by the scale that is written beside it, in mm.
func TestFinishDrawingIsTrueToItsScale(t *testing.T) {
	for _, j := range demosFull(t) {
		trim := &j.pl.Finish.Trim
		for section, want := range map[bool][2]unit.Length{false: {trim.Length.Value, trim.Width.Value}, true: {0, trim.High - trim.Low}} {
			data, err := OnPaper{}.FinishSVG(j.p, j.pl, section)
			if err != nil {
				t.Fatal(err)
			}
			var doc struct {
				Width string `xml:"width,attr"`
				View  string `xml:"viewBox,attr"`
				Paths []struct {
					Class string `xml:"class,attr"`
					D     string `xml:"d,attr"`
				} `xml:"path"`
				Texts []string `xml:"text"`
			}
			if err := xml.Unmarshal(data, &doc); err != nil {
				t.Fatal(err)
			}
			if !strings.HasSuffix(doc.Width, "mm") || !strings.HasPrefix(doc.View, "0 0 "+strings.TrimSuffix(doc.Width, "mm")+" ") {
				t.Errorf("%s: a unit is no millimetre: %s, %s", j.name, doc.Width, doc.View)
			}
			one, words := 0.0, strings.Join(doc.Texts, "|")
			if m := regexp.MustCompile(`Scale 1:(\d+), in mm`).FindStringSubmatch(words); m != nil {
				one, _ = strconv.ParseFloat(m[1], 64)
			}
			var got [2]float64
			for _, p := range doc.Paths {
				if p.Class == "finished outline" || p.Class == "finished-outline" {
					got = extentOf(p.D)
				}
			}
			for i, l := range want {
				if l > 0 && math.Abs(got[i]*one-l.Millimetres()) > 0.1*one {
					t.Errorf("%s, section %v: %.2f mm at 1:%.0f, want %.2f", j.name, section, got[i], one, l.Millimetres())
				}
			}
			if len(j.pl.Drawing.Cavities[0].Inserts) > 0 && !strings.Contains(words, "places not known") {
				t.Errorf("%s: it says %q", j.name, words)
			}
		}
	}
	p := model.Project{}
	pl := model.Make(p)
	if _, err := (OnPaper{}).FinishSVG(&p, &pl, false); err == nil || !strings.Contains(err.Error(), "measure the mold first") {
		t.Errorf("%v", err)
	}
}

// TestFinishMarksWhatDoesNotWork: each hole of a mount that cannot be has a cross in a
// circle beside it, and none of the others (WCAG 2.2, 1.4.1: not by colour alone).
func TestFinishMarksWhatDoesNotWork(t *testing.T) {
	c := finishOf(t)
	v := c.Fit(Box{Max: Pt{800, 560}})
	crosses := func() (n int) {
		r := record(t, 800, 560)
		c.Paint(r, v)
		for _, f := range r.fills {
			if f.name == "unfit" {
				n++
			}
		}
		return n
	}
	if n := crosses(); n > 0 {
		t.Errorf("%d crosses where all works", n)
	}
	m := &c.Plan.Finish.Mounts[0]
	m.Works = false
	if n := crosses(); n != len(m.Holes) {
		t.Errorf("%d crosses for %d holes", n, len(m.Holes))
	}
}
