package paper

import (
	"fmt"
	"time"

	"meniscus/model"
)

// The sizes of the card's letters in points: it is read at arm's length, and
// what is weighed by from farther away.
const (
	bodySize  = 11.5
	nameSize  = 13
	headSize  = 15
	pieceSize = 19
	keySize   = 19
)

// Card writes a pour card as a PDF of A5 pages. The same card and time give the
// same bytes. Letters that the typeface does not have are printed as “?”.
func Card(c model.PourCard, made time.Time) ([]byte, error) {
	// The first time round tells how many pages there are.
	s, err := newSheet(c, made, 0)
	if err != nil {
		return nil, err
	}
	pages := s.pdf.PageCount()
	if s, err = newSheet(c, made, pages); err != nil {
		return nil, err
	}
	return s.bytes()
}

// newSheet lays a card out; pages is how many there are in all.
func newSheet(c model.PourCard, made time.Time, pages int) (*sheet, error) {
	s, err := blankSheet("Pour card: "+c.Piece, made)
	if err != nil {
		return nil, err
	}
	s.head = func(page int) { s.cardHead(c, page, pages) }
	if len(c.Steps) > 0 {
		s.moments("Of what has been poured", c.Steps)
	}
	for i := range c.Pours {
		if s.pdf.PageNo() > 0 {
			s.turn()
		}
		s.pour(&c.Pours[i])
	}
	touch := []block{s.heading("A gloved finger on the surface")}
	for _, t := range c.Touch {
		touch = append(touch, s.tick(t.Finds+" = "+t.Means, bodySize, true))
	}
	s.together(touch)
	s.flow(s.heading("Too hot"))
	for _, t := range c.Hot {
		s.flow(s.words(t, bodySize, true, 0))
	}
	s.flow(s.heading("Hands and lungs"))
	for _, t := range c.Safety {
		s.flow(s.words(t, bodySize, false, 0))
	}
	return s, s.pdf.Error()
}

// cardHead is the head of each page.
func (s *sheet) cardHead(c model.PourCard, page, pages int) {
	name := clipped(s.lines(c.Piece, pieceSize, true, wide), 2)
	s.put(block{high: highOf(len(name), pieceSize) + 0.8, draw: func(y float64) { s.write(name, margin, y, pieceSize, true) }})
	s.put(s.words(fmt.Sprintf("Pour card, made %s · page %d of %d", c.Made, page, pages), bodySize, false, 0))
	s.rule(0.5)
	s.y += 2
}

// pour is one pour: what comes before it, what is weighed, mixed and placed.
func (s *sheet) pour(p *model.CardPour) {
	s.flow(s.heading(p.Title))
	for _, f := range p.Facts {
		s.flow(s.words(f, bodySize, false, 0))
	}
	if len(p.Before) > 0 {
		s.flow(s.heading("Before"))
	}
	for _, t := range p.Before {
		s.flow(s.tick(t, bodySize, false))
	}
	if p.Why != "" {
		s.flow(s.heading("To weigh"))
		s.flow(s.words("Not known yet: "+p.Why, bodySize, true, 0))
	}
	for i := range p.Cups {
		s.cup(&p.Cups[i])
	}
	if n := len(p.Mixing); n > 0 {
		rows := []block{s.heading("Mix for " + p.Mixing[n-1].At)}
		for _, m := range p.Mixing {
			rows = append(rows, s.pair(m.At, m.Words))
		}
		s.together(rows)
	}
	rows := []block{s.heading("Pour"), s.written("began", "ended")}
	for _, t := range p.Placed {
		rows = append(rows, s.tick("Placed: "+t, bodySize, true))
	}
	s.together(rows)
	s.moments("When", p.Steps)
}

// cup is what the scale reads at each step, with room for what it did read.
func (s *sheet) cup(c *model.CardCup) {
	rows := []block{s.heading(c.Title)}
	if c.Note != "" {
		rows = append(rows, s.words(c.Note, bodySize, false, 0))
	}
	rows = append(rows, s.rungHead())
	for _, r := range c.Rungs {
		rows = append(rows, s.rung(r))
	}
	if c.Into != "" {
		rows = append(rows, s.words(c.Into, nameSize, true, 0))
	}
	s.together(rows)
}

// moments are the steps of a cure, each with a box and room for its time.
func (s *sheet) moments(title string, steps []model.CardStep) {
	if len(steps) == 0 {
		return
	}
	rows := []block{s.heading(title), s.words("By the plan as it was when this card was made.", bodySize, false, 0)}
	for _, step := range steps {
		rows = append(rows, s.moment(step))
	}
	s.together(rows)
}
