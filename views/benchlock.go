package views

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
	"meniscus/views/touch"
)

// unlockWithin is how soon the second corner must be touched after the first.
const unlockWithin = 2 * time.Second

// wipeLock lies over a window and takes all touches, so that the screen can be
// wiped. Two corners touched in their order, with nothing between, take it off:
// a hand that wipes does not do that.
type wipeLock struct {
	widget.BaseWidget
	cover         *cover
	first, second *touch.Glove
	clear         *canvas.Rectangle
	at            time.Time // when the first corner was touched; zero when it was not
}

func newWipeLock(c *cover) *wipeLock {
	l := &wipeLock{cover: c, clear: canvas.NewRectangle(color.Transparent)}
	now := c.desk.session.Now
	l.first = touch.NewGlove("1", touch.Primary, benchFar, func() { l.at = now() })
	l.second = touch.NewGlove("2", touch.Primary, benchFar, func() {
		gone := now().Sub(l.at)
		soon := !l.at.IsZero() && gone >= 0 && gone <= unlockWithin
		if l.at = (time.Time{}); soon {
			c.setLock(false)
		}
	})
	l.ExtendBaseWidget(l)
	return l
}

// Tapped takes the touches of the wiping.
func (l *wipeLock) Tapped(*fyne.PointEvent) { l.at = time.Time{} }

// FocusGained, FocusLost, TypedRune, TypedKey, Enable, Disable and Disabled keep
// the focus where it is while the screen is wiped.
func (l *wipeLock) FocusGained() {}

// FocusLost is used by the toolkit.
func (l *wipeLock) FocusLost() {}

// TypedRune is used by the toolkit.
func (l *wipeLock) TypedRune(rune) {}

// TypedKey is used by the toolkit.
func (l *wipeLock) TypedKey(*fyne.KeyEvent) {}

// Enable is used by the toolkit.
func (l *wipeLock) Enable() {}

// Disable is used by the toolkit.
func (l *wipeLock) Disable() {}

// Disabled is used by the toolkit.
func (l *wipeLock) Disabled() bool { return true }

// CreateRenderer is used by the toolkit.
func (l *wipeLock) CreateRenderer() fyne.WidgetRenderer { return &lockRenderer{l} }

type lockRenderer struct{ lock *wipeLock }

func (r *lockRenderer) Layout(size fyne.Size) {
	l, side := r.lock, look.Glove*1.3
	l.clear.Resize(size)
	l.first.Move(fyne.NewPos(look.Apart, size.Height-side-look.Apart))
	l.first.Resize(fyne.NewSquareSize(side))
	l.second.Move(fyne.NewPos(size.Width-side-look.Apart, size.Height-side-look.Apart))
	l.second.Resize(fyne.NewSquareSize(side))
}

func (r *lockRenderer) MinSize() fyne.Size { return fyne.Size{} }

func (r *lockRenderer) Refresh() {}

func (r *lockRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.lock.clear, r.lock.first, r.lock.second}
}

func (r *lockRenderer) Destroy() {}
