package views

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// fakeStore keeps a notebook in memory.
type fakeStore struct {
	mu       sync.Mutex
	cards    []model.Card
	states   map[string]map[int]model.Project
	revs     map[string][]model.Revision
	current  map[string]int
	settings map[string][]byte

	shelves   []model.Shelf
	shelfRevs []model.Revision
	shelfAt   int

	full   bool // nothing can be kept
	locked bool // it can only be read
	sharp  bool // the simulation of its projects has no bands, for tests that start many
}

func newFakeStore() *fakeStore {
	return &fakeStore{states: map[string]map[int]model.Project{}, revs: map[string][]model.Revision{}, current: map[string]int{}, settings: map[string][]byte{}}
}

var errFull = errors.New("no room left on the disk")

func (s *fakeStore) ReadOnly() bool { return s.locked }

func (s *fakeStore) Cards() ([]model.Card, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Clone(s.cards), nil
}

func (s *fakeStore) Load(id string) (model.Project, model.Revision, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, r := range s.revs[id] {
		if r.Number == s.current[id] {
			return s.states[id][r.Number], r, nil
		}
	}
	return model.Project{}, model.Revision{}, fmt.Errorf("no project %s", id)
}

func (s *fakeStore) Save(p model.Project, card model.Card, after int, amend bool, label string, at time.Time) (model.Revision, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.full {
		return model.Revision{}, errFull
	}
	r := model.Revision{Number: len(s.revs[p.ID]) + 1, After: after, At: at, Label: label}
	if amend {
		r = s.revs[p.ID][after-1]
		r.At, r.Label = at, label
		s.revs[p.ID][after-1] = r
	} else {
		s.revs[p.ID] = append(s.revs[p.ID], r)
	}
	if s.states[p.ID] == nil {
		s.states[p.ID] = map[int]model.Project{}
	}
	s.states[p.ID][r.Number], s.current[p.ID] = p, r.Number
	s.putCard(card)
	return r, nil
}

func (s *fakeStore) putCard(card model.Card) {
	s.cards = slices.DeleteFunc(s.cards, func(c model.Card) bool { return c.ID == card.ID })
	s.cards = slices.Insert(s.cards, 0, card)
}

func (s *fakeStore) Revisions(id string) ([]model.Revision, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Clone(s.revs[id]), nil
}

func (s *fakeStore) At(id string, number int) (model.Project, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.states[id][number], nil
}

func (s *fakeStore) Turn(id string, number int, card model.Card) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.current[id] = number
	s.putCard(card)
	return nil
}

func (s *fakeStore) PutRunning(of map[string]model.Running) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.full {
		return errFull
	}
	for i := range s.cards {
		if running, ok := of[s.cards[i].ID]; ok {
			s.cards[i].Running = &running
		}
	}
	return nil
}

func (s *fakeStore) LoadShelf() (model.Shelf, []model.Revision, int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.shelfAt == 0 {
		return model.Shelf{}, nil, 0, nil
	}
	return s.shelves[s.shelfAt-1], slices.Clone(s.shelfRevs), s.shelfAt, nil
}

func (s *fakeStore) SaveShelf(m model.Shelf, amend bool, label string, at time.Time) (model.Revision, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.full {
		return model.Revision{}, errFull
	}
	if !amend || s.shelfAt == 0 {
		s.shelfAt++
	}
	r := model.Revision{Number: s.shelfAt, After: s.shelfAt - 1, At: at, Label: label}
	s.shelves, s.shelfRevs = append(s.shelves[:s.shelfAt-1], m), append(s.shelfRevs[:s.shelfAt-1], r)
	return r, nil
}

func (s *fakeStore) TurnShelf(number int) (model.Shelf, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.shelfAt = number
	return s.shelves[number-1], nil
}

func (s *fakeStore) Setting(name string, into any) (bool, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	data, ok := s.settings[name]
	if !ok {
		return false, nil
	}
	return true, json.Unmarshal(data, into)
}

func (s *fakeStore) PutSetting(name string, value any) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	data, err := json.Marshal(value)
	s.settings[name] = data
	return err
}

func (s *fakeStore) Close() error { return nil }

// fakeClock is a clock that the test sets.
type fakeClock struct {
	mu  sync.Mutex
	now time.Time
}

func (c *fakeClock) Now() time.Time { c.mu.Lock(); defer c.mu.Unlock(); return c.now }

func (c *fakeClock) advance(d time.Duration) { c.mu.Lock(); c.now = c.now.Add(d); c.mu.Unlock() }

// bench is a desk over a session with a notebook in memory; the test's own
// goroutine is that of the interface.
type bench struct {
	*app.Session
	t     testing.TB
	store *fakeStore
	clock *fakeClock
	posts chan func()
	desk  *Desk
}

// ear hears what a bench sounds; nil where it makes no sound.
var ear app.Player

