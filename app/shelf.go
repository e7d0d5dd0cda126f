package app

import (
	"errors"
	"slices"
	"time"

	"meniscus/model"
)

// The shelf is one document for the whole notebook, beside the projects. It goes
// to the disk by the same line of saves, and has steps of undo of its own. What
// projects took from it is kept with them and is no step of it.
type shelving struct {
	now     model.Shelf
	states  []model.Revision // oldest first
	current int              // number of the one that now builds on; 0 for none
	turning bool             // an undo or redo is under way, so that edits wait
	before  *model.Shelf     // as it is kept, where a look has tried another one out; else nil
	lastKey string           // of the last edit on the disk
	lastAt  time.Time
	day     model.Date // that its plan is of
}

// loadShelf reads the shelf. One that is damaged keeps no one from the projects.
func (s *Session) loadShelf() {
	m, states, current, err := s.store.LoadShelf()
	if err != nil && s.shot.Saved.What == "" {
		s.shot.Saved.What, s.shot.Saved.Do = trouble(err)
	}
	s.shelf.now, s.shelf.states, s.shelf.current, s.shelf.before = m, states, current, nil
	s.shelf.day = s.today()
	s.shot.Shelf, s.shot.ShelfPlan = m, model.PlanShelf(&m, s.shelf.day)
	s.shot.ShelfUndo, s.shot.ShelfRedo = s.shelfLabels()
}

// today is the day in the shop.
func (s *Session) today() model.Date { return model.DateOf(s.clock.Now().Local()) }

// planShelf works out what is left in the background and publishes it with the
// shelf.
func (s *Session) planShelf() {
	shelf, day := s.shelf.now, s.today()
	s.shelf.day = day
	Newest(s.jobs, "shelf", func() model.ShelfPlan { return model.PlanShelf(&shelf, day) }, func(plan model.ShelfPlan) {
		s.shot.Edition++
		s.shot.Shelf, s.shot.ShelfPlan = shelf, plan
		s.publish()
	})
}

// endTrying puts the shelf back as it is kept, once a look into a copy is over.
func (s *Session) endTrying() {
	if !s.looking() && s.shelf.before != nil {
		s.shelf.now, s.shelf.before = *s.shelf.before, nil
		s.planShelf()
	}
}

// noteUses has the shelf follow what the open project took from it. The whole
// list takes the place of the one before, so that nothing counts twice; on the
// disk it goes with the project.
func (s *Session) noteUses() {
	if !s.looking() && s.shelf.now.SetUses(model.UsesOf(&s.project)) {
		s.planShelf()
	}
}

// EditShelf is Edit for the shelf: change works on a copy, which is one step of
// the shelf's own undo, is on its way to the disk, and is planned. Edits with the
// same key (not empty) in a row are one step. In a notebook that can only be read,
// and in a look into a copy, the change is planned but not kept; with the look it
// ends.
func (s *Session) EditShelf(label, key string, change func(*model.Shelf) error) error {
	if s.shelf.turning {
		s.inLine(waiting{do: func() {
			s.tell(label, s.EditShelf(label, key, change))
		}})
		return nil
	}
	m := s.shelf.now.Clone()
	if m.Serial == 0 && s.open {
		m.Style = s.project.Style // nothing was ever put on it: in the maker's units and currency
		m.Currency = model.Currency(s.project.PriceCurrency())
	}
	if m.Mark == "" {
		m.Mark = s.newID()
	}
	if err := change(&m); err != nil {
		return err
	}
	m.Uses = s.shelf.now.Uses
	m.Recount(&s.shelf.now, s.instant())
	if !s.trying() && s.shelf.current == 0 && s.lastSave(true) == nil { // so that the first step can be undone too
		empty, now := s.shelf.now, s.clock.Now()
		s.enqueue(&save{shelf: &empty, label: "Empty shelf", at: now, dated: now})
	}
	amend := s.continues(key, true)
	if s.looking() && s.shelf.before == nil {
		kept := s.shelf.now
		s.shelf.before = &kept
	}
	s.shelf.now = m
	if !s.trying() {
		now := s.clock.Now()
		s.enqueue(&save{shelf: &m, label: label, key: key, amend: amend, at: now, dated: now})
	}
	s.planShelf()
	return nil
}

