package model

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
)

// mend names what keeps a job from being possible, and the smallest change that
// would make it so. Where no single change does, it names as few as it takes.
func (j *stageJob) mend(ctx context.Context) (binds, change string, err error) {
	can := func(c *stageJob) (bool, error) {
		c.anyWay = true
		_, found, err := c.solve(ctx)
		return found, err
	}
	if binds, err = j.blamed(can); err != nil {
		return "", "", err
	}
	list := j.changes()
	slices.SortStableFunc(list, func(a, b stageChange) int { return cmp.Compare(a.costs, b.costs) })
	least := math.Inf(1)
	for i := range list {
		c := &list[i]
		most := c.most
		if c.each > 0 && !math.IsInf(least, 1) {
			most = min(most, int(math.Ceil((least-c.costs)/c.each))-1)
		}
		if most < 1 || c.costs >= least {
			continue
		}
		n, err := c.smallest(j, most, can)
		if err != nil {
			return "", "", err
		}
		if n > 0 && c.cost(n) < least {
			least, change = c.cost(n), c.saying(n)
		}
	}
	if change == "" {
		change, err = j.mendMore(list, can)
	}
	return binds, change, err
}

// cost is what so many steps of a change count as.
func (c *stageChange) cost(n int) float64 { return c.costs + c.each*float64(n) }

// smallest is the fewest steps of a change that make a job possible, 0 when none
// up to most do.
func (c *stageChange) smallest(j *stageJob, most int, can func(*stageJob) (bool, error)) (int, error) {
	try := func(n int) (bool, error) {
		k := j.copied()
		c.apply(k, n)
		return can(k)
	}
	if c.gaps {
		// In strides first, and then step by step in the stride that helped.
		const stride = 5
		for n := stride; n < most+stride; n += stride {
			ok, err := try(min(n, most))
			if err != nil {
				return 0, err
			}
			for k := n - stride + 1; ok && k <= min(n, most); k++ {
				if now, err := try(k); now || err != nil {
					return k, err
				}
			}
		}
		return 0, nil
	}
	if ok, err := try(most); !ok || err != nil {
		return 0, err
	}
	lo, hi := 0, most
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		ok, err := try(mid)
		if err != nil {
			return 0, err
		}
		if ok {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi, nil
}

// mendMore joins changes: all that there are, then none that the others do
// without, the costliest first, and of each as little as the others allow.
func (j *stageJob) mendMore(list []stageChange, can func(*stageJob) (bool, error)) (string, error) {
	with := func(take []int) *stageJob {
		k := j.copied()
		for i := range list {
			if take[i] > 0 {
				list[i].apply(k, take[i])
			}
		}
		return k
	}
	take := make([]int, len(list))
	for i := range list {
		take[i] = list[i].most
	}
	if ok, err := can(with(take)); !ok || err != nil {
		return "plan fewer colours or inserts on one another; no smaller change was found", err
	}
	for i := len(list) - 1; i >= 0; i-- {
		was := take[i]
		take[i] = 0
		ok, err := can(with(take))
		if err != nil {
			return "", err
		}
		if !ok {
			take[i] = was
		}
	}
	var said []string
	for i := len(list) - 1; i >= 0; i-- {
		for lo := 0; take[i] > 0 && take[i]-lo > 1; {
			mid, was := (lo+take[i])/2, take[i]
			take[i] = mid
			ok, err := can(with(take))
			if err != nil {
				return "", err
			}
			if !ok {
				lo, take[i] = mid, was
			}
		}
		if take[i] > 0 {
			said = append(said, list[i].saying(take[i]))
		}
	}
	if n := len(said); n > 3 {
		return fmt.Sprintf("%d changes at once, the greatest: %s", n, said[0]), nil
	}
	return strings.Join(said, ", and "), nil
}
