package model

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"meniscus/model/unit"
)

// grams is a mass as it would be typed.
func grams(n float64) unit.Taken[unit.Mass] {
	return unit.Taken[unit.Mass]{Value: unit.Gram.Times(n), Written: fmt.Sprintf("%g g", n)}
}

// shelfDay is the day that the tests of the shelf are on.
const shelfDay Date = "2026-11-25"

// shelfMorning is 8:00 UTC on that day, so many days later.
func shelfMorning(days int) time.Time {
	return time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC).AddDate(0, 0, days)
}

// stocked is a shelf with one product, 100:45, and a bottle of 1,000 g of A and
// one of 450 g of B, each weighed in the morning with a bottle of 50 g.
func stocked() Shelf {
	var s Shelf
	id := s.AddProduct()
	p := s.Product(id)
	p.Sheet = sheetBy("", 45)
	for _, x := range []struct {
		part PartName
		net  float64
	}{{PartA, 1000}, {PartB, 450}} {
		b := p.Bottle(s.AddBottle(id, x.part, shelfDay.AddDays(-10)))
		b.Lot, b.Tare, b.Opened = "L1", grams(50), shelfDay.AddDays(-5)
		b.Weighings = []Weighing{{ID: s.newID("g"), At: shelfMorning(0), Gross: grams(50 + x.net)}}
	}
	return s
}

// took is a use of A of the stocked product.
func took(n float64, days int, lot string) StockUse {
	return StockUse{Entry: fmt.Sprintf("e%v-%d", n, days), At: shelfMorning(days).Add(time.Hour), Product: "r1", Part: PartA, Lot: lot, Mass: unit.Gram.Times(n), Layer: "first"}
}

// kinds lists the kinds of the findings of a shelf.
func shelfKinds(pl ShelfPlan) string {
	var list []string
	for _, f := range pl.Findings {
		list = append(list, f.Kind)
	}
	return strings.Join(list, " ")
}

// TestShelfByHand: 1,000 g less what was taken, by hand.
func TestShelfByHand(t *testing.T) {
	for _, c := range []struct {
		name  string
		uses  []StockUse
		set   func(*Shelf, *Product)
		left  float64 // of A
		kinds string
	}{
		{name: "nothing was taken", left: 1000},
		{name: "250 g and 130 g", uses: []StockUse{took(250, 0, "L1"), took(130, 1, "L1")}, left: 620, kinds: "shelf.unpaired"},
		{name: "before it was weighed", uses: []StockUse{took(250, -1, "L1")}, left: 1000},
		{name: "the lot as typed, with a space and in small letters", uses: []StockUse{took(100, 0, " l1")}, left: 900},
		{name: "no lot was said", uses: []StockUse{took(100, 0, "")}, left: 900},
		{name: "all of it and 40 g more", uses: []StockUse{took(1040, 0, "L1")}, left: 0, kinds: "shelf.missing shelf.unpaired"},
		{name: "a lot that is not there", uses: []StockUse{took(100, 0, "L9")}, left: 1000, kinds: "shelf.missing"},
		{name: "less more than a scale shows", uses: []StockUse{took(1000.4, 0, "L1")}, left: 0, kinds: "shelf.unpaired"},
		{name: "weighed again since", uses: []StockUse{took(1040, 0, "L1")}, left: 3, kinds: "shelf.unpaired", set: func(_ *Shelf, p *Product) {
			p.Bottles[0].Weighings = append(p.Bottles[0].Weighings, Weighing{ID: "g9", At: shelfMorning(2), Gross: grams(53)})
		}},
		{name: "the bottle that was opened first goes first", uses: []StockUse{took(300, 0, "L1")}, left: 1200, kinds: "shelf.unpaired", set: func(s *Shelf, p *Product) {
			b := p.Bottle(s.AddBottle("r1", PartA, shelfDay.AddDays(-10)))
			b.Lot, b.Tare, b.Holds, b.Opened = "L1", grams(50), grams(500), shelfDay.AddDays(-8)
		}},
		{name: "a bottle bought since covers nothing of before", uses: []StockUse{took(1200, 0, "L1")}, left: 500, kinds: "shelf.missing shelf.unpaired", set: func(s *Shelf, p *Product) {
			b := p.Bottle(s.AddBottle("r1", PartA, shelfDay.AddDays(3)))
			b.Lot, b.Holds = "L1", grams(500)
		}},
	} {
		s := stocked()
		if c.set != nil {
			c.set(&s, s.Product("r1"))
		}
		s.SetUses(ProjectUses{Project: "p", Name: "Tray", List: c.uses})
		pl := PlanShelf(&s, shelfDay.AddDays(4))
		within(t, c.name, pl.Products[0].A.Grams(), c.left, 1e-9)
		if got := shelfKinds(pl); got != c.kinds {
			t.Errorf("%s: %q, want %q", c.name, got, c.kinds)
		}
	}
}

