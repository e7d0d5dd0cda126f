package paper

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/color"
	_ "image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// sawSheet is a cutting sheet of a blank of some mm, rectangular but for a live
// edge along its far side.
func sawSheet(wide, high float64, letter bool) model.CuttingSheet {
	const mm = 0.001
	live := shape.Ring{}
	const n = 60
	for i := range n + 1 {
		x := wide * (1 - float64(i)/n)
		live = append(live, shape.Point{X: x * mm, Y: (high - 0.04*high*(1-math.Cos(7*x/wide))) * mm})
	}
	live[0].Y, live[n].Y = high*mm, high*mm
	cut := shape.Ring{live[n], {}, {X: wide * mm}, live[0]}
	blank := append(shape.Ring{{}, {X: wide * mm}}, live...)
	trim := 2.0
	upper := shape.Ring{{X: trim * mm, Y: trim * mm}, {X: (wide - trim) * mm, Y: trim * mm}, {X: (wide - trim) * mm, Y: 0.9 * high * mm}, {X: trim * mm, Y: 0.9 * high * mm}}
	c := model.CuttingSheet{
		Title: "Across the fork", Made: "Tue 1 Dec 2026, 08:00 UTC", Letter: letter,
		Facts:    []string{"Slab: spalted beech, 32 mm thick", "Kerf 3 mm: the blade runs along the outside of the cut line, on the side of the ticks."},
		Printing: []string{"Print at 100 %, not fit to page; measure the square first.", "The square on each page must be 100 mm each way."},
		Lines: []model.CutLine{{Kind: model.LineCut, Words: "Cut line"}, {Kind: model.LineLive, Words: "Live edge"},
			{Kind: model.LineFinished, Words: "Finished line, upper face"}},
		Cautions: []string{"Guard and riving knife in place."},
		Square:   100 * unit.Millimetre, Measures: "100 mm",
		Blank: shape.Region{blank}, Cuts: []shape.Ring{cut}, Live: []shape.Ring{live}, Upper: shape.Region{upper},
	}
	if letter {
		c.Square, c.Measures = 4*unit.Inch, "4 in"
	}
	return c
}

// TestCuttingIsRead: all words are there for an independent reader, on pages of
// the paper's size, each with where it belongs and the words to print it by.
func TestCuttingIsRead(t *testing.T) {
	for _, letter := range []bool{false, true} {
		c := sawSheet(420, 310, letter)
		pdf, err := Cutting(c, made)
		if err != nil {
			t.Fatal(err)
		}
		words, sizes := read(t, t.TempDir(), pdf)
		want := [2]float64{210, 297} // ISO 216
		if letter {
			want = [2]float64{215.9, 279.4} // ANSI/ASME Y14.1, size A
		}
		for i, s := range sizes {
			a, b := min(s[0], s[1])/72*25.4, max(s[0], s[1])/72*25.4
			if math.Abs(a-want[0]) > 0.2 || math.Abs(b-want[1]) > 0.2 {
				t.Errorf("page %d is %.1f by %.1f mm", i+1, a, b)
			}
		}
		text := make([]string, len(sizes)+1)
		for _, w := range words {
			text[w.page] += w.text + " "
			if size := sizes[w.page-1]; w.x0 < 11/25.4*72 || w.y0 < 11/25.4*72 || w.x1 > size[0]-11/25.4*72 || w.y1 > size[1]-11/25.4*72 {
				t.Errorf("%q is too near the edge of page %d", w.text, w.page)
			}
		}
		for _, say := range append(append(append([]string{c.Title, c.Made}, c.Facts...), c.Printing...), c.Cautions...) {
			if !strings.Contains(text[1], say) {
				t.Errorf("%q is not on the first page: %s", say, text[1])
			}
		}
		tl := tile(420, 310, map[bool]format{true: paperLetter, false: paperA4}[letter])
		if len(sizes) != 1+tl.rows*tl.cols || tl.rows*tl.cols < 2 {
			t.Fatalf("%d pages for %d by %d", len(sizes), tl.rows, tl.cols)
		}
		for row := range tl.rows {
			for col := range tl.cols {
				page := text[2+row*tl.cols+col]
				for _, say := range []string{fmt.Sprintf("Row %d, column %d", row+1, col+1), c.Title, c.Printing[0], "Check square: " + c.Measures} {
					if !strings.Contains(page, say) {
						t.Errorf("%q is not on its page: %s", say, page)
					}
				}
			}
		}
	}
}

