package app

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// bigPath are notebooks with many projects, made once for all benchmarks.
var bigPath = map[int]string{}

// bigNotebook opens a notebook with so many projects of ten journal entries each.
func bigNotebook(b *testing.B, count int) *storage.Notebook {
	b.Helper()
	if bigPath[count] == "" {
		folder, err := os.MkdirTemp("", "big")
		if err != nil {
			b.Fatal(err)
		}
		bigPath[count] = filepath.Join(folder, "n.db")
		fillBig(b, bigPath[count], count)
	}
	data, err := os.ReadFile(bigPath[count])
	if err != nil {
		b.Fatal(err)
	}
	to := filepath.Join(b.TempDir(), "n.db")
	if err := os.WriteFile(to, data, 0o600); err != nil {
		b.Fatal(err)
	}
	n, err := storage.Open(to)
	if err != nil {
		b.Fatal(err)
	}
	return n
}

func fillBig(b *testing.B, file string, count int) {
	b.Helper()
	n, err := storage.Open(file)
	if err != nil {
		b.Fatal(err)
	}
	now := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	p := model.Blank("p", "Shelf")
	plan := model.Make(p)
	c := model.NewCard(&p, &plan, now)
	for i := range count {
		p.ID, p.Name, p.Journal = fmt.Sprintf("p%05d", i), fmt.Sprint("Shelf ", i), nil
		for j := range 10 {
			p.Journal = append(p.Journal, model.Entry{ID: fmt.Sprint("e", j), Kind: model.EntryNote, At: now, Text: "looked at it under raking light"})
		}
		c.ID, c.Name = p.ID, p.Name
		if _, err := n.Save(p, c, 0, false, "New piece", now); err != nil {
			b.Fatal(err)
		}
	}
	if err := n.Close(); err != nil {
		b.Fatal(err)
	}
}

// bigSession is a session on a notebook with so many projects, the one in the
// middle open; run does what is posted until done says so.
func bigSession(b *testing.B, count int) (s *Session, run func(done func() bool)) {
	b.Helper()
	n := bigNotebook(b, count)
	clock := &fakeClock{now: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}
	posts := make(chan func(), 1000)
	heat := &heat{}
	s, err := New(Options{Store: n, Clock: clock, Reckoner: heat.reckoner(), Post: func(f func()) { posts <- f }, NewID: func() string { return "new" }})
	if err != nil {
		b.Fatal(err)
	}
	run = func(done func() bool) {
		for !done() {
			(<-posts)()
		}
	}
	s.Open(fmt.Sprintf("p%05d", count/2))
	run(func() bool { return s.open && !s.moving })
	s.keepDaily(clock.now)
	run(func() bool { return len(s.jobs.latest) == 0 })
	b.Cleanup(func() {
		if err := s.Close(); err != nil {
			b.Error(err)
		}
	})
	return s, run
}

// BenchmarkBigEdit is one edit until it is on the disk and in the list.
func BenchmarkBigEdit(b *testing.B) {
	for _, count := range []int{10, 10_000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			s, run := bigSession(b, count)
			for i := 0; b.Loop(); i++ {
				_ = s.Edit("Note", "", func(p *model.Project) error { p.Note = fmt.Sprint(i); return nil })
				run(func() bool { return len(s.saves) == 0 })
			}
		})
	}
}

// BenchmarkBigClocks is asking for all clocks that run, as each second does.
func BenchmarkBigClocks(b *testing.B) {
	s, _ := bigSession(b, 10_000)
	shot := s.Snapshot()
	for b.Loop() {
		if list := shot.Ticking(s.Now()); len(list) > 0 {
			b.Fatal(len(list))
		}
	}
}

// BenchmarkBigWind is a start with a notebook from before clocks were kept, until
// those of all projects are worked out and on the disk; none of them is poured.
func BenchmarkBigWind(b *testing.B) {
	for _, count := range []int{1000, 10_000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			n := bigNotebook(b, count)
			clock := &fakeClock{now: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}
			for b.Loop() {
				posts := make(chan func(), 1000)
				s, err := New(Options{Store: forgetful{n}, Clock: clock, Reckoner: (&heat{}).reckoner(), Post: func(f func()) { posts <- f }, NewID: func() string { return "new" }})
				if err != nil {
					b.Fatal(err)
				}
				for s.winding {
					(<-posts)()
				}
				if !s.shot.Wound() {
					b.Fatal("not all are wound")
				}
				kept := make(chan struct{})
				s.jobs.InOrder(func() { close(kept) })
				<-kept
				b.StopTimer()
				s.jobs.Stop()
				b.StartTimer()
			}
			if err := n.Close(); err != nil {
				b.Error(err)
			}
		})
	}
}
