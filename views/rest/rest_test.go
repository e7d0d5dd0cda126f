package rest

import (
	"sync/atomic"
	"testing"
	"time"
)

// bed is a loop on a clock that only waits move.
type bed struct {
	loop
	at    time.Time
	waits int
	event time.Duration // after which an event ends the next wait; 0 for none
	wakes atomic.Int32
}

func newBed() *bed {
	b := &bed{at: time.Unix(1000, 0)}
	b.now = func() time.Time { return b.at }
	b.wait = func(most time.Duration) {
		b.waits++
		if b.event > 0 {
			most, b.event = min(most, b.event), 0
		}
		b.at = b.at.Add(most)
	}
	b.wake = func() { b.wakes.Add(1) }
	return b
}

// rounds lets rounds of a sixtieth of a second pass and tells how many waited.
func (b *bed) rounds(n int) int {
	before := b.waits
	for range n {
		b.at = b.at.Add(time.Second / 60)
		b.round()
	}
	return b.waits - before
}

func TestRestsWhileNothingHappens(t *testing.T) {
	b := newBed()
	if n := b.rounds(100); n != 100 {
		t.Errorf("%d of 100 rounds waited", n)
	}
}

func TestStaysAwakeAfterAnEvent(t *testing.T) {
	b := newBed()
	b.event = 10 * time.Millisecond
	b.rounds(1)
	if n := b.rounds(int(wakeful/(time.Second/60)) - 1); n != 0 {
		t.Errorf("%d rounds waited within %v of an event", n, wakeful)
	}
	if n := b.rounds(3); n == 0 {
		t.Error("it never rests again")
	}
}

func TestDrawsWhatIsHandedOver(t *testing.T) {
	b := newBed()
	b.rounds(1)
	done := false
	b.call(func() { done = true })
	if !done {
		t.Error("it was not handed over")
	}
	if n := b.rounds(rounds); n != 0 {
		t.Errorf("%d rounds waited before it was drawn", n)
	}
	if n := b.rounds(1); n != 1 {
		t.Error("it does not rest again at once")
	}
	if b.wakes.Load() != 0 {
		t.Error("a loop that does not wait was woken")
	}
}

// What is handed over during a wait ends it; what comes as it begins keeps it
// from beginning.
func TestNothingHandedOverIsSleptThrough(t *testing.T) {
	b := newBed()
	b.wait = func(time.Duration) {
		b.waits++
		b.call(func() {})
		if b.wakes.Load() != 1 {
			t.Error("the wait was not ended")
		}
	}
	b.rounds(1)
	if n := b.rounds(rounds); n != 0 {
		t.Errorf("%d rounds waited after that", n)
	}
	if b.at.Before(b.until) {
		t.Error("what was handed over counts as a touch")
	}
}
