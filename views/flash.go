package views

import (
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// flash covers a whole window while an alarm rings, for ears that hear nothing:
// ink on the ground and the ground on ink, one change a second, far below the
// three flashes a second of WCAG 2.2, 2.3.1. A touch anywhere, Space or Enter
// says that it was heard; the arrows move to the other button.
type flash struct {
	widget.BaseWidget
	cover  *cover
	ground *canvas.Rectangle
	level  *touch.Sign
	first  *touch.Fit // the latest alarm
	others *touch.Fit
	heard  *touch.Glove
	open   *touch.Glove   // the piece that the latest is about, where that is closed
	piece  string         // its ID
	onOpen bool           // the keys are on that button
	has    bool           // it has the keys
	turned bool           // the ground on ink
	since  time.Time      // when it appeared
	was    fyne.Focusable // had the focus before
	typing string         // what stood in the entry with the focus at the last look
	fresh  bool           // the key that is down has done nothing yet
}

var (
	_ fyne.Tappable   = (*flash)(nil)
	_ fyne.Focusable  = (*flash)(nil)
	_ desktop.Keyable = (*flash)(nil)
)

func newFlash(c *cover) *flash {
	f := &flash{cover: c, since: c.desk.session.Now(), ground: canvas.NewRectangle(nil), level: touch.NewSign(touch.Check, 100)}
	f.first, f.others = touch.NewFit(120, 26, 4), touch.NewFit(46, 15, 8)
	f.first.Align, f.others.Align = fyne.TextAlignCenter, fyne.TextAlignCenter
	f.heard = touch.NewGlove("I have heard it", touch.Primary, benchFar, f.answer)
	f.open = touch.NewGlove("Open it", touch.Plain, benchFar, f.openPiece)
	f.ExtendBaseWidget(f)
	return f
}

// ring shows in every window what rings now, and lets it flash.
func (d *Desk) ring() {
	for _, c := range d.covers {
		c.ring()
	}
}

// ring shows what rings now.
func (c *cover) ring() {
	list := c.desk.alarms.ringing
	switch {
	case len(list) == 0 && c.flash == nil:
		return
	case len(list) == 0:
		was, canvas := c.flash.was, c.window.Canvas()
		if canvas.Focused() != fyne.Focusable(c.flash) {
			was = canvas.Focused()
		}
		c.flash = nil
		canvas.Unfocus()
		c.lay()
		if c.bench == nil && was != nil {
			canvas.Focus(was)
		}
		return
	}
	if c.flash == nil {
		c.flash = newFlash(c)
		c.flash.see(list)
		c.lay()
		return
	}
	// Where nothing is to move it is steady.
	c.flash.turned = !c.flash.turned && !c.desk.still()
	c.flash.see(list)
	c.flash.claim()
}

// see shows what rings.
func (f *flash) see(list []model.Alarm) {
	var c shopClock
	c.set(f.cover.desk.session.Snapshot().Project.Shop.Zone)
	lines := alarmLines(list, &c)
	if f.cover.desk.session.Silent() {
		lines = append(lines, "There is no sound on this machine.")
	}
	f.seePiece(&list[len(list)-1])
	level := touch.Check
	if kind := list[len(list)-1].Kind; kind == model.StepWorkEnds || kind == model.StepRecoatEnd {
		level = touch.Stop // it is too late for something
	}
	f.level.SetLevel(level)
	f.first.SetText(lines[0])
	f.others.SetText(strings.Join(lines[1:], "\n"))
	p := look.Current()
	ground, ink := p.Ground, p.Ink
	if f.turned {
		ground, ink = p.Ink, p.Ground
	}
	f.first.SetInk(ink)
	f.others.SetInk(ink)
	if f.ground.FillColor != ground {
		f.ground.FillColor = ground
		f.ground.Refresh()
	}
}

// seePiece offers to open the piece of an alarm, where it is closed.
func (f *flash) seePiece(latest *model.Alarm) {
	f.piece = latest.Project
	if hidden := f.piece == "" || f.piece == f.cover.desk.session.Snapshot().Project.ID; hidden != f.open.Hidden {
		f.open.Hidden = hidden
		f.onOpen = f.onOpen && !hidden
		f.showMark()
		f.Refresh()
	}
}

// openPiece says of the piece that it was heard, and opens it where its clock is.
func (f *flash) openPiece() {
	if f.settling() {
		return
	}
	d := f.cover.desk
	d.alarms.show(f.piece)
	d.ring()
}

// settling tells whether a touch may have been under way when it appeared.
func (f *flash) settling() bool {
	gone := f.cover.desk.session.Now().Sub(f.since)
	return gone >= 0 && gone < touch.Settle
}

// claim takes the keys, unless something is being typed at this moment: nothing
// that was typed is lost, and no Enter that was meant for an entry answers an
// alarm that no one has seen.
func (f *flash) claim() {
	canvas := f.cover.window.Canvas()
	now := canvas.Focused()
	if now == fyne.Focusable(f) {
		return
	}
	if entry, ok := now.(interface{ Typing() string }); ok {
		if key := fmt.Sprintf("%p %s", now, entry.Typing()); key != f.typing {
			f.typing = key
			return
		}
	}
	if now != fyne.Focusable(f.cover.bench) {
		f.was = now
	}
	canvas.Focus(f)
}

// answer says that it was heard, but not by a touch that was under way when it
// appeared.
func (f *flash) answer() {
	if f.settling() {
		return
	}
	d := f.cover.desk
	d.alarms.answer()
	d.ring()
}

// Tapped says that it was heard.
func (f *flash) Tapped(*fyne.PointEvent) { f.answer() }

// KeyDown is used by the toolkit: once for each press, where TypedKey repeats.
func (f *flash) KeyDown(*fyne.KeyEvent) { f.fresh = true }

// KeyUp is used by the toolkit.
func (f *flash) KeyUp(*fyne.KeyEvent) {}

// TypedKey does on Space and Enter what the marked button does, and moves the mark
// on the arrows. Under the lock for wiping no key does but Escape, which takes the
// lock off.
func (f *flash) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyEscape:
		if f.cover.lock != nil {
			f.cover.setLock(false)
		}
	case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown:
		f.onOpen = !f.onOpen && !f.open.Hidden
		f.showMark()
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		if !f.fresh || f.cover.lock != nil {
			return
		}
		f.fresh = false
		if f.onOpen {
			f.openPiece()
		} else {
			f.answer()
		}
	}
}

