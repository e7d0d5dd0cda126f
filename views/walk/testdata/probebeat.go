package main

import (
	"context"
	"encoding/json"
	"runtime"
	"strconv"
	"sync"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
)

// The beat tells how late the interface's goroutine comes to what is asked of
// it, and how long lies between the rounds in which it draws.

// beats is what a beat has measured, in microseconds.
type beats struct {
	Late   []int64 // from when something was asked until it was done
	Frames []int64 // between one round of drawing and the next
	Bands  int     // how many bands of the load were worked out meanwhile
}

// beat asks something small of the interface every 10 ms for so many
// milliseconds, once it has done what was asked before, and gives the beats.
func beat(milliseconds string) string {
	const every = 10 * time.Millisecond
	ms, _ := strconv.Atoi(milliseconds)
	var b beats
	var last time.Time
	frames := fyne.NewAnimation(time.Hour, func(float32) { // is told of every round just before it is drawn
		now := time.Now()
		if !last.IsZero() {
			b.Frames = append(b.Frames, now.Sub(last).Microseconds())
		}
		last = now
	})
	onScreen(frames.Start)
	before := loaded.bands()
	ticker := time.NewTicker(every)
	for end := time.Now().Add(time.Duration(ms) * time.Millisecond); time.Now().Before(end); {
		<-ticker.C
		start := time.Now()
		onScreen(func() { b.Late = append(b.Late, time.Since(start).Microseconds()) })
	}
	ticker.Stop()
	onScreen(frames.Stop)
	b.Bands = loaded.bands() - before
	line, _ := json.Marshal(b)
	return string(line)
}

// procs lets so many goroutines run at once, and tells how many it was before.
func procs(n string) string {
	want, _ := strconv.Atoi(n)
	return strconv.Itoa(runtime.GOMAXPROCS(want))
}

// loaded is the load under way.
var loaded burden

// burden is bands that are worked out one after the other behind the program's
// back, as it would its own.
type burden struct {
	mu     sync.Mutex
	count  int
	cancel context.CancelFunc
	ended  chan struct{}
}

func (b *burden) bands() int {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.count
}

// load works out the bands of the demo job of that number again and again, or
// ends it for "-".
func load(demo string) string {
	if loaded.cancel != nil {
		loaded.cancel()
		<-loaded.ended
		loaded.cancel = nil
	}
	if demo == "-" {
		return "ended"
	}
	list, err := examples()
	if err != nil {
		return err.Error()
	}
	n, _ := strconv.Atoi(demo)
	p, err := model.Import(list[n].File)
	if err != nil {
		return err.Error()
	}
	plan := model.Make(p)
	ctx, cancel := context.WithCancel(context.Background())
	loaded.cancel, loaded.ended = cancel, make(chan struct{})
	go func() {
		defer close(loaded.ended)
		jobs := app.NewJobs(func(func()) {})
		defer jobs.Stop()
		for ctx.Err() == nil {
			if _, err := model.Widen(ctx, &p, &plan, jobs.Split); err == nil {
				loaded.mu.Lock()
				loaded.count++
				loaded.mu.Unlock()
			}
		}
	}()
	return "started"
}
