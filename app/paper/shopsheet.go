package paper

import (
	"fmt"
	"time"

	"meniscus/model"
)

// The letters of a shop sheet in points, and its check square in mm.
const (
	shopBody   = 8.6
	shopHead   = 9.6
	shopName   = 18
	shopSquare = 40
	shopGutter = 6
	shopTick   = 3.6 // a box
)

// shopPage is a shop sheet as it is laid out: all of it on one page where that
// goes.
type shopPage struct {
	*sheet
	c     model.ShopSheet
	paper format
	wide  float64
	draw  func(which int, on *Patch) // 0 from above, 1 the section
	pages int                        // in all; 0 while that is not known

	high   float64 // of the drawings
	layers int     // how many are shown
	shown  []int   // how many lines of each group are, in the order of groups()
	moved  bool    // the safety notes stand on the second page
}

// ShopSheet writes a shop sheet as a PDF, A4 or Letter, with the drawings of a
// painter. It is one page where that holds all safety notes, all that stops and
// all pours; what has no room there is left out from the ends of lists, and each
// says how much that is. Else a second page goes on with all that has no room on
// the first. The same sheet and time give the same bytes.
func ShopSheet(c model.ShopSheet, by Painter, p *model.Project, pl *model.Plan, made time.Time) ([]byte, error) {
	// The first time round tells how many pages there are.
	s, err := layShopSheet(c, by, p, pl, made, 0)
	if err != nil {
		return nil, err
	}
	if n := s.pdf.PageCount(); n > 1 {
		if s, err = layShopSheet(c, by, p, pl, made, n); err != nil {
			return nil, err
		}
	}
	return s.bytes()
}

// layShopSheet lays a shop sheet out; pages is how many there are in all.
func layShopSheet(c model.ShopSheet, by Painter, p *model.Project, pl *model.Plan, made time.Time, pages int) (*sheet, error) {
	s, err := blankSheet("Shop sheet: "+c.Piece, made)
	if err != nil {
		return nil, err
	}
	x := &shopPage{sheet: s, c: c, paper: paperA4, layers: len(c.Layers), pages: pages}
	if c.Letter {
		x.paper = paperLetter
	}
	x.wide = x.paper.wide - 2*tileMargin
	if by != nil && len(pl.Drawing.Cavities) > 0 {
		x.draw = func(which int, on *Patch) {
			if which == 0 {
				by.Above(p, pl, on)
			} else {
				by.Section(p, pl, on)
			}
		}
	}
	for _, g := range x.groups() {
		x.shown = append(x.shown, len(g.Lines))
	}
	s.pdf.AddPageFormat("P", sized(x.paper).Size)
	x.fit()
	x.put()
	if x.goesOn() {
		x.rest()
	}
	return s, s.pdf.Error()
}

// goesOn tells whether there is a second page: for safety notes, for what stops,
// or for pours. Where there is one, it goes on with everything else too.
func (x *shopPage) goesOn() bool {
	return x.moved || x.shown[0] < len(x.c.Stops.Lines) || x.layers < len(x.c.Layers)
}

// groups gives all lists: the stops, those on the left, and the two on the right.
func (x *shopPage) groups() []model.SheetGroup {
	return append(append([]model.SheetGroup{x.c.Stops}, x.c.Groups...), x.c.Checks, x.c.Safety)
}

// fit finds how high the drawings can be and how much of each list there is room
// for.
func (x *shopPage) fit() {
	const most, least, smallest, fewest = 84.0, 60.0, 48.0, 2
	if x.draw != nil {
		x.high = most // without drawings it stays 0
	}
	const stops, layers = 3, 8
	x.shown[0], x.layers = min(x.shown[0], stops), min(x.layers, layers)
	for {
		over := x.over()
		side, worst := 0, over[0]
		if over[1] > worst {
			side, worst = 1, over[1]
		}
		switch {
		case worst <= 0:
			x.refill()
			return
		case x.high > least:
			x.high = max(least, x.high-2)
		case x.cut(side, fewest):
		case x.high > smallest:
			x.high = max(smallest, x.high-2)
		case side == 1 && !x.moved:
			x.move(most)
		case x.shown[0] > 1:
			x.shown[0]--
		case x.layers > fewest:
			x.layers--
		case x.cut(side, 0):
		case x.force(side):
		case x.shown[0] > 0:
			x.shown[0]--
		default:
			return
		}
	}
}

