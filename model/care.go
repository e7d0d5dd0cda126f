package model

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// usePlan tells what the finished piece can go through, and writes the card that
// goes with it. Of food it says nothing but what the supplier's sheet says.
func (m *maker) usePlan() UsePlan {
	u := UsePlan{Softens: m.softensFirst()}
	u.Limit = m.plan.Finish.Sand.Warmest
	u.Card = m.careCard(&u)
	degrees := wholeDegrees(m.p.Style)
	u.Lines = []WorkingInput{
		line("Softens", bandWords(u.Softens, degrees), cmp.Or(u.Softens.Source, commonPractice)).standing(u.Softens.Typical),
		line("Warmest thing on it", degrees(u.Limit), fmt.Sprintf("that less %s", m.p.Style.TempRise(softMargin))).standing(u.Softens.Typical),
		line("Is for", string(cmp.Or(m.p.Finish.Use.As, UseShow)), "yours").at("finish/use/as"),
	}
	food := "nothing is quoted"
	if q := strings.TrimSpace(m.p.Finish.Use.Food); q != "" {
		food = "“" + q + "”"
	}
	u.Lines = append(u.Lines, line("Food", food, "what the supplier's sheet says, word for word; nothing else is claimed").at("finish/use/food"))
	return u
}

// careCard writes the text of the card in plain words.
func (m *maker) careCard(u *UsePlan) CareCard {
	p, use := m.p, &m.p.Finish.Use
	degrees := wholeDegrees(p.Style)
	c := CareCard{Title: p.Name}
	add := func(format string, a ...any) { c.Lines = append(c.Lines, fmt.Sprintf(format, a...)) }
	if u.Softens.Typical {
		add("Nothing hot on it. The supplier does not say at what temperature this resin softens; many soften between %s and %s. Use a trivet.", degrees(typicalSoftening.low), degrees(typicalSoftening.high))
	} else {
		add("Nothing warmer than %s on it: the resin softens at %s. Use a trivet for cups and pans.", degrees(u.Limit), degrees(u.Softens.Value))
	}
	add("Wipe it with a damp cloth and a drop of washing-up liquid, and dry it at once. No dishwasher, no soaking, no scouring, no solvent.")
	wood := len(p.Pieces) > 0
	if use.As == UseBoard {
		if wood {
			add("Cut on the wood alone: a knife scratches the resin.")
		} else {
			add("Serve on it, do not cut on it: a knife scratches the resin.")
		}
	}
	switch q := strings.TrimSpace(use.Food); {
	case q != "":
		end := "."
		if strings.ContainsAny(q[len(q)-1:], ".!?") {
			end = ""
		}
		add("Of food the supplier's sheet of %s states: “%s”%s Nothing beyond that is claimed.", m.sheetNames(), q, end)
	case use.As == UseBoard:
		add("Nothing is claimed about food that touches the resin: ask the maker for the supplier's sheet.")
	}
	if use.Sun {
		add("Sun yellows clear resin and warms it: turn the piece now and then, and shade it in summer.")
	} else {
		add("Keep it out of the sun: sun yellows clear resin and warms it.")
	}
	if wood {
		add("The wood swells and shrinks with the air. Keep it away from radiators and out of damp rooms.")
	}
	switch k := p.Finish.Coat.Kind; {
	case k == CoatOil || k == CoatHardwax:
		add("When the wood looks dry, rub in a little %s, and wipe the resin clean again. Lay oily cloths out flat outdoors to dry: crumpled up they can catch fire by themselves.", coatName(&p.Finish.Coat))
	case k == CoatWax:
		add("When it looks dull, rub on a little wax and buff it.")
	}
	if p.Finish.Sand.Want == SurfaceClear {
		add("Fine scratches polish out with a plastic polish and a soft cloth.")
	}
	c.Foot = "A hand-made piece. The data sheets of its materials stand above this card."
	return c
}

// coatName is the maker's own name of the coat, or what it is.
func coatName(c *Coat) string { return cmp.Or(strings.TrimSpace(c.Name), string(c.Kind)) }

// sheetNames lists the products in the piece.
func (m *maker) sheetNames() string {
	var names []string
	for i := range m.p.Layers {
		if s := m.p.Sheet(m.p.Layers[i].Sheet); s != nil && s.Name != "" && !slices.Contains(names, s.Name) {
			names = append(names, s.Name)
		}
	}
	if len(names) == 0 {
		return "the resin"
	}
	return strings.Join(names, " and ")
}
