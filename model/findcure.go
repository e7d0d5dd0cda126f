package model

import (
	"fmt"
	"time"

	"meniscus/model/unit"
)

// findShop looks at the room by night, the resin as it is poured, and the
// hours of the day.
func (m *maker) findShop() {
	s := &m.p.Shop
	temp := m.p.Style.Temperature
	room, measured := m.p.room()
	// Few shops are worked in outside 5 to 40 °C (common practice, no source).
	if measured && (room < unit.Celsius(5) || room > unit.Celsius(40)) {
		m.say(Check, OfCure, "room.odd", "shop/room", "The room's temperature is unusual", temp(room), "check the thermometer, and whether it shows °C or °F")
	}
	if s.Night.Given() && measured && s.Night.Value > room {
		m.say(Check, OfCure, "room.night", "shop/night", "The room is given warmer at night than it is now",
			temp(s.Night.Value)+" against "+temp(room), "the first is the coldest of the night, the second what the thermometer shows now: perhaps they stand in each other's place")
	}
	for i := range m.p.Sheets {
		sheet := &m.p.Sheets[i]
		if !m.poursOf(sheet.ID) {
			continue
		}
		cold, warm := sheet.Coldest, sheet.Warmest
		// That a room is too cold by day is said of the room.
		if s.Night.Given() && cold.Given() && s.Night.Value < cold.Value && room >= cold.Value {
			m.say(Check, OfCure, "room.night-cold", "shop/night", "At night the room gets colder than the data sheet of "+sheet.Name+" allows",
				temp(s.Night.Value)+" against "+temp(cold.Value), "keep it warm through the night; nothing that heats may be left to itself")
		}
		switch {
		case !s.Resin.Given():
		case cold.Given() && s.Resin.Value < cold.Value:
			m.say(Check, OfCure, "resin.cold", "shop/resin", sheet.Name+" is colder than its data sheet allows at work",
				temp(s.Resin.Value)+" against "+temp(cold.Value), "stand the closed bottles in warm water until they are as warm as the room should be")
		case warm.Given() && s.Resin.Value > warm.Value:
			m.say(Check, OfCure, "resin.warm", "shop/resin", sheet.Name+" is warmer than its data sheet allows at work",
				temp(s.Resin.Value)+" against "+temp(warm.Value), "let it cool before the parts meet: warm resin gets hot sooner and leaves less time to pour")
		}
	}
	switch wakes, sleeps := s.Wakes, s.Sleeps; {
	case wakes != "" && wakes == sleeps:
		m.say(Note, OfCure, "hours.same", "shop/sleeps", "You rise and go to rest at the same hour, "+string(wakes), "every hour of the day then counts as one that you are about", "type the hour you rise and the hour you go to rest")
	case wakes != "" && sleeps == "":
		m.say(Note, OfCure, "hours.half", "shop/sleeps", "Say until when you are about in the evening too", "until then a usual hour is taken", "type the hour you go to rest, as 22:30")
	case wakes == "" && sleeps != "":
		m.say(Note, OfCure, "hours.half", "shop/wakes", "Say from when you are about in the morning too", "until then a usual hour is taken", "type the hour you rise, as 6:30")
	}
}

// poursOf tells whether any layer is of a product.
func (m *maker) poursOf(sheet string) bool {
	for i := range m.p.Layers {
		if m.p.Layers[i].Sheet == sheet {
			return true
		}
	}
	return false
}

