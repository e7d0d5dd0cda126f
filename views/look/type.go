package look

import (
	"sync"
	"sync/atomic"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meniscus/assets"
)

// ReadType has the toolkit read the typeface beside what else is done before there
// is a window. Wait ends when it has.
//
// For each of our two faces the toolkit reads its own beside it, for letters that
// ours lacks, and one of small pictures of 4 MB, which together take 18 ms of the
// start and 19 MB for good. Until such a letter is written, ours stand in for them.
func ReadType(a fyne.App) (wait func()) {
	a.Settings().SetTheme(New(System))
	whole.lend()
	var all sync.WaitGroup
	for _, style := range []fyne.TextStyle{{}, {Bold: true}} {
		all.Go(func() { fyne.MeasureText("0", theme.DefaultTheme().Size(theme.SizeNameText), style) })
	}
	return all.Wait
}

// WholeType has the toolkit read all its faces, once a letter has been measured that
// ours lack; otherwise it does nothing. All windows are drawn anew by it.
func WholeType(a fyne.App) {
	if whole.wanted.Load() && whole.giveBack() {
		a.Settings().SetTheme(a.Settings().Theme()) // which has it forget those that it has read
	}
}

// lending is what the toolkit's own faces hold while ours stand in for them.
type lending struct {
	wanted atomic.Bool // a letter was met that ours lack
	faces  []lent
}

// lent is one face of the toolkit and what it holds by itself.
type lent struct {
	face *fyne.StaticResource
	own  []byte
}

// whole is the toolkit's set of faces.
var whole lending

// lend puts ours in the place of the toolkit's faces, once.
func (l *lending) lend() {
	if len(l.faces) > 0 {
		return
	}
	for _, f := range []struct{ theirs, ours fyne.Resource }{
		{theme.DefaultTextFont(), assets.Regular},
		{theme.DefaultTextBoldFont(), assets.Bold},
		{theme.DefaultEmojiFont(), assets.Regular},
	} {
		if face, ok := f.theirs.(*fyne.StaticResource); ok {
			l.faces = append(l.faces, lent{face, face.StaticContent})
			face.StaticContent = f.ours.Content()
		}
	}
}

// giveBack undoes lend; false where nothing is lent.
func (l *lending) giveBack() bool {
	for _, f := range l.faces {
		f.face.StaticContent = f.own
	}
	given := len(l.faces) > 0
	l.faces = nil
	return given
}
