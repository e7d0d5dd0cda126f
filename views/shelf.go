package views

import (
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// The parts of the window Shelf.
const (
	shelfProducts = "products"
	shelfMolds    = "molds"
	shelfSmall    = "small"
	shelfBuying   = "buying"
	shelfPricing  = "price"
)

// shelfPage is the window Shelf: what is on hand, and whether it suffices. At
// the left lies what is there, at the right stands what can be said of the thing
// that is chosen.
type shelfPage struct {
	*cards
	desk  *Desk
	frame *frame
	shot  app.Snapshot

	list   *shelfList
	buy    *shelfBuy
	worth  *shelfPrice
	left   *fyne.Container // what stands at the left
	tabs   *touch.Choice
	body   *pane
	opened *workingPanel
	said   *touch.Text // why something could not be done
	tab    string
	chosen map[string]string // path of what is chosen in each part
	sheet  bool              // the data sheet of the chosen product is open
	typed  map[string]string // into inputs of what is no field of the shelf, and not noted yet
	lead   string            // path of the input to lead to once it is there
	width  float32           // of what stands at the right, so that turning to another part moves nothing
}

func newShelf(d *Desk, _ fyne.Window) page {
	p := &shelfPage{cards: newCards(newInputs(d, shelfKey)), desk: d, tab: shelfProducts, chosen: map[string]string{}, typed: map[string]string{}, width: 500}
	p.opened = newWorkingPanel(d)
	p.list, p.buy, p.worth = newShelfList(p), newShelfBuy(p), newShelfPrice(p)
	p.left = container.NewStack(p.list.root)
	p.said = touch.NewText("", touch.Body, touch.StopTone)
	p.tabs = touch.NewChoice([]touch.Option{
		{ID: shelfProducts, Label: "Products"}, {ID: shelfMolds, Label: "Molds"}, {ID: shelfSmall, Label: "Small things"},
		{ID: shelfBuying, Label: "Buying"}, {ID: shelfPricing, Label: "Price"},
	}, p.tab, p.open)
	p.body = newPane(p.in)
	p.scroll = touch.NewScroll(inset(container.New(&asWide{&p.width}, stack(p.said, p.body.root))))
	side := asRead(container.New(layout.NewCustomPaddedLayout(look.Gap, 0, 14, 14), p.tabs), p.scroll, nil)
	p.frame = newFrame(d, "", p.left, p.opened.over(side), p.in)
	p.face()
	p.in.pad.SetFolded(true)
	return p
}

func (p *shelfPage) content() fyne.CanvasObject { return p.frame.root }

func (p *shelfPage) part() string { return p.tabs.Words() }

func (p *shelfPage) commit() { p.in.form.CommitAll() }

func (p *shelfPage) tick(time.Time) {}

// kept shows that only the disk has caught up.
func (p *shelfPage) kept(shot *app.Snapshot) { p.frame.kept(shot) }

// see redraws everything from a snapshot.
func (p *shelfPage) see(shot app.Snapshot) {
	p.shot = shot
	p.face()
	p.build()
	if p.lead != "" && p.in.lead(p.lead) {
		p.lead = ""
	}
	p.cards.see(&p.shot)
	p.opened.see(&p.shot)
	p.frame.see(&p.shot)
	p.frame.setAnswer(p.answer())
}

// open shows another part of the window.
func (p *shelfPage) open(tab string) {
	p.in.form.CommitAll()
	p.opened.hide()
	p.tab = tab
	p.tabs.SetChosen(tab)
	p.said.SetText("")
	p.scroll.SetOffset(0)
	p.see(p.shot)
}

// choose shows what can be said of another thing.
func (p *shelfPage) choose(path string) {
	if p.at() == path {
		return
	}
	p.in.form.CommitAll()
	p.opened.hide()
	p.chosen[p.tab], p.sheet = path, false
	p.said.SetText("")
	p.scroll.SetOffset(0)
	p.see(p.shot)
}

// at is the path of what is chosen, of what is there; the first thing for none.
func (p *shelfPage) at() string {
	first := ""
	for _, r := range p.list.rows(p.tab) {
		if r.path == p.chosen[p.tab] {
			return r.path
		}
		if first == "" {
			first = r.path
		}
	}
	return first
}

// build builds what can be said of the thing that is chosen.
func (p *shelfPage) build() {
	at := p.at()
	key := fmt.Sprint(p.tab, at, p.sheet, p.shot.Project.ID, p.shot.Project.Name, p.offers(), len(p.shot.Shelf.Inserts), len(p.shot.Shelf.Molds), p.shot.Project.Mixing.Vessel.Given())
	if product, bottle := p.product(at); bottle != nil {
		key += fmt.Sprint(bottle.Gone, bottle.Part, len(bottle.Weighings))
	} else if product != nil {
		for _, k := range product.Kits {
			key += k.ID
		}
	}
	switch p.tab {
	case shelfBuying:
		key += p.buy.key()
	case shelfPricing:
		key += p.worth.key()
	}
	built := p.body.show(key, func() fyne.CanvasObject {
		p.cards.clear()
		switch p.tab {
		case shelfBuying:
			return p.buy.side()
		case shelfPricing:
			return p.worth.side()
		case shelfMolds:
			return p.mold(at)
		case shelfSmall:
			return p.small(at)
		}
		return p.ofProduct(at)
	})
	if built {
		p.scroll.Refresh() // its new inputs learn where they stand
	}
}

// product finds the product, and the bottle, that a path leads to or through.
func (p *shelfPage) product(path string) (*model.Product, *model.Bottle) {
	parts := strings.Split(path, "/")
	if len(parts) < 3 || parts[1] != "products" {
		return nil, nil
	}
	product := p.shot.Shelf.Product(parts[2])
	if product == nil || len(parts) < 5 || parts[3] != "bottles" {
		return product, nil
	}
	return product, product.Bottle(parts[4])
}

// offers names what the open project has that could be kept on the shelf, so that
// its buttons come and go.
func (p *shelfPage) offers() string {
	var names []string
	if !p.shot.Open {
		return ""
	}
	for _, s := range p.shot.Project.Sheets {
		if p.shot.Shelf.Product(s.Product) == nil {
			names = append(names, s.ID+s.Name)
		}
	}
	for _, i := range p.shot.Project.Inserts {
		names = append(names, i.ID+i.Name)
	}
	for _, l := range p.shot.Project.Layers {
		names = append(names, l.ID+l.Name)
	}
	return strings.Join(names, "|")
}

// say does something to the shelf or the project, and says why it cannot be done.
func (p *shelfPage) say(err error) {
	p.said.SetText(problemWords(err))
	if err != nil {
		p.scroll.SetOffset(0)
	}
}

// add adds something to the shelf, chooses it, and leads to its name.
func (p *shelfPage) add(label, name string, make func(*model.Shelf) string) {
	p.in.form.CommitAll()
	path := ""
	err := p.desk.session.EditShelf(label, "", func(m *model.Shelf) error {
		path = make(m)
		return nil
	})
	if err == nil && path != "" {
		p.chosen[p.tab], p.lead = path, path+name
	}
	p.say(err)
}

// remove takes what a path leads to off the shelf.
func (p *shelfPage) remove(label, path string) fyne.CanvasObject {
	b := touch.NewStyledButton(label, touch.Danger, func() {
		p.in.form.CommitAll()
		p.say(p.desk.session.EditShelf(label, "", func(m *model.Shelf) error { return m.Remove(path) }))
	})
	b.Debounce = touch.Settle
	return b
}

// act is a button that does one thing, once.
func (p *shelfPage) act(label string, style touch.Style, do func() error) *touch.Button {
	b := touch.NewStyledButton(label, style, func() {
		p.in.form.CommitAll()
		p.say(do())
	})
	b.Debounce = touch.Settle
	return b
}

// focus leads to the input of a field of the shelf.
func (p *shelfPage) focus(field string) bool {
	p.opened.hide() // it covers the inputs
	if strings.HasPrefix(field, "costing") {
		return p.focusPrice(field)
	}
	parts := strings.Split(field, "/")
	if !model.ShelfPath(field) || len(parts) < 3 {
		return false
	}
	tab, path := shelfSmall, strings.Join(parts[:3], "/")
	switch parts[1] {
	case "products":
		tab = shelfProducts
		if len(parts) > 4 && parts[3] == "bottles" {
			path = strings.Join(parts[:5], "/")
		}
	case "molds":
		tab = shelfMolds
	}
	p.in.form.CommitAll()
	p.tab, p.chosen[tab] = tab, path
	p.sheet = len(parts) > 3 && parts[3] == "sheet" && parts[len(parts)-1] != "name"
	p.tabs.SetChosen(tab)
	p.see(p.shot)
	return p.in.lead(field) || p.at() == path
}

// shelfAnswer answers the window's question.
func shelfAnswer(shot *app.Snapshot) string {
	if len(shot.ShelfPlan.Products) == 0 {
		return "No product is on the shelf yet"
	}
	if words, ok := shelfFor(shot); ok {
		return words
	}
	s := shot.Shelf.Style
	var mix unit.Mass
	named := ""
	for i := range shot.ShelfPlan.Products {
		p := &shot.ShelfPlan.Products[i]
		if p.Mix > mix || named == "" {
			mix, named = p.Mix, p.Name
		}
	}
	if mix <= 0 {
		return "No mix can be made of what is known to be here"
	}
	return fmt.Sprintf("%s makes %s of mix", named, s.Mass(mix))
}

// shelfFor tells whether what is on hand suffices for the open project; false
// where nothing in it pours from the shelf.
func shelfFor(shot *app.Snapshot) (string, bool) {
	s := shot.Project.Style
	pours := false
	for i := range shot.Project.Sheets {
		sheet := &shot.Project.Sheets[i]
		if shot.ShelfPlan.Product(sheet.Product) == nil {
			continue
		}
		for _, part := range shot.Stock(sheet.ID) {
			pours = pours || part.Needs > 0
			if short := part.Short(); short > unit.Gram/2 {
				return fmt.Sprintf("%s of %s too little of %s for %s", s.Mass(short), part.Part, sheet.Name, nameOf(shot.Project.Name)), true
			}
		}
	}
	return "Enough for all pours to come of " + nameOf(shot.Project.Name), pours
}
