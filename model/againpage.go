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
}

// ReissueSheet is the page that is read before anything is poured again: what
// is no longer allowed first, then what to look after, then what changed.
type ReissueSheet struct {
	Made     Origin
	Headline string    // what becomes of the piece, in one line
	Refused  []Finding // stops and checks that the past project did not have, or not so grave; gravest first
	Still    []Finding // stops that the past project had too
	Look     []Finding // what another piece of wood, or a lot without a run, asks for
	Mended   []Finding // that the past project had
	Changes  []Change
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
	s.Look = append(s.Look, c.look()...)
	c.mold()
	c.wood()
	c.inserts()
	c.layers()
	c.room()
	if was.Cost != nil && now.Cost != nil {
		c.row("money", "Cost of one cast, by its own prices", was.Cost.String(), now.Cost.String(), 0)
	}
	s.Changes, s.Headline = c.list, c.headline()
	return s
}

// noticed are the findings of an issue, its curing's with them.
func (i *Issue) noticed() []Finding {
	if i.Curing == nil {
		return i.Plan.Findings
	}
	return i.Curing.Noticed(i.Plan)
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
			s.Look = append(s.Look, f)
		default:
			s.Refused = append(s.Refused, f)
		}
	}
	for _, f := range a {
		if f.Level != Note && has[key{f.Kind, f.Field}] == 0 && !now.lacks(f.Field) {
			s.Mended = append(s.Mended, f)
		}
	}
	sortFindings(s.Refused)
	sortFindings(s.Mended)
}

