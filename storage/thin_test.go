package storage

import (
	"fmt"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model"
)

const day = 24 * time.Hour

// history makes revisions of 100 bytes, each following the one before.
func history(ages ...time.Duration) []kept {
	var list []kept
	for i, age := range ages {
		list = append(list, kept{Revision: model.Revision{Number: i + 1, After: i, At: noon.Add(-age)}, Size: 100})
	}
	return list
}

func numbers(drop map[int]bool) string {
	var s string
	for i := range 100 {
		if drop[i] {
			s += fmt.Sprint(i, " ")
		}
	}
	return s
}

func TestSurplus(t *testing.T) {
	few := limits{bytes: 1 << 20, whole: 30 * day, hourly: 120 * day, undo: 1}
	minute := time.Minute
	cases := []struct {
		name string
		list []kept
		l    limits
		want string
	}{
		{"nothing of the last month", history(29*day, 29*day-minute, 3*minute, 2*minute, minute), few, ""},
		{"one an hour after a month", history(40*day, 40*day-minute, 40*day-2*minute, 40*day-90*minute, 2, 1), few, "1 2 "},
		{"one a day after four months", history(200*day, 200*day-5*time.Hour, 200*day-20*time.Hour, 2, 1), few, "1 "},
		{"never what undo needs", history(200*day, 200*day-minute, 200*day-2*minute), few, "1 "},
		{"the oldest when there is too much", history(5*day, 4*day, 3*day, 2*day, day), limits{bytes: 350, whole: 30 * day, hourly: 120 * day, undo: 1}, "1 2 "},
		{"not even then what undo needs", history(3*day, 2*day, day), limits{bytes: 50, whole: 30 * day, hourly: 120 * day, undo: 1}, "1 "},
		{"nothing from the future", history(-5*day, -5*day, -5*day, -5*day), few, ""},
	}
	for _, c := range cases {
		if got := numbers(surplus(c.list, len(c.list), noon, c.l)); got != c.want {
			t.Errorf("%s: dropped %q, want %q", c.name, got, c.want)
		}
	}
}

func TestThinningLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.IntRange(1, 60).Draw(t, "revisions")
		var list []kept
		for i := range size {
			r := kept{Size: int64(rapid.IntRange(1, 100).Draw(t, "size"))}
			r.Number, r.After = i+1, rapid.IntRange(0, i).Draw(t, "after")
			r.At = noon.Add(-time.Duration(rapid.IntRange(-10, 400).Draw(t, "age")) * 13 * time.Hour)
			list = append(list, r)
		}
		current := rapid.IntRange(1, size).Draw(t, "current")
		l := limits{bytes: int64(rapid.IntRange(1, 4000).Draw(t, "bytes")), whole: 30 * day, hourly: 120 * day, undo: rapid.IntRange(0, 10).Draw(t, "undo")}
		drop := surplus(list, current, noon, l)
		changed := map[int]int{}
		for _, r := range relinked(list, drop) {
			changed[r.Number] = r.After
		}
		for number, i := current, 0; number != 0 && i <= l.undo; number, i = list[number-1].After, i+1 {
			if drop[number] {
				t.Fatalf("dropped %d, which undo needs", number)
			}
		}
		for _, r := range list {
			if drop[r.Number] {
				continue
			}
			want := r.After
			for want != 0 && drop[want] {
				want = list[want-1].After
			}
			got, ok := changed[r.Number]
			if !ok {
				got = r.After
			}
			if got != want {
				t.Fatalf("%d follows %d, want %d", r.Number, got, want)
			}
		}
		// What stayed needs no further thinning.
		var rest []kept
		for _, r := range list {
			if !drop[r.Number] {
				if after, ok := changed[r.Number]; ok {
					r.After = after
				}
				rest = append(rest, r)
			}
		}
		if l.undo == 0 {
			if again := surplus(rest, current, noon, l); len(again) > 0 {
				t.Fatalf("a second time dropped %v", again)
			}
		}
	})
}

func TestThinningInTheFile(t *testing.T) {
	path := tempPath(t)
	tight := func(n *Notebook) {
		n.limits = limits{bytes: 20 << 10, whole: 30 * day, hourly: 120 * day, undo: 5, interval: 10}
	}
	n := opened(t, path, tight)
	for i := range 300 {
		p := sample("a", i+1, 30)
		if i == 0 {
			p.Journal = []model.Entry{entry("e1", noon)}
		}
		save(t, n, p, i, noon.Add(time.Duration(i)*time.Hour))
	}
	list, err := n.Revisions("a")
	if err != nil {
		t.Fatal(err)
	}
	if len(list) > 60 || len(list) < 6 {
		t.Errorf("%d revisions stayed", len(list))
	}
	for i, r := range list {
		p, err := n.At("a", r.Number)
		if err != nil || p.Note != fmt.Sprint("version ", r.Number) || len(p.Journal) != 1 {
			t.Errorf("revision %d: %q, %v", r.Number, p.Note, err)
		}
		if want := 0; i > 0 {
			want = list[i-1].Number
			if r.After != want {
				t.Errorf("%d follows %d, want %d", r.Number, r.After, want)
			}
		}
	}
	for i := range 6 {
		if list[len(list)-1-i].Number != 300-i {
			t.Errorf("undo lost revision %d", 300-i)
		}
	}
	p, r, err := n.Load("a")
	if err != nil || r.Number != 300 || !reflect.DeepEqual(p.Layers, sample("a", 300, 30).Layers) {
		t.Errorf("current %v, %v", r, err)
	}
}
