package views

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// mostLots are offered to be touched; any other can be typed.
const mostLots = 4

// againResin is the choice of the resin in the place of one data sheet, and of
// its lot.
type againResin struct {
	make  *againMake
	was   *model.Sheet
	lot   string // of the layers that were poured by the sheet
	next  *model.Sheet
	other *string // nil as long as the lot is as it follows from the resin
	pick  *touch.Select
	field *touch.TextField
	lots  *fyne.Container
	root  fyne.CanvasObject
}

func newAgainResin(m *againMake, shot *app.Snapshot, was *model.Sheet) *againResin {
	r := &againResin{make: m, was: was, lots: container.NewGridWithColumns(2)}
	for i := range m.base.Layers {
		if l := &m.base.Layers[i]; l.Sheet == was.ID {
			r.lot = l.Lot
			break
		}
	}
	options := []touch.Option{{ID: "", Label: "The same resin"}}
	for i := range shot.Shelf.Products {
		x := &shot.Shelf.Products[i]
		if x.ID != was.Product {
			options = append(options, touch.Option{ID: x.ID, Label: "Shelf: " + brief(nameOf(x.Sheet.Name), 60)})
		}
	}
	r.pick = touch.NewSelect("", options, func(id string) {
		m.page.commit()
		r.next, r.other = nil, nil
		if x := shot.Shelf.Product(id); x != nil {
			sheet := x.Sheet
			sheet.Product = x.ID
			r.next = &sheet
		}
		r.offer(shot)
		m.changed()
	})
	r.pick.SetSelected("")
	r.field = touch.NewTextField(m.page.in.form, "lot/"+was.ID, "Lot, as printed on the bottle", 1)
	r.field.OnCommit = r.take
	r.offer(shot)
	r.root = stack(r.pick, r.field, r.lots)
	return r
}

// offer shows the lot that follows from the resin, and the lots of it on the
// shelf.
func (r *againResin) offer(shot *app.Snapshot) {
	lot, product := r.lot, r.was.Product
	if r.next != nil {
		lot, product = "", r.next.Product
	}
	r.field.SetText(lot)
	r.lots.RemoveAll()
	var seen []string
	if x := shot.Shelf.Product(product); x != nil {
		for _, b := range x.Bottles {
			if lot := b.Lot; !b.Gone && lot != "" && !slices.Contains(seen, lot) && len(seen) < mostLots {
				seen = append(seen, lot)
				r.lots.Add(touch.NewButton("Lot "+brief(lot, 10), func() {
					r.field.SetText(lot)
					r.take(lot)
				}))
			}
		}
	}
	showIf(r.lots, len(seen) > 0)
}

// take has the layers poured from another lot.
func (r *againResin) take(lot string) {
	r.other = &lot
	r.make.changed()
}

// supply is what is put in the place of the sheet; false where all stays.
func (r *againResin) supply() (model.Substitute, bool) {
	x := model.Substitute{Sheet: r.was.ID, New: r.next, Lot: r.other}
	if r.next == nil && r.other != nil && *r.other == r.lot {
		x.Lot = nil // each layer keeps its own
	}
	return x, x.New != nil || x.Lot != nil
}
