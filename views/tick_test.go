package views

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
)

// BenchmarkTick is a second that passes with three pours running, in three
// pieces, and all five windows open, each as another part of it.
func BenchmarkTick(b *testing.B) {
	bench := newBench(b, newFakeStore())
	for _, name := range []string{"breakfast-boards", "hall-shelf", "poppy-stand"} {
		bench.demo(name)
		if err := bench.StartPour(bench.Snapshot().Plan.Layers[0].ID); err != nil {
			b.Fatal(err)
		}
		rested(bench)
		bench.until("its bands are in", func() bool { return bench.Snapshot().Curing.Banded })
	}
	for _, key := range []string{notebookKey, moldKey, layersKey, mixingKey, cureKey} {
		bench.desk.Show(key).Resize(fyne.NewSize(1240, 700))
	}
	bench.settle()
	beat(bench, time.Second)
	parts := map[string]func(time.Time){"alarms": bench.desk.alarms.tick, "watch": bench.desk.keepWatch}
	for key, p := range bench.desk.pages {
		parts[key] = p.tick
	}
	for name, tick := range parts {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				bench.clock.advance(time.Second)
				tick(bench.clock.Now())
			}
		})
	}
	b.Run("whole", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			beat(bench, time.Second)
		}
	})
}

// TestSecondChangesTheCountdown: in a second that is no whole minute from a step
// the countdown alone is another of all that the window shows, so that nothing
// else is drawn anew.
func TestSecondChangesTheCountdown(t *testing.T) {
	b, p, steps := alarmBench(t)
	b.until("its bands are in", func() bool { return b.Snapshot().Curing.Banded })
	b.settle()
	runTo(b, dueOf(t, steps, model.StepWorkEnds).Add(-9*time.Minute-7*time.Second))
	for range 20 {
		before, left := texts(p.content()), p.left.text.Text
		beat(b, time.Second)
		after := texts(p.content())
		if len(before) != len(after) {
			t.Fatalf("%d texts became %d", len(before), len(after))
		}
		var changed []string
		for i := range before {
			if before[i] != after[i] {
				changed = append(changed, before[i]+" → "+after[i])
			}
		}
		if len(changed) != 1 || p.left.text.Text == left {
			t.Fatalf("the countdown went from %s to %s; changed: %q", left, p.left.text.Text, changed)
		}
	}
}
