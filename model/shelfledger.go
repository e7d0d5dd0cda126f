package model

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"meniscus/model/unit"
)

// tally is what a bottle holds as its ledger goes on.
type tally struct {
	bottle *Bottle
	begins time.Time // from when on it is known to be there
	last   time.Time // of its last weighing
	net    unit.Mass
	known  bool
	since  unit.Mass // taken out after the last weighing
}

// moment is one line of a ledger: a weighing, or a use.
type moment struct {
	at   time.Time
	to   *tally    // of a weighing: its bottle
	net  unit.Mass // and what it held
	use  int       // of a use: its place among the uses
	sort int       // a weighing comes after a use of the same instant
}

// ledger goes through the bottles of one part of a product and what was taken
// out of them, in order of time. A use comes out of the bottles of its lot that
// are there, oldest opened first. What is more than they are known to hold is
// missing, unless one of them was weighed since, which tells all that matters.
// A use from before the first of them is no matter of theirs. It gives the
// tallies in the order of the bottles, and what is missing of each use.
func ledger(product *Product, part PartName, uses []StockUse) (tallies []*tally, missing []unit.Mass) {
	var moments []moment
	for i := range product.Bottles {
		b := &product.Bottles[i]
		if b.Part != part {
			continue
		}
		t := &tally{bottle: b}
		tallies = append(tallies, t)
		if b.Holds.Given() {
			t.known, t.net = true, b.Holds.Value
			if day, ok := cmp.Or(b.Bought, b.Opened).Start(); ok {
				t.begins = day.Add(-14 * time.Hour) // when the day begins, wherever that is
			}
		}
		for _, w := range b.Weighings {
			if !b.Tare.Given() || w.Gross.Value < b.Tare.Value {
				continue
			}
			if t.last.IsZero() && !t.known {
				t.begins = w.At
			}
			if w.At.After(t.last) {
				t.last = w.At
			}
			moments = append(moments, moment{at: w.At, to: t, net: w.Gross.Value - b.Tare.Value, sort: 1})
		}
	}
	missing = make([]unit.Mass, len(uses))
	for i := range uses {
		moments = append(moments, moment{at: uses[i].At, use: i})
	}
	slices.SortStableFunc(moments, func(a, b moment) int { return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.sort, b.sort)) })
	order := slices.Clone(tallies)
	slices.SortStableFunc(order, byOpened)
	for _, m := range moments {
		if m.to != nil {
			m.to.net, m.to.known, m.to.since = m.net, true, 0
			continue
		}
		u := &uses[m.use]
		missing[m.use] = draw(bearing(order, product, u.Lot), u)
	}
	return tallies, missing
}

// draw takes a use out of bottles, and gives what they are short of it.
func draw(from []*tally, u *StockUse) unit.Mass {
	rest := u.Mass
	later, before := false, len(from) > 0
	for _, t := range from {
		later = later || t.last.After(u.At) || t.last.Equal(u.At)
		if !t.known || u.At.Before(t.begins) {
			continue
		}
		before = false
		out := min(rest, t.net)
		t.net, t.since, rest = t.net-out, t.since+out, rest-out
	}
	if later || before {
		return 0
	}
	return rest
}

// bearing gives the bottles that bear a lot. Where the lot is borne by bottles of
// the other part alone, the number is that part's, and any bottle of this one
// will do; so it will where no lot was said.
func bearing(list []*tally, product *Product, lot string) []*tally {
	if lot == "" {
		return list
	}
	var some []*tally
	for _, t := range list {
		if sameLot(t.bottle.Lot, lot) {
			some = append(some, t)
		}
	}
	if len(some) == 0 && slices.ContainsFunc(product.Bottles, func(b Bottle) bool { return sameLot(b.Lot, lot) }) {
		return list
	}
	return some
}

// sameLot tells whether two numbers of lots are the same, as they are typed.
func sameLot(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }

// byOpened puts the bottle that was opened first in front, and closed ones, by
// the day they were bought, behind all opened ones.
func byOpened(a, b *tally) int {
	switch {
	case a.bottle.Opened.Given() != b.bottle.Opened.Given():
		if a.bottle.Opened.Given() {
			return -1
		}
		return 1
	case a.bottle.Opened != b.bottle.Opened:
		return cmp.Compare(a.bottle.Opened, b.bottle.Opened)
	}
	return cmp.Compare(a.bottle.Bought, b.bottle.Bought)
}
