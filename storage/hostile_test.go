package storage

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"
)

// hostile is what opening each file of testdata/hostile must say.
var hostile = map[string]struct {
	kind   error
	reason string
}{
	"empty.db":      {ErrDamaged, "no valid first page"},
	"text.db":       {ErrDamaged, "no valid first page"},
	"cut-off.db":    {ErrDamaged, "cut off"},
	"first-8k.db":   {ErrDamaged, "cut off"},
	"zero-page.db":  {ErrDamaged, "page"},
	"loop.db":       {ErrDamaged, "page"},
	"other.db":      {ErrDamaged, "another program"},
	"newer-form.db": {ErrNewer, "form 9"},
}

func TestHostileFiles(t *testing.T) {
	if *update {
		writeHostile(t)
	}
	for name, want := range hostile {
		raw, err := os.ReadFile(filepath.Join("../testdata/hostile", name))
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(path, raw, 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := Open(path); !errors.Is(err, want.kind) || !strings.Contains(err.Error(), want.reason) {
			t.Errorf("%s: %v", name, err)
		}
		if after, err := os.ReadFile(path); err != nil || !bytes.Equal(raw, after) {
			t.Errorf("%s was changed, %v", name, err)
		}
		if err := Restore(tempPath(t), path, noon); !errors.Is(err, want.kind) {
			t.Errorf("restoring %s: %v", name, err)
		}
	}
}

// writeHostile makes the files anew.
func writeHostile(t *testing.T) {
	t.Helper()
	make := func(opts ...Option) []byte {
		path := tempPath(t)
		n, err := Open(path, append(opts, quick)...)
		if err != nil {
			t.Fatal(err)
		}
		for i := range 3 {
			save(t, n, sample("a", i+1, 3), i, noon)
		}
		if err := n.Close(); err != nil {
			t.Fatal(err)
		}
		raw, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		return raw
	}
	good := make()
	m, err := newestMeta(bytes.NewReader(good), int64(len(good)))
	if err != nil {
		t.Fatal(err)
	}
	root := int(m.root) * int(m.pageSize)
	zero, loop := bytes.Clone(good), bytes.Clone(good)
	clear(zero[root : root+int(m.pageSize)])
	// A branch page whose one child is itself.
	page := loop[root : root+int(m.pageSize)]
	clear(page[8:])
	page[8], page[10] = pageBranch, 1
	page[pageHead], page[pageHead+4] = elementSize, 1
	page[pageHead+8] = byte(m.root)
	page[pageHead+elementSize] = 'a'
	other := filepath.Join(t.TempDir(), "other.db")
	db, err := bolt.Open(other, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *bolt.Tx) error {
		_, err := tx.CreateBucket([]byte("things"))
		return err
	})
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	foreign, err := os.ReadFile(other)
	if err != nil {
		t.Fatal(err)
	}
	for name, raw := range map[string][]byte{
		"empty.db": {}, "text.db": bytes.Repeat([]byte("This is no notebook.\n"), 500),
		"cut-off.db": good[:len(good)/2], "first-8k.db": good[:8192], "zero-page.db": zero, "loop.db": loop,
		"other.db": foreign, "newer-form.db": make(later(9)),
	} {
		if err := os.WriteFile(filepath.Join("../testdata/hostile", name), raw, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
