package views

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// cured gives a snapshot a simulation made up by hand, with bands, of pours one
// day apart from its first pour on or from now.
func cured(shot app.Snapshot, now time.Time) app.Snapshot {
	c := model.Curing{Project: shot.Project.ID, Start: now.UTC(), Banded: true}
	for i, l := range shot.Plan.Layers {
		at := now.Add(time.Duration(i) * 24 * time.Hour)
		entry, begun := shot.Project.PourStart(l.ID)
		if begun {
			at = entry.At
		}
		span := func(h, low, high float64) model.Known[unit.Span] {
			return model.Known[unit.Span]{Value: unit.Span(h) * unit.Hour, Low: unit.Span(low) * unit.Hour, High: unit.Span(high) * unit.Hour}
		}
		own := model.LayerCuring{
			ID: l.ID, Name: l.Name, Ready: true, Start: at.UTC(), Assumed: !begun,
			Peak:      model.Known[unit.Temperature]{Value: unit.Celsius(38.2), Low: unit.Celsius(31), High: unit.Celsius(52), Typical: true},
			PeakAfter: span(14, 11, 19), PeakLimit: model.Known[unit.Temperature]{Value: unit.Celsius(60), Source: "data sheet"}, PeakCheck: model.Fine,
			GelFirst: span(9, 7, 12), GelLast: span(11, 9, 14), Working: span(2.4, 2, 2.9),
			RecoatFrom: span(12, 10, 15), RecoatBest: span(16, 13, 20), RecoatTo: span(28, 22, 36),
			Demold: span(52, 44, 70), Sand: span(60, 50, 84),
			Gradient: model.Known[unit.TempRise]{Value: 4, Low: 2, High: 9}, Cracks: model.Fine,
			Narrow:   []model.Narrowing{{Field: "sheets/" + l.Sheet + "/peak", Label: "how hot a cup of it gets", Part: 0.6, Learn: "weigh 200 g in a cup, stand it in the shop, and note the hottest that a probe shows"}},
			Workings: map[model.Figured]model.Working{},
		}
		for _, fig := range []model.Figured{model.FigPeak, model.FigGel, model.FigWorking, model.FigRecoat, model.FigDemold, model.FigSand, model.FigGradient} {
			w := aWorking()
			w.Title = capitalised(string(fig)) + " of " + l.Name
			own.Workings[fig] = w
		}
		c.Layers = append(c.Layers, own)
	}
	timed := c.Timed(&shot.Plan)
	for i := range timed.Layers {
		l := &timed.Layers[i]
		entry, begun := shot.Project.PourStart(l.ID)
		for _, s := range []struct {
			kind  model.StepKind
			label string
			after model.Known[unit.Span]
		}{
			{model.StepPour, "pour " + l.Name, model.Known[unit.Span]{}}, {model.StepWorkEnds, "working time of " + l.Name + " ends", l.Times.Working},
			{model.StepRecoat, "recoat window of " + l.Name + " opens", l.Times.RecoatFrom}, {model.StepRecoatEnd, "recoat window of " + l.Name + " closes", l.Times.RecoatTo},
		} {
			step := model.Step{Kind: s.kind, Layer: l.ID, Label: s.label, After: s.after.Value}
			if begun {
				step.Due = entry.At.Add(s.after.Value.Duration())
				step.Past = s.kind == model.StepPour
			}
			c.Steps = append(c.Steps, step)
		}
	}
	shot.Curing, shot.CuringFresh = c, true
	return shot
}

func TestCureShowsTheSimulationBesideTheSheet(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	p.see(cured(b.Snapshot(), b.Now()))
	for _, words := range []string{
		"38 °C (31 to 52)", "14 h (11 to 19)", "limit 60 °C, data sheet", "cool enough", "12 h (10 to 15)", "28 h (22 to 36)", "52 h (44 to 70)", "60 h (50 to 84)",
		"sheet: 2 h 24 min at 22 °C, 500 g; in this room 2 h 46 min", "if it is poured Wed 25 Nov", "Knowing this would narrow it most: how hot a cup of it gets", "weigh 200 g in a cup", "rests on typical figures",
	} {
		if !cureSays(p.times.root, words) {
			t.Errorf("%q is not in %q", words, texts(p.times.root))
		}
	}
	if p.times.mark.Text() != "" {
		t.Errorf("it is fresh and says %q", p.times.mark.Text())
	}
	moldLegible(t, "times", p.times.root)
	for _, x := range test.LaidOutObjects(p.times.root) {
		if o, ok := x.(*touch.Opens); ok && o.Text() == "38 °C (31 to 52)" {
			o.Tapped(nil)
			break
		}
	}
	if !shows(p.working.root, "Peak of smoke-grey base") {
		t.Errorf("the peak opens %q", texts(p.working.root))
	}
}

func TestCureSaysThatItIsWorkingItOut(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	shot := cured(b.Snapshot(), b.Now())
	shot.CuringFresh = false
	p.see(shot)
	if p.times.mark.Text() != "working it out…" || !cureSays(p.times.root, "38 °C (31 to 52)") {
		t.Errorf("%q, %q", p.times.mark.Text(), texts(p.times.root))
	}
	shot.CuringFresh, shot.Curing.Banded = true, false
	p.see(shot)
	if p.times.mark.Text() != "working out how sure it is…" {
		t.Errorf("%q", p.times.mark.Text())
	}
	shot.Curing.Project = "another"
	p.see(shot)
	if cureSays(p.times.root, "38 °C (31 to 52)") {
		t.Error("the simulation of another project is shown")
	}
}

