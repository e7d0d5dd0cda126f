package model

import (
	"fmt"
	"time"
)

// TimeOfDay is a time on the shop's clock as hours and minutes, "07:30".
type TimeOfDay string

// clockForm is how a time of day is kept.
const clockForm = "15:04"

// ParseTimeOfDay reads a time of day: "7", "7:30", "07.30", "7 pm", "19:00".
func ParseTimeOfDay(text string) (TimeOfDay, error) {
	for _, layout := range []string{"15:04", "15.04", "3:04 pm", "3:04pm", "3.04 pm", "3.04pm", "3 pm", "3pm", "3:04 PM", "3:04PM", "3 PM", "3PM", "15"} {
		if t, err := time.Parse(layout, text); err == nil {
			return TimeOfDay(t.Format(clockForm)), nil
		}
	}
	return "", fmt.Errorf("“%s” is no time of day; write it like 7:30 or 19:00", clip(text))
}

// Clock gives the hours and minutes since midnight; false when not given.
func (t TimeOfDay) Clock() (since time.Duration, ok bool) {
	at, err := time.Parse(clockForm, string(t))
	if err != nil {
		return 0, false
	}
	return time.Duration(at.Hour())*time.Hour + time.Duration(at.Minute())*time.Minute, true
}

// clockText writes a time since midnight as a clock shows it.
func clockText(since time.Duration) string { return time.Time{}.Add(since).Format(clockForm) }

// whole tells whether the time is written as it is kept.
func (t TimeOfDay) whole() bool {
	at, err := time.Parse(clockForm, string(t))
	return err == nil && at.Format(clockForm) == string(t)
}
