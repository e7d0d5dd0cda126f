package model

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// calendarNow is when the calendars of these tests are made.
var calendarNow = time.Date(2026, 11, 25, 15, 0, 0, 0, time.UTC)

// calendarEvents reads what Calendar made and gives its events.
func calendarEvents(t interface{ Fatalf(string, ...any) }, file []byte) []*calendarPart {
	c, err := readCalendar(string(file))
	if err != nil {
		t.Fatalf("%v in\n%s", err, file)
	}
	return c.parts
}

// TestCalendarOfOneStep holds the whole of a small file to the letter. Its form
// is RFC 5545, 3.4 to 3.8; its UID was worked out once and must stay.
func TestCalendarOfOneStep(t *testing.T) {
	step := Step{Kind: StepRecoatEnd, Layer: "l1", Label: "recoat window of Lower closes", Due: time.Date(2026, 11, 26, 7, 40, 0, 0, time.UTC), Typical: true}
	got, err := Calendar([]Step{step}, "p1", "Ash, walnut; 2\\3", calendarNow)
	if err != nil {
		t.Fatal(err)
	}
	want := strings.ReplaceAll(`BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//Meniscus//Workbench//EN
CALSCALE:GREGORIAN
BEGIN:VEVENT
UID:34bee131-d8cb-8f99-b5d7-636972d2137b
DTSTAMP:20261125T150000Z
DTSTART:20261126T074000Z
SUMMARY:Ash\, walnut\; 2\\3: recoat window of Lower closes
DESCRIPTION:From now on it has to be sanded before the next pour.\nRests on
  a typical value\, as the data sheet does not say.\nWorked out Wed 25 Nov`+" "+`
 2026\, 15:00 UTC. It moves when the room or a pour does.
TRANSP:TRANSPARENT
BEGIN:VALARM
ACTION:DISPLAY
TRIGGER:-PT60M
DESCRIPTION:Ash\, walnut\; 2\\3: recoat window of Lower closes
END:VALARM
BEGIN:VALARM
ACTION:DISPLAY
TRIGGER:PT0S
DESCRIPTION:Ash\, walnut\; 2\\3: recoat window of Lower closes
END:VALARM
END:VEVENT
END:VCALENDAR
`, "\n", "\r\n")
	if string(got) != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	calendarEvents(t, got)
}

// TestCalendarFoldsAsTheStandardDoes: RFC 5545, 3.1 folds a long description;
// what is folded here unfolds to the same, whatever letters the cut falls on.
func TestCalendarFoldsAsTheStandardDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(rapid.RuneFrom([]rune{'a', ' ', 'ü', '木', '🪵'}), 0, 400, -1).Draw(t, "text")
		var f calendarFile
		f.line("DESCRIPTION", text)
		out := f.out.String()
		for _, l := range strings.Split(strings.TrimSuffix(out, "\r\n"), "\r\n") {
			if len(l) > 75 || !utf8.ValidString(l) {
				t.Fatalf("%q: %d octets", l, len(l))
			}
		}
		if got := strings.ReplaceAll(strings.TrimSuffix(out, "\r\n"), "\r\n ", ""); got != "DESCRIPTION:"+text {
			t.Fatalf("%q comes back as %q", text, got)
		}
	})
}

// TestCalendarText: RFC 5545, 3.3.11, its example and its rules.
func TestCalendarText(t *testing.T) {
	for _, c := range [][2]string{
		{"Project XYZ Final Review\nConference Room - 3B\nCome Prepared.", `Project XYZ Final Review\nConference Room - 3B\nCome Prepared.`},
		{`a\b;c,d:e"f`, `a\\b\;c\,d:e"f`},
		{"a\r\nb\rc\u2028d\u0085e", `a\nb\nc\nd\ne`},
		{"a\x00b\x7fc\td", "abc\td"},
		{"a\xffb", "a\ufffdb"},
		{`\n`, `\\n`},
	} {
		if got := calendarText(c[0]); got != c[1] {
			t.Errorf("%q gives %q, want %q", c[0], got, c[1])
		}
	}
}

// calendarDemo gives a demo job with its first pours started, so many hours apart
// from an instant on.
func calendarDemo(t *testing.T, file string, from time.Time, pours int) Project {
	t.Helper()
	p := demo(t, file)
	p.Journal = nil
	for i, l := range p.Layers[:min(pours, len(p.Layers))] {
		p.Journal = append(p.Journal, Entry{ID: fmt.Sprint("e", i), Kind: EntryPourStarted, Layer: l.ID, At: from.Add(time.Duration(i) * 9 * time.Hour)})
	}
	return p
}

