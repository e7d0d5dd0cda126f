package cure

import (
	"context"

	"meniscus/model/unit"
)

// Calibrated is a product made ready to be simulated, so that a simulation of
// the sheet's own tests gives the sheet's own figures. Its conversions say where
// the moments of a pour lie.
type Calibrated struct {
	Class    Class
	Kinetics Kinetics // of this lot
	Matter   Matter
	Working  float64 // conversion at which a cup is too thick to pour
	From     float64 // conversion of the surface at which it takes the next pour
	Notes    []string

	glassy float64 // conversion at which the surface no longer does
	quoted bool    // glassy follows from the sheet
	demold float64 // by the sheet, or 0
	margin unit.TempRise
	solved solved // for products much alike
}

// Rules that a sheet is silent on; common practice, no source.
const (
	// DemoldMargin is how far the softening temperature must lie above the shop
	// before a piece keeps its shape out of the mold.
	DemoldMargin unit.TempRise = 10
	// A piece can be cut and sanded when it softens at SandsAt, or SandMargin
	// above the shop where that is less, and not before SandsAfter past gel.
	SandsAt                  = unit.Temperature(45 + 273.15)
	SandMargin unit.TempRise = 20
	SandsAfter               = unit.Day
	// usualCup is the mass of a cup test whose sheet does not say.
	usualCup = 100 * unit.Gram
	// leastWindow is the conversion between the opening of the recoat window and
	// its closing that is left even where the resin turns to glass in the cold.
	leastWindow = 0.05
	// early is a conversion that a recoat window seldom opens before.
	early = 0.35
)

// RecoatTo gives the conversion at which a surface of the given temperature no
// longer takes the next pour: the sheet's, or where it nears glass, that is
// where its softening temperature comes to its own if that is earlier.
func (c *Calibrated) RecoatTo(part unit.Temperature) float64 {
	if c.quoted {
		return c.glassy
	}
	return max(min(c.glassy, c.Kinetics.Glass.Conversion(part)), c.From+leastWindow)
}

// Demold gives the conversion at which a piece comes out of the mold in a shop
// of the given temperature: the sheet's, and in a warmer shop where the
// softening temperature lies as far above it as in the sheet's, or as
// DemoldMargin. It is above 1 where the resin never gets there.
func (c *Calibrated) Demold(shop unit.Temperature) float64 {
	return max(c.demold, c.softens(shop+unit.Temperature(c.margin)), c.From)
}

// Sand gives the conversion at which a piece can be cut and sanded in a shop of
// the given temperature. It is above 1 where the resin never gets there.
func (c *Calibrated) Sand(shop unit.Temperature) float64 {
	return max(c.softens(min(SandsAt, shop+unit.Temperature(SandMargin))), c.Demold(shop))
}

// softens gives the conversion whose softening temperature is t.
func (c *Calibrated) softens(t unit.Temperature) float64 {
	return c.Kinetics.Glass.Conversion(max(t, c.Kinetics.Glass.Liquid))
}

// Calibrate makes a product ready, with the best estimate of every figure that
// its sheet lacks. One rate scale is solved from the strongest time that the
// sheet gives (the gel of a thin layer, then the start of the recoat window, the
// working time, the end of the window, the demold time); the activation energy
// where a time is given at two temperatures; the heat where a peak is quoted.
// The other times give the conversions that go with them. Figures that
// contradict a stronger one are left out, and Notes says so.
func Calibrate(ctx context.Context, p Product) (Calibrated, error) {
	if err := p.check(); err != nil {
		return Calibrated{}, err
	}
	return p.calibrate(ctx, p.typical(), solved{})
}

// calibrate makes a product ready with the given figures. near are the
// solutions of a product that is much alike, or none.
func (p *Product) calibrate(ctx context.Context, f Figures, near solved) (Calibrated, error) {
	s := solver{ctx: ctx, p: p.tidied(), f: f, solved: near}
	s.c.Class = p.class()
	s.c.Matter = Matter{"resin", p.density(), unit.SpecificHeat(f[InHeatStored]), unit.Conductivity(f[InConducts]), Resin.Source}
	k := s.c.Class.kinetics()
	k.Gel, k.Heat = f[InGels], unit.SpecificEnergy(f[InHeat])
	k.Glass.Full = max(unit.Temperature(f[InSoftening]), k.Glass.Liquid+20)
	s.base, s.c.Kinetics = k, k
	s.c.margin = DemoldMargin
	s.heat()
	s.thresholds()
	if s.err != nil {
		return Calibrated{}, s.err
	}
	s.c.solved = s.solved
	c := &s.c
	c.Kinetics = c.Kinetics.Scaled(f[InLot])
	c.Kinetics.Heat = c.Kinetics.Heat.Times(p.Learned.heat())
	if !c.Kinetics.usable() {
		return Calibrated{}, unusable("a product whose figures do not go together")
	}
	return *c, nil
}

// density gives the density of the mix, known or typical.
func (p *Product) density() unit.Density {
	if p.Density != 0 {
		return p.Density
	}
	return Resin.Density
}

// tidied gives the product with its figures where they are looked for: a time
// given only at the other temperature stands first.
func (p *Product) tidied() Product {
	q := *p
	if !q.Gel.Given() {
		q.Gel, q.GelOther = q.GelOther, Quoted{}
	}
	if !q.Working.Given() {
		q.Working, q.WorkingOther = q.WorkingOther, Quoted{}
	}
	return q
}
