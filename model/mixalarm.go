package model

import (
	"slices"
	"time"

	"meniscus/model/unit"
)

// The moments of mixing that ring. They are no steps of a plan: they follow from
// the touch that began the mixing, and end with the cup.
const (
	StepMixPrompt StepKind = "mixing prompt" // rings once
	StepMixed     StepKind = "mixing time is over"
)

// mixForgotten is how long after its end a mixing that no one ended still rings.
const mixForgotten = time.Hour

// Stirring is a cup that is being mixed, as it is kept so that it rings while its
// piece is closed.
type Stirring struct {
	Layer string    `json:"layer"` // by ID
	Name  string    `json:"name"`  // of the layer
	Entry string    `json:"entry"` // ID of the entry that began it
	Begun time.Time `json:"begun"` // UTC
	Total unit.Span `json:"total"` // how long it is mixed
}

// stirring lists the cups that are being mixed, by layer.
func (p *Project) stirring(pl *Plan) []Stirring {
	var list []Stirring
	for i := range pl.Layers {
		l := &pl.Layers[i]
		if !slices.ContainsFunc(p.Journal, func(e Entry) bool { return e.Kind == EntryMixing && e.Layer == l.ID }) {
			continue // it is asked every second
		}
		if t := pl.MixTimer(p, l.ID, time.Time{}); t.State == MixRuns {
			list = append(list, Stirring{Layer: l.ID, Name: l.Name, Entry: t.Entry, Begun: t.Begun, Total: t.Total})
		}
	}
	return list
}

// MixAlarms lists what mixing has come to by now, for a piece by its ID and name:
// of each layer that is being mixed the prompt that holds, once it is due, or the
// end of its time. A prompt that another has overtaken is left out, so that
// nothing rings late.
func (r *Running) MixAlarms(project, piece string, now time.Time) []Alarm {
	var list []Alarm
	for _, m := range r.Stirring {
		t := MixTimer{MixTiming: mixTiming(m.Total), State: MixNotBegun, Begun: m.Begun}
		t.run(unit.SpanOf(now.Sub(m.Begun)))
		due := t.Due(t.Now)
		if t.Now.Act == MixStir || now.Sub(due) > mixForgotten {
			continue
		}
		s := Step{Kind: StepMixPrompt, Layer: m.Layer, Label: lowerFirst(t.Now.Words), After: t.Now.At, Due: due}
		if t.State == MixOver {
			s.Kind, s.Label = StepMixed, "mixing time of "+m.Name+" is over"
		}
		list = append(list, Alarm{Key: project + " " + m.Entry + " " + string(t.Now.Act), Project: project, Piece: piece, Step: s})
	}
	return list
}
