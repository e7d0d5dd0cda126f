package model

import (
	"fmt"
	"time"

	"meniscus/model/unit"
)

// MixAct is what the hands do during a stretch of mixing.
type MixAct string

// The stretches of mixing, in order, and its end.
const (
	MixStir   MixAct = "stir"
	MixWalls  MixAct = "walls"
	MixFloor  MixAct = "floor"
	MixChange MixAct = "change"
	MixEnd    MixAct = "end"
)

// MixPrompt is what to do from an instant of the mixing on.
type MixPrompt struct {
	Act   MixAct
	At    unit.Span // since mixing was begun
	Lasts unit.Span // until the next; 0 for the end
	Words string
	More  string // how, in few words
}

// MixTiming is how long a cup is mixed, and what is done meanwhile. The first
// prompt is at the beginning, the last where it is done; what the prompts last
// is Total in all.
type MixTiming struct {
	Total   unit.Span
	Prompts []MixPrompt
}

// mixSpan is how long a cup is mixed: 3 minutes, 5 from 500 g on, one more in
// the cold (common practice, no source).
func mixSpan(mass unit.Mass, cold bool) unit.Span {
	t := smallMix
	if mass >= largeMix {
		t = largeMixes
	}
	if cold {
		t += coldMixes
	}
	return t
}

// MixTime is how long so much is mixed where the colder of resin and room is at
// a temperature, with a prompt at each quarter: in 4 minutes the walls are
// scraped after one, the floor after two, the cup is changed after three, and a
// last one is stirred (common practice, no source).
func MixTime(mass unit.Mass, at unit.Temperature) MixTiming {
	return mixTiming(mixSpan(mass, at < coldToMix))
}

// mixTiming gives the prompts of a mixing that lasts so long.
func mixTiming(total unit.Span) MixTiming {
	t := MixTiming{Total: total}
	quarter := t.Total.Times(0.25)
	for i, p := range []MixPrompt{
		{Act: MixStir, Words: "Stir slowly", More: "draw no air in"},
		{Act: MixWalls, Words: "Scrape the walls", More: "all round, and the stick"},
		{Act: MixFloor, Words: "Scrape the floor", More: "and the corner around it"},
		{Act: MixChange, Words: "Change the cup", More: "pour it over, take a clean stick, go on"},
		{Act: MixEnd, Words: "Hold it to the light", More: "without streaks it is mixed"},
	} {
		p.At = quarter.Times(float64(i))
		if p.Act != MixEnd {
			p.Lasts = quarter
		}
		t.Prompts = append(t.Prompts, p)
	}
	return t
}

// mixedAt is how warm it is where a cup is mixed: the colder of room and resin.
func (p *Project) mixedAt() unit.Temperature {
	room, _ := p.room()
	return min(room, p.resinTemp())
}

// MixHabits says how long is mixed.
func MixHabits(s unit.Style) string {
	return fmt.Sprintf("Common practice, no source: %s below %s, %s from there, %s more where resin or room is below %s.",
		s.Span(smallMix), s.Mass(largeMix), s.Span(largeMixes), s.Span(coldMixes), s.Temperature(coldToMix))
}

// MixState is how far the mixing of a cup has come.
type MixState string

// The states of mixing.
const (
	MixNotBegun MixState = "not begun"
	MixRuns     MixState = "runs"
	MixOver     MixState = "time is over" // and no one has said that it is mixed
	MixDone     MixState = "mixed"        // or poured already
	MixStopped  MixState = "stopped"      // it got too hot
)

// MixTimer is how the mixing of one cup stands at an instant. All follows from
// the journal.
type MixTimer struct {
	MixTiming
	State    MixState
	Layer    string
	Cup      int       // from 1; the one to come where none was begun
	Nth      int       // which of the cups of its mix that is, from 1: one that was lost takes the place of none
	Mass     unit.Mass // that is mixed
	Begun    time.Time // UTC; zero before it was
	Ended    time.Time // UTC; when it was said to be mixed, poured or stopped; zero before that
	Met      time.Time // UTC; when both parts were in the cup, at the latest when mixing was begun
	Entry    string    // ID of the entry that began it
	EndEntry string    // ID of the entry that says it is mixed; "" where none does
	Elapsed  unit.Span // of Total: never below zero, never more
	Left     unit.Span // of Total: the same
	Now      MixPrompt // of the moment
	Next     MixPrompt // none once the time is over
}

