package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// Make turns a project into its plan. It never fails: what is missing or
// impossible becomes a finding, and the rest is planned. The project is not
// changed. Instants in the plan follow from the journal alone, so the plan does
// not change as time goes by.
func Make(p Project) Plan {
	m := &maker{stack: compile(&p)}
	m.x = m.in.values()
	m.plan = Plan{Project: p.ID, Name: p.Name, Demo: p.Demo}
	m.measure()
	m.mold()
	m.woods()
	m.loose()
	m.pours()
	m.slabs()
	m.layUps()
	m.floats()
	m.holding()
	m.finish()
	m.plan.Steps = p.steps(m.plan.Layers)
	m.plan.Out = p.happened(EntryDemolded)
	m.find()
	m.plan.Safety = safety(&p, &m.plan)
	m.draw()
	return m.plan
}

// maker holds a plan in the making.
type maker struct {
	*stack
	x       []float64
	fillNow Fill
	ok      bool // the mold is measured, so there is a fill
	taken   []taking
	mass    []spread // of each layer
	volume  []spread // of each piece that could be compiled
	whole   spread   // capacity
	ofSlabs []Finding
	plan    Plan
}

// measure evaluates the fill and the spreads of all results in one pass over
// the inputs.
func (m *maker) measure() {
	m.taken = make([]taking, len(m.layers))
	m.ok = m.fill(m.x, &m.fillNow) == nil
	if !m.ok {
		z := 0.0
		for i := range m.layers {
			m.taken[i] = taking{bottom: z, top: m.step(m.x, i, z)}
			z = max(z, m.taken[i].top)
		}
		m.mass = make([]spread, len(m.layers))
		m.volume = make([]spread, len(m.pieces))
		return
	}
	n := len(m.layers)
	var f Fill
	work := make([]taking, n)
	all := propagate(&m.in, n+len(m.pieces)+1, func(x, out []float64) {
		if m.fill(x, &f) != nil {
			f.cavity, f.count = m.fillNow.cavity, m.fillNow.count
			f.parts = append(f.parts[:0], m.fillNow.parts...)
		}
		m.takings(x, &f, work)
		for k := range work {
			out[k] = float64(work[k].mass)
		}
		for k := range m.pieces {
			out[n+k] = float64(m.woodVolume(&f, &m.pieces[k]))
		}
		out[len(out)-1] = float64(f.cavity.VolumeBelow(f.Depth())) * float64(f.count)
	})
	m.mass, m.volume, m.whole = all[:n], all[n:n+len(m.pieces)], all[len(all)-1]
	m.takings(m.x, &m.fillNow, m.taken)
}

// woodVolume is a piece's wood, its voids taken out.
func (m *maker) woodVolume(f *Fill, w *stackPiece) unit.Volume {
	v := f.parts[w.body].solid.VolumeBelow(f.parts[w.body].solid.Top())
	for _, k := range w.voids {
		p := &f.parts[k]
		v += p.solid.VolumeBelow(p.solid.Top()).Times(p.count)
	}
	return v
}

// fillLine is the top of the highest layer.
func (m *maker) fillLine() unit.Length {
	z := 0.0
	for i := range m.taken {
		z = max(z, m.taken[i].top)
	}
	return unit.Length(z)
}

func (m *maker) mold() {
	p := &m.plan.Mold
	p.Count = m.p.Mold.Cavities()
	p.Depth = m.p.Mold.Depth.Value
	p.FillLine = m.fillLine()
	p.Freeboard = p.Depth - p.FillLine
	if !m.ok {
		return
	}
	c := m.fillNow.cavity
	p.Capacity = estimate[unit.Volume](m.whole)
	p.FloorArea, p.RimArea = c.AreaAt(0), c.AreaAt(p.Depth)
	p.DraftEach = m.draftEach()
	p.Surface = m.fillNow.Surface(p.FillLine - unit.Length(1e-9))
	p.Resin = m.fillNow.Below(p.FillLine)
	if p.Surface > 0 {
		p.Sink = unit.Length(float64(m.sunk()) / float64(p.Surface))
		p.Finished = p.FillLine - p.Sink - m.p.Finish.Top.Value - m.p.Finish.Bottom.Value
	}
	if room := c.VolumeBelow(min(p.FillLine, p.Depth)).Times(float64(p.Count)); room > 0 {
		p.WoodShare = float64(m.woodBelow(min(p.FillLine, p.Depth))) / float64(room)
	}
	const points = 49
	for i := range points {
		z := p.Depth.Times(float64(i) / (points - 1))
		p.Curve = append(p.Curve, CurvePoint{z, m.fillNow.Below(z)})
	}
	p.FillTest = m.fillTest()
	p.Level = m.level()
	p.Tilt = m.tilt()
	p.Draft = unit.Angle(math.Atan2(float64(p.DraftEach), float64(p.Depth)))
}

// sunk is what is missing at the top once all has cured: what the last layer
// shrinks by and, where the layers below are not refilled, what they do.
func (m *maker) sunk() unit.Volume {
	v, last := unit.Volume(0), len(m.layers)-1
	for k := range m.layers {
		if k == last || m.p.Mixing.NoRefill {
			v += max(0, m.taken[k].net).Times(m.x[m.layers[k].shrink])
		}
	}
	return v
}

