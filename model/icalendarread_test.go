package model

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

// calendarPart is a component of a calendar file as a strict reader finds it.
type calendarPart struct {
	name  string
	props []calendarProp
	parts []*calendarPart
}

// calendarProp is one property, its value as it stands there.
type calendarProp struct{ name, params, value string }

// one gives the value of a property that may come once; "" where it is not
// there.
func (c *calendarPart) one(name string) string {
	for _, p := range c.props {
		if p.name == name {
			return p.value
		}
	}
	return ""
}

func (c *calendarPart) count(name string) int {
	n := 0
	for _, p := range c.props {
		if p.name == name {
			n++
		}
	}
	return n
}

// The grammar of a content line (RFC 5545, 3.1): a name, parameters whose
// values are quoted or hold no ; : , or quote, and a value without controls.
var (
	contentLine  = regexp.MustCompile(`^([A-Za-z0-9-]+)((?:;[A-Za-z0-9-]+=(?:"[^"\x00-\x08\x0a-\x1f\x7f]*"|[^";:,\x00-\x08\x0a-\x1f\x7f]*)(?:,(?:"[^"\x00-\x08\x0a-\x1f\x7f]*"|[^";:,\x00-\x08\x0a-\x1f\x7f]*))*)*):([^\x00-\x08\x0a-\x1f\x7f]*)$`)
	durationForm = regexp.MustCompile(`^[+-]?P(\d+W|\d+D(T(\d+H(\d+M(\d+S)?)?|\d+M(\d+S)?|\d+S))?|T(\d+H(\d+M(\d+S)?)?|\d+M(\d+S)?|\d+S))$`) // 3.3.6
	textForm     = regexp.MustCompile(`^(?:[^\\;,]|\\[\\;,nN])*$`)                                                                           // 3.3.11
)

// readCalendar reads a calendar file and holds it to the rules of RFC 5545.
func readCalendar(data string) (*calendarPart, error) {
	if !utf8.ValidString(data) || !strings.HasSuffix(data, "\r\n") {
		return nil, fmt.Errorf("it is not UTF-8, or does not end with a line's end")
	}
	lines := strings.Split(strings.TrimSuffix(data, "\r\n"), "\r\n")
	for i, l := range lines {
		switch {
		case strings.ContainsAny(l, "\r\n"):
			return nil, fmt.Errorf("line %d: a break that is not CR LF (3.1)", i+1)
		case len(l) > 75:
			return nil, fmt.Errorf("line %d: %d octets (3.1)", i+1, len(l))
		case !utf8.ValidString(l):
			return nil, fmt.Errorf("line %d: folded within a character (3.1)", i+1)
		}
	}
	data = strings.NewReplacer("\r\n ", "", "\r\n\t", "").Replace(strings.TrimSuffix(data, "\r\n"))
	root := &calendarPart{}
	open := []*calendarPart{root}
	for _, l := range strings.Split(data, "\r\n") {
		m := contentLine.FindStringSubmatch(l)
		if m == nil {
			return nil, fmt.Errorf("%q is no content line (3.1)", l)
		}
		p := calendarProp{strings.ToUpper(m[1]), strings.ToUpper(m[2]), m[3]}
		top := open[len(open)-1]
		switch p.name {
		case "BEGIN":
			c := &calendarPart{name: p.value}
			top.parts = append(top.parts, c)
			open = append(open, c)
		case "END":
			if len(open) == 1 || top.name != p.value {
				return nil, fmt.Errorf("END:%s where %s is open", p.value, top.name)
			}
			open = open[:len(open)-1]
			if err := top.check(open[len(open)-1].name); err != nil {
				return nil, fmt.Errorf("%s: %w", top.name, err)
			}
		default:
			if len(open) == 1 {
				return nil, fmt.Errorf("%s outside of everything", p.name)
			}
			top.props = append(top.props, p)
		}
	}
	if len(open) > 1 || len(root.parts) != 1 || root.parts[0].name != "VCALENDAR" {
		return nil, fmt.Errorf("it is not one whole VCALENDAR (3.4)")
	}
	return root.parts[0], nil
}

