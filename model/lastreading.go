package model

import (
	"slices"

	"meniscus/model/unit"
)

// ReadingKind is which temperature was read.
type ReadingKind string

// The temperatures that are noted.
const (
	ReadRoom  ReadingKind = "room"
	ReadPart  ReadingKind = "part"
	ReadProbe ReadingKind = "probe"
)

// LastReading gives the temperature of a kind that was noted last; of a layer
// but for the room. Where the room's was never noted it is the shop's; false
// where there is none.
func (p *Project) LastReading(kind ReadingKind, layer string) (unit.Temperature, bool) {
	for _, e := range slices.Backward(p.standing()) {
		switch {
		case kind == ReadRoom && e.Kind == EntryReading && e.Room.Given():
			return e.Room.Value, true
		case kind == ReadRoom || e.Layer != layer || !e.Part.Given():
		case kind == ReadPart && e.Kind == EntryReading, kind == ReadProbe && e.Kind == EntryProbe:
			return e.Part.Value, true
		}
	}
	if kind == ReadRoom && p.Shop.Room.Given() {
		return p.Shop.Room.Value, true
	}
	return 0, false
}
