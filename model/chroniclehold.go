package model

import (
	"fmt"
	"math"
	"slices"
	"time"

	"meniscus/model/unit"
)

// hold holds an entry that stands against what was planned for it.
func (k *chronicler) hold(row *ChronicleRow) {
	switch e := &row.Entry; e.Kind {
	case EntryPourStarted:
		k.holdStart(row)
	case EntryPourDone:
		k.holdDone(row)
	case EntryDemolded:
		k.holdDemold(row)
	case EntryWeighedA, EntryWeighedB:
		k.holdWeight(row)
	case EntryMixed:
		k.holdMixing(row)
	case EntryTack:
		k.holdTack(row)
	case EntryProbe:
		k.holdProbe(row)
	case EntryReading:
		k.holdReading(row)
	case EntryMeasured:
		k.holdMeasured(row)
	}
}

// holdMeasured holds the thickness of the finished piece against what was to be
// left.
func (k *chronicler) holdMeasured(row *ChronicleRow) {
	planned := k.pl.Mold.Finished
	if planned <= 0 {
		return
	}
	s := k.p.Style
	row.Planned = s.Length(planned) + " left in the end"
	switch off := row.Entry.Thick.Value - planned; {
	case math.Abs(float64(off)) < float64(unit.Millimetre)/20:
		row.Off = "as planned"
	case off > 0:
		row.Off = s.Length(off) + " thicker"
	default:
		row.Off = s.Length(-off) + " thinner"
	}
}

// due gives the instant of a step of a layer, and notes that it is answered.
func (k *chronicler) due(layer string, kind StepKind) (time.Time, bool) {
	for _, s := range k.pl.Steps {
		if s.Layer == layer && s.Kind == kind && !s.Due.IsZero() {
			k.answered[stepKey{layer, kind}] = true
			return s.Due, true
		}
	}
	return time.Time{}, false
}

// holdStart holds the start of a pour against the window of the layer below,
// or, where there is none, the planned start where that was near.
func (k *chronicler) holdStart(row *ChronicleRow) {
	e := &row.Entry
	if last, _ := k.p.PourStart(e.Layer); last.ID != e.ID {
		return // of a pour that was started anew
	}
	name := k.p.layerName(e.Layer)
	w := k.pl.Recoat(e.Layer, k.now)
	switch {
	case w.State == RecoatEarly || w.State == RecoatOpen || w.State == RecoatLate:
		for i := 1; i < len(k.pl.Layers); i++ {
			if k.pl.Layers[i].ID == e.Layer {
				k.due(k.pl.Layers[i-1].ID, StepRecoat)
				k.due(k.pl.Layers[i-1].ID, StepRecoatEnd)
			}
		}
		off := k.p.Style.Span(unit.SpanOf(w.Off.Round(time.Minute)))
		row.Planned = "Pour " + name + " in the window on " + w.Below
		if !w.From.IsZero() && !w.To.IsZero() {
			row.Planned += ", " + k.clock(row, w.From) + " to " + k.clock(row, w.To)
		}
		switch w.State {
		case RecoatEarly:
			row.Off, row.Level = off+" before it opened", Stop
		case RecoatLate:
			row.Off, row.Level = off+" after it closed", Check
		default:
			row.Off = "in the window"
		}
	case !k.p.Shop.Planned.IsZero() && withinADay(k.p.Shop.Planned, e.At):
		row.Planned = "Pour " + name + ", " + k.clock(row, k.p.Shop.Planned)
		row.Off = k.apart(e.At.Sub(k.p.Shop.Planned), "late", "early", "on time")
	}
}

// holdDone holds the end of a pour against the end of the working time.
func (k *chronicler) holdDone(row *ChronicleRow) {
	at, ok := k.due(row.Entry.Layer, StepWorkEnds)
	if !ok {
		return
	}
	row.Planned = "All in the mold by " + k.clock(row, at) + ", when its working time ends"
	row.Off = k.apart(row.At.Sub(at), "past it", "to spare", "just in time")
	if row.At.Sub(at) >= time.Minute {
		row.Level = Check
	}
}

// holdDemold holds the taking out against when it was ready for it.
func (k *chronicler) holdDemold(row *ChronicleRow) {
	for i := range k.pl.Layers {
		if at, ok := k.due(k.pl.Layers[i].ID, StepDemold); ok {
			row.Planned = "Ready to demold " + k.clock(row, at)
			row.Off = k.apart(row.At.Sub(at), "later", "sooner", "to the minute")
			if at.Sub(row.At) >= time.Minute {
				row.Level = Check
			}
		}
	}
}

