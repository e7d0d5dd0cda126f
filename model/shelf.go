package model

import (
	"fmt"
	"reflect"
	"strings"
	"time"

	"meniscus/model/unit"
)

// shelfRoot begins the paths of the fields of the shelf.
const shelfRoot = "shelf"

// ShelfPath tells whether a path leads to a field of the shelf, and not of a
// project.
func ShelfPath(path string) bool {
	return len(path) > len(shelfRoot) && path[:len(shelfRoot)+1] == shelfRoot+"/"
}

// Shelf is what the shop has on hand: one document for the whole notebook. Like
// a Project it holds only what the maker measured and chose, its lists hold
// their items by ID, and an ID is never reused. PlanShelf turns it into a
// ShelfPlan.
type Shelf struct {
	Mark     string     `json:"mark,omitempty"` // ends the IDs of its products, so that a project from another notebook is never taken for one that pours from here
	Serial   int        `json:"serial"`         // the last number given to an item's ID
	Style    unit.Style `json:"style"`
	Currency Currency   `json:"currency,omitempty"` // ISO 4217, of its prices

	Products    []Product     `json:"products,omitempty"`
	Tints       []ShelfTint   `json:"tints,omitempty"`
	Molds       []ShelfMold   `json:"molds,omitempty"`
	Cups        []ShelfCup    `json:"cups,omitempty"`
	Inserts     []ShelfInsert `json:"inserts,omitempty"`
	Consumables []Consumable  `json:"consumables,omitempty"`

	Losses Losses `json:"losses,omitzero"` // the maker's own, that new pieces begin with

	Uses   []ProjectUses `json:"uses,omitempty"` // what projects took, each list as UsesOf gives it, by project
	Drafts []Draft       `json:"drafts,omitempty"`
}

// PartName is one of the two parts of a product.
type PartName string

// The parts: resin and hardener.
const (
	PartA PartName = "A"
	PartB PartName = "B"
)

// Product is a casting resin with its hardener, as it is kept in the shop.
type Product struct {
	ID           string                  `json:"id"`
	Sheet        Sheet                   `json:"sheet"`                 // its data sheet, which holds its name
	MonthsClosed unit.Taken[unit.Number] `json:"monthsClosed,omitzero"` // that it keeps in a closed bottle
	MonthsOpened unit.Taken[unit.Number] `json:"monthsOpened,omitzero"` // and in an opened one; not given means 12, with a band of 6 to 24
	Low          unit.Taken[unit.Mass]   `json:"low,omitzero"`          // less mix than this that can be made is low
	Kits         []ShelfKit              `json:"kits,omitempty"`        // that can be bought of it
	Bottles      []Bottle                `json:"bottles,omitempty"`
}

// ShelfKit is a kit that can be bought of a product.
type ShelfKit struct {
	ID string `json:"id"`
	Kit
}

// Bottle is one bottle of a part. One that is gone stays, so that what came out
// of it is still known.
type Bottle struct {
	ID        string                `json:"id"`
	Part      PartName              `json:"part"`
	Lot       string                `json:"lot,omitempty"`
	Bought    Date                  `json:"bought,omitempty"`
	Opened    Date                  `json:"opened,omitempty"`
	Expires   Date                  `json:"expires,omitempty"` // as it is printed on
	Tare      unit.Taken[unit.Mass] `json:"tare,omitzero"`     // of the empty bottle, with its cap
	Holds     unit.Taken[unit.Mass] `json:"holds,omitzero"`    // when new, as it is printed on
	Weighings []Weighing            `json:"weighings,omitempty"`
	Gone      bool                  `json:"gone,omitempty"` // it is no longer there
}

// Weighing is what a bottle weighed.
type Weighing struct {
	ID    string                `json:"id"`
	At    time.Time             `json:"at"` // UTC
	Gross unit.Taken[unit.Mass] `json:"gross"`
}

// ShelfTint is a colorant.
type ShelfTint struct {
	ID      string                `json:"id"`
	Name    string                `json:"name"`
	Colour  string                `json:"colour,omitempty"` // #rrggbb as it looks in a mix
	Kind    ColorantKind          `json:"kind,omitempty"`
	Grain   unit.Dim              `json:"grain,omitzero"`
	Left    unit.Taken[unit.Mass] `json:"left,omitzero"`    // when it was counted
	Counted time.Time             `json:"counted,omitzero"` // UTC: when that was; zero is before all that was taken
	Price   unit.Money            `json:"price,omitzero"`   // of so much as was left then
}

// ShelfMold is a mold that is kept.
type ShelfMold struct {
	ID    string     `json:"id"`
	Mold  Mold       `json:"mold"` // which holds its name
	Price unit.Money `json:"price,omitzero"`
	Casts int        `json:"casts,omitempty"` // made in it
	Lasts int        `json:"lasts,omitempty"` // casts that it is good for; 0 is not known
}

// ShelfCup is a kind of cup to mix or measure in.
type ShelfCup struct {
	ID     string                `json:"id"`
	Name   string                `json:"name"`
	Vessel Vessel                `json:"vessel,omitzero"`
	Weight unit.Taken[unit.Mass] `json:"weight,omitzero"` // empty
	Number int                   `json:"number,omitempty"`
	Price  unit.Money            `json:"price,omitzero"` // each
}

// ShelfInsert is a kind of insert of which some are kept.
type ShelfInsert struct {
	ID      string     `json:"id"`
	Insert  Insert     `json:"insert"`           // which holds its name; its own count is that for one piece
	Number  int        `json:"number,omitempty"` // when they were counted
	Counted time.Time  `json:"counted,omitzero"` // UTC: when that was; zero is before all that was taken
	Price   unit.Money `json:"price,omitzero"`   // each
}

