package app

import (
	"errors"
	"slices"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
)

// Session is the open notebook and the project open in it.
type Session struct {
	store Store
	clock Clock
	jobs  *Jobs
	newID func() string

	player    Player // nil where there is none
	still     AsksForStill
	painter   Painter // nil where there is none
	printer   Printer // likewise
	papers    string  // folder of what was opened or printed; empty until something is
	mute      bool    // the last sound failed
	reckon    Reckoner
	calm      time.Duration
	planned   int                  // counts the plans that were shown
	cures     int                  // counts the curings that were begun
	reckoned  *model.Project       // the state whose curing, with its bands, is there or under way; nil for none
	questions map[string]*question // not answered yet, by key
	pictures  []wantedPicture      // the first of them is being decoded
	tracings  []wantedRaster       // likewise
	rasters   rasters              // those used last
	found     outline              // of the last touch

	cards     []model.Card
	winding   bool            // the clock of a closed project is being worked out
	unwound   map[string]bool // those that could not be, by ID
	states    int             // counts the states of the open project that were planned to be kept
	planOf    int             // the one of them whose plan is on the screen; 0 for one that a finger drags past
	open      bool
	project   model.Project
	revisions []model.Revision // of the open project, oldest first
	current   int              // number of the revision that project builds on
	saves     []*save          // not yet on the disk, oldest first
	moving    bool             // a move is under way, see inLine
	turning   bool             // and it replaces the state of the open project, so that edits wait
	shelf     shelving
	unrested  func()    // gives the move up where they cannot be kept
	rested    func()    // goes on with the move once all edits are on the disk
	line      []waiting // for the end of the move
	lastKey   string    // of the last edit on the disk
	lastAt    time.Time
	triedAt   time.Time // when the first of saves was last sent to the disk
	copied    string    // day of the last copy of the notebook
	second    *string   // the folder for second copies; nil until it is asked for
	tidyAt    time.Time // when the notebook is next to be given its free room back
	awayAt    time.Time // when a second copy was last tried that could not be made; zero when it could
	locked    bool      // the notebook can only be read
	look      *Look     // the open project is looked at in a copy; nil when it is of the notebook

	shot        Snapshot
	subscribers []*subscriber
	ticks       []func(time.Time)
}

// subscriber is one window that follows the snapshots.
type subscriber struct{ see func(Snapshot) }

// save is a state of the project on its way to the disk.
type save struct {
	project model.Project
	shelf   *model.Shelf // of the shelf instead; nil for a project
	label   string
	key     string // edits with the same key in a row are one step
	amend   bool
	at      time.Time
	dated   time.Time // of the step: at, but for an entry of the journal, which is none
	flying  bool

	// What became of it. Written in the background while it flies.
	kept model.Revision
	left []model.Revision // all that there are; nil where they were not listed anew
	card model.Card
	err  error
}

// Options are what a Session is built of.
type Options struct {
	Store Store
	Clock Clock
	Post  func(func()) // hands a function to the interface's goroutine
	NewID func() string

	Reckoner Reckoner     // zero: the model's own
	Player   Player       // nil: no sound
	Still    AsksForStill // nil: the desktop is not asked
	Painter  Painter      // draws on paper; nil: paper without drawings
	Printer  Printer      // nil: what is to be printed is opened instead

	// Calm is how long no edit must come before its curing is worked out, so that
	// while keys follow each other only the plan is drawn anew.
	Calm time.Duration
}

// New opens a session on a notebook. It lists the projects but opens none.
func New(o Options) (*Session, error) {
	s := &Session{store: o.Store, clock: o.Clock, newID: o.NewID, jobs: NewJobs(o.Post), player: o.Player, still: o.Still, painter: o.Painter, printer: o.Printer, reckon: o.Reckoner.orModel(), calm: o.Calm, questions: map[string]*question{}, unwound: map[string]bool{}}
	cards, err := o.Store.Cards()
	switch {
	case usable(err):
		s.shot.Saved.What, s.shot.Saved.Do = trouble(err)
	case err != nil:
		s.jobs.Stop()
		return nil, err
	}
	s.cards = cards
	s.shot.Cards = cards
	if r, ok := o.Store.(Sealable); ok {
		s.locked = r.ReadOnly()
		s.shot.Saved.Closed = s.trying()
	}
	s.loadShelf()
	s.wind()
	s.jobs.Every(time.Second, func() { s.tick(s.clock.Now()) })
	return s, nil
}

