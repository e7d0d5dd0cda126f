package model

import (
	"cmp"
	"slices"

	"meniscus/model/unit"
)

// ShelfPlan is what follows from a Shelf on a day: a value made by PlanShelf.
type ShelfPlan struct {
	Today    Date          `json:"today"`
	Products []ProductPlan `json:"products,omitempty"`
	Molds    []ShelfCavity `json:"molds,omitempty"`
	Things   []ThingPlan   `json:"things,omitempty"` // what is counted by hand
	Findings []Finding     `json:"findings,omitempty"`
}

// ShelfCavity is what a mold on the shelf takes, and how it looks from above.
type ShelfCavity struct {
	ID       string      `json:"id"`
	Capacity unit.Volume `json:"capacity"` // of all its cavities; 0 while it is not measured
	Sketch   Sketch      `json:"sketch"`
}

// ProductPlan is what is left of a product.
type ProductPlan struct {
	ID      string       `json:"id"`
	Name    string       `json:"name"`
	Parts   float64      `json:"parts,omitempty"` // of B to 100 of A by weight; 0 where the sheet does not tell
	A       unit.Mass    `json:"a"`               // left, in the bottles that are known
	B       unit.Mass    `json:"b"`
	Mix     unit.Mass    `json:"mix"`    // that can be made of it, by pairs of A and B
	SpareA  unit.Mass    `json:"spareA"` // that finds no partner
	SpareB  unit.Mass    `json:"spareB"`
	Low     bool         `json:"low,omitempty"`
	Unknown int          `json:"unknown,omitempty"` // bottles of which nobody knows what they hold
	Lots    []LotPlan    `json:"lots,omitempty"`    // by number; bottles without one are under ""
	Bottles []BottlePlan `json:"bottles,omitempty"` // that are there, in the order of the shelf
}

// LotPlan is what is left of a lot.
type LotPlan struct {
	Lot string    `json:"lot"`
	A   unit.Mass `json:"a"`
	B   unit.Mass `json:"b"`
}

// BottlePlan is what is left in a bottle.
type BottlePlan struct {
	ID       string    `json:"id"`
	Part     PartName  `json:"part"`
	Lot      string    `json:"lot,omitempty"`
	Net      unit.Mass `json:"net"`
	Known    bool      `json:"known"`              // Net is known
	Labelled bool      `json:"labelled,omitempty"` // it was never weighed: by what is printed on it
	Since    unit.Mass `json:"since,omitempty"`    // weighed out of it since it was weighed
	Opened   Date      `json:"opened,omitempty"`
	Until    Date      `json:"until,omitempty"`   // the last day that it is good for; empty where nothing tells
	Typical  bool      `json:"typical,omitempty"` // Until goes by the usual 12 months
	Expired  bool      `json:"expired,omitempty"`
}

// How long an opened bottle usually keeps, in months: 12, with a band of 6 to
// 24. Common practice, no source.
const (
	typicalMonths = 12
	fewestMonths  = 6
	mostMonths    = 24
)

// PlanShelf works out what is left on a shelf. It follows from the shelf and the
// day alone.
func PlanShelf(s *Shelf, today Date) ShelfPlan {
	pl := ShelfPlan{Today: today}
	m := shelfMaker{shelf: s, plan: &pl}
	m.uses = m.sorted()
	for i := range s.Products {
		pl.Products = append(pl.Products, m.product(&s.Products[i]))
	}
	for i := range s.Molds {
		p := Project{Style: s.Style, Mold: s.Molds[i].Mold}
		of := Make(p)
		pl.Molds = append(pl.Molds, ShelfCavity{ID: s.Molds[i].ID, Capacity: of.Mold.Capacity.Value, Sketch: sketch(&of)})
	}
	for _, x := range s.things() {
		pl.Things = append(pl.Things, m.thing(x))
	}
	m.findDrafts()
	sortFindings(pl.Findings)
	return pl
}

// Product finds the plan of a product by ID; nil when there is none.
func (pl *ShelfPlan) Product(id string) *ProductPlan {
	for i := range pl.Products {
		if pl.Products[i].ID == id {
			return &pl.Products[i]
		}
	}
	return nil
}

// Mold finds the plan of a mold by ID; nil when there is none.
func (pl *ShelfPlan) Mold(id string) *ShelfCavity {
	return named(pl.Molds, id, func(m *ShelfCavity) string { return m.ID })
}

// Bottle finds the plan of a bottle by ID; nil when there is none.
func (p *ProductPlan) Bottle(id string) *BottlePlan {
	for i := range p.Bottles {
		if p.Bottles[i].ID == id {
			return &p.Bottles[i]
		}
	}
	return nil
}

// Left is what is left of a part of a lot. A lot that only bottles of the other
// part bear is no lot of this part: then all of it counts, as it does for "".
func (p *ProductPlan) Left(part PartName, lot string) unit.Mass {
	var mine, all unit.Mass
	borne, other := false, false
	for i := range p.Bottles {
		b := &p.Bottles[i]
		same := sameLot(b.Lot, lot)
		if b.Part != part {
			other = other || same
			continue
		}
		all += b.Net
		if same {
			mine, borne = mine+b.Net, true
		}
	}
	if lot == "" || !borne && other {
		return all
	}
	return mine
}

