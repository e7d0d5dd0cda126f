package model

import (
	"fmt"
	"math"
	"slices"

	"meniscus/model/unit"
)

// CostKind is what a line of cost is for.
type CostKind string

// The kinds of cost, in the order in which they are listed.
const (
	CostResin    CostKind = "resin"
	CostTint     CostKind = "tint"
	CostWood     CostKind = "wood"
	CostInsert   CostKind = "insert"
	CostUsed     CostKind = "consumables"
	CostMold     CostKind = "mold"
	CostHeat     CostKind = "heat"
	CostOther    CostKind = "other"
	CostWork     CostKind = "work"
	CostOverhead CostKind = "overhead"
	CostFails    CostKind = "failures"
)

// CostLine is one line of a cost: what it is of, how much of it in words, the
// price of one, how many, and what they come to, rounded to the minor unit.
type CostLine struct {
	Kind     CostKind   `json:"kind"`
	What     string     `json:"what"`
	Quantity string     `json:"quantity"`
	Each     unit.Money `json:"each"`
	Count    float64    `json:"count"`
	Money    unit.Money `json:"money"`
	Typical  bool       `json:"typical,omitempty"` // rests on a typical value
	Field    string     `json:"field,omitempty"`   // path of what would change it
}

// CostFacts is what the cost of a project needs from elsewhere.
type CostFacts struct {
	Prices  []Paid                 // as the shelf knows them, where the project has none of its own; a resin by the ID of the sheet
	Used    []CostLine             // consumables of one cast: Each and Count
	Residue unit.Taken[unit.Share] // that stays in a bottle; not given means typical
}

// Cost is what so many casts of a project cost, made in one go. Every line is
// rounded to the minor unit, halves up, and every sum is a sum of rounded lines,
// so that what is written below a line is what the lines come to.
type Cost struct {
	Currency  string     `json:"currency"`
	Casts     int        `json:"casts"`
	Pieces    int        `json:"pieces"` // that they give
	Lines     []CostLine `json:"lines"`
	Materials unit.Money `json:"materials"` // all but work, overhead and failures
	Work      unit.Money `json:"work"`
	Overhead  unit.Money `json:"overhead"`
	Failures  unit.Money `json:"failures"`
	Total     unit.Money `json:"total"`
	Each      unit.Money `json:"each"` // of one piece, rounded
	Hours     unit.Span  `json:"hours"`
	Fails     unit.Share `json:"fails"`
	Missing   []Problem  `json:"missing,omitempty"` // what has no price and is not counted
}

// mostFails is the most of all casts that may fail: where none succeeds, no
// price covers the cost.
const mostFails = 0.95

// CostOf adds up what a number of casts of a project costs when they are made in
// one go: c = (materials + work + overhead)/(1 - failures), the last as a line of
// its own. Errors are a *Problem: two currencies, an amount below zero, more
// failures than a price can cover.
func CostOf(p *Project, pl *Plan, facts CostFacts, casts int) (Cost, error) {
	c := &coster{p: p, pl: pl, facts: &facts, money: &p.Money}
	if bad := p.Money.faults(); len(bad) > 0 {
		return Cost{}, &bad[0]
	}
	if casts < 1 || casts > mostBatch {
		return Cost{}, &Problem{"costing/batches", "a batch is from 1 to 10,000 casts"}
	}
	k := c.p.pieces()
	if k > mostBatch {
		return Cost{}, &Problem{"costing/pieces", "this should be " + anyCount.words}
	}
	c.cost = Cost{Currency: p.money(), Casts: casts, Pieces: casts * k, Fails: p.Money.Fails.Value}
	if f := float64(c.cost.Fails); !(f >= 0 && f <= mostFails) {
		return Cost{}, &Problem{"costing/fails", "this should be from 0 to 95 %: where nearly every cast fails, no price covers it"}
	}
	c.materials()
	c.consumables()
	c.wear()
	c.extras()
	c.work()
	c.sum()
	return c.cost, c.err
}

// OneIn is the share of failures where one cast in n comes to nothing; none for
// n below 2.
func OneIn(n int) unit.Taken[unit.Share] {
	if n < 2 {
		return unit.Taken[unit.Share]{}
	}
	s := 1 / float64(n)
	return unit.Taken[unit.Share]{Value: unit.Share(s), Written: fmt.Sprintf("%.4g %%", 100*s)}
}