// tick is told the time once a second.
func (s *Session) tick(now time.Time) {
	s.tryAgain(now)
	s.tidy(now)
	if s.shelf.day != s.today() {
		s.planShelf()
	}
	for _, f := range s.ticks {
		f(now)
	}
}

// Close finishes what is under way and tries once more to keep what could not
// be kept, so that everything entered is on the disk, and closes the notebook.
// It is called on the interface's goroutine, of which nothing else is left.
// When there is an error and the snapshot is still pending, the last edits of the
// project or of the shelf are nowhere but in memory, see CloseAside.
func (s *Session) Close() error {
	s.jobs.Finish(func() { s.subscribers, s.ticks = nil, nil })
	s.jobs.Finish(s.fly)
	s.jobs.Stop()
	var lost error
	if len(s.saves) > 0 {
		lost = s.saves[0].err
	}
	return errors.Join(lost, s.store.Close())
}

// Now tells the time as the session's clock has it.
func (s *Session) Now() time.Time { return s.clock.Now() }

// Subscribe calls see with the snapshot now and after every change. The
// returned function ends it.
func (s *Session) Subscribe(see func(Snapshot)) (end func()) {
	me := &subscriber{see}
	s.subscribers = append(s.subscribers, me)
	see(s.shot)
	return func() {
		s.subscribers = slices.DeleteFunc(s.subscribers, func(o *subscriber) bool { return o == me })
	}
}

// OnTick calls f once a second with the time.
func (s *Session) OnTick(f func(time.Time)) { s.ticks = append(s.ticks, f) }

// Later calls f once so much time has passed.
func (s *Session) Later(wait time.Duration, f func()) { s.jobs.After(wait, f) }

// Snapshot gives what was last published.
func (s *Session) Snapshot() Snapshot { return s.shot }

// publish hands the snapshot to every window.
func (s *Session) publish() {
	s.shot.Undo, s.shot.Redo = s.undoLabel(), s.redoLabel()
	s.shot.ShelfUndo, s.shot.ShelfRedo = s.shelfLabels()
	s.shot.Cards = s.cards
	for _, sub := range slices.Clone(s.subscribers) {
		sub.see(s.shot)
	}
}

// replan plans the project in the background and publishes both together, so
// that a window never sees a project with another one's plan.
func (s *Session) replan() {
	s.plan(s.project, true)
}

// plan plans a state of the project and has its curing worked out, with bands
// where it is kept.
func (s *Session) plan(p model.Project, kept bool) {
	if !s.reckonedFor(&p, kept) {
		s.callOff(kept)
	}
	state := 0
	if kept {
		s.states++
		state = s.states
	}
	Newest(s.jobs, "plan", func() model.Plan { return model.Make(p) }, func(plan model.Plan) {
		if p.ID == s.project.ID { // else another one has been opened meanwhile
			s.shot.Edition++
			s.shot.Planned, s.planOf = s.shot.Edition, state
			s.shot.Open, s.shot.Project, s.shot.Plan = true, p, plan
			s.cure(p, plan, kept)
			s.askAgain()
			s.publish()
		}
	})
}

// Edit is the one door for changes. change works on a copy; when it returns an
// error nothing has changed and the error is returned. Otherwise the new state
// is one step of undo named label (without one it belongs to the step before),
// is on its way to the disk, and is planned. Edits with the same key (not empty) in
// a row are one step. During undo and redo it is done after them, and change is
// called then. In a notebook that can only be read, and in a look into a copy, the
// change is planned but not kept.
func (s *Session) Edit(label, key string, change func(*model.Project) error) error {
	if !s.open {
		return errNoProject
	}
	if s.turning {
		s.late(label, key, change)
		return nil
	}
	p := s.project.Clone()
	if err := change(&p); err != nil {
		return err
	}
	s.project = p
	s.noteUses()
	if !s.trying() {
		now := s.clock.Now()
		s.enqueue(&save{project: p, label: label, key: key, amend: label == "" || s.continues(key, false), at: now, dated: now})
	}
	s.replan()
	return nil
}

