package views

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"pgregory.net/rapid"

	"meniscus/model"
)

func mixingOn(t *testing.T, demo string) (*bench, *mixingPage) {
	b, p := pageOn(t, mixingKey, demo)
	return b, p.(*mixingPage)
}

// mixingTurned is mixingOn, turned to one part of the work.
func mixingTurned(t *testing.T, demo, tab string) (*bench, *mixingPage) {
	b, p := mixingOn(t, demo)
	p.tabs.turn(tab)
	return b, p
}

func TestMixingShowsThePartsLarge(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "amount")
	shot := b.Snapshot()
	s := shot.Project.Style
	check := func(l model.LayerPlan) {
		t.Helper()
		m := l.Mix
		for _, want := range []string{
			s.MassTo(m.A, m.Step), s.MassTo(m.B, m.Step), "Total " + s.MassTo(m.Total, m.Step),
			"A until the scale reads " + s.MassTo(m.A, m.Step) + ", then B until it reads " + s.MassTo(m.Total, m.Step),
			s.MassTo(m.MoreFor95(), m.Step) + " more", "45 parts of B to 100 of A by weight",
		} {
			if !shows(p.content(), want) {
				t.Errorf("%s: no %q", l.Name, want)
			}
		}
	}
	check(shot.Plan.Layers[0]) // the next to be poured
	if !shows(p.content(), "Then stir in: smoke grey 10.05 g (1.5 %)") {
		t.Errorf("the tint: %q", p.numbers.stirred.Text())
	}
	p.choose("l4")
	check(shot.Plan.Layers[1])
	if size := p.numbers.a.text.TextSize; size < 60 {
		t.Errorf("part A is %v high", size)
	}
	if p.numbers.a.text.TextSize != p.numbers.b.text.TextSize {
		t.Error("the two parts differ in size")
	}
}

func TestMixingInputsReachThePlan(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "amount")
	before := b.Snapshot().Plan.Layers[1].Mix.Total
	chooseIn(t, p.entries.root, "80 %", "95 %")
	b.settle()
	shot := b.Snapshot()
	if m := shot.Plan.Layers[1].Mix; m.Total <= before || m.Confidence != 0.95 {
		t.Errorf("95 %%: %v after %v", m, before)
	}
	for path, text := range map[string]string{"mixing/scaleStep": "1", "mixing/cupFilm": "5", "mixing/cupLeast": "12", "mixing/soak": "0.2", "mixing/creep": "0.1"} {
		typeInto(t, b, mixingKey, path, text)
	}
	tapToggle(t, p.entries.root)
	b.settle()
	shot = b.Snapshot()
	if m := shot.Project.Mixing; m.ScaleStep.Written != "1 g" || m.CupFilm.Written != "5 %" || m.CupLeast.Written != "12 g" || m.Soak.Written != "0.2 mm" || m.Creep.Written != "0.1 mm" || !m.NoRefill {
		t.Errorf("%+v", m)
	}
	p.choose("l4")
	if _, refills := shot.Plan.Layers[1].Allowance(model.AllowRefill); refills || p.entries.here[model.AllowRefill].Text() != "here: nothing" {
		t.Errorf("refill is off, but %q", p.entries.here[model.AllowRefill].Text())
	}
	if a, _ := shot.Plan.Layers[1].Allowance(model.AllowCup); p.entries.here[model.AllowCup].Text() != "here: "+shot.Project.Style.Mass(a.Mass) {
		t.Errorf("cup: %q", p.entries.here[model.AllowCup].Text())
	}
}

func TestMixingLeadsToWhatIsMissing(t *testing.T) {
	b, p := mixingOn(t, "poppy-stand")
	if err := b.Edit("bare", "", func(m *model.Project) error {
		m.Sheets[0] = model.Sheet{ID: "s2", Name: "bare", Volume: m.Sheets[0].Volume}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if !shows(p.content(), "the density of part A is needed") && !shows(p.content(), "The ratio is by volume") {
		t.Errorf("%q", p.numbers.why.Text())
	}
	if p.numbers.ready.Visible() {
		t.Error("masses are shown that cannot be known")
	}
	tapOn(t, p.numbers.root, "Show what is missing")
	q, open := b.desk.pages[layersKey].(*layersPage)
	if !open || q.tab != layersSheet || q.in.form.Field("sheets/s2/densityA") == nil {
		t.Error("it does not lead to the density of part A")
	}
}

func TestMixingTellsOfDangersUnfolded(t *testing.T) {
	b, p := mixingOn(t, "poppy-stand")
	shot := b.Snapshot()
	notes := shot.Safety(model.OfMixing)
	if len(notes) < 3 {
		t.Fatalf("%d notes", len(notes))
	}
	for _, n := range notes {
		own := strings.TrimSuffix(n.Text, sharedEnd(notes))
		if !cureSays(p.numbers.safety, own) {
			t.Errorf("not shown: %q", own)
		}
	}
	if end := strings.TrimSpace(sharedEnd(notes)); !strings.HasPrefix(end, "Follow the product's data sheet") || !cureSays(p.numbers.safety, end) {
		t.Errorf("not shown: what goes before all of them, %q", end)
	}
	window := b.desk.windows.Window(mixingKey)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(p.numbers.safety)
	if bottom := at.Y + p.numbers.safety.Size().Height; at.Y <= 0 || bottom > window.Canvas().Size().Height {
		t.Errorf("the notes stand from %v to %v", at.Y, bottom)
	}
}

func TestMixingFitsTheScreen(t *testing.T) {
	onlyDrawn(t)
	for _, demo := range []string{"poppy-stand", "breakfast-boards", "hall-shelf", ""} {
		b, p := mixingOn(t, demo)
		b.until("the cure is on show", func() bool { return p.shot.CuringFresh })
		if least := p.content().MinSize(); least.Width > 1240 || least.Height > 700 {
			t.Errorf("%s: the window needs %v", demo, least)
		}
		for _, tab := range p.tabs.list {
			p.tabs.turn(tab.option.ID)
			if demo == "" && !tab.always {
				if !shows(p.tabs.root, "Plan a pour first") {
					t.Errorf("%s says nothing while no pour is planned", tab.option.ID)
				}
				continue
			}
			moldLegible(t, demo+" "+tab.option.ID, tab.content)
		}
		if demo != "" {
			moldLegible(t, demo, p.numbers.ready)
			moldLegible(t, demo, p.numbers.safety)
		}
	}
}

// Labels that are spaced out keep their order, do not overlap, and stay within
// the line where there is room for all.
func TestSpaceOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "labels")
		middles, widths := make([]float64, n), make([]float64, n)
		x, sum := 0.0, 0.0
		for i := range n {
			x += rapid.Float64Range(0, 60).Draw(t, "step")
			middles[i], widths[i] = x, rapid.Float64Range(5, 90).Draw(t, "width")
			sum += widths[i]
		}
		hi := max(x, sum) + 1
		at := spaceOut(middles, widths, 0, hi)
		edge := 0.0
		for i := range at {
			if at[i]-widths[i]/2 < edge-1e-6 {
				t.Fatalf("label %d at %v of %v", i, at, widths)
			}
			edge = at[i] + widths[i]/2
		}
		if edge > hi+1e-6 {
			t.Fatalf("the last ends at %v beyond %v", edge, hi)
		}
	})
}
