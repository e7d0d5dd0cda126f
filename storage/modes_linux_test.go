package storage

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// The child does all that makes files or folders, while the system would give
// everything to everyone, and says what rights each got.
func init() {
	children["modes"] = func(args []string) {
		syscall.Umask(0)
		root := args[0]
		stick := filepath.Join(root, "stick")
		must(os.Mkdir(stick, 0o777))
		path := filepath.Join(root, "data", "meniscus", "notebook.db")
		must(os.MkdirAll(filepath.Dir(path), 0o700))
		raw, err := os.ReadFile("testdata/form-2.db")
		must(err)
		must(os.WriteFile(path, raw, 0o600))
		n, err := Open(path) // which brings it up to date, with a copy before
		must(err)
		p := sample("a", 1, 400)
		_, err = n.Save(p, card(p, noon), 0, false, "", noon)
		must(err)
		_, err = n.PutPhoto(strings.NewReader(pngStart+"of a board"), 100)
		must(err)
		_, err = n.KeepDaily(noon)
		must(err)
		_, err = n.KeepAway(stick, noon, true)
		must(err)
		must(n.Restore(filepath.Join(backupFolder(path), "notebook-2026-11-25.db"), noon))
		large := sample("large", 1, 300_000)
		r, err := n.Save(large, card(large, noon), 0, false, "", noon)
		must(err)
		small := sample("large", 2, 1)
		_, err = n.Save(small, card(small, noon), r.Number, true, "", noon)
		must(errors.Join(err, n.PutSetting("a", 0), n.PutSetting("a", 1), n.PutSetting("a", 2)))
		if done, err := n.Compact(); err != nil {
			must(err)
		} else {
			fmt.Println("compacted", done)
		}
		must(n.Close())
		fresh := filepath.Join(root, "fresh", "notebook.db") // with its folder
		n, err = Open(fresh)
		must(errors.Join(err, n.Close()))
		must(filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
			if err != nil || name == root || name == stick || name == filepath.Join(root, "data") {
				return err
			}
			info, err := d.Info()
			if err == nil {
				fmt.Printf("%04o %t %s\n", info.Mode().Perm(), d.IsDir(), strings.TrimPrefix(name, root))
			}
			return err
		}))
	}
}

// TestModes: whatever the system would allow, what the program makes is the
// user's alone: the notebook, its folder, copies, photos, what was set aside, the
// second place, also after a new form, a restore and a compaction.
func TestModes(t *testing.T) {
	out := lines(t, child(t, "modes", t.TempDir()))
	files, folders := 0, 0
	for _, line := range out {
		switch {
		case line == "compacted true":
			files++
		case strings.HasPrefix(line, "0600 false "):
			files++
		case strings.HasPrefix(line, "0700 true "):
			folders++
		default:
			t.Errorf("not the user's alone: %s", line)
		}
	}
	all := strings.Join(out, "\n")
	for _, part := range []string{"notebook.db", "before-form-", "set-aside-", "notebook-2026-11-25.db", ".png", "/stick/Meniscus/notebook begun", "compacted true"} {
		if !strings.Contains(all, part) {
			t.Errorf("there is no %s in\n%s", part, all)
		}
	}
	if files < 9 || folders < 7 {
		t.Errorf("%d files and %d folders:\n%s", files, folders, all)
	}
}
