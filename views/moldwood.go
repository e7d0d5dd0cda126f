package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// woodSignature is the structure of the section of the wood.
func (m *moldPane) woodSignature(shot *app.Snapshot) string {
	var b strings.Builder
	fmt.Fprintf(&b, " %s\n%d", m.page.piece, shot.Project.Mold.Cavities())
	for i := range shot.Project.Pieces {
		b.WriteString(" " + shot.Project.Pieces[i].ID)
	}
	w := shot.Project.Piece(m.page.piece)
	if w == nil {
		return b.String()
	}
	fmt.Fprintf(&b, "\n%s %d %v %s", w.Kind, len(w.Stations), m.topShown(w), m.page.void)
	for i := range w.Voids {
		fmt.Fprintf(&b, " %s:%s", w.Voids[i].ID, w.Voids[i].Kind)
	}
	return b.String()
}

// topShown tells whether a piece's top face has inputs of its own.
func (m *moldPane) topShown(w *model.Piece) bool {
	t := &w.Top
	return m.tops[w.ID] || t.Length.Given() || t.Width.Given() || len(t.Stations) > 0 || len(t.Outline) > 0
}

// wood makes the section of the wood: the pieces, and one of them to edit.
func (m *moldPane) wood(shot *app.Snapshot) fyne.CanvasObject {
	list := moldRows()
	if len(shot.Project.Pieces) == 0 {
		list.Add(touch.NewText("Lay the wood as it will lie in the mold, then add each piece of wood and measure it: a straight board by length and width, a live edge by its width at even steps of about a hand's width, anything else by a trace.", touch.Body, touch.Faint))
	} else {
		list.Add(m.items(moldPieceNames, m.page.piece, m.page.selectPiece))
	}
	list.Add(m.adder("Add a piece of wood", []touch.Option{
		{ID: string(model.PieceRectangle), Label: "Rectangle: length and width"},
		{ID: string(model.PieceStations), Label: "Live edge: widths at even steps"},
		{ID: string(model.PieceOutline), Label: "Outline: points of a trace"},
	}, m.addPiece))
	if len(shot.Project.Pieces) == 0 {
		palette := m.page.desk.palette()
		list.Add(drawing.NewPicture(m.page.desk.fonts, fyne.NewSize(260, 220), palette.Ground, func(s drawing.Surface) {
			drawing.PaintWoodMeasure(s, drawing.Style{Palette: palette})
		}))
	}
	cards := moldColumn(touch.NewCard("Wood in the mold", list))
	w := shot.Project.Piece(m.page.piece)
	if w == nil {
		if len(shot.Project.Pieces) > 0 {
			cards.Add(touch.NewText("Touch a piece of wood, here or in the drawing, to see whether it fits and to change it.", touch.Body, touch.Faint))
		}
		return cards
	}
	at := "pieces/" + w.ID
	id := w.ID
	cards.Add(m.mark(at, touch.NewCard("Does it fit?", m.facts(func(shot *app.Snapshot) []moldFact { return moldFits(shot, id) }))))
	cards.Add(touch.NewCard("Sizes", m.pieceSizes(w, at)))
	cards.Add(touch.NewCard("Where it lies", m.pieceLies(shot, w, at)))
	cards.Add(touch.NewCard("Weight", m.pieceWeight(w, at)))
	cards.Add(m.mark(at+"/voids", touch.NewCard("Holes and knots that fill", m.voids(w, at))))
	cards.Add(m.remover("Remove this piece of wood", at))
	return cards
}

// moldPieceNames lists the pieces, with a word where one does not fit.
func moldPieceNames(shot *app.Snapshot) []touch.Option {
	var list []touch.Option
	for i := range shot.Project.Pieces {
		w := &shot.Project.Pieces[i]
		label := w.Name
		if p := shot.Plan.Piece(w.ID); p != nil && !p.Fit.Fits && shot.Plan.Mold.Capacity.Value > 0 && len(shot.Project.Pieces) <= 3 {
			label += ": does not fit"
		}
		list = append(list, touch.Option{ID: w.ID, Label: label})
	}
	return list
}

