package walk

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"meniscus/model"
)

// hand is what a pour is worked with: fingers or keys.
type hand struct {
	*program
	byKey bool
}

// act does what a button of the bench look says, which is what comes next where
// it is done by key.
func (h hand) act(label string) {
	h.t.Helper()
	h.await(label+" to be what Space does", "Mixing", func(w seen) bool {
		x, ok := w.find("button", "^"+label+"$")
		return ok && (x.Focused || !h.byKey)
	})
	if h.byKey {
		h.tool("key", "space")
	} else {
		h.tap("Mixing", "button", "^"+label+"$")
	}
	time.Sleep(350 * time.Millisecond) // a second touch sooner is taken for a slip
}

// seek moves by key or finger to a button that is not what comes next.
func (h hand) seek(label string) {
	h.t.Helper()
	if !h.byKey {
		h.act(label)
		return
	}
	for range 12 {
		w, _ := h.window("Mixing")
		if x, ok := w.find("button", "^"+label+"$"); ok && x.Focused {
			h.act(label)
			return
		}
		key := "Right"
		if x, ok := w.find("button", "^"+label+"$"); ok {
			for _, y := range w.Things {
				if y.Kind == "button" && y.Focused && y.Y+y.H < x.Y {
					key = "Down"
				}
			}
		}
		h.tool("key", key)
		time.Sleep(100 * time.Millisecond)
	}
	w, _ := h.window("Mixing")
	h.t.Fatalf("the arrows do not reach %q:\n%s", label, w)
}

// tick ticks every line of the checklist.
func (h hand) tick(lines int) {
	h.t.Helper()
	if !h.byKey {
		for range lines {
			w, _ := h.window("Mixing")
			for _, x := range append(w.Things, w.Beyond...) {
				if x.Kind == "row" && !strings.Contains(x.Text, " done, ") {
					h.tap("Mixing", "row", "^"+regexp.QuoteMeta(x.Text)+"$")
					time.Sleep(400 * time.Millisecond)
					break
				}
			}
		}
		return
	}
	for range 40 { // to the first line
		h.tool("key", "Tab")
		time.Sleep(60 * time.Millisecond)
		w, _ := h.window("Mixing")
		if x, ok := w.find("row", "."); ok && x.Focused {
			break
		}
	}
	for range lines {
		h.tool("key", "space")
		time.Sleep(400 * time.Millisecond)
		h.tool("key", "Down")
		time.Sleep(100 * time.Millisecond)
	}
}

// TestPour makes a whole pour in the real windows, up to the start of the next
// one: by touch alone, and by keys alone; where pictures are wanted, each on both
// screens.
func TestPour(t *testing.T) {
	if testing.Short() {
		t.Skip("works real windows")
	}
	t.Parallel()
	for _, size := range []string{"1920x1080", "1366x768"} {
		for _, byKey := range []bool{false, true} {
			if os.Getenv("MENISCUS_PICTURES") == "" && byKey != (size == "1920x1080") {
				continue
			}
			name := map[bool]string{false: "touch", true: "keys"}[byKey] + " " + size
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				pour(t, size, byKey)
			})
		}
	}
}

