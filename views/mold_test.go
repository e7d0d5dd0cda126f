package views

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// moldOn opens the mold window over a demo job at a size.
func moldOn(t *testing.T, demo string) (*bench, *moldPage) {
	t.Helper()
	b := newBench(t, newFakeStore())
	if demo == "" {
		b.Create("New piece")
		b.until("it is open", func() bool { return b.Snapshot().Open })
		b.settle()
	} else {
		b.demo(demo)
	}
	w := b.desk.Show(moldKey)
	w.Resize(fyne.NewSize(1240, 700))
	return b, b.desk.pages[moldKey].(*moldPage)
}

func TestMoldAnswers(t *testing.T) {
	for demo, want := range map[string][]string{
		"poppy-stand":      {"It fits; the tightest gap is 1 mm\n", "3547 ml to the rim", "1435 ml of resin to the fill line"},
		"breakfast-boards": {"It fits; the tightest gap is ", "4133 ml to the rim"},
		"hall-shelf":       {"It only just fits: it touches the wall\n", "17.94 L to the rim"},
		"":                 {"Not measured yet"},
	} {
		t.Run(demo, func(t *testing.T) {
			_, p := moldOn(t, demo)
			for _, words := range want {
				if got := p.frame.answer.Text(); !strings.Contains(got, words) {
					t.Errorf("the answer is %q, want %q in it", got, words)
				}
			}
		})
	}
}

func TestMoldSaysWhatDoesNotFit(t *testing.T) {
	b, p := moldOn(t, "hall-shelf")
	b.Enter("pieces/p1/spacing", "100 mm") // twelve spaces of a slab 1150 mm long
	b.settle()
	want := "Near slab does not fit: 50 mm too long at the floor"
	if got := p.frame.answer.Text(); !strings.HasPrefix(got, want) {
		t.Errorf("the answer is %q, want %q", got, want)
	}
	if strings.Count(p.frame.answer.Text(), "\n") != 1 {
		t.Errorf("the answer has not two lines: %q", p.frame.answer.Text())
	}
	p.selectPiece("p1")
	for _, words := range []string{"Too long there by", "As it lies it goes in"} {
		if !shows(p.pane.root, words) {
			t.Errorf("the piece's facts do not say %q: %q", words, texts(p.pane.root))
		}
	}
}

// TestMoldTouchesTheWall: wood that lies at the wall fits, and is not told in red to
// reach beyond it by nothing.
func TestMoldTouchesTheWall(t *testing.T) {
	_, p := moldOn(t, "hall-shelf")
	p.pane.show(moldWood)
	if all := texts(p.pane.root); !shows(p.pane.root, "It fits") || !shows(p.pane.root, "Least gap at its underside") || shows(p.pane.root, "Beyond the wall at its underside") {
		t.Errorf("the wood's facts are %q", all)
	}
}

// TestMoldOfANewPiece: the window begins with the mold, whatever part of another
// piece stood there, and wood that is half measured is not said to be none.
func TestMoldOfANewPiece(t *testing.T) {
	b, p := moldOn(t, "poppy-stand")
	p.pane.show(moldWood)
	b.Create("New piece")
	b.until("it is open", func() bool { return len(b.Snapshot().Project.Pieces) == 0 })
	b.settle()
	if p.pane.section != moldSizes || p.in.form.Field("mold/depth") == nil {
		t.Errorf("it begins with %s", p.pane.section)
	}
	for path, text := range map[string]string{"mold/length": "300", "mold/width": "200", "mold/depth": "50"} {
		b.Enter(path, text)
	}
	b.settle()
	for _, want := range []string{"No wood is measured yet", "The wood is not fully measured yet"} {
		if got := p.frame.answer.Text(); !strings.HasPrefix(got, want) {
			t.Errorf("it says %q, want %q", got, want)
		}
		p.pane.addPiece(string(model.PieceStations))
		b.settle()
	}
}

