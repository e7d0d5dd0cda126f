package storage

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"runtime"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"meniscus/model"
)

// heap is what stays in memory, in bytes, once all that is not needed is given back.
func heap() int64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return int64(m.HeapAlloc)
}

// usedBytes is how many bytes of the file's pages hold something.
func usedBytes(t *testing.T, n *Notebook) (bytes int64) {
	t.Helper()
	err := n.view(func(tx *bolt.Tx) error {
		bytes = tx.Size() - int64(n.db.Stats().FreePageN*n.db.Info().PageSize)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return bytes
}

// yearly is one project of the year, with what the notebook must have of it.
type yearly struct {
	p       model.Project
	current model.Revision
	entries int
}

// TestTortureYear works in a notebook for a year in fast motion: edits, typing,
// steps back, entries, copies, and in spring many traced outlines, whose
// states are the larger part and are thinned by the summer. The file grows and
// shrinks, memory stays flat, and nothing is lost that must stay.
func TestTortureYear(t *testing.T) {
	edits := tortureCount(100_000, 3_000, 800)
	pieces, heavy, often := 8, 5, 14 // one in so many edits of the spring is a large one; a copy every so many days
	if edits < 100_000 {
		pieces, heavy, often = 1, 2, 60
	}
	now := time.Date(2026, 12, 1, 7, 0, 0, 0, time.UTC)
	path := tempPath(t)
	n := opened(t, path, quick, WithClock(func() time.Time { return now }))
	r := rand.New(rand.NewPCG(2026, uint64(edits)))
	all := make([]yearly, pieces)
	var sizes, memory [4]int64
	var peak int64
	packs, today, week := 0, -1, -1
	for i := range edits {
		now = now.Add(365 * day / time.Duration(edits))
		which := r.IntN(pieces)
		y := &all[which]
		points := 3
		if month := now.Month(); month >= time.March && month <= time.May && r.IntN(heavy) == 0 {
			points = 1500
		}
		next := sample(fmt.Sprint("piece ", which), i+1, points)
		next.Journal = y.p.Journal
		if r.IntN(100) == 0 {
			next.Journal = append(next.Journal, entry(fmt.Sprint("e", i), now))
			y.entries++
		}
		y.p = next
		rev, err := n.Save(y.p, card(y.p, now), y.current.Number, y.current.Number > 0 && r.IntN(3) == 0, "Change", now)
		if err != nil {
			t.Fatal(err)
		}
		y.current = rev
		if r.IntN(40) == 0 && rev.After != 0 {
			if err := n.Turn(y.p.ID, rev.After, card(y.p, now)); err != nil {
				t.Fatalf("after %d edits undo fails: %v", i, err)
			}
			if y.p, y.current, err = n.Load(y.p.ID); err != nil || y.current.Number != rev.After {
				t.Fatalf("at %v, %v", y.current, err)
			}
		}
		if d := now.YearDay(); d != today {
			today = d
			peak = max(peak, size(t, path))
			done, err := n.Compact()
			if err != nil {
				t.Fatal(err)
			}
			if done {
				packs++
			}
		}
		if w := now.YearDay() / often; w != week {
			week = w
			if _, err := n.KeepDaily(now); err != nil {
				t.Fatal(err)
			}
		}
		if q := i / (edits / 4); (i+1)%(edits/4) == 0 {
			sizes[q], memory[q] = size(t, path), heap()
		}
	}
	for range 3 { // pages of the last transactions are free by now
		if err := n.PutSetting("window", 1); err != nil {
			t.Fatal(err)
		}
	}
	if done, err := n.Compact(); err != nil {
		t.Fatal(err)
	} else if done {
		packs++
	}
	states := 0
	for _, y := range all {
		if y.p.ID == "" {
			continue
		}
		p, rev, err := n.Load(y.p.ID)
		if err != nil || rev.Number != y.current.Number || len(p.Journal) != y.entries || !reflect.DeepEqual(p.Pieces, y.p.Pieces) {
			t.Errorf("%s is at %v with %d of %d entries, %v", y.p.ID, rev, len(p.Journal), y.entries, err)
		}
		list, err := n.Revisions(y.p.ID)
		if err != nil {
			t.Error(err)
		}
		states += len(list)
	}
	used, last := usedBytes(t, n), size(t, path)
	t.Logf("%d edits left %d states; the file had %.1f MB at most, %.1f MB by quarters, %.1f MB at the end with %.1f MB in use; %d times written anew; heap by quarters %.1f MB",
		edits, states, mb(peak), []float64{mb(sizes[0]), mb(sizes[1]), mb(sizes[2]), mb(sizes[3])}, mb(last), mb(used), packs, []float64{mb(memory[0]), mb(memory[1]), mb(memory[2]), mb(memory[3])})
	// bbolt takes up to 16 MB, or as much again as there is, in advance.
	if last > 2*used+min(used, 16<<20)+compactFrom {
		t.Errorf("the file has %d bytes for %d in use", last, used)
	}
	if edits > 1000 && (packs == 0 || last > peak*3/4 || states > edits/2) {
		t.Errorf("it did not shrink: %d times written anew, %d bytes of %d, %d states", packs, last, peak, states)
	}
	if later := max(memory[2], memory[3]); later > memory[1]*3/2+(8<<20) {
		t.Errorf("memory grows: %v", memory)
	}
}

func mb(bytes int64) float64 { return float64(bytes) / 1e6 }
