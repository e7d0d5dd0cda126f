package model

import (
	"fmt"
	"math"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// TestUsesFollowTheJournal holds what a project took against a ledger of its own
// over histories of weighings, corrections and withdrawals.
func TestUsesFollowTheJournal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tray(300, 200, 30, 10)
		p.Sheets[0].Product = "r1"
		second := p.Layers[0]
		second.ID, second.Lot = "l2", "B7"
		p.Layers = append(p.Layers, second)
		now := shelfMorning(0)
		for i := range rapid.IntRange(0, 25).Draw(t, "acts") {
			now = now.Add(time.Minute)
			var readings []string
			for _, e := range p.standing() {
				if e.weighed() {
					readings = append(readings, e.ID)
				}
			}
			act := rapid.IntRange(0, 5).Draw(t, "act")
			switch id := fmt.Sprint("e", i); {
			case act == 0 && len(readings) > 0:
				of := rapid.SampledFrom(readings).Draw(t, "taken back")
				if err := p.Log(Entry{ID: id, At: now, Kind: EntryWithdrawn, Of: of}, now); err != nil {
					t.Fatal(err)
				}
			case act == 1 && len(readings) > 0:
				of := rapid.SampledFrom(readings).Draw(t, "corrected")
				e, _ := p.Entry(of)
				e.ID, e.Gross = id+"b", grams(float64(rapid.IntRange(1, 900).Draw(t, "gross")))
				if err := p.Correct(of, id, e, now); err != nil {
					t.Fatal(err)
				}
			default:
				layer := rapid.SampledFrom([]string{"l1", "l2"}).Draw(t, "layer")
				kind := rapid.SampledFrom([]EntryKind{EntryWeighedA, EntryWeighedB}).Draw(t, "part")
				gross := p.InCup(layer).Gross.Grams() + float64(rapid.IntRange(1, 300).Draw(t, "more"))
				e, err := p.WeighedEntry(layer, kind, fmt.Sprintf("%g g", gross), rapid.IntRange(0, 4).Draw(t, "afresh") == 0)
				if err != nil {
					continue // B before A, and the like
				}
				e.ID, e.At = id, now
				if err := p.Log(e, now); err != nil {
					t.Fatal(err)
				}
			}
		}
		// The ledger: what each reading that stands shows more than the one before
		// it in its cup.
		want := map[string]float64{}
		before := map[string]float64{}
		begun := map[string]bool{}
		for _, e := range p.standing() {
			if !e.weighed() {
				continue
			}
			if e.Cup.Given() {
				before[e.Layer], begun[e.Layer] = e.Cup.Value.Grams(), true
			}
			if !begun[e.Layer] {
				continue
			}
			if more := e.Gross.Value.Grams() - before[e.Layer]; more > 0 {
				want[fmt.Sprint(e.Kind, e.Layer)] += more
			}
			before[e.Layer] = e.Gross.Value.Grams()
		}
		uses := UsesOf(&p)
		got := map[string]float64{}
		for _, u := range uses.List {
			kind, layer := EntryWeighedA, "l1"
			if u.Part == PartB {
				kind = EntryWeighedB
			}
			if u.Lot == "B7" {
				layer = "l2"
			}
			got[fmt.Sprint(kind, layer)] += u.Mass.Grams()
			if u.Product != "r1" || u.Mass <= 0 {
				t.Fatalf("%+v", u)
			}
		}
		for key := range want {
			if math.Abs(got[key]-want[key]) > 1e-6 {
				t.Fatalf("%s: %v g, want %v g", key, got[key], want[key])
			}
		}
		if len(got) > len(want) {
			t.Fatalf("%v, want %v", got, want)
		}
		// Taken in twice, from a copy, or as it was: always the same.
		var s Shelf
		s.SetUses(uses)
		once := s.Clone()
		if s.SetUses(UsesOf(&p)) || !reflect.DeepEqual(s, once) {
			t.Fatal("the second time changed something")
		}
	})
}

// TestCopiesCountOnce: a project that came in beside itself tells of the same
// readings under the same IDs, and what is weighed for the copy alone counts too.
func TestCopiesCountOnce(t *testing.T) {
	s := stocked()
	s.SetUses(ProjectUses{Project: "p", List: []StockUse{took(250, 0, "L1"), took(10, 1, "L1")}})
	s.SetUses(ProjectUses{Project: "copy", List: []StockUse{took(250, 0, "L1"), took(70, 1, "L1")}})
	within(t, "left", PlanShelf(&s, shelfDay).Products[0].A.Grams(), 1000-250-10-70, 1e-9)
	// Another shelf's product has another ID.
	one, other := Shelf{Mark: "x"}, Shelf{Mark: "y"}
	if a, b := one.AddProduct(), other.KeepProduct(Sheet{Name: "slow"}); a == b {
		t.Errorf("both are %s", a)
	}
}

// TestTakenFromTheShelf: what goes to and fro is a copy.
func TestTakenFromTheShelf(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.AddSeam()
	var s Shelf
	s.KeepMold(&p)
	s.Molds[0].Mold.Hold.Seams[0].Gap = mm(1)
	if p.Mold.Hold.Seams[0].Gap.Value != 0 {
		t.Error("the mold on the shelf is the project's own")
	}
	other := tray(500, 400, 50, 10)
	other.SetDraft("mold/depth", "deep", "no length")
	other.SetDraft("molds", "x", "y")
	TakeMold(&other, s.Molds[0])
	if other.Mold.Length != p.Mold.Length || other.Mold.Name != "mold of tray" || len(other.Drafts) != 1 {
		t.Errorf("%+v", other.Mold)
	}
	other.Mold.Hold.Seams[0].Gap = mm(2)
	if s.Molds[0].Mold.Hold.Seams[0].Gap.Value != mm(1).Value {
		t.Error("the project's mold is the shelf's own")
	}
	if len(other.Validate()) != 0 {
		t.Error(other.Validate())
	}

	// A product is kept once, and kept up to date after that.
	id := s.KeepProduct(p.Sheets[0])
	p.Sheets[0].Product, p.Sheets[0].Name = id, "slower"
	if again := s.KeepProduct(p.Sheets[0]); again != id || len(s.Products) != 1 || s.Products[0].Sheet.Name != "slower" || s.Products[0].Sheet.ID != "" {
		t.Errorf("%s, %+v", again, s.Products)
	}
	p.Inserts = []Insert{{ID: "i4", Name: "disc", Count: 9, Kind: InsertStanding, On: OnLayer, Layer: "l1"}}
	s.KeepInsert(p.Inserts[0])
	at := TakeInsert(&other, s.Inserts[0])
	if other.Inserts[0].ID != at || other.Inserts[0].On != OnFloor || s.Inserts[0].Number != 9 {
		t.Errorf("%+v", other.Inserts)
	}
	if list := s.Validate(); len(list) != 0 {
		t.Error(list)
	}
	// A bottle that was weighed only goes out of sight.
	s = stocked()
	empty := s.AddBottle("r1", PartB, shelfDay)
	for bottle, want := range map[string]int{"b2": 3, empty: 2} {
		if err := s.Remove("shelf/products/r1/bottles/" + bottle); err != nil || bottle == empty && len(s.Products[0].Bottles) != want {
			t.Errorf("%s: %v, %d bottles", bottle, err, len(s.Products[0].Bottles))
		}
	}
	if pl := PlanShelf(&s, shelfDay); !s.Products[0].Bottles[0].Gone || len(pl.Products[0].Bottles) != 1 {
		t.Errorf("%+v", pl.Products[0])
	}
}
