package sight

import "math"

// cut finds the part of a reduced picture that gains the most: the sum of the
// gains in it less the length of its edge, where a length counts for less
// across a step of colour. Taken as a number from 0 to 1 at each cell the
// problem is convex (Chan, Esedoglu and Nikolova 2006, with the edges of
// Bresson and others 2007) and is solved by the steps of Chambolle and Pock
// (2011). u holds a guess at first and the answer at the end.
type cut struct {
	*reduced
	gain         []float32
	slack        []float32 // what a length of edge costs
	u, ahead     []float32
	down, across []float32
}

const stride = 0.35 // less than 1/√8, for which the steps settle

func newCut(r *reduced, do rows) *cut {
	n := len(r.at)
	c := &cut{reduced: r, gain: make([]float32, n), slack: make([]float32, n), u: make([]float32, n),
		ahead: make([]float32, n), down: make([]float32, n), across: make([]float32, n)}
	do(r.high, func(from, to int) {
		for i := from * r.wide; i < to*r.wide; i++ {
			s := 0.0
			if (i+1)%r.wide != 0 {
				s = step(r.at[i], r.at[i+1])
			}
			if i+r.wide < n {
				s = max(s, step(r.at[i], r.at[i+r.wide]))
			}
			c.slack[i] = float32(0.08 + 0.92/(1+s*s/(0.03*0.03)))
		}
	})
	return c
}

// settle runs so many steps from where u stands.
func (c *cut) settle(steps int, do rows) {
	copy(c.ahead, c.u)
	for range steps {
		do(c.high, c.pull)
		do(c.high, c.move)
	}
}

// pull stretches the edge between cells up to what it may cost.
func (c *cut) pull(from, to int) {
	w := c.wide
	for y := from; y < to; y++ {
		for x := range w {
			i := y*w + x
			a, d := c.across[i], c.down[i]
			if x+1 < w {
				a += stride * (c.ahead[i+1] - c.ahead[i])
			}
			if y+1 < c.high {
				d += stride * (c.ahead[i+w] - c.ahead[i])
			}
			if q, s := a*a+d*d, c.slack[i]; q > s*s {
				f := s / float32(math.Sqrt(float64(q)))
				a, d = a*f, d*f
			}
			c.across[i], c.down[i] = a, d
		}
	}
}

// move shifts each cell by what its edges and its gain pull.
func (c *cut) move(from, to int) {
	w := c.wide
	for y := from; y < to; y++ {
		for x := range w {
			i := y*w + x
			v := c.across[i] + c.down[i] + c.gain[i]
			if x > 0 {
				v -= c.across[i-1]
			}
			if y > 0 {
				v -= c.down[i-w]
			}
			old := c.u[i]
			u := min(1, max(0, old+stride*v))
			c.u[i], c.ahead[i] = u, 2*u-old
		}
	}
}

// in tells which cells are in the part.
func (c *cut) in() []bool {
	in := make([]bool, len(c.u))
	for i, u := range c.u {
		in[i] = u > 0.5
	}
	return in
}
