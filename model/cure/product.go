package cure

import (
	"math"

	"meniscus/model/unit"
)

// Class is which published kinetics stand in for a product.
type Class string

// The classes. They are spelt as a data sheet of the document spells them.
const (
	FastClass Class = "fast amine"
	SlowClass Class = "slow amine"
)

// kinetics gives the published kinetics of a class.
func (c Class) kinetics() Kinetics {
	if c == FastClass {
		return FastAmine()
	}
	return SlowAmine()
}

// Quoted is a time that a data sheet gives, with what it holds at. The zero
// Quoted is one that the sheet does not give.
type Quoted struct {
	After unit.Span
	At    unit.Temperature // 0: the sheet does not say
	Mass  unit.Mass        // in a cup; 0: the sheet does not say. A thin layer has none
}

// Given tells whether the sheet gives the time.
func (q Quoted) Given() bool { return q.After != 0 }

// QuotedPeak is the hottest that a mass in a cup gets, as a data sheet gives
// it. The zero QuotedPeak is not given.
type QuotedPeak struct {
	T    unit.Temperature
	At   unit.Temperature // of resin and room; 0: the sheet does not say
	Mass unit.Mass        // 0: the sheet does not say
}

// Given tells whether the sheet gives the peak.
func (q QuotedPeak) Given() bool { return q.T != 0 }

// Product is what a data sheet tells, in the kernel's terms. Every figure may
// be missing: its zero value says so, and a typical one with its band stands
// in, see Product.Band. Times in a cup are of resin that starts at the room's
// temperature; times of a layer are of one so thin that it keeps it.
type Product struct {
	Class        Class // empty: by its times
	Density      unit.Density
	Working      Quoted // until the resin in its cup is too thick to pour
	WorkingOther Quoted // the same at another temperature
	Gel          Quoted // of a thin layer
	GelOther     Quoted // the same at another temperature
	RecoatFrom   Quoted // of a thin layer
	RecoatTo     Quoted
	Demold       Quoted
	Peak         QuotedPeak
	Heat         unit.SpecificEnergy // of reaction, of the mix
	Activation   unit.MolarEnergy
	Softening    unit.Temperature // of the fully cured resin
	Deepest      unit.Length      // that the sheet allows one layer to be; 0: it does not say

	Learned Learned // from the lot's own runs; the zero Learned changes nothing
}

// check tells what in a product cannot be reckoned with.
func (p *Product) check() error {
	for _, x := range []struct {
		name string
		q    Quoted
	}{
		{"working time", p.Working}, {"other working time", p.WorkingOther}, {"gel time", p.Gel}, {"other gel time", p.GelOther},
		{"start of the recoat window", p.RecoatFrom}, {"end of the recoat window", p.RecoatTo}, {"demold time", p.Demold},
	} {
		switch name, q := x.name, x.q; {
		case q.Given() && !(q.After > 0 && q.After <= longest):
			return unusable("a %s of %g s", name, float64(q.After))
		case q.At != 0 && !shopLike(q.At):
			return unusable("a %s at %g K", name, float64(q.At))
		case q.Mass != 0 && !(q.Mass > 0 && q.Mass <= 1000):
			return unusable("a %s of %g kg", name, float64(q.Mass))
		}
	}
	switch {
	case p.Peak.T != 0 && !(p.Peak.T > 200 && p.Peak.T < 1000), p.Peak.At != 0 && !shopLike(p.Peak.At), p.Peak.Mass != 0 && !(p.Peak.Mass > 0 && p.Peak.Mass <= 1000):
		return unusable("a peak of %g K in a cup of %g kg at %g K", float64(p.Peak.T), float64(p.Peak.Mass), float64(p.Peak.At))
	case p.Heat != 0 && !(p.Heat >= 10*unit.JoulePerGram && p.Heat <= 2000*unit.JoulePerGram):
		return unusable("a heat of reaction of %g J/kg", float64(p.Heat))
	case p.Activation != 0 && !(p.Activation >= leastActivation && p.Activation <= mostActivation):
		return unusable("an activation energy of %g J/mol", float64(p.Activation))
	case p.Softening != 0 && !(p.Softening > unit.Celsius(0) && p.Softening < unit.Celsius(400)):
		return unusable("a softening temperature of %g K", float64(p.Softening))
	case p.Density != 0 && !(p.Density > 100 && p.Density < 10000):
		return unusable("a density of %g kg/m³", float64(p.Density))
	case p.Deepest != 0 && !(p.Deepest > 0 && p.Deepest < 1):
		return unusable("a layer of %g m", float64(p.Deepest))
	}
	return p.Learned.check()
}

// shopLike tells whether a temperature can be one of a shop or a test.
func shopLike(t unit.Temperature) bool { return t >= unit.Celsius(-40) && t <= unit.Celsius(150) }

// Activation energies that a product may be given or calibrated to.
const (
	leastActivation = 20 * unit.KilojoulePerMole
	mostActivation  = 150 * unit.KilojoulePerMole
)

