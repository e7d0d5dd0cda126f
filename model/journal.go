package model

import (
	"cmp"
	"slices"
	"time"

	"meniscus/model/unit"
)

// Reading makes the entry of temperatures that were read: of the room, of the
// resin in the mold of a layer, or of both; empty text was not read. Errors are
// a *Problem.
func (p *Project) Reading(layer, room, part string) (Entry, error) {
	e := Entry{Kind: EntryReading, Layer: layer}
	var err error
	if e.Room, err = p.degrees("journal/e/room", room); err != nil {
		return Entry{}, err
	}
	if e.Part, err = p.degrees("journal/e/part", part); err != nil {
		return Entry{}, err
	}
	return e, nil
}

// Probe makes the entry of the hottest that a probe in a layer showed. Errors
// are a *Problem.
func (p *Project) Probe(layer, hottest string) (Entry, error) {
	part, err := p.degrees("journal/e/part", hottest)
	return Entry{Kind: EntryProbe, Layer: layer, Part: part}, err
}

// degrees reads a temperature for the entry's field at path.
func (p *Project) degrees(path, text string) (unit.Taken[unit.Temperature], error) {
	if text == "" {
		return unit.Taken[unit.Temperature]{}, nil
	}
	t, err := p.Style.TakeTemperature(text)
	if err != nil {
		return t, &Problem{path, words(err)}
	}
	if s := ranges[pattern(path)]; float64(t.Value) < s.low || float64(t.Value) > s.high {
		return t, &Problem{path, "this should be " + s.words}
	}
	return t, nil
}

// fault tells what an entry lacks or has too much of, and in which of its
// fields; nothing where it is whole. What older entries may lack is none.
func (e *Entry) fault() (field, message string) {
	feels := map[EntryKind][]Feel{EntryTack: {FeelStrings, FeelTape, FeelHard}, EntryDemolded: {"", FeelStiff, FeelBent}}[e.Kind]
	switch {
	case e.Kind == EntryReading && !e.Room.Given() && !e.Part.Given():
		return "room", "a reading needs a temperature, of the room or of the resin in the mold"
	case e.Kind == EntryReading && e.Part.Given() && e.Layer == "":
		return "layer", "say in which pour the resin was measured"
	case e.toALayer() && e.Layer == "":
		return "layer", "say which pour it was"
	case e.Kind == EntryProbe && !e.Part.Given():
		return "part", "say how hot the probe showed it"
	case e.Kind == EntryPlaced && e.Insert == "":
		return "insert", "say which insert was placed"
	case e.Kind == EntryChecked && e.Check == "":
		return "check", "say what was checked"
	case e.Kind == EntryPhoto && e.Photo == "":
		return "photo", "choose a picture"
	case e.Kind == EntryMeasured && !e.Thick.Given():
		return "thick", "say how thick the piece is there"
	case (e.weighed() || e.Kind == EntryEmptied || e.Kind == EntryLeftOver) && !e.Gross.Given():
		return "gross", "say what the scale read"
	case e.Kind == EntrySealMixed && !(e.A.Value > 0 && e.B.Value > 0):
		return "a", "say how much of A and of B was weighed for the seal coat"
	case e.Kind == EntrySealMixed && e.Sheet == "":
		return "sheet", "say which product the seal coat was mixed of"
	case e.Kind == EntryUsed && e.Stock == "":
		return "stock", "say what was used"
	case e.Kind == EntryUsed && e.Count <= 0 && !(e.Gross.Value > 0):
		return "count", "say how many were used, or how much"
	case e.Kind == EntryTack && !slices.Contains(feels, e.Feel):
		return "feel", "say how it felt: strings, like tape or hard"
	case e.Kind == EntryDemolded && !slices.Contains(feels, e.Feel):
		return "feel", "say how it came out: stiff or bent"
	case feels == nil && e.Feel != "":
		return "feel", "only a tack test and taking the piece out tell how it felt"
	}
	return "", ""
}

// toALayer tells whether an entry says nothing unless it says of which layer.
func (e *Entry) toALayer() bool {
	switch e.Kind {
	case EntryTack, EntryProbe, EntryMixing, EntryMixed, EntryPourDone, EntryTooHot, EntryChecked, EntryEmptied, EntryLeftOver:
		return true
	}
	return e.weighed()
}

// ofPour tells whether an entry can only be made of a pour that has begun.
func (e *Entry) ofPour() bool {
	return e.Kind == EntryTack || e.Kind == EntryProbe || e.Kind == EntryPourDone || e.Kind == EntryReading && e.Part.Given()
}

// Log writes an entry into the journal, in its place by time. It may be written
// down late, but not before it has happened, now being the time on the clock;
// and what is told of a pour lies after its start. With the start of a pour goes
// what the shop's clock showed: the night that its resin goes through stays where
// it is when the time zone is changed. Errors are a *Problem.
func (p *Project) Log(e Entry, now time.Time) error {
	at := "journal/" + e.ID + "/"
	if e.At.After(now) {
		return &Problem{at + "at", "this is still to come: only what has happened can be written down"}
	}
	if field, message := e.fault(); message != "" {
		return &Problem{at + field, message}
	}
	if i := p.LayerIndex(e.Layer); e.ofPour() {
		start, begun := p.PourStart(e.Layer)
		switch {
		case i == none:
			return &Problem{at + "layer", "there is no such pour any more"}
		case !begun:
			return &Problem{at + "layer", p.Layers[i].Name + " has not been poured yet"}
		case start.At.After(now):
			return &Problem{at + "at", "by this machine's clock the pour of " + p.Layers[i].Name + " is still to start: set the clock right, then note it"}
		case e.At.Before(start.At):
			return &Problem{at + "at", "this is before the pour of " + p.Layers[i].Name + " was started"}
		}
	}
	if e.Kind == EntryPourStarted && e.Clock == "" {
		e.Clock = TimeOfDay(e.At.In(p.Shop.Place()).Format(clockForm))
	}
	p.Journal = append(slices.Clone(p.Journal), e)
	slices.SortStableFunc(p.Journal, inTime)
	return nil
}

// Correct takes an entry back and writes another in its stead, both in one: the
// withdrawal, with the ID withdrawal, happens now. Nothing of either is done
// where there is an error, which is a *Problem.
func (p *Project) Correct(id, withdrawal string, e Entry, now time.Time) error {
	old, stands := p.Entry(id)
	if !stands {
		return &Problem{"journal/" + id, "this has been taken back already, or was never there"}
	}
	if !e.At.Equal(old.At) {
		e.Clock = ""
	}
	was := p.Journal
	if err := p.Log(Entry{ID: withdrawal, At: now, Kind: EntryWithdrawn, Of: id}, now); err != nil {
		return err
	}
	if err := p.Log(e, now); err != nil {
		p.Journal = was
		return err
	}
	return nil
}

// Entry finds an entry of the journal that stands; false for one that was taken
// back or never made.
func (p *Project) Entry(id string) (Entry, bool) {
	for _, e := range p.standing() {
		if e.ID == id {
			return e, true
		}
	}
	return Entry{}, false
}

// Ahead lists what stands in the journal at a later time than now: the clock of
// this machine, or of the one that wrote it, was not right.
func (p *Project) Ahead(now time.Time) []Entry {
	return slices.DeleteFunc(p.standing(), func(e Entry) bool { return !e.At.After(now) })
}

// inTime orders entries by their instants, and by ID where these are the same.
func inTime(a, b Entry) int { return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.ID, b.ID)) }
