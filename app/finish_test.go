package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"meniscus/model"
)

// TestWhatCouldNotBeKeptIsWrittenAside quits on a full disk: the last changes
// are in a file that can be imported, which the error names.
func TestWhatCouldNotBeKeptIsWrittenAside(t *testing.T) {
	dir := t.TempDir()
	var disk *failing
	b := newBench(t, filepath.Join(dir, "n.db"), func(s Store) Store { disk = &failing{Store: s}; return disk })
	b.Create("Tray")
	b.settle()
	disk.mu.Lock()
	disk.full = true
	disk.mu.Unlock()
	b.Enter("mold/depth", "30 mm")
	err := b.CloseAside(filepath.Join(dir, "not there"), dir)
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

// TestShelfThatCouldNotBeKeptIsWrittenAside quits on a full disk with changes of
// the shelf alone, with and without an open project, and with changes of both:
// each is in a file of its own, which the error names, and nothing else is.
func TestShelfThatCouldNotBeKeptIsWrittenAside(t *testing.T) {
	for _, c := range []struct{ open, edited bool }{{false, false}, {true, false}, {true, true}} {
		dir := t.TempDir()
		var disk *failing
		b := newBench(t, filepath.Join(dir, "n.db"), func(s Store) Store { disk = &failing{Store: s}; return disk })
		if c.open {
			b.Create("Tray")
			b.settle()
		}
		disk.fill(true)
		if c.edited {
			b.Enter("mold/depth", "30 mm")
		}
		if err := b.EditShelf("Add a tint", "", func(m *model.Shelf) error {
			m.AddTint()
			m.Tints[0].Name = "Moss of the north wall"
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		err := b.CloseAside(filepath.Join(dir, "not there"), dir)
		projects, _ := filepath.Glob(filepath.Join(dir, "meniscus-not-kept-*.json"))
		shelves, _ := filepath.Glob(filepath.Join(dir, "meniscus-shelf-not-kept-*.json"))
		want := 0
		if c.edited {
			want = 1
		}
		if len(projects) != want || len(shelves) != 1 {
			t.Fatalf("%+v: projects %q, shelves %q", c, projects, shelves)
		}
		for _, name := range append(projects, shelves...) {
			if err == nil || !strings.Contains(err.Error(), name) {
				t.Errorf("%+v: %s is not named: %v", c, name, err)
			}
		}
		data, bad := os.ReadFile(shelves[0])
		if bad != nil || !strings.Contains(string(data), "Moss of the north wall") {
			t.Errorf("%+v: in it: %s, %v", c, data, bad)
		}
		if strings.Contains(err.Error(), "import that file") != c.edited {
			t.Errorf("%+v: it says %v", c, err)
		}
	}
}