// TestCalendarOfTheDemos: every step with an instant is an event at that
// instant, whatever zone it was written in and on both nights of changed
// clocks, and only what is to come rings.
func TestCalendarOfTheDemos(t *testing.T) {
	place, err := time.LoadLocation("Europe/London")
	if err != nil {
		t.Skip("this machine has no time zone data")
	}
	for _, file := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		for _, night := range []time.Time{
			time.Date(2026, 3, 28, 20, 15, 30, 0, place),    // forward at 01:00
			time.Date(2026, 10, 24, 20, 15, 30, 4e8, place), // back at 02:00
			calendarNow,
		} {
			for pours := 1; pours <= 3; pours++ {
				p := calendarDemo(t, file, night, pours)
				plan := Make(p)
				now := night.Add(10 * time.Hour)
				agenda := plan.Agenda(time.Time{}, now)
				data, err := Calendar(agenda, p.ID, p.Name, now)
				if err != nil {
					t.Fatal(err)
				}
				dated := 0
				seen := map[string]bool{}
				list := calendarEvents(t, data)
				for _, s := range plan.Steps {
					if s.Due.IsZero() {
						continue
					}
					e := list[dated]
					dated++
					at, err := time.Parse(calendarForm, e.one("DTSTART"))
					if off := at.Sub(s.Due).Abs(); err != nil || off > time.Second {
						t.Errorf("%s: %s moves by %v", file, s.Label, off)
					}
					if uid := e.one("UID"); seen[uid] {
						t.Errorf("%s: the UID %s comes twice", file, uid)
					} else {
						seen[uid] = true
					}
					if rings := len(e.parts) > 0; rings != (s.Due.After(now) && !s.Past) {
						t.Errorf("%s: %s rings: %v", file, s.Label, rings)
					}
					if off := e.one("STATUS") == "CANCELLED"; off != (s.Due.After(now) && s.Past) {
						t.Errorf("%s: %s called off: %v", file, s.Label, off)
					}
				}
				if dated != len(list) || dated == 0 {
					t.Errorf("%s: %d events for %d dates", file, len(list), dated)
				}
				for i := range agenda {
					agenda[i].Due = agenda[i].Due.In(place)
				}
				if again, _ := Calendar(agenda, p.ID, p.Name, now.In(place)); !bytes.Equal(again, data) {
					t.Errorf("%s: the file hangs on the zone", file)
				}
			}
		}
	}
}

// TestCalendarKeepsItsIDs: a file saved anew takes the place of the one before,
// whatever has moved or been renamed, and no two steps share an event.
func TestCalendarKeepsItsIDs(t *testing.T) {
	step := Step{Kind: StepDemold, Layer: "l2", Label: "ready to demold", Due: calendarNow}
	first := calendarID("p", step)
	moved := step
	moved.Due, moved.Label, moved.Typical = calendarNow.Add(time.Hour), "out of the mold", true
	if calendarID("p", moved) != first {
		t.Error("a step that has moved is another event")
	}
	for _, other := range []string{calendarID("q", step), calendarID("p", Step{Kind: StepCured, Layer: "l2"}), calendarID("p", Step{Kind: StepDemold, Layer: "l"}), calendarID(`p" "l2`, Step{Kind: StepDemold})} {
		if other == first {
			t.Error("two steps are one event")
		}
	}
	// Its form is RFC 9562, 4 and 5.8: version 8, variant 10.
	if len(first) != 36 || first[14] != '8' || !strings.ContainsRune("89ab", rune(first[19])) {
		t.Error(first)
	}
}

// TestCalendarOfAPourAhead: a pour that has been started stands, also where the
// clock has since been set back to before it.
func TestCalendarOfAPourAhead(t *testing.T) {
	for _, c := range []struct {
		kind   StepKind
		status string
	}{{StepPour, ""}, {StepRecoatEnd, "CANCELLED"}} {
		file, err := Calendar([]Step{{Kind: c.kind, Label: "x", Due: calendarNow.Add(time.Minute), Past: true}}, "p", "", calendarNow)
		if err != nil {
			t.Fatal(err)
		}
		if e := calendarEvents(t, file)[0]; e.one("STATUS") != c.status || len(e.parts) > 0 || e.one("SUMMARY") != "x" {
			t.Errorf("%s: %+v", c.kind, e)
		}
	}
}

