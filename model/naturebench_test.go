package model

import "testing"

// BenchmarkNature: what the wood's nature adds to a plan, of five boards.
func BenchmarkNature(b *testing.B) {
	p := demo(b, "breakfast-boards")
	pl := Make(p)
	b.ReportAllocs()
	for b.Loop() {
		for i := range p.Pieces {
			pl.Nature(&p, p.Pieces[i].ID)
		}
	}
}
