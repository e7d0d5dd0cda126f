package model

import (
	"context"
	"reflect"
	"sync"
	"testing"
)

// TestSideBySide plans, simulates and asks of one and the same project on several
// goroutines at once, as the session does, bands split over two. Nothing in this
// package and those below it starts a goroutine by itself: this test is what the
// race detector has to look at here, and each of them must come to the same.
func TestSideBySide(t *testing.T) {
	p := demo(t, "poppy-stand")
	q, _ := framed()
	ways := map[string]func() any{
		"plan":  func() any { return Make(p) },
		"slabs": func() any { return Make(q) },
		"cure": func() any {
			pl := Make(p)
			c, err := Simulate(context.Background(), &p, &pl)
			return []any{c, err}
		},
		"bands": func() any {
			pl := Make(p)
			c, err := Widen(context.Background(), &p, &pl, inTwo)
			return []any{c, err}
		},
		"levels": func() any {
			pl := Make(p)
			s, err := ProposeStages(context.Background(), &p, &pl, StageLimits{})
			return []any{s, err}
		},
		"spread": func() any { return MonteCarlo(p, 1, 500) },
		"words": func() any {
			data, err := Export(p)
			return []any{string(data), err}
		},
	}
	var all sync.WaitGroup
	for what, way := range ways {
		got := make([]any, 2)
		var both sync.WaitGroup
		for i := range got {
			both.Go(func() { got[i] = way() })
		}
		all.Go(func() {
			both.Wait()
			if !reflect.DeepEqual(got[0], got[1]) {
				t.Errorf("%s: two at once come to different ends", what)
			}
		})
	}
	all.Wait()
}

// inTwo does the parts on two goroutines.
func inTwo(n int, do func(int)) {
	var both sync.WaitGroup
	for half := range 2 {
		both.Go(func() {
			for i := half; i < n; i += 2 {
				do(i)
			}
		})
	}
	both.Wait()
}
