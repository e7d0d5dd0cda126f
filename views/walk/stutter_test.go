package walk

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
	"time"
)

// beats is what the probe has measured of the interface's goroutine.
type beats struct {
	Late, Frames []int64
	Bands        int
}

// BenchmarkStutter measures, in ms, how late the interface's goroutine comes to
// what is asked of it every 10 ms, and how long lies between two rounds in which
// it draws (it has one every 16.7 ms): at rest; with bands worked out behind
// without a pause; while a key steps the room, with what that starts itself, and
// with bands behind besides; while the time is drawn along; while what if is
// asked. Each is measured with as many goroutines at once as the machine has
// cores, and with one more, as the program has it.
func BenchmarkStutter(b *testing.B) {
	s := newScreen(b, "1920x1080")
	p := s.start(filepath.Join(b.TempDir(), "n.db"))
	p.heat()
	p.key("Layers", "ctrl+5")
	p.await("the cure window", "Cure", func(w seen) bool { return len(w.Things) > 5 })
	const lasts = 4 * time.Second
	typing := func() *exec.Cmd {
		p.tap("Cure", "line", "^Shop$")
		p.tap("Cure", "entry", "shop/room")
		keys := []string{"key", "--delay", "80"}
		for range lasts / (160 * time.Millisecond) {
			keys = append(keys, "Up", "Down")
		}
		return p.doing(keys...)
	}
	sliding := func(slider string) func() *exec.Cmd {
		return func() *exec.Cmd {
			x := p.reach("Layers", "slider", slider)
			id, y := p.raise("Layers"), x.Y+x.H-20
			return p.doing(append(p.path(id, x.X+0.2*x.W, y, x.X+0.8*x.W, y, int(lasts/(14*time.Millisecond))), "mouseup", "1")...)
		}
	}
	for _, c := range []struct {
		name string
		load bool
		do   func() *exec.Cmd
	}{
		{"rest", false, nil}, {"bands", true, nil}, {"typing", false, typing}, {"typing-bands", true, typing},
		{"time", false, sliding("Time")}, {"time-bands", true, sliding("Time")}, {"what-if", false, sliding("Room")}, {"what-if-bands", true, sliding("Room")},
	} {
		for _, more := range []int{0, 1} {
			b.Run(fmt.Sprintf("%s/cores+%d", c.name, more), func(b *testing.B) {
				p.question("procs", runtime.NumCPU()+more)
				if c.load {
					p.question("load", 1)
				}
				if file := os.Getenv("MENISCUS_PROFILE"); file != "" {
					p.question("profile", file)
					defer p.question("profile", "-")
				}
				var all beats
				for b.Loop() {
					var act *exec.Cmd
					if c.do != nil {
						act = c.do()
					}
					var some beats
					if err := json.Unmarshal([]byte(p.question("beat", lasts.Milliseconds())), &some); err != nil {
						b.Fatal(err)
					}
					all.Late, all.Frames, all.Bands = append(all.Late, some.Late...), append(all.Frames, some.Frames...), all.Bands+some.Bands
					if act != nil {
						act.Wait()
					}
				}
				p.question("load", "-")
				report(b, "late", all.Late)
				report(b, "frame", all.Frames)
				b.ReportMetric(float64(all.Bands), "bands")
				b.ReportMetric(0, "ns/op")
			})
		}
	}
}

// report reports what was measured in microseconds.
func report(b *testing.B, name string, list []int64) {
	if len(list) == 0 {
		b.Fatal("nothing was measured: ", name)
	}
	slices.Sort(list)
	at := func(share float64) float64 { return float64(list[int(share*float64(len(list)-1))]) / 1000 }
	b.ReportMetric(at(0.50), "ms-"+name+"-p50")
	b.ReportMetric(at(0.99), "ms-"+name+"-p99")
	b.ReportMetric(at(1), "ms-"+name+"-max")
}

// doing starts xdotool and leaves it at work.
func (p *program) doing(args ...string) *exec.Cmd {
	p.t.Helper()
	cmd := exec.Command("xdotool", args...)
	cmd.Env = append(os.Environ(), "DISPLAY="+p.display)
	if err := cmd.Start(); err != nil {
		p.t.Fatal(err)
	}
	return cmd
}
