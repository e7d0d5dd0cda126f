package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// weighPath is the field for the weight of a bottle, which is no field of the
// shelf until it is kept.
const weighPath = "bottle on the scale"

// ofProduct is what can be said of a product or of one of its bottles, below what
// can be added.
func (p *shelfPage) ofProduct(at string) fyne.CanvasObject {
	product, bottle := p.product(at)
	all := stack(p.gain(product == nil))
	switch {
	case product == nil:
	case bottle != nil:
		all.Add(p.weighing(product, bottle))
		all.Add(p.bottle(product, bottle))
		all.Add(p.desk.labelsOf(at, "For this bottle: product, part, lot, when opened. 60 × 30 mm, for a label printer.", false))
	default:
		all.Add(p.ofMix(product))
		if len(model.BottleLabels(&p.shot.Shelf, at)) > 0 {
			all.Add(p.desk.labelsOf(at, "For all its bottles: part, lot, when opened. On a sheet, with lines to cut along.", true))
		}
		if seal := p.sealCoat(product); seal != nil {
			all.Add(seal)
		}
		all.Add(p.kits(product))
		all.Add(p.dataSheet(product))
		all.Add(pair(p.another(), p.remove("Take it off the shelf", "shelf/products/"+product.ID)))
	}
	return all
}

// another adds an empty product.
func (p *shelfPage) another() fyne.CanvasObject {
	label := "Add another product"
	if len(p.shot.Shelf.Products) == 0 {
		label = "Add a product"
	}
	return p.act(label, touch.Plain, func() error {
		p.add("Add a product", "/sheet/name", func(m *model.Shelf) string { return "shelf/products/" + m.AddProduct() })
		return nil
	})
}

// gain keeps the products of the open project on the shelf, and adds an empty one
// where there is none.
func (p *shelfPage) gain(none bool) fyne.CanvasObject {
	box := container.New(layout.NewCustomPaddedVBoxLayout(8))
	if p.shot.Open {
		for _, s := range p.shot.Project.Sheets {
			if p.shot.Shelf.Product(s.Product) != nil {
				continue
			}
			box.Add(p.act("Keep "+brief(nameOf(s.Name), 24)+" of this piece here", touch.Primary, func() error { return p.desk.session.KeepProduct(s.ID) }))
		}
	}
	if none {
		box.Add(p.another())
	}
	return box
}

// ofMix is what is left of a product, and what can be done with it.
func (p *shelfPage) ofMix(product *model.Product) fyne.CanvasObject {
	id, at := product.ID, "shelf/products/"+product.ID
	words := touch.NewText("", touch.Body, touch.Ink)
	p.follow(func(shot *app.Snapshot) {
		if pp := shot.ShelfPlan.Product(id); pp != nil {
			words.SetText(leftWords(shot, pp))
		}
	})
	bottle := func(part model.PartName) *touch.Button {
		return p.act("Add a bottle of "+string(part), touch.Plain, func() error {
			today := shotDay(&p.shot)
			p.add("Add a bottle of "+string(part), "/lot", func(m *model.Shelf) string {
				return at + "/bottles/" + m.AddBottle(id, part, today)
			})
			return nil
		})
	}
	body := stack(p.in.words(at+"/sheet/name", "Your name for it", 1), words)
	if p.shot.Open {
		linked := false
		for _, s := range p.shot.Project.Sheets {
			linked = linked || s.Product == id
		}
		label := "Pour it in " + brief(nameOf(p.shot.Project.Name), 24)
		if linked {
			label = "Bring its sheet up to date in " + brief(nameOf(p.shot.Project.Name), 20)
		}
		body.Add(p.act(label, touch.Plain, func() error { return p.desk.session.TakeProduct(id) }))
	}
	body.Add(pair(bottle(model.PartA), bottle(model.PartB)))
	months := func(name, label, help string) fyne.CanvasObject {
		f := p.in.plain(at+"/"+name, label, help, touch.Number)
		mark := newTypicalMark()
		p.in.also(at+"/"+name, func(shot *app.Snapshot) {
			f.SetUnit("months")
			showUsual(shot, at+"/"+name, at+"/"+name, f, mark)
		})
		return container.New(layout.NewCustomPaddedVBoxLayout(3), f, mark.root)
	}
	return stack(
		touch.NewCard("On hand", body),
		touch.NewCard("How long it keeps, how much you want", stack(
			pair(months("monthsClosed", "Closed", ""), months("monthsOpened", "Once opened", "")),
			p.in.plain(at+"/low", "Tell me below", "so much mix you want to be able to make at any time", touch.Mass),
		)),
	)
}

