package views

import (
	"reflect"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/unit"
)

// The longest words that are shown: of our own invention, as a careful maker writes
// who keeps several pieces apart, with one word that cannot be broken.
const (
	longName    = "Sideboardplattenverlängerung with a river between two halves, for the north entrance hall"
	longWood    = "Horse chestnut, spalted and stabilised by the maker"
	longLot     = "2026-11-25/RX-000417-B, second drum"
	longNote    = "The far slab came out of the dryer with a bow of half a finger; it was planed on the underside only, so that the grain of the upper face stays as it was when the customer chose it."
	longProduct = "Slow deep-pour casting resin for river tables, winter hardener, clear"
)

// lengthen gives all names, notes, lots and woods below v the longest words, takes
// away how values were written, so that they are shown in the units of the document,
// and makes every amount of money one of twelve digits.
func lengthen(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			lengthen(v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			lengthen(v.Index(i))
		}
	case reflect.Struct:
		if m, ok := v.Addr().Interface().(*unit.Money); ok && m.Currency != "" {
			m.Minor = 999_999_999_999
			return
		}
		for i := range v.NumField() {
			f := v.Field(i)
			if words, ok := longWords[v.Type().Field(i).Name]; ok && f.Kind() == reflect.String && f.String() != "" {
				f.SetString(words)
			} else if f.CanSet() && v.Type() != reflect.TypeFor[time.Time]() {
				lengthen(f)
			}
		}
	}
}

var longWords = map[string]string{"Name": longName, "What": longName, "Species": longWood, "Lot": longLot, "Note": longNote, "Written": ""}

// longest opens a notebook with the longest texts and the largest numbers in a
// project and on the shelf: a demo job with everything in it that a window has a
// place for, its lengths in fractions of an inch.
func longest(t testing.TB) *bench {
	t.Helper()
	return longestOn(newBench(t, newFakeStore()))
}

// longestOn is longest for a bench over an empty notebook.
func longestOn(b *bench) *bench {
	t := b.t
	t.Helper()
	b.demo("breakfast-boards")
	b.demo("hall-shelf")
	do := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		b.settle()
	}
	do(b.KeepProduct(b.Snapshot().Project.Sheets[0].ID))
	do(b.Session.Edit("Everything", "", func(p *model.Project) error {
		layer := p.Layers[0].ID
		p.AddVoid(p.Pieces[0].ID)
		p.AddInsert(model.InsertRing)
		p.AddAdditive(layer)
		p.AddSeam()
		p.AddSlab("slab")
		handle := p.Mount(p.AddMount(model.MountHandle))
		handle.Screw, handle.Apart = "M4", unit.Dim{Value: 0.128}
		p.Note = longNote
		for i := range p.Layers {
			p.Layers[i].Tint.Name = longName
		}
		for _, x := range p.Layers[0].Additives {
			x.Name = longName
		}
		p.Money.Currency = "USD"
		p.AddExtra("extra")
		p.AddTask("task", model.PerCast)
		p.Money.Rate = unit.Money{Minor: 1, Currency: "USD"}
		for i := range p.Money.Lines {
			p.Money.Lines[i].Each = unit.Money{Minor: 1, Currency: "USD"}
		}
		lengthen(reflect.ValueOf(p))
		for i := range p.Sheets {
			p.Sheets[i].Name = longProduct
		}
		p.Style = unit.Style{Lengths: unit.InInches, Volumes: unit.InFluidOunces, Masses: unit.InOunces, Temperatures: unit.InFahrenheit}
		return nil
	}))
	do(b.EditShelf("Everything", "", func(s *model.Shelf) error {
		s.Currency = "USD"
		product := s.Products[0].ID
		today := model.Date("2026-11-25")
		s.AddBottle(product, model.PartA, today)
		s.AddBottle(product, model.PartB, today)
		s.AddKit(product)
		s.AddTint()
		s.AddCup()
		s.AddConsumable()
		for i := range s.Products[0].Bottles {
			x := &s.Products[0].Bottles[i]
			x.Lot, x.Opened = longLot, today
		}
		k := &s.Products[0].Kits[0]
		k.Name, k.A, k.B, k.Price = longName, 100*unit.Kilogram, 50*unit.Kilogram, unit.Money{Minor: 1, Currency: "USD"}
		s.Tints[0].Name, s.Cups[0].Name, s.Consumables[0].Name = longName, longName, longName
		s.Consumables[0].Number, s.Consumables[0].Price = 1_000_000, unit.Money{Minor: 1, Currency: "USD"}
		lengthen(reflect.ValueOf(s))
		s.Products[0].Sheet.Name = longProduct
		return nil
	}))
	do(b.KeepMold())
	do(b.KeepInsert(b.Snapshot().Project.Inserts[0].ID))
	b.Enter("mold/depth", "as deep as the long side of the old form, less a finger") // a draft with its reason
	b.settle()
	b.until("the simulation is in", func() bool { return b.Snapshot().CuringFresh })
	return b
}