// page renders a page of a PDF with pdftoppm, of the poppler tools.
func page(t *testing.T, pdf []byte, number, dpi int) image.Image {
	t.Helper()
	dir := t.TempDir()
	file := filepath.Join(dir, "sheet.pdf")
	if err := os.WriteFile(file, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	n := strconv.Itoa(number)
	if out, err := exec.Command("pdftoppm", "-png", "-gray", "-r", strconv.Itoa(dpi), "-f", n, "-l", n, "-singlefile", file, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
		t.Fatal("pdftoppm does not draw the sheet; it is installed by assets/setup.sh: ", err, string(out))
	}
	f, err := os.Open(filepath.Join(dir, "page.png"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// ink tells how dark a picture is at a pixel, 0 to 1.
func ink(img image.Image, x, y int) float64 {
	g, _, _, _ := img.At(x, y).RGBA()
	return 1 - float64(g)/0xffff
}

// upright finds where upright lines of at least some length stand along a row of
// pixels, in mm: the middles of their ink.
func upright(img image.Image, y0, y1, dpi int) (at []float64) {
	b := img.Bounds()
	sum, weight := 0.0, 0.0
	for x := 0; x <= b.Dx(); x++ {
		dark := 0.0
		if x < b.Dx() {
			for y := y0; y < y1; y++ {
				dark += ink(img, x, y)
			}
			dark /= float64(y1 - y0)
		}
		if dark > 0.25 {
			sum, weight = sum+dark*(float64(x)+0.5), weight+dark
		} else if weight > 0 {
			at = append(at, sum/weight/float64(dpi)*25.4)
			sum, weight = 0, 0
		}
	}
	return at
}

// across is a picture seen from its side.
type across struct{ image.Image }

func (a across) Bounds() image.Rectangle {
	b := a.Image.Bounds()
	return image.Rect(b.Min.Y, b.Min.X, b.Max.Y, b.Max.X)
}

func (a across) At(x, y int) color.Color { return a.Image.At(y, x) }

// TestCuttingPrintsTrue measures the check square and the sawn outline of a
// one-page sheet in a rendered page, with a rule of pixels.
func TestCuttingPrintsTrue(t *testing.T) {
	const dpi = 300
	for _, letter := range []bool{false, true} {
		const wide, high = 171.3, 236
		c := sawSheet(wide, high, letter)
		pdf, err := Cutting(c, made)
		if err != nil {
			t.Fatal(err)
		}
		img := page(t, pdf, 2, dpi)
		px := func(mm float64) int { return int(mm / 25.4 * dpi) }
		paper := paperA4
		if letter {
			paper = paperLetter
		}
		tl := tile(wide, high, paper)
		if tl.rows*tl.cols != 1 || tl.lying {
			t.Fatalf("%+v", tl)
		}
		// The square stands at a corner or in the middle.
		square := false
		for _, y := range []float64{tileMargin + tileHead + 50, tileMargin + tileHead + tl.high/2, tileMargin + tileHead + tl.high - 50} {
			at := upright(img, px(y), px(y+8), dpi)
			found := map[string]bool{}
			for i, a := range at {
				for _, b := range at[i+1:] {
					switch d := b - a; {
					case math.Abs(d-c.Square.Millimetres()) < 0.2:
						found["square"] = true
					case math.Abs(d-wide) < 0.2:
						found["outline"] = true
					case math.Abs(d-(wide-4)) < 0.2:
						found["finished"] = true
					}
				}
			}
			for _, what := range []string{"outline", "finished"} {
				if !found[what] {
					t.Errorf("the %s is not true to 0.2 mm: upright lines at %.2f mm", what, at)
				}
			}
			square = square || found["square"]
		}
		if !square {
			t.Error("the check square is not true to 0.2 mm")
		}
		// And the same the other way: the square, and from the cut line at the foot
		// to the finished line at the head.
		side := across{img}
		square, outline := false, false
		for _, x := range []float64{tileMargin + 50, tileMargin + tl.wide/2, tileMargin + tl.wide - 50} {
			at := upright(side, px(x), px(x+8), dpi)
			for i, a := range at {
				for _, b := range at[i+1:] {
					square = square || math.Abs(b-a-c.Square.Millimetres()) < 0.2
					outline = outline || math.Abs(b-a-0.9*high) < 0.2
				}
			}
		}
		if !square || !outline {
			t.Errorf("down the page: the square is true %v, the outline %v", square, outline)
		}
	}
}

// TestCrossesCoincide: on neighbouring pages the crosses of one number show the
// same place of the drawing, as an independent reader finds their numbers, and
// no page is without one.
func TestCrossesCoincide(t *testing.T) {
	c := sawSheet(640, 520, false)
	pdf, err := Cutting(c, made)
	if err != nil {
		t.Fatal(err)
	}
	words, sizes := read(t, t.TempDir(), pdf)
	tl := tile(640, 520, paperA4)
	type place struct{ x, y float64 }
	found := map[int][]place{}
	pages := map[int]bool{}
	for _, w := range words {
		n, err := strconv.Atoi(w.text)
		if err != nil || w.page == 1 || w.y0 < (tileMargin+tileHead)/25.4*72 || w.y1-w.y0 > 11 {
			continue
		}
		row, col := (w.page-2)/tl.cols, (w.page-2)%tl.cols
		from := tl.origin(row, col)
		found[n] = append(found[n], place{w.x0/72*25.4 - tileMargin + from.x, w.y0/72*25.4 - tileMargin - tileHead + from.y})
		pages[w.page] = true
	}
	for p := range sizes[1:] {
		if !pages[p+2] {
			t.Errorf("page %d has no cross", p+2)
		}
	}
	if len(found) != len(tl.crosses()) {
		t.Errorf("%d of %d crosses are drawn", len(found), len(tl.crosses()))
	}
	for n, list := range found {
		if len(list) < 2 {
			t.Errorf("cross %d is on one page only", n)
		}
		for _, p := range list {
			if math.Abs(p.x-list[0].x) > 0.05 || math.Abs(p.y-list[0].y) > 0.05 {
				t.Errorf("cross %d lies at %v", n, list)
			}
		}
	}
	// And the ink is where the number says.
	const dpi = 200
	img := page(t, pdf, 2, dpi)
	for i, m := range tl.crosses() {
		from := tl.origin(0, 0)
		x, y := m.x-from.x+tileMargin, m.y-from.y+tileMargin+tileHead
		if x > tileMargin+tl.wide-4 || y > tileMargin+tileHead+tl.high-4 {
			continue
		}
		px, py := int(x/25.4*dpi), int(y/25.4*dpi)
		dark := 0.0
		for dx := -2; dx <= 2; dx++ {
			for dy := -2; dy <= 2; dy++ {
				dark = max(dark, ink(img, px+dx, py+dy))
			}
		}
		if dark < 0.5 {
			t.Errorf("no ink at cross %d", i+1)
		}
	}
}

// TestTilesCover: whatever the outline, each place of it lies in some window
// with room around it, neighbours share their strip, and lying or upright no
// other grid of that paper has fewer pages.
func TestTilesCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide, high := rapid.Float64Range(1, 2400).Draw(t, "wide"), rapid.Float64Range(1, 2400).Draw(t, "high")
		paper := rapid.SampledFrom([]format{paperA4, paperLetter}).Draw(t, "paper")
		tl := tile(wide, high, paper)
		covered := func(p spot) bool {
			for row := range tl.rows {
				for col := range tl.cols {
					o := tl.origin(row, col)
					if p.x >= o.x+tileRim-1e-6 && p.x <= o.x+tl.wide-tileRim+1e-6 && p.y >= o.y+tileRim-1e-6 && p.y <= o.y+tl.high-tileRim+1e-6 {
						return true
					}
				}
			}
			return false
		}
		for range 40 {
			if p := (spot{rapid.Float64Range(0, wide).Draw(t, "x"), rapid.Float64Range(0, high).Draw(t, "y")}); !covered(p) {
				t.Fatalf("%v of %v by %v lies on no page of %+v", p, wide, high, tl)
			}
		}
		for _, f := range []format{paper, paper.across()} {
			if o := tileOn(wide, high, f); o.rows*o.cols < tl.rows*tl.cols {
				t.Fatalf("%d by %d pages where %d by %d do", tl.rows, tl.cols, o.rows, o.cols)
			}
		}
		if tl.cols > 1 {
			if one, _ := windows(wide, tl.wide); one != tl.cols || wide+2*tileRim <= tl.wide+float64(tl.cols-2)*(tl.wide-tileLap) {
				t.Fatal("a column too many")
			}
		}
	})
}

// TestCuttingDrawingIsTrue reads the SVG back: its size in mm is that of its
// units, and the blank's path has the blank's area.
func TestCuttingDrawingIsTrue(t *testing.T) {
	c := sawSheet(640, 310, true)
	c.Title = "A <fork> & more"
	data := CuttingDrawing(c)
	paths := map[string]string{}
	decoder := xml.NewDecoder(bytes.NewReader(data))
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		at := map[string]string{}
		for _, a := range e.Attr {
			at[a.Name.Local] = a.Value
		}
		if e.Name.Local == "svg" && at["viewBox"] != "0 0 "+strings.TrimSuffix(at["width"], "mm")+" "+strings.TrimSuffix(at["height"], "mm") {
			t.Errorf("a unit is no mm: %v", at)
		}
		if e.Name.Local == "path" {
			paths[at["class"]] += at["d"]
		}
	}
	area := 0.0
	for _, loop := range strings.Split(strings.TrimSuffix(paths["blank"], "Z"), "Z") {
		var ring shape.Ring
		for _, p := range strings.FieldsFunc(loop, func(r rune) bool { return r == 'M' || r == 'L' }) {
			var q shape.Point
			if _, err := fmt.Sscan(p, &q.X, &q.Y); err != nil {
				t.Fatal(err)
			}
			ring = append(ring, q)
		}
		area -= ring.Signed() // y runs down
	}
	want := c.Blank[0].Area().SquareMillimetres()
	if math.Abs(area-want) > 1e-4*want {
		t.Errorf("the path has %.1f mm², the blank %.1f", area, want)
	}
	if paths["cut"] == "" || paths["live"] == "" || paths["finished"] == "" || !strings.Contains(paths["square"], "h101.6v101.6h-101.6Z") {
		t.Errorf("%v", paths)
	}
}

