package model

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// TestScrewTable holds every row against the formulas of its standard: basic
// diameters 0.060 + 0.013 n in (ASME B1.1), drills for about 75 % of a thread
// d - 0.75·1.299038·p (inch) and d - p (metric), clearance in order and wider
// than the thread, roots and pilots of wood screws.
func TestScrewTable(t *testing.T) {
	basic := map[ScrewSize]float64{"#6-32": 3.5052, "#8-32": 4.1656, "#10-24": 4.8260, "#10-32": 4.8260, "M3": 3, "M4": 4, "M5": 5, "M6": 6, "#6 wood screw": 3.5052, "#8 wood screw": 4.1656, "#10 wood screw": 4.8260}
	pitch := map[ScrewSize]float64{"#6-32": .79375, "#8-32": .79375, "#10-24": 1.05833, "#10-32": .79375, "M3": .5, "M4": .7, "M5": .8, "M6": 1}
	if len(screwTable) != len(basic) {
		t.Fatalf("%d screws", len(screwTable))
	}
	seen := map[ScrewSize]bool{}
	for _, s := range screwTable {
		name := string(s.Size)
		if seen[s.Size] || s.Source == "" {
			t.Errorf("%s twice, or without a source", name)
		}
		seen[s.Size] = true
		within(t, name+" basic", s.Thick.Millimetres(), basic[s.Size], 1e-4)
		within(t, name+" pitch", s.Pitch.Millimetres(), pitch[s.Size], 1e-5)
		if !(s.Thick < s.Close && s.Close < s.Normal && s.Normal < s.Loose && s.Loose < s.Thick.Times(1.4)) {
			t.Errorf("%s: clearance %v, %v, %v of %v", name, s.Close, s.Normal, s.Loose, s.Thick)
		}
		switch {
		case s.Wood:
			// The root is about two thirds of the shank and the pilot 90 % of it in
			// hardwood (Wood Handbook).
			within(t, name+" pilot", s.Tap.Per(s.Thick), 0.6, 1e-9)
		case s.Metric:
			within(t, name+" tap drill", s.Tap.Millimetres(), (s.Thick - s.Pitch).Millimetres(), 0.06)
		default:
			// The nearest number drill to 75 % of a thread; #29 for the #8 is for 69 %.
			within(t, name+" tap drill", s.Tap.Inches(), s.Thick.Inches()-0.75*1.299038*s.Pitch.Inches(), 0.0026)
		}
		if s.Tap >= s.Thick || !s.Wood && (s.Nut < s.Thick.Times(0.65) || s.Nut > s.Thick) {
			t.Errorf("%s: drill %v, nut %v", name, s.Tap, s.Nut)
		}
		if heads := HeadsOf(s.Size); !slices.Contains(heads, HeadPan) || len(heads) < 2 {
			t.Errorf("%s has the heads %v", name, heads)
		}
		if l := screwLengths(s); !slices.IsSorted(l) || len(l) < 10 {
			t.Errorf("%s is sold in %v", name, l)
		}
	}
	// ISO 273 as a published table has it: fine, medium, coarse in mm; and inch
	// clearance in inches as in the shop's notes.
	for size, want := range map[ScrewSize][3]float64{"M3": {3.2, 3.4, 3.6}, "M4": {4.3, 4.5, 4.8}, "M5": {5.3, 5.5, 5.8}, "M6": {6.4, 6.6, 7.0}, "#6-32": {3.8862, 4.318, 4.826}, "#8-32": {4.572, 4.9784, 5.4102}, "#10-24": {5.2324, 5.6134, 6.0452}} {
		s, _ := ScrewOf(size)
		for i, l := range [3]unit.Length{s.Close, s.Normal, s.Loose} {
			within(t, string(size)+" clearance", l.Millimetres(), want[i], 1e-4)
		}
	}
	// The same three fits as drills in mm, Machinery's Handbook 31 table 3a, which
	// agree to a tenth: #6 3.9 4.3 4.7, #8 4.6 5.0 5.4, #10 5.2 5.6 6.0.
	for size, want := range map[ScrewSize][3]float64{"#6-32": {3.9, 4.3, 4.7}, "#8-32": {4.6, 5.0, 5.4}, "#10-32": {5.2, 5.6, 6.0}} {
		s, _ := ScrewOf(size)
		for i, l := range [3]unit.Length{s.Close, s.Normal, s.Loose} {
			within(t, string(size)+" metric drill", l.Millimetres(), want[i], 0.13)
		}
	}
}

