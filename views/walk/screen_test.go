package walk

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"
)

// screen is a virtual screen, mostly with a window manager.
type screen struct {
	t       testing.TB
	display string
	procs   []*exec.Cmd
}

// newScreen starts a screen of the given size with a window manager.
func newScreen(t testing.TB, size string) *screen {
	t.Helper()
	s := bareScreen(t, size)
	wm := exec.Command("openbox")
	wm.Env = append(os.Environ(), "DISPLAY="+s.display)
	if err := wm.Start(); err != nil {
		t.Fatal(err)
	}
	s.procs = append([]*exec.Cmd{wm}, s.procs...)
	time.Sleep(300 * time.Millisecond)
	return s
}

// bareScreen starts a screen of the given size without a window manager, with
// further options of Xvfb. Without the tools that assets/setup.sh installs the
// test fails and says so.
func bareScreen(t testing.TB, size string, options ...string) *screen {
	t.Helper()
	for _, tool := range []string{"Xvfb", "xdotool", "openbox"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Fatalf("%s is missing: run sh assets/setup.sh first", tool)
		}
	}
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	s := &screen{t: t}
	x := exec.Command("Xvfb", append([]string{"-displayfd", "3", "-screen", "0", size + "x24", "-ac", "+extension", "GLX", "+render", "-noreset", "-nolisten", "tcp"}, options...)...)
	x.ExtraFiles = []*os.File{w}
	if err := x.Start(); err != nil {
		t.Fatal(err)
	}
	w.Close()
	line, err := bufio.NewReader(r).ReadString('\n')
	if err != nil {
		t.Fatal("the virtual screen does not start: ", err)
	}
	s.display = ":" + strings.TrimSpace(line)
	s.procs = []*exec.Cmd{x}
	t.Cleanup(func() {
		for _, p := range s.procs {
			p.Process.Kill()
			p.Wait()
		}
	})
	return s
}

// tool runs xdotool on the screen.
func (s *screen) tool(args ...string) string {
	s.t.Helper()
	cmd := exec.Command("xdotool", args...)
	cmd.Env = append(os.Environ(), "DISPLAY="+s.display)
	out, err := cmd.CombinedOutput()
	if err != nil {
		s.t.Fatalf("xdotool %v: %v: %s", args, err, out)
	}
	return strings.TrimSpace(string(out))
}

// program is the real program on a screen.
type program struct {
	*screen
	cmd    *exec.Cmd
	ask    io.WriteCloser
	answer *bufio.Reader
	log    *strings.Builder
	ids    map[string]string // X windows by their titles as they were asked for
	front  string            // the X window that was worked last
}

// start runs the program on a notebook.
func (s *screen) start(notebook string, env ...string) *program {
	s.t.Helper()
	p := &program{screen: s, log: &strings.Builder{}, ids: map[string]string{}}
	p.cmd = exec.Command(built(s.t), "-notebook", notebook)
	home := filepath.Dir(notebook)
	p.cmd.Env = append(os.Environ(), append([]string{"MENISCUS_PROBE=1", "DISPLAY=" + s.display, "WAYLAND_DISPLAY=", "FYNE_SCALE=1", "LANG=en_US.UTF-8", "HOME=" + home, "XDG_CONFIG_HOME=" + home}, env...)...)
	p.cmd.Stderr = p.log
	out, err := p.cmd.StdoutPipe()
	if err != nil {
		s.t.Fatal(err)
	}
	if p.ask, err = p.cmd.StdinPipe(); err != nil {
		s.t.Fatal(err)
	}
	p.answer = bufio.NewReaderSize(out, 1<<20)
	if err := p.cmd.Start(); err != nil {
		s.t.Fatal(err)
	}
	s.t.Cleanup(func() { p.cmd.Process.Kill(); p.cmd.Wait() })
	return p
}

// windows asks the program what it shows.
func (p *program) windows() []seen {
	p.t.Helper()
	var list []seen
	line := p.question("show")
	if err := json.Unmarshal([]byte(line), &list); err != nil {
		p.t.Fatalf("%v in %q", err, line)
	}
	return list
}

// question asks the probe something and gives its answer.
func (p *program) question(what string, args ...any) string {
	p.t.Helper()
	if _, err := fmt.Fprintln(p.ask, strings.TrimSpace(what+" "+fmt.Sprint(args...))); err != nil {
		p.t.Fatalf("the program has ended: %v\n%s", err, p.log)
	}
	line, err := p.answer.ReadString('\n')
	if err != nil {
		p.t.Fatalf("the program has ended: %v\n%s", err, p.log)
	}
	return strings.TrimSpace(line)
}