// TestCuttingRefuses: a blank larger than anybody tapes together is refused in
// words, and one without lines does not fail.
func TestCuttingRefuses(t *testing.T) {
	if _, err := Cutting(sawSheet(60_000, 40_000, false), made); err == nil || !strings.Contains(err.Error(), "60.0 by 40.0 m") {
		t.Error(err)
	}
	nan := sawSheet(300, 200, false)
	nan.Blank = shape.Region{{{X: math.NaN()}, {X: math.Inf(1)}, {}}}
	if _, err := Cutting(nan, made); err == nil {
		t.Error("a blank without measures was drawn")
	}
}

// TestCuttingHoldsAnyWords: whatever things are called, a sheet is written.
func TestCuttingHoldsAnyWords(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		c := sawSheet(150, 100, rapid.Bool().Draw(t, "letter"))
		c.Title, c.Facts[0], c.Lines[0].Words = odd(t, "title"), odd(t, "fact"), odd(t, "line")
		pdf, err := Cutting(c, made)
		if err != nil {
			t.Fatal(err)
		}
		words, sizes := read(t, dir, pdf)
		for _, w := range words {
			if size := sizes[w.page-1]; w.x0 < 0 || w.y0 < 0 || w.x1 > size[0] || w.y1 > size[1] {
				t.Fatalf("%q is beyond page %d", w.text, w.page)
			}
		}
		if len(sizes) != 2 {
			t.Fatalf("%d pages", len(sizes))
		}
	})
}

