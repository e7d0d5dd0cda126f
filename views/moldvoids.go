package views

import (
	"fmt"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// voids are the holes of a piece, and one of them to edit.
func (m *moldPane) voids(w *model.Piece, at string) fyne.CanvasObject {
	id := w.ID
	rows := moldRows(touch.NewText("A hole takes resin where the wood does not: knots, checks, bores. Those closed from above do not count.", touch.Small, touch.Faint))
	if len(w.Voids) > 0 {
		rows.Add(m.items(func(shot *app.Snapshot) []touch.Option {
			var list []touch.Option
			if w := shot.Project.Piece(id); w != nil {
				for i := range w.Voids {
					v := &w.Voids[i]
					label := v.Name
					if v.Count > 1 {
						label = fmt.Sprintf("%d × %s", v.Count, v.Name)
					}
					list = append(list, touch.Option{ID: v.ID, Label: label})
				}
			}
			return list
		}, m.page.void, func(void string) {
			m.page.void = void
			m.again()
		}))
	}
	rows.Add(m.adder("Add a hole", []touch.Option{
		{ID: string(model.VoidRound), Label: "Round"}, {ID: string(model.VoidBox), Label: "Square-cornered"},
	}, func(kind string) { m.addVoid(id, model.VoidKind(kind)) }))
	for i := range w.Voids {
		if v := &w.Voids[i]; v.ID == m.page.void {
			for _, o := range m.void(v, id, at+"/voids/"+v.ID) {
				rows.Add(o)
			}
		}
	}
	return rows
}

// addVoid adds a hole to a piece and turns to it.
func (m *moldPane) addVoid(piece string, kind model.VoidKind) {
	m.addItem("Add a hole", func(p *model.Project) (string, error) {
		id := p.AddVoid(piece)
		return id, moldOnPiece(piece, func(w *model.Piece) error {
			w.Voids[len(w.Voids)-1].Kind = kind
			return nil
		})(p)
	}, func(id string) { m.page.void = id })
}

// tracedVoid are the inputs of a hole that was traced with the slab: its outline
// is the slab's, so there is no size to type.
func (m *moldPane) tracedVoid(v *model.Void, piece, at string) []fyne.CanvasObject {
	id := v.ID
	return []fyne.CanvasObject{
		m.in.words(at+"/name", "Name", 1),
		m.mark(at+"/outline", m.facts(func(shot *app.Snapshot) []moldFact {
			w := shot.Project.Piece(piece)
			if w == nil || w.Void(id) == nil {
				return nil
			}
			return []moldFact{
				{name: "Traced with the slab; its outline follows the slab's photo.", tone: touch.Faint},
				{name: "Area", value: shot.Project.Style.Area(w.Void(id).Outline.Area())},
			}
		})),
		m.in.length(at+"/depth", "Depth", "from the top face; left empty it goes right through"),
		m.remover("Remove this hole", at),
	}
}

// void are the inputs of one hole.
func (m *moldPane) void(v *model.Void, piece, at string) []fyne.CanvasObject {
	if v.Kind == model.VoidOutline {
		return m.tracedVoid(v, piece, at)
	}
	list := []fyne.CanvasObject{
		m.in.words(at+"/name", "Name", 1),
		m.mark(at+"/kind", m.in.choice(at+"/kind", "Form", []touch.Option{
			{ID: string(model.VoidRound), Label: "Round"}, {ID: string(model.VoidBox), Label: "Square-cornered"},
		})),
	}
	if v.Kind == model.VoidBox {
		list = append(list,
			m.in.length(at+"/length", "Length", "along the wood"),
			m.in.length(at+"/width", "Width", "across the wood"))
	} else {
		list = append(list, m.in.length(at+"/diameter", "Diameter", "at its mean"))
	}
	x := m.in.quantity(at+"/x", "Along the wood", "from the middle of the wood", touch.Length)
	y := m.in.quantity(at+"/y", "Across the wood", "from the middle of the wood", touch.Length)
	return append(list,
		m.in.length(at+"/depth", "Depth", "from the top face; left empty it goes right through"),
		m.oneAtLeast(at+"/count", "How many like it", ""),
		x, y,
		m.remover("Remove this hole", at))
}