// TestHeadTable: heads grow with the screw; the height of a flat head is that of
// its cone from the sharp diameter down to the thread (ISO 7721, ASME B18.6.3);
// the printed sizes once more.
func TestHeadTable(t *testing.T) {
	for _, h := range headTable {
		s, ok := ScrewOf(h.Size)
		if !ok || h.Source == "" || h.Wide <= s.Thick || h.High <= 0 || h.Flat() != (h.Sharp > 0) {
			t.Errorf("%+v", h)
		}
		if !h.Flat() {
			continue
		}
		if h.Sharp <= h.Wide {
			t.Errorf("%s %s: made %v wide, sharp %v", h.Size, h.Kind, h.Wide, h.Sharp)
		}
		within(t, string(h.Size)+" "+string(h.Kind)+" height", h.cone(s).Per(h.High), 1, 0.04)
	}
	for _, c := range []struct {
		size       ScrewSize
		kind       HeadKind
		wide, high float64 // as printed: inches, or mm for M
	}{
		{"#6-32", HeadPan, .270, .097}, {"#8-32", HeadPan, .322, .115}, {"#10-24", HeadPan, .373, .133},
		{"#6-32", HeadTruss, .321, .086}, {"#8-32", HeadTruss, .384, .102}, {"#10-32", HeadTruss, .448, .118},
		{"#6-32", HeadFlat82, .262, .083}, {"#8-32", HeadFlat82, .312, .100}, {"#10-24", HeadFlat82, .362, .116},
		{"#6-32", HeadFlat100, .262, .060}, {"#8-32", HeadFlat100, .312, .072}, {"#10-24", HeadFlat100, .362, .083},
		{"M3", HeadPan, 5.6, 2.4}, {"M4", HeadPan, 8, 3.1}, {"M5", HeadPan, 9.5, 3.7}, {"M6", HeadPan, 12, 4.6},
		{"M3", HeadFlat90, 5.5, 1.65}, {"M4", HeadFlat90, 8.4, 2.7}, {"M5", HeadFlat90, 9.3, 2.7}, {"M6", HeadFlat90, 11.3, 3.3},
	} {
		h, ok := HeadOf(c.size, c.kind)
		one := unit.Inch
		if strings.HasPrefix(string(c.size), "M") {
			one = unit.Millimetre
		}
		if !ok || !close(h.Wide.Per(one), c.wide, 1e-9) || !close(h.High.Per(one), c.high, 1e-9) {
			t.Errorf("%s %s: %+v", c.size, c.kind, h)
		}
	}
	// The trap: by the head as made, 0.312 - 0.164 over 2·tan 41° = 0.0851 in; by the
	// sharp one 0.332 gives 0.0966 in.
	h, _ := HeadOf("#8-32", HeadFlat82)
	s, _ := ScrewOf("#8-32")
	within(t, "cone of a #8", h.cone(s).Inches(), 0.0966, 5e-5)
}

// handled is a board 25 mm thick with a handle on it.
func handled() Project {
	p := tray(400, 200, 40, 25)
	p.Sheets[0].Shrink = Figure[unit.Share]{Taken: given(unit.Share(1e-12))}
	p.Finish.Flatten.Tool = ToolNone
	id := p.AddMount(MountHandle)
	p.Mount(id).Apart, p.Mount(id).Screw = mm(96), "M4"
	return p
}

