package storage

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"meniscus/model"
)

// bigPath is a notebook with many projects, made once for all benchmarks: each
// a demo job with its card and ten entries in its journal.
var bigPath = map[int]string{}

// big makes a notebook with count projects and opens it.
func big(b *testing.B, count int) *Notebook {
	b.Helper()
	from := bigPath[count]
	if from == "" {
		dir, err := os.MkdirTemp("", "big")
		if err != nil {
			b.Fatal(err)
		}
		from = filepath.Join(dir, "notebook.db")
		bigPath[count] = from
		fillBig(b, from, count)
	}
	to := tempPath(b)
	data, err := os.ReadFile(from)
	if err != nil {
		b.Fatal(err)
	}
	// It is on the disk before anything is measured, as it would be.
	err = writeFile(to, func(f *os.File) error { _, err := f.Write(data); return err }, nil)
	if err != nil {
		b.Fatal(err)
	}
	n, err := Open(to)
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

// fillBig fills a new notebook with count projects of ten journal entries.
func fillBig(b *testing.B, path string, count int) {
	b.Helper()
	data, err := os.ReadFile("../testdata/demo-hall-shelf.json")
	if err != nil {
		b.Fatal(err)
	}
	p, err := model.Import(data)
	if err != nil {
		b.Fatal(err)
	}
	plan := model.Make(p)
	c := model.NewCard(&p, &plan, noon)
	n, err := Open(path, quick)
	if err != nil {
		b.Fatal(err)
	}
	for i := range count {
		p.ID, p.Name, p.Journal = bigID(i), fmt.Sprint("Shelf ", i), nil
		for j := range 10 {
			p.Journal = append(p.Journal, model.Entry{ID: fmt.Sprint("e", i, "-", j), Kind: model.EntryNote, At: noon.Add(time.Duration(j) * time.Minute), Text: "looked at it under raking light"})
		}
		c.ID, c.Name, c.Touched = p.ID, p.Name, noon.Add(time.Duration(i)*time.Minute)
		if _, err := n.Save(p, c, 0, false, "New piece", c.Touched); err != nil {
			b.Fatal(err)
		}
	}
	if err := n.Close(); err != nil {
		b.Fatal(err)
	}
}

func bigID(i int) string { return fmt.Sprintf("p%05d", i) }

// BenchmarkBigOpen is opening a notebook up to its list of projects.
func BenchmarkBigOpen(b *testing.B) {
	for _, count := range []int{10, 1000, 10_000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			n := big(b, count)
			path := n.Path()
			if err := n.Close(); err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				n, err := Open(path)
				if err != nil {
					b.Fatal(err)
				}
				if cards, err := n.Cards(); err != nil || len(cards) != count {
					b.Fatal(len(cards), err)
				}
				if err := n.Close(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkBigCards is listing the projects of an open notebook.
func BenchmarkBigCards(b *testing.B) {
	for _, count := range []int{10, 1000, 10_000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			n := big(b, count)
			for b.Loop() {
				if _, err := n.Cards(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkBigSave is one durable save of a project with its journal, which
// costs the same however many others there are.
func BenchmarkBigSave(b *testing.B) {
	for _, count := range []int{10, 1000, 10_000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			n := big(b, count)
			p, r, err := n.Load(bigID(count / 2))
			if err != nil {
				b.Fatal(err)
			}
			plan := model.Make(p)
			c := model.NewCard(&p, &plan, noon)
			at := r.At
			for b.Loop() {
				at = at.Add(time.Minute)
				if r, err = n.Save(p, c, r.Number, false, "Change", at); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkBigBackup is the copy of the day, looked through record by record.
func BenchmarkBigBackup(b *testing.B) {
	for _, count := range []int{1000, 10_000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			n := big(b, count)
			to := filepath.Join(b.TempDir(), "copy.db")
			for b.Loop() {
				if err := n.Backup(to); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
