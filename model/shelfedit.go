package model

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"meniscus/model/unit"
)

// Clone copies a shelf so that a change to the copy never shows in the original.
func (s Shelf) Clone() Shelf {
	s.Products = slices.Clone(s.Products)
	for i := range s.Products {
		p := &s.Products[i]
		p.Kits, p.Bottles = slices.Clone(p.Kits), slices.Clone(p.Bottles)
		for j := range p.Bottles {
			p.Bottles[j].Weighings = slices.Clone(p.Bottles[j].Weighings)
		}
	}
	s.Molds = slices.Clone(s.Molds)
	for i := range s.Molds {
		s.Molds[i].Mold = s.Molds[i].Mold.clone()
	}
	s.Tints, s.Cups, s.Inserts, s.Consumables = slices.Clone(s.Tints), slices.Clone(s.Cups), slices.Clone(s.Inserts), slices.Clone(s.Consumables)
	s.Uses, s.Drafts = slices.Clone(s.Uses), slices.Clone(s.Drafts)
	return s
}

// clone copies a mold with its lists. Outlines are shared.
func (m Mold) clone() Mold {
	m.Hold.Seams, m.Hold.Depths = slices.Clone(m.Hold.Seams), slices.Clone(m.Hold.Depths)
	return m
}

// newID gives an ID that no item of the shelf has had. Its letters differ from
// those in projects, so that an ID tells where it is from.
func (s *Shelf) newID(kind string) string {
	s.Serial++
	return kind + itoa(s.Serial)
}

// markedID gives an ID that nothing on any shelf has had: projects name such
// things, and may come from another notebook.
func (s *Shelf) markedID(kind string) string {
	id := s.newID(kind)
	if s.Mark != "" {
		id += "-" + s.Mark
	}
	return id
}

// AddProduct adds a product with an empty data sheet and gives its ID.
func (s *Shelf) AddProduct() string {
	p := Product{ID: s.markedID("r"), Sheet: Sheet{Name: "resin " + itoa(len(s.Products)+1)}}
	s.Products = append(s.Products, p)
	return p.ID
}

// AddBottle adds a new bottle of a part to a product, bought today, and gives
// its ID; "" where there is no such product.
func (s *Shelf) AddBottle(product string, part PartName, today Date) string {
	p := s.Product(product)
	if p == nil {
		return ""
	}
	b := Bottle{ID: s.newID("b"), Part: part, Bought: today}
	for i := range p.Bottles { // another of the same, most likely
		if p.Bottles[i].Part == part {
			b.Tare, b.Holds = p.Bottles[i].Tare, p.Bottles[i].Holds
		}
	}
	p.Bottles = append(p.Bottles, b)
	return b.ID
}

// AddKit adds a kit to a product and gives its ID; "" where there is no such
// product.
func (s *Shelf) AddKit(product string) string {
	p := s.Product(product)
	if p == nil {
		return ""
	}
	k := ShelfKit{ID: s.newID("k"), Kit: Kit{Name: "kit " + itoa(len(p.Kits)+1), A: unit.Kilogram, B: unit.Kilogram.Times(0.5)}}
	if parts, err := p.Sheet.PartsByWeight(); err == nil {
		k.B = k.A.Times(parts / 100)
	}
	p.Kits = append(p.Kits, k)
	return k.ID
}

// AddTint adds a colorant and gives its ID.
func (s *Shelf) AddTint() string {
	t := ShelfTint{ID: s.markedID("t"), Name: "tint " + itoa(len(s.Tints)+1)}
	s.Tints = append(s.Tints, t)
	return t.ID
}

// AddCup adds a kind of cup and gives its ID.
func (s *Shelf) AddCup() string {
	c := ShelfCup{ID: s.newID("c"), Name: "cup " + itoa(len(s.Cups)+1), Number: 1}
	s.Cups = append(s.Cups, c)
	return c.ID
}

