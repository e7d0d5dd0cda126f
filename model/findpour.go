package model

import (
	"fmt"
	"math"
	"strings"

	"meniscus/model/unit"
)

func (m *maker) findLayers() {
	if len(m.layers) == 0 {
		m.say(Note, OfLayers, "layer.none", "layers", "No pour is planned yet", "how much to mix, and when the next step is due, follow from the pours", "add the first pour in the window Layers")
	}
	for k := range m.layers {
		l, p := m.layers[k].layer, &m.plan.Layers[k]
		at := "layers/" + l.ID
		if l.To.Given() && p.Depth <= 0 && (l.By != ToBelow || m.p.Mold.Depth.Given()) {
			m.say(Stop, OfLayers, "layer.order", at+"/to", l.Name+" does not rise above the layer below", fmt.Sprintf("its top is at %s, the layer below ends at %s", m.length(p.Top), m.length(p.Bottom)), "raise it")
			continue
		}
		if l.Sheet == "" || m.layers[k].sheet == nil {
			m.say(Check, OfLayers, "layer.sheet", at+"/sheet", "No resin is chosen for "+l.Name, "what to weigh, how deep it may be and when it is firm stand on its data sheet", "choose its product, or copy its data sheet in")
			continue
		}
		if l.To.Given() && p.Depth > 0 {
			m.findLimits(at, l, p)
		}
	}
}

// findLimits turns the checks against the data sheet into findings. A figure
// that decides a stop and is missing is "not known".
func (m *maker) findLimits(at string, l *Layer, p *LayerPlan) {
	sheet := "sheets/" + l.Sheet
	for _, c := range p.Checks {
		switch c.Kind {
		case "deepest layer":
			switch c.Verdict {
			case Beyond:
				m.say(Stop, OfLayers, "layer.deep", at+"/to", l.Name+" is deeper than its data sheet allows", c.Text, "pour it in more layers")
			case NotKnown:
				switch s := m.p.Sheet(l.Sheet); {
				case !s.MaxLayer.Given():
					m.say(Check, OfLayers, "layer.depth-unknown", sheet+"/maxLayer", "Whether "+l.Name+" may be this deep is not known", c.Text, "copy the deepest layer from the data sheet")
				case p.Times.Room > s.MaxLayer.At.Value+roomSlack:
					m.say(Check, OfLayers, "layer.depth-warm", at+"/to", "Whether "+l.Name+" may be this deep in so warm a room is not known", c.Text, "wait for a cooler room, pour less at once, or ask the supplier")
				}
			}
		case "shallowest layer":
			if c.Verdict == Beyond {
				m.say(Check, OfLayers, "layer.thin", at+"/to", l.Name+" is thinner than its data sheet allows", c.Text, "a thin layer of a slow resin may stay soft; pour it deeper or use another resin")
			}
		case "coldest", "warmest":
			switch c.Verdict {
			case Beyond:
				m.say(Stop, OfCure, "room."+c.Kind, "shop/room", "The room is outside what the data sheet of "+p.SheetName+" allows", c.Text, "wait, or bring the room into its range")
			case NotKnown:
				// Where only the room was not read, room.missing says so once.
				if s := m.p.Sheet(l.Sheet); c.Kind == "coldest" && !s.Coldest.Given() || c.Kind == "warmest" && !s.Warmest.Given() {
					m.say(Check, OfCure, "room.unknown", sheet+"/"+c.Kind, "Whether the room suits "+p.SheetName+" is not known", c.Text, "copy it from the data sheet")
				}
			}
		case "tint and additives":
			if c.Verdict == Beyond {
				level := Check
				if m.p.Sheet(l.Sheet).TintLimit.Given() {
					level = Stop
				}
				m.say(level, OfMixing, "mix.tint", m.mostStirred(l, p)+"/share", "Too much is stirred into "+l.Name, c.Text, "use less, or a stronger colour: too much keeps the resin from curing hard")
			}
		}
	}
}