// findWarmth looks at what the data sheets say of warmth: the same time at two
// temperatures, and how hot a cup gets.
func (m *maker) findWarmth() {
	temp, span := m.p.Style.Temperature, m.p.Style.Span
	for i := range m.p.Sheets {
		s := &m.p.Sheets[i]
		at := "sheets/" + s.ID + "/"
		twice := func(field, what string, one, other Figure[unit.Span]) {
			if !other.Given() {
				return
			}
			switch hotter := other.At.Value - one.At.Value; {
			case !other.At.Given():
				m.say(Check, OfLayers, "missing", at+field+"/at", s.Name+": say at which other temperature "+what+" is "+span(other.Value), "until then it is not counted", "copy the temperature that stands beside that time on the data sheet")
			case !one.Given() || !one.At.Given():
			case max(hotter, -hotter) < 0.5:
				m.say(Check, OfLayers, "sheet.same-warmth", at+field+"/at", s.Name+": "+what+" is given twice at the same temperature",
					temp(one.At.Value), "how warmth hurries it is told by two that lie some degrees apart")
			case (hotter > 0) == (other.Value >= one.Value):
				m.say(Check, OfLayers, "sheet.warmth", at+field, s.Name+": by the sheet it takes no less time in the warmth",
					fmt.Sprintf("%s is %s at %s and %s at %s", what, span(one.Value), temp(one.At.Value), span(other.Value), temp(other.At.Value)), "check both on the data sheet; warmth hurries every resin")
			}
		}
		twice("workingOther", "the working time", s.WorkingTime, s.WorkingOther)
		twice("gelOther", "the gel time", s.Gel, s.GelOther)
		if f := s.Peak; f.Given() {
			switch {
			case f.At.Given() && f.Value <= f.At.Value:
				m.say(Check, OfLayers, "sheet.peak", at+"peak", s.Name+": the peak heat is no hotter than the room that it holds for",
					temp(f.Value)+" against "+temp(f.At.Value), "check both on the data sheet, and whether they are in °C or °F")
			case !f.Mass.Given():
				m.say(Note, OfLayers, "sheet.peak-mass", at+"peak/mass", s.Name+": say how much was in the cup that reached "+temp(f.Value), "a large cup gets hotter than a small one; until then it is not counted", "copy the mass that stands beside it on the data sheet, often 100 g")
			}
		}
		if room, ok := m.p.room(); ok && s.PeakLimit.Given() && s.PeakLimit.Value <= room && m.poursOf(s.ID) {
			m.say(Check, OfLayers, "sheet.peak-limit", at+"peakLimit", s.Name+": the hottest that a pour may get is no hotter than the room",
				temp(s.PeakLimit.Value)+" against "+temp(room), "check it on the data sheet, and whether it is in °C or °F")
		}
	}
}

// findJournal looks for entries that cannot stand as they are: of a pour before
// it was started, and of resin in a mold that the piece has left.
func (m *maker) findJournal() {
	var out time.Time
	for _, e := range m.p.standing() {
		if e.Kind == EntryDemolded {
			out = e.At
		}
		i := m.p.LayerIndex(e.Layer)
		if !e.ofPour() || i == none {
			continue
		}
		field, name := "journal/"+e.ID+"/at", m.p.Layers[i].Name
		switch start, begun := m.p.PourStart(e.Layer); {
		case !begun:
			m.say(Check, OfCure, "journal.no-pour", field, upperFirst(entryWord(e.Kind))+" is kept of "+name+", which has not been poured", "it is not counted", "start its pour, or take the entry back")
		case e.At.Before(start.At):
			m.say(Check, OfCure, "journal.before-pour", field, upperFirst(entryWord(e.Kind))+" of "+name+" lies before its pour",
				"by "+m.p.Style.Span(unit.SpanOf(start.At.Sub(e.At))), "take it back and write it down at the right time")
		case !out.IsZero() && (e.Kind == EntryReading || e.Kind == EntryProbe) && e.At.After(out):
			m.say(Note, OfCure, "journal.after-mold", field, upperFirst(entryWord(e.Kind))+" of "+name+" was made after it came out of the mold", "it is not counted", "take it back and write it down at the right time, or leave it")
		}
	}
}

// entryWord is a kind of entry with its article.
func entryWord(k EntryKind) string {
	switch k {
	case EntryTack:
		return "a tack test"
	case EntryProbe:
		return "the peak heat by a probe"
	case EntryReading:
		return "a temperature"
	}
	return "the end of the pour"
}
