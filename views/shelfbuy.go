package views

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// mostBuyPieces is how many pieces are offered to be ticked before the rest is
// asked for.
const mostBuyPieces = 8

// buyingName is the name under which it is remembered what to buy for.
const buyingName = "buying"

// buyTicks is what the maker ticked about buying. It outlasts the window.
type buyTicks struct {
	Off    map[string]bool // the open projects that do not count
	Ticked map[string]bool // other projects that count
	Hidden map[string]bool // pours that nobody will see
}

// shelfBuy is the part of the window that tells what to buy: for the open
// project and any other of the notebook that is ticked.
type shelfBuy struct {
	page   *shelfPage
	root   *fyne.Container
	box    *fyne.Container
	scroll *touch.Scroll

	ticks  buyTicks
	all    bool   // all pieces are offered
	chosen string // the product whose kits are shown, by name

	asked  string // what the list is of
	shown  string
	round  int
	list   []app.Supply
	told   bool   // there is a list
	unread string // that some projects could not be read
}

func newShelfBuy(p *shelfPage) *shelfBuy {
	b := &shelfBuy{page: p, box: container.New(layout.NewCustomPaddedVBoxLayout(12)), ticks: buyTicks{Off: map[string]bool{}, Ticked: map[string]bool{}, Hidden: map[string]bool{}}}
	p.desk.session.Recall(buyingName, &b.ticks)
	b.scroll = touch.NewScroll(inset(b.box))
	b.root = container.NewStack(b.scroll)
	return b
}

// see has the list worked out anew where that is due.
func (b *shelfBuy) see() {
	shot := &b.page.shot
	want := b.wanted()
	key := fmt.Sprint(shot.Edition, want)
	if key == b.asked {
		b.draw()
		return
	}
	b.asked = key
	b.round++
	round := b.round
	if len(want.Projects) == 0 {
		b.page.desk.session.DropSupplies()
		b.list, b.told, b.unread = nil, true, ""
		b.draw()
		return
	}
	b.draw()
	b.page.desk.session.Supplies(want, func(list []app.Supply, err error) {
		if round != b.round {
			return
		}
		b.list, b.told, b.unread = list, true, problemWords(err)
		if b.page.tab == shelfBuying {
			b.page.see(b.page.shot)
		}
	})
}

// wanted says for what something is to be bought.
func (b *shelfBuy) wanted() app.Wanted {
	var ids []string
	for i := range b.page.shot.Cards {
		if c := &b.page.shot.Cards[i]; b.counts(c.ID) {
			ids = append(ids, c.ID)
		}
	}
	slices.Sort(ids)
	return app.Wanted{Projects: ids, Hidden: setIn(b.ticks.Hidden)}
}

// setIn gives what is so.
func setIn(all map[string]bool) map[string]bool {
	now := map[string]bool{}
	for key, so := range all {
		if so {
			now[key] = true
		}
	}
	return now
}

// keep remembers the ticks, and shows what follows from them.
func (b *shelfBuy) keep() {
	b.page.desk.session.Remember(buyingName, buyTicks{setIn(b.ticks.Off), setIn(b.ticks.Ticked), setIn(b.ticks.Hidden)})
	b.page.see(b.page.shot)
}

// counts tells whether something is bought for a project.
func (b *shelfBuy) counts(id string) bool {
	if shot := &b.page.shot; shot.Open && shot.Project.ID == id {
		return !b.ticks.Off[id]
	}
	return b.ticks.Ticked[id]
}

// tick has a project count or not.
func (b *shelfBuy) tick(id string, on bool) {
	if shot := &b.page.shot; shot.Open && shot.Project.ID == id {
		b.ticks.Off[id] = !on
	} else {
		b.ticks.Ticked[id] = on
	}
	b.keep()
}

// answer is the lead figure.
func (b *shelfBuy) answer() string {
	var buy []*app.Supply
	troubled := 0
	for i := range b.list {
		switch v := &b.list[i]; {
		case v.Trouble != "":
			troubled++
		case !v.Purchase.Nothing:
			buy = append(buy, v)
		}
	}
	s := b.page.shot.Shelf.Style
	switch {
	case !b.told:
		return "Looking at what is to be poured…"
	case len(b.wanted().Projects) == 0:
		return "Tick the pieces that you want to buy for"
	case len(b.list) == 0:
		return "Nothing is poured in these pieces yet"
	case len(buy) == 0 && troubled > 0:
		return "Say which kits there are, then it says here what to buy"
	case len(buy) == 0:
		return "Nothing to buy: what is on the shelf suffices"
	case len(buy) == 1 && troubled == 0:
		return buy[0].Purchase.Lead(s)
	}
	return fmt.Sprintf("%s, and more for %s", buy[0].Purchase.Lead(s), counted(len(buy)-1+troubled, "other product", "other products"))
}

