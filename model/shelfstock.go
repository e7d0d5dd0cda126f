package model

import (
	"fmt"
	"slices"

	"meniscus/model/unit"
)

// Stock holds what is left of a product of the shelf against what the pours of a
// project that are still to come need of it, less what is in their cups already:
// that has come off the bottles. For a sheet that is not of the shelf it is what
// the plan says by itself.
func (sp *ShelfPlan) Stock(p *Project, pl *Plan, sheet string) [2]StockPart {
	pp := sp.of(p.Sheet(sheet))
	if pp == nil {
		return pl.Stock(p, sheet)
	}
	at := shelfRoot + "/products/" + pp.ID
	left := func(m unit.Mass) unit.Taken[unit.Mass] {
		return unit.Taken[unit.Mass]{Value: m, Written: p.Style.Mass(m)}
	}
	a, b := StockPart{Part: "A", Field: at, Left: left(pp.A)}, StockPart{Part: "B", Field: at, Left: left(pp.B)}
	for i := range pl.Layers {
		if l := &pl.Layers[i]; l.Sheet == sheet {
			needA, needB := p.stillNeeds(l)
			a.Needs, b.Needs = a.Needs+needA, b.Needs+needB
		}
	}
	return [2]StockPart{a, b}
}

// of finds the plan of the product that a sheet came from; nil for one that is
// not of the shelf.
func (sp *ShelfPlan) of(s *Sheet) *ProductPlan {
	if sp == nil || s == nil || s.Product == "" {
		return nil
	}
	return sp.Product(s.Product)
}

// stillNeeds is what a pour to come needs of A and of B beyond what is in cups.
func (p *Project) stillNeeds(l *LayerPlan) (a, b unit.Mass) {
	if l.Status != Planned || !l.Mix.Ready {
		return 0, 0
	}
	gotA, gotB := p.inCups(l.ID)
	more := func(needs, got unit.Mass) unit.Mass {
		if needs-got < l.Mix.Step/2 {
			return 0
		}
		return needs - got
	}
	return more(l.Mix.A, gotA), more(l.Mix.B, gotB)
}

// Against gives the findings about what a project needs of the shelf.
func (sp *ShelfPlan) Against(p *Project, pl *Plan) []Finding {
	m := shelfNeed{p: p}
	for i := range p.Sheets {
		s := &p.Sheets[i]
		switch pp := sp.of(s); {
		case s.Product == "":
		case pp == nil:
			for _, part := range pl.Stock(p, s.ID) { // as it is typed in the project
				if part.Short() > 0 {
					m.list = append(m.list, part.shortage(p, s))
				}
			}
			m.say(Note, "stock.unlinked", "sheets/"+s.ID+"/name", s.Name+" is not on this shelf", "it was poured from one, so what is left of it is not known here", "take it from the shelf anew, or keep it there")
		default:
			m.findShelf(sp, pl, s, pp)
		}
	}
	return m.list
}

// shelfNeed gathers findings about what a project needs of the shelf.
type shelfNeed struct {
	p    *Project
	list []Finding
}

func (m *shelfNeed) say(level Level, kind, field, what, why, do string) {
	m.list = append(m.list, Finding{kind, level, OfMixing, field, what, why, do})
}

// findShelf looks whether a product of the shelf suffices, and in one lot for
// each pour.
func (m *shelfNeed) findShelf(sp *ShelfPlan, pl *Plan, s *Sheet, pp *ProductPlan) {
	short := false
	for _, part := range sp.Stock(m.p, pl, s.ID) {
		if part.Short() < leastTold {
			continue
		}
		short = true
		f := part.shortage(m.p, s)
		f.Do = "buy some of the same lot and put it on the shelf, or plan less; weigh the bottles again if you doubt the figure"
		if pp.Unknown > 0 {
			f.Why += ", not counting a bottle that was not weighed"
		}
		m.list = append(m.list, f)
	}
	if !short {
		m.findLots(pl, s, pp)
	}
}

