package views

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// tracedSlab is a slab of about 700 by 300 mm with a live edge at its near side,
// traced in a photo from straight above of two pixels a millimetre; a card of 300
// by 200 mm lies on it.
func tracedSlab(points int) model.Slab {
	s := model.Slab{ID: "b1", Name: "Elm slab", Thickness: unit.Dim{Value: 26 * unit.Millimetre, Written: "26"}}
	t := &s.Upper
	t.Wide, t.High, t.By, t.Touch = 2000, 1200, model.ByCard, 1
	t.Long, t.Broad = unit.Dim{Value: 0.3, Written: "300"}, unit.Dim{Value: 0.2, Written: "200"}
	for i, at := range [][2]float64{{600, 400}, {1200, 400}, {1200, 800}, {600, 800}} {
		t.Marks = append(t.Marks, model.Mark{ID: "m" + count(i), X: at[0], Y: at[1]})
	}
	ring := shape.Ring{{X: 300, Y: 300}, {X: 1700, Y: 300}}
	for i := range points {
		x := 1700 - 1400*float64(i)/float64(points-1)
		ring = append(ring, shape.Point{X: x, Y: 860 + 40*math.Sin(x/130)})
	}
	t.Rings = []model.TracedRing{{ID: "r1", Kind: model.RingWood, Points: ring}}
	return s
}

