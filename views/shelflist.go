package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// shelfRow is one thing on the shelf as it stands in the list.
type shelfRow struct {
	path   string
	name   string
	figure string // at the right: what is left of it, or how many
	words  string // below
	warn   string // what is not right with it
	level  float64
	gauge  bool // it is a bottle, drawn with its level
	known  bool // what is in it
	inner  bool // it stands below the row before
	colour string
	sketch *model.Sketch
}

// shelfList is what lies on the shelf, drawn.
type shelfList struct {
	page   *shelfPage
	root   *fyne.Container
	box    *fyne.Container
	scroll *touch.Scroll
	empty  *touch.Text
	built  string
	each   map[string]*touch.Row
}

func newShelfList(p *shelfPage) *shelfList {
	l := &shelfList{page: p, box: container.New(layout.NewCustomPaddedVBoxLayout(look.Gap)), empty: touch.NewText("", touch.Body, touch.Faint), each: map[string]*touch.Row{}}
	l.scroll = touch.NewScroll(inset(l.box))
	l.root = container.NewStack(l.scroll)
	return l
}

// see shows what lies in the part of the window that is open.
func (l *shelfList) see() {
	rows := l.rows(l.page.tab)
	key := fmt.Sprint(l.page.tab, look.Current().Ground)
	for _, r := range rows {
		if r.sketch != nil {
			key += fmt.Sprint(*r.sketch)
			r.sketch = nil
		}
		key += fmt.Sprint(r)
	}
	if key != l.built {
		l.built = key
		touch.KeepFocus(l.box, func() { l.build(rows) })
	}
	at := l.page.at()
	for path, r := range l.each {
		r.SetChosen(path == at)
	}
}

func (l *shelfList) build(rows []shelfRow) {
	l.box.RemoveAll()
	l.each = map[string]*touch.Row{}
	if len(rows) == 0 {
		l.empty.SetText(map[string]string{
			shelfProducts: "Keep a resin of your piece here, or add a product and weigh each bottle once, with its cap: then every gram that is weighed for a piece comes off its bottles.",
			shelfMolds:    "Keep the mold of a piece here, and the next piece has it at one touch.",
			shelfSmall:    "Cups, tints, inserts and what wears away: add them at the right.",
		}[l.page.tab])
		l.box.Add(container.New(layout.NewCustomPaddedLayout(40, 0, 30, 30), l.empty))
		if l.page.tab == shelfProducts {
			l.box.Add(container.New(&whereWide{}, newMethod(l.page.desk, drawing.MethodBottle, methodAlone)))
		}
	}
	for i, r := range rows {
		row := touch.NewRow(l.row(&r), func() { l.page.choose(r.path) })
		row.OnMove = func(dir int) {
			if j := i + dir; j >= 0 && j < len(rows) {
				l.page.choose(rows[j].path)
				if next := l.each[rows[j].path]; next != nil {
					next.Focus()
				}
			}
		}
		l.each[r.path] = row
		left := float32(0)
		if r.inner {
			left = 30
		}
		l.box.Add(container.New(layout.NewCustomPaddedLayout(0, 0, left, 0), row))
	}
	l.box.Refresh()
	l.scroll.Refresh()
}

// row draws one row.
func (l *shelfList) row(r *shelfRow) fyne.CanvasObject {
	role := touch.Strong
	if r.inner {
		role = touch.Body
	}
	head := container.NewBorder(nil, nil, nil, touch.NewLine(r.figure, touch.Strong, touch.Ink), touch.NewBrief(r.name, role, touch.Ink))
	words := container.New(layout.NewCustomPaddedVBoxLayout(2), head)
	if r.words != "" {
		words.Add(touch.NewText(r.words, touch.Small, touch.Faint))
	}
	if r.warn != "" {
		words.Add(container.NewBorder(nil, nil, container.NewCenter(touch.NewSign(touch.Check, 16)), nil, touch.NewText(r.warn, touch.Small, touch.Ink)))
	}
	var mark fyne.CanvasObject
	switch {
	case r.gauge:
		mark = newBottleGauge(r.level, !r.known)
	case r.sketch != nil:
		p, sketch := l.page.desk.palette(), *r.sketch
		mark = drawing.NewPicture(l.page.desk.fonts, thumbnail, p.Ground, func(s drawing.Surface) { drawing.PaintSketch(s, sketch, drawing.Style{Palette: p}) })
	case r.colour != "":
		patch := swatch(fyne.NewSize(26, 40))
		paintSwatch(patch, r.colour)
		mark = patch
	default:
		return words
	}
	return container.NewBorder(nil, nil, container.New(layout.NewCustomPaddedLayout(0, 0, 0, 12), container.NewCenter(mark)), nil, words)
}

