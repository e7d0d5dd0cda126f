package model

import (
	"time"

	"meniscus/model/unit"
)

// BarKind is what a stretch of a layer's life is.
type BarKind string

// The kinds of bar, in the order in which they come.
const (
	BarWorking BarKind = "working time"
	BarRecoat  BarKind = "recoat window"
	BarDemold  BarKind = "ready to demold"
	BarCure    BarKind = "full cure"
)

// Bar is a stretch of a layer's life; one of demolding or full cure begins at
// the pour and ends when it is reached. Where its ends have a band it may begin
// between Early and SureFrom, and end between SureTo and Late; else these are
// From and To. Instants are UTC.
type Bar struct {
	Kind     BarKind
	From, To time.Time
	Typical  bool // rests on a typical value

	Early, SureFrom, SureTo, Late time.Time
}

// Life is one layer on the time line.
type Life struct {
	Layer   string
	Name    string
	Start   time.Time // UTC
	Assumed bool      // not poured yet: Start is the earliest that it could be
	Unsure  bool      // Assumed, and the window of the layer below is not known
	NoResin bool      // no resin is chosen
	Bars    []Bar
}

// Timeline lays the layers out in time. A layer that has been poured has its
// own instants; one to come is taken to be poured as soon as it may be, which
// is now or when the recoat window of the layer below opens, whichever is
// later.
func (pl *Plan) Timeline(now time.Time) []Life {
	lives := make([]Life, 0, len(pl.Layers))
	next, unsure := now.UTC(), false
	for k := range pl.Layers {
		l := &pl.Layers[k]
		life := Life{Layer: l.ID, Name: l.Name, Start: next, Assumed: true, Unsure: unsure, NoResin: l.SheetName == ""}
		if at, begun := pl.poured(l.ID); begun {
			life.Start, life.Assumed, life.Unsure = at, false, false
		}
		after := func(s unit.Span) time.Time { return life.Start.Add(s.Duration()).Round(time.Second) }
		add := func(kind BarKind, from, to Known[unit.Span]) {
			if from.Absent || to.Absent {
				return
			}
			bar := Bar{Kind: kind, From: after(from.Value), To: after(to.Value), Typical: from.Typical || to.Typical}
			bar.Early, bar.SureFrom, bar.SureTo, bar.Late = bar.From, bar.From, bar.To, bar.To
			if from.Low < from.High {
				bar.Early, bar.SureFrom = after(from.Low), after(from.High)
			}
			if to.Low < to.High {
				bar.SureTo, bar.Late = after(to.Low), after(to.High)
			}
			life.Bars = append(life.Bars, bar)
		}
		var begin Known[unit.Span]
		add(BarWorking, begin, l.Times.Working)
		if k < len(pl.Layers)-1 {
			if !shut(l.Times.RecoatFrom, l.Times.RecoatTo) {
				add(BarRecoat, l.Times.RecoatFrom, l.Times.RecoatTo)
			}
		} else {
			add(BarDemold, begin, l.Times.Demold)
			add(BarCure, begin, l.Times.FullCure)
		}
		unsure = l.Times.RecoatFrom.Absent
		if open := after(l.Times.RecoatFrom.Value); !unsure && open.After(next) {
			next = open
		}
		lives = append(lives, life)
	}
	return lives
}

// poured gives the instant at which a layer's pour started.
func (pl *Plan) poured(layer string) (time.Time, bool) {
	for _, s := range pl.Steps {
		if s.Layer == layer && s.Kind == StepPour && !s.Due.IsZero() {
			return s.Due, true
		}
	}
	return time.Time{}, false
}
