package app

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"meniscus/model"
)

// The keys of the work on runs.
const (
	keyAgain   = "again"
	keyCompare = "compare"
	keyLessons = "lessons"
	keyRecipe  = "recipe"
)

// Reissued is a project made again from a past one, not kept yet, with the page
// that is read first.
type Reissued struct {
	Project model.Project
	Page    model.ReissueSheet
}

// MakeAgain works out what a project of the notebook would be, made again as
// the maker says, and hands it with its page of changes to done on the
// interface's goroutine. Nothing is kept: TakeAgain does that. The ID, the date
// and the state that is taken are put in here; with lots what was learned of the
// lots comes along too. A later request takes its place.
// The error is a *model.Problem, or that of the disk.
func (s *Session) MakeAgain(id string, how model.Reissue, lots bool, done func(Reissued, error)) {
	how.ID, how.Created = s.newID(), s.clock.Now().UTC().Round(time.Second)
	read, shelf, stock := s.reader(id), s.shelf.now, s.shot.ShelfPlan
	Replace(s.jobs, keyAgain, func(ctx context.Context) (Reissued, error) {
		past, revision, err := read()
		if err != nil {
			return Reissued{}, err
		}
		how.Revision = revision
		if lots && past.Learns() {
			pl := model.Make(past)
			if c, err := s.reckon.Simulate(ctx, &past, &pl); err == nil {
				how.Curing = &c
			}
		}
		next, err := model.Again(&past, how)
		if err != nil {
			return Reissued{}, err
		}
		was, err := s.issue(ctx, past.Recipe(), &shelf)
		if err != nil {
			return Reissued{}, err
		}
		now, err := s.issue(ctx, next, &shelf)
		if err != nil {
			return Reissued{}, err
		}
		now.Stock = stock.Against(now.Project, now.Plan)
		now.Stocked = slices.ContainsFunc(next.Sheets, func(x model.Sheet) bool { return x.Product != "" })
		if was.Curing == nil || now.Curing == nil {
			was.Curing, now.Curing = nil, nil // then both go by their data sheets
		}
		return Reissued{next, model.PageOfChanges(was, now)}, nil
	}, done)
}

// RecipeOf reads what a project of the notebook intends, without its run, and
// hands it to done on the interface's goroutine: whoever makes one again chooses
// by it. A later request takes its place.
func (s *Session) RecipeOf(id string, done func(model.Project, error)) {
	read := s.reader(id)
	Replace(s.jobs, keyRecipe, func(context.Context) (model.Project, error) {
		p, _, err := read()
		if err != nil {
			return model.Project{}, err
		}
		return p.Recipe(), nil
	}, done)
}

// TakeAgain keeps a project that MakeAgain gave, and opens it.
func (s *Session) TakeAgain(r Reissued) error {
	if s.notebookSealed() {
		return errClosed
	}
	s.adopt(r.Project, "Made again from "+r.Project.Made.Name)
	return nil
}

// issue plans a recipe and simulates it; what cannot be simulated is without a
// curing, and what is not priced in full, by its own prices and those of the
// shelf, without a cost.
func (s *Session) issue(ctx context.Context, p model.Project, shelf *model.Shelf) (model.Issue, error) {
	pl := model.Make(p)
	c, err := s.reckon.Simulate(ctx, &p, &pl)
	if ctx.Err() != nil {
		return model.Issue{}, ctx.Err()
	}
	i := model.Issue{Project: &p, Plan: &pl}
	if err == nil {
		i.Curing = &c
	}
	if cost, err := model.CostOf(&p, &pl, shelf.CostFacts(&p, &pl), 1); err == nil && len(cost.Missing) == 0 && cost.Total.Minor > 0 {
		i.Cost = &cost.Total
	}
	return i, nil
}

// reader gives what reads a project in the background: the open one as it
// stands, any other from the disk, with the number of its state, or 0 where it
// is not on the disk yet.
func (s *Session) reader(id string) func() (model.Project, int, error) {
	if s.open && s.project.ID == id {
		p, revision := s.project, s.current
		if s.lastSave(false) != nil {
			revision = 0
		}
		return func() (model.Project, int, error) { return p, revision, nil }
	}
	return func() (model.Project, int, error) {
		p, revision, err := s.store.Load(id)
		if usable(err) {
			err = nil
		}
		return p, revision.Number, err
	}
}

