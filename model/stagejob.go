package model

import (
	"math"
	"slices"

	"meniscus/model/unit"
)

const (
	sameLevel  = 1e-6 // metres within which two levels are one
	wantMoves  = 2e-3 // how far a wanted level may move
	arrisClear = 1e-3 // how near a line may come to an edge of the wood (common practice, no source)
	thinnest   = 2e-3 // of a layer where the sheet is silent (common practice, no source)
)

// stageJob is what a planner of pours knows: levels in metres above the mold's
// floor, masses in kilograms, spans in seconds. A limit that is not known is
// infinite.
type stageJob struct {
	p     *Project
	pl    *Plan
	first int      // the first layer that is still to be poured
	notes []string // what is not known

	base, fill, rim float64
	bands           []stageBand
	bounds          []stageBound // between the bands
	seats           []stageSeat  // by their level
	still           []stageStill // inserts that stay where they are
	musts           []stageMust  // levels that need a line
	arrises         []stageEdge
	floats          []stageFloat
	now             []float64 // the lines as planned

	offTop, offBottom, cover float64 // what comes off, and the least that stays over an insert
	shrinkAll                float64 // where nothing is refilled: what all layers shrink by; else 0

	fluid              func(z float64) float64 // resin below z, with nothing on the seats; nil while the mold is not measured
	open               func(z float64) float64 // its surface at z
	extra              float64                 // poured for each part of the net
	cupPart, cupLeast  float64                 // left in the cup: of what is poured, and at least
	mix, pour, each    float64                 // spans: a cup, a kilogram, all cavities
	heat               *stageHeat
	grid, grain        float64
	throughs, thinRule bool // whether a line may not go through an insert, and no layer may be too thin
	anyWay             bool // whether any way will do and not only the best
}

// stageBand is adjacent layers of one product, tint and additives.
type stageBand struct {
	layers      []int // of the project
	sheet       string
	product     string
	most, least float64
	asked       float64 // the deepest that heat is asked for
	sheetSays   bool    // most is the data sheet's
	warm        bool    // most is less than the data sheet's since the room is warmer
	density     float64
	shrink      float64
	working     float64 // part of the working time that mixing and pouring may take
	cup         float64
}

// stageBound is a level at which two colours meet.
type stageBound struct {
	at, slack float64
	names     [2]string
}

// stageSeat is a level on which inserts stand, all on one line.
type stageSeat struct {
	at, slack float64
	items     []stageItem
}

// stageItem is one kind of insert.
type stageItem struct {
	id, name     string
	tall, volume float64
}

// stageStill is an insert that does not move with a line.
type stageStill struct {
	stageItem
	bottom float64
}

// stageMust is a level that needs a line, for what rests there.
type stageMust struct {
	at   float64
	name string
	id   string // of the insert; empty for wood
}

// stageEdge is the height of an edge of the wood.
type stageEdge struct {
	at   float64
	name string
}

// stageFloat is a piece that lifts when the resin of a pour stands so high
// above its underside.
type stageFloat struct {
	bottom, lifts float64
	name          string
}

// tall is the height of the tallest insert on a seat.
func (s *stageSeat) tall() float64 {
	t := 0.0
	for i := range s.items {
		t = max(t, s.items[i].tall)
	}
	return t
}

// volume is what the inserts on a seat displace.
func (s *stageSeat) volume() float64 {
	v := 0.0
	for i := range s.items {
		v += s.items[i].volume
	}
	return v
}

// newStageJob reads a job off a project and its plan. Where a figure is missing
// without which there is no job, asks says which.
func newStageJob(p *Project, pl *Plan, lim StageLimits) (j *stageJob, asks string) {
	j = &stageJob{p: p, pl: pl, throughs: true, thinRule: true}
	if asks = j.readLevels(); asks != "" {
		return j, asks
	}
	j.offTop, j.offBottom = float64(p.Finish.Top.Value), float64(p.Finish.Bottom.Value)
	j.cover = float64(p.Finish.MinCover.Or(typicalMinCover))
	j.readTimes(lim)
	j.readBands(lim)
	j.readPieces()
	j.readInserts()
	j.readFill()
	return j, ""
}

// readLevels finds what has been poured and what is to be filled.
func (j *stageJob) readLevels() string {
	p, pl := j.p, j.pl
	if len(p.Layers) == 0 || len(pl.Layers) != len(p.Layers) {
		return "add the first pour, up to the fill line"
	}
	for k := range p.Layers {
		if pl.Layers[k].Status == Poured {
			j.first = k + 1
		}
	}
	for k := range pl.Layers {
		l := &pl.Layers[k]
		switch {
		case k < j.first:
			j.base = max(j.base, float64(l.Top))
			continue
		case !p.Layers[k].To.Given() || p.Layers[k].By == ToBelow && !p.Mold.Depth.Given():
			return "say how deep " + l.Name + " is"
		case !(l.Depth > sameLevel) || math.IsInf(float64(l.Top), 0):
			return "raise " + l.Name + ", which does not rise above the layer below"
		}
		j.fill = float64(l.Top)
		j.now = append(j.now, j.fill)
	}
	j.fill = max(j.fill, j.base)
	j.now = j.now[:max(0, len(j.now)-1)]
	j.rim = math.Inf(1)
	if d := float64(p.Mold.Depth.Value); p.Mold.Depth.Given() {
		if j.rim = d; j.fill > d+sameLevel {
			return "lower the fill line by " + p.Style.Length(unit.Length(j.fill-d)) + ": it is above the rim"
		}
	}
	j.grain, j.grid = 1e-4, 0.5e-3
	if p.Style.LengthUnit() == unit.InInches {
		j.grain = float64(unit.Inch / 64)
		j.grid = 2 * j.grain
	}
	j.grid = max(j.grid, float64(unit.Graduation(p.Style.LengthGrain())))
	return ""
}

