package paper

import (
	"bytes"
	"strings"
	"time"
	"unicode"

	"github.com/go-pdf/fpdf"
	"golang.org/x/image/font/sfnt"

	"meniscus/assets/fonts"
)

// The sizes of a page (A5, ISO 216) and its margin, in mm.
const (
	pageWide = 148
	pageHigh = 210
	margin   = 11
	wide     = pageWide - 2*margin
)

// A point is 1/72 of an inch; a line of text is lineOf as high as its letters.
const (
	point  = 25.4 / 72
	lineOf = 1.28
)

// block is something that stands on one page, below what is there already.
type block struct {
	high  float64 // mm
	keep  bool    // it stays with what follows it
	space float64 // above it, mm, but not at the top of a page
	draw  func(y float64)
}

// sheet is a document as it is laid out, from the top down.
type sheet struct {
	pdf  *fpdf.Fpdf
	face *sfnt.Font
	head func(page int) // draws the head of a page
	y    float64        // where the next block goes, mm
	top  bool           // nothing stands below the head yet
	held []block        // that stay with what follows
}

// blankSheet begins a document without a page.
func blankSheet(title string, made time.Time) (*sheet, error) {
	face, err := sfnt.Parse(fonts.Regular)
	if err != nil {
		return nil, err
	}
	s := &sheet{face: face, pdf: fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: pageWide, Ht: pageHigh}})}
	s.pdf.SetCatalogSort(true)
	s.pdf.SetCreationDate(made.UTC())
	s.pdf.SetModificationDate(made.UTC())
	s.pdf.SetMargins(margin, margin, margin)
	s.pdf.SetAutoPageBreak(false, 0)
	s.pdf.AddUTF8FontFromBytes("go", "", fonts.Regular)
	s.pdf.AddUTF8FontFromBytes("go", "B", fonts.Bold)
	s.pdf.SetTitle(s.known(title), true)
	s.pdf.SetCreator("Meniscus", true)
	s.pdf.SetDrawColor(0, 0, 0)
	s.pdf.SetTextColor(0, 0, 0)
	return s, s.pdf.Error()
}

// bytes gives the document.
func (s *sheet) bytes() ([]byte, error) {
	var out bytes.Buffer
	err := s.pdf.Output(&out)
	return out.Bytes(), err
}

// turn begins another page.
func (s *sheet) turn() {
	s.pdf.AddPage()
	s.y = margin
	s.top = true
	s.head(s.pdf.PageNo())
}

// flow sets a block below the last, on another page where there is no room.
// One that stays with what follows waits for it.
func (s *sheet) flow(b block) {
	if b.keep {
		s.held = append(s.held, b)
		return
	}
	s.together(append(s.held, b))
}

// together sets blocks on one page, below each other.
func (s *sheet) together(list []block) {
	s.held = nil
	high := 0.0
	for _, b := range list {
		high += b.space + b.high
	}
	if s.pdf.PageNo() == 0 || !s.top && s.y+high > pageHigh-margin {
		s.turn()
	}
	for _, b := range list {
		if s.y+b.space+b.high > pageHigh-margin && !s.top { // more than a page holds
			s.turn()
		}
		s.put(b)
		s.top = false
	}
}

// put draws a block below the last.
func (s *sheet) put(b block) {
	if !s.top {
		s.y += b.space
	}
	b.draw(s.y)
	s.y += b.high
}

// rule draws a line across the page.
func (s *sheet) rule(thick float64) {
	s.pdf.SetLineWidth(thick)
	s.pdf.Line(margin, s.y+1, margin+wide, s.y+1)
	s.y += 2
}

// known replaces what the typeface has no letter for.
func (s *sheet) known(text string) string {
	var b sfnt.Buffer
	return strings.Map(func(r rune) rune {
		switch {
		case r == nbsp:
			return r
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r):
			return -1
		case r > 0xFFFF: // beyond the first plane, which is all that is written
			return '?'
		}
		if i, err := s.face.GlyphIndex(&b, r); err != nil || i == 0 {
			return '?'
		}
		return r
	}, text)
}

// font chooses letters of a size in points.
func (s *sheet) font(size float64, bold bool) {
	style := ""
	if bold {
		style = "B"
	}
	s.pdf.SetFont("go", style, size)
}

// nbsp is a space at which no line is broken.
const nbsp = '\u00a0'

// lines breaks text at a width in mm; a word that is longer is broken within.
func (s *sheet) lines(text string, size float64, bold bool, width float64) []string {
	s.font(size, bold)
	var list []string
	line := ""
	for _, word := range strings.FieldsFunc(s.known(text), func(r rune) bool { return r == ' ' }) {
		if with := strings.TrimLeft(line+" "+word, " "); s.pdf.GetStringWidth(with) <= width {
			line = with
			continue
		}
		if line != "" {
			list = append(list, line)
		}
		line = ""
		for _, r := range word {
			if s.pdf.GetStringWidth(line+string(r)) > width && line != "" {
				list = append(list, line)
				line = ""
			}
			line += string(r)
		}
	}
	return clipped(append(list, line), mostLines)
}

// even breaks text as lines does, and somewhat earlier where that keeps the last
// line from being one word alone without making a line more.
func (s *sheet) even(text string, size float64, bold bool, width float64) []string {
	list := s.lines(text, size, bold, width)
	n := len(list)
	if n < 2 || n >= mostLines || strings.Contains(list[n-1], " ") {
		return list
	}
	for narrow := 0.96; narrow > 0.7; narrow -= 0.04 {
		if other := s.lines(text, size, bold, narrow*width); len(other) > n {
			break
		} else if strings.Contains(other[n-1], " ") {
			return other
		}
	}
	return list
}

// mostLines bounds how many lines one block has, so that a page holds it.
const mostLines = 20

// clipped gives the first lines of some, and says that there were more.
func clipped(lines []string, most int) []string {
	if len(lines) <= most {
		return lines
	}
	last := []rune(lines[most-1])
	return append(lines[:most-1:most-1], string(last[:max(len(last)-2, 0)])+"…")
}

// write draws lines of text from a place down.
func (s *sheet) write(lines []string, x, y, size float64, bold bool) {
	s.font(size, bold)
	each := size * point * lineOf
	for i, line := range lines {
		s.pdf.Text(x, y+each*(float64(i)+0.78), line)
	}
}

// highOf is how high so many lines are, in mm.
func highOf(lines int, size float64) float64 { return float64(lines) * size * point * lineOf }
