package model

import (
	"math"
	"slices"
	"time"

	"meniscus/model/unit"
)

// pourLeg is one layer's windows as the search reckons with them, since its own
// pour.
type pourLeg struct {
	layer, name    string
	takes          time.Duration
	tack           time.Duration
	from, best, to time.Duration // of the next pour
	bonds          bool          // from is known
	closes         bool          // to is known
	demold         time.Duration
	room           unit.Temperature
	refused        string
}

// legOf reads the windows of a layer. A figure that is no length of time is not
// known, and one that comes before the pour is over comes then.
func legOf(w *PourWindows) pourLeg {
	read := func(k Known[unit.Span]) (time.Duration, bool) {
		v := float64(k.Value)
		if k.Absent || math.IsNaN(v) || math.IsInf(v, 0) {
			return 0, false
		}
		return time.Duration(min(max(v, 0), longestWindow.Seconds()) * float64(time.Second)).Round(time.Second), true
	}
	l := pourLeg{layer: w.Layer, name: w.Name, room: w.Room, refused: w.Refused}
	l.takes, _ = read(w.PourTakes)
	l.takes = max(l.takes, tackTakes)
	l.demold, _ = read(w.Demold)
	l.from, l.bonds = read(w.RecoatFrom)
	l.from = max(l.from, l.takes)
	if l.to, l.closes = read(w.RecoatTo); !l.closes {
		l.to = longestWindow
	}
	var ok bool
	if l.best, ok = read(w.RecoatBest); !ok {
		l.best = l.from
		if l.closes {
			l.best += (l.to - l.from) / 2
		}
	}
	if l.tack, ok = read(w.TackFrom); !ok {
		l.tack = l.from
	}
	l.tack = min(l.tack, l.from)
	return l
}

// plotted is a start with all that follows from it.
type plotted struct {
	legs   []pourLeg
	awake  []period
	pours  []time.Duration // of each layer
	tacks  []time.Duration // of each but the last
	ready  time.Duration   // when all may come out
	demold time.Duration
	score  float64
}

// startMiss is why a start does not do.
type startMiss struct {
	at      time.Duration
	reached int           // how many layers could be poured
	gap     time.Duration // by which the window and the waking hours miss each other
	window  period        // of the layer that could not
	legs    []pourLeg
}

// never is a gap that no change of hours closes.
const never = time.Duration(math.MaxInt64)

// plot lays the acts of a start out, or says where it fails. Where it fails
// there is no way to choose the later pours that would have done.
func (s *startSearch) plot(c tryStart) (plotted, *startMiss) {
	n := len(c.legs)
	fail := func(reached int, gap time.Duration, window period) (plotted, *startMiss) {
		return plotted{}, &startMiss{c.at, reached, gap, window, c.legs}
	}
	if n == 0 || slices.ContainsFunc(c.legs, func(l pourLeg) bool { return l.refused != "" }) {
		return fail(-1, never, period{})
	}
	horizon := c.at
	for i, l := range c.legs {
		if i < n-1 {
			if !l.bonds || l.to < l.from {
				return fail(i+1, never, period{c.at + l.from, c.at + l.to})
			}
			horizon += l.to
		}
	}
	longest := time.Duration(0)
	for _, l := range c.legs {
		longest = max(longest, l.demold)
	}
	p := plotted{legs: c.legs, awake: s.day.waking(s.base, horizon+longest+4*wholeDay)}
	free := make([][]period, n) // when each pour may begin, by the maker's hours
	for i, l := range c.legs {
		free[i] = fitting(p.awake, l.takes)
	}
	can := overlaps(free[0], []period{{c.at, c.at}})
	if len(can) == 0 {
		_, gap, _ := apartFrom([]period{{c.at, c.at}}, free[0])
		return fail(0, gap, period{c.at, c.at})
	}
	for i := 1; i < n; i++ {
		window := spreadOver(can, c.legs[i-1].from, c.legs[i-1].to)
		can = overlaps(free[i], window)
		if len(can) == 0 {
			w, gap, ok := apartFrom(window, free[i])
			if !ok {
				gap = never
			}
			return fail(i, gap, w)
		}
	}
	// From the last pour back: when each may begin such that all later ones can.
	for i := n - 2; i >= 0; i-- {
		free[i] = overlaps(free[i], spreadOver(free[i+1], -c.legs[i].to, -c.legs[i].from))
	}
	p.pours = []time.Duration{c.at}
	for i, l := range c.legs[:n-1] {
		at := p.pours[i]
		next, _ := nearestIn(overlaps(free[i+1], []period{{at + l.from, at + l.to}}), at+l.best)
		tack, _ := nearestIn(overlaps(fitting(p.awake, tackTakes), []period{{at + l.tack, next}}), at+l.from)
		p.pours, p.tacks = append(p.pours, next), append(p.tacks, tack)
	}
	for i, l := range c.legs {
		p.ready = max(p.ready, p.pours[i]+max(l.demold, l.takes))
	}
	out := overlaps(fitting(p.awake, demoldTakes), []period{{p.ready, p.ready + 3*wholeDay}})
	if len(out) == 0 {
		return fail(n, never, period{p.ready, p.ready})
	}
	p.demold = out[0].from
	return p, nil
}

// apartFrom gives the stretch of a that comes nearest to one of b, and how far the
// two are from each other; false when there is none.
func apartFrom(a, b []period) (nearest period, gap time.Duration, ok bool) {
	gap = never
	for _, x := range a {
		for _, y := range b {
			if d := max(y.from-x.to, x.from-y.to, 0); d < gap {
				nearest, gap, ok = x, d, true
			}
		}
	}
	if !ok && len(a) > 0 {
		nearest = a[0]
	}
	return nearest, gap, ok
}

// acts lists what is to be done, in order of time.
func (s *startSearch) acts(p plotted) []Act {
	var list []Act
	for i, l := range p.legs {
		pour := Act{Kind: ActPour, Layer: l.layer, Label: "pour " + l.name, From: s.at(p.pours[i]), To: s.at(p.pours[i]), At: s.at(p.pours[i])}
		if i > 0 {
			below, at := p.legs[i-1], p.pours[i-1]
			pour.From, pour.To = s.at(at+below.from), s.end(below, at)
			list = append(list, Act{Kind: ActTack, Layer: below.layer, Label: "tack test of " + below.name, From: s.at(at + below.tack), To: s.end(below, at), At: s.at(p.tacks[i-1])})
		}
		list = append(list, pour)
	}
	last := p.legs[len(p.legs)-1]
	return append(list, Act{Kind: ActDemold, Layer: last.layer, Label: "take it out of the mold", From: s.at(p.ready), At: s.at(p.demold)})
}

// end gives when the window of a layer poured at a time closes; zero where that
// is not known.
func (s *startSearch) end(l pourLeg, poured time.Duration) time.Time {
	if !l.closes {
		return time.Time{}
	}
	return s.at(poured + l.to)
}
