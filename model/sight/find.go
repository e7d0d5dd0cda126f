package sight

import (
	"errors"
	"image"
	"math"

	"meniscus/model/shape"
)

// Seek is what is looked for.
type Seek struct {
	At        shape.Point                      // touched inside the wood, in pixels
	Within    *image.RGBA                      // the picture, upright, opaque
	Reach     float64                          // how different wood may be, in hundredths of the way from black to white; 0 means chosen from the picture itself
	Smallest  float64                          // holes and islands of less than so many px² are left out; 0 means a patch of 1/100 of the picture's longer side
	Tolerance float64                          // px: no point of the edge lies farther from the simplified outline; 0 means 1 px
	Split     func(n int, work func(part int)) // does work(0) to work(n-1) in any order or at once; nil means one after the other
}

// Found is the outline of the wood in pixels. A pixel's corners lie at whole
// numbers and the picture's left edge at x = 0, so that its middle is at a half.
// The outlines of wood have a positive Signed and those of holes a negative
// one, in pixels as they are numbered, with y down. None crosses itself or
// another.
type Found struct {
	Outer   shape.Ring
	Holes   []shape.Ring
	Islands []shape.Ring // wood in holes
	Reach   float64      // the reach that was used
	Sure    float64      // 0 to 1: how clearly wood and ground differ along the edge
}

// What a touch cannot be answered with, in words for the maker.
var (
	ErrNoPicture = errors.New("there is no picture to look in")
	ErrOutside   = errors.New("that is outside the picture: touch inside the wood")
	ErrSpeck     = errors.New("only a speck was found: touch a clear, even part of the wood, or give more reach")
	ErrWhole     = errors.New("the whole picture was taken: touch the wood again with less reach")
	ErrNoEdge    = errors.New("no edge was found around that place: touch a clear, even part of the wood, lay it on a ground of another colour, or touch its outline point by point")
)

const (
	coarseSide = 640  // cells along the longer side where the wood is told from the ground
	smallSide  = 160  // and where their colours are learnt
	fineSide   = 2048 // and where the edge is drawn
	leastShare = 0.002
	mostShare  = 0.985
	alikeBelow = 1.15 // reach under which colours are too much alike to be told apart
)

// Find follows the edge of the wood around a touched point. The colours of wood
// and ground are learnt from the picture, starting from the touch and from the
// picture's border, and the part is cut out that they and the steps of colour
// along its edge speak for. The same picture and touch give the same outline.
//
// An error tells in the maker's words what to do; with it Found has the Reach
// that was used, where it came so far.
func Find(s Seek) (Found, error) {
	if s.Within == nil || s.Within.Rect.Empty() {
		return Found{}, ErrNoPicture
	}
	size := s.Within.Rect.Size()
	if s.Within.Stride < 4*size.X || len(s.Within.Pix) < (size.Y-1)*s.Within.Stride+4*size.X {
		return Found{}, ErrNoPicture
	}
	if !(s.At.X >= 0 && s.At.Y >= 0 && s.At.X < float64(size.X) && s.At.Y < float64(size.Y)) {
		return Found{}, ErrOutside
	}
	do := sharing(s.Split)
	coarse := reduce(s.Within, ratio(max(size.X, size.Y), coarseSide), do)
	small := coarse.halved(ratio(max(coarse.wide, coarse.high), smallSide))

	first, err := firstGuess(small, s.At)
	if err != nil {
		return Found{}, err
	}
	// Twice: by the first answer the light and the ground are known better.
	var light fall
	var rough *search
	for range 2 {
		light = small.evenly(small.clearOf(first))
		flat := small.flattened(&light)
		rough = newSearch(flat, first, flat.doubtful(first), 0, do)
		for range 4 {
			rough.learn(false)
			rough.cutOut(60)
		}
		first = rough.guess
	}
	coarse = coarse.flattened(&light)
	f := newSearch(coarse, rough.enlarged(rough.guess, coarse), rough.enlarged(rough.doubtful, coarse), s.reach(), do)
	f.learn(true)
	f.cutOut(50)
	found := Found{Reach: f.used}
	least := s.smallest(size)
	share, err := f.clean(s.At, least)
	if err == nil && share > mostShare {
		err = ErrWhole
	}
	if err != nil {
		if s.reach() == 0 && f.used < alikeBelow {
			err = ErrNoEdge
		}
		return found, err
	}
	found.Sure = f.clarity()
	field := f.refined(s.Within, &light, ratio(max(size.X, size.Y), fineSide))
	found.sort(field.rings(), least, s.tolerance())
	if len(found.Outer) == 0 {
		return found, ErrSpeck
	}
	return found, nil
}

// ratio gives how many pixels go to one of at most so many cells.
func ratio(long, most int) int { return max(1, (long+most-1)/most) }

func (s *Seek) reach() float64 {
	if s.Reach > 0 && !math.IsInf(s.Reach, 0) {
		return s.Reach
	}
	return 0
}

func (s *Seek) tolerance() float64 {
	if s.Tolerance > 0 && !math.IsInf(s.Tolerance, 0) {
		return s.Tolerance
	}
	return 1
}

func (s *Seek) smallest(size image.Point) float64 {
	if s.Smallest > 0 {
		return s.Smallest
	}
	side := float64(max(size.X, size.Y)) / 100
	return side * side
}

// firstGuess floods from the touch, from a wider one where the first catches
// only a knot. Ground that came along round the wood, as the floor of a mold on
// a bench that is more like the wood, is then ground to flood from as well.
func firstGuess(r *reduced, at shape.Point) ([]bool, error) {
	x, y := int(at.X)/r.step, int(at.Y)/r.step
	for around := 2; around <= 12; around += 2 {
		touched := r.disc(x, y, around)
		hue := r.average(touched)
		from := r.foreign(hue)
		in := r.flooded(touched, from)
		for range 3 {
			if more := r.wrapping(in, hue); len(more) > 0 {
				from = append(from, more...)
				in = r.flooded(touched, from)
			}
		}
		if float64(count(in)) > 0.005*float64(len(in))+4*float64(around*around) {
			return in, nil
		}
	}
	return nil, ErrSpeck
}

// count gives how many cells are in.
func count(in []bool) (n int) {
	for _, is := range in {
		if is {
			n++
		}
	}
	return n
}
