package views

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// pageOn opens a window over a demo job, or over a new piece, at the size that
// the smallest screen has room for.
func pageOn(t *testing.T, key, demo string) (*bench, page) {
	t.Helper()
	b := newBench(t, newFakeStore())
	if demo == "" {
		b.Create("New piece")
		b.until("it is open", func() bool { return b.Snapshot().Open })
		b.settle()
	} else {
		b.demo(demo)
	}
	b.desk.Show(key).Resize(fyne.NewSize(1240, 700))
	return b, b.desk.pages[key]
}

func layersOn(t *testing.T, demo string) (*bench, *layersPage) {
	b, p := pageOn(t, layersKey, demo)
	return b, p.(*layersPage)
}

// tapOn taps the button with a label.
func tapOn(t *testing.T, o fyne.CanvasObject, label string) {
	t.Helper()
	for _, x := range test.LaidOutObjects(o) {
		if b, ok := x.(*touch.Button); ok && strings.HasPrefix(b.Label, label) && !b.Disabled() {
			b.Tapped(&fyne.PointEvent{})
			return
		}
	}
	t.Fatalf("no button %q", label)
}

// chooseIn chooses an option of the chooser that offers it.
func chooseIn(t *testing.T, o fyne.CanvasObject, from, to string) {
	t.Helper()
	for _, x := range test.LaidOutObjects(o) {
		if c, ok := x.(*touch.Choice); ok && c.Chosen() == from {
			c.SetChosen(to)
			c.OnChange(to)
			return
		}
	}
	t.Fatalf("no chooser stands at %q", from)
}

