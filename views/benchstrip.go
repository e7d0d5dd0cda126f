package views

import (
	"fmt"
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// benchStrip is what the bench look tells across its top where something is
// amiss with the notebook, or happened meanwhile: it covers the page whose banner
// would tell it.
type benchStrip struct {
	level touch.Level
	words string // "" where there is nothing to tell
	seen  func() // puts it away; nil where it stays until it is mended
}

// strip tells what is to be told now, the gravest first.
func (b *benchLook) strip() benchStrip {
	var s benchStrip
	d, saved := b.cover.desk, b.shot.Saved
	add := func(level touch.Level, words string) {
		s.level = max(s.level, level)
		s.words = sentences(s.words, words)
	}
	switch {
	case b.shot.Look != nil:
		add(touch.Check, "This is a look into a copy: what you touch here is not kept.")
	case saved.Closed:
		add(touch.Check, "This notebook can only be read: what you touch here is not kept.")
	case saved.What != "" && saved.Pending:
		add(touch.Stop, sentences("Not kept: "+saved.What, saved.Do, "All is still here, the clocks run on, and it is tried again by itself."))
	case saved.What != "":
		add(touch.Check, sentences(saved.What, saved.Do))
		s.seen = d.session.Retry
	}
	if n := d.notice; n != nil && !b.at.Mends { // what it tells may wait, a cup that is off its ratio may not
		words := sentences(n.what, n.do)
		if n.far != "" {
			words = n.what + ": " + n.far
		}
		add(levelOf(n.level), words)
		s.seen = d.hush
		if saved.What != "" && !saved.Pending {
			s.seen = func() { d.session.Retry(); d.hush() }
		}
	}
	if s.words != "" {
		s.words = s.level.Word() + ": " + s.words
	}
	return s
}

// stripMost is the size of the words of the strip on a screen of 1080 lines,
// whose line is 54 pixels high, and stripLeast that below which they do not go:
// more words than fit so make way for what is said below the number.
const (
	stripMost  float32 = 44
	stripLeast float32 = 19
)

// layStrip lays the strip out from a top down, in no more than so much height,
// and gives the height that it takes.
func (b *benchLook) layStrip(edge, top, wide, most, k float32) float32 {
	if b.told.Text() == "" {
		for _, o := range []fyne.CanvasObject{b.stripBox, b.told, b.stripSign} {
			o.Resize(fyne.Size{})
		}
		return 0
	}
	in := 12 * k
	side := stripSide
	if b.low() {
		side *= k
	}
	words := wide - side - 4*in
	if b.seen != nil {
		words -= stripButton*k + look.Apart
	}
	b.told.Most, b.told.Least = stripMost*k, min(stripLeast, stripMost*k)
	high := b.told.HeightIn(fyne.NewSize(words, most-2*in)) + 2*in
	if b.seen != nil {
		high = max(high, look.Glove+2*in)
		b.seen.Resize(fyne.NewSize(stripButton*k, look.Glove))
		b.seen.Move(fyne.NewPos(edge+wide-in-stripButton*k, top+(high-look.Glove)/2))
	}
	high = min(high, most)
	b.stripBox.Move(fyne.NewPos(edge, top))
	b.stripBox.Resize(fyne.NewSize(wide, high))
	b.stripSign.Move(fyne.NewPos(edge+in, top+(high-side)/2))
	b.stripSign.Resize(fyne.NewSquareSize(side))
	b.told.Move(fyne.NewPos(edge+side+2*in, top+in))
	b.told.Resize(fyne.NewSize(words, high-2*in))
	return high
}

// stripSide is the size of the sign of the strip.
const stripSide float32 = 72

// stripBrief is how many letters the strip has on a low screen, where a button
// leads to the rest.
const stripBrief = 84

// stripButton is how wide the button of the strip is on a screen of 1080 lines.
const stripButton float32 = 330

// seeStrip shows what is to be told.
func (b *benchLook) seeStrip(s benchStrip) {
	if b.reads() { // what is read there comes before all else
		s = benchStrip{}
	}
	if b.low() {
		s.words = brief(s.words, stripBrief)
	}
	p := look.Current()
	edge := p.Check
	if s.level == touch.Stop {
		edge = p.Stop
	}
	b.stripSign.SetLevel(s.level)
	if b.told.Text() != s.words || b.stripBox.StrokeColor != edge || b.stripBox.FillColor != p.Panel {
		b.stripBox.FillColor, b.stripBox.StrokeColor, b.stripBox.StrokeWidth = p.Panel, edge, 5
		b.stripBox.Hidden, b.stripSign.Hidden = s.words == "", s.words == ""
		b.told.SetText(s.words)
		b.Refresh()
	}
}

// missedBriefly are the steps that came due while no one was here, as the bench
// look tells them: the last of them in order, and how many there were before.
func missedBriefly(due []model.Alarm, zone *shopClock, now time.Time) string {
	const most = 3
	several := slices.ContainsFunc(due, func(m model.Alarm) bool { return m.Project != due[0].Project })
	words := ""
	if n := len(due) - most; n > 0 {
		words, due = fmt.Sprintf("%d before, and then ", n), due[n:]
	}
	for i, m := range due {
		if i > 0 {
			words += "; "
		}
		if several && (i == 0 || due[i-1].Project != m.Project) {
			words += brief(m.Piece, 24) + ": "
		}
		at := zone.dayTime(m.Due)
		if now.Sub(m.Due) < 6*24*time.Hour {
			at = zone.short(m.Due)
		}
		words += m.Label + ", " + at
	}
	return words
}