// patience is how long the program may take to show what an act leads to.
const patience = 15 * time.Second

// await asks until find is satisfied with a window.
func (p *program) await(what, title string, find func(w seen) bool) seen {
	p.t.Helper()
	end := time.Now().Add(patience)
	var last seen
	for time.Now().Before(end) {
		for _, w := range p.windows() {
			if strings.HasPrefix(w.Title, title) {
				last = w
				if find(w) {
					return w
				}
			}
		}
		time.Sleep(40 * time.Millisecond)
	}
	p.t.Fatalf("%s: not shown in %q; it shows:\n%s\n%s", what, title, last, p.log)
	return seen{}
}

// String lists what a window shows, for a failed test.
func (w seen) String() string {
	var b strings.Builder
	for _, x := range w.Things {
		b.WriteString(x.String() + "\n")
	}
	return b.String()
}

// find gives the first visible thing of a kind whose text matches a pattern,
// or whose path is the pattern.
func (w seen) find(kind, pattern string) (shown, bool) {
	re := regexp.MustCompile(pattern)
	for _, x := range w.Things {
		if x.Kind == kind && (x.Path != "" && x.Path == pattern || x.Path == "" && re.MatchString(x.Text) || x.Path != "" && regexp.MustCompile("^(?:"+pattern+")$").MatchString(x.Path)) {
			return x, true
		}
	}
	return shown{}, false
}

// id gives the X window whose title starts so.
func (p *program) id(title string) string {
	p.t.Helper()
	if id := p.ids[title]; id != "" {
		return id
	}
	end := time.Now().Add(patience)
	for time.Now().Before(end) {
		cmd := exec.Command("xdotool", "search", "--onlyvisible", "--name", "^"+regexp.QuoteMeta(title))
		cmd.Env = append(os.Environ(), "DISPLAY="+p.display)
		if out, err := cmd.Output(); err == nil {
			ids := strings.Fields(string(out))
			p.ids[title] = ids[len(ids)-1]
			return p.ids[title]
		}
		time.Sleep(50 * time.Millisecond)
	}
	p.t.Fatalf("no window %q on the screen\n%s", title, p.log)
	return ""
}

// raise brings a window to the front.
func (p *program) raise(title string) string {
	id := p.id(title)
	p.tool("windowactivate", "--sync", id)
	p.front = id
	return id
}

// point moves the pointer to a place in a window.
func (p *program) point(id string, x, y float32) {
	p.tool("mousemove", "--window", id, fmt.Sprint(int(x)), fmt.Sprint(int(y)))
}

// reach brings a thing into view by swiping what it stands in, and gives it
// once it has come to rest.
func (p *program) reach(title, kind, pattern string) shown {
	p.t.Helper()
	id := p.id(title)
	if id != p.front { // what was worked before takes in what is typed there
		p.raise(title)
	}
	var last shown
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		w, _ := p.window(title)
		if x, ok := w.find(kind, pattern); ok {
			if x.X == last.X && x.Y == last.Y && x.H == last.H {
				return x
			}
			last = x
		} else if x, ok := (seen{Things: w.Beyond}).find(kind, pattern); ok {
			p.swipe(p.raise(title), w, x)
		}
	}
	w, _ := p.window(title)
	p.t.Fatalf("%s %q is not reached in %q; it shows:\n%v\n%s", kind, pattern, title, w, p.log)
	return shown{}
}

// swipe draws what a thing stands in towards it.
func (p *program) swipe(id string, w seen, x shown) {
	at := x.X + x.W/2
	for _, s := range w.Things {
		if s.Kind != "scroll" || s.H <= 150 || at < s.X || at > s.X+s.W {
			continue
		}
		const inside, slip = 60, 12 // how far in it is to come; what a finger moves before it scrolls
		y, middle := x.Y+x.H/2, s.Y+s.H/2
		far := s.Y + inside - y + slip
		if y > middle {
			far = s.Y + s.H - inside - y - slip
		}
		far = min(max(far/2, -s.H*0.35), s.H*0.35)
		p.drag(id, s.X+8, middle-far, s.X+8, middle+far)
	}
}