// key names the structure of what stands at the right.
func (b *shelfBuy) key() string {
	var k strings.Builder
	fmt.Fprint(&k, b.all, b.chosen, b.told)
	for i := range b.page.shot.Cards {
		fmt.Fprint(&k, b.page.shot.Cards[i].ID, b.page.shot.Cards[i].Name, b.page.shot.Cards[i].State)
	}
	for i := range b.list {
		v := &b.list[i]
		fmt.Fprint(&k, v.Need.Product, v.Product, b.page.shot.Project.Sheet(v.Sheet) != nil)
		for _, l := range v.Need.Layers {
			k.WriteString(l.Name)
		}
		if product := b.page.shot.Shelf.Product(v.Product); product != nil {
			for _, kit := range product.Kits {
				k.WriteString(kit.ID)
			}
		}
	}
	return k.String()
}

// side is what stands at the right: the pieces, the kits, and what nobody sees.
func (b *shelfBuy) side() fyne.CanvasObject {
	all := stack(touch.NewCard("Buy for", b.pieces()))
	if v := b.supply(); v != nil {
		all.Add(b.kits(v))
	}
	if pours := b.unseen(); pours != nil {
		all.Add(pours)
	}
	return all
}

// pieces offers the pieces to be ticked: those with pours to come.
func (b *shelfBuy) pieces() fyne.CanvasObject {
	box := container.New(layout.NewCustomPaddedVBoxLayout(4))
	shot := &b.page.shot
	more := 0
	offer := func(c *model.Card) {
		t := touch.NewToggle(brief(nameOf(c.Name), 34)+" · "+c.State, b.counts(c.ID), nil)
		id := c.ID
		t.OnChange = func(on bool) { b.tick(id, on) }
		box.Add(t)
	}
	for i := range shot.Cards {
		if c := &shot.Cards[i]; shot.Open && c.ID == shot.Project.ID {
			offer(c)
		}
	}
	for i := range shot.Cards {
		c := &shot.Cards[i]
		switch {
		case c.Archived, shot.Open && c.ID == shot.Project.ID, !c.ToPour() && !b.ticks.Ticked[c.ID]:
		case len(box.Objects) >= mostBuyPieces && !b.all && !b.ticks.Ticked[c.ID]:
			more++
		default:
			offer(c)
		}
	}
	if len(box.Objects) == 0 {
		box.Add(touch.NewText("No piece of the notebook has a pour to come.", touch.Body, touch.Faint))
	}
	if more > 0 {
		box.Add(touch.NewStyledButton(fmt.Sprintf("Show %d more", more), touch.Quiet, func() {
			b.all = true
			b.page.see(b.page.shot)
		}))
	}
	return box
}

// supply is the product whose kits are shown: the chosen one, else the first
// that nothing can be proposed for.
func (b *shelfBuy) supply() *app.Supply {
	var first *app.Supply
	for i := range b.list {
		v := &b.list[i]
		if v.Need.Product == b.chosen {
			return v
		}
		if first == nil || first.Trouble == "" && v.Trouble != "" {
			first = v
		}
	}
	return first
}

// kits are the inputs of what a product is sold in.
func (b *shelfBuy) kits(v *app.Supply) fyne.CanvasObject {
	all := stack()
	if len(b.list) > 1 {
		var options []touch.Option
		for i := range b.list {
			options = append(options, touch.Option{ID: b.list[i].Need.Product, Label: brief(nameOf(b.list[i].Need.Product), 40)})
		}
		pick := touch.NewSelect("Choose a product", options, func(id string) {
			b.page.in.form.CommitAll()
			b.chosen = id
			b.page.see(b.page.shot)
		})
		pick.SetSelected(v.Need.Product)
		all.Add(touch.Labelled("What it is sold in", pick))
	}
	if product := b.page.shot.Shelf.Product(v.Product); product != nil {
		all.Add(b.page.kits(product))
		return all
	}
	name := brief(nameOf(v.Need.Product), 24)
	words := capitalised(nameOf(v.Need.Product)) + " is not on the shelf yet; what it is sold in is kept with it there."
	body := stack(touch.NewText(words, touch.Body, touch.Ink))
	sheet := v.Sheet
	if v.Project == b.page.shot.Project.ID && b.page.shot.Open {
		body.Add(b.page.act("Keep "+name+" on the shelf", touch.Primary, func() error { return b.page.desk.session.KeepProduct(sheet) }))
	} else {
		body.Add(touch.NewText("Open the piece that pours it, and keep it here.", touch.Body, touch.Faint))
	}
	all.Add(touch.NewCard("Kits", body))
	return all
}

// unseen offers to say which pours nobody will see; nil where there is no more
// than one.
func (b *shelfBuy) unseen() fyne.CanvasObject {
	box := container.New(layout.NewCustomPaddedVBoxLayout(4), touch.NewText("A pour that is seen comes from one lot of each part, since two lots can differ in colour. One that nobody sees may take what several bottles have left.", touch.Small, touch.Faint))
	n := 0
	for i := range b.list {
		for _, l := range b.list[i].Need.Layers {
			key := app.LayerKey(l.Project, l.Layer)
			box.Add(touch.NewToggle(brief(l.Name, 44), b.ticks.Hidden[key], func(on bool) {
				b.ticks.Hidden[key] = on
				b.keep()
			}))
			n++
		}
	}
	if n < 2 {
		return nil
	}
	return touch.NewCard("Pours that nobody will see", box)
}
