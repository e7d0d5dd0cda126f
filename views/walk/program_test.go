// Package walk works the real program in real windows on a virtual screen, and
// without one on the command line, as a maker and a script would.
package walk

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
)

// root is the folder of the program.
const root = "../.."

// checks has the toolkit report calls from a wrong goroutine.
const checks = "MENISCUS_CHECKS"

var (
	scratch string // a folder for as long as the tests run
	build   sync.Once
	failed  string
)

func TestMain(m *testing.M) {
	var err error
	if scratch, err = os.MkdirTemp("", "walk"); err != nil {
		panic(err)
	}
	code := m.Run()
	os.RemoveAll(scratch)
	os.Exit(code)
}

// looked looks at every source file, so that go test knows that the results
// hang on them and takes none from its cache when one has changed.
func looked(folder string) {
	list, err := os.ReadDir(folder)
	if err != nil {
		panic(err)
	}
	for _, f := range list {
		switch path := filepath.Join(folder, f.Name()); {
		case f.IsDir() && f.Name() != ".git":
			looked(path)
		case filepath.Ext(path) == ".go" || filepath.Ext(path) == ".json" || filepath.Base(path) == "go.mod":
			if _, err := os.Stat(path); err != nil {
				panic(err)
			}
		}
	}
}

// built gives the program, built once with the probe laid over it.
func built(t testing.TB) string {
	t.Helper()
	program := filepath.Join(scratch, "meniscus")
	build.Do(func() {
		looked(root)
		home, err := filepath.Abs(root)
		if err != nil {
			failed = err.Error()
			return
		}
		over, err := json.Marshal(map[string]any{"Replace": map[string]string{
			filepath.Join(home, "probe.go"): filepath.Join(home, "views/walk/testdata/probe.go"),
		}})
		overlay := filepath.Join(scratch, "overlay.json")
		if err == nil {
			err = os.WriteFile(overlay, over, 0o600)
		}
		if err != nil {
			failed = err.Error()
			return
		}
		cmd := exec.Command("go", "build", "-overlay", overlay, "-o", program, ".")
		cmd.Dir = home
		if out, err := cmd.CombinedOutput(); err != nil {
			failed = string(out)
		}
	})
	if failed != "" {
		t.Fatal("the program does not build: ", failed)
	}
	return program
}

// shown is one thing in a window.
type shown struct {
	Kind       string // "button", "field", "text", "choice", "toggle", "canvas", "select", "scroll", "entry", "line"
	Path       string // of a field and of its entry
	Text       string
	X, Y, W, H float32
	Disabled   bool
	Focused    bool
}

// seen is one window and what is in it.
type seen struct {
	Title  string
	W, H   float32
	Things []shown
}
