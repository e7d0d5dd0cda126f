package storage

import (
	"bufio"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"
)

// The child saves for ever and prints the number of each save that it was told
// is on the disk.
func init() {
	children["save"] = func(args []string) {
		n, err := Open(args[0])
		must(err)
		after := 0
		if _, r, err := n.Load("a"); err == nil {
			after = r.Number
		}
		for {
			p := sample("a", after+1, 20+after%7*60)
			e := entry(fmt.Sprint("e", after+1), noon)
			p.Journal = append(p.Journal, e)
			r, err := n.Save(p, card(p, noon), after, false, "", noon)
			must(err)
			fmt.Println(r.Number)
			after = r.Number
		}
	}
	children["create"] = func(args []string) {
		for i := 0; ; i++ {
			n, err := Open(filepath.Join(args[0], strconv.Itoa(i), "notebook.db"))
			must(err)
			must(n.Close())
			fmt.Println(i)
		}
	}
}

// killed runs a child until it printed at least one line and for a random
// while after that, kills it, and returns the last whole line.
func killed(t *testing.T, part string, args ...string) int {
	t.Helper()
	cmd := child(t, part, args...)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	last := -1
	r := bufio.NewReader(out)
	for {
		line, err := r.ReadString('\n')
		if err != nil {
			break
		}
		number, err := strconv.Atoi(strings.TrimSpace(line))
		if err != nil {
			t.Errorf("child: %s", line)
			continue
		}
		if last < 0 {
			time.AfterFunc(time.Duration(rand.IntN(60_000))*time.Microsecond, func() { _ = cmd.Process.Kill() })
		}
		last = number
	}
	_ = cmd.Wait()
	if last < 0 {
		t.Fatal("the child did nothing")
	}
	return last
}

func TestKilledWhileSaving(t *testing.T) {
	path := tempPath(t)
	for round := range 20 {
		last := killed(t, "save", path)
		n, err := Open(path)
		if err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		p, r, err := n.Load("a")
		if err != nil || r.Number < last || r.Number > last+1 {
			t.Fatalf("round %d: at %d after %d was kept; %v", round, r.Number, last, err)
		}
		if len(p.Journal) != r.Number {
			t.Errorf("round %d: %d journal entries of %d", round, len(p.Journal), r.Number)
		}
		p.Journal = nil
		if !reflect.DeepEqual(p, sample("a", r.Number, 20+(r.Number-1)%7*60)) {
			t.Errorf("round %d: revision %d differs", round, r.Number)
		}
		if err := errors.Join(n.Check(), n.Close()); err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
	}
}

func TestKilledWhileCreating(t *testing.T) {
	for range 4 {
		dir := t.TempDir()
		last := killed(t, "create", dir)
		for i := range last + 2 {
			path := filepath.Join(dir, strconv.Itoa(i), "notebook.db")
			if _, err := os.Stat(path); err != nil && i > last {
				continue
			}
			checked(t, path)
		}
	}
}
