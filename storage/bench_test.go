package storage

import (
	"fmt"
	"testing"
	"time"
)

// thousand opens a notebook with a thousand projects.
func thousand(b *testing.B) *Notebook {
	b.Helper()
	path := tempPath(b)
	n, err := Open(path, quick)
	if err != nil {
		b.Fatal(err)
	}
	for i := range 1000 {
		save(b, n, sample(fmt.Sprint("p", i), 1, 40), 0, noon.Add(time.Duration(i)*time.Minute))
	}
	if err := n.Close(); err != nil {
		b.Fatal(err)
	}
	n, err = Open(path)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() {
		if err := n.Close(); err != nil {
			b.Error(err)
		}
	})
	return n
}

func BenchmarkSave(b *testing.B) {
	n := thousand(b)
	after := 1
	for i := 0; b.Loop(); i++ {
		after = save(b, n, sample("p500", i, 40), after, noon.Add(time.Duration(i)*time.Minute)).Number
	}
}

func BenchmarkCards(b *testing.B) {
	n := thousand(b)
	for b.Loop() {
		if cards, err := n.Cards(); err != nil || len(cards) != 1000 {
			b.Fatal(len(cards), err)
		}
	}
}

func BenchmarkLoad(b *testing.B) {
	n := thousand(b)
	for b.Loop() {
		if _, _, err := n.Load("p500"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOpen(b *testing.B) {
	copied := tempPath(b)
	if err := thousand(b).Backup(copied); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		n, err := Open(copied)
		if err != nil {
			b.Fatal(err)
		}
		if err := n.Close(); err != nil {
			b.Fatal(err)
		}
	}
}
