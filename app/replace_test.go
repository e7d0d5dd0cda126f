package app

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"
	"testing/synctest"
	"time"
)

// step is how long a piece of work goes on before it looks whether it has been
// called off.
const step = time.Millisecond

// line is a Jobs whose interface is the test's own goroutine, in a bubble of
// time.
type line struct {
	*Jobs
	posts chan func()

	mu            sync.Mutex
	began, ended  []string
	running, most int
	handed        []string
}

func newLine() *line {
	l := &line{posts: make(chan func(), 10_000)}
	l.Jobs = NewJobs(func(f func()) { l.posts <- f })
	return l
}

// rest does what is posted until nothing moves any more.
func (l *line) rest() {
	for {
		synctest.Wait()
		select {
		case f := <-l.posts:
			f()
		default:
			return
		}
	}
}

// work makes a piece of work of so many steps.
func (l *line) work(name string, steps int) func(context.Context) (string, error) {
	return func(ctx context.Context) (string, error) {
		l.mu.Lock()
		l.began = append(l.began, name)
		l.running++
		l.most = max(l.most, l.running)
		l.mu.Unlock()
		defer func() {
			l.mu.Lock()
			l.running--
			l.ended = append(l.ended, name)
			l.mu.Unlock()
		}()
		for range steps {
			time.Sleep(step)
			if ctx.Err() != nil {
				return name, ctx.Err()
			}
		}
		return name, nil
	}
}

// list reads one of the lists that work writes.
func (l *line) list(of *[]string) []string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return slices.Clone(*of)
}

func (l *line) done(name string, err error) {
	if err != nil {
		name += ": " + err.Error()
	}
	l.handed = append(l.handed, name)
}

func is(t *testing.T, what string, got []string, want ...string) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("%s: %q, want %q", what, got, want)
	}
}

// TestReplaceCallsOff: work asked for later ends what is under way within a
// step and begins then; only its own result is handed on.
func TestReplaceCallsOff(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := newLine()
		begin := time.Now()
		Replace(l.Jobs, "k", l.work("first", 1000), l.done)
		time.Sleep(10*step + step/2)
		Replace(l.Jobs, "k", l.work("second", 5), l.done)
		l.rest()
		time.Sleep(step)
		l.rest()
		is(t, "ended a step later", l.list(&l.ended), "first")
		is(t, "began", l.list(&l.began), "first", "second")
		time.Sleep(5 * step)
		l.rest()
		is(t, "handed", l.handed, "second")
		if took := time.Since(begin); took > 20*step {
			t.Errorf("it took %v", took)
		}
		l.Stop()
	})
}

// TestReplaceBurst: of a thousand requests the first begins and the last is
// done, one at a time, and none that was overtaken before it began runs.
func TestReplaceBurst(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := newLine()
		Replace(l.Jobs, "k", l.work("0", 50), l.done)
		synctest.Wait()
		for i := 1; i < 1000; i++ {
			Replace(l.Jobs, "k", l.work(fmt.Sprint(i), 50), l.done)
		}
		time.Sleep(100 * step)
		l.rest()
		is(t, "began", l.list(&l.began), "0", "999")
		is(t, "handed", l.handed, "999")
		if l.most != 1 || len(l.loose) != 0 {
			t.Errorf("%d at once, %d left", l.most, len(l.loose))
		}
		l.Stop()
	})
}

// TestFollowShowsTheWay: work under way goes on to its end and is handed on,
// and of what comes meanwhile the newest follows.
func TestFollowShowsTheWay(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := newLine()
		for i := range 5 {
			Follow(l.Jobs, "k", l.work(fmt.Sprint(i), 3), l.done)
		}
		for range 4 {
			time.Sleep(3 * step)
			l.rest()
		}
		is(t, "began", l.list(&l.began), "0", "4")
		is(t, "handed", l.handed, "0", "4")
		// A request that will not wait calls off both.
		Follow(l.Jobs, "k", l.work("5", 3), l.done)
		Follow(l.Jobs, "k", l.work("6", 3), l.done)
		Replace(l.Jobs, "k", l.work("7", 3), l.done)
		time.Sleep(20 * step)
		l.rest()
		is(t, "handed then", l.handed, "0", "4", "7")
		l.Stop()
	})
}

// TestDropHandsNothing: also a result that has been posted already is not
// handed on once its work is called off.
func TestDropHandsNothing(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := newLine()
		Replace(l.Jobs, "k", l.work("posted", 1), l.done)
		Replace(l.Jobs, "other", l.work("other", 1), l.done)
		time.Sleep(2 * step)
		synctest.Wait()
		l.Drop("k")
		l.Drop("never begun")
		l.rest()
		is(t, "handed", l.handed, "other")
		l.Stop()
	})
}

// TestReplaceHandsErrors: what work itself finds wrong is handed on.
func TestReplaceHandsErrors(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := newLine()
		Replace(l.Jobs, "k", func(context.Context) (string, error) { return "heat", errors.New("no sheet") }, l.done)
		l.rest()
		is(t, "handed", l.handed, "heat: no sheet")
		l.Stop()
	})
}

// TestFinishCallsOff: work under way and work that waits end with Finish, what
// is asked for after it does not begin, and no goroutine is left (a bubble that
// has one does not end).
func TestFinishCallsOff(t *testing.T) {
	for _, end := range []string{"finish", "stop"} {
		synctest.Test(t, func(t *testing.T) {
			l := newLine()
			Replace(l.Jobs, "a", l.work("a", 1_000_000), l.done)
			Follow(l.Jobs, "b", l.work("b", 1_000_000), l.done)
			Follow(l.Jobs, "b", l.work("behind b", 1_000_000), l.done)
			Replace(l.Jobs, "c", func(ctx context.Context) (string, error) {
				l.Split(64, func(int) { _, _ = l.work("part", 1_000_000)(ctx) })
				return "c", ctx.Err()
			}, l.done)
			time.Sleep(10*step + step/2)
			begin := time.Now()
			if end == "finish" {
				l.Finish(func() { Replace(l.Jobs, "a", l.work("late", 1), l.done) })
				if l.running != 0 {
					t.Errorf("%d still run", l.running)
				}
			}
			l.Stop()
			// Each of the parts looks once.
			if took := time.Since(begin); took > 64*step {
				t.Errorf("it took %v", took)
			}
			for len(l.posts) > 0 { // nothing is done after the end
				(<-l.posts)()
			}
			is(t, "handed", l.handed)
			if slices.Contains(l.list(&l.began), "late") || slices.Contains(l.list(&l.began), "behind b") {
				t.Errorf("began: %q", l.began)
			}
		})
	}
}

// TestSplit does every part once, two at a time and no more.
func TestSplit(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := newLine()
		for _, n := range []int{0, 1, 2, 7, 64} {
			counts := make([]int, n)
			l.most = 0
			Replace(l.Jobs, "k", func(ctx context.Context) (string, error) {
				l.Split(n, func(i int) { counts[i]++; _, _ = l.work("part", 1)(ctx) })
				return fmt.Sprint(n), nil
			}, l.done)
			time.Sleep(100 * step)
			l.rest()
			for i, c := range counts {
				if c != 1 {
					t.Errorf("%d of %d was done %d times", i, n, c)
				}
			}
			if l.most > 2 {
				t.Errorf("%d at once", l.most)
			}
		}
		is(t, "handed", l.handed, "0", "1", "2", "7", "64")
		l.Stop()
	})
}
