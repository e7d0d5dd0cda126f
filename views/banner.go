package views

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// notice is something that the program says once, across the top of every
// window: what became of a file, or what happened meanwhile.
type notice struct {
	level    model.Level
	what, do string
	far      string    // do in so few words that they can be read from afar; "" is do itself
	until    time.Time // it goes by itself then; zero: when it is put away
}

// passing is how long a notice stays that asks for nothing.
const passing = 8 * time.Second

// say shows a notice in every window, in place of the one before.
func (d *Desk) say(n notice) {
	d.notice = &n
	d.redraw()
}

// sayBriefly shows a notice that goes by itself.
func (d *Desk) sayBriefly(what, do string) {
	d.say(notice{level: model.Note, what: what, do: do, until: d.session.Now().Add(passing)})
}

// hush puts the notice away.
func (d *Desk) hush() {
	d.notice = nil
	d.redraw()
}

// redraw has every window draw anew.
func (d *Desk) redraw() {
	shot := d.session.Snapshot()
	for key, p := range d.pages {
		if b := d.covers[key].bench; b != nil {
			b.see(shot)
		} else {
			d.covers[key].guide.see(&shot)
			p.see(shot)
		}
	}
}

// banner is the line across the top of a window for what is amiss with the
// notebook, which stays until it is mended, and for the notice of the moment.
// That comes and goes by itself, so it is laid over the question and the answer
// and nothing below moves.
type banner struct {
	desk  *Desk
	root  *fyne.Container
	over  *fyne.Container // the notice, which lies over the head of the page
	built string          // what the lines say now
}

func newBanner(d *Desk) *banner {
	return &banner{desk: d, root: container.NewVBox(), over: container.NewStack()}
}

func (b *banner) see(shot *app.Snapshot) {
	if key := fmt.Sprint(shot.Saved.Closed, shot.Look, shot.Saved.What, shot.Saved.Do, b.desk.notice); key != b.built {
		b.built = key
		touch.KeepFocus(b.root, func() { b.build(shot) })
	}
}

func (b *banner) build(shot *app.Snapshot) {
	b.root.RemoveAll()
	b.over.RemoveAll()
	switch saved := shot.Saved; {
	case shot.Look != nil:
		back := touch.NewButton("End the look", func() { b.desk.commitAll(); b.desk.session.EndLook() })
		do := "You can try things out; nothing that you change here is kept, and the piece in the notebook stays as it is."
		if !shot.Look.Back() {
			back, do = nil, do+" Opening any piece ends the look."
		}
		b.add(model.Check, "This is a look at the piece as it is in the copy of "+copyDay(shot.Look.Copy), do, back)
	case saved.Closed:
		b.add(model.Check, "This notebook can only be read", "You can look at everything; what you change is not kept. Export a piece to a file to work on it elsewhere.", nil)
	case saved.What != "" && !saved.Pending:
		b.add(model.Check, saved.What, saved.Do, touch.NewStyledButton("OK", touch.Quiet, b.desk.session.Retry))
	case saved.What != "":
		retry := touch.NewButton("Try again", func() { b.desk.commitAll(); b.desk.session.Retry() })
		b.add(model.Stop, "Not kept: "+saved.What, sentences(saved.Do, "All that you entered is still here, the clocks run on, and it is tried again by itself."), retry)
	}
	if n := b.desk.notice; n != nil {
		b.over.Add(newNoticeGround(b.desk.hush))
		b.over.Add(bannerLine(n.level, n.what, n.do, touch.NewStyledButton("OK", touch.Quiet, b.desk.hush)))
	}
	b.over.Refresh()
	b.root.Refresh()
}

// add puts a line into the banner, act at its end where there is one.
func (b *banner) add(level model.Level, what, do string, act *touch.Button) {
	b.root.Add(bannerLine(level, what, do, act))
}

// bannerLine is a line with its sign, act at its end where there is one.
func bannerLine(level model.Level, what, do string, act *touch.Button) fyne.CanvasObject {
	tones := map[model.Level]touch.Tone{model.Stop: touch.StopTone, model.Check: touch.CheckTone}
	words := container.New(layout.NewCustomPaddedVBoxLayout(0), touch.NewSigned(what, touch.Strong, tones[level]))
	if do != "" {
		words.Add(touch.NewText(do, touch.Body, touch.Ink))
	}
	sign := container.New(layout.NewCustomPaddedLayout(0, 0, 0, 10), touch.NewSign(levelOf(level), 26))
	var end fyne.CanvasObject
	if act != nil {
		end = container.NewCenter(act)
	}
	line := container.NewBorder(nil, nil, sign, end, container.NewVBox(layout.NewSpacer(), words, layout.NewSpacer()))
	return container.New(layout.NewCustomPaddedLayout(2, 6, 14, 14), line)
}
