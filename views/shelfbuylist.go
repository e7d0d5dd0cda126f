package views

import (
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// The columns of the two tables: what a product takes, and the sets of kits.
var (
	buyNeedShares = sumColumns{0.56, 0.22, 0.22}
	buySetShares  = sumColumns{0.43, 0.19, 0.19, 0.19}
)

// draw shows what is known: a card for each product.
func (b *shelfBuy) draw() {
	s := b.page.shot.Shelf.Style
	key := fmt.Sprint(b.told, b.unread, s, look.Current().Ground, b.list, len(b.wanted().Projects))
	if key == b.shown {
		return
	}
	b.shown = key
	var all []fyne.CanvasObject
	if b.unread != "" {
		all = append(all, signed(touch.Check, capitalised(b.unread)+"."))
	}
	for i := range b.list {
		all = append(all, b.card(s, &b.list[i]))
	}
	if len(all) == 0 {
		words := "Looking at what is to be poured…"
		if b.told {
			words = "Tick at the right what you are going to cast. Here stands what its pours take of each resin, what the shelf has of that, and the cheapest set of kits for the rest."
		}
		all = append(all, container.New(layout.NewCustomPaddedLayout(40, 0, 30, 30), touch.NewText(words, touch.Body, touch.Faint)))
	}
	refill(b.box, b.scroll, all...)
}

// card is one product: what to buy first, then how that comes about.
func (b *shelfBuy) card(s unit.Style, v *app.Supply) fyne.CanvasObject {
	body := container.New(layout.NewCustomPaddedVBoxLayout(10))
	if v.Trouble != "" {
		body.Add(touch.NewText(capitalised(v.Trouble)+".", touch.Strong, touch.CheckTone))
	} else if len(b.list) > 1 { // else it stands above, as the answer
		tone := touch.Ink
		if v.Purchase.Nothing {
			tone = touch.GoodTone
		}
		body.Add(touch.NewText(v.Purchase.Lead(s), touch.Question, tone))
	}
	body.Add(b.need(s, v))
	if v.Trouble == "" && !v.Purchase.Nothing {
		body.Add(b.sets(s, &v.Purchase))
	}
	if v.Purchase.ByLeft {
		body.Add(touch.NewText(fmt.Sprintf("Chosen by what is left over, since %s: type the prices at the right and the cheapest set stands here.", unpriced(v.Purchase.Prices)), touch.Body, touch.CheckTone))
	}
	if v.Trouble == "" && !v.Purchase.Proven {
		body.Add(touch.NewText("So many kits could not all be tried: there may be a cheaper set.", touch.Small, touch.Faint))
	}
	if v.Unknown > 0 {
		body.Add(touch.NewText(capitalised(counted(v.Unknown, "bottle is", "bottles are"))+" not counted: nobody knows what is in there. Weigh them under Products.", touch.Small, touch.Faint))
	}
	if v.Trouble == "" {
		for _, f := range v.Purchase.Findings(s) {
			body.Add(b.finding(f))
		}
	} else {
		for _, m := range v.Need.Missing {
			body.Add(touch.NewText(capitalised(m.Message)+".", touch.Body, touch.CheckTone))
		}
	}
	return touch.NewCard(capitalised(nameOf(v.Need.Product)), body)
}

// finding shows what should be looked at before buying. It leads to its input
// where only the open project counts: paths are those of one project.
func (b *shelfBuy) finding(f model.Finding) fyne.CanvasObject {
	shot := &b.page.shot
	if ids := b.wanted().Projects; f.Field != "" && shot.Open && len(ids) == 1 && ids[0] == shot.Project.ID {
		return touch.NewFindingRow(levelOf(f.Level), f.What, f.Why, f.Do, func() { b.page.desk.goTo(f) })
	}
	words := stack(touch.NewText(f.What, touch.Strong, touch.Ink))
	for _, text := range []string{capitalised(f.Why), capitalised(f.Do)} {
		if text != "" {
			words.Add(touch.NewText(text+".", touch.Small, touch.Ink))
		}
	}
	sign := container.NewVBox(touch.NewSign(levelOf(f.Level), 22))
	return container.NewBorder(nil, nil, container.New(layout.NewCustomPaddedLayout(0, 0, 0, 8), sign), nil, words)
}

// unpriced says for which kits no price is given. The names may be of one thing
// or of many, so no verb goes with them.
func unpriced(names []string) string {
	words := "there is no price for " + nameOf(names[0])
	if len(names) > 1 {
		words += " and " + counted(len(names)-1, "other kit", "other kits")
	}
	return words
}

// need is the table of what the pours take, and where it comes from.
func (b *shelfBuy) need(s unit.Style, v *app.Supply) fyne.CanvasObject {
	n := &v.Need
	table := container.New(layout.NewCustomPaddedVBoxLayout(5), sumHead(buyNeedShares, "Still to weigh, with all losses", "A", "B"))
	figures := n.Table(s)
	row := func(role touch.Role, name string, r model.NeedRow) {
		table.Add(sumRow(buyNeedShares, role, name, massOrDash(s, r.A), massOrDash(s, r.B)))
	}
	for i := range n.Layers {
		row(touch.Body, n.Layers[i].Name, figures.Layers[i])
	}
	if len(n.Layers) > 1 {
		table.Add(sumRule())
		row(touch.Strong, "All pours to come", figures.Total)
	}
	row(touch.Body, "The shelf gives", figures.Have)
	if figures.Apart != (model.NeedRow{}) {
		row(touch.Body, "of that, in lots too small for a pour", figures.Apart)
	}
	row(touch.Strong, "To buy", figures.Buy)
	stays := fmt.Sprintf("%s of what a bottle holds stays in it", s.Share(n.Residue.Value))
	if !n.Residue.Typical {
		table.Add(touch.NewText(capitalised(stays)+".", touch.Small, touch.Faint))
		return table
	}
	mark := newDotted("typical: " + stays)
	table.Add(mark.root)
	return table
}

// sets is the table of the cheapest set and the next.
func (b *shelfBuy) sets(s unit.Style, p *model.Purchase) fyne.CanvasObject {
	first := "Cheapest: "
	if p.ByLeft {
		first = "Least left over: "
	}
	table := container.New(layout.NewCustomPaddedVBoxLayout(5), sumHead(buySetShares, "Kits", "Cost", "Left over", "A kilogram of mix"))
	row := func(role touch.Role, name string, set *model.KitSet) {
		table.Add(sumRow(buySetShares, role, name+set.Short(), orDash(set.Cost), set.Over(s), orDash(set.PerKilo)))
	}
	row(touch.Strong, first, &p.Best)
	if p.Next != nil {
		row(touch.Body, "Next: ", p.Next)
	}
	return table
}

// massOrDash writes a mass, or that there is none.
func massOrDash(s unit.Style, m unit.Mass) string {
	if m == 0 {
		return "–"
	}
	return s.Mass(m)
}

// orDash writes an amount, or that it is not known.
func orDash(m unit.Money) string {
	if !m.Given() {
		return "–"
	}
	return m.String()
}

// sumColumns are the shares of a table's columns; all but the first stand at
// their right edge, so that figures line up.
type sumColumns []float32

// MinSize is no wider than its words need when they wrap.
func (sumColumns) MinSize(cells []fyne.CanvasObject) fyne.Size {
	return againColumns(nil).MinSize(cells)
}

// Layout gives each cell its share.
func (c sumColumns) Layout(cells []fyne.CanvasObject, size fyne.Size) {
	againColumns(c).Layout(cells, size)
}

// sumRow is a row of a table of figures.
func sumRow(shares sumColumns, role touch.Role, words ...string) fyne.CanvasObject {
	row := container.New(shares)
	for i, text := range words {
		tone := touch.Ink
		if i == 0 && role == touch.Body {
			tone = touch.Faint
		}
		t := touch.NewText(text, role, tone)
		if i > 0 {
			t.Align = fyne.TextAlignTrailing
		}
		row.Add(t)
	}
	return row
}

// sumHead names the columns of such a table.
func sumHead(shares sumColumns, words ...string) fyne.CanvasObject {
	row := container.New(shares)
	for i, text := range words {
		t := touch.NewText(text, touch.Small, touch.Faint)
		if i > 0 {
			t.Align = fyne.TextAlignTrailing
		}
		row.Add(t)
	}
	return row
}

// sumRule is the line above a sum.
func sumRule() fyne.CanvasObject {
	line := canvas.NewRectangle(color.Transparent)
	line.FillColor = look.Current().Line
	line.SetMinSize(fyne.NewSize(1, 1))
	return line
}
