package views

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/model/unit"
)

// finishOn opens the window Finishing on a demo job, or on an empty project.
func finishOn(t *testing.T, demo string) (*bench, *finishPage) {
	b, p := pageOn(t, finishKey, demo)
	return b, p.(*finishPage)
}

// TestFinishAnswers: the shelf's mold is 1150 by 260 mm with upright walls; of
// the 42 mm that are poured 0.45 sink, 2 come off the top and 1.5 off the
// underside, which leaves 38. Its mold is measured to ±1 mm along: 0.577 as a
// standard uncertainty, of which 5 to 95 % is 1.645 either way.
func TestFinishAnswers(t *testing.T) {
	for demo, want := range map[string]string{
		"hall-shelf": "1150 × 260 × 38 mm, give or take 0.9 mm",
		"":           "Not known yet: measure the mold and plan a pour",
	} {
		b, p := finishOn(t, demo)
		if got := p.frame.answer.Text(); got != want {
			t.Errorf("%s: %q, want %q", demo, got, want)
		}
		if demo == "" {
			for _, tab := range finishTabs() {
				p.tabs.turn(tab.id) // nothing breaks where nothing is known
			}
		}
		b.end()
	}
	b, p := finishOn(t, "hall-shelf")
	b.Enter("finish/thickness", "41 mm")
	b.settle()
	if got := p.frame.answer.Text(); got != "The promised thickness can no longer be reached" {
		t.Errorf("with a thickness that is not there it says %q", got)
	}
}

