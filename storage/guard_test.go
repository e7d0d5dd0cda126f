package storage

import (
	"errors"
	"os"
	"testing"

	bolt "go.etcd.io/bbolt"
)

func TestPanicInWriteIsSurvived(t *testing.T) {
	path := tempPath(t)
	n := opened(t, path)
	save(t, n, sample("a", 1, 3), 0, noon)
	err := n.update(func(tx *bolt.Tx) error {
		if err := tx.DeleteBucket([]byte(bucketProjects)); err != nil {
			return err
		}
		panic("as bbolt does on a broken page")
	})
	if !errors.Is(err, ErrDamaged) {
		t.Errorf("error: %v", err)
	}
	if _, err := os.Stat(path); err != nil {
		t.Fatal(err)
	}
	if r := save(t, n, sample("a", 2, 3), 1, noon); r.Number != 2 {
		t.Errorf("saved as %v", r)
	}
}

func TestPanicInReadIsSurvived(t *testing.T) {
	n := opened(t, tempPath(t))
	err := n.view(func(*bolt.Tx) error { panic("as bbolt does on a broken page") })
	if !errors.Is(err, ErrDamaged) {
		t.Errorf("error: %v", err)
	}
	save(t, n, sample("a", 1, 3), 0, noon)
}

// A file that passes no preflight makes bbolt panic in Open; the lock must be
// free afterwards.
func TestPanicInOpenGivesTheLockBack(t *testing.T) {
	path := tempPath(t)
	whole := filled(t)
	if err := os.WriteFile(path, whole[:8192], 0o600); err != nil {
		t.Fatal(err)
	}
	n := &Notebook{path: path}
	f, _, err := n.lock()
	if err != nil {
		t.Fatal(err)
	}
	db, err := n.bolt(f, false)
	if err == nil {
		_ = db.Close()
		t.Fatal("bbolt opened it")
	}
	if !errors.Is(err, ErrDamaged) {
		t.Errorf("error: %v", err)
	}
	if err := os.WriteFile(path, whole, 0o600); err != nil {
		t.Fatal(err)
	}
	m, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := m.Close(); err != nil {
		t.Error(err)
	}
}

func TestWriteAfterLostFile(t *testing.T) {
	n := opened(t, tempPath(t))
	p := sample("a", 1, 3)
	save(t, n, p, 0, noon)
	_ = n.file.Close()
	if _, err := n.Save(p, card(p, noon), 1, false, "", noon); !errors.Is(err, ErrFailed) {
		t.Errorf("error: %v", err)
	}
	if r := save(t, n, p, 1, noon); r.Number != 2 {
		t.Errorf("saved as %v", r)
	}
}

// A disk that went read-only while the notebook was open, and came back: writes
// are refused in words meanwhile, and go on then.
func TestDiskReadOnlyForAWhile(t *testing.T) {
	n := opened(t, tempPath(t))
	p := sample("a", 1, 3)
	save(t, n, p, 0, noon)
	n.reader = true // as if the file could not be opened for writing any more
	n.suspect.Store(true)
	for range 2 {
		if _, err := n.Save(p, card(p, noon), 1, false, "", noon); !errors.Is(err, ErrReadOnly) || !n.ReadOnly() {
			t.Errorf("error: %v", err)
		}
	}
	n.reader = false
	if r := save(t, n, p, 1, noon); r.Number != 2 || n.ReadOnly() {
		t.Errorf("saved as %v", r)
	}
}
