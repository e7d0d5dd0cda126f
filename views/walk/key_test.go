package walk

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// BenchmarkKeyToDrawn types keys into a length in the mold's window with all
// five windows open, in software drawing on a virtual screen, and measures from
// the key to the new plan painted: in the window being edited, and in all.
// Promised are 50 ms and 150 ms. A step key changes what hangs on the length a
// little; a digit, from 32 mm to 321 and back, turns every window over.
func BenchmarkKeyToDrawn(b *testing.B) {
	for _, c := range []struct {
		name, start string
		keys        [2]string
	}{{"step", "320", [2]string{"Up", "Down"}}, {"digit", "32", [2]string{"1", "BackSpace"}}} {
		b.Run(c.name, func(b *testing.B) { typeKeys(b, c.start, c.keys) })
	}
}

func typeKeys(b *testing.B, start string, keys [2]string) {
	s := newScreen(b, "1920x1080")
	p := s.start(filepath.Join(b.TempDir(), "n.db"))
	p.await("the demo job", "Notebook · Poppy stand", func(seen) bool { return true })
	for key, title := range map[string]string{"ctrl+5": "Cure", "ctrl+4": "Mixing", "ctrl+3": "Layers"} {
		p.key("Notebook", key)
		p.await("a window", title, func(w seen) bool { return len(w.Things) > 3 })
	}
	p.key("Notebook", "ctrl+2")
	p.await("the mold's window", "Mold", func(w seen) bool { return len(w.Things) > 3 })
	p.tap("Mold", "entry", "mold/span")
	p.tool("key", "ctrl+a")
	p.tool("type", "--delay", "40", start)
	p.await("the length", "Mold", func(w seen) bool {
		x, ok := w.find("field", "mold/span")
		return ok && x.Text == start
	})
	press := func(n int) (edited, all float64) {
		if _, err := fmt.Fprintln(p.ask, "key "+keys[n%2]); err != nil {
			b.Fatal(err)
		}
		line, err := p.answer.ReadString('\n')
		if err != nil {
			b.Fatal(err)
		}
		if _, err := fmt.Sscan(strings.TrimSpace(line), &edited, &all); err != nil || all == 0 {
			b.Fatalf("no new plan was drawn for key %d: %q %v", n, line, err)
		}
		return edited / 1000, all / 1000
	}
	for n := range 4 { // the first lay the windows out anew
		press(n)
	}
	var edited, all, worstEdited, worstAll float64
	n := 0
	if file := os.Getenv("MENISCUS_PROFILE"); file != "" {
		fmt.Fprintln(p.ask, "profile "+file)
		p.answer.ReadString('\n')
		defer func() { fmt.Fprintln(p.ask, "profile -"); p.answer.ReadString('\n') }()
	}
	for b.Loop() {
		e, a := press(n)
		edited, all = edited+e, all+a
		worstEdited, worstAll = max(worstEdited, e), max(worstAll, a)
		n++
	}
	b.ReportMetric(edited/float64(n), "ms-edited")
	b.ReportMetric(all/float64(n), "ms-all")
	b.ReportMetric(worstEdited, "ms-edited-worst")
	b.ReportMetric(worstAll, "ms-all-worst")
}
