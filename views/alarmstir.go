package views

import (
	"slices"
	"time"

	"meniscus/model"
)

// stir is told the time once a second. It lets what the mixing of any piece has
// come to ring:
// each prompt once, the end of the time until it is touched or the cup is said
// to be mixed. was is what rang before; it gives what began to ring now.
func (a *alarms) stir(now time.Time, was []model.Alarm) []model.Alarm {
	over := func(x model.Alarm) bool { return x.Kind == model.StepMixed }
	rang := slices.ContainsFunc(was, over)
	a.ringing = slices.DeleteFunc(a.ringing, over)
	shot := a.desk.session.Snapshot()
	var due, fresh []model.Alarm
	for _, c := range shot.Clocks() {
		due = append(due, c.MixAlarms(now)...)
	}
	for _, x := range due {
		_, heard := a.memory.Heard[x.Key]
		_, rung := a.memory.Rung[x.Key]
		switch {
		case heard:
		case x.Kind == model.StepMixPrompt:
			a.memory.Heard[x.Key] = x.Due
			a.remember()
			a.desk.session.Sound(x.Kind)
		default:
			a.ringing = append(a.ringing, x)
			if !rung {
				fresh = append(fresh, x)
			}
		}
	}
	if rang && len(a.ringing) == 0 {
		a.desk.session.Hush()
	}
	a.begin(fresh)
	return fresh
}

// hearStir takes the end of the mixing for a layer of the open piece as heard.
func (a *alarms) hearStir(layer string) { a.hear(a.stirOf(layer)) }

// stirRings tells whether the end of the mixing for a layer of the open piece
// rings.
func (a *alarms) stirRings(layer string) bool {
	return slices.ContainsFunc(a.ringing, a.stirOf(layer))
}

// stirOf tells whether an alarm is that of the end of the mixing for a layer of
// the open piece.
func (a *alarms) stirOf(layer string) func(model.Alarm) bool {
	piece := a.desk.session.Snapshot().Project.ID
	return func(x model.Alarm) bool {
		return x.Kind == model.StepMixed && x.Project == piece && x.Layer == layer
	}
}
