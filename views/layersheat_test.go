package views

import (
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/cure"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// makeCuring makes up what a simulation might say of a plan: every pour a day
// after the one before, warmest at its hour 9 in the middle of its depth. No
// physics.
func makeCuring(s *app.Snapshot) model.Curing {
	known := func(h float64) model.Known[unit.Span] {
		return model.Known[unit.Span]{Value: unit.Hour.Times(h), Low: unit.Hour.Times(0.8 * h), High: unit.Hour.Times(1.3 * h)}
	}
	temp := func(v, low, high float64) model.Known[unit.Temperature] {
		return model.Known[unit.Temperature]{Value: unit.Celsius(v), Low: unit.Celsius(low), High: unit.Celsius(high), Source: "data sheet"}
	}
	c := model.Curing{Project: s.Project.ID, Start: time.Date(2026, 11, 27, 18, 0, 0, 0, time.UTC), Banded: true}
	for i := range s.Plan.Layers {
		l := &s.Plan.Layers[i]
		rise := 12 + 9*float64(i)
		c.Layers = append(c.Layers, model.LayerCuring{
			ID: l.ID, Name: l.Name, Ready: true, Assumed: true, Start: c.Start.Add(time.Duration(24*i) * time.Hour),
			Peak: temp(20+rise, 16+rise*0.8, 24+rise*1.4), PeakAfter: known(9), PeakHeight: (l.Bottom + l.Top) / 2,
			PeakLimit: temp(50, 50, 50), PeakCheck: model.Fine,
			GelFirst: known(6), GelLast: known(8), Working: known(0.75), RecoatFrom: known(7), RecoatBest: known(8), RecoatTo: known(15), Demold: known(30), Sand: known(40),
			Gradient: model.Known[unit.TempRise]{Value: 6, Low: 4, High: 9}, Cracks: model.Fine,
			Room:    model.Answer[unit.Temperature]{Value: unit.Celsius(26.5), Known: true, Text: "26.5 °C", Reason: "in a warmer room its peak heat passes 50 °C"},
			Deepest: model.Answer[unit.Length]{Value: 25 * unit.Millimetre, Known: true, Bound: true, Text: "25 mm", Reason: "the data sheet's own limit; the heat would allow more, which changes nothing"},
			Narrow:  []model.Narrowing{{Field: "sheets/s2/heat", Label: "heat of reaction", Part: 0.62, Learn: "weigh 200 g in a cup, time it and note the hottest"}},
			Workings: map[model.Figured]model.Working{
				model.FigPeak: {Title: "Peak heat", Formula: "the hottest place of the simulation", Source: "simulated", Inputs: []model.WorkingInput{{Label: "Room", Value: "20 °C", Source: "yours", Field: "shop/room"}}},
				model.FigRoom: {Title: "Room at which it gets too hot", Formula: "the room is raised until the peak meets its limit", Source: "simulated"}, model.FigDeepest: {Title: "Deepest safe pour", Formula: "min(sheet, heat)", Source: "simulated"},
			},
		})
	}
	const cells = 20
	for hours := 0.0; hours <= 72; hours += 0.25 {
		f := model.TraceFrame{At: unit.Hour.Times(hours), Room: unit.Celsius(20 + 1.5*math.Sin(hours*math.Pi/12))}
		for i := range s.Plan.Layers {
			l := &s.Plan.Layers[i]
			since := hours - 24*float64(i)
			if since < 0 {
				break
			}
			rise := 12 + 9*float64(i)
			for k := range cells {
				x := (float64(k) + 0.5) / cells
				bump := math.Exp(-math.Pow((since-9)/5, 2)) * rise * (1 - 1.8*(x-0.5)*(x-0.5))
				a := math.Pow(since/(since+8.5-bump/15), 3) * 0.97
				f.Cells = append(f.Cells, model.TraceCell{Layer: i,
					Bottom: l.Bottom + l.Depth.Times(float64(k)/cells), Top: l.Bottom + l.Depth.Times(float64(k+1)/cells),
					State: cure.State{T: f.Room + unit.Temperature(bump), A: a}})
			}
		}
		c.Trace.Frames = append(c.Trace.Frames, f)
	}
	return c
}

// heatOn opens the part "heat" over a demo job with a made-up simulation, and
// answers to what is asked of it that are made up as well.
func heatOn(t *testing.T, demo string) (*bench, *layersPage) {
	t.Helper()
	b, p := layersOn(t, demo)
	p.panel.ask = func(_ string, w model.WhatIf, done func(model.WhatIfAnswer, error)) {
		peak := 41 + 3*float64(w.Room)
		done(model.WhatIfAnswer{Depth: 16*unit.Millimetre + w.Depth, Peak: unit.Celsius(peak), TooHot: peak > 50, Texts: []string{"it was asked"}}, nil)
	}
	p.panel.propose = func(done func(model.StageProposal, error)) {}
	p.tab = layersHeat
	p.tabs.SetChosen(layersHeat)
	heatShot(b, p, nil)
	return b, p
}

// heatShots counts the snapshots that were made up: each is an edition of its
// own.
var heatShots int

// heatShot shows a made-up simulation, changed as a test wants it.
func heatShot(b *bench, p *layersPage, change func(*app.Snapshot)) {
	shot := b.Snapshot()
	heatShots++
	shot.Edition += 1000 * heatShots
	shot.Curing, shot.CuringFresh = makeCuring(&shot), true
	if change != nil {
		change(&shot)
	}
	p.see(shot)
}

// sceneOf gives the heat that the section shows.
func sceneOf(p *layersPage) *drawing.Heat { return p.canvas.Scene().(drawing.SectionScene).Heat }

func TestHeatColoursTheSection(t *testing.T) {
	_, p := heatOn(t, "poppy-stand")
	heat := sceneOf(p)
	if heat == nil || heat.Ramp != drawing.Warmth || heat.Min > 20 || heat.Max < 41 || heat.Limit != 50 {
		t.Fatalf("the section shows %+v", heat)
	}
	hottest := 0.0
	for _, s := range heat.Slices {
		hottest = max(hottest, s.Value)
	}
	if hottest < 40 {
		t.Errorf("at the hottest hour nothing is hotter than %g", hottest)
	}
	p.heat.slider.OnChange = nil // as a finger would, but step by step
	p.heat.slider.SetValue(float64(8 * unit.Hour))
	p.heat.draw()
	for _, s := range sceneOf(p).Slices {
		if s.Layer != "l3" {
			t.Errorf("at hour 8 %s has been poured", s.Layer)
		}
	}
	chooseIn(t, p.heat.root, byTemperature, byCure)
	if heat := sceneOf(p); heat.Ramp != drawing.Cured || heat.Max != 100 || heat.Limit != 0 {
		t.Errorf("how far it has cured is shown as %+v", heat)
	}
	p.open(layersPour)
	if sceneOf(p) != nil || p.table.root.Hidden || !p.heat.root.Hidden {
		t.Error("away from the heat the section is still coloured by it")
	}
}

func TestHeatSliderTellsTheTime(t *testing.T) {
	_, p := heatOn(t, "poppy-stand")
	if got := p.heat.when.Text(); !strings.HasPrefix(got, "hour 33.0, ") {
		t.Errorf("it begins at %q, the hottest hour of the second pour is 33", got)
	}
	p.choose("l3")
	if got := p.heat.when.Text(); !strings.HasPrefix(got, "hour 9.0, ") {
		t.Errorf("for the first pour it goes to %q", got)
	}
	w := p.desk.windows.Window(layersKey)
	w.Canvas().Focus(p.heat.slider)
	w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if got := p.heat.when.Text(); !strings.HasPrefix(got, "hour 9.5, ") {
		t.Errorf("an arrow key goes to %q", got)
	}
	tapOn(t, p.heat.root, "At its hottest")
	if got := p.heat.when.Text(); !strings.HasPrefix(got, "hour 9.0, ") {
		t.Errorf("its hottest hour is %q", got)
	}
	if !strings.HasPrefix(p.heat.words.Text(), "Hottest 3") || !strings.Contains(p.heat.words.Text(), "% cured") {
		t.Errorf("it says %q", p.heat.words.Text())
	}
}

// TestHeatSliderLiesOverItsAxis: a time is at the same place on the slider and
// in the chart below it.
func TestHeatSliderLiesOverItsAxis(t *testing.T) {
	_, p := heatOn(t, "poppy-stand")
	p.desk.windows.Window(layersKey).Resize(fyne.NewSize(1300, 720))
	c := p.heat.chart
	plot, ok := c.plot(c.root.Size())
	if !ok {
		t.Fatal("there is no room for the chart")
	}
	for _, hour := range []float64{0, 12, 30} {
		p.heat.slider.SetValue(hour * float64(unit.Hour))
		p.heat.draw()
		x := float64(c.cursor.Position().X + cursorWide/2)
		if want := plot.Min.X + plot.W()*hour/c.chart.X.Max; math.Abs(x-want) > 0.1 {
			t.Errorf("hour %g: the cursor is at %g, the axis has it at %g", hour, x, want)
		}
	}
}

func TestHeatChartHasItsLimitsAndWindows(t *testing.T) {
	b, p := heatOn(t, "poppy-stand")
	c := p.heat.chart.chart
	has := func(what string, ok bool) {
		t.Helper()
		if !ok {
			t.Errorf("the chart has no %s: %+v %+v", what, c.Marks, c.Bands)
		}
	}
	band := func(text string, from float64) bool {
		for _, b := range c.Bands {
			if b.Text == text && math.Abs(b.From-from) < 1e-6 {
				return true
			}
		}
		return false
	}
	has("limit", c.Marks[0].Text == "limit 50 °C" && c.Marks[0].Y == 50)
	has("demold from hour 54", band("demold", 54))
	p.choose("l3")
	c = p.heat.chart.chart
	has("window from hour 7", band("next pour", 7))
	heatShot(b, p, func(s *app.Snapshot) {
		s.Curing.Start = b.Now().Add(-3 * time.Hour)
		s.Curing.Layers[0].RunsAway, s.Curing.Layers[0].RunsAfter = true, model.Known[unit.Span]{Value: 2 * unit.Hour}
	})
	c = p.heat.chart.chart
	has("now", c.Marks[1].Text == "now" && math.Abs(c.Marks[1].X-3) < 1e-6)
	has("runaway", c.Marks[2].Text == "runs away" && c.Marks[2].X == 2)
}

func TestHeatAnswersOpenTheirWorkings(t *testing.T) {
	_, p := heatOn(t, "poppy-stand")
	for _, words := range []string{"26.5 °C", "25 mm", "41 °C (33 to 53)", "cool enough", "its limit is 50 °C, data sheet", "Heat of reaction makes 62 %"} {
		if !shows(p.body.root, words) {
			t.Errorf("nowhere does it say %q: %q", words, texts(p.body.root))
		}
	}
	opened := 0
	for _, o := range test.LaidOutObjects(p.body.root) {
		if o, ok := o.(*touch.Opens); ok {
			o.Tapped(&fyne.PointEvent{})
			if !p.opened.root.Visible() {
				t.Errorf("%q opens nothing", o.Text())
			}
			p.opened.hide()
			opened++
		}
	}
	if opened != 3 {
		t.Errorf("%d figures can be opened, want 3", opened)
	}
}

func TestHeatVerdicts(t *testing.T) {
	b, p := heatOn(t, "poppy-stand")
	for name, c := range map[string]struct {
		change func(*model.LayerCuring)
		want   []string
	}{
		"beyond":    {func(l *model.LayerCuring) { l.PeakCheck = model.Beyond }, []string{"too hot"}},
		"may be":    {func(l *model.LayerCuring) { l.PeakCheck = model.NotKnown }, []string{"may get too hot"}},
		"no limit":  {func(l *model.LayerCuring) { l.PeakCheck, l.PeakLimit.Absent = model.NotKnown, true }, []string{"its limit is not known"}},
		"runs away": {func(l *model.LayerCuring) { l.RunsAway, l.RunsAfter.Value = true, 3*unit.Hour }, []string{"runs away after 3 h", "heats itself faster"}},
		"cracks":    {func(l *model.LayerCuring) { l.Cracks = model.Beyond }, []string{"likely to crack"}},
		"stalls":    {func(l *model.LayerCuring) { l.Stall = &model.Stall{Text: "stays rubbery at 12 °C; warm it to 20"} }, []string{"Stays rubbery at 12 °C"}},
		"beside":    {func(l *model.LayerCuring) { l.Beside = &model.Beside{Width: 80 * unit.Millimetre, Peak: l.Peak} }, []string{"80 mm of resin between the wood"}},
		"no room":   {func(l *model.LayerCuring) { l.Room = model.Answer[unit.Temperature]{Text: "no room is cool enough"} }, []string{"no room is cool enough"}},
	} {
		heatShot(b, p, func(s *app.Snapshot) { c.change(&s.Curing.Layers[1]) })
		for _, words := range c.want {
			if !shows(p.body.root, words) {
				t.Errorf("%s: nowhere does it say %q: %q", name, words, texts(p.body.root))
			}
		}
	}
}

func TestHeatThatIsNotKnownSaysWhy(t *testing.T) {
	b, p := heatOn(t, "poppy-stand")
	heatShot(b, p, func(s *app.Snapshot) {
		s.Curing.Layers[1].Ready, s.Curing.Layers[1].Why = false, "no resin is chosen for it"
		s.Curing.Trace = model.Trace{}
	})
	if !shows(p.body.root, "No resin is chosen for it.") || !shows(p.heat.root, "No resin is chosen for it.") || sceneOf(p) != nil {
		t.Errorf("it says %q and %q", texts(p.body.root), texts(p.heat.root))
	}
	heatShot(b, p, func(s *app.Snapshot) { s.Curing, s.CuringFresh = model.Curing{}, false })
	if !shows(p.body.root, "Working it out…") {
		t.Errorf("while nothing is known yet it says %q", texts(p.body.root))
	}
}

// TestHeatStaysOnShowWhileItIsWorkedOut: the old answers stand, with a quiet
// mark, and no input is built anew.
func TestHeatStaysOnShowWhileItIsWorkedOut(t *testing.T) {
	b, p := heatOn(t, "poppy-stand")
	strip := p.panel.strip
	heatShot(b, p, func(s *app.Snapshot) { s.CuringFresh = false })
	if !shows(p.body.root, "26.5 °C") || p.heat.busy.Hidden || p.panel.strip != strip {
		t.Error("while it is worked out the old answers are gone, or not marked")
	}
	heatShot(b, p, nil)
	if !p.heat.busy.Hidden {
		t.Error("worked out, it is still marked")
	}
}

func TestHeatWhatIfMovesWithTheFinger(t *testing.T) {
	b, p := heatOn(t, "poppy-stand")
	w := p.panel.strip
	if w.delay != nil || !w.back.Disabled() {
		t.Error("after the last pour the next one is asked about, or there is something to go back from")
	}
	w.room.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageUp})
	if w.words.Text() != "It was asked. " || w.back.Disabled() || w.asked().Room != 5 {
		t.Errorf("asked %+v it says %q", w.asked(), w.words.Text())
	}
	if got := w.room.Text(); !strings.Contains(got, "(+5 °C)") {
		t.Errorf("the room is %q", got)
	}
	for s, want := range map[*touch.Slider]string{w.depth: "6 mm (-10 mm)", w.ratio: "10 % too little"} {
		s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
		if got := s.Text(); got != want {
			t.Errorf("%s is %q, want %q", s.Name(), got, want)
		}
	}
	p.panel.ask = func(_ string, _ model.WhatIf, done func(model.WhatIfAnswer, error)) {
		done(model.WhatIfAnswer{}, &model.Problem{Message: "that is no depth to pour"})
	}
	heatShot(b, p, nil) // it is asked of the new plan as well
	if w.words.Text() != "That is no depth to pour." {
		t.Errorf("it says %q", w.words.Text())
	}
	w.back.Tapped(&fyne.PointEvent{})
	if w.asked() != (model.WhatIf{}) || w.words.Text() != "" || !w.back.Disabled() {
		t.Errorf("back at the plan it asks %+v and says %q", w.asked(), w.words.Text())
	}
	p.choose("l3")
	w = p.panel.strip
	if w.delay == nil {
		t.Fatal("below another pour the next one is not asked about")
	}
	w.delay.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	if w.asked().Delay != 6*unit.Hour || w.delay.Text() != "6 h later" {
		t.Errorf("it asks %+v, %q", w.asked(), w.delay.Text())
	}
}