// TestPairs: 1,000 g of A and 405 g of B at 100:45 pair as 900 g with 405 g,
// which is 1,305 g of mix, and 100 g of A stays over.
func TestPairs(t *testing.T) {
	s := stocked()
	s.Products[0].Bottles[1].Weighings[0].Gross = grams(50 + 405)
	pp := PlanShelf(&s, shelfDay).Products[0]
	within(t, "mix", pp.Mix.Grams(), 1305, 1e-9)
	within(t, "A over", pp.SpareA.Grams(), 100, 1e-9)
	within(t, "B over", pp.SpareB.Grams(), 0, 1e-9)
}

// TestShelfLife goes through how long bottles are good for.
func TestShelfLife(t *testing.T) {
	for _, c := range []struct {
		name  string
		set   func(*Product, *Bottle)
		until Date
		kinds string
	}{
		{"just opened", func(*Product, *Bottle) {}, "2027-11-20", ""},
		{"open for seven months, nothing says how long", func(_ *Product, b *Bottle) { b.Opened = "2026-04-20" }, "2027-04-20", "shelf.aging"},
		{"open for thirteen", func(_ *Product, b *Bottle) { b.Opened = "2025-10-20" }, "2026-10-20", "shelf.expired"},
		{"which its product allows", func(p *Product, b *Bottle) {
			b.Opened, p.MonthsOpened = "2025-10-20", given(unit.Number(24))
		}, "2027-10-20", ""},
		{"opened on the last of August, for six months", func(p *Product, b *Bottle) {
			b.Opened, p.MonthsOpened = "2026-08-31", given(unit.Number(6))
		}, "2027-02-28", ""},
		{"printed on it", func(_ *Product, b *Bottle) { b.Expires = "2026-11-24" }, "2026-11-24", "shelf.expired"},
		{"its last day", func(_ *Product, b *Bottle) { b.Expires = "2026-11-25" }, "2026-11-25", "shelf.soon"},
		{"closed, by its product", func(p *Product, b *Bottle) {
			b.Opened, b.Bought, p.MonthsClosed = "", "2024-11-01", given(unit.Number(24))
		}, "2026-11-01", "shelf.expired"},
		{"opened tomorrow", func(_ *Product, b *Bottle) { b.Opened = "2026-11-26" }, "2027-11-26", "shelf.date"},
		{"empty", func(_ *Product, b *Bottle) { b.Expires, b.Weighings[0].Gross = "2020-01-01", b.Tare }, "2020-01-01", "shelf.unpaired"},
	} {
		s := stocked()
		c.set(&s.Products[0], &s.Products[0].Bottles[0])
		s.Products[0].Bottles[1].Expires = "2030-01-01"
		s.Products[0].Bottles[1].Opened = ""
		s.Products[0].Bottles[1].Bought = ""
		pl := PlanShelf(&s, shelfDay)
		if got := pl.Products[0].Bottles[0].Until; got != c.until {
			t.Errorf("%s: good until %s, want %s", c.name, got, c.until)
		}
		if got := shelfKinds(pl); got != c.kinds {
			t.Errorf("%s: %q, want %q", c.name, got, c.kinds)
		}
	}
}

