package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// LeakPlan is what would leave by the seams that were measured, pour by pour, as
// if nothing were sealed.
type LeakPlan struct {
	Pours []LeakPour  `json:"pours,omitempty"`
	Tray  unit.Volume `json:"tray"` // that the tray below the mold should hold
}

// LeakPour is what one pour would lose.
type LeakPour struct {
	Layer     string                `json:"layer"`
	Name      string                `json:"name"`
	Viscosity Known[unit.Viscosity] `json:"viscosity"` // at the pour
	Gel       Known[unit.Span]      `json:"gel"`       // until it no longer runs
	Seams     []SeamLeak            `json:"seams"`
	Hour      unit.Mass             `json:"hour"`          // in the first hour, all seams
	ByGel     Known[unit.Mass]      `json:"byGel"`         // until it has set, if it stayed as thin as it was mixed: the careful bound
	Share     float64               `json:"share"`         // that bound of what is poured
	Gap       unit.Length           `json:"gap,omitempty"` // alike in all seams that would lose 1 % by then; 0 where none is wetted
}

// SeamState tells whether resin gets to a seam.
type SeamState string

// The states of a seam in a pour.
const (
	SeamWet   SeamState = "wet"
	SeamAbove SeamState = "above the level"
	SeamSet   SeamState = "closed by the resin below"
	SeamBlank SeamState = "not measured"
)

// SeamLeak is one seam in one pour.
type SeamLeak struct {
	ID    string        `json:"id"`
	State SeamState     `json:"state"`
	Press unit.Pressure `json:"press"` // at the seam, with the pour at its level
	Hour  unit.Mass     `json:"hour"`
	ByGel unit.Mass     `json:"byGel"`         // never more than stands above the seam
	All   bool          `json:"all,omitempty"` // that is all of it
	Gap   unit.Length   `json:"gap"`           // that would lose 1 % of the pour by this seam alone
	Long  unit.Length   `json:"-"`             // of the seam along the wall, as reckoned with
	Way   unit.Length   `json:"-"`             // through it
}

// leakAllowed is the part of a pour that may be lost; a tray holds trayRoom of
// the largest pour. Common practice, no source.
const (
	leakAllowed = 0.01
	trayRoom    = 1.1
)

// typicalGelling is by how much longer than its working time a resin stays
// liquid in a thin layer, where its sheet gives no gel time; common practice, no
// source.
var typicalGelling = typical[unit.Number]{8, 6, 12}

// LeakFlow gives how much of a liquid goes through a slit in a second: w g³ Δp/(12
// η L), Poiseuille's flow between two plates (White, Fluid Mechanics; formula
// from memory), for a slit as long as w along the wall, of the gap g, and L deep
// through it.
func LeakFlow(long, gap, way unit.Length, press unit.Pressure, eta unit.Viscosity) unit.Volume {
	if way <= 0 || eta <= 0 || press <= 0 {
		return 0
	}
	return unit.Volume(float64(long) * math.Pow(float64(gap), 3) * float64(press) / (12 * float64(eta) * float64(way)))
}

// LeakGap gives the gap at which so much goes through a slit in a second.
func LeakGap(flow unit.Volume, long, way unit.Length, press unit.Pressure, eta unit.Viscosity) unit.Length {
	if long <= 0 || press <= 0 {
		return 0
	}
	return unit.Length(math.Cbrt(float64(flow) * 12 * float64(eta) * float64(way) / (float64(long) * float64(press))))
}

// SeamSize gives how long a seam is and how far the resin goes through it: as
// measured, else all round the cavities at its height and through the thickness
// of the floor.
func (m *maker) seamSize(s *Seam) (long, way unit.Length) {
	if long = s.Long.Value; !s.Long.Given() {
		at := min(max(0, s.Height.Value), m.plan.Mold.Depth)
		long = m.fillNow.cavity.Section(at).Ring().Perimeter().Times(float64(m.fillNow.count))
	}
	if way = s.Way.Value; !s.Way.Given() {
		way = m.p.thick().Value
	}
	return long, way
}

