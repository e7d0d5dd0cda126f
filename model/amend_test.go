package model

import (
	"errors"
	"testing"
	"time"

	"meniscus/model/unit"
)

// TestAmended corrects when something was and what the scale read, and leaves
// what was not touched as it is, to the second.
func TestAmended(t *testing.T) {
	p, noon := begun()
	p.Shop.Zone = "Asia/Kolkata" // UTC+5:30, the IANA database
	now := noon.Add(10 * time.Hour)
	weighed := Entry{ID: "w", At: noon.Add(-20*time.Minute + 7*time.Second), Kind: EntryWeighedA, Layer: "l1", Cup: given(unit.Gram.Times(42)), Gross: unit.Taken[unit.Mass]{Value: unit.Gram.Times(497.8), Written: "497.8 g"}}
	if err := p.Log(weighed, now); err != nil {
		t.Fatal(err)
	}
	at, gross := p.Amendable(&weighed)
	if at != "Fri 27 Nov 2026, 17:10" || gross != "497.8 g" {
		t.Fatalf("%q, %q", at, gross)
	}
	e, err := p.Amended("w", at, "502.1", now)
	if err != nil || e.Gross.Written != "502.1 g" || !e.At.Equal(weighed.At) || e.Cup != weighed.Cup || e.Kind != weighed.Kind {
		t.Errorf("%+v, %v", e, err)
	}
	for _, c := range []struct {
		typed string
		want  time.Time
	}{
		{"17:05", noon.Add(-25 * time.Minute)},
		{"yesterday 17:05", noon.Add(-25*time.Minute - 24*time.Hour)},
		{"Thu 26 Nov 2026, 17:05", noon.Add(-25*time.Minute - 24*time.Hour)},
	} {
		e, err := p.Amended("w", c.typed, gross, now.Add(-5*time.Hour)) // 20:30 in the shop, the same day
		if err != nil || !e.At.Equal(c.want) || e.Gross != weighed.Gross {
			t.Errorf("%q: %v, %v", c.typed, e.At, err)
		}
	}
	for _, c := range []struct{ id, at, gross, field string }{
		{"w", at, gross, AmendAt},                       // nothing changed
		{"w", "", gross, AmendAt},                       // no time
		{"w", "half past", gross, AmendAt},              // none that can be read
		{"w", "Sat 28 Nov 2099, 12:00", gross, AmendAt}, // still to come
		{"w", at, "", AmendGross},
		{"w", at, "a lot", AmendGross},
		{"w", at, "-5", AmendGross},
		{"w", at, "20", AmendGross}, // less than the empty cup
		{"gone", at, gross, AmendAt},
	} {
		_, err := p.Amended(c.id, c.at, c.gross, now)
		var problem *Problem
		if !errors.As(err, &problem) || problem.Field != c.field || problem.Message == "" {
			t.Errorf("%+v: %v", c, err)
		}
	}
	if err := p.Correct("w", "back", Entry{ID: "w2", At: e.At, Kind: e.Kind, Layer: e.Layer, Cup: e.Cup, Gross: e.Gross}, now); err != nil {
		t.Fatal(err)
	}
	if in := p.InCup("l1"); !close(in.A.Grams(), 460.1, 1e-12) {
		t.Errorf("what is in the cup is not that of the correction: %+v", in)
	}
}