func TestMoldTypingReachesThePlan(t *testing.T) {
	b, p := moldOn(t, "")
	if !p.draw.area.Hidden || p.draw.measuring.root.Hidden {
		t.Error("nothing shows where a mold is measured")
	}
	for path, text := range map[string]string{"mold/length": "300", "mold/width": "200 mm", "mold/depth": "2 in"} {
		f := p.in.form.Field(path)
		if f == nil {
			t.Fatalf("there is no input for %s", path)
		}
		f.Restore(text)
		f.Commit()
	}
	b.settle()
	if got := b.Snapshot().Plan.Mold.Capacity.Value.Millilitres(); math.Abs(got-3048) > 1e-6 {
		t.Errorf("300 by 200 by 50.8 mm hold %v ml, want 3048", got)
	}
	if p.draw.area.Hidden || !p.draw.measuring.root.Hidden {
		t.Error("the measured mold is not drawn")
	}
}

func TestMoldDragPreviewsAndThenMoves(t *testing.T) {
	b, p := moldOn(t, "poppy-stand")
	x := b.Snapshot().Project.Pieces[0].X
	p.draw.plan.OnMovePiece("p1", 30*unit.Millimetre, 0, false)
	b.until("the drag is shown", func() bool { return !b.Snapshot().Plan.Pieces[0].Fit.Fits })
	if b.Snapshot().Undo != "Imported" && b.Snapshot().Undo != "" {
		t.Errorf("a preview became a step: %q", b.Snapshot().Undo)
	}
	// The last call has all the movement since it was taken hold of.
	p.draw.plan.OnMovePiece("p1", 20*unit.Millimetre, 0, true)
	b.settle()
	if got := b.Snapshot().Project.Pieces[0].X - x; math.Abs(float64(got)-0.02) > 1e-12 {
		t.Errorf("the piece moved by %v m, want 0.02", got)
	}
	if got := b.Snapshot().Undo; got != "Move field maple offcut" {
		t.Errorf("undo would take back %q", got)
	}
	p.draw.plan.OnTurnPiece("p1", 90*unit.Degree, true)
	b.settle()
	if got := b.Snapshot().Project.Pieces[0].Turn.Degrees(); math.Abs(got-90) > 1e-9 {
		t.Errorf("the piece is turned by %v°", got)
	}
	p.draw.plan.OnCut(50*unit.Millimetre, true)
	b.settle()
	if cut := b.Snapshot().Project.Cut; cut.Value != 50*unit.Millimetre || cut.Written != "50 mm" {
		t.Errorf("the section is at %+v", cut)
	}
}

// TestMoldSectionLineByKeys: where the section is drawn can be typed as well, on
// the same scale as it is drawn along.
func TestMoldSectionLineByKeys(t *testing.T) {
	b, p := moldOn(t, "poppy-stand")
	typeInto(t, b, moldKey, "cut", "-35 mm")
	p.in.form.CommitAll()
	b.settle()
	if got := b.Snapshot().Project.Cut; math.Abs(got.Value.Millimetres()+35) > 1e-9 || got.Written != "-35 mm" {
		t.Errorf("the section is drawn at %+v", got)
	}
}

// TestMoldSaysWhyAPourIsNotStopped: a pour that lifts nothing has no level to be
// stopped at.
func TestMoldSaysWhyAPourIsNotStopped(t *testing.T) {
	_, p := moldOn(t, "poppy-stand")
	act := p.pane.stopper("l1")
	tapOn(t, act, "")
	if !shows(act, "It stays as it is: there is no level to stop this pour at.") {
		t.Errorf("%q", texts(act))
	}
}

