package model

import (
	"fmt"
	"slices"
	"time"

	"meniscus/model/unit"
)

// ChronicleRow is one line of the journal beside the plan: something that was planned, that happened,
// or both, and how far the one was from the other.
type ChronicleRow struct {
	At       time.Time      // UTC: when it happened, else when it is planned for
	Planned  string         // what was planned, and when or how much; "" where nothing was
	Happened string         // what happened; "" where nothing did, or not yet
	Off      string         // how far that was from the plan; "" where it cannot be told
	Level    Level          // of Off: Note where all is well
	ToCome   bool           // At lies ahead
	Entry    Entry          // of what happened; no Kind where nothing did
	Back     bool           // the entry was taken back
	Inside   []ChronicleRow // what is folded into this one
}

// oneDay bounds how far a start may be from the planned one to be held against
// it.
const oneDay = 24 * time.Hour

// Chronicle lists what the journal holds beside what was planned, in time
// order: what stands, what was taken back and by which further entry, and the
// steps of the plan that nothing has answered, also those still to come. pl and
// c are the plan, timed by the simulation, and the simulation as they are now;
// one of another project tells nothing. Ticks of the checklist of one pour are
// one row with the ticks inside.
func Chronicle(p *Project, pl *Plan, c *Curing, now time.Time) []ChronicleRow {
	if c.Project != pl.Project {
		c = &Curing{}
	}
	k := &chronicler{p: p, pl: pl, c: c, now: now.UTC(), answered: map[stepKey]bool{}}
	gone := p.TakenBack()
	var rows []ChronicleRow
	ticks := map[string]int{} // the row of a layer's ticks
	for _, e := range p.Journal {
		row := ChronicleRow{At: e.At.UTC(), Happened: p.Told(e), Level: Note, Entry: e, Back: gone[e.ID]}
		switch i, begun := ticks[e.Layer]; {
		case row.Back || e.Kind == EntryWithdrawn:
		case e.Kind == EntryChecked && begun:
			rows[i].add(row)
			continue
		case e.Kind == EntryChecked:
			ticks[e.Layer] = len(rows)
			rows = append(rows, ChronicleRow{Level: Note})
			rows[len(rows)-1].add(row)
			continue
		default:
			k.hold(&row)
		}
		rows = append(rows, row)
	}
	for i := range rows {
		if len(rows[i].Inside) > 0 {
			k.foldTicks(&rows[i])
		}
	}
	rows = append(rows, k.steps()...)
	slices.SortStableFunc(rows, func(a, b ChronicleRow) int { return a.At.Compare(b.At) })
	return rows
}

// foldTicks says what the ticks of a row come to, and names them as the
// checklist does.
func (k *chronicler) foldTicks(row *ChronicleRow) {
	layer := row.Inside[0].Entry.Layer
	list := k.p.Checklist(k.pl, layer)
	done := 0
	for _, line := range list {
		if !line.Done {
			continue
		}
		done++
		for i := range row.Inside {
			if row.Inside[i].Entry.Check == line.ID {
				row.Inside[i].Happened = "Checked: " + line.Words
			}
		}
	}
	row.Happened = fmt.Sprintf("%d of %d checked for %s", done, len(list), k.p.layerName(layer))
	if len(list) == 0 {
		row.Happened = fmt.Sprintf("%d checked for %s", len(row.Inside), k.p.layerName(layer))
	}
}

// add takes a tick of the checklist into the row of its layer, which stands
// where the last of them does.
func (r *ChronicleRow) add(tick ChronicleRow) {
	r.Inside = append(r.Inside, tick)
	if tick.At.After(r.At) {
		r.At = tick.At
	}
}

// stepKey names a step of the plan.
type stepKey struct {
	layer string
	kind  StepKind
}

// chronicler holds what happened against the plan.
type chronicler struct {
	p        *Project
	pl       *Plan
	c        *Curing
	now      time.Time
	answered map[stepKey]bool // steps that an entry was held against
}

// steps are the moments of the plan that nothing has answered.
func (k *chronicler) steps() []ChronicleRow {
	var rows []ChronicleRow
	for _, s := range k.pl.Agenda(k.p.Shop.Planned, k.now) {
		if k.answered[stepKey{s.Layer, s.Kind}] || s.Kind == StepPour && s.Past {
			continue
		}
		row := ChronicleRow{At: s.Due.UTC(), Planned: upperFirst(s.Label), Level: Note, ToCome: s.Due.After(k.now)}
		if !row.ToCome && !s.Past && s.Kind == StepDemold {
			row.Off = "nothing noted since"
		}
		rows = append(rows, row)
	}
	planned := k.p.Shop.Planned
	if next, ok := k.pl.NextPour(); ok && !planned.IsZero() && !planned.After(k.now) && !k.startedNear(planned) {
		rows = append(rows, ChronicleRow{At: planned.UTC(), Planned: "Pour " + next.Name, Off: "not started", Level: Check})
	}
	return rows
}

// startedNear tells whether a pour was started within a day of an instant.
func (k *chronicler) startedNear(at time.Time) bool {
	return slices.ContainsFunc(k.p.standing(), func(e Entry) bool { return e.Kind == EntryPourStarted && withinADay(e.At, at) })
}

// withinADay tells whether two instants are no more than a day apart.
func withinADay(a, b time.Time) bool { return a.Sub(b).Abs() <= oneDay }

// clock writes an instant as the shop's clock shows it, with its weekday where
// that is another than that of the row's.
func (k *chronicler) clock(row *ChronicleRow, at time.Time) string {
	place := k.p.Shop.Place()
	at = at.In(place)
	if at.Format(time.DateOnly) == row.At.In(place).Format(time.DateOnly) {
		return at.Format("15:04")
	}
	return at.Format("Mon 2 Jan, 15:04")
}

// apart says how far an instant is after another, or before it, in whole
// minutes.
func (k *chronicler) apart(d time.Duration, after, before, same string) string {
	words := k.p.Style.Span(unit.SpanOf(d.Abs().Round(time.Minute)))
	switch {
	case d.Abs() < time.Minute:
		return same
	case d > 0:
		return words + " " + after
	}
	return words + " " + before
}
