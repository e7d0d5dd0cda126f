// Package rest lets the interface sleep while nothing happens.
//
// The toolkit looks for something to do sixty times a second, for as long as
// the program runs, which on a small machine takes more than a hundredth of a
// core. A workbench stands open for days beside a cure. So once nothing has
// been touched for a moment, each round of the toolkit's loop waits for the
// next event instead of coming back at once: a touch, a key or what is handed
// over by Post ends the wait at that instant, so nothing is slower for it.
package rest

import (
	"sync"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"github.com/go-gl/glfw/v3.3/glfw"
)

const (
	longest = time.Second     // of a wait: what the toolkit hands to itself comes no later than that
	wakeful = 3 * time.Second // no wait so soon after an event, as the toolkit may still be moving things
	rounds  = 2               // without a wait after something was handed over, so that it is done and drawn
)

// loop decides in which rounds to wait.
type loop struct {
	now  func() time.Time
	wait func(most time.Duration) // for an event
	wake func()                   // ends a wait; may be called from any goroutine

	posted atomic.Bool
	mu     sync.Mutex // held while resting changes, and while a wait is ended
	asleep bool

	busy  int       // rounds that are still to pass without a wait
	until time.Time // when waits may begin again
}

// round is called once in each round of the toolkit's loop, on its goroutine.
func (l *loop) round() {
	if l.posted.Swap(false) {
		l.busy = rounds
	}
	if l.busy > 0 {
		l.busy--
		return
	}
	start := l.now()
	if start.Before(l.until) {
		return
	}
	l.sleep(true)
	if !l.posted.Load() {
		l.wait(longest)
	}
	l.sleep(false)
	if now := l.now(); !l.posted.Load() && now.Sub(start) < longest*9/10 {
		l.until = now.Add(wakeful) // it was an event that ended the wait
	}
}

// sleep notes whether a wait is under way.
func (l *loop) sleep(on bool) {
	l.mu.Lock()
	l.asleep = on
	l.mu.Unlock()
}

// call ends a wait that is under way, and keeps the next rounds from waiting.
func (l *loop) call(post func()) {
	l.posted.Store(true)
	post()
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.asleep {
		l.wake()
	}
}

// only is the program's one loop.
var only = &loop{
	now:  time.Now,
	wait: func(most time.Duration) { glfw.WaitEventsTimeout(most.Seconds()) },
	wake: glfw.PostEmptyEvent,
}

// Begin has the interface rest from now on. It is called once, before the
// program runs or on the interface's goroutine.
func Begin() {
	a := fyne.NewAnimation(time.Hour, func(float32) { only.round() }) // which is told of every round, before it is drawn
	a.RepeatCount = fyne.AnimationRepeatForever
	a.Start()
}

// Post has the interface's goroutine do f, at once also where it rests. It may
// be called from any goroutine.
func Post(f func()) { only.call(func() { fyne.Do(f) }) }
