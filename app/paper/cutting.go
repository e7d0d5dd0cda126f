package paper

import (
	"errors"
	"fmt"
	"math"
	"time"

	"github.com/go-pdf/fpdf"

	"meniscus/model"
	"meniscus/model/shape"
)

// cutSheet is a cutting sheet as it is laid out.
type cutSheet struct {
	*sheet
	c      model.CuttingSheet
	tiling tiling
	marks  []spot
	lines  []cutRun
	square float64 // mm
}

// cutRun is a line of the drawing in mm, y down, from the upper left corner of
// the box around it.
type cutRun struct {
	kind   model.CutKind
	points []spot
	closed bool
}

// pen is how a line of the drawing is drawn, by ISO 128-2: mm.
type pen struct {
	width float64
	dash  []float64
}

// cutPens are the lines of a cutting sheet.
var cutPens = map[model.CutKind]pen{
	model.LineCut:      {0.5, nil},
	model.LineLive:     {0.35, []float64{8, 1.6, 0.8, 1.6, 0.8, 1.6}},
	model.LineFinished: {0.25, nil},
	model.LineUnder:    {0.25, []float64{3, 1.5}},
}

// Cutting writes a cutting sheet as a PDF: a first page that says how it is put
// together and what to mind, then the drawing at true size over as many pages
// as it takes, upright or lying, on the sheet's paper. Each has a square to
// measure; neighbouring pages share crosses. The same sheet and time give the
// same bytes. It gives an error where it would take more pages than anybody
// tapes together.
func Cutting(c model.CuttingSheet, made time.Time) ([]byte, error) {
	s, err := blankSheet("Cutting sheet: "+c.Title, made)
	if err != nil {
		return nil, err
	}
	lines, wide, high := cutLines(&c)
	paper := paperA4
	if c.Letter {
		paper = paperLetter
	}
	const most = 100_000 // mm
	if !(wide > 0 && high > 0 && max(wide, high) < most) {
		return nil, errNoMeasures
	}
	t := tile(wide, high, paper)
	if t.rows*t.cols > mostTiles {
		return nil, fmt.Errorf("at true size this blank is %.1f by %.1f m and takes more than %d pages: check the sizes that the photo was straightened by", wide/1000, high/1000, mostTiles)
	}
	x := &cutSheet{sheet: s, c: c, tiling: t, marks: t.crosses(), lines: lines, square: c.Square.Millimetres()}
	x.front(paper)
	for row := range t.rows {
		for col := range t.cols {
			x.part(row, col)
		}
	}
	return s.bytes()
}

// errNoMeasures says that an outline cannot be drawn.
var errNoMeasures = errors.New("this blank has no size that can be drawn: trace the slab anew")

// cutLines gives the lines of a sheet, and how wide and high the drawing is.
func cutLines(c *model.CuttingSheet) (lines []cutRun, wide, high float64) {
	lines = append(lines, cutRuns(c, model.LineUnder, true, c.Under...)...)
	lines = append(lines, cutRuns(c, model.LineFinished, true, c.Upper...)...)
	lines = append(lines, cutRuns(c, model.LineLive, false, c.Live...)...)
	lines = append(lines, cutRuns(c, model.LineCut, false, c.Cuts...)...)
	lo, hi := c.Bounds()
	return lines, 1000 * (hi.X - lo.X), 1000 * (hi.Y - lo.Y)
}

// cutRuns places rings of one kind in the drawing.
func cutRuns(c *model.CuttingSheet, kind model.CutKind, closed bool, rings ...shape.Ring) (runs []cutRun) {
	lo, hi := c.Bounds()
	for _, r := range rings {
		run := cutRun{kind: kind, closed: closed}
		for _, p := range r {
			run.points = append(run.points, spot{1000 * (p.X - lo.X), 1000 * (hi.Y - p.Y)})
		}
		runs = append(runs, run)
	}
	return runs
}

// addPage begins a page of a format.
func (x *cutSheet) addPage(f format) {
	if f.wide > f.high { // the writer is told the upright size and how it lies
		x.pdf.AddPageFormat("L", fpdf.SizeType{Wd: f.high, Ht: f.wide})
		return
	}
	x.pdf.AddPageFormat("P", fpdf.SizeType{Wd: f.wide, Ht: f.high})
}