// TestShelfSlips makes slips that makers make on the shelf and looks for the
// finding that names each.
func TestShelfSlips(t *testing.T) {
	for _, c := range []struct {
		slip, kind string
		level      Level
		make       func(*Shelf, *Product)
	}{
		{"more weighed out than there was", "shelf.missing", Check, func(s *Shelf, _ *Product) {
			s.SetUses(ProjectUses{Project: "p", List: []StockUse{took(1100, 0, "L1")}})
		}},
		{"no ratio", "shelf.ratio", Check, func(_ *Shelf, p *Product) { p.Sheet.Weight = Ratio{} }},
		{"less than the maker wants", "shelf.low", Check, func(_ *Shelf, p *Product) { p.Low = grams(1451) }},
		{"a part that has run out", "shelf.unpaired", Note, func(_ *Shelf, p *Product) { p.Bottles[1].Weighings[0].Gross = grams(50) }},
		{"a heavier bottle typed than was weighed", "shelf.tare", Check, func(_ *Shelf, p *Product) { p.Bottles[0].Tare = grams(1051) }},
		{"a bottle that nobody weighed", "shelf.unknown", Note, func(_ *Shelf, p *Product) { p.Bottles[0].Weighings = nil }},
		{"the wrong year", "shelf.date", Check, func(_ *Shelf, p *Product) { p.Bottles[0].Bought = "2027-11-20" }},
		{"past its day", "shelf.expired", Check, func(_ *Shelf, p *Product) { p.Bottles[0].Expires = "2026-10-31" }},
		{"near its day", "shelf.soon", Note, func(_ *Shelf, p *Product) { p.Bottles[0].Expires = "2026-12-20" }},
		{"open for long", "shelf.aging", Note, func(_ *Shelf, p *Product) { p.Bottles[0].Opened = "2026-05-20" }},
		{"no day at all", "draft", Check, func(s *Shelf, _ *Product) { s.SetDraft("shelf/products/r1/bottles/b2/opened", "soon", "no day") }},
	} {
		s := stocked()
		if got := shelfKinds(PlanShelf(&s, shelfDay)); got != "" {
			t.Fatalf("before any slip: %q", got)
		}
		c.make(&s, &s.Products[0])
		pl := PlanShelf(&s, shelfDay)
		found := false
		for _, f := range pl.Findings {
			if f.Subject != OfShelf || f.Level == Stop || f.What == "" {
				t.Errorf("%s: %+v", c.slip, f)
			}
			if _, err := locate(&s, f.Field); err != nil {
				t.Errorf("%s: it points at %q", c.slip, f.Field)
			}
			found = found || f.Kind == c.kind && f.Level == c.level
		}
		if !found {
			t.Errorf("%s: %q", c.slip, shelfKinds(pl))
		}
	}
}

// FuzzPlanShelf plans whatever can be decoded: it never panics, no bottle holds
// less than nothing, and the same shelf has the same plan.
func FuzzPlanShelf(f *testing.F) {
	s := stocked()
	s.SetUses(ProjectUses{Project: "p", List: []StockUse{took(250, 0, "L1"), took(1100, 1, "")}})
	s.KeepMold(&Project{Name: "board", Mold: tray(300, 200, 30, 10).Mold})
	s.AddKit("r1")
	whole, err := json.Marshal(s)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(whole, "2026-11-25")
	f.Add([]byte(`{"products":[{"id":"r1","monthsOpened":{"value":1e300},"sheet":{"weightRatio":{"a":{"value":1e-300},"b":{"value":1e300}}},"bottles":[{"id":"b","part":"A","opened":"2026-11-25","holds":{"value":1e308}},{"id":"b","part":"A","opened":"9999-99-99","holds":{"value":1e308},"weighings":[{"id":"","at":"0001-01-01T00:00:00Z","gross":{"value":-5}}]}]}],"uses":[{"list":[{"product":"r1","part":"A","mass":1e308},{"product":"r1","part":"A","mass":-1,"entry":"x"}]}]}`), "x")
	f.Fuzz(func(t *testing.T, data []byte, today string) {
		var s Shelf
		if len(data) > 20000 || json.Unmarshal(data, &s) != nil {
			return
		}
		if len(s.Validate()) > 0 {
			s.Molds = nil // a mold of a million cavities takes its time
		}
		c := s.Clone()
		pl := PlanShelf(&c, Date(today))
		if again := PlanShelf(&s, Date(today)); fmt.Sprint(pl) != fmt.Sprint(again) {
			t.Error("another plan of the same shelf")
		}
		for _, p := range pl.Products {
			for _, b := range p.Bottles {
				if b.Net < 0 {
					t.Errorf("%+v", b)
				}
			}
		}
		p := tray(300, 200, 30, 10)
		if len(s.Products) > 0 {
			p.Sheets[0].Product = s.Products[0].ID
		}
		of := Make(p)
		pl.Noticed(of.Findings, &p, &of)
	})
}

// BenchmarkPlanShelf: 20 products with 100 bottles, 1,000 projects that took
// 20,000 readings from them.
func BenchmarkPlanShelf(b *testing.B) {
	var s Shelf
	for range 20 {
		id := s.AddProduct()
		s.Product(id).Sheet = sheetBy("", 45)
		for i := range 5 {
			x := s.Product(id).Bottle(s.AddBottle(id, []PartName{PartA, PartB}[i%2], shelfDay))
			x.Lot, x.Holds = "L1", grams(5000)
		}
	}
	for i := range 1000 {
		u := ProjectUses{Project: fmt.Sprintf("p%04d", i)}
		for j := range 20 {
			x := took(float64(j+1), i%300, "L1")
			x.Entry, x.Product = fmt.Sprint(i, "-", j), s.Products[(i+j)%20].ID
			u.List = append(u.List, x)
		}
		s.SetUses(u)
	}
	for b.Loop() {
		PlanShelf(&s, shelfDay)
	}
}

