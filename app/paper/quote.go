package paper

import (
	"fmt"
	"time"

	"meniscus/model"
)

// quotePage is a price quote as it is laid out.
type quotePage struct {
	*sheet
	paper format
	wide  float64
	y     float64
}

// The letters of a quote in points, and its margin in mm.
const (
	quoteBody   = 11
	quoteHead   = 13
	quotePrice  = 15
	quoteMargin = 20.0
)

// Quote writes a price quote as a PDF, A4 or Letter: one page for the customer,
// and where the quote has the maker's costs a second one for them. Lines of costs
// that have no room are left out and said to be; the sums stay those of all. The
// same quote and time give the same bytes.
func Quote(q model.Quote, made time.Time) ([]byte, error) {
	s, err := blankSheet("Price quote: "+q.Piece, made)
	if err != nil {
		return nil, err
	}
	x := &quotePage{sheet: s, paper: paperA4}
	if q.Letter {
		x.paper = paperLetter
	}
	x.wide = x.paper.wide - 2*quoteMargin
	x.customer(&q)
	if q.Costs != nil {
		x.costs(&q)
	}
	return s.bytes()
}

// begin begins a page with the piece's name and what the page is.
func (x *quotePage) begin(q *model.Quote, kind string) {
	x.pdf.AddPageFormat("P", sized(x.paper).Size)
	x.y = quoteMargin
	x.line(q.Piece, 20, true, 2)
	x.y++
	if q.Demo {
		kind += " · demo, invented"
	}
	x.line(kind, quoteBody, false, 1)
	x.y += 3
}

// customer is the page that goes out: what it is, the price, how long it holds,
// its care, and room for names.
func (x *quotePage) customer(q *model.Quote) {
	x.begin(q, "Price quote, "+q.Made)
	x.blanks(x.y+2, "For", "From")
	x.y += 13
	for _, f := range q.Facts {
		x.fact(f)
	}
	x.y += 5
	x.prices(q.Prices)
	x.y += 1.5
	x.line(q.Valid, quoteBody, false, 1)
	if q.Partial != "" {
		x.line(q.Partial, quoteBody, true, 1)
	}
	const agreed = 30.0 // at the foot
	if len(q.Care) > 0 {
		x.heading("How to look after it")
		for _, text := range q.Care {
			if x.y+highOf(2, quoteBody) > x.paper.high-quoteMargin-agreed {
				x.line("All of it is on the care card.", quoteBody, false, 1)
				break
			}
			x.line(text, quoteBody, false, 2)
			x.y += 0.8
		}
	}
	foot := x.paper.high - quoteMargin
	x.y = foot - 24
	x.heading("Agreed")
	x.blanks(foot-highOf(1, quoteBody)-0.5, "Name", "Date", "Signed")
}

// costs is the page that the maker keeps.
func (x *quotePage) costs(q *model.Quote) {
	c := q.Costs
	x.begin(q, "How the price comes about: for the maker, not for the customer · "+q.Made)
	each := highOf(1, quoteBody) + 1
	under := float64(len(c.Sums)+len(c.Price)+3)*each + float64(min(len(c.Lacks), 4)+1)*highOf(2, quoteBody) + 34
	room := int((x.paper.high - quoteMargin - under - x.y) / each)
	x.heading(c.For)
	shown := min(len(c.Lines), max(room, 3))
	for _, l := range c.Lines[:shown] {
		x.row(l, false)
	}
	if n := len(c.Lines) - shown; n > 0 {
		x.row(model.QuoteLine{What: fmt.Sprintf("and %d more, see Price; the sums are of all", n)}, false)
	}
	x.across(0.3)
	for i, l := range c.Sums {
		last := i == len(c.Sums)-1
		if last {
			x.across(0.3)
		}
		x.row(l, last)
	}
	x.across(0.6)
	x.heading("One piece")
	for i, l := range c.Price {
		x.row(l, i == 1) // its price
	}
	if len(c.Lacks) > 0 {
		x.heading("Not counted, since it has no price")
		for i, text := range c.Lacks {
			if i == 3 && len(c.Lacks) > 4 {
				x.line(fmt.Sprintf("and %d more, see Price", len(c.Lacks)-3), quoteBody, false, 1)
				break
			}
			x.line(text, quoteBody, false, 2)
		}
	}
}

// line sets text across the page.
func (x *quotePage) line(text string, size float64, bold bool, most int) {
	lines := clipped(x.sheet.even(bound(text), size, bold, x.wide), most)
	x.write(lines, quoteMargin, x.y, size, bold)
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
	x.pdf.Line(quoteMargin, x.y, quoteMargin+x.wide, x.y)
	x.y += 0.9
}

// blanks sets words side by side across the page, each with a line to write on.
func (x *quotePage) blanks(y float64, words ...string) {
	const apart = 5
	each := (x.wide - apart*float64(len(words)-1)) / float64(len(words))
	for i, w := range words {
		x.blank(quoteMargin+float64(i)*(each+apart), y, each, w, quoteBody)
	}
}

// fact sets what the piece is: its name, and its words or room to write them.
func (x *quotePage) fact(f model.QuoteFact) {
	const first = 38.0
	if f.Words == "" {
		x.y += 1.5
	}
	x.write([]string{f.Name}, quoteMargin, x.y, quoteBody, false)
	if f.Words == "" {
		x.blank(quoteMargin+first, x.y, x.wide-first, "", quoteBody)
		x.y += highOf(1, quoteBody) + 2
		return
	}
	lines := clipped(x.sheet.lines(bound(f.Words), quoteBody, true, x.wide-first), 3)
	x.write(lines, quoteMargin+first, x.y, quoteBody, true)
	x.y += highOf(len(lines), quoteBody) + 1
}

// row sets what it is on the left, how much of it behind that, and the amount at
// the right.
func (x *quotePage) row(l model.QuoteLine, bold bool) {
	const size = quoteBody
	base := x.y + size*point*lineOf*0.78
	name := x.wide * 0.8
	if l.Quantity != "" {
		name = x.wide*0.42 - 3
		x.write(clipped(x.sheet.lines(bound(l.Quantity), size, false, x.wide*0.38), 1), quoteMargin+x.wide*0.42, x.y, size, false)
	}
	x.write(clipped(x.sheet.lines(bound(l.What), size, bold, name), 1), quoteMargin, x.y, size, bold)
	x.font(size, bold)
	x.right(x.known(l.Amount), quoteMargin+x.wide, base)
	x.y += highOf(1, size) + 1
}

// prices sets what one, three and ten cost.
func (x *quotePage) prices(list []model.QuotePrice) {
	if len(list) == 0 {
		return
	}
	x.font(quoteBody, false)
	base := x.y + quoteBody*point*lineOf*0.78
	x.pdf.Text(quoteMargin, base, "Made in one go")
	x.right("price each", quoteMargin+x.wide*0.7, base)
	x.right("price together", quoteMargin+x.wide, base)
	x.y += highOf(1, quoteBody)
	x.across(0.6)
	for _, p := range list {
		base := x.y + quotePrice*point*lineOf*0.78
		x.font(quotePrice, false)
		x.pdf.Text(quoteMargin, base, x.known(p.Pieces))
		x.right(x.known(p.All), quoteMargin+x.wide, base)
		x.font(quotePrice, true)
		x.right(x.known(p.Each), quoteMargin+x.wide*0.7, base)
		x.y += highOf(1, quotePrice) + 1
	}
	x.across(0.3)
}
