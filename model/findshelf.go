package model

import (
	"fmt"
	"strings"

	"meniscus/model/unit"
)

// soonDays is how long before its last day a bottle is spoken of, and pairsApart
// which share of what is left may find no partner before that is worth a word.
// Common practice, no source.
const (
	soonDays   = 30
	pairsApart = 0.05
)

// leastTold is the least that is worth telling: half of what a bench scale shows.
const leastTold = unit.Gram / 2

func (m *shelfMaker) say(level Level, kind, field, what, why, do string) {
	m.plan.Findings = append(m.plan.Findings, Finding{kind, level, OfShelf, field, what, why, do})
}

func (m *shelfMaker) mass(x unit.Mass) string { return m.shelf.Style.Mass(x) }

// findDrafts tells of what was typed on the shelf but not taken.
func (m *shelfMaker) findDrafts() {
	for _, d := range m.shelf.Drafts {
		m.say(Check, "draft", d.Field, fmt.Sprintf("“%s” was typed but not taken", clip(d.Text)), d.Reason, "the last good value stands until it is mended")
	}
}

// findMissing tells of what was weighed out of a part and that no bottle of it
// covers, by lots.
func (m *shelfMaker) findMissing(p *Product, part PartName, uses []StockUse, missing []unit.Mass) {
	type short struct {
		lot  string
		mass unit.Mass
		last *StockUse
	}
	var list []short
next:
	for i, x := range missing {
		if x <= 0 {
			continue
		}
		for j := range list {
			if s := &list[j]; sameLot(s.lot, uses[i].Lot) {
				s.mass, s.last = s.mass+x, &uses[i]
				continue next
			}
		}
		list = append(list, short{uses[i].Lot, x, &uses[i]})
	}
	for _, s := range list {
		if s.mass < leastTold {
			continue
		}
		name, do := string(part)+" of "+p.Sheet.Name, "weigh its bottles as they are now, or add the one it came out of"
		if s.lot != "" {
			name += ", lot " + clip(s.lot)
			do += "; and look at the lot's number, here and at the pour"
		}
		m.say(Check, "shelf.missing", shelfRoot+"/products/"+p.ID, "No bottle covers all that was weighed out: "+name,
			fmt.Sprintf("%s more than the bottles held, last for %s on %s", m.mass(s.mass), s.last.Layer, DateOf(s.last.At).Words()), do)
	}
}

// findProduct notices what the maker should know of a product and its bottles.
func (m *shelfMaker) findProduct(p *Product, pp *ProductPlan) {
	at := shelfRoot + "/products/" + p.ID
	name := orWord(p.Sheet.Name, "a product")
	if len(pp.Bottles) > 0 && pp.Parts == 0 {
		m.say(Check, "shelf.ratio", at+"/sheet/weightRatio/a", "The mixing ratio of "+name+" is not known", "so nobody can say how much its bottles make", "copy it from the data sheet")
	}
	if pp.Low {
		m.say(Check, "shelf.low", at+"/low", name+" runs low", fmt.Sprintf("what is left makes %s of mix, and you want %s on hand", m.mass(pp.Mix), m.mass(p.Low.Value)), "buy some, of one lot if you can")
	}
	if spare, part := max(pp.SpareA, pp.SpareB), "B"; pp.Parts > 0 && pp.Unknown == 0 && spare > (pp.A+pp.B).Times(pairsApart) {
		if pp.SpareB > 0 {
			part = "A"
		}
		m.say(Note, "shelf.unpaired", at, "A and B of "+name+" do not pair", fmt.Sprintf("%s stays over, for want of %s", m.mass(spare), part), "buy "+part+" alone, where it is sold so; never stretch a mix with more of one part")
	}
	for i := range p.Bottles {
		b := &p.Bottles[i]
		if bp := pp.Bottle(b.ID); bp != nil {
			m.findBottle(p, b, bp)
		}
	}
}

// findBottle notices what the maker should know of a bottle.
func (m *shelfMaker) findBottle(p *Product, b *Bottle, bp *BottlePlan) {
	at := shelfRoot + "/products/" + p.ID + "/bottles/" + b.ID
	name := "The bottle of " + string(b.Part) + " of " + orWord(p.Sheet.Name, "a product")
	if b.Lot != "" {
		name += ", lot " + clip(b.Lot)
	}
	for i := range b.Weighings {
		if w := &b.Weighings[i]; b.Tare.Given() && w.Gross.Value < b.Tare.Value {
			m.say(Check, "shelf.tare", at+"/tare", name+" weighed less than an empty one", fmt.Sprintf("%s, and the empty bottle %s: that weighing does not count", m.mass(w.Gross.Value), m.mass(b.Tare.Value)), "weigh an empty bottle of the same kind with its cap, and mend the figure")
			break
		}
	}
	if !bp.Known {
		m.say(Note, "shelf.unknown", at+"/tare", "What is in one bottle is not known: "+strings.TrimPrefix(name, "The "), "how much resin is on hand is short of it until then", "type what the empty bottle weighs and weigh it, or type what it holds where it is new")
	}
	if b.Opened.Given() && b.Opened > m.plan.Today || b.Bought.Given() && b.Bought > m.plan.Today {
		m.say(Check, "shelf.date", at+"/opened", name+" was opened or bought on a day that is still to come", fmt.Sprintf("today is %s", m.plan.Today.Words()), "look at the year")
	}
	test := "mix a test puck, and see that it sets as hard as it should, before you trust a piece to it"
	switch {
	case bp.Known && bp.Net <= 0 || !bp.Until.Given():
	case bp.Expired && bp.Typical:
		m.say(Check, "shelf.expired", at+"/opened", name+" has been open for more than "+itoa(typicalMonths)+" months", fmt.Sprintf("opened %s; opened bottles usually keep %d months, some %d and some %d, and its product does not say", b.Opened.Words(), typicalMonths, fewestMonths, mostMonths), test)
	case bp.Expired:
		m.say(Check, "shelf.expired", at+"/expires", name+" is past its day", "it was good until "+bp.Until.Words(), test)
	case bp.Until <= m.plan.Today.AddDays(soonDays):
		m.say(Note, "shelf.soon", at+"/expires", name+" is near its day", "it is good until "+bp.Until.Words(), "use it first")
	case bp.Typical && b.Opened.AddMonths(fewestMonths) < m.plan.Today:
		m.say(Note, "shelf.aging", at+"/opened", name+" has been open for more than "+itoa(fewestMonths)+" months", "some products keep no longer; its data sheet does not say", test)
	}
}
