package model

import (
	"fmt"
	"strings"
	"time"

	"meniscus/model/unit"
)

// sheetLayer is the sheet's part of one pour.
func (p *Project) sheetLayer(pl *Plan, c *Curing, i int, now time.Time) SheetLayer {
	l, st := &pl.Layers[i], p.Style
	out := SheetLayer{
		Name: fmt.Sprintf("%d  %s", i+1, l.Name), Resin: orWord(l.SheetName, "resin not chosen"),
		Level: st.Length(l.Top), Depth: st.Length(l.Depth), A: dash, B: dash, Total: dash, Poured: l.Status == Poured,
	}
	if l.Mix.Ready {
		out.A, out.B, out.Total = st.MassTo(l.Mix.A, l.Mix.Step), st.MassTo(l.Mix.B, l.Mix.Step), st.MassTo(l.Mix.Total, l.Mix.Step)
	}
	var tints []string
	for _, a := range l.Mix.Additives {
		tints = append(tints, a.Name+" "+st.MassTo(a.Mass, TintGrain(st)))
	}
	out.Tints = strings.Join(tints, ", ")
	out.Heat = "Heat not simulated"
	lc := c.layer(l.ID)
	if lc != nil && lc.Ready && !lc.Peak.Absent {
		out.Heat = "Peak " + bandWords(lc.Peak, wholeDegrees(st))
		if !lc.PeakLimit.Absent {
			out.Heat += ", limit " + st.Temperature(lc.PeakLimit.Value)
		}
		if lc.PeakCheck == Beyond {
			out.Heat += ": TOO HOT"
		}
	}
	out.Times = p.sheetTimes(pl, lc, l, now)
	return out
}

// sheetTimes words the times of a pour: by the shop's clock where it was started
// or is planned, else by how long after it they come.
func (p *Project) sheetTimes(pl *Plan, lc *LayerCuring, l *LayerPlan, now time.Time) string {
	start, known := pl.poured(l.ID)
	if next, ok := pl.NextPour(); !known && ok && next.ID == l.ID && p.Shop.Planned.After(now) {
		start, known = p.Shop.Planned, true
	}
	day := ""
	clock := func(at time.Time) string { // the day stands where it is another than before
		text := at.In(p.Shop.Place()).Format(cardTime)
		if of, hour, _ := strings.Cut(text, ", "); of == day {
			return hour
		} else {
			day = of
		}
		return text
	}
	write := func(k Known[unit.Span]) string {
		if known {
			return clock(start.Add(k.Value.Duration()))
		}
		return p.Style.Span(k.Value)
	}
	var parts []string
	at := func(dated, span string, k Known[unit.Span]) {
		if k.Absent || k.Value <= 0 {
			return
		}
		if known {
			span = dated
		}
		parts = append(parts, span+" "+write(k))
	}
	if known && l.Status == Poured {
		parts = append(parts, "poured "+clock(start))
	} else if known {
		parts = append(parts, "planned "+clock(start))
	}
	at("in the mold by", "all in the mold within", l.Times.Working)
	if lc != nil && lc.Ready {
		at("set", "sets in", lc.GelLast)
	}
	if i := p.LayerIndex(l.ID); i+1 < len(pl.Layers) {
		at("next pour from", "next pour after", l.Times.RecoatFrom)
		at("and before", "and before", l.Times.RecoatTo)
	} else {
		at("demold", "demold after", l.Times.Demold)
	}
	if len(parts) == 0 {
		return "Times not known"
	}
	return upperFirst(strings.ReplaceAll(strings.Join(parts, " · "), " · and", " and"))
}

// sheetTight lists what is held down with how much, the seams to look at, and the
// tray.
func (p *Project) sheetTight(pl *Plan) SheetGroup {
	return SheetGroup{Title: "Hold down, seal and catch", Where: "Mold", Keep: 3, Lines: append(p.sheetHold(pl), p.sheetSeams(pl)...)}
}

