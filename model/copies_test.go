package model

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestCompareCards(t *testing.T) {
	at := func(day int) time.Time { return time.Date(2026, 11, day, 9, 0, 0, 0, time.UTC) }
	now := []Card{{ID: "same", Touched: at(1)}, {ID: "newer", Touched: at(5)}, {ID: "older", Touched: at(2)}, {ID: "new", Touched: at(6)}}
	then := []Card{{ID: "gone", Touched: at(3)}, {ID: "older", Touched: at(4)}, {ID: "same", Touched: at(1).In(time.FixedZone("", 3600))}, {ID: "newer", Touched: at(4)}}
	want := []Compared{
		{ID: "new", Standing: OnlyNow}, {ID: "newer", Standing: NewerNow}, {ID: "older", Standing: NewerThen},
		{ID: "gone", Standing: OnlyThen}, {ID: "same", Standing: Same},
	}
	got := CompareCards(now, then)
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i, w := range want {
		if got[i].ID != w.ID || got[i].Standing != w.Standing {
			t.Errorf("%d: %s %s, want %s %s", i, got[i].ID, got[i].Standing, w.ID, w.Standing)
		}
	}
	if got[1].Now != at(5) || got[1].Card.Touched != at(4) || !got[3].Now.IsZero() {
		t.Errorf("instants: %+v", got)
	}
}

// TestComparingTurnsRound: what is newer one way is older the other way, each
// project is told of once, and a notebook is the same as itself.
func TestComparingTurnsRound(t *testing.T) {
	turned := map[Standing]Standing{Same: Same, NewerNow: NewerThen, NewerThen: NewerNow, OnlyNow: OnlyThen, OnlyThen: OnlyNow}
	rapid.Check(t, func(t *rapid.T) {
		cards := rapid.Custom(func(t *rapid.T) []Card {
			var list []Card
			for _, id := range rapid.SliceOfNDistinct(rapid.StringMatching("[a-f]"), 0, 6, rapid.ID).Draw(t, "ids") {
				list = append(list, Card{ID: id, Touched: time.Unix(int64(rapid.IntRange(0, 3).Draw(t, "at")), 0)})
			}
			return list
		})
		a, b := cards.Draw(t, "a"), cards.Draw(t, "b")
		back := map[string]Standing{}
		for _, c := range CompareCards(b, a) {
			back[c.ID] = c.Standing
		}
		list := CompareCards(a, b)
		if len(list) != len(back) {
			t.Fatalf("%d one way, %d the other", len(list), len(back))
		}
		for _, c := range list {
			if back[c.ID] != turned[c.Standing] {
				t.Fatalf("%s: %s one way, %s the other", c.ID, c.Standing, back[c.ID])
			}
		}
		for _, c := range CompareCards(a, a) {
			if c.Standing != Same {
				t.Fatalf("%s is not the same as itself", c.ID)
			}
		}
	})
}

func TestBroughtBackForgetsNothing(t *testing.T) {
	at := func(h int) time.Time { return time.Date(2026, 11, 1, h, 0, 0, 0, time.UTC) }
	now := Project{ID: "p", Name: "now", Journal: []Entry{{ID: "b", At: at(2), Text: "kept"}, {ID: "c", At: at(3)}}}
	then := Project{ID: "p", Name: "then", Journal: []Entry{{ID: "a", At: at(1)}, {ID: "b", At: at(2), Text: "older"}}}
	p := BroughtBack(now, then)
	if p.Name != "then" || len(p.Journal) != 3 || p.Journal[0].ID != "a" || p.Journal[1].Text != "kept" || p.Journal[2].ID != "c" {
		t.Errorf("%+v", p)
	}
}
