package model

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// find notices what the maker should know, gravest first. What costs the wood,
// which cannot be bought again, is a stop.
func (m *maker) find() {
	m.plan.Findings = []Finding{}
	m.findMissing()
	m.findMold()
	m.findPieces()
	m.findInserts()
	m.findSheets()
	m.findLayers()
	m.findMixing()
	m.findCure()
	rank := map[Level]int{Stop: 0, Check: 1, Note: 2}
	slices.SortStableFunc(m.plan.Findings, func(a, b Finding) int { return rank[a.Level] - rank[b.Level] })
}

func (m *maker) say(level Level, subject Subject, kind, field, what, why, do string) {
	m.plan.Findings = append(m.plan.Findings, Finding{kind, level, subject, field, what, why, do})
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
		m.say(Check, subject, "missing", w.Field, upperFirst(w.Message), "", "")
	}
	for _, d := range m.p.Drafts {
		m.say(Check, subjectOf(d.Field), "draft", d.Field, fmt.Sprintf("“%s” was typed but not taken", clip(d.Text)), d.Reason, "the last good value stands until it is mended")
	}
}

// subjectOf tells which window a field belongs to.
func subjectOf(field string) Subject {
	switch first, _, _ := strings.Cut(field, "/"); first {
	case "layers", "sheets", "finish":
		return OfLayers
	case "mixing":
		return OfMixing
	case "shop", "journal":
		return OfCure
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
	if p.Freeboard < -1e-9 {
		over := unit.Volume(0)
		if m.ok {
			over = m.fillNow.Surface(p.Depth - unit.Length(1e-9)).By(-p.Freeboard)
		}
		m.say(Stop, OfLayers, "mold.overflow", m.topField(), "The fill line is above the rim",
			fmt.Sprintf("%s above it; about %s would run over", m.length(-p.Freeboard), m.vol(over)), "lower a layer, or use a deeper mold")
	}
	if t := p.Tilt; t != nil {
		if t.Overflow > 0 {
			m.say(Stop, OfMold, "mold.tilt-overflow", "shop/tiltRise", "Out of level, resin runs over the low side",
				fmt.Sprintf("the low side stands %s deeper than the middle; %s runs over", m.length(t.Extra), m.vol(t.Overflow)), "shim the mold level")
		} else if allowance := m.p.Finish.Top.Value; t.Wedge > max(allowance, 0.2*unit.Millimetre) {
			m.say(Check, OfMold, "mold.tilt", "shop/tiltRise", "Out of level, the piece comes out as a wedge",
				fmt.Sprintf("%s thicker at the low end; %s is to come off the top", m.length(t.Wedge), m.length(allowance)), "shim the mold, or plan to take more off")
		}
	}
	m.findOverlaps()
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
		m.say(Check, OfMold, "mold.size-slip", field, "This is a very large mold", fmt.Sprintf("%.1f m at its longest", long), "if the size was meant in mm, write it so: 320 mm")
	case float64(m.plan.Mold.Depth) > long:
		m.say(Note, OfMold, "mold.deep", "mold/depth", "The mold is deeper than it is long", fmt.Sprintf("%s deep", m.length(m.plan.Mold.Depth)), "check the unit of the depth")
	}
}

// findOverlaps looks for wood that lies in wood.
func (m *maker) findOverlaps() {
	rings := make([]shape.Ring, len(m.pieces))
	for i := range m.pieces {
		rings[i] = placedRing(m.pieces[i].piece, m.pieces[i].faces.bottom)
	}
	for i := range m.pieces {
		for j := i + 1; j < len(m.pieces); j++ {
			a, b := &m.plan.Pieces[i], &m.plan.Pieces[j]
			if m.p.cavityIndex(m.pieces[i].piece.Cavity) != m.p.cavityIndex(m.pieces[j].piece.Cavity) || a.Bottom >= b.Top || b.Bottom >= a.Top {
				continue
			}
			if shape.Overlaps(rings[i], rings[j]) {
				m.say(Stop, OfMold, "piece.overlap", "pieces/"+b.ID+"/x", a.Name+" and "+b.Name+" lie in each other", "", "move or turn one of them")
			}
		}
	}
}

