package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/views/touch"
)

// fine is the level of what is in order, beside those of findings.
const fine touch.Level = -1

// verdict is a sign, a word and the words that explain it, on a line that
// changes in place.
type verdict struct {
	root *fyne.Container
	tick fyne.CanvasObject
	sign *touch.Sign
	word *touch.Text
	text *touch.Text
}

func newVerdict() *verdict {
	v := &verdict{tick: newTick(18), sign: touch.NewSign(touch.Check, 20), word: touch.NewLine("", touch.Strong, touch.Ink), text: touch.NewText("", touch.Body, touch.Ink)}
	head := container.New(layout.NewCustomPaddedHBoxLayout(6), container.NewCenter(container.NewStack(v.tick, v.sign)), container.NewVBox(v.word))
	v.root = container.New(layout.NewCustomPaddedLayout(0, 0, 6, 0), container.NewBorder(nil, nil, head, nil, v.text))
	return v
}

// set shows another verdict.
func (v *verdict) set(level touch.Level, word, text string) {
	tone := map[touch.Level]touch.Tone{fine: touch.GoodTone, touch.Check: touch.CheckTone, touch.Stop: touch.StopTone}[level]
	if level == fine {
		v.tick.Show()
		v.sign.Hide()
	} else {
		v.tick.Hide()
		v.sign.Show()
		v.sign.SetLevel(level)
	}
	v.word.SetTone(tone)
	v.word.SetText(word)
	v.text.SetText(text)
}
