package model

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"meniscus/model/unit"
)

// find notices what the maker should know, gravest first. What costs the wood,
// which cannot be bought again, is a stop.
func (m *maker) find() {
	m.plan.Findings = []Finding{}
	m.findMissing()
	m.findMold()
	m.findHolding()
	m.findSlabs()
	m.findLayUps()
	m.findPieces()
	m.findNature()
	m.findInserts()
	m.findSheets()
	m.findWarmth()
	m.findLayers()
	m.findMixing()
	m.findLines()
	m.findStock()
	m.findCure()
	m.findShop()
	m.findDay()
	m.findJournal()
	m.findTooHot()
	m.findChecklist()
	m.findFinishing()
	m.findPrice()
	m.plan.Findings = m.p.forget(&m.plan, m.plan.Findings)
	m.gather()
	sortFindings(m.plan.Findings)
}

// sortFindings puts the gravest first and leaves those of one level in order.
func sortFindings(list []Finding) {
	rank := map[Level]int{Stop: 0, Check: 1, Note: 2}
	slices.SortStableFunc(list, func(a, b Finding) int { return rank[a.Level] - rank[b.Level] })
}

// gather makes one finding of what is so of several pieces or inserts in the
// same words and with the same numbers, named after the first of them.
func (m *maker) gather() {
	name := func(f Finding) string {
		text, _ := Show(m.p, strings.Join(strings.Split(f.Field+"//", "/")[:2], "/")+"/name")
		return text
	}
	var list []Finding
	others := map[int]int{}
next:
	for _, f := range m.plan.Findings {
		if n := name(f); strings.HasPrefix(f.Kind, "piece.") || strings.HasPrefix(f.Kind, "insert.") {
			for i, old := range list {
				same := old.Kind == f.Kind && old.Level == f.Level && old.Why == f.Why && old.Do == f.Do
				if first := name(old); same && n != "" && first != "" && strings.TrimPrefix(old.What, first) == strings.TrimPrefix(f.What, n) {
					others[i]++
					continue next
				}
			}
		}
		list = append(list, f)
	}
	for i, n := range others {
		first := name(list[i])
		more := " and another"
		if n > 1 {
			more = fmt.Sprintf(" and %d others", n)
		}
		list[i].What = first + more + strings.TrimPrefix(list[i].What, first)
	}
	m.plan.Findings = append([]Finding{}, list...)
}

// say adds a finding, once: two layers of one product say the same of it.
func (m *maker) say(level Level, subject Subject, kind, field, what, why, do string) {
	if f := (Finding{kind, level, subject, field, what, why, do}); !slices.Contains(m.plan.Findings, f) {
		m.plan.Findings = append(m.plan.Findings, f)
	}
}

// length and the others write quantities as the project has them.
func (m *maker) length(l unit.Length) string { return m.p.Style.Length(l) }
func (m *maker) vol(v unit.Volume) string    { return m.p.Style.Volume(v) }

// findMissing turns what could not be compiled, and what was typed but not
// taken, into findings.
func (m *maker) findMissing() {
	for _, w := range m.wrong {
		subject := OfMold
		if strings.HasPrefix(w.Field, "layers/") {
			subject = OfLayers
		}
		why, do := helpOf(w.Field)
		m.say(Check, subject, "missing", w.Field, upperFirst(w.Message), why, do)
	}
	if s := &m.p.Shop; s.TiltRise.Value != 0 && s.TiltOver.Value <= 0 {
		m.say(Check, OfMold, "missing", "shop/tiltOver", "Say over what distance the bench rises by "+m.length(s.TiltRise.Value),
			"how far a layer is out of level follows from both", "measure between the two ends of the level or the straight edge that you read it with")
	}
	for i := range m.p.Layers {
		for _, a := range m.p.Layers[i].Additives {
			if !a.Share.Given() && !a.Mass.Given() {
				m.say(Check, OfMixing, "missing", "layers/"+m.p.Layers[i].ID+"/additives/"+a.ID+"/share", "Say how much of "+orWord(a.Name, "the additive")+" goes into "+m.p.Layers[i].Name, "until then it is not counted",
					"weigh what you put in, or type its share of the mix as its packing says")
			}
		}
	}
	for _, d := range m.p.Drafts {
		m.say(Check, subjectOf(d.Field), "draft", d.Field, fmt.Sprintf("“%s” was typed but not taken", clip(d.Text)), d.Reason, "the last good value stands until it is mended")
	}
}

// subjectOf tells which window a field belongs to.
func subjectOf(field string) Subject {
	switch field {
	case "finish/top", "finish/bottom", "finish/minCover":
		return OfLayers
	}
	switch first, _, _ := strings.Cut(field, "/"); first {
	case "finish":
		return OfFinish
	case "layers", "sheets":
		return OfLayers
	case "mixing":
		return OfMixing
	case "shop", "journal":
		return OfCure
	case "costing":
		return OfPrice
	case shelfRoot:
		return OfShelf
	}
	return OfMold
}