// woodBelow is the wood below a level, its voids taken out.
func (m *maker) woodBelow(z unit.Length) unit.Volume {
	v := unit.Volume(0)
	for i := range m.pieces {
		w := &m.pieces[i]
		v += m.fillNow.takenUp(w.body, 0, z)
		for _, k := range w.voids {
			v += m.fillNow.takenUp(k, 0, z)
		}
	}
	return v
}

// draftEach is what the walls lean between rim and floor, on one side, read
// off the sections' bounds along the width.
func (m *maker) draftEach() unit.Length {
	c := m.fillNow.cavity
	_, floor := c.Section(0).Bounds()
	_, rim := c.Section(c.Depth()).Bounds()
	return unit.Length(rim.Y - floor.Y)
}

// waterDensity is that of water at 20 °C (CRC Handbook; value from memory).
const waterDensity unit.Density = 998.2

// fillTest holds a fill test against the computed volume.
func (m *maker) fillTest() *FillTestPlan {
	t := &m.p.Mold.FillTest
	var measured unit.Volume
	switch {
	case t.Water.Given():
		measured = t.Water.Value.Over(waterDensity)
	case t.Dry.Given():
		measured = t.Dry.Value
	default:
		return nil
	}
	c := m.fillNow.cavity
	level := min(t.Level.Or(c.Depth()), c.Depth())
	computed := c.VolumeBelow(level)
	if computed <= 0 {
		return nil
	}
	apart := float64(measured)/float64(computed) - 1
	plan := &FillTestPlan{Measured: measured, Computed: computed, Apart: apart}
	if math.Abs(apart) > fillTestLimit {
		plan.Cause = m.fillTestCause(apart, level)
	}
	return plan
}

// What a fill test is judged by (common practice, no source).
const (
	fillTestLimit = 0.03 // how far two volumes of a cavity may lie apart before one of them is doubted
	slipNear      = 0.04 // how near to what a slip would make them they count as that slip
	dryFillOff    = 0.06 // how far apart dry fill alone may bring them: it packs to 3 to 5 %
)

// fillTestCause names the slip that would best explain how far a fill test and
// the sizes lie apart.
func (m *maker) fillTestCause(apart float64, level unit.Length) string {
	mold := &m.p.Mold
	ratio := 1 + apart
	near := func(r float64) bool { return math.Abs(ratio/r-1) < slipNear }
	switch {
	case (mold.Kind == MoldRound) && (near(4) || near(0.25)):
		return "a diameter taken for a radius, or the other way round"
	case mold.Kind == MoldPolygon && (near(polygonSlip(mold.Sides)) || near(1/polygonSlip(mold.Sides))):
		return "across flats taken for across corners, or the other way round"
	case mold.Draft.Kind == LeanNone && mold.end() == AtRim && apart < 0:
		// Walls that lean in by l at the floor take l·(1 - z/depth) at the height z.
		high := float64(level) * (1 - float64(level)/(2*float64(m.fillNow.Depth())))
		lean := -apart * float64(m.fillNow.cavity.VolumeBelow(level)) / (high * m.wallLength())
		return fmt.Sprintf("walls that lean in towards the floor: about %s on each side would explain it", m.length(unit.Length(lean)))
	case mold.Draft.Kind == LeanNone && mold.end() == AtFloor && apart > 0:
		return "walls that lean out towards the rim, which were not measured"
	case mold.FillTest.Dry.Given() && math.Abs(apart) < dryFillOff:
		return "dry fill packs to 3 to 5 %; weigh water if the mold can stand it"
	}
	return fmt.Sprintf("a depth or level read %s wrong would explain it; measure the depth again in the middle and at a corner", m.length(level.Times(math.Abs(apart))))
}

// wallLength is the length of the rim.
func (m *maker) wallLength() float64 {
	return float64(m.fillNow.cavity.Section(m.fillNow.Depth()).Ring().Perimeter())
}

// polygonSlip is the ratio of areas when flats and corners are confused.
func polygonSlip(sides int) float64 {
	c := math.Cos(math.Pi / float64(max(3, sides)))
	return 1 / (c * c)
}

func (m *maker) pours() {
	for k := range m.layers {
		m.plan.Layers = append(m.plan.Layers, m.layerPlan(k))
	}
}

