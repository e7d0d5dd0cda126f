package drawing

// spread gives places for labels that want to stand at the rising places
// want, at least gap apart, between lo and hi where they fit, and as near to
// where they belong as that allows (pool adjacent violators, least squares).
func spread(want []float64, gap, lo, hi float64) []float64 {
	n := len(want)
	if n == 0 {
		return nil
	}
	if n > 1 && gap*float64(n-1) > hi-lo {
		gap = max(0, (hi-lo)/float64(n-1))
	}
	type pool struct {
		sum   float64 // of want less the place within the pool
		count int
	}
	var pools []pool
	for i, w := range want {
		pools = append(pools, pool{w - gap*float64(i), 1})
		for len(pools) > 1 {
			a, b := pools[len(pools)-2], pools[len(pools)-1]
			if a.sum/float64(a.count) <= b.sum/float64(b.count) {
				break
			}
			pools = append(pools[:len(pools)-2], pool{a.sum + b.sum, a.count + b.count})
		}
	}
	out := make([]float64, 0, n)
	for _, p := range pools {
		for range p.count {
			i := float64(len(out))
			base := min(max(p.sum/float64(p.count), lo), hi-gap*float64(n-1))
			out = append(out, base+gap*i)
		}
	}
	return out
}
