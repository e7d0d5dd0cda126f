// Package walk works the real program in real windows on a virtual screen, and
// without one on the command line, as a maker and a script would.
package walk

import (
	"encoding/json"
	"fmt"
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

// overlaid gives the overlay that lays the files of the probe over the program
// in the folder home: those in testdata over its own, those in testdata/drawing
// over the drawings'.
func overlaid(home string) ([]byte, error) {
	replace := map[string]string{}
	for folder, over := range map[string]string{"testdata": "", "testdata/drawing": "views/drawing"} {
		files, err := filepath.Glob(filepath.Join(home, "views/walk", folder, "*.go"))
		if err != nil {
			return nil, err
		}
		for _, f := range files {
			replace[filepath.Join(home, over, filepath.Base(f))] = f
		}
	}
	return json.Marshal(map[string]any{"Replace": replace})
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
		over, err := overlaid(home)
		overlay := filepath.Join(scratch, "overlay.json")
		if err == nil {
			err = os.WriteFile(overlay, over, 0o600)
		}
		if err != nil {
			failed = err.Error()
			return
		}
		build := []string{"build", "-overlay", overlay, "-o", program}
		if _, timed := t.(*testing.B); timed {
			// What the probe imports has the toolkit look after each call, however
			// the program asks it not to.
			build = append(build, "-tags", "migrated_fynedo")
		}
		cmd := exec.Command("go", append(build, ".")...)
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
	Kind       string // "button", "field", "text", "choice", "toggle", "canvas", "select", "scroll", "entry", "line", "opens", "slider", "drawn", "row", "toggle", "figure"
	Path       string // of a field and of its entry; what a slider is for
	Text       string
	X, Y, W, H float32
	Disabled   bool
	Focused    bool
}

// String tells what it says and where it is.
func (x shown) String() string {
	return fmt.Sprintf("%s %s %q at %.0f,%.0f %.0fx%.0f", x.Kind, x.Path, x.Text, x.X, x.Y, x.W, x.H)
}

// seen is one window and what is in it.
type seen struct {
	Title  string
	W, H   float32
	Things []shown
	Beyond []shown // what is scrolled out of sight
}
