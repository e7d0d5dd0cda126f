package model

import (
	"fmt"

	"meniscus/model/unit"
)

// StockPart is one part of a product against what is left of it.
type StockPart struct {
	Part  string // "A" or "B"
	Field string // path of what is left
	Left  unit.Taken[unit.Mass]
	Needs unit.Mass // for all pours of the product that are still to come
}

// Short is how much more is needed than is left; 0 where it suffices, or where
// what is left was not entered.
func (s *StockPart) Short() unit.Mass {
	if !s.Left.Given() {
		return 0
	}
	return max(0, s.Needs-s.Left.Value)
}

// Stock holds what is left of a product's two parts against what the pours that
// are still to come need of them. A pour counts whole until all of that part is
// in its cups: when the figure was entered is not known, so nothing that was
// weighed is taken off it.
//
// Of a product of the shelf, ShelfPlan.Stock tells instead.
func (pl *Plan) Stock(p *Project, sheet string) [2]StockPart {
	a, b := StockPart{Part: "A", Field: "sheets/" + sheet + "/leftA"}, StockPart{Part: "B", Field: "sheets/" + sheet + "/leftB"}
	if s := p.Sheet(sheet); s != nil {
		a.Left, b.Left = s.LeftA, s.LeftB
	}
	for i := range pl.Layers {
		l := &pl.Layers[i]
		if l.Sheet != sheet || l.Status != Planned || !l.Mix.Ready {
			continue
		}
		needA, needB := p.toCome(l)
		a.Needs, b.Needs = a.Needs+needA, b.Needs+needB
	}
	return [2]StockPart{a, b}
}

// toCome is what a planned layer still takes out of the bottles: each part whole
// until all of it is in the cups.
func (p *Project) toCome(l *LayerPlan) (a, b unit.Mass) {
	gotA, gotB := p.inCups(l.ID)
	if gotA < l.Mix.A-l.Mix.Step/2 {
		a = l.Mix.A
	}
	if gotB < l.Mix.B-l.Mix.Step/2 {
		b = l.Mix.B
	}
	return a, b
}

// weighedOut is what has come out of the bottles for a layer, lost cups too.
func (p *Project) weighedOut(layer string) (a, b unit.Mass) {
	for _, c := range p.mixCups(layer) {
		a, b = a+c.in.A, b+c.in.B
	}
	return a, b
}

// inCups is what is in the cups that a layer is poured from: a lost cup came out
// of the bottles as well, and has to be weighed anew.
func (p *Project) inCups(layer string) (a, b unit.Mass) {
	for _, c := range p.mixCups(layer) {
		if !c.lost {
			a, b = a+c.in.A, b+c.in.B
		}
	}
	return a, b
}

// findStock looks for products of which less is left than the pours to come
// need.
func (m *maker) findStock() {
	for i := range m.p.Sheets {
		s := &m.p.Sheets[i]
		if s.Product != "" {
			continue // the shelf tells; see ShelfPlan.Against
		}
		for _, part := range m.plan.Stock(m.p, s.ID) {
			if part.Short() > 0 {
				f := part.shortage(m.p, s)
				m.say(f.Level, f.Subject, f.Kind, f.Field, f.What, f.Why, f.Do)
			}
		}
	}
}

// shortage is the finding that a part of a sheet's product does not suffice.
func (s *StockPart) shortage(p *Project, of *Sheet) Finding {
	mass := p.Style.Mass
	return Finding{"stock.short", Check, OfMixing, s.Field, s.Part + " of " + of.Name + " does not suffice",
		fmt.Sprintf("the pours to come need %s and %s is left: %s short", mass(s.Needs), mass(s.Left.Value), mass(s.Short())), "open another bottle of the same lot and count it in, or plan less; weigh what is left again if it is from before a pour"}
}

// Stock answers whether what a rescue adds to a cup of a layer is left: Fine is
// yes, Beyond is no, NotKnown that it was not entered, or that it hangs on
// whether it was entered before the cup was weighed.
func (r *Rescue) Stock(p *Project, l *LayerPlan, step unit.Mass) (Verdict, string) {
	s := p.Sheet(l.Sheet)
	if s == nil {
		return NotKnown, ""
	}
	left := s.LeftA
	out, b := p.weighedOut(l.ID)
	if r.Part == "B" {
		left, out = s.LeftB, b
	}
	write := func(x unit.Mass) string { return p.Style.MassTo(x, step) }
	switch least := left.Value - out; {
	case !left.Given():
		return NotKnown, "Whether so much " + r.Part + " is left is not known: look at the bottle before you pour, and type what is left under Amount."
	case left.Value < r.Add:
		return Beyond, fmt.Sprintf("That is %s more of %s than is left in the bottle: bin the mix, or open another bottle of the same lot.", write(r.Add-left.Value), r.Part)
	case least < 0: // so much cannot have come out of it: it was weighed since
		return Fine, fmt.Sprintf("%s for it is there: %s left of %s.", r.Part, write(left.Value-r.Add), write(left.Value))
	case least < r.Add:
		return NotKnown, fmt.Sprintf("%s for it is there only if the %s that is left was weighed after this cup: look at the bottle before you pour.", r.Part, write(left.Value))
	}
	return Fine, fmt.Sprintf("%s for it is there: at least %s left of %s.", r.Part, write(left.Value-out-r.Add), write(left.Value))
}
