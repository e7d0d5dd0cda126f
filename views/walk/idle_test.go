package walk

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// BenchmarkIdle tells what the program takes while nothing is done to it and three
// pours run, in % of a core: while the countdowns tell minutes and while the
// soonest tells seconds; with five windows and with two.
func BenchmarkIdle(b *testing.B) {
	for _, c := range []struct {
		name    string
		left    time.Duration // of the working time of what is open; 0 for all of it
		shows   string
		windows []string
		lasts   time.Duration
	}{
		{"minutes/windows=5", 0, `^\d+ min$|^\d+ h`, []string{"ctrl+2", "ctrl+3", "ctrl+4", "ctrl+5"}, time.Minute},
		{"seconds/windows=5", 9*time.Minute + 30*time.Second, `^\d:\d\d( min)?$`, []string{"ctrl+2", "ctrl+3", "ctrl+4", "ctrl+5"}, 20 * time.Second},
		{"seconds/windows=2", 9*time.Minute + 30*time.Second, `^\d:\d\d( min)?$`, []string{"ctrl+5"}, 20 * time.Second},
	} {
		b.Run(c.name, func(b *testing.B) {
			file := filepath.Join(b.TempDir(), "n.db")
			running(b, file, c.left)
			s := newScreen(b, "1920x1080")
			p := s.start(file)
			p.await("the notebook", "Notebook", func(seen) bool { return true })
			for _, key := range c.windows {
				p.key("Notebook", key)
			}
			p.await("the cure window", "Cure", func(w seen) bool { return len(w.Things) > 5 })
			p.text("Cure", c.shows)
			time.Sleep(10 * time.Second) // the simulations are in, the copy of the day is made
			var used, lasted time.Duration
			for b.Loop() {
				before, began := processor(b, p.cmd.Process.Pid), time.Now()
				time.Sleep(c.lasts)
				used, lasted = used+processor(b, p.cmd.Process.Pid)-before, lasted+time.Since(began)
			}
			b.ReportMetric(used.Seconds()/lasted.Seconds()*100, "%-of-a-core")
			b.ReportMetric(0, "ns/op")
		})
	}
}

// running makes a notebook with the demo jobs, the first pour of each started; so
// much is left of the working time of the last, which is open, or all of it where
// left is 0.
func running(b *testing.B, file string, left time.Duration) {
	b.Helper()
	n, err := storage.Open(file)
	if err != nil {
		b.Fatal(err)
	}
	now := time.Now().Truncate(time.Second)
	for i, name := range []string{"breakfast-boards", "hall-shelf", "poppy-stand"} {
		data, err := os.ReadFile(filepath.Join(root, "testdata/demo-"+name+".json"))
		if err != nil {
			b.Fatal(err)
		}
		p, err := model.Import(data)
		if err != nil {
			b.Fatal(err)
		}
		p.ID = fmt.Sprint("p", i)
		p.Journal = []model.Entry{{ID: "e1", Kind: model.EntryPourStarted, Layer: p.Layers[0].ID, At: now, Room: p.Shop.Room}}
		plan := model.Make(p)
		for range 3 { // when it was poured moves how long it takes
			if name != "poppy-stand" || left == 0 {
				break
			}
			curing, err := model.Simulate(context.Background(), &p, &plan)
			if err != nil {
				b.Fatal(err)
			}
			for _, s := range curing.StepsOf(&plan) {
				if s.Kind == model.StepWorkEnds && s.Layer == p.Layers[0].ID {
					p.Journal[0].At = p.Journal[0].At.Add(now.Add(left).Sub(s.Due))
				}
			}
			plan = model.Make(p)
		}
		if _, err := n.Save(p, model.NewCard(&p, &plan, now.Add(time.Duration(i)*time.Second)), 0, false, "New piece", now); err != nil {
			b.Fatal(err)
		}
	}
	if err := errors.Join(n.PutSetting("open project", "p2"), n.Close()); err != nil {
		b.Fatal(err)
	}
}
