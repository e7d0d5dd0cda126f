package model

import (
	"fmt"
	"time"

	"meniscus/model/unit"
)

// ThingPlan is what is left of a thing that is counted by hand, less what
// projects took of it since: a tint by its mass, an insert and what wears away by
// their number.
type ThingPlan struct {
	ID    string    `json:"id"`
	Tint  bool      `json:"tint,omitempty"`
	Known bool      `json:"known,omitempty"` // it was counted
	Left  unit.Mass `json:"left,omitempty"`  // of a tint
	Count int       `json:"count,omitempty"` // of what is counted
	Mass  unit.Mass `json:"mass,omitempty"`  // taken since it was counted, of a tint
	Taken int       `json:"taken,omitempty"` // and of what is counted
}

// Since tells whether anything was taken since it was counted.
func (t *ThingPlan) Since() bool { return t.Mass > 0 || t.Taken > 0 }

// LeftWords writes what is left of it: a tint as finely as it is weighed.
func (t *ThingPlan) LeftWords(s unit.Style) string {
	switch {
	case !t.Known:
		return "not counted"
	case t.Tint:
		return s.MassTo(t.Left, TintGrain(s)) + " left"
	}
	return itoa(t.Count) + " on hand"
}

// TakenWords writes what was taken of it since it was counted.
func (t *ThingPlan) TakenWords(s unit.Style) string {
	if t.Tint {
		return s.MassTo(t.Mass, TintGrain(s)) + " taken since it was weighed"
	}
	return itoa(t.Taken) + " taken since they were counted"
}

// Thing finds the plan of a thing by ID; nil when there is none.
func (pl *ShelfPlan) Thing(id string) *ThingPlan {
	return named(pl.Things, id, func(t *ThingPlan) string { return t.ID })
}

// thing is one thing of the shelf that is counted by hand.
type thing struct {
	id, name, path string
	left           *unit.Taken[unit.Mass] // of a tint; nil for what is counted
	number         *int
	counted        *time.Time
}

// things lists what is counted by hand and drawn down by what projects take.
func (s *Shelf) things() (list []thing) {
	for i := range s.Tints {
		x := &s.Tints[i]
		list = append(list, thing{id: x.ID, name: x.Name, path: shelfRoot + "/tints/" + x.ID, left: &x.Left, counted: &x.Counted})
	}
	for i := range s.Inserts {
		x := &s.Inserts[i]
		list = append(list, thing{id: x.ID, name: x.Insert.Name, path: shelfRoot + "/inserts/" + x.ID, number: &x.Number, counted: &x.Counted})
	}
	for i := range s.Consumables {
		x := &s.Consumables[i]
		list = append(list, thing{id: x.ID, name: x.Name, path: shelfRoot + "/consumables/" + x.ID, number: &x.Number, counted: &x.Counted})
	}
	return list
}

// tint finds a tint by ID; nil when there is none.
func (s *Shelf) tint(id string) *ShelfTint {
	return named(s.Tints, id, func(t *ShelfTint) string { return t.ID })
}

// counted gives the name of an insert or of what wears away by ID; false where it
// is not there.
func (s *Shelf) counted(id string) (string, bool) {
	for _, x := range s.things() {
		if x.id == id && x.number != nil {
			return x.name, true
		}
	}
	return "", false
}

// Recount notes when things were counted: now, where before tells of another
// amount, or of none.
func (s *Shelf) Recount(before *Shelf, now time.Time) {
	was := map[string]thing{}
	for _, x := range before.things() {
		was[x.id] = x
	}
	for _, x := range s.things() {
		old, there := was[x.id]
		if !there || x.left != nil && x.left.Value != old.left.Value || x.number != nil && *x.number != *old.number {
			*x.counted = now.UTC()
		}
	}
}

// TakeCount takes what is left of a thing by its plan as counted. What a tint cost
// goes down with it. False where nothing changes.
func (s *Shelf) TakeCount(t ThingPlan) bool {
	for _, x := range s.things() {
		switch {
		case x.id != t.ID || !t.Since():
		case x.left != nil:
			tint := s.tint(t.ID)
			price := unit.Money{}
			if t.Left > 0 && tint.Left.Value > 0 {
				if p, err := tint.Price.Times(t.Left.Per(tint.Left.Value)); err == nil {
					price = p
				}
			}
			tint.Left, tint.Price = unit.Taken[unit.Mass]{Value: t.Left, Written: s.Style.MassTo(t.Left, TintGrain(s.Style))}, price
			dropDraft(s, x.path+"/left")
			return true
		default:
			*x.number = t.Count
			dropDraft(s, x.path+"/number")
			return true
		}
	}
	return false
}

// thing works out what is left of one thing. What two projects tell of, one being
// a copy of the other, counts once.
func (m *shelfMaker) thing(x thing) ThingPlan {
	t := ThingPlan{ID: x.id, Tint: x.left != nil}
	told := map[string]bool{}
	var last *StockUse
	for i := range m.shelf.Uses {
		for j := range m.shelf.Uses[i].List {
			u := &m.shelf.Uses[i].List[j]
			if u.Thing != x.id || told[u.Entry] || !u.At.After(*x.counted) {
				continue
			}
			told[u.Entry] = true
			t.Mass, t.Taken = t.Mass+u.Mass, t.Taken+u.Count
			if last == nil || u.At.After(last.At) {
				last = u
			}
		}
	}
	var short string
	switch {
	case t.Tint:
		t.Known, t.Left, t.Taken = x.left.Given(), max(0, x.left.Value-t.Mass), 0
		if over := t.Mass - x.left.Value; t.Known && over >= TintGrain(m.shelf.Style)/2 {
			short = m.shelf.Style.MassTo(over, TintGrain(m.shelf.Style))
		}
	default:
		t.Known, t.Count, t.Mass = *x.number > 0 || !x.counted.IsZero(), max(0, *x.number-t.Taken), 0
		if over := t.Taken - *x.number; t.Known && over > 0 {
			short = itoa(over)
		}
	}
	if short != "" {
		m.say(Note, "shelf.short", x.path, "More of "+orWord(x.name, "a thing on the shelf")+" was used than was counted",
			fmt.Sprintf("%s more, last on %s", short, DateOf(last.At).Words()), "count it again")
	}
	return t
}
