package model

import (
	"fmt"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// untilTraced stands for a figure that hangs on wood still to be measured.
const untilTraced = "not known until the wood is measured"

// layers tells of each layer what is mixed and what becomes of it.
func (c *changes) layers() {
	for i := range c.now.Plan.Layers {
		b := &c.now.Plan.Layers[i]
		a := c.was.Plan.Layer(b.ID)
		if a == nil {
			continue
		}
		s := c.style
		ofMass := func(label string, was, now unit.Mass) {
			if c.now.untraced() {
				c.row(b.Name, label, s.MassTo(was, a.Mix.Step), untilTraced, 0)
				return
			}
			c.row(b.Name, label, s.MassTo(was, a.Mix.Step), s.MassTo(now, b.Mix.Step), over(float64(now), float64(was)))
		}
		c.row(b.Name, "Depth", s.Length(a.Depth), s.Length(b.Depth), over(float64(b.Depth), float64(a.Depth)))
		if c.now.untraced() {
			c.row(b.Name, "Volume to fill", s.Volume(a.Net), untilTraced, 0)
		} else {
			c.row(b.Name, "Volume to fill", s.Volume(a.Net), s.Volume(b.Net), over(float64(b.Net), float64(a.Net)))
		}
		ofMass("Resin to mix", a.Mix.Total, b.Mix.Total)
		if a.Mix.Ready && b.Mix.Ready {
			ofMass("Of it A", a.Mix.A, b.Mix.A)
			ofMass("Of it B", a.Mix.B, b.Mix.B)
		}
		if a.Mix.Tint > 0 || b.Mix.Tint > 0 {
			ofMass("Tint", a.Mix.Tint, b.Mix.Tint)
		}
		c.changed(b.Name, "Resin", a.SheetName, b.SheetName, 0)
		was, now := c.lot(&c.was, b.ID), c.lot(&c.now, b.ID)
		c.changed(b.Name, "Lot", was, now, 0)
		c.cures(a, b)
	}
}

func (c *changes) lot(i *Issue, layer string) string {
	if k := i.Project.LayerIndex(layer); k != none {
		return orWord(i.Project.Layers[k].Lot, "none named")
	}
	return ""
}

// cures tells a layer's times and heat: by the simulation where both issues
// have one, else by the data sheets.
func (c *changes) cures(a, b *LayerPlan) {
	s := c.style
	span := func(k Known[unit.Span]) string {
		if k.Absent {
			return "not known"
		}
		return s.Span(k.Value)
	}
	pair := func(from, to Known[unit.Span]) string {
		if from.Absent || to.Absent {
			return "not known"
		}
		return s.Span(from.Value) + " to " + s.Span(to.Value)
	}
	times := func(label string, was, now Known[unit.Span]) {
		c.row(b.Name, label, span(was), span(now), over(float64(now.Value), float64(was.Value)))
	}
	if c.was.Curing == nil || c.now.Curing == nil {
		times("Working time", a.Times.Working, b.Times.Working)
		c.row(b.Name, "Recoat window", pair(a.Times.RecoatFrom, a.Times.RecoatTo), pair(b.Times.RecoatFrom, b.Times.RecoatTo), 0)
		times("Ready to demold", a.Times.Demold, b.Times.Demold)
		return
	}
	x, y := c.was.Curing.layer(a.ID), c.now.Curing.layer(b.ID)
	if x == nil || y == nil {
		return
	}
	peak := func(l *LayerCuring) string {
		switch {
		case l.RunsAway:
			return "runs away"
		case !l.Ready || l.Peak.Absent:
			return "not known"
		}
		return s.Temperature(l.Peak.Value)
	}
	cups := func(l *LayerCuring) string {
		if l.Cups == nil || !l.Cups.Ready || l == y && c.now.untraced() {
			return "not known"
		}
		text := itoa(len(l.Cups.Batches))
		if !l.Cups.Possible {
			text = "cannot be done"
		}
		return text
	}
	c.row(b.Name, "Cups", cups(x), cups(y), 0)
	c.changed(b.Name, "What is known of its lot", orWord(x.Learned, "nothing"), orWord(y.Learned, "nothing"), 0)
	c.row(b.Name, "Peak heat", peak(x), peak(y), 0)
	times("Working time", x.Working, y.Working)
	c.row(b.Name, "Recoat window", pair(x.RecoatFrom, x.RecoatTo), pair(y.RecoatFrom, y.RecoatTo), 0)
	times("Ready to demold", x.Demold, y.Demold)
}

// look says what a further piece of wood, or a lot, asks for that no plan can
// know, and what was left out.
func (c *changes) look() []Finding {
	var list []Finding
	was, now := c.was.Project, c.now.Project
	cavities := fmt.Sprintf("the mold has %d cavities and had %d", now.Mold.Cavities(), was.Mold.Cavities())
	for i := range was.Pieces {
		if w := &was.Pieces[i]; now.Piece(w.ID) == nil {
			list = append(list, Finding{"again.left", Check, OfMold, "pieces", upperFirst(orWord(w.Name, "a piece of wood")) + " has no place any more and was left out", cavities, "cast it in another mold, or add it where there is room"})
		}
	}
	for i := range was.Inserts {
		if s := &was.Inserts[i]; now.Insert(s.ID) == nil {
			list = append(list, Finding{"again.left", Check, OfMold, "inserts", upperFirst(orWord(s.Name, "an insert")) + ": no place any more, left out", cavities, "add them to another cavity"})
		}
	}
	if a, b := was.Mold.Cavities(), now.Mold.Cavities(); b > a {
		list = append(list, Finding{"again.cavities", Check, OfMold, "mold/count", fmt.Sprintf("Cavities %d to %d have no wood and no inserts", a+1, b), cavities + "; they are filled all the same", "add what goes into them"})
	}
	if n := len(now.Pieces); n > 0 {
		what, whose := upperFirst(orWord(now.Pieces[0].Name, "the wood"))+" is another board than last time", "its thickness, weight, moisture and voids"
		if n > 1 {
			what, whose = fmt.Sprintf("The %d pieces of wood are other boards than last time", n), "their thickness, weight, moisture and voids"
		}
		list = append(list, Finding{"again.wood", Check, OfMold, "pieces/" + now.Pieces[0].ID + "/thickness", what,
			whose + " are still those of what was cast", "measure them anew before you seal them"})
	}
	return append(list, c.lots()...)
}

// lots says which lots no run has told of yet, each once.
func (c *changes) lots() []Finding {
	var list []Finding
	said := map[[2]string]bool{}
	for i := range c.now.Project.Layers {
		l := &c.now.Project.Layers[i]
		k := c.was.Project.LayerIndex(l.ID)
		sheet := c.now.Project.Sheet(l.Sheet)
		if _, known := c.now.Project.lotsTold()[lotKey(l.Sheet, l.Lot)]; known || k == none || sheet == nil || said[[2]string{l.Sheet, l.Lot}] || l.Lot == c.was.Project.Layers[k].Lot && sheet.Name == c.was.Plan.Layers[k].SheetName {
			continue
		}
		said[[2]string{l.Sheet, l.Lot}] = true
		f := Finding{"again.lot", Check, OfLayers, "layers/" + l.ID + "/lot", "Lot " + l.Lot + " of " + sheet.Name + " was not the one before",
			fmt.Sprintf("lots of one product differ by some %.0f %% in pace; its times are those of the data sheet", 100*cure.LotSpread), "let a thin puddle of it gel beforehand, or note the touches of its first pour"}
		if l.Lot == "" {
			f.What, f.Do = "No lot of "+sheet.Name+" is named", "copy the number from both bottles; use one lot for one visible layer"
		}
		list = append(list, f)
	}
	return list
}
