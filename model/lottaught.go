package model

import (
	"slices"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// LotTaught is what runs of earlier projects told of one lot of a product, taken
// along into this one: how it differs from its data sheet. The runs of this
// project add to it. As everything that is learned, it tightens what heat and
// waiting go by and never loosens them past the sheet.
type LotTaught struct {
	ID    string                  `json:"id"`
	Sheet string                  `json:"sheet"`         // by ID
	Lot   string                  `json:"lot,omitempty"` // the maker's number
	Pace  unit.Taken[unit.Number] `json:"pace"`          // of its cure, over the sheet's
	Heat  unit.Taken[unit.Number] `json:"heat"`          // that it sets free, over the sheet's
	Runs  int                     `json:"runs"`          // that told so
}

// lotKey names a lot of a sheet.
func lotKey(sheet, lot string) string { return sheet + "\x00" + lot }

// lotsTold gives what earlier runs told, by lot.
func (p *Project) lotsTold() map[string]cure.Learned {
	told := map[string]cure.Learned{}
	for i := range p.Lots {
		x := &p.Lots[i]
		if x.Runs > 0 && lotRange.holds(float64(x.Pace.Value)) && lotRange.holds(float64(x.Heat.Value)) {
			told[lotKey(x.Sheet, x.Lot)] = cure.Learned{Scale: float64(x.Pace.Value), Heat: float64(x.Heat.Value), Runs: x.Runs}.Said()
		}
	}
	return told
}

// holds tells whether a number lies within the span.
func (s span) holds(v float64) bool { return v >= s.low && v <= s.high }

// bringLots takes along what the past project's simulation had learned of the
// lots that are poured again, and drops what is known of lots that are not.
func (p *Project) bringLots(c *Curing) {
	poured := func(sheet, lot string) bool {
		return slices.ContainsFunc(p.Layers, func(l Layer) bool { return l.Sheet == sheet && l.Lot == lot })
	}
	p.Lots = slices.DeleteFunc(slices.Clone(p.Lots), func(x LotTaught) bool { return !poured(x.Sheet, x.Lot) })
	if len(p.Lots) == 0 {
		p.Lots = nil
	}
	if c == nil {
		return
	}
	for i := range p.Layers {
		l := &p.Layers[i]
		t := c.layer(l.ID)
		if t == nil || t.Taught.Runs == 0 || t.TaughtLot != lotKey(l.Sheet, l.Lot) {
			continue
		}
		k := slices.IndexFunc(p.Lots, func(x LotTaught) bool { return x.Sheet == l.Sheet && x.Lot == l.Lot })
		if k == none {
			p.Lots = append(p.Lots, LotTaught{ID: p.NewID("t"), Sheet: l.Sheet, Lot: l.Lot})
			k = len(p.Lots) - 1
		}
		x := &p.Lots[k]
		x.Pace, x.Heat, x.Runs = factorOf(t.Taught.Scale), factorOf(t.Taught.Heat), t.Taught.Runs
	}
}

// factorOf is a factor that nobody wrote.
func factorOf(v float64) unit.Taken[unit.Number] {
	if v == 0 {
		v = 1
	}
	return unit.Taken[unit.Number]{Value: unit.Number(v)}
}