func (m *maker) findMold() {
	p := &m.plan.Mold
	if m.ok {
		m.findSlip()
	}
	if t := p.FillTest; t != nil && math.Abs(t.Apart) > fillTestLimit {
		m.say(Check, OfMold, "mold.fill-test", "mold/fillTest", "The fill test and the sizes do not agree",
			fmt.Sprintf("the test says %s, the sizes say %s: %+.1f %%", m.vol(t.Measured), m.vol(t.Computed), 100*t.Apart), "most likely: "+t.Cause)
	}
	if t := &m.p.Mold.FillTest; (t.Water.Given() || t.Dry.Given()) && t.Level.Given() && (t.Level.Value <= 0 || t.Level.Value > p.Depth) && p.Depth > 0 {
		m.say(Check, OfMold, "mold.fill-test-level", "mold/fillTest/level", "The level of the fill test is not in the mold",
			fmt.Sprintf("%s above the floor, of %s to the rim", m.length(t.Level.Value), m.length(p.Depth)), "measure it from the floor up")
	}
	if p.Freeboard < -1e-9 && m.ok {
		why := m.length(-p.Freeboard) + " above it"
		if len(m.plan.Pieces) == len(m.p.Pieces) { // else nobody knows what the wood takes up
			why += "; about " + m.vol(m.fillNow.Surface(p.Depth-unit.Length(1e-9)).By(-p.Freeboard)) + " would run over"
		}
		m.say(Stop, OfLayers, "mold.overflow", m.topField(), "The fill line is above the rim", why, "lower a layer, or use a deeper mold")
	}
	if t := p.Tilt; t != nil {
		shim := "shim the mold"
		if p.Level != nil && len(p.Level.Shims()) > 0 {
			shim = p.Level.shimWords(m.p.Style)
		}
		if t.Overflow > 0 {
			m.say(Stop, OfMold, "mold.tilt-overflow", t.Field, "Out of level, resin runs over the low side",
				fmt.Sprintf("the low side stands %s deeper than the middle; %s runs over", m.length(t.Extra), m.vol(t.Overflow)), shim+" until it is level")
		} else if allowance := m.p.Finish.Top.Value; t.Wedge > max(allowance, 0.2*unit.Millimetre) {
			m.say(Check, OfMold, "mold.tilt", t.Field, "Out of level, the piece comes out as a wedge",
				fmt.Sprintf("%s thicker at the low end; %s is to come off the top", m.length(t.Wedge), m.length(allowance)), shim+", or plan to take more off")
		}
	}
	m.findOverlaps()
	m.findCrowded()
	m.findFinish()
	for i := range m.p.Pieces {
		if c := m.p.Pieces[i].Cavity; c > m.p.Mold.Cavities() {
			m.say(Stop, OfMold, "piece.cavity", "pieces/"+m.p.Pieces[i].ID+"/cavity", m.p.Pieces[i].Name+" lies in a cavity that the mold does not have",
				fmt.Sprintf("cavity %d of %d", c, m.p.Mold.Cavities()), "put it in another")
		}
	}
}

// topField is the field that sets the fill line.
func (m *maker) topField() string {
	if n := len(m.layers); n > 0 {
		return "layers/" + m.layers[n-1].layer.ID + "/to"
	}
	return "mold/depth"
}

// findSlip looks for sizes typed in the wrong unit.
func (m *maker) findSlip() {
	lo, hi := m.fillNow.cavity.Section(m.plan.Mold.Depth).Bounds()
	long := max(hi.X-lo.X, hi.Y-lo.Y)
	field := "mold/length"
	switch m.p.Mold.Kind {
	case MoldRound:
		field = "mold/diameter"
	case MoldPolygon:
		field = "mold/span"
	case MoldOutline:
		field = "mold/outline"
	}
	switch {
	case long < 0.020:
		m.say(Check, OfMold, "mold.size-slip", field, "This is a very small mold", fmt.Sprintf("%s at its longest", m.length(unit.Length(long))), "if the size was meant in inches, write it so: 12 in")
	case long > 4:
		m.say(Check, OfMold, "mold.size-slip", field, "This is a very large mold", m.length(unit.Length(long))+" at its longest", "if the size was meant in mm, write it so: 320 mm")
	case float64(m.plan.Mold.Depth) > long:
		m.say(Note, OfMold, "mold.deep", "mold/depth", "The mold is deeper than it is long", fmt.Sprintf("%s deep", m.length(m.plan.Mold.Depth)), "check the unit of the depth")
	}
}

// upperFirst begins words with a capital letter, lowerFirst with a small one.
func upperFirst(s string) string { return first(s, strings.ToUpper) }

func lowerFirst(s string) string { return first(s, strings.ToLower) }

// first changes the first letter of words.
func first(s string, change func(string) string) string {
	_, size := utf8.DecodeRuneInString(s)
	return change(s[:size]) + s[size:]
}
