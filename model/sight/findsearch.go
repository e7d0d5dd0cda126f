package sight

import "math"

// search tells wood from ground at one scale.
type search struct {
	*cut
	do       rows
	guess    []bool  // the wood as far as it is known
	doubtful []bool  // no ground is learnt from here
	reach    float64 // as asked for, 0 where it is chosen here
	used     float64
	wood     mixture
	ground   mixture
	beside   mixture   // what there is much of just around the guess
	raw      []float32 // what the colours alone say: more than 0 is wood
}

const (
	clouds   = 8    // of colours that the ground is taken for
	rim      = 0.03 // of the longer side: so broad may bark or a contact shadow be
	weigh    = 0.12 // what a cell's colour counts against a length of edge
	surest   = 4    // more than that no cell's colour may say
	stranger = 0.02 // share of either class that may have any colour at all
	around   = 0.6  // share of the ground that lies near the wood, such as the mold's floor
	darker   = 0.15 // share of the ground that lies in shadows not seen elsewhere
)

// unknown is the logarithm of the density that strangers have among all colours,
// which fill 1 × 0.4 × 0.4.
var unknown = float32(math.Log(stranger / 0.16))

func newSearch(r *reduced, in, doubtful []bool, reach float64, do rows) *search {
	return &search{cut: newCut(r, do), do: do, guess: in, doubtful: doubtful, reach: reach, raw: make([]float32, len(r.at))}
}

// learn takes the colours of wood from the guess and those of the ground from
// what lies well outside it, and from them what each cell gains as wood. A
// colour known to neither counts as wood next to the guess, for bark is like
// that, and as ground elsewhere.
//
// At the last, colours of the ground in the guess are left out: they are of
// holes. Earlier they may be of wood that was not known yet.
func (s *search) learn(last bool) {
	margin := s.margin()
	away := s.away(s.guess, false, 3*margin+1)
	var in, ring, far, near []colour
	for i, c := range s.at {
		switch d := int(away[i]); {
		case d == 0:
			in = append(in, c)
		case s.doubtful[i]:
		case d > 3*margin:
			far = append(far, c)
		case d > margin:
			ring = append(ring, c)
		default:
			near = append(near, c)
		}
	}
	if len(ring)+len(far) < len(s.at)/50 {
		ring = append(ring, near...)
	}
	lit := append(learn(some(ring), clouds).lighter(around), learn(some(far), clouds).lighter(1-around)...)
	if last {
		in = unlike(in, lit)
	}
	close := learn(some(near), clouds).common(0.1)
	s.beside, s.ground = close.shaded(darker), lit.shaded(darker)
	// Next to the wood only ground that is met with there casts shadows.
	shade := append(lit.known(close).shaded(darker), lit...)
	s.wood = learn(unshaded(some(in), shade), 6)
	s.do(s.high, func(from, to int) {
		for i := from * s.wide; i < to*s.wide; i++ {
			asWood, ground := unknown-1.5, s.ground
			if int(away[i]) <= margin {
				asWood, ground = unknown+1, shade
			}
			s.raw[i] = max(s.wood.log(s.at[i]), asWood) - max(ground.log(s.at[i]), unknown)
		}
	})
	s.weigh()
}

// unlike gives the colours in a guess without those of the ground: a hole that
// was taken for wood shows it. Where that would be much of the wood, wood and
// ground are too much alike for it, and all are given.
func unlike(in []colour, lit mixture) []colour {
	var own []colour
	for _, c := range in {
		if lit.log(c) < unknown+2 {
			own = append(own, c)
		}
	}
	if len(own) < len(in)*9/10 {
		return in
	}
	return own
}

// unshaded gives the colours in a guess without those that the ground has in
// shadow: these keep the ground's hue and lie on its line to black, so that they
// are told from bark, which has the wood's. Of grey wood on grey nothing can be
// told so, and all are given.
func unshaded(in []colour, ground mixture) []colour {
	hue := average(in)
	var own []colour
	for _, c := range in {
		if alike(c, hue) || ground.log(c) < unknown+2 {
			own = append(own, c)
		}
	}
	if 2*len(own) < len(in) {
		return in
	}
	return own
}

// margin gives how many cells next to the wood may be bark or contact shadow.
func (r *reduced) margin() int { return max(2, int(rim*float64(max(r.wide, r.high)))) }

// weigh turns what the colours say into gains, by the reach asked for. At twice
// the reach that lies midway, a ground as it is on the whole counts as wood.
func (s *search) weigh() {
	s.used = s.midway()
	shift := 0.0
	if s.reach > 0 {
		shift = surest * math.Log2(s.reach/s.used)
		s.used = s.reach
	}
	for i, v := range s.raw {
		v = min(surest, max(-surest, v))
		s.gain[i] = weigh * float32(min(2*surest, max(-2*surest, float64(v)+shift)))
	}
}

// midway gives half the way from wood to ground, in hundredths of the way from
// black to white.
func (s *search) midway() float64 {
	var sum, n float64
	for _, g := range s.ground {
		least := math.Inf(1)
		for _, w := range s.wood {
			d := g.middle.minus(w.middle)
			least = min(least, math.Sqrt(float64(d.square())))
		}
		if len(s.wood) > 0 {
			sum, n = sum+least, n+1
		}
	}
	return max(0.1, 50*sum/max(1, n))
}

// cutOut makes the guess anew.
func (s *search) cutOut(steps int) {
	for i, is := range s.guess {
		s.u[i] = 0
		if is {
			s.u[i] = 1
		}
	}
	s.settle(steps, s.do)
	s.guess = s.in()
}

// enlarged gives what is known of cells at a larger scale.
func (s *search) enlarged(of []bool, to *reduced) []bool {
	in := make([]bool, len(to.at))
	by := s.step / to.step
	for y := range to.high {
		for x := range to.wide {
			in[y*to.wide+x] = of[(y/by)*s.wide+x/by]
		}
	}
	return in
}

// some gives at most 4000 of the colours, evenly.
func some(of []colour) []colour {
	every := (len(of) + 3999) / 4000
	if every < 2 {
		return of
	}
	var few []colour
	for i := every / 2; i < len(of); i += every {
		few = append(few, of[i])
	}
	return few
}
