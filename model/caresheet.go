package model

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"meniscus/model/unit"
)

// CareSheet is the care card as it is printed: what the piece is, and the text
// that goes with it to its owner.
type CareSheet struct {
	Title string   `json:"title"`
	What  string   `json:"what"` // of what wood, in which year
	Lines []string `json:"lines"`
	Foot  string   `json:"foot"`
}

// NewCareSheet makes the care card of a project. Its year is that of the last
// pour that was made, else this one.
func NewCareSheet(p *Project, pl *Plan, now time.Time) CareSheet {
	card := pl.Finish.Use.Card
	return CareSheet{
		Title: orWord(card.Title, "Piece"), Lines: card.Lines, Foot: card.Foot,
		What: upperFirst(joinedWith(" · ", p.madeOf(), fmt.Sprint(p.castOn(pl, now).Year()))),
	}
}

// madeOf says what a piece is made of.
func (p *Project) madeOf() string {
	var woods []string
	for i := range p.Pieces {
		if w := strings.TrimSpace(p.Pieces[i].Species); w != "" && !slices.Contains(woods, w) {
			woods = append(woods, w)
		}
	}
	switch {
	case len(woods) > 0:
		return strings.Join(woods, ", ") + " and resin"
	case len(p.Pieces) > 0:
		return "wood and resin"
	}
	return "resin"
}

// castOn is when the last pour was made, as the shop's clock has it; now where
// none was.
func (p *Project) castOn(pl *Plan, now time.Time) time.Time {
	last := time.Time{}
	for i := range pl.Layers {
		if at, ok := pl.poured(pl.Layers[i].ID); ok && at.After(last) {
			last = at
		}
	}
	if last.IsZero() {
		last = now
	}
	return last.In(p.Shop.Place())
}

// PaperLabel is a label to stick on a piece or a bottle, from the top down.
type PaperLabel struct {
	Title string   `json:"title"`
	Lines []string `json:"lines"`
}

// dayForm is how a label writes a day.
const dayForm = "2 Jan 2006"

// PieceLabels gives a label for each cavity of a project: the piece's name, its
// size, the lots of its pours, and the day of the last.
func PieceLabels(p *Project, pl *Plan, now time.Time) []PaperLabel {
	l := PaperLabel{Title: orWord(p.Name, "Piece")}
	if t := &pl.Finish.Trim; pl.Finish.Ready && t.Length.Value > 0 {
		l.Lines = append(l.Lines, p.finishedSize(t))
	}
	var lots []string
	for i := range p.Layers {
		if lot := strings.TrimSpace(p.Layers[i].Lot); lot != "" && !slices.Contains(lots, lot) {
			lots = append(lots, lot)
		}
	}
	if len(lots) > 0 {
		l.Lines = append(l.Lines, "Lot "+strings.Join(lots, ", "))
	}
	day := "Cast " + p.castOn(pl, now).Format(dayForm)
	if !slices.ContainsFunc(pl.Layers, func(l LayerPlan) bool { return l.Status == Poured }) {
		day = "Not cast yet, " + now.In(p.Shop.Place()).Format(dayForm)
	}
	l.Lines = append(l.Lines, day)
	list := make([]PaperLabel, max(pl.Mold.Count, 1))
	for i := range list {
		list[i] = l
		if len(list) > 1 {
			list[i].Title = fmt.Sprintf("%s, %d of %d", l.Title, i+1, len(list))
		}
	}
	return list
}

// finishedSize writes how large a piece is once it is finished.
func (p *Project) finishedSize(t *TrimPlan) string {
	st := p.Style
	size := []string{st.Length(t.Length.Value)}
	if t.Shape == TrimCircle {
		size[0] = "Ø " + size[0]
	} else {
		size = append(size, st.Length(t.Width.Value))
	}
	if t.Thickness.Value > 0 {
		size = append(size, st.Length(t.Thickness.Value))
	}
	return strings.Join(size, " × ")
}

// BottleLabels gives a label for each bottle on the shelf that is still there:
// product, part, lot, when it was opened, and what it weighs empty. Of is the
// path of a product or of one bottle whose labels are wanted; empty means all.
func BottleLabels(s *Shelf, of string) []PaperLabel {
	var list []PaperLabel
	for i := range s.Products {
		for j := range s.Products[i].Bottles {
			b := &s.Products[i].Bottles[j]
			product := shelfRoot + "/products/" + s.Products[i].ID
			if b.Gone || of != "" && of != product && of != product+"/bottles/"+b.ID {
				continue
			}
			l := PaperLabel{Title: orWord(s.Products[i].Sheet.Name, "Resin") + ", " + string(b.Part)}
			if b.Lot != "" {
				l.Lines = append(l.Lines, "Lot "+b.Lot)
			}
			opened := "Opened ____________"
			if at, ok := b.Opened.Start(); ok {
				opened = "Opened " + at.Format(dayForm)
			}
			l.Lines = append(l.Lines, opened)
			if at, ok := b.Expires.Start(); ok {
				l.Lines = append(l.Lines, "Keeps until "+at.Format(dayForm))
			}
			if b.Tare.Given() {
				l.Lines = append(l.Lines, "Empty "+s.Style.MassTo(b.Tare.Value, 0.1*unit.Gram))
			}
			list = append(list, l)
		}
	}
	return list
}
