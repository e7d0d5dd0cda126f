package paper

import (
	"time"

	"meniscus/model"
)

// The sizes of a care card (A6, ISO 216) and of the larger one (A5) that it is
// printed on where its text asks for it.
var careSizes = []format{{"A6", 105, 148}, {"A5", 148, 210}}

// careMargin is the rim of a care card in mm.
const careMargin = 9

// CareCard writes a care card as a PDF of one page: A6, or A5 where the text is
// long. The same card and time give the same bytes.
func CareCard(c model.CareSheet, made time.Time) ([]byte, error) {
	s, err := blankSheet("Care card: "+c.Title, made)
	if err != nil {
		return nil, err
	}
	at, size := careSizes[0], 0.0
	for _, at = range careSizes {
		for size = 12; size >= 8; size -= 0.5 {
			if s.care(c, at, size, false) <= at.high-careMargin {
				s.pdf.AddPageFormat("P", sized(at).Size)
				s.care(c, at, size, true)
				return s.bytes()
			}
		}
	}
	size = 8
	s.pdf.AddPageFormat("P", sized(at).Size)
	s.pdf.ClipRect(careMargin, careMargin, at.wide-2*careMargin, at.high-2*careMargin, false)
	s.care(c, at, size, true)
	s.pdf.ClipEnd()
	return s.bytes()
}

// care lays a care card out in letters of a size, and gives where it ends.
func (s *sheet) care(c model.CareSheet, at format, size float64, draw bool) float64 {
	const apart = 1.6
	wide, y := at.wide-2*careMargin, float64(careMargin)
	text := func(words string, size float64, bold bool, left float64, most int) {
		lines := clipped(s.even(bound(words), size, bold, wide-left), most)
		if draw {
			s.write(lines, careMargin+left, y, size, bold)
		}
		y += highOf(len(lines), size)
	}
	text(c.Title, 16, true, 0, 2)
	y += 0.8
	text(c.What, size, false, 0, 2)
	y += 2
	if draw {
		s.blank(careMargin, y-1, wide*0.45, "No.", size)
		s.blank(careMargin+wide*0.5, y-1, wide*0.5, "made by", size)
	}
	y += highOf(1, size) + 2
	if draw {
		s.pdf.SetLineWidth(0.4)
		s.pdf.Line(careMargin, y, careMargin+wide, y)
	}
	y += 2.4
	text("Care", size+2, true, 0, 1)
	y += 0.6
	for i, line := range c.Lines {
		if draw {
			s.pdf.SetFillColor(0, 0, 0)
			s.pdf.Circle(careMargin+0.9, y+size*point*lineOf*0.52, 0.55, "F")
			s.pdf.SetFillColor(255, 255, 255)
		}
		text(line, size, i == 0, 3.4, mostLines) // how hot it may get stands first
		y += apart
	}
	if c.Foot != "" {
		y += 0.6
		text(c.Foot, size-0.5, false, 0, 4)
	}
	return y
}