// sheet records what is written and the ends of the lines drawn on it.
type sheet struct {
	words []string
	lines map[string][]drawing.Pt
}

func (s *sheet) Bounds() drawing.Box { return drawing.Box{Max: drawing.Pt{X: 400, Y: 170}} }
func (s *sheet) Stroke(p drawing.Pen, paths ...drawing.Path) {
	s.lines[p.Name] = append(s.lines[p.Name], paths[0].Points[0])
}
func (s *sheet) Fill(string, color.NRGBA, ...[]drawing.Pt) {}
func (s *sheet) Text(_ drawing.Pt, text string, _ drawing.Lettering) {
	s.words = append(s.words, text)
}
func (s *sheet) Measure(text string, l drawing.Lettering) float64 {
	return float64(len(text)) * l.Size / 2
}

// TestHeatGaugesKeepTheirLimits: whatever is asked, limits and plan stay where
// they are, and only the answer moves.
func TestHeatGaugesKeepTheirLimits(t *testing.T) {
	_, p := heatOn(t, "poppy-stand")
	for _, layer := range []string{"l3", "l4"} {
		p.choose(layer)
		s := p.panel.strip.shot
		l, _ := s.curing()
		draw := func(a *model.WhatIfAnswer) *sheet {
			to := &sheet{lines: map[string][]drawing.Pt{}}
			gauges{s: s, l: l, a: a, palette: p.desk.palette(), last: layer == "l4"}.paint(to)
			return to
		}
		rest := draw(nil)
		hot := &model.WhatIfAnswer{Depth: 30 * unit.Millimetre, Peak: unit.Celsius(58), TooHot: true, NextPour: unit.Hour, RecoatFrom: l.RecoatFrom, RecoatTo: l.RecoatTo, Demold: model.Known[unit.Span]{Value: 20 * unit.Hour}}
		asked := draw(hot)
		if !slices.Equal(rest.lines["limit"], asked.lines["limit"]) || !slices.Equal(rest.lines["planned"], asked.lines["planned"]) {
			t.Errorf("%s: limits %v and %v, plan %v and %v", layer, rest.lines["limit"], asked.lines["limit"], rest.lines["planned"], asked.lines["planned"])
		}
		if slices.Equal(rest.lines["value"], asked.lines["value"]) {
			t.Errorf("%s: the answer does not move: %v", layer, rest.lines["value"])
		}
		want := []string{"58 °C, too hot", "30 mm, too deep", "after 20 h"}
		if layer == "l3" {
			want[2] = "too early: from 7 h"
		}
		for _, w := range want {
			if !slices.Contains(asked.words, w) {
				t.Errorf("%s: it does not say %q: %q", layer, w, asked.words)
			}
		}
		away := draw(&model.WhatIfAnswer{RunsAway: true, RunsAfter: 2 * unit.Hour, RecoatFrom: model.Known[unit.Span]{Absent: true}, Demold: model.Known[unit.Span]{Absent: true}})
		if !slices.Contains(away.words, "runs away after 2 h") || !slices.Contains(away.words, "not known") {
			t.Errorf("%s: of a runaway it says %q", layer, away.words)
		}
	}
}

