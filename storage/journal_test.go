package storage

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"meniscus/model"
)

func TestJournalIsMergedAndSorted(t *testing.T) {
	n := opened(t, tempPath(t))
	late, early, twin := entry("e2", noon.Add(time.Hour)), entry("e3", noon), entry("e1", noon)
	p := sample("a", 1, 3)
	p.Journal = []model.Entry{late, early}
	save(t, n, p, 0, noon)
	p.Journal = []model.Entry{twin}
	save(t, n, p, 1, noon)
	want := []model.Entry{twin, early, late}
	if got, _, err := n.Load("a"); err != nil || !reflect.DeepEqual(got.Journal, want) {
		t.Errorf("Load: %v, %v", got.Journal, err)
	}
	if got, err := n.At("a", 1); err != nil || !reflect.DeepEqual(got.Journal, want) {
		t.Errorf("At 1 has not the journal of now: %v, %v", got.Journal, err)
	}
}

func TestJournalEntryIsNeverChanged(t *testing.T) {
	n := opened(t, tempPath(t))
	p := sample("a", 1, 3)
	first := entry("e1", noon)
	p.Journal = []model.Entry{first}
	save(t, n, p, 0, noon)
	forged := first
	forged.Text = "something else"
	p.Journal = []model.Entry{forged}
	if _, err := n.Save(p, card(p, noon), 1, true, "", noon); err != nil {
		t.Fatal(err)
	}
	if got, _, err := n.Load("a"); err != nil || !reflect.DeepEqual(got.Journal, []model.Entry{first}) {
		t.Errorf("journal %v, %v", got.Journal, err)
	}
}

func TestJournalLosesNothing(t *testing.T) {
	path := tempPath(t)
	n := opened(t, path)
	r := rand.New(rand.NewPCG(1, 2))
	want := map[string]bool{}
	after := 0
	for i := range 120 {
		p := sample("a", i, 3)
		for range r.IntN(3) {
			e := entry(fmt.Sprint("e", len(want)), noon.Add(time.Duration(r.IntN(1000))*time.Minute))
			want[e.ID] = true
			p.Journal = append(p.Journal, e)
		}
		rev, err := n.Save(p, card(p, noon), after, r.IntN(3) == 0, "", noon.Add(time.Duration(i)*24*time.Hour))
		if err != nil {
			t.Fatal(err)
		}
		after = rev.Number
		if r.IntN(4) == 0 {
			list, err := n.Revisions("a")
			if err != nil {
				t.Fatal(err)
			}
			after = list[r.IntN(len(list))].Number
			if err := n.Turn("a", after, card(p, noon)); err != nil {
				t.Fatal(err)
			}
		}
		got, _, err := n.Load("a")
		if err != nil || len(got.Journal) != len(want) {
			t.Fatalf("step %d: %d entries, want %d; %v", i, len(got.Journal), len(want), err)
		}
		for _, e := range got.Journal {
			if !want[e.ID] {
				t.Fatalf("step %d: unknown entry %s", i, e.ID)
			}
		}
	}
}