// InOne is OneIn turned round: of how many casts one fails. False where the
// share is not near enough to one in a whole number.
func InOne(s unit.Share) (n int, ok bool) {
	whole := math.Round(1 / float64(s))
	if whole >= 2 && whole <= 1000 && math.Abs(whole*float64(s)-1) < 0.005 {
		return int(whole), true
	}
	return 0, false
}

// FailWords writes a share of failures as makers say it, "one in 12 fails", where
// it is near enough to one.
func FailWords(s unit.Share, style unit.Style) string {
	if n, ok := InOne(s); ok {
		return fmt.Sprintf("one in %d fails", n)
	}
	return style.Share(s) + " of them fail"
}

// coster adds up a cost.
type coster struct {
	p     *Project
	pl    *Plan
	facts *CostFacts
	money *Costing
	cost  Cost
	err   error // the first
}

func (c *coster) fail(field, message string) {
	if c.err == nil {
		c.err = &Problem{field, message}
	}
}

func (c *coster) missing(field, message string) {
	c.cost.Missing = append(c.cost.Missing, Problem{field, message})
}

// unpriced tells of a material without a price, unless the project's own prices
// are said to be all and a line of its own covers the rest.
func (c *coster) unpriced(field, message string) {
	if !c.money.Own || !slices.ContainsFunc(c.money.Lines, func(x Extra) bool { return x.Each.Given() }) {
		c.missing(field, message)
	}
}

// line adds a line of so many at a price each.
func (c *coster) line(l CostLine) {
	if msg := moneyFault(l.Each); msg != "" || !(l.Count >= 0) {
		c.fail(l.Field, orWord(msg, "a cost cannot be below zero"))
		return
	}
	if l.Each.Given() && l.Each.Currency != c.cost.Currency {
		c.fail(l.Field, (&unit.CurrencyError{One: c.cost.Currency, Other: l.Each.Currency}).Error())
		return
	}
	var err error
	if l.Money, err = l.Each.Times(l.Count); err != nil {
		c.fail(l.Field, words(err))
		return
	}
	l.Money.Currency = c.cost.Currency
	c.cost.Lines = append(c.cost.Lines, l)
}

// often is how often something is done or used for all casts.
func (c *coster) often(per PerKind) float64 {
	switch per {
	case PerBatch:
		return 1
	case PerPiece:
		return float64(c.cost.Pieces)
	}
	return float64(c.cost.Casts)
}

// sum adds the lines up, and what overhead and failures come to as lines of
// their own.
func (c *coster) sum() {
	t := &c.cost
	zero := unit.Money{Currency: t.Currency}
	t.Materials, t.Work, t.Overhead, t.Failures = zero, zero, zero, zero
	add := func(to *unit.Money, m unit.Money) {
		sum, err := to.Plus(m)
		if err != nil {
			c.fail("costing", words(err))
		}
		*to = sum
	}
	for _, l := range t.Lines {
		if l.Kind == CostWork {
			add(&t.Work, l.Money)
		} else {
			add(&t.Materials, l.Money)
		}
	}
	t.Total = t.Materials
	add(&t.Total, t.Work)
	share := func(s float64, kind CostKind, what, quantity, field string, to *unit.Money) {
		if s > 0 && c.err == nil {
			c.line(CostLine{Kind: kind, What: what, Quantity: quantity, Each: t.Total, Count: s, Field: field})
			if c.err == nil {
				*to = t.Lines[len(t.Lines)-1].Money
				add(&t.Total, *to)
			}
		}
	}
	on := c.money.Overhead.Value
	share(float64(on), CostOverhead, "overhead", c.p.Style.Share(on)+" of "+t.Total.String(), "costing/overhead", &t.Overhead)
	share(float64(t.Fails)/(1-float64(t.Fails)), CostFails, "casts that fail", FailWords(t.Fails, c.p.Style), "costing/fails", &t.Failures)
	if each, err := t.Total.Times(1 / float64(t.Pieces)); err == nil {
		t.Each = each
	}
}
