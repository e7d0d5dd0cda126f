package cure

import (
	"context"
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// solver is one calibration under way.
type solver struct {
	ctx  context.Context
	p    Product
	f    Figures
	base Kinetics // of the class, before rate and activation are solved
	c    Calibrated
	err  error

	solved
}

// solved are the solutions of the last try, near which those of the next one
// lie.
type solved struct {
	shift, self, lnHeat        float64 // J/mol; logarithm of how much faster a cup, or the sheet's layer, is than a film; logarithm of J/kg
	hadShift, hadSelf, hadHeat bool
}

// rootNear finds a root between low and high, first looked for close to the last
// one where there was one.
func rootNear(f func(float64) float64, last *float64, had *bool, close, low, high, tol float64) float64 {
	x, ok := 0.0, false
	if *had {
		x, ok = shape.Root(f, *last-close, *last+close, tol)
	}
	if !ok {
		x, ok = shape.Root(f, low, high, tol)
	}
	*last, *had = x, ok
	return x
}

func (s *solver) note(text string) { s.c.Notes = append(s.c.Notes, text) }

// at gives the temperature of a sheet's figure.
func (s *solver) at(t unit.Temperature) unit.Temperature {
	if t == 0 {
		return unit.Temperature(s.f[InSheetTemp])
	}
	return t
}

// cup gives the test in a cup that a figure of the sheet comes from.
func (s *solver) cup(k *Kinetics, at unit.Temperature, mass unit.Mass) Cup {
	if mass == 0 {
		mass = usualCup
	}
	t := s.at(at)
	return Cup{Mass: mass, Matter: s.c.Matter, Cure: k, Start: t, Room: Steady(t)}
}

// heat solves the heat of reaction where a peak is quoted, and with each try of
// it the rate.
func (s *solver) heat() {
	q := s.p.Peak
	if !q.Given() {
		s.rate()
		return
	}
	given, start := s.c.Kinetics.Heat, s.at(q.At)
	if q.T <= start+1 {
		s.note("The sheet's peak is no warmer than the cup it starts in; it was left out.")
		s.rate()
		return
	}
	try := func(lnHeat float64) float64 {
		s.base.Heat = unit.SpecificEnergy(math.Exp(lnHeat))
		s.rate()
		cup := s.cup(&s.c.Kinetics, q.At, q.Mass)
		until := min(2*s.c.Kinetics.TimeTo(start, 0, s.c.Kinetics.Gel), longest)
		course, err := cup.Run(s.ctx, until)
		if err != nil {
			s.err = err
			return 0
		}
		return math.Log(float64(course.Peak-start) / float64(q.T-start))
	}
	ln := rootNear(try, &s.lnHeat, &s.hadHeat, 0.15, math.Log(float64(60*unit.JoulePerGram)), math.Log(float64(700*unit.JoulePerGram)), 1e-3)
	ok := s.hadHeat
	found := unit.SpecificEnergy(math.Exp(ln))
	switch {
	case !ok && found > given: // the sheet warns of more heat than there can be
		s.note("No heat that a resin sets free gives the sheet's peak of " + plain.Temperature(q.T) + "; the most that one does was taken.")
	case !ok:
		found = given
		s.note("No heat that a resin sets free gives the sheet's peak of " + plain.Temperature(q.T) + "; it was left out.")
	case s.p.Heat != 0 && math.Abs(math.Log(found.Per(given))) > math.Log(1.25):
		s.note("The sheet's peak of " + plain.Temperature(q.T) + " fits a heat of " + plain.SpecificEnergy(found) + ", not its " + plain.SpecificEnergy(given) + "; the larger was taken.")
		found = max(found, given)
	}
	s.base.Heat = found
	s.rate()
}

// plain writes quantities in notes.
var plain unit.Style

// rate solves activation energy and rate scale for the heat of the base.
func (s *solver) rate() {
	k := s.base
	turn := s.turn()
	if s.p.Gel.hurries(s.p.GelOther) {
		a, b := s.p.Gel, s.p.GelOther
		k = k.Shifted(between(a.After, a.At, b.After, b.At)-between(k.TimeTo(a.At, 0, k.Gel), a.At, k.TimeTo(b.At, 0, k.Gel), b.At), turn)
		s.c.Kinetics = s.scaled(k)
		return
	}
	if s.p.Working.hurries(s.p.WorkingOther) {
		a, b := s.p.Working, s.p.WorkingOther
		own := k.Activation(turn, k.Gel)
		// The cups warm themselves, so that their own activation energy is near
		// that of their times and not the same.
		const apart = 25e3
		guess := float64(between(a.After, a.At, b.After, b.At) - own)
		// The cup at the other temperature comes to the same conversion.
		d := rootNear(func(d float64) float64 {
			scaled := s.scaled(k.Shifted(unit.MolarEnergy(d), turn))
			ends := s.f[InWorkingEnds]
			if s.p.anchor() != byWorking {
				ends = s.curedInCup(&scaled, a)
			}
			return s.late(&scaled, b, ends)
		}, &s.shift, &s.hadShift, 300, max(guess-apart, -0.9*float64(min(k.E1, k.E2))), guess+apart, 20)
		s.c.Kinetics = s.scaled(k.Shifted(unit.MolarEnergy(d), turn))
		return
	}
	s.c.Kinetics = s.scaled(k.Shifted(unit.MolarEnergy(s.f[InActivation])-k.Activation(unit.Celsius(20), k.Gel), turn))
}

// turn is the temperature that the activation energy is shifted about.
func (s *solver) turn() unit.Temperature { return s.at(s.quoted().At) }

// quoted gives the time that the rate hangs on.
func (s *solver) quoted() Quoted {
	switch s.p.anchor() {
	case byGel:
		return s.p.Gel
	case byRecoatFrom:
		return s.p.RecoatFrom
	case byWorking:
		return s.p.Working
	case byRecoatTo:
		return s.p.RecoatTo
	case byDemold:
		return s.p.Demold
	}
	return Quoted{After: unit.Span(s.f[InWorking]), At: unit.Celsius(20), Mass: usualCup}
}

// scaled gives kinetics with the rate at which the sheet's strongest time comes
// out.
func (s *solver) scaled(k Kinetics) Kinetics {
	q := s.quoted()
	at, to := s.at(q.At), k.Gel
	switch s.p.anchor() {
	case byWorking, byTypical:
		return s.scaledToCup(k, q)
	case byRecoatTo:
		to = max(s.f[InGlassy], k.Gel+leastWindow)
	case byDemold:
		to = firm(&k, at)
	}
	if s.p.anchor() != byGel {
		return s.scaledToLayer(k, q, to)
	}
	return k.Scaled(k.TimeTo(at, 0, to).Per(q.After))
}

// firm gives the conversion at which a piece comes out of its mold in a shop of
// the given temperature, held to what a resin can come to.
func firm(k *Kinetics, shop unit.Temperature) float64 {
	return min(max(k.Glass.Conversion(shop+unit.Temperature(DemoldMargin)), k.Gel+leastWindow), 0.98)
}

// scaledToCup gives kinetics with the rate at which the cup of a working time
// comes to the conversion that ends it at the sheet's minute. A cup warms
// itself, so that it is never slower than a thin layer, and the rate lies below
// that of one.
func (s *solver) scaledToCup(k Kinetics, q Quoted) Kinetics {
	ends := s.f[InWorkingEnds]
	thin := math.Log(k.TimeTo(s.at(q.At), 0, ends).Per(q.After))
	self := rootNear(func(self float64) float64 {
		scaled := k.Scaled(math.Exp(thin - self))
		return s.late(&scaled, q, ends)
	}, &s.self, &s.hadSelf, 0.01, -0.05, 1.5, 2e-5)
	return k.Scaled(math.Exp(thin - self))
}

// late gives the logarithm of how many times later than the sheet's working
// time its cup comes to a conversion.
func (s *solver) late(k *Kinetics, q Quoted, ends float64) float64 {
	const most = 10
	cup := s.cup(k, q.At, q.Mass)
	at, ok, err := cup.WhenCured(s.ctx, ends, min(most*q.After, longest))
	if err != nil {
		s.err = err
		return 0
	}
	if !ok {
		return math.Log(most)
	}
	return math.Log(at.Per(q.After))
}

// curedInCup gives the conversion that the cup of a working time has come to
// when it ends.
func (s *solver) curedInCup(k *Kinetics, q Quoted) float64 {
	cup := s.cup(k, q.At, q.Mass)
	course, err := cup.Run(s.ctx, q.After)
	if err != nil {
		s.err = err
		return 0.5
	}
	return course.At(q.After).A
}