// mostStirred is the path of what uses most of what a layer's mix bears.
func (m *maker) mostStirred(l *Layer, p *LayerPlan) string {
	t := m.p.Tints(l.ID, p.Mix.Total)
	most := t.Uses[0]
	for _, u := range t.Uses[1:] {
		if u.Used > most.Used {
			most = u
		}
	}
	return most.At
}

// What a data sheet is doubted by (common practice, no source).
const (
	sheetAgrees   = 0.03 // how far two figures of which one follows from the other may lie apart: sheets round
	leastHardener = 10   // parts to 100 of resin by weight that are usual
	mostHardener  = 120
)

// findSheets looks for data sheets that contradict themselves.
func (m *maker) findSheets() {
	for i := range m.p.Sheets {
		s := &m.p.Sheets[i]
		at := "sheets/" + s.ID
		if s.Volume.Given() && s.Weight.Given() && s.DensityA.Given() && s.DensityB.Given() {
			byVolume := partsFromVolume(float64(s.Volume.A.Value), float64(s.Volume.B.Value), s.DensityA.Value, s.DensityB.Value)
			byWeight, _ := s.PartsByWeight()
			if apart := byWeight/byVolume - 1; math.Abs(apart) > sheetAgrees {
				m.say(Check, OfLayers, "sheet.ratio", at+"/weightRatio/a", s.Name+": its two mixing ratios do not agree",
					fmt.Sprintf("by weight 100:%.1f, by volume and densities 100:%.1f, %+.0f %%", byWeight, byVolume, 100*apart), "one of the four figures is copied wrong, or a ratio by volume was entered as one by weight")
			}
		}
		if parts, err := s.PartsByWeight(); err == nil && s.DensityMixed.Given() && s.DensityA.Given() && s.DensityB.Given() {
			mixed := mixedFrom(parts, s.DensityA.Value, s.DensityB.Value)
			if apart := float64(s.DensityMixed.Value)/float64(mixed) - 1; math.Abs(apart) > sheetAgrees {
				m.say(Check, OfLayers, "sheet.density", at+"/densityMixed", s.Name+": the mixed density does not follow from those of its parts",
					fmt.Sprintf("%s on the sheet, %s from A, B and the ratio", m.p.Style.Density(s.DensityMixed.Value), m.p.Style.Density(mixed)), "check the three densities and the ratio on the data sheet")
			}
		}
		m.findEquivalents(s)
		if parts, err := s.PartsByWeight(); err == nil && (parts > mostHardener || parts < leastHardener) {
			m.say(Check, OfLayers, "sheet.swapped", at+"/weightRatio/a", s.Name+": an unusual mixing ratio", fmt.Sprintf("%.1f parts of hardener to 100 of resin by weight", parts), "check that A and B are not swapped")
		}
		order := func(kind, field string, a, b Figure[unit.Span], what string) {
			if a.Given() && b.Given() && a.Value > b.Value {
				m.say(Check, OfLayers, kind, at+"/"+field, s.Name+": "+what, fmt.Sprintf("%s against %s", m.p.Style.Span(a.Value), m.p.Style.Span(b.Value)), "check both on the data sheet, with the temperature and the mass they hold at")
			}
		}
		order("sheet.working", "workingTime", s.WorkingTime, s.Gel, "the working time is longer than the gel time")
		order("sheet.recoat", "recoatFrom", s.RecoatFrom, s.RecoatTo, "the recoat window closes before it opens")
		order("sheet.cure", "demold", s.Demold, s.FullCure, "it is ready to demold after it is fully cured")
		if s.MaxLayer.Given() && s.MinLayer.Given() && s.MinLayer.Value > s.MaxLayer.Value {
			m.say(Check, OfLayers, "sheet.layers", at+"/minLayer", s.Name+": the shallowest layer is deeper than the deepest", fmt.Sprintf("%s against %s", m.length(s.MinLayer.Value), m.length(s.MaxLayer.Value)), "check both on the data sheet")
		}
		if s.Coldest.Given() && s.Warmest.Given() && s.Coldest.Value > s.Warmest.Value {
			m.say(Check, OfLayers, "sheet.range", at+"/coldest", s.Name+": the coldest room allowed is warmer than the warmest", m.p.Style.Temperature(s.Coldest.Value)+" against "+m.p.Style.Temperature(s.Warmest.Value), "check both on the data sheet, and whether they are in °C or °F")
		}
	}
}

