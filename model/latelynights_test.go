package model

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// TestLatelyInTheNightsOfTheClocks: the rules for the hour that comes twice and
// for the one that is left out. Instants of the changes: tz database, Europe/Berlin
// 2026-10-25 and 2027-03-28 at 01:00 UTC, America/New_York 2026-11-01 at 06:00 UTC
// and 2027-03-14 at 07:00 UTC; Australia/Lord_Howe goes back by half an hour on
// 2027-04-03 at 15:00 UTC.
func TestLatelyInTheNightsOfTheClocks(t *testing.T) {
	for _, c := range []struct{ zone, now, text, want string }{
		{"Europe/Berlin", "2026-10-25T00:45:00Z", "02:30", "2026-10-25T00:30:00Z"}, // the first: the second is to come
		{"Europe/Berlin", "2026-10-25T01:45:00Z", "02:30", "2026-10-25T01:30:00Z"}, // the second
		{"Europe/Berlin", "2026-10-25T01:10:00Z", "02:30", "2026-10-25T00:30:00Z"},
		{"Europe/Berlin", "2026-10-25T09:00:00Z", "02:30", "2026-10-25T01:30:00Z"},
		{"Europe/Berlin", "2026-10-25T09:00:00Z", "Sun 25 Oct 02:30", "2026-10-25T00:30:00Z"}, // with its day: the first
		{"Europe/Berlin", "2026-10-26T09:00:00Z", "yesterday 02:30", "2026-10-25T01:30:00Z"},
		{"Europe/Berlin", "2026-10-25T09:00:00Z", "8 h ago", "2026-10-25T01:00:00Z"}, // hours that pass, not those of the clock
		{"Europe/Berlin", "2027-03-28T09:00:00Z", "8 h ago", "2027-03-28T01:00:00Z"},
		{"Europe/Berlin", "2027-03-28T09:00:00Z", "02:30", "clocks go forward"},
		{"Europe/Berlin", "2027-03-28T09:00:00Z", "03:30", "2027-03-28T01:30:00Z"},
		{"Europe/Berlin", "2027-03-29T09:00:00Z", "yesterday 02:30", "clocks go forward"},
		{"America/New_York", "2026-11-01T05:45:00Z", "1:30 am", "2026-11-01T05:30:00Z"},
		{"America/New_York", "2026-11-01T06:45:00Z", "1:30 am", "2026-11-01T06:30:00Z"},
		{"America/New_York", "2027-03-14T12:00:00Z", "2:30 am", "clocks go forward"},
		{"Australia/Lord_Howe", "2027-04-03T15:20:00Z", "01:45", "2027-04-03T15:15:00Z"},
	} {
		place, err := time.LoadLocation(c.zone)
		if err != nil {
			t.Skip("no time zone data on this machine")
		}
		now, err := time.Parse(time.RFC3339, c.now)
		if err != nil {
			t.Fatal(err)
		}
		switch at, err := ParseLately(c.text, place, now); {
		case err != nil:
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("%s, %s, %q: %v, want %s", c.zone, c.now, c.text, err, c.want)
			}
		case at.Format(time.RFC3339) != c.want:
			t.Errorf("%s, %s, %q: %v, want %s", c.zone, c.now, c.text, at, c.want)
		}
	}
}

// A time of day without its day is the last at which the clock showed it, in
// every zone and night, or is refused where the last day has none.
func TestLatelyIsTheLast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place, err := time.LoadLocation(rapid.SampledFrom([]string{"Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu", "UTC"}).Draw(t, "zone"))
		if err != nil {
			t.Skip("no time zone data on this machine")
		}
		changes := []int64{1792890000, 1806195600, 1793512800, 1805007600, 1806764400}
		now := time.Unix(rapid.SampledFrom(changes).Draw(t, "night")+rapid.Int64Range(-30*3600, 30*3600).Draw(t, "off"), 0)
		text := now.Add(-time.Duration(rapid.Int64Range(0, 86000).Draw(t, "ago")) * time.Second).In(place).Format(clockForm)
		at, err := ParseLately(text, place, now)
		if err != nil {
			if !strings.Contains(err.Error(), "clocks go forward") {
				t.Fatal(err)
			}
			return
		}
		if at.After(now) || at.In(place).Format(clockForm) != text {
			t.Fatalf("%q at %v is %v", text, now.In(place), at.In(place))
		}
		for later := at.Add(time.Minute); !later.After(now); later = later.Add(time.Minute) {
			if later.In(place).Format(clockForm) == text {
				t.Fatalf("%q at %v is %v, and again %v", text, now.In(place), at.In(place), later.In(place))
			}
		}
	})
}
