package sight

import (
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

// guess gives a first guess at the wood. From the touch and from the picture's
// border the picture is flooded over the least steps of colour, and each cell
// goes to the flood that reaches it over the lower sill (a watershed from
// markers: Meyer and Beucher 1990). Grain is passed along its run; the edge of
// the wood is a sill everywhere. The touch is a disc of cells.
func guess(r *reduced, x, y, around int) []bool {
	type drop struct {
		cell int
		by   who
	}
	owner := make([]who, len(r.at))
	floods := make([][]drop, sills+1)
	touched := r.disc(x, y, around)
	for _, i := range touched {
		floods[0] = append(floods[0], drop{i, wood})
	}
	for _, i := range r.foreign(touched) {
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
	in := make([]bool, len(owner))
	for i, by := range owner {
		in[i] = by == wood
	}
	return in
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

// alike tells whether a colour has much the hue of another, in whatever light.
func alike(c, d colour) bool {
	inner := float64(c[1]*d[1] + c[2]*d[2])
	cc, dd := math.Hypot(float64(c[1]), float64(c[2])), math.Hypot(float64(d[1]), float64(d[2]))
	return cc*float64(d[0]) > 0.35*dd*float64(c[0]) && inner > 0.88*cc*dd
}

// step gives how far two colours are apart, shade counting for less than hue.
func step(a, b colour) float64 {
	d := a.minus(b)
	d[0] *= 0.7
	return math.Sqrt(float64(d.square()))
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

// foreign gives the cells of the border that are least like the touched ones:
// all that differ from every touched colour by more than grain does, and half
// of them at the least, since the wood may run out of the picture.
func (r *reduced) foreign(touched []int) (cells []int) {
	var border []int
	for i := range r.at {
		if r.outermost(i, 1) {
			border = append(border, i)
		}
	}
	off := make([]float64, len(border))
	for k, i := range border {
		off[k] = math.Inf(1)
		for _, j := range touched {
			off[k] = min(off[k], step(r.at[i], r.at[j]))
		}
	}
	sorted := slices.Sorted(slices.Values(off))
	bar := min(0.06, sorted[len(sorted)/2])
	for k, i := range border {
		if off[k] >= bar && !slices.Contains(touched, i) {
			cells = append(cells, i)
		}
	}
	return cells
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
