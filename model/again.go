package model

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"

	"meniscus/model/unit"
)

// Reissue says how a project is to be made again. Its zero value is the same
// piece once more: same mold, resin, season and heights.
type Reissue struct {
	ID       string    // of the new project
	Name     string    // of the new project; empty is the name of the past one
	Created  time.Time // UTC
	Revision int       // the state of the past project that is taken; 0 is not known

	Mold     *Mold        // another mold, whole; nil is the same
	Shelf    *ShelfMold   // the one of the shelf that Mold is, with what it cost; nil is none
	Supplies []Substitute // other resins or lots
	Season   *Season      // another room; nil is the same
	Levels   LevelRule
	Finished unit.Dim // ToFinished: the thickness that is to be left
	Wood     WoodRule
	Usual    bool    // the usual losses in place of the maker's own
	Curing   *Curing // the past project's, with its journal: what it learned of the lots comes along; nil: nothing does
}

// Substitute is another resin or lot in place of one data sheet of the past
// project.
type Substitute struct {
	Sheet string  // ID of the past project's sheet
	New   *Sheet  // the product in its place; nil is the same. It takes over the ID
	Lot   *string // the lot for all layers of it; nil is as before, but none where the product is another
}

// Season is the room that a piece is made again in: all of these, in place of
// the past project's. What is not given means the same as in Shop.
type Season struct {
	Room, Night, Resin, Bottles, Wood unit.Taken[unit.Temperature]
	Humidity                          unit.Taken[unit.Share]
}

// LevelRule tells what becomes of the heights of the layers.
type LevelRule string

// What can become of the heights. Those that inserts and wood rest at go along.
const (
	KeepLevels LevelRule = ""                   // as they are, above the floor
	WithDepth  LevelRule = "with the depth"     // in proportion to the depth of the mold
	ToFinished LevelRule = "finished thickness" // in proportion, to a finished thickness
)

// WoodRule tells what becomes of the outlines of the wood.
type WoodRule string

// What can become of the wood's outlines. Its thickness stays.
const (
	KeepWood    WoodRule = ""            // as they are
	ScaleWood   WoodRule = "scaled"      // in proportion to the mold
	RetraceWood WoodRule = "traced anew" // left to be measured
)

// Recipe gives what a project intends, without what happened in its run or was
// measured for that alone: no journal, no drafts, no slabs with their photos, no
// count of bottles, no time of a pour, no moisture of a board, no level of a mold
// on its bench, no thicknesses of a blank. What a task took is what it is planned
// to take where nothing else was planned. The IDs of its items stay, so that the
// two can be compared. Which field stays is decided in againfields_test.go.
func (p *Project) Recipe() Project {
	r := p.Clone()
	r.Drafts, r.Slabs = nil, nil
	r.Recast()
	r.Mold.Hold.Depths = nil
	r.Demo, r.Archived, r.Shop.Planned = false, false, time.Time{}
	for i := range r.Pieces {
		r.Pieces[i].From, r.Pieces[i].Nature.Moisture = "", unit.Taken[unit.Share]{}
	}
	for i := range r.Sheets {
		r.Sheets[i].LeftA, r.Sheets[i].LeftB = unit.Taken[unit.Mass]{}, unit.Taken[unit.Mass]{}
	}
	r.Money.Seal = unit.Taken[unit.Mass]{}
	r.Money.Tasks = slices.Clone(r.Money.Tasks)
	for i := range r.Money.Tasks {
		t := &r.Money.Tasks[i]
		if !t.Planned.Given() {
			t.Planned = t.Logged
		}
		t.Logged = unit.Taken[unit.Span]{}
	}
	return r
}

