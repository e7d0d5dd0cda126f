package storage

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strings"
	"syscall"
	"testing"
	"time"

	"meniscus/model"
)

// apart has a child run with mounts of its own, which go with it: as root, or as
// a user who is root among users of his own.
func apart(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Cloneflags: syscall.CLONE_NEWNS}
	if os.Getuid() != 0 {
		cmd.SysProcAttr.Cloneflags |= syscall.CLONE_NEWUSER
		cmd.SysProcAttr.UidMappings = []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getuid(), Size: 1}}
		cmd.SysProcAttr.GidMappings = []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getgid(), Size: 1}}
	}
}

// diskAt mounts a disk of so many MB at dir, which is in memory and as full as
// one likes. Where none may be mounted the child says so and ends.
func diskAt(dir string, megabytes int) {
	err := syscall.Mount("none", "/", "", syscall.MS_REC|syscall.MS_PRIVATE, "")
	if err == nil {
		err = syscall.Mount("none", dir, "tmpfs", 0, fmt.Sprintf("size=%dm", megabytes))
	}
	if err != nil {
		fmt.Println("no disk:", err)
		os.Exit(0)
	}
}

// leave fills the disk at dir but for so many pages.
func leave(dir string, pages int) {
	ballast := filepath.Join(dir, "ballast")
	f, err := os.OpenFile(ballast, os.O_CREATE|os.O_RDWR|os.O_TRUNC, 0o600)
	must(err)
	var disk syscall.Statfs_t
	must(syscall.Statfs(dir, &disk))
	must(syscall.Fallocate(int(f.Fd()), 0, 0, (int64(disk.Bavail)-int64(pages))*disk.Bsize))
	must(f.Close())
}

// room makes room on the disk at dir again.
func room(dir string) { must(os.Remove(filepath.Join(dir, "ballast"))) }

// fullAct is one kind of write on a notebook in a folder.
type fullAct struct {
	name string
	from string // what the notebook is a copy of
	do   func(n *Notebook) error
	open bool // it is the opening that writes
}

// fullActs are all kinds of write of a notebook that holds filling.
func fullActs(small, roomy, old string) []fullAct {
	const id = "project-07"
	p := sample(id, 99, 1200)
	p.Journal = []model.Entry{entry("e9", noon)}
	state := func(amend bool) func(n *Notebook) error {
		return func(n *Notebook) error { _, err := n.Save(p, card(p, noon), 1, amend, "Change", noon); return err }
	}
	return []fullAct{
		{"new notebook", "", nil, true},
		{"older form", old, nil, true},
		{"edit", small, state(false), false},
		{"amended edit", small, state(true), false},
		{"new project", small, func(n *Notebook) error {
			q := sample("another", 1, 900)
			_, err := n.Save(q, card(q, noon), 0, false, "New", noon)
			return err
		}, false},
		{"undo", small, func(n *Notebook) error { return n.Turn(id, 1, card(sample(id, 7, 3), noon)) }, false},
		{"running clock", small, func(n *Notebook) error {
			return n.PutRunning(map[string]model.Running{id: {Zone: strings.Repeat("zone", 3000)}})
		}, false},
		{"shelf", small, func(n *Notebook) error { _, err := n.SaveShelf(shelfOfState(2), false, "Change", noon); return err }, false},
		{"undo of the shelf", small, func(n *Notebook) error { _, err := n.TurnShelf(1); return err }, false},
		{"setting", small, func(n *Notebook) error { return n.PutSetting("window", strings.Repeat("x", 3000)) }, false},
		{"photo", small, func(n *Notebook) error {
			_, err := n.PutPhoto(strings.NewReader(pngStart+strings.Repeat("x", 60<<10)), 1<<20)
			return err
		}, false},
		{"copy of the day", small, func(n *Notebook) error { _, err := n.KeepDaily(noon); return err }, false},
		{"second copy", small, func(n *Notebook) error {
			_, err := n.KeepAway(filepath.Join(filepath.Dir(n.path), "stick"), noon, true)
			return err
		}, false},
		{"restore", small, func(n *Notebook) error { return n.Restore(old, noon) }, false},
		{"compaction", roomy, func(n *Notebook) error {
			done, err := n.Compact()
			if err == nil && !done {
				return trouble(ErrDiskFull, nil, "", "not done, left for another time, in %s", filepath.Dir(n.path))
			}
			return err
		}, false},
	}
}

