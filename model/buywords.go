package model

import (
	"fmt"
	"slices"
	"strings"

	"meniscus/model/unit"
)

// mostBottles bounds how many bottles of what is bought are shared out.
const mostBottles = 200

// rules lists the layers of which a part comes out of more than one bottle of
// what is bought, when each bottle serves as much as it can by itself.
func (p *Purchase) rules() {
	for _, part := range [2]PartName{PartA, PartB} {
		var bottles, want []unit.Mass
		var uses []LotUse
		for _, k := range p.Best.Kits {
			holds := k.Kit.A
			if part == PartB {
				holds = k.Kit.B
			}
			for range min(k.Number, mostBottles-len(bottles)) {
				bottles = append(bottles, holds.Times(1-float64(p.Need.Residue.Value)))
			}
		}
		for _, u := range p.Need.Uses {
			if u.Part == part && u.Buy && !p.Need.hidden(u.Project, u.Layer) {
				uses, want = append(uses, u), append(want, u.Mass)
			}
		}
		for i, bottle := range fillLots(want, bottles) {
			if u := uses[i]; bottle == none {
				p.OneLot = append(p.OneLot, LotRule{part, u.Layer, u.Name, u.Mass, slices.Max(append(bottles, 0))})
			}
		}
	}
}

// lotName names a lot.
func lotName(lot string) string {
	if lot == "" {
		return "no known lot"
	}
	return "lot " + lot
}

func (n *Need) hidden(project, layer string) bool {
	for i := range n.Layers {
		if l := &n.Layers[i]; l.Project == project && l.Layer == layer {
			return l.Hidden
		}
	}
	return false
}

// idle lists the lots that serve no layer although that part has to be bought.
func (p *Purchase) idle() {
	for _, l := range p.Need.Lots {
		used, bought := false, false
		for _, u := range p.Need.Uses {
			if u.Part == l.Part {
				used = used || u.Lot == l.Number && !u.Buy
				bought = bought || u.Buy
			}
		}
		if bought && !used && l.Left > 0 {
			p.Idle = append(p.Idle, l)
		}
	}
}

// Words tells what each pour takes, with its losses, and how sure that is to
// suffice.
func (n *Need) Words(s unit.Style) (list []string) {
	for i := range n.Layers {
		l := &n.Layers[i]
		list = append(list, fmt.Sprintf("%s: %s, with losses, %s sure to suffice", l.Name, parted(s, l.A, l.B), s.Share(unit.Share(l.Sure))))
	}
	return list
}

// Words tells what to buy and why, line by line, as the style writes it.
func (p *Purchase) Words(s unit.Style) []string {
	if p.Nothing {
		return append([]string{"Nothing to buy: what is there suffices."}, p.leaves(s, &p.Best)...)
	}
	var list []string
	need := "Short " + parted(s, p.Need.A, p.Need.B)
	list = append(list, need+": buy "+p.Best.Short()+costs(&p.Best)+".")
	list = append(list, p.leaves(s, &p.Best)...)
	if p.ByLeft {
		list = append(list, "Chosen by what is left over: no price for "+some(p.Prices)+".")
	}
	if !p.Proven {
		list = append(list, "So many kits could not all be tried: there may be a cheaper set.")
	}
	if p.Next != nil {
		list = append(list, "Next: "+p.Next.Short()+costs(p.Next)+". "+strings.Join(p.leaves(s, p.Next), " "))
	}
	return list
}

// Lead tells in one line what to buy, what it costs and what is left over.
func (p *Purchase) Lead(s unit.Style) string {
	if p.Nothing {
		return "Nothing to buy"
	}
	text := "Buy " + p.Best.Short()
	if p.Best.Cost.Given() {
		text += ": " + p.Best.Cost.String()
	}
	return text + "; " + p.Best.Over(s) + " left over"
}

// Over writes what a set leaves over, A and B together.
func (set *KitSet) Over(s unit.Style) string {
	if over := set.LeftA + set.LeftB; over >= unit.Gram/2 {
		return s.Mass(over)
	}
	return "nothing"
}

