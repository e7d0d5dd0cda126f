package model

import (
	"slices"
	"time"
)

// Running is what the notebook keeps of the pours of a piece that have been
// started, and of its cups that are being mixed, so that its clock runs while the
// piece is closed.
type Running struct {
	Steps    []Step     `json:"steps,omitempty"`    // those that have an instant (UTC), in order; none when nothing has been poured
	Stirring []Stirring `json:"stirring,omitempty"` // the cups that are being mixed
	Zone     string     `json:"zone,omitempty"`     // of the shop, an IANA name; "" is the machine's own
	Out      bool       `json:"out,omitempty"`      // the piece is out of its mold: only its full cure is still to come
	Settled  bool       `json:"settled,omitempty"`  // the simulation has had its say; else the instants are those of the data sheets
}

// NewRunning makes what is kept of a project of its plan, which has the times
// of the simulation where that has had its say. Where nothing has been poured
// there is nothing for it to say.
func NewRunning(p *Project, pl *Plan, simulated bool) *Running {
	steps := pl.Agenda(time.Time{}, time.Time{})
	return &Running{Steps: steps, Stirring: p.stirring(pl), Zone: p.Shop.Zone, Out: p.happened(EntryDemolded), Settled: simulated || len(steps) == 0}
}

// drift is how far an instant may be from what is kept of it.
const drift = time.Second

// Like tells whether two keep the same cups and the same steps, no instant of them more than a
// second apart, so that one need not be kept in the place of the other. Either
// may be nil, where nothing is known.
func (r *Running) Like(o *Running) bool {
	if r == nil || o == nil {
		return r == o
	}
	alike := slices.EqualFunc(r.Stirring, o.Stirring, func(a, b Stirring) bool {
		begun := a.Begun.Equal(b.Begun)
		a.Begun = b.Begun
		return begun && a == b
	})
	return alike && r.Zone == o.Zone && r.Out == o.Out && r.Settled == o.Settled && slices.EqualFunc(r.Steps, o.Steps, func(a, b Step) bool {
		off := a.Due.Sub(b.Due).Abs()
		a.Due, a.After = b.Due, b.After // how long after the pour moves with the instant
		return a == b && off <= drift
	})
}

// Next gives the first step at or after now that nothing has overtaken; false
// when none is to come or the piece is out of its mold: its clock does not run.
func (r *Running) Next(now time.Time) (Step, bool) {
	if r == nil || r.Out {
		return Step{}, false
	}
	pl := Plan{Steps: r.Steps}
	return pl.NextStep(now)
}

// CameDue lists the steps that nothing has overtaken and that came due after an
// instant and by another, in order.
func (r *Running) CameDue(after, by time.Time) []Step {
	if r == nil {
		return nil
	}
	var list []Step
	for _, s := range r.Steps {
		if !s.Past && s.Kind != StepPour && s.Due.After(after) && !s.Due.After(by) {
			list = append(list, s)
		}
	}
	return list
}

// Leaves says what can still be done now that a step came due with no one
// there, and until when; zero where that has no end that is known. It is "" of
// a step after which nothing is to be done.
func (r *Running) Leaves(s Step, now time.Time) (do string, until time.Time) {
	switch s.Kind {
	case StepWorkEnds:
		return "what is still in the cup can no longer be poured", until
	case StepRecoat:
		for _, x := range r.Steps {
			if x.Kind == StepRecoatEnd && x.Layer == s.Layer {
				if !x.Due.After(now) {
					return "", until // the end of it says what is left
				}
				until = x.Due
			}
		}
		return "you can still pour the next layer", until
	case StepRecoatEnd:
		return "let it cure and sand it before the next pour", until
	case StepDemold:
		return "it can come out of the mold; try it before you pull", until
	}
	return "", until
}
