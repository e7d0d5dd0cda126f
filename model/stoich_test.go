package model

import (
	"math"
	"strings"
	"testing"

	"meniscus/model/unit"
)

// Parts per hundred by equivalent weights, 100 AHEW/EEW. The first four are
// published worked examples (coatings worksheets: AHEW 43 at EEW 209 gives 20.6;
// diethylenetriamine, M 103 with 5 hydrogens, at EEW 200 gives 10.3; a diamine of
// AHEW 49.5 at EEW 200 gives 24.75); the others are worked from the formula.
func TestPartsByEquivalents(t *testing.T) {
	for _, c := range []struct{ eew, ahew, parts, slack float64 }{
		{209, 43, 20.6, 0.03}, {209.238, 43, 20.551, 0.001}, {200, 103.0 / 5, 10.3, 0.001}, {200, 49.5, 24.75, 0.001},
		{190, 15.025, 7.91, 0.005}, {170.2, 20.634, 12.12, 0.005}, {185, 24.372, 13.17, 0.005}, {190, 42.575, 22.41, 0.005},
		{190, 60, 31.58, 0.005}, {200, 57.5, 28.75, 0.005}, {190, 49.565, 26.09, 0.005},
	} {
		s := Sheet{ID: "s", EEW: given(unit.Number(c.eew)), AHEW: given(unit.Number(c.ahew))}
		if p, err := s.PartsByWeight(); err != nil || math.Abs(p-c.parts) > c.slack {
			t.Errorf("AHEW %v at EEW %v: %.3f parts (%v), want %v", c.ahew, c.eew, p, err, c.parts)
		}
	}
}

// The sheet's own ratio goes first; equivalent weights stand in for one that is
// not there, and disagree aloud.
func TestEquivalentsStandIn(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.Sheets[0].EEW, p.Sheets[0].AHEW = given(unit.Number(190)), given(unit.Number(85.5))
	pl := Make(p)
	within(t, "by the sheet", pl.Layers[0].Mix.Parts, 45, 1e-9)
	if f := finding(pl, "sheet.equivalents"); f.Kind != "" {
		t.Errorf("100:45 and 100:45 disagree: %+v", f)
	}
	p.Sheets[0].Weight = Ratio{}
	pl = Make(p)
	if m := pl.Layers[0].Mix; !m.Ready || math.Abs(m.Parts-45) > 1e-9 {
		t.Errorf("%+v", m)
	}
	if u, ok := p.Usual("sheets/s1/weightRatio"); !ok || !strings.Contains(u.Why, "equivalent weights") {
		t.Errorf("%+v", u)
	}
	// With a ratio by volume but no densities they still tell what to weigh.
	p.Sheets[0].Volume, p.Sheets[0].DensityA = Ratio{given(unit.Number(2)), given(unit.Number(1))}, Figure[unit.Density]{}
	within(t, "beside a ratio by volume", Make(p).Layers[0].Mix.Parts, 45, 1e-9)
	for path, text := range map[string]string{"sheets/s1/eew": "9", "sheets/s1/ahew": "5001"} {
		if err := Enter(&p, path, text); err == nil {
			t.Errorf("%s takes %s", path, text)
		}
	}
}

// With the scarcer part at 0.9 of the other, a resin of two groups and a
// hardener of four hydrogens sets at 1/√2.7 = 0.60858 in place of 1/√3 = 0.57735
// (Flory 1941, Stockmayer 1952).
func TestOffRatio(t *testing.T) {
	o := offBy(100*unit.Gram, 45*unit.Gram/0.9, 45)
	within(t, "sets", o.Sets, 0.60858, 1e-5)
	within(t, "on ratio", o.OnIt, 0.57735, 1e-5)
	within(t, "unused", o.Unused, 0.1, 1e-12)
	for _, c := range []struct {
		b      float64
		signed string
		fine   bool
		words  string
	}{
		{45, "On ratio", true, "nothing to mend"},
		{45.9, "+2.0 % hardener", true, "nothing to mend"},
		{49.5, "+10.0 % hardener", false, "9 % of the hardener finds no partner"},
		{40.5, "-10.0 % hardener", false, "10 % of the resin finds no partner"},
		{14, "-68.9 % hardener", false, "never sets"},
	} {
		o := offBy(100*unit.Gram, unit.Gram.Times(c.b), 45)
		if o.Signed() != c.signed || o.Fine() != c.fine || !strings.Contains(o.Words(), c.words) {
			t.Errorf("%v g: %s, %v, %q", c.b, o.Signed(), o.Fine(), o.Words())
		}
	}
}
