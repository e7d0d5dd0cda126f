package model

import (
	"cmp"
	"fmt"
	"math"

	"meniscus/model/unit"
)

// What stands in where the maker does not say (common practice, no source).
var (
	typicalPace  = typical[unit.Span]{40, 20, 90}     // for 1 dm² with one grit
	typicalLasts = typical[unit.Span]{900, 480, 1800} // a disc cuts for so long
	typicalDisc  = typical[unit.Length]{0.15, 0.125, 0.15}
	typicalOrbit = typical[unit.Length]{5e-3, 3e-3, 8e-3} // how far a random orbit swings across
)

const (
	// softMargin is how far below its softening temperature resin is kept, under
	// a sander as in use (common practice, no source).
	softMargin = unit.TempRise(10)
	// fastMost is how fast grains may pass over resin before it smears, in m/s,
	// and fastFrom from where it is watched (values from memory: 5 to 10 m/s).
	fastMost = 10.0
)

// sandLadder works out the grits and what they take off; times and discs follow
// once the areas are known.
func (m *maker) sandLadder() SandPlan {
	s := &m.p.Finish.Sand
	p := SandPlan{Softens: m.softensFirst()}
	p.Warmest = p.Softens.Value - unit.Temperature(softMargin)
	may, rule := ruleOf(s.Sander, s.Series)
	p.Rule = rule
	p.Speed = m.grainSpeed()
	p.TooFast = p.Speed > fastMost
	under := cmp.Or(s.Under, s.Want)
	topEnd, underEnd := endOf(s.Want, s.Series), endOf(under, s.Series)
	ends := endsOf(topEnd, underEnd)
	if len(ends) == 0 {
		p.Lines = m.sandLines(&p)
		return p
	}
	first, _ := GritOf(surfaceLeft(cmp.Or(s.After, m.p.Finish.flattensBy())))
	first = nearestGrit(s.Series, first.Grain)
	list, missing := s.gritsFor(first, ends)
	steps, broken := ladderBy(list, ends, may)
	belts := s.Sander == SanderBelt
	add := func(g, before Grit, belt, top, under bool) {
		least, source := leastRemoval(g, before)
		step := SandStep{Mark: g.Mark, Other: g.like(), Grain: g.Grain, Removes: least, Source: source, Wet: g.Grain < wetFinerThan, Belt: belt, Top: top, Under: under}
		if before.Mark != "" {
			step.Ratio = before.Grain.Per(g.Grain)
		}
		if top {
			p.Top += least
		}
		if under {
			p.Under += least
		}
		p.Steps = append(p.Steps, step)
	}
	for i, g := range steps {
		before := Grit{}
		if i > 0 {
			before = steps[i-1]
		}
		// A step of a face is done while it is not finer than that face's finish; the
		// nearest grit on hand may be a little finer than its last.
		goes := func(end Grit) bool { return end.Mark != "" && g.Grain >= end.Grain.Times(0.9) }
		if belts && i > 0 && before.Grain >= beltEnd && g.Grain < beltEnd {
			// The straight lines of the last belt go with its own grit (common practice,
			// no source).
			add(before, before, false, goes(topEnd), goes(underEnd))
		}
		add(g, before, belts && g.Grain >= beltEnd, goes(topEnd), goes(underEnd))
	}
	p.Polish = s.Want == SurfaceClear || under == SurfaceClear
	for _, i := range broken {
		p.Gaps = append(p.Gaps, GritGap{steps[i-1].Mark, steps[i].Mark, bridging(steps[i-1], steps[i], may)})
	}
	p.Gaps = append(p.Gaps, endGaps(first, ends, steps, missing, may)...)
	return p
}

// endsOf gives the grades that the finishes of two faces end with, the coarser
// first.
func endsOf(a, b Grit) []Grit {
	switch {
	case b.Mark == "" || a.Mark == b.Mark:
		a, b = b, a
	case a.Mark != "" && a.Grain < b.Grain:
		a, b = b, a
	}
	var ends []Grit
	if a.Mark != "" && a.Mark != b.Mark {
		ends = append(ends, a)
	}
	if b.Mark != "" {
		ends = append(ends, b)
	}
	return ends
}

