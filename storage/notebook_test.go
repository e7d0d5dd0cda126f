package storage

import (
	"errors"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
)

func TestSaveAndLoad(t *testing.T) {
	n := opened(t, tempPath(t))
	p := sample("a", 1, 500)
	first := save(t, n, p, 0, noon)
	if want := (model.Revision{Number: 1, At: noon, Label: "Change"}); first != want {
		t.Errorf("first revision %v, want %v", first, want)
	}
	got, r, err := n.Load("a")
	if err != nil || r != first || !reflect.DeepEqual(got, p) {
		t.Errorf("loaded %v, %v; same project: %t", r, err, reflect.DeepEqual(got, p))
	}
	q := sample("a", 2, 3)
	second := save(t, n, q, 1, noon.Add(time.Minute))
	if second.Number != 2 || second.After != 1 {
		t.Errorf("second revision %v", second)
	}
	for number, want := range map[int]model.Project{1: p, 2: q} {
		if got, err := n.At("a", number); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("At(%d) differs or failed: %v", number, err)
		}
	}
	list, err := n.Revisions("a")
	if err != nil || !reflect.DeepEqual(list, []model.Revision{first, second}) {
		t.Errorf("revisions %v, %v", list, err)
	}
}

func TestAmendTakesThePlace(t *testing.T) {
	n := opened(t, tempPath(t))
	save(t, n, sample("a", 1, 3), 0, noon)
	save(t, n, sample("a", 2, 3), 1, noon)
	q := sample("a", 3, 900)
	r, err := n.Save(q, card(q, noon), 2, true, "Depth", noon.Add(time.Second))
	if err != nil || r.Number != 2 || r.After != 1 || r.Label != "Depth" {
		t.Fatalf("amended %v, %v", r, err)
	}
	got, now, err := n.Load("a")
	if err != nil || now != r || !reflect.DeepEqual(got, q) {
		t.Errorf("loaded %v, %v", now, err)
	}
	if list, _ := n.Revisions("a"); len(list) != 2 {
		t.Errorf("%d revisions, want 2", len(list))
	}
}

