package model

import (
	"slices"
	"strings"

	"meniscus/model/unit"
)

// Costing is what the maker pays and asks: prices, tasks with their minutes, and
// how the price is made. All amounts are in one currency.
type Costing struct {
	Currency Currency `json:"currency,omitempty"`
	Pieces   int      `json:"pieces,omitempty"` // that one cast gives and are sold one by one; 0 means one a cavity

	Prices []Paid                `json:"prices,omitempty"` // of what goes into the piece
	Own    bool                  `json:"own,omitempty"`    // only these count, and none of the shelf: a line of its own covers the rest
	Seal   unit.Taken[unit.Mass] `json:"seal,omitzero"`    // weighed for the seal coat; not given means as it is reckoned
	Lines  []Extra               `json:"lines,omitempty"`  // what else it takes
	Tasks  []Task                `json:"tasks,omitempty"`
	Rate   unit.Money            `json:"rate,omitzero"` // of an hour's work

	Mold   unit.Money              `json:"mold,omitzero"` // what the mold cost
	Lasts  int                     `json:"lasts,omitempty"`
	Heater unit.Taken[unit.Number] `json:"heater,omitzero"` // watts that warm the room for this cast
	Warm   unit.Taken[unit.Span]   `json:"warm,omitzero"`   // for so long
	On     unit.Taken[unit.Share]  `json:"on,omitzero"`     // of that time the heater runs; not given means all of it
	Energy unit.Money              `json:"energy,omitzero"` // what 100 kWh cost
	Heats  PerKind                 `json:"heats,omitempty"` // how often the room is warmed; not given means for each cast

	Overhead unit.Taken[unit.Share] `json:"overhead,omitzero"` // on top of all that: rent, tools, insurance
	Fails    unit.Taken[unit.Share] `json:"fails,omitzero"`    // of the casts that come to nothing

	By      GainKind               `json:"by,omitempty"`
	Gain    unit.Taken[unit.Share] `json:"gain,omitzero"` // margin or markup, as By says
	Batches []int                  `json:"batches,omitempty"`
	Step    unit.Money             `json:"step,omitzero"`  // prices go up to a whole number of these
	Less    unit.Money             `json:"less,omitzero"`  // less this: steps of 5.00 less 0.10 end in 4.90 and 9.90
	Asked   unit.Money             `json:"asked,omitzero"` // for one piece
}

// Currency is a currency by its three letters (ISO 4217).
type Currency string

// PaidKind is what a price is of.
type PaidKind string

// What can have a price.
const (
	PaidResin  PaidKind = "resin"
	PaidTint   PaidKind = "tint"
	PaidWood   PaidKind = "wood"
	PaidInsert PaidKind = "insert"
)

// Paid is what was paid for something that goes into the piece: a product by
// the ID of its sheet and a tint by its name, for so much of it; a piece of wood
// by its ID, or all wood where Of is empty; an insert by its ID, each.
type Paid struct {
	ID    string                `json:"id"`
	Kind  PaidKind              `json:"kind"`
	Of    string                `json:"of,omitempty"`
	Price unit.Money            `json:"price,omitzero"`
	For   unit.Taken[unit.Mass] `json:"for,omitzero"` // resin: A and B of the kit together; tint
}

// Extra is a line of cost that the maker adds: disposal, cartridges of a mask,
// packing.
type Extra struct {
	ID    string                  `json:"id"`
	What  string                  `json:"what,omitempty"`
	Each  unit.Money              `json:"each,omitzero"`
	Count unit.Taken[unit.Number] `json:"count,omitzero"` // not given means one
	Per   PerKind                 `json:"per,omitempty"`
}

// PerKind is how often something is done or used.
type PerKind string

// How often: once for all casts that are made in one go, for each cast (also
// where nothing is said), or for each piece that is sold.
const (
	PerCast  PerKind = "cast"
	PerBatch PerKind = "batch"
	PerPiece PerKind = "piece"
)

// Task is work with its time: hands at work, so not the hours in which resin
// cures by itself.
type Task struct {
	ID      string                `json:"id"`
	Name    string                `json:"name,omitempty"`
	Per     PerKind               `json:"per,omitempty"`
	Planned unit.Taken[unit.Span] `json:"planned,omitzero"`
	Logged  unit.Taken[unit.Span] `json:"logged,omitzero"` // what it took; counts instead of what was planned
}

// inMinutes names the times that are in minutes where no unit is written: work
// is logged by the minute, and cure by the hour.
var inMinutes = map[string]bool{"costing/tasks/*/planned": true, "costing/tasks/*/logged": true}

// Takes is how long a task takes, as logged or else as planned.
func (t *Task) Takes() unit.Span { return t.Logged.Or(t.Planned.Value) }

// GainKind is how what is earned beyond the cost is said.
type GainKind string

// A margin is a part of the price, a markup comes on top of the cost: a third of
// the price is half of the cost.
const (
	GainMargin GainKind = "margin"
	GainMarkup GainKind = "markup"
)

// defaultBatches are the numbers of casts that prices are shown for.
var defaultBatches = []int{1, 3, 10}

