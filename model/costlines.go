package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// materials lists what goes into the piece: resin and tints by what was
// weighed or else is planned, the seal coat, wood, inserts.
func (c *coster) materials() {
	mixed := map[string]unit.Mass{}
	tints := map[string]unit.Mass{}
	var tinted []string
	for i := range c.pl.Layers {
		l := &c.pl.Layers[i]
		used := c.p.mixedFor(l)
		mixed[l.Sheet] += used
		for _, a := range l.Mix.Additives {
			if _, met := tints[a.Name]; !met {
				tinted = append(tinted, a.Name)
			}
			tints[a.Name] += used.Times(a.Share)
		}
		if !l.Mix.Ready && used == 0 {
			c.missing("layers/"+l.ID, "the resin of "+l.Name+" is not counted: "+l.Mix.Why)
		}
	}
	seal, sealed := c.sealCoat()
	residue := taken(c.facts.Residue, typicalResidue)
	for i := range c.p.Sheets {
		s := &c.p.Sheets[i]
		out := 1 - min(float64(residue.Value), mostFails)
		if m := mixed[s.ID]; m > 0 {
			c.byMass(CostResin, PaidResin, s.ID, s.Name, m, out, residue.Typical)
		}
		if s.ID == seal && sealed.Value > 0 {
			c.byMass(CostResin, PaidResin, s.ID, "seal coat of "+s.Name, sealed.Value, out, sealed.Typical || residue.Typical)
		}
	}
	for _, name := range tinted {
		c.byMass(CostTint, PaidTint, name, name, tints[name], 1, false)
	}
	c.wood()
	for i := range c.p.Inserts {
		s := &c.p.Inserts[i]
		n := max(1, s.Count) * c.cost.Casts
		if m := c.price(PaidInsert, s.ID); m != nil {
			c.line(CostLine{Kind: CostInsert, What: orWord(s.Name, "insert"), Quantity: countOf(n), Each: m.Price, Count: float64(n), Field: c.at(m)})
		} else {
			c.unpriced("inserts/"+s.ID, "no price for "+orWord(s.Name, "an insert")+": "+countOf(n)+" not counted")
		}
	}
}

// mixedFor is what of A and B went into a layer's cups, lost ones too; what was
// not weighed, and what is still to come of it, as planned.
func (p *Project) mixedFor(l *LayerPlan) unit.Mass {
	a, b := p.weighedOut(l.ID)
	inA, inB := p.inCups(l.ID)
	part := func(out, in, planned unit.Mass) unit.Mass {
		switch {
		case !l.Mix.Ready, l.Status == Poured && out > 0:
			return out
		}
		return out - in + max(in, planned)
	}
	return part(a, inA, l.Mix.A) + part(b, inB, l.Mix.B)
}

// sealCoat is what the seal coat takes and of which sheet: as the maker says, as
// the journal says that it was weighed, or as the films of all pieces that have
// one or want one come to.
func (c *coster) sealCoat() (sheet string, mass Known[unit.Mass]) {
	for i := range c.p.Pieces {
		w := &c.p.Pieces[i]
		plan := c.pl.Piece(w.ID)
		if plan == nil {
			continue
		}
		s := c.pl.sealOf(w, plan)
		if s.Sheet != "" && (w.Sealed || s.Needed) {
			if sheet == "" {
				sheet = s.Sheet
			}
			mass = both(mass, s.Total)
		}
	}
	g := c.money.Seal
	if of, weighed := c.p.sealWeighed(); of != "" {
		sheet, g.Value = of, g.Or(weighed)
	}
	if g.Given() {
		if sheet == "" && len(c.pl.Layers) > 0 {
			sheet = c.pl.Layers[0].Sheet
		}
		mass = exact(g.Value, "yours")
	}
	return sheet, mass
}

// byMass adds a line of something that one cast takes so much of, of which a mass was paid for, of
// which the share out can be used.
func (c *coster) byMass(kind CostKind, paid PaidKind, of, what string, mass unit.Mass, out float64, typical bool) {
	m := c.price(paid, of)
	mass = mass.Times(float64(c.cost.Casts))
	text := c.p.Style.Mass(mass)
	if kind == CostTint {
		text = c.p.Style.MassTo(mass, TintGrain(c.p.Style))
	}
	switch {
	case m == nil:
		c.unpriced("costing/prices", fmt.Sprintf("no price for %s: %s not counted", orWord(what, string(kind)), text))
	case !(m.For.Value > 0):
		c.missing(c.at(m), fmt.Sprintf("say how much of %s the price is for: %s not counted", orWord(what, string(kind)), text))
	default:
		c.line(CostLine{Kind: kind, What: orWord(what, string(kind)), Quantity: text, Each: m.Price, Count: mass.Per(m.For.Value.Times(out)), Typical: typical, Field: c.at(m)})
	}
}

