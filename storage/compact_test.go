package storage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"sync"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"
)

// world is all that a notebook holds, as it can be read.
func world(t testing.TB, n *Notebook) map[string]any {
	t.Helper()
	all := map[string]any{}
	cards, err := n.Cards()
	if err != nil {
		t.Fatal(err)
	}
	all["cards"] = cards
	for _, c := range cards {
		p, r, err := n.Load(c.ID)
		if err != nil {
			t.Fatal(err)
		}
		list, err := n.Revisions(c.ID)
		if err != nil {
			t.Fatal(err)
		}
		all["project "+c.ID], all["current "+c.ID], all["revisions "+c.ID] = p, r, list
		for _, r := range list {
			if all[fmt.Sprint("state ", c.ID, r.Number)], err = n.At(c.ID, r.Number); err != nil {
				t.Fatal(err)
			}
		}
	}
	m, states, at, err := n.LoadShelf()
	if err != nil {
		t.Fatal(err)
	}
	all["shelf"], all["shelf states"], all["shelf at"] = m, states, at
	settings, err := n.settings()
	if err != nil {
		t.Fatal(err)
	}
	all["settings"] = settings
	return all
}

// roomy makes a notebook at path most of which is free.
func roomy(t testing.TB, path string, opts ...Option) *Notebook {
	t.Helper()
	n, err := Open(path, opts...)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range filling() {
		save(t, n, p, 0, noon)
	}
	if _, err := n.SaveShelf(shelfOfState(1), false, "Change", noon); err != nil {
		t.Fatal(err)
	}
	after := 0
	for i := range 12 {
		after = save(t, n, sample("grown", i, 40_000), after, noon).Number
	}
	// What thinning does, at once: all but the newest go.
	err = n.update(func(tx *bolt.Tx) error {
		f, err := folderOf(tx, "grown")
		if err != nil {
			return err
		}
		h, err := f.readHead()
		if err != nil {
			return err
		}
		for number := 1; number < after; number++ {
			r, err := f.revision(number)
			if err != nil {
				return err
			}
			if err := f.drop(r, &h); err != nil {
				return err
			}
		}
		last, err := f.revision(after)
		last.After = 0
		return errors.Join(err, f.putRevision(last), f.putHead(h))
	})
	if err := errors.Join(err, n.PutSetting("window", 1), n.PutSetting("window", 2)); err != nil {
		t.Fatal(err)
	}
	return n
}

// size is the length of a file.
func size(t testing.TB, path string) int64 {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	return info.Size()
}

// TestCompact: the file gets smaller, nothing in it differs, it stays the user's
// alone, work goes on in it, and a second time there is nothing to do.
func TestCompact(t *testing.T) {
	path := tempPath(t)
	n := roomy(t, path)
	before, was := world(t, n), size(t, path)
	if done, err := n.Compact(); !done || err != nil {
		t.Fatalf("%t, %v", done, err)
	}
	if now := size(t, path); now > was/2 || was < 2*compactFrom {
		t.Errorf("it had %d bytes and has %d", was, now)
	}
	if !reflect.DeepEqual(world(t, n), before) {
		t.Error("something differs")
	}
	if err := n.Check(); err != nil {
		t.Error(err)
	}
	if done, err := n.Compact(); done || err != nil {
		t.Errorf("a second time: %t, %v", done, err)
	}
	if _, err := Open(path); !errors.Is(err, ErrInUse) {
		t.Errorf("opened beside: %v", err)
	}
	if r := save(t, n, sample("grown", 99, 3), 12, noon); r.Number != 13 {
		t.Errorf("saved as %v", r)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	if p, r, err := opened(t, path).Load("grown"); err != nil || r.Number != 13 || p.Serial != 99 {
		t.Errorf("opened again: %v, %v", r, err)
	}
	left, err := os.ReadDir(filepath.Dir(path))
	if err != nil || len(left) != 1 || mode(t, path) != 0o600 {
		t.Errorf("beside it: %v, %v; mode %o", left, err, mode(t, path))
	}
}

// mode is the rights that a file or folder gives.
func mode(t testing.TB, path string) os.FileMode {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	return info.Mode().Perm()
}

// TestCompactWhileSaving: what is saved meanwhile is kept, whether the notebook
// gets smaller then or another time.
func TestCompactWhileSaving(t *testing.T) {
	n := roomy(t, tempPath(t))
	defer n.Close()
	var wg sync.WaitGroup
	stop := make(chan struct{})
	last := 0
	wg.Go(func() {
		for i := 0; ; i++ {
			select {
			case <-stop:
				return
			default:
			}
			if i%32 != 0 { // what is written over takes no room, of which enough is to stay free
				if err := n.PutSetting("busy", i); err != nil {
					t.Error(err)
					return
				}
				continue
			}
			p := sample("busy", i+1, 30)
			r, err := n.Save(p, card(p, noon), last, false, "", noon)
			if err != nil {
				t.Error(err)
				return
			}
			last = r.Number
		}
	})
	for range 3 {
		if done, err := n.Compact(); done || err != nil {
			t.Errorf("while saves come: %t, %v", done, err)
		}
		time.Sleep(time.Millisecond)
	}
	close(stop)
	wg.Wait()
	if done, err := n.Compact(); !done || err != nil {
		t.Errorf("at rest: %t, %v", done, err)
	}
	if _, r, err := n.Load("busy"); err != nil || r.Number != last || last < 3 {
		t.Errorf("at %v of %d, %v", r, last, err)
	}
	if err := n.Check(); err != nil {
		t.Error(err)
	}
}

// A damaged record keeps the file as it is: nothing is made anew of what cannot
// be read whole.
func TestCompactLeavesDamage(t *testing.T) {
	path := tempPath(t)
	n := roomy(t, path)
	defer n.Close()
	spoil(t, n, []string{bucketCards}, []byte("grown"))
	was := size(t, path)
	if done, err := n.Compact(); done || err != nil || size(t, path) != was {
		t.Errorf("%t, %v", done, err)
	}
	if left, err := os.ReadDir(filepath.Dir(path)); err != nil || len(left) != 1 {
		t.Errorf("beside it: %v, %v", left, err)
	}
}

// TestSteady: a clock that ran ahead for fewer saves than count makes nothing old.
func TestSteady(t *testing.T) {
	list := history(50*time.Hour, 40*time.Hour, 30*time.Hour, -9000*time.Hour, -9001*time.Hour)
	if got := steady(list, noon.Add(9001*time.Hour), 3); !got.Equal(noon.Add(-30 * time.Hour)) {
		t.Errorf("ages are counted to %v", got)
	}
	if got := steady(list, noon.Add(-60*time.Hour), 3); !got.Equal(noon.Add(-60 * time.Hour)) {
		t.Errorf("with the clock set back: %v", got)
	}
	if drop := surplus(list, 5, steady(list, noon.Add(9001*time.Hour), 3), limits{bytes: 1 << 20, whole: 24 * time.Hour, hourly: 48 * time.Hour, undo: 1}); len(drop) > 0 {
		t.Errorf("dropped %v", drop)
	}
}
