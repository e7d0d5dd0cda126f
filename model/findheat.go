package model

import (
	"fmt"
	"slices"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// findings tells what the simulation noticed, in the order of the layers.
func (h *heat) findings(c *Curing) []Finding {
	var list []Finding
	s := h.p.Style
	for k := range c.Layers {
		l := &c.Layers[k]
		if !l.Ready {
			continue
		}
		say := func(level Level, subject Subject, kind, field, what, why, do string) {
			list = append(list, Finding{kind, level, subject, field, what, why, do})
		}
		at := "layers/" + l.ID
		h.findPeak(l, at, say)
		h.findStopped(l, at, say)
		if l.Cracks == Beyond && !l.RunsAway {
			say(Check, OfCure, "heat.crack", at+"/to", l.Name+" is likely to crack as it cools",
				fmt.Sprintf("once set it is up to %s warmer in one place than in another; about %s is usual to bear (common practice)", wholeRise(s)(l.Gradient.Value), s.TempRise(crackGradient)), "pour it in thinner layers, or in a cooler room")
		}
		if k < len(c.Layers)-1 && l.Shut() {
			say(Check, OfCure, "heat.no-window", at, "There is no time at which the next pour on "+l.Name+" is sure to bond",
				fmt.Sprintf("by its data sheet and its own heat together the window would open at %s, when it has closed", s.Span(l.RecoatFrom.Value)), "let it harden and sand it before the next pour, or pour it shallower")
		}
		if l.Stall != nil {
			do := "warm the room once it has set, evenly and not with a heater that is left alone"
			if l.Stall.WarmTo == 0 {
				do = "ask the supplier whether it can be cured harder, or use another resin"
			}
			say(Check, OfCure, "heat.stall", "shop/room", l.Name+" "+l.Stall.Text,
				fmt.Sprintf("it comes to a softening temperature of %s, in a room at %s", s.Temperature(l.Stall.Softening), s.Temperature(l.Stall.Room)), do)
		}
		if cups := l.Cups; cups != nil && cups.Ready && !cups.Possible {
			say(Stop, OfMixing, "cups.late", "mixing/cupHolds", l.Name+" cannot be poured out before it thickens in the cup", cups.Why, cups.Change)
		}
		if l.Cups != nil { // it has not been poured
			h.findMarks(k, l, say)
			h.settles(c, l, say)
		}
		for _, note := range h.layers[k].cal.Notes {
			say(Note, OfCure, "heat.sheet", "sheets/"+h.layers[k].sheet.ID, h.layers[k].sheet.Name+": "+note, "the simulation is made to give the sheet's own figures", "check these figures on the data sheet")
		}
	}
	if f, ok := h.findGap(); ok {
		list = append(list, f)
	}
	return h.p.forget(h.plan, unique(list))
}

// findPeak tells where a pour gets too hot, or may.
func (h *heat) findPeak(l *LayerCuring, at string, say func(level Level, subject Subject, kind, field, what, why, do string)) {
	s := h.p.Style
	whose := "the data sheet's limit"
	if l.PeakLimit.Typical {
		whose = "the usual limit (common practice; the data sheet does not say)"
	}
	do := "pour it shallower or in a cooler room"
	if l.Deepest.Known && !l.Deepest.Bound {
		do = "pour at most " + s.Length(l.Deepest.Value) + " at once"
		if l.Room.Known && !l.Room.Bound {
			do += ", or in a room no warmer than " + l.Room.Text
		}
	}
	// What is still to be poured is mended in its layer; what is in the mold is
	// watched over where it cures.
	level, subject := Stop, OfLayers
	if !l.Assumed {
		subject = OfCure
		do = "keep away from the fumes, keep it in sight, and let nothing that burns lie near it"
	}
	switch {
	case l.RunsAway:
		say(level, subject, "heat.runaway", at+"/to", fmt.Sprintf("%s runs away at hour %.1f", l.Name, l.RunsAfter.Value.Hours()),
			fmt.Sprintf("its own heat hurries it past %s: it smokes, cracks and can burn", s.Temperature(runawayLimit)), do)
	case l.PeakCheck == Beyond:
		say(level, subject, "heat.peak", at+"/to", fmt.Sprintf("%s gets too hot: %s at hour %.0f", l.Name, wholeDegrees(s)(l.Peak.Value), l.PeakAfter.Value.Hours()),
			fmt.Sprintf("%s is %s", whose, s.Temperature(l.PeakLimit.Value)), do)
	case l.PeakCheck == NotKnown:
		say(Check, subject, "heat.perhaps", at+"/to", l.Name+" may get too hot",
			fmt.Sprintf("%s, and %s is %s", bandWords(l.Peak, wholeDegrees(s)), whose, s.Temperature(l.PeakLimit.Value)), learn(l)+"; "+do)
	}
}

// unreadFor is how long a room may go unread before that is said (common
// practice, no source).
const unreadFor = unit.Day

// findGap tells of the longest stretch in which the room was not read.
func (h *heat) findGap() (Finding, bool) {
	n := len(h.room.Log)
	if n == 0 {
		return Finding{}, false
	}
	longest := unit.Span(0)
	for _, g := range cure.Gaps(h.room.Log, h.room.Log[0].At, h.room.Log[n-1].At, unreadFor) {
		longest = max(longest, g.To-g.From)
	}
	return Finding{"heat.gap", Note, OfCure, "shop/room", "The room was not read for " + h.p.Style.Span(longest),
		"between two readings its temperature is taken to run straight", "read it in the morning and in the evening while a pour cures"}, longest > 0
}

// learn says what would tell more.
func learn(l *LayerCuring) string {
	if len(l.Narrow) == 0 {
		return "learn more of this resin"
	}
	return "to know better, " + l.Narrow[0].Learn
}

// unique leaves out what was said before.
func unique(list []Finding) []Finding {
	var kept []Finding
	for _, f := range list {
		if !slices.Contains(kept, f) {
			kept = append(kept, f)
		}
	}
	return kept
}

// Noticed gives the plan's findings and those of the simulation, where it is of
// the same project, gravest first.
func (c *Curing) Noticed(pl *Plan) []Finding {
	if c.Project != pl.Project || len(c.Findings) == 0 {
		return pl.Findings
	}
	list := append(slices.Clone(pl.Findings), c.Findings...)
	sortFindings(list)
	return list
}
