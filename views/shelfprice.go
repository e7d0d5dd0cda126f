package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// shelfPrice is the part of the window that tells what the open project costs
// and what it should bring.
type shelfPrice struct {
	page   *shelfPage
	root   *fyne.Container
	box    *fyne.Container
	scroll *touch.Scroll

	at     int    // of the sizes of batch: that whose lines are shown
	task   string // ID of the task that is open
	shown  string
	offers []model.Offer
	bad    error // why there are none
}

func newShelfPrice(p *shelfPage) *shelfPrice {
	v := &shelfPrice{page: p, box: container.New(layout.NewCustomPaddedVBoxLayout(12))}
	v.scroll = touch.NewScroll(inset(v.box))
	v.root = container.NewStack(v.scroll)
	return v
}

// see shows what follows from a snapshot.
func (v *shelfPrice) see() {
	shot := &v.page.shot
	v.offers, v.bad = nil, nil
	if shot.Open {
		v.offers, v.bad = shot.Offers()
	}
	if v.at >= len(v.offers) {
		v.at = 0
	}
	key := fmt.Sprint(v.at, shot.Open, shot.Project.ID, v.offers, v.bad, shot.Project.Money, look.Current().Ground, shot.Shelf.OtherMoney(&shot.Project))
	if key == v.shown {
		return
	}
	v.shown = key
	refill(v.box, v.scroll, v.cards()...)
}

// answer is the lead: the price for one, and what an hour earns at it.
func (v *shelfPrice) answer() string {
	shot := &v.page.shot
	switch {
	case !shot.Open:
		return "Open a piece to see what it should bring"
	case v.bad != nil:
		return "No price can be made yet: " + problemWords(v.bad)
	case len(v.offers) == 0:
		return ""
	}
	price, hour, _ := v.offers[0].Leading(&shot.Project.Money)
	words := price.String() + " for one"
	if hour.Given() {
		words += ": an hour earns " + hour.String()
	}
	return words
}

// cards are the cards at the left.
func (v *shelfPrice) cards() []fyne.CanvasObject {
	shot := &v.page.shot
	if !shot.Open {
		return []fyne.CanvasObject{container.New(layout.NewCustomPaddedLayout(40, 0, 30, 30), touch.NewText("A price is that of a piece: open one in the notebook. Its materials, your minutes, the mold and the heat add up here, to what one should bring.", touch.Body, touch.Faint))}
	}
	if v.bad != nil {
		return []fyne.CanvasObject{touch.NewCard("No price can be made", touch.NewText(capitalised(problemWords(v.bad))+".", touch.Body, touch.StopTone))}
	}
	list := []fyne.CanvasObject{v.head(), v.sizes()}
	list = append(list, v.lines())
	if missing := v.missing(); missing != nil {
		list = append(list, missing)
	}
	return list
}

// priceWorking is how the price that leads came about.
func priceWorking(shot *app.Snapshot) (model.Working, bool) {
	offers, err := shot.Offers()
	if err != nil || len(offers) == 0 {
		return model.Working{}, false
	}
	return offers[0].Working(&shot.Project), true
}

// head is the card that is read first.
func (v *shelfPrice) head() fyne.CanvasObject {
	shot, o := &v.page.shot, &v.offers[0]
	price, hour, by := o.Leading(&shot.Project.Money)
	words := shot.Project.Money.PriceWords(shot.Project.Style, by)
	figure := func(value string, tone touch.Tone, below string) fyne.CanvasObject {
		lead := v.page.opened.opens(value, touch.Reading, priceWorking)
		lead.SetTone(tone)
		return container.New(layout.NewCustomPaddedVBoxLayout(0), container.NewHBox(lead), touch.NewText(below, touch.Body, touch.Faint))
	}
	one := "for one, " + words
	if n := o.Cost.Casts; n > 1 {
		one = fmt.Sprintf("for one of %d casts, %s", n, words)
	}
	left := figure(price.String(), touch.Ink, one)
	against, against1 := o.Objection(&shot.Project, "")
	tone, hourWords := touch.Ink, "an hour earns"
	rate := shot.Project.Money.Rate
	switch {
	case !hour.Given() && o.Cost.Hours > 0:
		hourWords = "give your rate, then it says what an hour earns"
	case !hour.Given():
		hourWords = "no task has its minutes: what an hour earns is not known"
	case against1:
		tone, hourWords = touch.CheckTone, "an hour earns, less than your "+rate.String()
	case rate.Given():
		tone, hourWords = touch.GoodTone, "an hour earns; your rate is "+rate.String()
	}
	value := "–"
	if hour.Given() {
		value = hour.String()
	}
	body := stack(pair(left, figure(value, tone, hourWords)))
	if against1 {
		body.Add(signed(touch.Check, capitalised(against.Do)+"."))
		body.Add(touch.NewText(capitalised(against.Why)+".", touch.Small, touch.Faint))
	}
	return touch.NewCard("The price of one", body)
}

// sizes is the table of the price for each size of batch.
func (v *shelfPrice) sizes() fyne.CanvasObject {
	p := &v.page.shot.Project
	m, s := &p.Money, p.Style
	shares := sumColumns{0.4}
	heads := []string{"Made in one go"}
	for i := range v.offers {
		c := &v.offers[i].Cost
		shares = append(shares, 0.6/float32(len(v.offers)))
		text := counted(c.Casts, "cast", "casts")
		if c.Pieces != c.Casts {
			text += ", " + counted(c.Pieces, "piece", "pieces")
		}
		heads = append(heads, text)
	}
	table := container.New(layout.NewCustomPaddedVBoxLayout(5), sumHead(shares, heads...))
	row := func(role touch.Role, name string, of func(*model.Offer) string) {
		words := []string{name}
		for i := range v.offers {
			words = append(words, of(&v.offers[i]))
		}
		table.Add(sumRow(shares, role, words...))
	}
	hourly := func(o *model.Offer, m unit.Money) string {
		if o.Cost.Hours <= 0 {
			return "–"
		}
		return orDash(m)
	}
	row(touch.Body, "One costs, your work counted", func(o *model.Offer) string { return o.Cost.Each.String() })
	row(touch.Body, "Your hands, in all", func(o *model.Offer) string { return model.WorkTime(o.Cost.Hours) })
	row(touch.Strong, "Least that pays your rate", func(o *model.Offer) string { return o.Fair.String() })
	if m.Gain.Given() {
		table.Add(sumRule())
		row(touch.Strong, "With "+m.GainWords(s), func(o *model.Offer) string { return o.Price.String() })
		row(touch.Body, "margin: that part of the price is not cost", func(o *model.Offer) string { return s.Share(o.Margin) })
		row(touch.Body, "markup: so much comes on top of the cost", func(o *model.Offer) string { return s.Share(o.Markup) })
		row(touch.Body, "an hour earns", func(o *model.Offer) string { return hourly(o, o.Hourly) })
	}
	if m.Asked.Given() {
		table.Add(sumRule())
		row(touch.Strong, "At "+m.Asked.String()+" an hour earns", func(o *model.Offer) string { return hourly(o, o.AtAsked) })
		row(touch.Body, "each brings, beyond its cost", func(o *model.Offer) string { return o.Gained.String() })
		row(touch.Body, "margin, of the price", func(o *model.Offer) string { return s.Share(o.AskMargin) })
	}
	return touch.NewCard("More in one go share what is set up once", table)
}
