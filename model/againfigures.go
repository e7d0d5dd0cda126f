package model

import (
	"fmt"
	"strings"

	"meniscus/model/unit"
)

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
	c.figure("mold", "Finished thickness", s.Length(a.Finished), s.Length(b.Finished), over(float64(b.Finished), float64(a.Finished)))
}

// wood tells the face of each piece, where it lies, and which is still to be
// traced.
func (c *changes) wood() {
	face := func(pl *Plan, id string) (string, unit.Area) {
		w := pl.Piece(id)
		if w == nil {
			return "still to be traced", 0
		}
		return c.style.Area(w.Footprint), w.Footprint
	}
	for i := range c.now.Project.Pieces {
		w := &c.now.Project.Pieces[i]
		was, a := face(c.was.Plan, w.ID)
		now, b := face(c.now.Plan, w.ID)
		name := upperFirst(orWord(w.Name, "wood"))
		c.row("wood", name, was, now, over(float64(b), float64(a)))
		if x, y := c.was.Plan.Piece(w.ID), c.now.Plan.Piece(w.ID); x != nil && y != nil {
			c.changed("wood", name+", its top", c.beside(x.Proud), c.beside(y.Proud), 0)
			c.changed("wood", name+", its underside", c.style.Length(x.Bottom)+" above the floor", c.style.Length(y.Bottom)+" above the floor", 0)
		}
		if old := c.was.Project.Piece(w.ID); old != nil {
			c.changed("wood", name+", its place", c.place(old), c.place(w), 0)
		}
	}
}

// place says where a piece lies in its cavity, from middle to middle.
func (c *changes) place(w *Piece) string {
	return c.style.Length(w.X) + " along, " + c.style.Length(w.Y) + " across, from the middle"
}

// beside says where a top lies that stands so far above the fill line.
func (c *changes) beside(proud unit.Length) string {
	switch {
	case proud > levelApart:
		return c.style.Length(proud) + " above the fill line"
	case proud < -levelApart:
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
		if a, b := c.was.Plan.Insert(s.ID), c.now.Plan.Insert(s.ID); a != nil && b != nil && (c.now.untraced() || c.style.Length(a.Cover) != c.style.Length(b.Cover)) {
			c.figure("inserts", "Cover over "+orWord(s.Name, "insert"), c.style.Length(a.Cover), c.style.Length(b.Cover), 0)
		}
	}
}

// room tells what the shop is like, where that is another.
func (c *changes) room() {
	a, b := &c.was.Project.Shop, &c.now.Project.Shop
	room := func(x *Shop) string { return c.style.Temperature(x.Room.Or(typicalRoom)) }
	warm := func(x *Shop, t unit.Taken[unit.Temperature]) string {
		if !t.Given() {
			return room(x) + ", as the room"
		}
		return c.style.Temperature(t.Value)
	}
	both := func(label string, was, now unit.Taken[unit.Temperature]) {
		if was.Given() || now.Given() { // else it only follows the room
			c.changed("room", label, warm(a, was), warm(b, now), 0)
		}
	}
	c.changed("room", "Room", room(a), room(b), 0)
	both("Room at its coldest", a.Night, b.Night)
	both("Resin when poured", a.Resin, b.Resin)
	both("Bottles", a.Bottles, b.Bottles)
	both("Wood in the mold", a.Wood, b.Wood)
	damp := func(h unit.Taken[unit.Share]) string {
		if !h.Given() {
			return "not measured"
		}
		return c.style.Share(h.Value)
	}
	c.changed("room", "Humidity", damp(a.Humidity), damp(b.Humidity), 0)
}

// money tells what one cast costs, where either is known.
func (c *changes) money() {
	cost := func(i *Issue) string {
		if i.Cost == nil {
			return "not known, a price is missing"
		}
		return i.Cost.String()
	}
	if c.was.Cost != nil || c.now.Cost != nil {
		c.figure("money", "Cost of one cast", cost(&c.was), cost(&c.now), 0)
	}
}

