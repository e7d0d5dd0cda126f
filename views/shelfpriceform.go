package views

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// key names the structure of what stands at the right.
func (v *shelfPrice) key() string {
	shot := &v.page.shot
	if !shot.Open {
		return "none"
	}
	m := &shot.Project.Money
	var k strings.Builder
	fmt.Fprint(&k, shot.Project.ID, v.task, m.By, len(m.Batches))
	for _, x := range v.priceables(shot) {
		fmt.Fprint(&k, x.Kind, x.Of, x.Name, x.Paid, x.Shelf.Price)
	}
	for i := range m.Lines {
		k.WriteString(m.Lines[i].ID)
	}
	for i := range m.Tasks {
		k.WriteString(m.Tasks[i].ID)
	}
	return k.String()
}

func (v *shelfPrice) priceables(shot *app.Snapshot) []model.Priceable {
	return shot.Project.Priceables(&shot.Plan, shot.CostFacts())
}

// side is what stands at the right: all that a price is made of.
func (v *shelfPrice) side() fyne.CanvasObject {
	shot := &v.page.shot
	if !shot.Open {
		return touch.NewText(openFirst, touch.Body, touch.Faint)
	}
	in := v.page.in
	all := stack(
		v.asked(shot),
		v.work(shot),
		v.materials(shot),
		touch.NewCard("Mold", stack(
			pair(v.money("costing/mold", "The mold cost", ""), v.someCount("costing/lasts", "It lasts for casts", "")),
			touch.NewText("Each cast bears its part of the mold.", touch.Small, touch.Faint),
		)),
		touch.NewCard("Heat for the room", stack(
			pair(in.plain("costing/heater", "Heater, watts", "", touch.Number), in.plain("costing/warm", "Warm for", "", touch.Time)),
			pair(in.plain("costing/on", "On for, of that", "empty: all of it", touch.Percent), v.money("costing/energy", "100 kWh cost", "")),
			in.choice("costing/heats", "The room is warmed for", perOptions),
		)),
		v.extras(shot),
		touch.NewCard("What goes wrong, and what runs on", stack(
			pair(v.oneIn(), in.plain("costing/overhead", "Overhead", "rent, tools, insurance", touch.Percent)),
			touch.NewText("A cast that fails is paid for by those that do not.", touch.Small, touch.Faint),
		)),
	)
	return all
}

// perOptions say how often something is done or used.
var perOptions = []touch.Option{{ID: string(model.PerCast), Label: "each cast"}, {ID: string(model.PerBatch), Label: "all in one go"}, {ID: string(model.PerPiece), Label: "each piece"}}

// perWords says how often something is done.
func perWords(p model.PerKind) string {
	for _, o := range perOptions {
		if o.ID == string(p) {
			return o.Label
		}
	}
	return perOptions[0].Label
}

// money is the input of an amount in the currency of the project.
func (v *shelfPrice) money(path, label, help string) *touch.Field {
	f := v.page.in.plain(path, label, help, touch.Number)
	v.page.in.also(path, func(shot *app.Snapshot) { f.SetUnit(shot.Project.PriceCurrency()) })
	return f
}

// minutes is the input of a time of work.
func (v *shelfPrice) minutes(path, label string) *touch.Field {
	f := v.page.in.plain(path, label, "", touch.Time)
	v.page.in.also(path, func(*app.Snapshot) { f.SetUnit("min"); f.SetEcho("") })
	return f
}

// asked are the inputs of the price itself.
func (v *shelfPrice) asked(shot *app.Snapshot) fyne.CanvasObject {
	in := v.page.in
	of := "Margin, of the price"
	help := "a third of the price is half of the cost"
	if shot.Project.Money.By == model.GainMarkup {
		of, help = "Markup, on the cost", "half of the cost is a third of the price"
	}
	gain := in.plain("costing/gain", of, help, touch.Percent)
	body := stack(
		pair(v.money("costing/asked", "You ask for one", ""), v.money("costing/rate", "Your hour", "")),
		in.choice("costing/by", "Say the gain as", []touch.Option{{ID: string(model.GainMargin), Label: "Margin: part of the price"}, {ID: string(model.GainMarkup), Label: "Markup: on top of the cost"}}),
		pair(gain, in.words("costing/currency", "Currency, three letters", 1)),
		pair(v.money("costing/step", "Prices in steps of", "empty: to the cent"), v.money("costing/less", "Less", "5.00 less 0.10 ends in 4.90 and 9.90")),
	)
	if len(shot.Project.Money.Batches) == 0 {
		body.Add(v.edit("Other sizes than one, three and ten", touch.Quiet, func(p *model.Project) error {
			p.Money.UsualSizes()
			return nil
		}))
	} else {
		sizes := sideBySideUpTo(3)
		for i := range shot.Project.Money.Batches {
			sizes.Add(in.plain(fmt.Sprintf("costing/batches/%d", i), "Casts in one go", "", touch.Number))
		}
		body.Add(sizes)
	}
	body.Add(sideBySideUpTo(2, v.someCount("costing/pieces", "Pieces that one cast gives", "empty: one a cavity")))
	return touch.NewCard("Price", body)
}

// someCount is the input of a number that is empty where nothing is given.
func (v *shelfPrice) someCount(path, label, help string) *touch.Field {
	f := v.page.in.count(path, label, help)
	v.page.in.also(path, func(*app.Snapshot) {
		if f.Text() == "0" {
			f.SetText("")
		}
	})
	return f
}