// CompareWith lists in what the open project differs from another of the
// notebook, which is the A of each difference, with what happened in both, and
// hands it to done on the interface's goroutine. A later request takes its
// place.
func (s *Session) CompareWith(id string, done func([]model.Difference, error)) {
	if !s.open {
		done(nil, errNoProject)
		return
	}
	read, mine := s.reader(id), s.project
	Replace(s.jobs, keyCompare, func(context.Context) ([]model.Difference, error) {
		other, _, err := read()
		if err != nil {
			return nil, err
		}
		ran := func(p *model.Project) *model.Ran {
			pl := model.Make(*p)
			r := p.Ran(&pl, nil, p.Minutes())
			return &r
		}
		return model.Compare(&other, &mine, ran(&other), ran(&mine)), nil
	}, done)
}

// Ran is what happened in the open project against what was planned, by the plan
// and the simulation on the screen.
func (s *Session) Ran() model.Ran {
	p, pl := s.shot.Project, s.shot.Timed()
	return p.Ran(&pl, &s.shot.Curing, p.Minutes())
}

// Lessons gathers what all runs of the notebook say of the maker's own losses,
// and hands it to done on the interface's goroutine. The projects are read one
// after the other, and only those of which something was poured. Where some
// cannot be read the lessons are those of the others, and the error says how
// many. A later request takes its place.
func (s *Session) Lessons(done func(model.Lessons, error)) {
	var ids []string
	for i := range s.cards {
		mine := s.open && s.cards[i].ID == s.project.ID
		if c := &s.cards[i]; !c.Demo && (c.Begun() || mine) {
			ids = append(ids, c.ID)
		}
	}
	slices.Sort(ids) // so that the same notebook teaches the same, whatever was touched last
	readers := make([]func() (model.Project, int, error), len(ids))
	for i, id := range ids {
		readers[i] = s.reader(id)
	}
	style := s.shot.Project.Style
	Replace(s.jobs, keyLessons, func(ctx context.Context) (model.Lessons, error) {
		var g model.Learning
		unread := 0
		for _, read := range readers {
			if ctx.Err() != nil {
				return model.Lessons{}, ctx.Err()
			}
			p, _, err := read()
			if err != nil {
				unread++
				continue
			}
			pl := model.Make(p)
			g.Add(&p, &pl)
		}
		return g.Lessons(style), notCounted(unread)
	}, done)
}

// notCounted says that so many projects are missing; nothing where none is.
func notCounted(n int) error {
	switch n {
	case 0:
		return nil
	case 1:
		return errors.New("one piece could not be read and is not counted")
	}
	return fmt.Errorf("%d pieces could not be read and are not counted", n)
}

// TakeLessons puts the maker's own losses into the open project, as one step.
func (s *Session) TakeLessons(l model.Lessons) error {
	return s.Edit("Own losses", "", l.Apply)
}

// KeepLosses keeps the maker's own losses for new pieces, as one step of the shelf;
// new pieces begin with the usual ones again where there are none.
func (s *Session) KeepLosses(own model.Losses) error {
	return s.EditShelf("Own losses for new pieces", "", func(m *model.Shelf) error {
		if m.Losses == own {
			return ErrSame
		}
		m.Losses = own
		return nil
	})
}

// AddEmptied notes what the scale read with a cup once it was poured out, as
// typed; cup is the empty cup, or nothing where it is the one weighed in last.
func (s *Session) AddEmptied(layer, gross, cup string) error {
	return s.log(time.Time{}, func(p *model.Project) (model.Entry, error) { return p.Emptied(layer, gross, cup) })
}

// AddLeftOver notes how much that was mixed for a layer went elsewhere, as
// typed, and where.
func (s *Session) AddLeftOver(layer, mass, where string) error {
	return s.log(time.Time{}, func(p *model.Project) (model.Entry, error) { return p.LeftOver(layer, mass, where) })
}

// AddMeasured notes the thickness of the finished piece at one place, as typed.
func (s *Session) AddMeasured(thick, where string) error {
	return s.log(time.Time{}, func(p *model.Project) (model.Entry, error) { return p.Measured(thick, where) })
}
