package model

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// decided tells of each field of a project whether it is meant, and so stays
// when the piece is made again, or was done, read or measured for the one cast,
// and goes. What belongs to the shop and its tools stays, and of the boards what
// one plans by, which the page of changes says is to be measured anew.
var decided = map[string]struct{ stays, goes string }{
	"":                     {"created cut id instruments name note serial", "archived demo"},
	"costing":              {"asked batches/* by currency energy fails gain heater heats lasts less mold on overhead own pieces rate step warm", "seal"},
	"costing/lines/*":      {"count each id per what", ""},
	"costing/prices/*":     {"for id kind of price", ""},
	"costing/tasks/*":      {"id name per planned", "logged"},
	"drafts/*":             {"", "field reason text"},
	"finish":               {"bottom minCover thickness top", ""},
	"finish/coat":          {"count kind name spread weighs where", ""},
	"finish/flatten":       {"resin tool wood", "points/*"},
	"finish/mounts/*":      {"apart bite head id kind long name screw takes thickness thread top turn way x y", "looked"},
	"finish/sand":          {"after disc lasts own/* pace sander series turns under want", ""},
	"finish/trim":          {"anyTurn extra kerf shape", ""},
	"finish/use":           {"as food sun", ""},
	"inserts/*":            {"cavity count damp density diameter displaces fixed height id inner kind layer length mass name on sealed stock tall width", ""},
	"journal/*":            {"", "a at b check clock count cup feel gross id insert kind layer lot of part photo product room sheet stock text thick"},
	"layers/*":             {"by id lot name sheet to", ""},
	"layers/*/additives/*": {"grain id kind mass name share", ""},
	"layers/*/tint":        {"clear colour grain kind mass name share stock", ""},
	"lots/*":               {"heat id lot pace runs sheet", ""},
	"made":                 {"name project revision", ""},
	"mixing":               {"confidence creep cup cupFilm cupHolds cupLeast cupRest noRefill scaleStep soak", ""},
	"mixing/own":           {"creep cupFilm cupLeast runs soak", ""},
	"mixing/vessel":        {"brimAcross cupTall floorAcross lineAt lineReads lineStep lineUnit lineWater", ""},
	"mold":                 {"across at corner count depth diameter floor kind length name outline sides span thick width", ""},
	"mold/draft":           {"angle corner diameter kind length span width", ""},
	"mold/fillTest":        {"dry level water", ""},
	"mold/hold":            {"spacing", "depths/*"},
	"mold/hold/seams/*":    {"gap height id long name way", ""},
	"pieces/*":             {"bedded cavity density height id kind length name outline sealed spacing species stations/* straight thickness traceError turn weight width x y", "from"},
	"pieces/*/nature":      {"bond crosswise pores radial sawn tangential width", "moisture"},
	"pieces/*/top":         {"length outline stations/* width", ""},
	"pieces/*/voids/*":     {"count depth diameter id kind length name outline width x y", ""},
	"sheets/*": {"activation ahew class coldest demold densityA densityB densityMixed eew fullCure gel gelOther heat id maxLayer minLayer name note peak peakLimit " +
		"product recoatFrom recoatTo shrink softening source tintLimit viscosity warmest workingOther workingTime", "leftA leftB"},
	"sheets/*/volumeRatio":  {"a b", ""},
	"sheets/*/weightRatio":  {"a b", ""},
	"shop":                  {"bench bottles humidity night resin room sleeps tiltAlong tiltOver tiltRise wakes wood zone", "planned"},
	"shop/theirs":           {"humidity temperature", ""},
	"slabs/*":               {"", "id name thickness"},
	"slabs/*/layups/*":      {"", "bevelled cavity chosen gap id kerf name trim turn x y"},
	"slabs/*/under":         {"", "broad by camera high long photo rise touch wide"},
	"slabs/*/under/marks/*": {"", "at id up x y"},
	"slabs/*/under/rings/*": {"", "id kind points"},
	"slabs/*/upper":         {"", "broad by camera high long photo rise touch wide"},
	"slabs/*/upper/marks/*": {"", "at id up x y"},
	"slabs/*/upper/rings/*": {"", "id kind points"},
	"style":                 {"grain length mass temperature volume", ""},
}