// layOn opens the lay-up of a slab over the poppy stand's mold.
func layOn(t testing.TB, points int) (*bench, *moldPage, *layView) {
	t.Helper()
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	if err := b.Session.Edit("Slab", "", func(p *model.Project) error {
		p.Slabs = []model.Slab{tracedSlab(points)}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	b.desk.Show(moldKey).Resize(fyne.NewSize(1240, 700))
	p := b.desk.pages[moldKey].(*moldPage)
	p.pane.show(moldSlabs)
	p.slab.turn(slabLay)
	return b, p, p.slab.lay
}

func TestLayGuides(t *testing.T) {
	_, p := moldOn(t, "poppy-stand")
	p.pane.show(moldSlabs)
	p.slab.turn(slabLay)
	if v := p.slab.lay; v.guide.Hidden || !v.canvas.Hidden || !strings.Contains(v.guide.Text(), "not traced yet") {
		t.Errorf("the guide says %q", v.guide.Text())
	}
	tapOn(t, p.pane.root, "Go to the photo")
	if p.slab.mode != slabPhoto {
		t.Error("it does not lead to the photo")
	}
	b, p := moldOn(t, "")
	if err := b.Session.Edit("Slab", "", func(q *model.Project) error {
		q.Slabs = []model.Slab{tracedSlab(50)}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	p.pane.show(moldSlabs)
	p.slab.turn(slabLay)
	if !strings.Contains(p.slab.lay.guide.Text(), "Measure the mold") {
		t.Errorf("the guide says %q", p.slab.lay.guide.Text())
	}
	tapOn(t, p.pane.root, "Go to the mold")
	if p.pane.section != moldSizes {
		t.Error("it does not lead to the mold")
	}
}

// TestLayBeginsOnTheWood: the first place lies on the middle of the slab, along
// it, and says what it gives.
func TestLayBeginsOnTheWood(t *testing.T) {
	b, p, v := layOn(t, 60)
	tapOn(t, p.pane.root, "Try a place")
	b.settle()
	l := b.Snapshot().Project.Slabs[0].Layups[0]
	if math.Abs(float64(l.X)) > 0.02 || math.Abs(float64(l.Y)) > 0.02 || math.Abs(math.Remainder(l.Turn.Degrees(), 90)) > 3 {
		t.Errorf("it begins at %v, %v turned by %v", l.X, l.Y, l.Turn.Degrees())
	}
	lay := v.shown()
	if lay == nil || lay.Pieces != 1 || lay.Share < 0.5 {
		t.Fatalf("it gives %+v", lay)
	}
	s := b.Snapshot().Project.Style
	for _, want := range []string{layResin(lay, s), layShare(lay.Share), layLength(lay.Live, s), s.Area(lay.Left)} {
		if !shows(p.pane.root, want) {
			t.Errorf("%q is not shown: %q", want, texts(p.pane.root))
		}
	}
	if b.Snapshot().Undo != "Try another place" {
		t.Errorf("undo would take back %q", b.Snapshot().Undo)
	}
}

// TestLayDragIsOneEdit: while a finger drags, the figures follow from the table
// and nothing is planned or kept; letting go is one edit, and undo takes it back.
func TestLayDragIsOneEdit(t *testing.T) {
	b, p, v := layOn(t, 60)
	v.add()
	b.settle()
	before := b.Snapshot()
	at := before.Project.Slabs[0].Layups[0]
	said := layResin(v.shown(), before.Project.Style)
	for i := 1; i <= 12; i++ {
		v.canvas.OnMovePiece(at.ID, 0, -unit.Length(i)*10*unit.Millimetre, false)
	}
	if got := b.Snapshot(); got.Edition != before.Edition || got.Undo != before.Undo {
		t.Error("a drag under way was planned or kept")
	}
	far := layResin(v.shown(), before.Project.Style)
	if far == said || !shows(p.pane.root, far) || shows(p.pane.root, said) {
		t.Errorf("under the finger stands %q, of %q and %q", texts(p.pane.root), said, far)
	}
	v.canvas.OnMovePiece(at.ID, 10*unit.Millimetre, -120*unit.Millimetre, true)
	if v.layup.Y != at.Y-120*unit.Millimetre {
		t.Error("it jumps back until the plan comes")
	}
	b.settle()
	l := b.Snapshot().Project.Slabs[0].Layups[0]
	if math.Abs(float64(l.X-at.X)-0.01) > 1e-12 || math.Abs(float64(l.Y-at.Y)+0.12) > 1e-12 || b.Snapshot().Undo != "Move "+at.Name {
		t.Errorf("it lies at %v, %v; undo would take back %q", l.X, l.Y, b.Snapshot().Undo)
	}
	v.canvas.OnTurnPiece(at.ID, 190*unit.Degree, true)
	b.settle()
	if got := b.Snapshot().Project.Slabs[0].Layups[0].Turn - at.Turn; math.Abs(got.Degrees()+170) > 1e-9 {
		t.Errorf("it was turned by %v", got.Degrees())
	}
	b.Undo()
	b.settle()
	b.Undo()
	b.settle()
	if got := b.Snapshot().Project.Slabs[0].Layups[0]; got != at {
		t.Errorf("after undo it lies at %v, %v", got.X, got.Y)
	}
	if got := layResin(v.shown(), before.Project.Style); got != said || !shows(p.pane.root, said) {
		t.Errorf("after undo it says %q, not %q", got, said)
	}
	if got := v.canvas.Scene().(drawing.LayScene).Cut; got != at {
		t.Errorf("after undo it is drawn at %v, %v", got.X, got.Y)
	}
	// A drag that came back to where it began is no edit.
	undo := b.Snapshot().Undo
	v.canvas.OnMovePiece(at.ID, 0, 0, true)
	b.settle()
	if b.Snapshot().Undo != undo {
		t.Error("a drag back became a step")
	}
}

// TestLayCompares: the best of each figure has a mark and a word, and equal
// figures share it.
func TestLayCompares(t *testing.T) {
	b, p, v := layOn(t, 60)
	v.add()
	b.settle()
	v.copy()
	b.settle()
	list := b.Snapshot().Project.Slabs[0].Layups
	if len(list) != 2 || list[1].X != list[0].X || list[1].ID == list[0].ID || v.chosen != list[1].ID {
		t.Fatalf("%+v", list)
	}
	v.canvas.OnMovePiece(v.chosen, 0, -100*unit.Millimetre, true)
	b.settle()
	shot := b.Snapshot()
	for _, m := range layMeasures {
		rows := v.compared(&shot, m)
		best, marked := 0, 0
		plan := shot.Plan.Slabs[0].Lay
		if m.less == (m.of(&plan[1]) < m.of(&plan[0])) {
			best = 1
		}
		for i, f := range rows {
			if strings.HasPrefix(f.value, layBest+m.best) {
				marked++
				if i != best && m.say(&plan[0], shot.Project.Style) != m.say(&plan[1], shot.Project.Style) {
					t.Errorf("%s: %v is marked", m.name, f)
				}
			}
		}
		if len(rows) != 2 || marked == 0 {
			t.Errorf("%s: %+v", m.name, rows)
		}
	}
	if !shows(p.pane.root, "Compared") {
		t.Error("they are not compared")
	}
	tapOn(t, p.pane.root, "Remove this place")
	b.settle()
	if got := b.Snapshot().Project.Slabs[0].Layups; len(got) != 1 || v.chosen != got[0].ID {
		t.Errorf("%+v is left, %s is shown", got, v.chosen)
	}
}

// TestLayUse: the place becomes wood, which it leads to, in one step; it is
// marked, and a change of the place says that the wood is out of date.
func TestLayUse(t *testing.T) {
	b, p, v := layOn(t, 60)
	v.add()
	b.settle()
	n := len(b.Snapshot().Project.Pieces)
	undo := b.Snapshot()
	tapOn(t, p.pane.root, "Use this one")
	b.settle()
	shot := b.Snapshot()
	var made *model.Piece
	for i := range shot.Project.Pieces {
		if shot.Project.Pieces[i].From == "b1/"+v.chosen {
			made = &shot.Project.Pieces[i]
		}
	}
	if made == nil {
		t.Fatalf("no piece was made of it: %d pieces, %d before", len(shot.Project.Pieces), n)
	}
	if p.pane.section != moldWood || p.piece != made.ID {
		t.Errorf("it leads to %s, %s", p.pane.section, p.piece)
	}
	if !shot.Project.Slabs[0].Layups[0].Chosen || shot.Undo != "Use lay-up 1" {
		t.Errorf("chosen %v; undo would take back %q", shot.Project.Slabs[0].Layups[0].Chosen, shot.Undo)
	}
	p.pane.show(moldSlabs)
	if !shows(p.pane.root, "In use: "+made.Name) || shows(p.pane.root, "have changed since") {
		t.Errorf("%q", texts(p.pane.root))
	}
	v.canvas.OnMovePiece(v.chosen, 0, -60*unit.Millimetre, true)
	b.settle()
	if !shows(p.pane.root, "have changed since") {
		t.Errorf("a moved place does not say that the wood is out of date: %q", texts(p.pane.root))
	}
	tapOn(t, p.pane.root, "Show it under Wood")
	if p.pane.section != moldWood || p.piece != made.ID {
		t.Errorf("it leads to %s, %s", p.pane.section, p.piece)
	}
	b.Undo()
	b.settle()
	b.Undo()
	b.settle()
	if got := b.Snapshot(); len(got.Project.Pieces) != n || got.Undo != undo.Undo {
		t.Errorf("undo leaves %d pieces", len(got.Project.Pieces))
	}
}

// TestLayTyped: the place can be typed, and a finding about a lay-up leads to it.
func TestLayTyped(t *testing.T) {
	b, p, v := layOn(t, 60)
	v.add()
	b.settle()
	at := "slabs/b1/layups/" + v.chosen
	for path, text := range map[string]string{at + "/x": "12.5", at + "/turn": "33", at + "/kerf": "3.2", at + "/trim": "2"} {
		f := p.in.form.Field(path)
		if f == nil {
			t.Fatalf("there is no input for %s", path)
		}
		f.Restore(text)
		f.Commit()
	}
	b.settle()
	l := b.Snapshot().Project.Slabs[0].Layups[0]
	if math.Abs(float64(l.X)-0.0125) > 1e-12 || math.Abs(l.Turn.Degrees()-33) > 1e-9 || math.Abs(float64(l.Kerf.Value)-0.0032) > 1e-12 {
		t.Errorf("%+v", l)
	}
	if scene := v.canvas.Scene().(drawing.LayScene); scene.Cut != l || scene.Kerf != l.Kerf.Value {
		t.Errorf("drawn is %+v", scene.Cut)
	}
	p.slab.turn(slabPhoto)
	p.pane.show(moldSizes)
	if !p.focus(at+"/kerf") || p.pane.section != moldSlabs || p.slab.mode != slabLay {
		t.Error("a finding does not lead to the lay-up")
	}
}

// TestLaySheets: the cutting sheet and the drawing of the place that is shown,
// and a refusal in words where nothing can be cut.
func TestLaySheets(t *testing.T) {
	b, p, v := layOn(t, 60)
	v.add()
	b.settle()
	if data, err := b.CuttingSheet("b1", v.chosen); err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
		t.Errorf("%d bytes, %v", len(data), err)
	}
	if data, err := b.CuttingDrawing("b1", v.chosen); err != nil || !bytes.Contains(data, []byte("class=\"cut\"")) {
		t.Errorf("%d bytes, %v", len(data), err)
	}
	v.canvas.OnMovePiece(v.chosen, 5, 0, true)
	b.settle()
	if _, err := b.CuttingSheet("b1", v.chosen); err == nil {
		t.Error("a sheet of nothing")
	}
	tapOn(t, p.pane.root, "Cutting sheet (PDF)")
	if n := b.desk.notice; n == nil || n.what != "The cutting sheet was not saved" || !strings.Contains(n.do, "nothing to cut") {
		t.Errorf("it says %+v", n)
	}
}

// TestLayFinds: a search moves the place to one with less resin, as one step.
func TestLayFinds(t *testing.T) {
	b, p, v := layOn(t, 60)
	v.add()
	b.settle()
	v.canvas.OnMovePiece(v.chosen, 0, -140*unit.Millimetre, true)
	b.settle()
	before := v.shown().Resin
	v.find(string(model.WantResin))
	b.until("a place is found", func() bool { return v.search.tone == touch.GoodTone })
	b.settle()
	if got := v.shown(); got.Resin >= before || !strings.HasPrefix(b.Snapshot().Undo, "Find a place") {
		t.Errorf("%v of resin, %v before; undo would take back %q", got.Resin, before, b.Snapshot().Undo)
	}
	if !shows(p.pane.root, "least resin") {
		t.Errorf("%q", texts(p.pane.root))
	}
}

// BenchmarkLayDrag is a whole frame while a finger drags the cavity over a slab,
// 700 by 500 dp: what the place would give is worked out anew, the ground is
// copied, and all that moves is drawn over it. The promise is a frame of 16 ms
// over 5,000 points.
func BenchmarkLayDrag(b *testing.B) {
	for _, points := range []int{500, 5000, 20_000} {
		b.Run(fmt.Sprintf("points=%d", points), func(b *testing.B) { dragOver(b, points) })
	}
}

func dragOver(b *testing.B, points int) {
	k, _, v := layOn(b, points)
	v.add()
	k.settle()
	scene := v.canvas.Scene().(drawing.LayScene)
	fonts := v.slab.page.desk.fonts
	base, frame := drawing.NewImage(700, 500, 1, fonts), drawing.NewImage(700, 500, 1, fonts)
	view := scene.Fit(base.Bounds())
	base.Clear(scene.Style.Palette.Ground)
	scene.Paint(base, view)
	i := 0
	for b.Loop() {
		i++
		frame.CopyOf(base)
		scene.Over(frame, view, drawing.Change{
			Kind: drawing.MovePiece, DX: unit.Length(math.Sin(float64(i)/20)) * 60 * unit.Millimetre, DY: -unit.Length(i%120) * unit.Millimetre,
		})
	}
}
