package views

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
)

// absence is how long the program must not have run for the maker to have been
// away: a tick comes every second unless the machine sleeps or the program is
// closed.
const absence = 2 * time.Minute

// toldName is the name under which it is remembered which steps were told of.
const toldName = "told"

// span is the time between two instants.
type span struct{ from, to time.Time }

// holds tells whether an instant lies within the span.
func (s span) holds(t time.Time) bool { return t.After(s.from) && !t.After(s.to) }

// keepWatch is told the time once a second. It tells of steps that came due
// while the machine slept or the program was closed, once a project is open
// whose steps are known, and of a clock that was set back; it puts notices away,
// and keeps sizes that have changed.
func (d *Desk) keepWatch(now time.Time) {
	if !d.seen.IsZero() && now.Sub(d.seen) > absence {
		if d.away == nil {
			d.away = &span{from: d.seen}
		}
		d.away.to = now
	}
	back := d.seen.Sub(now)
	d.seen = now
	if back > absence {
		d.tellSetBack(back)
	}
	if n := d.notice; n != nil && !n.until.IsZero() && (now.After(n.until) || n.until.Sub(now) > passing) {
		d.hush()
	}
	if d.away != nil {
		if shot := d.session.Snapshot(); shot.Open && shot.Wound() {
			away := *d.away
			d.away = nil
			d.tellMissed(away, &shot)
		}
	}
	d.noteSizes()
}

// tellSetBack tells that the machine's clock was set back, where a countdown
// hangs on it.
func (d *Desk) tellSetBack(by time.Duration) {
	if shot := d.session.Snapshot(); len(shot.Ticking(d.seen)) > 0 {
		d.say(notice{
			level: model.Check,
			what:  "This machine's clock was set back by " + unit.Style{}.Span(unit.SpanOf(by)),
			do:    "Every step keeps its date and time, so that each countdown has grown by as much. If the clock is wrong now, set it right.",
		})
	}
}

// tellMissed tells of the steps that came due in a span, each once for ever:
// what has rung or was told of before is left out, also where the clock has
// been set back and comes to it again.
func (d *Desk) tellMissed(away span, shot *app.Snapshot) {
	if d.told == nil {
		d.told = map[string]time.Time{}
		d.session.Recall(toldName, &d.told)
	}
	var due []model.Alarm
	for _, m := range cameDue(away, shot) {
		_, heard := d.alarms.memory.Heard[m.Key]
		_, rung := d.alarms.memory.Rung[m.Key]
		if _, said := d.told[m.Key]; !heard && !rung && !said {
			due = append(due, m)
			d.told[m.Key] = m.Due
		}
	}
	if len(due) == 0 {
		return
	}
	keys := slices.SortedFunc(maps.Keys(d.told), func(x, y string) int { return d.told[x].Compare(d.told[y]) })
	for _, key := range keys[:max(len(keys)-mostHeard, 0)] {
		delete(d.told, key)
	}
	d.session.Remember(toldName, maps.Clone(d.told))
	d.say(missedNotice(away, due, shot))
}

// cameDue lists the steps of all pieces that came due in a span, in order.
func cameDue(away span, shot *app.Snapshot) []model.Alarm {
	var list []model.Alarm
	for _, c := range shot.Clocks() {
		list = append(list, slices.DeleteFunc(c.Alarms(away.to), func(a model.Alarm) bool { return !away.holds(a.Due) })...)
	}
	slices.SortStableFunc(list, func(a, b model.Alarm) int { return a.Due.Compare(b.Due) })
	return list
}

// missedNotice words what was missed, and what can still be done about it.
func missedNotice(away span, due []model.Alarm, shot *app.Snapshot) notice {
	var zone shopClock
	zone.set(shot.Project.Shop.Zone)
	steps := make([]string, len(due))
	for i, m := range due {
		steps[i] = m.Piece + ": " + m.Label + ", " + zone.happened(m.Due, away.to)
	}
	what := "One step came due"
	if len(due) > 1 {
		what = fmt.Sprintf("%d steps came due", len(due))
	}
	still := possible(due, shot, &zone, away.to)
	return notice{
		level: model.Check,
		what:  what + " while you were away (" + unit.Style{}.Span(unit.SpanOf(away.to.Sub(away.from))) + ")",
		do:    strings.Join(append([]string{strings.Join(steps, "; ") + "."}, still...), " "),
		far:   strings.Join(append([]string{missedBriefly(due, &zone, away.to) + "."}, still...), " "),
	}
}

// possible says of each piece of which something was missed what can still be
// done, a sentence for each: of the open one in full, of another by name and by
// what came due of it last.
func possible(due []model.Alarm, shot *app.Snapshot, zone *shopClock, now time.Time) []string {
	last := map[string]model.Alarm{}
	var pieces []string // in order
	for _, m := range due {
		if _, known := last[m.Project]; !known {
			pieces = append(pieces, m.Project)
		}
		last[m.Project] = m
	}
	var list []string
	for _, id := range pieces {
		c, _ := shot.Clock(id)
		if words := stillWords(shot, zone, now); c.Open && words != "" {
			list = append(list, words)
		}
		if do, until := c.Leaves(last[id].Step, now); !c.Open && do != "" {
			if !until.IsZero() {
				var there shopClock
				there.set(c.Zone)
				do += " until " + there.dated(until)
			}
			list = append(list, c.Name+": "+do+".")
		}
	}
	return list
}

// stillWords says what is still possible for the open project: how the next pour
// lies against its window, or that the piece can come out of its mold.
func stillWords(shot *app.Snapshot, c *shopClock, now time.Time) string {
	timed := shot.Timed()
	if next, ok := timed.NextPour(); ok {
		_, words := windowWords(&timed, shot.Project.Style, c, next.ID, now)
		return words
	}
	for _, s := range timed.Steps {
		if s.Kind == model.StepDemold && !s.Due.IsZero() && !s.Past && !s.Due.After(now) {
			return "It can be taken out of its mold now."
		}
	}
	return ""
}

// noteSizes keeps the sizes of the windows once they have come to rest, so that
// they are known however the program ends.
func (d *Desk) noteSizes() {
	moved := false
	for _, key := range d.windows.Keys() {
		size := d.covers[key].size()
		if size.Width > 100 && size != d.sizes[key] {
			d.sizes[key], moved = size, true
		}
	}
	if d.moving && !moved {
		d.remember()
	}
	d.moving = moved
}
