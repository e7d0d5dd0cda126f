package app

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// pourDay is when the scripted pour begins: the evening before the clocks in
// most of Europe go back.
var pourDay = time.Date(2026, 10, 24, 17, 0, 0, 0, time.UTC)

// act is one touch or edit of the scripted pour, made so long after the one
// before it.
type act struct {
	after time.Duration
	do    func(s *Session, first, second string) error
}

// happens is a touch of one kind.
func happens(after time.Duration, e model.Entry) act {
	return act{after, func(s *Session, first, _ string) error {
		if e.Kind != model.EntryPhoto {
			e.Layer = first
		}
		return s.Happened(e)
	}}
}

// script is a pour of two layers, from the checklist to the piece out of its
// mold, with a withdrawal, entries written down late, an edit and its undo in
// between.
func script() []act {
	weighed := func(after time.Duration, kind model.EntryKind, gross string) act {
		return act{after, func(s *Session, first, _ string) error { return s.AddWeighed(first, kind, gross, false) }}
	}
	list := []act{
		happens(0, model.Entry{Kind: model.EntryChecked, Check: "level"}),
		happens(20*time.Second, model.Entry{Kind: model.EntryChecked, Check: "leaks"}),
		happens(30*time.Second, model.Entry{Kind: model.EntryChecked, Check: "gloves"}),
		weighed(4*time.Minute, model.EntryWeighedA, "300 g"),
		weighed(2*time.Minute, model.EntryWeighedB, "430 g"),
		happens(time.Minute, model.Entry{Kind: model.EntryMixing}),
		happens(4*time.Minute, model.Entry{Kind: model.EntryMixed}),
		{5 * time.Minute, func(s *Session, first, _ string) error { return s.StartPour(first) }},
		happens(3*time.Minute, model.Entry{Kind: model.EntryPlaced, Insert: "poppies"}),
		happens(6*time.Minute, model.Entry{Kind: model.EntryPourDone}),
		{9 * time.Minute, func(s *Session, first, _ string) error { return s.AddReading(first, "20.5", "27", time.Time{}) }},
		{time.Minute, func(s *Session, _, _ string) error { return s.AddNote("a thread of air at the stem") }},
		happens(time.Minute, model.Entry{Kind: model.EntryPhoto, Photo: "0123"}),
		{time.Hour, func(s *Session, _, _ string) error { s.Enter("name", "Poppies for the hall"); return nil }},
		{time.Minute, func(s *Session, _, _ string) error { s.Undo(); return nil }},
		{8 * time.Hour, func(s *Session, first, _ string) error { return s.AddTack(first, model.FeelStrings, time.Time{}) }},
		{time.Minute, func(s *Session, first, _ string) error {
			return s.AddReading("", "14", "", s.Now().Add(-3*time.Hour))
		}},
		{2 * time.Minute, func(s *Session, _, _ string) error { return s.Withdraw(s.project.Journal[0].ID) }},
		{27 * time.Hour, func(s *Session, first, _ string) error { return s.AddTack(first, model.FeelTape, time.Time{}) }},
		happens(time.Minute, model.Entry{Kind: model.EntryTooHot}),
		{20 * time.Minute, func(s *Session, _, second string) error { return s.StartPour(second) }},
		{time.Hour, func(s *Session, _, second string) error {
			return s.AddProbe(second, "41", s.Now().Add(-time.Minute))
		}},
		{90 * time.Hour, func(s *Session, _, _ string) error { return s.DemoldFelt(model.FeelStiff) }},
	}
	return list
}

// told is the line of an entry, the same for the one that was acknowledged and
// the one found again.
func told(e model.Entry) string {
	return fmt.Sprint(e.ID, " ", e.At.UnixMilli(), " ", e.Kind, " ", e.Layer, " ", e.Of, " ", e.Feel, " ", e.Gross.Value, " ", e.Part.Value, " ", e.Clock)
}

// dues are the lines of the instants that follow from a project.
func dues(shot *Snapshot) (list []string) {
	for _, s := range shot.Steps() {
		if !s.Due.IsZero() {
			list = append(list, fmt.Sprint(s.Layer, " ", s.Kind, " ", s.Past, " ", s.Due.UnixNano()))
		}
	}
	return list
}

