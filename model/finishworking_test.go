package model

import (
	"strings"
	"testing"
)

// TestFinishWorkings: of each demo, whatever the work after the casting comes to says
// by what, of what, where that is from, and how sure it is; what was not chosen says
// nothing.
func TestFinishWorkings(t *testing.T) {
	for _, name := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		p := demo(t, name)
		check := func(part string, want bool, w Working, ok bool) {
			t.Helper()
			if ok != want {
				t.Errorf("%s, %s: %v", name, part, ok)
			}
			if ok && (w.Title == "" || w.Formula == "" || len(w.Inputs) == 0 || w.Source == "" || w.Band == "") {
				t.Errorf("%s, %s: %+v", name, part, w)
			}
		}
		p.Finish.Sand.Want, p.Finish.Coat.Kind = SurfaceSatin, CoatOil
		pl := Make(p)
		f := &pl.Finish
		w, ok := f.Trim.Working(&p)
		check("trim", true, w, ok)
		if low := p.Style.Length(f.Trim.Length.Low); !strings.Contains(w.Band, low) {
			t.Errorf("%s: %q has no %s", name, w.Band, low)
		}
		w, ok = f.Flatten.Working(&p)
		check("flatten", true, w, ok)
		w, ok = f.Sand.Working(&p)
		check("sand", true, w, ok)
		w, ok = f.Coat.Working(&p)
		check("coat", true, w, ok)
		w, ok = f.Use.Working(&p)
		check("use", true, w, ok)
		p.Finish.Sand, p.Finish.Coat = Sand{}, Coat{}
		pl = Make(p)
		w, ok = pl.Finish.Sand.Working(&p)
		check("no sanding", false, w, ok)
		w, ok = pl.Finish.Coat.Working(&p)
		check("no coat", false, w, ok)
	}
}
