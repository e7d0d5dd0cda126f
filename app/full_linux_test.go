package app

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"meniscus/model"
)

// largestFile sets the largest file that this process may write.
func largestFile(bytes uint64) {
	var l syscall.Rlimit
	must(syscall.Getrlimit(syscall.RLIMIT_FSIZE, &l))
	l.Cur = min(bytes, l.Max)
	must(syscall.Setrlimit(syscall.RLIMIT_FSIZE, &l))
}

// longNote is a note that the notebook needs more room for.
var longNote = strings.Repeat("what the surface looked like ", 60)

// The child pours on a disk that fills: it starts a pour once nothing more can
// be kept. Then there is room again, or, in the other ways, it is closed with
// the disk still full.
func init() {
	children["full"] = func(args []string) {
		signal.Ignore(syscall.SIGXFSZ)
		dir, way := args[0], args[1]
		s, err := demoOpened(dir, pourDay, false)
		must(err)
		path := filepath.Join(dir, "n.db")
		info, err := os.Stat(path)
		must(err)
		largestFile(uint64(info.Size()))
		noted := 0
		for ; s.Snapshot().Saved.What == ""; noted++ {
			if noted > 2000 {
				must(errors.New("the disk is never full"))
			}
			s.clock.advance(time.Second)
			must(s.AddNote(fmt.Sprint(noted, " ", longNote)))
			must(s.until("it is kept or not", func() bool { return !s.Snapshot().Saved.Pending || s.Snapshot().Saved.What != "" }))
		}
		saved := s.Snapshot().Saved
		if !saved.Pending || !strings.Contains(saved.What, "no room") || !strings.Contains(saved.What, path) || !strings.Contains(saved.Do, "Make room") {
			must(fmt.Errorf("a full disk says %+v", saved))
		}
		// The pour is started all the same; it runs, and it is told that it is not kept.
		layer := s.project.Layers[0].ID
		s.clock.advance(time.Minute)
		must(s.StartPour(layer))
		s.clock.advance(time.Minute)
		must(s.Happened(model.Entry{Kind: model.EntryPourDone, Layer: layer}))
		must(s.until("the pour is planned", func() bool {
			return len(s.Snapshot().Project.Journal) == noted+2 && s.Snapshot().CuringFresh && !s.saves[0].flying
		}))
		shot := s.Snapshot()
		step, ok := shot.Plan.NextStep(s.Now())
		if !ok || !step.Due.After(s.Now()) || !shot.Saved.Pending || shot.Saved.What == "" {
			must(fmt.Errorf("started on a full disk: %+v, %+v", step, shot.Saved))
		}
		if way != "room" {
			if way == "no room aside" {
				largestFile(1000)
			}
			if err = s.CloseAside(dir); err == nil {
				must(errors.New("closed as if all were kept"))
			}
			fmt.Println(strings.ReplaceAll(err.Error(), "\n", "; "))
			return
		}
		// With room again it is kept by itself, after a while.
		s.Retry()
		must(s.until("it was tried", func() bool { return !s.saves[0].flying }))
		largestFile(1 << 40)
		s.clock.advance(retryAfter - time.Second)
		s.tick(s.Now())
		if s.saves[0].flying {
			must(errors.New("tried again at once"))
		}
		s.clock.advance(time.Second)
		s.tick(s.Now())
		must(s.until("all is kept", func() bool { return !s.Snapshot().Saved.Pending }))
		if what := s.Snapshot().Saved.What; what != "" {
			must(fmt.Errorf("with room again it says %s", what))
		}
		must(s.Close())
		fmt.Println(noted)
	}
}

// filled runs the child to its end and gives what it said.
func filled(t *testing.T, dir, way string) string {
	t.Helper()
	out, err := child(t, "full", dir, way).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return strings.TrimSpace(string(out))
}

// TestPourOnAFullDisk: a real limit, through the real notebook: once there is
// room again everything is there, in order, without a touch.
func TestPourOnAFullDisk(t *testing.T) {
	dir := t.TempDir()
	noted := filled(t, dir, "room")
	s, err := opens(filepath.Join(dir, "n.db"), "again", pourDay.Add(time.Hour), false)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	s.Reopen()
	if err := errors.Join(s.until("it is open", func() bool { return s.Snapshot().Open }), s.kept()); err != nil {
		t.Fatal(err)
	}
	p := s.Snapshot().Project
	var kinds []string
	for i, e := range p.Journal {
		if e.Kind == model.EntryNote && !strings.HasPrefix(e.Text, fmt.Sprint(i, " ")) {
			t.Errorf("note %d is %.10s", i, e.Text)
		}
		if e.Kind != model.EntryNote {
			kinds = append(kinds, string(e.Kind))
		}
	}
	if n := fmt.Sprint(len(p.Journal) - 2); n != noted || !slices.Equal(kinds, []string{"pour started", "pour done"}) {
		t.Errorf("%s notes of %s, and %q", n, noted, kinds)
	}
}

// TestClosedOnAFullDisk: what could not be kept is written aside, and where that
// cannot be done either it is said.
func TestClosedOnAFullDisk(t *testing.T) {
	dir := t.TempDir()
	said := filled(t, dir, "aside")
	list, _ := filepath.Glob(filepath.Join(dir, "meniscus-not-kept-*.json"))
	if len(list) != 1 || !strings.Contains(said, list[0]) || !strings.Contains(said, "no room") {
		t.Fatalf("%v aside; it says %s", list, said)
	}
	data, err := os.ReadFile(list[0])
	if err != nil {
		t.Fatal(err)
	}
	p, err := model.Import(data)
	if err != nil {
		t.Fatal(err)
	}
	if _, begun := p.PourStart(p.Layers[0].ID); !begun {
		t.Error("the pour is not in it")
	}
	dir = t.TempDir()
	said = filled(t, dir, "no room aside")
	if list, _ = filepath.Glob(filepath.Join(dir, "meniscus-not-kept-*")); len(list) != 0 || !strings.Contains(said, "no room") || !strings.Contains(said, "meniscus-not-kept") {
		t.Errorf("%v aside; it says %s", list, said)
	}
}
