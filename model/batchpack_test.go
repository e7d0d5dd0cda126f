package model

import (
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// handsApart checks that one maker's hands are never in two places and that
// cups are poured in turn.
func handsApart(t *rapid.T, batches []Batch) {
	type stretch struct{ from, to unit.Span }
	var busy []stretch
	for i := range batches {
		b := &batches[i]
		if i == 0 && b.Start != 0 || i > 0 && b.PourEnds()-b.Pour < batches[i-1].PourEnds()-1e-6 {
			t.Fatalf("cup %d out of turn: %+v", i+1, batches)
		}
		busy = append(busy, stretch{b.Start, b.Start + b.Mix}, stretch{b.PourEnds() - b.Pour, b.PourEnds()})
	}
	for i, a := range busy {
		for _, b := range busy[:i] {
			if a.from < b.to-1e-6 && b.from < a.to-1e-6 {
				t.Fatalf("hands are at %v and at %v: %+v", a, b, batches)
			}
		}
	}
}

func TestHandsAreNeverInTwoPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		batches := make([]Batch, rapid.IntRange(1, 8).Draw(t, "cups"))
		span := func(most int, name string) unit.Span {
			return unit.Minute.Times(float64(rapid.IntRange(0, most).Draw(t, name)))
		}
		rest := span(40, "rest")
		var all unit.Span
		for i := range batches {
			batches[i].Mix, batches[i].Pour, batches[i].Rest = unit.Minute+span(6, "mix"), unit.Minute+span(20, "pour"), rest
			all += batches[i].Mix + batches[i].Rest + batches[i].Pour
		}
		stagger(batches)
		handsApart(t, batches)
		if end := batches[len(batches)-1].PourEnds(); end > all {
			t.Fatalf("it takes %v, one after the other %v", end, all)
		}
	})
	// While one rests for 10 min, two others are mixed in 4 each.
	batches := make([]Batch, 3)
	for i := range batches {
		batches[i] = Batch{Mix: 4 * unit.Minute, Rest: 10 * unit.Minute, Pour: 3 * unit.Minute}
	}
	stagger(batches)
	if batches[1].Start != 4*unit.Minute || batches[2].Start != 8*unit.Minute {
		t.Errorf("they start at %v and %v", batches[1].Start, batches[2].Start)
	}
}

// bruteCups tries every order of the cavities and every way to cut them up
// among cups, and gives the least number of cups: 0 where there is none.
func bruteCups(b *batching) int {
	best := 0
	var pour func(done []bool, cavity int, left, n int64, k, cups int)
	pour = func(done []bool, cavity int, left, n int64, k, cups int) {
		if cups > mostBatches || best > 0 && cups >= best {
			return
		}
		if left == 0 {
			last := true
			for c := range done {
				if done[c] || b.need[c] == 0 {
					continue
				}
				last = false
				done[c] = true
				pour(done, c, b.need[c], n, k, cups)
				done[c] = false
			}
			if last {
				best = cups
			}
			return
		}
		for x := int64(1); x <= left; x++ {
			if cups > 0 && b.fits(n+x, k+1) {
				pour(done, cavity, left-x, n+x, k+1, cups)
			}
			if b.fits(x, 1) {
				pour(done, cavity, left-x, x, 1, cups+1)
			}
		}
	}
	pour(make([]bool, len(b.need)), 0, 0, 0, 0, 0)
	return best
}

// randomBatching is a small sharing: a few steps of 100 g into up to three
// cavities, with a working time that falls with the mass.
func randomBatching(t *rapid.T) *batching {
	b := &batching{step: 100 * unit.Gram, rest: unit.Minute.Times(float64(rapid.IntRange(0, 3).Draw(t, "rest"))), cold: rapid.Bool().Draw(t, "cold")}
	for range rapid.IntRange(1, 3).Draw(t, "cavities") {
		n := int64(rapid.IntRange(0, 4).Draw(t, "need"))
		b.need, b.total = append(b.need, n), b.total+n
	}
	if b.total == 0 {
		b.need[0], b.total = 1, 1
	}
	b.cup = int64(rapid.IntRange(0, int(b.total)).Draw(t, "cup"))
	from, falls := unit.Minute.Times(rapid.Float64Range(8, 50).Draw(t, "working")), unit.Minute.Times(rapid.Float64Range(0, 3).Draw(t, "falls"))
	b.working = func(n int64) unit.Span { return max(from-falls.Times(float64(n)), 0) }
	return b
}

func TestFewestByBruteForce(t *testing.T) {
	possible := 0
	check := func(t *rapid.T) {
		b := randomBatching(t)
		loads, ok := b.pack()
		want := bruteCups(b)
		if ok != (want > 0) || len(loads) != want {
			t.Fatalf("%d cups, by brute force %d: %+v", len(loads), want, b)
		}
		got := make([]int64, len(b.need))
		whole := true
		for _, l := range loads {
			n := int64(0)
			for _, in := range l.into {
				got[in.cavity] += in.n
				n += in.n
				whole = whole && in.n == b.need[in.cavity]
			}
			if n != l.n || !b.fits(l.n, len(l.into)) {
				t.Fatalf("%+v does not fit: %+v", l, b)
			}
		}
		for c := range got {
			if ok && got[c] != b.need[c] {
				t.Fatalf("cavity %d gets %d of %d", c, got[c], b.need[c])
			}
		}
		if ok {
			possible++
		}
	}
	for range 5 { // until there were enough, however few cases are drawn at a time
		if possible < 20 {
			rapid.Check(t, check)
		}
	}
	if possible < 20 {
		t.Errorf("only %d could be done", possible)
	}
}

// By hand: cavities of 400, 400, 200 and 200 g from cups of 600 g. In the order
// in which they lie the second is cut in two; in another none is.
func TestCavitiesStayWhole(t *testing.T) {
	b := &batching{step: 100 * unit.Gram, total: 12, need: []int64{4, 4, 2, 2}, cup: 6, working: func(int64) unit.Span { return unit.Hour }}
	loads, ok := b.pack()
	if !ok || len(loads) != 2 {
		t.Fatalf("%+v", loads)
	}
	for _, l := range loads {
		if l.n != 6 || len(l.into) != 2 {
			t.Errorf("%+v", loads)
		}
	}
	// Cups that hold more than they need are made alike.
	b.need, b.cup = []int64{12}, 10
	if loads, _ = b.pack(); len(loads) != 2 || loads[0].n != 6 {
		t.Errorf("not alike: %+v", loads)
	}
}