// lacks tells whether a path leads to wood that was left out, or whose outline
// is still to be measured.
func (i *Issue) lacks(path string) bool {
	parts := strings.Split(path, "/")
	return len(parts) > 1 && parts[0] == "pieces" && i.Plan.Piece(parts[1]) == nil
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

func (c *changes) mold() {
	a, b := &c.was.Plan.Mold, &c.now.Plan.Mold
	s := c.style
	name := func(i *Issue) string { return orWord(i.Project.Mold.Name, "without a name") }
	c.changed("mold", "Mold", name(&c.was), name(&c.now), 0)
	c.changed("mold", "Form", string(c.was.Project.Mold.Kind), string(c.now.Project.Mold.Kind), 0)
	c.changed("mold", "Cavities", itoa(a.Count), itoa(b.Count), over(float64(b.Count), float64(a.Count)))
	area := func(p *MoldPlan) unit.Area { return (p.FloorArea + p.RimArea).Times(float64(p.Count) / 2) }
	c.row("mold", "Area", s.Area(area(a)), s.Area(area(b)), over(float64(area(b)), float64(area(a))))
	c.row("mold", "Depth", s.Length(a.Depth), s.Length(b.Depth), over(float64(b.Depth), float64(a.Depth)))
	c.row("mold", "Fill line", s.Length(a.FillLine), s.Length(b.FillLine), over(float64(b.FillLine), float64(a.FillLine)))
	c.row("mold", "Finished thickness", s.Length(a.Finished), s.Length(b.Finished), over(float64(b.Finished), float64(a.Finished)))
}

// wood tells the face of each piece, and which is still to be traced.
func (c *changes) wood() {
	const untraced = "still to be measured"
	face := func(pl *Plan, id string) (string, unit.Area) {
		w := pl.Piece(id)
		if w == nil {
			return untraced, 0
		}
		return c.style.Area(w.Footprint), w.Footprint
	}
	for i := range c.now.Project.Pieces {
		w := &c.now.Project.Pieces[i]
		was, a := face(c.was.Plan, w.ID)
		now, b := face(c.now.Plan, w.ID)
		name := upperFirst(orWord(w.Name, "piece"))
		c.row("wood", name, was, now, over(float64(b), float64(a)))
		if x, y := c.was.Plan.Piece(w.ID), c.now.Plan.Piece(w.ID); x != nil && y != nil {
			c.changed("wood", name+", its top", c.beside(x.Proud), c.beside(y.Proud), 0)
		}
	}
}

// beside says where the top of a piece lies.
func (c *changes) beside(proud unit.Length) string {
	switch {
	case proud > unit.Millimetre/20:
		return c.style.Length(proud) + " above the fill line"
	case proud < -unit.Millimetre/20:
		return c.style.Length(-proud) + " below the fill line"
	}
	return "at the fill line"
}

func (c *changes) inserts() {
	for i := range c.now.Project.Inserts {
		s := &c.now.Project.Inserts[i]
		old := c.was.Project.Insert(s.ID)
		if old == nil {
			continue
		}
		c.row("inserts", upperFirst(orWord(s.Name, "insert")), itoa(old.Count), itoa(s.Count), over(float64(s.Count), float64(old.Count)))
		if a, b := c.was.Plan.Insert(s.ID), c.now.Plan.Insert(s.ID); a != nil && b != nil {
			c.changed("inserts", "Cover over "+orWord(s.Name, "insert"), c.style.Length(a.Cover), c.style.Length(b.Cover), 0)
		}
	}
}

// room tells what the shop is like, where that is another.
func (c *changes) room() {
	a, b := &c.was.Project.Shop, &c.now.Project.Shop
	warm := func(t unit.Taken[unit.Temperature]) string {
		if !t.Given() {
			return "as the room"
		}
		return c.style.Temperature(t.Value)
	}
	room := func(t unit.Taken[unit.Temperature]) string { return c.style.Temperature(t.Or(typicalRoom)) }
	c.changed("room", "Room", room(a.Room), room(b.Room), 0)
	c.changed("room", "Room at its coldest", warm(a.Night), warm(b.Night), 0)
	c.changed("room", "Resin when poured", warm(a.Resin), warm(b.Resin), 0)
	c.changed("room", "Bottles", warm(a.Bottles), warm(b.Bottles), 0)
	c.changed("room", "Wood in the mold", warm(a.Wood), warm(b.Wood), 0)
	damp := func(h unit.Taken[unit.Share]) string {
		if !h.Given() {
			return "not measured"
		}
		return c.style.Share(h.Value)
	}
	c.changed("room", "Humidity", damp(a.Humidity), damp(b.Humidity), 0)
}

// headline says in one line what becomes of the piece.
func (c *changes) headline() string {
	var parts []string
	a, b := c.was.Plan, c.now.Plan
	if ra := over(float64(b.Mold.RimArea)*float64(b.Mold.Count), float64(a.Mold.RimArea)*float64(a.Mold.Count)); ra > 0 {
		text := "Same area"
		if ra < 0.9995 || ra > 1.0005 {
			text = fmt.Sprintf("Area × %.3f", ra)
		}
		parts = append(parts, text)
	}
	ra, rb := mixedOf(a), mixedOf(b)
	if text := c.style.Mass(ra); c.now.untraced() {
		parts = append(parts, "resin "+text+" → not known until the wood is measured")
	} else if ra > 0 || rb > 0 {
		if now := c.style.Mass(rb); now == text {
			parts = append(parts, "resin "+text+" as before")
		} else {
			parts = append(parts, "resin "+text+" → "+now)
		}
	}
	for i := range c.now.Project.Inserts {
		s := &c.now.Project.Inserts[i]
		if old := c.was.Project.Insert(s.ID); old != nil && old.Count != s.Count {
			parts = append(parts, fmt.Sprintf("%s %d → %d", s.Name, old.Count, s.Count))
		}
	}
	depths := func(pl *Plan) string {
		var list []string
		for i := range pl.Layers {
			list = append(list, c.style.Length(pl.Layers[i].Depth))
		}
		return strings.Join(list, " + ")
	}
	if was, now := depths(a), depths(b); was == now && was != "" {
		parts = append(parts, "layers "+was+" unchanged")
	} else if was != now {
		parts = append(parts, "layers "+was+" → "+now)
	}
	return strings.Join(parts, ", ")
}

// mixedOf is what a plan has mixed in all.
func mixedOf(pl *Plan) unit.Mass {
	m := unit.Mass(0)
	for i := range pl.Layers {
		m += pl.Layers[i].Mix.Total
	}
	return m
}