func TestMoldLevelDrag(t *testing.T) {
	b, p := moldOn(t, "poppy-stand")
	low, top := b.Snapshot().Plan.Layers[0].ID, b.Snapshot().Plan.Layers[1].ID
	p.draw.section.OnDragLevel(top, 30*unit.Millimetre, false)
	b.until("the level is shown", func() bool { return math.Abs(float64(b.Snapshot().Plan.Mold.FillLine)-0.030) < 1e-9 })
	p.draw.section.OnDragLevel(top, 5*unit.Millimetre, true) // below the layer under it
	b.until("it is back where it was", func() bool { return math.Abs(float64(b.Snapshot().Plan.Mold.FillLine)-0.028) < 1e-9 })
	p.draw.section.OnDragLevel(low, 14*unit.Millimetre, true)
	b.settle()
	if got := b.Snapshot().Plan.Layers[0].Top; math.Abs(float64(got)-0.014) > 1e-9 {
		t.Errorf("the lower layer ends at %v m, want 0.014", got)
	}
}

func TestMoldFocusLeadsPastTheSelection(t *testing.T) {
	_, p := moldOn(t, "hall-shelf")
	p.pane.show(moldLevel)
	for _, c := range []struct{ field, section, input string }{
		{"pieces/p2/thickness", moldWood, "pieces/p2/thickness"},
		{"pieces/p1/stations/12", moldWood, "pieces/p1/stations/12"},
		{"pieces/p2", moldWood, ""},
		{"mold/depth", moldSizes, "mold/depth"},
		{"mold/fillTest", moldSizes, ""},
		{"mold/kind", moldSizes, ""},
		{"shop/tiltRise", moldLevel, "shop/tiltRise"},
		{"mold/hold/seams/g7/gap", moldTight, "mold/hold/seams/g7/gap"},
		{"mold/hold/spacing", moldTight, "mold/hold/spacing"},
		{"mold/hold/depths", moldLevel, ""},
	} {
		if !p.focus(c.field) {
			t.Errorf("%s has no input", c.field)
		}
		if p.pane.section != c.section {
			t.Errorf("%s leads to %s, want %s", c.field, p.pane.section, c.section)
		}
		if c.input == "" {
			continue
		}
		in := p.in.form.Input(c.input)
		if in == nil {
			t.Errorf("%s: the input is not there", c.field)
			continue
		}
		d := fyne.CurrentApp().Driver()
		top := d.AbsolutePositionForObject(p.pane.scroll).Y
		if y := d.AbsolutePositionForObject(in).Y; y < top || y+in.Size().Height > top+p.pane.scroll.Size().Height {
			t.Errorf("%s: the input is out of sight at %v, the scroller is %v high from %v", c.field, y, p.pane.scroll.Size().Height, top)
		}
	}
	if p.piece != "p2" {
		t.Errorf("piece %s is selected, want the one asked for last", p.piece)
	}
	if p.focus("layers/l1/to") || p.focus("shop/room") {
		t.Error("a field of another window was found here")
	}
}

func TestMoldWoodAndInsertsComeAndGo(t *testing.T) {
	b, p := moldOn(t, "")
	p.pane.show(moldWood)
	for _, kind := range []model.PieceKind{model.PieceRectangle, model.PieceStations, model.PieceOutline} {
		p.pane.addPiece(string(kind))
		b.settle()
		if w := p.shot.Project.Piece(p.piece); w == nil || w.Kind != kind {
			t.Fatalf("after adding a %s the piece shown is %v", kind, w)
		}
		if p.in.form.Field("pieces/"+p.piece+"/thickness") == nil {
			t.Errorf("a %s has no input for its thickness", kind)
		}
	}
	id := b.Snapshot().Project.Pieces[1].ID
	p.selectPiece(id)
	p.pane.setStations(id, 1)
	b.settle()
	if p.in.form.Field("pieces/"+id+"/stations/3") == nil {
		t.Error("the added station has no input")
	}
	p.pane.addVoid(id, model.VoidBox)
	b.settle()
	if p.in.form.Field("pieces/"+id+"/voids/"+p.void+"/width") == nil {
		t.Error("the added hole has no input for its width")
	}
	p.pane.show(moldInserts)
	for _, kind := range moldInsertKinds {
		p.pane.addInsert(kind.ID)
		b.settle()
		if p.in.form.Field("inserts/"+p.insert+"/mass") == nil {
			t.Errorf("%s has no input for its weight", kind.Label)
		}
	}
	if got := len(b.Snapshot().Project.Inserts); got != len(moldInsertKinds) {
		t.Errorf("%d kinds of insert, want %d", got, len(moldInsertKinds))
	}
}