// EnterShelf takes what the maker typed into a field of the shelf, as Enter does.
func (s *Session) EnterShelf(field, text string) {
	label := model.ShelfLabel(&s.shelf.now, field)
	s.tell(label, s.EditShelf(label, "field "+field, func(m *model.Shelf) error { return enter(m, field, text) }))
}

// shelfLanded notes a state of the shelf that is on the disk.
func (s *Session) shelfLanded(v *save) {
	h := &s.shelf
	// What was undone before is gone, as it is on the disk.
	list := slices.DeleteFunc(slices.Clone(h.states), func(r model.Revision) bool { return r.Number > h.current || r.Number == v.kept.Number })
	h.current, h.lastKey, h.lastAt = v.kept.Number, v.key, v.at
	if len(list) >= mostShelfSteps {
		list = list[len(list)-mostShelfSteps+1:]
	}
	h.states = append(list, v.kept)
}

// mostShelfSteps is how many states of the shelf undo can lead to, fewer than the
// store keeps.
const mostShelfSteps = 150

// shelfState gives a saved state of the shelf next to the current one: by -1 the
// one before, by 1 the one after.
func (s *Session) shelfState(by int) (model.Revision, bool) {
	i := slices.IndexFunc(s.shelf.states, func(r model.Revision) bool { return r.Number == s.shelf.current })
	if i < 0 || i+by < 0 || i+by >= len(s.shelf.states) {
		return model.Revision{}, false
	}
	return s.shelf.states[i+by], true
}

// shelfLabels names what undo of the shelf would take back and redo bring back.
func (s *Session) shelfLabels() (undo, redo string) {
	if s.trying() {
		return "", ""
	}
	if v := s.lastSave(true); v != nil {
		if _, before := s.shelfState(0); before || !v.amend {
			undo = v.label
		}
		return undo, ""
	}
	if _, ok := s.shelfState(-1); ok {
		now, _ := s.shelfState(0)
		undo = now.Label
	}
	if r, ok := s.shelfState(1); ok {
		redo = r.Label
	}
	return undo, redo
}

// UndoShelf goes back one step of the shelf. What projects took stays taken.
func (s *Session) UndoShelf() { s.turnShelf(-1) }

// RedoShelf goes forward one step of the shelf again.
func (s *Session) RedoShelf() { s.turnShelf(1) }

// turnShelf makes a neighbouring state of the shelf the current one, once all
// edits before it are on the disk.
func (s *Session) turnShelf(by int) {
	if s.trying() {
		return
	}
	s.inLine(waiting{do: func() {
		s.moving, s.shelf.turning = true, true
		done := func() {
			s.shelf.turning = false
			s.moved()
		}
		s.atRestOr(func() {
			to, ok := s.shelfState(by)
			if !ok {
				done()
				return
			}
			s.jobs.InOrder(func() {
				m, err := s.store.TurnShelf(to.Number)
				s.jobs.hand(func() {
					if err != nil {
						s.complain(err)
					} else {
						m.Uses = s.shelf.now.Uses
						s.shelf.now, s.shelf.current, s.shelf.lastKey = m, to.Number, ""
						s.planShelf()
					}
					done()
				})
			})
		}, done)
	}})
}

// TakeMold makes a mold of the shelf that of the open project.
func (s *Session) TakeMold(id string) error {
	for _, m := range s.shelf.now.Molds {
		if m.ID == id {
			return s.Edit("Take mold from the shelf", "", func(p *model.Project) error {
				model.TakeMold(p, m)
				return nil
			})
		}
	}
	return errNotThere
}

// TakeProduct copies a product's data sheet into the open project, linked to the
// shelf.
func (s *Session) TakeProduct(id string) error {
	from := s.shelf.now.Product(id)
	if from == nil {
		return errNotThere
	}
	product := *from
	return s.Edit("Take "+product.Sheet.Name+" from the shelf", "", func(p *model.Project) error {
		sheet := model.TakeProduct(p, product)
		for i := range p.Layers { // those that have none yet
			if p.Layers[i].Sheet == "" {
				p.Layers[i].Sheet = sheet
			}
		}
		return nil
	})
}

// TakeCup makes a cup of the shelf the one that the open project is mixed in.
func (s *Session) TakeCup(id string) error {
	for _, c := range s.shelf.now.Cups {
		if c.ID == id {
			return s.Edit("Take "+c.Name+" from the shelf", "", func(p *model.Project) error {
				model.TakeCup(p, c)
				return nil
			})
		}
	}
	return errNotThere
}

