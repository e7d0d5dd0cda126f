package model

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"
)

// calendarMaker names what wrote a calendar file (PRODID, RFC 5545, 3.7.3).
const calendarMaker = "-//Meniscus//Workbench//EN"

// calendarForm is a date and time in UTC (RFC 5545, 3.3.5, form 2).
const calendarForm = "20060102T150405Z"

// errNoDates is why there is no calendar file: one without an event is not
// allowed (RFC 5545, 3.6).
var errNoDates = errors.New("nothing has a date yet: start a pour, or plan a time for one")

// Calendar writes steps as an iCalendar file (RFC 5545), for a machine that
// rings where this one cannot. Each step that has an instant is an event in
// UTC, to the second, with alarms where it is still to come; one that a later
// pour has overtaken before it came is told as called off. The event of a step
// keeps its UID, which project (its ID), layer and kind make, so that a file
// saved anew takes the place of the one before. name goes before each step's
// label. It is an error when no step has an instant.
func Calendar(steps []Step, project, name string, now time.Time) ([]byte, error) {
	return Calendars([]Dated{{project, name, steps}}, now)
}

// Dated is a piece with steps for a calendar file.
type Dated struct {
	Project string // its ID
	Name    string
	Steps   []Step
}

// Calendars writes the steps of several pieces as one iCalendar file, each as
// Calendar would: an event has the same UID in either file. It is an error when
// no step of any has an instant.
func Calendars(pieces []Dated, now time.Time) ([]byte, error) {
	var f calendarFile
	f.line("BEGIN", "VCALENDAR")
	f.line("VERSION", "2.0")
	f.line("PRODID", calendarMaker)
	f.line("CALSCALE", "GREGORIAN")
	events := 0
	for _, p := range pieces {
		for _, s := range p.Steps {
			due := s.Due.UTC().Round(time.Second)
			if s.Due.IsZero() || due.Year() < 1 || due.Year() > 9999 { // what the form can write
				continue
			}
			events++
			f.event(s, due, p.Project, p.Name, now.UTC())
		}
	}
	if events == 0 {
		return nil, errNoDates
	}
	f.line("END", "VCALENDAR")
	return f.out.Bytes(), nil
}

// calendarFile is a calendar file as it is written.
type calendarFile struct{ out bytes.Buffer }

// event writes a step that is due at an instant, with its alarms.
func (f *calendarFile) event(s Step, due time.Time, project, name string, now time.Time) {
	title := strings.Join(strings.Fields(name), " ")
	if title != "" {
		title += ": "
	}
	title = calendarText(title + s.Label)
	ahead := due.After(now)
	f.line("BEGIN", "VEVENT")
	f.line("UID", calendarID(project, s))
	f.line("DTSTAMP", now.Format(calendarForm))
	f.line("DTSTART", due.Format(calendarForm))
	f.line("SUMMARY", title)
	f.line("DESCRIPTION", calendarText(calendarWords(s, now)))
	f.line("TRANSP", "TRANSPARENT") // it does not make the maker busy (3.8.2.7)
	if s.Past && ahead && s.Kind != StepPour {
		f.line("STATUS", "CANCELLED")
	}
	if ahead && !s.Past {
		if before := calendarNotice[s.Kind]; before > 0 && due.Add(-before).After(now) {
			f.alarm(fmt.Sprintf("-PT%dM", int(before.Minutes())), title)
		}
		f.alarm("PT0S", title)
	}
	f.line("END", "VEVENT")
}

// alarm writes an alarm so long after the event that it is written into.
func (f *calendarFile) alarm(trigger, title string) {
	f.line("BEGIN", "VALARM")
	f.line("ACTION", "DISPLAY")
	f.line("TRIGGER", trigger)
	f.line("DESCRIPTION", title)
	f.line("END", "VALARM")
}

// calendarNotice is how long before a step a first alarm comes, for those after
// which it is too late. Common practice, no source.
var calendarNotice = map[StepKind]time.Duration{
	StepPour:      30 * time.Minute,
	StepWorkEnds:  10 * time.Minute,
	StepRecoatEnd: time.Hour,
}

// calendarAdvice is what a step means for the hands.
var calendarAdvice = map[StepKind]string{
	StepPour:      "Every later date counts from the moment this pour is started: save the dates anew then.",
	StepWorkEnds:  "What is still in the cup can no longer be poured.",
	StepRecoat:    "Touch it with a glove. Sticky like tape, and nothing stays on the glove: pour the next layer.",
	StepRecoatEnd: "From now on it has to be sanded before the next pour.",
	StepDemold:    TryFirst,
	StepCured:     "As hard as it gets in this room.",
}

// calendarWords says what a step means, what it rests on, and of when it is.
func calendarWords(s Step, now time.Time) string {
	var words []string
	if advice := calendarAdvice[s.Kind]; advice != "" && !s.Past {
		words = append(words, advice)
	}
	if s.Typical {
		words = append(words, "Rests on a typical value, as the data sheet does not say.")
	}
	words = append(words, "Worked out "+now.Format("Mon 2 Jan 2006, 15:04 MST")+". It moves when the room or a pour does.")
	return strings.Join(words, "\n")
}

// calendarID gives the UID of a step's event: a UUID of version 8 (RFC 9562,
// 5.8) from a hash, as RFC 7986, 5.3, advises, so that it tells no one anything.
func calendarID(project string, s Step) string {
	h := sha256.Sum256([]byte(fmt.Sprintf("%q %q %q", project, s.Layer, s.Kind)))
	h[6] = h[6]&0x0f | 0x80
	h[8] = h[8]&0x3f | 0x80
	return fmt.Sprintf("%x-%x-%x-%x-%x", h[0:4], h[4:6], h[6:8], h[8:10], h[10:16])
}

// calendarBreaks makes every way to break a line the one that a text value
// has, and escapes what has a meaning there (RFC 5545, 3.3.11).
var calendarBreaks = strings.NewReplacer(
	`\`, `\\`, ";", `\;`, ",", `\,`,
	"\r\n", `\n`, "\n", `\n`, "\r", `\n`, "\u0085", `\n`, "\u2028", `\n`, "\u2029", `\n`)

// calendarText writes words as a text value. Controls, which it cannot hold,
// are left out, and what is not UTF-8 is replaced.
func calendarText(words string) string {
	text := calendarBreaks.Replace(strings.ToValidUTF8(words, "\ufffd"))
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' || r == 0x7f {
			return -1
		}
		return r
	}, text)
}

// calendarWidth is how many octets a line may have without its break (RFC 5545,
// 3.1).
const calendarWidth = 75

// line writes a property, folded between two characters where it is long.
func (f *calendarFile) line(name, value string) {
	text, room := name+":"+value, calendarWidth
	for len(text) > room {
		cut := room
		for !utf8.RuneStart(text[cut]) {
			cut--
		}
		f.out.WriteString(text[:cut] + "\r\n ")
		text, room = text[cut:], calendarWidth-1 // the space counts
	}
	f.out.WriteString(text + "\r\n")
}
