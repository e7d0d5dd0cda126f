package model

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// However broken a document is, making it again, its page, its run and a
// comparison never panic, and the past project is left as it was.
func TestAgainOfAnything(t *testing.T) {
	jobs := []Project{poppyRun(t), full(t, "breakfast-boards"), full(t, "hall-shelf"), Blank("b", ""), {}}
	rapid.Check(t, func(t *rapid.T) {
		p := wild(t, rapid.SampledFrom(jobs).Draw(t, "job"))
		m := wild(t, rapid.SampledFrom(jobs).Draw(t, "mold of")).Mold
		how := Reissue{
			ID:       "x",
			Levels:   rapid.SampledFrom([]LevelRule{KeepLevels, WithDepth, ToFinished, "?"}).Draw(t, "levels"),
			Wood:     rapid.SampledFrom([]WoodRule{KeepWood, ScaleWood, RetraceWood, "?"}).Draw(t, "wood"),
			Finished: unit.Dim{Value: unit.Length(rapid.Float64Range(-1, 1).Draw(t, "finished"))},
			Usual:    rapid.Bool().Draw(t, "usual"),
		}
		if rapid.Bool().Draw(t, "another mold") {
			how.Mold = &m
		}
		if rapid.Bool().Draw(t, "season") {
			how.Season = &Season{}
		}
		if rapid.Bool().Draw(t, "supplies") && len(p.Sheets) > 0 {
			how.Supplies = []Substitute{{Sheet: p.Sheets[0].ID, New: &Sheet{}}}
		}
		before := p.Clone()
		next, err := Again(&p, how)
		if !reflect.DeepEqual(p, before) {
			t.Fatalf("the past project became another: %v", Compare(&before, &p, nil, nil))
		}
		if err != nil {
			return
		}
		was := p.Recipe()
		a, b := Make(was), Make(next)
		PageOfChanges(Issue{Project: &was, Plan: &a}, Issue{Project: &next, Plan: &b})
		ra, rb := p.Ran(ptr(Make(p)), nil, p.Minutes()), next.Ran(&b, nil, nil)
		Compare(&p, &next, &ra, &rb)
		var g Learning
		g.Add(&p, ptr(Make(p)))
		g.Lessons(p.Style)
	})
}

// wild changes a document at random: fields, items that are missing or there
// twice, a journal out of order.
func wild(t *rapid.T, of Project) Project {
	p := of.Clone()
	var fields []reflect.Value
	leaves("", reflect.ValueOf(&p).Elem(), func(_ string, v reflect.Value) { fields = append(fields, v) })
	for range rapid.IntRange(0, 12).Draw(t, "changes") {
		changeLeaf(fields[rapid.IntRange(0, len(fields)-1).Draw(t, "field")])
	}
	if n := len(p.Layers); n > 1 && rapid.Bool().Draw(t, "drop a layer") {
		p.Layers = p.Layers[1:]
	}
	if len(p.Pieces) > 0 && rapid.Bool().Draw(t, "twice") {
		p.Pieces = append(p.Pieces, p.Pieces[0])
		p.Inserts = append(p.Inserts, p.Inserts...)
	}
	if rapid.Bool().Draw(t, "backwards") {
		slices.Reverse(p.Journal)
	}
	if rapid.Bool().Draw(t, "no depth") {
		p.Mold.Depth = unit.Dim{}
	}
	return p
}