func TestHeatProposalIsTakenAndPutBackWithOneTouch(t *testing.T) {
	b, p := heatOn(t, "poppy-stand")
	asked := 0
	p.panel.propose = func(done func(model.StageProposal, error)) {
		asked++
		shot := b.Snapshot()
		l := shot.Plan.Layers
		var s model.StageProposal
		s.Possible, s.Pours, s.Binds, s.Why = true, 2, "the data sheet's deepest layer", []string{"cover over the inserts"}
		for i, to := range []unit.Length{14 * unit.Millimetre, l[1].Top} {
			bottom := unit.Length(0)
			if i > 0 {
				bottom = 14 * unit.Millimetre
			}
			s.Layers = append(s.Layers, model.StageLayer{ID: l[i].ID, From: l[i].ID, Bottom: bottom, Top: to, Sheet: l[i].Sheet, Tint: shot.Project.Layers[i].Tint, Why: "within the sheet"})
		}
		done(s, nil)
	}
	p.panel.proposal.asked = 0
	heatShot(b, p, nil)
	if asked != 1 || !shows(p.body.root, "What binds: the data sheet's deepest layer.") || !shows(p.body.root, "14 mm, up to 14 mm") {
		t.Fatalf("asked %d times, the card says %q", asked, texts(p.panel.proposal.root))
	}
	tapOn(t, p.body.root, "Take these levels")
	b.settle()
	if got := b.Snapshot().Plan.Layers[0].Depth.Millimetres(); math.Abs(got-14) > 0.01 {
		t.Fatalf("taken, the first pour is %g mm", got)
	}
	heatShot(b, p, nil)
	tapOn(t, p.body.root, "Put the levels back")
	b.settle()
	if got := b.Snapshot().Plan.Layers[0].Depth.Millimetres(); math.Abs(got-12) > 0.01 {
		t.Errorf("put back, the first pour is %g mm", got)
	}
}