// Consumable is what wears away: abrasive by its grit, rags, gloves, mask
// cartridges.
type Consumable struct {
	ID      string     `json:"id"`
	Name    string     `json:"name"`
	Grit    int        `json:"grit,omitempty"`   // 0 for what has none
	Number  int        `json:"number,omitempty"` // when they were counted
	Counted time.Time  `json:"counted,omitzero"` // UTC: when that was; zero is before all that was taken
	Price   unit.Money `json:"price,omitzero"`   // each
}

func (s *Shelf) within() (reflect.Value, string) { return reflect.ValueOf(s).Elem(), shelfRoot }
func (s *Shelf) pen() unit.Style                 { return s.Style }
func (s *Shelf) zone() *time.Location            { return time.UTC }
func (s *Shelf) drafts() *[]Draft                { return &s.Drafts }

func (s *Shelf) takeMoney(t *unit.Money, text string) error {
	if text == "" {
		*t = unit.Money{}
		return nil
	}
	if s.Currency == "" {
		return &fieldError{"choose the currency of the shelf first, such as EUR or USD"}
	}
	got, err := unit.ParseMoney(text, string(s.Currency))
	if err == nil {
		*t = got
	}
	return err
}

// takeCurrency changes the currency as long as no price is given in another.
func (s *Shelf) takeCurrency(t *Currency, text string) error {
	code := Currency("")
	if text != "" {
		var err error
		if code, err = ParseCurrency(text); err != nil {
			return &fieldError{wantCurrency}
		}
	}
	for _, m := range s.prices() {
		if m.Given() && m.Currency != string(code) {
			return &fieldError{"prices on the shelf are given in " + m.Currency + ": clear them first"}
		}
	}
	*t = code
	return nil
}

// prices lists all prices, given or not.
func (s *Shelf) prices() (list []unit.Money) {
	for i := range s.Products {
		for _, k := range s.Products[i].Kits {
			list = append(list, k.Price)
		}
	}
	for _, x := range s.Tints {
		list = append(list, x.Price)
	}
	for _, x := range s.Molds {
		list = append(list, x.Price)
	}
	for _, x := range s.Cups {
		list = append(list, x.Price)
	}
	for _, x := range s.Inserts {
		list = append(list, x.Price)
	}
	for _, x := range s.Consumables {
		list = append(list, x.Price)
	}
	return list
}

// HalfWidth is how far off a reading with an instrument may be.
func (s *Shelf) HalfWidth(by unit.Instrument) unit.Length {
	if by == "" {
		by = unit.Rule
	}
	return unit.DefaultAccuracy(by)
}

// SetDraft keeps text that could not be taken, with the reason.
func (s *Shelf) SetDraft(field, text, reason string) { setDraft(s, field, text, reason) }

// DraftOf gives the text kept for a field that could not be taken.
func (s *Shelf) DraftOf(field string) (Draft, bool) { return draftOf(s, field) }

// Product finds a product by ID; nil when there is none.
func (s *Shelf) Product(id string) *Product {
	for i := range s.Products {
		if s.Products[i].ID == id {
			return &s.Products[i]
		}
	}
	return nil
}

// Bottle finds a bottle by ID; nil when there is none.
func (p *Product) Bottle(id string) *Bottle {
	for i := range p.Bottles {
		if p.Bottles[i].ID == id {
			return &p.Bottles[i]
		}
	}
	return nil
}

// Validate reports everything in the shelf that no maker could have entered, as
// that of a Project does.
func (s Shelf) Validate() []Problem {
	v := validator{ids: map[string]bool{}}
	v.walk(shelfRoot, reflect.ValueOf(&s).Elem())
	for i := range s.Products {
		p := &s.Products[i]
		at := shelfRoot + "/products/" + p.ID
		for j := range p.Kits {
			if field, message := p.Kits[j].fault(); message != "" {
				v.say(at+"/kits/"+p.Kits[j].ID+"/"+field, message)
			}
		}
		for j := range p.Bottles {
			b := &p.Bottles[j]
			if b.Part != PartA && b.Part != PartB {
				v.say(at+"/bottles/"+b.ID+"/part", "say which part it holds: A or B")
			}
		}
	}
	for _, m := range s.prices() {
		if message := moneyFault(m); message != "" {
			v.say(shelfRoot, message)
			break
		}
	}
	for i := range s.Uses {
		for j := range s.Uses[i].List {
			u := &s.Uses[i].List[j]
			if m := float64(u.Mass); !(m >= 0 && m <= 2*someMass.high) {
				v.say(fmt.Sprintf("%s/uses/%d/list/%d/mass", shelfRoot, i, j), "this should be "+someMass.words)
			}
			if u.Count < 0 {
				v.say(fmt.Sprintf("%s/uses/%d/list/%d/count", shelfRoot, i, j), "this should be "+anyCount.words)
			}
		}
	}
	return v.list
}

// Usual tells what stands in for a field of the shelf; false where nothing does.
func (s *Shelf) Usual(path string) (Usual, bool) {
	parts := strings.Split(path, "/")
	if len(parts) < 4 || parts[1] != "products" {
		return Usual{}, false
	}
	p := s.Product(parts[2])
	switch {
	case p == nil:
	case parts[3] == "sheet" && len(parts) > 4:
		return p.Sheet.usual(s.Style, strings.Join(parts[4:], "/"))
	case parts[3] == "monthsOpened":
		return Usual{Value: itoa(typicalMonths), Band: fmt.Sprintf("between %d and %d months", fewestMonths, mostMonths), Why: commonPractice}, true
	}
	return Usual{}, false
}