// headline says in one line what is another, and what becomes of the piece by
// that.
func (c *changes) headline() string {
	var parts []string
	a, b := c.was.Plan, c.now.Plan
	say := func(format string, args ...any) { parts = append(parts, fmt.Sprintf(format, args...)) }
	if ra := over(float64(b.Mold.RimArea)*float64(b.Mold.Count), float64(a.Mold.RimArea)*float64(a.Mold.Count)); ra > 0 && ra >= 0.9995 && ra <= 1.0005 {
		say("same area")
	} else if ra > 0 {
		say("area × %.3f", ra)
	}
	ra, rb := mixedOf(a), mixedOf(b)
	switch was, now := c.style.Mass(ra), c.style.Mass(rb); {
	case c.now.untraced():
		say("resin %s → %s", was, untilTraced)
	case ra <= 0 && rb <= 0:
	case was == now:
		say("resin %s as before", was)
	default:
		say("resin %s → %s", was, now)
	}
	if was, now := len(c.was.Project.Pieces), len(c.now.Project.Pieces); was != now {
		say("pieces of wood %d → %d", was, now)
	}
	for i := range c.now.Project.Inserts {
		s := &c.now.Project.Inserts[i]
		if old := c.was.Project.Insert(s.ID); old != nil && old.Count != s.Count {
			say("%s %d → %d", orWord(s.Name, "inserts"), old.Count, s.Count)
		}
	}
	if was, now := c.depths(a), c.depths(b); was == now && was != "" {
		say("layers %s unchanged", was)
	} else if was != now {
		say("layers %s → %s", was, now)
	}
	return upperFirst(joinedWith(": ", strings.Join(c.causes(), ", "), strings.Join(parts, ", ")))
}

func (c *changes) depths(pl *Plan) string {
	var list []string
	for i := range pl.Layers {
		list = append(list, c.style.Length(pl.Layers[i].Depth))
	}
	return strings.Join(list, " + ")
}

// causes are what the maker has chosen to be another: mold, room, resins, lots.
func (c *changes) causes() []string {
	var list []string
	instead := func(now, was string) {
		if now != was {
			list = append(list, now+" in place of "+was)
		}
	}
	a, b := &c.was.Project.Mold, &c.now.Project.Mold
	switch {
	case a.Name != b.Name:
		instead(orWord(b.Name, "a mold without a name"), orWord(a.Name, "one without a name"))
	case !sameSizes(a, b):
		list = append(list, "its mold in other sizes")
	}
	if x, y := c.was.Plan.Mold.Count, c.now.Plan.Mold.Count; x != y {
		instead(fmt.Sprintf("%d cavities", y), itoa(x))
	}
	room := func(p *Project) string { return c.style.Temperature(p.Shop.Room.Or(typicalRoom)) }
	if x, y := room(c.was.Project), room(c.now.Project); x != y {
		instead("room at "+y, x)
	}
	for i := range c.now.Plan.Layers {
		x := &c.now.Plan.Layers[i]
		if old := c.was.Plan.Layer(x.ID); old != nil {
			instead(x.SheetName, old.SheetName)
			if was, now := c.lot(&c.was, x.ID), c.lot(&c.now, x.ID); was != now && x.SheetName == old.SheetName {
				instead("lot "+now, was)
			}
		}
	}
	if x, y := c.was.Curing, c.now.Curing; x != nil && y != nil {
		for i := range y.Layers {
			if old := x.layer(y.Layers[i].ID); old != nil && old.Learned != y.Layers[i].Learned && y.Layers[i].Learned != "" {
				list = append(list, "with what its runs told of the lot")
			}
		}
	}
	return distinctWords(list)
}

// mixedOf is what a plan has mixed in all.
func mixedOf(pl *Plan) unit.Mass {
	m := unit.Mass(0)
	for i := range pl.Layers {
		m += pl.Layers[i].Mix.Total
	}
	return m
}
