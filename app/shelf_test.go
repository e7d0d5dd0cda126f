package app

import (
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
)

func (f *failing) SaveShelf(m model.Shelf, amend bool, label string, at time.Time) (model.Revision, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.full {
		return model.Revision{}, errors.New("no room")
	}
	return f.Store.SaveShelf(m, amend, label, at)
}

// shelved is a session with a project that pours from the shelf, which has a
// bottle of 1,000 g of A and one of 500 g of B. It gives the layer.
func shelved(t *testing.T, b *bench) (layer string) {
	t.Helper()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		b.settle()
	}
	must(b.Edit("Add a layer", "", func(p *model.Project) error {
		p.AddSheet()
		layer = p.AddLayer()
		p.Layers[0].Lot = "A7"
		return nil
	}))
	must(b.KeepProduct(b.project.Sheets[0].ID))
	product := b.project.Sheets[0].Product
	for _, part := range []model.PartName{model.PartA, model.PartB} {
		must(b.EditShelf("Add a bottle", "", func(m *model.Shelf) error {
			x := m.Product(product).Bottle(m.AddBottle(product, part, b.today()))
			x.Lot, x.Tare = "A7", unit.Taken[unit.Mass]{Value: 50 * unit.Gram, Written: "50 g"}
			return nil
		}))
	}
	bottles := b.Snapshot().Shelf.Products[0].Bottles
	must(b.WeighBottle(product, bottles[0].ID, "1050"))
	must(b.WeighBottle(product, bottles[1].ID, "550 g"))
	b.Enter("mixing/cup", "40 g")
	b.settle()
	b.clock.advance(time.Minute)
	return layer
}

// leftA is what the shelf says is left of A, in grams.
func (b *bench) leftA() float64 {
	b.t.Helper()
	shot := b.Snapshot()
	if len(shot.ShelfPlan.Products) == 0 {
		b.t.Fatal("nothing is on the shelf")
	}
	return math.Round(shot.ShelfPlan.Products[0].A.Grams()*1e6) / 1e6
}

// TestShelfFollowsTheScale: each act at the scale, and whatever becomes of it
// afterwards, comes off the shelf exactly once.
func TestShelfFollowsTheScale(t *testing.T) {
	b := started(t)
	layer := shelved(t, b)
	left := func(what string, want float64) {
		t.Helper()
		b.settle()
		if got := b.leftA(); got != want {
			t.Errorf("%s: %v g of A left, want %v g", what, got, want)
		}
		// The same is found on the disk.
		if m, _, _, err := b.store.LoadShelf(); err != nil {
			t.Error(err)
		} else if got := model.PlanShelf(&m, b.today()).Products[0].A.Grams(); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: %v g on the disk", what, got)
		}
	}
	left("at first", 1000)
	weigh := func(kind model.EntryKind, gross string, afresh bool) {
		t.Helper()
		b.clock.advance(time.Minute)
		if err := b.AddWeighed(layer, kind, gross, afresh); err != nil {
			t.Fatal(err)
		}
	}
	weigh(model.EntryWeighedA, "290 g", false)
	left("250 g of A", 750)
	weigh(model.EntryWeighedA, "300 g", false)
	left("and 10 g", 740)
	weigh(model.EntryWeighedB, "400 g", false)
	left("B takes none of it", 740)
	b.clock.advance(time.Minute)
	first := b.project.Journal[0].ID
	if err := b.Correct(first, func(e *model.Entry) { e.Gross.Value = 280 * unit.Gram }); err != nil {
		t.Fatal(err)
	}
	left("the first reading was 280 g: the second then shows 20 g more", 740)
	second := b.project.Journal[1].ID
	b.clock.advance(time.Minute)
	for _, e := range b.project.Journal {
		if e.Kind == model.EntryWeighedA && e.Gross.Value == 300*unit.Gram {
			second = e.ID
		}
	}
	if err := b.Withdraw(second); err != nil {
		t.Fatal(err)
	}
	left("which is taken back", 760)
	weigh(model.EntryWeighedA, "140 g", true)
	left("another cup", 660)
	b.Undo()
	left("undo takes nothing of it back", 660)
	b.Redo()
	left("nor does redo", 660)
	if err := b.Edit("Lot", "", func(p *model.Project) error { p.Layers[0].Lot = "nowhere"; return nil }); err != nil {
		t.Fatal(err)
	}
	left("of another lot", 1000)
	b.settle()
	shot := b.Snapshot()
	found := false
	for _, f := range shot.Findings(model.OfShelf) {
		found = found || f.Kind == "shelf.missing"
	}
	if !found {
		t.Error("nobody says that no bottle covers it")
	}
	b.Undo()
	left("and back", 660)

	// The same project from a file, beside it: what both tell of was taken once.
	data, err := b.Export()
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Import(data); err != nil {
		t.Fatal(err)
	}
	left("brought in once more", 660)
	weigh(model.EntryWeighedA, "60 g", true)
	left("20 g for the copy", 640)
	if len(b.Snapshot().Shelf.Uses) != 2 {
		t.Errorf("%+v", b.Snapshot().Shelf.Uses)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	c := newBench(t, b.path, nil)
	if got := c.leftA(); got != 640 {
		t.Errorf("after a restart, before anything is open: %v g", got)
	}
	c.Reopen()
	c.settle()
	if got := c.leftA(); got != 640 {
		t.Errorf("after a restart: %v g", got)
	}
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
}

