package views

import (
	"maps"
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
)

// ringAgain is how long an alarm rests before it sounds again.
const ringAgain = 30 * time.Second

// alarmsName is the name under which the alarms are remembered.
const alarmsName = "alarms"

// mostHeard bounds how many alarms are remembered as heard.
const mostHeard = 500

// alarmMemory is what is remembered of the alarms, by their keys, each with the
// instant at which it was due.
type alarmMemory struct {
	Heard map[string]time.Time `json:"heard"` // touched: these never ring again
	Rung  map[string]time.Time `json:"rung"`  // have begun to ring, and no one has touched them
}

// alarms rings when a step of any piece falls due, until it is touched.
// What fell due while no one was here is told of by keepWatch instead.
type alarms struct {
	desk    *Desk
	memory  alarmMemory
	from    time.Time     // what fell due up to then is not rung, unless it was before
	ringing []model.Alarm // in the order in which they fell due
	rang    time.Time     // when the last sound was made
}

func newAlarms(d *Desk) *alarms {
	a := &alarms{desk: d}
	d.session.Recall(alarmsName, &a.memory)
	if a.memory.Heard == nil {
		a.memory.Heard = map[string]time.Time{}
	}
	if a.memory.Rung == nil {
		a.memory.Rung = map[string]time.Time{}
	}
	return a
}

// tick is told the time once a second, before keepWatch.
func (a *alarms) tick(now time.Time) {
	seen := a.desk.seen
	switch {
	case seen.IsZero() || now.Sub(seen) > absence || now.Before(a.from):
		a.from = now
	case a.from.IsZero():
		a.from = seen
	}
	was := a.ringing
	a.ringing = nil
	var fresh []model.Alarm
	shot := a.desk.session.Snapshot()
	for _, c := range shot.Clocks() {
		if c.Hold { // while its steps may be about to move they ring for nothing
			a.ringing = append(a.ringing, slices.DeleteFunc(slices.Clone(was), func(x model.Alarm) bool { return x.Project != c.ID })...)
			continue
		}
		for _, x := range c.Alarms(now) {
			_, heard := a.memory.Heard[x.Key]
			_, rung := a.memory.Rung[x.Key]
			if heard || !rung && !x.Due.After(a.from) {
				continue
			}
			a.ringing = append(a.ringing, x)
			if !rung {
				fresh = append(fresh, x)
			}
		}
	}
	for _, list := range [][]model.Alarm{a.ringing, fresh} {
		slices.SortStableFunc(list, func(x, y model.Alarm) int { return x.Due.Compare(y.Due) })
	}
	a.begin(fresh)
	fresh = append(fresh, a.stir(now, was)...)
	again := now.Sub(a.rang) >= ringAgain || now.Before(a.rang)
	if len(a.ringing) > 0 && (len(fresh) > 0 || again) {
		a.rang = now
		a.desk.session.Sound(append(fresh, a.ringing...)[0].Kind)
	}
}

// begin notes alarms that have just fallen due, and tells the desktop; every
// window flashes.
func (a *alarms) begin(fresh []model.Alarm) {
	if len(fresh) == 0 {
		return
	}
	for _, x := range fresh {
		a.memory.Rung[x.Key] = x.Due
		a.desk.app.SendNotification(fyne.NewNotification(capitalised(x.Label), x.Piece))
	}
	a.remember()
}

// answer takes all that rings as heard.
func (a *alarms) answer() { a.hear(func(model.Alarm) bool { return true }) }

// show takes all that rings for a piece as heard, and opens that piece where the
// clock is.
func (a *alarms) show(piece string) {
	a.hear(func(x model.Alarm) bool { return x.Project == piece })
	a.desk.openAt(piece, cureKey)
}

// hear takes some of what rings as heard. The rest rings on.
func (a *alarms) hear(some func(model.Alarm) bool) {
	var rest []model.Alarm
	for _, x := range a.ringing {
		if !some(x) {
			rest = append(rest, x)
			continue
		}
		a.memory.Heard[x.Key] = x.Due
		delete(a.memory.Rung, x.Key)
	}
	a.ringing = rest
	if len(rest) == 0 {
		a.desk.session.Hush()
	}
	a.remember()
	a.desk.remember() // that the maker was here
}

// remember keeps what has rung and what was heard, of that the latest.
func (a *alarms) remember() {
	for _, of := range []map[string]time.Time{a.memory.Heard, a.memory.Rung} {
		keys := slices.SortedFunc(maps.Keys(of), func(x, y string) int { return of[x].Compare(of[y]) })
		for _, key := range keys[:max(len(keys)-mostHeard, 0)] {
			delete(of, key)
		}
	}
	a.desk.session.Remember(alarmsName, alarmMemory{maps.Clone(a.memory.Heard), maps.Clone(a.memory.Rung)})
}