// endGaps names the grits that the ends of the ladder lack: the first after the
// tool, and the last of each finish. Where nothing on hand is of use it is the
// whole ladder.
func endGaps(first Grit, ends, steps []Grit, missing []GritMark, may mayFollow) []GritGap {
	if len(steps) == 0 {
		end := ends[len(ends)-1]
		want := append([]GritMark{first.Mark}, bridging(first, end, may)...)
		if end.Mark != first.Mark {
			want = append(want, end.Mark)
		}
		return []GritGap{{first.Mark, end.Mark, want}}
	}
	var gaps []GritGap
	for _, mark := range missing {
		if mark == first.Mark {
			gaps = append(gaps, GritGap{mark, steps[0].Mark, append([]GritMark{mark}, bridging(first, steps[0], may)...)})
			continue
		}
		end, _ := GritOf(mark)
		last := Grit{}
		for _, g := range steps {
			if g.Grain > end.Grain {
				last = g
			}
		}
		if last.Mark != "" { // else the ladder only begins beyond it, which is said
			gaps = append(gaps, GritGap{last.Mark, mark, append(bridging(last, end, may), mark)})
		}
	}
	return gaps
}

// softensFirst gives the softening temperature of the layer that softens first:
// by the data sheets, where all tell, else with a typical one among them.
func (m *maker) softensFirst() Known[unit.Temperature] {
	k := Known[unit.Temperature]{Absent: true}
	for i := range m.p.Layers {
		s := m.p.Sheet(m.p.Layers[i].Sheet)
		now := typicalSoftening.known()
		if s != nil {
			now = known(s.Softening, typicalSoftening)
		}
		if k.Absent || now.Value < k.Value {
			k = Known[unit.Temperature]{Value: now.Value, Low: now.Low, High: now.High, Typical: now.Typical || k.Typical, Source: now.Source}
		} else if now.Typical && !k.Typical {
			k.Typical, k.Low, k.Source = true, min(k.Low, now.Low), now.Source
		}
	}
	if k.Absent {
		k = typicalSoftening.known()
	}
	return k
}

// grainSpeed gives how fast the fastest grains pass over the piece in m/s: the
// rim of a turning disc at π·D·N, the pad of a random orbit at π times what it
// swings across. It is 0 where the turns are not known, and by hand.
func (m *maker) grainSpeed() float64 {
	s := &m.p.Finish.Sand
	per := float64(s.Turns) / 60
	switch s.Sander {
	case SanderHand:
		return 0
	case SanderDisc, SanderBelt:
		return math.Pi * float64(s.Disc.Or(typicalDisc.value)) * per
	}
	return math.Pi * float64(typicalOrbit.value) * per
}

// sandWork adds the areas, the times and the discs. The edges are sanded with
// the top.
func (m *maker) sandWork(p *SandPlan) {
	s, t := &m.p.Finish.Sand, &m.plan.Finish.Trim
	pace, lasts := taken(s.Pace, typicalPace), taken(s.Lasts, typicalLasts)
	edges := t.Around.By(max(0, t.High-t.Low))
	pieces := float64(m.p.Mold.Cavities())
	const square = 0.01 // m², that the pace is for
	p.Time = Known[unit.Span]{Typical: pace.Typical, Source: pace.Source}
	for i := range p.Steps {
		step := &p.Steps[i]
		step.Area = 0
		if step.Top {
			step.Area += t.Area + edges
		}
		if step.Under {
			step.Area += t.Area
		}
		step.Area = step.Area.Times(pieces)
		squares := float64(step.Area) / square
		step.Time = pace.Value.Times(squares)
		step.Discs = int(math.Ceil(step.Time.Per(lasts.Value) - 1e-9))
		p.Time.Value += step.Time
		p.Time.Low += pace.Low.Times(squares)
		p.Time.High += pace.High.Times(squares)
		p.Discs += step.Discs
	}
	p.Advice = m.sandAdvice(p)
	p.Lines = m.sandLines(p)
}

func (m *maker) sandAdvice(p *SandPlan) []string {
	if len(p.Steps) == 0 {
		return nil
	}
	list := []string{
		"Sand only what has fully cured. Where the dust smears or the disc loads up, stop: the resin is too warm or not through.",
		fmt.Sprintf("Keep the surface below %s: when it is more than hand warm, wait. Little pressure, and keep the sander moving.", wholeDegrees(m.p.Style)(p.Warmest)),
		"Write over the face with a pencil before each grit; the next one begins when all of it is gone and only the scratches of this one are left.",
		"A sawn edge begins a grit or two coarser than a planed face.",
		"Wipe the face between grits: one coarse grain left over scratches through all that follow.",
	}
	wet, belt := false, false
	for _, s := range p.Steps {
		wet, belt = wet || s.Wet, belt || s.Belt
	}
	if belt {
		list = append(list, "A belt reaches the faces alone: sand the edges with the same grits by disc or by hand. It leaves straight lines; where the ladder ends with a belt and they show, go over it once more with that grit by hand, along the grain.")
	}
	if wet {
		list = append(list, fmt.Sprintf("Dry as far as %s, then with water and a drop of soap, fresh for each grit; no power tool that is not made for it near water, and bare wood is sealed or kept dry.", lastCoarserThan(m.p.Finish.Sand.Series, wetFinerThan)))
	}
	list = append(list, "Look along the face against a low light before you go finer: haze or a bright line is a scratch that an earlier grit left. Go back to that grit, not on.")
	if p.Polish {
		list = append(list, "Then polish, with a soft pad, little compound and slowly, in two grades; stop when it gets warm.")
	}
	return list
}