func (m *maker) findPieces() {
	for k := range m.pieces {
		w, p := m.pieces[k].piece, &m.plan.Pieces[k]
		at := "pieces/" + w.ID
		m.findFit(at, w, p)
		if c := p.ByWeight; c != nil && math.Abs(c.Apart) > fillTestLimit {
			do := "check the thickness in five places and the density of this board"
			if c.Apart < 0 {
				do = "check the thickness in five places; a hollow, a check in the wood or a wrong density would explain it"
			}
			m.say(Check, OfMold, "piece.weight", at+"/weight", p.Name+": its weight and its sizes do not agree",
				fmt.Sprintf("weighed and divided by its density it is %s, measured it is %s: %+.1f %%", m.vol(c.Volume), m.vol(p.Volume.Value), 100*c.Apart), do)
		}
		if m.ok && len(m.layers) > 0 {
			m.findLift(at, w, p)
			if p.Proud > 1e-6 && p.Bottom < m.plan.Mold.FillLine {
				m.say(Note, OfMold, "piece.proud", at+"/thickness", p.Name+" will stand proud of the resin", fmt.Sprintf("by %s", m.length(p.Proud)), "that is counted: resin is only taken up to the fill line")
			}
		}
		if p.Density > 1400 {
			m.say(Check, OfMold, "piece.density", at+"/weight", p.Name+" would be heavier than any wood", m.p.Style.Density(p.Density), "check its weight and sizes, and their units")
		}
	}
}

// findFit says by how much a piece misses, where, and how high it would sit.
func (m *maker) findFit(at string, w *Piece, p *PiecePlan) {
	f := &p.Fit
	if f.Fits {
		return
	}
	where := "at " + m.length(f.OverAt) + " above the floor"
	if f.OverAt < 1e-9 {
		where = "at the floor"
	}
	var why string
	do := "move or turn it; there is room"
	switch long, wide := f.LongBy > clearEnough, f.WideBy > clearEnough; {
	case long && wide:
		why = fmt.Sprintf("%s too long and %s too wide %s", m.length(f.LongBy), m.length(f.WideBy), where)
	case long:
		why = fmt.Sprintf("%s too long %s", m.length(f.LongBy), where)
	case wide:
		why = fmt.Sprintf("%s too wide %s", m.length(f.WideBy), where)
	default:
		why = fmt.Sprintf("it reaches %s beyond the wall %s", m.length(f.Over), where)
	}
	if f.LongBy > clearEnough || f.WideBy > clearEnough {
		do = "trim it, or bevel its edge to the lean of the wall"
	}
	switch tooLarge := f.LongBy > clearEnough || f.WideBy > clearEnough; {
	case f.Sits && f.SitsAt > p.Bottom:
		why += fmt.Sprintf("; it would sit %s up", m.length(f.SitsAt))
	case !f.Sits && tooLarge:
		why += "; it does not go into the mold"
	}
	m.say(Stop, OfMold, "piece.fit", at+"/x", p.Name+" does not fit the mold", why, do)
}

// findLift warns of wood that floats in a pour.
func (m *maker) findLift(at string, w *Piece, p *PiecePlan) {
	if p.LiftsAt == 0 {
		return
	}
	deepest := unit.Length(0)
	for _, t := range m.taken {
		if unit.Length(t.bottom) <= p.Bottom {
			deepest = max(deepest, unit.Length(t.top)-p.Bottom)
		}
	}
	switch {
	case deepest <= 0:
	case deepest > p.LiftsAt:
		m.say(Check, OfMold, "piece.floats", at, p.Name+" will float unless held down",
			fmt.Sprintf("it lifts when the first pour stands %s above its underside; that pour comes to %s", m.length(p.LiftsAt), m.length(deepest)),
			"clamp it from above, stick it down, or pour less first")
	case deepest > p.LiftsAt*85/100: // a slab's density is known to a tenth or so (common practice, no source)
		m.say(Check, OfMold, "piece.floats", at, p.Name+" will only just not be lifted",
			fmt.Sprintf("it lifts at %s, the first pour comes to %s", m.length(p.LiftsAt), m.length(deepest)), "hold it down all the same")
	default:
		m.say(Note, OfMold, "piece.held", at, p.Name+" will not be lifted by the first pour",
			fmt.Sprintf("it lifts at %s, that pour comes to %s and then holds it", m.length(p.LiftsAt), m.length(deepest)), "")
	}
}