// TestCalendarOfSeveralPieces: the events are those of the files of each piece,
// none shares its UID with another, and the whole holds to the standard.
func TestCalendarOfSeveralPieces(t *testing.T) {
	var pieces []Dated
	var want []string
	for _, file := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		p := calendarDemo(t, file, calendarNow.Add(-time.Hour), 1)
		d := Dated{Project: p.ID, Name: p.Name, Steps: Make(p).Steps}
		one, err := Calendar(d.Steps, d.Project, d.Name, calendarNow)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range calendarEvents(t, one) {
			want = append(want, e.one("UID")+e.one("DTSTART")+e.one("SUMMARY"))
		}
		pieces = append(pieces, d)
	}
	file, err := Calendars(append(pieces, Dated{Project: "none", Name: "nothing poured"}), calendarNow)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	seen := map[string]bool{}
	for _, e := range calendarEvents(t, file) {
		got = append(got, e.one("UID")+e.one("DTSTART")+e.one("SUMMARY"))
		seen[e.one("UID")] = true
	}
	if !slices.Equal(got, want) || len(seen) != len(got) || len(got) < 9 {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

func TestCalendarOfNothing(t *testing.T) {
	for _, steps := range [][]Step{nil, {{Kind: StepPour, Label: "pour Lower"}}, {{Label: "far", Due: time.Date(10001, 1, 1, 0, 0, 0, 0, time.UTC)}}} {
		if _, err := Calendar(steps, "p", "Ash", calendarNow); !errors.Is(err, errNoDates) {
			t.Errorf("%v: %v", steps, err)
		}
	}
}

// FuzzCalendar hands it names and instants that no field would take: the file
// keeps to the rules, says the words again but for controls, and the instant to
// the second.
func FuzzCalendar(f *testing.F) {
	f.Add("Poppy stand", "pour Lower", "demo-poppy", int64(1764082800), int64(5e8), "pour", false, true)
	f.Add("", "\r\nEND:VCALENDAR\r\n", "\x00", int64(0), int64(0), "ready to demold", true, false)
	f.Add("日本の木 🪵🪵🪵🪵🪵🪵🪵🪵🪵🪵🪵🪵🪵🪵🪵🪵🪵🪵🪵🪵", `a\;,b\n`, `"`, int64(math.MaxInt64), int64(-1), "", false, false)
	f.Add("\xff\xfe;:=\"", "x\u2028y\tz", "\xff", int64(-62135596800), int64(1), "full cure", true, true)
	f.Fuzz(func(t *testing.T, name, label, project string, due, part int64, kind string, past, typical bool) {
		step := Step{Kind: StepKind(kind), Layer: label, Label: label, Due: time.Unix(due, part), Past: past, Typical: typical}
		data, err := Calendar([]Step{step}, project, name, calendarNow)
		if errors.Is(err, errNoDates) {
			if y := step.Due.UTC().Year(); !step.Due.IsZero() && y > 1 && y < 9999 {
				t.Fatalf("no event in the year %d", y)
			}
			return
		}
		list := calendarEvents(t, data)
		at, err := time.Parse(calendarForm, list[0].one("DTSTART"))
		if err != nil || at.Sub(step.Due).Abs() > time.Second {
			t.Fatalf("%v became %v (%v)", step.Due, at, err)
		}
		want := label
		if n := strings.Join(strings.Fields(name), " "); n != "" {
			want = n + ": " + label
		}
		if got := plainText(list[0].one("SUMMARY")); visibleIn(got) != visibleIn(want) {
			t.Fatalf("%q became %q", want, got)
		}
	})
}

// visibleIn gives the letters of a text that can be seen.
func visibleIn(text string) string {
	var b strings.Builder
	for _, r := range text { // what is not UTF-8 comes as U+FFFD
		if r != utf8.RuneError && r >= ' ' && r != 0x7f && r != 0x85 && r != 0x2028 && r != 0x2029 {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// TestAgenda: a pour that is planned has its dates as if it were started then,
// as long as that is still to come; nothing else is guessed.
func TestAgenda(t *testing.T) {
	p := calendarDemo(t, "poppy-stand", calendarNow, 1)
	plan := Make(p)
	next, _ := plan.NextPour()
	planned := calendarNow.Add(30 * time.Hour)
	with, without := plan.Agenda(planned, calendarNow), plan.Agenda(time.Time{}, calendarNow)
	var of []Step
	for i, s := range with {
		if i > 0 && s.Due.Before(with[i-1].Due) {
			t.Errorf("%s comes too late in the list", s.Label)
		}
		if s.Layer == next.ID {
			of = append(of, s)
			if off := s.Due.Sub(planned) - s.After.Duration(); off.Abs() > time.Second || s.Past || !strings.HasSuffix(s.Label, "(if poured as planned)") {
				t.Errorf("%+v", s)
			}
		}
	}
	if len(of) < 3 || of[0].Kind != StepPour || len(with) != len(without)+len(of) {
		t.Errorf("%d dates of the planned pour, %d in all, %d without", len(of), len(with), len(without))
	}
	if late := plan.Agenda(planned, planned.Add(unit.Minute.Duration())); len(late) != len(without) {
		t.Error("a planned hour that has passed is still in it")
	}
	for _, s := range plan.Steps {
		if s.Layer == next.ID && !s.Due.IsZero() {
			t.Error("the plan itself was changed")
		}
	}
}