// newBench opens the desk on a store. The demo jobs can be brought in; none is
// by itself.
func newBench(t testing.TB, store *fakeStore) *bench {
	t.Helper()
	return newBenchOn(t, store, store)
}

// newBenchOn opens the desk on a store that is more than the notebook in memory
// below it.
func newBenchOn(t testing.TB, store *fakeStore, whole app.Store) *bench {
	t.Helper()
	b := &bench{t: t, store: store, clock: &fakeClock{now: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}, posts: make(chan func(), 1000)}
	number := 0
	var err error
	reckoner := app.Reckoner{Simulate: simulations.simulate, Widen: bands.widen}
	if store.sharp {
		reckoner.Widen = func(ctx context.Context, _ *model.Project, _ *model.Plan, _ func(int, func(int))) (model.Curing, error) {
			<-ctx.Done()
			return model.Curing{}, ctx.Err()
		}
	}
	b.Session, err = app.New(app.Options{Store: whole, Clock: b.clock, Player: ear, Painter: drawing.OnPaper{}, Reckoner: reckoner, Post: func(f func()) { b.posts <- f }, NewID: func() string {
		number++
		return fmt.Sprintf("id%d-%d", len(store.states), number)
	}})
	if err != nil {
		t.Fatal(err)
	}
	a := test.NewTempApp(t)
	if _, known := store.settings[layoutName]; !known {
		if err := store.PutSetting(layoutName, arrangement{}); err != nil {
			t.Fatal(err)
		}
	}
	if b.desk, err = NewDesk(a, b.Session, demoFiles(t)); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.end() })
	return b
}

// end closes the session, once.
func (b *bench) end() {
	if b.Session == nil {
		return
	}
	if err := b.Session.Close(); err != nil && !errors.Is(err, errFull) {
		b.t.Error(err)
	}
	b.Session = nil
}

// demoFiles reads the demo jobs.
func demoFiles(t testing.TB) []Demo {
	t.Helper()
	files, err := filepath.Glob("../testdata/demo-*.json")
	if err != nil || len(files) == 0 {
		t.Fatal("no demo jobs", err)
	}
	var list []Demo
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		name := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(f), "demo-"), ".json")
		list = append(list, Demo{Name: name, File: data})
	}
	return list
}

// until does what is posted until something is so.
func (b *bench) until(what string, so func() bool) {
	b.t.Helper()
	deadline := time.After(10 * time.Second)
	for !so() {
		select {
		case f := <-b.posts:
			f()
		case <-deadline:
			b.t.Fatal("it never came to be that ", what)
		}
	}
}

// settle does what is posted until everything entered is planned and kept.
func (b *bench) settle() {
	b.t.Helper()
	rest := func() bool {
		shot := b.Snapshot()
		newest := b.newest()
		return shot.Open && !b.desk.behind && !shot.Saved.Pending && reflect.DeepEqual(newest, shot.Project.Clone())
	}
	b.until("all is planned and kept", rest)
	for quiet := false; !quiet; {
		select {
		case f := <-b.posts:
			f()
		case <-time.After(20 * time.Millisecond):
			quiet = rest()
		}
	}
}

// newest is the open project as it was last edited, which may be ahead of the
// snapshot.
func (b *bench) newest() (p model.Project) {
	look := errors.New("this only looks")
	_ = b.Session.Edit("", "", func(now *model.Project) error {
		p = now.Clone()
		return look
	})
	return p
}

// demo brings a demo job in.
func (b *bench) demo(name string) {
	b.t.Helper()
	for _, d := range b.desk.demos {
		if d.Name == name {
			before := b.Snapshot()
			if err := b.Import(d.File); err != nil {
				b.t.Fatal(err)
			}
			var want struct{ Project struct{ Name string } }
			if err := json.Unmarshal(d.File, &want); err != nil {
				b.t.Fatal(err)
			}
			b.until(name+" is open", func() bool {
				shot := b.Snapshot() // of its name there may be one already
				return shot.Project.Name == want.Project.Name && !(before.Open && shot.Project.ID == before.Project.ID)
			})
			b.settle()
			return
		}
	}
	b.t.Fatal("no demo job ", name)
}

// texts lists the words that a window shows.
func texts(o fyne.CanvasObject) []string {
	var list []string
	for _, x := range test.LaidOutObjects(o) {
		switch x := x.(type) {
		case *touch.Text:
			list = append(list, x.Text())
		case *touch.Brief:
			list = append(list, x.Text())
		case *canvas.Text:
			list = append(list, x.Text)
		case *touch.Button:
			list = append(list, x.Label)
		case *touch.Fit:
			list = append(list, x.Text())
		}
	}
	return list
}

// shows tells whether a window shows some words.
func shows(o fyne.CanvasObject, words string) bool {
	return slices.ContainsFunc(texts(o), func(text string) bool { return strings.Contains(text, words) })
}
