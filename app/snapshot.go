package app

import (
	"slices"
	"time"

	"meniscus/model"
)

// Snapshot is what every window draws from: the open project, the plan and the
// curing that follow from it, and how the notebook stands. It is a value; no
// one changes it once published. The curing takes longer than the plan: it
// comes a moment behind it, and its bands behind that.
type Snapshot struct {
	Edition int           // goes up with every new project, plan or curing; the same one needs no new drawing
	Planned int           // the Edition that brought the project and its plan
	Open    bool          // a project is open
	Project model.Project // as entered; its plan is Plan
	Plan    model.Plan

	Curing        model.Curing // of this project, or of it as it was a moment ago; empty until there is one
	CuringFresh   bool         // it is that of Plan; false while that is being worked out
	CuringTrouble string       // why it, or its bands, could not be worked out; empty when they could

	Cards []model.Card // all projects, last touched first
	Undo  string       // what undo would take back; empty when there is nothing
	Redo  string
	Saved Saved
}

// Saved tells how far the disk is behind the screen.
type Saved struct {
	Pending bool      // a change is on its way to the disk
	At      time.Time // when the last change was safe; zero when none was yet
	What    string    // what went wrong, in words; empty when nothing did; with Pending a change is not kept
	Do      string    // and what to do about it
	Closed  bool      // the notebook can only be read
}

// Problem gives the text that was typed into a field but not taken, and why.
func (s *Snapshot) Problem(field string) (text, reason string, ok bool) {
	d, ok := s.Project.DraftOf(field)
	return d.Text, d.Reason, ok
}

// Layer gives the plan of a layer by ID; false when the plan has none.
func (s *Snapshot) Layer(id string) (model.LayerPlan, bool) {
	if l := s.Plan.Layer(id); l != nil {
		return *l, true
	}
	return model.LayerPlan{}, false
}

// Steps gives the moments of the pours: the simulation's where it is of this
// project and tells of any, else those that follow from the data sheets.
func (s *Snapshot) Steps() []model.Step { return s.Curing.StepsOf(&s.Plan) }

// Timed gives the plan with its steps and its layers' times as the simulation
// has them.
func (s *Snapshot) Timed() model.Plan { return s.Curing.Timed(&s.Plan) }

// Findings gives the findings of the named subjects, those of the simulation
// among them; all of them for none.
func (s *Snapshot) Findings(subjects ...model.Subject) []model.Finding {
	return about(s.Curing.Noticed(&s.Plan), subjects, func(f model.Finding) model.Subject { return f.Subject })
}

// Safety gives the safety notes of the named subjects; all of them for none.
func (s *Snapshot) Safety(subjects ...model.Subject) []model.SafetyNote {
	return about(s.Plan.Safety, subjects, func(n model.SafetyNote) model.Subject { return n.Subject })
}

// about gives the items of a list that are of the named subjects, all for none.
func about[T any](list []T, subjects []model.Subject, of func(T) model.Subject) []T {
	if len(subjects) == 0 {
		return list
	}
	var some []T
	for _, x := range list {
		if slices.Contains(subjects, of(x)) {
			some = append(some, x)
		}
	}
	return some
}
