package views

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/views/touch"
)

// shelfOn opens the window Shelf with a demo job open.
func shelfOn(t *testing.T, demo string) (*bench, *shelfPage) {
	t.Helper()
	b := newBench(t, newFakeStore())
	b.demo(demo)
	b.desk.Show(shelfKey).Resize(fyne.NewSize(1180, 700))
	return b, b.desk.pages[shelfKey].(*shelfPage)
}

// TestShelfWindow goes through a day with the shelf: a product is kept, its
// bottles are added and weighed, what is weighed in comes off them, and undo is
// that of the shelf.
func TestShelfWindow(t *testing.T) {
	b, p := shelfOn(t, "poppy-stand")
	if got := p.frame.answer.Text(); got != "No product is on the shelf yet" {
		t.Errorf("at first: %q", got)
	}
	name := b.Snapshot().Project.Sheets[0].Name
	tapOn(t, p.frame.root, "Keep "+brief(name, 24)+" of this piece here")
	b.settle()
	product := b.Snapshot().Project.Sheets[0].Product
	if product == "" || p.at() != "shelf/products/"+product {
		t.Fatalf("linked to %q, at %q", product, p.at())
	}
	at, lot := "shelf/products/"+product, b.Snapshot().Project.Layers[0].Lot
	if lot == "" {
		lot = "L7"
	}
	for _, part := range []string{"A", "B"} {
		p.choose(at)
		tapOn(t, p.frame.root, "Add a bottle of "+part)
		b.settle()
		if !strings.HasPrefix(p.at(), at+"/bottles/") {
			t.Fatalf("the new bottle is not chosen: %s", p.at())
		}
		bottle := p.at()
		typeInto(t, b, shelfKey, bottle+"/lot", lot)
		p.in.form.CommitAll()
		b.settle()
		time.Sleep(touch.Settle)
		tapOn(t, p.frame.root, "Keep what it weighs")
		if !cureSays(p.body.root, "type what the empty bottle weighs first") && !shows(p.body.root, "type what the empty bottle weighs first") {
			t.Error("nobody asks for the empty bottle")
		}
		typeInto(t, b, shelfKey, bottle+"/tare", "62")
		p.in.form.CommitAll()
		b.settle()
		weigh := func(text string) {
			t.Helper()
			if !p.in.lead(weighPath) {
				t.Fatal("no field for the scale")
			}
			entry := b.desk.windows.Window(shelfKey).Canvas().Focused()
			entry.(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
			for _, r := range text {
				entry.TypedRune(r)
			}
			time.Sleep(touch.Settle)
			tapOn(t, p.frame.root, "Keep what it weighs")
			b.settle()
		}
		b.clock.advance(time.Minute)
		weigh("60")
		if !shows(p.body.root, "less than the empty bottle, 62 g") {
			t.Error("a slip is not named")
		}
		weigh("2562")
		if !shows(p.body.root, "2500 g") {
			t.Errorf("%q", texts(p.body.root))
		}
		moldLegible(t, "bottle of "+part, p.body.root)
	}
	if got := p.frame.answer.Text(); !strings.HasPrefix(got, "Enough for all pours to come") {
		t.Errorf("%q", got)
	}
	moldLegible(t, "the list", p.list.root)

	// What is weighed in comes off, also where the window Mixing tells it.
	layer := b.Snapshot().Plan.Layers[0].ID
	b.clock.advance(time.Minute)
	if err := b.AddWeighed(layer, model.EntryWeighedA, "300 g", false); err != nil {
		t.Fatal(err)
	}
	b.settle()
	shot := b.Snapshot()
	if got := shot.ShelfPlan.Product(product).A.Grams(); got >= 2500 || got < 2100 {
		t.Errorf("%v g left", got)
	}
	b.desk.Show(mixingKey)
	mixing := b.desk.pages[mixingKey].(*mixingPage)
	mixing.tabs.turn("amount")
	if !shows(mixing.bottles.root, "Open the shelf") || !cureSays(mixing.bottles.root, "less all that was weighed out of them") {
		t.Error("the window Mixing does not go by the shelf")
	}

	// Undo in this window is that of the shelf, and takes no gram back.
	before := shot.ShelfPlan.Product(product).A
	if !strings.HasPrefix(p.frame.undo.Label, "Undo: weigh a bottle") {
		t.Errorf("%q", p.frame.undo.Label)
	}
	p.frame.undo.OnTapped()
	b.settle()
	shot = b.Snapshot()
	if got := shot.ShelfPlan.Product(product); got.A != before || got.B != 0 || len(shot.Project.Journal) != 1 {
		t.Errorf("%v of A, %v of B", got.A, got.B)
	}
	p.frame.redo.OnTapped()
	b.settle()
	shot = b.Snapshot()
	if got := shot.ShelfPlan.Product(product).B.Grams(); got != 2500 {
		t.Errorf("redone: %v g of B", got)
	}
}

// TestShelfFindingsLeadToTheirFields: a touch on what is wrong leads to where it
// is mended.
func TestShelfFindingsLeadToTheirFields(t *testing.T) {
	b, p := shelfOn(t, "poppy-stand")
	bottle := ""
	err := b.EditShelf("Fill it", "", func(m *model.Shelf) error {
		id := m.KeepProduct(b.Snapshot().Project.Sheets[0])
		m.Product(id).Low.Value = 9
		bottle = m.AddBottle(id, model.PartA, "2024-05-01")
		x := m.Product(id).Bottle(bottle)
		x.Holds.Value, x.Opened = 1, "2024-06-01"
		m.AddBottle(id, model.PartB, "2026-05-01")
		m.AddCup()
		m.AddTint()
		m.AddConsumable()
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := b.KeepMold(); err != nil {
		t.Fatal(err)
	}
	if err := b.KeepInsert(b.Snapshot().Project.Inserts[0].ID); err != nil {
		t.Fatal(err)
	}
	b.settle()
	b.until("the shelf is planned", func() bool {
		shot := b.Snapshot()
		return len(shot.ShelfPlan.Molds) > 0 && len(shot.Shelf.Inserts) > 0
	})
	shot := b.Snapshot()
	list := shot.Findings(model.OfShelf)
	if len(list) < 3 {
		t.Fatalf("%+v", list)
	}
	for _, f := range list {
		p.open(shelfMolds)
		b.desk.goTo(f)
		if p.tab != shelfProducts || !strings.HasPrefix(f.Field, p.at()) {
			t.Errorf("%s leads to %s in %s", f.Field, p.at(), p.tab)
		}
	}
	// Every thing has its inputs, none of them cut off.
	for _, tab := range []string{shelfProducts, shelfMolds, shelfSmall} {
		p.open(tab)
		rows := p.list.rows(tab)
		if len(rows) == 0 {
			t.Fatalf("nothing in %s", tab)
		}
		for _, r := range rows {
			p.choose(r.path)
			if p.at() != r.path || len(p.in.form.Paths()) == 0 {
				t.Errorf("%s: no inputs", r.path)
			}
			moldLegible(t, r.path, p.body.root)
		}
	}
	p.open(shelfProducts)
	p.choose("shelf/products/" + shot.Shelf.Products[0].ID)
	tapOn(t, p.body.root, "Show its data sheet")
	if !p.in.lead("shelf/products/" + shot.Shelf.Products[0].ID + "/sheet/gel/at") {
		t.Error("the data sheet is not there")
	}
	typeInto(t, b, shelfKey, "shelf/products/"+shot.Shelf.Products[0].ID+"/sheet/gel", "9 h")
	p.in.form.CommitAll()
	b.settle()
	shot = b.Snapshot()
	if got := shot.Shelf.Products[0].Sheet.Gel.Written; got != "9 h" {
		t.Errorf("gel %q", got)
	}
	// One touch, and the project has the mold.
	p.open(shelfMolds)
	b.Enter("mold/depth", "77 mm")
	b.settle()
	tapOn(t, p.body.root, "Cast ")
	b.settle()
	shot = b.Snapshot()
	if shot.Project.Mold.Depth != shot.Shelf.Molds[0].Mold.Depth {
		t.Errorf("depth %v", shot.Project.Mold.Depth)
	}
	tapOn(t, p.body.root, "Take the mold off the shelf")
	b.settle()
	shot = b.Snapshot()
	if len(shot.Shelf.Molds) != 0 || !shows(p.list.root, "Keep the mold of a piece here") {
		t.Errorf("%d molds", len(shot.Shelf.Molds))
	}
}
