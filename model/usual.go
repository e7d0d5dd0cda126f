package model

import (
	"fmt"
	"strings"

	"meniscus/model/unit"
)

// Usual is what the plan uses where the maker and the data sheet are silent.
type Usual struct {
	Value   string // in the project's units; empty where nothing can stand in
	Band    string // "between 1.5 % and 5 %"; empty for none
	Derived bool   // worked out from other figures, so no typical value
	Why     string // where it comes from, or what is then not known
}

// Usual tells what stands in for the field at path, which is one of a data
// sheet, of the mixing, of the mold's floor, of the shop, of a slab's photo or of a lay-up; false where the plan needs nothing.
func (p *Project) Usual(path string) (Usual, bool) {
	s := p.Style
	parts := strings.Split(path, "/")
	if parts[0] == "sheets" && len(parts) > 2 {
		if sheet := p.Sheet(parts[1]); sheet != nil {
			return sheet.usual(s, strings.Join(parts[2:], "/"))
		}
		return Usual{}, false
	}
	if parts[0] == "slabs" && len(parts) == 4 {
		if slab := p.Slab(parts[1]); slab != nil {
			return slab.Face(Face(parts[2])).usual(parts[3])
		}
		return Usual{}, false
	}
	if parts[0] == "slabs" && len(parts) == 5 && parts[2] == "layups" {
		if slab := p.Slab(parts[1]); slab != nil && slab.Layup(parts[3]) != nil {
			return usualLayup(parts[4], s)
		}
		return Usual{}, false
	}
	if parts[0] == "finish" && path != "finish/minCover" {
		return p.usualFinish(path)
	}
	switch path {
	case "mixing/cupFilm":
		return standIn(typicalCupFilm, s.Share), true
	case "mixing/cupLeast":
		return Usual{Value: s.Mass(typicalCupLeast), Why: commonPractice}, true
	case "mixing/cupHolds":
		return Usual{Why: "half as much again as the data sheet's working time holds for, or the whole mix where that names no mass"}, true
	case "mixing/cupRest":
		return Usual{Why: "it is poured as soon as it is mixed"}, true
	case "mixing/soak":
		return standIn(typicalSoak, hundredths), true
	case "mixing/creep":
		return standIn(typicalCreep, hundredths), true
	case "mixing/scaleStep":
		return Usual{Value: s.MassTo(p.usualStep(), p.usualStep()), Why: commonPractice}, true
	case "mixing/confidence":
		return Usual{Value: s.Share(typicalConfident), Why: commonPractice}, true
	case "mold/floor":
		return Usual{Value: string(typicalFloor), Why: "it keeps the heat in more than any other floor"}, true
	case "mold/thick":
		kind, _ := p.floor()
		return standIn(typicalThick[kind], s.Length), true
	case "shop/bench":
		return Usual{Value: string(typicalBench), Why: commonPractice}, true
	case "shop/night":
		return Usual{Why: "the room is taken to stay as warm as it is"}, true
	case "shop/resin":
		return Usual{Why: "the mixed resin is taken to be as warm as the room"}, true
	case "shop/bottles":
		return Usual{Why: "the bottles are taken to be as warm as the mixed resin, or else as the room"}, true
	case "shop/wood":
		return Usual{Why: "the wood is taken to be as warm as the room"}, true
	case "shop/theirs/temperature":
		return Usual{Value: s.Temperature(homeWarmth), Why: commonPractice}, true
	case "shop/theirs/humidity":
		return Usual{Why: "a heated home in winter stands in, which brings wood to " + s.Share(typicalHome.low) + " to " + s.Share(typicalHome.high) + " (" + commonPractice + ")"}, true
	case "shop/wakes":
		return Usual{Value: clockText(typicalWakes), Why: commonPractice}, true
	case "shop/sleeps":
		return Usual{Value: clockText(typicalSleeps), Why: commonPractice}, true
	case "shop/room":
		return Usual{Value: s.Temperature(typicalRoom), Why: "all times are for this until you read it"}, true
	case "finish/minCover":
		return Usual{Value: s.Length(typicalMinCover), Why: commonPractice}, true
	}
	return Usual{}, false
}

// usualLayup tells what stands in for a figure of how a blank is cut.
func usualLayup(figure string, s unit.Style) (Usual, bool) {
	fine := func(l unit.Length) string { return fineLength(s, l) }
	switch figure {
	case "gap":
		return standIn(typicalGap, fine), true
	case "kerf":
		return standIn(typicalKerf, fine), true
	}
	return Usual{}, false
}

// usual tells what stands in for a figure of the sheet.
func (s *Sheet) usual(st unit.Style, figure string) (Usual, bool) {
	switch figure {
	case "weightRatio":
		if parts, err := s.PartsByWeight(); err == nil && !s.Weight.Given() {
			return Usual{Value: fmt.Sprintf("100 : %.1f", parts), Derived: true, Why: "from " + s.ratioFrom()}, true
		}
		return Usual{}, false
	case "densityMixed":
		if k := mixedDensity(s); !k.Typical && !s.DensityMixed.Given() {
			return Usual{Value: st.Density(k.Value), Derived: true, Why: "from " + k.Source}, true
		}
		return standIn(typicalMixed, st.Density), true
	case "shrink":
		return standIn(typicalShrink, st.Share), true
	case "tintLimit":
		u := standIn(typicalTintLimit, st.Share)
		u.Band = ""
		return u, true
	case "activation":
		return standIn(typicalActivation, st.MolarEnergy), true
	case "heat":
		return standIn(typicalHeat, st.SpecificEnergy), true
	case "softening":
		return standIn(typicalSoftening, st.Temperature), true
	case "peakLimit":
		u := standIn(typicalPeakLimit, st.Temperature)
		u.Band = ""
		return u, true
	case "workingOther", "gelOther":
		return Usual{Why: "how warmth hurries it is then known from typical values alone"}, true
	case "peak":
		return Usual{Why: "how hot it gets is then known from typical values alone"}, true
	case "fullCure":
		return standIn(typicalFullCure, st.Span), true
	case "demold":
		return standIn(typicalDemold, st.Span), true
	case "workingTime":
		return Usual{Why: "nothing can stand in for it: when the cup thickens is then not known"}, true
	case "recoatFrom", "recoatTo":
		return Usual{Why: "nothing can stand in for it: when to pour the next layer is then not known"}, true
	case "maxLayer":
		return Usual{Why: "nothing can stand in for it: whether a layer is too deep is then not known"}, true
	case "coldest", "warmest":
		return Usual{Why: "nothing can stand in for it: whether the room suits is then not known"}, true
	}
	return Usual{}, false
}

const commonPractice = "common practice, no source"

// standIn words a typical value with its band.
func standIn[Q unit.Quantity](t typical[Q], write func(Q) string) Usual {
	return Usual{Value: write(t.value), Band: "between " + write(t.low) + " and " + write(t.high), Why: commonPractice}
}

// hundredths writes a film, which is finer than any graduation, in mm.
func hundredths(l unit.Length) string { return fmt.Sprintf("%.2f mm", l.Millimetres()) }
