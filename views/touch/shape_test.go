package touch

import (
	"fmt"
	"image/color"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"meniscus/views/look"
)

// shapeOf writes down what something is drawn of but for its colours: what is there,
// where, how large, how thick its lines are, and its words. What cannot be seen is
// left out.
func shapeOf(o fyne.CanvasObject) string {
	var b strings.Builder
	opaque := func(c color.Color) bool {
		if c == nil {
			return false
		}
		_, _, _, a := c.RGBA()
		return a > 0
	}
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		at := fmt.Sprintf("%T %v %v", o, o.Position(), o.Size())
		switch x := o.(type) {
		case *fyne.Container:
			for _, child := range x.Objects {
				walk(child)
			}
		case fyne.Widget:
			r := test.WidgetRenderer(x)
			r.Layout(x.Size())
			for _, child := range r.Objects() {
				walk(child)
			}
		case *canvas.Text:
			fmt.Fprintln(&b, at, x.Text, x.TextSize, x.TextStyle)
		case *canvas.Line:
			fmt.Fprintln(&b, at, x.StrokeWidth)
		case *canvas.Rectangle:
			stroke := x.StrokeWidth
			if !opaque(x.StrokeColor) {
				stroke = 0
			}
			if opaque(x.FillColor) || stroke > 0 {
				fmt.Fprintln(&b, at, stroke)
			}
		default:
			fmt.Fprintln(&b, at)
		}
	}
	walk(o)
	return b.String()
}

// TestStatesAreKnownByTheirShape: on from off, chosen from not, with the focus from
// without it, and refused from taken differ in what is drawn as well as in its colour
// (WCAG 2.2, 1.4.1).
func TestStatesAreKnownByTheirShape(t *testing.T) {
	test.NewTempApp(t)
	options := []Option{{ID: "a", Label: "Alike"}, {ID: "b", Label: "Alike"}}
	focus := func(f fyne.Focusable) fyne.CanvasObject { f.FocusGained(); return f.(fyne.CanvasObject) }
	row := func(chosen bool) *Row {
		r := NewRow(NewText("Words", Body, Ink), nil)
		r.SetChosen(chosen)
		return r
	}
	glove := func(marked bool) *Glove {
		g := NewGlove("Words", Plain, 30, nil)
		g.SetMarked(marked)
		return g
	}
	field := func(problem string) *Field {
		f := NewField(NewForm(), "mold/depth", "Depth", Length)
		f.SetProblem(problem)
		return f
	}
	for what, pair := range map[string][2]fyne.CanvasObject{
		"a toggle":                  {NewToggle("Words", true, nil), NewToggle("Words", false, nil)},
		"a choice":                  {NewChoice(options, "a", nil), NewChoice(options, "b", nil)},
		"a row that is chosen":      {row(true), row(false)},
		"a button for a glove":      {glove(true), glove(false)},
		"the chosen one of buttons": {NewStyledButton("Words", Primary, nil), NewButton("Words", nil)},
		"an option of a list":       {newOption(options[0], true, nil, nil), newOption(options[0], false, nil, nil)},
		"an input that is refused":  {field("Give a length, such as 40 mm"), field("")},
		"the focus on a button":     {focus(NewButton("Words", nil)), NewButton("Words", nil)},
		"the focus on a toggle":     {focus(NewToggle("Words", false, nil)), NewToggle("Words", false, nil)},
		"the focus on a choice":     {focus(NewChoice(options, "a", nil)), NewChoice(options, "a", nil)},
		"the focus on a row":        {focus(row(false)), row(false)},
		"the level of a sign":       {NewSign(Stop, 20), NewSign(Check, 20)},
		"what is in order":          {NewSign(Fine, 20), NewSign(Note, 20)},
	} {
		var shapes [2]string
		for i, o := range pair {
			o.Resize(fyne.NewSize(320, 90))
			shapes[i] = shapeOf(o)
		}
		if shapes[0] == shapes[1] || shapes[0] == "" {
			t.Errorf("%s is told by its colour alone:\n%s", what, shapes[0])
		}
	}
}

// TestSignKeepsToItsRoom: a sign is drawn smaller where it is given less room.
func TestSignKeepsToItsRoom(t *testing.T) {
	test.NewTempApp(t)
	for _, level := range []Level{Stop, Check, Note, Fine} {
		s := NewSign(level, 72)
		s.Resize(fyne.NewSquareSize(36))
		r := test.WidgetRenderer(s).(*signRenderer)
		r.Layout(s.Size())
		r.mark.Refresh()
		middle := r.mark.Position().Y + r.mark.Size().Height/2
		if r.dot.Size().Width > 36 || r.polygon.Size().Width > 1.3*36 || r.up.Position2.X > 36 || r.down.Position2.Y > 36 || r.mark.Position().Y < -4 || middle > 36 {
			t.Errorf("level %d: %v, %v, %v to %v, mark at %v", level, r.dot.Size(), r.polygon.Size(), r.down.Position1, r.up.Position2, r.mark.Position())
		}
	}
}

// TestTextHasTheSignOfItsTone: text in a colour that stands for something has that in a
// shape before its first line, has room for it, and none where it stands beside it.
func TestTextHasTheSignOfItsTone(t *testing.T) {
	test.NewTempApp(t)
	const words = "Words that take more than one line where there is little room for them"
	for tone, level := range map[Tone]Level{StopTone: Stop, CheckTone: Check, GoodTone: Fine, Ink: Note, Faint: Note, Touchable: Note} {
		for _, align := range []fyne.TextAlign{fyne.TextAlignLeading, fyne.TextAlignTrailing, fyne.TextAlignCenter} {
			text := NewText(words, Body, tone)
			text.Align = align
			text.Resize(fyne.NewSize(160, text.HeightFor(160)))
			r := test.WidgetRenderer(text)
			r.Layout(text.Size())
			var sign *Sign
			var first *canvas.Text
			for _, o := range r.Objects() {
				switch x := o.(type) {
				case *Sign:
					sign = x
				case *canvas.Text:
					if first == nil {
						first = x
					}
					if wide := look.Width(x.Text, x.TextSize, x.TextStyle); wide > x.Size().Width+0.5 || x.Position().Y+x.Size().Height > text.Size().Height+0.5 {
						t.Errorf("tone %d: %q has no room", tone, x.Text)
					}
				}
			}
			if level == Note {
				if sign != nil {
					t.Errorf("tone %d stands for nothing and has a sign", tone)
				}
				continue
			}
			if sign == nil || sign.Level() != level || sign.Position().X < 0 || sign.Position().X+sign.Size().Width > first.Position().X+first.Size().Width-look.Width(first.Text, first.TextSize, first.TextStyle) && align == fyne.TextAlignTrailing {
				t.Errorf("tone %d: the sign is %+v", tone, sign)
			}
			text.SetTone(Ink)
			if n := len(test.WidgetRenderer(text).Objects()); n != len(text.lines) {
				t.Errorf("tone %d leaves its sign", tone)
			}
			if o := test.WidgetRenderer(NewSigned(words, Body, tone)).Objects(); len(o) != 1 {
				t.Errorf("tone %d: a second sign", tone)
			}
		}
	}
}