// leaks works out what would be lost.
func (m *maker) leaks() {
	plan := &m.plan.Leaks
	for k := range m.plan.Layers {
		if v := m.plan.Layers[k].Volume.Times(trayRoom); v > plan.Tray {
			plan.Tray = v
		}
	}
	if len(m.p.Mold.Hold.Seams) == 0 {
		return
	}
	for k := range m.layers {
		plan.Pours = append(plan.Pours, m.leakPour(k))
	}
}

func (m *maker) leakPour(k int) LeakPour {
	l := &m.plan.Layers[k]
	p := LeakPour{Layer: l.ID, Name: l.Name, ByGel: Known[unit.Mass]{Absent: true}}
	sheet := m.layers[k].sheet
	if sheet == nil {
		p.Gel = Known[unit.Span]{Absent: true, Source: "no resin chosen"}
		p.Viscosity = typicalViscosity.known()
	} else {
		p.Viscosity = sheet.viscosity(m.p.resinTemp())
		warm, _ := m.p.warmthOf(l.ID)
		p.Gel = gelOf(sheet, l, warm)
	}
	rho := m.layers[k].known.Value
	wide := unit.Volume(0) // what a gap of 1 m would let through in a second, by its cube
	for i := range m.p.Mold.Hold.Seams {
		s := &m.p.Mold.Hold.Seams[i]
		leak := m.seamLeak(s, l, &p)
		p.Seams = append(p.Seams, leak)
		p.Hour += leak.Hour
		if leak.State == SeamWet || leak.State == SeamBlank && leak.Press > 0 {
			long, way := m.seamSize(s)
			wide += LeakFlow(long, 1, way, leak.Press, p.Viscosity.Value)
		}
	}
	if p.Gel.Absent {
		return p
	}
	p.ByGel = Known[unit.Mass]{Typical: p.Gel.Typical || p.Viscosity.Typical}
	for i := range p.Seams {
		p.ByGel.Value += p.Seams[i].ByGel
	}
	most := l.Volume.Of(rho)
	p.ByGel.Value = min(p.ByGel.Value, most)
	thin := p.Hour.Times(p.Gel.Low.Hours() * float64(p.Viscosity.Value) / float64(p.Viscosity.High))
	thick := p.Hour.Times(p.Gel.High.Hours() * float64(p.Viscosity.Value) / float64(p.Viscosity.Low))
	p.ByGel.Low, p.ByGel.High = min(thin, p.ByGel.Value), max(min(thick, most), p.ByGel.Value)
	if most > 0 {
		p.Share = p.ByGel.Value.Per(most)
	}
	if wide > 0 && p.Gel.Value > 0 {
		p.Gap = unit.Length(math.Cbrt(float64(l.Volume.Times(leakAllowed)) / float64(p.Gel.Value) / float64(wide)))
	}
	return p
}

// seamLeak works out one seam in one pour.
func (m *maker) seamLeak(s *Seam, l *LayerPlan, p *LeakPour) SeamLeak {
	leak := SeamLeak{ID: s.ID}
	switch at := s.Height.Value; {
	case at >= l.Top-clearEnough:
		leak.State = SeamAbove
		return leak
	case at < l.Bottom-clearEnough:
		leak.State = SeamSet
		return leak
	default:
		leak.Press = l.Density.Value.Head(l.Top - at)
	}
	long, way := m.seamSize(s)
	leak.State, leak.Long, leak.Way = SeamWet, long, way
	if !s.Gap.Given() {
		leak.State = SeamBlank
	}
	flow := LeakFlow(long, s.Gap.Value, way, leak.Press, p.Viscosity.Value)
	rho := l.Density.Value
	above := m.fillNow.Between(max(l.Bottom, s.Height.Value), l.Top)
	leak.Hour = min(flow.Times(float64(unit.Hour)), above).Of(rho)
	if p.Gel.Absent || p.Gel.Value <= 0 {
		return leak
	}
	lost := flow.Times(float64(p.Gel.Value))
	leak.All = lost >= above && above > 0
	leak.ByGel = min(lost, above).Of(rho)
	leak.Gap = LeakGap(l.Volume.Times(leakAllowed/float64(p.Gel.Value)), long, way, leak.Press, p.Viscosity.Value)
	return leak
}