// The child goes through the script and says what it is about to send, and what
// is kept: each entry, and every instant that follows from them all. Some
// touches it makes without waiting for the one before to be kept.
func init() {
	children["pour"] = func(args []string) {
		demo, err := os.ReadFile("../testdata/demo-poppy-stand.json")
		must(err)
		s, err := opens(args[0], "k", pourDay, args[2] == "simulated")
		must(err)
		var seed uint64
		_, err = fmt.Sscan(args[1], &seed)
		must(err)
		r := rand.New(rand.NewPCG(seed, 1))
		must(s.Import(demo))
		must(s.until("the demo is open", func() bool { return s.Snapshot().Open }))
		first, second := s.project.Layers[0].ID, s.project.Layers[1].ID
		said := 0
		say := func() {
			shot := s.Snapshot()
			var out bytes.Buffer
			for ; said < len(s.project.Journal); said++ {
				// In order of time it may stand before others: by number instead.
				i := slices.IndexFunc(shot.Project.Journal, func(e model.Entry) bool { return e.ID == fmt.Sprint("ek-", said+1) })
				if i >= 0 {
					fmt.Fprintln(&out, "kept", told(shot.Project.Journal[i]))
				}
			}
			fmt.Fprintln(&out, "dues", strings.Join(dues(&shot), "; "))
			_, err := os.Stdout.Write(out.Bytes())
			must(err)
		}
		for i, a := range script() {
			s.clock.advance(a.after)
			fmt.Println("sends", i)
			must(a.do(s.Session, first, second))
			if r.IntN(4) == 0 {
				continue
			}
			must(s.kept())
			say()
			time.Sleep(time.Duration(r.IntN(600)) * time.Microsecond)
		}
		must(s.kept())
		say()
		must(s.Close())
		fmt.Println("done")
	}
}

// heard is what a child said before it died.
type heard struct {
	sent int      // acts that it was about to do, at most
	kept []string // entries that it was told are on the disk
	dues string   // the instants, and
	at   int      // how many entries they follow from
	done bool
}

// listen reads what a child says until it ends, and does each time it is about
// to send something.
func listen(t *testing.T, out *bufio.Reader, each func(sent int)) (h heard) {
	t.Helper()
	for {
		line, err := out.ReadString('\n')
		if err != nil { // a last line that is cut off was not said
			return h
		}
		word, rest, _ := strings.Cut(strings.TrimSuffix(line, "\n"), " ")
		switch word {
		case "sends":
			h.sent++
			each(h.sent)
		case "kept":
			h.kept = append(h.kept, rest)
		case "dues":
			h.dues, h.at = rest, len(h.kept)
		case "done":
			h.done = true
		default:
			t.Errorf("child: %s", line)
		}
	}
}

// pour runs the script in a process of its own in the notebook at path, kills it
// a while after it is about to do an act, the one numbered acts, or after it was
// started for 0, and gives what it said. It lets it end for -1.
func pour(t *testing.T, path string, seed uint64, way string, acts int, wait time.Duration) heard {
	t.Helper()
	cmd := child(t, "pour", path, fmt.Sprint(seed), way)
	cmd.Env = append(cmd.Env, "GOGC=off") // it does not live long enough to need its room back
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	kill := func(sent int) {
		if sent == acts {
			time.AfterFunc(wait, func() { _ = cmd.Process.Kill() })
		}
	}
	kill(0)
	h := listen(t, bufio.NewReader(out), kill)
	_ = cmd.Wait() // the kill
	return h
}

// findAgain opens the notebook of a child that was killed and holds it against
// what the child said: all that was acknowledged is there, nothing is that was
// not sent, every instant is where it was, and the work can go on.
func findAgain(t *testing.T, path, way string, h heard) {
	t.Helper()
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		if h.sent > 0 {
			t.Error("the notebook is gone")
		}
		return
	}
	s, err := opens(path, "again", pourDay.Add(1000*time.Hour), way == "simulated")
	if err != nil {
		t.Errorf("after %d touches: %v", h.sent, err)
		return
	}
	defer func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	}()
	if what := s.Snapshot().Saved.What; what != "" {
		t.Errorf("opened with trouble: %s", what)
	}
	if !s.Reopen() {
		// Which project was open is kept in line before its first touch.
		cards := s.Snapshot().Cards
		if h.sent > 0 && len(cards) != 1 || len(h.kept) > 0 {
			t.Errorf("of the project there are %d", len(cards))
		}
		if len(cards) == 0 {
			return
		}
		s.Open(cards[0].ID)
	}
	if err := errors.Join(s.until("it is open", func() bool { return s.Snapshot().Open }), s.kept()); err != nil {
		t.Error(err)
		return
	}
	shot := s.Snapshot()
	var found []string
	for _, e := range shot.Project.Journal {
		found = append(found, told(e))
	}
	for _, line := range h.kept {
		if !slices.Contains(found, line) {
			t.Errorf("acknowledged and lost: %s; there is %q", line, found)
		}
	}
	// IDs are given in the order of the script, so that what is there beyond the
	// acknowledged must be the next ones, and no more than were sent.
	if len(found) > h.sent {
		t.Errorf("%d entries, and %d acts were sent", len(found), h.sent)
	}
	for i := range found {
		if !slices.ContainsFunc(shot.Project.Journal, func(e model.Entry) bool { return e.ID == fmt.Sprint("ek-", i+1) }) {
			t.Errorf("entry %d is missing between others: %q", i+1, found)
		}
	}
	if h.dues != "" && len(found) == h.at {
		if now := strings.Join(dues(&shot), "; "); now != h.dues {
			t.Errorf("instants were\n%s\nand are\n%s", h.dues, now)
		}
	}
	// The work goes on.
	if err := errors.Join(s.AddNote("on again"), s.kept()); err != nil || s.Snapshot().Saved.What != "" {
		t.Errorf("going on: %v, %q", err, s.Snapshot().Saved.What)
	}
}

