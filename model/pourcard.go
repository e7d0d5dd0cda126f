package model

import (
	"fmt"
	"strings"
	"time"

	"meniscus/model/unit"
)

// PourCard is what a maker takes to the bench on paper, where a closed laptop
// cannot ring and gloves cannot type: all in words, as they are printed.
type PourCard struct {
	Piece  string      `json:"piece"`
	Made   string      `json:"made"` // when, as the shop's clock shows it, with its zone
	Pours  []CardPour  `json:"pours"`
	Steps  []CardStep  `json:"steps"` // of the pours that have been made
	Touch  []CardTouch `json:"touch"`
	Hot    []string    `json:"hot"`
	Safety []string    `json:"safety"`
}

// CardPour is one pour that is still to come.
type CardPour struct {
	Title  string       `json:"title"`
	Facts  []string     `json:"facts"`         // how deep, of which resin, how long there is
	Before []string     `json:"before"`        // the checklist: each is ticked
	Why    string       `json:"why,omitempty"` // why it cannot be weighed yet
	Cups   []CardCup    `json:"cups"`
	Mixing []CardPrompt `json:"mixing"` // of the largest cup
	Placed []string     `json:"placed"` // the inserts that are set into it: each is ticked
	Steps  []CardStep   `json:"steps"`
}

// CardCup is one cup: what the scale reads at each step.
type CardCup struct {
	Title string     `json:"title"`
	Note  string     `json:"note,omitempty"` // what the readings lack
	Rungs []CardRung `json:"rungs"`
	Into  string     `json:"into,omitempty"` // where it goes, where there are several places
}

// CardRung is one step of weighing; what is not known is empty.
type CardRung struct {
	What  string `json:"what"`
	Add   string `json:"add"`
	Reads string `json:"reads"`
}

// CardPrompt is what to do at a time of the mixing.
type CardPrompt struct {
	At    string `json:"at"`
	Words string `json:"words"`
}

// CardStep is a moment of the cure: when by the shop's clock, or how long after
// the pour, and what.
type CardStep struct {
	When string `json:"when"`
	What string `json:"what"`
}

// CardTouch is what a gloved finger may find and what follows.
type CardTouch struct {
	Finds string `json:"finds"`
	Means string `json:"means"`
}

// cardTime is how a card writes an instant.
const cardTime = "Mon 2 Jan, 15:04"

// cardTouch is the tack test; cardHot what to do about resin that smokes or is
// too hot to touch; cardSafety what protects hands and lungs (all common
// practice, no source).
var (
	cardTouch = []CardTouch{
		{"It strings, or wets the glove", "early: wait"},
		{"Like tape, nothing on the glove", "now"},
		{"A nail leaves no mark", "late: cure, sand"},
	}
	cardHot = []string{
		"Pour no more onto it, leave the mold where it is; no water, no lid. A cup that does not smoke and can be held goes outdoors.",
		"If it smokes or smells sharp: out, door to the open air left open, keep others away, call the fire brigade.",
	}
	cardSafety = []string{
		"Nitrile gloves, glasses, sleeves down, air moving. Resin and hardener can cause lasting skin allergy; never clean skin with solvent.",
		"What is left in the cup goes out thin on a tray outdoors at once, never into a bin.",
		"The product's data sheet and safety data sheet rule.",
	}
)

// NewPourCard makes the card of a project, by its plan with the times of the
// simulation, and by the simulation where it is of that project.
func NewPourCard(p *Project, pl *Plan, c *Curing, now time.Time) PourCard {
	if c.Project != pl.Project {
		c = &Curing{}
	}
	card := PourCard{
		Piece: orWord(p.Name, "Piece"), Made: now.In(p.Shop.Place()).Format("Mon 2 Jan 2006, 15:04 MST"),
		Touch: cardTouch, Hot: cardHot, Safety: cardSafety,
	}
	for i := range pl.Layers {
		steps := p.cardSteps(pl, pl.Layers[i].ID, now)
		if pl.Layers[i].Status == Planned {
			pour := p.cardPour(pl, c, i)
			pour.Steps = steps
			card.Pours = append(card.Pours, pour)
		} else {
			card.Steps = append(card.Steps, steps...)
		}
	}
	return card
}

