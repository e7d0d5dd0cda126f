package views

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

func (b *bench) notebook() *notebookPage { return b.desk.pages[notebookKey].(*notebookPage) }

func TestNotebookTellsWhatStands(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	p := b.notebook()
	b.desk.windows.Window(notebookKey).Resize(fyne.NewSize(1180, 700))
	for _, want := range []string{
		"320 mm across flats, 40 mm deep", "2 layers, 28 mm to the fill line", "nothing poured yet",
		"Demo, invented.", "demo, invented", "touched just now", "together",
	} {
		if !shows(p.content(), want) {
			t.Errorf("no %q among %q", want, texts(p.content()))
		}
	}
	shot := b.Snapshot()
	l := shot.Plan.Layers[0]
	if want := shot.Project.Style.MassTo(l.Mix.A, l.Mix.Step); !shows(p.content(), want) {
		t.Errorf("part A of the first layer, %s, is not shown", want)
	}
	if got := headline(&shot, b.Now()); !strings.Contains(got, "next, pour "+l.Name) {
		t.Errorf("headline %q", got)
	}

	if err := b.StartPour(l.ID); err != nil {
		t.Fatal(err)
	}
	b.settle()
	shot = b.Snapshot()
	step, ok := shot.Plan.NextStep(b.Now())
	if !ok {
		t.Fatal("nothing is due after a pour")
	}
	var here shopClock
	for _, want := range []string{here.long(step.Due, b.Now()), "poured " + here.long(b.Now(), b.Now()), capitalised(step.Label)} {
		if !shows(p.content(), want) {
			t.Errorf("no %q", want)
		}
	}
	before := p.piece.next.when.Text()
	b.clock.advance(10 * time.Minute)
	p.tick(b.Now())
	if after := p.piece.next.when.Text(); after == before {
		t.Errorf("the time left stands still: %q", after)
	}
}

// The maker's machine may keep another zone than the shop: every time of a piece
// is the shop's. Kolkata is 5 h 30 min ahead of UTC all year (IANA database).
func TestNotebookTellsTheShopsTime(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	b.Enter("shop/zone", "Asia/Kolkata")
	b.settle()
	shot := b.Snapshot()
	if err := b.StartPour(shot.Plan.Layers[0].ID); err != nil {
		t.Fatal(err)
	}
	b.settle()
	shot = b.Snapshot()
	step, ok := shot.NextStep(b.Now())
	if !ok {
		t.Fatal("nothing is due after a pour")
	}
	ahead := time.FixedZone("", 5*3600+30*60)
	p := b.notebook()
	for _, want := range []string{"poured " + b.Now().In(ahead).Format("Monday 15:04"), ", " + step.Due.In(ahead).Format("Monday 15:04")} {
		if !shows(p.content(), want) {
			t.Errorf("no %q among %q", want, texts(p.content()))
		}
	}
	p.history.see(&shot, b.Now())
	if want := b.Now().In(ahead).Format("Monday 2 January 2006, 15:04"); !shows(p.history.root, want) {
		t.Errorf("no %q among %q", want, texts(p.history.root))
	}
}

func TestNotebookEditsTheProject(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.desk.newProject()
	b.settle()
	p := b.notebook()
	if f := b.desk.windows.Window(notebookKey).Canvas().Focused(); f == nil {
		t.Error("a new piece does not ask for its name")
	} else {
		for _, r := range "Tray" {
			f.TypedRune(r)
		}
	}
	b.settle()
	if got := b.Snapshot().Project.Name; got != "Tray" {
		t.Errorf("name %q", got)
	}
	style := unit.Style{Lengths: unit.InInches, Grain: unit.ThirtySecond}
	b.SetStyle(style)
	b.settle()
	if !p.units.grains[true].Visible() || p.units.grains[false].Visible() {
		t.Error("the graduations are not those of inches")
	}
	f := p.in.form.Field("instruments/feeler")
	if f.Text() != "0.05 mm" {
		t.Errorf("feeler gauge %q", f.Text())
	}
	f.OnCommit("0.02 mm")
	b.settle()
	shot := b.Snapshot()
	if got := shot.Project.HalfWidth(unit.Feeler).Millimetres(); got < 0.0199 || got > 0.0201 {
		t.Errorf("feeler gauge ±%v mm", got)
	}
	f.OnCommit("much")
	if shot := b.Snapshot(); shot.Project.HalfWidth(unit.Feeler) > 0.0001 || !shows(f, "much") {
		t.Error("nonsense was taken, or taken back in silence")
	}
}

