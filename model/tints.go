package model

import (
	"fmt"
	"strings"

	"meniscus/model/unit"
)

// Stirred is one thing stirred into a layer: its tint, a further tint or
// another additive.
type Stirred struct {
	At    string // path of the item: its share is at At + "/share"
	Name  string
	Kind  ColorantKind
	Grain unit.Dim
	Share unit.Taken[unit.Share]
	Mass  unit.Taken[unit.Mass]
}

// Given tells whether it is said how much of it goes in.
func (c *Stirred) Given() bool { return c.Share.Given() || c.Mass.Given() }

// Of is its share of a mix of so much: as given, else by its mass. Nothing is
// known of a mass in a mix that is not known.
func (c *Stirred) Of(total unit.Mass) (unit.Share, bool) {
	switch {
	case c.Share.Given():
		return c.Share.Value, true
	case c.Mass.Given() && total > 0:
		return unit.Share(c.Mass.Value.Per(total)), true
	}
	return 0, false
}

// Stirred lists what is stirred into the layer, its tint first where it says how
// much of that there is.
func (l *Layer) Stirred() []Stirred {
	at := "layers/" + l.ID
	var list []Stirred
	if t := &l.Tint; t.Share.Given() || t.Mass.Given() {
		list = append(list, Stirred{at + "/tint", orWord(t.Name, "tint"), t.Kind, t.Grain, t.Share, t.Mass})
	}
	for i := range l.Additives {
		a := &l.Additives[i]
		list = append(list, Stirred{at + "/additives/" + a.ID, orWord(a.Name, "additive"), a.Kind, a.Grain, a.Share, a.Mass})
	}
	return list
}

// inShares turns masses that are stirred into so much of a mix into their shares
// of it; where that is not known they stay.
func (l *Layer) inShares(total unit.Mass) {
	turn := func(share *unit.Taken[unit.Share], mass *unit.Taken[unit.Mass]) {
		if !share.Given() && mass.Given() && total > 0 {
			*share = unit.Taken[unit.Share]{Value: unit.Share(mass.Value.Per(total))}
			*mass = unit.Taken[unit.Mass]{}
		}
	}
	turn(&l.Tint.Share, &l.Tint.Mass)
	for i := range l.Additives {
		turn(&l.Additives[i].Share, &l.Additives[i].Mass)
	}
}

// usualMost is how much of a kind a mix usually bears before it cures soft
// (common practice, no source). What is of no kind goes by the usual limit of a
// sheet that is silent.
var usualMost = map[ColorantKind]unit.Share{ColorantMica: 0.05, ColorantPaste: 0.02, ColorantInk: 0.01}

// TintUse is how much of what a mix bears is used by one thing stirred in.
type TintUse struct {
	Stirred
	Part unit.Share // of the mix
	Most unit.Share // that the mix bears of it, were it alone
	Used float64    // the one by the other
}

// TintLimit is what is stirred into a layer beside what its mix bears. Where the
// data sheet gives a limit it holds for all together, whatever they are; else
// each goes by what is usual for its kind, and the parts used are added up.
type TintLimit struct {
	Uses    []TintUse
	Part    unit.Share // of the mix, all together
	Used    float64    // of what the mix bears; 1 is all of it
	BySheet bool       // by the data sheet's own limit
}

// Tints holds what is stirred into a layer against what its mix bears; a mass
// counts once it is known how much is mixed.
func (p *Project) Tints(layer string, total unit.Mass) TintLimit {
	var t TintLimit
	i := p.LayerIndex(layer)
	if i == none {
		return t
	}
	l := &p.Layers[i]
	s := p.Sheet(l.Sheet)
	t.BySheet = s != nil && s.TintLimit.Given()
	for _, c := range l.Stirred() {
		use := TintUse{Stirred: c, Most: typicalTintLimit.value}
		if most, usual := usualMost[c.Kind]; usual {
			use.Most = most
		}
		if t.BySheet {
			use.Most = s.TintLimit.Value
		}
		use.Part, _ = c.Of(total)
		if use.Used = float64(use.Part / use.Most); use.Part == 0 {
			use.Used = 0 // also where the sheet allows none
		}
		t.Uses = append(t.Uses, use)
		t.Part += use.Part
		t.Used += use.Used
	}
	return t
}

// Over tells whether more is stirred in than the mix bears.
func (t *TintLimit) Over() bool { return t.Used > 1+1e-9 }

// Words says how much of the limit is used, and whose limit it is.
func (t *TintLimit) Words(s unit.Style) string {
	switch {
	case t.BySheet && len(t.Uses) > 0:
		return fmt.Sprintf("%s stirred in, the data sheet's limit is %s", s.Share(t.Part), s.Share(t.Uses[0].Most))
	case t.alike():
		return fmt.Sprintf("%s stirred in; about %s is common practice%s, and the sheet is silent", s.Share(t.Part), s.Share(t.Uses[0].Most), ofKind(t.Uses[0].Kind))
	}
	var list []string
	for _, u := range t.Uses {
		list = append(list, fmt.Sprintf("%s %s of %s", u.Name, s.Share(u.Part), s.Share(u.Most)))
	}
	return fmt.Sprintf("%s: together %.0f %% of what is common practice for such, and the sheet is silent", strings.Join(list, ", "), 100*t.Used)
}

// alike tells whether all that is stirred in has one limit.
func (t *TintLimit) alike() bool {
	for _, u := range t.Uses {
		if u.Kind != t.Uses[0].Kind {
			return false
		}
	}
	return len(t.Uses) > 0
}

// ofKind names a kind behind its limit.
func ofKind(k ColorantKind) string {
	if _, usual := usualMost[k]; usual {
		return " for " + string(k)
	}
	return ""
}

// tintCheck holds what is stirred into layer k against what its mix bears.
func (m *maker) tintCheck(k int, p *LayerPlan) []LimitCheck {
	if m.layers[k].sheet == nil {
		return nil
	}
	t := m.p.Tints(p.ID, p.Mix.Total)
	if t.Part <= 0 {
		return nil
	}
	// The limit of the whole, in the mixture that is stirred in.
	c := LimitCheck{Kind: "tint and additives", Verdict: Fine, Value: float64(t.Part), Limit: float64(t.Part) / t.Used, Text: t.Words(m.p.Style)}
	if t.Over() {
		c.Verdict = Beyond
	}
	return []LimitCheck{c}
}

// AmountAt gives how much of what is stirred in at a path, such as
// "layers/l1/tint", as it was written: a share or a mass.
func AmountAt(p *Project, at string) string {
	if text, _ := Show(p, at+"/share"); text != "" {
		return text
	}
	text, _ := Show(p, at+"/mass")
	return text
}

// EnterAmount takes how much of something is stirred in: a share of the mix, or
// a mass where its unit is written. Errors are a *Problem of its share.
func EnterAmount(p *Project, at, text string) error {
	share, mass := at+"/share", at+"/mass"
	field, other := share, mass
	if _, err := unit.ParseShare(text); err != nil && saysUnit(text) {
		if _, err := p.Style.TakeMass(text); err == nil {
			field, other = mass, share
		}
	}
	if err := Enter(p, field, text); err != nil {
		message := words(err)
		if pr, ok := err.(*Problem); ok {
			message = pr.Message
		}
		return &Problem{share, message}
	}
	p.dropDraft(share)
	return Enter(p, other, "")
}
