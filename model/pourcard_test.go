package model

import (
	"context"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// cardOf makes the card of a project, simulated as far as it can be.
func cardOf(t *testing.T, p *Project, now time.Time) PourCard {
	t.Helper()
	pl := Make(*p)
	c, err := Simulate(context.Background(), p, &pl)
	if err != nil {
		t.Fatal(err)
	}
	timed := c.Timed(&pl)
	return NewPourCard(p, &timed, &c, now)
}

// TestPourCardSaysWhatThePlanSays holds the card of a demo against its plan: the
// ladder with the cup's weight in it, the tint to 0.01 g, the minutes to mix,
// and each step once.
func TestPourCardSaysWhatThePlanSays(t *testing.T) {
	p := demo(t, "poppy-stand")
	p.Mixing.Cup = given(unit.Gram.Times(42.6))
	pl := Make(p)
	card := cardOf(t, &p, calendarNow)
	if len(card.Pours) != 2 || card.Piece != p.Name || len(card.Steps) != 0 {
		t.Fatalf("%+v", card)
	}
	for i := range card.Pours {
		pour, l := &card.Pours[i], &pl.Layers[i]
		if len(pour.Cups) != 1 || pour.Cups[0].Note != "" || pour.Why != "" {
			t.Fatalf("%+v", pour)
		}
		for k, r := range l.Mix.Ladder(p.Mixing.Cup.Value) {
			if got, want := pour.Cups[0].Rungs[k].Reads, p.Style.MassTo(r.Gross, l.Mix.Step); got != want {
				t.Errorf("%s, %s: %q, want %q", l.Name, r.What, got, want)
			}
		}
		if n := len(p.Checklist(&pl, l.ID)); len(pour.Before) != n || n == 0 {
			t.Errorf("%d of %d lines of the checklist", len(pour.Before), n)
		}
		for _, s := range pour.Steps {
			if !strings.HasSuffix(s.When, " after this pour") {
				t.Errorf("a pour that has no date has a step at %q", s.When)
			}
		}
		if len(pour.Steps) < 3 || len(pour.Mixing) != 5 {
			t.Errorf("%+v", pour)
		}
	}
	// 1.5 % of 670.3 g is 10.05 g: the demo's tint share and mix.
	if rungs := card.Pours[0].Cups[0].Rungs; rungs[3].Add != "+10.05 g" {
		t.Errorf("%+v", rungs)
	}
	p.Mixing.Cup = unit.Taken[unit.Mass]{}
	if cup := cardOf(t, &p, calendarNow).Pours[0].Cups[0]; cup.Note == "" || cup.Rungs[0].Reads != "" {
		t.Errorf("a cup that was not weighed: %+v", cup)
	}
}

// TestPourCardTellsClockTimes: the steps of a pour that is planned, and of one
// that was made, by the shop's clock through the night in which it goes back
// (25 October 2026, 02:00 to 01:00 in London, the IANA database).
func TestPourCardTellsClockTimes(t *testing.T) {
	p := demo(t, "poppy-stand")
	p.Journal = nil
	p.Shop.Zone = "Europe/London"
	now := time.Date(2026, 10, 24, 12, 0, 0, 0, time.UTC)
	p.Shop.Planned = time.Date(2026, 10, 24, 17, 30, 0, 0, time.UTC)
	card := cardOf(t, &p, now)
	if first := card.Pours[0].Steps[0]; first.When != "Sat 24 Oct, 18:30" || !strings.HasPrefix(first.What, "Pour ") {
		t.Errorf("%+v", first)
	}
	if !strings.HasSuffix(card.Made, "13:00 BST") {
		t.Errorf("made %q", card.Made)
	}
	p.Journal = []Entry{{ID: "e1", Kind: EntryPourStarted, Layer: p.Layers[0].ID, At: p.Shop.Planned}}
	pl := Make(p)
	card = cardOf(t, &p, now.Add(24*time.Hour))
	if len(card.Pours) != 1 || len(card.Steps) == 0 || !strings.HasSuffix(card.Made, "12:00 GMT") {
		t.Fatalf("%+v", card)
	}
	for _, s := range pl.Steps {
		if s.Kind == StepPour && s.Layer == p.Layers[0].ID && card.Steps[0].When != "Sat 24 Oct, 18:30" {
			t.Errorf("%+v", card.Steps)
		}
	}
}

// TestPourCardOfAnyProject: every pour that is still to come is on the card
// once, and where it cannot be weighed the card says why.
func TestPourCardOfAnyProject(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		pl := Make(p)
		card := NewPourCard(&p, &pl, &Curing{}, calendarNow)
		planned := 0
		for i := range pl.Layers {
			if pl.Layers[i].Status == Planned {
				pour := card.Pours[planned]
				planned++
				if (len(pour.Cups) == 0) != (pour.Why != "") {
					t.Fatalf("%+v", pour)
				}
			}
		}
		if planned != len(card.Pours) {
			t.Fatalf("%d pours of %d", len(card.Pours), planned)
		}
	})
}
