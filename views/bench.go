package views

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// benchMode is what the buttons of the bench look are for.
type benchMode int

const (
	benchActs benchMode = iota // what follows in the work
	benchMore                  // what may happen at any moment
	benchKeys                  // typing what the scale reads
	benchWarm                  // typing a temperature
	benchNote                  // a few words
	benchHot                   // what to do where it got too hot
	benchTold                  // all that is told, where the strip has no room for it
)

// benchLook takes a whole window and shows only what is needed with gloves on
// and eyes elsewhere: one number, the next step, and the buttons of the moment.
// It holds the focus; its buttons never do.
type benchLook struct {
	widget.BaseWidget
	cover *cover
	shot  app.Snapshot
	timed model.Plan
	at    model.Moment
	ask   model.BenchAsk
	mode  benchMode
	typed string
	card  string    // what to do where it got too hot
	said  string    // what went wrong at the last touch
	since time.Time // acts from then on can be taken back
	last  time.Time // the last touch
	fresh bool      // the key that is down has done nothing yet
	key   rune      // of the keypad that was touched last
	keyAt time.Time // and when
	wait  int       // so many entries the journal has until the last act is in it; 0 for no act under way

	ground *canvas.Rectangle
	box    *canvas.Rectangle // round the number, told by its edge
	sign   *touch.Sign
	number *touch.Fit
	of     *touch.Fit
	next   *touch.Fit
	more   *touch.Fit
	rows   [][]*touch.Glove // the buttons of the moment, by row
	foot   []*touch.Glove   // the buttons below them
	built  string           // what the rows are built of

	told      *touch.Fit // what is amiss, or happened meanwhile
	stripBox  *canvas.Rectangle
	stripSign *touch.Sign
	seen      *touch.Glove // puts that away; nil where it cannot be

	mark int // the button that Space touches, counted through the rows; -1 for none
}

var (
	_ fyne.Focusable  = (*benchLook)(nil)
	_ desktop.Keyable = (*benchLook)(nil)
)

func newBenchLook(c *cover, layer string) *benchLook {
	b := &benchLook{cover: c, since: c.desk.session.Now().Add(-time.Millisecond), mark: -1}
	b.ask.Layer = layer
	b.ground, b.box = canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	b.box.CornerRadius = 14
	b.sign = touch.NewSign(touch.Note, 84)
	b.number = touch.NewFit(420, 60, 1)
	b.number.Align = fyne.TextAlignCenter
	b.of, b.next, b.more = touch.NewFit(benchFar, 20, 1), touch.NewFit(benchFar*1.15, 20, 2), touch.NewFit(benchFurther, 17, 2)
	b.of.Align, b.next.Align, b.more.Align = fyne.TextAlignCenter, fyne.TextAlignCenter, fyne.TextAlignCenter
	b.more.Bold = false
	b.told, b.stripBox, b.stripSign = touch.NewFit(stripMost, stripLeast, 12), canvas.NewRectangle(nil), touch.NewSign(touch.Note, stripSide)
	b.stripBox.CornerRadius = 10
	b.ExtendBaseWidget(b)
	return b
}

// see follows a snapshot.
func (b *benchLook) see(shot app.Snapshot) {
	if b.wait > 0 && len(shot.Project.Journal) >= b.wait || shot.Project.ID != b.shot.Project.ID {
		b.wait = 0
	}
	b.shot, b.timed = shot, shot.Timed()
	b.show()
}

// show tells how the work stands now, and draws what has changed.
func (b *benchLook) show() {
	now := b.cover.desk.session.Now()
	b.ask.Now, b.ask.Reading, b.ask.Shelf = now, "", &b.shot.ShelfPlan
	if b.mode == benchKeys {
		b.ask.Reading = b.typed
	}
	b.at = b.timed.Moment(&b.shot.Project, &b.shot.Curing, b.ask)
	if b.mode == benchKeys && b.at.Number != model.NumberReads && b.at.Number != model.NumberToGo {
		b.mode, b.typed = benchActs, ""
	}
	strip := b.strip()
	if b.mode == benchTold && strip.words == "" {
		b.turn(benchActs)
	}
	b.build(&strip)
	b.seeStrip(strip)
	b.write(&strip, now)
}

// Resize is used by the toolkit. On a low screen there are other buttons.
func (b *benchLook) Resize(size fyne.Size) {
	low := b.low()
	b.BaseWidget.Resize(size)
	if b.low() != low {
		b.show()
	}
}

