package model

import (
	"fmt"
	"strings"
	"time"
)

// pouring is the moment of a layer whose pour was started and not ended.
func (w *benchWork) pouring() Moment {
	start, _ := w.project.PourStart(w.layer.ID)
	done := w.act("Pour ended", EntryPourDone, true)
	cups := w.project.mixCups(w.layer.ID)
	if n := len(cups); n > 0 {
		c := &cups[n-1]
		after := c.number > 1 && c.in.Begun && !c.begun()
		switch {
		case c.number > 1 && c.runs():
			return w.stirring()
		case after || c.in.Begun && w.cupLeft(w.layer, n):
			if !after {
				c = nil
			}
			if w.ask.Afresh {
				c = nil
			}
			m := w.weighing(c)
			if c == nil && !w.ask.Afresh {
				m.More = strings.TrimSpace(fmt.Sprintf("Pour cup %d into the mold first. ", n) + w.cupWords(cups))
			}
			done.Primary, done.Aside = false, true
			m.Acts = append(m.Acts, done)
			return m
		}
	}
	m := Moment{Number: NumberSince, At: start.At.UTC(), Of: "since the pour was started", Next: "Pour all of it, and scrape the cup"}
	if due := w.due(w.layer.ID, StepWorkEnds); due.After(w.ask.Now) {
		m.Number, m.At, m.Of = NumberLeft, due, "of the working time left"
	}
	if n := len(cups); n > 1 && cups[n-1].end.Kind == EntryMixed {
		m.Next, m.More = fmt.Sprintf("Pour cup %d, and scrape it out", n), w.cupWords(cups)
		t := w.plan.MixTimer(w.project, w.layer.ID, w.ask.Now)
		if by, ok := w.plan.PourBy(w.curing, &t); ok {
			m.Number, m.At, m.Of = NumberLeft, by.UTC(), "to pour it out"
		}
	}
	if x := w.insert(w.place(), false); x != nil {
		m.Next = "Pour, and place " + counted(x)
		m.Acts = append(m.Acts, w.placed(x))
		done.Primary = false
	}
	m.Acts = append(m.Acts, done)
	return m
}

// place is where the layer stands in the plan.
func (w *benchWork) place() int {
	for i := range w.plan.Layers {
		if w.plan.Layers[i].ID == w.layer.ID {
			return i
		}
	}
	return none
}

// counted names an insert with how many there are.
func counted(x *Insert) string {
	if x.Count > 1 {
		return fmt.Sprintf("%d %s", x.Count, x.Name)
	}
	return x.Name
}

// placed is the act that says that an insert is in its place.
func (w *benchWork) placed(x *Insert) BenchAct {
	a := w.act("Placed "+x.Name, EntryPlaced, true)
	a.Entry.Insert = x.ID
	return a
}

// waiting is the moment of a layer that is in the mold and takes another pour.
func (w *benchWork) waiting() Moment {
	start, _ := w.project.PourStart(w.layer.ID)
	next := &w.plan.Layers[w.place()+1]
	weigh := BenchAct{Label: "Weigh " + next.Name, Turn: TurnWeigh, To: next.ID}
	open, shut := w.due(w.layer.ID, StepRecoat), w.due(w.layer.ID, StepRecoatEnd)
	feel, touched := w.felt(w.layer.ID)
	m := Moment{Number: NumberSince, At: start.At.UTC(), Of: "since the pour of " + w.layer.Name}
	if shut.After(w.ask.Now) {
		m.Number, m.At, m.Of = NumberLeft, shut, "until the window closes"
	} else if !shut.IsZero() {
		m.At, m.Of = shut, "since the window closed"
	}
	if feel == FeelTape || feel == FeelHard {
		weigh.Primary = true
		m.Next = "Weigh " + next.Name
		if feel == FeelHard {
			m.More = "It is hard: sand and wipe before you pour."
		}
		if x := w.insert(w.place(), true); x != nil && !w.ask.Touch {
			m.Next = "Place " + counted(x) + " on " + w.layer.Name
			weigh.Primary = false
			m.Acts = append(m.Acts, w.placed(x))
		}
		if !w.ask.Touch {
			m.Acts = append(m.Acts, weigh)
			return m
		}
	}
	test := open
	if again := touched.Add(touchAgain); feel == FeelStrings && again.After(test) {
		test = again
	}
	if test.After(w.ask.Now) && !w.ask.Touch {
		m.Number, m.At, m.Of = NumberLeft, test, "until the window on "+w.layer.Name+" opens"
		if test.After(open) {
			m.Of = "until it is touched again"
		}
		m.Next = "Then touch it with a gloved finger"
		m.Acts = []BenchAct{{Label: "Touch it now", Turn: TurnTouch}, weigh}
		return m
	}
	m.Next, m.More = "Touch "+w.layer.Name+": how does it feel?", "With a gloved finger, in a corner that is cut off later."
	for _, f := range []struct {
		feel  Feel
		label string
	}{{FeelStrings, "It strings"}, {FeelTape, "Like tape"}, {FeelHard, "Hard"}} {
		a := w.act(f.label, EntryTack, f.feel == FeelTape)
		a.Entry.Feel = f.feel
		m.Acts = append(m.Acts, a)
	}
	return m
}

// demolding is the moment of the last layer once it is in the mold.
func (w *benchWork) demolding() Moment {
	start, _ := w.project.PourStart(w.layer.ID)
	due := w.due(w.layer.ID, StepDemold)
	if due.After(w.ask.Now) {
		return Moment{Number: NumberLeft, At: due, Of: "until it can come out of the mold", Next: "Leave it, warm and level"}
	}
	m := Moment{Number: NumberSince, At: start.At.UTC(), Of: "since the pour of " + w.layer.Name, Next: "Leave it until it is hard: when that is, is not known", More: TryFirst}
	if !due.IsZero() {
		m.At, m.Of, m.Next, m.More = due, "since it could come out", "Take it out of the mold", ""
	}
	stiff, bent := w.act("It is out, stiff", EntryDemolded, true), w.act("Out, but bent", EntryDemolded, false)
	stiff.Entry.Feel, bent.Entry.Feel = FeelStiff, FeelBent
	stiff.Entry.Layer, bent.Entry.Layer = "", "" // it is the whole piece
	m.Acts = []BenchAct{stiff, bent}
	return m
}

// curingOut is the moment of a piece that is out of its mold.
func (w *benchWork) curingOut() Moment {
	if due := w.due(w.layer.ID, StepCured); due.After(w.ask.Now) {
		return Moment{Number: NumberLeft, At: due, Of: "until it has cured fully", Next: "Keep it warm, flat and out of use"}
	}
	return Moment{Next: "All steps are done", Over: true}
}

// Value is the time that the number of a moment tells: what is left, never below
// nothing, or what is gone. Nothing for another kind.
func (m *Moment) Value(now time.Time) time.Duration {
	switch m.Number {
	case NumberLeft:
		return max(m.At.Sub(now), 0)
	case NumberSince:
		return max(now.Sub(m.At), 0)
	}
	return 0
}