func TestSearchAndArchive(t *testing.T) {
	b := newBench(t, newFakeStore())
	for _, name := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		b.clock.advance(time.Minute)
		b.demo(name)
	}
	l := b.notebook().list
	names := func() (list []string) {
		for _, id := range l.order {
			list = append(list, l.rows[id].name.Text())
		}
		return list
	}
	if got := names(); len(got) != 3 || !strings.HasPrefix(got[0], "Hall") || !strings.HasPrefix(got[2], "Poppy") {
		t.Fatalf("not last touched first: %q", got)
	}
	l.search.SetText("BREAK planned")
	if got := names(); len(got) != 1 || !strings.HasPrefix(got[0], "Five") {
		t.Errorf("found %q", got)
	}
	l.search.SetText("xyz")
	if got := names(); len(got) != 0 || !shows(l.root, "No piece has") {
		t.Errorf("found %q", got)
	}
	l.search.SetText("")
	l.search.SetText("poppy")
	b.clock.advance(time.Minute)
	b.desk.newProject()
	b.settle()
	if got := names(); len(got) != 4 || got[0] != "New piece" {
		t.Errorf("a new piece is not shown beside what was looked for: %q", got)
	}
	l.open(l.order[1])
	b.until("the shelf is open", func() bool { return strings.HasPrefix(b.Snapshot().Project.Name, "Hall") })
	b.Archive(true)
	b.settle()
	l.open(l.order[3])
	b.until("another is open", func() bool { return strings.HasPrefix(b.Snapshot().Project.Name, "Poppy") })
	if got := names(); len(got) != 3 {
		t.Errorf("the archived one is still in the list: %q", got)
	}
	l.archived.Tapped(nil)
	if got := names(); len(got) != 4 || !shows(l.root, "archived · ") {
		t.Errorf("the archived one cannot be found: %q", got)
	}
}

func TestHundredsOfProjects(t *testing.T) {
	store := newFakeStore()
	for i := range 300 {
		id := fmt.Sprintf("p%d", i)
		p := model.Blank(id, fmt.Sprintf("Piece %d", i))
		if _, err := store.Save(p, model.Card{ID: id, Name: p.Name, State: "planned"}, 0, false, "New", time.Time{}); err != nil {
			t.Fatal(err)
		}
	}
	b := newBench(t, store)
	l := b.notebook().list
	if len(l.order) != atOnce || len(l.rows) != atOnce || !shows(l.root, "260 pieces") {
		t.Errorf("%d rows at once", len(l.rows))
	}
	l.more.Tapped(nil)
	if len(l.order) != 2*atOnce {
		t.Errorf("%d rows after asking for more", len(l.order))
	}
	l.search.SetText("piece 299")
	if len(l.order) != 1 || len(l.rows) != 1 {
		t.Errorf("%d rows found", len(l.order))
	}
	l.search.OnEnter()
	b.until("the one found is open", func() bool { return b.Snapshot().Project.ID == "p299" })
}

func TestHistoryBringsBack(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.desk.newProject()
	b.settle()
	for _, name := range []string{"One", "Two"} {
		b.clock.advance(time.Minute)
		b.Enter("name", name)
		b.settle()
	}
	p := b.notebook()
	h := p.history
	p.turnTo(h.root)
	if len(h.rows) != 3 || h.rows[2].what.Text() != "New piece" || !h.restore.Disabled() {
		t.Fatalf("%d states", len(h.rows))
	}
	h.rows[1].row.Tapped(nil)
	if h.restore.Disabled() {
		t.Fatal("a chosen state cannot be brought back")
	}
	h.restore.Tapped(nil)
	b.until("the state is back", func() bool { return b.Snapshot().Project.Name == "One" })
	b.settle()
	if len(h.rows) != 4 || !strings.HasPrefix(h.rows[0].what.Text(), "As it was on") {
		t.Errorf("%d states, the newest %q", len(h.rows), h.rows[0].what.Text())
	}
}

func TestEmptyNotebook(t *testing.T) {
	b := newBench(t, newFakeStore())
	p := b.notebook()
	if !p.empty.Visible() || p.piece.root.Visible() || !shows(p.content(), "The notebook is empty.") {
		t.Error("no word on what to do")
	}
	b.desk.newProject()
	b.settle()
	if p.empty.Visible() || !p.piece.root.Visible() {
		t.Error("the new piece does not show")
	}
}

