package model

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// stagePath is a way to lay the lines.
type stagePath struct {
	pours int
	risk  float64
	lines []stageLine
	sink  float64 // of the top
}

// stageLine is a line between two layers.
type stageLine struct {
	z        float64
	crosses  bool // two colours meet there
	from, to int  // the seats on it
}

// stageNode is a state between two pours: a line at a level, the band of colour
// above it, and the seats on it. Seats stay in their order, so those below are
// all before from.
type stageNode struct {
	level    int
	band     int
	crosses  bool
	from, to int
	own      float64 // risk of the line itself and of what moves with it
	volume   float64 // of what stands on it
	tall     float64
}

// stageCost is pours and then risk.
type stageCost struct {
	pours int
	risk  float64
}

// unreached is the cost of what cannot be.
var unreached = stageCost{math.MaxInt, math.Inf(1)}

func (a stageCost) less(b stageCost) bool {
	return a.pours < b.pours || a.pours == b.pours && a.risk < b.risk-1e-12
}

// stageSearch is a search for the shortest way from what has been poured to the
// fill line. It goes over the nodes by level, as a line lies above the one below
// it. Only the cover over an insert hangs on what lies above, by the sink of the
// last layer: so each node is tried as the last one, the most promising first,
// until none can be better.
type stageSearch struct {
	*stageJob
	z      []float64 // of the levels; z[0] is where the pours begin
	fluids []float64 // resin below each, and below the fill line
	nodes  []stageNode
	starts []int       // of each level's nodes, and the end
	pairs  [][]float64 // 1 and the risk of a layer between two levels, by band; infinite where it cannot be, 0 where it was not looked at
	best   []stageCost
	before []int
	all    float64 // what all seats displace
	work   int     // steps since the context was asked
}

// solve finds the best way; found is false when there is none. Heat is asked
// only of the layers of the best way there is while heat allows all that the
// sheet does: when it takes nothing from those, no other way can be better.
func (j *stageJob) solve(ctx context.Context) (best stagePath, found bool, err error) {
	return j.solveOver(ctx, j.levels())
}

// solveOver is solve with lines at some of the levels given, which rise.
func (j *stageJob) solveOver(ctx context.Context, levels []float64) (best stagePath, found bool, err error) {
	for {
		s := &stageSearch{stageJob: j, z: append([]float64{j.base}, levels...)}
		if best, found, err = s.run(ctx); err != nil || !found {
			return best, found, err
		}
		news, bottom, band := false, j.base, 0
		for k := 0; k <= len(best.lines); k++ {
			news = j.learn(bottom, &j.bands[band]) || news
			if k < len(best.lines) {
				bottom = best.lines[k].z
				if best.lines[k].crosses {
					band++
				}
			}
		}
		if !news {
			return best, true, nil
		}
	}
}

func (s *stageSearch) run(ctx context.Context) (stagePath, bool, error) {
	s.prepare()
	if err := s.forward(ctx, 0, len(s.nodes)); err != nil {
		return stagePath{}, false, err
	}
	type last struct {
		node int
		cost stageCost // no more than it really is
	}
	var list []last
	for n := range s.nodes {
		if c := s.finish(n, 0); c != unreached {
			list = append(list, last{n, c})
		}
	}
	slices.SortStableFunc(list, func(a, b last) int {
		return cmp.Or(cmp.Compare(a.cost.pours, b.cost.pours), cmp.Compare(a.cost.risk, b.cost.risk))
	})
	best, path := unreached, stagePath{}
	for _, l := range list {
		if !l.cost.less(best) {
			break
		}
		node := &s.nodes[l.node]
		sink := s.sink(s.z[node.level], node.volume, s.all)
		if len(s.seats) > 0 {
			s.remember()
			if err := s.forward(ctx, sink, l.node+1); err != nil {
				return path, false, err
			}
		}
		if c := s.finish(l.node, sink); c.less(best) {
			best, path = c, s.trace(l.node)
			path.pours, path.risk, path.sink = c.pours, c.risk, sink
			if s.anyWay {
				break
			}
		}
	}
	return path, best != unreached, nil
}

// prepare lists the nodes.
func (s *stageSearch) prepare() {
	if s.fluid != nil {
		for _, z := range s.z {
			s.fluids = append(s.fluids, s.fluid(z))
		}
		s.fluids = append(s.fluids, s.fluid(s.fill))
	}
	for i := range s.seats {
		s.all += s.seats[i].volume()
	}
	s.nodes = append(s.nodes, stageNode{})
	s.starts = []int{0}
	for level := 1; level < len(s.z); level++ {
		s.starts = append(s.starts, len(s.nodes))
		own, ok := s.lineRisk(s.z[level])
		if !ok {
			continue
		}
		for band := range s.bands {
			s.addNodes(level, band, own)
		}
	}
	s.starts = append(s.starts, len(s.nodes))
	s.best, s.before = make([]stageCost, len(s.nodes)), make([]int, len(s.nodes))
}

// remember makes room for the layers that the search goes over again.
func (s *stageSearch) remember() {
	if s.pairs != nil || s.anyWay {
		return
	}
	s.pairs = make([][]float64, len(s.bands))
	for i := range s.pairs {
		s.pairs[i] = make([]float64, len(s.z)*len(s.z))
	}
}

