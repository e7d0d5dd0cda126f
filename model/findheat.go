package model

import (
	"fmt"
	"slices"
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
		if l.Cracks == Beyond && !l.RunsAway {
			say(Check, OfCure, "heat.crack", at+"/to", l.Name+" is likely to crack as it cools",
				fmt.Sprintf("once set it is up to %s warmer in one place than in another; about %s is usual to bear (common practice)", s.TempRise(l.Gradient.Value), s.TempRise(crackGradient)), "pour it in thinner layers, or in a cooler room")
		}
		if l.Stall != nil {
			say(Check, OfCure, "heat.stall", "shop/room", l.Name+" "+l.Stall.Text,
				fmt.Sprintf("it comes to a softening temperature of %s, in a room at %s", s.Temperature(l.Stall.Softening), s.Temperature(l.Stall.Room)), "warm the room once it has set, evenly and not with a heater that is left alone")
		}
		for _, note := range h.layers[k].cal.Notes {
			say(Note, OfCure, "heat.sheet", "sheets/"+h.layers[k].sheet.ID, h.layers[k].sheet.Name+": "+note, "", "check these figures on the data sheet")
		}
	}
	return unique(list)
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
		do = fmt.Sprintf("pour at most %s at once, or in a room no warmer than %s", s.Length(l.Deepest.Value), l.Room.Text)
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
		say(level, subject, "heat.peak", at+"/to", fmt.Sprintf("%s gets too hot: %s at hour %.1f", l.Name, s.Temperature(l.Peak.Value), l.PeakAfter.Value.Hours()),
			fmt.Sprintf("%s is %s", whose, s.Temperature(l.PeakLimit.Value)), do)
	case l.PeakCheck == NotKnown:
		say(Check, subject, "heat.perhaps", at+"/to", l.Name+" may get too hot",
			fmt.Sprintf("%s, and %s is %s", bandWords(l.Peak, s.Temperature), whose, s.Temperature(l.PeakLimit.Value)), learn(l)+"; "+do)
	}
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
