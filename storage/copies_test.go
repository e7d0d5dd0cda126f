package storage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"
)

func TestKeepDaily(t *testing.T) {
	path := tempPath(t)
	n := opened(t, path)
	save(t, n, sample("a", 1, 3), 0, noon)
	for i := range 60 {
		at := noon.Add(time.Duration(i) * day)
		for _, want := range []bool{true, false} {
			if made, err := n.KeepDaily(at); made != want || err != nil {
				t.Fatalf("day %d: %t, %v", i, made, err)
			}
		}
	}
	list, err := Copies(path)
	if err != nil || len(list) != 11 {
		t.Fatalf("%d copies, %v", len(list), err)
	}
	var days []string
	for _, name := range list {
		days = append(days, strings.TrimSuffix(strings.TrimPrefix(filepath.Base(name), "notebook-"), ".db"))
	}
	slices.Sort(days)
	// 60 days from Wednesday 2026-11-25 end on Saturday 2027-01-23; the seven
	// days before begin on Sunday the 17th, the week before that ends on the 16th.
	want := []string{"2026-12-27", "2027-01-03", "2027-01-10", "2027-01-16", "2027-01-17", "2027-01-18", "2027-01-19", "2027-01-20", "2027-01-21", "2027-01-22", "2027-01-23"}
	if !slices.Equal(days, want) {
		t.Errorf("kept %q, want %q", days, want)
	}
}

func TestRestore(t *testing.T) {
	path := tempPath(t)
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	save(t, n, sample("a", 1, 3), 0, noon)
	if _, err := n.KeepDaily(noon); err != nil {
		t.Fatal(err)
	}
	save(t, n, sample("a", 2, 3), 1, noon)
	list, err := Copies(path)
	if err != nil || len(list) != 1 {
		t.Fatal(list, err)
	}
	if err := Restore(path, list[0], noon); !errors.Is(err, ErrInUse) {
		t.Errorf("while it is open: %v", err)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	raw, err := os.ReadFile(list[0])
	if err != nil {
		t.Fatal(err)
	}
	bad := filepath.Join(t.TempDir(), "bad.db")
	for size, flip := range map[int]bool{len(raw): true, len(raw) / 2: false, 0: false} {
		spoilt := slices.Clone(raw[:size])
		if flip {
			at := strings.LastIndex(string(spoilt), "Board a")
			spoilt[at] = 'X'
		}
		if err := os.WriteFile(bad, spoilt, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := Restore(path, bad, noon); !errors.Is(err, ErrDamaged) {
			t.Errorf("a bad copy of %d bytes: %v", size, err)
		}
	}
	if list, _ := Copies(path); len(list) != 1 {
		t.Errorf("refusals left %q", list)
	}
	if err := os.Truncate(path, 9000); err != nil {
		t.Fatal(err)
	}
	if err := Restore(path, list[0], noon); err != nil {
		t.Fatal(err)
	}
	n = opened(t, path)
	if p, r, err := n.Load("a"); err != nil || r.Number != 1 || !reflect.DeepEqual(p, sample("a", 1, 3)) {
		t.Errorf("restored: %v, %v", r, err)
	}
	aside := filepath.Join(filepath.Dir(path), "backups", "set-aside-2026-11-25T120000.000Z.db")
	if info, err := os.Stat(aside); err != nil || info.Size() != 9000 {
		t.Errorf("set aside: %v, %v", info, err)
	}
}

// The child restores over and over.
func init() {
	children["restore"] = func(args []string) {
		for i := 0; ; i++ {
			must(Restore(args[0], args[1], noon.Add(time.Duration(i)*time.Second)))
			fmt.Println(i)
		}
	}
}

func TestKilledWhileRestoring(t *testing.T) {
	path := tempPath(t)
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	save(t, n, sample("a", 1, 3), 0, noon)
	from := filepath.Join(t.TempDir(), "copy.db")
	if err := errors.Join(n.Backup(from), n.Close()); err != nil {
		t.Fatal(err)
	}
	for range 4 {
		killed(t, "restore", path, from)
		if err := os.RemoveAll(backupFolder(path)); err != nil {
			t.Fatal(err)
		}
		n, err := Open(path)
		if err != nil {
			t.Fatal(err)
		}
		if _, r, err := n.Load("a"); err != nil || r.Number != 1 {
			t.Errorf("%v, %v", r, err)
		}
		if err := errors.Join(n.Check(), n.Close()); err != nil {
			t.Error(err)
		}
	}
}
