package model

import (
	"cmp"
	"fmt"
	"strings"

	"meniscus/model/unit"
)

// findFinishing holds the work after the casting against what is left of it.
func (m *maker) findFinishing() {
	f := &m.plan.Finish
	if f.Ready {
		m.findTrim(&f.Trim)
		m.findFlatten(&f.Flatten)
		for i := range f.Mounts {
			m.findMount(&f.Mounts[i])
		}
		m.findSeries()
	}
	m.findSand(&f.Sand)
	m.findCoat()
	m.findUse(&f.Use)
}

func (m *maker) findTrim(t *TrimPlan) {
	if t.Ring == nil {
		if t.High > t.Low {
			m.say(Stop, OfFinish, "trim.nothing", "finish/trim/extra", "Nothing would be left inside the edges", fmt.Sprintf("%s more than the draft comes off every edge", m.tenth(m.p.Finish.Trim.Extra.Value)), "take less off")
		}
		return
	}
	if most, kerf := t.most(), t.Kerf.Value; most > 1e-5 && most < kerf {
		m.say(Note, OfFinish, "trim.kerf", "finish/trim/extra", "Less comes off an edge than the saw takes", fmt.Sprintf("at most %s, the kerf is %s", m.fine(most), m.fine(kerf)),
			"a blade with nothing on its far side wanders and chips resin: plane, rout or sand this off, or plan to take more")
	}
}

func (m *maker) findFlatten(p *FlattenPlan) {
	if p.Short > 1e-5 {
		from := "as planned"
		if p.Measured {
			from = "as measured"
		}
		m.say(Stop, OfFinish, "flatten.short", "finish/thickness", "The promised thickness can no longer be reached",
			fmt.Sprintf("%s are promised; the thinnest place is %s %s, and what has to come off leaves %s", m.tenth(p.Promised), m.tenth(p.Thinnest), from, m.tenth(p.Reached)),
			"agree on a thinner piece, take less off the underside, or pour more on top within the data sheet")
	}
	given := 0
	for _, d := range m.p.Finish.Flatten.Points {
		if d.Given() {
			given++
		}
	}
	if n := len(m.p.Finish.Flatten.Points); given > 0 && given < n {
		m.say(Check, OfFinish, "flatten.points", "finish/flatten/points/0", "Not every place of the casting is measured", fmt.Sprintf("%d of %d are given", given, n), "measure the four corners and the middle: the thinnest decides")
	}
	for _, c := range p.Cover {
		s := m.plan.Insert(c.Insert)
		if c.Fine || s == nil || s.Cover < -1e-9 {
			continue // what would be cut as planned is said of the insert itself
		}
		what, why := upperFirst(cmp.Or(c.Name, "an insert"))+" would be left with too little over it", fmt.Sprintf("%s under the finished face; at least %s is wanted", m.tenth(c.Over), m.tenth(p.Least))
		if c.Over >= p.Least {
			what, why = upperFirst(cmp.Or(c.Name, "an insert"))+" would be cut from below", fmt.Sprintf("the finished underside lies %s above its foot", m.tenth(-c.Under))
		}
		m.say(Stop, OfFinish, "flatten.cover", "inserts/"+c.Insert, what, why, "stop higher up, take less off, or pour more on top before you flatten")
	}
	if p.Faces == nil && (m.p.Finish.Top.Value > 0 || m.p.Finish.Bottom.Value > 0) {
		m.say(Check, OfFinish, "flatten.none", "finish/flatten/tool", "Something is to come off the faces, but nothing takes it off", fmt.Sprintf("%s off the top, %s off the underside", m.tenth(m.p.Finish.Top.Value), m.tenth(m.p.Finish.Bottom.Value)), "choose the tool that flattens")
	}
	r := &m.p.Finish.Flatten.Resin
	if t, ok := typicalPass[p.Tool]; ok && r.Given() && r.Value > t.resin.high {
		m.say(Check, OfFinish, "flatten.deep", "finish/flatten/resin", "These are deep passes for resin", fmt.Sprintf("%s with a %s; up to %s is usual", m.fine(r.Value), p.Tool, m.fine(t.resin.high)), "take less at a time: resin chips, melts and pulls the blade in")
	}
}

