package views

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/model/unit"
)

// TestPriceWindow goes through making a price: what is read first, the lines to
// the cent, minutes by touch, and the objection.
func TestPriceWindow(t *testing.T) {
	b, p := shelfOn(t, "poppy-stand")
	p.open(shelfPricing)
	// (148.00 - 41.00) over 5 h 12 min are 20.58; the sums by hand: 41.00 of
	// materials and 312 minutes at 20.00, task by task to the cent.
	if got := p.frame.answer.Text(); got != "148.00 EUR for one: an hour earns 20.58 EUR" {
		t.Errorf("%q", got)
	}
	for _, words := range []string{"that you ask", "145.01 EUR", "193.35 EUR", "10 casts", "Materials: resin, wood, washers, tint"} {
		if !shows(p.worth.root, words) {
			t.Errorf("%q is not there", words)
		}
	}
	moldLegible(t, "price", p.worth.root)
	moldLegible(t, "inputs of the price", p.body.root)

	// An hour and more logged by touch: it earns less, and that is said.
	for range 4 {
		tapOn(t, p.body.root, "+15 min")
		b.settle()
	}
	shot := b.Snapshot()
	if got := shot.Project.Money.Tasks[0].Logged; got.Written != "1 h 30 min" {
		t.Errorf("logged %+v", got)
	}
	if !strings.HasPrefix(p.frame.undo.Label, "Undo: log minutes") {
		t.Errorf("undo is %q", p.frame.undo.Label)
	}
	if !shows(p.worth.root, "less than your 20.00 EUR") || !shows(p.worth.root, "or more, save minutes") {
		t.Errorf("no objection: %q", texts(p.worth.root))
	}
	findings := shot.Findings(model.OfPrice)
	if len(findings) == 0 {
		t.Fatal("no finding")
	}
	p.open(shelfProducts)
	for _, f := range findings {
		b.desk.goTo(f)
		if p.tab != shelfPricing {
			t.Errorf("%s leads to %s", f.Field, p.tab)
		}
	}
	p.frame.undo.OnTapped()
	b.settle()
	if got := b.Snapshot().Project.Money.Tasks[0].Logged.Written; got != "30 min" {
		t.Errorf("undone: %q", got)
	}

	// One in so many, and a share.
	typeInto(t, b, shelfKey, "costing/fails", "12")
	if got := b.Snapshot().Project.Money.Fails.Value; got < 0.0833 || got > 0.0834 {
		t.Errorf("fails %v", got)
	}
	if !shows(p.worth.root, "Casts that fail: one in 12 fails") {
		t.Errorf("%q", texts(p.worth.root))
	}
	typeInto(t, b, shelfKey, "costing/fails", "8 %")
	if got := b.Snapshot().Project.Money.Fails.Value; got != 0.08 {
		t.Errorf("fails %v", got)
	}
	typeInto(t, b, shelfKey, "costing/fails", "100 %")
	shot = b.Snapshot()
	if _, reason, bad := shot.Problem("costing/fails"); !bad || reason == "" {
		t.Error("all casts fail, and nobody says so")
	}
	typeInto(t, b, shelfKey, "costing/fails", "")

	// A margin of a third is a markup of half, told apart in words.
	chooseIn(t, p.body.root, string(model.GainMargin), string(model.GainMarkup))
	b.settle()
	typeInto(t, b, shelfKey, "costing/gain", "50 %")
	if !shows(p.worth.root, "With a markup of 50 % on the cost") || !shows(p.worth.root, "33.3 %") {
		t.Errorf("%q", texts(p.worth.root))
	}
	// Other sizes.
	tapOn(t, p.body.root, "Other sizes")
	b.settle()
	typeInto(t, b, shelfKey, "costing/batches/1", "4")
	if !shows(p.worth.root, "4 casts") || shows(p.worth.root, "3 casts") {
		t.Error("the size was not taken")
	}
	// A price of the resin.
	tapOn(t, p.body.root, "Give a price")
	b.settle()
	paid := b.Snapshot().Project.Money.Prices
	if len(paid) != 1 || paid[0].Kind != model.PaidResin {
		t.Fatalf("%+v", paid)
	}
	typeInto(t, b, shelfKey, "costing/prices/"+paid[0].ID+"/price", "48")
	typeInto(t, b, shelfKey, "costing/prices/"+paid[0].ID+"/for", "1450 g")
	shot = b.Snapshot()
	offers, err := shot.Offers()
	if err != nil || offers[0].Cost.Lines[0].Kind != model.CostResin || !shows(p.worth.root, offers[0].Cost.Lines[0].Money.String()) {
		t.Errorf("%v %+v", err, offers)
	}
	// What is weighed for the seal coat stays where it was typed, also once no
	// other line has a price.
	typeInto(t, b, shelfKey, "costing/seal", "30 g")
	if err := b.Edit("Take the price away", "", func(q *model.Project) error { q.Money.Prices = nil; return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if p.in.form.Field("costing/seal") == nil || p.in.form.Field("costing/seal").Text() != "30 g" {
		t.Error("the seal coat that was typed cannot be seen")
	}
	moldLegible(t, "price with all", p.worth.root)
	moldLegible(t, "inputs with all", p.body.root)
}

// TestPriceFromNothing: a piece without any costing says what is lacking, and
// takes the usual tasks.
func TestPriceFromNothing(t *testing.T) {
	b, p := shelfOn(t, "hall-shelf")
	if err := b.Edit("Clear it", "", func(q *model.Project) error { q.Money = model.Costing{}; return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	p.open(shelfPricing)
	if !shows(p.worth.root, "Nothing has a price yet") || !shows(p.worth.root, "no task has its minutes") {
		t.Errorf("%q", texts(p.worth.root))
	}
	moldLegible(t, "no price", p.worth.root)
	tapOn(t, p.body.root, "Put in the usual tasks")
	b.settle()
	tasks := b.Snapshot().Project.Money.Tasks
	if len(tasks) != len(model.UsualTasks()) {
		t.Fatalf("%d tasks", len(tasks))
	}
	tapOn(t, p.body.root, "Change")
	if !slices.Contains(p.in.form.Paths(), "costing/tasks/"+tasks[0].ID+"/name") {
		t.Error("a task cannot be named")
	}
	tapOn(t, p.body.root, "Remove this task")
	b.settle()
	if got := b.Snapshot().Project.Money.Tasks; len(got) != len(tasks)-1 {
		t.Errorf("%d tasks", len(got))
	}
}

// TestBuyingWindow goes from nothing known to a set of kits, for one piece and
// for two.
func TestBuyingWindow(t *testing.T) {
	b, p := shelfOn(t, "poppy-stand")
	p.open(shelfBuying)
	b.settle()
	if got := p.frame.answer.Text(); !strings.HasPrefix(got, "Say which kits there are") {
		t.Errorf("at first: %q", got)
	}
	moldLegible(t, "nothing known", p.buy.root)
	tapOn(t, p.body.root, "Keep ")
	b.settle()
	product := b.Snapshot().Project.Sheets[0].Product
	tapOn(t, p.body.root, "Add a kit")
	b.settle()
	shot := b.Snapshot()
	kit := shot.Shelf.Products[0].Kits[0]
	if !strings.HasPrefix(p.frame.answer.Text(), "Buy 2 × "+kit.Name) || !shows(p.buy.root, "no price for") {
		t.Errorf("%q", texts(p.buy.root))
	}
	if err := b.EditShelf("Price it", "", func(m *model.Shelf) error {
		m.Products[0].Kits[0].Price = unit.Money{Minor: 4800, Currency: "EUR"}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if got := p.frame.answer.Text(); !strings.HasPrefix(got, "Buy 2 × "+kit.Name+": 96.00 EUR; ") || !strings.HasSuffix(got, " g left over") {
		t.Errorf("%q", got)
	}
	moldLegible(t, "a set", p.buy.root)
	moldLegible(t, "inputs of buying", p.body.root)

	// Another piece of the same product, ticked.
	other := shot.Project.ID
	b.Copy()
	b.until("the copy is open", func() bool { return b.Snapshot().Project.ID != other })
	b.settle()
	if shot = b.Snapshot(); shot.Project.ID == other || shot.Project.Sheets[0].Product != product {
		t.Fatalf("the copy is %q", shot.Project.ID)
	}
	if len(p.buy.list) != 1 || len(p.buy.list[0].Need.Layers) != 2 {
		t.Fatalf("%+v", p.buy.list)
	}
	alone := p.buy.list[0].Need.A
	p.buy.tick(other, true)
	b.settle()
	if len(p.buy.list) != 1 || len(p.buy.list[0].Need.Layers) != 4 || p.buy.list[0].Need.A.Grams()-2*alone.Grams() > 1e-6 {
		t.Fatalf("%+v", p.buy.list)
	}
	if got := p.frame.answer.Text(); !strings.HasPrefix(got, "Buy 3 × ") {
		t.Errorf("for two: %q", got)
	}
	moldLegible(t, "two pieces", p.buy.root)
	// The ticks outlast the window.
	b.desk.Show(shelfKey).Close()
	b.settle()
	b.desk.Show(shelfKey).Resize(fyne.NewSize(1180, 700))
	if again := b.desk.pages[shelfKey].(*shelfPage); again == p || !slices.Contains(again.buy.wanted().Projects, other) {
		t.Errorf("the window is opened again, and this is bought for: %v", again.buy.wanted().Projects)
	} else {
		p = again
		p.open(shelfBuying)
		b.settle()
	}
	p.buy.tick(other, false)
	p.buy.tick(shot.Project.ID, false)
	b.settle()
	if got := p.frame.answer.Text(); !strings.HasPrefix(got, "Tick the pieces") {
		t.Errorf("for none: %q", got)
	}
	// Undo here is that of the shelf.
	if !strings.HasPrefix(p.frame.undo.Label, "Undo: price it") {
		t.Errorf("undo is %q", p.frame.undo.Label)
	}
}