// TestCuttingSquareKeepsClear: no line runs through the check square where a
// page has room for it elsewhere, and it lies beside the blank where that fits.
func TestCuttingSquareKeepsClear(t *testing.T) {
	window := rect{tileMargin, tileMargin + tileHead, 186, 260}
	at := func(lines ...[]spot) rect {
		c := sawSheet(100, 60, false)
		x := &cutSheet{c: c, square: 100}
		var blank shape.Ring
		for _, p := range lines[0] {
			blank = append(blank, shape.Point{X: p.x / 1000, Y: -p.y / 1000})
		}
		x.c.Blank, x.c.Upper = shape.Region{blank}, nil
		lo, hi := x.c.Bounds()
		move := func(p spot) spot { return spot{p.x + 1000*lo.X, p.y - 1000*hi.Y} }
		closed := append(append([]spot{}, lines[0]...), lines[0][0])
		return x.place(window, move, [][]spot{closed})
	}
	// A blank over the upper 120 mm leaves room below it; a line of waves from
	// side to side at two fifths leaves the most room below, too.
	for _, deep := range []float64{20, 60, 100, 120} {
		y := window.y + deep
		r := at([]spot{{window.x + 5, window.y + 5}, {window.x + 181, window.y + 5}, {window.x + 181, y}, {window.x + 5, y}})
		if r.y < y+2 {
			t.Errorf("beside a blank %v mm deep it stands at %+v", deep, r)
		}
	}
	// One that fills the page but for its rim has it within, clear of its edge.
	r := at([]spot{{window.x + 5, window.y + 5}, {window.x + 181, window.y + 5}, {window.x + 181, window.y + 255}, {window.x + 5, window.y + 255}})
	if r.x < window.x+7 || r.y < window.y+7 || r.x+r.w > window.x+179 || r.y+r.h > window.y+253 {
		t.Errorf("it crosses the outline at %+v", r)
	}
	// A live edge that leaves room only between the five places of a cross.
	r = at([]spot{{window.x + 5, window.y + 75}, {window.x + 181, window.y + 75}, {window.x + 181, window.y + 182}, {window.x + 5, window.y + 182}})
	if top, foot := window.y+77, window.y+180; r.y < top || r.y+r.h > foot {
		t.Errorf("it crosses the outline at %+v", r)
	}
}
