package app

import (
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
)

// supplies asks what to buy and waits for it.
func (b *bench) supplies(want Wanted) (list []Supply, err error) {
	b.t.Helper()
	told := false
	b.Supplies(want, func(l []Supply, e error) { list, err, told = l, e, true })
	b.settle()
	if !told {
		b.t.Fatal("nothing was told")
	}
	return list, err
}

// TestSupplies: what is to be bought for two projects is what both take together
// less what the shelf gives, follows the kits, and counts what nobody sees as
// the maker says.
func TestSupplies(t *testing.T) {
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil)
	defer b.Close()
	data, err := os.ReadFile("../testdata/demo-poppy-stand.json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := model.Import(data)
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range []string{"one", "two"} {
		q := p.Clone()
		q.Demo, q.ID, q.Name = false, id, id
		b.adopt(q, "Imported")
		b.settle()
	}
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		b.clock.advance(time.Minute)
		b.settle()
	}
	near := func(what string, got, want unit.Mass) {
		t.Helper()
		if math.Abs(got.Grams()-want.Grams()) > 1e-6 {
			t.Errorf("%s: %v g, want %v g", what, got.Grams(), want.Grams())
		}
	}
	var a, h unit.Mass
	shot := b.Snapshot()
	for i := range shot.Plan.Layers {
		a, h = a+shot.Plan.Layers[i].Mix.A, h+shot.Plan.Layers[i].Mix.B
	}
	list, err := b.supplies(Wanted{Projects: []string{"two"}})
	if err != nil || len(list) != 1 || list[0].Trouble == "" || list[0].Product != "" || list[0].Project != "two" {
		t.Fatalf("%+v %v", list, err)
	}
	near("A of one", list[0].Need.A, a)
	list, err = b.supplies(Wanted{Projects: []string{"one", "two", "gone"}})
	if err != nil || len(list) != 1 || len(list[0].Need.Layers) != 2*len(shot.Plan.Layers) {
		t.Fatalf("%+v %v", list, err)
	}
	near("A of both", list[0].Need.A, 2*a)
	near("B of both", list[0].Need.B, 2*h)

	// Both parts on the shelf, and kits: two lots of A too little for one pour each.
	must(b.KeepProduct(shot.Project.Sheets[0].ID))
	product := b.Snapshot().Project.Sheets[0].Product
	must(b.EditShelf("Fill it", "", func(m *model.Shelf) error {
		x := m.Product(product)
		x.Kits = []model.ShelfKit{
			{ID: "k1", Kit: model.Kit{Name: "small kit", A: unit.Kilogram, B: 450 * unit.Gram, Price: unit.Money{Minor: 4800, Currency: "EUR"}}},
			{ID: "k2", Kit: model.Kit{Name: "large kit", A: 3 * unit.Kilogram, B: 1350 * unit.Gram, Price: unit.Money{Minor: 13000, Currency: "EUR"}}},
		}
		for _, lot := range []string{"L1", "L2"} {
			y := x.Bottle(m.AddBottle(product, model.PartA, b.today()))
			y.Lot, y.Holds.Value = lot, 300*unit.Gram
			x = m.Product(product)
		}
		m.AddBottle(product, model.PartB, b.today())
		return nil
	}))
	list, err = b.supplies(Wanted{Projects: []string{"two"}})
	if err != nil || list[0].Trouble != "" || list[0].Priced != 2 || list[0].Unknown != 1 {
		t.Fatalf("%+v %v", list, err)
	}
	near("no lot serves a pour", list[0].Need.A, a)
	hidden := map[string]bool{}
	for i := range shot.Plan.Layers {
		hidden[LayerKey("two", shot.Plan.Layers[i].ID)] = true
	}
	list, _ = b.supplies(Wanted{Projects: []string{"two"}, Hidden: hidden})
	near("nobody sees it", list[0].Need.A, a-unit.Mass(600*0.98)*unit.Gram)
	if best := list[0].Purchase.Best; best.Short() == "nothing" || best.Cost.Minor%4800 != 0 || best.Cost.Minor <= 0 {
		t.Errorf("buy %s for %v", best.Short(), best.Cost)
	}

	// The price goes by the shelf's kit, and touches of one task are one step.
	if facts := b.snapshotFacts(); len(facts.Prices) != 0 {
		t.Errorf("its own prices only: %+v", facts)
	}
	b.enter("costing/own", "no")
	facts := b.snapshotFacts()
	if len(facts.Prices) != 1 || facts.Prices[0].Price.Minor != 4800 {
		t.Errorf("%+v", facts)
	}
	task := b.project.Money.Tasks[0].ID
	before := b.project.Money.Tasks[0].Logged.Value
	must(b.LogMinutes(task, 5))
	if err := b.LogMinutes(task, 15); err != nil {
		t.Fatal(err)
	}
	b.settle()
	shot = b.Snapshot()
	if got := shot.Project.Money.Tasks[0].Logged.Value - before; math.Abs(got.Per(unit.Minute)-20) > 1e-9 || shot.Undo != "Log minutes" {
		t.Errorf("%v logged, undo %q", got, shot.Undo)
	}
	if b.LogMinutes("none", 5) == nil {
		t.Error("minutes of no task were logged")
	}
}

func (b *bench) snapshotFacts() model.CostFacts {
	shot := b.Snapshot()
	return shot.CostFacts()
}
