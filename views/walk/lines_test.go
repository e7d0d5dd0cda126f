package walk

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"time"
)

// lines gives what a window says between two edges, line by line from the top,
// the parts of a line from left to right with a bar between them, also what is
// scrolled out of sight.
func (w seen) lines(left, right float32) []string {
	const even = 4 // so far apart the parts of one line begin at most
	var parts []shown
	for _, x := range append(slices.Clone(w.Things), w.Beyond...) {
		if (x.Kind == "text" || x.Kind == "line" || x.Kind == "field") && x.Text != "" && x.X >= left && x.X < right {
			parts = append(parts, x)
		}
	}
	slices.SortStableFunc(parts, func(a, b shown) int { return cmp.Compare(a.Y, b.Y) })
	var list []string
	for len(parts) > 0 {
		n := slices.IndexFunc(parts, func(x shown) bool { return x.Y > parts[0].Y+even })
		if n < 0 {
			n = len(parts)
		}
		line := parts[:n]
		parts = parts[n:]
		slices.SortStableFunc(line, func(a, b shown) int { return cmp.Compare(a.X, b.X) })
		var words []string
		for _, x := range line {
			words = append(words, x.Text)
		}
		list = append(list, strings.Join(words, " | "))
	}
	return list
}

// reads waits until a line of a window matches, and gives what its groups hold.
func (p *program) reads(title, pattern string) []string {
	p.t.Helper()
	re := regexp.MustCompile(pattern)
	var found []string
	p.await("the line "+pattern, title, func(w seen) bool {
		for _, line := range w.lines(0, w.W) {
			if found = re.FindStringSubmatch(line); found != nil {
				return true
			}
		}
		return false
	})
	return found
}

// tapBeside touches a thing that stands in the line of some words.
func (p *program) tapBeside(title, words, kind, pattern string) {
	p.t.Helper()
	of := p.reach(title, "text", words)
	w, _ := p.window(title)
	re := regexp.MustCompile(pattern)
	for _, x := range w.Things {
		if middle := x.Y + x.H/2; x.Kind == kind && re.MatchString(x.Text) && middle > of.Y && middle < of.Y+of.H && x.X > of.X {
			p.press(title, x)
			return
		}
	}
	p.t.Fatalf("no %s %q stands beside %v; %q shows:\n%v", kind, pattern, of, title, w)
}

// steps moves the focus by Tab to a thing of a window.
func (p *program) steps(title, kind, pattern string) {
	p.t.Helper()
	p.raise(title)
	at := func() (shown, bool) {
		w, _ := p.window(title)
		for _, x := range w.Things {
			if x.Focused {
				_, is := seen{Things: []shown{x}}.find(kind, pattern)
				return x, is
			}
		}
		return shown{}, false
	}
	for range 60 {
		was, is := at()
		if is {
			return
		}
		p.tool("key", "Tab")
		for end := time.Now().Add(500 * time.Millisecond); time.Now().Before(end); time.Sleep(15 * time.Millisecond) {
			if now, _ := at(); now != was {
				break
			}
		}
	}
	w, _ := p.window(title)
	p.t.Fatalf("Tab does not reach %s %q in %q:\n%v", kind, pattern, title, w)
}

// pathLike waits for a field whose path matches and is another than not, and
// gives the path.
func (p *program) pathLike(title, pattern, not string) string {
	p.t.Helper()
	re := regexp.MustCompile(pattern)
	path := ""
	p.await("a field "+pattern, title, func(w seen) bool {
		for _, x := range append(slices.Clone(w.Things), w.Beyond...) {
			if x.Kind == "field" && re.MatchString(x.Path) && x.Path != not {
				path = x.Path
			}
		}
		return path != ""
	})
	return path
}
