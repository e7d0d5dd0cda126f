package sight

import (
	"cmp"
	"math"
	"slices"
)

// who tells which flood a cell belongs to.
type who uint8

const (
	nobody who = iota
	wood
	ground
)

// sills is how many heights of a sill are told apart per unit of colour.
const sills = 1000

// flooded gives the cells that a flood over the least steps of colour reaches
// from some cells of wood over a lower sill than from some of ground (a watershed
// from markers: Meyer and Beucher 1990). Grain is passed along its run; the edge
// of the wood is a sill everywhere.
func (r *reduced) flooded(in, out []int) []bool {
	type drop struct {
		cell int
		by   who
	}
	owner := make([]who, len(r.at))
	floods := make([][]drop, sills+1)
	for _, i := range in {
		floods[0] = append(floods[0], drop{i, wood})
	}
	for _, i := range out {
		floods[0] = append(floods[0], drop{i, ground})
	}
	for sill := range floods {
		for k := 0; k < len(floods[sill]); k++ {
			d := floods[sill][k]
			if owner[d.cell] != nobody {
				continue
			}
			owner[d.cell] = d.by
			for _, j := range r.beside(d.cell) {
				if j >= 0 && owner[j] == nobody {
					at := min(max(int(sills*step(r.at[d.cell], r.at[j])), sill), sills)
					floods[at] = append(floods[at], drop{j, d.by})
				}
			}
		}
		floods[sill] = nil
	}
	is := make([]bool, len(owner))
	for i, by := range owner {
		is[i] = by == wood
	}
	return is
}

// wrapping gives the cells of a guess that are ground round the wood: broader
// than bark, of another hue, and along most of the edge of the guess. The hue
// must be that of more than a spot.
func (r *reduced) wrapping(guess []bool, hue colour) (cells []int) {
	kin := make([]bool, len(guess))
	edge, other := 0, 0
	for i, d := range r.away(guess, true, 2) {
		kin[i] = guess[i] && alike(r.at[i], hue)
		if d == 1 {
			if edge++; !kin[i] {
				other++
			}
		}
	}
	if 3*other < 2*edge || count(kin) < len(kin)/100 {
		return nil
	}
	for i, clear := range r.clearOf(kin) {
		if clear && guess[i] {
			cells = append(cells, i)
		}
	}
	return cells
}

// doubtful gives the cells outside a guess that have the hue of its wood and a
// colour not met with farther out, as sapwood and bark do beside heartwood.
func (r *reduced) doubtful(guess []bool) []bool {
	doubt := make([]bool, len(guess))
	var taken, far []colour
	margin := r.margin()
	away := r.away(guess, false, 5*margin)
	for i, c := range r.at {
		if guess[i] {
			taken = append(taken, c)
		} else if int(away[i]) == 5*margin || int(away[i]) > margin && r.outermost(i, margin) {
			far = append(far, c)
		}
	}
	if len(far) < len(guess)/20 {
		return doubt
	}
	known, hue := learn(some(far), clouds).shaded(darker), average(taken)
	for i, c := range r.at {
		doubt[i] = !guess[i] && alike(c, hue) && known.log(c) < unknown
	}
	return doubt
}

// outermost tells whether a cell lies within so many of the border.
func (r *reduced) outermost(i, cells int) bool {
	x, y := i%r.wide, i/r.wide
	return min(x, y, r.wide-1-x, r.high-1-y) < cells
}

// alike tells whether a colour has about the hue of another, in whatever light:
// that of pale sapwood beside red heartwood, not that of grey or blue. What is
// nearly grey is like what is nearly grey.
func alike(c, d colour) bool {
	cl, dl := max(c[0], 0.05), max(d[0], 0.05)
	ca, cb, da, db := float64(c[1]/cl), float64(c[2]/cl), float64(d[1]/dl), float64(d[2]/dl)
	cc, dd := math.Hypot(ca, cb), math.Hypot(da, db)
	if dd < 0.03 {
		return cc < 0.06
	}
	return cc > 0.35*dd && ca*da+cb*db > 0.8*cc*dd
}

// step gives how far two colours are apart, shade counting for less than hue.
func step(a, b colour) float64 {
	d := a.minus(b)
	d[0] *= 0.7
	return math.Sqrt(float64(d.square()))
}

// average gives the mean colour of some cells.
func (r *reduced) average(cells []int) colour {
	of := make([]colour, len(cells))
	for k, i := range cells {
		of[k] = r.at[i]
	}
	return average(of)
}

// disc gives the cells around one.
func (r *reduced) disc(x, y, around int) (cells []int) {
	for j := max(0, y-around); j <= min(r.high-1, y+around); j++ {
		for i := max(0, x-around); i <= min(r.wide-1, x+around); i++ {
			if (i-x)*(i-x)+(j-y)*(j-y) <= around*around {
				cells = append(cells, j*r.wide+i)
			}
		}
	}
	return cells
}

// beside gives the four neighbours of a cell, -1 where the picture ends.
func (r *reduced) beside(i int) (n [4]int) {
	n = [4]int{i - 1, i + 1, i - r.wide, i + r.wide}
	if i%r.wide == 0 {
		n[0] = -1
	}
	if (i+1)%r.wide == 0 {
		n[1] = -1
	}
	if i+r.wide >= len(r.at) {
		n[3] = -1
	}
	if i < r.wide {
		n[2] = -1
	}
	return n
}

// foreign gives the cells of the border to flood from as ground. Wood may run
// out of the picture, sapwood and bark with it, so those of another hue are
// taken; where they are fewer than half, the half of the border that is least
// like the wood.
func (r *reduced) foreign(hue colour) []int {
	var border, others []int
	for i, c := range r.at {
		if r.outermost(i, 1) {
			border = append(border, i)
			if !alike(c, hue) {
				others = append(others, i)
			}
		}
	}
	if 2*len(others) > len(border) {
		return others
	}
	slices.SortStableFunc(border, func(i, j int) int { return cmp.Compare(step(r.at[j], hue), step(r.at[i], hue)) })
	return border[:len(border)/2]
}

// away gives the distance in cells of each cell from those that are in, counted
// in steps to the side, at most far; with not, from those that are out.
func (r *reduced) away(in []bool, not bool, far int) []uint8 {
	d := make([]uint8, len(in))
	var edge []int
	for i, is := range in {
		if is != not {
			edge = append(edge, i)
		} else {
			d[i] = uint8(far)
		}
	}
	for n := 1; n < far; n++ {
		var next []int
		for _, i := range edge {
			for _, j := range r.beside(i) {
				if j >= 0 && int(d[j]) > n {
					d[j] = uint8(n)
					next = append(next, j)
				}
			}
		}
		edge = next
	}
	return d
}