// AddConsumable adds what wears away and gives its ID.
func (s *Shelf) AddConsumable() string {
	c := Consumable{ID: s.markedID("w"), Name: "discs", Number: 1}
	s.Consumables = append(s.Consumables, c)
	return c.ID
}

// Remove takes the item named by a path such as "shelf/products/r2/bottles/b5"
// out of its list. Of a bottle that was weighed it takes nothing away: it is
// gone, and what came out of it stays known.
func (s *Shelf) Remove(path string) error {
	parts := strings.Split(path, "/")
	if len(parts) == 5 && parts[3] == "bottles" {
		if p := s.Product(parts[2]); p != nil {
			if b := p.Bottle(parts[4]); b != nil && (len(b.Weighings) > 0 || s.usesOf(parts[2])) {
				b.Gone = true
				return nil
			}
		}
	}
	return removeItem(s, path)
}

// usesOf tells whether anything was weighed out of a product.
func (s *Shelf) usesOf(product string) bool {
	return slices.ContainsFunc(s.Uses, func(u ProjectUses) bool {
		return slices.ContainsFunc(u.List, func(x StockUse) bool { return x.Product == product })
	})
}

// Weigh notes what a bottle weighs, as typed, with its cap. Errors are a
// *Problem: less than the empty bottle, more than it can hold, or a bottle whose
// own weight is not known.
func (s *Shelf) Weigh(product, bottle, gross string, at time.Time) error {
	path := shelfRoot + "/products/" + product + "/bottles/" + bottle
	p := s.Product(product)
	if p == nil || p.Bottle(bottle) == nil {
		return &Problem{path, "it is no longer there"}
	}
	b := p.Bottle(bottle)
	g, err := s.Style.TakeMass(gross)
	at = at.UTC()
	switch m := float64(g.Value); {
	case !b.Tare.Given():
		return &Problem{path + "/tare", "type what the empty bottle weighs first, with its cap: an empty one of the same kind will do"}
	case err != nil:
		return &Problem{path + "/gross", words(err)}
	case m < someMass.low || m > someMass.high:
		return &Problem{path + "/gross", "this should be " + someMass.words}
	case g.Value < b.Tare.Value:
		return &Problem{path + "/gross", fmt.Sprintf("that is less than the empty bottle, %s: type what the scale reads, bottle, cap and all", s.Style.Mass(b.Tare.Value))}
	case b.Holds.Given() && g.Value > b.Tare.Value+b.Holds.Value.Times(mostOverfill):
		return &Problem{path + "/gross", fmt.Sprintf("that would be %s in a bottle that holds %s: read the scale again, or mend what it holds", s.Style.Mass(g.Value-b.Tare.Value), s.Style.Mass(b.Holds.Value))}
	}
	if n := len(b.Weighings); n > 0 && !at.After(b.Weighings[n-1].At) {
		return &Problem{path + "/gross", "by this machine's clock the last weighing is still to come: set the clock right, then weigh it"}
	}
	b.Weighings = append(slices.Clone(b.Weighings), Weighing{ID: s.newID("g"), At: at, Gross: g})
	b.Gone = false
	return nil
}

// mostOverfill is by how much a bottle may hold more than is printed on it,
// before a reading is taken for a slip. Common practice, no source.
const mostOverfill = 1.25

// ShelfLabel names a field of the shelf in words, for the steps of undo: "Tare
// of slow resin".
func ShelfLabel(s *Shelf, field string) string {
	parts := strings.Split(field, "/")
	last := spacedOut(parts[len(parts)-1])
	if word, ok := said[parts[len(parts)-1]]; ok {
		last = word
	}
	if len(parts) > 3 && parts[len(parts)-1] == "name" {
		return "Name of a " + strings.TrimSuffix(parts[1], "s")
	}
	if len(parts) > 3 {
		item := strings.Join(parts[:3], "/")
		for _, at := range []string{"/name", "/sheet/name", "/mold/name", "/insert/name"} {
			if name, _ := Show(s, item+at); name != "" {
				return upperFirst(last) + " of " + name
			}
		}
	}
	return upperFirst(last) + " on the shelf"
}