// TakeInsert adds an insert of the shelf to the open project.
func (s *Session) TakeInsert(id string) error {
	for _, x := range s.shelf.now.Inserts {
		if x.ID == id {
			return s.Edit("Take "+x.Insert.Name+" from the shelf", "", func(p *model.Project) error {
				model.TakeInsert(p, x)
				return nil
			})
		}
	}
	return errNotThere
}

// TakeTint makes a colorant of the shelf the tint of a layer of the open project.
func (s *Session) TakeTint(layer, id string) error {
	for _, t := range s.shelf.now.Tints {
		if t.ID == id {
			return s.Edit("Take "+t.Name+" from the shelf", "", func(p *model.Project) error {
				model.TakeTint(p, layer, t)
				return nil
			})
		}
	}
	return errNotThere
}

// KeepMold keeps the open project's mold on the shelf.
func (s *Session) KeepMold() error {
	if !s.open {
		return errNoProject
	}
	return s.EditShelf("Keep the mold of "+s.project.Name, "", func(m *model.Shelf) error {
		m.KeepMold(&s.project)
		return nil
	})
}

// KeepCup keeps the open project's measuring cup on the shelf.
func (s *Session) KeepCup() error {
	if !s.open {
		return errNoProject
	}
	return s.EditShelf("Keep the cup of "+s.project.Name, "", func(m *model.Shelf) error {
		m.KeepCup(&s.project)
		return nil
	})
}

// KeepInsert keeps an insert of the open project on the shelf, and links the
// project's to it.
func (s *Session) KeepInsert(id string) error {
	for _, x := range s.project.Inserts {
		if !s.open || x.ID != id {
			continue
		}
		stock := ""
		err := s.EditShelf("Keep "+x.Name, "", func(m *model.Shelf) error {
			stock = m.KeepInsert(x)
			return nil
		})
		if err != nil || stock == "" {
			return err
		}
		return s.Edit("Set "+x.Name+" from the shelf", "", func(p *model.Project) error {
			if x := p.Insert(id); x != nil {
				x.Stock = stock
			}
			return nil
		})
	}
	return errNotThere
}

// KeepProduct keeps the product of a data sheet of the open project on the shelf,
// and links the sheet to it.
func (s *Session) KeepProduct(sheet string) error {
	from := s.project.Sheet(sheet)
	if !s.open || from == nil {
		return errNotThere
	}
	copied, id := *from, ""
	err := s.EditShelf("Keep "+copied.Name, "", func(m *model.Shelf) error {
		id = m.KeepProduct(copied)
		return nil
	})
	if err != nil || id == "" || id == copied.Product {
		return err
	}
	return s.Edit("Pour "+copied.Name+" from the shelf", "", func(p *model.Project) error {
		if x := p.Sheet(sheet); x != nil {
			x.Product = id
		}
		return nil
	})
}

// WeighBottle notes what a bottle of the shelf weighs now, as typed. Errors are a
// *model.Problem.
func (s *Session) WeighBottle(product, bottle, gross string) error {
	now := s.instant()
	return s.EditShelf("Weigh a bottle", "", func(m *model.Shelf) error { return m.Weigh(product, bottle, gross, now) })
}

// AddSealMixed notes that A and B of a data sheet of the open project were weighed
// for the wood's seal coat, each alone, as typed: they come off the bottles.
// Errors are a *model.Problem.
func (s *Session) AddSealMixed(sheet, a, b, lot string) error {
	return s.log(time.Time{}, func(p *model.Project) (model.Entry, error) { return p.SealMixed(sheet, a, b, lot) })
}

// AddUsed notes that something of the shelf was used up for the open project, as
// typed: so many, or of a tint so much. Errors are a *model.Problem.
func (s *Session) AddUsed(thing, amount string) error {
	if !s.open {
		return errNoProject
	}
	return s.log(time.Time{}, func(p *model.Project) (model.Entry, error) { return p.Used(&s.shelf.now, thing, amount) })
}

// TakeCount takes what is left of a thing of the shelf, by the count before and
// what was taken since, as counted now.
func (s *Session) TakeCount(thing string) error {
	t := s.shot.ShelfPlan.Thing(thing)
	if t == nil {
		return errNotThere
	}
	left := *t
	return s.EditShelf("Count what is left", "", func(m *model.Shelf) error {
		if !m.TakeCount(left) {
			return ErrSame
		}
		return nil
	})
}

var errNotThere = errors.New("it is no longer on the shelf")