// rows lists what lies in a part of the window.
func (l *shelfList) rows(tab string) []shelfRow {
	switch tab {
	case shelfMolds:
		return l.molds()
	case shelfSmall:
		return l.small()
	}
	return l.products()
}

// products lists the products, each with its bottles.
func (l *shelfList) products() (rows []shelfRow) {
	shelf, plan := &l.page.shot.Shelf, &l.page.shot.ShelfPlan
	s := shelf.Style
	for i := range shelf.Products {
		p := &shelf.Products[i]
		pp := plan.Product(p.ID)
		if pp == nil {
			continue
		}
		row := shelfRow{path: "shelf/products/" + p.ID, name: nameOf(p.Sheet.Name), figure: "no bottle"}
		if len(pp.Bottles) > 0 {
			row.figure = "makes " + s.Mass(pp.Mix)
			row.words = fmt.Sprintf("%s of A and %s of B", s.Mass(pp.A), s.Mass(pp.B))
			if spare := max(pp.SpareA, pp.SpareB); spare >= unit.Gram {
				part := "A"
				if pp.SpareB > 0 {
					part = "B"
				}
				row.words += fmt.Sprintf("; %s of %s finds no partner", s.Mass(spare), part)
			}
		}
		if pp.Low {
			row.warn = "less than you want on hand"
		}
		rows = append(rows, row)
		for j := range pp.Bottles {
			rows = append(rows, bottleRow(s, p, &pp.Bottles[j]))
		}
	}
	return rows
}

// bottleRow is a bottle in the list.
func bottleRow(s unit.Style, p *model.Product, b *model.BottlePlan) shelfRow {
	row := shelfRow{path: "shelf/products/" + p.ID + "/bottles/" + b.ID, name: "Bottle of " + string(b.Part), gauge: true, inner: true, known: b.Known, figure: "not weighed"}
	if b.Lot != "" {
		row.name += ", lot " + b.Lot
	}
	if b.Known {
		row.figure = s.Mass(b.Net)
	}
	if bottle := p.Bottle(b.ID); bottle != nil && b.Known {
		most := bottle.Holds.Value
		for _, w := range bottle.Weighings {
			most = max(most, w.Gross.Value-bottle.Tare.Value)
		}
		if most > 0 {
			row.level = min(1, b.Net.Per(most))
		}
	}
	var words []string
	switch {
	case b.Labelled:
		words = append(words, "as it is printed on")
	case b.Since > 0:
		words = append(words, s.Mass(b.Since)+" weighed out since it was weighed")
	}
	if b.Opened.Given() {
		words = append(words, "opened "+b.Opened.Words())
	} else {
		words = append(words, "closed")
	}
	if b.Until.Given() && !b.Expired {
		until := "good until " + b.Until.Words()
		if b.Typical {
			until += " (the usual 12 months)"
		}
		words = append(words, until)
	}
	row.words = strings.Join(words, " · ")
	if b.Expired {
		row.warn = "past its day, " + b.Until.Words()
	}
	return row
}