// Input is a figure that the answers hang on and that a sheet may lack.
type Input int

// The inputs.
const (
	InHeat        Input = iota // heat of reaction, J/kg
	InHeatStored               // heat capacity, J/(kg K)
	InConducts                 // conductivity, W/(m K)
	InActivation               // one activation energy, J/mol, see Kinetics.Activation
	InSoftening                // softening temperature of the fully cured resin, K
	InWorkingEnds              // conversion at the end of the working time
	InGels                     // conversion at which it gels
	InGlassy                   // conversion at which a surface no longer takes the next pour
	InLot                      // rate of this lot over that of the sheet
	InSheetTemp                // temperature of the sheet's times, where it does not say, K
	InWorking                  // working time of 100 g, s, where the sheet gives no time at all
	InTested                   // depth of the layer that the sheet's recoat and demold hours hold for, m
	Inputs                     // how many there are
)

// Label names the input in the trade's words.
func (i Input) Label() string { return inputWords[i][0] }

// Learn tells how the figure can be learnt in the shop.
func (i Input) Learn() string { return inputWords[i][1] }

var inputWords = [Inputs][2]string{
	InHeat:        {"heat of the cure", "put a probe in the middle of 200 g in a cup and note the hottest it shows"},
	InHeatStored:  {"heat that warms the resin by a degree", "ask the supplier for the specific heat"},
	InConducts:    {"how well the resin conducts heat", "ask the supplier for the thermal conductivity"},
	InActivation:  {"how much warmth hurries it", "time the set of a 5 mm puck at two temperatures, 10 °C apart"},
	InSoftening:   {"softening temperature", "warm a cured offcut in water and note where it bends"},
	InWorkingEnds: {"how far it has cured when the working time ends", "weigh 200 g in a cup and note when it strings"},
	InGels:        {"how far it has cured when it sets", "touch a 5 mm puck every half hour and note when it no longer strings"},
	InGlassy:      {"how far it has cured when the recoat window closes", "note the hour at which a fingernail leaves no mark"},
	InLot:         {"this lot against the sheet", "log the tack tests of this lot"},
	InSheetTemp:   {"temperature of the sheet's times", "ask the supplier at what temperature they hold"},
	InWorking:     {"working time", "weigh 100 g in a cup and note when it strings"},
	InTested:      {"depth of the layer that the sheet's hours hold for", "ask the supplier how deep a layer its recoat hours hold for"},
}

// Figures are values of all inputs, in SI units, by their Input.
type Figures [Inputs]float64

// Band is a figure with the range it lies in. A figure that is known has no
// width.
type Band struct{ Value, Low, High float64 }

// At gives the point of the band that it lies below with chance u, 0 to 1. Half
// the chance lies to each side of the value, evenly; where the value is one of
// the ends all of it is spread evenly over the band.
func (b Band) At(u float64) float64 {
	switch {
	case b.Value <= b.Low || b.Value >= b.High:
		return b.Low + u*(b.High-b.Low)
	case u < 0.5:
		return b.Low + 2*u*(b.Value-b.Low)
	}
	return b.Value + (2*u-1)*(b.High-b.Value)
}

// Known tells whether the band has no width.
func (b Band) Known() bool { return b.Low == b.High }

// fixed is the band of a figure that is known.
func fixed(v float64) Band { return Band{v, v, v} }

// about is a value with as much to either side, as a part of it.
func about(v, part float64) Band { return Band{v, v * (1 - part), v * (1 + part)} }

// Band gives an input of the product: known, or typical with its band. All
// bands are common practice with no source unless said otherwise:
//
//   - heat 290 J/g and a quarter of it either way, diluted casting resin;
//     published undiluted epoxy-amines give 356 to 450
//   - heat capacity 1800 J/(kg K) and a tenth, conductivity 0.20 W/(m K) and 15 %
//   - activation energy that of the class, in 45 to 65 kJ/mol: published values
//     of the primary amine step are 55 to 60 (Thermochim. Acta 447 (2006) 167)
//   - softening temperature 50 °C, 42 to 60
//   - the working time ends at conversion 0.08, 0.03 to 0.20: a thin layer gels
//     in some six to twelve times the working time, give or take a factor of two
//   - gel at conversion 0.577 for four groups on two (Flory 1941); measured gels
//     of epoxy-amines lie at 0.50 to 0.65 (from memory)
//   - the surface no longer takes the next pour at conversion 0.78, 0.70 to 0.85
//   - a lot is as fast as the sheet to within a tenth
//   - a sheet that names no temperature means 20 to 25 °C
//   - the sheet's recoat and demold hours hold for a layer of four fifths of the
//     deepest that it allows, of a fifth to the whole; of a sheet that names no
//     depth, for a film that keeps the room's temperature
//   - with no time at all, 100 g work for 30 min if it is a fast one and for 2 h
//     if not, times 0.6 to 1.5
func (p *Product) Band(i Input) Band {
	switch i {
	case InHeat:
		if p.Heat != 0 {
			return fixed(float64(p.Heat))
		}
		return about(290e3, 0.25)
	case InHeatStored:
		return about(float64(Resin.Heat), 0.10)
	case InConducts:
		return about(float64(Resin.Conductivity), 0.15)
	case InActivation:
		if p.Activation != 0 {
			return fixed(float64(p.Activation))
		}
		k := p.class().kinetics()
		return Band{float64(k.Activation(unit.Celsius(20), k.Gel)), 45e3, 65e3}
	case InSoftening:
		if p.Softening != 0 {
			return fixed(float64(p.Softening))
		}
		return Band{float64(unit.Celsius(50)), float64(unit.Celsius(42)), float64(unit.Celsius(60))}
	case InWorkingEnds:
		return Band{0.08, 0.03, 0.20}
	case InGels:
		return Band{GelPoint(4, 2, 1), 0.50, 0.65}
	case InGlassy:
		return Band{0.78, 0.70, 0.85}
	case InLot:
		return p.Learned.lot()
	case InTested:
		d := float64(p.Deepest)
		return Band{0.8 * d, 0.2 * d, d}
	case InSheetTemp:
		return Band{float64(unit.Celsius(20)), float64(unit.Celsius(20)), float64(unit.Celsius(25))}
	}
	b := Band{float64(2 * unit.Hour), 0.6 * float64(2*unit.Hour), 1.5 * float64(2*unit.Hour)}
	if p.class() == FastClass {
		b = Band{b.Value / 4, b.Low / 4, b.High / 4}
	}
	return b
}

