package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// pourRows lists the pours to choose from, the topmost first as they lie in
// the mold.
type pourRows struct {
	root   *fyne.Container
	choose func(id string)
	words  func(i int, l *model.LayerPlan) string
	built  string
	each   map[string]pourRow
}

type pourRow struct {
	button *touch.Button
	patch  *canvas.Rectangle
}

func newPourRows(choose func(id string), words func(i int, l *model.LayerPlan) string) *pourRows {
	return &pourRows{root: container.NewVBox(), choose: choose, words: words}
}

// see shows the pours of a plan, one of them chosen.
func (r *pourRows) see(shot *app.Snapshot, chosen *model.LayerPlan) {
	key := ""
	for i := range shot.Plan.Layers {
		key += shot.Plan.Layers[i].ID + " "
	}
	if key != r.built {
		r.built = key
		touch.KeepFocus(r.root, func() { r.build(shot) })
	}
	for i := range shot.Plan.Layers {
		l := &shot.Plan.Layers[i]
		style := touch.Plain
		if chosen != nil && chosen.ID == l.ID {
			style = touch.Primary
		}
		row := r.each[l.ID]
		row.button.SetLabel(r.words(i, l))
		row.button.SetStyle(style)
		paintSwatch(row.patch, l.Colour)
	}
}

func (r *pourRows) build(shot *app.Snapshot) {
	r.root.Objects = nil
	r.each = map[string]pourRow{}
	for i := len(shot.Plan.Layers) - 1; i >= 0; i-- {
		id := shot.Plan.Layers[i].ID
		row := pourRow{touch.NewButton("", func() { r.choose(id) }), swatch(fyne.NewSize(22, look.Target))}
		r.each[id] = row
		r.root.Add(container.NewBorder(nil, nil, row.patch, nil, row.button))
	}
	r.root.Refresh()
}