// Again makes a project from the recipe of a past one. Heights stay or scale as
// the maker says; inserts keep their size and go by number with the room that
// they stand in, at least one where there was one; what lay in a cavity that the
// mold does not have is left out; what is stirred in goes by its share where
// other masses are mixed. Taken to its own mold a recipe is
// itself. Errors are a *Problem, by the field of the past project or of the
// reissue ("reissue/finished") that stands in the way. What the new mold does
// not allow is no error: PageOfChanges tells of it.
func Again(past *Project, how Reissue) (Project, error) {
	next := past.Recipe()
	next.ID, next.Created = how.ID, how.Created
	next.Made = Origin{past.ID, past.Name, how.Revision}
	if how.Name != "" {
		next.Name = how.Name
	}
	was := next.Clone()
	pl := Make(was)
	if how.Mold != nil {
		next.Mold = *how.Mold
		if !sameSizes(&next.Mold, &was.Mold) && next.Mold.FillTest == was.Mold.FillTest {
			next.Mold.FillTest = FillTest{} // it filled the mold in its old sizes
		}
		if !sameSizes(&next.Mold, &was.Mold) || next.Mold.Name != was.Mold.Name {
			next.Money.Mold, next.Money.Lasts = unit.Money{}, 0 // that was of another mold
			if how.Shelf != nil {
				next.payFor(*how.Shelf)
			}
		}
		h := &next.Mold.Hold
		h.Seams, h.Depths = slices.Clone(h.Seams), nil
		for _, seam := range h.Seams { // their numbers come from another project
			if n, err := strconv.Atoi(strings.TrimLeft(seam.ID, "abcdefghijklmnopqrstuvwxyz")); err == nil {
				next.Serial = max(next.Serial, n)
			}
		}
	}
	if how.Usual {
		m := &next.Mixing
		m.CupFilm, m.CupLeast, m.Soak, m.Creep = unit.Taken[unit.Share]{}, unit.Taken[unit.Mass]{}, unit.Dim{}, unit.Dim{}
	}
	if s := how.Season; s != nil {
		shop := &next.Shop
		shop.Room, shop.Night, shop.Resin, shop.Bottles, shop.Wood, shop.Humidity = s.Room, s.Night, s.Resin, s.Bottles, s.Wood, s.Humidity
	}
	if err := next.supply(how.Supplies); err != nil {
		return Project{}, err
	}
	next.leaveOut()
	next.rewood(&was, how.Wood)
	if err := next.relevel(&was, &pl, how); err != nil {
		return Project{}, err
	}
	next.recount(&was, how.Wood)
	next.restir(&was, &pl)
	next.bringLots(how.Curing)
	return next, nil
}

// sameSizes tells whether two molds hold the same.
func sameSizes(a, b *Mold) bool {
	size := func(m *Mold) Mold {
		return Mold{Kind: m.Kind, At: m.At, Length: m.Length, Width: m.Width, Corner: m.Corner, Diameter: m.Diameter, Sides: m.Sides,
			Across: m.Across, Span: m.Span, Outline: m.Outline, Depth: m.Depth, Draft: m.Draft}
	}
	return reflect.DeepEqual(size(a), size(b))
}

// leaveOut takes out what lay in cavities that the mold does not have.
func (p *Project) leaveOut() {
	n := p.Mold.Cavities()
	p.Pieces = slices.DeleteFunc(p.Pieces, func(w Piece) bool { return w.Cavity > n })
	p.Inserts = slices.DeleteFunc(p.Inserts, func(s Insert) bool { return s.Cavity > n })
}

// supply puts other resins and lots in their places.
func (p *Project) supply(list []Substitute) error {
	for _, x := range list {
		s := p.Sheet(x.Sheet)
		if s == nil {
			return &Problem{"reissue/supplies", fmt.Sprintf("there is no data sheet “%s” to put another in place of", clip(x.Sheet))}
		}
		if x.New != nil {
			*s = *x.New
			s.ID = x.Sheet
		}
		for i := range p.Layers {
			if l := &p.Layers[i]; l.Sheet != x.Sheet {
				continue
			} else if x.Lot != nil {
				l.Lot = *x.Lot
			} else if x.New != nil {
				l.Lot = ""
			}
		}
	}
	return nil
}

// restir turns what is stirred in by mass into shares where another mass is
// mixed than was.
func (p *Project) restir(was *Project, pl *Plan) {
	masses := func(p *Project) bool {
		for i := range p.Layers {
			for _, c := range p.Layers[i].Stirred() {
				if !c.Share.Given() && c.Mass.Given() {
					return true
				}
			}
		}
		return false
	}
	if !masses(p) {
		return
	}
	now := Make(*p)
	for i := range p.Layers {
		k := was.LayerIndex(p.Layers[i].ID)
		if mixed := pl.Layers[k].Mix.Total; mixed != now.Layers[i].Mix.Total {
			p.Layers[i].inShares(mixed)
		}
	}
}
