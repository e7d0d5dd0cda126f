package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// typicalMark tells below a field that is not given what the plan uses: with a
// dotted line below the words where that is a typical value.
type typicalMark struct {
	root *fyne.Container
	line *dotted
	text *touch.Text
	now  string
}

func newTypicalMark() *typicalMark {
	m := &typicalMark{line: newDotted(""), text: touch.NewText("", touch.Small, touch.Faint)}
	m.root = container.New(layout.NewCustomPaddedVBoxLayout(2), m.line.root, m.text)
	m.root.Hide()
	return m
}

// set shows what stands in, or nothing.
func (m *typicalMark) set(u model.Usual, on bool) {
	words, dots := "", ""
	switch {
	case !on:
	case u.Value == "":
		words = "not given: " + u.Why
	case u.Derived:
		words = u.Value + ", " + u.Why
	default:
		dots = "typical: " + u.Value
		words = u.Why
		if u.Band != "" {
			words = u.Band + "; " + u.Why
		}
	}
	key := dots + "|" + words
	if key == m.now {
		return
	}
	m.now = key
	m.line.set(dots)
	m.text.SetText(words)
	m.root.Hidden = dots+words == ""
	m.root.Refresh()
}

// dotted is a line of small words with dots below it: the mark of a value that
// is typical and was not measured.
type dotted struct {
	root *fyne.Container
	text *touch.Text
	dots *fyne.Container
}

func newDotted(words string) *dotted {
	d := &dotted{text: touch.NewLine(words, touch.Small, touch.Ink), dots: container.New(dotRow{})}
	d.root = container.New(layout.NewCustomPaddedVBoxLayout(0), container.NewHBox(d.text, layout.NewSpacer()), d.dots)
	d.set(words)
	return d
}

func (d *dotted) set(words string) {
	d.text.SetText(words)
	d.root.Hidden = words == ""
	n := int(d.text.LineWidth() / dotStep)
	d.dots.Objects = nil
	for range n {
		d.dots.Objects = append(d.dots.Objects, canvas.NewCircle(look.Current().Faint))
	}
	d.root.Refresh()
}

const dotStep, dotSide float32 = 5, 2

// dotRow sets small dots in a row.
type dotRow struct{}

func (dotRow) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(0, dotSide) }

func (dotRow) Layout(dots []fyne.CanvasObject, _ fyne.Size) {
	for i, o := range dots {
		o.Move(fyne.NewPos(float32(i)*dotStep, 0))
		o.Resize(fyne.NewSquareSize(dotSide))
	}
}

// verdictRow is one check against the data sheet: a shape, a word and the
// numbers.
func verdictRow(c model.LimitCheck) fyne.CanvasObject {
	tone := touch.CheckTone
	switch c.Verdict {
	case model.Fine:
		tone = touch.GoodTone
	case model.Beyond:
		tone = touch.StopTone
	}
	word := touch.NewLine(string(c.Verdict), touch.Strong, tone)
	head := container.NewHBox(container.NewCenter(word), container.NewCenter(touch.NewLine(c.Kind, touch.Small, touch.Faint)))
	return container.New(layout.NewCustomPaddedVBoxLayout(0), head, touch.NewText(c.Text, touch.Body, touch.Ink))
}
