package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// mixBottles is what is left in the bottles of the chosen pour's product, against
// what the pours to come need.
type mixBottles struct {
	page *mixingPage
	root *fyne.Container // holds the card while a product is chosen
	card *touch.Card
	pane *pane
	need *touch.Text
	hint *touch.Text
}

func newMixBottles(p *mixingPage) *mixBottles {
	b := &mixBottles{page: p, root: container.NewStack(), pane: newPane(p.in), need: touch.NewText("", touch.Body, touch.Ink), hint: touch.NewText("", touch.Small, touch.Faint)}
	b.card = touch.NewCard("In the bottles", stack(b.pane.root, b.need, b.hint))
	return b
}

// bottleOf gives the product whose bottles a field is about; "" for other fields.
func bottleOf(field string) string {
	parts := strings.Split(field, "/")
	if len(parts) == 3 && parts[0] == "sheets" && (parts[2] == "leftA" || parts[2] == "leftB") {
		return parts[1]
	}
	return ""
}

// openFor turns to the bottles that a field is about, with a pour of theirs.
func (b *mixBottles) openFor(field string) {
	sheet := bottleOf(field)
	if sheet == "" {
		return
	}
	if l := b.page.chosen(); l == nil || l.Sheet != sheet {
		for _, other := range b.page.shot.Plan.Layers {
			if other.Sheet == sheet && other.Status == model.Planned {
				b.page.choose(other.ID)
				break
			}
		}
	}
	b.page.tabs.turn("amount")
}

// see shows the bottles of a layer's product.
func (b *mixBottles) see(shot *app.Snapshot, l *model.LayerPlan) {
	sheet := ""
	if l != nil && shot.Project.Sheet(l.Sheet) != nil {
		sheet = l.Sheet
	}
	onShelf := sheet != "" && shot.ShelfPlan.Product(shot.Project.Sheet(sheet).Product) != nil
	b.hint.SetText("Weigh each bottle and take off the weight of an empty one. What you weigh out later is not taken off: type it anew before each pour.")
	if onShelf {
		b.hint.SetText("These are the bottles on the shelf, less all that was weighed out of them.")
	}
	b.pane.show(fmt.Sprint(shot.Project.ID, sheet, onShelf), func() fyne.CanvasObject {
		if sheet == "" {
			return stack()
		}
		if onShelf {
			return touch.NewButton("Open the shelf", func() {
				b.page.desk.commitAll()
				b.page.desk.Show(shelfKey)
			})
		}
		in := b.page.in
		left := func(part string) fyne.CanvasObject {
			path := "sheets/" + sheet + "/left" + part
			f := in.plain(path, part+" left", "without the bottle", touch.Mass)
			in.also(path, func(*app.Snapshot) { f.SetEcho("") })
			return f
		}
		both := pair(left("A"), left("B"))
		return stack(both, in.method("sheets/"+sheet+"/leftA", drawing.MethodBottle))
	})
	if sheet == "" {
		b.root.RemoveAll()
		return
	}
	if len(b.root.Objects) == 0 {
		b.root.Add(b.card)
	}
	b.card.SetTitle("In the bottles of " + l.SheetName)
	s := shot.Project.Style
	words := ""
	for _, part := range shot.Stock(sheet) {
		if part.Needs <= 0 {
			continue
		}
		if words == "" {
			words = fmt.Sprintf("The pours to come need %s of %s", s.Mass(part.Needs), part.Part)
		} else {
			words += fmt.Sprintf("Of %s they need %s", part.Part, s.Mass(part.Needs))
		}
		switch short := part.Short(); {
		case short > 0:
			words += fmt.Sprintf(": %s short", s.Mass(short))
		case part.Left.Given():
			words += fmt.Sprintf(": %s left over", s.Mass(part.Left.Value-part.Needs))
		}
		words += ". "
	}
	b.need.SetText(strings.TrimSpace(words))
	b.root.Refresh()
}
