package model

import (
	"fmt"
	"math"
	"time"

	"meniscus/model/unit"
)

// Lessons is what all runs together say of the maker's own losses. Nothing of
// it is taken by itself: the maker is offered it, and Apply puts it into a
// project. It is about how much is mixed; no safety limit hangs on it, and the
// data sheets' limits stay where they are.
type Lessons struct {
	Points []UsedPoint         // each layer that was poured and weighed, oldest first
	Used   Learnt[unit.Number] // mixed over planned, of a layer
	Film   Learnt[unit.Share]  // of a mix, that stays in the cup
	Least  Learnt[unit.Mass]   // that stays in a small cup
	Soak   Learnt[unit.Length] // film drawn into bare wood
	Creep  Learnt[unit.Length] // film below wood that is not stuck down
}

// UsedPoint is one poured layer in the chart of used over planned.
type UsedPoint struct {
	Project string // by ID
	Name    string // of the project
	Layer   string // its name
	At      time.Time
	Planned unit.Mass
	Used    unit.Mass
	Ratio   float64 // used over planned
}

// Learnt is one figure by the maker's own runs. It is drawn towards the usual
// value, which counts as much as two runs: one run moves it a third of the way,
// five 5/7. A run that says more than twice as much as is usual, or less than
// half, counts as twice or half.
type Learnt[Q unit.Quantity] struct {
	Value  Q // proposed
	Low    Q // what one more run may show: about two in three lie between
	High   Q
	Usual  Q
	Runs   int     // that told something
	Weight float64 // what they count for: a run that tells little counts as less than one
	Label  string
	Words  string // "2.4 %, between 1.8 and 3.2 %, by 5 runs; 3 % is usual"
}

// Own tells whether there is anything to propose.
func (l Learnt[Q]) Own() bool { return l.Runs > 0 }

// Learning gathers lessons from one project after the other, so that they need
// not all be at hand at once. Its zero value is ready.
type Learning struct {
	points                         []UsedPoint
	used, film, least, soak, creep gathered
}

// usualWeight is how many runs the usual value counts for, and freakRun the
// logarithm of the farthest that one run can say a figure lies from it: twice or
// half as much (common practice, no source).
const usualWeight = 2

var freakRun = math.Log(2)

// gathered holds the logarithms of a figure over its usual value.
type gathered struct {
	sum, square, weight float64
	runs                int
}

// add takes in what a run says: so many times the usual, and how much that
// tells, 0 to 1.
func (t *gathered) add(ratio, weight float64) {
	if math.IsNaN(ratio) || !(weight > 0) {
		return
	}
	x := -freakRun
	if ratio > 0 {
		x = min(max(math.Log(ratio), -freakRun), freakRun)
	}
	t.sum, t.square, t.weight = t.sum+weight*x, t.square+weight*x*x, t.weight+weight
	if weight > 0.05 {
		t.runs++
	}
}

// factor gives how many times the usual value to propose, and the factor within
// which one more run may lie from that; spread is the usual one.
func (t *gathered) factor(spread float64) (k, within float64) {
	if t.runs == 0 {
		return 1, math.Exp(spread)
	}
	mean := t.sum / (t.weight + usualWeight)
	// The spread of the runs about the proposal, beside the usual one.
	about := max(0, t.square-2*mean*t.sum+mean*mean*t.weight)
	return math.Exp(mean), math.Exp(math.Sqrt((about + usualWeight*spread*spread) / (t.weight + usualWeight)))
}

// learnt makes a figure of what was gathered.
func learnt[Q unit.Quantity](t *gathered, label string, usual typical[Q], write func(Q) string) Learnt[Q] {
	spread := math.Log(float64(usual.high)/float64(usual.low)) / 2
	k, within := t.factor(spread)
	v := float64(usual.value) * k
	l := Learnt[Q]{Value: Q(v), Low: Q(v / within), High: Q(v * within), Usual: usual.value, Runs: t.runs, Weight: t.weight, Label: label}
	if runs := "1 run"; l.Own() {
		if l.Runs > 1 {
			runs = itoa(l.Runs) + " runs"
		}
		l.Words = fmt.Sprintf("%s, between %s and %s, by %s; %s is usual", write(l.Value), write(l.Low), write(l.High), runs, write(l.Usual))
	} else {
		l.Words = write(l.Usual) + " is usual; no run says anything yet"
	}
	return l
}

