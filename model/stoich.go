package model

import (
	"fmt"
	"math"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// partsFromEquivalents gives the hardener per 100 of resin by weight that has
// one active hydrogen for each epoxide group, 100 AHEW/EEW, both in g per
// equivalent (the rule of every handbook of these resins; worked examples
// beside the tests).
func partsFromEquivalents(eew, ahew float64) float64 { return 100 * ahew / eew }

// ratioFrom names what PartsByWeight follows from where the sheet gives no
// ratio by weight.
func (s *Sheet) ratioFrom() string {
	if s.Volume.Given() && s.DensityA.Given() && s.DensityB.Given() {
		return "the ratio by volume and the densities of the parts"
	}
	return "the equivalent weights, 100 × AHEW / EEW"
}

// equivalentsApart is how far a sheet's ratio may lie from the one by its
// equivalent weights before a copying slip is likelier than a maker's choice
// (common practice, no source).
const equivalentsApart = 0.10

// findEquivalents holds a sheet's ratio against its equivalent weights.
func (m *maker) findEquivalents(s *Sheet) {
	parts, err := s.PartsByWeight()
	if err != nil || !s.EEW.Given() || !s.AHEW.Given() {
		return
	}
	by := partsFromEquivalents(float64(s.EEW.Value), float64(s.AHEW.Value))
	if apart := parts/by - 1; math.Abs(apart) > equivalentsApart {
		m.say(Check, OfLayers, "sheet.equivalents", "sheets/"+s.ID+"/eew", s.Name+": its ratio and its equivalent weights do not agree",
			fmt.Sprintf("100:%.1f by the ratio, 100:%.1f by 100 × AHEW / EEW, %+.0f %%", parts, by, 100*apart), "check the ratio and the two equivalent weights on the data sheet")
	}
}

// RatioTolerance is how far off its ratio a mix may be: 2 % (common practice,
// no source).
const RatioTolerance = 0.02

// OffRatio is how far a mix is off its ratio.
type OffRatio struct {
	Share  float64 // hardener too much, as a share of the right amount; below zero it is too little
	Unused float64 // share of the part that is too much which finds no partner
	Sets   float64 // share of the scarcer part that must have bound before it sets; 1 and more is never
	OnIt   float64 // the same for a mix on its ratio
}

// offBy tells how far a of A and b of B are off so many parts of B to 100 of
// A. Where one part is short by the ratio r, a share 1-r of the other finds no
// partner, and a resin of two groups with a hardener of four hydrogens sets at
// 1/√(3r) (Flory 1941, Stockmayer 1952; see cure.GelPoint).
func offBy(a, b unit.Mass, parts float64) OffRatio {
	index := 100 * b.Per(a) / parts
	r := min(index, 1/index)
	return OffRatio{Share: index - 1, Unused: 1 - r, Sets: cure.GelPoint(4, 2, r), OnIt: cure.GelPoint(4, 2, 1)}
}

// OffRatio tells how far what is in the cup is off the ratio.
func (m *MixPlan) OffRatio(c InCup) OffRatio { return offBy(c.A, c.B, m.Parts) }

// Fine tells whether the mix is within the tolerance.
func (o OffRatio) Fine() bool { return math.Abs(o.Share) <= RatioTolerance+1e-9 }

// Signed writes by how much the mix is off, and to which side: "+4.1 %
// hardener".
func (o OffRatio) Signed() string {
	if math.Abs(o.Share) < 0.0005 {
		return "On ratio"
	}
	return fmt.Sprintf("%+.1f %% hardener", 100*o.Share)
}

// Words says what a mix that is so far off does.
func (o OffRatio) Words() string {
	if o.Fine() {
		return "Within 2 % of the ratio: nothing to mend."
	}
	much, harm := "resin", "that part stays soft, and the piece gives way when it gets warm"
	if o.Share > 0 {
		much, harm = "hardener", "that part stays soft and sweats out as a sticky film"
	}
	words := fmt.Sprintf("%.0f %% of the %s finds no partner: %s. ", 100*o.Unused, much, harm)
	if o.Sets >= 1 {
		return words + "So far off it never sets."
	}
	return words + fmt.Sprintf("It sets later: once %.0f %% of the scarcer part has bound, instead of %.0f %%.", 100*o.Sets, 100*o.OnIt)
}
