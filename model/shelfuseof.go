package model

import (
	"math"
	"slices"
	"time"

	"meniscus/model/unit"
)

// TakesStock tells whether a project is linked to anything on a shelf, so that
// its journal may tell of what was taken.
func (p *Project) TakesStock() bool {
	return slices.ContainsFunc(p.Sheets, func(s Sheet) bool { return s.Product != "" }) ||
		slices.ContainsFunc(p.Layers, func(l Layer) bool { return l.Tint.Stock != "" }) ||
		slices.ContainsFunc(p.Inserts, func(s Insert) bool { return s.Stock != "" }) ||
		slices.ContainsFunc(p.Journal, func(e Entry) bool { return e.Product != "" || e.Stock != "" })
}

// tintRenamed unlinks a layer's tint from the shelf where its name was changed: it
// is another one then.
func (p *Project) tintRenamed(path string) {
	for i := range p.Layers {
		if l := &p.Layers[i]; path == "layers/"+l.ID+"/tint/name" {
			l.Tint.Stock = ""
		}
	}
}

// SealMixed makes the entry of A and B that were weighed for the wood's seal coat,
// each alone, as typed. lot may be "". Errors are a *Problem.
func (p *Project) SealMixed(sheet, a, b, lot string) (Entry, error) {
	e := Entry{Kind: EntrySealMixed, Sheet: sheet, Lot: lot}
	if p.Sheet(sheet) == nil {
		return e, &Problem{"journal/e/sheet", "this piece has no such data sheet any more: choose another"}
	}
	e.Product, _ = p.sourceOf(&e)
	var err error
	for _, part := range []struct {
		field, text string
		to          *unit.Taken[unit.Mass]
	}{{"journal/e/a", a, &e.A}, {"journal/e/b", b, &e.B}} {
		if *part.to, err = p.grams(part.field, part.text); err != nil {
			return e, err
		}
		if !(part.to.Value > 0) {
			return e, &Problem{part.field, "type how much was weighed, without the cup"}
		}
	}
	return e, nil
}

// Used makes the entry of something of the shelf that was used up for a piece, as
// typed: so many of it, or so much where it is a tint. Errors are a *Problem.
func (p *Project) Used(s *Shelf, thing, amount string) (Entry, error) {
	e := Entry{Kind: EntryUsed, Stock: thing}
	var err error
	if t := s.tint(thing); t != nil {
		e.Text = t.Name
		if e.Gross, err = p.grams("journal/e/gross", amount); err == nil && !(e.Gross.Value > 0) {
			err = &Problem{"journal/e/gross", "type how much of it was used"}
		}
		return e, err
	}
	name, ok := s.counted(thing)
	if !ok {
		return e, &Problem{"journal/e/stock", "it is no longer on the shelf"}
	}
	n, err := unit.ParseNumber(amount)
	if whole := math.Round(float64(n)); err != nil || whole != float64(n) || whole < 1 || whole > anyCount.high {
		return e, &Problem{"journal/e/count", "type how many were used: " + anyCount.words}
	}
	e.Text, e.Count = name, int(n)
	return e, nil
}

// sealWeighed is the data sheet of the first seal coat that was noted, and what was
// weighed of it in all; empty where none was.
func (p *Project) sealWeighed() (sheet string, mass unit.Mass) {
	for _, e := range p.standing() {
		if e.Kind == EntrySealMixed && (sheet == "" || e.Sheet == sheet) {
			sheet, mass = e.Sheet, mass+e.A.Value+e.B.Value
		}
	}
	return sheet, mass
}

// sealUses is what an entry says was weighed for the seal coat.
func (p *Project) sealUses(e *Entry) (list []StockUse) {
	product, lot := p.sourceOf(e)
	if product == "" {
		return nil
	}
	for _, part := range []struct {
		name PartName
		mass unit.Mass
	}{{PartA, e.A.Value}, {PartB, e.B.Value}} {
		if part.mass > 0 {
			list = append(list, StockUse{Entry: e.ID, At: e.At, Product: product, Part: part.name, Lot: lot, Mass: part.mass, Layer: "the seal coat"})
		}
	}
	return list
}

// tintUses is what was stirred of a layer's tint into each of its cups whose A and
// B were weighed: its share of them, to the grain that tints are weighed by. It is
// in once the cup is being mixed, or where nobody noted that once its layer is
// poured. Where a mass of the tint is given for the whole layer, the cups that
// were not lost share it.
func (p *Project) tintUses(l *Layer) (list []StockUse) {
	t := &l.Tint
	if t.Stock == "" || !t.Share.Given() && !t.Mass.Given() {
		return nil
	}
	start, poured := p.PourStart(l.ID)
	type tinted struct {
		first string
		at    time.Time
		mix   unit.Mass
	}
	var cups []tinted
	var all unit.Mass // in the cups that were not lost
	for _, c := range p.mixCups(l.ID) {
		x := tinted{c.first, c.mixing.At, c.in.A + c.in.B}
		if !c.begun() {
			x.at = start.At
		}
		if c.first == "" || !c.in.HasB || !(x.mix > 0) || !c.begun() && (c.lost || !poured) {
			continue
		}
		cups = append(cups, x)
		if !c.lost {
			all += x.mix
		}
	}
	grain := TintGrain(p.Style)
	for _, c := range cups {
		share, _ := t.share(max(all, c.mix))
		if mass := grain.Times(math.Round(c.mix.Times(float64(share)).Per(grain))); mass > 0 {
			list = append(list, StockUse{Entry: c.first, At: c.at, Thing: t.Stock, Mass: mass, Layer: l.Name})
		}
	}
	return list
}

// share is the tint's share of a mix of so much, as Stirred.Of has it.
func (t *Tint) share(total unit.Mass) (unit.Share, bool) {
	s := Stirred{Share: t.Share, Mass: t.Mass}
	return s.Of(total)
}

// insertUses is which inserts of the shelf were set: those that were noted as
// placed, else those whose pour was started, else all once the piece is out of
// the mold.
func (p *Project) insertUses() (list []StockUse) {
	for i := range p.Inserts {
		x := &p.Inserts[i]
		if x.Stock == "" {
			continue
		}
		e, set := p.setAt(x)
		if !set {
			continue
		}
		u := StockUse{Entry: e.ID, At: e.At, Thing: x.Stock, Count: max(1, x.Count), Layer: x.Name}
		// One pour sets several: they are one use of the same thing.
		if at := slices.IndexFunc(list, func(o StockUse) bool { return o.Entry == u.Entry && o.Thing == u.Thing }); at >= 0 {
			list[at].Count += u.Count
			continue
		}
		list = append(list, u)
	}
	return list
}

// setAt gives the entry that tells that an insert is in; false where none does.
func (p *Project) setAt(x *Insert) (Entry, bool) {
	out := Entry{}
	for _, e := range p.standing() {
		if e.Kind == EntryPlaced && e.Insert == x.ID {
			return e, true
		}
		if e.Kind == EntryDemolded && out.Kind == "" {
			out = e
		}
	}
	// The pour that runs about its foot; what hangs at a height is in with the last.
	in := len(p.Layers) - 1
	switch x.On {
	case OnFloor:
		in = 0
	case OnLayer:
		in = min(in, p.LayerIndex(x.Layer)+1)
	}
	if in >= 0 && in < len(p.Layers) {
		if e, begun := p.PourStart(p.Layers[in].ID); begun {
			return e, true
		}
	}
	return out, out.Kind != ""
}
