package sight

import (
	"slices"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// rings gives the lines along which the field is a half, wood to their left as
// pixels are numbered: marching squares, straight between the middles of cells
// (Lorensen and Cline 1987 in the plane). Outside the picture nothing is wood.
// The rings neither cross nor touch.
func (f *field) rings() []shape.Ring {
	w := f.wide + 1 // corners in a row of squares, the picture's cells and one more
	// A square has its upper left corner at the cell (x, y), from -1. A ring
	// passes a side between two cells: twice the number of its first cell, and
	// one more for the side that goes down.
	side := func(x, y, down int) int { return 2*((y+1)*(w+1)+x+1) + down }
	next := map[int]int{}
	var starts []int
	link := func(from, to int) {
		next[from] = to
		starts = append(starts, from)
	}
	for y := -1; y < f.high; y++ {
		for x := -1; x < f.wide; x++ {
			a, b, c, d := f.wood(x, y), f.wood(x+1, y), f.wood(x+1, y+1), f.wood(x, y+1)
			if a == b && b == c && c == d {
				continue
			}
			up, right := side(x, y, 0), side(x+1, y, 1)
			low, left := side(x, y+1, 0), side(x, y, 1)
			// Wood to the left with y down: it lies where a quarter turn against
			// the clock of the numbers points.
			joined := (a != b && b != c && c != d) && f.value(x, y)+f.value(x+1, y)+f.value(x+1, y+1)+f.value(x, y+1) > 2
			sides := [4]int{up, right, low, left}
			corner := [4]bool{a, b, c, d} // corner k lies before side k, corner k+1 after it
			for k := range 4 {
				if !corner[k] || corner[(k+1)%4] {
					continue // the ring leaves through the sides from wood to ground
				}
				// and came in by the next side that leads back to wood, or where
				// the two woods of a saddle are joined, by that before.
				if m := (k + 1) % 4; joined {
					for corner[m] || !corner[(m+1)%4] {
						m = (m + 1) % 4
					}
					link(sides[k], sides[m])
				} else {
					m = (k + 3) % 4
					for corner[m] || !corner[(m+1)%4] {
						m = (m + 3) % 4
					}
					link(sides[k], sides[m])
				}
			}
		}
	}
	var all []shape.Ring
	for _, from := range starts {
		var r shape.Ring
		for at := from; ; {
			to, more := next[at]
			if !more {
				break
			}
			delete(next, at)
			r = append(r, f.pass(at/2%(w+1)-1, at/2/(w+1)-1, at&1))
			at = to
		}
		if len(r) >= 3 {
			all = append(all, r)
		}
	}
	return all
}

// value gives the share of wood of a cell; none is quite at the edge, so that no
// ring passes through the middle of a cell.
func (f *field) value(x, y int) float32 {
	if x < 0 || y < 0 || x >= f.wide || y >= f.high {
		return 0
	}
	v := f.at[y*f.wide+x]
	if d := v - 0.5; d >= 0 {
		return max(v, 0.51)
	}
	return min(v, 0.49)
}

func (f *field) wood(x, y int) bool { return f.value(x, y) > 0.5 }

// pass gives where the ring passes between a cell and the next to the right or
// below, in pixels.
func (f *field) pass(x, y, down int) shape.Point {
	a, b := f.value(x, y), f.value(x+1-down, y+down)
	t := float64((0.5 - a) / (b - a))
	px, py := float64(x)+0.5, float64(y)+0.5
	if down == 1 {
		py += t
	} else {
		px += t
	}
	s := float64(f.step)
	return shape.Point{X: min(max(px*s, 0), float64(f.size.X)), Y: min(max(py*s, 0), float64(f.size.Y))}
}

// sort keeps the largest ring of wood with what lies in it, and simplifies.
func (found *Found) sort(rings []shape.Ring, least, tolerance float64) {
	outer := -1
	for i, r := range rings {
		if r.Signed() > 0 && (outer < 0 || r.Signed() > rings[outer].Signed()) {
			outer = i
		}
	}
	if outer < 0 {
		return
	}
	whole := rings[outer]
	var kept []shape.Ring
	for i, r := range rings {
		if i != outer && float64(r.Area()) >= least && whole.Contains(r[0]) {
			kept = append(kept, r)
		}
	}
	kept = slices.Insert(kept, 0, whole)
	for k, r := range simplified(kept, tolerance) {
		switch {
		case k == 0:
			found.Outer = r
		case r.Signed() < 0:
			found.Holes = append(found.Holes, r)
		default:
			found.Islands = append(found.Islands, r)
		}
	}
}

// simplified thins rings out, by as much of the tolerance as leaves each of them
// whole and all of them apart.
func simplified(rings []shape.Ring, tolerance float64) []shape.Ring {
	const metre = 1e-3 // a pixel is taken for a millimetre, for outlines are looked at in metres
	for range 6 {
		thin := make([]shape.Ring, len(rings))
		check := make(shape.Region, len(rings))
		for i, r := range rings {
			thin[i] = r.Simplified(unit.Length(tolerance))
			check[i] = thin[i].Scaled(metre, metre)
		}
		if check.Validate() == nil {
			return thin
		}
		tolerance /= 2
	}
	return rings
}