func TestRefusedFilesNameTheField(t *testing.T) {
	b := newBench(t, newFakeStore())
	bad := strings.Replace(string(b.desk.demos[0].File), `"serial"`, `"cereal"`, 1)
	b.desk.takeIn([]byte(bad), "shelf.json")
	p := b.notebook()
	for _, want := range []string{"“shelf.json” was not taken in", "cereal"} {
		if !shows(p.frame.banner.over, want) {
			t.Errorf("no %q in %q", want, texts(p.frame.banner.over))
		}
	}
	b.desk.hush()
	p.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI("/tmp/photo.jpg")})
	if !shows(p.frame.banner.over, "photo.jpg") {
		t.Error("another kind of file is passed over in silence")
	}
	b.desk.hush()
	if len(p.frame.banner.over.Objects) != 0 {
		t.Error("the notice does not go")
	}
}

func TestTroubleIsToldAndTriedAgain(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	b.store.mu.Lock()
	b.store.full = true
	b.store.mu.Unlock()
	b.Enter("name", "Stand")
	b.until("the trouble is known", func() bool { return b.Snapshot().Saved.What != "" })
	root := b.notebook().frame.banner.root
	if !shows(root, errFull.Error()) || !shows(root, "Try again") {
		t.Fatalf("banner %q", texts(root))
	}
	b.store.mu.Lock()
	b.store.full = false
	b.store.mu.Unlock()
	b.Retry()
	b.until("it is kept", func() bool { return b.Snapshot().Saved.What == "" })
	if len(root.Objects) != 0 {
		t.Error("the trouble does not go")
	}
	if b.store.cards[0].Name != "Stand" {
		t.Error("it was not kept")
	}
}

func TestReadOnlyIsTold(t *testing.T) {
	store := newFakeStore()
	store.locked = true
	b := newBench(t, store)
	if !shows(b.notebook().frame.banner.root, "can only be read") {
		t.Error("nothing says that the notebook can only be read")
	}
}

func TestUndoNamesItsStep(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	b.Enter("mold/depth", "45 mm")
	b.settle()
	if got := b.notebook().frame.undo.Label; got != "Undo: mold depth" {
		t.Errorf("undo says %q", got)
	}
}

func TestNothingOverlapsInTheNotebook(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("hall-shelf")
	b.Enter("name", strings.Repeat("A long name ", 20))
	b.settle()
	w := b.desk.windows.Window(notebookKey)
	w.Resize(fyne.NewSize(1180, 700))
	p := b.notebook()
	if least := p.content().MinSize(); least.Width > 1180 || least.Height > 660 {
		t.Errorf("the notebook is %v at least", least)
	}
	for _, page := range []fyne.CanvasObject{p.list.root, p.piece.root, p.units.root, p.history.root} {
		p.turnTo(page)
		w.Resize(fyne.NewSize(1181, 700)) // as the desktop does, once lines have been broken
		w.Resize(fyne.NewSize(1180, 700))
		type placed struct {
			text     string
			from, to fyne.Position
		}
		var all []placed
		for _, o := range test.LaidOutObjects(page) {
			var x placed
			switch o := o.(type) {
			case *touch.Text:
				x.text = o.Text()
			case *touch.Brief:
				x.text = o.Text()
			}
			if x.text == "" || o.Size().Width <= 0 || x.text == "Touch a value to enter it" { // the bar of the keypad, over what is scrolled
				continue
			}
			if least := o.MinSize(); o.Size().Height < least.Height-0.5 || o.Size().Width < least.Width-0.5 {
				t.Errorf("%q has %v, needs %v", x.text, o.Size(), least)
			}
			x.from = fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
			x.to = x.from.Add(o.Size())
			all = append(all, x)
		}
		for i, x := range all {
			for _, y := range all[:i] {
				if x.from.X+1 < y.to.X && y.from.X+1 < x.to.X && x.from.Y+1 < y.to.Y && y.from.Y+1 < x.to.Y {
					t.Errorf("%q lies over %q", x.text, y.text)
				}
			}
		}
		if len(all) < 3 && page != p.history.root {
			t.Errorf("only %d texts", len(all))
		}
	}
}

func TestWindowsReopenAsTheyWereLeft(t *testing.T) {
	store := newFakeStore()
	b := newBench(t, store)
	b.demo("poppy-stand")
	b.desk.Show(moldKey)
	b.desk.Show(cureKey).Resize(fyne.NewSize(901, 602))
	b.desk.Show(layersKey)
	b.desk.windows.Close(layersKey)
	b.desk.windows.Close(notebookKey)
	b.end()

	c := newBench(t, store)
	c.settle()
	for key, open := range map[string]bool{moldKey: true, cureKey: true, layersKey: false, mixingKey: false} {
		if _, is := c.desk.pages[key]; is != open {
			t.Errorf("%s open: %v", key, is)
		}
	}
	if got := c.desk.windows.Window(cureKey).Canvas().Size(); got != fyne.NewSize(901, 602) {
		t.Errorf("size %v", got)
	}
	if got := c.Snapshot().Project.Name; !strings.HasPrefix(got, "Poppy") {
		t.Errorf("open project %q", got)
	}
}

