package model

import (
	"fmt"

	"meniscus/model/unit"
)

// longTask is how long hands are at one task of one cast at most; what takes
// longer is most likely the cure, which works by itself (common practice, no
// source).
const longTask = 12 * unit.Hour

// findPrice looks at what is asked for the piece. What the shelf pays is not
// known here, so that costs are what the project itself says at least, and an
// hour earns what is told at most.
func (m *maker) findPrice() {
	c := &m.p.Money
	for i := range c.Tasks {
		if t := &c.Tasks[i]; t.Takes() > longTask {
			m.say(Check, OfPrice, "price.idle", "costing/tasks/"+t.ID+"/logged", orWord(t.Name, "A task")+" takes "+WorkTime(t.Takes()),
				"while resin cures by itself nobody works", "count only the minutes in which your hands are at it")
		}
	}
	if !c.Asked.Given() && !c.Gain.Given() {
		return
	}
	o, err := offer(m.p, &m.plan, CostFacts{}, c.sizes()[0])
	if err != nil {
		if p, ok := err.(*Problem); ok {
			m.say(Check, OfPrice, "price.wrong", p.Field, "No price can be made", p.Message, "mend it there")
		}
		return
	}
	if c.Gain.Given() && c.Gain.Value == 0 {
		m.say(Note, OfPrice, "price.no-gain", "costing/gain", "The price is the cost and no more", "nothing is put by for what goes wrong or wears out", "give a margin, or count overhead and failures among the costs")
	}
	switch {
	case !c.Asked.Given():
	case o.Cost.Hours <= 0:
		m.say(Note, OfPrice, "price.no-time", "costing/tasks", "What an hour earns is not known", "no task has its minutes", "write down the minutes of each task")
	default:
		if f, ok := o.Objection(m.p, "at most "); ok {
			m.say(f.Level, f.Subject, f.Kind, f.Field, f.What, f.Why, f.Do)
		}
	}
}

// Objection is what is to be said against the price that is asked: at it an hour
// earns less than the maker's rate. False where nothing is. Where not all costs
// are known the word "at most " goes before what it earns.
func (o *Offer) Objection(p *Project, atMost string) (Finding, bool) {
	m := &p.Money
	if !m.Asked.Given() || !m.Rate.Given() || o.Cost.Hours <= 0 || o.AtAsked.Minor >= m.Rate.Minor {
		return Finding{}, false
	}
	return Finding{
		Kind: "price.hour", Level: Check, Subject: OfPrice, Field: "costing/asked",
		What: fmt.Sprintf("At %s an hour earns %s%s, less than your %s", m.Asked, atMost, o.AtAsked, m.Rate),
		Why:  o.hourWords(p), Do: fmt.Sprintf("ask %s or more, save minutes, or make more at one go", o.Fair),
	}, true
}

// hourWords tells how the earnings of an hour come about.
func (o *Offer) hourWords(p *Project) string {
	c := &o.Cost
	spent, err := c.Materials.Plus(c.Overhead)
	if err != nil {
		return ""
	}
	income := p.Money.Asked.String()
	if c.Pieces > 1 {
		income = fmt.Sprintf("%d × %s", c.Pieces, income)
	}
	words := fmt.Sprintf("%s less %s of cost without your work, over %s", income, spent, WorkTime(c.Hours))
	if c.Fails > 0 {
		words += "; " + FailWords(c.Fails, p.Style)
	}
	return words
}
