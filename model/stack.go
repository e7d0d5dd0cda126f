package model

import (
	"math"
	"strconv"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// stack is a project compiled for arithmetic: the mold with its wood, inserts
// and layers as functions of one vector of inputs.
type stack struct {
	p      *Project
	in     inputs
	cavity func(x []float64) (shape.Cavity, error) // nil while the mold is not measured
	parts  []part
	pieces []stackPiece
	insert []int // for each insert its part, or none
	layers []stackLayer
	wrong  []Problem // what is missing or cannot be

	soak, creep int // inputs
}

// none marks what has no place in a list.
const none = -1

// stackPiece is a piece that could be compiled.
type stackPiece struct {
	piece         *Piece
	faces         *faces
	body          int // its part
	voids         []int
	drilled       []int // those of the voids that were not traced with it
	height, thick int   // inputs
	lies          int   // the layer on whose floor it lies, or none
	perimeter     float64
}

// stackLayer is a layer with its product's figures.
type stackLayer struct {
	layer   *Layer
	sheet   *Sheet // nil when none is chosen
	to      int    // input
	density int    // input: mixed
	shrink  int    // input
	known   Known[unit.Density]
}

func itoa(n int) string { return strconv.Itoa(n) }

// compile turns a project into a stack. What is missing or impossible is left
// out and noted; the rest stands.
func compile(p *Project) *stack {
	s := &stack{p: p}
	s.wrong = p.Mold.leanMissing()
	if cavity, err := cavityOf(p, &s.in); err != nil {
		s.note(err)
	} else if _, err := cavity(s.in.values()); err != nil {
		s.note(&Problem{"mold", err.Error()})
	} else {
		s.cavity = cavity
	}
	s.soak = addKnown(&s.in, "mixing/soak", "soak into bare wood", taken(p.Mixing.Soak, typicalSoak))
	s.creep = addKnown(&s.in, "mixing/creep", "creep below the wood", taken(p.Mixing.Creep, typicalCreep))
	s.compileLayers()
	s.compilePieces()
	s.layDown()
	s.compileInserts()
	return s
}

// note keeps a Problem found while compiling.
func (s *stack) note(err error) {
	if p, ok := err.(*Problem); ok {
		s.wrong = append(s.wrong, *p)
		return
	}
	s.wrong = append(s.wrong, Problem{"", err.Error()})
}

func (s *stack) compileLayers() {
	type figures struct {
		density, shrink int
		known           Known[unit.Density]
	}
	done := map[string]figures{}
	for i := range s.p.Layers {
		l := &s.p.Layers[i]
		sheet := s.p.Sheet(l.Sheet)
		f, ok := done[l.Sheet]
		if !ok {
			f.known = mixedDensity(sheet)
			f.density = addKnown(&s.in, "sheets/"+l.Sheet+"/densityMixed", "mixed density", f.known)
			f.shrink = addKnown(&s.in, "sheets/"+l.Sheet+"/shrink", "shrinkage", shrinkOf(sheet))
			done[l.Sheet] = f
		}
		if !l.To.Given() {
			s.note(&Problem{"layers/" + l.ID + "/to", "say how deep " + l.Name + " is"})
		}
		to := s.p.dim(&s.in, "layers/"+l.ID+"/to", l.Name+": depth", l.To, 0)
		s.layers = append(s.layers, stackLayer{l, sheet, to, f.density, f.shrink, f.known})
	}
}

func (s *stack) compilePieces() {
	for i := range s.p.Pieces {
		w := &s.p.Pieces[i]
		f, err := facesOf(s.p, &s.in, w)
		if err != nil {
			s.note(err)
			continue
		}
		body, height, thick, err := wood(s.p, &s.in, w, f)
		if err != nil {
			s.note(err)
			continue
		}
		sp := stackPiece{piece: w, faces: f, body: len(s.parts), height: height, thick: thick, lies: none}
		sp.perimeter = (float64(f.bottom.Perimeter()) + float64(f.top.Perimeter())) / 2
		s.parts = append(s.parts, body)
		for i := range w.Voids {
			v, err := voidOf(s.p, &s.in, w, f, &w.Voids[i], height, thick)
			if err != nil {
				s.note(err)
				continue
			}
			if w.Voids[i].Kind != VoidOutline {
				sp.drilled = append(sp.drilled, len(s.parts))
			}
			sp.voids = append(sp.voids, len(s.parts))
			s.parts = append(s.parts, v)
		}
		s.pieces = append(s.pieces, sp)
	}
}

// layDown finds the pieces that lie on the mold's floor or on a layer below,
// as measured: how well that was measured does not lift them.
func (s *stack) layDown() {
	x, z := s.in.values(), 0.0
	for i := range s.layers {
		top := s.step(x, i, z)
		for k := range s.pieces {
			if w := &s.pieces[k]; top > z && math.Abs(x[w.height]-z) <= clearEnough {
				w.lies = i
			}
		}
		z = max(z, top)
	}
}

func (s *stack) compileInserts() {
	for i := range s.p.Inserts {
		ins := &s.p.Inserts[i]
		base := func([]float64) float64 { return 0 }
		switch ins.On {
		case OnHeight:
			if !ins.Height.Given() {
				s.note(&Problem{"inserts/" + ins.ID + "/height", "say how high " + ins.Name + " would rest"})
			}
			h := s.p.height(&s.in, "inserts/"+ins.ID+"/height", ins.Name+": height it rests at", ins.Height)
			base = func(x []float64) float64 { return x[h] }
		case OnLayer:
			k := s.p.LayerIndex(ins.Layer)
			if k == none {
				s.note(&Problem{"inserts/" + ins.ID + "/layer", "choose the layer that " + ins.Name + " stands on"})
				break
			}
			base = func(x []float64) float64 { return s.top(x, k) }
		}
		part, err := insertOf(s.p, &s.in, ins, base)
		if err != nil {
			s.note(err)
			s.insert = append(s.insert, none)
			continue
		}
		s.insert = append(s.insert, len(s.parts))
		s.parts = append(s.parts, part)
	}
}

// top gives the height of the top of layer k.
func (s *stack) top(x []float64, k int) float64 {
	z := 0.0
	for i := range s.layers[:k] {
		z = max(z, s.step(x, i, z))
	}
	return s.step(x, k, z)
}

// step gives the top of layer i when its bottom is at z.
func (s *stack) step(x []float64, i int, z float64) float64 {
	l := &s.layers[i]
	return l.layer.topAt(z, x[l.to], s.depth(x), s.p.Mold.Depth.Given())
}

// depth gives the mold's depth; the first input is always that.
func (s *stack) depth(x []float64) float64 {
	if s.cavity == nil {
		return float64(s.p.Mold.Depth.Value)
	}
	return x[0]
}

// fill builds the fill for one vector of inputs, into f so that a Monte Carlo
// need not allocate its list anew.
func (s *stack) fill(x []float64, f *Fill) error {
	if s.cavity == nil {
		return errNoMold
	}
	c, err := s.cavity(x)
	if err != nil {
		return err
	}
	f.cavity, f.count = c, s.p.Mold.Cavities()
	f.parts = f.parts[:0]
	for i := range s.parts {
		p := &s.parts[i]
		f.parts = append(f.parts, placed{p.solid(x), p.cavity, p.count})
	}
	return nil
}

// taking is what one layer takes, in parts.
type taking struct {
	bottom, top              float64
	net, creep, soak, refill unit.Volume
	mass                     unit.Mass
}

// volume is all that goes into the mold.
func (t taking) volume() unit.Volume { return t.net + t.creep + t.soak + t.refill }

// takings computes what each layer takes, into out.
func (s *stack) takings(x []float64, f *Fill, out []taking) {
	z, below := 0.0, unit.Volume(0)
	reached := unit.Volume(0) // resin below z
	for i := range s.layers {
		l := &s.layers[i]
		t := &out[i]
		*t = taking{bottom: z, top: s.step(x, i, z)}
		if t.top > t.bottom {
			full := f.Below(unit.Length(t.top))
			t.net = full - reached
			reached = full
			s.allow(x, i, t)
			if i > 0 && !s.p.Mixing.NoRefill {
				// The layer below has sunk by its shrinkage since it was poured.
				t.refill = below.Times(x[s.layers[i-1].shrink])
			}
		}
		t.mass = t.volume().Of(unit.Density(x[l.density]))
		z, below = max(z, t.top), t.net
	}
}

// flush is how far a pour must rise over the top of the wood to cover it.
const flush = 1e-6

// allow adds what the wood takes from layer k: a film drawn into its bare
// sides, into its top where the pour covers it and into an underside that
// stands clear of what is below, and what creeps below a piece that lies there
// and is not stuck down.
func (s *stack) allow(x []float64, k int, t *taking) {
	for i := range s.pieces {
		w := &s.pieces[i]
		bottom := x[w.height]
		top := bottom + x[w.thick]
		under, _, over := w.faces.areas(x)
		if !w.piece.Sealed {
			wet := w.perimeter * max(0, min(top, t.top)-max(bottom, t.bottom))
			if top+flush >= t.bottom && top+flush < t.top {
				wet += float64(over)
			}
			if w.lies == none && bottom >= t.bottom && bottom < t.top {
				wet += float64(under)
			}
			t.soak += unit.Volume(wet * x[s.soak])
		}
		if !w.piece.Bedded && w.lies == k {
			t.creep += under.By(unit.Length(x[s.creep]))
		}
	}
}
