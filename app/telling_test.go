package app

import (
	"cmp"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// digest is a short name for a value as it is kept.
func digest(v any) string {
	raw, err := json.Marshal(v)
	must(err)
	sum := sha256.Sum256(raw)
	return fmt.Sprintf("%x", sum[:8])
}

// digestOf is that of a project with its journal, in order.
func digestOf(p model.Project) string {
	p.Journal = slices.Clone(p.Journal)
	slices.SortFunc(p.Journal, func(a, b model.Entry) int { return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.ID, b.ID)) })
	if len(p.Journal) == 0 {
		p.Journal = nil
	}
	return digest(p)
}

// digestOfShelf is that of a shelf without what projects took, which is theirs.
func digestOfShelf(m model.Shelf) string {
	m.Uses = nil
	return digest(m)
}

// worldly tells whether what is kept under a key is another after a restore.
func worldly(key string) bool {
	return strings.HasPrefix(key, "project/") || strings.HasPrefix(key, "clock/") || key == "shelf"
}

// telling is a notebook that says what it is about to write before it does, as
// "may KEY VALUE", and remembers what it has written until that is acknowledged.
type telling struct {
	*storage.Notebook
	mu      sync.Mutex
	written map[string]string // by key, since the last acknowledgement
}

// writes has a value written under its keys.
func (t *telling) writes(values map[string]string, write func() error) error {
	var out strings.Builder
	for key, value := range values {
		fmt.Fprintf(&out, "may %s %s\n", key, value)
	}
	t.mu.Lock() // so that nothing is acknowledged between the two
	defer t.mu.Unlock()
	_, _ = os.Stdout.WriteString(out.String()) // at once
	err := write()
	if err == nil {
		maps.Copy(t.written, values)
	}
	return err
}

// acknowledge says that what was written is, as far as the maker is told, kept.
func (t *telling) acknowledge() {
	t.mu.Lock()
	defer t.mu.Unlock()
	var out strings.Builder
	if world, ok := t.written["world"]; ok {
		fmt.Fprintf(&out, "kept world %s\n", world)
		delete(t.written, "world")
	}
	for key, value := range t.written {
		fmt.Fprintf(&out, "kept %s %s\n", key, value)
	}
	clear(t.written)
	_, _ = os.Stdout.WriteString(out.String())
}

func (t *telling) Save(p model.Project, card model.Card, after int, amend bool, label string, at time.Time) (r model.Revision, err error) {
	err = t.writes(map[string]string{"project/" + p.ID: digestOf(p), "clock/" + p.ID: digest(card.Running)}, func() (err error) {
		r, err = t.Notebook.Save(p, card, after, amend, label, at)
		return err
	})
	return r, err
}

func (t *telling) Turn(id string, number int, card model.Card) error {
	p, err := t.At(id, number)
	if err != nil {
		return err
	}
	return t.writes(map[string]string{"project/" + id: digestOf(p), "clock/" + id: digest(card.Running)}, func() error { return t.Notebook.Turn(id, number, card) })
}

func (t *telling) PutRunning(of map[string]model.Running) error {
	will := map[string]string{}
	for id, running := range of {
		will["clock/"+id] = digest(&running)
	}
	return t.writes(will, func() error { return t.Notebook.PutRunning(of) })
}

func (t *telling) SaveShelf(m model.Shelf, amend bool, label string, at time.Time) (r model.Revision, err error) {
	err = t.writes(map[string]string{"shelf": digestOfShelf(m)}, func() (err error) {
		r, err = t.Notebook.SaveShelf(m, amend, label, at)
		return err
	})
	return r, err
}

// TurnShelf cannot tell beforehand which state it turns to, so any is allowed
// until it has.
func (t *telling) TurnShelf(number int) (m model.Shelf, err error) {
	values := map[string]string{"shelf": "*"}
	err = t.writes(values, func() (err error) {
		m, err = t.Notebook.TurnShelf(number)
		values["shelf"] = digestOfShelf(m)
		return err
	})
	return m, err
}

func (t *telling) PutSetting(name string, value any) error {
	return t.writes(map[string]string{"setting/" + strings.ReplaceAll(name, " ", "_"): digest(value)}, func() error { return t.Notebook.PutSetting(name, value) })
}

// Restore puts another world in place of this one: that of a copy.
func (t *telling) Restore(path string, at time.Time) error {
	return t.writes(map[string]string{"world": filepath.Base(path)}, func() error {
		err := t.Notebook.Restore(path, at)
		maps.DeleteFunc(t.written, func(key, _ string) bool { return err == nil && worldly(key) }) // which is gone
		return err
	})
}

// Compact changes nothing; that it was done is counted.
func (t *telling) Compact() (bool, error) {
	fmt.Println("compacts")
	done, err := t.Notebook.Compact()
	if done {
		fmt.Println("did compact")
	}
	return done, err
}

// found reads all that the notebook at path holds, by the keys of telling, and
// makes sure that every record is whole, and every photo that a journal names is
// in the folder photos; "" where that is not looked at.
func found(path, photos string) (map[string]string, error) {
	n, err := storage.Open(path)
	if err != nil {
		return nil, err
	}
	defer n.Close()
	if err := n.Check(); err != nil {
		return nil, err
	}
	all := map[string]string{}
	cards, err := n.Cards()
	if err != nil {
		return nil, err
	}
	shelf, _, _, err := n.LoadShelf()
	if err != nil {
		return nil, err
	}
	all["shelf"] = digestOfShelf(shelf)
	taken := map[string][]model.StockUse{}
	for _, u := range shelf.Uses {
		taken[u.Project] = u.List
	}
	for _, c := range cards {
		p, _, err := n.Load(c.ID)
		if err != nil {
			return nil, err
		}
		all["project/"+c.ID], all["clock/"+c.ID] = digestOf(p), digest(c.Running)
		for _, e := range p.Journal {
			if _, err := os.Stat(filepath.Join(photos, e.Photo)); err != nil && photos != "" && len(e.Photo) > 60 {
				return nil, fmt.Errorf("the photo of entry %s is gone: %w", e.ID, err)
			}
		}
		if uses := model.UsesOf(&p); digest(uses.List) != digest(taken[c.ID]) && len(uses.List)+len(taken[c.ID]) > 0 {
			return nil, fmt.Errorf("the shelf has %v as taken by %s, and its journal says %v", taken[c.ID], c.ID, uses.List)
		}
	}
	for _, name := range []string{opened, secondPlace, "torture", "filler"} {
		var value json.RawMessage
		if ok, err := n.Setting(name, &value); err != nil {
			return nil, err
		} else if ok {
			all["setting/"+strings.ReplaceAll(name, " ", "_")] = digest(value)
		}
	}
	return all, nil
}