// typeInto leads to a field and types into it.
func typeInto(t testing.TB, b *bench, key, path, text string) {
	t.Helper()
	p := b.desk.pages[key]
	if !p.focus(path) {
		t.Fatalf("no input for %s", path)
	}
	c := b.desk.windows.Window(key).Canvas()
	entry := c.Focused()
	if entry == nil {
		t.Fatalf("the input for %s has no focus", path)
	}
	entry.(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
	for _, r := range text {
		entry.TypedRune(r)
	}
	p.commit()
	b.settle()
}

func TestLayersAnswer(t *testing.T) {
	for demo, want := range map[string]string{
		"poppy-stand": "2 pours: 12 mm, then 16 mm\nFill line 28 mm from the floor, 12 mm down from the rim",
		"hall-shelf":  "2 pours: 24 mm, then 18 mm\nFill line 42 mm from the floor, 18 mm down from the rim",
		"":            "No pour is planned yet",
	} {
		_, p := layersOn(t, demo)
		if got := p.frame.answer.Text(); got != want {
			t.Errorf("%q: %q, want %q", demo, got, want)
		}
	}
}

func TestLayersTypedReachesThePlan(t *testing.T) {
	b, p := layersOn(t, "poppy-stand")
	typeInto(t, b, layersKey, "layers/l3/to", "10")
	if shot := b.Snapshot(); shot.Plan.Layers[0].Depth.Millimetres() != 10 {
		t.Errorf("depth %v", shot.Plan.Layers[0].Depth)
	}
	if !shows(p.table.root, "10 mm") {
		t.Errorf("the table shows %q", texts(p.table.root))
	}
	typeInto(t, b, layersKey, "sheets/s2/workingTime", "50 min")
	typeInto(t, b, layersKey, "sheets/s2/workingTime/at", "25")
	typeInto(t, b, layersKey, "sheets/s2/activation", "60")
	got := b.Snapshot().Project
	if s := got.Sheets[0]; s.WorkingTime.Value != 50*unit.Minute || s.WorkingTime.At.Value != unit.Celsius(25) || s.Activation.Written != "60 kJ/mol" {
		t.Errorf("sheet %+v %+v", s.WorkingTime, s.Activation)
	}
}

func TestLayersHeightKeepsItsPlaceInAnotherWay(t *testing.T) {
	b, p := layersOn(t, "poppy-stand")
	chooseIn(t, p.body.root, string(model.ToLevel), string(model.ToBelow))
	b.settle()
	l := b.Snapshot().Project.Layers[1]
	if l.By != model.ToBelow || l.To.Value.Millimetres() < 11.99 || l.To.Value.Millimetres() > 12.01 {
		t.Errorf("28 mm in a mold 40 mm deep became %+v", l)
	}
	if f := p.in.form.Field("layers/l4/to"); f.Label() != "Top below the rim" {
		t.Errorf("the field is called %q", f.Label())
	}
}

func TestLayersDragShowsAndKeepsALevel(t *testing.T) {
	b, p := layersOn(t, "poppy-stand")
	p.drag("l3", 15*unit.Millimetre, false)
	b.until("the drag shows", func() bool { return b.Snapshot().Plan.Layers[0].Depth.Millimetres() > 14.9 })
	p.drag("l3", 15*unit.Millimetre, true)
	b.settle()
	if got := b.Snapshot().Project.Layers[0].To; got.Value.Millimetres() < 14.99 || got.Value.Millimetres() > 15.01 {
		t.Errorf("let go at 15 mm: %+v", got)
	}
	p.drag("l4", 3*unit.Millimetre, true)
	b.settle()
	if got := b.Snapshot().Project.Layers[1].To.Value.Millimetres(); got != 28 {
		t.Errorf("a level below the layer under it was taken: %v", got)
	}
	if n := b.desk.notice; n == nil || !strings.Contains(n.do, "would have no depth") {
		t.Errorf("nothing says why: %+v", n)
	}
	if note := p.note("l3", 15*unit.Millimetre); !strings.Contains(note, "ml, ") {
		t.Errorf("the level's note is %q", note)
	}
}

func TestLayersListAddsAndKeepsWhatWasPoured(t *testing.T) {
	b, p := layersOn(t, "")
	tapOn(t, p.list.root, "Add the first pour")
	b.settle()
	if n := len(b.Snapshot().Project.Layers); n != 1 {
		t.Fatalf("%d layers", n)
	}
	tapOn(t, p.body.root, "New data sheet")
	b.settle()
	shot := b.Snapshot()
	id := shot.Project.Layers[0].ID
	if len(shot.Project.Sheets) != 1 || shot.Project.Layers[0].Sheet != shot.Project.Sheets[0].ID || p.tab != layersSheet {
		t.Errorf("sheet %+v of %+v, tab %s", shot.Project.Sheets, shot.Project.Layers, p.tab)
	}
	if p.lead != "" || p.in.form.Field("sheets/"+shot.Project.Sheets[0].ID+"/workingTime") == nil {
		t.Errorf("the name of the new sheet is still to be asked for: %q", p.lead)
	}
	if !shows(p.body.root, "typical: 7 d") || !shows(p.body.root, "not given: nothing can stand in") {
		t.Errorf("an empty sheet shows %q", texts(p.body.root))
	}
	if err := b.StartPour(id); err != nil {
		t.Fatal(err)
	}
	b.settle()
	tapOn(t, p.list.root, "Remove")
	b.settle()
	if len(b.Snapshot().Project.Layers) != 1 || !strings.Contains(p.said.Text(), "poured") {
		t.Errorf("a poured layer: said %q", p.said.Text())
	}
	tapOn(t, p.body.root, "Remove this data sheet")
	b.settle()
	if len(b.Snapshot().Project.Sheets) != 1 || !strings.Contains(p.said.Text(), "data sheet stays") {
		t.Errorf("its sheet: said %q", p.said.Text())
	}
}

func TestLayersTintAndAdditives(t *testing.T) {
	b, p := layersOn(t, "poppy-stand")
	p.choose("l3")
	tapOn(t, p.body.root, "moss")
	b.settle()
	if got := b.Snapshot().Project.Layers[0].Tint; got.Colour != "#5d7440" || got.Name != "smoke grey" {
		t.Errorf("tint %+v", got)
	}
	tapOn(t, p.body.root, "Add powder")
	b.settle()
	a := b.Snapshot().Project.Layers[0].Additives
	if len(a) != 1 {
		t.Fatalf("additives %+v", a)
	}
	typeInto(t, b, layersKey, "layers/l3/additives/"+a[0].ID+"/share", "7")
	p.open(layersAmount)
	if !shows(p.body.root, "beyond") || !shows(p.body.root, "8.5 % stirred in") {
		t.Errorf("8.5 %% against a limit of 5 %%: %q", texts(p.body.root))
	}
	p.open(layersPour)
	tapOn(t, p.body.root, "Take it out")
	b.settle()
	if a := b.Snapshot().Project.Layers[0].Additives; len(a) != 0 {
		t.Errorf("additives %+v", a)
	}
	for text, want := range map[string]bool{"#5d7440": true, "#5D7440": true, "5d7440": false, "#5d744": false, "#5d744g": false, "": false} {
		if _, ok := drawing.Hex(text); ok != want {
			t.Errorf("Hex(%q) is %v", text, ok)
		}
	}
}

func TestLayersInputsStandWhileValuesChange(t *testing.T) {
	b, p := layersOn(t, "poppy-stand")
	f := p.in.form.Field("layers/l4/to")
	b.Enter("layers/l4/to", "27 mm")
	b.Enter("shop/room", "24 °C")
	b.settle()
	if p.in.form.Field("layers/l4/to") != f || f.Text() != "27 mm" {
		t.Errorf("the input was built anew, or shows %q", f.Text())
	}
}

func TestLayersFocusLeadsToEveryInput(t *testing.T) {
	b, p := layersOn(t, "poppy-stand")
	if err := b.Edit("another sheet", "", func(m *model.Project) error { m.CopySheet("s2"); return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	other := b.Snapshot().Project.Sheets[1].ID
	for _, path := range []string{
		"layers/l3/to", "layers/l4/tint/share", "layers/l3/sheet", "layers/l3",
		"sheets/s2/weightRatio/a", "sheets/s2/densityB", "sheets/s2/maxLayer", "sheets/" + other + "/recoatFrom",
	} {
		if !p.focus(path) {
			t.Errorf("%s leads nowhere", path)
		}
	}
	if p.focus("mold/depth") {
		t.Error("the mold's depth has no input here")
	}
	// What comes off afterwards is entered in one window, and this one leads there.
	if p.focus("finish/top") {
		t.Error("what comes off the top is entered twice")
	}
	p.open(layersPour)
	if !shows(p.body.root, "come off the top and") {
		t.Errorf("nothing is said of what comes off: %q", texts(p.body.root))
	}
	tapOn(t, p.body.root, "To Finishing")
	b.settle()
	f := b.desk.pages[finishKey].(*finishPage)
	if f.tabs.at() != finishFlatten {
		t.Errorf("it leads to %s", f.tabs.at())
	}
}

// TestDataSheetGoesByItsName: the list above a data sheet shows the name that was
// just given to it, and the keypad tells which condition of which figure it is at.
func TestDataSheetGoesByItsName(t *testing.T) {
	b, p := layersOn(t, "poppy-stand")
	p.focus("sheets/s2/name")
	b.Enter("sheets/s2/name", "River clear")
	b.settle()
	named := func(o fyne.CanvasObject) bool {
		list, ok := o.(*touch.Select)
		return ok && list.Selected() == "s2" && list.Label == "River clear"
	}
	if !slices.ContainsFunc(test.LaidOutObjects(p.body.root), named) {
		t.Errorf("the list shows another name: %q", texts(p.body.root))
	}
	if got := p.in.form.Field("sheets/s2/maxLayer/at").Said; got != "Deepest layer, at" {
		t.Errorf("the keypad says %q", got)
	}
}

func TestLayersFitTheScreen(t *testing.T) {
	for _, demo := range []string{"poppy-stand", "breakfast-boards", ""} {
		_, p := layersOn(t, demo)
		for _, tab := range []string{layersPour, layersAmount, layersSheet} {
			p.open(tab)
			root := p.content()
			if least := root.MinSize(); least.Width > 1240 || least.Height > 700 {
				t.Errorf("%s, %s: the window needs %v", demo, tab, least)
			}
			moldLegible(t, demo+" "+tab, p.scroll)
		}
	}
}