func (m *maker) layerPlan(k int) LayerPlan {
	l, t := &m.layers[k], m.taken[k]
	p := LayerPlan{
		ID: l.layer.ID, Name: l.layer.Name, Sheet: l.layer.Sheet,
		Bottom: unit.Length(t.bottom), Top: unit.Length(t.top), Depth: unit.Length(t.top - t.bottom),
		BelowRim: m.plan.Mold.Depth - unit.Length(t.top),
		Colour:   colourOf(&l.layer.Tint), Clear: clearness(&l.layer.Tint),
		Net: t.net, Volume: t.volume(), Density: l.known,
		Status: Planned,
	}
	if l.sheet != nil {
		p.SheetName = l.sheet.Name
	}
	if _, begun := m.p.PourStart(l.layer.ID); begun {
		p.Status = Poured
	}
	warm, measured := m.p.warmthOf(l.layer.ID)
	p.Times = layerTimes(l.sheet, warm)
	p.Checks = m.limits(k, &p, measured)
	if !m.ok {
		p.Checks = append(p.Checks, m.tintCheck(k, &p)...)
		return p
	}
	spread := m.mass[k]
	p.Mass = estimate[unit.Mass](spread)
	p.Mass.Value, p.Mass.Low, p.Mass.High = max(0, p.Mass.Value), max(0, p.Mass.Low), max(0, p.Mass.High)
	p.Net, p.Volume = max(0, p.Net), max(0, p.Volume)
	p.Influences, p.Advice = m.influences(spread)
	p.Allowances = m.allowances(k, t)
	var cup Allowance
	p.Mix, cup = m.mixPlan(k, t, unit.Mass(spread.up))
	p.Checks = append(p.Checks, m.tintCheck(k, &p)...)
	if cup.Mass > 0 {
		p.Allowances = append(p.Allowances, cup)
	}
	p.PerMM, p.PerGrain = m.more(k, unit.Millimetre), m.more(k, unit.Inch/16)
	if n := m.fillNow.count; n > 1 && t.net > 0 {
		for c := range n {
			part := m.fillNow.in(c, unit.Length(t.top)) - m.fillNow.in(c, unit.Length(t.bottom))
			p.ByCavity = append(p.ByCavity, t.mass.Times(float64(part)/float64(t.net)))
		}
	}
	return p
}

// more is what it costs to pour layer k so much higher: over the top of the
// wood, where it ends there. What stands on the layer is not in the way, since
// it rises with it. A layer that ends at the rim is taken at its surface.
func (m *maker) more(k int, by unit.Length) unit.Mass {
	top := unit.Length(m.taken[k].top)
	rho := m.layers[k].known.Value
	if depth := m.plan.Mold.Depth; top+by > depth {
		return m.fillNow.Surface(min(top, depth) - unit.Length(1e-9)).By(by).Of(rho)
	}
	v := m.fillNow.Between(top, top+by)
	for i, part := range m.insert {
		if s := &m.p.Inserts[i]; part != none && s.On == OnLayer && s.Layer == m.layers[k].layer.ID {
			v += m.fillNow.takenUp(part, top, top+by)
		}
	}
	return max(0, v).Of(rho)
}

// tellingPart is how much of the variance one measurement has to make before a
// better reading of it is worth the maker's time (common practice, no source).
const tellingPart = 0.3

// influences names what makes the spread of a layer's mass, and what a better
// reading of the greatest would bring.
func (m *maker) influences(s spread) ([]Influence, string) {
	const most = 5
	var list []Influence
	for _, c := range s.parts[:min(most, len(s.parts))] {
		in := m.in.list[c.input]
		list = append(list, Influence{in.field, in.label, unit.Mass(c.size), c.size * c.size / (s.sigma * s.sigma)})
	}
	if len(list) == 0 || list[0].Part < tellingPart {
		return list, ""
	}
	rest := s.sigma * math.Sqrt(max(0, 1-list[0].Part))
	verb := "a better reading of it"
	if m.in.list[s.parts[0].input].typical {
		verb = "learning it in your shop"
	}
	return list, fmt.Sprintf("%s: %s would bring ±%s down to ±%s", list[0].Label, verb, m.p.Style.Mass(unit.Mass(quantile5*s.sigma)), m.p.Style.Mass(unit.Mass(quantile5*rest)))
}

// allowances lists what goes into the mold beyond the geometry.
func (m *maker) allowances(k int, t taking) []Allowance {
	rho := m.layers[k].known.Value
	var list []Allowance
	add := func(kind AllowanceKind, label string, v unit.Volume, why, field string, typical bool) {
		if v > 0 {
			list = append(list, Allowance{kind, label, v, v.Of(rho), why, typical, field})
		}
	}
	film := m.in.list[m.soak]
	add(AllowSoak, "soak into bare wood", t.soak, fmt.Sprintf("a film of %.2f mm on the wetted wood", film.value*1000), film.field, film.typical)
	film = m.in.list[m.creep]
	add(AllowCreep, "creep below the wood", t.creep, fmt.Sprintf("a film of %.2f mm below pieces that are not stuck down", film.value*1000), film.field, film.typical)
	if k > 0 {
		below := m.in.list[m.layers[k-1].shrink]
		add(AllowRefill, "refill of what the layer below sank", t.refill, fmt.Sprintf("%.2g %% of the layer below", below.value*100), below.field, below.typical)
	}
	return list
}

// colourOf is how a layer will look; a layer with no tint is water-clear with
// a hint of amber.
func colourOf(t *Tint) string {
	if t.Colour == "" {
		return "#e9e2cf"
	}
	return t.Colour
}

func clearness(t *Tint) float64 {
	if t.Colour == "" {
		return 0.85
	}
	return t.Clear
}