// shelfMaker makes a ShelfPlan.
type shelfMaker struct {
	shelf *Shelf
	plan  *ShelfPlan
	uses  map[source][]StockUse
}

// product works out one product.
func (m *shelfMaker) product(p *Product) ProductPlan {
	pp := ProductPlan{ID: p.ID, Name: p.Sheet.Name}
	if parts, err := p.Sheet.PartsByWeight(); err == nil {
		pp.Parts = parts
	}
	var all []*tally
	for _, part := range []PartName{PartA, PartB} {
		uses := m.uses[source{p.ID, part}]
		tallies, missing := ledger(p, part, uses)
		all = append(all, tallies...)
		m.findMissing(p, part, uses, missing)
	}
	for i := range p.Bottles {
		b := &p.Bottles[i]
		at := slices.IndexFunc(all, func(t *tally) bool { return t.bottle == b })
		if b.Gone || at < 0 {
			continue
		}
		t := all[at]
		bp := BottlePlan{ID: b.ID, Part: b.Part, Lot: b.Lot, Net: t.net, Known: t.known, Labelled: t.known && t.last.IsZero(), Since: t.since, Opened: b.Opened}
		bp.Until, bp.Typical = p.until(b)
		bp.Expired = bp.Until.Given() && bp.Until < m.plan.Today && (!t.known || t.net > 0)
		pp.Bottles = append(pp.Bottles, bp)
		pp.count(&bp)
	}
	pp.Mix = LargestMix(pp.A, pp.B, pp.Parts)
	if pp.Parts > 0 {
		a := pp.Mix.Times(100 / (100 + pp.Parts))
		pp.SpareA, pp.SpareB = max(0, pp.A-a), max(0, pp.B-(pp.Mix-a))
	}
	pp.Low = p.Low.Given() && pp.Mix < p.Low.Value
	m.findProduct(p, &pp)
	return pp
}

// count adds a bottle to what is left.
func (p *ProductPlan) count(b *BottlePlan) {
	if !b.Known {
		p.Unknown++
	}
	at := slices.IndexFunc(p.Lots, func(l LotPlan) bool { return sameLot(l.Lot, b.Lot) })
	if at < 0 {
		p.Lots = append(p.Lots, LotPlan{Lot: b.Lot})
		at = len(p.Lots) - 1
	}
	if b.Part == PartA {
		p.A, p.Lots[at].A = p.A+b.Net, p.Lots[at].A+b.Net
	} else {
		p.B, p.Lots[at].B = p.B+b.Net, p.Lots[at].B+b.Net
	}
}

// until is the last day that a bottle is good for, and whether that goes by what
// is usual: the day that is printed on it, or what its product keeps for from
// when it was opened or else bought, whichever is first.
func (p *Product) until(b *Bottle) (day Date, typical bool) {
	months := func(n unit.Taken[unit.Number], usual int) int {
		if n.Given() {
			return int(n.Value)
		}
		return usual
	}
	day = b.Expires
	var kept Date
	switch {
	case b.Opened.Given():
		kept, typical = b.Opened.AddMonths(months(p.MonthsOpened, typicalMonths)), !p.MonthsOpened.Given()
	case b.Bought.Given() && p.MonthsClosed.Given():
		kept = b.Bought.AddMonths(months(p.MonthsClosed, 0))
	}
	if kept.Given() && (!day.Given() || kept < day) {
		return kept, typical
	}
	return day, false
}

// source is a part of a product.
type source struct {
	product string
	part    PartName
}

// sorted lists what was taken, by source, in order of time. A reading that two
// projects tell of, one being a copy of the other, counts once.
func (m *shelfMaker) sorted() map[source][]StockUse {
	uses := map[source][]StockUse{}
	told := map[source]map[string]bool{}
	for _, of := range m.shelf.Uses {
		for _, u := range of.List {
			from := source{u.Product, u.Part}
			if !(u.Mass > 0) || told[from][u.Entry] || m.shelf.Product(u.Product) == nil {
				continue
			}
			if told[from] == nil {
				told[from] = map[string]bool{}
			}
			told[from][u.Entry] = true
			if of.Name != "" {
				u.Layer = of.Name + ", " + u.Layer
			}
			uses[from] = append(uses[from], u)
		}
	}
	for _, list := range uses {
		slices.SortStableFunc(list, func(a, b StockUse) int { return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Entry, b.Entry)) })
	}
	return uses
}

// LotList lists what is left of the product by part and lot, as buying looks at
// it: bottle by bottle, those of which nobody knows what they hold left out. One
// that is past its day counts, as it does for Mix; its finding says so.
func (p *ProductPlan) LotList() (list []Lot) {
	for i := range p.Bottles {
		if b := &p.Bottles[i]; b.Known && b.Net > 0 {
			list = append(list, Lot{Part: b.Part, Number: b.Lot, Left: b.Net})
		}
	}
	return list
}