// findLots looks whether each pour to come finds all it needs in one lot: two
// lots in one layer that is seen may show where they meet.
func (m *shelfNeed) findLots(pl *Plan, s *Sheet, pp *ProductPlan) {
	taken := map[string]unit.Mass{} // from each lot, by part
	left := func(part PartName, lot string) unit.Mass { return pp.Left(part, lot) - taken[string(part)+lot] }
	for i := range pl.Layers {
		l := &pl.Layers[i]
		needA, needB := m.p.stillNeeds(l)
		if l.Sheet != s.ID || needA+needB <= 0 {
			continue
		}
		lot := ""
		if at := m.p.LayerIndex(l.ID); at != none {
			lot = m.p.Layers[at].Lot
		}
		field := "layers/" + l.ID + "/lot"
		if lot != "" {
			for _, part := range []struct {
				name  PartName
				needs unit.Mass
			}{{PartA, needA}, {PartB, needB}} {
				if has := max(0, left(part.name, lot)); part.needs-has >= leastTold {
					m.say(Check, "stock.lot", field, fmt.Sprintf("Lot %s does not suffice for %s", clip(lot), l.Name),
						fmt.Sprintf("it needs %s of %s and %s is left of that lot: %s short", m.p.Style.Mass(part.needs), part.name, m.p.Style.Mass(has), m.p.Style.Mass(part.needs-has)),
						"pour it from one lot: choose another, or keep the two lots for layers that are not seen together")
				}
				taken[string(part.name)+lot] += part.needs
			}
			continue
		}
		m.findOneLot(l, pp, field, needA, needB)
	}
}

// findOneLot looks whether any lot has enough of each part for a pour of which no
// lot was chosen.
func (m *shelfNeed) findOneLot(l *LayerPlan, pp *ProductPlan, field string, needA, needB unit.Mass) {
	for _, part := range []struct {
		name  PartName
		needs unit.Mass
		of    func(LotPlan) unit.Mass
	}{{PartA, needA, func(x LotPlan) unit.Mass { return x.A }}, {PartB, needB, func(x LotPlan) unit.Mass { return x.B }}} {
		var most unit.Mass
		for _, x := range pp.Lots {
			most = max(most, part.of(x))
		}
		if part.needs-most >= leastTold {
			m.say(Check, "stock.lots", field, fmt.Sprintf("No one lot of %s has the %s for %s", pp.Name, part.name, l.Name),
				fmt.Sprintf("it needs %s, and the fullest lot has %s", m.p.Style.Mass(part.needs), m.p.Style.Mass(most)),
				"two lots in one layer may differ in colour: buy enough of one, or stir the same part of both lots together before you weigh it")
		}
	}
}

// StockOn answers whether what a rescue adds to a cup of a layer is left, as
// Stock does; of a product of the shelf by what its bottles hold now.
func (r *Rescue) StockOn(sp *ShelfPlan, p *Project, l *LayerPlan, step unit.Mass) (Verdict, string) {
	pp := sp.of(p.Sheet(l.Sheet))
	if pp == nil {
		return r.Stock(p, l, step)
	}
	left := pp.A
	if r.Part == "B" {
		left = pp.B
	}
	write := func(x unit.Mass) string { return p.Style.MassTo(x, step) }
	if left < r.Add && pp.Unknown > 0 {
		return NotKnown, "Whether so much " + r.Part + " is left is not known: a bottle on the shelf was not weighed. Look at it before you pour."
	}
	if left < r.Add {
		return Beyond, fmt.Sprintf("That is %s more of %s than is left on the shelf: bin the mix, or open another bottle of the same lot.", write(r.Add-left), r.Part)
	}
	return Fine, fmt.Sprintf("%s for it is there: %s left of %s.", r.Part, write(left-r.Add), write(left))
}

// Noticed gives findings of a plan with those of the shelf and those about what
// its project needs of it, gravest first.
func (sp *ShelfPlan) Noticed(list []Finding, p *Project, pl *Plan) []Finding {
	more := append(sp.Against(p, pl), sp.Findings...)
	if len(more) == 0 {
		return list
	}
	all := append(slices.Clone(list), more...)
	sortFindings(all)
	return all
}