// leftWords tells what is left of a product.
func leftWords(shot *app.Snapshot, pp *model.ProductPlan) string {
	s := shot.Shelf.Style
	if len(pp.Bottles) == 0 {
		return "No bottle of it is on the shelf. Add those that are there, and weigh them."
	}
	words := fmt.Sprintf("%s of A and %s of B are left; they make %s of mix.", s.Mass(pp.A), s.Mass(pp.B), s.Mass(pp.Mix))
	if pp.Parts == 0 {
		words = fmt.Sprintf("%s of A and %s of B are left. Without its mixing ratio nobody knows what they make.", s.Mass(pp.A), s.Mass(pp.B))
	}
	if pp.Unknown > 0 {
		words += " " + capitalised(counted(pp.Unknown, "bottle is", "bottles are")) + " not counted: nobody knows what is in there."
	}
	for i := range shot.Project.Sheets {
		sheet := &shot.Project.Sheets[i]
		if sheet.Product != pp.ID {
			continue
		}
		if stock := shot.Stock(sheet.ID); stock[0].Needs+stock[1].Needs > 0 {
			words += fmt.Sprintf(" %s still needs %s of A and %s of B.", nameOf(shot.Project.Name), s.Mass(stock[0].Needs), s.Mass(stock[1].Needs))
		}
	}
	return words
}

// kits are what can be bought of a product.
func (p *shelfPage) kits(product *model.Product) fyne.CanvasObject {
	at := "shelf/products/" + product.ID
	body := stack(touch.NewText("What it is sold in, by weight or as 1 l or 32 fl oz, and for how much.", touch.Small, touch.Faint))
	for _, k := range product.Kits {
		kit := at + "/kits/" + k.ID
		body.Add(p.in.words(kit+"/name", "Kit", 1))
		body.Add(sideBySideUpTo(3, p.unsaid(kit+"/a", "A"), p.unsaid(kit+"/b", "B"), p.price(kit+"/price", "Price")))
		body.Add(p.remove("Remove this kit", kit))
	}
	body.Add(p.act("Add a kit", touch.Plain, func() error {
		return p.desk.session.EditShelf("Add a kit", "", func(m *model.Shelf) error {
			m.AddKit(product.ID)
			return nil
		})
	}))
	return touch.NewCard("Kits", stack(body, p.currency()))
}

// unsaid is the input of a mass that is not said in other units as well: what
// stands beside it has no such line, and would stand higher.
func (p *shelfPage) unsaid(path, label string) *touch.Field {
	f := p.in.plain(path, label, "", touch.Mass)
	p.in.also(path, func(*app.Snapshot) { f.SetEcho("") })
	return f
}

// price is the input of an amount of money.
func (p *shelfPage) price(path, label string) *touch.Field {
	f := p.in.plain(path, label, "", touch.Number)
	p.in.also(path, func(shot *app.Snapshot) { f.SetUnit(string(shot.Shelf.Currency)) })
	return f
}

// currency is the input of the currency of all prices on the shelf.
func (p *shelfPage) currency() fyne.CanvasObject {
	f := p.in.words("shelf/currency", "Currency of all prices here: its three letters", 1)
	return f
}

// dataSheet is the product's data sheet, folded until it is asked for.
func (p *shelfPage) dataSheet(product *model.Product) fyne.CanvasObject {
	label := "Show its data sheet"
	if p.sheet {
		label = "Fold its data sheet away"
	}
	fold := touch.NewStyledButton(label, touch.Plain, func() {
		p.in.form.CommitAll()
		p.sheet = !p.sheet
		p.see(p.shot)
	})
	if !p.sheet {
		return fold
	}
	return stack(fold, p.in.sheetForm("shelf/products/"+product.ID+"/sheet"))
}

