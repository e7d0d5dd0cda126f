package storage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// readOnly mounts a file or folder over itself so that it may only be read, by
// root as well.
func readOnly(path string) {
	err := syscall.Mount("none", "/", "", syscall.MS_REC|syscall.MS_PRIVATE, "")
	if err == nil {
		err = syscall.Mount(path, path, "", syscall.MS_BIND, "")
	}
	if err == nil {
		err = syscall.Mount("none", path, "", syscall.MS_BIND|syscall.MS_REMOUNT|syscall.MS_RDONLY, "")
	}
	if err != nil {
		fmt.Println("no mount:", err)
		os.Exit(0)
	}
}

// The child works with a notebook on a disk, or in a file, that may only be read.
func init() {
	children["read-only disk"] = func(args []string) {
		path, only := args[0], args[1]
		readOnly(only)
		n, err := Open(path)
		must(err)
		p, r, err := n.Load("a")
		must(err)
		if !n.ReadOnly() || r.Number != 2 || p.Note != "version 2" {
			must(fmt.Errorf("it is at %v, read-only %t", r, n.ReadOnly()))
		}
		_, saved := n.Save(p, card(p, noon), 2, false, "", noon)
		_, shelved := n.SaveShelf(shelfOfState(1), false, "", noon)
		_, kept := n.PutPhoto(strings.NewReader(pngStart), 100)
		_, daily := n.KeepDaily(noon)
		refused := []error{
			saved, shelved, kept, daily, n.Turn("a", 1, card(p, noon)), n.PutSetting("x", 1),
			n.Restore(filepath.Join("testdata", "form-4.db"), noon),
		}
		for i, err := range refused {
			if !errors.Is(err, ErrReadOnly) || !strings.Contains(err.Error(), "may only be read") {
				must(fmt.Errorf("write %d says %w", i, err))
			}
		}
		if done, err := n.Compact(); done || err != nil {
			must(fmt.Errorf("compacted %t, %w", done, err))
		}
		if only != path { // the folder
			if err := n.Backup(filepath.Join(only, "copy.db")); !errors.Is(err, ErrReadOnly) || !strings.Contains(err.Error(), "may not be written") {
				must(fmt.Errorf("a copy there says %w", err))
			}
			if _, err := Open(filepath.Join(only, "new.db")); !errors.Is(err, ErrNoAccess) || !strings.Contains(err.Error(), "its folder may not be written") {
				must(fmt.Errorf("a new one there says %w", err))
			}
		}
		must(errors.Join(n.Check(), n.Close()))
		fmt.Println("read")
	}
}

// TestTortureReadOnly: in a folder, or in a file, that may only be read all can be
// looked at, every write is refused in words, and no byte changes. Mounted so for
// the child alone; as another user without rights see TestReadOnly.
func TestTortureReadOnly(t *testing.T) {
	for _, what := range []string{"folder", "file"} {
		path := tempPath(t)
		n, err := Open(path)
		if err != nil {
			t.Fatal(err)
		}
		save(t, n, sample("a", 1, 3), 0, noon)
		save(t, n, sample("a", 2, 3), 1, noon)
		if err := n.Close(); err != nil {
			t.Fatal(err)
		}
		before, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		only := path
		if what == "folder" {
			only = filepath.Dir(path)
		}
		cmd := child(t, "read-only disk", path, only)
		apart(cmd)
		out := lines(t, cmd)
		if len(out) == 1 && strings.HasPrefix(out[0], "no mount") {
			t.Skip("nothing may be mounted here: ", out[0])
		}
		if after, err := os.ReadFile(path); len(out) != 1 || out[0] != "read" || err != nil || string(after) != string(before) {
			t.Errorf("%s: it says %q; the file differs: %t, %v", what, out, string(after) != string(before), err)
		}
	}
}
