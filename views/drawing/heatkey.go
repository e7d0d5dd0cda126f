package drawing

import "math"

// HeatKey is the scale of a ramp: what each of its colours stands for.
type HeatKey struct {
	Ramp      *Ramp
	Min, Max  float64
	Step      float64              // between its figures
	Format    func(float64) string // writes a figure, with its unit
	Low, High float64              // what is shown now lies between these; NaN for nothing
	Limit     float64              // 0 for none
	LimitText string               // "limit 60 °C"
}

// Paint draws the scale on the whole of a surface: above it the limit, below it
// what there is now, and the figures.
func (k HeatKey) Paint(s Surface, st Style) {
	const high, side = 12.0, 26.0
	d := newDrafter(s, st)
	b := s.Bounds()
	top := b.Centre().Y - high/2 - 2
	bar := Box{Pt{b.Min.X + side, top}, Pt{b.Max.X - side, top + high}}
	if bar.W() < 40 || !(k.Max > k.Min) {
		return
	}
	x := func(v float64) float64 { return bar.Min.X + min(max((v-k.Min)/(k.Max-k.Min), 0), 1)*bar.W() }
	k.ramp(s, bar)
	d.line("scale", narrow, d.p.Ink, nil, Loop(bar.Ring()...))
	k.now(d, bar, x)
	k.figures(d, bar, x)
	if k.Limit > 0 && k.Limit <= k.Max {
		k.limit(d, bar, x)
	}
}

// now brackets what is shown, below the bar.
func (k HeatKey) now(d drafter, bar Box, x func(float64) float64) {
	if math.IsNaN(k.Low) || k.High < k.Low {
		return
	}
	y := bar.Max.Y + 4
	from, to := x(k.Low), x(k.High)
	if to-from < 4 {
		from, to = (from+to)/2-2, (from+to)/2+2
	}
	d.line("now", wide*1.5, d.p.Ink, nil, Line(Pt{from, y}, Pt{to, y}))
	d.line("now", narrow*1.3, d.p.Ink, nil, Line(Pt{from, y + 1}, Pt{from, bar.Min.Y}), Line(Pt{to, y + 1}, Pt{to, bar.Min.Y}))
}

// ramp fills the bar, a dp at a time.
func (k HeatKey) ramp(s Surface, bar Box) {
	for x := bar.Min.X; x < bar.Max.X; {
		c := k.Ramp.step((x + 0.5 - bar.Min.X) / bar.W())
		end := x + 1
		for end < bar.Max.X && k.Ramp.step((end+0.5-bar.Min.X)/bar.W()) == c {
			end++
		}
		s.Fill("scale", k.Ramp.colours[c], Box{Pt{x, bar.Min.Y}, Pt{min(end+1, bar.Max.X), bar.Max.Y}}.Ring())
		x = end
	}
}

// figures writes the figures that have room below the bar, and at its end a
// limit that lies beyond it.
func (k HeatKey) figures(d drafter, bar Box, x func(float64) float64) {
	if !(k.Step > 0) {
		return
	}
	n := d.note(Middle)
	n.Colour = d.p.Ink
	y := bar.Max.Y + 17
	end := math.Inf(1)
	if k.Limit > k.Max {
		l := k.letters(d, End)
		at := d.s.Bounds().Max.X - 12
		d.s.Text(Pt{at, y}, k.LimitText, l)
		d.s.Fill("limit", d.p.Stop, []Pt{{at + 10, y - 4}, {at + 3, y - 8}, {at + 3, y}})
		end = at - d.s.Measure(k.LimitText, l)
	}
	last := math.Inf(-1)
	for i, c := math.Ceil(k.Min/k.Step-1e-9), 0; i*k.Step <= k.Max+1e-9 && c < mostLines; i, c = i+1, c+1 {
		at, text := x(i*k.Step), k.Format(i*k.Step)
		w := d.s.Measure(text, n)
		d.line("scale", narrow, d.p.Ink, nil, Line(Pt{at, bar.Max.Y}, Pt{at, bar.Max.Y + 3}))
		if at-w/2 < last+8 || at+w/2 > end-8 {
			continue
		}
		last = at + w/2
		d.s.Text(Pt{at, y}, text, n)
	}
}

// letters is how the limit is written.
func (k HeatKey) letters(d drafter, a Anchor) Lettering {
	return Lettering{Name: "limit", Size: small, Bold: true, Anchor: a, Colour: d.p.Stop}
}

// limit marks the limit above the bar.
func (k HeatKey) limit(d drafter, bar Box, x func(float64) float64) {
	l, at := k.letters(d, Middle), x(k.Limit)
	w := d.s.Measure(k.LimitText, l)
	d.line("limit", wide, d.p.Stop, nil, Line(Pt{at, bar.Min.Y - 4}, Pt{at, bar.Max.Y + 2}))
	b := d.s.Bounds()
	d.s.Text(Pt{min(max(at, b.Min.X+w/2), b.Max.X-w/2), bar.Min.Y - 6}, k.LimitText, l)
}