// TestFinishFields: every field of the work after the casting has its input, and
// a finding about it leads to it.
func TestFinishFields(t *testing.T) {
	b, p := finishOn(t, "hall-shelf")
	var handle, foot string
	if err := b.Session.Edit("Add", "", func(m *model.Project) error {
		handle, foot = m.AddMount(model.MountHandle), m.AddMount(model.MountFoot)
		m.MeasureBlank(true)
		m.Finish.Trim.Shape = model.TrimRectangle
		m.Finish.Coat.Kind = model.CoatOil
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	for path, text := range map[string]string{
		"finish/top": "2.5 mm", "finish/bottom": "1 mm", "finish/minCover": "3 mm", "finish/thickness": "36 mm",
		"finish/trim/extra": "2 mm", "finish/trim/kerf": "2.4 mm", "finish/flatten/resin": "0.4 mm", "finish/flatten/wood": "1 mm", "finish/flatten/points/4": "41 mm",
		"finish/sand/disc": "125 mm", "finish/sand/turns": "9000", "finish/sand/pace": "50 s", "finish/sand/lasts": "12 min",
		"finish/mounts/" + handle + "/x": "120 mm", "finish/mounts/" + handle + "/y": "-30 mm", "finish/mounts/" + handle + "/turn": "15°",
		"finish/mounts/" + handle + "/apart": "96 mm", "finish/mounts/" + handle + "/long": "30 mm", "finish/mounts/" + handle + "/takes": "8 mm",
		"finish/mounts/" + foot + "/thickness": "6 mm", "finish/mounts/" + foot + "/name": "left foot",
		"finish/coat/name": "linseed", "finish/coat/count": "2", "finish/coat/spread": "50 ml", "finish/coat/weighs": "45 g",
		"finish/use/food": "Not tested.",
	} {
		typeInto(t, b, finishKey, path, text)
		shot := b.Snapshot()
		if got, _ := model.Show(&shot.Project, path); got != text {
			t.Errorf("%s became %q, want %q", path, got, text)
		}
	}
	for field, tab := range map[string]string{
		"finish/trim/shape": finishTrim, "finish/trim/anyTurn": finishTrim, "finish/flatten/tool": finishFlatten, "finish/flatten/points": finishFlatten,
		"finish/sand/want": finishSand, "finish/sand/own": finishSand, "finish/sand/series": finishSand, "finish/sand/sander": finishSand,
		"finish/mounts/" + foot: finishDrill, "finish/mounts/" + foot + "/screw": finishDrill, "finish/mounts/" + foot + "/bite": finishDrill,
		"finish/coat/kind": finishCoat, "finish/coat/where": finishCoat, "finish/use/as": finishUse, "finish/use/sun": finishUse,
	} {
		p.tabs.turn(finishTrim)
		b.desk.goTo(model.Finding{Field: field, Subject: model.OfFinish})
		if p.tabs.at() != tab {
			t.Errorf("a finding about %s leads to %s", field, p.tabs.at())
		}
		if p.parts[tab].tools.marks[field] == nil {
			t.Errorf("nothing stands for %s", field)
		}
	}
	if p.mount != foot {
		t.Errorf("a finding about the foot leads to %s", p.mount)
	}
}

// TestFinishMountDrag: to drag a mount is one step, shown while it goes on.
func TestFinishMountDrag(t *testing.T) {
	b, p := finishOn(t, "hall-shelf")
	p.parts[finishDrill].addMount(string(model.MountHandle))
	b.settle()
	id := b.Snapshot().Project.Finish.Mounts[0].ID
	mount := func() *model.Mount {
		shot := b.Snapshot()
		return shot.Project.Mount(id)
	}
	at := func() unit.Length { return mount().X }
	p.draw.plan.OnMovePiece(id, 30*unit.Millimetre, 0, false)
	b.until("the drag is shown", func() bool { return math.Abs(float64(at())-0.03) < 1e-9 })
	if got := b.Snapshot().Undo; got != "Add a handle" {
		t.Errorf("a preview became a step: %q", got)
	}
	p.draw.plan.OnMovePiece(id, 50*unit.Millimetre, -20*unit.Millimetre, true)
	b.settle()
	if s := mount(); math.Abs(float64(s.X)-0.05) > 1e-9 || math.Abs(float64(s.Y)+0.02) > 1e-9 {
		t.Errorf("it lies at %v, %v", s.X, s.Y)
	}
	b.Undo()
	b.settle()
	if math.Abs(float64(at())) > 1e-9 {
		t.Errorf("one step back it lies at %v", at())
	}
	// The keys of the drawing move it by a millimetre.
	p.tabs.turn(finishDrill)
	p.draw.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	b.settle()
	if math.Abs(float64(at())-0.001) > 1e-9 {
		t.Errorf("a key moved it to %v", at())
	}
}

// TestFinishMountMirrored: centring and mirroring go by the finished piece.
func TestFinishMountMirrored(t *testing.T) {
	b, p := finishOn(t, "hall-shelf")
	p.parts[finishDrill].addMount(string(model.MountFoot))
	b.settle()
	id := b.Snapshot().Project.Finish.Mounts[0].ID
	p.draw.plan.OnMovePiece(id, 400*unit.Millimetre, 80*unit.Millimetre, true)
	b.settle()
	pressed := func(label string) {
		t.Helper()
		p.tabs.turn(finishDrill)
		tapOn(t, p.tabs.root, label)
		b.settle()
	}
	pressed("Mirror along")
	list := b.Snapshot().Project.Finish.Mounts
	if len(list) != 2 || math.Abs(float64(list[1].X)+0.4) > 1e-9 || math.Abs(float64(list[1].Y)-0.08) > 1e-9 {
		t.Fatalf("mirrored it lies at %+v", list)
	}
	if p.mount != list[1].ID {
		t.Error("the image is not the one that is shown")
	}
	pressed("Centre across")
	if y := b.Snapshot().Project.Finish.Mounts[1].Y; math.Abs(float64(y)) > 1e-9 {
		t.Errorf("centred it lies at %v", y)
	}
	pressed("Mirror across")
	if len(b.Snapshot().Project.Finish.Mounts) != 2 || b.desk.notice == nil || !strings.Contains(strings.ToLower(b.desk.notice.do), "it lies on the middle line") {
		t.Error("what lies on the middle line was mirrored, or nothing is said of it")
	}
	pressed("Remove it")
	if len(b.Snapshot().Project.Finish.Mounts) != 1 {
		t.Error("it is still there")
	}
}

// TestFinishSaysEachPart: every tab says what it comes to, and opens how.
func TestFinishSaysEachPart(t *testing.T) {
	b, p := finishOn(t, "hall-shelf")
	p.parts[finishDrill].addMount(string(model.MountHandle))
	b.Enter("finish/sand/want", string(model.SurfaceClear))
	b.Enter("finish/coat/kind", string(model.CoatOil))
	b.Enter("finish/use/food", "Safe once cured, says nobody.")
	b.settle()
	for tab, want := range map[string][]string{
		finishTrim:    {"1150 × 260 × 38 mm", "Saw kerf"},
		finishFlatten: {"Flatten down to", "4 passes of 0.41 mm", "Over slate pebbles"},
		finishSand:    {"grits, about", "P120", "P3000", "wet", "low light", "a standard"},
		finishDrill:   {"M4 × ", "Clearance hole, right through", "Counterbore"},
		finishCoat:    {"in 3 coats", "Over polished resin"},
		finishUse:     {"Nothing warmer than 42 °C", "“Safe once cured, says nobody.”", "Nothing beyond that is claimed"},
	} {
		p.tabs.turn(tab)
		for _, words := range want {
			if !shows(p.tabs.root, words) {
				t.Errorf("%s does not say %q: %q", tab, words, strings.Join(texts(p.tabs.root), " | "))
			}
		}
		part := p.parts[tab]
		if w, ok := part.tab.working(part, &p.shot); !ok || w.Formula == "" || len(w.Inputs) == 0 || w.Source == "" || w.Band == "" {
			t.Errorf("%s does not say how it came about: %+v", tab, w)
		}
	}
}

// TestFinishGrits: a switch for each grade marks it as on hand, and a step that
// what is on hand cannot bridge is said in the ladder.
func TestFinishGrits(t *testing.T) {
	b, p := finishOn(t, "hall-shelf")
	b.Enter("finish/sand/want", string(model.SurfaceSatin))
	for _, g := range []model.GritMark{"P80", "P220"} {
		p.in.edit("Grits on hand", "", func(m *model.Project) error {
			m.OwnGrit(g, true)
			return nil
		})
	}
	b.settle()
	p.tabs.turn(finishSand)
	if !shows(p.tabs.root, "Too long a step to P220: get P120") {
		t.Errorf("the gap is not said: %q", texts(p.tabs.root))
	}
}

// TestFinishSectionFollowsTheTab: the section is shown with the flattening until
// the maker chooses a view.
func TestFinishSectionFollowsTheTab(t *testing.T) {
	_, p := finishOn(t, "hall-shelf")
	p.tabs.turn(finishFlatten)
	if !p.draw.section.Visible() || p.draw.plan.Visible() {
		t.Error("flattening is not shown in section")
	}
	p.draw.views.OnChange(moldFromAbove)
	p.tabs.turn(finishTrim)
	p.tabs.turn(finishFlatten)
	if !p.draw.plan.Visible() {
		t.Error("the view that was chosen is gone")
	}
}

// TestFinishTypingIsNotUpset: what is typed changes what stands beside the input,
// and never the input.
func TestFinishTypingIsNotUpset(t *testing.T) {
	b, p := finishOn(t, "hall-shelf")
	p.parts[finishDrill].addMount(string(model.MountHandle))
	b.Enter("finish/sand/want", string(model.SurfaceClear))
	b.Enter("finish/coat/kind", string(model.CoatOil))
	b.settle()
	for path, list := range map[string][]string{
		"finish/use/food": {"N", "Not", "Not tested"}, "finish/sand/pace": {"5 s", "50 s"}, "finish/coat/spread": {"5 ml", "50 ml"},
		"finish/mounts/" + p.mount + "/long": {"3 mm", "30 mm"}, "finish/mounts/" + p.mount + "/apart": {"9 mm", "96 mm"}, "finish/flatten/resin": {"0.3 mm", "0.35 mm"}, "finish/trim/extra": {"1 mm", "12 mm"},
	} {
		if !p.focus(path) {
			t.Fatalf("no input for %s", path)
		}
		before, was := p.in.form.Input(path), strings.Join(texts(p.tabs.root), "|")
		for _, text := range list {
			b.Enter(path, text)
			b.settle()
			if p.in.form.Input(path) != before {
				t.Fatalf("%s is another input once %q is typed", path, text)
			}
		}
		if strings.Join(texts(p.tabs.root), "|") == was {
			t.Errorf("what is typed into %s changes nothing", path)
		}
	}
}

// TestNewMountAsksForItsPlace: to add a mount leads to its first input, past the
// list that it was chosen from, which is no longer there.
func TestNewMountAsksForItsPlace(t *testing.T) {
	b, p := finishOn(t, "hall-shelf")
	at := watchFocus(p.in)
	p.tabs.turn(finishDrill)
	for _, kind := range []model.MountKind{model.MountHandle, model.MountFoot} {
		p.parts[finishDrill].addMount(string(kind))
		b.settle()
		if got, want := *at, "finish/mounts/"+p.mount+"/x"; got != want || p.mount == "" {
			t.Errorf("a new %s asks for %q, want %q", kind, got, want)
		}
	}
	if p.selectMount(b.Snapshot().Project.Finish.Mounts[0].ID); p.lead != "" {
		t.Errorf("it still leads to %q", p.lead)
	}
}

// TestFinishLookedThrough: a mount at the height of inserts stops until the maker
// marks it as looked through; to move it asks again.
func TestFinishLookedThrough(t *testing.T) {
	b, p := finishOn(t, "hall-shelf")
	p.parts[finishDrill].addMount(string(model.MountHandle))
	b.settle()
	shot := b.Snapshot()
	names := shot.Plan.Finish.Mounts[0].Passes()
	p.tabs.turn(finishDrill)
	stops := func() bool { return strings.Contains(p.frame.answer.Text(), "is drilled at the height of") }
	if len(names) == 0 || !stops() || !shows(p.tabs.root, "As high as its holes go: "+names[0]) {
		t.Fatalf("past %v it says %q: %q", names, p.frame.answer.Text(), texts(p.tabs.root))
	}
	b.desk.goTo(model.Finding{Field: "finish/mounts/" + p.mount + "/looked", Subject: model.OfFinish})
	if p.parts[finishDrill].tools.marks["finish/mounts/"+p.mount+"/looked"] == nil {
		t.Error("nothing stands for the finding")
	}
	tapToggle(t, p.parts[finishDrill].tools.marks["finish/mounts/"+p.mount+"/looked"])
	b.settle()
	if shot := b.Snapshot(); !shot.Project.Finish.Mounts[0].Looked || stops() {
		t.Errorf("looked through it says %q", p.frame.answer.Text())
	}
	p.draw.plan.OnMovePiece(p.mount, 30*unit.Millimetre, 0, true)
	b.settle()
	if shot := b.Snapshot(); shot.Project.Finish.Mounts[0].Looked || !stops() {
		t.Errorf("moved it says %q", p.frame.answer.Text())
	}
	p.draw.plan.OnTurnPiece(p.mount, unit.Degree, true)
	b.settle()
	if shot := b.Snapshot(); math.Abs(shot.Project.Finish.Mounts[0].Turn.Degrees()-1) > 1e-9 {
		t.Errorf("turned to %v", shot.Project.Finish.Mounts[0].Turn)
	}
}

// TestFinishInTheMarksOfTheMaker: where discs are marked by CAMI the finishes are
// offered by its marks, and its grits by their numbers, with the P grades that
// take over where it ends.
func TestFinishInTheMarksOfTheMaker(t *testing.T) {
	b, p := finishOn(t, "hall-shelf")
	p.tabs.turn(finishSand)
	b.Enter("finish/sand/want", string(model.SurfaceSilk))
	b.settle()
	if !shows(p.tabs.root, "Silk, to P600") || !shows(p.tabs.root, "Dry as far as P320") {
		t.Errorf("%q", texts(p.tabs.root))
	}
	b.Enter("finish/sand/series", string(model.SeriesCAMI))
	b.settle()
	for _, want := range []string{"Silk, to 360", "Dry as far as 240", "P3000"} {
		if !shows(p.tabs.root, want) {
			t.Errorf("it does not say %q: %q", want, texts(p.tabs.root))
		}
	}
	b.Enter("finish/sand/sander", string(model.SanderBelt))
	b.settle()
	for _, want := range []string{"belt, dry", "disc or hand, dry", "disc or hand, wet"} {
		if !shows(p.tabs.root, want) {
			t.Errorf("with a belt it does not say %q", want)
		}
	}
	// A drawer with nothing of use in it: what is missing is said, and named.
	p.in.edit("Grits on hand", "", func(m *model.Project) error {
		m.OwnGrit("12", true)
		return nil
	})
	b.settle()
	if !shows(p.tabs.root, "No grit on hand for it") || !shows(p.tabs.root, "Begin with 80: get 80, ") {
		t.Errorf("%q", texts(p.tabs.root))
	}
}
