package model

import (
	"fmt"
	"testing"

	"meniscus/model/shape"
)

// BenchmarkSlab plans a slab, once with its upper face alone and once with both.
func BenchmarkSlab(b *testing.B) {
	for _, points := range []int{500, 5000, 20_000} {
		for _, faces := range []string{"one face", "both faces", "no slab"} {
			b.Run(fmt.Sprintf("points=%d/%s", points, faces), func(b *testing.B) { planSlab(b, points, faces) })
		}
	}
}

func planSlab(b *testing.B, points int, faces string) {
	wood := wandering(points, 0.5, 0.2, 3)
	p, s := framed()
	c := overhead(shape.Point{X: 0.3, Y: 0.15}, 1.1, 0.3, 1)
	c.shoot(&s.Upper, 0.04, rimCorners, wood.Moved(0.3, 0.15))
	s.Upper.Rise, s.Upper.Camera = mm(40), mm(1050)
	switch faces {
	case "both faces":
		c.shoot(&s.Under, 0.04, rimCorners, wood.Scaled(-1, 1).Turned(1).Moved(0.3, 0.15))
		s.Under.Rise, s.Under.Camera = mm(40), mm(1050)
	case "no slab":
		p.Slabs = nil
	}
	for b.Loop() {
		m := &maker{stack: compile(&p)}
		m.slabs()
		if len(m.plan.Slabs) > 0 && m.plan.Slabs[0].Upper.Area.Value == 0 {
			b.Fatal(m.plan.Slabs[0].Upper.Wrong)
		}
	}
}

// BenchmarkBrush pushes an outline by a fingertip that covers a tenth of it.
func BenchmarkBrush(b *testing.B) {
	for _, points := range []int{500, 5000, 20_000} {
		b.Run(fmt.Sprintf("points=%d", points), func(b *testing.B) {
			p, s := framed()
			c := overhead(shape.Point{X: 0.3, Y: 0.15}, 1.1, 0.3, 1)
			c.shoot(&s.Upper, 0, rimCorners, wandering(points, 0.5, 0.2, 3).Moved(0.3, 0.15))
			at := s.Upper.Rings[0].Points[points/200]
			for b.Loop() {
				q := p.Clone()
				if err := q.Brush(s.ID, FaceUpper, "r1", at, shape.Point{X: at.X + 20, Y: at.Y}, 120); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
