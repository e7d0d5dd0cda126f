package app

import (
	"errors"
	"fmt"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
)

// TestNewestQuestionWins: a question asked again calls off the one before, and
// only the last is answered.
func TestNewestQuestionWins(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	b.heat.hold("stages of Tray 30 mm")
	var answers []string
	ask := func() {
		b.Propose(func(p model.StageProposal, err error) { answers = append(answers, p.Binds) })
	}
	ask()
	b.until(b.heat.has(&b.heat.began, "stages of Tray 30 mm"))
	letGo := b.heat.hold("stages of Tray 30 mm")
	ask()
	b.until(b.heat.has(&b.heat.off, "stages of Tray 30 mm"))
	letGo()
	b.settle()
	is(t, "answers", answers, "Tray 30 mm")
	b.Close()
}

// TestQuestionsFollowThePlan: a question not answered when the plan changes is
// answered for the new one.
func TestQuestionsFollowThePlan(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	b.heat.hold("stages of Tray 30 mm")
	var answers []string
	b.Propose(func(p model.StageProposal, err error) { answers = append(answers, p.Binds) })
	b.until(b.heat.has(&b.heat.began, "stages of Tray 30 mm"))
	b.enter("mold/depth", "40 mm")
	is(t, "answers", answers, "Tray 40 mm")
	b.enter("mold/depth", "50 mm")
	is(t, "once only", answers, "Tray 40 mm")
	b.Close()
}

// TestQuestionsStayWithTheirProject: no answer comes once another project has
// been opened, nor is one asked about the project that is being left.
func TestQuestionsStayWithTheirProject(t *testing.T) {
	b := started(t)
	first := b.Snapshot().Project.ID
	b.Create("Shelf")
	b.settle()
	for _, deaf := range []bool{false, true} {
		b.heat.deaf = deaf
		letGo := b.heat.hold("stages of Shelf ")
		answered := false
		answer := func(model.StageProposal, error) { answered = true }
		b.Propose(answer)
		b.until(func() bool { return b.heat.count("stages") > 0 })
		shelf := b.Snapshot().Project.ID
		b.Open(first)
		b.until(func() bool { return b.project.ID == first })
		if b.Snapshot().Project.ID == shelf {
			b.Propose(answer)
		}
		if deaf {
			letGo()
		}
		b.settle()
		if answered {
			t.Error("an answer came")
		}
		b.Open(shelf)
		b.settle()
	}
	b.Close()
}

// TestCalendarBeginsNow: the search begins now, and what goes wrong is told.
func TestCalendarBeginsNow(t *testing.T) {
	b := started(t)
	said := ""
	b.clock.advance(90 * time.Minute)
	b.Calendar(func(c model.CalendarAnswer, err error) { said = c.None })
	b.settle()
	if said != "Tray  10:30" {
		t.Errorf("%q", said)
	}
	b.heat.breaks = map[string]error{"starts of Tray ": errors.New("no windows")}
	var told error
	b.Calendar(func(_ model.CalendarAnswer, err error) { told = err })
	b.settle()
	if told == nil {
		t.Error("the error is not told")
	}
	b.Close()
}

// TestAnswersMoveWithTheFinger: what is asked while an answer is under way
// waits behind it, and only the newest of it is answered.
func TestAnswersMoveWithTheFinger(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	letGo := b.heat.hold("what if 0.001 of Tray 30 mm")
	var answers []string
	for i := 1; i <= 5; i++ {
		b.Ask("l1", model.WhatIf{Depth: unit.Length(i) * unit.Millimetre}, func(a model.WhatIfAnswer, err error) {
			answers = append(answers, fmt.Sprint(a.Depth.Millimetres(), a.Texts, err))
		})
	}
	letGo()
	b.settle()
	is(t, "answers", answers, "1 [l1 of Tray 30 mm] <nil>", "5 [l1 of Tray 30 mm] <nil>")
	// One under way when the plan changes is answered again for the new one.
	answers = nil
	letGo = b.heat.hold("what if 0.002 of Tray 30 mm")
	b.Ask("l1", model.WhatIf{Depth: 2 * unit.Millimetre}, func(a model.WhatIfAnswer, err error) { answers = append(answers, a.Texts[0]) })
	b.Enter("mold/depth", "40 mm")
	b.until(func() bool { return b.text("mold/depth") == "40 mm" })
	letGo()
	b.settle()
	is(t, "answers", answers, "l1 of Tray 30 mm", "l1 of Tray 40 mm")
	if len(b.questions) != 0 {
		t.Errorf("%d questions are left", len(b.questions))
	}
	b.Close()
}
