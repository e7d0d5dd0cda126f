package model

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"meniscus/model/unit"
)

// Quote is a price quote as it is printed: one page for the customer, and only
// where the maker wants it a second one for the maker, with what it all costs.
type Quote struct {
	Piece   string       `json:"piece"`
	Made    string       `json:"made"` // the day, as the shop's calendar shows it
	Demo    bool         `json:"demo,omitempty"`
	Letter  bool         `json:"letter,omitempty"` // on Letter; else on A4
	Facts   []QuoteFact  `json:"facts"`            // what the piece is, and what is included
	Prices  []QuotePrice `json:"prices"`
	Partial string       `json:"partial,omitempty"` // that the price may still change, since not everything has one
	Valid   string       `json:"valid"`             // until when
	Care    []string     `json:"care"`              // as on the care card
	Costs   *QuoteCosts  `json:"costs,omitempty"`   // how the price comes about; the maker's own
}

// QuoteFact is one fact about the piece; without words there is room to write.
type QuoteFact struct {
	Name  string `json:"name"`
	Words string `json:"words"`
}

// QuoteCosts are the maker's costs of the smallest batch.
type QuoteCosts struct {
	For   string      `json:"for"` // what the lines are of
	Lines []QuoteLine `json:"lines"`
	Sums  []QuoteLine `json:"sums"`            // materials, work, what is added, and all of it
	Price []QuoteLine `json:"price"`           // of one piece: its cost and its price
	Lacks []string    `json:"lacks,omitempty"` // what has no price and is not counted
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

// quoteDays is how long a quote holds (common practice, no source).
const quoteDays = 30

// NewQuote makes the price quote of a project, for its customer; with the maker's
// costs only where they are wanted. Errors are a *Problem: what keeps a price from
// being made, or that there is none.
func NewQuote(p *Project, pl *Plan, facts CostFacts, costs bool, now time.Time) (Quote, error) {
	offers, err := Offers(p, pl, facts)
	if err != nil {
		return Quote{}, err
	}
	day := now.In(p.Shop.Place())
	q := Quote{
		Piece: orWord(p.Name, "Piece"), Made: day.Format(dayForm), Demo: p.Demo, Letter: OnLetter(p.Style), Facts: p.quoteFacts(pl),
		Valid: fmt.Sprintf("This price holds for %d days, until %s.", quoteDays, day.AddDate(0, 0, quoteDays).Format(dayForm)),
		Care:  pl.Finish.Use.Card.Lines,
	}
	for i := range offers {
		o := &offers[i]
		price, _, by := o.Leading(&p.Money)
		if price.Minor <= 0 {
			return Quote{}, &Problem{"costing/asked", "there is no price yet: say in Shelf, Price what you ask for one, or what its materials and your work cost"}
		}
		all, err := price.Times(float64(o.Cost.Pieces))
		if err != nil {
			return Quote{}, &Problem{"costing", words(err)}
		}
		q.Prices = append(q.Prices, QuotePrice{manyPieces(o.Cost.Pieces), price.String(), all.String()})
		if by != PriceAsked && len(o.Cost.Missing) > 0 {
			q.Partial = "Not final: the price of some materials is still open."
		}
	}
	if costs && len(offers) > 0 {
		q.Costs = p.quoteCosts(&offers[0])
	}
	return q, nil
}

// quoteFacts says what the customer gets.
func (p *Project) quoteFacts(pl *Plan) []QuoteFact {
	size := QuoteFact{Name: "Finished size"}
	if t := &pl.Finish.Trim; pl.Finish.Ready && t.Length.Value > 0 {
		size.Words = p.finishedSize(t)
	}
	list := []QuoteFact{{"Made of", upperFirst(p.madeOf())}, size}
	var set []string
	for i := range pl.Inserts {
		if in := &pl.Inserts[i]; in.Count > 0 {
			set = append(set, fmt.Sprintf("%d × %s", in.Count, in.Name))
		}
	}
	if len(set) > 0 {
		list = append(list, QuoteFact{"Set into the resin", strings.Join(set, ", ")})
	}
	finish, _, _ := strings.Cut(string(p.Finish.Sand.Want), ",")
	if k := p.Finish.Coat.Kind; k != "" && k != CoatNone {
		finish = joinedWith(", ", finish, coatName(&p.Finish.Coat))
	}
	if finish != "" {
		list = append(list, QuoteFact{"Surface", upperFirst(finish)})
	}
	var with []string
	for _, m := range p.Finish.Mounts {
		if name := orWord(strings.TrimSpace(m.Name), string(m.Kind)); !slices.Contains(with, name) {
			with = append(with, name)
		}
	}
	with = append(with, "a card on its care")
	return append(list, QuoteFact{"Included", upperFirst(strings.Join(with, ", "))}, QuoteFact{Name: "Delivery, tax"})
}

// quoteCosts says how the price of an offer comes about.
func (p *Project) quoteCosts(o *Offer) *QuoteCosts {
	c, q := &o.Cost, &QuoteCosts{}
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
	sum("Work, "+WorkTime(c.Hours), c.Work)
	sum("Overhead", c.Overhead)
	sum("Casts that fail, "+p.Style.Share(c.Fails), c.Failures)
	q.Sums = append(q.Sums, QuoteLine{What: "Cost of all that", Amount: c.Total.String()})
	price, hour, by := o.Leading(&p.Money)
	q.Price = []QuoteLine{
		{What: "Cost of one", Amount: c.Each.String()},
		{What: "Price of one, " + p.Money.PriceWords(p.Style, by), Amount: price.String()},
	}
	if hour.Given() {
		q.Price = append(q.Price, QuoteLine{What: "An hour of your work earns at it", Amount: hour.String()})
	}
	for _, m := range c.Missing {
		q.Lacks = append(q.Lacks, upperFirst(m.Message))
	}
	return q
}

// OnLetter tells whether papers in these units are printed on Letter; else they
// are on A4.
func OnLetter(s unit.Style) bool { return s.LengthUnit() == unit.InInches }

// manyPieces writes a number of pieces.
func manyPieces(n int) string {
	if n == 1 {
		return "1 piece"
	}
	return fmt.Sprintf("%d pieces", n)
}
