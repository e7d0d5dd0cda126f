package model

import (
	"slices"
	"strconv"
	"strings"

	"meniscus/model/unit"
)

// CostFacts is what the shelf knows of the cost of a project: the price of a
// resin by the kit it is bought in, of a tint and an insert by their names, and
// of the abrasive that the sanding uses up by its grit; nothing where the project
// counts its own prices only. Only prices in the project's own currency count;
// OtherMoney tells where that leaves some out.
// Where a product has several kits the first one counts that holds both parts
// and has a price, since the maker puts the usual one there.
func (s *Shelf) CostFacts(p *Project, pl *Plan) CostFacts {
	var f CostFacts
	if p.Money.Own {
		return f
	}
	code := p.money()
	for i := range p.Sheets {
		sheet := &p.Sheets[i]
		product := s.Product(sheet.Product)
		if product == nil {
			continue
		}
		for _, k := range product.Kits {
			if k.A > 0 && k.B > 0 && k.Price.Currency == code {
				f.Prices = append(f.Prices, Paid{Kind: PaidResin, Of: sheet.ID, Price: k.Price, For: shelfMass(k.A + k.B)})
				break
			}
		}
	}
	for i := range s.Tints {
		if t := &s.Tints[i]; t.Price.Currency == code && t.Left.Value > 0 {
			for _, name := range pl.tintsLike(t.Name) {
				f.Prices = append(f.Prices, Paid{Kind: PaidTint, Of: name, Price: t.Price, For: shelfMass(t.Left.Value)})
			}
		}
	}
	for i := range s.Inserts {
		x := &s.Inserts[i]
		for j := range p.Inserts {
			if x.Price.Currency == code && x.Insert.Name != "" && calledAlike(x.Insert.Name, p.Inserts[j].Name) {
				f.Prices = append(f.Prices, Paid{Kind: PaidInsert, Of: p.Inserts[j].ID, Price: x.Price})
			}
		}
	}
	f.Used, _ = pl.Finish.Sand.DiscLines(func(m GritMark) (unit.Money, bool) {
		for i := range s.Consumables {
			if c := &s.Consumables[i]; c.Price.Currency == code && c.Grit > 0 && m.is(c.Grit) {
				return c.Price, true
			}
		}
		return unit.Money{}, false
	})
	return f
}

// OtherMoney is the currency of the shelf's prices where a project's is another
// one, so that they do not count in it; empty where it is not.
func (s *Shelf) OtherMoney(p *Project) Currency {
	if code := p.money(); !p.Money.Own && s.Currency != "" && string(s.Currency) != code {
		for _, m := range s.prices() {
			if m.Given() {
				return s.Currency
			}
		}
	}
	return ""
}

func shelfMass(m unit.Mass) unit.Taken[unit.Mass] { return unit.Taken[unit.Mass]{Value: m} }

// tintsLike lists what is stirred into the layers under a name like this one,
// each name once, as it is written there.
func (pl *Plan) tintsLike(name string) (list []string) {
	for i := range pl.Layers {
		for _, a := range pl.Layers[i].Mix.Additives {
			if name != "" && calledAlike(a.Name, name) && !slices.Contains(list, a.Name) {
				list = append(list, a.Name)
			}
		}
	}
	return list
}

// is tells whether an abrasive is marked with a number, whichever series its
// letters name.
func (m GritMark) is(grit int) bool {
	digits := strings.TrimFunc(string(m), func(r rune) bool { return r < '0' || r > '9' })
	return digits == strconv.Itoa(grit)
}

// Priceable is something that goes into a piece and can have a price.
type Priceable struct {
	Kind  PaidKind
	Of    string // as in Paid
	Name  string
	Paid  string // ID of the project's own price of it; empty where there is none
	Shelf Paid   // what the shelf knows; its price is not given where it knows nothing
}

// Priceables lists what goes into a piece and can have a price, in the order of
// its lines of cost. Wood comes as a whole, and piece by piece where there are
// several and it has no price as a whole.
func (p *Project) Priceables(pl *Plan, facts CostFacts) (list []Priceable) {
	add := func(kind PaidKind, of, name string) {
		x := Priceable{Kind: kind, Of: of, Name: orWord(name, string(kind))}
		for _, m := range p.Money.Prices {
			if m.Kind == kind && m.Of == of && x.Paid == "" {
				x.Paid = m.ID
			}
		}
		for _, m := range facts.Prices {
			if m.Kind == kind && m.Of == of && !x.Shelf.Price.Given() {
				x.Shelf = m
			}
		}
		list = append(list, x)
	}
	poured, met := map[string]bool{}, map[string]bool{}
	var tints []string
	for i := range pl.Layers {
		poured[pl.Layers[i].Sheet] = true
		for _, a := range pl.Layers[i].Mix.Additives {
			if !met[a.Name] {
				met[a.Name] = true
				tints = append(tints, a.Name)
			}
		}
	}
	for i := range p.Sheets {
		if s := &p.Sheets[i]; poured[s.ID] {
			add(PaidResin, s.ID, s.Name)
		}
	}
	for _, name := range tints {
		add(PaidTint, name, name)
	}
	if len(p.Pieces) > 0 {
		add(PaidWood, "", "all the wood")
		if whole := list[len(list)-1]; len(p.Pieces) > 1 && whole.Paid == "" {
			for i := range p.Pieces {
				add(PaidWood, p.Pieces[i].ID, p.Pieces[i].Name)
			}
		}
	}
	for i := range p.Inserts {
		add(PaidInsert, p.Inserts[i].ID, p.Inserts[i].Name)
	}
	return list
}