// check holds a component to what it must have, by what it lies in.
func (c *calendarPart) check(within string) error {
	must, most := []string{}, []string{}
	switch c.name {
	case "VCALENDAR": // 3.6
		must, most = []string{"PRODID", "VERSION"}, []string{"CALSCALE", "METHOD"}
		if len(c.parts) == 0 {
			return fmt.Errorf("there is nothing in it (3.6)")
		}
	case "VEVENT": // 3.6.1
		must = []string{"UID", "DTSTAMP", "DTSTART"}
		most = []string{"CLASS", "CREATED", "DESCRIPTION", "GEO", "LAST-MODIFIED", "LOCATION", "ORGANIZER", "PRIORITY", "SEQUENCE", "STATUS", "SUMMARY", "TRANSP", "URL", "RECURRENCE-ID", "DTEND", "DURATION"}
		if c.count("DTEND") > 0 && c.count("DURATION") > 0 {
			return fmt.Errorf("both DTEND and DURATION")
		}
	case "VALARM": // 3.6.6
		must, most = []string{"ACTION", "TRIGGER"}, []string{"DURATION", "REPEAT"}
		switch c.one("ACTION") {
		case "DISPLAY":
			must = append(must, "DESCRIPTION")
		case "EMAIL":
			must = append(must, "DESCRIPTION", "SUMMARY")
			if c.count("ATTENDEE") == 0 {
				return fmt.Errorf("mail to no one")
			}
		}
		if c.count("DURATION") != c.count("REPEAT") {
			return fmt.Errorf("DURATION and REPEAT go together")
		}
		if within != "VEVENT" && within != "VTODO" {
			return fmt.Errorf("an alarm within %s", within)
		}
	}
	for _, name := range must {
		if c.count(name) != 1 {
			return fmt.Errorf("%s comes %d times", name, c.count(name))
		}
	}
	for _, name := range most {
		if c.count(name) > 1 {
			return fmt.Errorf("%s comes %d times", name, c.count(name))
		}
	}
	for _, p := range c.props {
		if !p.fits(c.name) {
			return fmt.Errorf("%s%s:%s is not a value of its kind", p.name, p.params, p.value)
		}
	}
	return nil
}

// fits tells whether the value of a property is one of its type.
func (p calendarProp) fits(of string) bool {
	instant := func(form string) bool { _, err := time.Parse(form, p.value); return err == nil }
	switch p.name {
	case "VERSION": // 3.7.4
		return p.value == "2.0"
	case "CALSCALE": // 3.7.1
		return p.value == "GREGORIAN"
	case "DTSTAMP", "CREATED", "LAST-MODIFIED": // 3.8.7: in UTC
		return instant("20060102T150405Z")
	case "DTSTART", "DTEND": // 3.8.2.4, 3.3.4, 3.3.5
		switch {
		case p.params == ";VALUE=DATE":
			return instant("20060102")
		case strings.HasPrefix(p.params, ";TZID="):
			return instant("20060102T150405")
		}
		return instant("20060102T150405Z") || instant("20060102T150405")
	case "TRIGGER": // 3.8.6.3
		if p.params == ";VALUE=DATE-TIME" {
			return instant("20060102T150405Z")
		}
		return durationForm.MatchString(p.value)
	case "DURATION": // 3.8.2.5
		return durationForm.MatchString(p.value)
	case "TRANSP": // 3.8.2.7
		return p.value == "OPAQUE" || p.value == "TRANSPARENT"
	case "STATUS": // 3.8.1.11
		return of != "VEVENT" || slices.Contains([]string{"TENTATIVE", "CONFIRMED", "CANCELLED"}, p.value)
	case "SUMMARY", "DESCRIPTION", "UID", "PRODID", "LOCATION":
		return textForm.MatchString(p.value)
	}
	return true
}