func (m *maker) findInserts() {
	for i := range m.plan.Inserts {
		s, p := &m.p.Inserts[i], &m.plan.Inserts[i]
		at := "inserts/" + s.ID
		if m.insert[i] == none || s.Count == 0 {
			continue
		}
		if len(m.layers) > 0 {
			m.findCover(at, s, p)
		}
		if p.Floats {
			m.say(Check, OfMold, "insert.floats", at, p.Name+" would float", fmt.Sprintf("its density is %s, the resin's %s", m.p.Style.Density(s.density(p.Each)), m.p.Style.Density(m.resinAt(p.Bottom))),
				"fix each with a small dab of glue, or press it into the layer below while that is tacky")
		}
		if d := s.density(p.Each); d > 0 && (d < 50 || d > 20000) {
			m.say(Check, OfMold, "insert.density", at+"/mass", p.Name+": no material weighs that", m.p.Style.Density(d), "check its mass and its sizes, and their units")
		}
		if m.ok {
			lo, hi := m.fillNow.cavity.Section(p.Bottom).Bounds()
			if w, b := s.footprint(); w > hi.X-lo.X && w > hi.Y-lo.Y || b > hi.Y-lo.Y && b > hi.X-lo.X {
				m.say(Stop, OfMold, "insert.wide", at+"/diameter", p.Name+" would be wider than the mold", "", "check its sizes")
			}
			if c := s.Cavity; c > m.p.Mold.Cavities() {
				m.say(Stop, OfMold, "insert.cavity", at+"/cavity", p.Name+" lies in a cavity that the mold does not have", fmt.Sprintf("cavity %d of %d", c, m.p.Mold.Cavities()), "put it in another")
			}
		}
	}
}

// findCover checks the resin over an insert after finishing.
func (m *maker) findCover(at string, s *Insert, p *InsertPlan) {
	least := m.p.Finish.MinCover.Or(typicalMinCover)
	switch {
	case p.Top > m.plan.Mold.FillLine+1e-9:
		m.say(Stop, OfMold, "insert.proud", at, p.Name+" would stand out of the resin", fmt.Sprintf("%s above the fill line", m.length(p.Top-m.plan.Mold.FillLine)), "set it lower, cut it, or fill higher")
	case p.Cover < -1e-9:
		m.say(Stop, OfMold, "insert.cut", at, p.Name+" would be cut when the top is flattened", fmt.Sprintf("%s into it", m.length(-p.Cover)), "set it lower or fill higher")
	case p.Cover < least-1e-9:
		m.say(Check, OfMold, "insert.cover", at, p.Name+" would end close below the finished face",
			fmt.Sprintf("%s of cover after flattening; at least %s is wanted", m.length(p.Cover), m.length(least)), "set it lower or fill higher")
	}
}

// footprint is an insert's extent seen from above.
func (s *Insert) footprint() (long, wide float64) {
	d, l, w := float64(s.Diameter.Value), float64(s.Length.Value), float64(s.Width.Value)
	switch s.Kind {
	case InsertLying, InsertHalf:
		return l, d
	case InsertBox:
		return l, w
	case InsertFrustum:
		d = max(d, float64(s.Inner.Value))
	case InsertDisplaces, InsertMass:
		// Seen from above as round, with the area that its volume and height give.
		v, h := float64(s.Displaces.Value), float64(s.Tall.Value)
		if s.Kind == InsertMass && s.Density.Value > 0 {
			v = float64(s.Mass.Value) / float64(s.Density.Value)
		}
		if h <= 0 {
			h = math.Cbrt(6 / math.Pi * v)
		}
		if h > 0 {
			d = math.Sqrt(4 / math.Pi * v / h)
		}
	}
	return d, d
}

func upperFirst(s string) string {
	for i, r := range s {
		return strings.ToUpper(string(r)) + s[i+len(string(r)):]
	}
	return s
}
