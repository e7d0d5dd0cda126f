package app

import (
	"time"

	"meniscus/model"
)

// Store keeps the notebook. Every method that changes something returns only
// when the change is on the disk.
type Store interface {
	// Cards lists all projects, last touched first.
	Cards() ([]model.Card, error)
	// Load gives the current state of a project and its revision.
	Load(id string) (model.Project, model.Revision, error)
	// Save keeps p as a new revision made from the revision numbered after
	// (0 for a new project) and makes it the current one. With amend it takes
	// the place of the revision after instead of following it. Journal entries
	// not yet held are added to the project's journal; none is ever dropped.
	Save(p model.Project, card model.Card, after int, amend bool, label string, at time.Time) (model.Revision, error)
	// Revisions lists a project's saved states, oldest first.
	Revisions(id string) ([]model.Revision, error)
	// At gives a project as it was at a revision, with the journal as it is now.
	At(id string, number int) (model.Project, error)
	// Turn makes an existing revision the current one: undo and redo.
	Turn(id string, number int, card model.Card) error
	// PutRunning keeps what runs of projects, by ID, in their cards, without a
	// revision.
	PutRunning(of map[string]model.Running) error
	// LoadShelf gives the shelf with what projects took from it, its saved states,
	// oldest first, and the number of the current one; 0 where there is none.
	LoadShelf() (model.Shelf, []model.Revision, int, error)
	// SaveShelf keeps a state of the shelf after the current one, or with amend in
	// its place, and makes it the current one. What projects took is kept by Save
	// and Turn, with them.
	SaveShelf(m model.Shelf, amend bool, label string, at time.Time) (model.Revision, error)
	// TurnShelf makes an existing state of the shelf the current one.
	TurnShelf(number int) (model.Shelf, error)
	// Setting reads what was kept under name; false when there is nothing.
	Setting(name string, into any) (bool, error)
	// PutSetting keeps a small value under name.
	PutSetting(name string, value any) error
	// Close ends the use of the notebook.
	Close() error
}

// A Store may also do what follows; Vault and Album are others.

// Sealable tells whether a notebook can only be read.
type Sealable interface{ ReadOnly() bool }

// Compactable is a notebook that can give back the room that it left free; it
// tells whether it did.
type Compactable interface{ Compact() (bool, error) }

// Clock tells the time; tests set their own.
type Clock interface{ Now() time.Time }
