package app

import (
	"errors"
	"path/filepath"
	"slices"
	"sync/atomic"
	"testing"
	"time"

	"meniscus/model"
)

// thinning is a store that has thinned away one saved state, as if meanwhile.
type thinning struct {
	Store
	gone  int
	packs atomic.Int32
}

func (s *thinning) At(id string, number int) (model.Project, error) {
	if number == s.gone {
		return model.Project{}, errors.New("there is no such saved state")
	}
	return s.Store.At(id, number)
}

func (s *thinning) Revisions(id string) ([]model.Revision, error) {
	list, err := s.Store.Revisions(id)
	var before int
	list = slices.DeleteFunc(list, func(r model.Revision) bool {
		if r.Number == s.gone {
			before = r.After
		}
		return r.Number == s.gone
	})
	for i := range list {
		if s.gone != 0 && list[i].After == s.gone {
			list[i].After = before
		}
	}
	return list, err
}

func (s *thinning) Compact() (bool, error) { s.packs.Add(1); return true, nil }

// thinned is a bench over such a store, with a project of three notes.
func thinned(t *testing.T) (*bench, *thinning) {
	var s *thinning
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), func(n Store) Store { s = &thinning{Store: n}; return s })
	b.Create("Tray")
	b.settle()
	for _, note := range []string{"one", "two", "three"} {
		b.clock.advance(time.Minute)
		b.enter("note", note)
	}
	return b, s
}

// TestUndoPastThinned: where the state before was thinned away, undo goes to the
// one before that and says nothing; redo comes back.
func TestUndoPastThinned(t *testing.T) {
	b, s := thinned(t)
	defer b.Close()
	r, _ := b.revision(b.current)
	s.gone = r.After
	b.Undo()
	b.settle()
	if got := b.text("note"); got != "one" || b.Snapshot().Saved.What != "" {
		t.Errorf("undo leads to %q, and says %q", got, b.Snapshot().Saved.What)
	}
	b.Redo()
	b.settle()
	if got := b.text("note"); got != "three" {
		t.Errorf("redo leads to %q", got)
	}
}

// TestTidiedAtRest: the notebook is given its free room back a while after the
// start, never within half a minute of a save, and then no more than every hour,
// also by a clock that was set back.
func TestTidiedAtRest(t *testing.T) {
	b, s := thinned(t)
	defer b.Close()
	tick := func(wait time.Duration, want int32, when string) {
		t.Helper()
		b.clock.advance(wait)
		b.tick(b.clock.Now())
		b.settle()
		if got := s.packs.Load(); got != want {
			t.Errorf("%s: done %d times, want %d", when, got, want)
		}
	}
	tick(0, 0, "at the start")
	b.enter("note", "four")
	tick(20*time.Second, 0, "20 s after a save")
	tick(15*time.Second, 1, "35 s after it")
	tick(time.Minute, 1, "a minute later")
	tick(time.Hour, 2, "an hour later")
	tick(-5*time.Hour, 3, "set back by five hours")
	tick(time.Minute, 3, "a minute after that")
}
