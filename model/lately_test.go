package model

import (
	"testing"
	"time"
)

func TestParseLately(t *testing.T) {
	lisbon, err := time.LoadLocation("Europe/Lisbon") // summer time until Sun 25 Oct 2026, the IANA database
	if err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 10, 26, 0, 40, 0, 0, lisbon)
	at := func(day, h, m int) time.Time { return time.Date(2026, 10, day, h, m, 0, 0, lisbon) }
	for _, c := range []struct {
		text string
		want time.Time // zero: refused
	}{
		{"", now}, {"now", now},
		{"0:10", at(26, 0, 10)},
		{"23:30", at(25, 23, 30)},
		{"11:30 pm", at(25, 23, 30)},
		{"at 23:30 yesterday", at(25, 23, 30)},
		{"yesterday at 0:10", at(25, 0, 10)},
		{"Yesterday, 18:00", at(25, 18, 0)},
		{"20 min ago", at(26, 0, 20)},
		{"20 min", at(26, 0, 20)},
		{"2 h 30 min ago", at(25, 22, 10)},
		{"Sat 24 Oct 18:40", at(24, 18, 40)},
		{"2026-10-24 18:40", at(24, 18, 40)},
		{"2026-10-27 18:40", time.Time{}},
		{"-20 min", time.Time{}},
		{"in a while", time.Time{}},
		{"yesterday", time.Time{}},
		{"25:10", time.Time{}},
	} {
		got, err := ParseLately(c.text, lisbon, now)
		switch {
		case c.want.IsZero():
			if err == nil {
				t.Errorf("%q: %v, want it refused", c.text, got.In(lisbon))
			}
		case err != nil || !got.Equal(c.want) || got.Location() != time.UTC:
			t.Errorf("%q: %v, %v, want %v", c.text, got.In(lisbon), err, c.want)
		}
	}
}

// FuzzParseLately holds it to giving what has happened, or an error in words.
func FuzzParseLately(f *testing.F) {
	for _, s := range []string{"", "23:30", "yesterday 23:30", "20 min ago", "Fri 27 Nov 18:40", "ago", "yesterday", "at", "0", "1e9 h ago", ","} {
		f.Add(s)
	}
	now := time.Date(2026, 3, 29, 3, 30, 0, 0, time.UTC)
	f.Fuzz(func(t *testing.T, text string) {
		at, err := ParseLately(text, time.UTC, now)
		if err == nil && at.After(now) {
			t.Errorf("%q is %v, after now", text, at)
		}
		if err != nil && err.Error() == "" {
			t.Errorf("%q is refused without words", text)
		}
	})
}
