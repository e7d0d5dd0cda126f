package views

import (
	"image/png"
	"math"
	"os"
	"path/filepath"
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
	for _, words := range []string{"26.5 °C", "25 mm", "41 °C (33 to 53)", "cool enough", "its limit is 50 °C, data sheet", "Heat of reaction: about 6 in 10 parts"} {
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
