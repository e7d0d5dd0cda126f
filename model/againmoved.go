package model

import (
	"meniscus/model/unit"
)

// levelApart is how far two heights lie apart before they count as two.
const levelApart = unit.Millimetre / 20

// displaced is what is so of one or several things that lie otherwise to the
// resin than they did.
type displaced struct {
	kind      string
	level     Level
	field     string
	one, many string // what becomes of it, and of them
	was, now  string // where its top lies, with its verb
	do        string
	names     []string
	several   bool
}

// moved says which wood and which inserts lie otherwise to the resin than they
// did: what stood out of it and goes under, what a further layer goes over, and
// wood that was kept and lies elsewhere in the mold.
func (c *changes) moved() []Finding {
	var list []displaced
	var elsewhere []string
	a, b := c.was.Plan, c.now.Plan
	for i := range b.Pieces {
		y := &b.Pieces[i]
		x, old, w := a.Piece(y.ID), c.was.Project.Piece(y.ID), c.now.Project.Piece(y.ID)
		if x == nil || old == nil || w == nil {
			continue
		}
		name := orWord(y.Name, "the wood")
		list = c.lies(list, "pieces/"+y.ID, name, false, x.Top, y.Top)
		if c.place(old) != c.place(w) && c.style.Area(x.Footprint) == c.style.Area(y.Footprint) {
			elsewhere = append(elsewhere, name)
		}
	}
	for i := range b.Inserts {
		y := &b.Inserts[i]
		if x := a.Insert(y.ID); x != nil {
			list = c.lies(list, "inserts/"+y.ID, orWord(y.Name, "the inserts"), y.Count > 1, x.Top, y.Top)
		}
	}
	var found []Finding
	for _, d := range list {
		n := len(d.names)
		if d.several {
			n++
		}
		found = append(found, Finding{d.kind, d.level, OfMold, d.field, upperFirst(listed(d.names)) + " " + oneOr(n, d.one, d.many),
			oneOr(n, "its top ", "their tops ") + d.was + " and would " + d.now, d.do})
	}
	if n := len(elsewhere); n > 0 {
		found = append(found, Finding{"again.place", Check, OfMold, "pieces", upperFirst(listed(elsewhere)) + " " + oneOr(n, "lies", "lie") + " elsewhere in the mold",
			"the mold has another size, and the wood kept its own; its middle goes with the mold", "look in Mold and inserts how wide the resin beside it is now, and move it"})
	}
	return found
}

// lies adds what becomes of a thing whose top lay at one height and now lies at
// another, beside the layers of its plan.
func (c *changes) lies(list []displaced, path, name string, several bool, top, nowTop unit.Length) []displaced {
	a, b := c.was.Plan, c.now.Plan
	filled := a.Mold.FillLine
	was, now := layersOver(a, top), layersOver(b, nowTop)
	d := displaced{field: path + "/height", names: []string{name}, several: several,
		was: "stood " + c.beside(top-filled), now: "lie " + c.beside(nowTop-b.Mold.FillLine)}
	if x, y := c.style.Length(filled), c.style.Length(b.Mold.FillLine); x != y {
		d.now += ", which goes from " + x + " to " + y
	}
	switch {
	case len(was) == 0 && len(now) > 0 && top >= filled-levelApart:
		d.kind, d.level = "again.under", Stop
		d.one, d.many = "goes under resin", "go under resin"
		d.do = "let the heights stay, or use one that is " + c.style.Length(b.Mold.FillLine-nowTop) + " taller or set so much higher; what is buried cannot be had back"
	case len(was) > 0 && len(now) == 0:
		d.kind, d.level = "again.bare", Check
		d.one, d.many = "is no longer covered by resin", "are no longer covered by resin"
		d.do = "fill higher, or set it lower, if it is to be covered as it was"
	case len(was) != len(now):
		d.kind, d.level = "again.layer", Check
		d.one, d.many = "ends in another layer than it did", "end in another layer than they did"
		d.was, d.now = "lay below "+listed(was), "lie below "+listed(now)
		d.do = "look whether it is to show through as it did, and lay the heights by that"
	}
	if d.kind != "" {
		list = together(list, d)
	}
	return list
}

// together adds to a list what is so of one more thing; of those of which the
// same is so it makes one.
func together(list []displaced, d displaced) []displaced {
	for i := range list {
		if x := &list[i]; x.kind == d.kind && x.was == d.was && x.now == d.now && x.do == d.do {
			x.names, x.several = append(x.names, d.names...), x.several || d.several
			return list
		}
	}
	return append(list, d)
}

// layersOver names the layers that rise above a top.
func layersOver(pl *Plan, top unit.Length) []string {
	var list []string
	for i := range pl.Layers {
		if l := &pl.Layers[i]; l.Top > top+levelApart {
			list = append(list, orWord(l.Name, "layer "+itoa(i+1)))
		}
	}
	return list
}
