package walk

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// BenchmarkStart runs the program without any probe and the smallest program of
// the toolkit, in turns on one screen without a window manager, and tells of
// each, as the median of the runs:
//
//	start  from exec until text stands on the screen, in ms
//	rest   resident memory ten seconds after that, in MB
//	idle   time of the processor in the 20 seconds that follow, in % of a core
//
// The program opens the notebook of a first start, with the three demo jobs in
// reach and one of them open.
func BenchmarkStart(b *testing.B) {
	home, err := filepath.Abs(root)
	if err != nil {
		b.Fatal(err)
	}
	folder := b.TempDir()
	programs := [2]string{filepath.Join(folder, "smallest"), filepath.Join(folder, "meniscus")}
	for i, source := range []string{"./views/walk/testdata/smallest", "."} {
		cmd := exec.Command("go", "build", "-o", programs[i], source)
		cmd.Dir = home
		if out, err := cmd.CombinedOutput(); err != nil {
			b.Fatalf("%s does not build: %s", source, out)
		}
	}
	pixels := b.TempDir()
	s := bareScreen(b, "1366x768", "-fbdir", pixels)
	framebuffer := filepath.Join(pixels, "Xvfb_screen0")
	var got [2][3][]float64
	for b.Loop() {
		for i, program := range programs {
			data := b.TempDir()
			cmd := exec.Command(program)
			if i == 1 {
				cmd.Args = append(cmd.Args, "-notebook", filepath.Join(data, "n.db"))
			}
			cmd.Env = append(os.Environ(), "DISPLAY="+s.display, "WAYLAND_DISPLAY=", "FYNE_SCALE=1", "LANG=en_US.UTF-8", "HOME="+data, "XDG_CONFIG_HOME="+data)
			began := time.Now()
			if err := cmd.Start(); err != nil {
				b.Fatal(err)
			}
			for !painted(b, framebuffer) {
				if time.Since(began) > patience {
					cmd.Process.Kill()
					b.Fatal("nothing is painted by ", program)
				}
				time.Sleep(2 * time.Millisecond)
			}
			start := time.Since(began)
			time.Sleep(10 * time.Second)
			rest, used := memory(b, cmd.Process.Pid), processor(b, cmd.Process.Pid)
			const watched = 20 * time.Second
			time.Sleep(watched)
			idle := processor(b, cmd.Process.Pid) - used
			cmd.Process.Kill()
			cmd.Wait()
			for painted(b, framebuffer) { // until the screen is bare again
				time.Sleep(20 * time.Millisecond)
			}
			for k, v := range []float64{start.Seconds() * 1e3, rest / 1e6, idle.Seconds() / watched.Seconds() * 100} {
				got[i][k] = append(got[i][k], v)
			}
		}
	}
	b.ReportMetric(0, "ns/op")
	for k, unit := range []string{"start-ms", "rest-MB", "idle-%"} {
		for i, who := range []string{"smallest", "meniscus"} {
			slices.Sort(got[i][k])
			b.ReportMetric(got[i][k][len(got[i][k])/2], who+"-"+unit)
		}
	}
}

// painted tells whether there is text on the screen whose pixels Xvfb keeps in
// a file of the XWD format: smoothed letters have many shades.
func painted(b *testing.B, framebuffer string) bool {
	b.Helper()
	raw, err := os.ReadFile(framebuffer)
	if err != nil || len(raw) < 100 {
		b.Fatal("no picture of the screen: ", err)
	}
	head, colours := binary.BigEndian.Uint32(raw), binary.BigEndian.Uint32(raw[76:])
	raw = raw[head+12*colours:]
	shades := map[[4]byte]bool{}
	var last [4]byte
	for len(raw) >= 4 {
		if p := [4]byte(raw); p != last {
			shades[p], last = true, p
		}
		raw = raw[4:]
		if len(shades) > 12 {
			return true
		}
	}
	return false
}

// memory gives the resident memory of a process in bytes.
func memory(b *testing.B, pid int) float64 {
	b.Helper()
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		b.Fatal(err)
	}
	_, rest, _ := bytes.Cut(status, []byte("VmRSS:"))
	kB, err := strconv.ParseFloat(string(bytes.Fields(rest)[0]), 64)
	if err != nil {
		b.Fatal(err)
	}
	return kB * 1024
}

// processor gives the time of the processor that a process has taken. The
// kernel counts it in hundredths of a second (proc(5), utime and stime).
func processor(b *testing.B, pid int) time.Duration {
	b.Helper()
	stat, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		b.Fatal(err)
	}
	f := strings.Fields(string(stat[bytes.LastIndexByte(stat, ')')+1:]))
	sum := 0
	for _, field := range f[11:13] {
		n, err := strconv.Atoi(field)
		if err != nil {
			b.Fatal(err)
		}
		sum += n
	}
	return time.Duration(sum) * 10 * time.Millisecond
}
