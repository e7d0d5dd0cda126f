package model

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sort"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// cupTimes gives the working times of cups: the least of the data sheet's, at
// the warmth of the room, and the simulated cup's.
type cupTimes struct {
	ctx   context.Context
	cal   *cure.Calibrated
	room  cure.Room
	resin unit.Temperature
	of    *Sheet
	limit Known[unit.Span] // the data sheet's, in this room
	step  unit.Mass
	done  map[int64]unit.Span
	err   error
}

// cupDregs is the last of a cup, which takes on the warmth of the room soonest.
const cupDregs = 20 * unit.Gram

// cupLongest is how long a cup is followed whose data sheet gives no working
// time.
const cupLongest = 3 * unit.Day

// working gives the working time of a cup of so many steps of the scale. A larger
// cup never has the longer one: cold resin in a warm room thickens by the last
// of it.
func (w *cupTimes) working(n int64) unit.Span {
	dregs := int64(math.Ceil(cupDregs.Per(w.step)))
	return min(w.alone(max(n, dregs)), w.alone(dregs))
}

// alone gives the working time of one cup as it stands.
func (w *cupTimes) alone(n int64) unit.Span {
	if t, ok := w.done[n]; ok || w.err != nil {
		return t
	}
	within := cupLongest
	if !w.limit.Absent {
		within = min(within, w.limit.Value)
	}
	cup := w.cup(n)
	t, reached, err := cup.WhenCured(w.ctx, w.cal.Working, within)
	switch {
	case errors.Is(err, cure.ErrUnusable):
		t = 0
	case err != nil:
		w.err = err
	case !reached:
		t = within
	}
	w.done[n] = t
	return t
}

// cup is a cup of so many steps of the scale.
func (w *cupTimes) cup(n int64) cure.Cup {
	return cure.Cup{Mass: w.step.Times(float64(n)), Matter: w.cal.Matter, Cure: &w.cal.Kinetics, Start: w.resin, Room: w.room}
}

// cooler gives the times with resin and room so much cooler.
func (w *cupTimes) cooler(by unit.TempRise) *cupTimes {
	c := *w
	c.done = map[int64]unit.Span{}
	c.resin -= unit.Temperature(by)
	c.room = w.room.Warmer(-by)
	at, e := w.room.At(0), known(w.of.Activation, typicalActivation).Value
	c.limit.Value = c.limit.Value.Times(cure.Lengthening(e, at-unit.Temperature(by), at))
	return &c
}

// cupsBind names the one figure that keeps a pour from being fewer cups.
func (h *heat) cupsBind(b *batching, batches int, w *cupTimes) string {
	style := h.p.Style
	if batches < 2 {
		return ""
	}
	large := *b
	large.cup = b.total
	if loads, ok := large.pack(); ok && len(loads) < batches {
		most := int64(0)
		for _, l := range loads {
			most = max(most, l.n)
		}
		return fmt.Sprintf("how much a cup takes, %s: %s for %s would do", style.Mass(b.step.Times(float64(b.cup))), cupsWord(len(loads)), style.MassTo(b.step.Times(float64(most)), b.step))
	}
	n := b.most()[1]
	whose := "the working time of a full cup, as simulated"
	if !w.limit.Absent && b.working(n) >= w.limit.Value {
		whose = "the data sheet's working time, at the warmth of the room"
	}
	return fmt.Sprintf("%s: %s, of which mixing, resting and pouring may take %s", whose, style.Span(b.working(n)), style.Span(b.working(n).Times(WorkingPart)))
}

// cupsWord counts cups.
func cupsWord(n int) string {
	if n == 1 {
		return "one cup"
	}
	return fmt.Sprintf("%d cups", n)
}

