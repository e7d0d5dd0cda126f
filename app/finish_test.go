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