// cardPour is the card's part of one pour.
func (p *Project) cardPour(pl *Plan, c *Curing, i int) CardPour {
	l, s := &pl.Layers[i], p.Style
	card := CardPour{Title: fmt.Sprintf("Pour %d of %d: %s", i+1, len(pl.Layers), l.Name), Why: l.Mix.Why}
	card.Facts = append(card.Facts, fmt.Sprintf("%s of %s, to %s below the rim", s.Length(l.Depth), orWord(l.SheetName, "resin not chosen"), s.Length(l.BelowRim)))
	if t := l.Times.Working; !t.Absent {
		card.Facts = append(card.Facts, "All in the mold within "+s.Span(t.Value)+" from when the parts meet")
	}
	for _, line := range p.Checklist(pl, l.ID) {
		card.Before = append(card.Before, line.Words)
	}
	for j := range pl.Inserts {
		if in := &pl.Inserts[j]; in.Count > 0 && l.reaches(in.Bottom) {
			card.Placed = append(card.Placed, fmt.Sprintf("%s, %d of them", in.Name, in.Count))
		}
	}
	if !l.Mix.Ready {
		card.Why = orWord(card.Why, "how much it takes is not known yet")
		return card
	}
	largest := p.cardCups(&card, pl, c, l)
	for _, prompt := range MixTime(largest, p.mixedAt()).Prompts {
		card.Mixing = append(card.Mixing, CardPrompt{s.Span(prompt.At), prompt.Words})
	}
	card.Mixing[0].At = "start"
	return card
}

// cardCups adds the cups of a pour, and gives the mass of the largest.
func (p *Project) cardCups(card *CardPour, pl *Plan, c *Curing, l *LayerPlan) (largest unit.Mass) {
	s, note := p.Style, ""
	if !p.Mixing.Cup.Given() {
		note = "The empty cup is not in these readings: weigh it, write it down, add it."
	}
	rungs := func(m *MixPlan) []CardRung {
		var list []CardRung
		for i, r := range m.Ladder(p.Mixing.Cup.Value) {
			rung := CardRung{What: upperFirst(r.What), Add: "+" + r.Adds(s, m.Step), Reads: s.MassTo(r.Gross, m.Step)}
			if i == 0 {
				rung.What, rung.Add = "Empty cup", ""
			}
			if i == 0 && note != "" {
				rung.Reads = ""
			}
			list = append(list, rung)
		}
		return list
	}
	cups := c.CupsOf(pl, l.ID)
	if cups == nil {
		card.Cups = []CardCup{{Title: "All in one cup, " + s.MassTo(l.Mix.Total, l.Mix.Step), Note: note, Rungs: rungs(&l.Mix)}}
		if lc := c.layer(l.ID); lc != nil && lc.Cups != nil && lc.Cups.Ready && !lc.Cups.Possible {
			card.Facts = append(card.Facts, upperFirst(lc.Cups.Why))
		}
		return l.Mix.Total
	}
	for i := range cups.Batches {
		b := &cups.Batches[i]
		m := l.Mix.ForCup(b)
		cup := CardCup{Title: "In one cup, " + s.MassTo(b.Mass, m.Step), Note: note, Rungs: rungs(&m), Into: p.cardInto(pl, b)}
		if n := len(cups.Batches); n > 1 {
			cup.Title = fmt.Sprintf("Cup %d of %d, %s", i+1, n, s.MassTo(b.Mass, m.Step))
			if b.Start > 0 {
				cup.Title += ", B goes in at " + s.Span(b.Start)
			}
		}
		card.Cups = append(card.Cups, cup)
		largest = max(largest, b.Mass)
	}
	return largest
}

// TintGrain is the last digit of a scale that tints are weighed on: 0.01 g, or
// 0.001 oz.
func TintGrain(s unit.Style) unit.Mass {
	switch s.MassUnit() {
	case unit.InOunces, unit.InPounds:
		return unit.Ounce / 1000
	}
	return unit.Gram / 100
}

// cardInto says what of a cup goes into which cavity, in the order in which it
// is poured. A figure stays on the line of its cavity.
func (p *Project) cardInto(pl *Plan, b *Batch) string {
	if pl.Mold.Count < 2 {
		return ""
	}
	var parts []string
	for _, x := range b.Into {
		parts = append(parts, strings.ReplaceAll(fmt.Sprintf("%d: %s", x.Cavity, p.Style.MassTo(x.Mass, p.scaleStep())), " ", "\u00a0"))
	}
	return "Into cavity " + strings.Join(parts, " · ")
}

// cardSteps lists the moments of a layer: those that have an instant by the
// shop's clock, the others by how long after its pour they come.
func (p *Project) cardSteps(pl *Plan, layer string, now time.Time) []CardStep {
	var list []CardStep
	dated := map[StepKind]bool{}
	for _, s := range pl.Agenda(p.Shop.Planned, now) {
		if s.Layer == layer {
			dated[s.Kind] = true
			list = append(list, CardStep{s.Due.In(p.Shop.Place()).Format(cardTime), upperFirst(s.Label)})
		}
	}
	for _, s := range pl.Steps {
		if s.Layer == layer && s.Kind != StepPour && !dated[s.Kind] {
			list = append(list, CardStep{p.Style.Span(s.After) + " after this pour", upperFirst(s.Label)})
		}
	}
	return list
}