// cupsMend says why a mix cannot be poured in time, and the smallest change
// with which it can: a larger cup, less rest, cooler resin, or a resin that
// leaves more time.
func (h *heat) cupsMend(b *batching, w *cupTimes) (why, change string) {
	style := h.p.Style
	small := int64(math.Ceil(float64(b.total) / mostBatches))
	work := b.working(small)
	why = fmt.Sprintf("not even %d cups of %s end in time: to mix, rest and pour one takes %s, and %s of working time leave %s for it",
		mostBatches, style.Mass(b.step.Times(float64(small))), style.Span(b.mixing(small)+b.rest+b.pouring(small, 1)), style.Span(work), style.Span(work.Times(WorkingPart)))
	large := *b
	if large.cup = b.total; large.able() {
		need := int64(sort.Search(int(b.total), func(i int) bool {
			large.cup = int64(i)
			return large.able()
		}))
		return fmt.Sprintf("it would take more than %d cups of that size", mostBatches), "take a cup that holds " + style.MassTo(b.step.Times(float64(need)), b.step) + " or more"
	}
	large.cup = b.cup
	if large.rest = 0; b.rest > 0 && large.able() {
		most := sort.Search(int(b.rest.Per(unit.Minute)), func(i int) bool {
			large.rest = unit.Minute.Times(float64(i))
			return !large.able()
		}) - 1
		if most == 0 {
			return why, "pour without letting it rest"
		}
		return why, "let it rest no longer than " + style.Span(unit.Minute.Times(float64(most)))
	}
	if t, ok := coolerCups(b, w); ok {
		return why, "cool the resin to " + style.Temperature(t) + ", and the room by as much"
	}
	const longest = 48 * 60
	large = *b
	need := sort.Search(longest, func(i int) bool {
		large.working = func(int64) unit.Span { return unit.Minute.Times(float64(i)) }
		return large.able()
	})
	if need == longest {
		return why, "pour it in more layers"
	}
	return why, "take a resin that can be worked for " + style.Span(unit.Minute.Times(float64(need))) + " here, or pour it in more layers"
}

// coolestPour is as cool as resin may be poured where its data sheet does not
// say (common practice, no source).
const coolestPour = unit.Temperature(273.15 + 15)

// coolerCups finds the warmest resin, to a degree, with which the cups would
// end in time; false where none that may be poured does.
func coolerCups(b *batching, w *cupTimes) (unit.Temperature, bool) {
	coldest := coolestPour
	if w.of.Coldest.Given() {
		coldest = w.of.Coldest.Value
	}
	for by := unit.TempRise(1); w.resin-unit.Temperature(by) >= coldest && by <= 10; by++ {
		c := w.cooler(by)
		cool := *b
		cool.working, cool.cold = c.working, min(c.resin, c.room.At(0)) < coldToMix
		if cool.able() && c.err == nil {
			return c.resin, true
		}
		if c.err != nil {
			w.err = c.err
			return 0, false
		}
	}
	return 0, false
}

// forgotten follows the largest of the cups, left standing: of a mix that cannot
// be poured, one that holds all that a cup takes.
func (h *heat) forgotten(w *cupTimes, b *batching, loads []batchLoad) ForgottenCup {
	n := int64(0)
	for _, l := range loads {
		n = max(n, l.n)
	}
	if n == 0 {
		n = b.cup
	}
	cup := w.cup(n)
	course, err := cup.Run(w.ctx, cupLongest)
	if err != nil {
		if !errors.Is(err, cure.ErrUnusable) {
			w.err = err
		}
		return ForgottenCup{}
	}
	f := ForgottenCup{Peak: course.Peak, After: course.PeakAt}
	style := h.p.Style
	what := "A forgotten cup of " + style.MassTo(b.step.Times(float64(n)), b.step)
	after := style.Span(wholeMinutes(f.After))
	switch {
	case f.Peak >= runawayLimit:
		ten := unit.Celsius(10 * math.Floor(f.Peak.Celsius()/10))
		f.Text = fmt.Sprintf("%s would pass %s after %s: it smokes, and can set fire to what it touches. Never leave it; pour what is left out in a thin layer outdoors.", what, style.Temperature(ten), after)
	case f.Peak > w.resin+20:
		f.Text = fmt.Sprintf("%s would come to %s after %s. Never leave it; pour what is left out in a thin layer outdoors.", what, style.Temperature(f.Peak), after)
	default:
		f.Text = what + " would come to " + style.Temperature(f.Peak) + ", by the best estimate. Do not rely on it: pour what is left out in a thin layer outdoors."
	}
	return f
}