// TestShelfFields: what is typed on the shelf goes by the rules of its like in a
// project.
func TestShelfFields(t *testing.T) {
	s := stocked()
	s.KeepMold(&Project{Name: "board", Mold: tray(300, 200, 30, 10).Mold})
	s.AddTint()
	s.AddKit("r1")
	mold := s.Molds[0].ID
	for _, c := range []struct{ path, text, shown, problem string }{
		{"shelf/currency", "eur", "EUR", ""},
		{"shelf/products/r1/sheet/name", "slow", "slow", ""},
		{"shelf/products/r1/sheet/eew", "3", "", "from 10 to 5,000"},
		{"shelf/products/r1/sheet/gel", "6 h", "6 h", ""},
		{"shelf/products/r1/sheet/gel/at", "21", "21 °C", ""},
		{"shelf/products/r1/monthsOpened", "9", "9", ""},
		{"shelf/products/r1/monthsOpened", "900", "9", "from 0 to 240 months"},
		{"shelf/products/r1/monthsOpened", "", "", ""},
		{"shelf/products/r1/bottles/b2/opened", "3 Nov 2026", "2026-11-03", ""},
		{"shelf/products/r1/bottles/b2/expires", "11/2027", "2027-11-30", ""},
		{"shelf/products/r1/bottles/b2/expires", "3/4/2027", "2027-11-30", "one way only"},
		{"shelf/products/r1/bottles/b2/part", "C", "A", "not one of: A, B"},
		{"shelf/products/r1/bottles/b2/tare", "61 g", "61 g", ""},
		{"shelf/molds/" + mold + "/mold/depth", "0", "30 mm", "more than nothing"},
		{"shelf/molds/" + mold + "/mold/depth", "35 mm", "35 mm", ""},
		{"shelf/molds/" + mold + "/price", "24.50", "24.50 EUR", ""},
		{"shelf/molds/" + mold + "/price", "24.505", "24.50 EUR", "more decimals"},
		{"shelf/molds/" + mold + "/casts", "12", "12", ""},
		{"shelf/tints/" + s.Tints[0].ID + "/colour", "blue", "", "#rrggbb"},
		{"shelf/products/r1/kits/" + s.Products[0].Kits[0].ID + "/a", "1.5 kg", "1500 g", ""},
		{"shelf/nowhere", "1", "", "no such field"},
		{"mold/depth", "1", "", "no such field"},
	} {
		err := Enter(&s, c.path, c.text)
		if c.problem == "" && err != nil || c.problem != "" && (err == nil || !strings.Contains(err.Error(), c.problem)) {
			t.Errorf("%s %q: %v", c.path, c.text, err)
		}
		if shown, _ := Show(&s, c.path); shown != c.shown {
			t.Errorf("%s %q: shows %q, want %q", c.path, c.text, shown, c.shown)
		}
	}
	if err := Enter(&Project{}, "shelf/currency", "EUR"); err == nil {
		t.Error("a project took a field of the shelf")
	}
	if list := s.Validate(); len(list) != 0 {
		t.Errorf("%v", list)
	}
	s.Products[0].Bottles[0].Part, s.Products[0].Bottles[1].Opened, s.Molds[0].Mold.Depth.Value = "C", "soon", -1
	s.Products[0].Kits[0].Price.Minor = -1
	if list := s.Validate(); len(list) < 5 {
		t.Errorf("%v", list)
	}
	if got := ShelfLabel(&s, "shelf/products/r1/bottles/b2/opened"); got != "Opened of slow" {
		t.Error(got)
	}
}

func TestDates(t *testing.T) {
	for text, want := range map[string]Date{"2026-11-25": shelfDay, " 25  Nov 2026 ": shelfDay, "November 25, 2026": shelfDay, "25. November 2026": shelfDay, "2026-2": "2026-02-28", "2/2028": "2028-02-29", "12.2026": "2026-12-31"} {
		if got, err := ParseDate(text); err != nil || got != want {
			t.Errorf("%q: %q, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "soon", "25/11/2026", "3/4/2026", "2026-02-30", "26", "0"} {
		if got, err := ParseDate(text); err == nil {
			t.Errorf("%q was taken as %s", text, got)
		}
	}
	for _, c := range []struct {
		from   Date
		months int
		want   Date
	}{{"2026-01-31", 1, "2026-02-28"}, {"2024-01-31", 1, "2024-02-29"}, {"2026-11-30", 3, "2027-02-28"}, {"2026-12-15", 12, "2027-12-15"}, {"2026-03-31", 0, "2026-03-31"}, {"", 3, ""}} {
		if got := c.from.AddMonths(c.months); got != c.want {
			t.Errorf("%s and %d months: %s, want %s", c.from, c.months, got, c.want)
		}
	}
}
