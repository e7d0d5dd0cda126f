package storage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model"
)

// twin is what a project in the notebook must be.
type twin struct {
	bodies  map[int]model.Project
	after   map[int]int
	current int
	last    int
	journal map[string]model.Entry
}

// machine is a notebook beside its twins.
type machine struct {
	path  string
	n     *Notebook
	twins map[string]*twin
	tick  int
}

// pick draws one of the projects that are there.
func (m *machine) pick(t *rapid.T) (string, *twin) {
	if len(m.twins) == 0 {
		t.Skip("no project yet")
	}
	var ids []string
	for id := range m.twins {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	id := rapid.SampledFrom(ids).Draw(t, "id")
	return id, m.twins[id]
}

func (tw *twin) number(t *rapid.T) int {
	var numbers []int
	for number := range tw.bodies {
		numbers = append(numbers, number)
	}
	slices.Sort(numbers)
	return rapid.SampledFrom(numbers).Draw(t, "number")
}

// next makes the content of the next save, with up to two new entries.
func (m *machine) next(t *rapid.T, id string) model.Project {
	m.tick++
	p := sample(id, m.tick, rapid.SampledFrom([]int{1, 3, 200}).Draw(t, "size"))
	for i := range rapid.IntRange(0, 2).Draw(t, "entries") {
		p.Journal = append(p.Journal, entry(fmt.Sprintf("e%d-%d", m.tick, i), noon.Add(time.Duration(m.tick)*time.Minute)))
	}
	return p
}

// keep saves p in the notebook and in its twin.
func (m *machine) keep(t *rapid.T, tw *twin, p model.Project, after int, amend bool) {
	r, err := m.n.Save(p, card(p, noon), after, amend, "", noon)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range p.Journal {
		tw.journal[e.ID] = e
	}
	p.Journal = nil
	want := model.Revision{Number: tw.last + 1, After: after, At: noon}
	if amend {
		want.Number, want.After = after, tw.after[after]
	}
	if r != want {
		t.Fatalf("revision %v, want %v", r, want)
	}
	tw.bodies[r.Number], tw.after[r.Number], tw.current, tw.last = p, r.After, r.Number, max(tw.last, r.Number)
}

// Create saves a new project.
func (m *machine) Create(t *rapid.T) {
	id := rapid.StringMatching(`[a-zé/ ]{1,5}`).Draw(t, "new")
	if m.twins[id] != nil {
		p := sample(id, 1, 1)
		if _, err := m.n.Save(p, card(p, noon), 0, false, "", noon); !errors.Is(err, ErrExists) {
			t.Fatal(err)
		}
		return
	}
	tw := &twin{bodies: map[int]model.Project{}, after: map[int]int{}, journal: map[string]model.Entry{}}
	m.twins[id] = tw
	m.keep(t, tw, m.next(t, id), 0, false)
}

// Follow saves on top of any revision.
func (m *machine) Follow(t *rapid.T) {
	id, tw := m.pick(t)
	m.keep(t, tw, m.next(t, id), tw.number(t), false)
}

// Amend saves in the place of the current revision.
func (m *machine) Amend(t *rapid.T) {
	id, tw := m.pick(t)
	m.keep(t, tw, m.next(t, id), tw.current, true)
}

// Turn goes to any revision.
func (m *machine) Turn(t *rapid.T) {
	id, tw := m.pick(t)
	number := tw.number(t)
	if err := m.n.Turn(id, number, card(tw.bodies[number], noon)); err != nil {
		t.Fatal(err)
	}
	tw.current = number
}

// Wind keeps what runs of a project, which changes nothing else.
func (m *machine) Wind(t *rapid.T) {
	id, _ := m.pick(t)
	if err := m.n.PutRunning(map[string]model.Running{id: {Zone: rapid.StringN(0, 9, -1).Draw(t, "zone")}}); err != nil {
		t.Fatal(err)
	}
}

// Reopen closes the notebook and opens it again.
func (m *machine) Reopen(t *rapid.T) {
	if err := m.n.Close(); err != nil {
		t.Fatal(err)
	}
	var err error
	if m.n, err = Open(m.path, quick); err != nil {
		t.Fatal(err)
	}
}

// Doubt makes the notebook believe that a write ended in an unknown state.
func (m *machine) Doubt(*rapid.T) { m.n.suspect.Store(true) }

// Check holds the notebook against the twins.
func (m *machine) Check(t *rapid.T) {
	cards, err := m.n.Cards()
	if err != nil || len(cards) != len(m.twins) {
		t.Fatalf("%d cards, want %d; %v", len(cards), len(m.twins), err)
	}
	for id, tw := range m.twins {
		p, r, err := m.n.Load(id)
		if err != nil || r.Number != tw.current {
			t.Fatalf("%s is at %d, want %d; %v", id, r.Number, tw.current, err)
		}
		journal := p.Journal
		p.Journal = nil
		if !reflect.DeepEqual(p, tw.bodies[tw.current]) {
			t.Fatalf("%s at %d differs", id, tw.current)
		}
		if len(journal) != len(tw.journal) {
			t.Fatalf("%s has %d entries, want %d", id, len(journal), len(tw.journal))
		}
		for _, e := range journal {
			if !reflect.DeepEqual(e, tw.journal[e.ID]) {
				t.Fatalf("entry %s differs", e.ID)
			}
		}
		list, err := m.n.Revisions(id)
		if err != nil || len(list) != len(tw.bodies) {
			t.Fatalf("%s has %d revisions, want %d; %v", id, len(list), len(tw.bodies), err)
		}
	}
}

func TestMachine(t *testing.T) {
	dir := t.TempDir()
	runs := 0
	rapid.Check(t, func(t *rapid.T) {
		runs++
		m := &machine{path: filepath.Join(dir, fmt.Sprint(runs), "notebook.db"), twins: map[string]*twin{}}
		var err error
		if m.n, err = Open(m.path, quick); err != nil {
			t.Fatal(err)
		}
		defer func() {
			if err := errors.Join(m.n.Check(), m.n.Close(), os.RemoveAll(filepath.Dir(m.path))); err != nil {
				t.Error(err)
			}
		}()
		t.Repeat(map[string]func(*rapid.T){
			"create": m.Create, "follow": m.Follow, "amend": m.Amend,
			"turn": m.Turn, "wind": m.Wind, "reopen": m.Reopen, "doubt": m.Doubt, "": m.Check,
		})
	})
}