// move puts the safety notes on the second page, and begins again with the rest.
func (x *shopPage) move(high float64) {
	x.moved = true
	groups := x.groups()
	for i := 1; i < len(groups); i++ {
		x.shown[i] = len(groups[i].Lines)
	}
	x.shown[len(groups)-1] = 0
	if x.draw != nil {
		x.high = high
	}
}

// refill puts lines back for which there is room after all.
func (x *shopPage) refill() {
	groups := x.groups()
	for i, g := range groups {
		for i > 0 && x.shown[i] < len(g.Lines) && !(x.moved && i == len(groups)-1) {
			x.shown[i]++
			if over := x.over(); max(over[0], over[1]) > 0 {
				x.shown[i]--
				break
			}
		}
	}
}

// cut leaves a line out of the longest list of a side that has more lines than
// some, but for those that guard people; false where there is none.
func (x *shopPage) cut(side, fewest int) bool {
	groups := x.groups()
	longest, high := -1, 0.0
	for i := 1; i < len(groups); i++ {
		if i == len(groups)-1 || (i == len(groups)-2) != (side == 1) || x.shown[i] <= max(fewest, groups[i].Keep) {
			continue
		}
		if h := x.group(groups[i], x.shown[i], i == len(groups)-2, 0, 0, x.column(), false); h > high {
			longest, high = i, h
		}
	}
	if longest < 0 {
		return false
	}
	x.shown[longest]--
	return true
}

// force leaves out one of the lines that should stay, but for those that guard
// people; false where there is none.
func (x *shopPage) force(side int) bool {
	last := len(x.shown) - 1
	for i := last; i > 0; i-- {
		if (i >= last-1) == (side == 1) && i < last && x.shown[i] > 0 {
			x.shown[i]--
			return true
		}
	}
	return false
}

// column is how wide one of the two columns is.
func (x *shopPage) column() float64 { return (x.wide - shopGutter) / 2 }

// over tells by how much each column runs beyond the page, in mm.
func (x *shopPage) over() [2]float64 {
	foot := x.paper.high - tileMargin
	top := x.upper(false)
	left, right := x.columns(top, false)
	return [2]float64{left - (foot - shopSquare - 3), right - foot}
}

// put draws the sheet.
func (x *shopPage) put() {
	x.columns(x.upper(true), true)
	foot := x.paper.high - tileMargin
	at := rect{tileMargin, foot - shopSquare, shopSquare, shopSquare}
	x.plain()
	x.pdf.SetLineWidth(0.2)
	x.pdf.Rect(at.x, at.y, at.w, at.h, "D")
	words := "Check square: 40 mm each way, or print at 100 %"
	if x.c.Letter {
		words = "Check square: 40 mm (1.57 in) each way, or print at 100 %"
	}
	lines := x.sheet.lines(words, 8, false, shopSquare-5)
	x.write(lines, at.x+2.5, at.y+at.h-highOf(len(lines), 8)-2, 8, false)
	notes := at.x + at.w + 4
	x.write([]string{"Notes"}, notes, at.y-1, shopHead, true)
	for y := at.y + 12; y <= foot; y += 7 {
		x.rule2(notes, tileMargin+x.column(), y, 0.15)
	}
}

// rule2 draws a line across between two places.
func (x *shopPage) rule2(from, to, y, thick float64) {
	x.pdf.SetLineWidth(thick)
	x.pdf.Line(from, y, to, y)
}

