package shape

// zipped pairs the points of two rings by going round both from two points that
// lie near each other, each time on along the ring whose next point lies nearer
// to where the other stands, or along both (the shortest diagonal, Christiansen
// and Sederberg 1978; value from memory). No point is put in, so that the areas
// stay.
func zipped(b, t Ring) (Ring, Ring) {
	const looks = 64
	from, to, least := 0, 0, -1.0
	for i := 0; i < len(b); i += 1 + len(b)/looks {
		for j, q := range t {
			if d := q.minus(b[i]); least < 0 || d.dot(d) < least {
				from, to, least = i, j, d.dot(d)
			}
		}
	}
	pb, pt := make(Ring, 0, len(b)+len(t)), make(Ring, 0, len(b)+len(t))
	far := func(p, q Point) float64 { d := p.minus(q); return d.dot(d) }
	for i, j := 0, 0; i < len(b) || j < len(t); {
		p, q := b[(from+i)%len(b)], t[(to+j)%len(t)]
		pb, pt = append(pb, p), append(pt, q)
		p1, q1 := b[(from+i+1)%len(b)], t[(to+j+1)%len(t)]
		alongB, alongT, together := far(p1, q), far(p, q1), far(p1, q1)
		switch {
		case i == len(b):
			j++
		case j == len(t):
			i++
		case together <= alongB && together <= alongT:
			i, j = i+1, j+1
		case alongB <= alongT:
			i++
		default:
			j++
		}
	}
	return pb, pt
}
