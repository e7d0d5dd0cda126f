package views

import (
	"math"
	"strings"
	"testing"

	"meniscus/model"
	"meniscus/model/unit"
)

// TestMixingTints: a tint by its share and one by its grams, what they use of
// the limit together, and taking one out again.
func TestMixingTints(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "tint")
	l := p.chosen()
	at := "layers/" + l.ID
	typeInto(t, b, mixingKey, at+"/tint/share", "1.5 %")
	b.settle()
	tapOn(t, p.tint.root, "Add another tint")
	b.rested()
	project := b.Snapshot().Project
	list := project.Layers[project.LayerIndex(l.ID)].Additives
	if len(list) != 1 {
		t.Fatalf("%+v", list)
	}
	other := at + "/additives/" + list[0].ID
	typeInto(t, b, mixingKey, other+"/name", "pearl")
	typeInto(t, b, mixingKey, other+"/share", "12.34 g")
	b.settle()
	shot := b.Snapshot()
	i := shot.Project.LayerIndex(l.ID)
	if a := shot.Project.Layers[i].Additives[0]; math.Abs(a.Mass.Value.Grams()-12.34) > 1e-9 || a.Share.Given() {
		t.Errorf("%+v", a)
	}
	s, mix := shot.Project.Style, p.chosen().Mix
	limit := shot.Project.Tints(l.ID, mix.Total)
	for _, want := range []string{s.MassTo(mix.Total.Times(0.015), model.TintGrain(s)), "12.34 g"} {
		if !shows(p.tint.root, want) {
			t.Errorf("no %q in %q", want, texts(p.tint.root))
		}
	}
	if !cureSays(p.tint.root, capitalised(limit.Words(s))) || p.tint.limit.Hidden {
		t.Errorf("no %q", limit.Words(s))
	}
	moldLegible(t, "tints", p.tint.root)
	// What cannot be taken stays in sight and changes nothing.
	typeInto(t, b, mixingKey, other+"/share", "a pinch")
	b.settle()
	shot = b.Snapshot()
	if a := shot.Project.Layers[i].Additives[0]; math.Abs(a.Mass.Value.Grams()-12.34) > 1e-9 || p.in.form.Field(other+"/share").Text() != "a pinch" {
		t.Errorf("%+v, %q", a, p.in.form.Field(other+"/share").Text())
	}
	tapOn(t, p.tint.root, "Take it out")
	b.settle()
	if n := len(b.Snapshot().Project.Layers[i].Additives); n != 0 || p.in.form.Field(other+"/share") != nil {
		t.Errorf("%d stay", n)
	}
}

// TestMixingTintGrain: a grain size is written as the tin says it, and an ink
// has none.
func TestMixingTintGrain(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "tint")
	path := "layers/" + p.chosen().ID + "/tint/grain"
	typeInto(t, b, mixingKey, path, "40 µm")
	b.until("the cure is simulated and on show", func() bool { return p.shot.CuringFresh && p.shot.Curing.Project == p.shot.Project.ID })
	b.settle()
	if text := p.in.form.Field(path).Text(); text != "40 µm" {
		t.Errorf("it shows %q", text)
	}
	if !shows(p.tint.root, "Grains of smoke grey, 40 µm") || shows(p.tint.root, "Grains of smoke grey, 10 µm") {
		t.Errorf("%q", texts(p.tint.root))
	}
	chooseIn(t, p.tint.root, "", string(model.ColorantInk))
	b.until("the cure is simulated again", func() bool { return p.shot.CuringFresh })
	b.settle()
	if p.in.form.Field(path) != nil || strings.Contains(strings.Join(texts(p.tint.settles), " "), "Grains of smoke grey") && !p.tint.settles.Hidden {
		t.Errorf("an ink settles: %q", texts(p.tint.settles))
	}
}

// TestFindingsLeadToTheTint: what is said of something stirred in leads to its
// input, also from another pour and another part of the work.
func TestFindingsLeadToTheTint(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "day")
	for _, field := range []string{"layers/l4/tint/share", "layers/l3/tint/grain"} {
		p.tabs.turn("day")
		b.desk.goTo(model.Finding{Field: field, Subject: model.OfMixing})
		if p.tabs.at() != "tint" || p.in.form.Input(field) == nil {
			t.Errorf("%s leads to %s", field, p.tabs.at())
		}
	}
	if stirredIn("layers/l4/tint/colour") || stirredIn("sheets/s1/share") {
		t.Error("a colour is no amount")
	}
}

// TestMixingTellsWhatSettles: each usual size where the tin says none, and how it
// came about.
func TestMixingTellsWhatSettles(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "tint")
	b.until("the cure is simulated and on show", func() bool { return p.shot.CuringFresh && p.shot.Curing.Project == p.shot.Project.ID })
	b.settle()
	shot := b.Snapshot()
	list, _ := shot.Plan.Settling(&shot.Project, &shot.Curing, "l3")
	if len(list) == 0 {
		t.Fatal("nothing settles")
	}
	for _, g := range list {
		if !shows(p.tint.root, capitalised(g.What)+", "+model.SmallLength(g.Size)) {
			t.Errorf("no %+v", g)
		}
	}
	tapFigure(t, p.tint.root, settlesShort(shot.Project.Style, &list[0]))
	if !shows(p.working.root, "What settles in smoke-grey base") {
		t.Errorf("it opens %q", texts(p.working.root))
	}
}

func TestSettlesWords(t *testing.T) {
	s, l := unit.Style{}, &model.LayerPlan{Depth: 0.012, Times: model.LayerTimes{Working: model.Known[unit.Span]{Value: 2 * unit.Hour}}}
	known := func(v unit.Length) model.Known[unit.Length] {
		return model.Known[unit.Length]{Value: v, Low: v / 2, High: v * 2}
	}
	for _, c := range []struct {
		g           model.Settling
		short, long string
	}{
		{model.Settling{Sinks: known(0.5e-3)}, "stays", "poured at once it sinks 0.5 mm (0.25 mm to 1 mm) before the resin sets"},
		{model.Settling{Sinks: known(0.012), After: model.Known[unit.Span]{Value: 38 * unit.Minute}}, "pour after 40 min", "pour it after minute 40, or it will lie on the floor"},
		{model.Settling{Sinks: known(0.012), After: model.Known[unit.Span]{Value: 4 * unit.Hour}, Late: true}, "will settle", "poured at once it ends on the floor; it would have to wait for 4 h, longer than the working time of 2 h. Use finer grains, or a resin that sets sooner"},
		{model.Settling{Sinks: known(0.002), After: model.Known[unit.Span]{Value: 40 * unit.Minute}}, "pour after 40 min", "pour it after minute 40; poured at once it sinks 2 mm (1 mm to 4 mm)"},
		{model.Settling{Sinks: known(0.002), After: model.Known[unit.Span]{Value: 4 * unit.Hour}, Late: true}, "will settle", "poured at once it sinks 2 mm (1 mm to 4 mm); it would have to wait for 4 h, longer than the working time of 2 h. Use finer grains, or a resin that sets sooner"},
	} {
		if short, long := settlesShort(s, &c.g), settlesWords(s, l, &c.g); short != c.short || long != c.long {
			t.Errorf("%q, %q", short, long)
		}
	}
}
