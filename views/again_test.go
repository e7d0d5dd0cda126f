package views

import (
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/views/touch"
)

// againOn opens a demo job of the maker's own and shows the page on which it is
// made again.
func againOn(t *testing.T, name string) (*bench, *againPage) {
	t.Helper()
	b := newBench(t, newFakeStore())
	b.demo(name)
	if err := b.Edit("Mine", "", func(p *model.Project) error { p.Demo = false; return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	b.desk.windows.Window(notebookKey).Resize(fyne.NewSize(1366, 768))
	b.desk.showAgain(againOnce)
	return b, b.notebook().again
}

func (p *againPage) making() *againMake { return p.parts[againOnce].(*againMake) }

// worked waits for the page of changes.
func (b *bench) worked(m *againMake) {
	b.t.Helper()
	b.until("the changes are worked out", func() bool { return m.got != nil })
}

// did goes on a minute after something that must have worked.
func (b *bench) did(err error) {
	b.t.Helper()
	if err != nil {
		b.t.Fatal(err)
	}
	b.clock.advance(time.Minute)
	b.settle()
}

// firstRun weighs and pours one layer, and waits until the page has read it.
func (b *bench) firstRun(l *againLessons) {
	b.t.Helper()
	b.did(b.AddWeighed("l3", model.EntryWeighedA, "455.3 g", false))
	b.did(b.AddWeighed("l3", model.EntryWeighedB, "660.2 g", false))
	b.did(b.StartPour("l3"))
	b.did(b.AddEmptied("l3", "30 g", ""))
	b.until("a run is read", func() bool { return len(l.lessons.Points) == 1 })
}

// The changes follow what is chosen, and nothing is kept before it is taken.
func TestAgainShowsTheChangesBesideTheChoices(t *testing.T) {
	b, p := againOn(t, "poppy-stand")
	m := p.making()
	b.worked(m)
	if !shows(p.root, "All figures stay as they were") {
		t.Errorf("the same piece once more is not said: %q", texts(p.root))
	}
	m.pick.OnChange(castSizes)
	m.next.Mold.Name = "small hexagon"
	m.wood = model.ScaleWood
	p.in.form.Field("mold/span").OnCommit("260 mm")
	if m.got != nil || !m.take.Disabled() {
		t.Error("it can be made before its changes are there")
	}
	b.worked(m)
	// 260 mm over 320 mm, squared, is 0.660.
	for _, want := range []string{"copper washers 14 → 9", "× 0.660", "small hexagon", "shop-built hexagon"} {
		if !shows(m.sheet.scroll, want) {
			t.Errorf("no %q among %q", want, texts(m.sheet.scroll))
		}
	}
	if n := len(b.Snapshot().Cards); n != 1 {
		t.Fatalf("%d pieces are kept before one is made", n)
	}
	m.take.Tapped(nil)
	b.until("the new piece is open", func() bool { return b.Snapshot().Project.Made.Project != "" })
	b.settle()
	shot := b.Snapshot()
	if text, _ := model.Show(&shot.Project, "mold/span"); text != "260 mm" || len(shot.Cards) != 2 || shot.Project.Made.Project == "" {
		t.Errorf("it made a mold %s across, %d pieces, from %+v", text, len(shot.Cards), shot.Project.Made)
	}
	if !b.notebook().piece.root.Visible() {
		t.Error("the new piece is not shown")
	}
}

// What is no longer allowed stands above everything else, and what cannot be
// read is said at its field and keeps it from being made.
func TestAgainSaysWhatIsRefusedFirst(t *testing.T) {
	b, p := againOn(t, "poppy-stand")
	m := p.making()
	m.pick.OnChange(castSizes)
	depth := p.in.form.Field("mold/depth")
	depth.OnCommit("20 mm")
	b.worked(m)
	at := func(words string) int {
		for i, text := range texts(m.sheet.scroll) {
			if strings.Contains(text, words) {
				return i
			}
		}
		return -1
	}
	stop, changes := at("above the rim"), at("40 mm")
	if stop < 0 || changes < stop {
		t.Errorf("the stop stands at %d, the depth at %d of %q", stop, changes, texts(m.sheet.scroll))
	}
	depth.OnCommit("deep")
	if m.got != nil || !m.take.Disabled() || !shows(depth, "length") && !shows(depth, "mm") {
		t.Errorf("nonsense was taken: %q", texts(depth))
	}
	m.pick.OnChange(castOwn) // then it does not matter
	b.worked(m)

	// A finished thickness that is not said yet is asked for; one that is, is met.
	m.levels = model.ToFinished
	m.changed()
	if m.got != nil || !shows(m.sheet.scroll, "how thick the finished piece") {
		t.Error("a thickness is not asked for")
	}
	m.finish.OnCommit("20 mm")
	b.worked(m)
	if !shows(m.sheet.scroll, "20 mm") {
		t.Errorf("it is not 20 mm thick: %q", texts(m.sheet.scroll))
	}
}

// What was said while the page was worked out leaves no empty line above it.
func TestAgainLeavesNoGap(t *testing.T) {
	b, p := againOn(t, "breakfast-boards")
	b.desk.windows.Window(notebookKey).Resize(fyne.NewSize(1920, 1080)) // so that all of it has room
	m := p.making()
	b.worked(m)
	at := m.sheet.box.Position()
	m.sheet.wait()
	if m.sheet.box.Position() == at {
		t.Fatal("what is said has no room")
	}
	m.sheet.show(&m.got.Page)
	if got := m.sheet.box.Position(); got != at {
		t.Errorf("the page stands at %v, it stood at %v", got, at)
	}
}

// The mold of another piece, another lot and another season go into the piece.
func TestAgainTakesFromElsewhere(t *testing.T) {
	b, p := againOn(t, "breakfast-boards")
	b.demo("poppy-stand")
	m := p.making()
	if !p.root.Visible() {
		t.Fatal("another piece from the list leaves the page")
	}
	b.worked(m)
	m.pick.OnChange(castPiece)
	if m.got != nil || !shows(m.sheet.scroll, "Choose the piece whose mold") {
		t.Error("the other piece is not asked for")
	}
	boards := ""
	for _, c := range b.Snapshot().Cards {
		if c.ID != b.Snapshot().Project.ID {
			boards = c.ID
		}
	}
	m.finder.pick.SetSelected(boards)
	m.finder.pick.OnChange(boards)
	m.resins[0].take("B-20")
	m.season = true
	p.in.form.Field("shop/room").OnCommit("27 °C")
	b.worked(m)
	b.until("the mold is read", func() bool { return m.next.Mold.Name == "gang mold" })
	b.worked(m)
	q := m.got.Project
	if q.Mold.Name != "gang mold" || q.Layers[0].Lot != "B-20" || q.Shop.Room.Written != "27 °C" {
		t.Errorf("it is cast in %q from lot %q at %q", q.Mold.Name, q.Layers[0].Lot, q.Shop.Room.Written)
	}
	p.tabs.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if p.root.Visible() || !b.notebook().piece.root.Visible() {
		t.Error("Escape does not leave")
	}
}

// The lots of a resin on the shelf are there to be touched, and another resin of
// the shelf takes the place of the one before, with no lot until one is said.
func TestAgainResinsOfTheShelf(t *testing.T) {
	b, p := againOn(t, "breakfast-boards")
	other := b.Snapshot().Project.Sheets[0]
	if err := b.KeepProduct(other.ID); err != nil {
		t.Fatal(err)
	}
	b.settle()
	b.demo("poppy-stand")
	if err := b.KeepProduct(b.Snapshot().Project.Sheets[0].ID); err != nil {
		t.Fatal(err)
	}
	b.settle()
	err := b.EditShelf("Bottles", "", func(m *model.Shelf) error {
		for i := range m.Products {
			x := &m.Products[i]
			id := m.AddBottle(x.ID, model.PartA, "2026-11-01")
			x.Bottles[slices.IndexFunc(x.Bottles, func(b model.Bottle) bool { return b.ID == id })].Lot = "lot of " + x.Sheet.Name
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	b.settle()
	m := p.making()
	shot := b.Snapshot()
	r := m.resins[0]
	r.offer(&shot)
	if len(r.lots.Objects) != 1 {
		t.Fatalf("%d lots are offered", len(r.lots.Objects))
	}
	r.lots.Objects[0].(*touch.Button).Tapped(nil)
	b.worked(m)
	if got, want := m.got.Project.Layers[0].Lot, "lot of "+r.was.Name; got != want || r.field.Text() != want {
		t.Errorf("it is poured from %q, shown %q", got, r.field.Text())
	}
	shelf := b.Snapshot().Shelf
	for _, x := range shelf.Products {
		if x.ID != r.was.Product {
			r.pick.OnChange(x.ID)
		}
	}
	b.worked(m)
	q := m.got.Project
	if q.Sheets[0].Name != other.Name || q.Sheets[0].ID != r.was.ID || q.Layers[0].Lot != "" {
		t.Errorf("it is poured with %q from lot %q", q.Sheets[0].Name, q.Layers[0].Lot)
	}
}

// Escape in a field takes back what is typed, and with nothing to take back it
// leaves.
func TestAgainEscapeInAField(t *testing.T) {
	b, p := againOn(t, "poppy-stand")
	b.worked(p.making())
	p.in.form.Focus("name")
	focused := b.desk.windows.Window(notebookKey).Canvas().Focused()
	focused.TypedRune('x')
	focused.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if text, pending := p.in.form.Input("name").Pending(); text != "" || pending || !p.root.Visible() {
		t.Errorf("after Escape it says %q, shown %v", text, p.root.Visible())
	}
	focused.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if p.root.Visible() {
		t.Error("it does not leave")
	}
}

// Escape leaves from whatever has the focus in each part, in a scroller too.
func TestAgainEscapeFromEverywhere(t *testing.T) {
	b, p := againOn(t, "poppy-stand")
	b.worked(p.making())
	p.turn(againShop)
	b.firstRun(p.parts[againShop].(*againLessons))
	c := b.desk.windows.Window(notebookKey).Canvas()
	for part := range p.parts {
		b.desk.showAgain(part)
		b.settle()
		var all []fyne.Focusable
		for c.Unfocus(); ; {
			if c.FocusNext(); c.Focused() == nil || slices.Contains(all, c.Focused()) {
				break
			}
			all = append(all, c.Focused())
		}
		if len(all) < 8 {
			t.Fatalf("%s: only %d can have the focus", part, len(all))
		}
		for _, w := range all {
			b.desk.showAgain(part)
			c.Focus(w)
			w.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			if p.root.Visible() {
				t.Errorf("%s: Escape does not leave from %T %q", part, w, texts(w.(fyne.CanvasObject)))
			}
		}
	}
}

// A name that is half typed stays while the piece changes in another window, and
// Escape leaves from the line that pieces are looked for by.
func TestAgainKeepsWhatIsHalfTyped(t *testing.T) {
	b, p := againOn(t, "poppy-stand")
	m := p.making()
	b.worked(m)
	p.in.form.Focus("name")
	b.desk.windows.Window(notebookKey).Canvas().Focused().TypedRune('x')
	b.Enter("shop/room", "19 °C")
	b.settle()
	b.worked(m)
	if got := p.in.form.Input("name").(*touch.TextField).Text(); got != "x" || m.how().Name != "x" {
		t.Errorf("of the name %q is left, and it is called %q", got, m.how().Name)
	}
	p.turn(againCompare)
	p.parts[againCompare].(*againBeside).finder.search.Focus()
	line := b.desk.windows.Window(notebookKey).Canvas().Focused()
	line.TypedRune('y')
	line.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if !p.root.Visible() {
		t.Fatal("it leaves before the line is empty")
	}
	line.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if p.root.Visible() {
		t.Error("it does not leave")
	}
}

// A run is shown against its plan with what is entered after it, and a slip is
// said at its field.
func TestAgainPlannedAgainstActual(t *testing.T) {
	b, p := againOn(t, "poppy-stand")
	p.turn(againRun)
	r := p.parts[againRun].(*againRan)
	if !shows(r.root, "Nothing has been poured yet") {
		t.Errorf("it says %q", texts(r.root))
	}
	b.did(b.AddWeighed("l3", model.EntryWeighedA, "455.3 g", false))
	b.did(b.AddWeighed("l3", model.EntryWeighedB, "660.2 g", false))
	b.did(b.StartPour("l3"))
	if r.layer != "l3" {
		t.Errorf("the pour is %q", r.layer)
	}
	r.inputs["emptied"].SetText("700 g")
	r.acts[0].Tapped(nil)
	if !shows(r.inputs["emptied"], "more than went in") {
		t.Errorf("the slip is not said: %q", texts(r.inputs["emptied"]))
	}
	r.inputs["emptied"].SetText("20 g")
	r.acts[0].Tapped(nil)
	r.inputs["thick"].SetText("25.2 mm")
	r.acts[2].Tapped(nil)
	b.settle()
	if got := kinds(b); !strings.HasSuffix(got, "emptied, measured") {
		t.Errorf("the journal holds %s", got)
	}
	run := b.Ran()
	for _, x := range run.Rows {
		if !shows(r.scroll, x.Label) || !shows(r.scroll, x.Actual) {
			t.Errorf("no %s, %s among %q", x.Label, x.Actual, texts(r.scroll))
		}
	}
	if r.inputs["emptied"].Text() != "" {
		t.Error("what was noted stays in the field")
	}
}

// Two runs are listed by what differs, and what all of them say is offered and
// not taken by itself.
func TestAgainBesideAndLessons(t *testing.T) {
	b, p := againOn(t, "poppy-stand")
	p.turn(againShop)
	l := p.parts[againShop].(*againLessons)
	b.until("the runs are read", func() bool { return shows(l.root, "No run says anything yet") })
	if !l.take.Disabled() {
		t.Error("nothing can be taken")
	}
	b.firstRun(l)
	if !shows(l.root, "Poppy stand (demo), smoke-grey base") || !shows(l.root, "660 g") && !shows(l.root, "660.2 g") {
		t.Errorf("the pour is not listed: %q", texts(l.root))
	}
	if shot := b.Snapshot(); !shows(l.root, l.lessons.Film.Words) || shot.Project.Mixing.CupFilm.Given() {
		t.Errorf("it says %q", texts(l.root))
	}
	l.take.Tapped(nil)
	b.settle()
	if got := b.Snapshot().Project.Mixing.CupFilm.Value; got != l.lessons.Film.Value {
		t.Errorf("the film is %v", got)
	}

	first := b.Snapshot().Project.ID
	p.turn(againCompare)
	x := p.parts[againCompare].(*againBeside)
	if !shows(x.root, "Choose another piece at the left") {
		t.Errorf("it says %q", texts(x.root))
	}
	b.Session.Copy()
	b.until("the copy is open", func() bool { return b.Snapshot().Project.ID != first })
	b.Enter("mold/depth", "45 mm")
	b.settle()
	x.other = first
	x.ask()
	b.until("the two are compared", func() bool { return shows(x.scroll, "45 mm") })
	if !shows(x.scroll, "40 mm") || !shows(x.scroll, "Mold depth") {
		t.Errorf("it lists %q", texts(x.scroll))
	}
}

// The sum of the columns of each table is the whole width.
func TestAgainColumns(t *testing.T) {
	for name, shares := range map[string]againColumns{"changes": changesShares, "words": wordShares, "run": ranShares, "beside": besideShares, "pours": pourShares} {
		sum := float32(0)
		for _, s := range shares {
			sum += s
		}
		if sum < 0.9999 || sum > 1.0001 {
			t.Errorf("the columns of %s take %v of the width", name, sum)
		}
	}
	var _ fyne.Layout = changesShares
	if toneOf(touch.Stop) == toneOf(touch.Check) {
		t.Error("a stop looks like a check")
	}
}

// TestLessonsForNewPieces: new pieces begin with the maker's own losses once that
// is asked for, Mixing says in each whose figures they are, and the other button
// ends that; each is there only while it can do something.
func TestLessonsForNewPieces(t *testing.T) {
	b, p := againOn(t, "poppy-stand")
	p.turn(againShop)
	l := p.parts[againShop].(*againLessons)
	b.until("the runs are read", func() bool { return shows(l.root, "No run says anything yet") })
	if l.keep.Visible() || l.usual.Visible() {
		t.Error("with no run there is nothing to begin with, and nothing to end")
	}
	b.firstRun(l)
	if !l.keep.Visible() || l.usual.Visible() {
		t.Fatalf("with a run: keep %t, usual %t", l.keep.Visible(), l.usual.Visible())
	}
	moldLegible(t, "lessons to keep", l.root)
	tapOn(t, l.root, "Begin new pieces with these")
	b.until("they are kept", func() bool { return !l.keep.Visible() && l.usual.Visible() })
	if own := b.Snapshot().Shelf.Losses; own != l.lessons.Losses() || !shows(l.root, "as they were kept, by 1 run") {
		t.Errorf("kept: %+v; it says %q", own, texts(l.root))
	}
	moldLegible(t, "lessons kept", l.root)

	first := b.Snapshot().Project.ID
	b.Session.Create("Next")
	b.until("the new piece has them", func() bool {
		shot := b.Snapshot()
		return shot.Project.ID != first && shot.Project.Mixing.CupFilm.Given()
	})
	b.did(b.Edit("A pour", "", func(p *model.Project) error {
		p.Layers = []model.Layer{{ID: p.NewID("l"), Name: "base", Sheet: p.Sheets[0].ID}}
		return nil
	}))
	b.desk.Show(mixingKey)
	mixing := b.desk.pages[mixingKey].(*mixingPage)
	mixing.tabs.turn("amount")
	b.settle()
	if root := mixing.frame.root; !shows(root, "your own, by 1 run") {
		t.Errorf("Mixing does not say whose losses they are: %q", texts(root))
	}

	b.Session.Open(first)
	b.until("the piece is open again", func() bool { return b.Snapshot().Project.ID == first && l.usual.Visible() })
	tapOn(t, l.root, "Begin new pieces as usual again")
	b.until("they are kept no more", func() bool { return l.keep.Visible() && !l.usual.Visible() })
	if own := b.Snapshot().Shelf.Losses; own.Given() {
		t.Error("the shelf still has them")
	}
}