// part is the page of a row and a column.
func (x *cutSheet) part(row, col int) {
	t := &x.tiling
	x.addPage(t.page)
	const size = 12
	name := x.lines1(x.c.Title, size, true, t.wide)
	x.write(name, tileMargin, tileMargin, size, true)
	where := fmt.Sprintf("Row %d, column %d · page %d of %d · %s", row+1, col+1, x.pdf.PageNo(), 1+t.rows*t.cols, x.c.Printing[0])
	x.write(x.lines1(where, 10, false, t.wide), tileMargin, tileMargin+6, 10, false)

	from := t.origin(row, col)
	window := rect{tileMargin, tileMargin + tileHead, t.wide, t.high}
	move := func(p spot) spot { return spot{p.x - from.x + window.x, p.y - from.y + window.y} }
	x.pen(pen{width: 0.1, dash: []float64{1, 1}})
	x.pdf.Rect(window.x, window.y, window.w, window.h, "D")
	x.pdf.ClipRect(window.x, window.y, window.w, window.h, false)
	var drawn [][]spot
	for _, l := range x.lines {
		for _, run := range within(l, move, window) {
			x.pen(cutPens[l.kind])
			x.polyline(run)
			drawn = append(drawn, run)
			if l.kind == model.LineCut {
				x.ticks(run)
			}
		}
	}
	x.pdf.ClipEnd()
	x.crosses(move, window)
	x.check(window, move, drawn)
}

// rect is an upright rectangle in mm.
type rect struct{ x, y, w, h float64 }

// meets tells whether the box around two points comes within by of a rectangle.
func (r rect) meets(a, b spot, by float64) bool {
	return math.Max(a.x, b.x) >= r.x-by && math.Min(a.x, b.x) <= r.x+r.w+by &&
		math.Max(a.y, b.y) >= r.y-by && math.Min(a.y, b.y) <= r.y+r.h+by
}

// within gives the runs of a line that a window may show, moved onto the page.
func within(l cutRun, move func(spot) spot, window rect) (runs [][]spot) {
	n := len(l.points)
	edges := n - 1
	if l.closed {
		edges = n
	}
	var run []spot
	for i := range max(edges, 0) {
		a, b := move(l.points[i]), move(l.points[(i+1)%n])
		if !window.meets(a, b, 3) {
			if run != nil {
				runs = append(runs, run)
			}
			run = nil
			continue
		}
		if run == nil {
			run = []spot{a}
		}
		run = append(run, b)
	}
	if run != nil {
		runs = append(runs, run)
	}
	return runs
}

// pen chooses how lines are drawn.
func (x *cutSheet) pen(p pen) {
	x.pdf.SetLineWidth(p.width)
	x.pdf.SetDashPattern(p.dash, 0)
	x.pdf.SetLineCapStyle("butt")
	x.pdf.SetLineJoinStyle("round")
}

// polyline draws a line through points.
func (x *cutSheet) polyline(points []spot) {
	for i, p := range points {
		if i == 0 {
			x.pdf.MoveTo(p.x, p.y)
		} else {
			x.pdf.LineTo(p.x, p.y)
		}
	}
	x.pdf.DrawPath("D")
}

// ticks draws short strokes on the outside of a cut line, where the blade runs:
// the outlines run counterclockwise as seen, holes the other way, so that the
// outside lies to the right.
func (x *cutSheet) ticks(run []spot) {
	const apart, long = 12.0, 2.5
	x.pen(pen{width: 0.25})
	gone := apart / 2
	for i := range len(run) - 1 {
		a, b := run[i], run[i+1]
		dx, dy := b.x-a.x, b.y-a.y
		length := math.Hypot(dx, dy)
		if length == 0 {
			continue
		}
		dx, dy = dx/length, dy/length
		for ; gone < length; gone += apart {
			p := spot{a.x + dx*gone, a.y + dy*gone}
			x.pdf.Line(p.x, p.y, p.x+long*(-dy+dx)/math.Sqrt2, p.y+long*(dx+dy)/math.Sqrt2)
		}
		gone -= length
	}
}

// crosses draws the registration marks of a window, with their numbers.
func (x *cutSheet) crosses(move func(spot) spot, window rect) {
	const arm = 4
	x.font(8, false)
	for i, m := range x.marks {
		p := move(m)
		if p.x < window.x+arm || p.x > window.x+window.w-arm || p.y < window.y+arm || p.y > window.y+window.h-arm {
			continue
		}
		x.pen(pen{width: 0.2})
		x.pdf.Line(p.x-arm, p.y, p.x+arm, p.y)
		x.pdf.Line(p.x, p.y-arm, p.x, p.y+arm)
		x.pdf.Text(p.x+0.8, p.y-0.9, fmt.Sprint(i+1))
	}
}

// lines1 gives text on one line, cut where it has no room.
func (x *cutSheet) lines1(text string, size float64, bold bool, width float64) []string {
	lines := x.sheet.lines(text, size, bold, width)
	return clipped(lines, 1)
}