// upper lays the head, the stops, the drawings and the pours out, and gives where
// it ends.
func (x *shopPage) upper(draw bool) float64 {
	y := tileMargin
	if draw {
		x.font(shopHead, true)
		x.right(x.kind(1), tileMargin+x.wide, y+5)
		x.write(clipped(x.sheet.lines(x.c.Piece, shopName, true, x.wide-32), 1), tileMargin, y-1, shopName, true)
	}
	y += highOf(1, shopName) - 0.5
	made := "Made " + x.c.Made
	if x.c.When != "" {
		made += " · " + x.c.When
	}
	if x.c.Demo {
		made += " · demo, invented"
	}
	for _, text := range []string{made, x.c.Room} {
		y += x.para(text, tileMargin, y, x.wide, 0, 1, draw)
	}
	if draw {
		x.blanks(tileMargin, y+1.2, x.wide, "Now: room", "humidity", "resin", "wood", "by")
	}
	y += 6.6
	if draw {
		x.rule2(tileMargin, tileMargin+x.wide, y, 0.5)
	}
	y += 1.5
	y = x.stops(y, draw)
	if x.draw != nil {
		half := x.wide * 0.5
		if draw {
			x.patch(tileMargin, y, half-1, x.high, func(on *Patch) { x.draw(0, on) })
			x.patch(tileMargin+half+1, y, x.wide-half-1, x.high, func(on *Patch) { x.draw(1, on) })
		}
		y += x.high + 1.5
	}
	return x.table(y, draw)
}

// stops frames what stops.
func (x *shopPage) stops(y float64, draw bool) float64 {
	if len(x.c.Stops.Lines) == 0 {
		return y
	}
	high := x.group(x.c.Stops, x.shown[0], false, tileMargin+2, y+1, x.wide-4, draw)
	if draw {
		x.pdf.SetLineWidth(0.7)
		x.pdf.Rect(tileMargin, y, x.wide, high+1.6, "D")
	}
	return y + high + 3.6
}

// columns lays the two columns out from a place down, and gives where each ends.
func (x *shopPage) columns(top float64, draw bool) (left, right float64) {
	groups := x.groups()
	left, right = top, top
	second := tileMargin + x.column() + shopGutter
	for i := 1; i < len(groups); i++ {
		if i < len(groups)-2 {
			left += x.group(groups[i], x.shown[i], false, tileMargin, left, x.column(), draw) + 1.8
		} else {
			right += x.group(groups[i], x.shown[i], i == len(groups)-2, second, right, x.column(), draw) + 1.8
		}
	}
	return left, right
}

// group lays some lines of a list out under its heading and gives how high it
// is. What is left out is said.
func (x *shopPage) group(g model.SheetGroup, shown int, ticked bool, left, top, wide float64, draw bool) float64 {
	if len(g.Lines) == 0 {
		return 0
	}
	y := top
	if draw {
		x.write(clipped(x.sheet.lines(g.Title, shopHead, true, wide), 1), left, y, shopHead, true)
	}
	y += highOf(1, shopHead) + 0.3
	const tick = shopTick
	for _, text := range g.Lines[:shown] {
		indent, rows := 0.0, 3
		if g.Whole {
			rows = mostLines
		}
		if ticked {
			indent, rows = tick+1.6, 2
			if draw {
				x.pdf.SetLineWidth(0.25)
				x.pdf.Rect(left+0.1, y+0.25, tick, tick, "D")
			}
		}
		y += x.para(text, left+indent, y, wide-indent, 2.4, rows, draw)
		if ticked {
			y += 0.2
		}
	}
	if n := len(g.Lines) - shown; n > 0 {
		y += x.para(x.left(n, shown, &g), left, y, wide, 0, 1, draw)
	}
	return y - top
}

// left says how many lines of a list are left out, and where they are.
func (x *shopPage) left(n, shown int, g *model.SheetGroup) string {
	switch {
	case !x.goesOn():
		return fmt.Sprintf("and %d more, see %s", n, g.Where)
	case shown == 0 && g.Full != nil:
		return fmt.Sprintf("All %d notes are on page 2: read them before the pour.", n)
	case shown == 0:
		return fmt.Sprintf("all %d are on page 2", n)
	}
	return fmt.Sprintf("and %d more on page 2", n)
}

// para lays running text out, its further lines set in, and gives how high it is.
func (x *shopPage) para(text string, left, top, wide, hang float64, most int, draw bool) float64 {
	lines := clipped(x.sheet.even(bound(text), shopBody, false, wide-hang), most)
	if draw && len(lines) > 0 {
		x.write(lines[:1], left, top, shopBody, false)
		x.write(lines[1:], left+hang, top+highOf(1, shopBody), shopBody, false)
	}
	return highOf(len(lines), shopBody) + 0.25
}