// molds lists the molds.
func (l *shelfList) molds() (rows []shelfRow) {
	shelf := &l.page.shot.Shelf
	for i := range shelf.Molds {
		m := &shelf.Molds[i]
		row := shelfRow{path: "shelf/molds/" + m.ID, name: nameOf(m.Mold.Name), words: moldWords(shelf.Style, &m.Mold)}
		if c := l.page.shot.ShelfPlan.Mold(m.ID); c != nil && c.Capacity > 0 {
			row.words += ", holds " + shelf.Style.Volume(c.Capacity)
			row.sketch = &c.Sketch
		}
		if m.Casts > 0 {
			row.figure = counted(m.Casts, "cast", "casts")
		}
		if m.Lasts > 0 && m.Casts >= m.Lasts {
			row.warn = fmt.Sprintf("it was to last for %s", counted(m.Lasts, "cast", "casts"))
		}
		rows = append(rows, row)
	}
	return rows
}

// moldWords tells a mold's form and sizes in a line.
func moldWords(s unit.Style, m *model.Mold) string {
	size := ""
	switch m.Kind {
	case model.MoldRound:
		size = s.Length(m.Diameter.Value) + " across"
	case model.MoldPolygon:
		size = fmt.Sprintf("%d sides, %s across", m.Sides, s.Length(m.Span.Value))
	case model.MoldOutline:
		size = "by its outline"
	default:
		size = s.Length(m.Length.Value) + " × " + s.Length(m.Width.Value)
	}
	return fmt.Sprintf("%s, %s, %s deep", m.Kind, size, s.Length(m.Depth.Value))
}

// small lists cups, tints, inserts and what wears away.
func (l *shelfList) small() (rows []shelfRow) {
	shelf := &l.page.shot.Shelf
	s := shelf.Style
	for i := range shelf.Cups {
		c := &shelf.Cups[i]
		row := shelfRow{path: "shelf/cups/" + c.ID, name: nameOf(c.Name), figure: pieces(c.Number), words: "cup"}
		if c.Vessel.Given() {
			row.words = fmt.Sprintf("cup, %s to its brim", s.Volume(c.Vessel.Volume(c.Vessel.Tall.Value)))
		}
		if c.Weight.Given() {
			row.words += ", empty " + s.Mass(c.Weight.Value)
		}
		rows = append(rows, row)
	}
	for i := range shelf.Tints {
		t := &shelf.Tints[i]
		row := shelfRow{path: "shelf/tints/" + t.ID, name: nameOf(t.Name), words: "tint", colour: t.Colour}
		if t.Kind != "" {
			row.words = "tint, " + string(t.Kind)
		}
		l.left(&row, t.ID)
		rows = append(rows, row)
	}
	for i := range shelf.Inserts {
		x := &shelf.Inserts[i]
		row := shelfRow{path: "shelf/inserts/" + x.ID, name: nameOf(x.Insert.Name), words: "insert, " + insertForm(x.Insert.Kind)}
		l.left(&row, x.ID)
		rows = append(rows, row)
	}
	for i := range shelf.Consumables {
		c := &shelf.Consumables[i]
		row := shelfRow{path: "shelf/consumables/" + c.ID, name: nameOf(c.Name), words: "wears away"}
		if c.Grit > 0 {
			row.words = fmt.Sprintf("wears away, grit %d", c.Grit)
		}
		l.left(&row, c.ID)
		rows = append(rows, row)
	}
	return rows
}

// left says what is left of a thing that is counted by hand, and what was taken
// since.
func (l *shelfList) left(row *shelfRow, id string) {
	t := l.page.shot.ShelfPlan.Thing(id)
	if t == nil {
		return
	}
	s := l.page.shot.Shelf.Style
	row.figure = t.LeftWords(s)
	if t.Since() {
		row.words += ", " + t.TakenWords(s)
	}
}

// insertForm names the form of an insert.
func insertForm(k model.InsertKind) string {
	switch k {
	case model.InsertDisplaces:
		return "by the water it displaces"
	case model.InsertMass:
		return "by its weight and density"
	}
	return string(k)
}

// pieces writes how many of a thing there are.
func pieces(n int) string { return fmt.Sprintf("%d on hand", n) }
