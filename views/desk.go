package views

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/assets"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// The windows, by key.
const (
	notebookKey = "notebook"
	moldKey     = "mold"
	layersKey   = "layers"
	mixingKey   = "mixing"
	cureKey     = "cure"
	finishKey   = "finish"
	shelfKey    = "shelf"
	helpKey     = "help"
)

// page is the content of one window.
type page interface {
	// content is what the window shows.
	content() fyne.CanvasObject
	// see redraws from a snapshot.
	see(app.Snapshot)
	// focus shows the input of a field; false when the page has none for it.
	focus(field string) bool
	// commit takes what is still being typed.
	commit()
	// tick is told the time once a second.
	tick(time.Time)
}

// window describes one of the program's windows.
type window struct {
	title string
	size  fyne.Size
	build func(*Desk, fyne.Window) page
}

// Desk holds the open windows over one session.
type Desk struct {
	app      fyne.App
	session  *app.Session
	windows  *touch.Windows
	fonts    *drawing.Fonts
	demos    []Demo
	pages    map[string]page
	covers   map[string]*cover // of the open windows
	sizes    map[string]fyne.Size
	mode     look.Mode
	motion   look.Motion
	asked    bool              // the desktop was told that nothing is to move
	titles   map[string]string // of the open windows, as set
	shown    map[string]int    // the edition that each of them shows
	front    string            // the window that the maker works in
	behind   bool              // the other windows wait for the newest snapshot
	notice   *notice
	guide    *guide
	leaving  func() // called once the maker leaves
	alarms   *alarms
	seen     time.Time            // when the clock last ticked, or the program was last used
	away     *span                // when no one was here, until it is told of
	told     map[string]time.Time // the steps that were told of, each with its instant; nil until the first is
	moving   bool                 // a window is being resized
	hearKeys HearKeys             // nil where no keys are heard
	settled  bool                 // the windows are as the maker left them: not being reopened, nor closed with the program
}

// Demo is an invented example job that can be brought into the notebook.
type Demo struct {
	Name string
	File []byte
}

// arrangement is what is remembered of the windows.
type arrangement struct {
	Open   []string             `json:"open"`
	Sizes  map[string]fyne.Size `json:"sizes"`
	Mode   look.Mode            `json:"mode"`
	Motion look.Motion          `json:"motion,omitempty"`
	Seen   time.Time            `json:"seen,omitzero"` // when it was kept
	Guide  guided               `json:"guide,omitzero"`
}

const layoutName = "windows"

// NewDesk makes the windows of a session. The demo jobs can be brought in from
// the notebook; on a first start the first of them is.
func NewDesk(a fyne.App, s *app.Session, demos []Demo) (*Desk, error) {
	fonts, err := drawing.ParseFonts(assets.Regular.Content(), assets.Bold.Content())
	if err != nil {
		return nil, err
	}
	d := &Desk{app: a, session: s, windows: touch.NewWindows(a), fonts: fonts, demos: demos, pages: map[string]page{}, covers: map[string]*cover{}, sizes: map[string]fyne.Size{}, titles: map[string]string{}, shown: map[string]int{}}
	var l arrangement
	known := s.Recall(layoutName, &l)
	d.mode = look.System
	if known {
		d.sizes, d.mode, d.motion, d.seen = l.Sizes, l.Mode, l.Motion, l.Seen
	}
	d.guide = newGuide(d)
	d.guide.kept = l.Guide
	d.obeyDesktop(a)
	if d.sizes == nil {
		d.sizes = map[string]fyne.Size{}
	}
	d.alarms = newAlarms(d)
	a.Settings().SetTheme(look.New(d.mode))
	d.windows.OnClosed = d.closed
	d.Show(notebookKey).SetMaster()
	for _, key := range l.Open {
		if _, ok := windowFor(key); ok {
			d.Show(key)
		}
	}
	d.settled = true
	d.remember()
	s.Subscribe(d.follow)
	s.OnTick(func(now time.Time) {
		d.alarms.tick(now)
		d.tick(now)
		d.keepWatch(now)
	})
	if len(s.Snapshot().Cards) > 0 || known || len(demos) == 0 || s.Snapshot().Saved.Closed {
		s.Reopen()
	} else if err := s.Import(demos[0].File); err != nil {
		d.refuse(demos[0].Name, err)
	}
	return d, nil
}

