package paper

import (
	"fmt"

	"github.com/go-pdf/fpdf"

	"meniscus/model"
)

// front is the first page: what is cut, how the sheet is put together, what its
// lines mean and what to mind at the saw.
func (x *cutSheet) front(paper format) {
	x.addPage(paper)
	wide := paper.wide - 2*tileMargin
	foot := paper.high - tileMargin
	y := tileMargin
	para := func(text string, size float64, bold bool, most int) {
		lines := clipped(x.sheet.lines(text, size, bold, wide), most)
		x.write(lines, tileMargin, y, size, bold)
		y += highOf(len(lines), size) + 0.9
	}
	heading := func(text string) {
		y += 1.6
		para(text, 12, true, 1)
	}
	t := &x.tiling
	para(x.c.Title, 17, true, 2)
	para("Cutting sheet, made "+x.c.Made, bodySize-1, false, 1)
	para(x.c.Printing[0], 12.5, true, 2)
	for _, text := range x.c.Printing[1:] {
		para(text, 10.5, false, 2)
	}
	for _, f := range x.c.Facts {
		para(f, 10.5, false, 2)
	}
	heading("At the saw")
	for _, text := range x.c.Cautions {
		para(text, 10.5, false, 3)
	}
	heading("How it goes together")
	para(t.together(paper.name), 10.5, false, 2)

	square := rect{paper.wide - tileMargin - x.square, foot - x.square, x.square, x.square}
	x.checkAt(square)
	left := square.x - tileMargin - 6
	high := x.legend(tileMargin, square.y, left)
	y = square.y + high + 4
	lines := clipped(x.sheet.lines("The pages, by row and column:", 9.5, false, left), 1)
	x.write(lines, tileMargin, y, 9.5, false)
	y += highOf(1, 9.5) + 1
	x.pageMap(rect{tileMargin, y, left, foot - y})
}

// legend says what the lines mean, and gives how high it is.
func (x *cutSheet) legend(left, top, wide float64) float64 {
	const sample = 14.0
	y := top
	for _, l := range x.c.Lines {
		lines := clipped(x.sheet.lines(l.Words, 9.5, false, wide-sample-2), 2)
		mid := y + highOf(1, 9.5)/2
		x.pen(cutPens[l.Kind])
		run := []spot{{left, mid}, {left + sample, mid}}
		x.polyline(run)
		if l.Kind == model.LineCut {
			x.ticks(run)
		}
		x.write(lines, left+sample+2, y, 9.5, false)
		y += highOf(len(lines), 9.5) + 1
	}
	return y - top
}

// pageMap draws all pages with the blank over them, and which is which.
func (x *cutSheet) pageMap(r rect) {
	t := &x.tiling
	last := t.origin(t.rows-1, t.cols-1)
	wide, high := last.x+t.wide-t.left, last.y+t.high-t.top
	k := min(r.w/wide, r.h/high)
	at := func(p spot) spot { return spot{r.x + (p.x-t.left)*k, r.y + (p.y-t.top)*k} }
	var fill []fpdf.PointType
	for _, l := range cutRuns(&x.c, "", true, x.c.Blank...) {
		fill = fill[:0]
		for _, p := range l.points {
			q := at(p)
			fill = append(fill, fpdf.PointType{X: q.x, Y: q.y})
		}
		x.pdf.SetFillColor(225, 225, 225)
		x.pen(pen{width: 0.4})
		x.pdf.Polygon(fill, "FD")
		x.pdf.SetFillColor(255, 255, 255) // what a hole leaves
	}
	size := min(11, max(4, 0.32*t.high*k/point))
	for row := range t.rows {
		for col := range t.cols {
			p := at(t.origin(row, col))
			x.pen(pen{width: 0.1})
			x.pdf.Rect(p.x, p.y, t.wide*k, t.high*k, "D")
			x.font(size, false)
			name := fmt.Sprintf("%d, %d", row+1, col+1)
			x.pdf.Text(p.x+(t.wide*k-x.pdf.GetStringWidth(name))/2, p.y+t.high*k/2+0.35*size*point, name)
		}
	}
}