// holdWeight holds what the scale read against what it should have: that of the
// cup by its number, or of the whole mix where only one cup was kept.
func (k *chronicler) holdWeight(row *ChronicleRow) {
	e := &row.Entry
	l := k.pl.Layer(e.Layer)
	if l == nil || !l.Mix.Ready {
		return
	}
	first, cup, hasB, seen, again := "", unit.Mass(0), false, false, false
	for _, o := range k.p.standing() {
		if !o.weighed() || o.Layer != e.Layer {
			continue
		}
		if seen {
			again = !o.Cup.Given() && o.Kind == e.Kind
			break
		}
		if o.Cup.Given() {
			first, cup, hasB = o.ID, o.Cup.Value, false
		}
		if seen = o.ID == e.ID; seen && hasB && e.Kind == EntryWeighedA {
			return // more A that mends the ratio
		}
		hasB = hasB || o.Kind == EntryWeighedB
	}
	if first == "" || again {
		return // the next reading of the same part stands for both
	}
	mix := l.Mix
	list := k.p.mixCups(e.Layer)
	number := list[slices.IndexFunc(list, func(c mixCup) bool { return c.first == first })].number
	at, all := k.p.cupsBefore(e.Layer, number), k.p.cupsBefore(e.Layer, len(list)+1)
	switch cups := k.c.CupsOf(k.pl, e.Layer); {
	case cups != nil && at < len(cups.Batches):
		mix = l.Mix.ForCup(&cups.Batches[at])
	case all > 1:
		return // into how many cups it was planned to go is not known any more
	}
	target, what := cup+mix.A, "A"
	if e.Kind == EntryWeighedB {
		target, what = target+mix.B, "B"
	}
	s := k.p.Style
	row.Planned = fmt.Sprintf("%s for %s until the scale reads %s", what, l.Name, s.MassTo(target, mix.Step))
	switch off := e.Gross.Value - target; {
	case math.Abs(float64(off)) < float64(mix.Step)/2:
		row.Off = "as planned"
	case off > 0:
		row.Off = s.MassTo(off, mix.Step) + " more than planned"
	default:
		row.Off = s.MassTo(-off, mix.Step) + " less than planned"
	}
}

// shortMixing is how much less than its time a cup may be mixed before it is
// worth a warning.
const shortMixing = 30 * unit.Second

// holdMixing holds how long a cup was mixed against how long it should have
// been.
func (k *chronicler) holdMixing(row *ChronicleRow) {
	e := &row.Entry
	for _, c := range k.p.mixCups(e.Layer) {
		if c.end.ID != e.ID {
			continue
		}
		mass := c.in.A + c.in.B
		if l := k.pl.Layer(e.Layer); !c.in.HasB && l != nil {
			mass = l.Mix.Total
		}
		want, took := MixTime(mass, k.p.mixedAt()).Total, unit.SpanOf(e.At.Sub(c.mixing.At))
		s := k.p.Style
		row.Planned = "Mix it for " + s.Span(want)
		row.Happened += " for " + s.Span(took)
		switch off := took - want; {
		case off <= -shortMixing:
			row.Off, row.Level = s.Span(-off)+" too short", Check
		case off >= shortMixing:
			row.Off = s.Span(off) + " longer"
		default:
			row.Off = "as planned"
		}
	}
}

// holdTack holds a touch against how the surface should have felt then.
func (k *chronicler) holdTack(row *ChronicleRow) {
	e := &row.Entry
	l := k.pl.Layer(e.Layer)
	start, begun := k.p.PourStart(e.Layer)
	if l == nil || !begun || l.Times.RecoatFrom.Absent || l.Times.RecoatTo.Absent || shut(l.Times.RecoatFrom, l.Times.RecoatTo) {
		return
	}
	from, to := start.At.Add(l.Times.RecoatFrom.Value.Duration()), start.At.Add(l.Times.RecoatTo.Value.Duration())
	order := []Feel{FeelStrings, FeelTape, FeelHard}
	want := 0
	if !e.At.Before(from) {
		want = 1
	}
	if e.At.After(to) {
		want = 2
	}
	row.Planned = "Sticky like tape from " + k.clock(row, from) + " to " + k.clock(row, to)
	found := want
	for i, f := range order {
		if f == e.Feel {
			found = i
		}
	}
	switch {
	case found < want:
		row.Off, row.Level = "slower than planned", Check
	case found > want:
		row.Off, row.Level = "faster than planned", Check
	default:
		row.Off = "as planned"
	}
}

// holdProbe holds the hottest that a probe showed against the simulated peak.
func (k *chronicler) holdProbe(row *ChronicleRow) {
	l := k.c.layer(row.Entry.Layer)
	if l == nil || !l.Ready || l.RunsAway || l.Peak.Absent || l.Peak.Value <= 0 {
		return
	}
	s := k.p.Style
	row.Planned = s.Temperature(l.Peak.Value) + " at most"
	if l.Peak.Low < l.Peak.High {
		row.Planned += ", between " + s.Temperature(l.Peak.Low) + " and " + s.Temperature(l.Peak.High)
	}
	row.Off = k.warmer(row.Entry.Part.Value, l.Peak.Value)
	if row.Entry.Part.Value > max(l.Peak.High, l.Peak.Value) {
		row.Level = Check
	}
}

// holdReading holds what was read in the resin against the simulated middle of
// its layer then.
func (k *chronicler) holdReading(row *ChronicleRow) {
	e := &row.Entry
	if !e.Part.Given() || len(k.c.Trace.Frames) == 0 {
		return
	}
	index := -1
	for i := range k.pl.Layers {
		if k.pl.Layers[i].ID == e.Layer {
			index = i
		}
	}
	frame := k.c.Trace.At(unit.SpanOf(e.At.Sub(k.c.Start)))
	var mine []TraceCell
	for _, c := range frame.Cells {
		if c.Layer == index {
			mine = append(mine, c)
		}
	}
	if len(mine) == 0 {
		return
	}
	t := mine[len(mine)/2].State.T
	row.Planned = k.p.Style.Temperature(t) + " in the middle of it then"
	row.Off = k.warmer(e.Part.Value, t)
}

// warmer says how much warmer a temperature is than another.
func (k *chronicler) warmer(t, than unit.Temperature) string {
	s := k.p.Style
	switch d := t - than; {
	case math.Abs(float64(d)) < 0.5:
		return "as planned"
	case d > 0:
		return s.TempRise(unit.TempRise(d)) + " warmer"
	default:
		return s.TempRise(unit.TempRise(-d)) + " cooler"
	}
}
