package model

import (
	"slices"
	"time"

	"meniscus/model/unit"
)

// NumberKind is what the one number of a moment is.
type NumberKind string

// The kinds of number.
const (
	NumberReads NumberKind = "scale reads" // what the scale should read: see Figure
	NumberToGo  NumberKind = "to go"       // what is still to go in, or is over: see Figure
	NumberLeft  NumberKind = "left"        // the time left until At
	NumberSince NumberKind = "since"       // the time gone since At
)

// Turning is where an act leads that writes nothing down.
type Turning string

// The turnings.
const (
	NoTurning  Turning = ""
	TurnTouch  Turning = "touch"  // to the answers of a tack test that is made before it is due
	TurnWeigh  Turning = "weigh"  // to the weighing of the next pour
	TurnAfresh Turning = "afresh" // to the weighing of another cup, the one at the scale being lost
)

// BenchAct is one button of a moment.
type BenchAct struct {
	Label   string
	Entry   Entry // what it writes down; its ID and time are those of the touch
	Turn    Turning
	To      string // the layer that TurnWeigh and TurnAfresh lead to
	Primary bool   // what is done next
	Aside   bool   // it is rarely wanted: not among the one or two that are offered at once
	Refused string // why it cannot be written down as it stands; "" where it can
}

// Moment is all that is worth knowing at the bench at an instant, in the middle
// of a pour: one number, the next step, and the acts that may follow. There is
// exactly one primary act, or a number that counts down, or nothing is left to
// do and Over says so.
type Moment struct {
	Layer string // that it is about; "" for none
	Name  string // its name

	Number NumberKind
	Figure string    // of NumberReads and NumberToGo, with its unit
	At     time.Time // of NumberLeft and NumberSince, UTC
	Of     string    // what the number is
	State  AimState  // how near a typed reading is to its mark; "" where none was typed

	Next  string // the next step
	More  string // what else to know, in a line; may be empty
	Acts  []BenchAct
	Over  bool
	Mends bool // a cup is off its ratio: More says what to know of that now
	Hot   bool // something is in a cup or in the mold that may get too hot
}

// BenchAsk is what the bench asks about.
type BenchAsk struct {
	Now     time.Time
	Layer   string     // the pour that the maker turned to; "" or one that is poured: the pour of the moment
	Reading string     // of the scale, as typed; "" where none is
	Touch   bool       // the surface is tested although it is not due yet
	Afresh  bool       // another cup is weighed in place of one that is lost
	Shelf   *ShelfPlan // what is left of products of the shelf; nil where that is not known
}

// touchAgain is how long a surface that drew strings is left before it is
// touched again where nothing says longer (common practice, no source).
const touchAgain = 15 * time.Minute

// usualEnd is how long after its start a pour of unknown working time is taken
// to be over when no one said so.
const usualEnd = 12 * time.Hour

// Moment tells where the work stands by the journal, and what comes next. The
// plan should be one with the times of its simulation (Curing.Timed).
func (pl *Plan) Moment(p *Project, c *Curing, ask BenchAsk) Moment {
	w := benchWork{plan: pl, project: p, curing: c, ask: ask, entries: p.standing()}
	if len(pl.Layers) == 0 {
		return Moment{Next: "Plan a pour first, in Layers", Over: true}
	}
	w.layer = &pl.Layers[w.turnedTo()]
	m := w.moment()
	m.Layer, m.Name, m.Hot = w.layer.ID, w.layer.Name, w.mayHeat()
	return m
}

// benchWork is the work on one piece as the journal has it.
type benchWork struct {
	plan    *Plan
	project *Project
	curing  *Curing
	ask     BenchAsk
	entries []Entry
	layer   *LayerPlan // that the moment is about
}

// turnedTo is the place of the layer that the moment is about: the one asked
// for where it is still to be poured, else the one of the moment.
func (w *benchWork) turnedTo() int {
	list := w.plan.Layers
	if i := slices.IndexFunc(list, func(l LayerPlan) bool { return l.ID == w.ask.Layer }); i >= 0 && !w.begun(list[i].ID) {
		return i
	}
	last := none
	for i := range list {
		if w.begun(list[i].ID) {
			last = i
		}
	}
	switch {
	case last == none:
		return 0
	case last == len(list)-1 || w.ask.Touch || !w.ended(&list[last]):
		return last
	}
	next := list[last+1].ID
	if len(w.project.mixCups(next)) > 0 {
		return last + 1
	}
	if feel, _ := w.felt(list[last].ID); (feel == FeelTape || feel == FeelHard) && w.insert(last, true) == nil {
		return last + 1
	}
	return last
}

// moment chooses what the layer is in the middle of.
func (w *benchWork) moment() Moment {
	last := w.layer.ID == w.plan.Layers[len(w.plan.Layers)-1].ID
	switch {
	case last && w.project.happened(EntryDemolded):
		return w.curingOut()
	case !w.begun(w.layer.ID):
		return w.mixing()
	case !w.ended(w.layer):
		return w.pouring()
	case last:
		return w.demolding()
	}
	return w.waiting()
}

