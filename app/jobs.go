package app

import (
	"context"
	"sync"
	"time"
)

// Jobs owns all goroutines of a session; in the program only the one that waits
// for the system's signal to end (main.go) is another's. Results are handed back to the
// interface's goroutine through post.
type Jobs struct {
	post   func(func())
	turn   sync.Mutex // held while something handed back is done
	ending bool       // only Finish does what is handed back
	ctx    context.Context
	cancel context.CancelFunc
	group  sync.WaitGroup
	latest map[string]*latest // touched on the interface's goroutine only

	loose      map[string]*loose        // by key, see Replace; touched on the interface's goroutine only
	ended      map[string]chan struct{} // closed when the last work under a key has returned; likewise
	looseGroup sync.WaitGroup
	letGo      context.Context // of all that may be called off
	callOff    context.CancelFunc

	mu    sync.Mutex
	queue []func()
	back  []func() // handed to the interface's goroutine, which has not taken it yet
	wake  chan struct{}
}

// latest is the work under one key: at most one piece under way and one that
// waits for it.
type latest struct{ next func() }

// NewJobs starts the worker that does work in order. post hands a function to
// the interface's goroutine.
func NewJobs(post func(func())) *Jobs {
	j := &Jobs{post: post, latest: map[string]*latest{}, loose: map[string]*loose{}, ended: map[string]chan struct{}{}, wake: make(chan struct{}, 1)}
	j.ctx, j.cancel = context.WithCancel(context.Background())
	j.letGo, j.callOff = context.WithCancel(j.ctx)
	j.group.Add(1)
	go j.work()
	return j
}

// Newest does work in the background and hands its result to done. While work
// under the same key is under way only the newest of what comes after it is
// kept, so a burst of requests costs no more than two pieces of work.
func Newest[T any](j *Jobs, key string, work func() T, done func(T)) {
	run := func() {
		j.group.Add(1)
		go func() {
			defer j.group.Done()
			result := work()
			j.hand(func() {
				done(result)
				mine := j.latest[key]
				if mine.next == nil {
					delete(j.latest, key)
					return
				}
				next := mine.next
				mine.next = nil
				next()
			})
		}()
	}
	if under := j.latest[key]; under != nil {
		under.next = run
		return
	}
	j.latest[key] = &latest{}
	run()
}

// hand has the interface's goroutine do f. It is noted here too, since an
// interface that has ended drops what was posted to it, or does it on the
// goroutine that posts; Finish then finds it.
func (j *Jobs) hand(f func()) {
	j.mu.Lock()
	j.back = append(j.back, f)
	j.mu.Unlock()
	j.post(func() {
		j.turn.Lock()
		defer j.turn.Unlock()
		if !j.ending {
			j.take()
		}
	})
}

// take does the oldest of what was handed back; false when there is nothing.
func (j *Jobs) take() bool {
	j.mu.Lock()
	if len(j.back) == 0 {
		j.mu.Unlock()
		return false
	}
	f := j.back[0]
	j.back = j.back[1:]
	j.mu.Unlock()
	f()
	return true
}

// Finish does last, and then everything that is queued in order and all that
// comes of it, on the goroutine that calls it, which is the interface's from
// now on. What Replace and Follow do is called off first and not taken up
// again. It does nothing after Stop.
func (j *Jobs) Finish(last func()) {
	if j.ctx.Err() != nil {
		return
	}
	j.turn.Lock()
	j.ending = true
	j.turn.Unlock()
	j.callOff()
	j.looseGroup.Wait()
	last()
	for {
		idle := make(chan struct{})
		j.InOrder(func() { close(idle) })
		<-idle
		if !j.take() {
			return
		}
		for j.take() {
		}
	}
}

// InOrder does work in the background, one after the other in the order given.
// Stop lets all of it finish.
func (j *Jobs) InOrder(work func()) {
	j.mu.Lock()
	j.queue = append(j.queue, work)
	j.mu.Unlock()
	select {
	case j.wake <- struct{}{}:
	default:
	}
}

// work does what is queued until Stop, and then what is left.
func (j *Jobs) work() {
	defer j.group.Done()
	for {
		j.mu.Lock()
		var next func()
		if len(j.queue) > 0 {
			next, j.queue = j.queue[0], j.queue[1:]
		}
		j.mu.Unlock()
		if next != nil {
			next()
			continue
		}
		select {
		case <-j.wake:
		case <-j.ctx.Done():
			j.mu.Lock()
			empty := len(j.queue) == 0
			j.mu.Unlock()
			if empty {
				return
			}
		}
	}
}

// Every calls f on the interface's goroutine at each interval until Stop. A
// call that the interface has not taken yet is not posted twice.
func (j *Jobs) Every(interval time.Duration, f func()) {
	j.group.Add(1)
	go func() {
		defer j.group.Done()
		ticker := time.NewTicker(interval)
		defer ticker.Stop()
		free := make(chan struct{}, 1)
		free <- struct{}{}
		for {
			select {
			case <-j.ctx.Done():
				return
			case <-ticker.C:
				select {
				case <-free:
					j.hand(func() { f(); free <- struct{}{} })
				default:
				}
			}
		}
	}()
}

// After calls f on the interface's goroutine once so much time has passed, but
// not after Stop.
func (j *Jobs) After(wait time.Duration, f func()) {
	j.group.Add(1)
	go func() {
		defer j.group.Done()
		select {
		case <-j.ctx.Done():
		case <-time.After(wait):
			j.hand(f)
		}
	}()
}

// Stop ends what comes at intervals and after a time, calls off what Replace
// and Follow do, finishes what is queued in order and what else is under way,
// and returns when no goroutine is left. What comes of it is not done any more.
func (j *Jobs) Stop() {
	j.cancel()
	j.group.Wait()
}