// Show opens a window, or brings it to the front.
func (d *Desk) Show(key string) fyne.Window {
	if _, open := d.pages[key]; open {
		w := d.windows.Window(key)
		w.RequestFocus()
		d.work(key)
		return w
	}
	kind, _ := windowFor(key)
	size := kind.size
	if old, ok := d.sizes[key]; ok && old.Width >= 400 && old.Height >= 300 {
		size = old
	}
	w := d.windows.Show(key, kind.title, size, func(w fyne.Window) fyne.CanvasObject {
		w.SetPadded(false) // the ground reaches the edge; the frame has its own margins
		w.SetMainMenu(d.menu(key, w))
		p := kind.build(d, w)
		d.pages[key] = p
		return newCover(d, key, w, p).root
	})
	d.hear(key, w)
	p := d.pages[key]
	d.front = key
	d.see(key, d.session.Snapshot())
	d.windows.Closing(key, func() {
		p.commit()
		delete(d.pages, key)
		delete(d.titles, key)
		delete(d.shown, key)
	})
	d.remember()
	return w
}

// openAt opens a piece, unless it is open already, and shows a window of it.
func (d *Desk) openAt(piece, key string) {
	d.commitAll()
	if shot := d.session.Snapshot(); !shot.Open || shot.Project.ID != piece {
		d.session.Open(piece)
	}
	d.Show(key)
}

// tick moves on what the windows show, once a second.
func (d *Desk) tick(now time.Time) {
	look.WholeType(d.app)
	for key, p := range d.pages {
		if b := d.covers[key].bench; b != nil {
			b.show()
		} else {
			p.tick(now)
		}
	}
	shot := d.session.Snapshot()
	d.nameSteps(&shot)
	d.ring()
}

// titleOf names a window after the piece that it shows; the shelf and the help
// belong to none.
func titleOf(key, title string, shot app.Snapshot) string {
	if !shot.Open || key == shelfKey || key == helpKey {
		return title
	}
	return title + " · " + shot.Project.Name
}

// closed notes the size of a window that has been closed. When the notebook
// goes, so does the program, and the others count as left open.
func (d *Desk) closed(key string, size fyne.Size) {
	if c := d.covers[key]; c != nil && (c.bench != nil || c.wide) {
		size = c.before
	}
	delete(d.covers, key)
	d.sizes[key] = size
	d.remember()
	if key == notebookKey {
		d.settled = false
		d.commitAll()
		d.left()
	}
}

// OnLeave has do called once the maker leaves or Leave is called, when all that
// was being typed has been taken and nothing is left to do but to close the
// notebook and end.
func (d *Desk) OnLeave(do func()) { d.leaving = do }

// HearKeys has pressed asked about each function key that is pressed in a window.
type HearKeys func(w fyne.Window, pressed func(fyne.KeyName) bool)

// OnKeys has the function keys heard from now on, in every window.
func (d *Desk) OnKeys(hear HearKeys) {
	d.hearKeys = hear
	for key := range d.pages {
		d.hear(key, d.windows.Window(key))
	}
}

// left tells once that the program is about to end.
func (d *Desk) left() {
	if do := d.leaving; do != nil {
		d.leaving = nil
		do()
	}
}

// remember keeps which windows are open and how large.
func (d *Desk) remember() {
	if !d.settled {
		return
	}
	l := arrangement{Sizes: map[string]fyne.Size{}, Mode: d.mode, Motion: d.motion, Seen: d.session.Now().UTC(), Guide: d.guide.kept}
	for key, size := range d.sizes {
		l.Sizes[key] = size
	}
	for _, key := range []string{moldKey, layersKey, mixingKey, cureKey, finishKey, shelfKey} {
		if _, open := d.pages[key]; open {
			l.Open = append(l.Open, key)
		}
	}
	for _, key := range d.windows.Keys() {
		if c := d.covers[key]; c != nil && c.size().Width > 100 {
			l.Sizes[key] = c.size()
		}
	}
	d.session.Remember(layoutName, l)
}