// TestShelfHasItsOwnUndo: steps of the shelf and of the project do not touch each
// other, and keys in a row are one step.
func TestShelfHasItsOwnUndo(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	if shot := b.Snapshot(); shot.ShelfUndo != "" || shot.ShelfRedo != "" {
		t.Errorf("at first: %q, %q", shot.ShelfUndo, shot.ShelfRedo)
	}
	if err := b.EditShelf("Add a tint", "", func(m *model.Shelf) error { m.AddTint(); return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	at := "shelf/tints/" + b.Snapshot().Shelf.Tints[0].ID + "/name"
	for _, text := range []string{"s", "sm", "smoke"} {
		b.enter(at, text)
	}
	shown := func(what, name, undo, redo string) {
		t.Helper()
		b.settle()
		shot := b.Snapshot()
		if got, _ := shot.Show(at); got != name || shot.ShelfUndo != undo || shot.ShelfRedo != redo {
			t.Errorf("%s: %q, undo %q, redo %q", what, got, shot.ShelfUndo, shot.ShelfRedo)
		}
		if shot.Undo != "Mold depth" || b.text("mold/depth") != "30 mm" {
			t.Errorf("%s: the project: undo %q", what, shot.Undo)
		}
	}
	shown("typed", "smoke", "Name of a tint", "")
	b.UndoShelf()
	shown("undone", "tint 1", "Add a tint", "Name of a tint")
	b.RedoShelf()
	shown("redone", "smoke", "Name of a tint", "")
	b.clock.advance(time.Minute)
	b.enter(at, "coal")
	shown("typed anew", "coal", "Name of a tint", "")
	b.UndoShelf()
	b.UndoShelf()
	shown("undone twice", "tint 1", "Add a tint", "Name of a tint")
	// Without waiting for the disk.
	b.Enter(at, "sea")
	b.UndoShelf()
	b.Enter(at, "sky")
	shown("between turns", "sky", "Name of a tint", "")
	for range 5 {
		b.UndoShelf()
	}
	b.settle()
	if shot := b.Snapshot(); len(shot.Shelf.Tints) != 0 || shot.ShelfUndo != "" {
		t.Errorf("to the end: %+v, undo %q", shot.Shelf.Tints, shot.ShelfUndo)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	c := newBench(t, b.path, nil)
	if shot := c.Snapshot(); len(shot.Shelf.Tints) != 0 || shot.ShelfRedo != "Add a tint" {
		t.Errorf("after a restart: %+v, redo %q", shot.Shelf.Tints, shot.ShelfRedo)
	}
	for range 5 {
		c.RedoShelf()
	}
	c.settle()
	if shot := c.Snapshot(); shot.Shelf.Tints[0].Name != "sky" {
		t.Errorf("redone after a restart: %+v", shot.Shelf.Tints)
	}
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
}

// TestShelfDrafts: text that cannot be taken stays, with the reason.
func TestShelfDrafts(t *testing.T) {
	b := started(t)
	layer := shelved(t, b)
	_ = layer
	at := "shelf/products/" + b.Snapshot().Shelf.Products[0].ID + "/bottles/" + b.Snapshot().Shelf.Products[0].Bottles[0].ID
	b.enter(at+"/opened", "3/4/2026")
	shot := b.Snapshot()
	if text, reason, bad := shot.Problem(at + "/opened"); !bad || text != "3/4/2026" || reason == "" {
		t.Errorf("%q %q %t", text, reason, bad)
	}
	var p *model.Problem
	if err := b.WeighBottle(b.Snapshot().Shelf.Products[0].ID, b.Snapshot().Shelf.Products[0].Bottles[0].ID, "12 g"); !errors.As(err, &p) {
		t.Errorf("less than the empty bottle: %v", err)
	}
	b.Close()
	b = newBench(t, b.path, nil)
	shot = b.Snapshot()
	if text, _, _ := shot.Problem(at + "/opened"); text != "3/4/2026" {
		t.Errorf("after a restart: %q", text)
	}
	b.enter(at+"/opened", "3 Apr 2026")
	b.Nudge(at+"/tare", true)
	b.settle()
	shot = b.Snapshot()
	if text, echo := shot.Show(at + "/opened"); text != "2026-04-03" || echo != "3 April 2026" {
		t.Errorf("%q %q", text, echo)
	}
	if text, _ := shot.Show(at + "/tare"); text != "51 g" {
		t.Errorf("a gram more: %q", text)
	}
	b.Close()
}

// TestShelfOnAFullDisk: nothing typed on the shelf is lost while the disk is
// full, the project's saves wait behind it, and all go once there is room.
func TestShelfOnAFullDisk(t *testing.T) {
	var disk *failing
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), func(s Store) Store { disk = &failing{Store: s}; return disk })
	b.Create("Tray")
	b.settle()
	disk.fill(true)
	for i := range 3 {
		if err := b.EditShelf(fmt.Sprint("Add tint ", i), "", func(m *model.Shelf) error { m.AddTint(); return nil }); err != nil {
			t.Fatal(err)
		}
		b.enter("name", fmt.Sprint("Tray ", i))
	}
	b.UndoShelf() // cannot be while nothing is kept
	b.settle()
	shot := b.Snapshot()
	if len(shot.Shelf.Tints) != 3 || !shot.Saved.Pending || shot.Saved.What == "" {
		t.Errorf("%d tints, %+v", len(shot.Shelf.Tints), shot.Saved)
	}
	disk.fill(false)
	b.Retry()
	b.settle()
	if shot := b.Snapshot(); shot.Saved.Pending || shot.Saved.What != "" || shot.ShelfUndo != "Add tint 2" {
		t.Errorf("%+v, undo %q", shot.Saved, shot.ShelfUndo)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	b = newBench(t, b.path, nil)
	b.Reopen()
	b.settle()
	if shot := b.Snapshot(); len(shot.Shelf.Tints) != 3 || b.text("name") != "Tray 2" {
		t.Errorf("%d tints, %q", len(shot.Shelf.Tints), b.text("name"))
	}
	b.Close()
}

// TestOneTouch: what lies on the shelf goes into the project by one act, and the
// other way.
func TestOneTouch(t *testing.T) {
	b := started(t)
	b.enter("mold/depth", "30 mm")
	b.enter("mold/length", "300 mm")
	act := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		b.settle()
	}
	act(b.Edit("Add", "", func(p *model.Project) error { p.AddInsert(model.InsertSphere); p.AddSheet(); p.AddLayer(); return nil }))
	b.enter("mixing/vessel/floorAcross", "80 mm")
	b.enter("mixing/vessel/cupTall", "100 mm")
	act(b.KeepMold())
	act(b.KeepCup())
	act(b.KeepInsert(b.project.Inserts[0].ID))
	act(b.KeepProduct(b.project.Sheets[0].ID))
	if b.project.Sheets[0].Product == "" {
		t.Error("the sheet is not linked")
	}
	act(b.KeepProduct(b.project.Sheets[0].ID)) // the sheet as it is now, no second product
	act(b.EditShelf("Add a tint", "", func(m *model.Shelf) error { m.AddTint(); m.Tints[0].Name = "smoke"; return nil }))
	shelf := b.Snapshot().Shelf
	if len(shelf.Products) != 1 || len(shelf.Molds) != 1 || len(shelf.Cups) != 1 || len(shelf.Inserts) != 1 {
		t.Fatalf("%+v", shelf)
	}
	b.Create("Another")
	b.settle()
	act(b.Edit("Add a layer", "", func(p *model.Project) error { p.Sheets = nil; p.AddLayer(); return nil }))
	act(b.TakeMold(shelf.Molds[0].ID))
	act(b.TakeCup(shelf.Cups[0].ID))
	act(b.TakeInsert(shelf.Inserts[0].ID))
	act(b.TakeProduct(shelf.Products[0].ID))
	act(b.TakeTint(b.project.Layers[0].ID, shelf.Tints[0].ID))
	p := b.Snapshot().Project
	if b.text("mold/depth") != "30 mm" || !p.Mixing.Vessel.Given() || len(p.Inserts) != 1 || len(p.Sheets) != 1 || p.Layers[0].Sheet != p.Sheets[0].ID || p.Sheets[0].Product != shelf.Products[0].ID || p.Layers[0].Tint.Name != "smoke" {
		t.Errorf("%+v", p)
	}
	if list := p.Validate(); len(list) != 0 {
		t.Error(list)
	}
	for _, err := range []error{b.TakeMold("m99"), b.TakeProduct("r99"), b.TakeCup("c99"), b.TakeInsert("i99"), b.TakeTint("l1", "t99"), b.KeepInsert("i99"), b.KeepProduct("s99")} {
		if err == nil {
			t.Error("what is not there was taken")
		}
	}
	b.Close()
}

// TestShelfAtMidnight: a bottle runs out while the program runs.
func TestShelfAtMidnight(t *testing.T) {
	b := started(t)
	shelved(t, b)
	at := "shelf/products/" + b.Snapshot().Shelf.Products[0].ID + "/bottles/" + b.Snapshot().Shelf.Products[0].Bottles[0].ID
	b.enter(at+"/expires", string(b.today()))
	expired := func() bool {
		shot := b.Snapshot()
		return shot.ShelfPlan.Products[0].Bottles[0].Expired
	}
	if expired() {
		t.Error("on its last day")
	}
	b.clock.advance(24 * time.Hour)
	b.tick(b.clock.Now())
	b.settle()
	if !expired() {
		t.Error("nobody noticed the new day")
	}
	b.Close()
}

// TestSmallThingsFollowTheJournal: discs, tints, inserts and the seal coat come off
// the shelf with the entry that tells of them, on the disk with it, and undo of the
// shelf brings back a count and not what was used since.
func TestSmallThingsFollowTheJournal(t *testing.T) {
	b := started(t)
	shelved(t, b)
	do := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		b.clock.advance(time.Minute)
		b.settle()
	}
	do(b.EditShelf("Add discs", "", func(m *model.Shelf) error { m.AddConsumable(); m.Consumables[0].Number = 10; return nil }))
	disc := b.Snapshot().Shelf.Consumables[0].ID
	on := func(what string, want int) {
		t.Helper()
		shot := b.Snapshot()
		if got := shot.ShelfPlan.Thing(disc).Count; got != want {
			t.Errorf("%s: %d discs, want %d", what, got, want)
		}
		if m, _, _, err := b.store.LoadShelf(); err != nil {
			t.Error(err)
		} else if pl := model.PlanShelf(&m, b.today()); pl.Thing(disc).Count != want {
			t.Errorf("%s: %d discs on the disk, want %d", what, pl.Thing(disc).Count, want)
		}
	}
	on("at first", 10)
	do(b.AddUsed(disc, "3"))
	on("three used", 7)
	do(b.TakeCount(disc))
	on("counted", 7)
	do(b.AddUsed(disc, "2"))
	on("two more", 5)
	b.UndoShelf()
	b.settle()
	on("the count undone", 5)
	b.Enter("shelf/consumables/"+disc+"/number", "20")
	b.settle()
	on("a new pack", 20)
	last := b.project.Journal[len(b.project.Journal)-1].ID
	do(b.Withdraw(last))
	on("taken back from before the count", 20)

	a := b.leftA()
	do(b.AddSealMixed(b.project.Sheets[0].ID, "20 g", "9 g", ""))
	if got := b.leftA(); got != a-20 {
		t.Errorf("%v g of A left of %v g after 20 g for the seal coat", got, a)
	}
	if b.AddUsed("w99", "1") == nil || b.TakeCount("w99") == nil || b.AddSealMixed("s99", "1", "1", "") == nil {
		t.Error("what is not there was used")
	}

	do(b.Edit("Add", "", func(p *model.Project) error { p.AddInsert(model.InsertSphere); p.Inserts[0].Count = 4; return nil }))
	do(b.KeepInsert(b.project.Inserts[0].ID))
	shot := b.Snapshot()
	insert := shot.Shelf.Inserts[0].ID
	if shot.Project.Inserts[0].Stock != insert {
		t.Fatal("the insert is not linked")
	}
	do(b.Happened(model.Entry{Kind: model.EntryPlaced, Insert: shot.Project.Inserts[0].ID}))
	shot = b.Snapshot()
	if got := shot.ShelfPlan.Thing(insert); got.Count != 0 || got.Taken != 4 {
		t.Errorf("%+v", got)
	}
	b.Close()
}
