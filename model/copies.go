package model

import (
	"cmp"
	"slices"
	"time"
)

// Copy is a copy of the whole notebook.
type Copy struct {
	Path  string    // of its file
	Kind  CopyKind  // why it was made
	At    time.Time // when it was made
	Bytes int64     // of its file
	Away  bool      // it lies in the second place, not beside the notebook
}

// CopyKind tells why a copy was made.
type CopyKind string

// Why copies are made.
const (
	CopyDaily  CopyKind = "daily"          // the first change of a day
	CopyAside  CopyKind = "before restore" // another copy was restored then
	CopyUpdate CopyKind = "before update"  // the form of the notebook was raised then
	CopyOther  CopyKind = "other"          // somebody put it there
)

// Copied is a copy that is open to be looked at.
type Copied interface {
	// Cards lists the projects in it, last touched first.
	Cards() ([]Card, error)
	// Load gives the state in which a project is in it, with its journal.
	Load(id string) (Project, Revision, error)
	// Close ends the look.
	Close() error
}

// Standing tells how a project in a copy stands to the one in the notebook.
type Standing string

// How a project can stand.
const (
	Same      Standing = "same"
	NewerNow  Standing = "newer now"  // it has been worked on since the copy
	NewerThen Standing = "newer then" // the copy is ahead, as after an older copy was restored
	OnlyNow   Standing = "only now"   // it is not in the copy
	OnlyThen  Standing = "only then"  // it is only in the copy
)

// Compared is one project in the notebook, in a copy, or in both.
type Compared struct {
	ID       string
	Standing Standing
	Card     Card      // as the copy has it; as the notebook does where it is only there
	Now      time.Time // when it was touched last in the notebook; zero where it is not there
}

// CompareCards tells of each project how the copy with the cards then stands to
// the notebook with the cards now: what restoring would change first, and the
// last touched first among the like. A project is the same where it was touched
// last at the same instant.
func CompareCards(now, then []Card) []Compared {
	order := []Standing{OnlyNow, NewerNow, NewerThen, OnlyThen, Same}
	here := make(map[string]*Card, len(now))
	for i := range now {
		here[now[i].ID] = &now[i]
	}
	list := make([]Compared, 0, len(then))
	for _, c := range then {
		x := Compared{ID: c.ID, Card: c, Standing: OnlyThen}
		if mine := here[c.ID]; mine != nil {
			x.Now = mine.Touched
			x.Standing = []Standing{NewerThen, Same, NewerNow}[1+mine.Touched.Compare(c.Touched)]
			delete(here, c.ID)
		}
		list = append(list, x)
	}
	for _, c := range here {
		list = append(list, Compared{ID: c.ID, Card: *c, Standing: OnlyNow, Now: c.Touched})
	}
	slices.SortFunc(list, func(a, b Compared) int {
		return cmp.Or(cmp.Compare(slices.Index(order, a.Standing), slices.Index(order, b.Standing)),
			b.Card.Touched.Compare(a.Card.Touched), cmp.Compare(a.ID, b.ID))
	})
	return list
}

// CountStandings counts how many projects stand in each way.
func CountStandings(list []Compared) map[Standing]int {
	counts := map[Standing]int{}
	for _, c := range list {
		counts[c.Standing]++
	}
	return counts
}

// Had is how many projects a copy holds of which counts tell.
func Had(counts map[Standing]int) int {
	return counts[Same] + counts[NewerNow] + counts[NewerThen] + counts[OnlyThen]
}

// BroughtBack gives a project as it stands in a copy, with all that either of
// the two journals knows, since what happened did happen. Where a step was
// written in both, that of the project now stands.
func BroughtBack(now, then Project) Project {
	p := then.Clone()
	p.Journal = slices.Clone(now.Journal)
	for _, e := range then.Journal {
		if !slices.ContainsFunc(p.Journal, func(x Entry) bool { return x.ID == e.ID }) {
			p.Journal = append(p.Journal, e)
		}
	}
	slices.SortStableFunc(p.Journal, func(a, b Entry) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.ID, b.ID))
	})
	return p
}