func TestHeatProposalThatCannotBe(t *testing.T) {
	b, p := heatOn(t, "poppy-stand")
	for want, c := range map[string]struct {
		s   model.StageProposal
		err error
	}{
		"As it is planned it is best":    {model.StageProposal{Possible: true, Same: true}, nil},
		"Raise the fill line by 2 mm.":   {model.StageProposal{Binds: "cover over the washers", Change: "raise the fill line by 2 mm"}, nil},
		"The layers have changed since.": {model.StageProposal{}, &model.Problem{Message: "the layers have changed since"}},
	} {
		p.panel.propose = func(done func(model.StageProposal, error)) { done(c.s, c.err) }
		p.panel.proposal.asked = 0
		heatShot(b, p, nil)
		if !shows(p.body.root, want) {
			t.Errorf("it does not say %q: %q", want, texts(p.panel.proposal.root))
		}
	}
}

// TestHeatAcrossTheWood: at its hottest the section between the wood is shown as
// it was reckoned, and moving the slider goes back to the layers.
func TestHeatAcrossTheWood(t *testing.T) {
	b, p := heatOn(t, "hall-shelf")
	heatShot(b, p, func(s *app.Snapshot) {
		l := &s.Curing.Layers[1]
		l.Beside = &model.Beside{Width: 80 * unit.Millimetre, Peak: l.Peak, PeakAfter: 8 * unit.Hour, Field: &cure.Field{
			Y: []float64{0, 0.02, 0.1, 0.12}, Z: []float64{0, 0.042}, T: []float64{295, 320, 295}, A: []float64{0, 0.5, 0}, Resin: []bool{false, true, false},
		}}
	})
	tapOn(t, p.heat.root, "At its hottest")
	heat := sceneOf(p)
	if heat.Field == nil || heat.Field.Layer != b.Snapshot().Plan.Layers[1].ID || math.Abs(heat.Field.Value[1]-46.85) > 1e-9 {
		t.Fatalf("the section shows %+v", heat.Field)
	}
	if !strings.HasPrefix(p.heat.when.Text(), "hour 32.0") || !strings.HasPrefix(p.heat.words.Text(), "Across the resin") {
		t.Errorf("at %q it says %q", p.heat.when.Text(), p.heat.words.Text())
	}
	chooseIn(t, p.heat.root, byTemperature, byCure)
	if got := sceneOf(p).Field.Value[1]; got != 50 {
		t.Errorf("half cured it shows %g", got)
	}
	p.heat.slider.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if sceneOf(p).Field != nil {
		t.Error("at another time the section still shows that of the hottest hour")
	}
}