func (m *maker) findSand(p *SandPlan) {
	for _, g := range p.Gaps {
		want := make([]string, len(g.Want))
		for i, w := range g.Want {
			want[i] = string(w)
		}
		m.say(Check, OfFinish, "sand.gap", "finish/sand/own", "The ladder of grits misses a step", p.gapWords(g), "get "+strings.Join(want, ", ")+": what a step skips stays in the face as scratches")
	}
	if p.Top > m.p.Finish.Top.Value+1e-6 && m.p.Finish.Top.Given() && len(p.Steps) > 0 {
		m.say(Check, OfFinish, "sand.more", "finish/top", "Sanding alone takes more off the top than is planned", fmt.Sprintf("at least %s; %s is to come off in all", m.fine(p.Top), m.fine(m.p.Finish.Top.Value)), "plan to take more off, or fill higher")
	}
	if p.TooFast {
		m.say(Check, OfFinish, "sand.fast", "finish/sand/turns", "So fast a grain melts resin", fmt.Sprintf("%.0f m/s at the rim; up to about %.0f m/s is usual on resin", p.Speed, fastMost), "turn it slower, and let the piece cool between passes")
	}
	if len(p.Steps) > 0 && p.Warmest < m.warmShop() {
		level := Stop
		if p.Softens.Typical {
			level = Check
		}
		m.say(level, OfFinish, "sand.soft", "shop/room", "The resin is too soft to sand in this room", fmt.Sprintf("it softens at %s, and the room is at %s", m.p.Style.Temperature(p.Softens.Value), m.p.Style.Temperature(m.warmShop())), "wait for a cooler room, or cure it further by its data sheet")
	}
}

// warmShop is the temperature of the room, or nothing where it is not known.
func (m *maker) warmShop() unit.Temperature { return m.p.Shop.Room.Value }

func (m *maker) findMount(p *MountPlan) {
	at := "finish/mounts/" + p.ID
	s := m.p.Mount(p.ID)
	screw, known := ScrewOf(p.Screw)
	if !known || s == nil {
		m.say(Check, OfFinish, "missing", at+"/screw", "Choose the screw of "+p.Name, "how long it may be, and what to drill, follow from it", "choose what stands on the packet, or what the thing takes")
		return
	}
	if thread, ok := ScrewOf(s.Thread); ok && thread.Size != screw.Size {
		why := fmt.Sprintf("%s is %s thick with %s from thread to thread, %s is %s with %s", screw.Size, m.fine(screw.Thick), m.fine(screw.Pitch), thread.Size, m.fine(thread.Thick), m.fine(thread.Pitch))
		if screw.Wood || thread.Wood {
			why = "one of the two is a wood screw"
		}
		m.say(Stop, OfFinish, "mount.thread", at+"/screw", "The screw of "+p.Name+" does not fit its thread", why, "inch and metric threads never go together, however near they look: get screws of "+string(thread.Size))
	}
	if _, ok := HeadOf(s.Screw, s.Head); !ok && s.Head != "" {
		m.say(Check, OfFinish, "mount.head", at+"/head", string(s.Screw)+" is not made with a head that is "+string(s.Head), "the table has: "+headWords(s.Screw), "choose one of those; until then it counts as a pan head")
	}
	if p.Way == ScrewInto && !s.Thickness.Given() {
		m.say(Check, OfFinish, "missing", at+"/thickness", "Say how thick "+p.Name+" is where the screw goes through it", "until then it counts as nothing", "measure it there with a caliper")
	}
	switch {
	case p.Works:
	case p.Shortest > 0:
		m.say(Stop, OfFinish, "mount.screw", at+"/long", "The screw of "+p.Name+" does not work", m.screwWhy(s, p, screw), "the shortest that does is "+m.screwLength(screw, p.Shortest))
	default:
		m.say(Stop, OfFinish, "mount.none", at+"/screw", "No screw of this size holds "+p.Name, fmt.Sprintf("%s of thread has to hold, and the piece is %s thick", m.fine(p.BitesLeast), m.tenth(m.plan.Finish.Flatten.Reached)), "choose a thinner screw, a threaded insert, or glue")
	}
	for i, h := range p.Holes {
		switch least := p.edgeLeast(screw); {
		case h.Edge <= max(p.SunkWide, p.Clear)/2:
			m.say(Stop, OfFinish, "mount.outside", at, fmt.Sprintf("Hole %d of %s would break out of the edge", i+1, p.Name), fmt.Sprintf("its middle lies %s, and it is %s wide", m.insideWords(h.Edge), m.fine(max(p.SunkWide, p.Clear))), "move it in")
		case h.Edge < least-1e-9:
			m.say(Check, OfFinish, "mount.edge", at, fmt.Sprintf("Hole %d of %s is near the edge", i+1, p.Name), fmt.Sprintf("its middle lies %s; at least %s is wanted", m.insideWords(h.Edge), m.tenth(least)), "move it in, or drill with care: resin and end grain split there")
		}
	}
	if names := p.Passes(); len(names) > 0 && !s.Looked {
		m.say(Stop, OfFinish, "mount.insert", at+"/looked", upperFirst(p.Name)+" is drilled at the height of "+strings.Join(names, ", "),
			"where each of them lies is not known here, only how high; a drill that meets one ruins it, and may break or snatch",
			"do not drill before you have looked through the piece where each hole goes, with a lamp behind it, or at the photos before the pour where it lets no light through; if nothing is in the way, mark it as looked through, else move it")
	}
}

