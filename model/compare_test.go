package model

import (
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// leaves hands every field of a document below v to do, with its path; a
// quantity as taken is one field. do changes it.
func leaves(path string, v reflect.Value, do func(path string, v reflect.Value)) {
	switch v.Interface().(type) {
	case shape.Ring, time.Time, unit.Money:
		do(path, v)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		if isLeaf(v) {
			do(path, v)
			return
		}
		for i := range v.NumField() {
			f := v.Type().Field(i)
			switch name := jsonName(f); {
			case f.Anonymous:
				leaves(path, v.Field(i), do)
			case f.Name == "Stock", f.Type == reflect.TypeFor[Losses](): // where it is from
			case f.Name != "ID" && !(path == "" && slices.Contains([]string{"id", "serial", "created", "made", "style", "journal", "drafts", "instruments"}, name)):
				leaves(join(path, name), v.Field(i), do)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			name := itoa(i)
			if hasID(v.Type().Elem()) {
				name = v.Index(i).FieldByName("ID").String()
			}
			leaves(join(path, name), v.Index(i), do)
		}
	default:
		do(path, v)
	}
}

// changeLeaf makes a field another than it was.
func changeLeaf(v reflect.Value) {
	switch t := v.Interface().(type) {
	case shape.Ring:
		v.Set(reflect.ValueOf(append(slices.Clone(t), shape.Point{X: 7, Y: 7})))
		return
	case time.Time:
		v.Set(reflect.ValueOf(t.Add(time.Hour)))
		return
	case unit.Money:
		v.Set(reflect.ValueOf(unit.Money{Minor: t.Minor + 125, Currency: "EUR"}))
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		v.Field(0).SetFloat(v.Field(0).Float()*1.5 + 0.25)
		v.FieldByName("Written").SetString("")
	case reflect.String:
		v.SetString(v.String() + "other")
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Int:
		v.SetInt(v.Int() + 1)
	case reflect.Float64:
		v.SetFloat(v.Float() + 0.5)
	default:
		panic(v.Type().String())
	}
}

// full is a demo with something in every list.
func full(t testing.TB, name string) Project {
	p := demo(t, name)
	p.AddVoid(p.Pieces[0].ID)
	p.AddSeam()
	p.AddInsert(InsertSphere)
	p.AddAdditive(p.Layers[0].ID)
	return p
}

// A project differs from itself in nothing, and from one with a single field
// changed in that field alone, whichever field it is. The label is never empty
// and both sides do not read the same.
func TestCompareListsWhatDiffersOnce(t *testing.T) {
	for _, name := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		p := full(t, name)
		run := p.Ran(ptr(Make(p)), nil, nil)
		if d := Compare(&p, &p, &run, &run); len(d) > 0 {
			t.Errorf("%s differs from itself in %+v", name, d)
		}
		q, fields := full(t, name), 0
		leaves("", reflect.ValueOf(&q).Elem(), func(path string, v reflect.Value) {
			was := reflect.New(v.Type()).Elem()
			was.Set(v)
			changeLeaf(v)
			d := Compare(&p, &q, nil, nil)
			v.Set(was)
			if len(d) != 1 || d[0].Path != path || d[0].Label == "" || d[0].A == d[0].B {
				t.Errorf("%s: with %s changed they differ in %+v", name, path, d)
			}
			fields++
		})
		if fields < 200 {
			t.Errorf("%s has only %d fields", name, fields)
		}
	}
}

// Several changes are each listed once, in whatever order they were made.
func TestCompareListsAll(t *testing.T) {
	p := full(t, "hall-shelf")
	var paths []string
	leaves("", reflect.ValueOf(&p).Elem(), func(path string, _ reflect.Value) { paths = append(paths, path) })
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfNDistinct(rapid.SampledFrom(paths), 0, 12, rapid.ID).Draw(t, "changed")
		q := p.Clone()
		leaves("", reflect.ValueOf(&q).Elem(), func(path string, v reflect.Value) {
			if slices.Contains(want, path) {
				changeLeaf(v)
			}
		})
		var got []string
		for _, d := range Compare(&p, &q, nil, nil) {
			got = append(got, d.Path)
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Fatalf("listed %v, changed %v", got, want)
		}
	})
}

// What only one of two has is listed whole, an order once, and what reads the
// same not at all.
func TestCompareItems(t *testing.T) {
	p := demo(t, "poppy-stand")
	q := p.Clone()
	q.Inserts = q.Inserts[1:]
	q.AddLayer()
	q.Layers[0], q.Layers[1] = q.Layers[1], q.Layers[0]
	q.Layers[0].Sheet = ""
	q.Mold.Depth = unit.Dim{Value: 0.04, Written: "4 cm", By: unit.Rule} // the same
	q.Mold.Span.By = unit.Tape
	q.Instruments = map[unit.Instrument]unit.Length{unit.Rule: unit.Millimetre}
	q.Name = "another"
	want := []Difference{
		{"name", "Piece", "Name", "Poppy stand (demo)", "another"},
		{"instruments/rule", "Instruments", "Instruments rule", "± 0.5 mm", "± 1 mm"},
		{"mold/span", "Mold", "Mold size across", "320 mm by rule", "320 mm by tape"},
		{"inserts/i5", "Inserts", "Copper washers", "copper washers", ""},
		{"layers/l4/sheet", "Layers", "Sheet of clear top", "slow casting resin A", ""},
		{"layers/l7", "Layers", "Layer 3", "", "layer 3"},
		{"layers", "Layers", "Order", "smoke-grey base, clear top", "clear top, smoke-grey base, layer 3"},
	}
	if got := Compare(&p, &q, nil, nil); !reflect.DeepEqual(got, want) {
		t.Errorf("they differ in\n%+v\nwant\n%+v", got, want)
	}
}

// Labels tell fields of one name apart.
func TestCompareLabels(t *testing.T) {
	p := full(t, "hall-shelf")
	for path, want := range map[string]string{
		"sheets/s3/gel":                 "Gel of deep casting resin C",
		"sheets/s3/gel/at":              "Gel of deep casting resin C, temperature it holds at",
		"sheets/s3/workingTime/mass":    "Working time of deep casting resin C, mass it holds at",
		"sheets/s3/weightRatio/a":       "Weight ratio, parts of A of deep casting resin C",
		"pieces/p1/voids/v8/diameter":   "Diameter of knot 1 in near slab",
		"pieces/p1/stations/2":          "Stations, no. 3 of near slab",
		"pieces/p1/nature/moisture":     "Nature, moisture of near slab",
		"layers/l4/tint/share":          "Tint, share of river base",
		"layers/l4/to":                  "Height of river base",
		"mold/depth":                    "Mold depth",
		"mold/hold/seams/g7/gap":        "Mold, hold, seams, end joint, gap",
		"shop/theirs/humidity":          "Shop, theirs, humidity",
		"layers/l4/additives/a11/share": "Share of additive in river base",
	} {
		if got := labelWithin(&p, path); got != want {
			t.Errorf("%s is %q, want %q", path, got, want)
		}
		if strings.Contains(path, "a11") && p.Layers[0].Additives[0].ID != "a11" {
			t.Errorf("the additive is %s", p.Layers[0].Additives[0].ID)
		}
	}
}
