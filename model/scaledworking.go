package model

import (
	"fmt"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// The figures that no simulation gives, but the data sheet.
const (
	FigRecoatEnd Figured = "end of the recoat window"
	FigFullCure  Figured = "full cure"
)

// ScaledWorking tells how a time of a layer's data sheet came to what it is in
// this room: FigWorking, FigRecoat, FigRecoatEnd, FigDemold or FigFullCure.
// False where the plan has no such time.
func (pl *Plan) ScaledWorking(p *Project, layer string, fig Figured) (Working, bool) {
	l := pl.Layer(layer)
	if l == nil {
		return Working{}, false
	}
	sheet := p.Sheet(l.Sheet)
	if sheet == nil {
		return Working{}, false
	}
	var name, field string
	var f Figure[unit.Span]
	var here Known[unit.Span]
	fallback := typical[unit.Span]{}
	switch fig {
	case FigWorking:
		name, field, f, here = "Working time", "workingTime", sheet.WorkingTime, l.Times.Working
	case FigRecoat:
		name, field, f, here = "Next pour from", "recoatFrom", sheet.RecoatFrom, l.Times.RecoatFrom
	case FigRecoatEnd:
		name, field, f, here = "Next pour until", "recoatTo", sheet.RecoatTo, l.Times.RecoatTo
	case FigDemold:
		name, field, f, here, fallback = "Ready to demold", "demold", sheet.Demold, l.Times.Demold, typicalDemold
	case FigFullCure:
		name, field, f, here, fallback = "Full cure", "fullCure", sheet.FullCure, l.Times.FullCure, typicalFullCure
	}
	if name == "" || here.Absent {
		return Working{}, false
	}
	s, path := p.Style, "sheets/"+sheet.ID+"/"
	base := known(f, fallback)
	at := taken(f.At, typicalSheetTemp)
	e := known(sheet.Activation, typicalActivation)
	room, read := p.room()
	w := Working{
		Title: name + " of " + l.Name,
		Formula: fmt.Sprintf("The sheet's time, lengthened in a cooler room and shortened in a warmer one: t · exp(E/R · (1/T − 1/T₀)) = %s · %.2f = %s. It counts the room's warmth only, not the heat that the pour makes itself.",
			s.Span(base.Value), cure.Lengthening(e.Value, room, at.Value), s.Span(here.Value)),
		Inputs: []WorkingInput{
			{Label: "t, the time on the sheet", Value: s.Span(base.Value), Source: base.Source, Typical: base.Typical, Field: path + field},
			{Label: "T₀, at which it holds", Value: s.Temperature(at.Value), Source: ofSheet(at), Typical: at.Typical, Field: path + field + "/at"},
			{Label: "T, the room", Value: s.Temperature(room), Source: "yours", Field: "shop/room"},
			{Label: "E, how warmth hurries it", Value: s.MolarEnergy(e.Value), Source: e.Source, Typical: e.Typical, Field: path + "activation"},
			{Label: "R, the gas constant", Value: fmt.Sprintf("%.3f J/(mol·K)", cure.GasConstant), Source: "CODATA 2018"},
		},
		Source: "equivalent age after Freiesleben Hansen and Pedersen, as in ASTM C1074",
	}
	w2, _ := p.warmthOf(layer)
	if w2.log != nil && len(w2.log.Log) == 0 {
		w.Formula = fmt.Sprintf("The sheet's time t at T₀, lengthened by night and shortened by day: until ∫ exp(E/R · (1/T₀ − 1/T)) dt = t. That is %s.", s.Span(here.Value))
		w.Inputs[2].Label, w.Inputs[2].Value = "T, day and night", s.Temperature(room)+" by day, "+s.Temperature(p.Shop.Night.Value)+" at night"
	}
	if w2.log != nil && len(w2.log.Log) > 0 {
		w.Formula = fmt.Sprintf("The sheet's time t at T₀, lengthened or shortened hour by hour by the warmth as it was read since the pour: until ∫ exp(E/R · (1/T₀ − 1/T)) dt = t. That is %s.", s.Span(here.Value))
		w.Inputs[2].Label, w.Inputs[2].Value = "T, as it was read", fmt.Sprintf("%d readings", len(w2.log.Log)-1)
	}
	if !read {
		w.Inputs[2].Source, w.Inputs[2].Typical = "typical value, no source", true
	}
	if here.Low < here.High {
		w.Band = "between " + s.Span(here.Low) + " and " + s.Span(here.High) + ": what the sheet does not say, from one end of its band to the other"
	}
	return w, true
}

// ofSheet says where a condition of a sheet's figure is from.
func ofSheet(k Known[unit.Temperature]) string {
	if k.Typical {
		return k.Source
	}
	return "data sheet"
}