func TestUndoCursorSurvivesReopen(t *testing.T) {
	path := tempPath(t)
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 4 {
		save(t, n, sample("a", i+1, 3), i, noon)
	}
	if err := n.Turn("a", 2, card(sample("a", 2, 3), noon)); err != nil {
		t.Fatal(err)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	n = opened(t, path)
	p, r, err := n.Load("a")
	if err != nil || r.Number != 2 || !reflect.DeepEqual(p, sample("a", 2, 3)) {
		t.Fatalf("after reopening: %v, %v", r, err)
	}
	if r := save(t, n, sample("a", 9, 3), 2, noon); r.Number != 5 || r.After != 2 {
		t.Errorf("a branch from 2 got %v", r)
	}
	if cards, err := n.Cards(); err != nil || len(cards) != 1 || cards[0].State != "version 9" {
		t.Errorf("cards %v, %v", cards, err)
	}
}

func TestCardsLastTouchedFirst(t *testing.T) {
	n := opened(t, tempPath(t))
	for i, id := range []string{"b", "c", "a"} {
		save(t, n, sample(id, 1, 3), 0, noon.Add(time.Duration(i)*time.Hour))
	}
	save(t, n, sample("b", 2, 3), 1, noon.Add(9*time.Hour))
	cards, err := n.Cards()
	if err != nil {
		t.Fatal(err)
	}
	var order string
	for _, c := range cards {
		order += c.ID
	}
	if order != "bac" {
		t.Errorf("order %s, want bac", order)
	}
}

func TestSettings(t *testing.T) {
	n := opened(t, tempPath(t))
	var got struct{ Width, Height int }
	if ok, err := n.Setting("window", &got); ok || err != nil {
		t.Errorf("nothing kept: %t, %v", ok, err)
	}
	for _, want := range []struct{ Width, Height int }{{800, 600}, {1024, 768}} {
		if err := n.PutSetting("window", want); err != nil {
			t.Fatal(err)
		}
		if ok, err := n.Setting("window", &got); !ok || err != nil || got != want {
			t.Errorf("got %v, %t, %v; want %v", got, ok, err, want)
		}
	}
	if err := n.PutSetting("bad", math.NaN()); !errors.Is(err, ErrInvalid) {
		t.Errorf("NaN: %v", err)
	}
}

func TestRefusals(t *testing.T) {
	n := opened(t, tempPath(t))
	p := sample("a", 1, 3)
	save(t, n, p, 0, noon)
	nan := sample("a", 2, 3)
	nan.Pieces[0].X = unit.Length(math.NaN())
	noID := sample("", 1, 3)
	badEntry := sample("a", 2, 3)
	badEntry.Journal = []model.Entry{{At: noon, Kind: model.EntryNote}}
	cases := []struct {
		name  string
		p     model.Project
		after int
		kind  error
	}{
		{"the ID is taken", p, 0, ErrExists},
		{"no such revision", p, 7, ErrMissing},
		{"no such project", sample("z", 1, 3), 1, ErrMissing},
		{"not a number", nan, 1, ErrInvalid},
		{"no ID", noID, 0, ErrInvalid},
		{"an entry without ID", badEntry, 1, ErrInvalid},
	}
	for _, c := range cases {
		_, err := n.Save(c.p, card(c.p, noon), c.after, false, "", noon)
		if !errors.Is(err, c.kind) {
			t.Errorf("%s: %v, want %v", c.name, err, c.kind)
		}
		var trouble *Trouble
		if !errors.As(err, &trouble) || trouble.What == "" || trouble.Do == "" {
			t.Errorf("%s: no words: %v", c.name, err)
		}
	}
	if _, _, err := n.Load("z"); !errors.Is(err, ErrMissing) {
		t.Error(err)
	}
	if _, err := n.At("a", 9); !errors.Is(err, ErrMissing) {
		t.Error(err)
	}
	if err := n.Turn("a", 9, model.Card{}); !errors.Is(err, ErrMissing) {
		t.Error(err)
	}
	if got, r, err := n.Load("a"); err != nil || r.Number != 1 || !reflect.DeepEqual(got, p) {
		t.Errorf("something changed: %v, %v", r, err)
	}
}

func TestSecondOpenIsRefused(t *testing.T) {
	path := tempPath(t)
	opened(t, path)
	_, err := Open(path)
	if !errors.Is(err, ErrInUse) || !strings.Contains(err.Error(), path) {
		t.Errorf("second open: %v", err)
	}
}

func TestClosed(t *testing.T) {
	n, err := Open(tempPath(t))
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(n.Close(), n.Close()); err != nil {
		t.Fatal(err)
	}
	p := sample("a", 1, 3)
	if _, err := n.Save(p, card(p, noon), 0, false, "", noon); !errors.Is(err, ErrClosed) {
		t.Error(err)
	}
	if _, err := n.Cards(); !errors.Is(err, ErrClosed) {
		t.Error(err)
	}
	if _, err := n.PutPhoto(strings.NewReader(""), 1); !errors.Is(err, ErrClosed) {
		t.Error(err)
	}
	if err := n.Backup(tempPath(t)); !errors.Is(err, ErrClosed) {
		t.Error(err)
	}
}

func TestFileIsPrivate(t *testing.T) {
	path := tempPath(t)
	opened(t, path)
	info, err := os.Stat(path)
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
}

func TestMovedAwayWhileOpen(t *testing.T) {
	path := tempPath(t)
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	p := sample("a", 1, 3)
	save(t, n, p, 0, noon)
	if err := os.Rename(path, path+".away"); err != nil {
		t.Fatal(err)
	}
	if _, err := n.Save(p, card(p, noon), 1, false, "", noon); !errors.Is(err, ErrMissing) {
		t.Errorf("saving into nowhere: %v", err)
	}
	if err := os.Rename(path+".away", path); err != nil {
		t.Fatal(err)
	}
	save(t, n, p, 1, noon)
}

func TestCutOffWhileOpen(t *testing.T) {
	path := tempPath(t)
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 30 {
		save(t, n, sample("a", i+1, 100), i, noon)
	}
	if err := os.Truncate(path, 8192); err != nil {
		t.Fatal(err)
	}
	if _, _, err := n.Load("a"); !errors.Is(err, ErrDamaged) {
		t.Errorf("load: %v", err)
	}
	p := sample("a", 99, 3)
	if _, err := n.Save(p, card(p, noon), 30, false, "", noon); !errors.Is(err, ErrDamaged) {
		t.Errorf("save: %v", err)
	}
	if err := n.Close(); err != nil && !errors.Is(err, ErrDamaged) {
		t.Error(err)
	}
	if _, err := Open(path); !errors.Is(err, ErrDamaged) {
		t.Errorf("opening it again: %v", err)
	}
}