// write shows the number and the words of the moment.
func (b *benchLook) write(strip *benchStrip, now time.Time) {
	figure, as, of, next, more := b.at.Figure, b.at.Figure, b.at.Of, b.at.Next, b.at.More
	if b.at.Number == model.NumberLeft || b.at.Number == model.NumberSince {
		var form string
		figure, form = benchClock(&b.at, now)
		of += form
		as = benchWidest(figure)
	}
	switch b.mode {
	case benchKeys:
		next = "Type what the scale reads, cup and all"
		if b.typed != "" {
			next = "Typed " + b.typed + ". " + b.at.Next
		}
	case benchWarm:
		figure, of, next, more = b.warmth(), "read now", "Type the temperature", ""
		as = figure
	case benchNote:
		next, more = b.typed+"_", "Touch a word, or type and press Enter."
	case benchHot:
		figure, as, of, next, more = "", "", "Stop: too hot", b.card, ""
	case benchTold:
		figure, as, of = "", "", strip.level.Word()
		next = strings.TrimPrefix(strip.words, of+": ")
	}
	switch {
	case b.said == "":
	case b.low() && strip.words != "": // which leaves no room for more
		next = b.said
	default:
		more = b.said
	}
	if b.cover.lock != nil {
		next, more = lockWords, ""
	}
	word := capitalised(string(b.at.State))
	if word != "" && (b.mode == benchActs || b.mode == benchMore || b.mode == benchKeys) {
		of = word + " · " + of
	}
	shape := [3]bool{b.of.Text() == "", b.next.Text() == "", b.more.Text() == ""}
	b.number.SetLike(figure, as)
	b.of.SetText(of)
	b.next.Lines, b.next.Align = 2, fyne.TextAlignCenter
	if b.reads() {
		b.next.Lines, b.next.Align = 14, fyne.TextAlignLeading
	}
	b.next.SetText(next)
	b.more.SetText(more)
	if shape != [3]bool{of == "", next == "", more == ""} { // they share the room anew
		b.Refresh()
	}
	b.edge()
}

// edge draws the ground, and round the number how near its mark it is: by the
// strength of the edge and a sign as well as by colour.
func (b *benchLook) edge() {
	p := look.Current()
	fill, stroke, width, level := p.Ground, p.Ground, float32(0), touch.Note
	switch b.at.State {
	case model.AimFar:
		stroke, width = p.Line, 2
	case model.AimNear:
		fill, stroke, width, level = p.Press, p.Accent, 8, touch.Check
	case model.AimThere:
		stroke, width, level = p.Ink, 14, touch.Stop
	case model.AimOver:
		stroke, width, level = p.Stop, 14, touch.Stop
	}
	b.sign.SetLevel(level)
	hidden := b.at.State == "" || b.at.State == model.AimFar
	if b.ground.FillColor != p.Ground || b.box.FillColor != fill || b.box.StrokeColor != stroke || b.box.StrokeWidth != width || b.sign.Hidden != hidden {
		b.ground.FillColor = p.Ground
		b.box.FillColor, b.box.StrokeColor, b.box.StrokeWidth = fill, stroke, width
		b.sign.Hidden = hidden
		b.Refresh()
	}
}

// reads tells whether there is something to read at length instead of a number.
func (b *benchLook) reads() bool { return b.mode == benchHot || b.mode == benchTold }

// lockWords say how the lock for wiping is taken off.
const lockWords = "Locked: wipe the screen. To go on, touch 1 and then 2, or press Escape"

// do does what a button is for, once: a wet glove touches twice, and a key that
// is held down repeats.
func (b *benchLook) do(act func()) {
	now := b.cover.desk.session.Now()
	gone := now.Sub(b.last)
	b.last = now
	if b.cover.lock != nil || gone >= 0 && gone < touch.Settle {
		return
	}
	b.said = ""
	act()
	b.show()
}

// act writes down what has happened, or turns to what the act leads to.
func (b *benchLook) act(a model.BenchAct) {
	switch {
	case a.Refused != "":
		b.said = a.Refused
	case a.Turn != model.NoTurning:
		b.ask.Layer, b.ask.Touch, b.ask.Afresh = a.To, a.Turn == model.TurnTouch, a.Turn == model.TurnAfresh
	case b.keep(a.Entry):
		b.ask.Touch, b.ask.Afresh = false, false
		b.turn(benchActs)
	}
}

// keep writes an entry down; false where it could not be, or another is still on
// its way.
func (b *benchLook) keep(e model.Entry) bool {
	return b.log(func() error { return b.cover.desk.session.Happened(e) })
}

// log has something written down.
func (b *benchLook) log(write func() error) bool {
	if b.wait > 0 {
		return false
	}
	b.wait = len(b.shot.Project.Journal) + 1
	if err := write(); err != nil {
		b.wait, b.said = 0, problemWords(err)
		return false
	}
	return true
}

// takeBack takes back what was touched last.
func (b *benchLook) takeBack() {
	if e, _, ok := b.shot.Project.LastAct(b.since); ok {
		b.log(func() error { return b.cover.desk.session.Withdraw(e.ID) })
	}
}

// turn shows other buttons, with nothing typed.
func (b *benchLook) turn(mode benchMode) { b.mode, b.typed = mode, "" }

// leave goes back by one: to the acts of the moment, and from there to the page.
func (b *benchLook) leave() {
	switch {
	case b.typed != "":
		b.typed = ""
	case b.mode != benchActs:
		b.turn(benchActs)
	case b.ask.Touch || b.ask.Afresh:
		b.ask.Touch, b.ask.Afresh = false, false
	default:
		b.cover.hideBench()
	}
}