// addPiece adds a piece and turns to it.
func (m *moldPane) addPiece(kind string) {
	m.addItem("Add a piece of wood", func(p *model.Project) (string, error) { return p.AddPiece(model.PieceKind(kind)), nil }, func(id string) {
		m.page.piece, m.page.void = id, ""
		first := map[model.PieceKind]string{model.PieceStations: "spacing", model.PieceOutline: "outline"}[model.PieceKind(kind)]
		if first == "" {
			first = "length"
		}
		m.lead = "pieces/" + id + "/" + first
	})
}

// moldFits is how a piece stands in the mold.
func moldFits(shot *app.Snapshot, id string) []moldFact {
	p, s := shot.Plan.Piece(id), shot.Project.Style
	if p == nil {
		return []moldFact{{name: "Not measured yet: see what is asked for below.", tone: touch.Faint}}
	}
	if shot.Plan.Mold.Capacity.Value <= 0 {
		return []moldFact{{name: "Measure the mold, then it says here whether the wood goes in.", tone: touch.Faint}}
	}
	var list []moldFact
	fit := &p.Fit
	switch {
	case fit.Fits:
		list = append(list, moldFact{name: "It fits", value: "yes", tone: touch.GoodTone})
	default:
		list = append(list, moldFact{name: "It fits", value: "no", tone: touch.StopTone},
			moldFact{name: "Farthest beyond the wall", value: s.Length(fit.Over)},
			moldFact{name: "at a height of", value: s.Length(fit.OverAt)})
		if fit.LongBy > 0 {
			list = append(list, moldFact{name: "Too long there by", value: s.Length(fit.LongBy)})
		}
		if fit.WideBy > 0 {
			list = append(list, moldFact{name: "Too wide there by", value: s.Length(fit.WideBy)})
		}
		if fit.Sits {
			list = append(list, moldFact{name: "As it lies it would sit at", value: s.Length(fit.SitsAt)})
		} else {
			list = append(list, moldFact{name: "As it lies it goes in", value: "nowhere", tone: touch.StopTone})
		}
	}
	list = append(list, moldGapFacts(shot, "at its underside", &fit.GapFloor)...)
	if shot.Plan.Mold.FillLine > p.Bottom {
		name := "at the fill line"
		if p.Top < shot.Plan.Mold.FillLine {
			name = "at its top"
		}
		list = append(list, moldGapFacts(shot, name, &fit.GapFill)...)
	}
	list = append(list, moldFact{name: "Wood", value: moldRange(s, p.Volume)})
	if p.Voids > 0 {
		list = append(list, moldFact{name: "Holes in it", value: s.Volume(p.Voids)})
	}
	list = append(list, moldFact{name: "Underside", value: s.Area(p.Footprint)})
	if shot.Plan.Mold.FillLine > 0 {
		if p.Proud > 0 {
			list = append(list, moldFact{name: "Stands above the fill line by", value: s.Length(p.Proud)})
		} else {
			list = append(list, moldFact{name: "Covered by resin", value: s.Length(-p.Proud)})
		}
		list = append(list, moldLift(shot, p))
	}
	return list
}

// moldGapFacts are the gaps all round at one height.
func moldGapFacts(shot *app.Snapshot, where string, g *model.Gap) []moldFact {
	s := shot.Project.Style
	least := moldFact{name: "Least gap " + where, value: s.Length(max(0, g.Least))}
	if g.Least < -touching {
		least = moldFact{name: "Beyond the wall " + where, value: s.Length(-g.Least), tone: touch.StopTone}
	}
	return []moldFact{
		least,
		{name: "Gap left, right", value: s.Length(g.Left) + ", " + s.Length(g.Right)},
		{name: "Gap near, far", value: s.Length(g.Near) + ", " + s.Length(g.Far)},
	}
}

// moldLift says from what depth of resin a piece floats.
func moldLift(shot *app.Snapshot, p *model.PiecePlan) moldFact {
	switch {
	case p.LiftsAt > 0:
		return moldFact{name: "Resin above its underside that lifts it", value: shot.Project.Style.Length(p.LiftsAt)}
	case p.Density > 0:
		return moldFact{name: "Lifted by the resin", value: "never"}
	}
	return moldFact{name: "Weigh it, or give its density, to know when it floats.", tone: touch.Faint}
}
