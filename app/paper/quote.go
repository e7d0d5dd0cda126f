package paper

import (
	"fmt"
	"time"

	"meniscus/model"
)

// quotePage is a price quote as it is laid out.
type quotePage struct {
	*sheet
	wide float64
	y    float64
}

// The letters of a quote in points.
const (
	quoteBody = 10
	quoteHead = 12
)

// Quote writes a price quote as a PDF of one page, A4 or Letter: lines that have
// no room are left out and said to be; the sums stay those of all. The same quote
// and time give the same bytes.
func Quote(q model.Quote, made time.Time) ([]byte, error) {
	s, err := blankSheet("Price quote: "+q.Piece, made)
	if err != nil {
		return nil, err
	}
	paper := paperA4
	if q.Letter {
		paper = paperLetter
	}
	x := &quotePage{sheet: s, wide: paper.wide - 2*20}
	s.pdf.AddPageFormat("P", sized(paper).Size)
	x.y = 20
	x.line(q.Piece, 20, true, 2)
	x.y += 1
	made2 := "Price quote, " + q.Made
	if q.Demo {
		made2 += " · demo, invented"
	}
	x.line(made2, quoteBody, false, 1)
	for _, f := range q.Facts {
		x.line(f, quoteBody, false, 2)
	}
	x.y += 5
	x.prices(q.Prices)
	if len(q.Lacks) > 0 {
		x.line("Not complete: what has no price is not in it, see below.", quoteBody, true, 1)
	}
	each := highOf(1, quoteBody) + 1
	under := float64(len(q.Sums)+2)*each + float64(min(len(q.Lacks), 4)+1)*highOf(2, quoteBody) + 26
	room := int((paper.high - 20 - under - x.y) / each)
	x.heading(q.For)
	shown := min(len(q.Lines), max(room, 3))
	for _, l := range q.Lines[:shown] {
		x.row(l.What, l.Quantity, l.Amount, false)
	}
	if n := len(q.Lines) - shown; n > 0 {
		x.row(fmt.Sprintf("and %d more, see Price; the sums are of all", n), "", "", false)
	}
	x.across(0.3)
	for i, l := range q.Sums {
		last := i == len(q.Sums)-1
		if last {
			x.across(0.3)
		}
		x.row(l.What, l.Quantity, l.Amount, last)
	}
	x.across(0.6)
	if len(q.Lacks) > 0 {
		x.heading("Not counted, since it has no price")
		for i, text := range q.Lacks {
			if i == 3 && len(q.Lacks) > 4 {
				x.line(fmt.Sprintf("and %d more, see Price", len(q.Lacks)-3), quoteBody, false, 1)
				break
			}
			x.line(text, quoteBody, false, 2)
		}
	}
	return s.bytes()
}

// line sets text across the page.
func (x *quotePage) line(text string, size float64, bold bool, most int) {
	lines := clipped(x.sheet.lines(bound(text), size, bold, x.wide), most)
	x.write(lines, 20, x.y, size, bold)
	x.y += highOf(len(lines), size) + 0.6
}

func (x *quotePage) heading(text string) {
	x.y += 5
	x.line(text, quoteHead, true, 1)
	x.across(0.3)
}

func (x *quotePage) across(thick float64) {
	x.y += 0.6
	x.pdf.SetLineWidth(thick)
	x.pdf.Line(20, x.y, 20+x.wide, x.y)
	x.y += 0.9
}

// row sets what it is on the left, how much of it behind that, and the amount at
// the right.
func (x *quotePage) row(what, quantity, amount string, bold bool) {
	const size = quoteBody
	base := x.y + size*point*lineOf*0.78
	name := x.wide * 0.8
	if quantity != "" {
		name = x.wide*0.42 - 3
		x.write(clipped(x.sheet.lines(bound(quantity), size, false, x.wide*0.38), 1), 20+x.wide*0.42, x.y, size, false)
	}
	x.write(clipped(x.sheet.lines(bound(what), size, bold, name), 1), 20, x.y, size, bold)
	x.font(size, bold)
	x.right(x.known(amount), 20+x.wide, base)
	x.y += highOf(1, size) + 1
}

// prices sets what one, three and ten cost.
func (x *quotePage) prices(list []model.QuotePrice) {
	if len(list) == 0 {
		return
	}
	x.font(quoteBody, false)
	base := x.y + quoteBody*point*lineOf*0.78
	x.pdf.Text(20, base, "Made in one go")
	x.right("each", 20+x.wide*0.7, base)
	x.right("together", 20+x.wide, base)
	x.y += highOf(1, quoteBody)
	x.across(0.6)
	const size = 14
	for _, p := range list {
		base := x.y + size*point*lineOf*0.78
		x.font(size, false)
		x.pdf.Text(20, base, x.known(p.Pieces))
		x.right(x.known(p.All), 20+x.wide, base)
		x.font(size, true)
		x.right(x.known(p.Each), 20+x.wide*0.7, base)
		x.y += highOf(1, size) + 1
	}
	x.across(0.3)
}
