package model

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"meniscus/model/unit"
)

// act makes the act that writes down an entry of the layer.
func (w *benchWork) act(label string, kind EntryKind, primary bool) BenchAct {
	return BenchAct{Label: label, Entry: Entry{Kind: kind, Layer: w.layer.ID}, Primary: primary}
}

// mixing is the moment of a layer whose pour is still to be started.
func (w *benchWork) mixing() Moment {
	if m := &w.layer.Mix; !m.Ready {
		return Moment{Next: "How much to mix is not known: " + m.Why, Over: true}
	}
	cups := w.project.mixCups(w.layer.ID)
	if len(cups) == 0 {
		return w.weighing(nil)
	}
	c := &cups[len(cups)-1]
	switch {
	case !c.begun() && w.ask.Afresh:
		return w.weighing(nil)
	case !c.begun():
		return w.weighing(c)
	case c.runs():
		return w.stirring()
	case c.end.Kind == EntryTooHot:
		m := w.weighing(nil)
		m.More = "The last cup got too hot: this is another. " + m.More
		return m
	}
	m := Moment{Number: NumberSince, At: c.mixing.At.UTC(), Of: "since mixing was begun", Next: "Pour " + w.layer.Name, Acts: []BenchAct{w.act("Pour started", EntryPourStarted, true)}}
	t := w.plan.MixTimer(w.project, w.layer.ID, w.ask.Now)
	if by, ok := w.plan.PourBy(w.curing, &t); ok {
		m.Number, m.At, m.Of = NumberLeft, by.UTC(), "to pour it out"
	}
	switch r := w.plan.Recoat(w.layer.ID, w.ask.Now); r.State {
	case RecoatEarly:
		m.More = "Early: the window on " + r.Below + " is not open yet. "
	case RecoatLate:
		m.More = "Late: the window on " + r.Below + " has closed: sand it first. "
	}
	m.More = strings.TrimSpace(m.More + w.settleWords(t.Met) + w.cupWords(cups))
	return m
}

// settleWords says until when to wait with the pour of a cup whose parts met at
// an instant, so that what is stirred in does not sink to its floor; nothing
// where that is over, does not help, or nothing is known of its grains.
func (w *benchWork) settleWords(met time.Time) string {
	list, _ := w.plan.Settling(w.project, w.curing, w.layer.ID)
	words, latest := "", w.ask.Now
	for _, g := range list {
		if at := met.Add(g.After.Value.Duration()); g.Sized && !g.Late && at.After(latest) {
			latest = at
			words = fmt.Sprintf("Not before %s, or %s will lie on the floor: stir it again then. ", at.In(w.project.Shop.Place()).Format(clockForm), g.What)
		}
	}
	return words
}

// cupWords says where the cup that was mixed last is poured, and when the next
// one is begun, counted from the first; nothing where all goes into one cup and
// one cavity.
func (w *benchWork) cupWords(cups []mixCup) string {
	plan := w.curing.CupsOf(w.plan, w.layer.ID)
	nth := w.project.cupsBefore(w.layer.ID, len(cups))
	if plan == nil || nth >= len(plan.Batches) {
		return ""
	}
	var words []string
	if w.plan.Mold.Count > 1 {
		if into := plan.Batches[nth].cavities(); into != "" {
			words = append(words, "Into "+into+".")
		}
	}
	if nth+1 < len(plan.Batches) {
		first := cups[slices.IndexFunc(cups, func(c mixCup) bool { return !c.lost })]
		met := first.met
		if met.IsZero() {
			met = first.mixing.At
		}
		at := met.Add((plan.Batches[nth+1].Start - plan.Batches[0].Start).Duration())
		when := at.In(w.project.Shop.Place()).Format(clockForm)
		words = append(words, fmt.Sprintf("Begin cup %d at %s.", nth+2, when))
	}
	return strings.Join(words, " ")
}

