package walk

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestKeysBelowTheToolkit: F1 opens the help and F11 has the window fill the
// screen, both while an entry has the focus, where the toolkit hears neither; the
// windows name the program as its entry of the start menu does.
func TestKeysBelowTheToolkit(t *testing.T) {
	s := newScreen(t, "1366x768")
	p := s.start(filepath.Join(t.TempDir(), "n.db"))
	p.await("the demo job", "Notebook · Poppy stand", func(seen) bool { return true })
	p.key("Notebook", "ctrl+f") // into the search line
	p.tool("type", "--delay", "40", "pop")
	size := func(title string) string {
		return strings.Split(p.tool("getwindowgeometry", p.id(title)), "Geometry: ")[1]
	}
	before := size("Notebook")
	p.key("Notebook", "F11")
	within(t, "the window fills the screen", func() bool { return size("Notebook") == "1366x768" })
	p.key("Notebook", "F11")
	within(t, "the window is as it was", func() bool { return size("Notebook") == before })
	p.key("Notebook", "F1")
	p.await("the help", "Help", func(w seen) bool { return len(w.Things) > 3 })
	xprop, err := exec.LookPath("xprop")
	if err != nil {
		t.Fatal("xprop is missing: run sh assets/setup.sh first")
	}
	for _, title := range []string{"Notebook", "Help"} {
		ask := exec.Command(xprop, "-id", p.id(title), "WM_CLASS")
		ask.Env = append(os.Environ(), "DISPLAY="+p.display)
		if out, err := ask.Output(); err != nil || !strings.Contains(string(out), `"org.meniscus.workbench"`) {
			t.Errorf("%s names the program %s (%v)", title, out, err)
		}
	}
}

// within waits until something is so.
func within(t *testing.T, what string, so func() bool) {
	t.Helper()
	for range 100 {
		if so() {
			return
		}
		time.Sleep(100 * time.Millisecond)
	}
	t.Fatal("it never came to be that ", what)
}
