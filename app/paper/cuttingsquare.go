package paper

import "math"

// check draws the square to measure.
func (x *cutSheet) check(window rect, move func(spot) spot, drawn [][]spot) {
	x.checkAt(x.place(window, move, drawn))
}

// place finds where the square goes: beside the blank where there is room for
// it, else where the fewest lines run through it, and of such places as near to
// a corner as it goes, the lower right one first.
func (x *cutSheet) place(window rect, move func(spot) spot, drawn [][]spot) rect {
	const (
		off  = tileLap + 5 // clear of the crosses
		step = 5.0
	)
	side := x.square
	wide, high := window.w-2*off-side, window.h-2*off-side
	var blank [][]spot
	for _, l := range cutRuns(&x.c, "", true, x.c.Blank...) {
		for i, p := range l.points {
			l.points[i] = move(p)
		}
		blank = append(blank, l.points)
	}
	best, least := rect{}, math.Inf(1)
	nx, ny := max(1, math.Ceil(wide/step)), max(1, math.Ceil(high/step))
	for i := 0.0; i <= ny; i++ {
		for j := 0.0; j <= nx; j++ {
			r := rect{window.x + off + (1-j/nx)*wide, window.y + off + (1-i/ny)*high, side, side}
			met := 0.0
			for _, run := range drawn {
				met += r.crossedBy(run, 2)
			}
			cost := 1000 * met
			if spotIn(blank, spot{r.x + side/2, r.y + side/2}) {
				cost += 500
			}
			cost += min(i, ny-i)/ny + min(j, nx-j)/nx + 0.1*(i/ny+j/nx)
			if cost < least {
				best, least = r, cost
			}
		}
	}
	return best
}

// crossedBy gives how much of a line runs through a rectangle that is larger by
// some mm all round.
func (r rect) crossedBy(run []spot, by float64) (length float64) {
	for i := range len(run) - 1 {
		a, b := run[i], run[i+1]
		if !r.meets(a, b, by) {
			continue
		}
		// The part of the edge between its two ends that lies within (the slab
		// method, one pair of sides after the other).
		from, to := 0.0, 1.0
		for _, side := range [2][4]float64{{a.x, b.x, r.x - by, r.x + r.w + by}, {a.y, b.y, r.y - by, r.y + r.h + by}} {
			d := side[1] - side[0]
			if d == 0 {
				continue // along these sides, and between them
			}
			t0, t1 := (side[2]-side[0])/d, (side[3]-side[0])/d
			from, to = max(from, min(t0, t1)), min(to, max(t0, t1))
		}
		if to > from {
			length += (to - from) * math.Hypot(b.x-a.x, b.y-a.y)
		}
	}
	return length
}

// spotIn tells whether a place lies within outlines, those of holes left out.
func spotIn(rings [][]spot, p spot) (in bool) {
	for _, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if (a.y > p.y) != (b.y > p.y) && p.x < a.x+(p.y-a.y)/(b.y-a.y)*(b.x-a.x) {
				in = !in
			}
		}
	}
	return in
}

// checkAt draws the square to measure.
func (x *cutSheet) checkAt(r rect) {
	x.pen(pen{width: 0.2})
	x.pdf.Rect(r.x, r.y, r.w, r.h, "D")
	words := "Check square: " + x.c.Measures + " each way"
	x.write(x.lines1(words, 9, false, r.w-4), r.x+2, r.y+r.h-6, 9, false)
}
