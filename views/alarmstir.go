package views

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
)

// stir is told the time once a second. It lets what mixing has come to ring:
// each prompt once, the end of the time until it is touched or the cup is said
// to be mixed. was is what rang before; it gives what began to ring now.
func (a *alarms) stir(now time.Time, was []model.Alarm) []model.Alarm {
	over := func(x model.Alarm) bool { return x.Kind == model.StepMixed }
	rang := slices.ContainsFunc(was, over)
	a.ringing = slices.DeleteFunc(a.ringing, over)
	shot := a.desk.session.Snapshot()
	if !shot.Open {
		return nil
	}
	var fresh []model.Alarm
	for _, x := range shot.Project.MixAlarms(&shot.Plan, now) {
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
	a.beginStir(fresh)
	return fresh
}

// beginStir notes mixing whose time has just run out, and tells the desktop.
func (a *alarms) beginStir(fresh []model.Alarm) {
	if len(fresh) == 0 {
		return
	}
	for _, x := range fresh {
		a.memory.Rung[x.Key] = x.Due
		a.desk.app.SendNotification(fyne.NewNotification(capitalised(x.Label), x.Piece))
	}
	a.remember()
}

// hearStir takes the end of mixing as heard.
func (a *alarms) hearStir() {
	a.hear(func(x model.Alarm) bool { return x.Kind == model.StepMixed })
}

// stirRings tells whether the end of a layer's mixing rings.
func (a *alarms) stirRings(layer string) bool {
	return slices.ContainsFunc(a.ringing, func(x model.Alarm) bool { return x.Kind == model.StepMixed && x.Layer == layer })
}
