package storage

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"meniscus/model"
)

// running is a clock with two steps.
func running() model.Running {
	return model.Running{
		Steps: []model.Step{
			{Kind: model.StepPour, Layer: "l1", Label: "pour the first", Due: noon, Past: true},
			{Kind: model.StepRecoat, Layer: "l1", Label: "its window opens", After: 5400, Due: noon.Add(90 * time.Minute), Typical: true},
		},
		Zone: "Europe/Lisbon", Out: true, Settled: true,
	}
}

// What runs of a project is kept with it, by Save, by Turn and alone, and
// nothing else of its card changes.
func TestRunningIsKept(t *testing.T) {
	path := tempPath(t)
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	first := card(sample("a", 1, 3), noon)
	first.Running = &model.Running{Settled: true}
	if _, err := n.Save(sample("a", 1, 3), first, 0, false, "", noon); err != nil {
		t.Fatal(err)
	}
	want := first
	for _, r := range []model.Running{running(), {Settled: true}} {
		if err := n.PutRunning(map[string]model.Running{"a": r}); err != nil {
			t.Fatal(err)
		}
		want.Running = &r
		if err := n.Close(); err != nil {
			t.Fatal(err)
		}
		if n, err = Open(path); err != nil {
			t.Fatal(err)
		}
		if cards, err := n.Cards(); err != nil || !reflect.DeepEqual(cards, []model.Card{want}) {
			t.Errorf("%v: %+v\nwant %+v", err, cards, want)
		}
	}
	r := running()
	want.Running = &r
	if err := n.Turn("a", 1, want); err != nil {
		t.Fatal(err)
	}
	if cards, err := n.Cards(); err != nil || !reflect.DeepEqual(cards, []model.Card{want}) {
		t.Errorf("turned: %v, %+v", err, cards)
	}
	r = model.Running{Zone: "Europe/Vienna", Settled: true}
	if err := n.PutRunning(map[string]model.Running{"a": r, "b": running(), "": running()}); !errors.Is(err, ErrMissing) {
		t.Errorf("of no project: %v", err)
	}
	if cards, err := n.Cards(); err != nil || !reflect.DeepEqual(cards, []model.Card{want}) {
		t.Errorf("beside one of no project: %v, %+v", err, cards)
	}
	defer n.Close()
	if revs, err := n.Revisions("a"); err != nil || len(revs) != 1 {
		t.Errorf("it made a saved state: %v, %v", revs, err)
	}
}

// A damaged card is made again with what runs.
func TestRunningOfADamagedCard(t *testing.T) {
	n := spoiled(t, []string{bucketCards}, []byte("a"))
	if err := n.PutRunning(map[string]model.Running{"a": running()}); err != nil {
		t.Fatal(err)
	}
	if err := n.view(func(tx *bolt.Tx) error {
		c, err := readCard(tx.Bucket([]byte(bucketCards)).Get([]byte("a")), "a")
		if err == nil && (c.Running == nil || !reflect.DeepEqual(*c.Running, running()) || c.Name == "") {
			t.Errorf("%+v", c)
		}
		return err
	}); err != nil {
		t.Error(err)
	}
}

// The card of a notebook of an older form says nothing of what runs.
func TestOlderCardsKnowOfNothingThatRuns(t *testing.T) {
	for _, form := range []string{"form-1.db", "form-2.db"} {
		raw, err := os.ReadFile(filepath.Join("testdata", form))
		if err != nil {
			t.Fatal(err)
		}
		path := tempPath(t)
		if err := os.WriteFile(path, raw, 0o600); err != nil {
			t.Fatal(err)
		}
		n := opened(t, path)
		if cards, err := n.Cards(); err != nil || len(cards) != 1 || cards[0].Running != nil {
			t.Errorf("%s: %v, %+v", form, err, cards)
		}
		if err := n.PutRunning(map[string]model.Running{"golden": running()}); err != nil {
			t.Errorf("%s: %v", form, err)
		}
	}
}