// sheetHold lists what the resin lifts and what it is held down with.
func (p *Project) sheetHold(pl *Plan) (list []string) {
	st := p.Style
	for k := range pl.Float.Pours {
		pour := &pl.Float.Pours[k]
		if k < len(pl.Layers) && pl.Layers[k].Status == Poured {
			continue
		}
		if pour.Hold > 0 {
			line := fmt.Sprintf("Pour %d: clamp or weigh the wood down with %s", k+1, st.Load(pour.Hold.Mass()))
			if pour.Stop > 0 {
				line += ", or stop at " + st.Length(pour.Stop)
			}
			list = append(list, line)
		}
	}
	for i := range pl.Float.Things {
		t := &pl.Float.Things[i]
		for k := range t.Pours {
			if t.Insert && t.Pours[k].Lifts && t.Pours[k].By == HeldByNothing {
				list = append(list, fmt.Sprintf("%s: glue or pin before pour %d", t.Name, k+1))
				break
			}
		}
		if !t.Known {
			list = append(list, t.Name+": weight not known, hold it down")
		}
	}
	return list
}

// sheetSeams lists the seams to look at, and what would get out by them.
func (p *Project) sheetSeams(pl *Plan) (list []string) {
	st := p.Style
	for i := range p.Mold.Hold.Seams {
		s := &p.Mold.Hold.Seams[i]
		line := "Seal " + orWord(s.Name, "seam")
		if s.Gap.Given() {
			line += ", gap " + fineLength(st, s.Gap.Value)
		}
		var lost []string
		for k := range pl.Leaks.Pours {
			for _, leak := range pl.Leaks.Pours[k].Seams {
				if leak.ID == s.ID && leak.State == SeamWet && leak.Hour > 0 {
					lost = append(lost, fmt.Sprintf("%s in the first hour of pour %d", st.Mass(leak.Hour), k+1))
				}
			}
		}
		if len(lost) > 0 {
			line += ": unsealed it loses " + strings.Join(lost, ", ")
		}
		list = append(list, line)
	}
	if pl.Leaks.Tray > 0 {
		list = append(list, "Tray for "+st.Volume(pl.Leaks.Tray)+" below the mold")
	}
	return list
}

// sheetCups says how each pour that is still to come is shared among cups.
func (p *Project) sheetCups(pl *Plan, c *Curing) SheetGroup {
	g, st := SheetGroup{Title: "Cups", Where: "Mixing", Keep: 8}, p.Style
	for i := range pl.Layers {
		l := &pl.Layers[i]
		if l.Status != Planned || !l.Mix.Ready {
			continue
		}
		cups := c.CupsOf(pl, l.ID)
		if cups == nil {
			g.Lines = append(g.Lines, fmt.Sprintf("Pour %d: one cup, %s", i+1, st.MassTo(l.Mix.Total, l.Mix.Step)))
			continue
		}
		for k := range cups.Batches {
			b := &cups.Batches[k]
			line := fmt.Sprintf("Pour %d, cup %d of %d", i+1, k+1, len(cups.Batches))
			if len(cups.Batches) == 1 {
				line = fmt.Sprintf("Pour %d, one cup", i+1)
			}
			line += ": A " + st.MassTo(b.A, l.Mix.Step) + ", B " + st.MassTo(b.B, l.Mix.Step)
			if b.Start > 0 {
				line += ", B goes in at " + st.Span(b.Start)
			}
			if into := p.cardInto(pl, b); into != "" {
				line += ". " + into
			}
			g.Lines = append(g.Lines, line)
		}
	}
	return g
}

// sheetChecks lists what is ticked before the pours: all lines of the next pour,
// which stay, then of each later one what it alone has.
func (p *Project) sheetChecks(pl *Plan) SheetGroup {
	g := SheetGroup{Title: "Before the pour", Where: "Mixing"}
	seen := map[string]bool{}
	first := true
	for i := range pl.Layers {
		if pl.Layers[i].Status != Planned {
			continue
		}
		for _, line := range p.Checklist(pl, pl.Layers[i].ID) {
			if seen[line.Words] {
				continue
			}
			seen[line.Words] = true
			if first {
				g.Lines = append(g.Lines, line.Words)
			} else {
				g.Lines = append(g.Lines, fmt.Sprintf("Pour %d: %s", i+1, line.Words))
			}
		}
		if first {
			g.Keep = len(g.Lines)
		}
		first = false
	}
	return g
}