// Due is the instant of a prompt; zero before mixing was begun.
func (t *MixTimer) Due(p MixPrompt) time.Time {
	if t.Begun.IsZero() {
		return time.Time{}
	}
	return t.Begun.Add(p.At.Duration())
}

// Until is how long it is to the next prompt; 0 where none is to come.
func (t *MixTimer) Until() unit.Span {
	if t.State != MixRuns {
		return 0
	}
	return t.Next.At - t.Elapsed
}

// WorkingInCup is the working time of a layer's mix in the cup of a number, from
// 1, from when its parts meet: that of so much in a cup, or where the cups are not
// known any more that of the layer, as the plan has it.
func (pl *Plan) WorkingInCup(c *Curing, layer string, nth int) Known[unit.Span] {
	if cups := c.CupsOf(pl, layer); cups != nil && nth <= len(cups.Batches) {
		v := cups.Batches[nth-1].Working
		return Known[unit.Span]{Value: v, Low: v, High: v}
	}
	if l := pl.Layer(layer); l != nil {
		return l.Times.Working
	}
	return Known[unit.Span]{Absent: true}
}

// PourBy is when the cup of a timer must be poured out: at the same part of its
// working time, counted from when its parts met, as its cups are planned by.
// False where it cannot be told.
func (pl *Plan) PourBy(c *Curing, t *MixTimer) (time.Time, bool) {
	working := pl.WorkingInCup(c, t.Layer, t.Nth)
	if t.Met.IsZero() || working.Absent || working.Low <= 0 {
		return time.Time{}, false
	}
	return t.Met.Add(working.Low.Times(WorkingPart).Duration()), true
}

// MixTimer tells how the mixing of the newest cup of a layer stands now. mass is
// what is to be mixed where the journal does not say what was weighed into the
// cup; at is the colder of resin and room. A cup that is being mixed stays the
// one that is told of until both parts of a further one are weighed.
func (p *Project) MixTimer(layer string, mass unit.Mass, at unit.Temperature, now time.Time) MixTimer {
	cups := p.mixCups(layer)
	c := mixCup{number: 1}
	if n := len(cups); n > 0 {
		c = cups[n-1]
		if n > 1 && !c.begun() && !c.in.HasB && cups[n-2].runs() {
			c = cups[n-2]
		}
	}
	t := MixTimer{State: MixNotBegun, Layer: layer, Cup: c.number, Nth: p.cupsBefore(layer, c.number) + 1, Mass: mass, Met: c.met}
	if c.in.HasB {
		t.Mass = c.in.A + c.in.B
	}
	t.MixTiming = MixTime(t.Mass, at)
	t.Now, t.Next, t.Left = t.Prompts[0], t.Prompts[1], t.Total
	if !c.begun() {
		return t
	}
	t.Begun, t.Entry = c.mixing.At.UTC(), c.mixing.ID
	if t.Met.IsZero() || t.Met.After(t.Begun) {
		t.Met = t.Begun
	}
	until := now
	switch c.end.Kind {
	case EntryMixed:
		t.State, t.EndEntry = MixDone, c.end.ID
	case EntryPourStarted:
		t.State = MixDone
	case EntryTooHot:
		t.State = MixStopped
	}
	if !c.runs() {
		t.Ended = c.end.At.UTC()
		until = t.Ended
	}
	t.run(unit.SpanOf(until.Sub(t.Begun)))
	return t
}

// run lets a span go by since mixing was begun; one below zero, where the clock
// was set back, counts as none.
func (t *MixTimer) run(gone unit.Span) {
	t.Elapsed = min(max(gone, 0), t.Total)
	t.Left = t.Total - t.Elapsed
	t.Next = MixPrompt{}
	for i, p := range t.Prompts {
		if t.Elapsed < p.At {
			t.Next = p
			break
		}
		t.Now = t.Prompts[i]
	}
	if t.State == MixNotBegun {
		t.State = MixRuns
		if t.Left == 0 {
			t.State = MixOver
		}
	}
}

// MixTimer tells how the mixing of the newest cup of a layer stands now, by what
// is planned to be mixed and how warm room and resin are.
func (pl *Plan) MixTimer(p *Project, layer string, now time.Time) MixTimer {
	mass := unit.Mass(0)
	if l := pl.Layer(layer); l != nil {
		mass = l.Mix.Total
	}
	return p.MixTimer(layer, mass, p.mixedAt(), now)
}
