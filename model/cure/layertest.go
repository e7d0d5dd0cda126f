package cure

import (
	"math"

	"meniscus/model/unit"
)

// The layer that a sheet's recoat and demold hours hold for is poured into a
// form of coated board on a bench (common practice, no source). It warms
// itself, so that it is quicker than the same resin in a thin film, and quicker
// than it will be in a cold shop where it warms itself less.
const testForm = 18 * unit.Millimetre

// tested gives the slab of that layer in a room of the given temperature; false
// where it is so thin that it keeps the room's.
func (s *solver) tested(k *Kinetics, at unit.Temperature) (Slab, bool) {
	depth := unit.Length(s.f[InTested])
	if !(depth > 0) {
		return Slab{}, false
	}
	return Slab{
		Strata: []Stratum{
			{Matter: Board, Thickness: testForm, Cells: 3, From: at},
			{Matter: s.c.Matter, Thickness: depth, Cells: 6, Cure: k, From: at},
		},
		Below: Underneath, Above: StillAir, Room: Steady(at),
	}, true
}

// layer runs the test of one of the sheet's times for so long.
func (s *solver) layer(slab *Slab, until unit.Span) *Course {
	c, err := slab.Run(s.ctx, Options{Until: min(until, longest), Tolerance: 0.3, Limit: mostT})
	if err != nil {
		s.err = err
		return nil
	}
	return c
}

// scaledToLayer gives kinetics with the rate at which the surface of the
// sheet's layer comes to a conversion at one of the sheet's times.
func (s *solver) scaledToLayer(k Kinetics, q Quoted, to float64) Kinetics {
	at := s.at(q.At)
	thin := math.Log(k.TimeTo(at, 0, to).Per(q.After))
	if _, ok := s.tested(&k, at); !ok {
		return k.Scaled(math.Exp(thin))
	}
	self := rootNear(func(self float64) float64 {
		scaled := k.Scaled(math.Exp(thin - self))
		slab, _ := s.tested(&scaled, at)
		c := s.layer(&slab, q.After)
		if c == nil {
			return 0
		}
		return to - c.At(q.After).A[len(c.Owner)-1]
	}, &s.self, &s.hadSelf, 0.04, -0.05, 3, 1e-3)
	return k.Scaled(math.Exp(thin - self))
}

// cured gives the conversion that the surface of the sheet's layer has come to
// at one of its times.
func (s *solver) cured(q Quoted) float64 {
	at := s.at(q.At)
	slab, ok := s.tested(&s.c.Kinetics, at)
	if !ok {
		return s.c.Kinetics.CuredAfter(at, 0, q.After)
	}
	c := s.layer(&slab, q.After)
	if c == nil {
		return 0.5
	}
	return c.At(q.After).A[len(c.Owner)-1]
}
