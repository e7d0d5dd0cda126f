package drawing

import (
	"math"
	"slices"

	"meniscus/model"
)

// usable tells whether the field's parts belong together and there is resin.
func (f *HeatField) usable() bool {
	n := (len(f.Y) - 1) * (len(f.Z) - 1)
	return len(f.Y) > 1 && len(f.Z) > 1 && len(f.Value) == n && len(f.Resin) == n && slices.Contains(f.Resin, true)
}

// rows gives the first and the last row in which there is resin.
func (f *HeatField) rows() (low, high int) {
	columns := len(f.Y) - 1
	low = len(f.Z)
	for k, is := range f.Resin {
		if is {
			low, high = min(low, k/columns), max(high, k/columns)
		}
	}
	return low, high
}

// walled tells whether the field begins at a wall of the mold: there is resin at
// its left edge as high as there is any, and no wood.
func (f *HeatField) walled() bool {
	columns := len(f.Y) - 1
	low, high := f.rows()
	for row := low; row <= high; row++ {
		if !f.Resin[row*columns] {
			return false
		}
	}
	return true
}

// turned gives the field the other way round, left for right.
func (f *HeatField) turned() *HeatField {
	columns := len(f.Y) - 1
	w := &HeatField{Layer: f.Layer, Z: f.Z}
	for i := range f.Y {
		w.Y = append(w.Y, -f.Y[columns-i])
	}
	for k := range f.Value {
		m := k - k%columns + columns - 1 - k%columns
		w.Value = append(w.Value, f.Value[m])
		w.Resin = append(w.Resin, f.Resin[m])
	}
	return w
}

// field colours the resin up to the top of one layer cell by cell, cells of one
// colour in a row at once, each reaching a little under the next so that no seam
// shows. Between wood it lies in the middle of the opening, at a wall against it.
func (p *sectionPainter) field(l *model.SectionLayer) {
	const lap = 1.0
	h, f := p.c.Heat, p.c.Heat.Field
	columns := len(f.Y) - 1
	wallLeft, wallRight := p.across((l.Bottom + min(l.Top, p.d.Depth)) / 2)
	a, b := p.open(wallLeft, wallRight)
	from := (a+b)/2 - p.v.X*(f.Y[columns]-f.Y[0])/2
	if f.walled() {
		from = a
		if a > wallLeft.X+1 { // its wall is at the right
			f = f.turned()
			from = b - p.v.X*(f.Y[columns]-f.Y[0])
		}
	}
	low, high := f.rows()
	top := min(l.Top, p.d.Depth)
	x := func(i int) float64 { return from + p.v.X*(f.Y[i]-f.Y[0]) }
	y := func(j int) float64 { return p.place(0, top+f.Z[j]-f.Z[high+1]).Y }
	for row := high; row >= low; row-- {
		for i := 0; i < columns; {
			k := row*columns + i
			if !f.Resin[k] {
				i++
				continue
			}
			c := h.Ramp.step(h.share(f.Value[k]))
			end := i + 1
			for end < columns && f.Resin[row*columns+end] && h.Ramp.step(h.share(f.Value[row*columns+end])) == c {
				end++
			}
			box := Box{Pt{max(x(i), wallLeft.X), y(row + 1)}, Pt{min(x(end), wallRight.X), y(row)}}
			if end < columns {
				box.Max.X += lap
			}
			if row > low {
				box.Max.Y += lap
			}
			p.s.Fill("layer", h.Ramp.colours[c], box.Ring())
			i = end
		}
	}
	p.contours(f, Box{Pt{a, y(high + 1)}, Pt{b, y(low)}}, func(i, j int) Pt { return Pt{(x(i) + x(i+1)) / 2, (y(j) + y(j+1)) / 2} })
}

// contours draws the lines of equal value of a field, by marching through the
// squares between the middles of its cells. Their figures stand in the opening.
func (p *sectionPainter) contours(f *HeatField, opening Box, middle func(i, j int) Pt) {
	h := p.c.Heat
	if !(h.Step > 0) {
		return
	}
	columns, rows := len(f.Y)-1, len(f.Z)-1
	low, high := math.Inf(1), math.Inf(-1)
	for k, v := range f.Value {
		if f.Resin[k] {
			low, high = min(low, v), max(high, v)
		}
	}
	var taken []Box
	for k, n := math.Ceil(low/h.Step), 0; k*h.Step <= high && n < mostLines; k, n = k+1, n+1 {
		v := k * h.Step
		var paths []Path
		for j := 0; j+1 < rows; j++ {
			for i := 0; i+1 < columns; i++ {
				if a, b, ok := f.crossing(i, j, v, middle); ok {
					paths = append(paths, Line(a, b))
				}
			}
		}
		ink := h.Ramp.on(h.share(v))
		p.line("equal", narrow, Fade(ink, 0.75), nil, paths...)
		letters := Lettering{Name: "equal", Size: small, Anchor: Middle, Colour: ink}
		for _, path := range paths {
			at := path.Points[0].Add(0, small*0.36)
			if b := plateOf(p.s, at, h.Format(v), letters); opening.Holds(b) && !slices.ContainsFunc(taken, b.Overlaps) {
				taken = append(taken, p.plated(at, h.Format(v), letters, h.Ramp.At(h.share(v))))
				break
			}
		}
	}
}

// crossing gives where the line of a value runs through the square between the
// middles of four cells, of which (i, j) is the lower left; false where it does
// not, or where one of them is no resin. Of a saddle one of the two lines is
// given.
func (f *HeatField) crossing(i, j int, v float64, middle func(i, j int) Pt) (a, b Pt, ok bool) {
	columns := len(f.Y) - 1
	corners := [4][2]int{{i, j}, {i + 1, j}, {i + 1, j + 1}, {i, j + 1}}
	for _, c := range corners {
		if !f.Resin[c[1]*columns+c[0]] {
			return a, b, false
		}
	}
	var cut [4]Pt
	n := 0
	for k, c := range corners {
		d := corners[(k+1)%4]
		x, y := f.Value[c[1]*columns+c[0]], f.Value[d[1]*columns+d[0]]
		if (x < v) != (y < v) {
			cut[n] = middle(c[0], c[1]).Lerp(middle(d[0], d[1]), (v-x)/(y-x))
			n++
		}
	}
	return cut[0], cut[1], n >= 2
}
