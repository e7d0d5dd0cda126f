package touch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// badgeSide is the side of the sign in front of a badge's words.
const badgeSide float32 = 20

// badge is a level's sign with words beside it, below an input.
type badge struct {
	widget.BaseWidget
	level Level
	sign  *Sign
	words *Text
}

var _ fyne.Widget = (*badge)(nil)

func newBadge(level Level, words string) *badge {
	b := &badge{level: level, sign: NewSign(level, badgeSide), words: NewSigned("", Small, level.tone())}
	b.ExtendBaseWidget(b)
	b.set(level, words)
	return b
}

// set shows other words with the sign of a level, with the level's name in
// front; no words hide it. It tells whether anything changed.
func (b *badge) set(level Level, words string) bool {
	if words != "" {
		words = level.Word() + ": " + words
	}
	b.Hidden = words == ""
	if b.level == level && b.words.Text() == words {
		return false
	}
	b.level = level
	b.sign.SetLevel(level)
	b.words.Tone = level.tone()
	b.words.SetText(words)
	return true
}

// HeightFor is the height that the badge needs at a width.
func (b *badge) HeightFor(width float32) float32 {
	if b.words.Text() == "" {
		return 0
	}
	return max(badgeSide, b.words.HeightFor(width-badgeSide-look.Gap)+2)
}

// CreateRenderer is used by the toolkit.
func (b *badge) CreateRenderer() fyne.WidgetRenderer { return &badgeRenderer{badge: b} }

type badgeRenderer struct{ badge *badge }

func (r *badgeRenderer) Layout(size fyne.Size) {
	r.badge.sign.Resize(fyne.NewSquareSize(badgeSide))
	r.badge.words.Move(fyne.NewPos(badgeSide+look.Gap, 1))
	r.badge.words.Resize(fyne.NewSize(size.Width-badgeSide-look.Gap, size.Height-1))
}

func (r *badgeRenderer) MinSize() fyne.Size {
	words := r.badge.words.MinSize()
	return fyne.NewSize(badgeSide+look.Gap+words.Width, max(badgeSide, words.Height+2))
}

func (r *badgeRenderer) Refresh() {
	r.Layout(r.badge.Size())
	r.badge.sign.Refresh()
	r.badge.words.Refresh()
}

func (r *badgeRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.badge.sign, r.badge.words}
}

func (r *badgeRenderer) Destroy() {}
