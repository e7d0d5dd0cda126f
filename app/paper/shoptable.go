package paper

import (
	"fmt"
	"regexp"
	"slices"

	"meniscus/model"
)

// The columns of the table of pours: where each ends, as a part of the width;
// the first two begin at the places before.
const (
	shopResin = 0.27
	shopLevel = 0.60
	shopDepth = 0.69
	shopA     = 0.80
	shopB     = 0.90
	shopTotal = 1.0
)

// table lays the pours out, each with its figures, heat and times and room for
// what they came to, and gives where it ends.
func (x *shopPage) table(y float64, draw bool) float64 {
	if len(x.c.Layers) == 0 {
		return y
	}
	y = x.tableHead(y, draw)
	first := x.first()
	for i := range x.layers {
		y = x.layer(&x.c.Layers[first+i], y, draw)
	}
	if n := len(x.c.Layers) - x.layers; n > 0 {
		y += x.para(fmt.Sprintf("and %d more pours on page 2", n), tileMargin, y, x.wide, 0, 1, draw)
	}
	if draw {
		x.rule2(tileMargin, tileMargin+x.wide, y+0.4, 0.5)
	}
	return y + 2
}

// first is the first pour that is shown on the first page: what is left out is
// what has been poured, before what is still to come.
func (x *shopPage) first() int {
	first := slices.IndexFunc(x.c.Layers, func(l model.SheetLayer) bool { return !l.Poured })
	return min(max(first, 0), len(x.c.Layers)-x.layers)
}

// at gives the place of a part of the width.
func (x *shopPage) at(part float64) float64 { return tileMargin + part*x.wide }

// base gives the baseline of a line of text below a place.
func base(y, size float64) float64 { return y + size*point*lineOf*0.78 }

// tableHead names the columns of the pours, and gives where they begin.
func (x *shopPage) tableHead(y float64, draw bool) float64 {
	at := x.at
	if draw {
		x.font(shopBody, false)
		b := base(y, shopBody)
		x.pdf.Text(at(0), b, "Pour")
		x.pdf.Text(at(shopResin), b, "Resin")
		for _, c := range []struct {
			end  float64
			name string
		}{{shopLevel, "top from floor"}, {shopDepth, "depth"}, {shopA, "A"}, {shopB, "B"}, {shopTotal, "total"}} {
			x.right(c.name, at(c.end), b)
		}
	}
	return y + highOf(1, shopBody) + 0.6
}

// layer is one row of the table.
func (x *shopPage) layer(l *model.SheetLayer, y float64, draw bool) float64 {
	const size = 10
	at := x.at
	if draw {
		x.rule2(tileMargin, tileMargin+x.wide, y, 0.2)
	}
	y += 0.6
	if draw {
		x.write(clipped(x.sheet.lines(l.Name, size, true, shopResin*x.wide-3), 1), at(0), y, size, true)
		x.write(clipped(x.sheet.lines(l.Resin, shopBody, false, (shopLevel-shopResin)*x.wide-24), 1), at(shopResin), y+0.5, shopBody, false)
		x.font(size, true)
		for _, c := range []struct {
			end, room float64
			text      string
		}{{shopLevel, 0.11, l.Level}, {shopDepth, 0.085, l.Depth}, {shopA, 0.1, l.A}, {shopB, 0.09, l.B}, {shopTotal, 0.09, l.Total}} {
			x.figure(c.text, at(c.end), base(y, size), c.room*x.wide, size)
		}
	}
	y += highOf(1, size) + 0.2
	heat := l.Heat
	if l.Tints != "" {
		heat += " · tints: " + l.Tints
	}
	y += x.para(heat, tileMargin+4, y, x.wide-4, 0, 2, draw)
	y += x.para(l.Times, tileMargin+4, y, x.wide-4, 0, 2, draw)
	if l.Poured {
		y += x.para("Has been poured: what it came to is in the journal.", tileMargin+4, y, x.wide-4, 0, 1, draw)
		return y + 0.6
	}
	if draw {
		x.blanks(tileMargin+4, y+1, x.wide-4, "Actual: A", "B", "total", "began", "ended", "hottest", "at")
	}
	return y + 6.4
}

// figure writes bold text that ends at a place, set smaller where it has no room.
func (x *shopPage) figure(text string, end, base, room, size float64) {
	for x.font(size, true); x.pdf.GetStringWidth(x.known(text)) > room && size > 6; x.font(size, true) {
		size -= 0.25
	}
	x.sheet.right(x.known(text), end, base)
}

// blanks draws lines to write on across a width, all as long, each with its word
// before it.
func (x *shopPage) blanks(left, top, wide float64, names ...string) {
	const apart = 3.0
	words := 0.0
	x.font(shopBody, false)
	for _, name := range names {
		words += x.pdf.GetStringWidth(name)
	}
	line := (wide-words)/float64(len(names)) - apart
	for i, name := range names {
		each := x.pdf.GetStringWidth(name) + line
		if i == len(names)-1 {
			each += apart // to the margin
		}
		x.blank(left, top, each, name, shopBody)
		left += each + apart
	}
}

// bound keeps figures on the line of their units.
func bound(text string) string { return figureAndUnit.ReplaceAllString(text, "$1\u00a0$2") }

// figureAndUnit finds a figure with the unit behind it.
var figureAndUnit = regexp.MustCompile(`(\d) (%|°C|°F|(?:mm|cm|m|in|ml|l|fl oz|g|kg|oz|lb|h|min|d|s|N|Pa|kPa)\b)`)
