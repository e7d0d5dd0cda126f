package model

import "time"

// The moments of mixing that ring. They are no steps of a plan: they follow from
// the touch that began the mixing, and end with the cup.
const (
	StepMixPrompt StepKind = "mixing prompt" // rings once
	StepMixed     StepKind = "mixing time is over"
)

// mixForgotten is how long after its end a mixing that no one ended still rings.
const mixForgotten = time.Hour

// MixAlarms lists what mixing has come to by now: of each layer that is being
// mixed the prompt that holds, once it is due, or the end of its time. A prompt
// that another has overtaken is left out, so that nothing rings late.
func (p *Project) MixAlarms(pl *Plan, now time.Time) []Alarm {
	var list []Alarm
	for i := range pl.Layers {
		l := &pl.Layers[i]
		t := pl.MixTimer(p, l.ID, now)
		due := t.Due(t.Now)
		if t.State != MixRuns && t.State != MixOver || t.Now.Act == MixStir || now.Sub(due) > mixForgotten {
			continue
		}
		s := Step{Kind: StepMixPrompt, Layer: l.ID, Label: lowerFirst(t.Now.Words), After: t.Now.At, Due: due}
		if t.State == MixOver {
			s.Kind, s.Label = StepMixed, "mixing time of "+l.Name+" is over"
		}
		list = append(list, Alarm{Key: p.ID + " " + t.Entry + " " + string(t.Now.Act), Project: p.ID, Piece: p.Name, Step: s})
	}
	return list
}