// insideWords says how far a place lies from the edge.
func (m *maker) insideWords(edge unit.Length) string {
	if edge < 0 {
		return m.tenth(-edge) + " outside the edge"
	}
	return m.tenth(edge) + " from the edge"
}

func headWords(size ScrewSize) string {
	var list []string
	for _, k := range HeadsOf(size) {
		list = append(list, string(k))
	}
	return strings.Join(list, "; ")
}

// screwWhy tells why a screw on hand does not work.
func (m *maker) screwWhy(s *Mount, p *MountPlan, screw Screw) string {
	thick := m.plan.Finish.Flatten.Reached
	long := m.screwLength(screw, p.Long)
	if p.Way == ScrewInto {
		if deep := p.Long - s.Thickness.Value; deep < p.BitesLeast {
			return fmt.Sprintf("%s goes only %s deep; %s has to hold", long, m.fine(max(0, deep)), m.fine(p.BitesLeast))
		}
		return fmt.Sprintf("%s would come too near to the far face, or out of it: the piece is %s thick, and %s stays beyond the pilot hole", long, m.tenth(thick), m.fine(beyondTip))
	}
	if p.Long < p.Shortest {
		return fmt.Sprintf("%s does not reach through %s, even with its head sunk as deep as leaves %s under it", long, m.tenth(thick), m.fine(max(underHead, screw.Thick)))
	}
	return fmt.Sprintf("%s goes too far: it would meet the end of the thread before its head is tight, or its head would not lie below the face", long)
}

// findSeries looks for screws of the two series that are near enough to be
// taken for each other at the bench.
func (m *maker) findSeries() {
	list := m.p.Finish.Mounts
	for i := range list {
		for k := range i {
			a, okA := ScrewOf(list[k].Screw)
			b, okB := ScrewOf(list[i].Screw)
			if !okA || !okB || a.Wood || b.Wood || a.Metric == b.Metric {
				continue
			}
			if r := a.Thick.Per(b.Thick); r > 0.93 && r < 1.07 {
				m.say(Check, OfFinish, "mount.series", "finish/mounts/"+list[i].ID+"/screw", fmt.Sprintf("%s and %s look alike, and do not fit each other", a.Size, b.Size),
					fmt.Sprintf("%s and %s thick", m.fine(a.Thick), m.fine(b.Thick)), "keep to one series on one piece, or keep the two apart at the bench")
			}
		}
	}
}

func (m *maker) findCoat() {
	f := &m.p.Finish
	if f.Coat.Kind.dulls() && f.Sand.Want == SurfaceClear && cmp.Or(f.Coat.Where, CoatAll) == CoatAll && m.plan.Mold.Surface > 0 {
		m.say(Check, OfFinish, "coat.dull", "finish/coat/where", "The coat would dull the polished resin", string(f.Coat.Kind)+" all over", "coat the wood alone, or leave the polish as it is")
	}
}

func (m *maker) findUse(u *UsePlan) {
	use := &m.p.Finish.Use
	if use.As == UseBoard && strings.TrimSpace(use.Food) == "" {
		m.say(Note, OfFinish, "use.food", "finish/use/food", "Nothing is quoted about food", "it is to be a serving board", "copy what the supplier's sheet states, word for word; the card says nothing beyond that")
	}
	if (use.As == UseBoard || use.As == UseTable) && u.Softens.Typical {
		m.say(Note, OfFinish, "use.softens", m.silentField(), "At what temperature the resin softens is not known", "the data sheet does not say", "ask the supplier; until then the card says that nothing hot may stand on it")
	}
}

// silentField is where the softening temperature that no sheet gives can be
// entered: of the first layer that lacks it.
func (m *maker) silentField() string {
	for i := range m.p.Layers {
		l := &m.p.Layers[i]
		s := m.p.Sheet(l.Sheet)
		if s == nil {
			return "layers/" + l.ID + "/sheet"
		}
		if !s.Softening.Given() {
			return "sheets/" + s.ID + "/softening"
		}
	}
	return "layers"
}
