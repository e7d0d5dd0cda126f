package app

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// fullDisk is a notebook in which nothing can be saved while full is set.
type fullDisk struct {
	*storage.Notebook
	full atomic.Bool
}

func (f *fullDisk) Save(p model.Project, card model.Card, after int, amend bool, label string, at time.Time) (model.Revision, error) {
	if f.full.Load() {
		return model.Revision{}, errors.New("no room on the disk")
	}
	return f.Notebook.Save(p, card, after, amend, label, at)
}

// TestWhatCouldNotBeKeptIsWrittenAside quits on a full disk: the last changes
// are in a file that can be imported, which the error names.
func TestWhatCouldNotBeKeptIsWrittenAside(t *testing.T) {
	dir := t.TempDir()
	notebook, err := storage.Open(filepath.Join(dir, "n.db"))
	if err != nil {
		t.Fatal(err)
	}
	disk := &fullDisk{Notebook: notebook}
	posts := make(chan func(), 100)
	s, err := New(Options{Store: disk, Clock: &fakeClock{now: time.Now()}, Post: func(f func()) { posts <- f }, NewID: func() string { return "tray" }})
	if err != nil {
		t.Fatal(err)
	}
	s.Create("Tray")
	for !s.Snapshot().Open {
		(<-posts)()
	}
	disk.full.Store(true)
	s.Enter("mold/depth", "30 mm")
	err = s.CloseAside(filepath.Join(dir, "not there"), dir)
	list, _ := filepath.Glob(filepath.Join(dir, "meniscus-not-kept-*.json"))
	if len(list) != 1 || err == nil || !strings.Contains(err.Error(), list[0]) || !strings.Contains(err.Error(), "no room") {
		t.Fatalf("%v written aside; it says %v", list, err)
	}
	data, err := os.ReadFile(list[0])
	if err != nil {
		t.Fatal(err)
	}
	p, err := model.Import(data)
	if err != nil {
		t.Fatal(err)
	}
	if text, _ := model.Show(&p, "mold/depth"); p.Name != "Tray" || text != "30 mm" {
		t.Errorf("in it: %s, depth %q", p.Name, text)
	}
	if info, err := os.Stat(list[0]); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("others may read it: %v", info.Mode())
	}
}
