package cure

import (
	"math"

	"meniscus/model/unit"
)

// plane is a section made ready for the kernel: the heat that a cell takes from
// a neighbour is a coupling times their difference, in K/s. The cells lie row
// by row from the bottom. Couplings across hang on the row of blocks and the
// column of cells, those up and down on the row of cells and the column of
// blocks, since cells are alike within a block.
type plane struct {
	ny, nz  int
	y, z    []float64 // edges of columns and rows of cells, m
	columns []stretch // the cells of each column of blocks
	strip   []int     // row of blocks of each row of cells
	across  []across  // of each row of blocks
	cells   [][]cell  // of each row of cells, by column of blocks
	room    Room

	contrast float64 // of the best conductor in it to the worst
}

// stretch is a run of cells, from the first up to, not including, the second.
type stretch struct{ from, to int }

// across holds couplings to the left, to the right and to the air at the side.
type across struct{ left, right, air []float64 }

// cell is what the cells of one row in one column of blocks have in common.
type cell struct {
	down, up, air float64 // couplings
	open, cures   bool
	law           *rates
	store         float64 // heat capacity per area seen from above, J/(m² K)
}

// planeOf makes a section ready. The section must have passed its check.
func planeOf(s *Section) *plane {
	p := &plane{room: s.Room.Logged(s.Room.Log)}
	var widths, heights []float64
	var owner []int
	for i, x := range s.Columns {
		from := len(widths)
		for range x.Cells {
			widths, owner = append(widths, float64(x.Width)/float64(x.Cells)), append(owner, i)
		}
		p.columns = append(p.columns, stretch{from, len(widths)})
	}
	for i, x := range s.Rows {
		for range x.Cells {
			heights, p.strip = append(heights, float64(x.Width)/float64(x.Cells)), append(p.strip, i)
		}
	}
	least, most := math.Inf(1), 0.0
	for _, row := range s.Blocks {
		for _, x := range row {
			if k := float64(x.Conductivity); !x.Open {
				least, most = min(least, k), max(most, k)
			}
		}
	}
	p.contrast = most / least
	p.ny, p.nz, p.y, p.z = len(widths), len(heights), edges(widths), edges(heights)

	laws := make([][]rates, len(s.Rows))
	for r, row := range s.Blocks {
		a := across{make([]float64, p.ny), make([]float64, p.ny), make([]float64, p.ny)}
		for j := range p.ny {
			before, after := neighbour{film: s.Left}, neighbour{film: s.Right}
			if j > 0 {
				before = neighbour{&row[owner[j-1]], widths[j-1], s.Above}
			}
			if j < p.ny-1 {
				after = neighbour{&row[owner[j+1]], widths[j+1], s.Above}
			}
			a.left[j], a.right[j], a.air[j] = couple(&row[owner[j]], widths[j], before, after)
		}
		p.across = append(p.across, a)
		laws[r] = make([]rates, len(row))
		for c := range row {
			if x := &row[c]; !x.Open && x.Cure != nil {
				laws[r][c] = ratesOf(x.Cure, float64(x.Heat))
			}
		}
	}
	for i := range p.nz {
		r := p.strip[i]
		row := make([]cell, len(p.columns))
		for c := range row {
			x, k := &s.Blocks[r][c], &row[c]
			below, above := neighbour{film: s.Below}, neighbour{film: s.Above}
			if i > 0 {
				below = neighbour{&s.Blocks[p.strip[i-1]][c], heights[i-1], s.Above}
			}
			if i < p.nz-1 {
				above = neighbour{&s.Blocks[p.strip[i+1]][c], heights[i+1], s.Above}
			}
			k.down, k.up, k.air = couple(x, heights[i], below, above)
			k.open = x.Open
			if !x.Open {
				k.store = float64(x.Density) * float64(x.Heat) * heights[i]
				k.cures = x.Cure != nil
			}
			k.law = &laws[r][c]
		}
		p.cells = append(p.cells, row)
	}
	return p
}

// neighbour is what lies beside a cell: a block with the size of its cell
// there, or, where the block is nil or open, the air with its film.
type neighbour struct {
	*Block
	size float64
	film unit.FilmCoefficient
}

// couple gives the couplings of a cell of a block to those before and after it
// and to the air, per second.
func couple(b *Block, size float64, before, after neighbour) (back, on, air float64) {
	if b.Open {
		return 0, 0, 0
	}
	half := size / 2 / float64(b.Conductivity)
	over := 1 / (float64(b.Density) * float64(b.Heat) * size)
	back, off := before.couple(half)
	on, away := after.couple(half)
	return back * over, on * over, (off + away) * over
}

// couple gives the conductance from the middle of a cell with half its
// resistance to the neighbour, of which one is the air, in W/(m² K).
func (n *neighbour) couple(half float64) (link, air float64) {
	if n.Block == nil || n.Open {
		return 0, film(float64(n.film), half)
	}
	return 1 / (half + n.size/2/float64(n.Conductivity)), 0
}

// edges sums sizes up from 0.
func edges(sizes []float64) []float64 {
	list := make([]float64, 1, len(sizes)+1)
	for i, x := range sizes {
		list = append(list, list[i]+x)
	}
	return list
}

// start gives the state that a section starts from, and which cells are resin.
func (p *plane) start(s *Section) (t, a []float64, resin []bool) {
	for i := range p.nz {
		for c, x := range p.columns {
			b := &s.Blocks[p.strip[i]][c]
			temp, done := float64(b.From), 0.0
			switch {
			case b.Open:
				temp = float64(s.Room.At(0))
			case b.Cure != nil:
				done = min(max(b.Done, Seed), 1-leastG)
			}
			for range x.to - x.from {
				t, a, resin = append(t, temp), append(a, done), append(resin, !b.Open && b.Cure != nil)
			}
		}
	}
	return t, a, resin
}

// face is a cell that borders the air, and its conductance there in W/K per
// metre of length.
type face struct {
	cell    int
	conduct float64
}

// rim lists the faces of a section.
func (p *plane) rim() []face {
	var list []face
	for i, row := range p.cells {
		side := p.across[p.strip[i]].air
		for c, x := range p.columns {
			k := &row[c]
			for j := x.from; j < x.to; j++ {
				if w := side[j] + k.air; w != 0 {
					list = append(list, face{i*p.ny + j, w * k.store * (p.y[j+1] - p.y[j])})
				}
			}
		}
	}
	return list
}

// held gives the heat in a section above a state, in J per metre of length:
// what its cells have taken up, and what their cure has set free.
func (p *plane) held(t, a, t0, a0 []float64) (stored, released float64) {
	for i, row := range p.cells {
		for c, x := range p.columns {
			k := &row[c]
			if k.open {
				continue
			}
			for j := x.from; j < x.to; j++ {
				at := i*p.ny + j
				heat := k.store * (p.y[j+1] - p.y[j])
				stored += heat * (t[at] - t0[at])
				if k.cures {
					released += heat * k.law.warms * (a[at] - a0[at])
				}
			}
		}
	}
	return stored, released
}