// Preview shows what a change would do while a finger drags. Nothing is kept;
// the next Edit or Preview starts from the project as it was.
func (s *Session) Preview(change func(*model.Project) error) {
	if !s.open || s.turning {
		return
	}
	p := s.project.Clone()
	if change(&p) == nil {
		s.plan(p, false)
	}
}

// Enter takes what the maker typed into a field. Text that cannot be taken is
// kept as a draft with the reason, and the plan goes on with the last good
// value.
func (s *Session) Enter(field, text string) {
	if model.ShelfPath(field) {
		s.EnterShelf(field, text)
		return
	}
	label := Label(&s.project, field)
	s.tell(label, s.Edit(label, "field "+field, func(p *model.Project) error { return enter(p, field, text) }))
}

// Nudge moves the value of a field one small step up or down, from where the
// last edit left it: steps that come faster than their plans are shown all
// count.
func (s *Session) Nudge(field string, up bool) {
	if model.ShelfPath(field) {
		label := model.ShelfLabel(&s.shelf.now, field)
		s.tell(label, s.EditShelf(label, "field "+field, func(m *model.Shelf) error { return nudge(m, field, up) }))
		return
	}
	label := Label(&s.project, field)
	s.tell(label, s.Edit(label, "field "+field, func(p *model.Project) error { return nudge(p, field, up) }))
}

// nudge moves the value of a field of a document one small step.
func nudge(d model.Document, field string, up bool) error {
	text, ok := model.Nudge(d, field, up)
	if !ok {
		return ErrSame
	}
	return enter(d, field, text)
}

// ErrSame ends an edit that would change nothing, of which nobody need be told.
var ErrSame = errors.New("nothing changes")

// enter puts text into a field, or keeps it as a draft.
func enter(p model.Document, field, text string) error {
	draft, drafted := p.DraftOf(field)
	before, _ := model.Show(p, field)
	if drafted && draft.Text == text || !drafted && before == text {
		return ErrSame
	}
	err := model.Enter(p, field, text)
	var problem *model.Problem
	if errors.As(err, &problem) {
		p.SetDraft(field, text, problem.Message)
		return nil
	}
	if after, _ := model.Show(p, field); err == nil && !drafted && after == before {
		return ErrSame
	}
	return err
}

// SetStyle writes the project's quantities in other units from now on. No
// value changes.
func (s *Session) SetStyle(style unit.Style) {
	s.tell("Units", s.Edit("Units", "units", func(p *model.Project) error {
		if p.Style == style {
			return ErrSame
		}
		p.Style = style
		return nil
	}))
	if s.shelf.now.Serial > 0 {
		s.tell("Units", s.EditShelf("Units", "units", func(m *model.Shelf) error {
			if m.Style == style {
				return ErrSame
			}
			m.Style = style
			return nil
		}))
	}
}

// SetInstrument says what the length in a field was measured with.
func (s *Session) SetInstrument(field string, by unit.Instrument) {
	if model.ShelfPath(field) {
		label := "Instrument for " + model.ShelfLabel(&s.shelf.now, field)
		s.tell(label, s.EditShelf(label, "", func(m *model.Shelf) error { return model.Measure(m, field, by) }))
		return
	}
	label := "Instrument for " + Label(&s.project, field)
	s.tell(label, s.Edit(label, "", func(p *model.Project) error { return model.Measure(p, field, by) }))
}

// SetAccuracy changes how far off a reading with an instrument may be.
func (s *Session) SetAccuracy(by unit.Instrument, text string) error {
	return s.Edit("Accuracy of the "+string(by), "accuracy "+string(by), func(p *model.Project) error {
		return model.SetAccuracy(p, by, text)
	})
}
