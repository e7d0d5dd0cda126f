package cure

import (
	"errors"
	"fmt"
	"math"

	"meniscus/model/unit"
)

// Stratum is one layer of a slab: matter of one kind, inert or curing.
type Stratum struct {
	Matter
	Thickness unit.Length
	Cells     int // finite volumes across it, 1 or more

	Cure *Kinetics        // nil: inert
	From unit.Temperature // at the start
	Done float64          // conversion at the start; less than Seed counts as Seed

	// Profile holds temperature and conversion of each cell at the start,
	// bottom to top, where they are not the same all through.
	Profile []State
}

// State is how warm a place is and how far it has cured.
type State struct {
	T unit.Temperature
	A float64 // conversion
}

// Slab is what heat runs through from bottom to top: bench, mold floor, cured
// layers, the pour. It is as wide as it likes: no heat leaves sideways.
type Slab struct {
	Strata []Stratum            // bottom to top
	Below  unit.FilmCoefficient // to the air under it; 0 insulated, infinite held at the room's temperature
	Above  unit.FilmCoefficient // to the air over it
	Room   Room
}

// Options say how long and how finely to reckon.
type Options struct {
	Until     unit.Span
	Tolerance unit.TempRise    // of one step, in temperature; 0 means 0.02 K
	Limit     unit.Temperature // where a run stops and "runs away"; 0 means 200 °C
}

// Limits of what is reckoned at all.
const (
	mostCells = 4000
	longest   = 400 * unit.Day
)

// ErrUnusable is what every refusal of a run wraps: something in it cannot be
// reckoned with.
var ErrUnusable = errors.New("cure: this cannot be reckoned")

func unusable(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrUnusable, fmt.Sprintf(format, args...))
}

// check tells what in a slab or its options cannot be reckoned with.
func (s *Slab) check(o *Options) error {
	cells := 0
	for i := range s.Strata {
		x := &s.Strata[i]
		switch {
		case !x.usable():
			return unusable("%s has no density, heat capacity or conductivity", x.Name)
		case !(x.Thickness > 0) || x.Thickness > 20:
			return unusable("%s has a thickness of %g m", x.Name, float64(x.Thickness))
		case x.Cells < 1:
			return unusable("%s has no cells", x.Name)
		case x.Profile != nil && len(x.Profile) != x.Cells:
			return unusable("%s has a profile of %d cells for %d", x.Name, len(x.Profile), x.Cells)
		case x.Profile == nil && !(x.From > 0 && x.From < 1000):
			return unusable("%s starts at %g K", x.Name, float64(x.From))
		case x.Cure != nil && !x.Cure.usable():
			return unusable("the kinetics of %s", x.Name)
		}
		cells += x.Cells
	}
	switch {
	case cells == 0:
		return unusable("there is nothing in it")
	case cells > mostCells:
		return unusable("more than %d cells", mostCells)
	case !(s.Below >= 0) || !(s.Above >= 0):
		return unusable("a film below zero")
	}
	return o.check(&s.Room)
}

// check tells what in the options, or in the room that they are for, cannot be
// reckoned with.
func (o *Options) check(room *Room) error {
	switch {
	case !room.usable():
		return unusable("the room has no temperature")
	case !(o.Until > 0) || o.Until > longest:
		return unusable("a time of %g s", float64(o.Until))
	case !(o.Tolerance >= 0) || math.IsInf(float64(o.Tolerance), 0):
		return unusable("a tolerance of %g K", float64(o.Tolerance))
	}
	return nil
}

// usable tells whether the kinetics can be reckoned with.
func (k *Kinetics) usable() bool {
	for _, v := range []float64{k.A1, k.A2, float64(k.E1), float64(k.E2), k.M, k.N, float64(k.Heat), k.Steep} {
		if !(v >= 0) || math.IsInf(v, 0) {
			return false
		}
	}
	g := k.Glass
	return k.M <= 10 && k.N <= 10 && (k.Steep == 0 || g.Lambda > 0 && g.Lambda <= 1 && g.Full > g.Liquid && g.Liquid > 0)
}
