package storage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"sync"
	"testing"
	"time"
)

func TestBackupWhileSaving(t *testing.T) {
	n := opened(t, tempPath(t))
	save(t, n, sample("a", 1, 300), 0, noon)
	var wg sync.WaitGroup
	wg.Go(func() {
		for i := range 50 {
			p := sample("a", i+2, 300)
			if _, err := n.Save(p, card(p, noon), i+1, false, "", noon); err != nil {
				t.Error(err)
			}
		}
	})
	dir := t.TempDir()
	for i := range 5 {
		to := filepath.Join(dir, fmt.Sprint(i, ".db"))
		if err := n.Backup(to); err != nil {
			t.Fatal(err)
		}
		checked(t, to)
	}
	wg.Wait()
	to := filepath.Join(dir, "4.db")
	if err := n.Backup(to); err != nil {
		t.Fatal(err)
	}
	copied := opened(t, to)
	got, r, err := copied.Load("a")
	if err != nil || r.Number != 51 || !reflect.DeepEqual(got, sample("a", 51, 300)) {
		t.Errorf("the copy replaced is at %v, %v", r, err)
	}
	info, err := os.Stat(to)
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
}

func TestBackupRefusals(t *testing.T) {
	n := opened(t, tempPath(t))
	if err := n.Backup(n.Path()); !errors.Is(err, ErrInvalid) {
		t.Errorf("over itself: %v", err)
	}
	dir := filepath.Join(t.TempDir(), "not there")
	if err := n.Backup(filepath.Join(dir, "copy.db")); err == nil {
		t.Error("into a folder that is not there")
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("the folder was made")
	}
}

func TestBackupOfDamagedRecordSaysSo(t *testing.T) {
	path := tempPath(t)
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 3 {
		save(t, n, sample("a", i+1, 3), i, noon)
	}
	spoil(t, n, []string{bucketProjects, "a", bucketBodies}, numberKey(2))
	to := filepath.Join(t.TempDir(), "copy.db")
	err = n.Backup(to)
	var trouble *Trouble
	if !errors.Is(err, ErrDamaged) || !errors.As(err, &trouble) || !trouble.Partial {
		t.Errorf("backup: %v", err)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	copied, err := Open(to)
	if err != nil {
		t.Fatal(err)
	}
	defer copied.Close()
	if _, r, err := copied.Load("a"); err != nil || r.Number != 3 {
		t.Errorf("the copy: %v, %v", r, err)
	}
}

func TestConcurrentUse(t *testing.T) {
	n := opened(t, tempPath(t))
	var wg sync.WaitGroup
	for _, id := range []string{"a", "b", "c"} {
		wg.Go(func() {
			for i := range 20 {
				p := sample(id, i+1, 30)
				if _, err := n.Save(p, card(p, noon), i, false, "", noon.Add(time.Duration(i))); err != nil {
					t.Error(err)
				}
				if i == 10 {
					n.suspect.Store(true)
				}
				if _, r, err := n.Load(id); err != nil || r.Number != i+1 {
					t.Errorf("%s at %v, %v", id, r, err)
				}
				if _, err := n.Cards(); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
}
