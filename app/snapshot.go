package app

import (
	"slices"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
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

	Shelf     model.Shelf // what is on hand, with what all projects took; its plan is ShelfPlan
	ShelfPlan model.ShelfPlan
	ShelfUndo string // what undo of the shelf would take back; empty when there is nothing
	ShelfRedo string

	Cards []model.Card // all projects, last touched first
	Undo  string       // what undo would take back; empty when there is nothing
	Redo  string
	Saved Saved
	Look  *Look // the open project is looked at in a copy; nil when it is of the notebook
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
	d, ok := s.Document(field).DraftOf(field)
	return d.Text, d.Reason, ok
}

// Document is what a field belongs to: the open project or the shelf.
func (s *Snapshot) Document(field string) model.Document {
	if model.ShelfPath(field) {
		return &s.Shelf
	}
	return &s.Project
}

// Show gives the text of a field and its echo; see model.Show.
func (s *Snapshot) Show(field string) (text, echo string) {
	return model.Show(s.Document(field), field)
}

// Style is how the quantities of a field's document are written.
func (s *Snapshot) Style(field string) unit.Style {
	if model.ShelfPath(field) {
		return s.Shelf.Style
	}
	return s.Project.Style
}

// Usual tells what stands in for a field; see model.Project.Usual.
func (s *Snapshot) Usual(field string) (model.Usual, bool) {
	if model.ShelfPath(field) {
		return s.Shelf.Usual(field)
	}
	return s.Project.Usual(field)
}

// Stock holds what is left of the product of a sheet against what the pours of
// the open project need of it: by the shelf where it is of the shelf.
func (s *Snapshot) Stock(sheet string) [2]model.StockPart {
	return s.ShelfPlan.Stock(&s.Project, &s.Plan, sheet)
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
	return about(s.ShelfPlan.Noticed(s.Curing.Noticed(&s.Plan), &s.Project, &s.Plan), subjects, func(f model.Finding) model.Subject { return f.Subject })
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
