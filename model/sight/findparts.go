package sight

import "meniscus/model/shape"

// part is a stretch of cells that hang together and are alike.
type part struct {
	is    bool // wood
	cells []int
	rim   bool // reaches the border of the picture
}

// split gives the parts of a picture, and the number of the part of each cell.
// Cells hang together over their sides.
func (r *reduced) split(in []bool) (parts []part, of []int) {
	of = make([]int, len(in))
	for i := range of {
		of[i] = -1
	}
	for i := range in {
		if of[i] >= 0 {
			continue
		}
		p := part{is: in[i], cells: []int{i}}
		of[i] = len(parts)
		for k := 0; k < len(p.cells); k++ {
			for _, j := range r.beside(p.cells[k]) {
				if j < 0 {
					p.rim = true
				} else if of[j] < 0 && in[j] == p.is {
					of[j] = len(parts)
					p.cells = append(p.cells, j)
				}
			}
		}
		parts = append(parts, p)
	}
	return parts, of
}

// knot tells whether what lies in the wood has its hue and not the colour of the
// ground just around it, which a hole would show. It may be the colour of things
// that lie farther off.
func (s *search) knot(cells []int) bool {
	seen := 0
	for _, i := range cells {
		if s.beside.log(s.at[i]) > unknown {
			seen++
		}
	}
	if 2*seen >= len(cells) {
		return false
	}
	var taken []int
	for i, is := range s.guess {
		if is {
			taken = append(taken, i)
		}
	}
	return alike(s.average(cells), s.average(taken))
}

// clean leaves only the wood that was touched with what lies in its holes, and
// fills specks and knots. It gives the share of the picture that is wood.
func (s *search) clean(at shape.Point, least float64) (float64, error) {
	few := int(least / float64(s.step*s.step))
	parts, of := s.split(s.guess)
	for _, p := range parts {
		if len(p.cells) < few && !(p.rim && !p.is) || !p.is && !p.rim && s.knot(p.cells) {
			for _, i := range p.cells {
				s.guess[i] = !p.is
			}
		}
	}
	parts, of = s.split(s.guess)
	touched := -1
	x, y := int(at.X)/s.step, int(at.Y)/s.step
	for around := 0; around < 8 && touched < 0; around++ {
		for _, i := range s.disc(x, y, around) {
			if p := of[i]; parts[p].is && (touched < 0 || len(parts[p].cells) > len(parts[touched].cells)) {
				touched = p
			}
		}
	}
	if touched < 0 || float64(len(parts[touched].cells)) < leastShare*float64(len(s.at)) {
		return 0, ErrSpeck
	}
	// What is reached from the border without passing the touched wood is ground.
	open := make([]bool, len(s.at))
	for i := range open {
		open[i] = of[i] != touched
	}
	around, in := s.split(open)
	for i := range s.guess {
		if a := around[in[i]]; a.is && a.rim {
			s.guess[i] = false
		}
	}
	return float64(count(s.guess)) / float64(len(s.at)), nil
}