func costs(set *KitSet) string {
	switch {
	case !set.Cost.Given():
		return ""
	case set.PerKilo.Given():
		return fmt.Sprintf(", %s, that is %s a usable kilogram", set.Cost, set.PerKilo)
	}
	return ", " + set.Cost.String()
}

// leaves tells what a set leaves and whether that can be used.
func (p *Purchase) leaves(s unit.Style, set *KitSet) []string {
	if set.LeftA < unit.Gram/2 && set.LeftB < unit.Gram/2 {
		return []string{"Nothing is left over."}
	}
	text := "Leaves " + parted(s, set.LeftA, set.LeftB)
	switch {
	case p.Need.Parts == 0:
	case set.Pairs >= unit.Gram/2 && set.OddA < unit.Gram/2 && set.OddB < unit.Gram/2:
		text += ", which pair up to " + s.Mass(set.Pairs) + " of mix"
	case set.Pairs >= unit.Gram/2:
		text += fmt.Sprintf(": %s of mix, and %s without its partner", s.Mass(set.Pairs), parted(s, set.OddA, set.OddB))
	default:
		text += ", without its partner"
	}
	return []string{text + "."}
}

// parted writes an amount of A and B, leaving out what is nothing.
func parted(s unit.Style, a, b unit.Mass) string {
	switch {
	case b < unit.Gram/2:
		return s.Mass(a) + " of A"
	case a < unit.Gram/2:
		return s.Mass(b) + " of B"
	}
	return s.Mass(a) + " of A and " + s.Mass(b) + " of B"
}

// some names the first of a list and how many more there are.
func some(list []string) string {
	switch n := len(list); n {
	case 0:
		return ""
	case 1:
		return orWord(list[0], "a kit")
	default:
		return fmt.Sprintf("%s and %d more", orWord(list[0], "a kit"), n-1)
	}
}

// Findings tells what the maker should look at before buying: what must be of
// one lot, what is too little to be used, and what could not be counted. They
// belong to no one project's plan, and so have no field unless one is at fault.
func (p *Purchase) Findings(s unit.Style) []Finding {
	var list []Finding
	say := func(level Level, kind, field, what, why, do string) {
		list = append(list, Finding{kind, level, OfPrice, field, what, why, do})
	}
	for _, m := range p.Need.Missing {
		say(Check, "buy.missing", m.Field, upperFirst(m.Message), "until then the list is short of it", "mend it there")
	}
	for _, r := range p.OneLot {
		why := fmt.Sprintf("it takes %s and the largest bottle gives %s", s.Mass(r.Mass), s.Mass(r.Largest))
		if r.Mass <= r.Largest {
			why = fmt.Sprintf("it takes %s, and the bottles that give so much serve other layers", s.Mass(r.Mass))
		}
		say(Check, "buy.one-lot", "", fmt.Sprintf("%s of %s must be of one lot", r.Part, r.Name),
			why+"; two lots in one layer can differ in colour",
			"look at the lot numbers when you buy: all bottles for this layer alike")
	}
	if p.Nothing {
		return list
	}
	for _, l := range p.Idle {
		say(Note, "buy.idle-lot", "", fmt.Sprintf("%s of %s of %s is too little for a layer", s.Mass(l.Left), l.Part, lotName(l.Number)),
			"a layer that is seen comes from one lot of "+string(l.Part), "use it for a seal coat, or say that a layer is not seen")
	}
	if p.MixSave {
		t := p.Need.Table(s)
		say(Note, "buy.mixed-lots", "", "Less would do if lots might meet within a layer",
			fmt.Sprintf("then %s were short instead of %s", parted(s, max(0, t.Total.A-t.Have.A), max(0, t.Total.B-t.Have.B)), parted(s, t.Buy.A, t.Buy.B)),
			"say which layers nobody will see")
	}
	if best := &p.Best; best.OddA >= 100*unit.Gram || best.OddB >= 100*unit.Gram {
		say(Note, "buy.odd", "", parted(s, best.OddA, best.OddB)+" stays without its partner", "A and B are used in pairs", "look at the next set, or at a single bottle of the other part")
	}
	return list
}
