package model

import (
	"fmt"
	"time"

	"meniscus/model/unit"
)

// Quote is a price quote as it is printed, on one page.
type Quote struct {
	Piece  string       `json:"piece"`
	Made   string       `json:"made"` // the day, as the shop's calendar shows it
	Demo   bool         `json:"demo,omitempty"`
	Letter bool         `json:"letter,omitempty"` // on Letter; else on A4
	Facts  []string     `json:"facts"`            // what the piece is
	For    string       `json:"for"`              // what the lines are of
	Lines  []QuoteLine  `json:"lines"`
	Sums   []QuoteLine  `json:"sums"` // materials, work, what is added, and all of it
	Prices []QuotePrice `json:"prices"`
	Lacks  []string     `json:"lacks,omitempty"` // what has no price and is not counted
}

// QuoteLine is one line with its amount.
type QuoteLine struct {
	What     string `json:"what"`
	Quantity string `json:"quantity,omitempty"`
	Amount   string `json:"amount"`
}

// QuotePrice is the price for a number of pieces that are made in one go.
type QuotePrice struct {
	Pieces string `json:"pieces"`
	Each   string `json:"each"`
	All    string `json:"all"`
}

// NewQuote makes the price quote of a project: the lines are those of the
// smallest batch. Errors are a *Problem.
func NewQuote(p *Project, pl *Plan, facts CostFacts, now time.Time) (Quote, error) {
	offers, err := Offers(p, pl, facts)
	if err != nil {
		return Quote{}, err
	}
	q := Quote{
		Piece: orWord(p.Name, "Piece"), Made: now.In(p.Shop.Place()).Format(dayForm), Demo: p.Demo, Letter: p.Style.LengthUnit() == unit.InInches,
		Facts: []string{upperFirst(p.madeOf())},
	}
	if t := &pl.Finish.Trim; pl.Finish.Ready && t.Length.Value > 0 {
		q.Facts = append(q.Facts, "Finished size "+p.finishedSize(t))
	}
	for i := range offers {
		o := &offers[i]
		all, err := o.Price.Times(float64(o.Cost.Pieces))
		if err != nil {
			return Quote{}, &Problem{"costing", words(err)}
		}
		q.Prices = append(q.Prices, QuotePrice{manyPieces(o.Cost.Pieces), o.Price.String(), all.String()})
	}
	if len(offers) == 0 {
		return q, nil
	}
	c := &offers[0].Cost
	q.For = "What " + manyPieces(c.Pieces) + " take"
	if c.Pieces == 1 {
		q.For = "What one piece takes"
	}
	for _, l := range c.Lines {
		if l.Kind != CostOverhead && l.Kind != CostFails {
			q.Lines = append(q.Lines, QuoteLine{upperFirst(l.What), l.Quantity, l.Money.String()})
		}
	}
	sum := func(what string, m unit.Money) {
		if m.Minor != 0 {
			q.Sums = append(q.Sums, QuoteLine{What: what, Amount: m.String()})
		}
	}
	sum("Materials and what is used up", c.Materials)
	sum("Work, "+p.Style.Span(c.Hours), c.Work)
	sum("Overhead", c.Overhead)
	sum("Casts that fail, "+p.Style.Share(c.Fails), c.Failures)
	q.Sums = append(q.Sums, QuoteLine{What: "Cost of all that", Amount: c.Total.String()})
	for _, m := range c.Missing {
		q.Lacks = append(q.Lacks, m.Message)
	}
	return q, nil
}

// manyPieces writes a number of pieces.
func manyPieces(n int) string {
	if n == 1 {
		return "1 piece"
	}
	return fmt.Sprintf("%d pieces", n)
}
