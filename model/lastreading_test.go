package model

import (
	"testing"
	"time"

	"meniscus/model/unit"
)

func TestLastReading(t *testing.T) {
	p := twoPours()
	if got, ok := p.LastReading(ReadRoom, ""); !ok || got != unit.Celsius(20) {
		t.Errorf("the shop's room: %v, %v", got, ok)
	}
	if _, ok := p.LastReading(ReadPart, "l1"); ok {
		t.Error("a resin that was never read")
	}
	add := func(id string, after time.Duration, e Entry) {
		e.ID, e.At = id, firstPour.Add(after)
		p.Journal = append(p.Journal, e)
	}
	add("e1", 2*time.Hour, Entry{Kind: EntryReading, Layer: "l1", Room: given(unit.Celsius(18)), Part: given(unit.Celsius(31))})
	add("e2", 3*time.Hour, Entry{Kind: EntryReading, Layer: "l2", Part: given(unit.Celsius(40))})
	add("e3", 3*time.Hour, Entry{Kind: EntryProbe, Layer: "l1", Part: given(unit.Celsius(52))})
	add("e4", time.Hour, Entry{Kind: EntryReading, Room: given(unit.Celsius(15))}) // written down late
	for _, c := range []struct {
		kind  ReadingKind
		layer string
		want  float64
	}{{ReadRoom, "", 18}, {ReadPart, "l1", 31}, {ReadPart, "l2", 40}, {ReadProbe, "l1", 52}} {
		if got, ok := p.LastReading(c.kind, c.layer); !ok || got != unit.Celsius(c.want) {
			t.Errorf("%s of %q: %v, %v, want %v °C", c.kind, c.layer, got, ok, c.want)
		}
	}
	add("e5", 4*time.Hour, Entry{Kind: EntryWithdrawn, Of: "e1"})
	if got, ok := p.LastReading(ReadRoom, ""); !ok || got != unit.Celsius(15) {
		t.Errorf("after it was taken back: %v, %v", got, ok)
	}
}