// oneIn is the input of failures: one cast in so many. A share is taken too.
func (v *shelfPrice) oneIn() *touch.Field {
	const path = "costing/fails"
	in := v.page.in
	f := in.plain(path, "One cast fails in", "a share such as 8 % will do too", touch.Number)
	enter := func(text string) {
		if n, err := strconv.Atoi(strings.TrimSpace(text)); err == nil && n > 1 {
			text = model.OneIn(n).Written
		}
		in.session.Enter(path, text)
	}
	f.OnDraft = enter
	f.OnCommit = func(text string) {
		enter(text)
		shot := in.session.Snapshot()
		in.shows[path](&shot)
	}
	in.also(path, func(shot *app.Snapshot) {
		fails := shot.Project.Money.Fails
		f.SetUnit("casts")
		if _, _, bad := shot.Problem(path); bad {
			return
		}
		if n, ok := model.InOne(fails.Value); ok {
			f.SetText(strconv.Itoa(n))
		}
		f.SetEcho("")
		if fails.Given() {
			f.SetEcho(model.FailWords(fails.Value, shot.Project.Style))
		}
	})
	return f
}

// edit is a button that changes the project, as one step.
func (v *shelfPrice) edit(label string, style touch.Style, change func(*model.Project) error) *touch.Button {
	return v.page.act(label, style, func() error { return v.page.desk.session.Edit(label, "", change) })
}

// remover takes what a path leads to away.
func (v *shelfPrice) remover(label, path string) *touch.Button {
	return v.edit(label, touch.Quiet, func(p *model.Project) error { return p.Remove(path) })
}

// materials are the prices of what goes into the piece, each the project's own
// or else that of the shelf.
func (v *shelfPrice) materials(shot *app.Snapshot) fyne.CanvasObject {
	body := stack()
	for _, x := range v.priceables(shot) {
		name := touch.NewText(capitalised(x.Name), touch.Strong, touch.Ink)
		if x.Paid != "" {
			at := "costing/prices/" + x.Paid
			price := v.money(at+"/price", "It cost", "")
			line := fyne.CanvasObject(price)
			if x.Kind == model.PaidResin || x.Kind == model.PaidTint {
				help := ""
				if x.Kind == model.PaidResin {
					help = "A and B of the kit together"
				}
				line = pair(price, v.page.in.plain(at+"/for", "for", help, touch.Mass))
			}
			away := v.remover("Take this price away", at)
			body.Add(container.New(layout.NewCustomPaddedVBoxLayout(4), container.NewBorder(nil, nil, nil, away, container.NewVBox(layout.NewSpacer(), name, layout.NewSpacer())), line))
			continue
		}
		words := "no price yet"
		if x.Shelf.Price.Given() {
			words = x.Shelf.Price.String() + ", by the shelf"
			if x.Shelf.For.Given() || x.Shelf.For.Value > 0 {
				words = x.Shelf.Price.String() + " for " + shot.Project.Style.Mass(x.Shelf.For.Value) + ", by the shelf"
			}
		}
		kind, of := x.Kind, x.Of
		give := v.page.act("Give a price", touch.Plain, func() error {
			id := ""
			err := v.page.desk.session.Edit("Give a price", "", func(p *model.Project) error {
				id = p.AddPaid(kind, of)
				return nil
			})
			if err == nil {
				v.page.lead = "costing/prices/" + id + "/price"
			}
			return err
		})
		both := container.New(layout.NewCustomPaddedVBoxLayout(0), name, touch.NewText(words, touch.Small, touch.Faint))
		body.Add(container.NewBorder(nil, nil, nil, give, both))
	}
	if len(body.Objects) == 0 {
		body.Add(touch.NewText("Plan a pour, and its resin stands here.", touch.Body, touch.Faint))
	}
	body.Add(v.page.in.toggle("costing/own", "Only the prices given here count, none of the shelf; a line of mine covers the rest"))
	if len(shot.Project.Money.Prices) == 0 && !shot.Project.Money.Seal.Given() {
		return touch.NewCard("What goes in", body)
	}
	body.Add(v.page.in.plain("costing/seal", "Resin of the seal coat", "weighed; empty: as it is reckoned", touch.Mass))
	return touch.NewCard("What goes in", body)
}

// extras are the lines that the maker adds.
func (v *shelfPrice) extras(shot *app.Snapshot) fyne.CanvasObject {
	in := v.page.in
	body := stack()
	for i := range shot.Project.Money.Lines {
		at := "costing/lines/" + shot.Project.Money.Lines[i].ID
		body.Add(container.NewBorder(nil, nil, nil, container.NewVBox(layout.NewSpacer(), v.remover("Remove", at)), in.words(at+"/what", "What", 1)))
		body.Add(pair(v.money(at+"/each", "Each costs", ""), in.plain(at+"/count", "How many", "empty: one", touch.Number)))
		body.Add(in.choice(at+"/per", "For", perOptions))
	}
	body.Add(v.page.act("Add a line", touch.Plain, func() error {
		id := ""
		err := v.page.desk.session.Edit("Add a line of cost", "", func(p *model.Project) error {
			id = p.AddExtra("")
			return nil
		})
		if err == nil {
			v.page.lead = "costing/lines/" + id + "/what"
		}
		return err
	}))
	return touch.NewCard("What else it takes", body)
}
