package app

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// children are the parts that this test binary can play when it is run again by
// a test; see child.
var children = map[string]func(args []string){}

func TestMain(m *testing.M) {
	if part := os.Getenv("APP_TEST_CHILD"); part != "" {
		children[part](os.Args[1:])
		os.Exit(0)
	}
	flag.Parse()
	if f := flag.Lookup("rapid.checks"); f.Value.String() == f.DefValue {
		_ = f.Value.Set("25") // sessions on files are slow
	}
	os.Exit(m.Run())
}

// child makes a command that runs this test binary again in another part.
func child(t testing.TB, part string, args ...string) *exec.Cmd {
	t.Helper()
	if children[part] == nil {
		t.Fatalf("no child %q", part)
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self, args...)
	cmd.Env = append(os.Environ(), "APP_TEST_CHILD="+part)
	return cmd
}

// must ends a child that went wrong.
func must(err error) {
	if err != nil {
		fmt.Println("child:", err)
		os.Exit(3)
	}
}

// shop is a session over a real notebook in a process of its own, whose one
// goroutine is that of the interface.
type shop struct {
	*Session
	clock *fakeClock
	posts chan func()
}

// opens opens the notebook at path at an hour, with IDs that begin with name.
// Without simulated, the steps are those of the data sheets.
func opens(path, name string, at time.Time, simulated bool) (*shop, error) {
	n, err := storage.Open(path)
	if err != nil {
		return nil, err
	}
	return over(n, name, at, simulated)
}

// over opens a session over a store, as opens does over a notebook.
func over(n Store, name string, at time.Time, simulated bool) (*shop, error) {
	s := &shop{clock: &fakeClock{now: at}, posts: make(chan func(), 1000)}
	reckoner := Reckoner{Simulate: func(_ context.Context, p *model.Project, _ *model.Plan) (model.Curing, error) {
		return model.Curing{Project: p.ID}, nil
	}}
	if simulated {
		reckoner = Reckoner{}
	}
	reckoner.Widen = func(ctx context.Context, p *model.Project, _ *model.Plan, _ func(int, func(int))) (model.Curing, error) {
		<-ctx.Done() // the bands are not what is looked at
		return model.Curing{}, ctx.Err()
	}
	number := 0
	var err error
	s.Session, err = New(Options{Store: n, Clock: s.clock, Reckoner: reckoner, Post: func(f func()) { s.posts <- f }, NewID: func() string {
		number++
		return fmt.Sprintf("%s-%d", name, number)
	}})
	return s, err
}

// until does what is posted until something is so.
func (s *shop) until(what string, so func() bool) error {
	deadline := time.After(20 * time.Second)
	for !so() {
		select {
		case f := <-s.posts:
			f()
		case <-deadline:
			return fmt.Errorf("it never came to be that %s; saved: %+v", what, s.Snapshot().Saved)
		}
	}
	return nil
}

// kept waits until all is on the disk, and the newest plan and curing are in.
func (s *shop) kept() error {
	return s.until("all is kept and worked out", func() bool {
		shot := s.Snapshot()
		return shot.Open && !s.moving && !shot.Saved.Pending && shot.CuringFresh && len(shot.Project.Journal) == len(s.project.Journal) && shot.Project.Name == s.project.Name
	})
}
