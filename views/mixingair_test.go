package views

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// tapFigure opens the working of the figure that shows some words.
func tapFigure(t *testing.T, o fyne.CanvasObject, words string) {
	t.Helper()
	for _, x := range test.LaidOutObjects(o) {
		if f, ok := x.(*touch.Opens); ok && shows(f, words) {
			f.Tapped(&fyne.PointEvent{})
			return
		}
	}
	t.Fatalf("no figure shows %q: %q", words, texts(o))
}

func TestMixingSaysWhetherItIsADayToPour(t *testing.T) {
	b, p := mixingOn(t, "poppy-stand")
	if !shows(p.day.root, "Go") || !shows(p.day.root, "Dew point") || !shows(p.day.root, "Everything is well above") {
		t.Errorf("%q", texts(p.day.root))
	}
	typeInto(t, b, mixingKey, "shop/wood", "9")
	typeInto(t, b, mixingKey, "shop/humidity", "60")
	b.settle()
	shot := b.Snapshot()
	if shot.Project.Shop.Wood.Written != "9 °C" {
		t.Fatalf("the wood is %+v", shot.Project.Shop.Wood)
	}
	if !shows(p.day.root, "Wait") || !shows(p.day.root, "Water will settle on the wood") || shows(p.day.root, "Everything is well above") {
		t.Errorf("%q", texts(p.day.root))
	}
	w, ok := shot.Plan.DayWorking(&shot.Project, "l3")
	if !ok {
		t.Fatal("no working")
	}
	tapFigure(t, p.day.root, shot.Project.Style.Temperature(shot.Plan.PourDay(&shot.Project, "l3").Dew.Value))
	if !p.working.root.Visible() || !shows(p.working.root, w.Title) || !shows(p.working.root, "17.62") {
		t.Errorf("%q", texts(p.working.root))
	}
	tapOn(t, p.working.root, "Close")
	moldLegible(t, "the day", p.day.root)
}

func TestMixingTellsOfBubbles(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "air")
	b.until("the cure is simulated and on show", func() bool { return p.shot.CuringFresh && p.shot.Curing.Project == p.shot.Project.ID })
	b.settle()
	shot := b.Snapshot()
	s := shot.Project.Style
	air, _ := shot.Plan.Air(&shot.Project, "l3")
	for _, words := range []string{"typical viscosity", model.SmallLength(air.Smallest.Value), "a bubble of 0.5 mm", "Under vacuum", s.Volume(twoFigures(air.Foam.High)), "leaves " + s.Span(air.Baths[0].Leaves.Value), "put solvents and wipes away first"} {
		if !shows(p.air.root, words) {
			t.Errorf("no %q in %q", words, texts(p.air.root))
		}
	}
	for words, title := range map[string]string{
		bandedSpan(s, air.Bubbles[2].Time):                       "Bubbles in smoke-grey base",
		"leaves " + s.Span(air.Baths[1].Leaves.Value):            "A warm bath for smoke-grey base",
		"foam " + s.Volume(twoFigures(air.Vacuum[0].Foam.Value)): "The mix under vacuum",
		s.Span(air.LastPass.Value):                               "Flame or hot air on smoke-grey base",
	} {
		tapFigure(t, p.air.root, words)
		if !shows(p.working.root, title) {
			t.Errorf("%q opens %q", words, texts(p.working.root))
		}
		p.working.hide()
	}
	moldLegible(t, "air", p.air.root)
}

// TestCoarse: what is known by its band alone is not told to the second.
func TestCoarse(t *testing.T) {
	for v, want := range map[unit.Span]unit.Span{299: 300, 118: 120, 48: 50, 19.4: 19, 0.2: 0, 1790: 1800} {
		if got := coarse(v); got != want {
			t.Errorf("%v is told as %v", v, got)
		}
	}
	for v, want := range map[unit.Volume]unit.Volume{1.839e-3: 1.8e-3, 2.452e-3: 2.5e-3, 0: 0} {
		if got := twoFigures(v); math.Abs(float64(got-want)) > 1e-12 {
			t.Errorf("%v is told as %v", v, got)
		}
	}
}