// readTimes takes the limits of the hands and of heat.
func (j *stageJob) readTimes(lim StageLimits) {
	j.mix, j.pour = float64(usualMix), float64(usualPour)
	j.each = float64(usualCavity) * float64(j.p.Mold.Cavities())
	if lim.Deepest != nil {
		j.heat = &stageHeat{ask: lim.Deepest, known: map[stageAsk]float64{}}
	}
}

// readBands finds the bands of colour among what is to be poured.
func (j *stageJob) readBands(lim StageLimits) {
	p := j.p
	told := map[string]bool{}
	for k := j.first; k < len(p.Layers); k++ {
		l := &p.Layers[k]
		if n := len(j.bands); n > 0 {
			below := &p.Layers[k-1]
			if below.alike(l) {
				b := &j.bands[n-1]
				b.layers = append(b.layers, k)
				b.least = j.leastOf(p.Sheet(l.Sheet), b.layers)
				continue
			}
			j.bounds = append(j.bounds, stageBound{at: float64(j.pl.Layers[k-1].Top), slack: wantMoves, names: [2]string{below.Name, l.Name}})
		}
		j.bands = append(j.bands, j.bandOf(k, lim, told))
	}
}

// alike tells whether two layers are poured of the same mix.
func (l *Layer) alike(o *Layer) bool {
	return l.Sheet == o.Sheet && l.Tint.Name == o.Tint.Name && l.Tint.Colour == o.Tint.Colour && l.Tint.Clear == o.Tint.Clear &&
		slices.EqualFunc(l.Stirred(), o.Stirred(), func(a, b Stirred) bool {
			return a.Name == b.Name && a.Kind == b.Kind && a.Share.Value == b.Share.Value && a.Mass.Value == b.Mass.Value && a.Grain.Value == b.Grain.Value
		})
}

// bandOf reads the limits of a band that begins with layer k. What its data
// sheet does not say is noted, once for each sheet.
func (j *stageJob) bandOf(k int, lim StageLimits, told map[string]bool) stageBand {
	lp := &j.pl.Layers[k]
	sheet := j.p.Sheet(j.p.Layers[k].Sheet)
	b := stageBand{layers: []int{k}, sheet: lp.Sheet, product: orWord(lp.SheetName, "the resin"), density: float64(lp.Density.Value), cup: math.Inf(1), working: math.Inf(1)}
	note := func(text string) {
		if key := b.sheet + text; !told[key] {
			told[key] = true
			j.notes = append(j.notes, text)
		}
	}
	b.shrink = float64(shrinkOf(sheet).Value)
	b.least = j.leastOf(sheet, b.layers)
	switch {
	case sheet != nil && sheet.MaxLayer.Given():
		b.most, b.sheetSays = float64(sheet.MaxLayer.Value), true
		room, measured := j.p.room()
		if here := float64(sheet.deepestAt(room)); lim.Deepest == nil && measured && here < b.most {
			b.most, b.warm = here, true
			note("in a room at " + j.p.Style.Temperature(room) + " a layer of " + j.length(b.most) + " gets as hot as one of " + j.p.Style.Length(sheet.MaxLayer.Value) + " where the data sheet of " + b.product + " holds; none is deeper")
		}
	default:
		for i := range j.pl.Layers {
			if j.pl.Layers[i].Sheet == b.sheet {
				b.most = max(b.most, float64(j.pl.Layers[i].Depth))
			}
		}
		note("how deep a layer of " + b.product + " may be is not known: none is deeper than you planned it")
	}
	if sheet != nil && !sheet.MinLayer.Given() {
		note("how shallow a layer of " + b.product + " may be is not known")
	}
	b.asked = b.most
	if w := lp.Times.Working; w.Absent {
		note("the working time of " + b.product + " is not known, so whether a pour can be mixed and poured in it is not either")
	} else {
		b.working = WorkingPart * float64(w.Value)
	}
	// No heat of a cup is reckoned here: where the maker's own is larger than the
	// working time holds for, that time would be too long.
	for _, cup := range []Known[unit.Mass]{j.p.Mixing.cupHolds(sheet), sheet.workingHolds()} {
		if !cup.Absent {
			b.cup = min(b.cup, float64(cup.Value))
		}
	}
	return b
}

// leastOf is the shallowest that the layers of a band may be: the data sheet's,
// or 2 mm, or as thin as one was planned by hand.
func (j *stageJob) leastOf(sheet *Sheet, layers []int) float64 {
	if sheet != nil && sheet.MinLayer.Given() {
		return float64(sheet.MinLayer.Value)
	}
	least := thinnest
	for _, k := range layers {
		least = min(least, float64(j.pl.Layers[k].Depth))
	}
	return least
}

// length writes a length in metres in the project's style.
func (j *stageJob) length(z float64) string { return j.p.Style.Length(unit.Length(z)) }