// showMark marks the button that Space would touch.
func (f *flash) showMark() {
	f.heard.SetMarked(f.has && !f.onOpen)
	f.open.SetMarked(f.has && f.onOpen)
}

// TypedRune is used by the toolkit.
func (f *flash) TypedRune(rune) {}

// FocusGained is used by the toolkit.
func (f *flash) FocusGained() { f.has = true; f.showMark() }

// FocusLost is used by the toolkit.
func (f *flash) FocusLost() { f.has = false; f.showMark() }

// CreateRenderer is used by the toolkit.
func (f *flash) CreateRenderer() fyne.WidgetRenderer { return &flashRenderer{f} }

type flashRenderer struct{ flash *flash }

func (r *flashRenderer) Layout(size fyne.Size) {
	f, k := r.flash, benchScale(size)
	f.ground.Resize(size)
	edge := max(28*k, look.Apart)
	high := max(look.Glove+20, 190*k)
	wide := size.Width - 2*edge
	button := wide
	if !f.open.Hidden { // beside it, at the left
		button = (wide - edge) / 2
		f.open.Move(fyne.NewPos(edge, size.Height-edge-high))
		f.open.Resize(fyne.NewSize(button, high))
	}
	f.heard.Move(fyne.NewPos(size.Width-edge-button, size.Height-edge-high))
	f.heard.Resize(fyne.NewSize(button, high))
	side := max(140*k, 70)
	f.level.Move(fyne.NewPos((size.Width-side)/2, edge))
	f.level.Resize(fyne.NewSquareSize(side))
	top, left := edge*1.5+side, edge
	if size.Height < 660 { // the sign beside the words: above them it would take their room
		top, left = edge, edge+side+look.Apart
		wide -= left - edge
		f.level.Move(fyne.NewPos(edge, edge))
	}
	room := size.Height - 2*edge - high - top
	f.first.Most, f.others.Most = 130*k, 56*k
	few := room * 0.6
	f.first.Move(fyne.NewPos(left, top))
	f.first.Resize(fyne.NewSize(wide, few))
	f.others.Move(fyne.NewPos(left, top+few))
	f.others.Resize(fyne.NewSize(wide, room-few))
}

func (r *flashRenderer) MinSize() fyne.Size { return fyne.Size{} }

func (r *flashRenderer) Refresh() {
	r.Layout(r.flash.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *flashRenderer) Objects() []fyne.CanvasObject {
	f := r.flash
	return []fyne.CanvasObject{f.ground, f.level, f.first, f.others, f.open, f.heard}
}

func (r *flashRenderer) Destroy() {}

// mostAlarms is how many alarms are told of one by one.
const mostAlarms = 3

// alarmLines words alarms, the latest first.
func alarmLines(list []model.Alarm, c *shopClock) []string {
	var lines []string
	for i := len(list) - 1; i >= max(len(list)-mostAlarms, 0); i-- {
		words := list[i].Label
		if list[i].Piece != "" {
			words = brief(list[i].Piece, 40) + ": " + words
		}
		lines = append(lines, capitalised(words)+", "+c.dated(list[i].Due))
	}
	if n := len(list) - mostAlarms; n > 0 {
		lines = append(lines, fmt.Sprintf("and %d more before", n))
	}
	return lines
}
