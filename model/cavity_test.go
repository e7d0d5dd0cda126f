package model

import "testing"

// TestSizesAreAskedForInOrder: what a mold still misses is asked for as the window
// lists it, from its opening to its depth.
func TestSizesAreAskedForInOrder(t *testing.T) {
	for kind, fields := range map[MoldKind][]string{
		MoldRectangle: {"length", "width", "depth"},
		MoldOval:      {"length", "width", "depth"},
		MoldRound:     {"diameter", "depth"},
		MoldPolygon:   {"sides", "span", "depth"},
	} {
		p := Project{Mold: Mold{Kind: kind}}
		for _, field := range fields {
			plan := Make(p)
			asked := ""
			for _, f := range plan.Findings {
				if f.Subject == OfMold && f.Level == Check {
					asked = f.Field
					break
				}
			}
			if want := "mold/" + field; asked != want {
				t.Errorf("%s: asks for %q, want %q", kind, asked, want)
			}
			text := "60"
			if field == "sides" {
				text = "6"
			}
			if err := Enter(&p, "mold/"+field, text); err != nil {
				t.Fatal(err)
			}
		}
		if v := Make(p).Mold.Capacity.Value; v <= 0 {
			t.Errorf("%s: all is given, and it holds %v", kind, v)
		}
	}
}
