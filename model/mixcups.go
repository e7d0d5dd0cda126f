package model

import (
	"slices"
	"time"
)

// mixCup is what the journal says of one cup: what was weighed into it, when
// both parts were in, and its mixing.
type mixCup struct {
	number int    // from 1
	first  string // ID of the entry of its first reading; "" where it was not weighed
	in     InCup
	met    time.Time
	mixing Entry // that began it last
	end    Entry // that ended that
	lost   bool  // it got too hot, or was left off its ratio for another
}

func (c *mixCup) begun() bool { return c.mixing.Kind != "" }

// runs tells whether the cup is being mixed.
func (c *mixCup) runs() bool { return c.begun() && c.end.Kind == "" }

// mixCups reads the cups of a layer out of the journal. A maker who weighs none
// of them here begins another each time that mixing is begun anew.
func (p *Project) mixCups(layer string) []mixCup {
	var cups []mixCup
	another := func() *mixCup {
		cups = append(cups, mixCup{number: len(cups) + 1})
		return &cups[len(cups)-1]
	}
	for _, e := range p.standing() {
		if e.Layer != layer {
			continue
		}
		last := &mixCup{}
		if len(cups) > 0 {
			last = &cups[len(cups)-1]
		}
		switch e.Kind {
		case EntryWeighedA, EntryWeighedB:
			if e.Cup.Given() {
				last = another()
				last.first = e.ID
			}
			had := last.in.HasB
			last.in.take(&e)
			if last.in.HasB && !had {
				last.met = e.At.UTC()
			}
		case EntryMixing:
			if last.number == 0 || !last.in.Begun && !last.runs() {
				last = another()
			}
			last.mixing, last.end = e, Entry{}
		case EntryMixed, EntryTooHot, EntryPourStarted:
			ready := false // a cup before it is mixed
			for i := range cups {
				c := &cups[i]
				// That is the one that is poured; this one may be stirred meanwhile.
				if c.runs() && (e.Kind != EntryPourStarted || !ready) {
					c.end = e
				}
				ready = ready || c.end.Kind == EntryMixed || c.end.Kind == EntryPourStarted
			}
		}
	}
	parts := p.partsOf(layer)
	for i := range cups {
		c := &cups[i]
		left := i < len(cups)-1 && !c.begun() && c.in.HasB && parts > 0 && !offBy(c.in.A, c.in.B, parts).Fine()
		c.lost = left || c.end.Kind == EntryTooHot
	}
	return cups
}

// inPour tells whether the pour of a layer was started, and nothing says yet that
// all of it is in the mold.
func (p *Project) inPour(layer string) bool {
	start, begun := p.PourStart(layer)
	if !begun || p.happened(EntryDemolded) {
		return false
	}
	return !slices.ContainsFunc(p.standing(), func(e Entry) bool {
		return e.At.After(start.At) && (e.Kind == EntryPourDone && e.Layer == layer || e.Kind == EntryPourStarted && e.Layer != layer)
	})
}

// partsOf is the hardener for 100 of resin by weight in a layer; 0 where that is
// not known.
func (p *Project) partsOf(layer string) float64 {
	i := p.LayerIndex(layer)
	if i == none {
		return 0
	}
	s := p.Sheet(p.Layers[i].Sheet)
	if s == nil {
		return 0
	}
	parts, err := s.PartsByWeight()
	if err != nil {
		return 0
	}
	return parts
}

// cupsBefore counts the cups of a layer before the one of a number, but for
// those that were lost.
func (p *Project) cupsBefore(layer string, number int) int {
	n := 0
	for _, c := range p.mixCups(layer) {
		if c.number < number && !c.lost {
			n++
		}
	}
	return n
}

// CupAtScale gives which of the cups of a layer's mix is at the scale, counted
// from 0: the one that was begun last, or where none was weighed or afresh asks
// for another the one to come. A cup that was lost takes the place of none.
func (p *Project) CupAtScale(layer string, afresh bool) int {
	cups := p.mixCups(layer)
	n := len(cups)
	if afresh || n == 0 || !cups[n-1].in.Begun {
		n++
	}
	return p.cupsBefore(layer, n)
}

// MetAt tells when the two parts met in the cup of a layer that was begun last:
// at the first reading of B in it. False where no B is in it.
func (p *Project) MetAt(layer string) (time.Time, bool) {
	cups := p.mixCups(layer)
	if len(cups) == 0 {
		return time.Time{}, false
	}
	met := cups[len(cups)-1].met
	return met, !met.IsZero()
}
