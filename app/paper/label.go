package paper

import (
	"errors"
	"time"

	"meniscus/model"
)

// The size of a label in mm: plain numbers, as rolls come in, and three of them fill the
// width of a sheet between its margins.
const (
	labelWide   = 60.0
	labelHigh   = 30.0
	labelMargin = 2.5
	mostLabels  = 500
)

// errNoLabels says that there is nothing to print labels of.
var errNoLabels = errors.New("there is nothing to label: no bottle is on the shelf")

// Labels writes labels as a PDF, each on a page of its own size. The same labels
// and time give the same bytes.
func Labels(list []model.PaperLabel, made time.Time) ([]byte, error) {
	return labels(list, made, func(s *sheet, i int) (x, y float64) {
		s.pdf.AddPageFormat("L", sized(format{"label", labelHigh, labelWide}).Size)
		return 0, 0
	})
}

// LabelSheet writes labels side by side on sheets of A4 or Letter, with lines to
// cut along.
func LabelSheet(list []model.PaperLabel, letter bool, made time.Time) ([]byte, error) {
	paper := paperA4
	if letter {
		paper = paperLetter
	}
	rows := int((paper.high - 2*tileMargin) / labelHigh)
	const cols = 3
	left, top := (paper.wide-cols*labelWide)/2, (paper.high-float64(rows)*labelHigh)/2
	return labels(list, made, func(s *sheet, i int) (x, y float64) {
		at := i % (rows * cols)
		if at == 0 {
			s.pdf.AddPageFormat("P", sized(paper).Size)
		}
		x, y = left+float64(at%cols)*labelWide, top+float64(at/cols)*labelHigh
		s.pdf.SetLineWidth(0.1)
		s.pdf.SetDashPattern([]float64{1, 1}, 0)
		s.pdf.Rect(x, y, labelWide, labelHigh, "D")
		s.pdf.SetDashPattern(nil, 0)
		return x, y
	})
}

// labels draws labels at the places that place gives.
func labels(list []model.PaperLabel, made time.Time, place func(s *sheet, i int) (x, y float64)) ([]byte, error) {
	if len(list) == 0 {
		return nil, errNoLabels
	}
	s, err := blankSheet("Labels", made)
	if err != nil {
		return nil, err
	}
	for i := range list[:min(len(list), mostLabels)] {
		x, y := place(s, i)
		s.label(&list[i], x, y)
	}
	return s.bytes()
}

// label draws one label: its title in letters as large as there is room for.
func (s *sheet) label(l *model.PaperLabel, x, y float64) {
	const wide, most = labelWide - 2*labelMargin, 4
	lines := l.Lines[:min(len(l.Lines), most)]
	body := 8.5
	rest := float64(len(lines)) * highOf(1, body)
	size, title := 15.0, []string(nil)
	for ; ; size -= 0.5 {
		title = s.lines(l.Title, size, true, wide)
		if highOf(len(title), size)+rest <= labelHigh-2*labelMargin && len(title) <= 2 || size <= 8 {
			break
		}
	}
	for title = clipped(title, 2); len(title) > 1 && highOf(len(title), size)+rest > labelHigh-2*labelMargin; {
		title = clipped(title, len(title)-1)
	}
	s.write(title, x+labelMargin, y+labelMargin-0.5, size, true)
	at := y + labelHigh - labelMargin - rest
	for _, text := range lines {
		s.write(clipped(s.lines(bound(text), body, false, wide), 1), x+labelMargin, at, body, false)
		at += highOf(1, body)
	}
}
