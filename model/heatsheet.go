package model

import (
	"meniscus/model/cure"
	"meniscus/model/unit"
)

// keepToSheet keeps a layer's outcome to the hours of its data sheet, where it
// gives them: the next pour goes on no sooner and no later, and nothing comes
// out of the mold before. They are lengthened or shortened to the room as it is
// from the pour on by equivalent age; what the part's own heat would allow
// beyond them is not taken. Where the two leave no window it closes as it opens.
func (l *heatLayer) keepToSheet(o *outcome, s *stage) {
	room := &s.slab.Room
	opens, limits := l.hours(l.sheet.RecoatFrom, room)
	if limits {
		o.opens = o.opens.later(opens)
	}
	if closes, limits := l.hours(l.sheet.RecoatTo, room); limits && (!o.closes.comes || closes.after < o.closes.after) {
		o.closes = closes
	}
	if o.opens.comes && o.closes.comes {
		o.closes.after = max(o.closes.after, o.opens.after)
	}
	if o.opens.comes && o.best.comes {
		o.best.after = max(o.best.after, o.opens.after)
		if o.closes.comes {
			o.best.after = min(o.best.after, o.closes.after)
		}
	}
	if demold, limits := l.hours(l.sheet.Demold, room); limits {
		o.demold = o.demold.later(demold)
	}
	o.sand = o.sand.later(o.demold)
}

// hours gives a time of the sheet in a room since the pour; false where the
// sheet does not give it.
func (l *heatLayer) hours(f Figure[unit.Span], room *cure.Room) (mayCome, bool) {
	if !f.Given() || !(f.Value > 0) {
		return mayCome{}, false
	}
	e := known(l.sheet.Activation, typicalActivation).Value
	ref := taken(f.At, typicalSheetTemp).Value
	at, ok := room.AgedAt(e, ref, 0, 4*MostSimulated, f.Value)
	return mayCome{at, ok}, true
}

// opensBySheet is when the surface of a stage takes the next pour, by the
// simulation and by its sheet; false where it does not.
func (l *heatLayer) opensBySheet(s *stage, cal *cure.Calibrated) (unit.Span, bool) {
	open, ok := s.opens(cal)
	if sheet, limits := l.hours(l.sheet.RecoatFrom, &s.slab.Room); limits {
		open, ok = max(open, sheet.after), ok && sheet.comes
	}
	return open, ok
}