func (m *maker) findMixing() {
	for k := range m.plan.Layers {
		p, l := &m.plan.Layers[k], m.layers[k]
		if l.sheet == nil || !m.ok || p.Depth <= 0 {
			continue
		}
		at := "layers/" + p.ID
		if m.taken[k].net <= 0 {
			m.say(Stop, OfLayers, "mix.nothing", at+"/to", "There is no room for resin in "+p.Name, "the wood and the inserts take more than the mold holds there", "check their sizes")
			continue
		}
		if !p.Mix.Ready {
			_, err := l.sheet.PartsByWeight()
			field := "sheets/" + p.Sheet
			if pr, ok := err.(*Problem); ok {
				field = pr.Field
			}
			do := "type it as the data sheet or the bottle says, by weight where both ratios are given"
			if strings.Contains(field, "/density") {
				do = "copy the density from its data sheet, or weigh 50 ml of it and divide by 50"
			}
			m.say(Stop, OfMixing, "mix.ratio", field, "How to weigh "+p.SheetName+" is not known", p.Mix.Why, do)
			continue
		}
		if p.Status == Poured {
			continue // it was mixed
		}
		if f := l.sheet.WorkingTime; f.Mass.Given() {
			cup, do := p.Mix.Total, "mix it in several cups: Mixing tells in how many, once it knows how much your largest takes"
			if own := m.p.Mixing.CupHolds; own.Given() {
				cup, do = min(cup, own.Value), "go by the cups in Mixing, which are worked out with their own heat, and pour each out at once"
			}
			if cup > l.sheet.workingHolds().Value {
				m.say(Check, OfMixing, "mix.large", "mixing/cupHolds", "A cup of "+p.Name+" may be more than its working time holds for",
					fmt.Sprintf("%s, and the sheet's %s holds for %s; a larger mass in a cup heats itself and thickens sooner", m.p.Style.Mass(cup), m.p.Style.Span(f.Value), m.p.Style.Mass(f.Mass.Value)), do)
			}
		}
		if fit := p.Mix.ScaleFit(RatioTolerance); !fit.Fine {
			m.say(Check, OfMixing, "mix.scale", "mixing/scaleStep", "The scale is too coarse for "+p.Name,
				fmt.Sprintf("its last digit, %s, is %.0f %% of the smaller part; %s", m.p.Style.MassTo(p.Mix.Step, p.Mix.Step), 100*fit.Share, fit.Words(m.p.Style)), "use a finer scale, or mix more at once")
		}
	}
}

func (m *maker) findCure() {
	if len(m.layers) > 0 {
		if _, measured := m.p.room(); !measured {
			m.say(Check, OfCure, "room.missing", "shop/room", "The room's temperature is not known",
				"all times are for "+m.p.Style.Temperature(typicalRoom)+", and whether the room is too cold or too warm for the resin cannot be told", "read it at the height of the mold")
		}
	}
	m.findOrder()
	last := len(m.layers) - 1
	for k := range m.plan.Layers {
		p := &m.plan.Layers[k]
		s := m.layers[k].sheet
		if s == nil {
			continue
		}
		if p.Times.Working.Absent {
			m.say(Check, OfCure, "time.working", "sheets/"+s.ID+"/workingTime", "The working time of "+s.Name+" is not known", "the data sheet does not give it here", "copy it, with the temperature and the mass it holds at")
		}
		if k < last && (p.Times.RecoatFrom.Absent || p.Times.RecoatTo.Absent) {
			m.say(Check, OfCure, "time.recoat", "sheets/"+s.ID+"/recoatFrom", "When to pour on "+p.Name+" is not known", "the data sheet gives no recoat window here", "copy it from the sheet, or go by the touch of a gloved finger: sticky like tape, nothing on the glove")
		}
	}
}
