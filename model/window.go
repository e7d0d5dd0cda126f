package model

import "time"

// RecoatState tells where an instant lies against the window in which a pour
// bonds to the layer below.
type RecoatState string

// The states. RecoatFree is that of a first layer and of one whose layer below
// has not been poured; RecoatUnknown that of one whose data sheet gives no
// window.
const (
	RecoatFree    RecoatState = "free"
	RecoatUnknown RecoatState = "not known"
	RecoatEarly   RecoatState = "early"
	RecoatOpen    RecoatState = "in the window"
	RecoatLate    RecoatState = "late"
)

// RecoatWindow is a pour held against the recoat window of the layer below it.
type RecoatWindow struct {
	State RecoatState
	Below string    // name of the layer below
	From  time.Time // UTC; zero where it is not known
	To    time.Time
	At    time.Time     // when the layer was poured, or the instant asked about
	Done  bool          // the layer has been poured
	Off   time.Duration // so long before From, or after To; else 0
}

// Recoat holds the pour of a layer against the window of the layer below: the
// start of the pour where it has been started, otherwise now. The instants are
// those of the plan's steps.
func (pl *Plan) Recoat(layer string, now time.Time) RecoatWindow {
	w := RecoatWindow{State: RecoatFree, At: now.UTC()}
	k := -1
	for i := range pl.Layers {
		if pl.Layers[i].ID == layer {
			k = i
		}
	}
	if k < 1 {
		return w
	}
	below := &pl.Layers[k-1]
	w.Below = below.Name
	begun := false
	for _, s := range pl.Steps {
		switch {
		case s.Due.IsZero():
		case s.Layer == layer && s.Kind == StepPour:
			w.At, w.Done = s.Due, true
		case s.Layer != below.ID:
		case s.Kind == StepPour:
			begun = true
		case s.Kind == StepRecoat:
			w.From = s.Due
		case s.Kind == StepRecoatEnd:
			w.To = s.Due
		}
	}
	switch {
	case !begun:
	case !w.From.IsZero() && w.At.Before(w.From):
		w.State, w.Off = RecoatEarly, w.From.Sub(w.At)
	case !w.To.IsZero() && w.At.After(w.To):
		w.State, w.Off = RecoatLate, w.At.Sub(w.To)
	case w.From.IsZero() || w.To.IsZero():
		w.State = RecoatUnknown
	default:
		w.State = RecoatOpen
	}
	return w
}

// NextPour is the lowest layer that has not been poured; false when there is
// none.
func (pl *Plan) NextPour() (LayerPlan, bool) {
	for _, l := range pl.Layers {
		if l.Status == Planned {
			return l, true
		}
	}
	return LayerPlan{}, false
}