func TestTypedTextIsKeptOnLeaving(t *testing.T) {
	store := newFakeStore()
	b := newBench(t, store)
	b.demo("poppy-stand")
	b.notebook().in.form.Focus("name")
	for _, r := range "Stand for the porch" {
		b.desk.windows.Window(notebookKey).Canvas().Focused().TypedRune(r)
	}
	b.desk.Leave()
	b.end()
	if got := store.cards[0].Name; got != "Stand for the porch" {
		t.Errorf("kept %q", got)
	}
}

func TestStepsThatCameDueAreTold(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	if err := b.StartPour(b.Snapshot().Plan.Layers[0].ID); err != nil {
		t.Fatal(err)
	}
	rested(b)
	b.desk.keepWatch(b.Now())
	b.clock.advance(26 * time.Hour)
	shot := b.Snapshot()
	missed := shot.Plan.Missed(b.Now())
	if len(missed) == 0 {
		t.Fatal("no step comes due in a day")
	}
	b.desk.keepWatch(b.Now())
	root := b.notebook().frame.banner.over
	if !shows(root, "while you were away (26 h)") || !shows(root, missed[0].Label) {
		t.Errorf("banner %q", texts(root))
	}
	b.desk.hush()
	b.clock.advance(time.Second)
	b.desk.keepWatch(b.Now())
	if len(root.Objects) != 0 {
		t.Error("it is told twice")
	}
}

func TestTimesInWords(t *testing.T) {
	var shop shopClock
	shop.set("UTC")
	now := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		at          time.Time
		clock, left string
	}{
		{now.Add(90 * time.Minute), "Wednesday 10:30", "in 1 h 30 min"},
		{now.Add(-5 * time.Minute), "Wednesday 08:55", "5 min ago"},
		{now, "Wednesday 09:00", "now"},
		{now.Add(200 * time.Hour), "Thursday 3 December, 17:00", "in 8.3 d"},
		{now.Add(100 * 24 * time.Hour), "Friday 5 March 2027, 09:00", "in 100 d"},
		{now.Add(-250 * 24 * time.Hour), "Friday 20 March 2026, 09:00", "250 d ago"}, // half a year or more: with its year
	} {
		if got := shop.long(c.at, now); got != c.clock {
			t.Errorf("clock %q, want %q", got, c.clock)
		}
		if got := howLong(c.at, now, unit.Style{}); got != c.left {
			t.Errorf("time left %q, want %q", got, c.left)
		}
	}
	week, long := now.Add(200*time.Hour), now.Add(-250*24*time.Hour)
	for _, c := range [][2]string{
		{shop.soon(now, now.Add(time.Hour)), "10:00"}, {shop.soon(now, now.Add(24*time.Hour)), "Thu 09:00"}, {shop.soon(now, week), "Thu 3 Dec, 17:00"},
		{shop.happened(week, now), "Thu 3 Dec, 17:00 UTC"}, {shop.happened(long, now), "Fri 20 Mar 2026, 09:00 UTC"},
	} {
		if c[0] != c[1] {
			t.Errorf("%q, want %q", c[0], c[1])
		}
	}
	if got := touched(time.Date(2026, 11, 3, 9, 59, 58, 0, time.UTC), time.Date(2026, 11, 3, 10, 0, 1, 0, time.UTC)); got != "just now" {
		t.Errorf("three seconds, in which the minute turned: %q", got)
	}
	if got := touched(now.Add(-5*time.Minute), now); got != "5 minutes ago" {
		t.Errorf("touched %q", got)
	}
}

func TestFileNames(t *testing.T) {
	for _, c := range [][2]string{
		{"Poppy stand", "Poppy stand.json"},
		{"a/b\\c:d", "a-b-c-d.json"},
		{"../../etc", "-..-etc.json"},
		{" ", "piece.json"},
		{"Über 3/4", "Über 3-4.json"},
	} {
		if got := fileName(c[0], ".json"); got != c[1] {
			t.Errorf("%q gives %q, want %q", c[0], got, c[1])
		}
	}
}
