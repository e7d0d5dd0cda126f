package model

import (
	"fmt"
	"math"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// Settling is how far grains of one size in a pour sink before it sets.
type Settling struct {
	What   string // "grains of pearl", "dust of slate pebbles"
	At     string // path of what is stirred in; empty for the dust of an insert
	Sized  bool   // its size is the maker's, not one of those that are usual
	Size   unit.Length
	Speed  Known[unit.Length] // sunk in an hour in the resin as mixed
	Sinks  Known[unit.Length] // until it sets, where it is poured at once; never more than the depth
	After  Known[unit.Span]   // pour it not before this after mixing; 0 for at once
	Late   bool               // that is after the working time has ended: it will settle
	Enough unit.Length        // what it may sink
}

// grain is what settles.
type grain struct {
	what    string
	density typical[unit.Density]
	shape   float64       // of the speed of a ball of that size
	at      string        // path of what is stirred in; empty for an insert
	sizes   []unit.Length // that are looked at; one where it is known
}

// pigment is a powder of flakes such as mica, which sink at about half the
// speed of balls (densities from memory: organic colours 1.5, mica 2.8, the
// white oxide of titanium 4.2 g/ml).
var pigment = grain{what: "grains of colour", density: typical[unit.Density]{2800, 1500, 4200}, shape: 0.5, sizes: grainSizes}

// grainSizes are those that are shown where a size is not known: fine colours,
// usual ones, coarse flakes and dust; grains ground into a liquid are no larger
// than a few micrometres (common practice, no source).
var (
	grainSizes = []unit.Length{3e-6, 10e-6, 40e-6, 100e-6}
	pasteSizes = []unit.Length{1e-6, 3e-6}
)

// metals are heavier than this: they shed no dust.
const metals = unit.Density(5000)

// settled is the part of the depth that grains may sink before it shows
// (common practice, no source).
const settled = 0.1

// StokesFall gives how fast a ball of a diameter and a density sinks in a resin,
// in m/s: (ρₛ - ρ) g d²/(18 η), after Stokes; below zero where it floats. It
// holds while Reynolds is below one and the grains are few.
func StokesFall(d unit.Length, grain, resin unit.Density, eta unit.Viscosity) float64 {
	return float64(grain-resin) * earthPull * float64(d) * float64(d) / (18 * float64(eta))
}

// Thickening gives by how much a resin has thickened when it has cured so far:
// (g/(g - a))^(A + B a), with g where it gels, after Castro and Macosko (AIChE
// J. 28 (1982) 250, from memory). A and B differ from resin to resin; 1.5 and 1
// are those of the paper's own. From the gel on it is infinite.
func Thickening(cured, gel, a, b float64) float64 {
	if cured >= gel {
		return math.Inf(1)
	}
	return math.Pow(gel/(gel-max(0, cured)), a+b*max(0, cured))
}

// The exponents of Thickening: the paper's own, and what others have found
// (values from memory).
var castro = struct{ a, b typical[unit.Number] }{typical[unit.Number]{1.5, 1, 4}, typical[unit.Number]{1, 0, 2}}

// Settling tells how far what is stirred into a layer sinks, and the dust of
// heavy inserts in it, by the course of its cure. False where nothing can settle
// or the cure of the layer was not simulated.
func (pl *Plan) Settling(p *Project, c *Curing, layer string) ([]Settling, bool) {
	l, at := pl.Layer(layer), p.LayerIndex(layer)
	if l == nil || at == none || l.Depth <= 0 {
		return nil, false
	}
	s := p.Sheet(l.Sheet)
	if s == nil {
		return nil, false
	}
	grains := pl.grains(p, at)
	course := c.Trace.HeartCourse(at)
	if len(grains) == 0 || len(course) < 2 {
		return nil, false
	}
	sinks := sinkingOf(l, s, course)
	var list []Settling
	for _, g := range grains {
		for _, d := range g.sizes {
			list = append(list, sinks.of(g, d))
		}
	}
	return list, true
}

// grains lists what can settle in a layer.
func (pl *Plan) grains(p *Project, at int) []grain {
	var list []grain
	for _, c := range p.Layers[at].Stirred() {
		if part, known := c.Of(pl.Layers[at].Mix.Total); !known || part <= 0 || c.Kind == ColorantInk {
			continue // a colour that is dissolved does not settle
		}
		g := pigment
		g.what, g.at = "grains of "+c.Name, c.At
		switch {
		case c.Grain.Value > 0:
			g.sizes = []unit.Length{c.Grain.Value}
		case c.Kind == ColorantPaste:
			g.sizes = pasteSizes
		}
		list = append(list, g)
	}
	rho := pl.Layers[at].Density.Value
	for i := range p.Inserts {
		s := &p.Inserts[i]
		plan := pl.Insert(s.ID)
		if plan == nil || plan.Each <= 0 || at >= len(plan.Layers) || plan.Layers[at] <= 0 {
			continue
		}
		density := s.Density.Value
		if !s.Density.Given() {
			density = unit.Density(float64(s.Mass.Value) / float64(plan.Each))
		}
		if density > rho && density < metals {
			list = append(list, grain{what: "dust of " + s.Name, density: typical[unit.Density]{density, density, density}, shape: 1, sizes: grainSizes})
		}
	}
	return list
}

// sinking is a layer's course of thickening.
type sinking struct {
	plan *LayerPlan
	from []TracePoint            // from its pour on
	thin []Known[unit.Viscosity] // at each point, as if it did not cure
}

func sinkingOf(l *LayerPlan, s *Sheet, course []TracePoint) sinking {
	out := sinking{l, course, make([]Known[unit.Viscosity], len(course))}
	for i := range course {
		out.thin[i] = s.viscosity(course[i].State.T)
	}
	return out
}

// of works out one size of grain.
func (s sinking) of(g grain, d unit.Length) Settling {
	out := Settling{What: g.what, At: g.at, Sized: g.at != "" && len(g.sizes) == 1, Size: d, Enough: s.plan.Depth.Times(settled)}
	// The slowest is of light grains in a thick resin that thickens fast.
	value, after := s.fall(g, d, g.density.value, func(k Known[unit.Viscosity]) unit.Viscosity { return k.Value }, castro.a.value, castro.b.value, out.Enough)
	low, early := s.fall(g, d, g.density.low, func(k Known[unit.Viscosity]) unit.Viscosity { return k.High }, castro.a.high, castro.b.high, out.Enough)
	high, late := s.fall(g, d, g.density.high, func(k Known[unit.Viscosity]) unit.Viscosity { return k.Low }, castro.a.low, castro.b.low, out.Enough)
	deep := s.plan.Depth
	out.Sinks = Known[unit.Length]{Value: min(deep, value), Low: min(deep, low), High: min(deep, high), Typical: true}
	out.After = Known[unit.Span]{Value: after, Low: early, High: late, Typical: true}
	eta := s.thin[0]
	hour := func(rho unit.Density, eta unit.Viscosity) unit.Length {
		return unit.Length(g.shape * max(0, StokesFall(d, rho, s.plan.Density.Value, eta)) * float64(unit.Hour))
	}
	out.Speed = Known[unit.Length]{Value: hour(g.density.value, eta.Value), Low: hour(g.density.low, eta.High), High: hour(g.density.high, eta.Low), Typical: true}
	if w := s.plan.Times.Working; !w.Absent {
		out.Late = after > w.Value
	}
	return out
}

// fall gives how far a grain sinks from the pour until the resin sets, and when
// so much of that is over that the rest is enough or less.
func (s sinking) fall(g grain, d unit.Length, rho unit.Density, pick func(Known[unit.Viscosity]) unit.Viscosity, a, b unit.Number, enough unit.Length) (unit.Length, unit.Span) {
	gel := cure.GelPoint(4, 2, 1)
	speed := func(i int) float64 {
		eta := float64(pick(s.thin[i])) * Thickening(s.from[i].State.A, gel, float64(a), float64(b))
		if math.IsInf(eta, 1) {
			return 0
		}
		return g.shape * max(0, StokesFall(d, rho, s.plan.Density.Value, unit.Viscosity(eta)))
	}
	// Sunk from the pour to each frame, by trapezia.
	sunk := make([]float64, len(s.from))
	last := speed(0)
	for i := 1; i < len(s.from); i++ {
		step := float64(s.from[i].At - s.from[i-1].At)
		next := speed(i)
		sunk[i] = sunk[i-1] + step*(last+next)/2
		last = next
	}
	all := sunk[len(sunk)-1]
	for i := 1; i < len(sunk); i++ {
		if rest := all - sunk[i]; rest > float64(enough) {
			continue
		}
		before, after := all-sunk[i-1], all-sunk[i]
		if before <= float64(enough) {
			return unit.Length(all), 0
		}
		w := (before - float64(enough)) / (before - after)
		return unit.Length(all), s.from[i-1].At - s.from[0].At + (s.from[i].At - s.from[i-1].At).Times(w)
	}
	return unit.Length(all), 0
}

// settles finds what is stirred into a layer and will lie on its floor; only of
// grains whose size is given, since it goes by their size squared.
func (h *heat) settles(c *Curing, l *LayerCuring, say func(level Level, subject Subject, kind, field, what, why, do string)) {
	s := h.p.Style
	list, _ := h.plan.Settling(h.p, c, l.ID)
	for _, g := range list {
		if !g.Sized || g.After.Value == 0 {
			continue
		}
		why := fmt.Sprintf("of %s they sink %s before the resin sets, and %s is little enough", SmallLength(g.Size), SmallLength(g.Sinks.Value), s.Length(g.Enough))
		if g.Late {
			say(Check, OfMixing, "tint.settles", g.At+"/grain", upperFirst(g.What)+" will settle in "+l.Name, why, "use finer grains, or a resin that sets sooner: to wait for it takes longer than the working time")
			continue
		}
		say(Note, OfMixing, "tint.wait", g.At+"/grain", fmt.Sprintf("Pour %s after minute %.0f, or %s will settle", l.Name, math.Ceil(float64(g.After.Value/unit.Minute)), g.What), why, "stir it again just before")
	}
}

// thinFor gives the time for which the resin would have to stay at a viscosity,
// in Pa·s, for as much to flow as does until it sets: ∫ η₀/η dt, by trapezia.
func (s sinking) thinFor(eta float64, a, b unit.Number) unit.Span {
	gel := cure.GelPoint(4, 2, 1)
	ease := func(i int) float64 {
		return eta / (float64(s.thin[i].Value) * Thickening(s.from[i].State.A, gel, float64(a), float64(b)))
	}
	sum := unit.Span(0)
	for i := 1; i < len(s.from); i++ {
		sum += (s.from[i].At - s.from[i-1].At).Times((ease(i-1) + ease(i)) / 2)
	}
	return sum
}
