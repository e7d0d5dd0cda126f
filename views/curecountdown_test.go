package views

import (
	"testing"
	"time"
)

func TestCountdown(t *testing.T) {
	const day = 24 * time.Hour
	for _, c := range []struct {
		left time.Duration
		want string
	}{
		{-time.Hour, "0:00"},
		{0, "0:00"},
		{time.Nanosecond, "0:01"},
		{time.Second, "0:01"},
		{59 * time.Second, "0:59"},
		{time.Minute, "1:00"},
		{10*time.Minute - time.Second, "9:59"},
		{10*time.Minute - time.Nanosecond, "10 min"},
		{10*time.Minute + 59*time.Second, "10 min"},
		{time.Hour - time.Second, "59 min"},
		{time.Hour, "1 h 0 min"},
		{2*time.Hour + 5*time.Minute + 9*time.Second, "2 h 5 min"},
		{day - time.Second, "23 h 59 min"},
		{day - time.Nanosecond, "1 day 0 h"},
		{day, "1 day 0 h"},
		{47*time.Hour + 59*time.Minute, "1 day 23 h"},
		{2 * day, "2 days 0 h"},
		{3*day + 14*time.Hour + 59*time.Minute, "3 days 14 h"},
		{365 * day, "365 days 0 h"},
	} {
		if got := countdown(c.left); got != c.want {
			t.Errorf("countdown(%v) = %q, want %q", c.left, got, c.want)
		}
	}
}

// TestCountdownsHaveAUnit: also in the last ten minutes, where no word stands
// beside the digits.
func TestCountdownsHaveAUnit(t *testing.T) {
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	for left, want := range map[time.Duration]string{0: "0:00 min", 164 * time.Second: "2:44 min", 50 * time.Minute: "50 min", 2 * time.Hour: "2 h 0 min"} {
		if got := untilWords(now.Add(left), now); got != want {
			t.Errorf("%v: %q, want %q", left, got, want)
		}
	}
}

// Whatever the seconds of the instants, a countdown of minutes turns over with the
// minute of the clock, is never a minute off, and goes over into seconds at ten.
func TestCountdownsTurnOverTogether(t *testing.T) {
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	for _, seconds := range []int{0, 7, 31, 59} {
		due := now.Add(2*time.Hour + time.Duration(seconds)*time.Second)
		was := until(due, now)
		for at := now; at.Before(due); at = at.Add(time.Second) {
			is, left := until(due, at), due.Sub(at)
			switch {
			case left < inSeconds:
				if is != countdown(left) {
					t.Fatalf("%v left: %q", left, is)
				}
			case is != was && at.Second() != 0:
				t.Fatalf("%v left, at %v: %q after %q", left, at, is, was)
			case is != countdown(left) && is != countdown(left+time.Minute):
				t.Fatalf("%v left: %q", left, is)
			}
			was = is
		}
	}
}

// The night of 25 to 26 October 2025 in London has 01:30 twice, an hour apart.
func TestShopClockNamesBothHalfPastOnes(t *testing.T) {
	var c shopClock
	c.set("Europe/London")
	if c.place == time.Local {
		t.Skip("this machine has no time zone data")
	}
	first := time.Date(2025, 10, 26, 0, 30, 0, 0, time.UTC)
	second := first.Add(time.Hour)
	if got := c.full(first); got != "Sunday 26 October 2025, 01:30 BST" {
		t.Error(got)
	}
	if got := c.full(second); got != "Sunday 26 October 2025, 01:30 GMT" {
		t.Error(got)
	}
	// From 15:30 summer time to 07:40 winter time it is 17 h 10 min, not 16 h 10.
	start := time.Date(2025, 10, 25, 15, 30, 0, 0, c.place)
	end := time.Date(2025, 10, 26, 7, 40, 0, 0, c.place)
	if got := countdown(end.Sub(start)); got != "17 h 10 min" {
		t.Error(got)
	}
}

func TestShopClockFallsBackToTheMachine(t *testing.T) {
	var c shopClock
	c.set("Nowhere/At all")
	at := time.Date(2025, 10, 26, 0, 30, 0, 0, time.UTC)
	if got, want := c.short(at), at.Local().Format("Mon 15:04"); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
