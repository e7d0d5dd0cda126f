package app

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
)

// loose is work that may be called off: what Replace and Follow do.
type loose struct {
	cancel context.CancelFunc
	next   func() // what Follow left waiting behind it
}

// Replace does work in the background and hands what comes of it to done. Work
// asked for later under the same key calls off what is under way at once, so
// that nothing comes of it, and begins as soon as that has returned: no more
// than one piece is ever under way. work must return soon once its context is
// done. The keys are apart from those of Newest.
func Replace[T any](j *Jobs, key string, work func(context.Context) (T, error), done func(T, error)) {
	j.Drop(key)
	begin(j, key, work, done)
}

// Follow is Replace for requests that come as fast as a finger moves: what is
// under way goes on to its end and is handed to its done, so that there is
// something to see, and of what comes meanwhile only the newest is kept.
func Follow[T any](j *Jobs, key string, work func(context.Context) (T, error), done func(T, error)) {
	if under := j.loose[key]; under != nil {
		under.next = func() { begin(j, key, work, done) }
		return
	}
	begin(j, key, work, done)
}

// Drop calls off the work of Replace and Follow under a key and what waits
// behind it; nothing of it is handed to anyone.
func (j *Jobs) Drop(key string) {
	if old := j.loose[key]; old != nil {
		old.cancel()
		delete(j.loose, key)
	}
}

// begin starts work under a key that has none, behind what was called off and
// has not returned yet.
func begin[T any](j *Jobs, key string, work func(context.Context) (T, error), done func(T, error)) {
	ctx, cancel := context.WithCancel(j.letGo)
	me, before, ended := &loose{cancel: cancel}, j.ended[key], make(chan struct{})
	j.loose[key], j.ended[key] = me, ended
	j.group.Add(1)
	j.looseGroup.Add(1)
	go func() {
		defer j.group.Done()
		defer j.looseGroup.Done()
		defer close(ended)
		defer cancel()
		if before != nil {
			<-before
		}
		if ctx.Err() != nil {
			return
		}
		result, err := work(ctx)
		if ctx.Err() != nil {
			return
		}
		j.hand(func() {
			if j.loose[key] != me {
				return // called off since
			}
			delete(j.loose, key)
			if me.next != nil {
				me.next()
			}
			done(result, err)
		})
	}()
}

// Split does f(0) to f(n-1), two at a time where there are two cores, and
// returns when all are done. It is called by work in the background, which it
// shares out.
func (j *Jobs) Split(n int, f func(i int)) {
	var next atomic.Int64
	run := func() {
		for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
			f(i)
		}
	}
	var second sync.WaitGroup
	if n > 1 && runtime.NumCPU() > 1 {
		second.Add(1)
		j.group.Add(1)
		go func() {
			defer j.group.Done()
			defer second.Done()
			run()
		}()
	}
	run()
	second.Wait()
}
