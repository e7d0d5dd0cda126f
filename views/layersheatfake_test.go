package views

import (
	"math"
	"testing"
	"time"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/cure"
	"meniscus/model/unit"
	"meniscus/views/drawing"
)

// makeCuring makes up what a simulation might say of a plan: every pour a day
// after the one before, warmest at its hour 9 in the middle of its depth. No
// physics.
func makeCuring(s *app.Snapshot) model.Curing {
	known := func(h float64) model.Known[unit.Span] {
		return model.Known[unit.Span]{Value: unit.Hour.Times(h), Low: unit.Hour.Times(0.8 * h), High: unit.Hour.Times(1.3 * h)}
	}
	temp := func(v, low, high float64) model.Known[unit.Temperature] {
		return model.Known[unit.Temperature]{Value: unit.Celsius(v), Low: unit.Celsius(low), High: unit.Celsius(high), Source: "data sheet"}
	}
	c := model.Curing{Project: s.Project.ID, Start: time.Date(2026, 11, 27, 18, 0, 0, 0, time.UTC), Banded: true}
	for i := range s.Plan.Layers {
		l := &s.Plan.Layers[i]
		rise := 12 + 9*float64(i)
		c.Layers = append(c.Layers, model.LayerCuring{
			ID: l.ID, Name: l.Name, Ready: true, Assumed: true, Start: c.Start.Add(time.Duration(24*i) * time.Hour),
			Peak: temp(20+rise, 16+rise*0.8, 24+rise*1.4), PeakAfter: known(9), PeakHeight: (l.Bottom + l.Top) / 2,
			PeakLimit: temp(50, 50, 50), PeakCheck: model.Fine,
			GelFirst: known(6), GelLast: known(8), Working: known(0.75), RecoatFrom: known(7), RecoatBest: known(8), RecoatTo: known(15), Demold: known(30), Sand: known(40),
			Gradient: model.Known[unit.TempRise]{Value: 6, Low: 4, High: 9}, Cracks: model.Fine,
			Room:    model.Answer[unit.Temperature]{Value: unit.Celsius(26.5), Known: true, Text: "26.5 °C", Reason: "in a warmer room its peak heat passes 50 °C"},
			Deepest: model.Answer[unit.Length]{Value: 25 * unit.Millimetre, Known: true, Bound: true, Text: "25 mm", Reason: "the data sheet's own limit; the heat would allow more, which changes nothing"},
			Narrow:  []model.Narrowing{{Field: "sheets/s2/heat", Label: "heat of reaction", Part: 0.62, Learn: "weigh 200 g in a cup, time it and note the hottest"}},
			Workings: map[model.Figured]model.Working{
				model.FigPeak: {Title: "Peak heat", Formula: "the hottest place of the simulation", Source: "simulated", Inputs: []model.WorkingInput{{Label: "Room", Value: "20 °C", Source: "yours", Field: "shop/room"}}},
				model.FigRoom: {Title: "Room at which it gets too hot", Formula: "the room is raised until the peak meets its limit", Source: "simulated"}, model.FigDeepest: {Title: "Deepest safe pour", Formula: "min(sheet, heat)", Source: "simulated"},
			},
		})
	}
	const cells = 20
	for hours := 0.0; hours <= 72; hours += 0.25 {
		f := model.TraceFrame{At: unit.Hour.Times(hours), Room: unit.Celsius(20 + 1.5*math.Sin(hours*math.Pi/12))}
		for i := range s.Plan.Layers {
			l := &s.Plan.Layers[i]
			since := hours - 24*float64(i)
			if since < 0 {
				break
			}
			rise := 12 + 9*float64(i)
			for k := range cells {
				x := (float64(k) + 0.5) / cells
				bump := math.Exp(-math.Pow((since-9)/5, 2)) * rise * (1 - 1.8*(x-0.5)*(x-0.5))
				a := math.Pow(since/(since+8.5-bump/15), 3) * 0.97
				f.Cells = append(f.Cells, model.TraceCell{Layer: i,
					Bottom: l.Bottom + l.Depth.Times(float64(k)/cells), Top: l.Bottom + l.Depth.Times(float64(k+1)/cells),
					State: cure.State{T: f.Room + unit.Temperature(bump), A: a}})
			}
		}
		c.Trace.Frames = append(c.Trace.Frames, f)
	}
	return c
}

// heatOn opens the part "heat" over a demo job with a made-up simulation, and
// answers to what is asked of it that are made up as well.
func heatOn(t *testing.T, demo string) (*bench, *layersPage) {
	t.Helper()
	b, p := layersOn(t, demo)
	p.panel.ask = func(_ string, w model.WhatIf, done func(model.WhatIfAnswer, error)) {
		peak := 41 + 3*float64(w.Room)
		done(model.WhatIfAnswer{Depth: 16*unit.Millimetre + w.Depth, Peak: unit.Celsius(peak), TooHot: peak > 50, Texts: []string{"it was asked"}}, nil)
	}
	p.panel.propose = func(done func(model.StageProposal, error)) {}
	p.tab = layersHeat
	p.tabs.SetChosen(layersHeat)
	heatShot(b, p, nil)
	return b, p
}

// heatShots counts the snapshots that were made up: each is an edition of its
// own.
var heatShots int

// heatShot shows a made-up simulation, changed as a test wants it.
func heatShot(b *bench, p *layersPage, change func(*app.Snapshot)) {
	shot := b.Snapshot()
	heatShots++
	shot.Edition += 1000 * heatShots
	shot.Curing, shot.CuringFresh = makeCuring(&shot), true
	if change != nil {
		change(&shot)
	}
	p.see(shot)
}

// sceneOf gives the heat that the section shows.
func sceneOf(p *layersPage) *drawing.Heat { return p.canvas.Scene().(drawing.SectionScene).Heat }
