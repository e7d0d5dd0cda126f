package paper

import (
	"fmt"
	"math"
)

// The measures of a page that carries a part of a drawing at true size, in mm.
// Many printers leave up to 12 mm blank at an edge (common practice, no source).
const (
	tileMargin = 12.0
	tileHead   = 13.0 // for the words above the drawing
	tileLap    = 14.0 // that neighbouring pages share
	tileRim    = 3.0  // kept free around the drawing
	mostTiles  = 150
)

// format is a size of paper in mm, upright.
type format struct {
	name       string
	wide, high float64
}

// The papers: ISO 216, and ANSI/ASME Y14.1 size A.
var (
	paperA4     = format{"A4", 210, 297}
	paperLetter = format{"Letter", 215.9, 279.4}
)

// across gives the paper lying on its long side.
func (f format) across() format { return format{f.name, f.high, f.wide} }

// spot is a place on a page or in a drawing, in mm, y down.
type spot struct{ x, y float64 }

// tiling is how a drawing is shared among pages: equal windows in rows and
// columns, each sharing a strip with its neighbours.
type tiling struct {
	page       format
	lying      bool
	wide, high float64 // of a window
	rows, cols int
	left, top  float64 // where the first window begins in the drawing
}

// tile shares a drawing of some size among as few pages as it takes, upright
// ones where it comes to the same.
func tile(wide, high float64, paper format) tiling {
	up, across := tileOn(wide, high, paper), tileOn(wide, high, paper.across())
	if across.lying = true; across.rows*across.cols < up.rows*up.cols {
		return across
	}
	return up
}

func tileOn(wide, high float64, page format) tiling {
	t := tiling{page: page, wide: page.wide - 2*tileMargin, high: page.high - 2*tileMargin - tileHead}
	t.cols, t.left = windows(wide, t.wide)
	t.rows, t.top = windows(high, t.high)
	return t
}

// windows tells how many windows of a size cover a length, and where the first
// begins so that what is over lies at both ends.
func windows(length, window float64) (n int, begin float64) {
	need := length + 2*tileRim
	n = 1
	if need > window {
		n = int(math.Ceil((need-tileLap)/(window-tileLap) - 1e-9))
	}
	covered := window + float64(n-1)*(window-tileLap)
	return n, (length - covered) / 2
}

// together says how the pages are put together.
func (t *tiling) together(paper string) string {
	const tape = " of each page but the last off along its frame, lay cross on cross of the same number, and tape."
	switch {
	case t.rows*t.cols == 1:
		return "All of it is on the next page, " + paper + "."
	case t.rows == 1:
		return fmt.Sprintf("One row of %d pages, %s. Cut the right edge%s", t.cols, paper, tape)
	case t.cols == 1:
		return fmt.Sprintf("One column of %d pages, %s. Cut the lower edge%s", t.rows, paper, tape)
	}
	return fmt.Sprintf("%d rows of %d pages, %s. Cut the right and the lower edge of each page off along its frame where another page follows there, lay cross on cross of the same number, and tape.", t.rows, t.cols, paper)
}

// origin gives where the window of a row and a column begins in the drawing.
func (t *tiling) origin(row, col int) spot {
	return spot{t.left + float64(col)*(t.wide-tileLap), t.top + float64(row)*(t.high-tileLap)}
}

// crosses gives the registration marks in the drawing: in the middles of the
// shared strips, two along each page's part of a strip and one where strips
// cross. Every page draws those that lie in its window, so that the same mark on
// two pages is the same place.
func (t *tiling) crosses() []spot {
	seams := func(n int, begin, window float64) (list []float64) {
		for k := 1; k < n; k++ {
			list = append(list, begin+float64(k)*(window-tileLap)+tileLap/2)
		}
		return list
	}
	xs, ys := seams(t.cols, t.left, t.wide), seams(t.rows, t.top, t.high)
	const share = 0.25
	var list []spot
	for row := range t.rows {
		y := t.origin(row, 0).y
		for _, x := range xs {
			list = append(list, spot{x, y + share*t.high}, spot{x, y + (1-share)*t.high})
		}
		if row == t.rows-1 {
			break
		}
		for _, x := range xs {
			list = append(list, spot{x, ys[row]})
		}
		for col := range t.cols {
			x := t.origin(row, col).x
			list = append(list, spot{x + share*t.wide, ys[row]}, spot{x + (1-share)*t.wide, ys[row]})
		}
	}
	return list
}
