package shape

import (
	"encoding/json"
	"math"
	"testing"

	"meniscus/model/unit"
)

// wavy gives a wandering outline of n points, about 0.4 m long, that does not
// cross itself.
func wavy(n int, scale, phase float64) Ring {
	r := make(Ring, n)
	for i := range r {
		a := 2 * math.Pi * float64(i) / float64(n)
		d := scale * (1 + 0.08*math.Sin(3*a+phase) + 0.03*math.Sin(17*a) + 0.004*math.Sin(211*a))
		sin, cos := math.Sincos(a)
		r[i] = Point{0.2 * d * cos, 0.12 * d * sin}
	}
	return r
}

const many = 20_000

func BenchmarkValidate(b *testing.B) {
	for name, r := range map[string]Ring{"wavy": wavy(many, 1, 0), "comb": comb(many), "star": star(many)} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := r.Validate(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// comb gives n/4 narrow teeth side by side.
func comb(n int) Ring {
	r := make(Ring, 0, n+2)
	for i := range n / 4 {
		x := float64(i) * 1e-4
		r = append(r, Point{x, 0.1}, Point{x, 0.2}, Point{x + 0.5e-4, 0.2}, Point{x + 0.5e-4, 0.1})
	}
	return append(r, Point{float64(n) * 0.25e-4, 0}, Point{0, 0})
}

// star gives n/2 spikes around a small middle.
func star(n int) Ring {
	r := make(Ring, n)
	for i := range r {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		d := 0.2
		if i%2 == 1 {
			d = 0.01
		}
		r[i] = Point{d * cos, d * sin}
	}
	return r
}

func BenchmarkOverlaps(b *testing.B) {
	for name, other := range map[string]Ring{
		"inside":  wavy(many, 0.7, 1),
		"beside":  wavy(many, 1, 0).Scaled(-1, -1).Moved(0.412, 0),
		"same":    wavy(many, 1, 0),
		"crossed": wavy(many, 1, 1),
	} {
		r := wavy(many, 1, 0)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				Overlaps(r, other)
			}
		})
	}
}

func BenchmarkFit(b *testing.B) {
	free, err := NewOutline(EllipseRing(0.4, 0.3).dense(many), true, 2*unit.Degree, 0.04)
	if err != nil {
		b.Fatal(err)
	}
	wave, err := NewOutlineSizes(wavy(many, 1, 0), true, 0.97, 0.97, 0.04)
	if err != nil {
		b.Fatal(err)
	}
	oval, _ := NewOval(0.39, 0.29, 0.4, 0.3, 0.04)
	for _, c := range []struct {
		name  string
		c     Cavity
		piece Ring
	}{
		{"oval", oval, wavy(many, 0.9, 0)},
		{"wavy in ellipse", free, wavy(many, 0.9, 0)},
		{"wavy in wavy", wave, wavy(many, 0.9, 0.3)},
		{"same", wave, wavy(many, 1, 0)},
		{"parallel", wave, wavy(many, 0.98, 0)},
		{"ellipse in ellipse", free, EllipseRing(0.39, 0.29).dense(many)},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				Fit(c.c, c.piece, c.piece, 0, 0.03, 5)
			}
		})
		b.Run("sits "+c.name, func(b *testing.B) {
			for b.Loop() {
				SitsAt(c.c, c.piece, c.piece, 0, 0.03)
			}
		})
	}
	{
		wide, _ := NewOutline(round(many, 0.2), true, 2*unit.Degree, 0.04)
		small := round(many, 0.19)
		b.Run("circles", func(b *testing.B) {
			for b.Loop() {
				Fit(wide, small, small, 0, 0.03, 5)
			}
		})
	}
}

func round(n int, radius float64) Ring {
	r := make(Ring, n)
	for i := range r {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r[i] = Point{radius * cos, radius * sin}
	}
	return r
}

// dense gives a ring of n points evenly around r.
func (r Ring) dense(n int) Ring {
	s := r.ways()
	d := make(Ring, n)
	for k, i := 0, 0; k < n; k++ {
		at := float64(k) / float64(n)
		for s[i] < at {
			i++
		}
		d[k] = r.alongEdge(s, i, at)
	}
	return d
}

func BenchmarkRing(b *testing.B) {
	r := wavy(many, 1, 0)
	text, _ := json.Marshal(r)
	b.Run("decode", func(b *testing.B) {
		for b.Loop() {
			var q Ring
			if err := json.Unmarshal(text, &q); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("area", func(b *testing.B) {
		for b.Loop() {
			r.Signed()
		}
	})
	b.Run("simplify", func(b *testing.B) {
		for b.Loop() {
			r.Simplified(0.1 * unit.Millimetre)
		}
	})
	b.Run("blend", func(b *testing.B) {
		q := wavy(many-1, 0.98, 0.1)
		for b.Loop() {
			Blend(r, q)
		}
	})
	b.Run("outline", func(b *testing.B) {
		q := round(many, 0.2)
		for b.Loop() {
			if _, err := NewOutline(q, true, 2*unit.Degree, 0.04); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkSolids(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		s := At(Prism(0.03, 0.029, 0.028, 0.04), 0.01)
		if s.VolumeBelow(0.02) <= 0 {
			b.Fatal("empty")
		}
	}
}
