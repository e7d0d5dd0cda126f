package views

import (
	"fmt"
	"testing"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
)

// BenchmarkRedraw is one window from a changed snapshot to painted, in software
// by the toolkit's canvas for tests: of a small piece and of one with everything
// in it, laid out as it does at each frame, on a screen of
// 1366 × 768 and on one of 1920 × 1080. What changes is a
// length of the mold and with it nearly every figure; on the shelf, a bottle.
func BenchmarkRedraw(b *testing.B) {
	for _, v := range []struct {
		name string
		open func(testing.TB) *bench
	}{{"small", smallBench}, {"full", longest}} {
		k := v.open(b)
		stops(k) // opens every window
		shots := [2]app.Snapshot{k.Snapshot(), changed(k)}
		for _, key := range []string{notebookKey, moldKey, layersKey, mixingKey, cureKey, finishKey, shelfKey} {
			w, p := k.desk.windows.Window(key), k.desk.pages[key]
			for _, size := range screens[:2] {
				w.Resize(size)
				b.Run(fmt.Sprintf("%s/%s/%.0fx%.0f", key, v.name, size.Width, size.Height), func(b *testing.B) {
					b.ReportAllocs()
					for i := 0; b.Loop(); i++ {
						p.see(shots[i%2])
						layOut(k.desk.covers[key].root)
						w.Canvas().Capture()
					}
				})
			}
		}
		k.end()
	}
}

// BenchmarkPaint is the part of BenchmarkRedraw that the toolkit takes to paint a
// window in which nothing changed.
func BenchmarkPaint(b *testing.B) {
	k := longest(b)
	for _, key := range []string{notebookKey, moldKey, layersKey, mixingKey, cureKey, finishKey, shelfKey} {
		w := k.desk.Show(key)
		for _, size := range screens[:2] {
			w.Resize(size)
			b.Run(fmt.Sprintf("%s/%.0fx%.0f", key, size.Width, size.Height), func(b *testing.B) {
				for b.Loop() {
					w.Canvas().Capture()
				}
			})
		}
	}
}

// smallBench has the smallest of the demo jobs open, and one bottle on the shelf.
func smallBench(t testing.TB) *bench {
	k := newBench(t, newFakeStore())
	k.demo("poppy-stand")
	if err := k.KeepProduct(k.Snapshot().Project.Sheets[0].ID); err != nil {
		t.Fatal(err)
	}
	k.settle()
	return k
}

// changed changes the mold and the shelf and gives what follows.
func changed(k *bench) app.Snapshot {
	k.t.Helper()
	if err := k.Session.Edit("Another size", "", func(p *model.Project) error {
		for _, l := range []*unit.Dim{&p.Mold.Length, &p.Mold.Span, &p.Mold.Diameter, &p.Mold.Width} {
			l.Value *= 1.02
		}
		return nil
	}); err != nil {
		k.t.Fatal(err)
	}
	if err := k.EditShelf("Another bottle", "", func(s *model.Shelf) error {
		s.AddBottle(s.Products[0].ID, model.PartA, "2026-11-25")
		return nil
	}); err != nil {
		k.t.Fatal(err)
	}
	k.settle()
	k.until("the simulation is in", func() bool { return k.Snapshot().CuringFresh })
	k.settle()
	return k.Snapshot()
}
