package model

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"time"

	"meniscus/model/shape"
)

// Bounds on the size of a document.
const (
	mostItems  = 10000
	mostPieces = 200 // each is held against every other
	mostPoints = 50000
)

// Validate reports everything in a document that no maker could have entered:
// numbers out of range or not numbers, words that are not among the choices,
// broken outlines, IDs used twice, references to what is not there. A measure
// that is merely missing is no problem here; the plan tells.
func (p Project) Validate() []Problem {
	v := validator{ids: map[string]bool{}}
	v.walk("", reflect.ValueOf(&p).Elem())
	for i := range p.Inserts {
		if s := &p.Inserts[i]; s.On == OnLayer && p.LayerIndex(s.Layer) == none {
			v.say("inserts/"+s.ID+"/layer", "there is no layer “"+clip(s.Layer)+"”")
		}
	}
	for i := range p.Layers {
		if l := &p.Layers[i]; l.Sheet != "" && p.Sheet(l.Sheet) == nil {
			v.say("layers/"+l.ID+"/sheet", "there is no data sheet “"+clip(l.Sheet)+"”")
		}
	}
	for i := range p.Journal {
		e := &p.Journal[i]
		if field, message := e.fault(); message != "" {
			v.say("journal/"+e.ID+"/"+field, message)
		}
	}
	for i := range p.Slabs {
		for _, t := range [2]*Tracing{&p.Slabs[i].Upper, &p.Slabs[i].Under} {
			if len(t.Marks) > mostMarks || len(t.Rings) > mostRings {
				v.say("slabs/"+p.Slabs[i].ID, fmt.Sprintf("more than %d marks or %d outlines in a photo", mostMarks, mostRings))
			}
		}
	}
	v.list = append(v.list, p.Money.faults()...)
	if len(p.Finish.Mounts) > mostPieces {
		v.say("finish/mounts", fmt.Sprintf("more than %d handles, feet and hangers", mostPieces))
	}
	if len(p.Pieces) > mostPieces {
		v.say("pieces", fmt.Sprintf("more than %d pieces of wood", mostPieces))
	}
	if p.ID == "" {
		v.say("id", "the piece has no id")
	}
	return v.list
}

type validator struct {
	list []Problem
	ids  map[string]bool
}

func (v *validator) say(field, message string) {
	v.list = append(v.list, Problem{field, message})
}

// walk visits every field below x, which lies at path.
func (v *validator) walk(path string, x reflect.Value) {
	switch leaf := x.Addr().Interface().(type) {
	case *shape.Ring:
		v.ring(path, *leaf)
		return
	case *time.Time:
		if y := leaf.Year(); !leaf.IsZero() && (y < 1970 || y > 2200) {
			v.say(path, "the year should be between 1970 and 2200")
		}
		return
	}
	switch x.Kind() {
	case reflect.Struct:
		if isLeaf(x) {
			v.leaf(path, x)
		}
		for i := range x.NumField() {
			f := x.Type().Field(i)
			switch {
			case f.Anonymous && f.Tag.Get("json") == "":
				v.walk(path, x.Field(i))
			case isLeaf(x) && f.Name == "Value":
			default:
				v.walk(join(path, jsonName(f)), x.Field(i))
			}
		}
	case reflect.Slice:
		v.items(path, x)
	case reflect.Map:
		for _, key := range slices.SortedFunc(slices.Values(x.MapKeys()), func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) }) {
			if n := x.MapIndex(key).Float(); !(n > 0 && n <= 0.1) {
				v.say(join(path, key.String()), "an instrument's accuracy should be more than nothing and at most 100 mm")
			}
		}
	default:
		v.leaf(path, x)
	}
}

// isLeaf tells whether a struct is a quantity as taken.
func isLeaf(x reflect.Value) bool {
	return x.FieldByName("Value").IsValid() && x.FieldByName("Written").IsValid() && x.Type().Field(0).Name == "Value"
}

func (v *validator) leaf(path string, x reflect.Value) {
	if x.Kind() == reflect.String {
		text := x.String()
		if allowed := options[x.Type()]; allowed != nil && text != "" && !slices.Contains(allowed, text) {
			v.say(path, fmt.Sprintf("“%s” is not one of: %s", clip(text), strings.Join(allowed, ", ")))
		}
		if d := Date(text); x.Type() == reflect.TypeFor[Date]() && text != "" && !d.whole() {
			v.say(path, "write a day like 2026-11-25, between 1970 and 2200")
		}
		if at := TimeOfDay(text); x.Type() == reflect.TypeFor[TimeOfDay]() && text != "" && !at.whole() {
			v.say(path, "write a time of day like 07:30")
		}
		if len([]rune(text)) > longestText {
			v.say(path, fmt.Sprintf("more than %d characters", longestText))
			return
		}
	}
	if msg := outOfRange(path, x); msg != "" {
		v.say(path, msg)
	}
}

func (v *validator) items(path string, x reflect.Value) {
	if x.Len() > mostItems {
		v.say(path, fmt.Sprintf("more than %d items", mostItems))
		return
	}
	for i := range x.Len() {
		item := x.Index(i)
		name := itoa(i)
		if item.Kind() == reflect.Struct {
			if id := item.FieldByName("ID"); id.IsValid() {
				switch key := path + "/" + id.String(); {
				case id.String() == "" || strings.Contains(id.String(), "/"):
					v.say(join(path, name)+"/id", "every item needs an id of its own")
				case v.ids[key]:
					v.say(join(path, name)+"/id", "the id “"+clip(id.String())+"” is used twice")
				default:
					v.ids[key] = true
					name = id.String()
				}
			}
		}
		v.walk(join(path, name), item)
	}
}

func (v *validator) ring(path string, r shape.Ring) {
	if len(r) == 0 {
		return
	}
	if len(r) > mostPoints {
		v.say(path, fmt.Sprintf("more than %d points", mostPoints))
		return
	}
	if strings.HasPrefix(path, "slabs/") {
		// Pixels; an outline that crosses itself there is the plan's to tell.
		for i, p := range r {
			if !inPhoto(p.X, p.Y) {
				v.say(fmt.Sprintf("%s/%d", path, i), "this should be "+inPicture.words)
				return
			}
		}
		return
	}
	for i, p := range r {
		if !(math.Abs(p.X) <= anyLength.high && math.Abs(p.Y) <= anyLength.high) {
			v.say(fmt.Sprintf("%s/%d", path, i), "this should be within 20 m of the middle")
			return
		}
	}
	if err := r.Validate(); err != nil {
		v.say(path, err.Error())
	}
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "/" + name
}