// mayHeat tells whether something is in a cup or in the mold that may get too
// hot: from the first part on, as the other is poured before it is noted.
func (w *benchWork) mayHeat() bool {
	if w.project.happened(EntryDemolded) {
		return false
	}
	return slices.ContainsFunc(w.plan.Layers, func(l LayerPlan) bool {
		return w.begun(l.ID) || slices.ContainsFunc(w.project.mixCups(l.ID), func(c mixCup) bool { return c.in.Begun || c.begun() })
	})
}

// begun tells whether the pour of a layer was started.
func (w *benchWork) begun(layer string) bool {
	_, ok := w.project.PourStart(layer)
	return ok
}

// ended tells whether all of a layer that was begun is in the mold: as someone
// said, or because twice its working time is over since the last that was done
// for it. Where a further cup is at work or still to come it takes half a day.
func (w *benchWork) ended(l *LayerPlan) bool {
	start, _ := w.project.PourStart(l.ID)
	if _, done := w.last(EntryPourDone, l.ID, start.At); done {
		return true
	}
	from := start.At
	for _, kind := range []EntryKind{EntryWeighedA, EntryWeighedB, EntryMixing, EntryMixed} {
		if e, ok := w.last(kind, l.ID, from); ok {
			from = e.At
		}
	}
	end := usualEnd
	cups := w.project.mixCups(l.ID)
	n := len(cups)
	more := n > 0 && (cups[n-1].in.Begun && !cups[n-1].begun() || cups[n-1].runs() || w.cupLeft(l, n))
	if work := l.Times.Working; !more && !work.Absent && work.Value > 0 {
		end = 2 * work.Value.Duration()
	}
	return w.ask.Now.Sub(from) >= end
}

// last is the last entry of a kind of a layer at or after an instant.
func (w *benchWork) last(kind EntryKind, layer string, from time.Time) (Entry, bool) {
	for _, e := range slices.Backward(w.entries) {
		if e.Kind == kind && e.Layer == layer && !e.At.Before(from) {
			return e, true
		}
	}
	return Entry{}, false
}

// felt is how a layer felt when it was touched last since its pour.
func (w *benchWork) felt(layer string) (Feel, time.Time) {
	start, _ := w.project.PourStart(layer)
	e, _ := w.last(EntryTack, layer, start.At)
	return e.Feel, e.At
}

// due is the instant of a step of a layer; zero where there is none.
func (w *benchWork) due(layer string, kind StepKind) time.Time {
	for _, s := range w.plan.Steps {
		if s.Layer == layer && s.Kind == kind {
			return s.Due
		}
	}
	return time.Time{}
}

// insert is the first insert that was not placed yet: of those that stand on
// layer k, or of those that go into it while it is poured. Nil for none.
func (w *benchWork) insert(k int, onIt bool) *Insert {
	for i := range w.project.Inserts {
		x := &w.project.Inserts[i]
		if onIt != (x.On == OnLayer) || onIt && x.Layer != w.plan.Layers[k].ID {
			continue
		}
		if !onIt {
			at := w.plan.Insert(x.ID)
			if at == nil || slices.IndexFunc(at.Layers, func(v unit.Volume) bool { return v > 0 }) != k {
				continue
			}
		}
		if !slices.ContainsFunc(w.entries, func(e Entry) bool { return e.Kind == EntryPlaced && e.Insert == x.ID }) {
			return x
		}
	}
	return nil
}

// LastAct is the last entry that stands and was written at or after an instant,
// with a name for it, for taking it back; false for none.
func (p *Project) LastAct(from time.Time) (Entry, string, bool) {
	list := p.standing()
	if n := len(list); n > 0 && !list[n-1].At.Before(from) {
		return list[n-1], p.actName(&list[n-1]), true
	}
	return Entry{}, "", false
}

// actName names what an entry says in two or three words.
func (p *Project) actName(e *Entry) string {
	if e.Kind == EntryPlaced {
		for _, x := range p.Inserts {
			if x.ID == e.Insert {
				return x.Name + " placed"
			}
		}
	}
	if e.Kind == EntryTack {
		return map[Feel]string{FeelStrings: "strings", FeelTape: "like tape", FeelHard: "hard"}[e.Feel]
	}
	names := map[EntryKind]string{
		EntryPourStarted: "pour started", EntryPourDone: "pour ended", EntryDemolded: "out of the mold", EntryNote: "note", EntryReading: "temperature",
		EntryProbe: "probe", EntryWeighedA: "A is in", EntryWeighedB: "B is in", EntryMixing: "mixing", EntryMixed: "mixed", EntryPlaced: "placed",
		EntryChecked: "tick", EntryPhoto: "photo", EntryTooHot: "too hot",
		EntryEmptied: "cup weighed empty", EntryLeftOver: "left over", EntryMeasured: "measured", EntrySealMixed: "seal coat", EntryUsed: "used",
	}
	return names[e.Kind]
}
