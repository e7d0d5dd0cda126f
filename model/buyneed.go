package model

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"meniscus/model/unit"
)

// Job is a project with its plan, as buying and cost look at it.
type Job struct {
	Project *Project
	Plan    *Plan
}

// LayerNeed is what one pour that is still to come takes of a product: A and B
// with all losses, at the confidence that its mix is planned by, beyond what is
// in its cups.
type LayerNeed struct {
	Project string    `json:"project"` // by ID
	Layer   string    `json:"layer"`   // by ID
	Name    string    `json:"name"`    // of the layer, and of the project where there are several
	A       unit.Mass `json:"a"`
	B       unit.Mass `json:"b"`
	Sure    float64   `json:"sure"`             // the confidence
	Lot     string    `json:"lot,omitempty"`    // that the maker has chosen for it
	Hidden  bool      `json:"hidden,omitempty"` // nobody will see it, so it may be of several lots
}

// Need is what the bottles to be bought of one product must give, and where
// that comes from.
type Need struct {
	Product string            `json:"product"`
	Parts   float64           `json:"parts"`   // B per 100 of A by weight; 0 where it is not known
	Residue Known[unit.Share] `json:"residue"` // that stays in a bottle, of what it held
	Layers  []LayerNeed       `json:"layers"`
	Lots    []Lot             `json:"lots"`
	Uses    []LotUse          `json:"uses"`
	A       unit.Mass         `json:"a"` // to buy, when each layer that is seen comes from one lot
	B       unit.Mass         `json:"b"`
	MixedA  unit.Mass         `json:"mixedA"` // to buy, if lots might meet within a layer
	MixedB  unit.Mass         `json:"mixedB"`
	Missing []Problem         `json:"missing,omitempty"` // layers that could not be counted, and why
}

// ToPour lists the products that pours of the jobs take, one sheet of each, in
// order.
func ToPour(jobs []Job) []*Sheet {
	var list []*Sheet
	for _, j := range jobs {
		for i := range j.Plan.Layers {
			s := j.Project.Sheet(j.Plan.Layers[i].Sheet)
			if s != nil && !slices.ContainsFunc(list, s.sameProduct) {
				list = append(list, s)
			}
		}
	}
	return list
}

// sameProduct tells whether two sheets are of one product: each project has a
// copy of its own. It is the one of the shelf where both name it, else the one
// that is called the same.
func (s *Sheet) sameProduct(o *Sheet) bool {
	if s.Product != "" && o.Product != "" {
		return s.Product == o.Product
	}
	return calledAlike(s.Name, o.Name)
}

// calledAlike tells whether two names are the same but for capitals and spaces.
func calledAlike(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}

// NeedOf adds up what the pours of one or several jobs that are still to come
// take of a product, less what is in their cups already and what the lots have
// left. What stays in a bottle is typical where residue is not given.
func NeedOf(product *Sheet, jobs []Job, lots []Lot, residue unit.Taken[unit.Share]) Need {
	n := Need{Product: product.Name, Residue: taken(residue, typicalResidue), Lots: merged(lots)}
	for _, j := range jobs {
		for i := range j.Plan.Layers {
			l := &j.Plan.Layers[i]
			s := j.Project.Sheet(l.Sheet)
			if s == nil || !s.sameProduct(product) || l.Status != Planned {
				continue
			}
			name := l.Name
			if len(jobs) > 1 {
				name += " of " + j.Project.Name
			}
			if !l.Mix.Ready {
				n.Missing = append(n.Missing, Problem{"layers/" + l.ID, name + " is not counted: " + l.Mix.Why})
				continue
			}
			if n.Parts == 0 {
				n.Parts = l.Mix.Parts
			} else if math.Abs(l.Mix.Parts-n.Parts) > 0.01*n.Parts {
				n.Missing = append(n.Missing, Problem{"layers/" + l.ID, fmt.Sprintf("%s is mixed at %.3g parts of B to 100 and the first at %.3g: look at the data sheets", name, l.Mix.Parts, n.Parts)})
			}
			a, b := j.Project.stillNeeds(l)
			if a == 0 && b == 0 {
				continue // all of it is weighed
			}
			n.Layers = append(n.Layers, LayerNeed{Project: j.Project.ID, Layer: l.ID, Name: name, A: a, B: b, Sure: l.Mix.Confidence, Lot: j.Project.lotOf(l.ID)})
		}
	}
	return n.Shared()
}

// merged puts bottles of one lot together. Bottles without a number are each a
// lot of their own, since nobody knows.
func merged(lots []Lot) (list []Lot) {
	for _, l := range lots {
		same := func(o Lot) bool { return l.Number != "" && o.Part == l.Part && o.Number == l.Number }
		if i := slices.IndexFunc(list, same); i >= 0 {
			list[i].Left += max(0, l.Left)
		} else {
			list = append(list, l)
		}
	}
	return list
}

// lotOf is the lot that a layer is to be made of; empty where none was chosen.
func (p *Project) lotOf(layer string) string {
	if i := p.LayerIndex(layer); i != none {
		return p.Layers[i].Lot
	}
	return ""
}

// Shared works out anew from which lots the layers of a need come and what is to
// be bought, once one of them was said to be hidden.
func (n Need) Shared() Need {
	var usesA, usesB []LotUse
	n.A, usesA = shareLots(PartA, n.Layers, n.Lots, n.Residue.Value)
	n.B, usesB = shareLots(PartB, n.Layers, n.Lots, n.Residue.Value)
	n.Uses = append(usesA, usesB...)
	a, b := n.Total()
	haveA, haveB := n.Have()
	n.MixedA, n.MixedB = max(0, a-haveA), max(0, b-haveB)
	return n
}

// Total is what all layers take.
func (n *Need) Total() (a, b unit.Mass) {
	for i := range n.Layers {
		a, b = a+n.Layers[i].A, b+n.Layers[i].B
	}
	return a, b
}

// Have is what comes out of the bottles of all lots.
func (n *Need) Have() (a, b unit.Mass) {
	for _, l := range n.Lots {
		switch left := max(0, l.Left).Times(1 - float64(n.Residue.Value)); l.Part {
		case PartA:
			a += left
		case PartB:
			b += left
		}
	}
	return a, b
}

// left is what the bottles have once all is poured, when so much is bought and
// comes out of its bottles.
func (n *Need) left(boughtA, boughtB unit.Mass) (a, b unit.Mass) {
	needA, needB := n.Total()
	if len(n.Layers) == 0 { // a need that was only named
		needA, needB = n.A, n.B
	}
	haveA, haveB := n.Have()
	return max(0, haveA+boughtA-needA), max(0, haveB+boughtB-needB)
}
