package model

import (
	"encoding/json"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// TestFinishNeverFails: no document makes the plan of the work after the casting
// fail, whatever stands in it, and the same document gives the same plan.
func TestFinishNeverFails(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		fill(t, reflect.ValueOf(&p.Finish).Elem(), 1)
		for i := range p.Finish.Mounts {
			p.Finish.Mounts[i].ID = "m" + itoa(i)
		}
		a, b := Make(p), Make(p.Clone())
		if !reflect.DeepEqual(a.Finish.Sand.Steps, b.Finish.Sand.Steps) || !reflect.DeepEqual(a.Finish.Mounts, b.Finish.Mounts) {
			t.Fatal("the same document gave two plans")
		}
		if _, err := json.Marshal(a.Finish); err != nil {
			t.Fatal(err)
		}
	})
}

// TestFinishIsCopied: a change to a copy does not show in the original.
func TestFinishIsCopied(t *testing.T) {
	p := handled()
	p.MeasureBlank(true)
	p.OwnGrit("P80", true)
	q := p.Clone()
	q.Finish.Mounts[0].X, q.Finish.Flatten.Points[0], q.Finish.Sand.Own[0] = 1, mm(3), "P120"
	if p.Finish.Mounts[0].X != 0 || p.Finish.Flatten.Points[0].Given() || p.Finish.Sand.Own[0] != "P80" {
		t.Errorf("the original is %+v", p.Finish)
	}
}

// TestFinishFieldsAreEntered: each field of the work after the casting takes what
// a maker types and writes it back; what cannot be is refused in words.
func TestFinishFieldsAreEntered(t *testing.T) {
	p := handled()
	p.MeasureBlank(true)
	at := "finish/mounts/" + p.Finish.Mounts[0].ID + "/"
	for _, c := range []struct{ path, typed, shown string }{
		{"finish/thickness", "25.5", "25.5 mm"}, {"finish/trim/shape", "rectangle", "rectangle"}, {"finish/trim/extra", "2", "2 mm"}, {"finish/trim/kerf", "1/8 in", "3.2 mm"},
		{"finish/trim/anyTurn", "yes", "yes"}, {"finish/flatten/tool", "planer", "planer"}, {"finish/flatten/resin", "0.5", "0.5 mm"}, {"finish/flatten/points/4", "27.9", "27.9 mm"},
		{"finish/sand/want", string(SurfaceClear), string(SurfaceClear)}, {"finish/sand/series", string(SeriesCAMI), string(SeriesCAMI)}, {"finish/sand/turns", "12000", "12000"},
		{"finish/sand/pace", "40 s", "40 s"}, {"finish/sand/lasts", "15 min", "15 min"}, {"finish/sand/disc", "125", "125 mm"},
		{at + "apart", "96", "96 mm"}, {at + "screw", "#8-32", "#8-32"}, {at + "head", "flat, 82°", "flat, 82°"}, {at + "long", "3/4 in", "19.1 mm"}, {at + "bite", "nut", "nut"}, {at + "x", "12", "12 mm"},
		{"finish/coat/kind", "oil", "oil"}, {"finish/coat/spread", "40 ml", "40 ml"}, {"finish/coat/weighs", "35 g", "35 g"}, {"finish/coat/count", "3", "3"},
		{"finish/use/as", "a serving board", "a serving board"}, {"finish/use/food", "dry food only", "dry food only"}, {"finish/use/sun", "yes", "yes"},
	} {
		if err := Enter(&p, c.path, c.typed); err != nil {
			t.Errorf("%s: %v", c.path, err)
			continue
		}
		if got, _ := Show(&p, c.path); got != c.shown {
			t.Errorf("%s shows %q, want %q", c.path, got, c.shown)
		}
	}
	for path, want := range map[string]string{"finish/trim/kerf": "3.2 mm", "finish/flatten/resin": "0.4 mm", "finish/coat/spread": "40 ml", "finish/coat/count": "3", "finish/sand/pace": "40 s", at + "way": "through the piece", at + "thread": "#8-32", "finish/minCover": "2.5 mm"} {
		if u, ok := p.Usual(path); !ok || u.Value != want || u.Why == "" {
			t.Errorf("%s stands in with %+v, want %s", path, u, want)
		}
	}
	for _, c := range []struct{ path, typed string }{
		{"finish/flatten/resin", "30 mm"}, {"finish/trim/kerf", "3 in"}, {"finish/sand/turns", "1000000"}, {at + "screw", "M4.5"}, {at + "long", "2 m"}, {"finish/coat/spread", "3 L"}, {"finish/sand/want", "shiny"},
	} {
		if err := Enter(&p, c.path, c.typed); err == nil {
			t.Errorf("%s took %q", c.path, c.typed)
		}
	}
	if list := p.Validate(); len(list) > 0 {
		t.Errorf("what was entered is refused: %v", list)
	}
	if err := p.Remove("finish/mounts/" + p.Finish.Mounts[0].ID); err != nil || len(p.Finish.Mounts) != 0 {
		t.Errorf("removed: %v", err)
	}
}