// wood adds the wood: a price for all of it, or one for each piece.
func (c *coster) wood() {
	if m := c.price(PaidWood, ""); m != nil {
		c.line(CostLine{Kind: CostWood, What: "wood", Quantity: countOf(c.cost.Casts), Each: m.Price, Count: float64(c.cost.Casts), Field: c.at(m)})
		return
	}
	for i := range c.p.Pieces {
		w := &c.p.Pieces[i]
		if m := c.price(PaidWood, w.ID); m != nil {
			c.line(CostLine{Kind: CostWood, What: orWord(w.Name, "wood"), Quantity: countOf(c.cost.Casts), Each: m.Price, Count: float64(c.cost.Casts), Field: c.at(m)})
		} else {
			c.unpriced("pieces/"+w.ID, "no price for "+orWord(w.Name, "a piece of wood")+": not counted")
		}
	}
}

// price finds what was paid for something: the project's own word first.
func (c *coster) price(kind PaidKind, of string) *Paid {
	for _, list := range [2][]Paid{c.money.Prices, c.facts.Prices} {
		for i := range list {
			if m := &list[i]; m.Kind == kind && m.Of == of && m.Price.Given() {
				return m
			}
		}
	}
	return nil
}

// at is the path of a price in the project; empty for one of the shelf.
func (c *coster) at(m *Paid) string {
	if m.ID == "" {
		return ""
	}
	return "costing/prices/" + m.ID + "/price"
}

// consumables takes over what the finishing uses up in one cast.
func (c *coster) consumables() {
	for _, l := range c.facts.Used {
		l.Kind, l.Count = CostUsed, l.Count*float64(c.cost.Casts)
		if c.cost.Casts > 1 {
			l.Quantity = fmt.Sprintf("%d × %s", c.cost.Casts, l.Quantity)
		}
		c.line(l)
	}
}

// wear adds a part of the mold, and the heat.
func (c *coster) wear() {
	m := c.money
	if m.Mold.Minor > 0 {
		n := max(1, m.Lasts)
		c.line(CostLine{Kind: CostMold, What: "mold", Quantity: fmt.Sprintf("%d of %d casts", c.cost.Casts, n), Each: m.Mold, Count: float64(c.cost.Casts) / float64(n), Field: "costing/mold"})
		if m.Lasts <= 0 {
			c.missing("costing/lasts", "say how many casts the mold lasts: until then one cast pays for all of it")
		}
	}
	if m.Heater.Value > 0 && m.Warm.Value > 0 {
		kWh := float64(m.Heater.Value) / 1000 * m.Warm.Value.Hours() * float64(m.On.Or(1)) * c.often(m.Heats)
		if !m.Energy.Given() {
			c.missing("costing/energy", fmt.Sprintf("no price for heat: %.3g kWh not counted", kWh))
			return
		}
		c.line(CostLine{Kind: CostHeat, What: "heat for the room", Quantity: fmt.Sprintf("%.3g kWh", kWh), Each: m.Energy, Count: kWh / 100, Field: "costing/energy"})
	}
}

// extras adds the maker's own lines.
func (c *coster) extras() {
	for i := range c.money.Lines {
		x := &c.money.Lines[i]
		at := "costing/lines/" + x.ID
		if !x.Each.Given() {
			c.missing(at+"/each", "no price for "+orWord(x.What, "a line")+": not counted")
			continue
		}
		n := float64(x.Count.Or(1)) * c.often(x.Per)
		c.line(CostLine{Kind: CostOther, What: orWord(x.What, "other"), Quantity: c.p.Style.Number(unit.Number(n)), Each: x.Each, Count: n, Field: at + "/each"})
	}
}

// work adds the tasks at the maker's rate.
func (c *coster) work() {
	for i := range c.money.Tasks {
		t := &c.money.Tasks[i]
		all := t.Takes().Times(c.often(t.Per))
		if !(all > 0) {
			continue
		}
		c.cost.Hours += all
		c.line(CostLine{Kind: CostWork, What: orWord(t.Name, "work"), Quantity: WorkTime(all), Each: c.money.Rate, Count: all.Hours(), Field: "costing/tasks/" + t.ID})
	}
	if c.cost.Hours > 0 && !c.money.Rate.Given() {
		c.missing("costing/rate", "no price for your hour: "+WorkTime(c.cost.Hours)+" not counted")
	}
}

// WorkTime writes a time of work, however long, in hours and whole minutes.
func WorkTime(s unit.Span) string {
	n := int64(math.Round(s.Per(unit.Minute)))
	switch {
	case n < 60:
		return fmt.Sprintf("%d min", n)
	case n%60 == 0:
		return fmt.Sprintf("%d h", n/60)
	}
	return fmt.Sprintf("%d h %d min", n/60, n%60)
}

func countOf(n int) string { return fmt.Sprintf("%d", n) }
