package model

import (
	"context"
	"fmt"
	"math"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// CupPlan is how the mix of a pour is shared among cups so that each is mixed,
// rested and poured within 0.7 of its working time. Spans count from the moment
// at which the parts of the first cup meet; part A of every cup, and the tint,
// are weighed before that.
type CupPlan struct {
	Ready     bool             `json:"ready"`            // it could be worked out
	Possible  bool             `json:"possible"`         // it can be done
	Why       string           `json:"why,omitempty"`    // it could not be worked out, or cannot be done
	Change    string           `json:"change,omitempty"` // the smallest change with which it could be done
	Binds     string           `json:"binds,omitempty"`  // what keeps it from being fewer cups
	Cup       Known[unit.Mass] `json:"cup"`              // the most that one cup takes; Absent means the whole mix
	Batches   []Batch          `json:"batches"`
	Ends      unit.Span        `json:"ends"` // the last cup is poured
	Cautions  []string         `json:"cautions,omitempty"`
	Forgotten ForgottenCup     `json:"forgotten"`
}

// Batch is one cup of a pour.
type Batch struct {
	Mass    unit.Mass `json:"mass"` // A and B, in whole steps of the scale
	A       unit.Mass `json:"a"`
	B       unit.Mass `json:"b"`
	Start   unit.Span `json:"start"` // its parts meet
	Mix     unit.Span `json:"mix"`
	Rest    unit.Span `json:"rest"`
	Pour    unit.Span `json:"pour"`
	Working unit.Span `json:"working"` // of this mass in a cup: the least of the data sheet's and the simulated
	Spare   unit.Span `json:"spare"`   // of 0.7 of that, when it is poured
	Into    []Portion `json:"into"`    // in the order in which they are poured
}

// Portion is what goes from one cup into one cavity. The rest of the cup is what
// stays in it and what is mixed to be sure.
type Portion struct {
	Cavity int       `json:"cavity"` // from 1
	Mass   unit.Mass `json:"mass"`
	Part   bool      `json:"part,omitempty"` // the cavity is filled from more than one cup
}

// ForgottenCup is what becomes of the largest cup when it is left standing.
type ForgottenCup struct {
	Peak  unit.Temperature `json:"peak"`
	After unit.Span        `json:"after"`
	Text  string           `json:"text"`
}

// PourEnds tells when the batch has been poured.
func (b *Batch) PourEnds() unit.Span { return b.Start + b.Mix + b.Rest + b.Pour }

// Of tells whether the cups are those of a mix, which may have changed since
// they were worked out.
func (c *CupPlan) Of(m *MixPlan) bool {
	var mass, a unit.Mass
	for i := range c.Batches {
		mass, a = mass+c.Batches[i].Mass, a+c.Batches[i].A
	}
	near := m.Step.Times(0.5)
	return max(mass-m.Total, m.Total-mass) < near && max(a-m.A, m.A-a) < near
}

// CupsOf gives how the mix of a layer is shared among cups; nil where that is
// not known, cannot be done, or is of another mix or another project.
func (c *Curing) CupsOf(pl *Plan, layer string) *CupPlan {
	if c == nil || c.Project != pl.Project {
		return nil
	}
	l, at := pl.Layer(layer), c.layer(layer)
	if l == nil || at == nil || at.Cups == nil || !at.Cups.Possible || len(at.Cups.Batches) == 0 || !at.Cups.Of(&l.Mix) {
		return nil
	}
	return at.Cups
}

// CupHabits says what is taken for granted of the hands.
func CupHabits(s unit.Style) string {
	return fmt.Sprintf("%s to mix a cup, %s from %s on, and %s more where resin or room is below %s; %s to pour a kilogram, and %s more for each cavity",
		s.Span(smallMix), s.Span(largeMixes), s.Mass(largeMix), s.Span(coldMixes), s.Temperature(coldToMix), s.Span(usualPour), s.Span(usualCavity))
}

// cups shares the mix of layer k among cups, in the room since its pour. c is
// what the simulation says of it. Nil where all of it is in the mold; while its
// pour goes on, further cups may be to come.
func (h *heat) cups(ctx context.Context, k int, room cure.Room, c *LayerCuring) (*CupPlan, error) {
	l := &h.layers[k]
	if l.poured && !h.p.inPour(l.plan.ID) {
		return nil, nil
	}
	plan := &CupPlan{Cup: h.p.Mixing.cupHolds(l.sheet), Batches: []Batch{}}
	if m := &l.plan.Mix; !m.Ready {
		plan.Why = m.Why
		return plan, nil
	}
	w := &cupTimes{ctx: ctx, cal: &l.careful, of: l.sheet, room: room, resin: h.resin(room.At(0)), limit: l.plan.Times.Working, step: l.plan.Mix.Step, done: map[int64]unit.Span{}}
	b := h.batching(l, plan.Cup, w)
	loads, ok := b.pack()
	if w.err != nil {
		return nil, h.ended(ctx, w.err)
	}
	plan.Ready, plan.Possible = true, ok
	if ok {
		h.batches(plan, l, b, loads)
		plan.Binds = h.cupsBind(b, len(loads), w)
		plan.Cautions = h.cupCautions(plan, c)
	} else {
		plan.Why, plan.Change = h.cupsMend(b, w)
	}
	if w.err == nil {
		plan.Forgotten = h.forgotten(w, b, loads)
	}
	if w.err != nil {
		return nil, h.ended(ctx, w.err)
	}
	return plan, nil
}

// cupHolds is the most that one cup of a product takes: the maker's largest, or
// where that is not given as much as the working time of its sheet holds for.
func (m *Mixing) cupHolds(s *Sheet) Known[unit.Mass] {
	if m.CupHolds.Given() {
		return taken(m.CupHolds, typical[unit.Mass]{})
	}
	return s.workingHolds()
}

// workingHolds is the most in one cup for which the working time of the sheet is
// taken to hold: half as much again as it was told for. A nil sheet is silent.
func (s *Sheet) workingHolds() Known[unit.Mass] {
	if s != nil && s.WorkingTime.Mass.Value > 0 {
		v := s.WorkingTime.Mass.Value.Times(usualCupExcess)
		return Known[unit.Mass]{Value: v, Low: v, High: v, Typical: true, Source: "half as much again as the data sheet's working time holds for"}
	}
	return Known[unit.Mass]{Absent: true, Source: "the data sheet's working time names no mass"}
}

// batching makes the sharing of a layer's mix ready.
func (h *heat) batching(l *heatLayer, cup Known[unit.Mass], w *cupTimes) *batching {
	m := &l.plan.Mix
	total := int64(math.Round(m.Total.Per(m.Step)))
	weights := []float64{1}
	if len(l.plan.ByCavity) > 1 {
		weights = nil
		for _, of := range l.plan.ByCavity {
			weights = append(weights, float64(of))
		}
	}
	b := &batching{step: m.Step, total: total, need: unit.ShareOut(total, weights), cup: total, rest: wholeMinutes(h.p.Mixing.CupRest.Value), working: w.working}
	b.cold = min(w.resin, w.room.At(0)) < coldToMix
	if !cup.Absent {
		b.cup = min(b.cup, int64(math.Floor(cup.Value.Per(m.Step)+1e-9)))
	}
	return b
}

// batches weighs what was shared out, and says when each cup is begun.
func (h *heat) batches(plan *CupPlan, l *heatLayer, b *batching, loads []batchLoad) {
	m := &l.plan.Mix
	masses := make([]float64, len(loads))
	shares := map[int][]float64{} // of the mix into each cavity, by load
	for i := range loads {
		masses[i] = float64(loads[i].n)
		for _, in := range loads[i].into {
			shares[in.cavity] = append(shares[in.cavity], float64(in.n))
		}
	}
	nets := map[int][]int64{}
	for cavity, parts := range shares {
		net := l.plan.Mass.Value
		if len(l.plan.ByCavity) > 1 {
			net = l.plan.ByCavity[cavity]
		}
		nets[cavity] = unit.ShareOut(int64(math.Round(net.Per(m.Step))), parts)
	}
	of := func(n int64) unit.Mass { return unit.Mass(float64(n) * float64(m.Step)) }
	for i, a := range unit.ShareOut(int64(math.Round(m.A.Per(m.Step))), masses) {
		load := &loads[i]
		mix, pour := b.mixing(load.n), b.pouring(load.n, len(load.into))
		batch := Batch{Mass: of(load.n), A: of(a), B: of(load.n - a), Mix: mix, Rest: b.rest, Pour: pour, Working: b.working(load.n)}
		batch.Spare = batch.Working.Times(WorkingPart) - mix - b.rest - pour
		for _, in := range load.into {
			net := nets[in.cavity][0]
			nets[in.cavity] = nets[in.cavity][1:]
			batch.Into = append(batch.Into, Portion{Cavity: in.cavity + 1, Mass: of(min(net, in.n)), Part: len(shares[in.cavity]) > 1})
		}
		plan.Batches = append(plan.Batches, batch)
	}
	stagger(plan.Batches)
	plan.Ends = plan.Batches[len(loads)-1].PourEnds()
}

// cupCautions says what else to look out for.
func (h *heat) cupCautions(plan *CupPlan, c *LayerCuring) []string {
	var list []string
	style := h.p.Style
	begun := map[int]unit.Span{}
	late := unit.Span(0)
	for i := range plan.Batches {
		b := &plan.Batches[i]
		for _, in := range b.Into {
			if _, ok := begun[in.Cavity]; !ok {
				begun[in.Cavity] = b.Start
			}
			late = max(late, b.PourEnds()-begun[in.Cavity])
		}
	}
	if w := c.Working; !w.Absent && late > w.Value {
		list = append(list, fmt.Sprintf("the first cup has thickened in the mold before the last is poured onto it: %s after its parts met, and it flows for %s. A second pair of hands, or fewer and larger cups, would bring them together", style.Span(late), style.Span(w.Value)))
	}
	keeps := h.p.Mixing.stays
	var all, kept unit.Mass
	for _, b := range plan.Batches {
		all, kept = all+b.Mass, kept+keeps(b.Mass)
	}
	if more := kept - keeps(all); more >= unit.Gram {
		list = append(list, fmt.Sprintf("%d cups keep back about %s more than one would: scrape each of them out", len(plan.Batches), style.Mass(more)))
	}
	return list
}
