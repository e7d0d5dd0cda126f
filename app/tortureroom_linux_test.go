package app

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// leave fills the disk at dir but for so many pages; -1 makes room again.
func leave(dir string, pages int64) {
	ballast := filepath.Join(dir, "ballast")
	if pages < 0 {
		must(os.Remove(ballast))
		return
	}
	f, err := os.Create(ballast)
	must(err)
	var disk syscall.Statfs_t
	must(syscall.Statfs(dir, &disk))
	must(errors.Join(syscall.Fallocate(int(f.Fd()), 0, 0, (int64(disk.Bavail)-pages)*disk.Bsize), f.Close()))
}

// atBench is what a maker enters while the disk is full.
func atBench(s *shop) []func() error {
	layer := s.project.Layers[0].ID
	return []func() error{
		func() error { s.Enter("note", longNote); return nil },
		func() error { return s.AddNote("the disk is full") },
		func() error { s.Enter("mold/depth", "12 paces"); return nil },
		func() error {
			return s.EditShelf("Add a tint", "", func(m *model.Shelf) error { m.AddTint(); m.Tints[0].Name = longNote; return nil })
		},
		func() error { return s.StartPour(layer) },
		func() error { s.Enter("name", "Poppies for the hall"); return nil },
		func() error { return s.AddReading(layer, "20.5", "27", time.Time{}) },
	}
}

// enteredWith enters all that with so many pages free, makes room, and tells
// whether the disk was full. Nothing of it may be missing then.
func enteredWith(root, from string, pages int64) bool {
	path := filepath.Join(root, fmt.Sprint("at", pages), "n.db")
	raw, err := os.ReadFile(from)
	must(err)
	must(errors.Join(os.MkdirAll(filepath.Dir(path), 0o700), os.WriteFile(path, raw, 0o600)))
	s, err := opens(path, fmt.Sprint("k", pages), pourDay, false)
	must(err)
	s.Open(s.Snapshot().Cards[0].ID)
	must(errors.Join(s.until("it is open", func() bool { return s.Snapshot().Open }), s.kept()))
	leave(root, pages)
	full := false
	for _, enter := range atBench(s) {
		s.clock.advance(time.Minute)
		must(enter())
		must(s.until("it is kept or not", func() bool {
			return !s.Snapshot().Saved.Pending || s.Snapshot().Saved.What != "" && !s.saves[0].flying
		}))
		if saved := s.Snapshot().Saved; saved.What != "" {
			full = true
			if !saved.Pending || !strings.Contains(saved.What, "no room") || !strings.Contains(saved.Do, "Make room") {
				must(fmt.Errorf("with %d pages it says %+v", pages, saved))
			}
		}
	}
	leave(root, -1)
	s.clock.advance(retryAfter)
	s.tick(s.Now())
	must(s.until("all is kept", func() bool { return !s.Snapshot().Saved.Pending }))
	if what := s.Snapshot().Saved.What; what != "" {
		must(fmt.Errorf("with %d pages, and room again, it says %s", pages, what))
	}
	project, shelf := digestOf(s.project), digestOfShelf(s.shelf.now)
	must(s.Close())
	got, err := found(path, "")
	must(err)
	if got["project/"+s.project.ID] != project || got["shelf"] != shelf {
		must(fmt.Errorf("with %d pages something entered is missing", pages))
	}
	must(os.RemoveAll(filepath.Dir(path)))
	return full
}

func init() {
	children["room for a few"] = func(args []string) {
		root := args[0]
		err := syscall.Mount("none", "/", "", syscall.MS_REC|syscall.MS_PRIVATE, "")
		if err == nil {
			err = syscall.Mount("none", root, "tmpfs", 0, "size=32m")
		}
		if err != nil {
			fmt.Println("no disk:", err)
			return
		}
		var step int64
		_, err = fmt.Sscan(args[1], &step)
		must(err)
		s, err := demoOpened(filepath.Join(root, "demo"), pourDay, false)
		must(err)
		from := filepath.Join(root, "demo.db") // without the tail that bbolt takes in advance
		must(errors.Join(s.store.(*storage.Notebook).Backup(from), s.Close()))
		times, through := 0, 0
		for pages := int64(0); through < 3; pages += step {
			if enteredWith(root, from, pages) {
				times, through = times+1, 0
			} else {
				through++
			}
		}
		fmt.Println(times)
	}
}

// TestTortureFullBench: the disk has room for 0, 1, 2, ... pages while a maker
// works. Each time it is said, all that is entered stays, and once there is room it
// is kept by itself.
func TestTortureFullBench(t *testing.T) {
	cmd := child(t, "room for a few", t.TempDir(), fmt.Sprint(tortureCount(1, 3, 6)))
	cmd.SysProcAttr = &syscall.SysProcAttr{Cloneflags: syscall.CLONE_NEWNS}
	if os.Getuid() != 0 { // who is root among users of his own
		cmd.SysProcAttr.Cloneflags |= syscall.CLONE_NEWUSER
		cmd.SysProcAttr.UidMappings = []syscall.SysProcIDMap{{HostID: os.Getuid(), Size: 1}}
		cmd.SysProcAttr.GidMappings = []syscall.SysProcIDMap{{HostID: os.Getgid(), Size: 1}}
	}
	out, err := cmd.CombinedOutput()
	said := strings.TrimSpace(string(out))
	var times int
	switch _, bad := fmt.Sscan(said, &times); {
	case strings.HasPrefix(said, "no disk"):
		t.Skip("nothing may be mounted here: ", said)
	case err != nil || bad != nil || times == 0:
		t.Fatalf("%v: %s", err, said)
	}
	t.Logf("the disk was full %d times", times)
}
