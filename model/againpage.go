package model

import (
	"fmt"
	"slices"
	"strings"

	"meniscus/model/unit"
)

// Issue is a project with all that follows from it. Without a curing, or a
// cost, the page is silent about what hangs on them.
type Issue struct {
	Project *Project
	Plan    *Plan
	Curing  *Curing     // nil: not worked out
	Cost    *unit.Money // of the whole piece; nil: not known
	Stock   []Finding   // what it needs and the shelf does not have now; nothing of a piece that is cast
	Stocked bool        // the shelf knows a product of it
}

// ReissueSheet is the page that is read before anything is poured again: what
// is no longer allowed first, then what to look after, then what changed.
type ReissueSheet struct {
	Made     Origin
	Lead     string    // what stands in the way, or that nothing does, in one line
	Headline string    // what is another, and what becomes of the piece by that, in one line
	Refused  []Finding // stops and checks that the past project did not have, or not so grave; gravest first
	Still    []Finding // stops that the past project had too
	Look     []Finding // what another piece of wood, or a lot without a run, asks for
	Mended   []Finding // that the past project had
	Changes  []Change
	Tested   string // which limits it was held against again
}

// Change is one figure of the past project beside that of the new one.
type Change struct {
	Group string // "mold", "wood", a layer's or an insert's name, "room", "money"
	Label string
	Was   string // with its unit; "" where there was none
	Now   string
	Ratio string // "× 0.660"; "" where it says nothing
	Same  bool   // it stays as it was
}

// PageOfChanges holds a project made again against the one that it was made
// from. Both are recipes: what happened in a run changes no figure of the page.
func PageOfChanges(was, now Issue) ReissueSheet {
	s := ReissueSheet{Made: now.Project.Made}
	c := changes{was: was, now: now, style: now.Project.Style}
	s.judge(was, now)
	s.Refused = append(c.moved(), s.Refused...)
	sortFindings(s.Refused)
	s.Look = append(c.look(), s.Look...)
	c.mold()
	c.wood()
	c.inserts()
	c.layers()
	c.room()
	c.money()
	s.Changes, s.Headline, s.Tested = c.list, c.headline(), c.tested()
	s.Lead = s.lead()
	return s
}

// noticed are the findings of an issue, those of its curing and of the shelf
// with them. What wood decides is not told while that is still to be traced.
func (i *Issue) noticed() []Finding {
	list := i.Plan.Findings
	if i.Curing != nil {
		list = i.Curing.Noticed(i.Plan)
	}
	if !i.untraced() {
		return append(slices.Clone(list), i.Stock...)
	}
	list = slices.Clone(list)
	for k := range list {
		if f := &list[k]; f.Subject == OfCure || f.Subject == OfMixing {
			f.Why = joinedWith("; ", f.Why, "reckoned without the wood")
		}
	}
	return list
}

// judge sorts the findings that only one of two issues has, or that have become
// graver. Notes that come are not listed: nothing forbids what they tell. What
// is only still to be measured is looked after, and what was said of wood that
// is not there yet is not mended.
func (s *ReissueSheet) judge(was, now Issue) {
	type key struct{ kind, field string }
	rank := map[Level]int{Note: 1, Check: 2, Stop: 3}
	gravest := func(list []Finding) map[key]int {
		m := map[key]int{}
		for _, f := range list {
			k := key{f.Kind, f.Field}
			m[k] = max(m[k], rank[f.Level])
		}
		return m
	}
	a, b := was.noticed(), now.noticed()
	had, has := gravest(a), gravest(b)
	for _, f := range b {
		switch k := (key{f.Kind, f.Field}); {
		case f.Level == Stop && had[k] == rank[Stop]:
			s.Still = append(s.Still, f)
		case f.Level == Note || rank[f.Level] <= had[k]:
		case f.Kind == "missing":
			f.Why, f.Do = orWord(f.Why, "it is not given, or was left out to be measured anew"), orWord(f.Do, "measure or enter it, and read the findings again, before you mix")
			s.Look = append(s.Look, f)
		default:
			s.Refused = append(s.Refused, f)
		}
	}
	for _, f := range a {
		if f.Level != Note && has[key{f.Kind, f.Field}] == 0 && !now.lacks(f.Field) && f.Kind != "missing" {
			s.Mended = append(s.Mended, f)
		}
	}
	sortFindings(s.Mended)
}

// lacks tells whether nothing can be said of what a path leads to: wood and
// inserts that were left out, and all but the room and the data sheets while
// wood is still to be traced.
func (i *Issue) lacks(path string) bool {
	parts := strings.Split(path+"/", "/")
	switch {
	case i.untraced() && parts[0] != "shop" && parts[0] != "sheets":
		return true
	case parts[0] == "pieces":
		return i.Plan.Piece(parts[1]) == nil
	case parts[0] == "inserts":
		return i.Plan.Insert(parts[1]) == nil
	}
	return false
}

// untraced tells whether wood is still to be measured, without which no mass is
// known.
func (i *Issue) untraced() bool {
	return slices.ContainsFunc(i.Project.Pieces, func(w Piece) bool { return i.Plan.Piece(w.ID) == nil })
}

// changes builds the rows of a page.
type changes struct {
	was, now Issue
	style    unit.Style
	list     []Change
}

// figure adds a figure that hangs on the wood: as long as that is still to be
// traced, nobody knows what it will be.
func (c *changes) figure(group, label, was, now string, ratio float64) {
	if c.now.untraced() && was != "" {
		now, ratio = untilTraced, 0
	}
	c.row(group, label, was, now, ratio)
}

// row adds a figure unless neither side has one. ratio is said where it is
// above 0 and the two differ.
func (c *changes) row(group, label, was, now string, ratio float64) {
	if was == "" && now == "" {
		return
	}
	r := Change{Group: group, Label: label, Was: was, Now: now, Same: was == now}
	if ratio > 0 && !r.Same {
		r.Ratio = fmt.Sprintf("× %.3f", ratio)
	}
	c.list = append(c.list, r)
}

// changed adds a figure only where it differs.
func (c *changes) changed(group, label, was, now string, ratio float64) {
	if was != now {
		c.row(group, label, was, now, ratio)
	}
}

// over is a ratio, or 0 where there is none.
func over(now, was float64) float64 {
	if !(was > 0) {
		return 0
	}
	return now / was
}