func pour(t *testing.T, size string, byKey bool) {
	s := newScreen(t, size)
	notebook := filepath.Join(t.TempDir(), "n.db")
	h := hand{s.start(notebook, checks+"=1", "FYNE_THEME="+map[bool]string{false: "light", true: "dark"}[byKey]), byKey}
	h.await("the demo job", "Notebook · Poppy stand", func(seen) bool { return true })
	shoot := func(string) {}
	if folder := os.Getenv("MENISCUS_PICTURES"); folder != "" {
		n := 0
		to := filepath.Join(folder, "pour-"+strings.ReplaceAll(strings.ReplaceAll(t.Name(), "/", "-"), "_", "-"))
		if err := os.MkdirAll(to, 0o755); err != nil {
			t.Fatal(err)
		}
		shoot = func(what string) {
			n++
			time.Sleep(300 * time.Millisecond)
			if err := os.WriteFile(filepath.Join(to, fmt.Sprintf("%02d-%s.png", n, what)), h.screenshot(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}

	// The checklist of the pour.
	if byKey {
		h.key("Notebook", "ctrl+4")
	} else {
		h.tap("Notebook", "row", "^Mixing")
	}
	h.await("the mixing window", "Mixing · Poppy stand", func(w seen) bool { return len(w.Things) > 10 })
	h.raise("Mixing")
	title := h.reach("Mixing", "text", `^Before the pour: 0 of \d+ done$`).Text
	var lines int
	fmt.Sscanf(title, "Before the pour: 0 of %d done", &lines)
	h.tick(lines)
	h.reach("Mixing", "text", fmt.Sprintf("^Before the pour: %d of %d done$", lines, lines))
	shoot("checklist")

	// The bench look: A, B, the tint, mixing, the pour.
	if byKey {
		h.tool("key", "ctrl+b")
	} else {
		h.tap("Mixing", "button", "^Bench look$")
	}
	h.await("the bench look", "Mixing", func(w seen) bool { _, ok := w.find("button", "^A is in$"); return ok })
	h.readable(size)
	shoot("A")
	h.act("A is in")
	h.text("Mixing", "^on the scale when B is in$")
	shoot("B")
	h.act("B is in")
	shoot("tint")
	h.act("Smoke grey is in: mixing")
	h.text("Mixing", `^\d:\d\d$`)
	h.readable(size)
	shoot("mixing")

	// The screen is wiped.
	h.seek("Lock to wipe")
	h.await("the lock", "Mixing", func(w seen) bool { _, ok := w.find("button", "^1$"); return ok })
	shoot("lock")
	if byKey {
		h.tool("key", "Escape")
	} else {
		w, _ := h.window("Mixing")
		h.point(h.id("Mixing"), w.W/4, w.H-200) // where the act was
		h.tool("click", "1")
		time.Sleep(350 * time.Millisecond)
		h.text("Mixing", "^Locked: ")
		h.tap("Mixing", "button", "^1$")
		h.tap("Mixing", "button", "^2$")
	}
	h.await("no lock", "Mixing", func(w seen) bool { _, ok := w.find("button", "^1$"); return !ok })
	time.Sleep(350 * time.Millisecond)

	h.act("Mixed")
	h.act("Pour started")
	shoot("pouring")
	h.act("Pour ended")
	h.text("Mixing", "(?i)until the window on .* opens")
	h.readable(size)
	shoot("waiting")

	// A slip, taken back; the touch of the surface; what stands on it; the next cup.
	h.seek("Touch it now")
	h.act("Like tape")
	h.seek("Take back: .*")
	h.seek("Touch it now")
	shoot("touch")
	h.act("Like tape")
	shoot("placing")
	for placed := true; placed; {
		w, _ := h.window("Mixing")
		var x shown
		if x, placed = w.find("button", "^Placed "); placed {
			h.act(regexp.QuoteMeta(x.Text))
			time.Sleep(300 * time.Millisecond)
		}
	}
	h.await("the next pour's A", "Mixing", func(w seen) bool { _, ok := w.find("button", "^A is in$"); return ok })
	shoot("next")
	if byKey {
		h.tool("key", "Escape")
	} else {
		h.seek("More")
		h.seek("Leave")
	}
	h.await("the window again", "Mixing", func(w seen) bool { _, ok := w.find("button", "^Bench look$"); return ok })
	h.finish()

	_, entries := kept(t, notebook, "Poppy stand (demo)")
	got := map[model.EntryKind]int{}
	for i, e := range entries {
		got[e.Kind]++
		if i > 0 && e.At.Before(entries[i-1].At) {
			t.Errorf("%v lies before %v", e, entries[i-1])
		}
	}
	for kind, n := range map[model.EntryKind]int{
		model.EntryChecked: lines, model.EntryWeighedA: 1, model.EntryWeighedB: 1, model.EntryMixing: 1, model.EntryMixed: 1,
		model.EntryPourStarted: 1, model.EntryPourDone: 1, model.EntryTack: 2, model.EntryWithdrawn: 1,
	} {
		if got[kind] != n {
			t.Errorf("%d entries of %q, want %d", got[kind], kind, n)
		}
	}
	if got[model.EntryPlaced] == 0 {
		t.Error("nothing was placed on the first pour")
	}
}

// screenshot is a picture of the whole screen, as PNG.
func (s *screen) screenshot() []byte {
	s.t.Helper()
	cmd := exec.Command("import", "-window", "root", "png:-")
	cmd.Env = append(os.Environ(), "DISPLAY="+s.display)
	out, err := cmd.Output()
	if err != nil {
		s.t.Fatalf("import (of ImageMagick): %v", err)
	}
	return out
}

// readable checks on the screen itself that the digits of the one number are as
// high as can be read from 1.5 m: 155 pixels on a screen of 1920 by 1080, which
// is 25 mm on a 14-inch one, and as much less as the screen is smaller.
func (p *program) readable(size string) {
	p.t.Helper()
	least := map[string]int{"1920x1080": 155, "1366x768": 110}[size]
	time.Sleep(300 * time.Millisecond)
	w, _ := p.window("Mixing")
	number := shown{}
	for _, x := range w.Things {
		if x.Kind == "figure" && x.H > number.H && regexp.MustCompile(`\d`).MatchString(x.Text) {
			number = x
		}
	}
	pic, err := png.Decode(bytes.NewReader(p.screenshot()))
	if err != nil {
		p.t.Fatal(err)
	}
	if high := inkHeight(pic, number); high < least {
		p.t.Errorf("the digits of %q are %d pixels high, want %d or more: %v", number.Text, high, least, number)
	}
}

// inkHeight is how many pixels the first letter of a figure is high: of the
// columns of ink that begin at the left, up to the first gap.
func inkHeight(pic image.Image, x shown) int {
	ground := pic.At(int(x.X)+2, int(x.Y)+int(x.H)/2)
	far := func(px, py int) bool {
		r, g, b, _ := pic.At(px, py).RGBA()
		r0, g0, b0, _ := ground.RGBA()
		d := math.Abs(float64(r)-float64(r0)) + math.Abs(float64(g)-float64(g0)) + math.Abs(float64(b)-float64(b0))
		return d > 0x9000
	}
	top, bottom, begun := int(x.Y+x.H), 0, false
	for px := int(x.X); px < int(x.X+x.W); px++ {
		ink := false
		for py := int(x.Y); py < int(x.Y+x.H); py++ {
			if far(px, py) {
				ink = true
				top, bottom = min(top, py), max(bottom, py+1)
			}
		}
		if begun && !ink {
			break
		}
		begun = begun || ink
	}
	return max(bottom-top, 0)
}
