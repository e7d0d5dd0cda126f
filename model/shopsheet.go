package model

import (
	"fmt"
	"time"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// ShopSheet is the page about a piece that lies on the bench: all in words, as
// they are printed. Where the page has no room for all lines of a list, the last
// says how many are left out and where they are: in a window, or on a second page
// where one is needed for what guards people.
type ShopSheet struct {
	Piece  string       `json:"piece"`
	Made   string       `json:"made"`             // when, as the shop's clock shows it, with its zone
	When   string       `json:"when,omitempty"`   // when the next pour is planned, or the last was made
	Demo   bool         `json:"demo,omitempty"`   // invented
	Letter bool         `json:"letter,omitempty"` // on Letter; else on A4
	Room   string       `json:"room"`             // temperatures
	Layers []SheetLayer `json:"layers"`
	Groups []SheetGroup `json:"groups"` // mold, wood, inserts, what is held down, seams, cups
	Checks SheetGroup   `json:"checks"` // each is ticked
	Stops  SheetGroup   `json:"stops"`  // findings that stop
	Safety SheetGroup   `json:"safety"`
}

// SheetGroup is a list under a heading, and where all of it can be seen.
type SheetGroup struct {
	Title string   `json:"title"`
	Lines []string `json:"lines"`
	Keep  int      `json:"keep,omitempty"`  // so many lines are left out last
	Where string   `json:"where"`           // the window
	Whole bool     `json:"whole,omitempty"` // no line is cut short
	Full  []string `json:"full,omitempty"`  // the same at length, for a page that has the room
}

// SheetLayer is one pour on a shop sheet. A figure that is not known is a dash.
type SheetLayer struct {
	Name   string `json:"name"`
	Resin  string `json:"resin"`
	Level  string `json:"level"` // its top above the mold's floor
	Depth  string `json:"depth"`
	A      string `json:"a"`
	B      string `json:"b"`
	Total  string `json:"total"`
	Tints  string `json:"tints,omitempty"`
	Heat   string `json:"heat"`
	Times  string `json:"times"`
	Poured bool   `json:"poured,omitempty"`
}

// dash stands for a figure that is not known.
const dash = "–"

// NewShopSheet makes the shop sheet of a project, by its plan with the times of
// the simulation, and by the simulation where it is of that project.
func NewShopSheet(p *Project, pl *Plan, c *Curing, now time.Time) ShopSheet {
	if c.Project != pl.Project {
		c = &Curing{}
	}
	s := ShopSheet{
		Piece: orWord(p.Name, "Piece"), Made: now.In(p.Shop.Place()).Format("Mon 2 Jan 2006, 15:04 MST"), Demo: p.Demo,
		Letter: OnLetter(p.Style), Room: p.sheetRoom(), When: p.sheetWhen(pl, now),
	}
	for i := range pl.Layers {
		s.Layers = append(s.Layers, p.sheetLayer(pl, c, i, now))
	}
	for _, g := range []SheetGroup{p.sheetMold(pl), p.sheetWood(pl), p.sheetInserts(pl), p.sheetTight(pl), p.sheetCups(pl, c)} {
		if len(g.Lines) > 0 {
			s.Groups = append(s.Groups, g)
		}
	}
	s.Checks, s.Stops, s.Safety = p.sheetChecks(pl), sheetStops(c.Noticed(pl)), sheetSafety(pl.Safety)
	return s
}

// sheetWhen says when the next pour is planned, or when the last was made.
func (p *Project) sheetWhen(pl *Plan, now time.Time) string {
	if next, ok := pl.NextPour(); ok {
		if p.Shop.Planned.After(now) {
			return next.Name + " planned for " + p.Shop.Planned.In(p.Shop.Place()).Format(cardTime)
		}
		return "no time planned for " + next.Name
	}
	if n := len(pl.Layers); n > 0 {
		if at, ok := pl.poured(pl.Layers[n-1].ID); ok {
			return "last poured " + at.In(p.Shop.Place()).Format(instantForm)
		}
	}
	return ""
}

// sheetRoom says what the temperatures are taken as.
func (p *Project) sheetRoom() string {
	s, st := &p.Shop, p.Style
	room, measured := p.room()
	text := "Room " + st.Temperature(room)
	if !measured {
		text += " (typical, not read)"
	}
	if s.Night.Given() {
		text += ", at night " + st.Temperature(s.Night.Value)
	}
	if s.Humidity.Given() {
		text += " · humidity " + st.Share(s.Humidity.Value)
	}
	if s.Resin.Given() {
		text += " · mixed resin " + st.Temperature(s.Resin.Value)
	}
	if s.Wood.Given() {
		text += " · wood " + st.Temperature(s.Wood.Value)
	}
	return text
}

// sheetMold says what the mold is.
func (p *Project) sheetMold(pl *Plan) SheetGroup {
	g, st, m := SheetGroup{Title: "Mold", Where: "Mold", Keep: 2}, p.Style, &pl.Mold
	if len(pl.Drawing.Cavities) == 0 {
		return g
	}
	lo, hi := shape.Region{pl.Drawing.Cavities[0].Rim}.Bounds()
	size := fmt.Sprintf("%s by %s inside at the rim, %s deep", st.Length(unit.Length(hi.X-lo.X)), st.Length(unit.Length(hi.Y-lo.Y)), st.Length(m.Depth))
	if m.Count > 1 {
		size += fmt.Sprintf(", %d cavities", m.Count)
	}
	g.Lines = append(g.Lines, joinedWith(": ", p.Mold.Name, size))
	if m.FillLine > 0 {
		line := "Fill line " + st.Length(m.FillLine) + " from the floor, "
		if m.Freeboard >= 0 {
			line += st.Length(m.Freeboard) + " below the rim"
		} else {
			line += st.Length(-m.Freeboard) + " ABOVE the rim"
		}
		g.Lines = append(g.Lines, line)
	}
	if p.Mold.Floor != "" {
		line := "Floor " + string(p.Mold.Floor)
		if p.Mold.Thick.Given() {
			line += ", " + st.Length(p.Mold.Thick.Value)
		}
		if p.Mold.Hold.Spacing.Given() {
			line += ", supports " + st.Length(p.Mold.Hold.Spacing.Value) + " apart"
		}
		g.Lines = append(g.Lines, line)
	}
	return g
}

// joinedWith joins two words that are there.
func joinedWith(by, a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + by + b
}

// sheetWood lists the pieces of wood.
func (p *Project) sheetWood(pl *Plan) SheetGroup {
	g, st := SheetGroup{Title: "Wood, from its underside to its top above the floor", Where: "Mold"}, p.Style
	for i := range p.Pieces {
		w, plan := &p.Pieces[i], pl.Piece(p.Pieces[i].ID)
		if plan == nil {
			continue
		}
		line := joinedWith(", ", w.Name, w.Species) + fmt.Sprintf(": %s to %s", st.Length(plan.Bottom), st.Length(plan.Top))
		if pl.Mold.Count > 1 {
			line += fmt.Sprintf(", cavity %d", max(w.Cavity, 1))
		}
		if w.Weight.Given() {
			line += ", " + st.Mass(w.Weight.Value)
		}
		if w.Sealed {
			line += ", sealed"
		}
		if w.Bedded {
			line += ", stuck down"
		}
		g.Lines = append(g.Lines, line)
	}
	return g
}

// sheetInserts lists what is set into the resin, how many and where.
func (p *Project) sheetInserts(pl *Plan) SheetGroup {
	g, st := SheetGroup{Title: "Inserts, above the floor", Where: "Mold"}, p.Style
	for i := range p.Inserts {
		in, plan := &p.Inserts[i], pl.Insert(p.Inserts[i].ID)
		if plan == nil || plan.Count == 0 {
			continue
		}
		line := fmt.Sprintf("%d × %s: %s to %s", plan.Count, in.Name, st.Length(plan.Bottom), st.Length(plan.Top))
		if k := p.LayerIndex(in.Layer); in.On == OnLayer && k != none {
			line += fmt.Sprintf(", on pour %d", k+1)
		}
		if pl.Mold.Count > 1 && in.Cavity > 0 {
			line += fmt.Sprintf(", cavity %d", in.Cavity)
		}
		if in.Fixed {
			line += ", glued or pinned"
		}
		g.Lines = append(g.Lines, line)
	}
	return g
}

// sheetStops lists the findings that stop.
func sheetStops(found []Finding) SheetGroup {
	g := SheetGroup{Title: "Stop: mend this first", Where: "the findings in the windows", Whole: true}
	for _, f := range found {
		if f.Level == Stop {
			g.Lines = append(g.Lines, upperFirst(joinedWith(": ", f.What, f.Do)))
		}
	}
	return g
}
