package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// lineShares are the columns of the lines of cost.
var lineShares = sumColumns{0.36, 0.24, 0.2, 0.2}

// lines is the table of what the chosen size of batch costs, to the cent.
func (v *shelfPrice) lines() fyne.CanvasObject {
	c := &v.offers[v.at].Cost
	table := container.New(layout.NewCustomPaddedVBoxLayout(5))
	if len(v.offers) > 1 {
		var options []touch.Option
		for i := range v.offers {
			options = append(options, touch.Option{ID: fmt.Sprint(i), Label: counted(v.offers[i].Cost.Casts, "cast", "casts")})
		}
		table.Add(touch.NewChoice(options, fmt.Sprint(v.at), func(id string) {
			_, _ = fmt.Sscan(id, &v.at)
			v.see()
		}))
	}
	if len(c.Lines) == 0 {
		table.Add(touch.NewText("Nothing has a price yet. Give what you know at the right: what resin and wood cost, the minutes of your tasks, your rate.", touch.Body, touch.Faint))
		return touch.NewCard("What it costs", table)
	}
	table.Add(sumHead(lineShares, "", "How much", "Each", "Comes to"))
	typical := false
	for i := range c.Lines {
		l := &c.Lines[i]
		if l.Kind == model.CostOverhead || l.Kind == model.CostFails {
			continue // they stand below the sums
		}
		name, quantity := l.What, l.Quantity
		if l.Typical {
			name, typical = name+" *", true
		}
		each := l.Each.String()
		switch l.Kind {
		case model.CostWork:
			each += " an hour"
			if !l.Each.Given() || l.Each.Minor == 0 {
				each = "no rate"
			}
		case model.CostResin, model.CostTint:
			each = fmt.Sprintf("%s × %.4g", l.Each, l.Count)
		case model.CostHeat:
			each += " for 100 kWh"
		}
		table.Add(sumRow(lineShares, touch.Body, capitalised(name), quantity, each, l.Money.String()))
	}
	table.Add(sumRule())
	sum := func(role touch.Role, name string, m unit.Money) {
		table.Add(sumRow(sumColumns{0.8, 0.2}, role, name, m.String()))
	}
	sum(touch.Body, "Materials, mold and heat", c.Materials)
	sum(touch.Body, "Your work, "+model.WorkTime(c.Hours), c.Work)
	for i := range c.Lines {
		if l := &c.Lines[i]; l.Kind == model.CostOverhead || l.Kind == model.CostFails {
			sum(touch.Body, capitalised(l.What)+": "+l.Quantity, l.Money)
		}
	}
	table.Add(sumRule())
	sum(touch.Strong, "All of it", c.Total)
	if c.Pieces > 1 {
		sum(touch.Strong, fmt.Sprintf("One of %d", c.Pieces), c.Each)
	}
	if typical {
		table.Add(newDotted("* typical: rests on what usually stays in a bottle, or on a usual seal coat").root)
	}
	return touch.NewCard("What it costs", table)
}

// missing lists what is not counted; nil where everything is.
func (v *shelfPrice) missing() fyne.CanvasObject {
	shot := &v.page.shot
	c := &v.offers[v.at].Cost
	body := stack()
	if other := shot.Shelf.OtherMoney(&shot.Project); other != "" {
		body.Add(signed(touch.Check, fmt.Sprintf("The prices on the shelf are in %s and this one is in %s: they do not count here.", other, shot.Project.PriceCurrency())))
	}
	for _, m := range c.Missing {
		body.Add(touch.NewText("• "+capitalised(strings.TrimSuffix(m.Message, "."))+".", touch.Body, touch.Ink))
	}
	if len(body.Objects) == 0 {
		return nil
	}
	body.Add(touch.NewText("Where a line of yours covers it, such as one for all materials, say so under What goes in.", touch.Small, touch.Faint))
	return touch.NewCard("Not counted", body)
}