// plainText takes the escapes out of a text value (3.3.11).
func plainText(value string) string {
	return strings.NewReplacer(`\\`, `\`, `\;`, ";", `\,`, ",", `\n`, "\n", `\N`, "\n").Replace(value)
}

// The examples of RFC 5545 itself, which the reader must take: 4 (the
// conference), 3.6.1 (the review, the anniversary), 3.6.6 (the alarms that
// sound, show and mail).
const (
	rfcConference = `DTSTAMP:19960704T120000Z
UID:uid1@example.com
ORGANIZER:mailto:jsmith@example.com
DTSTART:19960918T143000Z
DTEND:19960920T220000Z
STATUS:CONFIRMED
CATEGORIES:CONFERENCE
SUMMARY:Networld+Interop Conference
DESCRIPTION:Networld+Interop Conference
  and Exhibit\nAtlanta World Congress Center\n
 Atlanta\, Georgia
`
	rfcReview = `UID:19970901T130000Z-123401@example.com
DTSTAMP:19970901T130000Z
DTSTART:19970903T163000Z
DTEND:19970903T190000Z
SUMMARY:Annual Employee Review
CLASS:PRIVATE
CATEGORIES:BUSINESS,HUMAN RESOURCES
`
	rfcAnniversary = `UID:19970901T130000Z-123403@example.com
DTSTAMP:19970901T130000Z
DTSTART;VALUE=DATE:19971102
SUMMARY:Our Blissful Anniversary
TRANSP:TRANSPARENT
CLASS:CONFIDENTIAL
CATEGORIES:ANNIVERSARY,PERSONAL,SPECIAL OCCASION
RRULE:FREQ=YEARLY
`
	rfcAudio = `BEGIN:VALARM
TRIGGER;VALUE=DATE-TIME:19970317T133000Z
REPEAT:4
DURATION:PT15M
ACTION:AUDIO
ATTACH;FMTTYPE=audio/basic:ftp://example.com/pub/
 sounds/bell-01.aud
END:VALARM
`
	rfcDisplay = `BEGIN:VALARM
TRIGGER:-PT30M
REPEAT:2
DURATION:PT15M
ACTION:DISPLAY
DESCRIPTION:Breakfast meeting with executive\n
  team at 8:30 AM EST.
END:VALARM
`
	rfcMail = `BEGIN:VALARM
TRIGGER;RELATED=END:-P2D
ACTION:EMAIL
ATTENDEE:mailto:john_doe@example.com
SUMMARY:*** REMINDER: SEND AGENDA FOR WEEKLY STAFF MEETING ***
DESCRIPTION:A draft agenda needs to be sent out to the attendees
  to the weekly managers meeting (MGR-LIST).
END:VALARM
`
)

// calendarOf puts the lines of an event into a calendar.
func calendarOf(event string) string {
	all := "BEGIN:VCALENDAR\nPRODID:-//xyz Corp//NONSGML PDA Calendar Version 1.0//EN\nVERSION:2.0\nBEGIN:VEVENT\n" + event + "END:VEVENT\nEND:VCALENDAR\n"
	return strings.ReplaceAll(all, "\n", "\r\n")
}

func TestCalendarReaderTakesTheStandard(t *testing.T) {
	for _, event := range []string{rfcConference, rfcReview, rfcAnniversary, rfcReview + rfcAudio, rfcReview + rfcDisplay, rfcReview + rfcMail} {
		if _, err := readCalendar(calendarOf(event)); err != nil {
			t.Errorf("%v in\n%s", err, event)
		}
	}
	c, err := readCalendar(calendarOf(rfcConference))
	if err != nil {
		t.Fatal(err)
	}
	if got := plainText(c.parts[0].one("DESCRIPTION")); got != "Networld+Interop Conference and Exhibit\nAtlanta World Congress Center\nAtlanta, Georgia" {
		t.Errorf("%q", got)
	}
	// 3.3.6: the two durations that are named there.
	for _, d := range []string{"P15DT5H0M20S", "P7W", "-PT15M", "PT0S"} {
		if !durationForm.MatchString(d) {
			t.Errorf("%s is not taken", d)
		}
	}
	for _, d := range []string{"P", "PT", "1H", "P1DT", "PT1S1M", "P1H"} {
		if durationForm.MatchString(d) {
			t.Errorf("%s is taken", d)
		}
	}
}

// TestCalendarReaderIsStrict: each slip alone is found.
func TestCalendarReaderIsStrict(t *testing.T) {
	good := calendarOf(rfcReview + rfcDisplay)
	for name, bad := range map[string]string{
		"line feeds alone":       strings.ReplaceAll(good, "\r\n", "\n"),
		"a line feed in a line":  strings.Replace(good, "Annual ", "Annual\n", 1),
		"76 octets":              strings.Replace(good, "SUMMARY:", "SUMMARY:"+strings.Repeat("x", 68-len("Annual Employee Review")), 1),
		"folded in a letter":     strings.Replace(good, "Annual", "\xc3\r\n \xbcber", 1),
		"no stamp":               strings.Replace(good, "DTSTAMP:19970901T130000Z\r\n", "", 1),
		"a stamp of local time":  strings.Replace(good, "DTSTAMP:19970901T130000Z", "DTSTAMP:19970901T130000", 1),
		"no UID":                 strings.Replace(good, "UID:", "X-UID:", 1),
		"two summaries":          strings.Replace(good, "CLASS:PRIVATE", "SUMMARY:Again", 1),
		"a bare semicolon":       strings.Replace(good, "Annual", "Annual;", 1),
		"a bare comma":           strings.Replace(good, "Annual", "Annual,", 1),
		"an escape of its own":   strings.Replace(good, "Annual", `Annual\t`, 1),
		"a control":              strings.Replace(good, "Annual", "Annual\x01", 1),
		"no trigger":             strings.Replace(good, "TRIGGER:", "X-TRIGGER:", 1),
		"a trigger without sign": strings.Replace(good, "-PT30M", "30 minutes", 1),
		"nothing to show":        strings.Replace(good, "DESCRIPTION:", "X-WORDS:", 1),
		"the wrong end":          strings.Replace(good, "END:VALARM", "END:VEVENT", 1),
		"an empty calendar":      "BEGIN:VCALENDAR\r\nPRODID:x\r\nVERSION:2.0\r\nEND:VCALENDAR\r\n",
		"no end":                 strings.TrimSuffix(good, "END:VCALENDAR\r\n"),
		"no maker":               strings.Replace(good, "PRODID:", "X-ID:", 1),
		"an hour that is none":   strings.Replace(good, "19970903T163000Z", "19970903T263000Z", 1),
	} {
		if bad == good {
			t.Errorf("%s: nothing was changed", name)
		} else if _, err := readCalendar(bad); err == nil {
			t.Errorf("%s is taken", name)
		}
	}
	if _, err := readCalendar(good); err != nil {
		t.Error(err)
	}
}