// clone copies what a Costing holds in lists.
func (c Costing) clone() Costing {
	c.Prices, c.Lines, c.Tasks, c.Batches = slices.Clone(c.Prices), slices.Clone(c.Lines), slices.Clone(c.Tasks), slices.Clone(c.Batches)
	return c
}

// amount is an amount of a costing with its path.
type amount struct {
	path  string
	money *unit.Money
}

// amounts lists all amounts, given or not.
func (c *Costing) amounts() []amount {
	list := []amount{
		{"rate", &c.Rate}, {"mold", &c.Mold}, {"energy", &c.Energy}, {"step", &c.Step}, {"less", &c.Less}, {"asked", &c.Asked},
	}
	for i := range c.Prices {
		list = append(list, amount{"prices/" + c.Prices[i].ID + "/price", &c.Prices[i].Price})
	}
	for i := range c.Lines {
		list = append(list, amount{"lines/" + c.Lines[i].ID + "/each", &c.Lines[i].Each})
	}
	for i := range list {
		list[i].path = "costing/" + list[i].path
	}
	return list
}

// ParseCurrency reads the three letters of a currency. The error is a
// *Problem.
func ParseCurrency(text string) (Currency, error) {
	c := Currency(strings.ToUpper(strings.TrimSpace(text)))
	if !c.whole() {
		return "", &Problem{"costing/currency", wantCurrency}
	}
	return c, nil
}

const wantCurrency = "write the currency's three letters, such as EUR or USD"

func (c Currency) whole() bool {
	return len(c) == 3 && strings.Trim(string(c), "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

// SetCurrency changes the currency of all amounts. Their figures stay as they
// were written, as far as the new one has decimals; nothing is changed by a rate.
func (c *Costing) SetCurrency(code Currency) {
	for _, a := range c.amounts() {
		if !a.money.Given() {
			continue
		}
		scale := 1.0
		for range unit.MinorDigits(string(code)) {
			scale *= 10
		}
		for range unit.MinorDigits(a.money.Currency) {
			scale /= 10
		}
		m, err := unit.MoneyOf(float64(a.money.Minor)*scale, string(code))
		if err != nil {
			m = unit.Money{}
		}
		*a.money = m
	}
	c.Currency = code
}

// moneyFault tells what is wrong with an amount; nothing where it can stand.
func moneyFault(m unit.Money) string {
	switch {
	case m.Minor < 0:
		return "an amount cannot be below zero here"
	case m.Minor > mostPrice:
		return "this is larger than anything in a shop"
	case !m.Given() && m.Minor != 0, m.Given() && !Currency(m.Currency).whole():
		return wantCurrency
	}
	return ""
}

// code is the currency that amounts are in: the chosen one, else that of the
// first amount; empty where there is none.
func (c *Costing) code() string {
	if c.Currency != "" {
		return string(c.Currency)
	}
	for _, a := range c.amounts() {
		if a.money.Given() {
			return a.money.Currency
		}
	}
	return ""
}

// faults lists what is wrong with the currency and the amounts: below zero, too
// large, or in another currency than the first.
func (c *Costing) faults() (list []Problem) {
	if c.Currency != "" && !c.Currency.whole() {
		return []Problem{{"costing/currency", wantCurrency}}
	}
	code := c.code()
	for _, a := range c.amounts() {
		msg := moneyFault(*a.money)
		if msg == "" && a.money.Given() && a.money.Currency != code {
			msg = (&unit.CurrencyError{One: code, Other: a.money.Currency}).Error()
		}
		if msg != "" {
			list = append(list, Problem{a.path, msg})
		}
	}
	return list
}

// money is the currency of a project's amounts: that of its costing, else the
// usual one of its units.
func (p *Project) money() string {
	if code := p.Money.code(); code != "" {
		return code
	}
	if p.Style.LengthUnit() == unit.InInches {
		return "USD"
	}
	return "EUR"
}

// PriceCurrency is the currency of a project's amounts, by its three letters.
func (p *Project) PriceCurrency() string { return p.money() }

// enterMoney takes an amount in the project's currency; empty text clears it.
func enterMoney(p *Project, t *unit.Money, text string) error {
	if text == "" {
		*t = unit.Money{}
		return nil
	}
	got, err := unit.ParseMoney(text, p.money())
	if err != nil {
		return err
	}
	if msg := moneyFault(got); msg != "" {
		return &fieldError{msg}
	}
	*t = got
	return nil
}

// enterCurrency takes the currency of all amounts of a project; empty text is
// the usual one where no amount is given.
func enterCurrency(p *Project, text string) error {
	if text == "" && p.Money.Currency == "" {
		return nil
	}
	if text == "" {
		c := p.Money
		c.Currency = ""
		if c.code() == "" {
			p.Money.Currency = ""
			return nil
		}
	}
	code, err := ParseCurrency(text)
	if err != nil {
		return &fieldError{wantCurrency}
	}
	p.Money.SetCurrency(code)
	return nil
}

// fieldError is a message about the field that is being typed into.
type fieldError struct{ message string }

func (e *fieldError) Error() string { return e.message }