// addNodes adds the states with a line at a level and a band above it.
func (s *stageSearch) addNodes(level, band int, own float64) {
	z := s.z[level]
	if band < len(s.bounds) && z > s.bounds[band].at+s.bounds[band].slack-sameLevel {
		return // this band ends below
	}
	least, most := 0, len(s.seats)
	for k := range s.seats {
		lo, hi := s.window(&s.seats[k], 0)
		if hi < z-sameLevel {
			least = k + 1
		}
		if lo > z+sameLevel {
			most = min(most, k)
		}
	}
	for from := least; from <= most; from++ {
		n := stageNode{level: level, band: band, from: from, to: from, own: own}
		for {
			if band == 0 || z > s.bounds[band-1].at-s.bounds[band-1].slack+sameLevel {
				s.nodes = append(s.nodes, n)
			}
			if band > 0 && math.Abs(z-s.bounds[band-1].at) <= s.bounds[band-1].slack+sameLevel {
				n.crosses = true
				c := n
				c.own += movedRisk * math.Abs(z-s.bounds[band-1].at)
				s.nodes = append(s.nodes, c)
				n.crosses = false
			}
			if n.to == most {
				break
			}
			seat := &s.seats[n.to]
			n.own += movedRisk * math.Abs(z-seat.at)
			n.volume += seat.volume()
			n.tall = max(n.tall, seat.tall())
			n.to++
		}
	}
}

// forward finds the best way to each of the first nodes, when the top sinks so
// far.
func (s *stageSearch) forward(ctx context.Context, sink float64, count int) error {
	for n := range count {
		s.best[n], s.before[n] = unreached, none
	}
	s.best[0] = stageCost{}
	deepest := 0.0
	for i := range s.bands {
		deepest = max(deepest, s.bands[i].most)
	}
	for n := 1; n < count; n++ {
		node := &s.nodes[n]
		own, ok := s.covered(node, sink)
		if !ok {
			continue
		}
		own += node.own
		band := node.band
		if node.crosses {
			band--
		}
		best, from := unreached, none
		for i := node.level - 1; i >= 0 && s.z[node.level]-s.z[i] <= deepest+sameLevel; i-- {
			for m := s.starts[i]; m < s.starts[i+1]; m++ {
				below := &s.nodes[m]
				if below.band != band || below.to != node.from || s.best[m] == unreached {
					continue
				}
				if s.best[m].pours+1 > best.pours {
					continue
				}
				if s.work++; s.work&0xffff == 0 {
					if err := ctx.Err(); err != nil {
						return err
					}
				}
				risk, ok := s.between(below, node.level, band)
				if c := (stageCost{s.best[m].pours + 1, s.best[m].risk + risk + own}); ok && c.less(best) {
					best, from = c, m
				}
			}
		}
		s.best[n], s.before[n] = best, from
	}
	return nil
}

// covered is the risk of the cover over what stands on a node's line.
func (s *stageSearch) covered(n *stageNode, sink float64) (float64, bool) {
	risk, z := 0.0, s.z[n.level]
	for k := n.from; k < n.to; k++ {
		if _, hi := s.window(&s.seats[k], sink); z > hi+sameLevel {
			return 0, false
		}
		r, ok := s.coverRisk(z+s.seats[k].tall(), sink)
		if !ok {
			return 0, false
		}
		risk += r
	}
	return risk, true
}

// between is the risk of the layer from a node up to a line.
func (s *stageSearch) between(below *stageNode, level, band int) (float64, bool) {
	top := s.z[level]
	risk := 0.0
	if below.to > below.from {
		d := top - s.z[below.level] - below.tall
		if s.throughs && d < -sameLevel {
			return 0, false
		}
		risk = toFourth(arrisClear / (arrisClear + max(0, d)))
	}
	layer, ok := s.layer(below.level, level, band)
	if !ok {
		return 0, false
	}
	t := s.time(below, level, band)
	return risk + layer + toFourth(t), t <= 1
}

// layer is layerRisk between two levels, remembered once the search goes over
// them again.
func (s *stageSearch) layer(from, to, band int) (float64, bool) {
	if s.pairs == nil {
		return s.layerRisk(s.z[from], s.z[to], &s.bands[band])
	}
	pair := &s.pairs[band][from*len(s.z)+to]
	if *pair == 0 {
		*pair = math.Inf(1)
		if r, ok := s.layerRisk(s.z[from], s.z[to], &s.bands[band]); ok {
			*pair = 1 + r
		}
	}
	return *pair - 1, !math.IsInf(*pair, 1)
}

// time is the share of the working time that the layer from a node up to a
// level takes; the level behind the last is the fill line.
func (s *stageSearch) time(below *stageNode, level, band int) float64 {
	if s.fluids == nil {
		return 0
	}
	return s.timeShare(s.fluids[level]-s.fluids[below.level]-below.volume, &s.bands[band])
}

// finish is the cost of the whole way when a node is the last one.
func (s *stageSearch) finish(n int, sink float64) stageCost {
	node := &s.nodes[n]
	band := len(s.bands) - 1
	if s.best[n] == unreached || node.band != band || node.to != len(s.seats) {
		return unreached
	}
	bottom := s.z[node.level]
	risk, ok := s.layerRisk(bottom, s.fill, &s.bands[band])
	t := s.time(node, len(s.z), band)
	if !ok || t > 1 {
		return unreached
	}
	for i := range s.still {
		r, ok := s.coverRisk(s.still[i].bottom+s.still[i].tall, sink)
		if !ok {
			return unreached
		}
		risk += r
	}
	return stageCost{s.best[n].pours + 1, s.best[n].risk + risk + toFourth(t)}
}

// trace follows the way back from the last node.
func (s *stageSearch) trace(n int) stagePath {
	var p stagePath
	for ; n > 0; n = s.before[n] {
		node := &s.nodes[n]
		p.lines = append(p.lines, stageLine{s.z[node.level], node.crosses, node.from, node.to})
	}
	slices.Reverse(p.lines)
	return p
}