func TestHeatFitsTheScreen(t *testing.T) {
	for _, demo := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		_, p := heatOn(t, demo)
		if least := p.content().MinSize(); least.Width > 1240 || least.Height > 700 {
			t.Errorf("%s: the window needs %v", demo, least)
		}
		moldLegible(t, demo, p.scroll)
	}
}

func TestHeatInOtherUnits(t *testing.T) {
	b, p := heatOn(t, "poppy-stand")
	heatShot(b, p, func(s *app.Snapshot) {
		s.Project.Style.Temperatures, s.Project.Style.Lengths = unit.InFahrenheit, unit.InInches
	})
	if heat := sceneOf(p); heat.Limit != 122 || heat.Format(heat.Limit) != "122 °F" {
		t.Errorf("50 °C is %g, %q", heat.Limit, heat.Format(heat.Limit))
	}
	if !strings.Contains(p.heat.words.Text(), "°F") || !strings.Contains(p.heat.words.Text(), " in up") {
		t.Errorf("it says %q", p.heat.words.Text())
	}
}

// TestHeatPictures writes pictures of the part "heat" to the folder named by
// HEAT_PICTURES, to be looked at.
func TestHeatPictures(t *testing.T) {
	dir := os.Getenv("HEAT_PICTURES")
	if dir == "" {
		t.Skip("HEAT_PICTURES names no folder")
	}
	for _, mode := range []look.Mode{look.Light, look.Dark} {
		for _, demo := range []string{"poppy-stand", "hall-shelf", "breakfast-boards"} {
			b, p := layersOn(t, demo)
			fyne.CurrentApp().Settings().SetTheme(look.New(mode))
			b.desk.mode = mode
			w := b.desk.windows.Window(layersKey)
			save := func(name string) {
				f, err := os.Create(filepath.Join(dir, demo+"-"+string(mode)+"-"+name+".png"))
				if err != nil {
					t.Fatal(err)
				}
				defer f.Close()
				if err := png.Encode(f, w.Canvas().Capture()); err != nil {
					t.Fatal(err)
				}
			}
			w.Resize(fyne.NewSize(1240, 700))
			b.until("it is simulated", func() bool { s := b.Snapshot(); return s.CuringFresh && s.Curing.Banded })
			p.open(layersHeat)
			w.Content().Refresh()
			p.heat.toPeak()
			save("peak")
			p.choose(b.Snapshot().Plan.Layers[0].ID)
			p.heat.shown.SetChosen(byCure)
			p.heat.slider.SetValue(float64(8 * unit.Hour))
			p.heat.draw()
			save("cured")
			p.scroll.SetOffset(1000)
			save("down")
		}
	}
}