// Leave closes everything, after what is being typed has been taken.
func (d *Desk) Leave() {
	d.commitAll()
	d.remember()
	d.settled = false
	d.left()
	d.app.Quit()
}

// commitAll takes what is still being typed in any window.
func (d *Desk) commitAll() {
	for _, p := range d.pages {
		p.commit()
	}
}

// setMode changes the light.
func (d *Desk) setMode(mode look.Mode) {
	d.mode = mode
	d.app.Settings().SetTheme(look.New(mode))
	d.remenu()
	d.redraw()
	d.remember()
}

// goTo shows the input of the field that a finding points at.
func (d *Desk) goTo(f model.Finding) {
	for _, key := range homesOf(f.Field, f.Subject) {
		d.Show(key)
		if d.pages[key].focus(f.Field) {
			return
		}
	}
}

// homesOf lists the windows in which a field may have its input, likeliest
// first.
func homesOf(field string, subject model.Subject) []string {
	switch first, _, _ := strings.Cut(field, "/"); first {
	case "mold", "pieces", "inserts":
		return []string{moldKey}
	case "shelf", "costing":
		return []string{shelfKey}
	case "instruments":
		return []string{notebookKey}
	case "finish":
		return []string{finishKey}
	case "layers", "sheets":
		if stirredIn(field) {
			return []string{mixingKey, layersKey}
		}
		return []string{layersKey}
	case "mixing":
		return []string{mixingKey}
	case "shop":
		if strings.HasPrefix(field, "shop/tilt") || strings.HasPrefix(field, "shop/theirs") {
			return []string{moldKey}
		}
		return []string{cureKey}
	}
	return []string{map[model.Subject]string{model.OfMold: moldKey, model.OfLayers: layersKey, model.OfMixing: mixingKey, model.OfCure: cureKey, model.OfFinish: finishKey, model.OfShelf: shelfKey, model.OfPrice: shelfKey}[subject]}
}

// palette gives the drawing's colours in the light of the moment.
func (d *Desk) palette() drawing.Palette {
	p := look.Of(d.app.Settings().ThemeVariant())
	switch d.mode {
	case look.Light:
		p = look.Paper
	case look.Dark:
		p = look.Evening
	}
	return drawing.Palette{
		Ground: p.Ground, Panel: p.Panel, Ink: p.Ink, Faint: p.Faint, Line: p.Line, Accent: p.Accent, AccentInk: p.AccentInk,
		Stop: p.Stop, Check: p.Check, Good: p.Good, Wood: p.Wood, WoodGrain: p.WoodGrain, Resin: p.Resin, Dimension: p.Dimension,
	}
}

// windowFor describes the window with a key; false when there is none.
func windowFor(key string) (window, bool) {
	switch key {
	case notebookKey:
		return window{"Notebook", fyne.NewSize(1180, 700), newNotebook}, true
	case moldKey:
		return window{"Mold and inserts", fyne.NewSize(1240, 700), newMold}, true
	case layersKey:
		return window{"Layers", fyne.NewSize(1240, 700), newLayers}, true
	case mixingKey:
		return window{"Mixing", fyne.NewSize(1180, 700), newMixing}, true
	case cureKey:
		return window{"Cure", fyne.NewSize(1180, 700), newCure}, true
	case finishKey:
		return window{"Finishing", fyne.NewSize(1240, 700), newFinish}, true
	case shelfKey:
		return window{"Shelf", fyne.NewSize(1180, 700), newShelf}, true
	case helpKey:
		return window{helpTitle, fyne.NewSize(1040, 700), newHelp}, true
	}
	return window{}, false
}
