package model

import (
	"slices"
	"time"
)

// HotPlace is where resin has got too hot.
type HotPlace string

// The places.
const (
	HotCup  HotPlace = "in the cup"
	HotMold HotPlace = "in the mold"
)

// HotStep is one thing to do about resin that smokes or is too hot to touch, in
// few words, with what to beware of.
type HotStep struct {
	Do   string
	Care string // may be empty
}

// HotSource says what the steps are, and what goes before them.
const HotSource = "Usual practice, no source. The product's data sheet and safety data sheet, and the advice of your local emergency service, come first."

// TooHot lists what to do, in order, about resin that smokes or is too hot to
// touch: what guards people first (common practice, no source).
func TooHot(place HotPlace) []HotStep {
	steps := []HotStep{{"Pour no more of it, and stop stirring", "No water into it, no lid, no bin, no second cup around it."}}
	if place == HotMold {
		steps = []HotStep{{"Pour no more onto it", "Nor anything else: no water, no lid, no blanket."}}
	}
	steps = append(steps,
		HotStep{"If it smokes or smells sharp: leave the room", "Leave the door to the open air open. Keep people and pets out. A filter mask does not stop these fumes."},
		HotStep{"If it goes on smoking, or burns: call the fire brigade", "From outside. Tell them that it is curing resin."})
	if place == HotMold {
		steps = append(steps,
			HotStep{"Leave the mold where it is", "A tilted mold spills. Do not scoop, spread or open it."},
			HotStep{"Heater off, doors and windows open", "A fan across the room, not at the resin, and only while nothing smokes."},
			HotStep{"Take away what burns, if you can do so safely", "Solvent, wipes, paper, dust."})
	} else {
		steps = append(steps,
			HotStep{"Only if it does not smoke, and can be held: carry it outdoors", "Set it on bare ground or stone, away from walls. Never carry a smoking cup."},
			HotStep{"If it cannot be carried: doors and windows open", "Take away solvent, wipes and paper, if you can do so safely."})
	}
	return append(steps, HotStep{"Go back when it is cold, the next day", "It can flare up again. Bin it by your local rules, never warm."})
}

// Burnt is the first help that the card ends with (common practice, no source).
const Burnt = "Burnt skin: cool running water at once, and a doctor. Fumes breathed in: fresh air, and a doctor if it does not pass."

// HotPlaceOf tells where resin for a layer is likelier to have got too hot: in
// the mold once its pour has been started, unless a cup is being mixed.
func (p *Project) HotPlaceOf(layer string) HotPlace {
	cups := p.mixCups(layer)
	stirred := slices.ContainsFunc(cups, func(c mixCup) bool { return c.runs() })
	if _, poured := p.PourStart(layer); poured && !stirred {
		return HotMold
	}
	return HotCup
}

// TooHotEntry makes the entry of a stop because resin for a layer got too hot,
// with where it did.
func TooHotEntry(layer string, place HotPlace) Entry {
	return Entry{Kind: EntryTooHot, Layer: layer, Text: string(place)}
}

// findTooHot tells of pours that were stopped because they got too hot. A cup
// that did is done with once another is begun.
func (m *maker) findTooHot() {
	list := m.p.standing()
	for i, e := range list {
		k := m.p.LayerIndex(e.Layer)
		if e.Kind != EntryTooHot || k == none {
			continue
		}
		name, at := m.p.Layers[k].Name, "layers/"+e.Layer
		if e.Text != string(HotCup) {
			m.say(Stop, OfCure, "cure.too-hot", at, name+" was stopped because it got too hot",
				"resin that ran away is cracked, foamed or yellowed, and may be soft below", "leave it until it is cold; pour nothing on it before you have looked at it from all sides")
			continue
		}
		another := slices.ContainsFunc(list[i+1:], func(n Entry) bool {
			return n.Layer == e.Layer && (n.Kind == EntryMixing || n.Kind == EntryPourStarted || n.weighed() && n.Cup.Given())
		})
		if !another {
			m.say(Stop, OfMixing, "mixing.too-hot", at, "A cup for "+name+" was stopped because it got too hot", "what is left of it is waste",
				"mix less at once, in a wider cup, and pour it out sooner; keep away from this one until it is cold")
		}
	}
}

// findStopped says what was foreseen of a pour that was stopped in its mold.
func (h *heat) findStopped(l *LayerCuring, at string, say func(level Level, subject Subject, kind, field, what, why, do string)) {
	if !slices.ContainsFunc(h.p.standing(), func(e Entry) bool {
		return e.Kind == EntryTooHot && e.Layer == l.ID && e.Text != string(HotCup)
	}) {
		return
	}
	write := wholeDegrees(h.p.Style)
	foreseen, do := "Its heat was foreseen", "pour it shallower or in a cooler room the next time"
	if l.PeakCheck == Fine && !l.RunsAway {
		foreseen, do = "It got hotter than was foreseen", "look again at the ratio that was weighed, the depth, the room and the lot; keep the hottest that a probe showed, and this lot is known better"
	}
	say(Check, OfCure, "heat.stopped", at, foreseen+": "+l.Name, "simulated at most "+bandWords(l.Peak, write)+", its limit "+h.p.Style.Temperature(l.PeakLimit.Value), do)
}

// LastTooHot gives the last stop for a layer because it got too hot that stands
// in the journal and was at or after an instant; false where there is none.
func (p *Project) LastTooHot(layer string, from time.Time) (Entry, bool) {
	for _, e := range slices.Backward(p.standing()) {
		if e.Kind == EntryTooHot && e.Layer == layer && !e.At.Before(from) {
			return e, true
		}
	}
	return Entry{}, false
}
