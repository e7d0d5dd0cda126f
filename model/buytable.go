package model

import (
	"math"

	"meniscus/model/unit"
)

// NeedRow is a row of the table of a need: A and B as they are written.
type NeedRow struct{ A, B unit.Mass }

// NeedTable is a need as it is written: the pours by whole grams (or tenths of
// an ounce), and every sum that of the rows as they stand there, so that whoever
// adds them up comes to the same.
type NeedTable struct {
	Layers []NeedRow
	Total  NeedRow
	Have   NeedRow // that the bottles at hand give
	Apart  NeedRow // of that: no lot of it suffices for a pour that is seen
	Buy    NeedRow // Total less what of Have can be used
}

// Table gives the need as the style writes it.
func (n *Need) Table(s unit.Style) NeedTable {
	grain := unit.Gram
	switch s.MassUnit() {
	case unit.InOunces, unit.InPounds:
		grain = unit.Ounce / 10
	}
	round := func(m unit.Mass) unit.Mass { return grain.Times(math.Round(m.Per(grain))) }
	var t NeedTable
	for i := range n.Layers {
		row := NeedRow{round(n.Layers[i].A), round(n.Layers[i].B)}
		t.Layers = append(t.Layers, row)
		t.Total.A, t.Total.B = t.Total.A+row.A, t.Total.B+row.B
	}
	a, b := n.Have()
	t.Have = NeedRow{round(a), round(b)}
	// What is bought because no lot suffices stands beside as many grams that stay.
	buy := func(part PartName, exact, mixed, total, have unit.Mass) (buy, apart unit.Mass) {
		if exact <= mixed+kitGrain {
			return max(0, total-have), 0
		}
		for _, u := range n.Uses {
			if u.Part == part && u.Buy {
				buy += round(u.Mass)
			}
		}
		return buy, max(0, buy-total+have)
	}
	t.Buy.A, t.Apart.A = buy(PartA, n.A, n.MixedA, t.Total.A, t.Have.A)
	t.Buy.B, t.Apart.B = buy(PartB, n.B, n.MixedB, t.Total.B, t.Have.B)
	return t
}
