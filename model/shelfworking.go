package model

import "fmt"

// BottleWorking tells how what is left in a bottle came about. False where it is not
// known, or there is no such bottle.
func (pl *ShelfPlan) BottleWorking(s *Shelf, product, bottle string) (Working, bool) {
	of, plan := s.Product(product), pl.Product(product)
	if of == nil || plan == nil {
		return Working{}, false
	}
	b, p := of.Bottle(bottle), plan.Bottle(bottle)
	if b == nil || p == nil || !p.Known {
		return Working{}, false
	}
	at := "shelf/products/" + product + "/bottles/" + bottle
	w := Working{Title: "What is left in the bottle"}
	if p.Labelled {
		w.Formula = "What is printed on it, less what was weighed out of it."
		w.Source = "the label; it was never weighed. Weigh it, and its own weight counts"
		w.Band = "How full it was filled is not known"
		w.Inputs = []WorkingInput{{Label: "Holds when new", Value: s.Style.Mass(b.Holds.Value), Source: "as it is printed on", Field: at + "/holds"}}
	} else {
		w.Formula = "What the scale read, less an empty bottle with its cap, less what was weighed out since."
		w.Source = "your scale"
		w.Band = "To the last digit of the scale, once for the bottle and once for the empty one. What went elsewhere than into a weighed cup shows at the next weighing"
		last := &b.Weighings[0]
		for i := range b.Weighings {
			if x := &b.Weighings[i]; x.At.After(last.At) {
				last = x
			}
		}
		w.Inputs = []WorkingInput{
			{Label: "The scale read, bottle, cap and all", Value: s.Style.Mass(last.Gross.Value), Source: "weighed " + last.At.Format("2 Jan 2006")},
			{Label: "Empty bottle, with its cap", Value: s.Style.Mass(b.Tare.Value), Source: "as entered", Field: at + "/tare"},
		}
	}
	w.Inputs = append(w.Inputs,
		WorkingInput{Label: "Weighed out since", Value: s.Style.Mass(p.Since), Source: "the cups of all pieces that were poured from it, by their journals"},
		WorkingInput{Label: "Left", Value: s.Style.Mass(p.Net), Source: "what follows"})
	return w, true
}

// Working tells how the price that leads, and what an hour earns at it, came about.
func (o *Offer) Working(p *Project) Working {
	m, c := &p.Money, &o.Cost
	price, hour, by := o.Leading(m)
	each := fmt.Sprintf("The cost of one is %s over %s.", c.Total, count(c.Pieces, "piece", "pieces"))
	earns := " An hour earns what the pieces that do not fail bring, less all but your work, over your hours."
	w := Working{
		Title:  "The price of one",
		Source: "your prices, minutes and rate, and the shelf's where you gave none; every line is rounded to the minor unit, so that the sums are those of the lines",
		Band:   "Money has no band: it is as sure as the grams, whose band stands in Mixing, and as the minutes that you gave",
	}
	switch {
	case by == PriceAsked:
		w.Formula = "The price is the one that you ask. " + each + earns
	case by == PriceByGain && m.By == GainMarkup:
		w.Formula = "The price is the cost of one times 1 and the markup, up to the next step of your prices. " + each + earns
	case by == PriceByGain:
		w.Formula = "The price is the cost of one over 1 less the margin, up to the next step of your prices. " + each + earns
	default:
		w.Formula = "The least that pays your rate is the cost of one, your work at your rate counted, up to the next step of your prices. " + each
	}
	add := func(label, value, source, field string) {
		w.Inputs = append(w.Inputs, WorkingInput{Label: label, Value: value, Source: source, Field: field})
	}
	add("Materials, mold and heat", c.Materials.String(), "the lines below “What it costs”", "")
	add("Your work", c.Work.String(), WorkTime(c.Hours)+" of hands at work, not of the cure", "costing/rate")
	add("Overhead", c.Overhead.String(), "rent, tools, insurance", "costing/overhead")
	add("Failures", c.Failures.String(), p.Style.Share(c.Fails)+" of all casts come to nothing", "costing/fails")
	add("All of it", c.Total.String(), "for "+count(c.Casts, "cast", "casts"), "")
	switch by {
	case PriceAsked:
		add("Asked for one", price.String(), "yours", "costing/asked")
	case PriceByGain:
		add("Beyond the cost", m.GainWords(p.Style), "yours", "costing/gain")
	}
	add("For one", price.String(), "what follows", "")
	if hour.Given() {
		add("An hour earns", hour.String(), "what follows", "")
	}
	for _, x := range c.Missing {
		w.Inputs = append(w.Inputs, WorkingInput{Label: "Not counted", Value: upperFirst(x.Message), Source: "it has no price", Field: x.Field})
	}
	for _, l := range c.Lines {
		if l.Typical {
			w.Band += ". Lines with * rest on typical values"
			break
		}
	}
	return w
}