func TestMoldOutlineKeepsWhatCannotBeRead(t *testing.T) {
	b, p := moldOn(t, "poppy-stand")
	p.selectPiece("p1")
	p.pane.show(moldWood)
	p.pane.enterOutline("pieces/p1/outline", "Outline", "0, 0\n100, 0\n100, nought")
	b.settle()
	shot := b.Snapshot()
	if _, reason, bad := shot.Problem("pieces/p1/outline"); !bad || !strings.Contains(reason, "line 3") {
		t.Errorf("the bad line is not named: %q", reason)
	}
	if len(shot.Project.Pieces[0].Outline) != 19 {
		t.Error("the last good outline is gone")
	}
	p.pane.enterOutline("pieces/p1/outline", "Outline", "0, 0\n100, 0\n100, 50\n0, 50")
	b.settle()
	shot = b.Snapshot()
	if _, _, bad := shot.Problem("pieces/p1/outline"); bad || len(shot.Project.Pieces[0].Outline) != 4 {
		t.Error("the mended outline was not taken")
	}
}

// A snapshot that changes no structure leaves the inputs standing, so that
// typing is not upset.
func TestMoldInputsStandWhileValuesChange(t *testing.T) {
	b, p := moldOn(t, "poppy-stand")
	f := p.in.form.Field("mold/depth")
	b.Enter("mold/depth", "45 mm")
	b.Enter("pieces/p1/name", "maple")
	b.settle()
	if p.in.form.Field("mold/depth") != f || f.Text() != "45 mm" {
		t.Errorf("the input was built anew, or shows %q", f.Text())
	}
}

// Nothing is cut off or lies on something else at the least size, in any
// section of any demo job.
func TestMoldFitsTheScreen(t *testing.T) {
	onlyDrawn(t)
	for _, demo := range []string{"poppy-stand", "breakfast-boards", "hall-shelf", ""} {
		t.Run(demo, func(t *testing.T) {
			_, p := moldOn(t, demo)
			for _, section := range []string{moldSizes, moldWood, moldInserts, moldFloat, moldTight, moldLevel} {
				p.pane.show(section)
				root := p.content()
				if least := root.MinSize(); least.Width > 1240 || least.Height > 700 {
					t.Errorf("%s: the window needs %v", section, least)
				}
				moldLegible(t, section, p.pane.scroll)
			}
		})
	}
}

// moldLegible checks that every text below o has the room that it needs, and
// that no two lie on each other.
func moldLegible(t *testing.T, where string, o fyne.CanvasObject) {
	t.Helper()
	type placed struct {
		text     *touch.Text
		from, to fyne.Position
	}
	var list []placed
	for _, x := range test.LaidOutObjects(o) {
		text, ok := x.(*touch.Text)
		if !ok || text.Text() == "" || !text.Visible() {
			continue
		}
		size := text.Size()
		if need := text.HeightFor(size.Width); size.Height < need-0.5 || text.Whole && size.Width < text.LineWidth()-0.5 {
			t.Errorf("%s: %q has %v, needs %v high, %v wide", where, text.Text(), size, need, text.LineWidth())
		}
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(text)
		list = append(list, placed{text, at, at.AddXY(size.Width, size.Height)})
	}
	if len(list) < 2 {
		t.Errorf("%s shows only %d texts", where, len(list))
	}
	for i, a := range list {
		for _, b := range list[i+1:] {
			if a.from.X < b.to.X-1 && b.from.X < a.to.X-1 && a.from.Y < b.to.Y-1 && b.from.Y < a.to.Y-1 {
				t.Errorf("%s: %q lies on %q", where, a.text.Text(), b.text.Text())
			}
		}
	}
}