// fails tries one kind with so many pages free, and tells whether it failed. Then
// it must have said so and changed nothing, and with room again it must go on.
func (a fullAct) fails(t *testing.T, root string, pages int) bool {
	dir := filepath.Join(root, "at", fmt.Sprint(pages))
	path := filepath.Join(dir, "n.db")
	must(os.MkdirAll(filepath.Join(dir, "stick"), 0o700))
	if a.from != "" {
		raw, err := os.ReadFile(a.from)
		must(err)
		must(os.WriteFile(path, raw, 0o600))
	}
	var n *Notebook
	var before map[string]any
	var err error
	if !a.open {
		n, err = Open(path, quick)
		must(err)
		before = world(t, n)
	}
	leave(root, pages)
	if a.open {
		n, err = Open(path, quick)
	} else {
		err = a.do(n)
	}
	room(root)
	failed := err != nil
	if failed && (!errors.Is(err, ErrDiskFull) || !strings.Contains(err.Error(), dir)) {
		must(fmt.Errorf("%s with %d pages: it says %w", a.name, pages, err))
	}
	if failed && !a.open {
		if now := world(t, n); !reflect.DeepEqual(now, before) {
			must(fmt.Errorf("%s with %d pages: it failed, and something differs", a.name, pages))
		}
		must(n.PutSetting("on again", pages))
		if err := a.do(n); err != nil {
			must(fmt.Errorf("%s with %d pages, and room again: %w", a.name, pages, err))
		}
	}
	if failed && a.open {
		n, err = Open(path, quick)
		must(err)
	}
	if err := errors.Join(n.Check(), n.Close()); err != nil {
		must(fmt.Errorf("%s with %d pages: %w", a.name, pages, err))
	}
	_ = filepath.WalkDir(dir, func(name string, _ fs.DirEntry, _ error) error {
		if strings.Contains(name, part) {
			must(fmt.Errorf("%s with %d pages: left behind %s", a.name, pages, name))
		}
		return nil
	})
	must(os.RemoveAll(dir))
	return failed
}

// The child fills a disk of its own at every page in turn.
func init() {
	children["full at every write"] = func(args []string) {
		var step int
		_, err := fmt.Sscan(args[1], &step)
		must(err)
		root := args[0]
		diskAt(root, 96)
		t, dice := &testing.T{}, rand.New(rand.NewPCG(1, 1))
		small, roomyAt, old := filepath.Join(root, "small.db"), filepath.Join(root, "roomy.db"), filepath.Join(root, "old.db")
		n, err := Open(small, quick)
		must(err)
		for _, p := range filling() {
			save(t, n, p, 0, noon)
		}
		_, err = n.SaveShelf(shelfOfState(1), false, "Change", noon)
		// With no free page in it, so that each write needs some.
		tight := &Notebook{path: filepath.Join(root, "tight.db")}
		must(errors.Join(err, pack(tight.path, n.db), tight.settle(), n.Close(), os.Rename(tight.path, small)))
		must(duplicate(small, roomyAt, nil))
		n, err = Open(roomyAt, quick)
		must(err)
		filler := make([]byte, 4_500_000) // written and taken out again it leaves room that is free
		for i := range filler {
			filler[i] = byte(dice.Uint32())
		}
		must(errors.Join(n.PutSetting("filler", filler), n.PutSetting("filler", 1), n.PutSetting("filler", 2), n.PutSetting("filler", 3), n.Close()))
		raw, err := os.ReadFile("testdata/form-2.db")
		must(err)
		must(os.WriteFile(old, raw, 0o600))
		for _, a := range fullActs(small, roomyAt, old) {
			failed, through := 0, 0
			for pages := 0; through < 3; pages += step {
				if a.fails(t, root, pages) {
					failed, through = failed+1, 0
				} else {
					through++
				}
			}
			fmt.Printf("%s: %d\n", a.name, failed)
		}
	}
}

// TestTortureFull: the disk, a real one in memory, is full at every page in turn
// of every kind of write. Each time that is said in words, nothing differs, and
// with room again it goes on.
func TestTortureFull(t *testing.T) {
	cmd := child(t, "full at every write", t.TempDir(), fmt.Sprint(tortureCount(1, 25, 60)))
	apart(cmd)
	late := time.AfterFunc(20*time.Minute, func() { _ = cmd.Process.Kill() })
	defer late.Stop()
	out := lines(t, cmd)
	if len(out) == 1 && strings.HasPrefix(out[0], "no disk") {
		t.Skip("nothing may be mounted here: ", out[0])
	}
	if len(out) != 15 {
		t.Errorf("of 15 kinds: %q", out)
	}
	all := 0
	for _, line := range out {
		var failed int
		if _, err := fmt.Sscan(line[strings.LastIndex(line, " ")+1:], &failed); err != nil || failed == 0 {
			t.Errorf("child: %s", line)
		}
		all += failed
	}
	t.Logf("disk full %d times: %s", all, strings.Join(out, "; "))
}
