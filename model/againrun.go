package model

import (
	"time"

	"meniscus/model/unit"
)

// Ran is what happened in the run of a project, against what was planned.
type Ran struct {
	Layers  []LayerRan
	Demold  time.Time     // UTC; zero where it has not come out
	Thick   []unit.Length // of the finished piece, as measured
	Minutes []TaskMinutes // of work
	Rows    []RanRow      // the same for reading
}

// TaskMinutes is the time that one task took, and was planned to take.
type TaskMinutes struct {
	ID      string
	Task    string    // its name
	Planned unit.Span // 0 where nothing was planned
	Took    unit.Span // 0 where nothing was noted
}

// Minutes are the tasks of a project as planned and as logged.
func (p *Project) Minutes() []TaskMinutes {
	var list []TaskMinutes
	for i := range p.Money.Tasks {
		t := &p.Money.Tasks[i]
		list = append(list, TaskMinutes{t.ID, orWord(t.Name, "task"), t.Planned.Value, t.Logged.Value})
	}
	return list
}

// LayerRan is the run of one layer, by the journal. Masses are 0 where nothing
// was noted, and At is zero before its pour.
type LayerRan struct {
	ID, Name string
	At       time.Time // its pour started, UTC
	Planned  MixPlan
	A, B     unit.Mass // weighed into the cups that were poured
	Lost     unit.Mass // in cups that were lost
	Stayed   unit.Mass // in the cups that were weighed once emptied
	Emptied  unit.Mass // what had been in those cups
	Over     unit.Mass // left over and put elsewhere
	Cups     int       // that were poured
	LostCups int       // likewise
	Done     unit.Span // from the start until all was in the mold
	Set      unit.Span // until the first touch that found it like tape
	Next     unit.Span // until the next pour
	Out      unit.Span // until it came out of the mold, of the last pour
	Probe    unit.Taken[unit.Temperature]
}

// Used is what was mixed for the layer, the lost cups not counted.
func (l *LayerRan) Used() unit.Mass { return l.A + l.B }

// InMold is what went into the mold: what was used without what stayed in the
// cups or was left over. False where nothing was weighed.
func (l *LayerRan) InMold() (unit.Mass, bool) {
	return max(0, l.Used()-l.Stayed-l.Over), l.Used() > 0
}

// RanRow is one figure as planned and as it was.
type RanRow struct {
	Key     string // the same in every run of one recipe: "l3/start", "thickness", "minutes/k4"
	Group   string // a layer's name, "piece" or "minutes"
	Label   string
	Planned string // "" where nothing was planned
	Actual  string
	Ratio   float64 // actual over planned, of masses and times; 0 where it says nothing
}

// Ran reads a run out of the journal. pl is the project's plan, timed by the
// simulation where there is one, c the simulation or nil; minutes are the tasks,
// see Minutes.
func (p *Project) Ran(pl *Plan, c *Curing, minutes []TaskMinutes) Ran {
	r := Ran{Minutes: minutes}
	for i := range pl.Layers {
		r.Layers = append(r.Layers, p.layerRan(pl, i))
	}
	for _, e := range p.standing() {
		switch {
		case e.Kind == EntryDemolded:
			r.Demold = e.At.UTC()
		case e.Kind == EntryMeasured && e.Thick.Given():
			r.Thick = append(r.Thick, e.Thick.Value)
		}
	}
	if n := len(r.Layers); n > 0 && !r.Demold.IsZero() && !r.Layers[n-1].At.IsZero() {
		r.Layers[n-1].Out = unit.SpanOf(r.Demold.Sub(r.Layers[n-1].At))
	}
	r.rows(p, pl, c)
	return r
}

// layerRan reads the run of the plan's layer k.
func (p *Project) layerRan(pl *Plan, k int) LayerRan {
	l := LayerRan{ID: pl.Layers[k].ID, Name: pl.Layers[k].Name, Planned: pl.Layers[k].Mix}
	for _, c := range p.mixCups(l.ID) {
		switch {
		case c.in.A+c.in.B <= 0:
		case c.lost:
			l.Lost, l.LostCups = l.Lost+c.in.A+c.in.B, l.LostCups+1
		default:
			l.A, l.B, l.Cups = l.A+c.in.A, l.B+c.in.B, l.Cups+1
		}
	}
	start, begun := p.PourStart(l.ID)
	if begun {
		l.At = start.At.UTC()
	}
	since := func(e *Entry) unit.Span { return unit.SpanOf(e.At.Sub(start.At)) }
	var cup InCup // at the scale last
	var emptied string
	for _, e := range p.standing() {
		next := k+1 < len(pl.Layers) && e.Layer == pl.Layers[k+1].ID
		switch {
		case e.weighed() && e.Layer == l.ID:
			cup.take(&e)
			if e.Cup.Given() {
				emptied = ""
			}
		case e.Kind == EntryEmptied && e.Layer == l.ID:
			// A cup that is scraped once more and weighed again counts once.
			if stays := e.Gross.Value - e.Cup.Or(cup.Cup); cup.Begun && emptied == "" && stays >= 0 && stays <= cup.A+cup.B {
				l.Stayed, l.Emptied, emptied = l.Stayed+stays, l.Emptied+cup.A+cup.B, e.ID
			}
		case e.Kind == EntryLeftOver && e.Layer == l.ID:
			l.Over += e.Gross.Value
		case !begun || e.At.Before(start.At):
		case e.Kind == EntryPourDone && e.Layer == l.ID:
			l.Done = since(&e)
		case e.Kind == EntryTack && e.Layer == l.ID && e.Feel == FeelTape && l.Set == 0:
			l.Set = since(&e)
		case e.Kind == EntryProbe && e.Layer == l.ID && e.Part.Value > l.Probe.Value:
			l.Probe = e.Part
		case e.Kind == EntryPourStarted && next:
			l.Next = since(&e)
		}
	}
	return l
}
