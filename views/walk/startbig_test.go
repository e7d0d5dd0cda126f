package walk

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// BenchmarkStartBig is the real program, without any probe, from exec until text
// stands on the screen, with so many projects in the notebook.
func BenchmarkStartBig(b *testing.B) {
	home, err := filepath.Abs(root)
	if err != nil {
		b.Fatal(err)
	}
	program := filepath.Join(b.TempDir(), "meniscus")
	cmd := exec.Command("go", "build", "-o", program, ".")
	cmd.Dir = home
	if out, err := cmd.CombinedOutput(); err != nil {
		b.Fatalf("it does not build: %s", out)
	}
	for _, count := range []int{10, 1000, 10_000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			data, pixels := b.TempDir(), b.TempDir()
			notebook := filepath.Join(data, "n.db")
			manyPieces(b, notebook, count)
			s := bareScreen(b, "1366x768", "-fbdir", pixels)
			framebuffer := filepath.Join(pixels, "Xvfb_screen0")
			for b.Loop() {
				cmd := exec.Command(program, "-notebook", notebook)
				cmd.Env = append(os.Environ(), "DISPLAY="+s.display, "WAYLAND_DISPLAY=", "FYNE_SCALE=1", "LANG=en_US.UTF-8", "HOME="+data, "XDG_CONFIG_HOME="+data)
				if err := cmd.Start(); err != nil {
					b.Fatal(err)
				}
				for began := time.Now(); !painted(b, framebuffer); time.Sleep(2 * time.Millisecond) {
					if time.Since(began) > patience {
						cmd.Process.Kill()
						b.Fatal("nothing is painted")
					}
				}
				b.StopTimer()
				cmd.Process.Kill()
				cmd.Wait()
				for painted(b, framebuffer) {
					time.Sleep(20 * time.Millisecond)
				}
				b.StartTimer()
			}
		})
	}
}

// manyPieces makes a notebook with so many projects of ten journal entries each.
func manyPieces(b *testing.B, file string, count int) {
	b.Helper()
	n, err := storage.Open(file)
	if err != nil {
		b.Fatal(err)
	}
	data, err := os.ReadFile(filepath.Join(root, "testdata/demo-hall-shelf.json"))
	if err != nil {
		b.Fatal(err)
	}
	p, err := model.Import(data)
	if err != nil {
		b.Fatal(err)
	}
	plan := model.Make(p)
	now := time.Now()
	for i := range count {
		p.ID, p.Name, p.Journal = fmt.Sprintf("p%05d", i), fmt.Sprint("Shelf ", i), nil
		for j := range 10 {
			p.Journal = append(p.Journal, model.Entry{ID: fmt.Sprint("e", j), Kind: model.EntryNote, At: now.Add(-time.Hour), Text: "looked at it under raking light"})
		}
		card := model.NewCard(&p, &plan, now)
		card.Running = &model.Running{Settled: true}
		if _, err := n.Save(p, card, 0, false, "New piece", now); err != nil {
			b.Fatal(err)
		}
	}
	if err := errors.Join(n.PutSetting("open project", p.ID), n.Close()); err != nil {
		b.Fatal(err)
	}
}
