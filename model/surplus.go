package model

import (
	"fmt"
	"math"
	"slices"

	"meniscus/model/unit"
)

// trayDepth is how deep a surplus is spread where the data sheet allows it
// (common practice, no source): thin enough to stay cool.
const trayDepth = 5 * unit.Millimetre

// Tray is a square tray in which a surplus is cast thin.
type Tray struct {
	Volume unit.Volume
	Side   unit.Length // in whole centimetres or half inches
	Deep   unit.Length // that it stands in it
	Thin   bool        // thinner than the data sheet wants a layer
}

// TrayFor gives the tray for so much of a product: 5 mm deep, or where that is
// thinner or thicker than its data sheet allows as deep as that allows. It is
// never deeper than the sheet's deepest layer.
func (s *Sheet) TrayFor(of unit.Volume, grain unit.Length) Tray {
	deep := trayDepth
	if s.MinLayer.Given() {
		deep = max(deep, s.MinLayer.Value)
	}
	most := unit.Length(math.Inf(1))
	if s.MaxLayer.Given() {
		most = s.MaxLayer.Value
		deep = min(deep, most)
	}
	t := Tray{Volume: of}
	grains := unit.Length(math.Sqrt(float64(of) / float64(deep))).Per(grain)
	stands := func(n float64) unit.Length {
		side := grain.Times(n)
		return unit.Length(float64(of) / (float64(side) * float64(side)))
	}
	n := max(1, math.Round(grains))
	if s.MinLayer.Given() && n > 1 && stands(n) < s.MinLayer.Value {
		n = max(1, math.Floor(grains))
	}
	if stands(n) > most {
		n = math.Ceil(grains)
	}
	t.Side, t.Deep = grain.Times(n), stands(n)
	t.Thin = s.MinLayer.Given() && t.Deep < s.MinLayer.Value
	return t
}

// trayGrain is to what the side of a tray is told.
func (p *Project) trayGrain() unit.Length {
	if p.Style.LengthUnit() == unit.InInches {
		return unit.Inch.Times(0.5)
	}
	return 10 * unit.Millimetre
}

// SurplusGoes says where the surplus of a rescue in a layer's cup can go: into
// the next pour where that is the same resin and is due while this can be
// worked, else into what this pour still has to fill, else thin into a tray. nth
// is the cup, from 1. It is empty where nothing is left over.
func (pl *Plan) SurplusGoes(p *Project, c *Curing, l *LayerPlan, r *Rescue, nth int) string {
	s := p.Sheet(l.Sheet)
	if s == nil || r.Surplus < l.Mix.Step/2 {
		return ""
	}
	write := func(x unit.Mass) string { return p.Style.MassTo(x, l.Mix.Step) }
	over, words := r.Surplus, ""
	if next := pl.nextAlike(p, c, l, nth); next != nil {
		goes := min(over, next.Mix.Total)
		words += fmt.Sprintf(" Pour %s of it into %s, which is the same resin and due while it can be worked, and mix that much less for it.", write(goes), next.Name)
		over -= goes
	}
	if into, still := pl.stillToFill(c, l, nth); over >= l.Mix.Step/2 && still > 0 {
		goes := min(over, still)
		words += fmt.Sprintf(" Pour %s of it into %s, which this pour still has to fill, and mix that much less in the next cup.", write(goes), into)
		over -= goes
	}
	if over >= l.Mix.Step/2 && l.Density.Value > 0 {
		words += p.trayWords(s, l, over)
	}
	return words[min(1, len(words)):]
}

// trayWords says how large a tray takes a mass of a layer's mix.
func (p *Project) trayWords(s *Sheet, l *LayerPlan, over unit.Mass) string {
	t := s.TrayFor(over.Over(l.Density.Value), p.trayGrain())
	side := p.Style.Length(t.Side)
	words := fmt.Sprintf(" %s is %s: %s deep in a tray of %s by %s, or a spare mold that takes as much.", p.Style.MassTo(over, l.Mix.Step), p.Style.Volume(t.Volume), p.Style.Length(t.Deep), side, side)
	if t.Thin {
		words += " That is thinner than the data sheet wants a layer, so it may stay soft."
	}
	return words
}

// nextAlike is the next pour where it is of the same resin with the same things
// stirred in, and may follow while this cup can still be worked; else nil.
func (pl *Plan) nextAlike(p *Project, c *Curing, l *LayerPlan, nth int) *LayerPlan {
	i := p.LayerIndex(l.ID)
	if i == none || i+1 >= len(p.Layers) || i+1 >= len(pl.Layers) {
		return nil
	}
	next, from, work := &pl.Layers[i+1], l.Times.RecoatFrom, pl.WorkingInCup(c, l.ID, nth)
	one, two := &p.Layers[i], &p.Layers[i+1]
	alike := one.Sheet == two.Sheet && one.Lot == two.Lot && slices.EqualFunc(one.Stirred(), two.Stirred(), func(a, b Stirred) bool {
		share, _ := a.Of(l.Mix.Total)
		other, _ := b.Of(next.Mix.Total)
		return a.Name == b.Name && math.Abs(float64(share-other)) < 1e-9
	})
	if !alike || !next.Mix.Ready || next.Status != Planned || from.Absent || work.Absent || from.High > work.Low {
		return nil
	}
	return next
}

// stillToFill is where the cups of a layer after one of them go, and how much of
// the mix they hold.
func (pl *Plan) stillToFill(c *Curing, l *LayerPlan, nth int) (into string, still unit.Mass) {
	cups := c.CupsOf(pl, l.ID)
	if cups == nil || nth < 1 || nth >= len(cups.Batches) {
		return "", 0
	}
	var cavities []string
	for _, b := range cups.Batches[nth:] {
		still += b.Mass
		for _, in := range b.Into {
			if name := fmt.Sprintf("cavity %d", in.Cavity); !slices.Contains(cavities, name) {
				cavities = append(cavities, name)
			}
		}
	}
	if len(l.ByCavity) < 2 || len(cavities) == 0 {
		return "the mold", still
	}
	return listed(cavities), still
}
