package model

import (
	"slices"
	"time"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// room is the shop's temperature, or a typical one.
func (p *Project) room() (unit.Temperature, bool) {
	if p.Shop.Room.Given() {
		return p.Shop.Room.Value, true
	}
	return typicalRoom, false
}

// scaled gives a time of a sheet in the warmth of a layer by equivalent age. A
// figure whose temperature the sheet does not say is taken to hold at 20 °C,
// and its band reaches to 25. The band of the activation energy widens the
// result too.
func scaled(f Known[unit.Span], at unit.Taken[unit.Temperature], e Known[unit.MolarEnergy], w roundAbout) Known[unit.Span] {
	if f.Absent {
		return f
	}
	ref := taken(at, typicalSheetTemp)
	value := w.after(f.Value, e.Value, ref.Value)
	low, high := value, value
	for _, e := range []unit.MolarEnergy{e.Low, e.High} {
		for _, ref := range []unit.Temperature{ref.Low, ref.High} {
			low, high = min(low, w.after(f.Low, e, ref)), max(high, w.after(f.High, e, ref))
		}
	}
	f.Value, f.Low, f.High = value, low, high
	f.Typical = f.Typical || !at.Given()
	return f
}

// roundAbout is how warm it has been round a layer since its pour: one temperature,
// or as it was read.
type roundAbout struct {
	room unit.Temperature
	log  *cure.Room // nil without readings
}

// after gives how long a cure takes that takes so long at the temperature ref.
func (w roundAbout) after(span unit.Span, e unit.MolarEnergy, ref unit.Temperature) unit.Span {
	here := span.Times(cure.Lengthening(e, w.room, ref))
	if w.log == nil {
		return here
	}
	if at, ok := w.log.AgedAt(e, ref, 0, 2*here+30*unit.Day, span); ok {
		return at
	}
	return here
}

// warmthOf gives the warmth of a layer: as the resin was read since its pour, or
// the room where the resin was not, or else the room's own, that at the pour
// where the layer has been poured, with its nights. measured tells whether the
// room was.
func (p *Project) warmthOf(layer string) (w roundAbout, measured bool) {
	w.room, measured = p.room()
	start, begun := p.PourStart(layer)
	at := p.Shop.Planned
	if begun {
		at = start.At
		if start.Room.Given() {
			w.room, measured = start.Room.Value, true
		}
	}
	own := p.Shop.dayAndNight(w.room, at, start.Clock)
	var room, part []cure.Reading
	entries := p.standing()
	inMold := whileInMold(entries)
	for _, e := range entries {
		since := unit.SpanOf(e.At.Sub(start.At))
		if !begun || e.Kind != EntryReading || since < 0 {
			continue
		}
		if e.Room.Given() {
			room = append(room, cure.Reading{At: since, T: e.Room.Value})
		}
		if e.Part.Given() && e.Layer == layer && inMold(e.At) {
			part = append(part, cure.Reading{At: since, T: e.Part.Value})
		}
	}
	log := room
	if len(part) > 0 {
		log = part
	} else if len(log) > 0 && own.Swing == 0 { // the last reading of such a room holds
		own.Mean = log[len(log)-1].T
	}
	if len(log) > 0 {
		own = own.Logged(append([]cure.Reading{{At: 0, T: w.room}}, log...))
	}
	if len(log) > 0 || own.Swing != 0 {
		w.log = &own
	}
	return w, measured
}

// dayAndNight gives a room that is as warm as told by day, and swings down to
// the night's temperature where the shop has one, as seen from an instant at
// which its clock showed such a time; where none is given, from what it shows
// then as the shop's zone is now, or from a usual hour where there is no instant.
func (s *Shop) dayAndNight(day unit.Temperature, from time.Time, showed TimeOfDay) cure.Room {
	room := cure.Steady(day)
	if !s.Night.Given() || s.Night.Value >= day {
		return room
	}
	room.Mean = (day + s.Night.Value) / 2
	room.Swing = unit.TempRise(day-s.Night.Value) / 2
	room.Warmest = warmestHour - assumedHour
	if !from.IsZero() {
		at := from.In(s.Place())
		if _, told := showed.Clock(); !told {
			showed = TimeOfDay(at.Format(clockForm))
		}
		since, _ := showed.Clock()
		clock := unit.SpanOf(since) + unit.Span(at.Second())
		room.Warmest = warmestHour - clock
	}
	return room
}

// layerTimes scales the sheet's times of a layer to its warmth.
func layerTimes(s *Sheet, w roundAbout) LayerTimes {
	if s == nil {
		absent := Known[unit.Span]{Absent: true, Source: "no resin chosen"}
		return LayerTimes{Factor: 1, Room: w.room, Working: absent, RecoatFrom: absent, RecoatTo: absent, Demold: absent, FullCure: absent}
	}
	e := known(s.Activation, typicalActivation)
	return LayerTimes{
		Factor:     cure.Lengthening(e.Value, w.room, s.WorkingTime.At.Or(typicalSheetTemp.value)),
		Room:       w.room,
		Working:    scaled(only(s.WorkingTime), s.WorkingTime.At, e, w),
		RecoatFrom: scaled(only(s.RecoatFrom), s.RecoatFrom.At, e, w),
		RecoatTo:   scaled(only(s.RecoatTo), s.RecoatTo.At, e, w),
		Demold:     scaled(known(s.Demold, typicalDemold), s.Demold.At, e, w),
		FullCure:   scaled(known(s.FullCure, typicalFullCure), s.FullCure.At, e, w),
	}
}

// standing gives the journal without what was withdrawn, in order of time:
// what was written down late stands where it happened.
func (p *Project) standing() []Entry {
	gone := p.TakenBack()
	var list []Entry
	for _, e := range p.Journal {
		if !gone[e.ID] && e.Kind != EntryWithdrawn {
			list = append(list, e)
		}
	}
	slices.SortStableFunc(list, inTime)
	return list
}

// PourStart gives the entry that started a layer's pour, the last that stands.
func (p *Project) PourStart(layer string) (start Entry, begun bool) {
	gone := p.TakenBack()
	for _, e := range p.Journal {
		if e.Kind == EntryPourStarted && e.Layer == layer && !gone[e.ID] && (!begun || inTime(e, start) >= 0) {
			start, begun = e, true
		}
	}
	return start, begun
}

// happened tells whether an entry of a kind stands in the journal.
func (p *Project) happened(kind EntryKind) bool {
	gone := p.TakenBack()
	return slices.ContainsFunc(p.Journal, func(e Entry) bool { return e.Kind == kind && !gone[e.ID] })
}

// whileInMold gives what tells whether the piece was still in its mold at an
// instant: what is read of it after that is not counted.
func whileInMold(standing []Entry) func(at time.Time) bool {
	out := slices.IndexFunc(standing, func(e Entry) bool { return e.Kind == EntryDemolded })
	return func(at time.Time) bool { return out == none || !standing[out].At.Before(at) }
}

// steps lists the moments of all pours, in the order in which they come. A
// started pour has instants; one to come has spans after its own start. A
// recorded room temperature at the start overrides the shop's.
func (p *Project) steps(layers []LayerPlan) []Step {
	var list []Step
	for i := range layers {
		l := &layers[i]
		start, begun := p.PourStart(l.ID)
		last := i == len(layers)-1
		add := func(kind StepKind, k Known[unit.Span], label string, past bool) {
			if k.Absent {
				return
			}
			step := Step{Kind: kind, Layer: l.ID, Label: label, After: k.Value, Typical: k.Typical, Past: past}
			if begun {
				step.Due = start.At.Add(k.Value.Duration()).UTC().Round(time.Second)
			}
			list = append(list, step)
		}
		next := false // whether the layer above has been poured
		if !last {
			_, next = p.PourStart(layers[i+1].ID)
		}
		done := p.happened(EntryDemolded)
		pour := Step{Kind: StepPour, Layer: l.ID, Label: "pour " + l.Name, Past: begun}
		if begun {
			pour.Due = start.At.UTC()
		}
		list = append(list, pour)
		add(StepWorkEnds, l.Times.Working, "working time of "+l.Name+" ends", next || done)
		if !last {
			add(StepRecoat, l.Times.RecoatFrom, "recoat window of "+l.Name+" opens", next || done)
			add(StepRecoatEnd, l.Times.RecoatTo, "recoat window of "+l.Name+" closes", next || done)
			continue
		}
		add(StepDemold, p.slowest(layers, func(t *LayerTimes) Known[unit.Span] { return t.Demold }), "ready to demold", done)
		add(StepCured, p.slowest(layers, func(t *LayerTimes) Known[unit.Span] { return t.FullCure }), "full cure", false)
	}
	slices.SortStableFunc(list, func(a, b Step) int {
		switch {
		case a.Due.IsZero() && b.Due.IsZero():
			return 0
		case a.Due.IsZero():
			return 1
		case b.Due.IsZero():
			return -1
		}
		return a.Due.Compare(b.Due)
	})
	return list
}

// slowest gives how long after the pour of the last layer all of them have come
// so far: a slow resin below a fast one may take longer still. One that is not
// poured is taken to be poured when the window of the one below it opens.
func (p *Project) slowest(layers []LayerPlan, of func(*LayerTimes) Known[unit.Span]) Known[unit.Span] {
	last := len(layers) - 1
	longest := of(&layers[last].Times)
	top, begun := p.PourStart(layers[last].ID)
	ahead := unit.Span(0)
	for i := last - 1; i >= 0; i-- {
		ahead += layers[i].Times.RecoatFrom.Value
		if start, ok := p.PourStart(layers[i].ID); ok && begun {
			ahead = unit.SpanOf(top.At.Sub(start.At))
		}
		if k := of(&layers[i].Times); !k.Absent && k.Value-ahead > longest.Value {
			longest = k
			longest.Value -= ahead
		}
	}
	return longest
}

// NextStep gives the first step at or after now that is not overtaken.
func (pl *Plan) NextStep(now time.Time) (Step, bool) {
	for _, s := range pl.Steps {
		if !s.Due.IsZero() && !s.Past && !s.Due.Before(now) {
			return s, true
		}
	}
	return Step{}, false
}

// Missed lists the steps that are due and not overtaken, oldest first.
func (pl *Plan) Missed(now time.Time) []Step {
	var list []Step
	for _, s := range pl.Steps {
		if !s.Due.IsZero() && !s.Past && s.Due.Before(now) {
			list = append(list, s)
		}
	}
	return list
}