// fillAll gives every field of a document a value, and every list an item.
func fillAll(v reflect.Value) {
	switch v.Interface().(type) {
	case shape.Ring:
		v.Set(reflect.ValueOf(shape.Ring{{X: 1}, {Y: 1}, {X: 1, Y: 1}}))
		return
	case time.Time:
		v.Set(reflect.ValueOf(time.Date(2026, 3, 6, 18, 30, 0, 0, time.UTC)))
		return
	case unit.Money:
		v.Set(reflect.ValueOf(unit.Money{Minor: 125, Currency: "EUR"}))
		return
	case map[unit.Instrument]unit.Length:
		v.Set(reflect.ValueOf(map[unit.Instrument]unit.Length{unit.Rule: unit.Millimetre}))
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fillAll(v.Field(i))
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		fillAll(v.Index(0))
	case reflect.String:
		v.SetString("x")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int:
		v.SetInt(1)
	case reflect.Float64:
		v.SetFloat(0.5)
	default:
		panic(v.Type().String())
	}
}

// fieldsOf hands each field of a document to do, with its path; an item of a
// list is a star. A field that holds nothing has the text "".
func fieldsOf(path string, v reflect.Value, do func(path, text string)) {
	told := func() {
		text := ""
		if !v.IsZero() {
			text = fmt.Sprint(v.Interface())
		}
		do(path, text)
	}
	switch v.Interface().(type) {
	case shape.Ring, time.Time, unit.Money:
		told()
		return
	}
	switch {
	case v.Kind() == reflect.Struct && !isLeaf(v):
		for i := range v.NumField() {
			f := v.Type().Field(i)
			at := join(path, jsonName(f))
			if f.Anonymous && f.Tag.Get("json") == "" {
				at = path
			}
			fieldsOf(at, v.Field(i), do)
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			fieldsOf(path+"/*", v.Index(i), do)
		}
	default:
		told()
	}
}

// Every field of a project is decided, and a recipe holds to it.
func TestRecipeFieldByField(t *testing.T) {
	var p Project
	fillAll(reflect.ValueOf(&p).Elem())
	next := p.Recipe()
	want, got := map[string]string{}, map[string]string{}
	fieldsOf("", reflect.ValueOf(p), func(path, text string) { want[path] = text })
	fieldsOf("", reflect.ValueOf(next), func(path, text string) { got[path] = text })
	told := map[string]bool{}
	for parent, names := range decided {
		for stays, list := range map[bool]string{true: names.stays, false: names.goes} {
			for _, name := range strings.Fields(list) {
				path := strings.TrimPrefix(parent+"/"+name, "/")
				if _, there := want[path]; !there || told[path] {
					t.Errorf("%s is decided twice, or is no field", path)
				}
				for _, part := range []string{"", "/at", "/mass"} { // of a figure of the data sheet
					was, there := want[path+part]
					switch {
					case !there:
						continue
					case was == "":
						t.Errorf("%s was not filled", path+part)
					case stays && got[path+part] != was:
						t.Errorf("%s is meant, and became %q from %q", path+part, got[path+part], was)
					case !stays && got[path+part] != "":
						t.Errorf("%s is of the one cast, and stays %q", path+part, got[path+part])
					}
					told[path+part] = true
				}
			}
		}
	}
	var open []string
	for path := range want {
		if !told[path] {
			open = append(open, path)
		}
	}
	slices.Sort(open)
	if len(open) > 0 {
		t.Errorf("nobody has decided whether these stay when a piece is made again: %s", strings.Join(open, ", "))
	}
}