// The usual spreads of what has no band of its own (common practice, no
// source): a tenth either way of what is mixed, and 5 to 12 g in a small cup.
var (
	usualUsed  = typical[unit.Number]{1, 0.9, 1.1}
	usualLeast = typical[unit.Mass]{typicalCupLeast, 5 * unit.Gram, 12 * unit.Gram}
)

// Add takes in the runs of a project, which may have none. Invented examples
// teach nothing. The plan is the project's own.
func (g *Learning) Add(p *Project, pl *Plan) {
	if p.Demo {
		return
	}
	run := p.Ran(pl, nil, nil)
	for i := range run.Layers {
		l := &run.Layers[i]
		if l.At.IsZero() || l.Used() <= 0 || l.Planned.Total <= 0 {
			continue
		}
		at := UsedPoint{p.ID, p.Name, l.Name, l.At, l.Planned.Total, l.Used(), l.Used().Per(l.Planned.Total)}
		g.points = append(g.points, at)
		g.used.add(at.Ratio, 1)
		g.cups(l)
		g.mold(p, &pl.Layers[i], l)
	}
}

// cups learns from what stayed in the cups of a pour: of large ones the share
// of the mix, of small ones the mass.
func (g *Learning) cups(l *LayerRan) {
	if l.Emptied <= 0 {
		return
	}
	cups := max(1, l.Cups)
	each := l.Stayed.Times(1 / float64(cups))
	if held := l.Emptied.Times(1 / float64(cups)); held.Times(float64(typicalCupFilm.value)) > typicalCupLeast {
		g.film.add(each.Per(held)/float64(typicalCupFilm.value), 1)
	} else {
		g.least.add(each.Per(typicalCupLeast), 1)
	}
}

// mold learns from what went into the mold beyond the geometry. That is known
// no better than the geometry is, so a run tells as much as the allowance stands
// out of it; soak and creep share what it tells by their parts.
func (g *Learning) mold(p *Project, pl *LayerPlan, l *LayerRan) {
	in, known := l.InMold()
	if !known || l.Stayed+l.Over <= 0 || pl.Mass.Value <= 0 {
		return // all that was mixed is not all that went in
	}
	if l.Emptied <= 0 {
		for _, a := range pl.Allowances {
			if a.Kind == AllowCup {
				in -= a.Mass
			}
		}
	}
	var soak, creep unit.Mass
	for _, a := range pl.Allowances {
		switch a.Kind {
		case AllowSoak:
			soak = a.Mass
		case AllowCreep:
			creep = a.Mass
		}
	}
	films := soak + creep
	if films <= 0 {
		return
	}
	// What the films themselves are off by is not doubt about the geometry.
	variance := float64(pl.Mass.Sigma) * float64(pl.Mass.Sigma)
	for _, x := range pl.Influences {
		if x.Field == "mixing/soak" || x.Field == "mixing/creep" {
			variance -= float64(x.Sigma) * float64(x.Sigma)
		}
	}
	doubt := math.Sqrt(max(0, variance)) / float64(films)
	tells := 1 / (1 + doubt*doubt)
	q := (in - (pl.Mass.Value - films)).Per(films)
	own := func(set unit.Dim, usual typical[unit.Length]) float64 { return set.Or(usual.value).Per(usual.value) }
	g.soak.add(q*own(p.Mixing.Soak, typicalSoak), tells*soak.Per(films))
	g.creep.add(q*own(p.Mixing.Creep, typicalCreep), tells*creep.Per(films))
}