// TestKilledWhilePouring kills the program at random moments of a scripted pour,
// spread over all its acts and to the microsecond within and between them, and
// finds every acknowledged touch and every due instant again. One in twenty-five
// goes by the instants of the simulation.
func TestKilledWhilePouring(t *testing.T) {
	kills := tortureCount(500, 50, 16)
	dir := t.TempDir()
	long := map[string]time.Duration{}
	for _, way := range []string{"", "simulated"} {
		path := filepath.Join(dir, "whole"+way, "n.db")
		began := time.Now()
		h := pour(t, path, 1, way, -1, 0)
		long[way] = time.Since(began)
		if !h.done || len(h.kept) != len(script())-2 || h.dues == "" {
			t.Fatalf("left alone the child says %+v", h)
		}
		findAgain(t, path, way, h)
	}
	var mu sync.Mutex
	var died [4]int // before the first touch, in the first and second half, past the end
	next := 0
	var hands sync.WaitGroup
	for range 2 { // as many at a time as there are cores
		hands.Go(func() {
			for {
				mu.Lock()
				n := next
				next++
				mu.Unlock()
				if n >= kills {
					return
				}
				way := ""
				if n%25 == 24 {
					way = "simulated"
				}
				r := rand.New(rand.NewPCG(uint64(n), 2026))
				path := filepath.Join(dir, fmt.Sprint(n), "n.db")
				acts, wait := r.IntN(len(script())+1), r.Int64N(int64(long[way]))*2/int64(len(script()))
				if acts == 0 {
					wait *= 8 // to open the notebook
				}
				h := pour(t, path, uint64(n), way, acts, time.Duration(wait))
				findAgain(t, path, way, h)
				if err := os.RemoveAll(filepath.Dir(path)); err != nil {
					t.Error(err)
				}
				mu.Lock()
				switch {
				case h.sent == 0:
					died[0]++
				case h.done:
					died[3]++
				default:
					died[1+h.sent/(len(script())/2+1)]++
				}
				mu.Unlock()
			}
		})
	}
	hands.Wait()
	t.Logf("the script takes %v, and with the simulation %v; killed before the first touch, in its first half, its second half, after it: %v", long[""], long["simulated"], died)
	if died[1]+died[2] < kills/3 || died[1] == 0 || died[2] == 0 {
		t.Errorf("too few were killed within the script: %v", died)
	}
}

// TestStartedAtOnce: a touch is on the disk without waiting for anything that
// typing waits for.
func TestStartedAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "n.db")
	demo, err := os.ReadFile("../testdata/demo-poppy-stand.json")
	if err != nil {
		t.Fatal(err)
	}
	s, err := opens(path, "k", pourDay, false)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	s.Session.calm = time.Hour // of typing
	if err := errors.Join(s.Import(demo), s.until("the demo is open", func() bool { return s.Snapshot().Open })); err != nil {
		t.Fatal(err)
	}
	layer := s.project.Layers[0].ID
	if err := s.StartPour(layer); err != nil {
		t.Fatal(err)
	}
	if !s.Snapshot().Saved.Pending || len(s.saves) != 1 || !s.saves[0].flying {
		t.Errorf("on its way: %+v", s.Snapshot().Saved)
	}
	if err := s.until("it is kept", func() bool { return !s.Snapshot().Saved.Pending }); err != nil {
		t.Fatal(err)
	}
	p, _, err := s.store.(*storage.Notebook).Load(s.project.ID)
	if err != nil || len(p.Journal) != 1 || !reflect.DeepEqual(p.Journal[0], s.project.Journal[0]) {
		t.Errorf("on the disk: %+v, %v", p.Journal, err)
	}
}
