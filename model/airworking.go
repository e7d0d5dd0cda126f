package model

import (
	"fmt"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// The figures about air, settling and the day.
const (
	FigBubbles Figured = "bubbles"
	FigBath    Figured = "warm bath"
	FigVacuum  Figured = "vacuum"
	FigPass    Figured = "last pass"
)

const notRead = "typical value, no source"

// AirWorking tells how a figure about the air in a layer came about: FigBubbles,
// FigBath, FigVacuum or FigPass. False where the plan has none.
func (pl *Plan) AirWorking(p *Project, layer string, fig Figured) (Working, bool) {
	a, ok := pl.Air(p, layer)
	if !ok {
		return Working{}, false
	}
	l, st := pl.Layer(layer), p.Style
	s := p.Sheet(l.Sheet)
	thin := fmt.Sprintf("what the working time ends at: a mix %g times as thick, between %g and %g times (%s)", thickens.value, thickens.low, thickens.high, commonPractice)
	depth := WorkingInput{Label: "h, the depth of the pour", Value: st.Length(a.Depth), Source: "yours", Field: "layers/" + l.ID + "/to"}
	density := WorkingInput{Label: "ρ, the density of the mix", Value: st.Density(l.Density.Value), Source: l.Density.Source, Typical: l.Density.Typical, Field: "sheets/" + s.ID + "/densityMixed"}
	working := WorkingInput{Label: "working time here", Value: bandWords(l.Times.Working, st.Span), Source: "the data sheet's, in this room", Field: "sheets/" + s.ID + "/workingTime"}
	switch fig {
	case FigBubbles:
		w := Working{
			Title:   "Bubbles in " + l.Name,
			Formula: "A bubble of diameter d rises at ρ g d²/(18 η) where its skin does not move, and half as fast again where it does; the longer time is shown. It takes h over that. It holds while the Reynolds number ρ v d/η is below 1.",
			Inputs:  append([]WorkingInput{depth, density}, a.viscosityInputs(p, s)...),
			Source:  "Stokes; Hadamard and Rybczynski; for what they hold see Clift, Grace and Weber, Bubbles, Drops and Particles (1978)",
		}
		w.Inputs = append(w.Inputs, working)
		w.Band = "how fast a bubble's skin moves in a resin with additives is not known, so both bounds are given; " + thin
		if !a.Smallest.Absent {
			w.Formula += fmt.Sprintf(" The resin thickens k-fold over its working time t, so that it lets a bubble rise as far as if it stayed thin for t (1 − 1/k)/ln k = %s: then √(18 η h/(ρ g t)) = %s.", st.Span(a.Thin.Value), SmallLength(a.Smallest.Value))
		}
		return w, true
	case FigBath:
		if len(a.Baths) == 0 {
			return Working{}, false
		}
		return Working{
			Title:   "A warm bath for " + l.Name,
			Formula: "The cup warms towards the water as 1 − exp(−t/τ) with τ = ρ c d/(5 U), for a cup as wide as the mix in it is deep. Minute by minute it ages exp(E/R · (1/T₀ − 1/T)) minutes of the working time, and a bubble rises as thin as the resin then is.",
			Inputs: append([]WorkingInput{
				{Label: "water of the bath", Value: st.Temperature(BathWater), Source: "warm, not hot: common practice, no source", Typical: true},
				{Label: "U, through the cup's wall", Value: fmt.Sprintf("%.0f W/(m² K), %.0f to %.0f", float64(bathFilm.value), float64(bathFilm.low), float64(bathFilm.high)), Source: notRead, Typical: true},
				{Label: "c, to warm 1 kg by 1 °C", Value: fmt.Sprintf("%.0f J", float64(cure.Resin.Heat)), Source: notRead, Typical: true},
				{Label: "E, how warmth hurries it", Value: st.MolarEnergy(known(s.Activation, typicalActivation).Value), Source: sheetOrTypical(s.Activation.Given()), Typical: !s.Activation.Given(), Field: "sheets/" + s.ID + "/activation"},
				density, working,
			}, a.viscosityInputs(p, s)...),
			Source: "equivalent age, as in ASTM C1074; Stokes",
			Band:   "from a thick wall and a resin that warmth hurries little to a thin wall and one that it hurries much; the heat that the mix makes itself comes on top",
		}, true
	case FigVacuum:
		if len(a.Vacuum) == 0 {
			return Working{}, false
		}
		return Working{
			Title:   "The mix under vacuum",
			Formula: "Air grows as p₀/p, and a bubble's diameter as the cube root of that. The mix foams up to its own volume and that of the air in it, so many times larger.",
			Inputs: []WorkingInput{
				{Label: "p₀, the air outside", Value: "101.3 kPa", Source: "standard atmosphere", Typical: true},
				{Label: "volume of the mix", Value: st.Volume(l.Mix.Total.Over(l.Density.Value)), Source: "its mass over its density"},
				{Label: "air whipped in", Value: st.Share(whippedIn.value) + ", " + st.Share(whippedIn.low) + " to " + st.Share(whippedIn.high), Source: notRead, Typical: true},
				{Label: "usual cup", Value: fmt.Sprintf("%g to %g times the mix", foamRoom.low, foamRoom.high), Source: commonPractice, Typical: true},
				density,
			},
			Source: "Boyle's law; the pull of the surface and the weight of the resin make small bubbles grow a little less",
			Band:   "as much as the air that was whipped in is not known",
		}, true
	case FigPass:
		if a.LastPass.Absent {
			return Working{}, false
		}
		return Working{
			Title:   "Flame or hot air on " + l.Name,
			Formula: "The last pass is at half of the working time: later the skin no longer closes behind a bubble.",
			Inputs:  []WorkingInput{working},
			Source:  commonPractice,
			Band:    bandWords(a.LastPass, st.Span),
		}, true
	}
	return Working{}, false
}

// viscosityInputs lists where the viscosity comes from.
func (a *Air) viscosityInputs(p *Project, s *Sheet) []WorkingInput {
	st, at := p.Style, taken(s.Viscosity.At, typicalSheetTemp)
	sheet := WorkingInput{Label: "viscosity on the sheet", Source: "data sheet", Field: "sheets/" + s.ID + "/viscosity"}
	if s.Viscosity.Given() {
		sheet.Value = st.Viscosity(s.Viscosity.Value) + " at " + st.Temperature(at.Value)
		if at.Typical {
			sheet.Source, sheet.Field = "at what temperature the sheet does not say: typical, 20 to 25 °C", "sheets/"+s.ID+"/viscosity/at"
		}
	} else {
		sheet.Value = st.Viscosity(typicalViscosity.value) + " at " + st.Temperature(typicalViscosityAt)
		sheet.Source, sheet.Typical = "typical of a casting resin, "+st.Viscosity(typicalViscosity.low)+" to "+st.Viscosity(typicalViscosity.high)+" (from memory)", true
	}
	resin := WorkingInput{Label: "the resin when poured", Value: st.Temperature(a.Resin), Source: "yours", Field: "shop/resin"}
	if !p.Shop.Resin.Given() {
		resin.Source = "as the room"
	}
	return []WorkingInput{
		{Label: "η, viscosity at the pour", Value: bandWords(a.Viscosity, st.Viscosity), Source: "from the two below", Typical: a.Viscosity.Typical},
		sheet, resin,
		{Label: "thicker for every " + st.TempRise(10) + " colder", Value: fmt.Sprintf("%g-fold, %g to %g", thicker.value, thicker.low, thicker.high), Source: "common practice; band of measured thinned resins (doi 10.1016/j.polymer.2022.125216)", Typical: true},
	}
}

// SettlingWorking tells how the settling in a layer came about.
func (pl *Plan) SettlingWorking(p *Project, c *Curing, layer string) (Working, bool) {
	if _, ok := pl.Settling(p, c, layer); !ok {
		return Working{}, false
	}
	a, _ := pl.Air(p, layer)
	l := pl.Layer(layer)
	s := p.Sheet(l.Sheet)
	return Working{
		Title:   "What settles in " + l.Name,
		Formula: "A grain of diameter d sinks at (ρₛ − ρ) g d²/(18 η), flakes at about half of that. The resin thickens as it cures by (g/(g − a))^(1.5 + a), where a is how far it has cured by the simulation and g where it sets. The wait is chosen so that a tenth of the depth is left to sink.",
		Inputs: append([]WorkingInput{
			{Label: "ρₛ, density of a colour", Value: "2.8 g/ml, 1.5 to 4.2", Source: "mica; organic colours; white of titanium (from memory). Dust has the density of its insert", Typical: true},
			{Label: "g, where it sets", Value: p.Style.Share(unit.Share(cure.GelPoint(4, 2, 1))), Source: "Flory and Stockmayer"},
			{Label: "may sink", Value: p.Style.Length(l.Depth.Times(settled)), Source: commonPractice, Typical: true},
		}, a.viscosityInputs(p, s)...),
		Source: "Stokes; Castro and Macosko, AIChE J. 28 (1982) 250 (from memory), whose exponents differ from resin to resin; the course of the cure by the simulation",
		Band:   "from light grains in a resin that thickens soon to heavy ones in a resin that stays thin; in a cup the mix warms itself and thickens sooner than in the mold",
	}, true
}

// DayWorking tells how the dew point and its margin came about; false where it
// is not known.
func (pl *Plan) DayWorking(p *Project, layer string) (Working, bool) {
	d := pl.PourDay(p, layer)
	if d.Dew.Absent {
		return Working{}, false
	}
	st := p.Style
	read := func(label, field string, t unit.Taken[unit.Temperature]) WorkingInput {
		in := WorkingInput{Label: label, Value: st.Temperature(t.Value), Source: "yours", Field: field}
		if !t.Given() {
			in.Value, in.Source = "as the room", "not read"
		}
		return in
	}
	return Working{
		Title:   "Dew point and the part",
		Formula: fmt.Sprintf("243.12 g/(17.62 − g) with g = ln(humidity) + 17.62 t/(243.12 + t), t the room in °C: %s. What is coldest, %s at %s, should be %s above it.", st.Temperature(d.Dew.Value), d.Where, st.Temperature(d.Coldest), st.TempRise(dewMargin)),
		Inputs: []WorkingInput{
			read("t, the room", "shop/room", p.Shop.Room),
			{Label: "humidity", Value: st.Share(p.Shop.Humidity.Value), Source: "yours", Field: "shop/humidity"},
			read("the wood", "shop/wood", p.Shop.Wood),
			read("the resin", "shop/resin", p.Shop.Resin),
			read("the bottles", "shop/bottles", p.Shop.Bottles),
		},
		Source: "Magnus formula with the constants of Sonntag (1990; from memory); the margin is common practice, no source",
		Band:   fmt.Sprintf("a cheap hygrometer is off by 3 to 5 %%: the dew point lies between %s and %s", st.Temperature(d.Dew.Low), st.Temperature(d.Dew.High)),
	}, true
}
