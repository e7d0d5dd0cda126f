package model

import (
	"strings"
	"time"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// NewCard makes the notebook's entry for a project of its plan. Its clock goes
// by the data sheets until the simulation has had its say.
func NewCard(p *Project, pl *Plan, touched time.Time) Card {
	c := Card{
		ID: p.ID, Name: p.Name, Demo: p.Demo, Archived: p.Archived,
		Touched: touched.UTC(), State: state(p, pl), Sketch: sketch(pl),
		Running: NewRunning(p, pl, false),
	}
	for _, l := range pl.Layers {
		c.Resin += l.Mix.Total
	}
	for _, f := range pl.Findings {
		if f.Level == Stop {
			c.Stops++
		}
	}
	return c
}

// The states before the last pour.
const (
	stateMeasured = "being measured"
	statePlanned  = "planned"
	statePartly   = " layers poured" // after how many of how many
)

// Begun tells whether something of the project was poured.
func (c *Card) Begun() bool { return c.State != stateMeasured && c.State != statePlanned }

// ToPour tells whether pours of the project are still to come.
func (c *Card) ToPour() bool {
	return c.State == statePlanned || strings.HasSuffix(c.State, statePartly)
}

// state says in words how far a piece has come.
func state(p *Project, pl *Plan) string {
	if p.happened(EntryDemolded) {
		return "demolded"
	}
	poured := 0
	for _, l := range pl.Layers {
		if l.Status == Poured {
			poured++
		}
	}
	switch {
	case len(pl.Layers) == 0:
		return stateMeasured
	case poured == 0:
		return statePlanned
	case poured == len(pl.Layers):
		return "poured, curing"
	}
	return itoa(poured) + " of " + itoa(len(pl.Layers)) + statePartly
}

// sketch thins the plan view to a thumbnail's worth of points.
func sketch(pl *Plan) Sketch {
	var s Sketch
	d := &pl.Drawing
	size := max(d.Max.X-d.Min.X, d.Max.Y-d.Min.Y)
	thin := func(r shape.Ring) shape.Ring { return r.Simplified(unit.Length(size / 120)) }
	const most = 24
	for _, c := range d.Cavities {
		if len(s.Mold) < most {
			s.Mold = append(s.Mold, thin(c.Rim))
		}
		for _, w := range c.Pieces {
			if len(s.Wood) < most {
				s.Wood = append(s.Wood, thin(w.Top))
			}
		}
	}
	for _, l := range pl.Layers { // the highest layer that is not water-clear
		if s.Colour == "" || l.Clear < 0.7 {
			s.Colour = l.Colour
		}
	}
	return s
}