func (m *maker) sandLines(p *SandPlan) []WorkingInput {
	s := &m.p.Finish.Sand
	if len(p.Steps) == 0 {
		value, why := "not chosen", "choose the finish wanted, and the grits follow"
		if s.Want == SurfaceRaw {
			value, why = "not sanded", "yours"
		} else if s.Want != "" || s.Under != "" {
			value, why = "no grit on hand", "none of the grits on hand lies between the surface as it is and the finish wanted"
		}
		return []WorkingInput{line("Finish", value, why).at("finish/sand/want")}
	}
	pace, lasts := taken(s.Pace, typicalPace), taken(s.Lasts, typicalLasts)
	list := []WorkingInput{
		line("Finish", cmp.Or(s.Want, SurfaceRaw).In(s.Series), "yours").at("finish/sand/want"),
		line("Begins after", string(cmp.Or(s.After, m.p.Finish.flattensBy())), "the grit to begin with is common practice, no source").at("finish/sand/after"),
		line("Steps", p.Rule, "mean sizes of grains by ISO 6344 and CAMI"),
	}
	for _, step := range p.Steps {
		why := "takes at least " + micrometres(step.Removes)
		if step.Other != "" {
			why += "; like " + string(step.Other)
		}
		if step.Ratio > 0 {
			why += fmt.Sprintf("; %.2f times finer", step.Ratio)
		}
		how := "dry"
		if step.Wet {
			how = "wet"
		}
		if s.Sander == SanderBelt {
			how = step.By() + ", " + how
		}
		value := fmt.Sprintf("%s, %s", how, m.p.Style.Span(step.Time))
		if step.Time == 0 {
			value = how
		} else {
			value += ", " + step.discs()
		}
		if step.Top != step.Under {
			face := "the top"
			if step.Under {
				face = "the underside"
			}
			value += ", " + face + " alone"
		}
		list = append(list, line(string(step.Mark), value, why))
	}
	list = append(list,
		line("Comes off the top", m.fine(p.Top), "the least that each grit takes, together"),
		line("Off the underside", m.fine(p.Under), "the same").at("finish/sand/under"),
		line("Time for 1 dm² and grit", m.p.Style.Span(pace.Value), orSource(pace)).at("finish/sand/pace").standing(pace.Typical),
		line("A disc lasts", m.p.Style.Span(lasts.Value), orSource(lasts)).at("finish/sand/lasts").standing(lasts.Typical))
	if p.Time.Value > 0 {
		list = append(list, line("All in all", m.p.Style.Span(p.Time.Value), fmt.Sprintf("%s to %s, %s", m.p.Style.Span(p.Time.Low), m.p.Style.Span(p.Time.High), count(p.Discs, "disc", "discs"))+m.ofPieces()))
	}
	list = append(list, line("Keep the surface below", wholeDegrees(m.p.Style)(p.Warmest), fmt.Sprintf("softens at %s, less %s", bandWords(p.Softens, wholeDegrees(m.p.Style)), m.p.Style.TempRise(softMargin))).standing(p.Softens.Typical))
	if p.Speed > 0 {
		list = append(list, line("Fastest grain", fmt.Sprintf("%.1f m/s", p.Speed), fmt.Sprintf("at most about %.0f m/s on resin (value from memory)", fastMost)).at("finish/sand/turns"))
	}
	return list
}

// orSource names where a figure is from.
func orSource[Q unit.Quantity](k Known[Q]) string {
	if k.Typical {
		return commonPractice
	}
	return k.Source
}

// count writes so many of a thing.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// micrometres writes a scratch: 102 µm, 4.2 µm.
func micrometres(l unit.Length) string {
	um := float64(l) * 1e6
	if um < 10 {
		return trimZeros(fmt.Sprintf("%.1f", um)) + " µm"
	}
	return fmt.Sprintf("%.0f µm", um)
}

// OwnGrit marks a grit as on hand, or as not.
func (p *Project) OwnGrit(mark GritMark, on bool) {
	var list []GritMark
	for _, g := range gritTable {
		has := g.Mark == mark && on
		for _, m := range p.Finish.Sand.Own {
			has = has || m == g.Mark && g.Mark != mark
		}
		if has {
			list = append(list, g.Mark)
		}
	}
	p.Finish.Sand.Own = list
}
