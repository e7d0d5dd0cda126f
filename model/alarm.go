package model

import (
	"strconv"
	"time"
)

// Alarm is a step that has come due. Its Key is the same for as long as the
// pour that it follows from has the same start, however its instant moves.
type Alarm struct {
	Key     string
	Project string // its ID
	Piece   string // and its name, where that is told
	Step
}

// Alarms lists the steps of a project that have come due by now and that
// nothing has overtaken, in the order of steps, with the keys to tell them by.
// The start of a pour is no alarm: it is what the maker does.
func Alarms(project string, steps []Step, now time.Time) []Alarm {
	var list []Alarm
	for _, s := range steps {
		if s.Kind == StepPour || s.Past || s.Due.IsZero() || s.Due.After(now) {
			continue
		}
		start := ""
		for _, p := range steps {
			if p.Kind == StepPour && p.Layer == s.Layer {
				start = strconv.FormatInt(p.Due.Unix(), 36)
			}
		}
		list = append(list, Alarm{Key: calendarID(project, s) + " " + start, Project: project, Step: s})
	}
	return list
}
