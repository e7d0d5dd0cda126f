package model

import (
	"context"
	"time"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// heat is a project made ready for the simulation: the ground that the mold
// stands on, the room, and the pours with the products they are of.
type heat struct {
	p      *Project
	plan   *Plan
	start  time.Time // of the first pour, UTC; zero where none is poured or planned
	clock  TimeOfDay // what the shop's clock showed at it; empty where that is not known
	room   cure.Room // since the first pour
	told   bool      // the room's temperature was measured
	ground []cure.Stratum
	below  unit.FilmCoefficient
	layers []heatLayer
	next   int       // the first layer that is not poured yet; none when all are
	due    unit.Span // when that is planned for, since the first pour; 0: it is not
}

// heatLayer is one pour.
type heatLayer struct {
	plan    *LayerPlan
	sheet   *Sheet
	product cure.Product    // with what its lot taught
	cal     cure.Calibrated // for windows: as the lot is
	careful cure.Calibrated // for heat: never cooler or slower than the sheet
	patient cure.Calibrated // for waiting: never faster than the sheet
	lot     string          // sheet and lot; alike for layers of the same resin
	why     string          // it cannot be simulated; empty when it can
	poured  bool            // its pour has been started
	at      unit.Span       // when, since the first
	limit   Known[unit.Temperature]
}

// How a shop's day goes where nothing tells otherwise; common practice, no
// source.
const (
	warmestHour = 15 * unit.Hour // of the day
	assumedHour = 10 * unit.Hour // of a first pour that is not planned
)

// MostSimulated is how long a pour is followed: a band of times that reaches so
// far has no end that is known.
const MostSimulated = 21 * unit.Day

// inDays writes a span of whole days.
func inDays(s unit.Span) string { return itoa(int(s/unit.Day)) + " days" }

// heatOf makes a project ready. What cannot be simulated says why in its layer.
func heatOf(ctx context.Context, p *Project, pl *Plan) (*heat, error) {
	h := &heat{p: p, plan: pl}
	for k := range pl.Layers {
		l := &pl.Layers[k]
		if at, begun := p.PourStart(l.ID); begun && (h.start.IsZero() || at.At.Before(h.start)) {
			h.start, h.clock = at.At.UTC(), at.Clock
		}
	}
	h.next = none
	for k := range pl.Layers {
		if _, begun := p.PourStart(pl.Layers[k].ID); !begun {
			h.next = k
			break
		}
	}
	switch planned := p.Shop.Planned.UTC(); {
	case h.start.IsZero():
		h.start = planned
	case !p.Shop.Planned.IsZero():
		h.due = max(unit.SpanOf(planned.Sub(h.start)), 0)
	}
	h.readRoom()
	h.readGround()
	for k := range pl.Layers {
		h.layers = append(h.layers, h.layer(k))
	}
	if err := h.calibrate(ctx); err != nil {
		return nil, err
	}
	return h, h.learn(ctx)
}

// layer looks at one pour.
func (h *heat) layer(k int) heatLayer {
	pl := &h.plan.Layers[k]
	l := heatLayer{plan: pl, sheet: h.p.Sheet(pl.Sheet)}
	if at, begun := h.p.PourStart(pl.ID); begun {
		l.poured, l.at = true, unit.SpanOf(at.At.Sub(h.start))
	}
	switch {
	case l.sheet == nil:
		l.why = "no resin is chosen for it"
		return l
	case !(pl.Depth > 0):
		l.why = "it has no depth yet"
	case pl.Depth > mostSimulatedDepth:
		l.why = "it is too deep to reckon with"
	}
	if i := h.p.LayerIndex(pl.ID); i >= 0 {
		l.lot = lotKey(l.sheet.ID, h.p.Layers[i].Lot)
	}
	l.limit = known(l.sheet.PeakLimit, typicalPeakLimit)
	l.product = productOf(l.sheet)
	return l
}

// calibrate makes the products ready, each once.
func (h *heat) calibrate(ctx context.Context) error {
	type ready struct{ cal, careful, patient cure.Calibrated }
	made := map[string]ready{}
	for k := range h.layers {
		l := &h.layers[k]
		if l.why != "" {
			continue
		}
		r, ok := made[l.lot]
		if !ok {
			var errs [3]error
			r.cal, errs[0] = cure.Calibrate(ctx, l.product)
			r.careful, r.patient = r.cal, r.cal
			if taught := l.product.Learned; taught != (cure.Learned{}) {
				p := l.product
				p.Learned = taught.Cautious()
				r.careful, errs[1] = cure.Calibrate(ctx, p)
				p.Learned = taught.Patient()
				r.patient, errs[2] = cure.Calibrate(ctx, p)
			}
			if ctx.Err() != nil {
				return ctx.Err()
			}
			if errs[0] != nil || errs[1] != nil || errs[2] != nil {
				l.why = "its data sheet's figures cannot be brought together: check the times and the temperatures they hold at"
				continue
			}
			made[l.lot] = r
		}
		l.cal, l.careful, l.patient = r.cal, r.careful, r.patient
	}
	return nil
}

// mostSimulatedDepth is the deepest pour that is simulated.
const mostSimulatedDepth = 0.5 * unit.Metre

// productOf gives a data sheet in the kernel's terms.
func productOf(s *Sheet) cure.Product {
	quoted := func(f Figure[unit.Span]) cure.Quoted {
		return cure.Quoted{After: f.Value, At: f.At.Value, Mass: f.Mass.Value}
	}
	return cure.Product{
		Class:   cure.Class(s.Class),
		Density: densityOf(s),
		Working: quoted(s.WorkingTime), WorkingOther: quoted(s.WorkingOther),
		Gel: quoted(s.Gel), GelOther: quoted(s.GelOther),
		RecoatFrom: quoted(s.RecoatFrom), RecoatTo: quoted(s.RecoatTo), Demold: quoted(s.Demold),
		Peak: cure.QuotedPeak{T: s.Peak.Value, At: s.Peak.At.Value, Mass: s.Peak.Mass.Value},
		Heat: s.Heat.Value, Activation: s.Activation.Value, Softening: s.Softening.Value, Deepest: min(s.MaxLayer.Value, deepestTested),
	}
}

// deepestTested is the deepest layer that a sheet's hours are taken to hold for
// (common practice, no source).
const deepestTested = 25 * unit.Millimetre

// densityOf gives a sheet's mixed density, 0 where it cannot be told.
func densityOf(s *Sheet) unit.Density {
	if s.DensityMixed.Given() {
		return s.DensityMixed.Value
	}
	if parts, err := s.PartsByWeight(); err == nil && s.DensityA.Given() && s.DensityB.Given() {
		return mixedFrom(parts, s.DensityA.Value, s.DensityB.Value)
	}
	return 0
}

// readRoom makes the room a function of time: the shop's own temperature,
// swinging down to the night's where that is given, and the readings of the
// journal from the day before the first pour on. In a shop without a night the
// last reading holds.
func (h *heat) readRoom() {
	day, told := h.p.room()
	h.told = told
	h.room = h.p.Shop.dayAndNight(day, h.start, h.clock)
	if h.start.IsZero() {
		return
	}
	var log []cure.Reading
	for _, e := range h.p.standing() {
		if !e.Room.Given() || e.At.Before(h.start.Add(-24*time.Hour)) {
			continue
		}
		// Starting a pour notes the shop's temperature by day, which in a shop
		// with a night is no reading of the moment.
		if e.Kind == EntryPourStarted && h.room.Swing != 0 && e.Room.Value == day {
			continue
		}
		log, h.told = append(log, cure.Reading{At: unit.SpanOf(e.At.Sub(h.start)), T: e.Room.Value}), true
	}
	if h.room = h.room.Logged(log); h.room.Swing == 0 && len(h.room.Log) > 0 {
		h.room.Mean = h.room.Log[len(h.room.Log)-1].T
	}
}

// floors and benches say what matter a ground is of.
var (
	floors = map[FloorKind]cure.Matter{
		FloorHDPE: cure.HDPE, FloorBoard: cure.Board, FloorMelamine: cure.Board,
		FloorSilicone: cure.Silicone, FloorAluminium: cure.Aluminium, FloorGlass: cure.Glazing,
	}
	benches = map[BenchKind]cure.Stratum{
		BenchWood:  {Matter: cure.Plywood, Thickness: 30 * unit.Millimetre, Cells: 6},
		BenchMetal: {Matter: cure.Steel, Thickness: 3 * unit.Millimetre, Cells: 1},
	}
)

// readGround lays the bench and the mold's floor.
func (h *heat) readGround() {
	at := h.room.At(0)
	kind, _ := h.p.bench()
	if bench, ok := benches[kind]; ok {
		bench.From = at
		h.ground = append(h.ground, bench)
	}
	floor, _ := h.p.floor()
	thick := h.p.thick().Value
	h.ground = append(h.ground, cure.Stratum{Matter: floors[floor], Thickness: thick, Cells: cellsOf(thick, 3*unit.Millimetre, 1, 12), From: at})
	h.below = cure.Underneath
}

// cellsOf divides a thickness into cells of about the size given.
func cellsOf(thick, size unit.Length, least, most int) int {
	return min(max(int(thick.Per(size)+0.5), least), most)
}
