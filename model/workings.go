package model

import (
	"fmt"
	"math"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// simulationSource names what every simulated figure rests on.
const simulationSource = "rate law of Kamal and Sourour (1973), softening by DiBenedetto, slowing towards glass by Chern and Poehlein (1987); heat through the thickness by finite volumes"

// workings opens every figure of a layer: formula, inputs, source, band.
func (h *heat) workings(c *LayerCuring, l *heatLayer, s *stage) {
	c.Workings = map[Figured]Working{}
	st := h.p.Style
	add := func(f Figured, title, formula, source, band string, more ...WorkingInput) {
		c.Workings[f] = Working{Title: title, Formula: formula, Inputs: append(more, h.inputs(l, s)...), Source: source, Band: band}
	}
	add(FigPeak, "Peak heat of "+c.Name, "the hottest place of the pour at any time, from: warming = heat conducted in + heat of the cure × how fast it cures; how fast = (k₁ + k₂ aᵐ)(1 − a)ⁿ, k = A exp(−E/RT)", simulationSource, bandWords(c.Peak, wholeDegrees(st)))
	add(FigGel, "When "+c.Name+" sets", fmt.Sprintf("when each place has cured by %.0f %%", 100*l.cal.Kinetics.Gel), "gel point of Flory and Stockmayer, 1/√((f − 1)(g − 1)) = 0.577 for four groups on two; measured 0.50 to 0.65", bandWords(c.GelLast, st.Span))
	add(FigRecoat, "Window for the next pour on "+c.Name, fmt.Sprintf("by the surface's own temperature: from when it has cured by %.0f %% until it nears glass, by %.0f %% at most", 100*l.cal.From, 100*l.cal.RecoatTo(h.room.At(s.at))), simulationSource, "opens "+bandWords(c.RecoatFrom, st.Span)+", closes "+bandWords(c.RecoatTo, st.Span))
	if w, ok := h.plan.ScaledWorking(h.p, c.ID, FigWorking); ok {
		c.Workings[FigWorking] = w
	}
	add(FigDemold, "Taking out", fmt.Sprintf("when the resin that has cured least softens %s above the shop by day, or has cured as far as by the data sheet's own hours, where that is more", st.TempRise(cure.DemoldMargin)), "softening by DiBenedetto; margin common practice, no source", bandWords(c.Demold, st.Span))
	add(FigSand, "Cutting and sanding", fmt.Sprintf("when the resin that has cured least softens at %s, or %s above the shop, and not before %s past setting", st.Temperature(cure.SandsAt), st.TempRise(cure.SandMargin), st.Span(cure.SandsAfter)), "softening by DiBenedetto; margins common practice, no source", bandWords(c.Sand, st.Span))
	add(FigGradient, "Difference of temperature through "+c.Name, "hottest less coldest place of the pour, once its first place has set", simulationSource+"; limit "+st.TempRise(crackGradient)+", common practice, no source", bandWords(c.Gradient, wholeRise(st)))
	limit := WorkingInput{Label: "hottest it may get", Value: st.Temperature(l.limit.Value), Source: l.limit.Source, Typical: l.limit.Typical, Field: "sheets/" + l.sheet.ID + "/peakLimit"}
	add(FigRoom, "Warmest room for "+c.Name, "the room at which the simulated peak heat comes to its limit, found by halving and rounded down to half a degree, and never one that the data sheet does not allow", simulationSource, c.Room.Reason, limit)
	deepest := WorkingInput{Label: "data sheet's deepest pour", Value: "not given", Source: "data sheet", Field: "sheets/" + l.sheet.ID + "/maxLayer"}
	if l.sheet.MaxLayer.Given() {
		deepest.Value = st.Length(l.sheet.MaxLayer.Value)
	}
	add(FigDeepest, "Deepest safe pour today", "the depth at which the simulated peak heat comes to its limit, and never more than the data sheet's", simulationSource, c.Deepest.Reason, limit, deepest)
	if c.Beside != nil {
		width := WorkingInput{Label: "resin between the wood, where it is widest", Value: st.Length(c.Beside.Width), Source: "the drawing of the mold"}
		add(FigBeside, "Peak heat of "+c.Name+" between the wood", "as the peak heat, with heat running across as well: resin from its middle to the wood, and the wood; its band is that of the pour without end, as many times the rise", "finite volumes in two directions; wood by the Wood Handbook, chapter 4", bandWords(c.Beside.Peak, st.Temperature), width)
	}
	if c.Stall != nil {
		add(FigStall, "Where "+c.Name+" stops curing", "the cure all but stops when its softening temperature has climbed "+st.TempRise(l.cal.Kinetics.Margin)+" above its own", simulationSource, c.Stall.Text)
	}
}

// inputs lists what went into a layer's simulation.
func (h *heat) inputs(l *heatLayer, s *stage) []WorkingInput {
	st, k := h.p.Style, &l.cal.Kinetics
	sheet := "sheets/" + l.sheet.ID
	room := WorkingInput{Label: "room", Value: st.Temperature(s.slab.Room.At(0)), Source: "yours", Typical: !h.told, Field: "shop/room"}
	if h.room.Swing != 0 {
		room.Value += ", down to " + st.Temperature(h.p.Shop.Night.Value) + " at night"
	}
	if n := len(h.room.Log); n > 0 {
		room.Source = fmt.Sprintf("yours, with %d readings", n)
	}
	resin := WorkingInput{Label: "resin when poured", Value: st.Temperature(s.slab.Strata[s.stratum].From), Source: "yours", Field: "shop/resin"}
	if !h.p.Shop.Resin.Given() {
		resin.Source = "as the room"
	}
	kind, floorTold := h.p.floor()
	thick := h.p.thick()
	bench, benchTold := h.p.bench()
	list := []WorkingInput{
		{Label: "depth of the pour", Value: st.Length(s.slab.Strata[s.stratum].Thickness), Source: "yours", Field: "layers/" + l.plan.ID + "/to"},
		room, resin,
		{Label: "mold's floor", Value: string(kind) + ", " + st.Length(thick.Value), Source: thick.Source, Typical: !floorTold || thick.Typical, Field: "mold/floor"},
		{Label: "stands on", Value: string(bench), Source: "yours", Typical: !benchTold, Field: "shop/bench"},
		{Label: "class of resin", Value: k.Name, Source: k.Source + "; " + k.Unsure, Field: sheet + "/class"},
		{Label: "k₁ in this room", Value: h.rateAt(k.A1, k.E1, s), Source: "the class's, made as fast as the sheet's own times"},
		{Label: "k₂ in this room", Value: h.rateAt(k.A2, k.E2, s), Source: "the class's, made as fast as the sheet's own times"},
		{Label: "m and n", Value: fmt.Sprintf("%.3f and %.3f", k.M, k.N), Source: "the class's"},
		{Label: "slowing towards glass", Value: fmt.Sprintf("steepness %.0f, half way %s above its own", k.Steep, st.TempRise(k.Margin)), Source: "common practice, no source", Typical: true},
		{Label: "density of the mix", Value: st.Density(l.cal.Matter.Density), Source: sheetOrTypical(densityOf(l.sheet) != 0), Typical: densityOf(l.sheet) == 0, Field: sheet + "/densityMixed"},
		{Label: "heat of the cure", Value: st.SpecificEnergy(k.Heat), Source: sheetOrTypical(l.sheet.Heat.Given() || l.sheet.Peak.Given()), Typical: !l.sheet.Heat.Given() && !l.sheet.Peak.Given(), Field: sheet + "/peak"},
		{Label: "how warmth hurries it", Value: st.MolarEnergy(k.Activation(unit.Celsius(20), k.Gel)), Source: sheetOrTypical(l.sheet.Activation.Given() || l.sheet.GelOther.Given() || l.sheet.WorkingOther.Given()), Typical: !l.sheet.Activation.Given() && !l.sheet.GelOther.Given() && !l.sheet.WorkingOther.Given(), Field: sheet + "/activation"},
		{Label: "softening when fully cured", Value: st.Temperature(k.Glass.Full), Source: sheetOrTypical(l.sheet.Softening.Given()), Typical: !l.sheet.Softening.Given(), Field: sheet + "/softening"},
		{Label: "heat to warm 1 kg by 1 °C", Value: fmt.Sprintf("%.0f J", float64(l.cal.Matter.Heat)), Source: "typical, 1,620 to 1,980", Typical: true},
		{Label: "conductivity", Value: fmt.Sprintf("%.2f W/(m K)", float64(l.cal.Matter.Conductivity)), Source: "typical, 0.17 to 0.23", Typical: true},
		{Label: "air film below", Value: fmt.Sprintf("%.1f W/(m² K)", float64(h.below)), Source: "ISO 6946 (from memory)", Typical: true},
		{Label: "air film above", Value: fmt.Sprintf("%.1f W/(m² K)", float64(cure.StillAir)), Source: "still air, Incropera ch. 9 (from memory)", Typical: true},
	}
	if c := l.product.Learned; c.Runs > 0 {
		list = append(list, WorkingInput{Label: "this lot", Value: c.Words, Source: "your own runs"})
	}
	return list
}

// rateAt writes a rate constant at the temperature that the resin is poured at.
func (h *heat) rateAt(a float64, e unit.MolarEnergy, s *stage) string {
	t := s.slab.Strata[s.stratum].From
	return fmt.Sprintf("%.3g per hour at %s, %s", a*math.Exp(-float64(e)/(cure.GasConstant*float64(t)))*3600, h.p.Style.Temperature(t), h.p.Style.MolarEnergy(e))
}

// sheetOrTypical names where a figure of a sheet comes from.
func sheetOrTypical(told bool) string {
	if told {
		return "data sheet"
	}
	return "typical, no source"
}

// wholeDegrees writes simulated temperatures in whole degrees: they are known no
// finer.
func wholeDegrees(s unit.Style) func(unit.Temperature) string {
	return func(t unit.Temperature) string {
		if s.TempUnit() == unit.InFahrenheit {
			return s.Temperature(unit.Fahrenheit(math.Round(t.Fahrenheit())))
		}
		return s.Temperature(unit.Celsius(math.Round(t.Celsius())))
	}
}

// wholeRise writes simulated differences of temperature as wholeDegrees does.
func wholeRise(s unit.Style) func(unit.TempRise) string {
	return func(r unit.TempRise) string {
		grain := 1.0
		if s.TempUnit() == unit.InFahrenheit {
			grain = 1 / 1.8
		}
		return s.TempRise(unit.TempRise(math.Round(float64(r)/grain) * grain))
	}
}

// bandWords writes a figure with its band: "38 °C (31 to 52)".
func bandWords[Q unit.Quantity](k Known[Q], write func(Q) string) string {
	switch {
	case k.Absent:
		return "not known: " + k.Source
	case k.Low == k.High:
		return write(k.Value)
	}
	return fmt.Sprintf("%s (%s to %s)", write(k.Value), write(k.Low), write(k.High))
}
