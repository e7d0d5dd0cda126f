//go:build linux

package storage

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"reflect"
	"strings"
	"syscall"
	"testing"
)

// largestFile sets the largest file that this process may write.
func largestFile(bytes uint64) {
	var l syscall.Rlimit
	must(syscall.Getrlimit(syscall.RLIMIT_FSIZE, &l))
	l.Cur = min(bytes, l.Max)
	must(syscall.Setrlimit(syscall.RLIMIT_FSIZE, &l))
}

// The child saves until there is no room, then makes room and goes on.
func init() {
	children["full"] = func(args []string) {
		signal.Ignore(syscall.SIGXFSZ)
		path := args[0]
		n, err := Open(path)
		must(err)
		largestFile(300 << 10)
		after := 0
		for {
			p := sample("a", after+1, 400)
			r, err := n.Save(p, card(p, noon), after, false, "", noon)
			if err != nil {
				if !errors.Is(err, ErrDiskFull) || !strings.Contains(err.Error(), path) {
					must(fmt.Errorf("not a full disk in words: %w", err))
				}
				break
			}
			after = r.Number
			if after > 10_000 {
				must(errors.New("the disk is never full"))
			}
		}
		for number := 1; number <= after; number++ {
			if p, err := n.At("a", number); err != nil || !reflect.DeepEqual(p, sample("a", number, 400)) {
				must(fmt.Errorf("revision %d: %w", number, err))
			}
		}
		if _, err := n.PutPhoto(strings.NewReader(pngStart+strings.Repeat("x", 400<<10)), 1<<20); !errors.Is(err, ErrDiskFull) {
			must(fmt.Errorf("photo: %w", err))
		}
		largestFile(100 << 10)
		to := filepath.Join(filepath.Dir(path), "copy.db")
		if err := n.Backup(to); !errors.Is(err, ErrDiskFull) {
			must(fmt.Errorf("backup: %w", err))
		}
		if _, err := os.Stat(to); err == nil {
			must(errors.New("a partial copy got its name"))
		}
		largestFile(1 << 40)
		p := sample("a", after+1, 400)
		r, err := n.Save(p, card(p, noon), after, false, "", noon)
		must(err)
		must(n.Check())
		must(n.Close())
		fmt.Println(r.Number)
	}
	children["full at first"] = func(args []string) {
		signal.Ignore(syscall.SIGXFSZ)
		for _, size := range []uint64{0, 4096, 8192, 12288, 16384, 20480} {
			largestFile(size)
			n, err := Open(args[0])
			if err == nil {
				must(n.Close())
				must(os.Remove(args[0]))
				continue
			}
			if !errors.Is(err, ErrDiskFull) {
				must(fmt.Errorf("at %d: %w", size, err))
			}
			left, err := os.ReadDir(filepath.Dir(args[0]))
			must(err)
			if len(left) > 0 {
				must(fmt.Errorf("at %d: left behind %v", size, left))
			}
		}
		largestFile(1 << 40)
		n, err := Open(args[0])
		must(err)
		must(n.Close())
	}
}

func TestDiskFull(t *testing.T) {
	path := tempPath(t)
	out := lines(t, child(t, "full", path))
	n := opened(t, path)
	_, r, err := n.Load("a")
	if err != nil || len(out) != 1 || out[0] != fmt.Sprint(r.Number) || r.Number < 5 {
		t.Errorf("at %v, child said %q; %v", r, out, err)
	}
	left, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".*"))
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %q, %v", left, err)
	}
}

func TestDiskFullAtFirst(t *testing.T) {
	path := tempPath(t)
	lines(t, child(t, "full at first", path))
	opened(t, path)
}

// nobody is a user without any rights.
const nobody = 65534

// The child works as a user who may not write.
func init() {
	children["read only"] = func(args []string) {
		if os.Getuid() == 0 {
			must(syscall.Setgroups(nil))
			must(syscall.Setgid(nobody))
			must(syscall.Setuid(nobody))
		}
		n, err := Open(args[0])
		must(err)
		if !n.ReadOnly() {
			must(errors.New("it is not read-only"))
		}
		p, r, err := n.Load("a")
		must(err)
		cards, err := n.Cards()
		must(err)
		if r.Number != 2 || len(cards) != 1 || p.Note != "version 2" {
			must(fmt.Errorf("read %v, %v", r, cards))
		}
		_, err = n.Save(p, card(p, noon), 2, false, "", noon)
		refused := []error{err, n.Turn("a", 1, cards[0]), n.PutSetting("x", 1)}
		_, err = n.PutPhoto(strings.NewReader(pngStart), 100)
		for i, err := range append(refused, err) {
			if !errors.Is(err, ErrReadOnly) {
				must(fmt.Errorf("write %d: %w", i, err))
			}
		}
		to, err := os.MkdirTemp("", "copy")
		must(err)
		defer os.RemoveAll(to)
		must(n.Backup(filepath.Join(to, "copy.db")))
		must(n.Check())
		must(n.Close())
		if _, err := Open(filepath.Join(filepath.Dir(args[0]), "new.db")); !errors.Is(err, ErrNoAccess) {
			must(fmt.Errorf("a new one: %w", err))
		}
		_, err = Open(args[1])
		if !errors.Is(err, ErrNoAccess) {
			must(fmt.Errorf("an unreadable one: %w", err))
		}
	}
}

func TestReadOnly(t *testing.T) {
	// The child as another user must get through all folders above.
	dir, err := os.MkdirTemp("", "read-only")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "notebook.db")
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	save(t, n, sample("a", 1, 3), 0, noon)
	save(t, n, sample("a", 2, 3), 1, noon)
	hidden := filepath.Join(dir, "hidden.db")
	err = errors.Join(n.Close(), os.WriteFile(hidden, nil, 0o600), os.Chmod(hidden, 0),
		os.Chmod(path, 0o444), os.Chmod(dir, 0o555))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := errors.Join(os.Chmod(dir, 0o700), os.RemoveAll(dir)); err != nil {
			t.Error(err)
		}
	})
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	lines(t, child(t, "read only", path, hidden))
	if after, err := os.ReadFile(path); err != nil || string(after) != string(before) {
		t.Errorf("the file was changed: %v", err)
	}
}
