package model

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"meniscus/model/unit"
)

// A path names one field of a Document by its JSON names, with a slash between
// them; those of the shelf begin with "shelf/". An item of a list is named by
// its ID, or by its number where it has none: "mold/depth",
// "pieces/p2/stations/0", "sheets/s1/workingTime/at".

// locate finds the field at path in a document. The result can be set. A figure
// of a data sheet is its value; its conditions lie below it ("sheets/s1/gel/at").
// An amount of money is entered whole: nothing lies below it.
func locate(d Document, path string) (reflect.Value, error) {
	v, root := d.within()
	rest := path
	if root != "" {
		var ok bool
		if rest, ok = strings.CutPrefix(path, root+"/"); !ok {
			return reflect.Value{}, fmt.Errorf("model: %q does not begin with %q", path, root)
		}
	}
	for name := range strings.SplitSeq(rest, "/") {
		var ok bool
		switch {
		case v.Type() == reflect.TypeFor[unit.Money]():
		case v.Kind() == reflect.Struct:
			v, ok = fieldByName(v, name)
		case v.Kind() == reflect.Slice:
			v, ok = itemByName(v, name)
		}
		if !ok {
			return reflect.Value{}, fmt.Errorf("model: no field %q in %q", name, path)
		}
	}
	if v.Kind() == reflect.Struct && v.NumField() > 0 && v.Type().Field(0).Anonymous {
		v = v.Field(0)
	}
	return v, nil
}

// fieldByName finds a struct's field by its JSON name, looking into embedded
// structs.
func fieldByName(v reflect.Value, name string) (reflect.Value, bool) {
	t := v.Type()
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous && f.Tag.Get("json") == "" && f.Type.Kind() == reflect.Struct {
			if inner, ok := fieldByName(v.Field(i), name); ok {
				return inner, true
			}
			continue
		}
		if f.IsExported() && jsonName(f) == name {
			return v.Field(i), true
		}
	}
	return reflect.Value{}, false
}

// itemByName finds a list's item by its ID, or by its number.
func itemByName(v reflect.Value, name string) (reflect.Value, bool) {
	for i := range v.Len() {
		item := v.Index(i)
		if item.Kind() == reflect.Struct {
			if id := item.FieldByName("ID"); id.IsValid() && id.String() == name {
				return item, true
			}
		}
	}
	if n, err := strconv.Atoi(name); err == nil && n >= 0 && n < v.Len() {
		return v.Index(n), true
	}
	return reflect.Value{}, false
}

// jsonName gives the name that a field has in JSON.
func jsonName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	if name == "" {
		return f.Name
	}
	return name
}

// pattern replaces the items of lists in a path by stars, so that one rule can
// speak of all of them: "pieces/p2/thickness" becomes "pieces/*/thickness". What
// lies on the shelf goes by the rule of its like in a project.
func pattern(path string) string {
	if rest, ok := strings.CutPrefix(path, shelfRoot+"/"); ok {
		return ofProject(shelfRoot + "/" + starred(rest, reflect.TypeFor[Shelf]()))
	}
	return starred(path, reflect.TypeFor[Project]())
}

// ofProject gives the pattern that a project has for what the shelf has too.
func ofProject(pattern string) string {
	for on, in := range map[string]string{"products/*/sheet": "sheets/*", "molds/*/mold": "mold", "cups/*/vessel": "mixing/vessel", "inserts/*/insert": "inserts/*"} {
		if rest, ok := strings.CutPrefix(pattern, shelfRoot+"/"+on+"/"); ok {
			return in + "/" + rest
		}
	}
	return pattern
}

// starred is pattern for a path below the root of a document of type t.
func starred(path string, t reflect.Type) string {
	parts := strings.Split(path, "/")
	for i, name := range parts {
		switch {
		case t.Kind() == reflect.Slice:
			parts[i], t = "*", t.Elem()
		case t.Kind() == reflect.Struct:
			f, ok := typeByName(t, name)
			if !ok {
				return strings.Join(parts, "/")
			}
			t = f
		}
	}
	return strings.Join(parts, "/")
}

func typeByName(t reflect.Type, name string) (reflect.Type, bool) {
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous && f.Tag.Get("json") == "" && f.Type.Kind() == reflect.Struct {
			if inner, ok := typeByName(f.Type, name); ok {
				return inner, true
			}
			continue
		}
		if jsonName(f) == name {
			return f.Type, true
		}
	}
	return nil, false
}

// reflectDelete gives a list without its item i, leaving the original alone.
func reflectDelete(list reflect.Value, i int) reflect.Value {
	out := reflect.MakeSlice(list.Type(), 0, list.Len()-1)
	out = reflect.AppendSlice(out, list.Slice(0, i))
	return reflect.AppendSlice(out, list.Slice(i+1, list.Len()))
}