// weighing is the card that weighs a bottle: what the scale reads, bottle, cap and
// all.
func (p *shelfPage) weighing(product *model.Product, bottle *model.Bottle) fyne.CanvasObject {
	id, of, at := bottle.ID, product.ID, "shelf/products/"+product.ID+"/bottles/"+bottle.ID
	gross := p.aside(weighPath, id, "The scale reads", touch.Mass)
	gross.SetHelp("bottle, cap and all")
	p.in.bind(weighPath, func(shot *app.Snapshot) { gross.SetUnit(unitOf(touch.Mass, shot.Shelf.Style)) })
	left := func(shot *app.Snapshot) (model.Working, bool) {
		return shot.ShelfPlan.BottleWorking(&shot.Shelf, of, id)
	}
	plain, net, since := touch.NewText("not known", touch.Reading, touch.Ink), p.opened.opens("", touch.Reading, left), touch.NewText("", touch.Body, touch.Faint)
	p.follow(func(shot *app.Snapshot) {
		pp := shot.ShelfPlan.Product(of)
		if pp == nil || pp.Bottle(id) == nil {
			return
		}
		b := pp.Bottle(id)
		net.SetText(shot.Shelf.Style.Mass(b.Net))
		showIf(net, b.Known)
		showIf(plain, !b.Known)
		since.SetText(bottleWords(shot, b))
	})
	keep := p.act("Keep what it weighs", touch.Primary, func() error {
		err := p.desk.session.WeighBottle(of, id, gross.Text())
		if err == nil {
			emptied(gross)
		}
		gross.SetProblem(problemWords(err))
		return nil
	})
	tare := p.unsaid(at+"/tare", "Empty bottle")
	tare.SetHelp("with its cap")
	return touch.NewCard("Weigh it", stack(plain, container.NewHBox(net), since, pair(tare, gross), keep, touch.NewText("An empty bottle of the same kind will do, while this one is not empty yet.", touch.Small, touch.Faint),
		p.in.method(at+"/tare", drawing.MethodBottle)))
}

// bottleWords tells where the figure of what is left in a bottle comes from.
func bottleWords(shot *app.Snapshot, b *model.BottlePlan) string {
	s := shot.Shelf.Style
	switch {
	case !b.Known:
		return "It was never weighed. Type what an empty bottle weighs and what the scale reads; or, where it is new, what it holds."
	case b.Labelled && b.Since > 0:
		return fmt.Sprintf("Left of what is printed on it, less %s that was weighed out.", s.Mass(b.Since))
	case b.Labelled:
		return "As it is printed on: it was never weighed."
	case b.Since > 0:
		return fmt.Sprintf("Left: %s was weighed out since it stood on the scale.", s.Mass(b.Since))
	}
	return "Left, as it was weighed."
}

// bottle is the card of what is known of a bottle.
func (p *shelfPage) bottle(product *model.Product, bottle *model.Bottle) fyne.CanvasObject {
	at := "shelf/products/" + product.ID + "/bottles/" + bottle.ID
	day := func(name, label, help string) fyne.CanvasObject {
		f := p.in.words(at+"/"+name, label, 1)
		if help == "" {
			return f
		}
		return container.New(layout.NewCustomPaddedVBoxLayout(3), f, touch.NewText(help, touch.Small, touch.Faint))
	}
	today := func(name, label string) *touch.Button {
		return p.act(label, touch.Quiet, func() error {
			p.desk.session.EnterShelf(at+"/"+name, string(shotDay(&p.shot)))
			return nil
		})
	}
	body := stack(
		p.in.choice(at+"/part", "What is in it", []touch.Option{{ID: string(model.PartA), Label: "A, resin"}, {ID: string(model.PartB), Label: "B, hardener"}}),
		pair(p.in.words(at+"/lot", "Lot", 1), p.in.plain(at+"/holds", "Holds when new", "", touch.Mass)),
		pair(day("bought", "Bought", ""), day("opened", "Opened", "")),
		today("opened", "Opened today"),
		day("expires", "Good until, as printed on", "a day like 25 Nov 2027, or a month: 11/2027"),
	)
	for i := range bottle.Weighings {
		w := &bottle.Weighings[len(bottle.Weighings)-1-i]
		if i == 3 {
			body.Add(touch.NewText(capitalised(counted(len(bottle.Weighings)-3, "earlier weighing", "earlier weighings"))+".", touch.Small, touch.Faint))
			break
		}
		words := touch.NewText(fmt.Sprintf("%s: %s with the bottle", local(w.At).Format("2 January 2006, 15:04"), p.shot.Shelf.Style.Mass(w.Gross.Value)), touch.Body, touch.Ink)
		path := at + "/weighings/" + w.ID
		drop := p.act("Take back", touch.Quiet, func() error {
			return p.desk.session.EditShelf("Take a weighing back", "", func(m *model.Shelf) error { return m.Remove(path) })
		})
		body.Add(container.NewBorder(nil, nil, nil, drop, container.NewVBox(layout.NewSpacer(), words, layout.NewSpacer())))
	}
	body.Add(p.remove("It is empty or gone", at))
	return touch.NewCard("The bottle", body)
}

// shotDay is the day that the plan of the shelf is of.
func shotDay(shot *app.Snapshot) model.Date { return shot.ShelfPlan.Today }