// window gives the window whose title starts so.
func (p *program) window(title string) (seen, bool) {
	for _, w := range p.windows() {
		if strings.HasPrefix(w.Title, title) {
			return w, true
		}
	}
	return seen{}, false
}

// tap touches a thing in its middle.
func (p *program) tap(title, kind, pattern string) {
	p.t.Helper()
	p.press(title, p.reach(title, kind, pattern))
}

// press touches a place in a window in its middle, with the window in front.
func (p *program) press(title string, x shown) {
	p.t.Helper()
	id := p.id(title)
	p.tool("windowactivate", "--sync", id, "mousemove", "--window", id, fmt.Sprint(int(x.X+x.W/2)), fmt.Sprint(int(x.Y+x.H/2)), "click", "1")
	p.front = id
	time.Sleep(50 * time.Millisecond)
}

// drag draws the pressed pointer from one place to another, as a finger moves.
func (p *program) drag(id string, x0, y0, x1, y1 float32) {
	p.tool(append(p.path(id, x0, y0, x1, y1, 12), "mouseup", "1")...)
	time.Sleep(120 * time.Millisecond)
}

// path gives what xdotool is to do for the pointer to be pressed at one place
// and to move to another in so many steps.
func (p *program) path(id string, x0, y0, x1, y1 float32, steps int) []string {
	to := func(x, y float32) []string {
		return []string{"mousemove", "--window", id, fmt.Sprint(int(x)), fmt.Sprint(int(y))}
	}
	acts := append(to(x0, y0), "sleep", "0.01", "mousedown", "1")
	for i := 1; i <= steps; i++ {
		f := float32(i) / float32(steps)
		acts = append(append(acts, "sleep", "0.012"), to(x0+f*(x1-x0), y0+f*(y1-y0))...)
	}
	return append(acts, "sleep", "0.012")
}

// enter types into a field, replacing what it holds, once it has the focus, and
// waits until the field shows what was typed.
func (p *program) enter(title, path, text string) {
	p.t.Helper()
	for range 3 { // on a busy machine the window may still be moving under the pointer
		p.tap(title, "entry", path)
		if p.focused(title, path) {
			break
		}
	}
	p.tool("key", "ctrl+a", "type", "--delay", "12", "--args", "1", text, "key", "Return")
	p.await(text+" in "+path, title, func(w seen) bool {
		x, ok := w.find("field", path)
		all := seen{Things: append(w.Things, w.Beyond...)} // the field below comes into view then, which may push this one's words out of it
		return !ok || strings.HasPrefix(x.Text, text) || strings.Contains(all.String(), "written "+text)
	})
}

// focused waits a little for an entry to have the focus.
func (p *program) focused(title, path string) bool {
	for end := time.Now().Add(2 * time.Second); time.Now().Before(end); time.Sleep(40 * time.Millisecond) {
		if w, ok := p.window(title); ok {
			if x, ok := w.find("entry", path); ok && x.Focused {
				return true
			}
		}
	}
	return false
}

// finish ends the program by its own quit command and checks that it left well.
func (p *program) finish() {
	p.t.Helper()
	done := make(chan error, 1)
	go func() { done <- p.cmd.Wait() }()
	for tries := 0; ; tries++ {
		p.raise("Notebook")
		p.tool("key", "ctrl+q")
		select {
		case err := <-done:
			if err != nil {
				p.t.Fatalf("the program ended badly: %v\n%s", err, p.log)
			}
		case <-time.After(patience):
			if tries == 0 && p.listens() {
				p.t.Log("the screen lost a key") // the program is idle and never got it
				continue
			}
			p.cmd.Process.Signal(syscall.SIGQUIT) // which has it tell what each goroutine waits for
			<-done
			p.t.Fatalf("the program does not end\n%s", p.log)
		}
		break
	}
	for _, bad := range []string{"panic", "Error in Fyne call thread", "DATA RACE"} {
		if strings.Contains(p.log.String(), bad) {
			p.t.Errorf("the program said %q:\n%s", bad, p.log)
		}
	}
}

// listens tells whether the program still answers the probe.
func (p *program) listens() bool {
	answered := make(chan bool, 1)
	go func() {
		if _, err := fmt.Fprintln(p.ask, "show"); err != nil {
			answered <- false
			return
		}
		_, err := p.answer.ReadString('\n')
		answered <- err == nil
	}()
	select {
	case ok := <-answered:
		return ok
	case <-time.After(2 * time.Second):
		return false
	}
}
