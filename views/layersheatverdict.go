package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/views/touch"
)

// verdict is a sign, a word and the words that explain it, on a line that
// changes in place.
type verdict struct {
	root *fyne.Container
	word *touch.Text
	text *touch.Text
}

func newVerdict() *verdict {
	v := &verdict{word: touch.NewLine("", touch.Strong, touch.Ink), text: touch.NewText("", touch.Body, touch.Ink)}
	head := container.New(layout.NewCustomPaddedLayout(0, 0, 0, 6), container.NewVBox(v.word))
	v.root = container.New(layout.NewCustomPaddedLayout(0, 0, 6, 0), container.NewBorder(nil, nil, head, nil, v.text))
	return v
}

// set shows another verdict.
func (v *verdict) set(level touch.Level, word, text string) {
	v.word.SetTone(map[touch.Level]touch.Tone{touch.Fine: touch.GoodTone, touch.Check: touch.CheckTone, touch.Stop: touch.StopTone}[level])
	v.word.SetText(word)
	v.text.SetText(text)
}
