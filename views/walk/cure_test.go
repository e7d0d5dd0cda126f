package walk

import (
	"path/filepath"
	"testing"
	"time"

	"meniscus/model"
)

// TestCure plans the start of a job in the real window Cure, starts its first
// pour, notes what is read and felt, and finds all of it kept; and in another
// job, whose first pour is noted two days late, finds the way back.
func TestCure(t *testing.T) {
	if testing.Short() {
		t.Skip("works real windows")
	}
	t.Parallel()
	s := newScreen(t, "1920x1080")
	notebook := filepath.Join(t.TempDir(), "n.db")
	p := s.start(notebook, checks+"=1")
	p.await("the first demo job", "Notebook · Poppy stand", func(seen) bool { return true })
	p.key("Notebook", "ctrl+5")
	p.await("the cure window", "Cure · Poppy stand", func(w seen) bool { return len(w.Things) > 5 })

	p.tool("windowsize", "--sync", p.raise("Cure"), "1900", "1010")

	// A good time to start, taken and given back.
	p.tap("Cure", "line", "^Dates$")
	p.tap("Cure", "button", "^Find good times to start$")
	p.tap("Cure", "text", `^1 · Start \w{3} \d`)
	p.reach("Cure", "text", "^The next pour is planned for ")
	p.tap("Cure", "button", "^Take it back$")
	p.await("no planned start", "Cure", func(w seen) bool {
		_, planned := w.find("text", "^The next pour is planned for ")
		return !planned
	})

	// The pour, the room and the touch of it.
	p.tap("Cure", "line", "^Now$")
	p.tap("Cure", "button", "^Start the pour of smoke-grey base$")
	p.text("Cure", `^\d+ h \d+ min$`)
	p.reach("Cure", "field", "bench/reading")
	p.tap("Cure", "button", "^Note it$")
	p.reach("Cure", "text", `^Noted for .*: 21 °C$`)
	p.tap("Cure", "button", "^It strings")
	p.reach("Cure", "text", `^Noted for .*: It strings: early$`)
	p.tap("Cure", "line", "^Journal$")
	p.reach("Cure", "text", "^Touched smoke-grey base: it strings$")
	p.reach("Cure", "text", "^Read 21 °C in the room$")
	p.reach("Cure", "text", "^Pour of smoke-grey base started, the room at 21 °C$")

	// How a time came about.
	p.reach("Cure", "opens", `^\d+(\.\d+)? [hd] \(\d+(\.\d+)? to \d+(\.\d+)?\)$`)
	p.tap("Cure", "opens", `^\d+(\.\d+)? [hd] \(\d+(\.\d+)? to \d+(\.\d+)?\)$`)
	p.text("Cure", "^What went in$")
	p.tap("Cure", "button", "^Close$")
	p.tap("Cure", "line", "^Now$")
	p.reach("Cure", "button", "^It strings")

	// A pour noted late, and the window behind it missed.
	p.demo("Five breakfast boards")
	p.await("the other job", "Cure · Five breakfast boards", func(seen) bool { return true })
	p.tap("Cure", "line", "^Earlier$")
	p.enter("Cure", "bench/when", "2 d ago")
	p.tap("Cure", "button", "^The pour of first lift began then$")
	p.reach("Cure", "text", "^Late: the window on first lift closed ")
	p.reach("Cure", "text", "^1 · ")
	for _, step := range []string{"wash", "sand|80 to 120", "wipe"} {
		p.reach("Cure", "text", `(?i)^\d · .*(`+step+`)`)
	}
	p.finish()

	journal := func(name string) []model.Entry {
		_, entries := kept(t, notebook, name)
		return entries
	}
	poppy, boards := journal("Poppy stand (demo)"), journal("Five breakfast boards (demo)")
	if len(poppy) != 3 || poppy[0].Kind != model.EntryPourStarted || poppy[1].Kind != model.EntryReading || poppy[2].Kind != model.EntryTack || poppy[2].Feel != model.FeelStrings {
		t.Errorf("the stand's journal holds %+v", poppy)
	}
	if len(boards) != 1 || boards[0].Kind != model.EntryPourStarted || time.Since(boards[0].At).Round(time.Hour) != 48*time.Hour {
		t.Errorf("the boards' journal holds %+v", boards)
	}
}
