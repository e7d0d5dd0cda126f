package walk

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// says lists the texts of a window, also those scrolled out of sight, and what
// is written in its fields.
func (w seen) says() string {
	var b strings.Builder
	for _, list := range [][]shown{w.Things, w.Beyond} {
		for _, x := range list {
			if x.Kind == "text" || x.Kind == "field" || x.Kind == "opens" {
				b.WriteString(x.Path + " " + x.Text + "\n")
			}
		}
	}
	return b.String()
}

// padded enters a number by touch on the keypad, in place of what the field
// holds.
func (p *program) padded(title, path, number string) {
	p.t.Helper()
	for range 3 { // on a busy machine the window may still be moving under the pointer
		p.tap(title, "entry", path)
		if p.focused(title, path) {
			break
		}
	}
	if w, _ := p.window(title); strings.Contains(w.String(), `"Show keys"`) {
		p.tap(title, "line", "^Show keys$")
	}
	p.tap(title, "line", "^clear$")
	for _, digit := range number {
		p.tap(title, "line", "^"+regexp.QuoteMeta(string(digit))+"$")
	}
	p.tap(title, "line", "^Hide keys$")
}

// TestHolds works the sections of the mold's window that tell what the wood and
// the mold do, by touch alone: a figure is entered on the keypad, what follows
// from it changes, and undo takes it back.
func TestHolds(t *testing.T) {
	if testing.Short() {
		t.Skip("works real windows")
	}
	t.Parallel()
	s := newScreen(t, "1366x768")
	p := s.start(filepath.Join(t.TempDir(), "n.db"), checks+"=1")
	p.await("the demo job", "Notebook · Poppy stand", func(seen) bool { return true })
	p.tap("Notebook", "row", "^Mold")
	p.await("the mold's window", "Mold", func(w seen) bool { return len(w.Things) > 10 })
	for _, c := range []struct {
		section, at string // where it is read, and where its figure is entered
		path, enter string
		before      string // patterns of what is said
		after       string
	}{
		{"Moisture", "Moisture", "pieces/p1/nature/moisture", "14", `9\.2 %, give or take 1\.5`, `14 %, give or take 1\.5`},
		// What floats hangs on what the wood weighs, which is entered with it.
		{"Float", "Wood", "pieces/p1/weight", "150", `No wood to hold down`, `Hold down \d`},
		{"Leaks", "Leaks", "mold/hold/spacing", "900", `Largest distance between supports`, `Sinks between the supports by`},
		{"Level", "Level", "shop/tiltRise", "7", `0\.9 mm/m`, `out of true by\n 2\d`},
	} {
		section := func(name string) { p.tap("Mold", "line", "^"+name+"$") }
		says := func(what, pattern string) {
			t.Helper()
			re := regexp.MustCompile(pattern)
			p.await(c.section+" "+what+": "+pattern, "Mold", func(w seen) bool { return re.MatchString(w.says()) })
		}
		section(c.section)
		says("before", c.before)
		if w, _ := p.window("Mold"); regexp.MustCompile(c.after).MatchString(w.says()) {
			t.Errorf("%s says %q before anything is entered", c.section, c.after)
		}
		if c.at != c.section {
			section(c.at)
		}
		p.padded("Mold", c.path, c.enter)
		if c.at != c.section {
			section(c.section)
		}
		says("entered", c.after)
		p.tap("Mold", "button", "^Undo:")
		says("undone", c.before)
		re := regexp.MustCompile(c.after)
		p.await(c.section+" as it was", "Mold", func(w seen) bool { return !re.MatchString(w.says()) })
	}
	p.finish()
}