// Unknown lists the inputs that the sheet leaves open, by whether an answer
// could hang on them.
func (p *Product) Unknown() []Input {
	anyAt := true // every time that is given says at which temperature
	for _, q := range []Quoted{p.Working, p.WorkingOther, p.Gel, p.GelOther, p.RecoatFrom, p.RecoatTo, p.Demold} {
		anyAt = anyAt && (!q.Given() || q.At != 0)
	}
	anchor := p.anchor()
	var list []Input
	for i := range Inputs {
		open := !p.Band(i).Known()
		switch i {
		case InHeat:
			open = open && !p.Peak.Given()
		case InActivation:
			open = open && !p.twoTemperatures()
		case InWorkingEnds:
			open = !p.Working.Given() || anchor == byWorking
		case InGlassy:
			open = !p.RecoatTo.Given() || anchor == byRecoatTo
		case InSheetTemp:
			open = !anyAt || p.Peak.Given() && p.Peak.At == 0
		case InWorking:
			open = anchor == byTypical
		case InTested:
			open = open && (p.RecoatFrom.Given() || p.RecoatTo.Given() || p.Demold.Given())
		}
		if open {
			list = append(list, i)
		}
	}
	return list
}

// typical gives the best estimate of every input.
func (p *Product) typical() Figures {
	var f Figures
	for i := range Inputs {
		f[i] = p.Band(i).Value
	}
	return f
}

// class gives the class of the product: as chosen, or by its times, at the
// middle between what the two published kinetics come to at 20 °C.
func (p *Product) class() Class {
	if p.Class != "" {
		return p.Class
	}
	for _, x := range []struct {
		q     Quoted
		limit unit.Span
	}{
		{p.Gel, 15 * unit.Hour}, {p.RecoatFrom, 15 * unit.Hour}, {p.Working, unit.Hour},
		{p.RecoatTo, 28 * unit.Hour}, {p.Demold, 50 * unit.Hour},
	} {
		if x.q.Given() {
			at := x.q.At
			if at == 0 {
				at = unit.Celsius(20)
			}
			if float64(x.q.After)*AgeFactor(TypicalActivation, at, unit.Celsius(20)) < float64(x.limit) {
				return FastClass
			}
			return SlowClass
		}
	}
	return SlowClass
}

// anchor is which figure the rate of a product hangs on.
type anchor int

// The anchors, strongest first.
const (
	byGel anchor = iota
	byRecoatFrom
	byWorking
	byRecoatTo
	byDemold
	byTypical
)

// anchor gives the strongest figure that the sheet gives: the conversion that
// goes with it is known best.
func (p *Product) anchor() anchor {
	for a, q := range []Quoted{p.Gel, p.RecoatFrom, p.Working, p.RecoatTo, p.Demold} {
		if q.Given() {
			return anchor(a)
		}
	}
	return byTypical
}

// twoTemperatures tells whether the sheet gives a time at two temperatures, so
// that they tell how much warmth hurries it.
func (p *Product) twoTemperatures() bool {
	return p.Gel.hurries(p.GelOther) || p.Working.hurries(p.WorkingOther)
}

// hurries tells whether two times are shorter at the warmer temperature, by as
// much as an activation energy can make them.
func (q Quoted) hurries(other Quoted) bool {
	if !q.Given() || !other.Given() || q.At == 0 || other.At == 0 || math.Abs(float64(q.At-other.At)) < 1 {
		return false
	}
	e := between(q.After, q.At, other.After, other.At)
	return e >= leastActivation && e <= mostActivation
}
