package walk

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestPictures keeps pictures of every window with a demo job, on a small and a
// large screen and in both lights, for a critical look. It needs ImageMagick.
func TestPictures(t *testing.T) {
	folder := os.Getenv("MENISCUS_PICTURES")
	if folder == "" {
		t.Skip("set MENISCUS_PICTURES to a folder to have pictures")
	}
	for _, size := range []string{"1366x768", "1920x1080"} {
		for _, light := range []string{"light", "dark"} {
			t.Run(size+" "+light, func(t *testing.T) {
				s := newScreen(t, size)
				p := s.start(filepath.Join(t.TempDir(), "n.db"), "FYNE_THEME="+light)
				p.await("the demo job", "Notebook · Poppy stand", func(seen) bool { return true })
				for _, w := range [][2]string{{"ctrl+2", "Mold"}, {"ctrl+3", "Layers"}, {"ctrl+4", "Mixing"}, {"ctrl+5", "Cure"}, {"ctrl+6", "Finishing"}, {"ctrl+7", "Shelf"}} {
					p.key("Notebook", w[0])
					p.await("the window", w[1], func(w seen) bool { return len(w.Things) > 5 })
				}
				windows := []string{"Notebook", "Mold", "Layers", "Mixing", "Cure", "Finishing", "Shelf"}
				for _, title := range windows {
					id := p.raise(title)
					if size == "1920x1080" {
						p.tool("windowsize", "--sync", id, "1900", "1010")
					} else {
						p.tool("windowsize", "--sync", id, "1350", "720")
					}
				}
				time.Sleep(time.Second)
				to := filepath.Join(folder, size+"-"+light)
				if err := os.MkdirAll(to, 0o755); err != nil {
					t.Fatal(err)
				}
				p.bottled("A", "A-17", "62", "2562")
				p.bottled("B", "A-17", "62", "1062")
				for _, title := range windows {
					p.picture(title, filepath.Join(to, strings.ToLower(title)+".png"))
				}
				p.partPictures("Finishing", filepath.Join(to, "finishing"))
				p.partPictures("Shelf", filepath.Join(to, "shelf"))
				p.heatPictures(filepath.Join(to, "poppy-stand"))
				p.tap("Cure", "button", "^Start the pour")
				p.reach("Cure", "line", `^\d+ h \d+ min$`)
				p.picture("Cure", filepath.Join(to, "cure-poured.png"))
				for _, demo := range []string{"Five breakfast boards", "Hall shelf"} {
					p.demo(demo)
					p.heatPictures(filepath.Join(to, strings.ToLower(strings.ReplaceAll(demo, " ", "-"))))
				}
			})
		}
	}
}

// partPictures keeps a picture of each part of a window, with a number behind
// stem: the parts stand in its highest row of choices at the right.
func (p *program) partPictures(title, stem string) {
	p.t.Helper()
	w, _ := p.window(title)
	var row shown
	for _, x := range w.Things {
		if x.Kind == "choice" && x.X > w.W/3 && (row.H == 0 || x.Y < row.Y) {
			row = x
		}
	}
	n := 0
	for _, x := range w.Things {
		if x.Kind == "line" && x.Text != "" && x.X >= row.X && x.X < row.X+row.W && x.Y > row.Y && x.Y < row.Y+row.H {
			n++
			p.press(title, x)
			p.picture(title, fmt.Sprint(stem, "-", n, ".png"))
		}
	}
}

// heatPictures keeps pictures of how hot the open job gets and when: the part
// Heat of the layers by both colourings, with what if, with the planner's levels
// and with a working opened; the cure's table and bench. Their names begin with
// stem.
func (p *program) heatPictures(stem string) {
	p.t.Helper()
	p.tap("Layers", "line", "^Heat$")
	p.reach("Layers", "opens", banded)
	p.reach("Layers", "line", "^Heat$")
	p.picture("Layers", stem+"-heat.png")
	p.tap("Layers", "line", "^How far cured$")
	p.reach("Layers", "slider", "Hardener")
	p.picture("Layers", stem+"-cured.png")
	p.tap("Layers", "line", "^Temperature$")
	p.during("Layers", "Room", 0.5, 0.8, func() string {
		p.picture("Layers", stem+"-what-if.png")
		return ""
	})
	p.tap("Layers", "button", "^Back to the plan$")
	p.reach("Layers", "text", "^2 pours|^1 pour|^As it is planned|^\\d pours")
	p.picture("Layers", stem+"-levels.png")
	p.tap("Layers", "opens", banded)
	p.text("Layers", "^What went in$")
	p.picture("Layers", stem+"-working.png")
	p.tap("Layers", "button", "^Close$")
	for _, c := range [][2]string{{"^1 · ", "table"}, {"^2 · ", "table-2"}, {"^A gloved finger", "bench"}, {"^Planned, and what happened$", "journal"}} {
		if c[1] == "journal" {
			p.tap("Cure", "line", "^Journal$")
		}
		p.reach("Cure", "text", c[0])
		p.picture("Cure", stem+"-cure-"+c[1]+".png")
	}
	p.tap("Cure", "line", "^Now$")
}

// picture keeps a picture of a window.
func (p *program) picture(title, file string) {
	p.t.Helper()
	cmd := exec.Command("import", "-window", p.raise(title), file)
	cmd.Env = append(os.Environ(), "DISPLAY="+p.display)
	time.Sleep(300 * time.Millisecond)
	if out, err := cmd.CombinedOutput(); err != nil {
		p.t.Fatalf("import (of ImageMagick): %v %s", err, out)
	}
}

// shoot keeps a picture of the whole screen, named after the test, where pictures
// are wanted.
func (p *program) shoot(what string) {
	p.t.Helper()
	folder := os.Getenv("MENISCUS_PICTURES")
	if folder == "" {
		return
	}
	time.Sleep(300 * time.Millisecond)
	if err := os.WriteFile(filepath.Join(folder, p.t.Name()+"-"+what+".png"), p.screenshot(), 0o644); err != nil {
		p.t.Fatal(err)
	}
}
