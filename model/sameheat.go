package model

import (
	"reflect"
	"time"
)

// SameHeat tells whether a curing of the one project is one of the other too:
// they differ at most by what no resin feels, such as a note, a price or a grit.
// Where it is not plain it says no.
func (p *Project) SameHeat(q *Project) bool {
	return reflect.DeepEqual(p.heated(), q.heated())
}

// heated is the project without what its curing does not hang on.
func (p *Project) heated() Project {
	h := *p
	h.Name, h.Note, h.Demo, h.Archived, h.Made = "", "", false, false, Origin{}
	h.Created, h.Serial = time.Time{}, 0
	h.Finish, h.Money, h.Drafts = Finish{}, Costing{}, nil
	h.Journal = nil
	for i := range p.Journal {
		if kind := p.Journal[i].Kind; kind != EntryNote && kind != EntryPhoto {
			h.Journal = append(h.Journal, p.Journal[i])
		}
	}
	return h
}
