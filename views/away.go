package views

import (
	"fmt"
	"strings"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
)

// absence is how long the program must not have run for the maker to have been
// away: a tick comes every second unless the machine sleeps or the program is
// closed.
const absence = 2 * time.Minute

// span is the time between two instants.
type span struct{ from, to time.Time }

// holds tells whether an instant lies within the span.
func (s span) holds(t time.Time) bool { return t.After(s.from) && !t.After(s.to) }

// keepWatch is told the time once a second. It tells of steps that came due
// while the machine slept or the program was closed, once a project is open
// whose steps are known, puts notices away, and keeps sizes that have changed.
func (d *Desk) keepWatch(now time.Time) {
	if !d.seen.IsZero() && now.Sub(d.seen) > absence {
		if d.away == nil {
			d.away = &span{from: d.seen}
		}
		d.away.to = now
	}
	d.seen = now
	if n := d.notice; n != nil && !n.until.IsZero() && now.After(n.until) {
		d.hush()
	}
	if shot := d.session.Snapshot(); d.away != nil && shot.Open {
		away := *d.away
		d.away = nil
		timed := shot.Timed()
		if n, due := cameDue(away, &timed, shot.Cards); due {
			d.say(n)
		}
	}
	d.noteSizes()
}

// cameDue words the steps that came due in a span: those of the open project,
// and the next ones of the others.
func cameDue(away span, plan *model.Plan, cards []model.Card) (notice, bool) {
	var steps []string
	for _, s := range plan.Missed(away.to) {
		if away.holds(s.Due) {
			steps = append(steps, plan.Name+": "+s.Label+", "+clock(s.Due, away.to))
		}
	}
	for _, c := range cards {
		if c.ID != plan.Project && c.Next != "" && away.holds(c.Due) {
			steps = append(steps, c.Name+": "+c.Next+", "+clock(c.Due, away.to))
		}
	}
	if len(steps) == 0 {
		return notice{}, false
	}
	what := "One step came due"
	if len(steps) > 1 {
		what = fmt.Sprintf("%d steps came due", len(steps))
	}
	return notice{
		level: model.Check,
		what:  what + " while you were away (" + unit.Style{}.Span(unit.SpanOf(away.to.Sub(away.from))) + ")",
		do:    strings.Join(steps, "; ") + ".",
	}, true
}

// noteSizes keeps the sizes of the windows once they have come to rest, so that
// they are known however the program ends.
func (d *Desk) noteSizes() {
	moved := false
	for _, key := range d.windows.Keys() {
		size := d.windows.Window(key).Canvas().Size()
		if size.Width > 100 && size != d.sizes[key] {
			d.sizes[key], moved = size, true
		}
	}
	if d.moving && !moved {
		d.remember()
	}
	d.moving = moved
}
