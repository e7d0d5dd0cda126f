package model

import (
	"fmt"

	"meniscus/model/unit"
)

// Rescue is how a mix with too much of one part comes back to its ratio.
type Rescue struct {
	Part    string    // to add, "A" or "B"
	Kind    EntryKind // under which its reading is kept
	Add     unit.Mass // rounded to the scale's last digit
	Total   unit.Mass // of A and B afterwards
	Surplus unit.Mass // more than was to be mixed; below zero it is still short
	Off     OffRatio  // before
}

// Rescue gives the one number that mends a mix: of the part that is too little,
// A = 100 B/p or B = p A/100, less what is in the cup. It is false where there
// is nothing to mend: the mix is within the tolerance, or nearer to its ratio
// than the scale can tell, or not both parts are in.
func (m *MixPlan) Rescue(c InCup) (Rescue, bool) {
	if !c.HasB || c.A <= 0 || !m.Ready {
		return Rescue{}, false
	}
	r := Rescue{Off: offBy(c.A, c.B, m.Parts)}
	r.Part, r.Kind = "B", EntryWeighedB
	add := c.A.Times(m.Parts/100) - c.B
	if add < 0 {
		r.Part, r.Kind = "A", EntryWeighedA
		add = c.B.Times(100/m.Parts) - c.A
	}
	_, rounded := unit.RoundParts(add, []unit.Mass{add}, m.Step)
	r.Add = rounded[0]
	r.Total = c.A + c.B + r.Add
	r.Surplus = r.Total - m.Total
	return r, !r.Off.Fine() && r.Add > 0
}

// rescueShare is the part of the working time within which a mix can still be
// mended (common practice, no source): what is stirred in later does not cure
// evenly with the rest.
const rescueShare = 1.0 / 3

// BinSafely is how a mix that cannot be saved is got rid of without harm.
const BinSafely = "Bin it: at once, spread thin on a tray outdoors on something that cannot burn, away from dust and rags; never in a deep cup or a closed bin, where it heats itself. Once it is hard it is waste by your local rules."

// NoMoreHardener is why more hardener to hurry a cure is refused.
const NoMoreHardener = "No. Hardener becomes part of the solid: each gram beyond the ratio finds no resin to bind to, and the piece stays soft and sticky for good. It does not cure sooner for it. Warmth hurries a cure, within what the data sheet allows for the room."

// Time answers whether a mix can still be mended so long after its parts met,
// with the working time of the pour; met tells whether that was entered. Fine
// is yes, Beyond is that it is too late, NotKnown that a figure is missing.
func (r *Rescue) Time(working Known[unit.Span], since unit.Span, met bool) (Verdict, string) {
	if working.Absent || working.Low <= 0 {
		return NotKnown, "Whether there is time is not known: copy the working time from the data sheet. Until then do not count on it."
	}
	last := working.Low.Times(rescueShare)
	switch {
	case !met:
		return NotKnown, fmt.Sprintf("Only within %s of the parts meeting, a third of the working time: say how long ago that was.", minutes(last))
	case since > last:
		return Beyond, fmt.Sprintf("Too late: %s have gone, and after %s, a third of the working time, what is added no longer cures evenly. %s", minutes(since), minutes(last), BinSafely)
	}
	return Fine, fmt.Sprintf("There is time: %s of the %s are left. Add it, scrape walls and bottom, and mix as long as before.", minutes(last-since), minutes(last))
}

// minutes writes a span in whole minutes, never more than there are.
func minutes(d unit.Span) string { return fmt.Sprintf("%d min", int(d/unit.Minute+1e-9)) }

// Words says what adding it makes.
func (r *Rescue) Words(m *MixPlan, density unit.Density, s unit.Style) string {
	words := fmt.Sprintf("%s: add %s of %s, in all %s.", r.Off.Signed(), s.MassTo(r.Add, m.Step), r.Part, s.MassTo(r.Total, m.Step))
	switch {
	case r.Surplus >= m.Step/2:
		words += fmt.Sprintf(" That is %s too much", s.MassTo(r.Surplus, m.Step))
		if density > 0 {
			words += " (" + s.Volume(r.Surplus.Over(density)) + ")"
		}
		words += "."
	case r.Surplus <= -m.Step/2:
		words += fmt.Sprintf(" The mix is then still %s short.", s.MassTo(-r.Surplus, m.Step))
	}
	return words
}
