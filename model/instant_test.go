package model

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestParseInstant(t *testing.T) {
	lisbon, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		t.Skip("no time zone data on this machine")
	}
	since := time.Date(2026, 11, 25, 23, 30, 0, 0, time.UTC) // a Wednesday, by the calendar
	for text, want := range map[string]string{
		"Fri 27 Nov 18:40":               "2026-11-27T18:40:00Z",
		"fri 27 nov, 18:40":              "2026-11-27T18:40:00Z",
		"27 Nov 18:40":                   "2026-11-27T18:40:00Z",
		"27 November 2026, 6:40 pm":      "2026-11-27T18:40:00Z",
		"Friday 27th November at 6:40pm": "2026-11-27T18:40:00Z",
		"Nov 27 18.40":                   "2026-11-27T18:40:00Z",
		"2026-11-27 18:40":               "2026-11-27T18:40:00Z",
		"2026-11-27T18:40":               "2026-11-27T18:40:00Z",
		"Wed 25 Nov 7:00":                "2026-11-25T07:00:00Z", // earlier that day is that day
		"24 Nov 7:00":                    "2027-11-24T07:00:00Z", // the next one
		"Fri 8 Jan 7 am":                 "2027-01-08T07:00:00Z",
		"Sat 8 Jan 7 am":                 "2028-01-08T07:00:00Z",
		"29 Feb 7:00":                    "2028-02-29T07:00:00Z",
		"1 Aug 2026 12:00":               "2026-08-01T11:00:00Z", // summer time
		"25 Oct 2026 01:30":              "2026-10-25T00:30:00Z", // comes twice: the first
		"25 Oct 2026 02:30":              "2026-10-25T02:30:00Z",
	} {
		got, err := ParseInstant(text, lisbon, since)
		if err != nil || got.Format(time.RFC3339) != want || got.Location() != time.UTC {
			t.Errorf("%q is %v, %v; want %s", text, got, err, want)
		}
	}
	for text, says := range map[string]string{
		"":                       "write it like",
		"tomorrow 18:40":         "write it like",
		"27.11.2026 18:40":       "write it like",
		"11/27/2026 18:40":       "write it like",
		"27 Nov":                 "time of day",
		"2026-11-27":             "time of day",
		"27 Nov half past six":   "time of day",
		"27 Nov half past 6 pm":  "7:30",
		"Thu 27 Nov 20":          "time of day", // of 2026 18:40
		"27 Nov 24:10":           "7:30",
		"Thu 27 Nov 2026 18:40":  "27 November 2026 is a Friday",
		"31 Nov 2026 18:40":      "there is no 31 November in 2026",
		"31 Nov 18:40":           "there is no 31 November",
		"29 Feb 2027 18:40":      "there is no 29 February in 2027",
		"45 Nov 18:40":           "no day 45",
		"27 Nov 1840":            "time of day",
		"27 Nov 1840 18:40":      "1970",
		"29 Mar 2026 01:30":      "clocks go forward",
		"2026-11-27 18:40 18:40": "7:30",
	} {
		if got, err := ParseInstant(text, lisbon, since); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q is %v, %v; want it refused with %q", text, got, err, says)
		}
	}
	if _, err := ParseInstant("27 Nov 18:40", lisbon, time.Time{}); err == nil || !strings.Contains(err.Error(), "year") {
		t.Errorf("without any year: %v", err)
	}
}

// What is shown of an instant is read as the same instant, in any zone, but for
// the hour that comes twice.
func TestInstantReadsBack(t *testing.T) {
	zones := []string{"UTC", "Europe/London", "America/New_York", "Asia/Kathmandu", "Australia/Lord_Howe", "Pacific/Apia"}
	rapid.Check(t, func(t *rapid.T) {
		p := Blank("b", "b")
		p.Shop.Zone = rapid.SampledFrom(zones).Draw(t, "zone")
		place := p.Shop.Place()
		at := time.Unix(60*rapid.Int64Range(1e6, 12e7).Draw(t, "minute"), 0).UTC()
		p.Shop.Planned = at
		text, echo := Show(&p, "shop/planned")
		if err := Enter(&p, "shop/planned", text); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		back := p.Shop.Planned
		if again, _ := Show(&p, "shop/planned"); again != text || echo == "" || back.Location() != time.UTC {
			t.Fatalf("%q is shown again as %q", text, again)
		}
		if !back.Equal(at) && (back.After(at) || at.Sub(back) > time.Hour) {
			t.Fatalf("%v is shown as %q in %v, which is %v", at, text, place, back)
		}
	})
}
