package model

import (
	"math"

	"meniscus/model/unit"
)

// What a margin and a markup may be. A margin is a part of the price, so that of
// 100 % is reached by no price.
const (
	mostMargin = 0.99
	mostMarkup = 100
)

// byGain gives the price of something that costs so many minor units, not
// rounded. Errors are a *Problem.
func byGain(cost float64, by GainKind, gain unit.Share) (float64, error) {
	g := float64(gain)
	switch {
	case !(cost >= 0):
		return 0, &Problem{"costing", "the cost is below zero: look at its lines"}
	case !(g >= 0):
		return 0, &Problem{"costing/gain", "this should be 0 % or more: below that every piece is sold at a loss"}
	case by == GainMarkup && g > mostMarkup:
		return 0, &Problem{"costing/gain", "this should be at most 10,000 % of the cost"}
	case by == GainMarkup:
		return cost * (1 + g), nil
	case g >= 1:
		return 0, &Problem{"costing/gain", "no price reaches a margin of 100 %, since the margin is a part of the price: say less, or give a markup on the cost"}
	case g > mostMargin:
		return 0, &Problem{"costing/gain", "this should be at most 99 % of the price: say less, or give a markup on the cost"}
	}
	return cost / (1 - g), nil
}

// priceAt gives the price of something that costs so many minor units of a
// currency, at a margin of the price, p = c/(1 - m), or a markup on the cost,
// p = c·(1 + u), rounded to the minor unit, halves up. Errors are a *Problem.
func priceAt(cost float64, currency string, by GainKind, gain unit.Share) (unit.Money, error) {
	p, err := byGain(cost, by, gain)
	if err != nil {
		return unit.Money{}, err
	}
	m, err := unit.MoneyOf(p, currency)
	if err != nil {
		return unit.Money{}, &Problem{"costing/gain", words(err)}
	}
	return m, nil
}

// marginOf is the part of a price that is not cost, both in minor units.
func marginOf(cost float64, price unit.Money) unit.Share {
	return unit.Share(1 - cost/float64(price.Minor))
}

// markupOf is what a price has on top of the cost, as a share of the cost.
func markupOf(cost float64, price unit.Money) unit.Share {
	return unit.Share(float64(price.Minor)/cost - 1)
}

// ending takes a price up to the next that ends as the maker likes it: a whole
// number of steps, less something. Without a step it stays as it is.
func (c *Costing) ending(price unit.Money) unit.Money {
	step, less := c.Step.Minor, c.Less.Minor
	if step <= 0 || less < 0 || less >= step || price.Minor <= 0 || price.Minor > mostPrice {
		return price
	}
	price.Minor = (price.Minor+less+step-1)/step*step - less
	return price
}

// Hourly is what an hour of the maker's work earns when every piece that does
// not fail is sold at a price: (price·pieces·(1 - failures) - materials -
// overhead)/hours. False where no time is given. Below zero the maker pays for
// working.
func (c *Cost) Hourly(price unit.Money) (unit.Money, bool) {
	if !(c.Hours > 0) || price.Currency != c.Currency {
		return unit.Money{}, false
	}
	income := float64(price.Minor) * float64(c.Pieces) * (1 - float64(c.Fails))
	m, err := unit.MoneyOf((income-float64(c.Materials.Minor)-float64(c.Overhead.Minor))/c.Hours.Hours(), c.Currency)
	return m, err == nil
}

// Offer is what the pieces of a batch cost and are offered at.
type Offer struct {
	Cost      Cost       `json:"cost"`
	Price     unit.Money `json:"price"`     // of one piece
	Margin    unit.Share `json:"margin"`    // of the price; 0 for a price of nothing
	Markup    unit.Share `json:"markup"`    // on the cost; 0 where it costs nothing
	Hourly    unit.Money `json:"hourly"`    // not given where no time is
	AtAsked   unit.Money `json:"atAsked"`   // the same at the price that is asked
	Gained    unit.Money `json:"gained"`    // at that price beyond the cost of one piece; below zero is a loss
	AskMargin unit.Share `json:"askMargin"` // and as a share of that price
	Fair      unit.Money `json:"fair"`      // the least price at which an hour earns the maker's rate
}

// Leading is the price that stands first for one piece, what an hour earns at it,
// and which it is: the one that is asked, else the one by the gain that is wanted,
// else the least that pays the maker's rate. The window and the quote go by it.
func (o *Offer) Leading(m *Costing) (price, hour unit.Money, by PriceKind) {
	switch {
	case m.Asked.Given():
		return m.Asked, o.AtAsked, PriceAsked
	case m.Gain.Given():
		return o.Price, o.Hourly, PriceByGain
	}
	return o.Fair, m.Rate, PriceFair
}

// PriceKind is how a price came about.
type PriceKind string

// The prices: as the maker asks, by margin or markup, and the least that pays
// the maker's rate.
const (
	PriceAsked  PriceKind = "asked"
	PriceByGain PriceKind = "gain"
	PriceFair   PriceKind = "fair"
)

// PriceWords says to the maker what price it is.
func (m *Costing) PriceWords(s unit.Style, by PriceKind) string {
	switch by {
	case PriceAsked:
		return "that you ask"
	case PriceByGain:
		return "with " + m.GainWords(s)
	}
	return "the least that pays your rate"
}

// GainWords says what is earned beyond the cost, and of what it is a part.
func (m *Costing) GainWords(s unit.Style) string {
	if m.By == GainMarkup {
		return "a markup of " + s.Share(m.Gain.Value) + " on the cost"
	}
	return "a margin of " + s.Share(m.Gain.Value) + " of the price"
}

// Offers gives the price for each size of batch: what is set up once is shared
// by more. Errors are a *Problem.
func Offers(p *Project, pl *Plan, facts CostFacts) ([]Offer, error) {
	var list []Offer
	for _, n := range p.Money.sizes() {
		o, err := offer(p, pl, facts, n)
		if err != nil {
			return nil, err
		}
		list = append(list, o)
	}
	return list, nil
}

func offer(p *Project, pl *Plan, facts CostFacts, casts int) (Offer, error) {
	c, err := CostOf(p, pl, facts, casts)
	if err != nil {
		return Offer{}, err
	}
	m, o := &p.Money, Offer{Cost: c}
	each := float64(c.Total.Minor) / float64(c.Pieces)
	price, err := priceAt(each, c.Currency, m.By, m.Gain.Value)
	if err != nil {
		return Offer{}, err
	}
	o.Price = m.ending(price)
	if o.Price.Minor > 0 && each > 0 {
		o.Margin, o.Markup = marginOf(each, o.Price), markupOf(each, o.Price)
	}
	o.Hourly, _ = c.Hourly(o.Price)
	o.Fair = m.ending(unit.Money{Minor: int64(math.Ceil(each - 1e-9)), Currency: c.Currency})
	if m.Asked.Given() {
		o.AtAsked, _ = c.Hourly(m.Asked)
		o.Gained = unit.Money{Minor: m.Asked.Minor - c.Each.Minor, Currency: c.Currency}
		if m.Asked.Minor > 0 {
			o.AskMargin = marginOf(each, m.Asked)
		}
	}
	return o, nil
}
