package paper

import "meniscus/model"

// box is the side of a box to tick, in mm.
const box = 5

// words is running text, indented by some mm.
func (s *sheet) words(text string, size float64, bold bool, indent float64) block {
	lines := s.even(text, size, bold, wide-indent)
	return block{high: highOf(len(lines), size) + 0.8, draw: func(y float64) { s.write(lines, margin+indent, y, size, bold) }}
}

// heading is the name of a part, which stays with it.
func (s *sheet) heading(text string) block {
	b := s.words(text, headSize, true, 0)
	b.keep, b.space = true, 3
	return b
}

// tick is a line with a box before it and, where it is asked for, room to write
// a time behind it.
func (s *sheet) tick(text string, size float64, timed bool) block {
	const indent, room = box + 3, 36
	width := float64(wide - indent)
	if timed {
		width -= room
	}
	lines := s.lines(text, size, false, width)
	high := max(highOf(len(lines), size), box) + 1.6
	return block{high: high, draw: func(y float64) {
		s.square(y + 0.3)
		s.write(lines, margin+indent, y, size, false)
		if timed {
			s.blank(margin+wide-room+3, y, room-3, "at", size)
		}
	}}
}

// square draws a box to tick.
func (s *sheet) square(y float64) {
	s.pdf.SetLineWidth(0.4)
	s.pdf.Rect(margin+0.2, y, box, box, "D")
}

// blank draws a line to write on, with a word before it.
func (s *sheet) blank(x, y, width float64, before string, size float64) {
	s.font(size, false)
	base := size * point * lineOf * 0.78
	if before != "" {
		s.pdf.Text(x, y+base, before)
		gone := s.pdf.GetStringWidth(before) + 1.5
		x, width = x+gone, width-gone
	}
	s.pdf.SetLineWidth(0.2)
	s.pdf.Line(x, y+base+0.9, x+width, y+base+0.9)
}

// pair is a time and what to do then.
func (s *sheet) pair(at, text string) block {
	const first = 32
	left := s.lines(at, nameSize, true, first-2)
	right := s.lines(text, nameSize, false, wide-first)
	return block{high: highOf(max(len(left), len(right)), nameSize) + 0.6, draw: func(y float64) {
		s.write(left, margin, y, nameSize, true)
		s.write(right, margin+first, y, nameSize, false)
	}}
}

// written is room to write two times.
func (s *sheet) written(first, second string) block {
	return block{high: highOf(1, nameSize) + 3.5, space: 2, draw: func(y float64) {
		s.blank(margin, y+1.5, wide*0.58, first, nameSize)
		s.blank(margin+wide*0.62, y+1.5, wide*0.38, second, nameSize)
	}}
}

// The columns of what is weighed, from the left margin, in mm.
const (
	rungAdd   = 36
	rungReads = 74
	rungRead  = 105 // where it is written in
)

// rungHead names the columns of what is weighed.
func (s *sheet) rungHead() block {
	return block{high: highOf(1, bodySize) + 1, draw: func(y float64) {
		s.font(bodySize, false)
		base := y + bodySize*point*lineOf*0.78
		s.right("goes in", margin+rungAdd+33, base)
		s.right("scale reads", margin+rungReads+28, base)
		s.right("it read", margin+wide, base)
	}}
}

// right writes text that ends at a place.
func (s *sheet) right(text string, x, base float64) {
	s.pdf.Text(x-s.pdf.GetStringWidth(text), base, text)
}

// rung is one step of weighing. A figure that has no room is set smaller.
func (s *sheet) rung(r model.CardRung) block {
	name := s.lines(r.What, nameSize, true, rungAdd-2)
	high := max(highOf(len(name), nameSize), highOf(1, keySize)) + 2
	return block{high: high, draw: func(y float64) {
		s.write(name, margin, y+1, nameSize, true)
		base := y + keySize*point*lineOf*0.78
		figure := func(text string, bold bool, end, room float64) {
			size := float64(keySize)
			for s.font(size, bold); s.pdf.GetStringWidth(text) > room && size > bodySize; s.font(size, bold) {
				size -= 0.5
			}
			s.right(s.known(text), end, base)
		}
		figure(r.Add, false, margin+rungAdd+33, 33)
		figure(r.Reads, true, margin+rungReads+28, 33)
		s.pdf.SetLineWidth(0.2)
		s.pdf.Line(margin+rungRead, base+0.9, margin+wide, base+0.9)
	}}
}

// moment is a step of the cure: a box, when it is due, what it is, and room for
// when it was.
func (s *sheet) moment(step model.CardStep) block {
	const indent, room, size = box + 3, 46, keySize - 3
	top, below := s.lines(step.What, size, true, wide-indent-room), []string(nil)
	if step.When != "" {
		top, below = s.lines(step.When, size, true, wide-indent-room), s.lines(step.What, bodySize, false, wide-indent)
	}
	high := highOf(len(top), size)
	return block{high: high + highOf(len(below), bodySize) + 2, draw: func(y float64) {
		s.square(y + 0.8)
		s.write(top, margin+indent, y, size, true)
		s.blank(margin+wide-room+4, y+0.6, room-4, "was", bodySize)
		s.write(below, margin+indent, y+high, bodySize, false)
	}}
}
