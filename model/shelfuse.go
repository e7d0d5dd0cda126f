package model

import (
	"cmp"
	"slices"
	"time"

	"meniscus/model/unit"
)

// StockUse is what one entry of a journal says was taken from the shelf: out of
// the bottles of a product, or of a thing there: of a tint by its mass, of what is
// counted by its number.
type StockUse struct {
	Entry   string    `json:"entry"` // of the journal, by ID
	At      time.Time `json:"at"`
	Product string    `json:"product"` // by ID; empty for a thing
	Part    PartName  `json:"part"`
	Lot     string    `json:"lot,omitempty"`
	Mass    unit.Mass `json:"mass"`
	Thing   string    `json:"thing,omitempty"` // by ID
	Count   int       `json:"count,omitempty"`
	Layer   string    `json:"layer,omitempty"` // by name, for words
}

// ProjectUses is all that one project took from the shelf.
type ProjectUses struct {
	Project string     `json:"project"` // by ID
	Name    string     `json:"name,omitempty"`
	List    []StockUse `json:"list,omitempty"`
}

// UsesOf reads what a project took from the shelf out of its journal: what each
// reading that stands shows more than the one before, what was weighed for the
// seal coat, what was noted as used, the tints that were stirred into what was
// weighed, and the inserts that were set. It is always the whole list, which takes
// the place of the one before, so that nothing that was corrected, taken back or
// brought in can count twice. A reading that shows less than the one before puts
// nothing back into a bottle.
func UsesOf(p *Project) ProjectUses {
	uses := ProjectUses{Project: p.ID, Name: p.Name}
	cups := map[string]*InCup{}
	for _, e := range p.standing() {
		switch {
		case e.Kind == EntrySealMixed:
			uses.List = append(uses.List, p.sealUses(&e)...)
			continue
		case e.Kind == EntryUsed && e.Stock != "":
			uses.List = append(uses.List, StockUse{Entry: e.ID, At: e.At, Thing: e.Stock, Mass: max(0, e.Gross.Value), Count: max(0, e.Count)})
			continue
		case !e.weighed():
			continue
		}
		c := cups[e.Layer]
		if c == nil {
			c = &InCup{}
			cups[e.Layer] = c
		}
		more := c.take(&e)
		product, lot := p.sourceOf(&e)
		if product == "" || !(more > 0) {
			continue
		}
		u := StockUse{Entry: e.ID, At: e.At, Product: product, Part: PartA, Lot: lot, Mass: more}
		if e.Kind == EntryWeighedB {
			u.Part = PartB
		}
		if i := p.LayerIndex(e.Layer); i != none {
			u.Layer = p.Layers[i].Name
		}
		uses.List = append(uses.List, u)
	}
	for i := range p.Layers {
		uses.List = append(uses.List, p.tintUses(&p.Layers[i])...)
	}
	uses.List = append(uses.List, p.insertUses()...)
	return uses
}

// sourceOf gives the product of the shelf and the lot that a reading or a seal
// coat is of: those of its layer or sheet, or where that is no longer there what
// the entry itself says.
func (p *Project) sourceOf(e *Entry) (product, lot string) {
	if s := p.Sheet(e.Sheet); s != nil && e.Sheet != "" {
		return s.Product, e.Lot
	}
	if i := p.LayerIndex(e.Layer); i != none {
		if s := p.Sheet(p.Layers[i].Sheet); s != nil {
			return s.Product, p.Layers[i].Lot
		}
	}
	return e.Product, e.Lot
}

// SetUses puts what a project took in the place of what it took before. It tells
// whether that is any different.
func (s *Shelf) SetUses(of ProjectUses) bool {
	i, there := slices.BinarySearchFunc(s.Uses, of.Project, func(u ProjectUses, id string) int { return cmp.Compare(u.Project, id) })
	switch {
	case !there && len(of.List) == 0:
		return false
	case there && s.Uses[i].Name == of.Name && slices.EqualFunc(s.Uses[i].List, of.List, StockUse.same):
		return false
	}
	s.Uses = slices.Clone(s.Uses)
	switch {
	case len(of.List) == 0:
		s.Uses = slices.Delete(s.Uses, i, i+1)
	case there:
		s.Uses[i] = of
	default:
		s.Uses = slices.Insert(s.Uses, i, of)
	}
	return true
}

// same tells whether two uses are the same, whatever way their instants are held.
func (u StockUse) same(o StockUse) bool {
	at := u.At.Equal(o.At)
	u.At, o.At = time.Time{}, time.Time{}
	return at && u == o
}
