package storage

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestDataFolder(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	cases := []struct{ xdg, want string }{
		{"", filepath.Join(home, ".local", "share")},
		{"/data/me", "/data/me"},
		{"relative/is/ignored", filepath.Join(home, ".local", "share")},
	}
	for _, c := range cases {
		t.Setenv("XDG_DATA_HOME", c.xdg)
		if got, err := dataFolder("linux"); err != nil || got != c.want {
			t.Errorf("XDG_DATA_HOME=%q: %s, %v; want %s", c.xdg, got, err, c.want)
		}
	}
	t.Setenv("HOME", "")
	t.Setenv("XDG_DATA_HOME", "")
	if got, err := dataFolder("linux"); err == nil {
		t.Errorf("no home: %s", got)
	}
}

func TestDefaultPath(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	path, err := DefaultPath()
	if err != nil || !strings.HasSuffix(path, filepath.Join("meniscus", "notebook.db")) {
		t.Fatalf("%s, %v", path, err)
	}
	opened(t, path)
	info, err := os.Stat(filepath.Dir(path))
	if err != nil || info.Mode().Perm() != 0o700 {
		t.Errorf("folder %v, %v", info.Mode(), err)
	}
}

func TestOddPaths(t *testing.T) {
	base := t.TempDir()
	real := filepath.Join(base, "real folder")
	if err := os.Mkdir(real, 0o700); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(base, "link")
	if err := os.Symlink(real, link); err != nil {
		t.Skip(err)
	}
	for _, path := range []string{
		filepath.Join(base, "Éléonore's böard", "nötes 書.db"),
		filepath.Join(base, strings.Repeat("long", 60), "notebook.db"),
		filepath.Join(link, "notebook.db"),
	} {
		n := opened(t, path)
		save(t, n, sample("a", 1, 3), 0, noon)
	}
}

// TestLinkToNothing: a link whose notebook is gone is left alone, and it is
// said what to do.
func TestLinkToNothing(t *testing.T) {
	dir := t.TempDir()
	link := filepath.Join(dir, "notebook.db")
	if err := os.Symlink(filepath.Join(dir, "unplugged", "notebook.db"), link); err != nil {
		t.Skip(err)
	}
	_, err := Open(link)
	var trouble *Trouble
	if !errors.As(err, &trouble) || !errors.Is(err, ErrMissing) || trouble.Do == "" {
		t.Errorf("it says %v", err)
	}
	if list, _ := os.ReadDir(dir); len(list) != 1 {
		t.Errorf("left behind: %v", list)
	}
}
