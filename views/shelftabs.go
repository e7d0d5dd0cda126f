package views

import (
	"strings"

	"fyne.io/fyne/v2"

	"meniscus/model"
)

// face brings what changes with the part of the window up to date: its question,
// whose undo and whose findings it shows, and what stands at the left. Prices
// belong to the open project, all else to the shelf.
func (p *shelfPage) face() {
	question, left, subject := "What is on hand, and does it suffice?", p.list.root, model.OfShelf
	switch p.tab {
	case shelfBuying:
		question, left = "What is to be bought?", p.buy.root
	case shelfPricing:
		question, left, subject = "What does it cost, and what should it bring?", p.worth.root, model.OfPrice
	}
	p.frame.question.SetText(question)
	p.frame.subjects = []model.Subject{subject}
	if subject == model.OfPrice {
		p.frame.ofProject()
	} else {
		p.frame.ofShelf()
	}
	switch p.tab {
	case shelfBuying:
		p.buy.see()
	case shelfPricing:
		p.worth.see()
	default:
		p.list.see()
	}
	if p.left.Objects[0] != left {
		p.left.Objects = []fyne.CanvasObject{left}
		p.left.Refresh()
	}
}

// answer answers the question of the part that is shown.
func (p *shelfPage) answer() string {
	switch p.tab {
	case shelfBuying:
		return p.buy.answer()
	case shelfPricing:
		return p.worth.answer()
	}
	return shelfAnswer(&p.shot)
}

// focusPrice leads to the input of a field of the price.
func (p *shelfPage) focusPrice(field string) bool {
	p.in.form.CommitAll()
	p.tab = shelfPricing
	p.tabs.SetChosen(p.tab)
	p.see(p.shot)
	if p.in.lead(field) {
		return true
	}
	// A list, or an item that has no input of its own: the first input of it.
	for _, path := range p.in.form.Paths() {
		if strings.HasPrefix(path, field+"/") {
			return p.in.lead(path)
		}
	}
	return true
}
