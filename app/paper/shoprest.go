package paper

import (
	"fmt"

	"meniscus/model"
)

// shopRest is the size of letters on the further pages of a shop sheet, in
// points: there is room.
const shopRest = 10

// kind names a page of the sheet.
func (x *shopPage) kind(page int) string {
	if x.pages < 2 {
		return "Shop sheet"
	}
	return fmt.Sprintf("Shop sheet, %d of %d", page, x.pages)
}

// rest lays out what has no room on the first page, on as many as it takes: what
// stops, what guards people, the pours, then the ends of the other lists.
func (x *shopPage) rest() {
	groups := x.groups()
	last := len(groups) - 1
	y := x.further()
	y = x.goOn(groups[0], x.shown[0], false, y)
	if x.moved {
		g := groups[last]
		if len(g.Full) > 0 {
			g.Lines = g.Full
		}
		y = x.goOn(g, 0, false, y)
	}
	y = x.restOfPours(y)
	for i := 1; i < last; i++ {
		y = x.goOn(groups[i], x.shown[i], i == last-1, y)
	}
}

// further begins a further page and gives where it begins.
func (x *shopPage) further() float64 {
	x.pdf.AddPageFormat("P", sized(x.paper).Size)
	y := tileMargin
	x.font(shopHead, true)
	x.right(x.kind(x.pdf.PageNo()), tileMargin+x.wide, base(y, shopHead))
	x.write(clipped(x.sheet.lines(x.c.Piece, shopHead, true, x.wide-45), 1), tileMargin, y, shopHead, true)
	y += highOf(1, shopHead)
	y += x.para("Made "+x.c.Made, tileMargin, y, x.wide, 0, 1, true) + 1
	x.rule2(tileMargin, tileMargin+x.wide, y, 0.5)
	return y + 3
}

// room gives where something so high begins: here, or on another page.
func (x *shopPage) room(y, high float64) float64 {
	if y+high > x.paper.high-tileMargin {
		return x.further()
	}
	return y
}

// goOn lays the lines of a list out from one of them on, and gives where it ends.
func (x *shopPage) goOn(g model.SheetGroup, from int, ticked bool, y float64) float64 {
	if from >= len(g.Lines) {
		return y
	}
	title := g.Title
	if from > 0 {
		title += ", continued"
	}
	head := highOf(1, shopName) // the title and the space above it
	for i, text := range g.Lines[from:] {
		indent, wide := 0.0, x.wide
		if ticked {
			indent, wide = box+2, x.wide-box-2
		}
		lines := x.sheet.even(bound(text), shopRest, false, wide)
		high := highOf(len(lines), shopRest) + 1
		if ticked {
			high = max(high, box+1)
		}
		if i == 0 {
			y = x.room(y, head+high)
			x.write(clipped(x.sheet.lines(title, shopName*2/3, true, x.wide), 1), tileMargin, y+1, shopName*2/3, true)
			y += head
		}
		y = x.room(y, high)
		if ticked {
			x.pdf.SetLineWidth(0.4)
			x.pdf.Rect(tileMargin+0.2, y, box, box, "D")
		}
		x.write(lines, tileMargin+indent, y, shopRest, false)
		y += high
	}
	return y + 2
}

// restOfPours lays out the pours that are not on the first page, and gives where
// they end.
func (x *shopPage) restOfPours(y float64) float64 {
	first, begun := x.first(), false
	for i := range x.c.Layers {
		if i >= first && i < first+x.layers {
			continue
		}
		l := &x.c.Layers[i]
		high := x.layer(l, 0, false)
		if !begun {
			y = x.tableHead(x.room(y, high+highOf(1, shopBody)+1), true)
			begun = true
		}
		y = x.layer(l, x.room(y, high), true)
	}
	if begun {
		x.rule2(tileMargin, tileMargin+x.wide, y+0.4, 0.5)
		y += 4
	}
	return y
}