// gelOf gives how long a layer runs: the sheet's gel time where it is as warm as
// here, else so many times its working time.
func gelOf(s *Sheet, l *LayerPlan, w roundAbout) Known[unit.Span] {
	if s.Gel.Given() {
		return scaled(only(s.Gel), s.Gel.At, known(s.Activation, typicalActivation), w)
	}
	work := l.Times.Working
	if work.Absent {
		return work
	}
	k := typicalGelling
	return Known[unit.Span]{
		Value: work.Value.Times(float64(k.value)), Low: work.Low.Times(float64(k.low)), High: work.High.Times(float64(k.high)),
		Typical: true, Source: fmt.Sprintf("%g to %g times the working time (%s)", k.low, k.high, commonPractice),
	}
}

// leakCourse gives the time for which a layer would have to stay as thin as it
// was poured to lose as much as it does until it sets: ∫ η₀/η dt by the course of
// its cure. False where that was not simulated.
func (pl *Plan) leakCourse(p *Project, c *Curing, layer string) (Known[unit.Span], bool) {
	l, at := pl.Layer(layer), p.LayerIndex(layer)
	if l == nil || at == none || c == nil {
		return Known[unit.Span]{}, false
	}
	s := p.Sheet(l.Sheet)
	if s == nil {
		return Known[unit.Span]{}, false
	}
	course := c.Trace.HeartCourse(at)
	if len(course) < 2 {
		return Known[unit.Span]{}, false
	}
	sinks := sinkingOf(l, s, course)
	eta := float64(s.viscosity(p.resinTemp()).Value)
	over := func(a, b unit.Number) unit.Span {
		return sinks.thinFor(eta, a, b)
	}
	return Known[unit.Span]{Value: over(castro.a.value, castro.b.value), Low: over(castro.a.high, castro.b.high), High: over(castro.a.low, castro.b.low), Typical: true}, true
}

// LeakByCure gives what a pour would lose until it sets as it thickens by the
// simulation of its cure; false where that is not known. It is never more than
// the careful bound of the plan.
func (pl *Plan) LeakByCure(p *Project, c *Curing, layer string) (Known[unit.Mass], bool) {
	for i := range pl.Leaks.Pours {
		leak := &pl.Leaks.Pours[i]
		if leak.Layer != layer {
			continue
		}
		thin, ok := pl.leakCourse(p, c, layer)
		if !ok {
			return Known[unit.Mass]{}, false
		}
		most := pl.Layer(layer).Volume.Of(pl.Layer(layer).Density.Value)
		lost := func(t unit.Span) unit.Mass { return min(leak.Hour.Times(t.Hours()), most) }
		return Known[unit.Mass]{Value: lost(thin.Value), Low: lost(thin.Low), High: lost(thin.High), Typical: true}, true
	}
	return Known[unit.Mass]{}, false
}

// TooMuch tells whether a pour may lose more than is allowed.
func (p *LeakPour) TooMuch() bool { return p.Share > leakAllowed }

// Worst gives the pour that would lose most; nil where none loses any.
func (l *LeakPlan) Worst() *LeakPour {
	var worst *LeakPour
	for i := range l.Pours {
		p := &l.Pours[i]
		if p.Hour > 0 && (worst == nil || p.ByGel.Value > worst.ByGel.Value || p.ByGel.Value == worst.ByGel.Value && p.Hour > worst.Hour) {
			worst = p
		}
	}
	return worst
}
