package views

import (
	"fmt"
	"testing"
	"time"

	"meniscus/model"
)

// bigNotebook is a bench over a notebook with so many projects, none of them
// open.
func bigNotebook(t testing.TB, count int) *bench {
	store := newFakeStore()
	p := model.Blank("p", "Shelf")
	plan := model.Make(p)
	c := model.NewCard(&p, &plan, time.Date(2026, 11, 1, 9, 0, 0, 0, time.UTC))
	for i := range count {
		c.ID, c.Name = fmt.Sprintf("p%05d", i), fmt.Sprintf("Shelf %d for the hall", i)
		store.cards = append(store.cards, c)
	}
	return newBench(t, store)
}

// BenchmarkBigSearch is one key in the search line, up to the rows that are shown.
func BenchmarkBigSearch(b *testing.B) {
	for _, count := range []int{10, 1000, 10_000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			l := bigNotebook(b, count).notebook().list
			for i := 0; b.Loop(); i++ {
				l.search.SetText(fmt.Sprint("hall ", i%1000))
			}
		})
	}
}

// BenchmarkBigSee is a snapshot that reaches the list, as after every key in a
// field.
func BenchmarkBigSee(b *testing.B) {
	for _, count := range []int{10, 10_000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			d := bigNotebook(b, count)
			l, shot := d.notebook().list, d.Snapshot()
			for b.Loop() {
				l.see(shot)
			}
		})
	}
}

// BenchmarkBigTick is what a second costs.
func BenchmarkBigTick(b *testing.B) {
	for _, count := range []int{10, 10_000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			d := bigNotebook(b, count)
			for b.Loop() {
				d.clock.advance(time.Second)
				d.desk.tick(d.Now())
			}
		})
	}
}

// TestBigListDrawsFewRows: of many projects only a screenful or two is drawn.
func TestBigListDrawsFewRows(t *testing.T) {
	d := bigNotebook(t, 2000)
	l := d.notebook().list
	if len(l.rows) != atOnce {
		t.Errorf("%d rows for 2000 projects", len(l.rows))
	}
	l.search.SetText("shelf 1999")
	if len(l.order) != 1 || l.order[0] != "p01999" {
		t.Errorf("found %q", l.order)
	}
}
