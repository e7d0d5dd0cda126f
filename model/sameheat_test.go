package model

import (
	"context"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"
)

// unfelt are the fields of a project that a curing does not hang on, and felt
// those that it may.
const (
	unfelt = "name note demo archived created made serial finish costing drafts"
	felt   = "id style instruments mold slabs pieces inserts sheets layers lots mixing shop cut journal"
)

// TestSameHeatFieldByField: every field is decided, and each counts as decided.
func TestSameHeatFieldByField(t *testing.T) {
	kind := reflect.TypeFor[Project]()
	for i := range kind.NumField() {
		name, _, _ := strings.Cut(kind.Field(i).Tag.Get("json"), ",")
		none, some := slices.Contains(strings.Fields(unfelt), name), slices.Contains(strings.Fields(felt), name)
		if none == some {
			t.Errorf("nobody has decided whether the heat hangs on %s", name)
		}
		var p, q Project
		fillAll(reflect.ValueOf(&p).Elem().Field(i))
		if p.SameHeat(&q) != none {
			t.Errorf("%s counts otherwise than decided", name)
		}
	}
	if noted := (Project{Journal: []Entry{{ID: "j1", Kind: EntryNote}}}); !noted.SameHeat(&Project{}) {
		t.Error("the first note counts")
	}
}

// TestUnfeltChangesNoCuring: the law that SameHeat promises, for the demos with
// a pour that has run for a day.
func TestUnfeltChangesNoCuring(t *testing.T) {
	for _, name := range demoNames {
		p := demo(t, name)
		p.Journal = append(p.Journal, Entry{ID: "j1", At: pourStart, Kind: EntryPourStarted, Layer: p.Layers[0].ID, Room: p.Shop.Room})
		want := cureOf(t, &p)
		for field := range strings.FieldsSeq(unfelt) {
			q := p
			v := reflect.ValueOf(&q).Elem().FieldByNameFunc(func(s string) bool {
				return strings.EqualFold(s, map[string]string{"costing": "money"}[field]) || strings.EqualFold(s, field)
			})
			v.SetZero()
			fillAll(v)
			if field == "created" {
				q.Created = p.Created.Add(time.Hour)
			}
			if !p.SameHeat(&q) {
				t.Fatalf("%s: %s", name, field)
			}
			if got := cureOf(t, &q); !reflect.DeepEqual(got, want) {
				t.Errorf("%s: %s changes the curing", name, field)
			}
		}
		q := p
		q.Journal = append(slices.Clone(p.Journal), Entry{ID: "j2", At: pourStart.Add(time.Hour), Kind: EntryNote, Text: "a bubble near the knot"}, Entry{ID: "j3", At: pourStart.Add(2 * time.Hour), Kind: EntryPhoto, Photo: "x"})
		if got := cureOf(t, &q); !p.SameHeat(&q) || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: a note and a photo change the curing", name)
		}
		q.Journal = append(q.Journal, Entry{ID: "j4", At: pourStart.Add(3 * time.Hour), Kind: EntryReading, Layer: p.Layers[0].ID, Part: kelvin(40)})
		if p.SameHeat(&q) {
			t.Errorf("%s: a reading counts for nothing", name)
		}
	}
}

// cureOf is the curing of a project by its plan.
func cureOf(t *testing.T, p *Project) Curing {
	t.Helper()
	plan := Make(*p)
	c, err := Simulate(context.Background(), p, &plan)
	if err != nil {
		t.Fatal(err)
	}
	return c
}
