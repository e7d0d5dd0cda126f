package touch

import (
	"image/color"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"meniscus/views/look"
)

// look3 is the contrast of a colour with the ground that is shown now.
func look3(c color.Color) float64 { return look.Contrast(c, look.Current().Ground) }

func TestChoice(t *testing.T) {
	var told []string
	c := NewChoice([]Option{{"a", "Round"}, {"b", "Oval"}, {"c", "Square"}}, "a", func(id string) { told = append(told, id) })
	win := show(t, c, 300, 50)
	for _, x := range []float32{150, 299, 1, 1} {
		c.Tapped(&fyne.PointEvent{Position: fyne.NewPos(x, 20)})
	}
	if got := strings.Join(told, ""); got != "bca" {
		t.Errorf("told %q, want bca", got)
	}
	win.Canvas().Focus(c)
	for _, k := range []fyne.KeyName{fyne.KeyRight, fyne.KeyRight, fyne.KeyRight, fyne.KeyLeft, fyne.KeySpace, fyne.KeySpace} {
		hit(win, k)
	}
	if got := strings.Join(told, ""); got != "bcabcbca" {
		t.Errorf("told %q, want bcabcbca", got)
	}
	c.SetChosen("b")
	if c.Chosen() != "b" || len(told) != 8 {
		t.Error("setting told of it, or did not set")
	}
}

// TestChoiceGivesLongWordsMoreRoom: where alike parts are too narrow for the
// longest label each gets what it needs, and a tap chooses what is under it.
func TestChoiceGivesLongWordsMoreRoom(t *testing.T) {
	c := NewChoice([]Option{{"a", "Pour"}, {"b", "Heat"}, {"c", "A much longer label"}}, "a", nil)
	least := test.WidgetRenderer(c).MinSize().Width
	show(t, container.NewWithoutLayout(c), 600, 100)
	for _, width := range []float32{least, least + 30, 590} {
		c.Resize(fyne.NewSize(width, 46))
		x := float32(0)
		for i, w := range c.widths(width) {
			if w < c.options[i].least()-0.01 {
				t.Errorf("%g wide, %q has %g of %g", width, c.options[i].Label, w, c.options[i].least())
			}
			c.Tapped(&fyne.PointEvent{Position: fyne.NewPos(x+2, 20)})
			if c.Chosen() != c.options[i].ID {
				t.Errorf("%g wide, a tap at %g chose %q", width, x+2, c.Chosen())
			}
			x += w
		}
		if x < width-0.1 || x > width+0.1 {
			t.Errorf("the parts of %g come to %g", width, x)
		}
	}
	if w := c.widths(590); w[0] != w[2] {
		t.Errorf("with room for all they are %v", w)
	}
}

func TestChoiceTapsThroughAScroller(t *testing.T) {
	c := NewChoice([]Option{{"a", "A"}, {"b", "B"}}, "b", nil)
	s := NewScroll(container.NewVBox(c))
	show(t, s, 300, 200)
	finger(c, s.body, 5, 1, 1)
	if c.Chosen() != "a" {
		t.Error("a tap with a slip chose nothing")
	}
}

func TestToggle(t *testing.T) {
	var told []bool
	g := NewToggle("Sealed", false, func(on bool) { told = append(told, on) })
	s := NewScroll(container.NewVBox(g))
	win := show(t, s, 300, 200)
	finger(g, s.body, 6, 1, 0)
	win.Canvas().Focus(g)
	hit(win, fyne.KeySpace)
	if g.On() || len(told) != 2 || !told[0] || told[1] {
		t.Errorf("on %v, told %v", g.On(), told)
	}
	g.SetOn(true)
	if !g.On() || len(told) != 2 {
		t.Error("setting told of it, or did not set")
	}
}

func TestFindingRowTellsByWordAndShape(t *testing.T) {
	taps := 0
	for _, c := range []struct {
		level Level
		word  string
		sides uint
	}{{Stop, "Stop: ", 8}, {Check, "Check: ", 3}, {Note, "Note: ", 0}} {
		f := NewFindingRow(c.level, "It is so.", "Because.", "Do this.", func() { taps++ })
		win := show(t, f, 400, 200)
		if !strings.HasPrefix(f.what.Text(), c.word) {
			t.Errorf("says %q", f.what.Text())
		}
		r := test.WidgetRenderer(f.sign).(*signRenderer)
		if c.sides > 0 && (r.polygon.Sides != c.sides || r.polygon.Hidden || !r.dot.Hidden) {
			t.Errorf("%s has not its shape", c.word)
		}
		if c.sides == 0 && (!r.polygon.Hidden || r.dot.Hidden) {
			t.Errorf("%s has not its dot", c.word)
		}
		win.Canvas().Focus(f)
		hit(win, fyne.KeyReturn)
		f.Tapped(nil)
	}
	if taps != 6 {
		t.Errorf("%d taps, want 6", taps)
	}
}

// What it is and why stand on one line where both have room, else below each other,
// and never on each other.
func TestFindingRowSharesALine(t *testing.T) {
	f := NewFindingRow(Check, "No resin is chosen for layer 1", "what to weigh stands on its data sheet", "choose its product", nil)
	low := map[bool]float32{}
	for _, wide := range []float32{900, 340} {
		show(t, f, wide, 200)
		what, why, do := f.what.Position(), f.why.Position(), f.do.Position()
		beside := why.X >= what.X+f.what.LineWidth()
		if beside != (wide == 900) {
			t.Errorf("at %v the reason stands at %v, the finding at %v", wide, why, what)
		}
		if !beside && why.Y < what.Y+f.what.Size().Height || do.Y < why.Y+f.why.Size().Height {
			t.Errorf("at %v they lie on each other: %v, %v, %v", wide, what, why, do)
		}
		low[beside] = f.MinSize().Height
	}
	if low[true] >= low[false] {
		t.Errorf("beside each other they take %v, below each other %v", low[true], low[false])
	}
}

func TestWrapKeepsEveryWord(t *testing.T) {
	measure := func(s string) float32 { return float32(len([]rune(s))) }
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`([a-z]{1,9}[ \n]){0,20}[a-z]{0,9}`).Draw(t, "text")
		width := float32(rapid.IntRange(1, 30).Draw(t, "width"))
		lines := wrap(text, width, measure)
		if got, want := strings.Fields(strings.Join(lines, " ")), strings.Fields(text); strings.Join(got, " ") != strings.Join(want, " ") {
			t.Fatalf("words %q become %q", want, got)
		}
		for _, line := range lines {
			if measure(line) > width && strings.Contains(strings.TrimSpace(line), " ") {
				t.Fatalf("line %q is wider than %v", line, width)
			}
		}
	})
}

func TestTextGrowsWhenItIsNarrow(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(look.Light))
	text := NewText("Measure from the floor to the rim with a rule.", Body, Ink)
	wide, narrow := text.HeightFor(600), text.HeightFor(120)
	if narrow < 3*wide {
		t.Errorf("high %v when narrow, %v when wide", narrow, wide)
	}
	text.Resize(fyne.NewSize(120, 200))
	if got := text.MinSize().Height; got != narrow {
		t.Errorf("asks for %v, needs %v", got, narrow)
	}
	if NewText("", Body, Ink).MinSize().Height != 0 {
		t.Error("no words take room")
	}
}