// TestCounterboreByHand: an M4 pan head screw 20 mm long through 25 mm, with 1.5
// diameters, 6 mm, in the handle: 14 mm of it are in the piece, so the face under
// the head lies 11 mm in. The head is 3.1 mm high and ends 7.9 mm below the face;
// 8 mm wide it takes a 9 mm counterbore. 14 mm are left. The shortest that works
// has 4 mm in the handle and 4 mm of the piece: 8 mm. A #8-32 of 3/4 in, 19.05 mm,
// with 6.2484 in the handle is sunk by 25 + 6.2484 - 19.05 = 12.1984 mm, in a
// 3/8 in counterbore.
func TestCounterboreByHand(t *testing.T) {
	p := handled()
	s := &p.Finish.Mounts[0]
	s.Long = mm(20)
	f := Make(p).Finish.Mounts[0]
	if !f.Works || f.From != "underside" || f.Way != ScrewThrough || len(f.Holes) != 2 {
		t.Fatalf("%+v", f)
	}
	within(t, "counterbore", f.Sunk.Millimetres(), 11, 1e-6)
	within(t, "head below", f.Below.Millimetres(), 7.9, 1e-6)
	within(t, "left", f.Left.Millimetres(), 14, 1e-6)
	within(t, "thread", f.Bites.Millimetres(), 6, 1e-6)
	within(t, "wide", f.SunkWide.Millimetres(), 9, 1e-9)
	within(t, "clearance", f.Clear.Millimetres(), 4.5, 1e-9)
	within(t, "shortest", f.Shortest.Millimetres(), 8, 1e-9)
	within(t, "suits", f.Suits.Millimetres(), 20, 1e-9) // 6 mm of thread and half of 25 mm are 18.5: 20 is the next
	within(t, "from the edge", f.Holes[0].Edge.Millimetres(), 100, 1e-6)
	within(t, "apart", 1000*(f.Holes[1].At.X-f.Holes[0].At.X), 96, 1e-9)

	s.Screw, s.Long = "#8-32", unit.Dim{Value: 0.75 * unit.Inch, Written: "3/4 in"}
	f = Make(p).Finish.Mounts[0]
	within(t, "counterbore of a #8", f.Sunk.Millimetres(), 12.1984, 1e-4)
	within(t, "its width", f.SunkWide.Inches(), 0.375, 1e-9)

	// A flat head of 20 mm counts its head: its top 11 mm in, the cone below it
	// (9.4 - 4)/2 = 2.7 mm, and 11.3 mm left under that.
	s.Screw, s.Head, s.Long = "M4", HeadFlat90, mm(20)
	f = Make(p).Finish.Mounts[0]
	within(t, "flat head below", f.Below.Millimetres(), 11, 1e-6)
	within(t, "cone", f.Cone.Millimetres(), 9.4, 1e-9)
	within(t, "left under the cone", f.Left.Millimetres(), 11.3, 1e-6)

	// A handle whose thread is 5 mm deep takes 4.5 of it: the counterbore is 1.5
	// shallower; a screw of 40 mm would meet its end.
	s.Head, s.Takes = HeadPan, mm(5)
	f = Make(p).Finish.Mounts[0]
	within(t, "thread in 5 mm", f.Bites.Millimetres(), 4.5, 1e-6)
	within(t, "counterbore for it", f.Sunk.Millimetres(), 9.5, 1e-6)
	s.Long = mm(40)
	pl := Make(p)
	if f := finding(pl, "mount.screw"); pl.Finish.Mounts[0].Works || f.Level != Stop || !strings.Contains(f.Why, "goes too far") || f.Do != "the shortest that does is 8 mm" {
		t.Errorf("%+v", f)
	}
	s.Long = mm(6)
	if f := finding(Make(p), "mount.screw"); !strings.Contains(f.Why, "does not reach") {
		t.Errorf("%+v", f)
	}
}

// TestFootByHand: a foot 6 mm thick with a #8 wood screw on a board of 25 mm:
// 4·4.1656 = 16.6624 mm have to hold, so 22.66 mm are the least, and 7/8 in,
// 22.225, is too short; 1 in goes 19.4 mm deep, its pilot 20.4, and 4.6 mm are
// left. 1 1/8 in would leave 1.4 mm.
func TestFootByHand(t *testing.T) {
	p := tray(400, 200, 40, 25)
	p.Sheets[0].Shrink = Figure[unit.Share]{Taken: given(unit.Share(1e-12))}
	p.Finish.Flatten.Tool = ToolNone
	id := p.AddMount(MountFoot)
	p.Mount(id).Thickness = mm(6)
	f := Make(p).Finish.Mounts[0]
	within(t, "shortest", f.Shortest.Inches(), 1, 1e-9)
	within(t, "deep", f.Deep.Millimetres(), 20.4, 1e-6)
	within(t, "left", f.Left.Millimetres(), 4.6, 1e-6)
	within(t, "pilot", f.Pilot.Millimetres(), 2.49936, 1e-6)
	p.Mount(id).Long = unit.Dim{Value: 1.125 * unit.Inch, Written: "1 1/8 in"}
	if f := finding(Make(p), "mount.screw"); f.Level != Stop || !strings.Contains(f.Why, "far face") {
		t.Errorf("%+v", f)
	}
	p.Mount(id).Long = unit.Dim{Value: 0.75 * unit.Inch, Written: "3/4 in"}
	if f := finding(Make(p), "mount.screw"); !strings.Contains(f.Why, "13.05 mm deep") {
		t.Errorf("%+v", f)
	}
}

