package app

import (
	"context"
	"errors"
	"slices"

	"meniscus/model"
	"meniscus/model/unit"
)

// keySupplies is the key of the work on what to buy.
const keySupplies = "supplies"

// Supply is what the pours of some projects take of one product, and what to buy
// for them.
type Supply struct {
	Product  string // of the shelf, by ID; empty where the product is not there
	Sheet    string // of the first project that pours it, by ID
	Project  string // that project, by ID
	Need     model.Need
	Purchase model.Purchase
	Priced   int    // kits of it that have a price
	Unknown  int    // bottles that are not counted, since nobody knows what they hold
	Trouble  string // why nothing can be proposed; empty where something is
}

// Wanted says for what something is to be bought.
type Wanted struct {
	Projects []string        // by ID
	Hidden   map[string]bool // layers that nobody will see, by LayerKey
}

// LayerKey names a layer of a project among those of others.
func LayerKey(project, layer string) string { return project + "/" + layer }

// Supplies works out what to buy of each product for some projects, by what is
// left on the shelf and its kits, and hands it to done on the interface's
// goroutine. The open project counts as it stands, the others are read one by
// one. Where some cannot be read the list is for the others, and the error says
// how many. A later request takes its place.
func (s *Session) Supplies(want Wanted, done func([]Supply, error)) {
	shelf, plan := s.shot.Shelf, s.shot.ShelfPlan
	var open *model.Job
	var readers []func() (model.Project, int, error)
	for _, card := range s.cards {
		switch {
		case !slices.Contains(want.Projects, card.ID):
		case s.shot.Open && card.ID == s.shot.Project.ID:
			p, pl := s.shot.Project, s.shot.Plan
			open = &model.Job{Project: &p, Plan: &pl}
		default:
			readers = append(readers, s.reader(card.ID))
		}
	}
	Replace(s.jobs, keySupplies, func(ctx context.Context) ([]Supply, error) {
		var jobs []model.Job
		if open != nil {
			jobs = append(jobs, *open)
		}
		unread := 0
		for _, read := range readers {
			if ctx.Err() != nil {
				return nil, ctx.Err()
			}
			p, _, err := read()
			if err != nil {
				unread++
				continue
			}
			pl := model.Make(p)
			jobs = append(jobs, model.Job{Project: &p, Plan: &pl})
		}
		var list []Supply
		for _, sheet := range model.ToPour(jobs) {
			if ctx.Err() != nil {
				return nil, ctx.Err()
			}
			list = append(list, supplyOf(sheet, jobs, &shelf, &plan, want.Hidden))
		}
		return list, notCounted(unread)
	}, done)
}

// DropSupplies calls off what Supplies has under way.
func (s *Session) DropSupplies() { s.jobs.Drop(keySupplies) }

// supplyOf works out what to buy of one product.
func supplyOf(sheet *model.Sheet, jobs []model.Job, shelf *model.Shelf, plan *model.ShelfPlan, hidden map[string]bool) Supply {
	v := Supply{Product: sheet.Product, Sheet: sheet.ID}
	for _, j := range jobs {
		if s := j.Project.Sheet(sheet.ID); s == sheet {
			v.Project = j.Project.ID
		}
	}
	var lots []model.Lot
	var kits []model.Kit
	product := shelf.Product(sheet.Product)
	if product == nil {
		v.Product = ""
	} else {
		if pp := plan.Product(product.ID); pp != nil {
			lots, v.Unknown = pp.LotList(), pp.Unknown
		}
		for _, k := range product.Kits {
			kits = append(kits, k.Kit)
			if k.Price.Given() {
				v.Priced++
			}
		}
	}
	need := model.NeedOf(sheet, jobs, lots, unit.Taken[unit.Share]{})
	for i := range need.Layers {
		need.Layers[i].Hidden = hidden[LayerKey(need.Layers[i].Project, need.Layers[i].Layer)]
	}
	v.Need = need.Shared()
	var err error
	var problem *model.Problem
	if v.Purchase, err = model.Buy(v.Need, kits); errors.As(err, &problem) {
		v.Trouble = problem.Message
	} else if err != nil {
		v.Trouble = err.Error()
	}
	return v
}

// CostFacts is what the shelf knows of the cost of the open project.
func (s *Snapshot) CostFacts() model.CostFacts { return s.Shelf.CostFacts(&s.Project, &s.Plan) }

// Offers gives what the open project costs and brings for each size of batch, by
// its own prices and those of the shelf.
func (s *Snapshot) Offers() ([]model.Offer, error) {
	return model.Offers(&s.Project, &s.Plan, s.CostFacts())
}

// LogMinutes adds minutes to what a task of the open project has taken. Touches
// that follow each other are one step.
func (s *Session) LogMinutes(task string, minutes int) error {
	return s.Edit("Log minutes", "log "+task, func(p *model.Project) error {
		if !p.Money.LogMinutes(task, minutes) {
			return ErrSame
		}
		return nil
	})
}
