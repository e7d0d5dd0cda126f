package model

import (
	"math"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// Air is what is told of the bubbles in a pour.
type Air struct {
	Depth     unit.Length
	Resin     unit.Temperature // of the mixed resin when poured
	Viscosity Known[unit.Viscosity]
	Bubbles   []BubbleRise
	Smallest  Known[unit.Length] // bubble that still leaves the pour before it is too thick
	Thin      Known[unit.Span]   // the working time as if it stayed as thin as it was mixed
	LastPass  Known[unit.Span]   // of a flame or hot air
	Baths     []WarmBath
	Vacuum    []VacuumStep
	Foam      Known[unit.Volume] // cup for the mix under vacuum
}

// BubbleRise is how long a bubble of one size takes through the pour.
type BubbleRise struct {
	Size     unit.Length
	Time     Known[unit.Span] // value and High by the slow bound, Low by the fast one
	Reynolds float64          // of the fastest that it may be; the law holds below 1
}

// WarmBath is what the mixed cup gains and loses in warm water.
type WarmBath struct {
	Minutes unit.Span
	Comes   Known[unit.Temperature] // what the resin comes to
	Clears  unit.Length             // smallest bubble that leaves the cup in that time
	Else    unit.Length             // the same without the bath
	Costs   Known[unit.Span]        // of the working time in this room
	Leaves  Known[unit.Span]        // Absent where the working time is not known
}

// VacuumStep is how bubbles grow at one pressure.
type VacuumStep struct {
	Pressure float64 // Pa, above none at all
	Volume   float64 // by this
	Diameter float64
	Foam     Known[unit.Volume] // that the mix swells to
}

// The sizes of bubble that are shown, and up to which the eye forgives one.
var bubbleSizes = []unit.Length{0.1e-3, 0.2e-3, 0.5e-3, 1e-3}

const seenBubble = 0.5 * unit.Millimetre

// BathWater is how warm the water of a bath is (common practice, no source).
var BathWater = unit.Celsius(35)

// The minutes in a warm bath, and how well the cup's wall lets heat through
// (common practice, no source).
var (
	bathMinutes = []unit.Span{20 * unit.Minute, 30 * unit.Minute}
	bathFilm    = typical[unit.FilmCoefficient]{50, 30, 80}
)

// The pressures that are shown: what simple pumps reach. Air whipped in takes 2
// to 10 % of the mix, and a cup of three to four times the mix is usual (common
// practice, no source).
var (
	vacuumSteps = []float64{20e3, 10e3, 5e3}
	whippedIn   = typical[unit.Share]{0.05, 0.02, 0.10}
	foamRoom    = typical[unit.Number]{3.5, 3, 4}
)

// Air tells of the bubbles in a layer's pour; false where the layer has no
// resin or no depth.
func (pl *Plan) Air(p *Project, layer string) (Air, bool) {
	l := pl.Layer(layer)
	if l == nil || l.Depth <= 0 {
		return Air{}, false
	}
	s := p.Sheet(l.Sheet)
	if s == nil {
		return Air{}, false
	}
	a := bubblesOf(p, l, s)
	if l.Mix.Ready && l.Mix.Total > 0 {
		a.inCup(l, s)
	}
	return a, true
}

// bubblesOf works out the bubbles in the mold.
func bubblesOf(p *Project, l *LayerPlan, s *Sheet) Air {
	a := Air{Depth: l.Depth, Resin: p.resinTemp()}
	a.Viscosity = s.viscosity(a.Resin)
	rho := l.Density.Value
	for _, d := range bubbleSizes {
		a.Bubbles = append(a.Bubbles, riseOf(d, l.Depth, rho, a.Viscosity))
	}
	a.Thin, a.Smallest = Known[unit.Span]{Absent: true, Source: l.Times.Working.Source}, Known[unit.Length]{Absent: true, Source: l.Times.Working.Source}
	a.LastPass = a.Thin
	if w := l.Times.Working; !w.Absent && w.Low > 0 {
		a.Thin = Known[unit.Span]{Value: thinSpan(w.Value, thickens.value), Low: thinSpan(w.Low, thickens.high), High: thinSpan(w.High, thickens.low), Typical: true}
		a.Smallest = Known[unit.Length]{
			Value: Clears(l.Depth, a.Thin.Value, rho, a.Viscosity.Value),
			Low:   unit.Length(float64(Clears(l.Depth, a.Thin.High, rho, a.Viscosity.Low)) / math.Sqrt(1.5)),
			High:  Clears(l.Depth, a.Thin.Low, rho, a.Viscosity.High), Typical: true,
		}
		a.LastPass = Known[unit.Span]{Value: w.Value / 2, Low: w.Low / 2, High: w.High / 2, Typical: true}
	}
	return a
}

// inCup works out what a bath and a vacuum do to the mix in its cup.
func (a *Air) inCup(l *LayerPlan, s *Sheet) {
	mix := l.Mix.Total.Over(l.Density.Value)
	for _, t := range bathMinutes {
		if a.Resin < BathWater {
			a.Baths = append(a.Baths, bathOf(t, mix, a, l, s))
		}
	}
	for _, pressure := range vacuumSteps {
		v, d := VacuumGrowth(pressure)
		swell := func(air unit.Share) unit.Volume { return mix.Times(1 + float64(air)*v) }
		a.Vacuum = append(a.Vacuum, VacuumStep{pressure, v, d, Known[unit.Volume]{Value: swell(whippedIn.value), Low: swell(whippedIn.low), High: swell(whippedIn.high), Typical: true}})
	}
	a.Foam = Known[unit.Volume]{Value: mix.Times(float64(foamRoom.value)), Low: mix.Times(float64(foamRoom.low)), High: mix.Times(float64(foamRoom.high)), Typical: true}
}

// resinTemp is the mixed resin's temperature when poured: the room's where it
// was not read.
func (p *Project) resinTemp() unit.Temperature {
	room, _ := p.room()
	return p.Shop.Resin.Or(room)
}

// riseOf gives how long a bubble takes through a depth.
func riseOf(d, depth unit.Length, rho unit.Density, eta Known[unit.Viscosity]) BubbleRise {
	slow, _ := StokesRise(d, rho, eta.Value)
	slowest, _ := StokesRise(d, rho, eta.High)
	_, fastest := StokesRise(d, rho, eta.Low)
	over := func(speed float64) unit.Span { return unit.Span(float64(depth) / speed) }
	return BubbleRise{d, Known[unit.Span]{Value: over(slow), Low: over(fastest), High: over(slowest), Typical: eta.Typical}, Reynolds(fastest, d, rho, eta.Low)}
}

// bathOf works out a bath of the mixed cup, minute by minute. The cup is as wide
// as the mix in it is deep, and heat comes in through its wall and its floor.
func bathOf(minutes unit.Span, mix unit.Volume, a *Air, l *LayerPlan, s *Sheet) WarmBath {
	e := known(s.Activation, typicalActivation)
	room := l.Times.Room
	deep := unit.Length(math.Cbrt(4 * float64(mix) / math.Pi))
	// m c/(U A) of such a cup is ρ c d/(5 U).
	pace := func(u unit.FilmCoefficient) unit.Span {
		return unit.Span(float64(l.Density.Value) * float64(cure.Resin.Heat) * float64(deep) / (5 * float64(u)))
	}
	course := func(u unit.FilmCoefficient, e unit.MolarEnergy) (end unit.Temperature, thin, aged unit.Span) {
		n := math.Round(float64(minutes / unit.Minute))
		end = a.Resin
		for i := range int(n) {
			mid := unit.Span((float64(i) + 0.5) * float64(unit.Minute))
			t := BathWater - unit.Temperature(float64(BathWater-a.Resin)*math.Exp(-mid.Per(pace(u))))
			thin += unit.Minute.Times(float64(a.Viscosity.Value) / float64(viscosityAt(a.Viscosity.Value, a.Resin, t, thicker.value)))
			aged += unit.Minute.Times(cure.AgeFactor(e, t, room))
		}
		return BathWater - unit.Temperature(float64(BathWater-a.Resin)*math.Exp(-minutes.Per(pace(u)))), thin, aged
	}
	end, thin, aged := course(bathFilm.value, e.Value)
	cool, _, least := course(bathFilm.low, e.Low)
	warm, _, most := course(bathFilm.high, e.High)
	b := WarmBath{
		Minutes: minutes,
		Comes:   Known[unit.Temperature]{Value: end, Low: cool, High: warm, Typical: true},
		Clears:  Clears(deep, thin, l.Density.Value, a.Viscosity.Value),
		Else:    Clears(deep, minutes, l.Density.Value, a.Viscosity.Value),
		Costs:   Known[unit.Span]{Value: aged, Low: min(least, aged), High: max(most, aged), Typical: true},
		Leaves:  Known[unit.Span]{Absent: true, Source: l.Times.Working.Source},
	}
	if w := l.Times.Working; !w.Absent {
		b.Leaves = Known[unit.Span]{Value: max(0, w.Value-aged), Low: max(0, w.Low-b.Costs.High), High: max(0, w.High-b.Costs.Low), Typical: true}
	}
	return b
}