// TestScrewsHold: whatever the piece and the screw, one that works holds by its
// least, ends below the face, leaves its least and never comes out; and no
// shorter standard length does.
func TestScrewsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		screw := rapid.SampledFrom(screwTable).Draw(t, "screw")
		kind := rapid.SampledFrom(HeadsOf(screw.Size)).Draw(t, "head")
		head, _ := HeadOf(screw.Size, kind)
		p := tray(400, 200, 80, rapid.Float64Range(5, 70).Draw(t, "thick"))
		p.Finish.Flatten.Tool = ToolNone
		p.AddMount(MountHandle)
		s := &p.Finish.Mounts[0]
		s.Screw, s.Head = screw.Size, kind
		s.Way = rapid.SampledFrom([]ScrewWay{ScrewThrough, ScrewInto}).Draw(t, "way")
		s.Bite = rapid.SampledFrom([]BiteKind{BiteMetal, BiteInsert, BiteWood, ""}).Draw(t, "bite")
		s.Thickness = mm(rapid.Float64Range(1, 10).Draw(t, "through"))
		if rapid.Bool().Draw(t, "blind") {
			s.Takes = mm(rapid.Float64Range(3, 20).Draw(t, "takes"))
		}
		pl := Make(p)
		f, thick := pl.Finish.Mounts[0], pl.Finish.Flatten.Reached
		if !f.Works {
			return
		}
		if f.Bites < f.BitesLeast-1e-9 {
			t.Fatalf("%v of thread, %v are the least", f.Bites, f.BitesLeast)
		}
		if f.Way == ScrewThrough {
			if f.Below < belowFace-1e-9 || f.Left < underHead-1e-9 || f.SunkWide < head.Wide {
				t.Fatalf("%+v", f)
			}
			if got := f.Long - (thick - f.Sunk); math.Abs(float64(got-f.Bites)) > 1e-9 {
				t.Fatalf("%v of %v bite, not %v", got, f.Long, f.Bites)
			}
			if s.Takes.Given() && f.Bites > s.Takes.Value-threadClear+1e-9 {
				t.Fatalf("the screw meets the end of its thread: %v of %v", f.Bites, s.Takes.Value)
			}
		} else if f.Deep+beyondTip > thick+1e-9 {
			t.Fatalf("the pilot is %v deep in %v", f.Deep, thick)
		}
		for _, l := range screwLengths(screw) {
			if l >= f.Shortest {
				break
			}
			s.Long = unit.Dim{Value: l, Written: "so long"}
			if Make(p).Finish.Mounts[0].Works {
				t.Fatalf("%v works, and is shorter than %v", l, f.Shortest)
			}
		}
	})
}

// TestMountsAreCentredAndMirrored: centred twice is centred once; mirrored twice
// is where it was; both in the piece's own direction.
func TestMountsAreCentredAndMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tray(400, 200, 40, 25)
		if rapid.Bool().Draw(t, "turned") {
			p.Mold.Kind = MoldOutline
			p.Mold.Outline = shape.RectangleRing(0.4, 0.2, 0).Turned(unit.Angle(rapid.Float64Range(0.05, 0.7).Draw(t, "by"))).Moved(0.05, -0.02)
			p.Finish.Trim = Trim{Shape: TrimRectangle, AnyTurn: true}
		}
		pl := Make(p)
		f := &pl.Finish
		id := p.AddMount(MountHandle)
		s := p.Mount(id)
		s.X, s.Y = unit.Length(rapid.Float64Range(-.1, .1).Draw(t, "x")), unit.Length(rapid.Float64Range(-.1, .1).Draw(t, "y"))
		s.Turn = unit.Angle(rapid.Float64Range(-3, 3).Draw(t, "turn"))
		at := f.Trim.own(shape.Point{X: float64(s.X), Y: float64(s.Y)})
		along := rapid.SampledFrom([]Along{AlongLength, AlongWidth}).Draw(t, "along")
		other, err := p.MirrorMount(f, id, along)
		if err != nil {
			if v := map[Along]float64{AlongLength: at.X, AlongWidth: at.Y}[along]; math.Abs(v) > 1e-3 {
				t.Fatal(err)
			}
			return
		}
		o := p.Mount(other)
		image := f.Trim.own(shape.Point{X: float64(o.X), Y: float64(o.Y)})
		s = p.Mount(id)
		wantX, wantY := -at.X, at.Y
		if along == AlongWidth {
			wantX, wantY = at.X, -at.Y
		}
		if math.Hypot(image.X-wantX, image.Y-wantY) > 1e-12 {
			t.Fatalf("the image of %v is %v", at, image)
		}
		// In the piece's own direction the image leans as far to the other side.
		if a := float64(o.Turn - f.Trim.Turn + s.Turn - f.Trim.Turn); math.Abs(a) > 1e-9 {
			t.Fatalf("the image of a handle at %v lies at %v, in a piece at %v", s.Turn, o.Turn, f.Trim.Turn)
		}
		back, err := p.MirrorMount(f, other, along)
		if err != nil {
			t.Fatal(err)
		}
		s, b := p.Mount(id), p.Mount(back)
		if math.Hypot(float64(b.X-s.X), float64(b.Y-s.Y)) > 1e-12 || math.Abs(float64(b.Turn-s.Turn)) > 1e-9 {
			t.Fatalf("mirrored twice %+v is %+v", s, b)
		}
		p.CentreMount(f, id, along)
		s = p.Mount(id)
		mid := f.Trim.own(shape.Point{X: float64(s.X), Y: float64(s.Y)})
		if v := map[Along]float64{AlongLength: mid.X, AlongWidth: mid.Y}[along]; math.Abs(v) > 1e-12 {
			t.Fatalf("centred at %v", mid)
		}
		if _, err := p.MirrorMount(f, id, along); err == nil {
			t.Fatal("the image of a mount in the middle would lie in it")
		}
	})
}