func TestCureWarnsOfWhatTheSimulationSees(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	shot := cured(b.Snapshot(), b.Now())
	l := &shot.Curing.Layers[0]
	l.Stall = &model.Stall{Text: "stays rubbery at 12 °C; warm it to 20"}
	l.Cracks, l.Learned = model.Beyond, "Its last run set a fifth sooner than the sheet has it."
	shot.Curing.Layers[1].Ready, shot.Curing.Layers[1].Why = false, "the pour below it runs away"
	p.see(shot)
	for _, words := range []string{"Stays rubbery at 12 °C; warm it to 20.", "differ by 4 °C (2 to 9): likely to crack it", "a fifth sooner", "Not simulated: the pour below it runs away"} {
		if !cureSays(p.times.root, words) {
			t.Errorf("%q is not in %q", words, texts(p.times.root))
		}
	}
}

// TestCureTellsNothingPastARunaway: the bench warns of it before the pour, and
// no time past it is told.
func TestCureTellsNothingPastARunaway(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	shot := cured(b.Snapshot(), b.Now())
	l := &shot.Curing.Layers[0]
	l.PeakCheck = model.Beyond
	p.see(shot)
	if !strings.HasPrefix(p.bench.window.Text(), "As it is planned it gets too hot, 38 °C (31 to 52)") {
		t.Errorf("too hot, the bench says %q", p.bench.window.Text())
	}
	l.RunsAway, l.RunsAfter = true, model.Known[unit.Span]{Value: 6 * unit.Hour}
	l.Cracks = model.Beyond
	p.see(shot)
	for _, words := range []string{"runs away", "after 6 h; limit 60 °C", "too hot"} {
		if !cureSays(p.times.root, words) {
			t.Errorf("%q is not in %q", words, texts(p.times.root))
		}
	}
	if cureSays(p.times.root, "28 h (22 to 36)") || cureSays(p.times.root, "likely to crack it") {
		t.Errorf("it tells of what comes after: %q", texts(p.times.root))
	}
	if !strings.HasPrefix(p.bench.window.Text(), "As it is planned it runs away after 6 h") {
		t.Errorf("the bench says %q", p.bench.window.Text())
	}
	if at := p.timed.Layers[0].Times.RecoatFrom; !at.Absent {
		t.Errorf("the next pour is told to go on after %v", at)
	}
}

func TestCureGoesByTheSimulationsWindow(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	tapOn(t, p.bench.root, "Start the pour of smoke-grey base")
	b.settle()
	shot := cured(b.Snapshot(), b.Now())
	start := b.Now()
	for _, c := range []struct {
		after  time.Duration
		want   string
		lastly string
	}{
		{11 * time.Hour, "Early: the window on smoke-grey base opens in 1 h", "strings"},
		{20 * time.Hour, "In the window on smoke-grey base", "nothing stays on the glove"},
		{30 * time.Hour, "Late: the window on smoke-grey base closed 2 h ago", "sand before you pour"},
	} {
		b.clock.advance(start.Add(c.after).Sub(b.Now()))
		p.see(shot)
		if got := p.bench.window.Text(); !strings.HasPrefix(got, c.want) || !strings.Contains(got, c.lastly) {
			t.Errorf("after %v: %q", c.after, got)
		}
		if late := c.after == 30*time.Hour; p.bench.way.root.Visible() != late {
			t.Errorf("after %v the way back is shown: %v", c.after, !late)
		}
	}
	for _, words := range []string{"1 · Let smoke-grey base cure", "until Fri 27 Nov, 21:00 (Fri 11:00 to Sat 21:00)", "2 · Wash it", "80 to 120 grit", "Fri 27 Nov, 22:00 to 22:30", "5 · Pour"} {
		if !shows(p.bench.way.root, words) {
			t.Errorf("%q is not in %q", words, texts(p.bench.way.root))
		}
	}
}

// TestCureTimesFitWithWhateverTheySay: no figure, however long its words, makes
// the window wider than the smallest screen.
func TestCureTimesFitWithWhateverTheySay(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	for i, change := range []func(*model.Project, *model.LayerCuring){
		func(_ *model.Project, l *model.LayerCuring) {
			l.RunsAway, l.RunsAfter = true, model.Known[unit.Span]{Value: 9*unit.Hour + 49*unit.Minute, Low: 8 * unit.Hour, High: 21 * unit.Day}
		},
		func(_ *model.Project, l *model.LayerCuring) {
			l.Sand = model.Known[unit.Span]{Value: 36.4 * unit.Hour, Low: 24 * unit.Hour, High: 21 * unit.Day}
		},
		func(m *model.Project, l *model.LayerCuring) {
			l.Ready, l.Why = false, "it has no depth yet"
			m.Sheets[0].Demold.At, m.Sheets[0].FullCure.At = unit.Taken[unit.Temperature]{}, unit.Taken[unit.Temperature]{}
		},
	} {
		shot := cured(b.Snapshot(), b.Now())
		shot.Project = shot.Project.Clone()
		for k := range shot.Curing.Layers {
			change(&shot.Project, &shot.Curing.Layers[k])
		}
		shot.Plan = model.Make(shot.Project)
		p.see(shot)
		if least := p.content().MinSize(); least.Width > 1240 {
			t.Errorf("%d: the window needs %v for %q", i, least, texts(p.times.root))
		}
	}
}