// cavities names the cavities that a cup goes into, in the order in which they
// are poured.
func (b *Batch) cavities() string {
	var list []string
	for _, in := range b.Into {
		n := fmt.Sprint(in.Cavity)
		if in.Part {
			n += " (in part)"
		}
		list = append(list, n)
	}
	switch len(list) {
	case 0:
		return ""
	case 1:
		return "cavity " + list[0]
	}
	return "cavities " + strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

// cupful is the mix of one cup of the layer by its number, which of the cups of
// the pour it is, and how many there are. Where nothing plans the cups, what is
// left is shared equally among cups no larger than those before.
func (w *benchWork) cupful(number int) (m MixPlan, at, of int) {
	m, at = w.layer.Mix, w.project.cupsBefore(w.layer.ID, number)+1
	if c := w.curing.CupsOf(w.plan, w.layer.ID); c != nil && at <= len(c.Batches) {
		return m.ForCup(&c.Batches[at-1]), at, len(c.Batches)
	}
	weighed, largest, _ := w.weighedBefore(w.layer.ID, number)
	left := m.Total - weighed
	if largest <= 0 || left <= 0 {
		return m, at, at
	}
	more := max(math.Ceil(left.Per(largest)-0.05), 1)
	mass := m.Step.Times(math.Round(left.Times(1 / more).Per(m.Step)))
	a := m.Step.Times(math.Round(mass.Times(1 / (1 + m.Parts/100)).Per(m.Step)))
	return m.ForCup(&Batch{Mass: mass, A: a, B: mass - a}), at, at - 1 + int(more)
}

// weighedBefore adds up what was weighed into the cups before the one of a
// number, but for those that were lost, and tells the largest of them and
// whether both parts of each were weighed.
func (w *benchWork) weighedBefore(layer string, number int) (all, largest unit.Mass, whole bool) {
	whole = true
	for _, c := range w.project.mixCups(layer) {
		if c.number < number && !c.lost {
			mass := c.in.A + c.in.B
			all, largest, whole = all+mass, max(largest, mass), whole && c.in.HasB
		}
	}
	return all, largest, whole
}

// cupLeft tells whether a further cup of a layer is to be mixed after so many.
func (w *benchWork) cupLeft(l *LayerPlan, number int) bool {
	if c := w.curing.CupsOf(w.plan, l.ID); c != nil {
		return w.project.cupsBefore(l.ID, number+1) < len(c.Batches)
	}
	all, _, whole := w.weighedBefore(l.ID, number+1)
	total := l.Mix.Total
	return whole && total-all > total.Times(cupWorth)
}

// cupWorth is the share of a mix from which what was not weighed is a further
// cup, and not what a changed plan asks for more.
const cupWorth = 0.1

// weighing is the moment of a cup at the scale; nil is one that is still to be
// begun.
func (w *benchWork) weighing(cup *mixCup) Moment {
	p, s := w.project, w.project.Style
	afresh := cup == nil
	in := InCup{Cup: p.Mixing.Cup.Value, Gross: p.Mixing.Cup.Value}
	number := len(p.mixCups(w.layer.ID)) + 1
	if !afresh && cup.in.Begun {
		in, number = cup.in, cup.number
	}
	place := number
	if w.ask.Afresh && number > 1 {
		place-- // that of the cup that is lost
	}
	m, nth, of := w.cupful(place)
	var got Moment
	r, off := m.Rescue(in)
	if off {
		working := w.plan.WorkingInCup(w.curing, w.layer.ID, nth)
		since := max(unit.SpanOf(w.ask.Now.Sub(cup.met)), 0)
		verdict, _ := r.Time(working, since, true)
		if verdict == Beyond {
			return w.binned(cup.met, &r)
		}
		got.Mends = true
		got.More = r.benchWords(&m, s) + " " + timeLeft(working, since, verdict)
		if stock, _ := r.StockOn(w.ask.Shelf, p, w.layer, m.Step); stock == Beyond {
			got.More += " More " + r.Part + " than is left in the bottle."
		}
	}
	at := in.Gross
	typed := false
	if w.ask.Reading != "" {
		r, err := s.TakeMass(w.ask.Reading)
		if at, typed = r.Value, err == nil; !typed {
			at, got.More = in.Gross, upperFirst(words(err))
		}
	}
	aim := m.Aim(in, at, s)
	write := func(x unit.Mass) string { return s.MassTo(x, m.Step) }
	got.Number, got.Figure = NumberReads, write(aim.Until)
	got.Of = "on the scale when " + aim.What + " is in"
	got.Next = fmt.Sprintf("Pour %s of %s", write(aim.Until-in.Gross), aim.What)
	if off {
		got.Next = fmt.Sprintf("Add %s of %s", write(r.Add), r.Part)
	}
	if of > 1 {
		got.Next = fmt.Sprintf("Cup %d of %d: ", nth, of) + lowerFirst(got.Next)
	}
	if typed {
		got.Number, got.Figure, got.State = NumberToGo, aim.Shown(s), aim.State
		got.Of = "of " + aim.What + " to go"
		got.Next = "Pour until the scale reads " + write(aim.Until)
		switch aim.State {
		case AimOver:
			got.Of, got.Next = "of "+aim.What+" over", "The scale should have read "+write(aim.Until)
		case AimThere:
			got.Of, got.Next = "to go: "+aim.What+" is in", "The scale reads "+write(aim.Until)
		}
	}
	if got.More == "" {
		got.More = w.beside(in, &aim)
	}
	if aim.Kind == "" {
		return w.stirIn(got, &aim, &m, in, typed)
	}
	got.Acts = []BenchAct{w.keep(&aim, in, afresh || !cup.in.Begun, typed)}
	if afresh && number == 1 && !typed {
		all := w.act("All is in: mixing", EntryMixing, false)
		all.Aside = true
		got.Acts = append(got.Acts, all)
	}
	return got
}

// beside is what else to know at the scale: why the aim is not the plan's, or
// what the empty cup weighs.
func (w *benchWork) beside(in InCup, aim *Aim) string {
	switch {
	case aim.Why != "":
		return aim.Why
	case in.Begun:
		return ""
	case w.project.Mixing.Cup.Given():
		return "The empty cup, stick and all: " + w.project.Style.Mass(in.Cup) + "."
	}
	return "Zero the scale with the empty cup on."
}

// keep is the act that says that a part is in: as the scale read, or at the mark
// where no reading was typed.
func (w *benchWork) keep(aim *Aim, in InCup, afresh, typed bool) BenchAct {
	p := w.project
	a := w.act(aim.What+" is in", aim.Kind, true)
	if typed {
		a.Label = "Keep it: " + a.Label
		e, err := p.WeighedEntry(w.layer.ID, aim.Kind, w.ask.Reading, afresh)
		if a.Entry = e; err != nil {
			a.Refused = upperFirst(words(err))
			if problem, ok := err.(*Problem); ok {
				a.Refused = upperFirst(problem.Message)
			}
		}
		return a
	}
	step := w.layer.Mix.Step
	until := step.Times(math.Round(aim.Until.Per(step)))
	a.Entry.Gross = unit.Taken[unit.Mass]{Value: until, Written: p.Style.MassTo(until, step)}
	a.Entry.Text = "at the mark, not read"
	if afresh {
		if a.Entry.Cup = p.Mixing.Cup; !a.Entry.Cup.Given() {
			a.Entry.Cup = unit.Taken[unit.Mass]{Written: p.Style.Mass(0)}
		}
	}
	return a
}

// stirIn is the moment in which A and B are in: what is stirred in comes next,
// where there is any, and then mixing begins.
func (w *benchWork) stirIn(got Moment, aim *Aim, m *MixPlan, in InCup, typed bool) Moment {
	act := w.act("Mixing", EntryMixing, true)
	s := w.project.Style
	if len(m.Additives) == 0 {
		got.Number, got.Figure, got.Of = NumberReads, s.MassTo(in.A+in.B, m.Step), "of A and B in the cup"
		got.State = ""
		got.Next = "Scrape the walls, and mix"
		got.Acts = []BenchAct{act}
		return got
	}
	var names []string
	until := in.Gross
	for _, d := range m.Additives {
		adds := (in.A + in.B).Times(d.Share)
		until += adds
		names = append(names, s.MassTo(adds, TintGrain(s))+" of "+d.Name)
	}
	if !typed {
		got.Figure, got.Of = s.MassTo(until, m.Step), "on the scale when all is in"
		got.Next = "Stir in " + strings.Join(names, " and ")
	}
	act.Label = upperFirst(aim.What) + " is in: mixing"
	if len(m.Additives) > 1 {
		act.Label = "All is in: mixing"
	}
	act.Entry.Text = strings.Join(names, " and ") + " stirred in, at the mark, not read"
	if typed {
		act.Entry.Text = strings.Join(names, " and ") + " to stir in; the scale read " + w.ask.Reading
	}
	got.Acts = []BenchAct{act}
	return got
}

// stirring is the moment while a cup is mixed.
func (w *benchWork) stirring() Moment {
	t := w.plan.MixTimer(w.project, w.layer.ID, w.ask.Now)
	m := Moment{Number: NumberLeft, At: t.Begun.Add(t.Total.Duration()), Of: "of mixing to go", Next: t.Now.Words, Acts: []BenchAct{w.act("Mixed", EntryMixed, true)}}
	if t.State == MixRuns && t.Next.Act != MixEnd {
		m.More = "Then: " + lowerFirst(t.Next.Words) + "."
	}
	if t.State == MixOver {
		m.Number, m.At, m.Of = NumberSince, m.At.UTC(), "since mixing could be over"
	}
	return m
}
