package model

import (
	"bytes"
	"encoding/json"
	"errors"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"

	"meniscus/model/shape"
)

// strict holds JSON against a Go type, more closely than the decoder does:
// every name exactly as it is written, each once, none unknown, none of those
// missing that are always written, no null, no number that does not fit.
type strict struct {
	d     *json.Decoder
	names map[reflect.Type]fields
}

// field is what the JSON of a struct may hold under a name.
type field struct {
	t      reflect.Type
	always bool // written also when empty, and so needed
}

type fields map[string]field

// strictly checks well-formed JSON.
func strictly(data []byte, t reflect.Type) error {
	s := strict{d: json.NewDecoder(bytes.NewReader(data)), names: map[reflect.Type]fields{}}
	s.d.UseNumber()
	if err := s.value("", t); err != nil {
		var known *ImportError
		if errors.As(err, &known) {
			known.Field = strings.TrimPrefix(known.Field, "project/")
			return known
		}
		return refuse("", "the file cannot be read: %v", err)
	}
	return nil
}

// value checks the next value.
func (s *strict) value(path string, t reflect.Type) error {
	token, err := s.d.Token()
	if err != nil {
		return err
	}
	if t == reflect.TypeFor[time.Time]() {
		text, ok := token.(string)
		if _, err := time.Parse(time.RFC3339, text); !ok || err != nil {
			return refuse(path, "this should be an instant such as \"2026-11-25T12:00:00Z\"")
		}
		return nil
	}
	if t == reflect.TypeFor[shape.Point]() {
		return s.point(path, token)
	}
	switch t.Kind() {
	case reflect.String:
		if _, ok := token.(string); !ok {
			return refuse(path, "this should be text in quotes")
		}
	case reflect.Bool:
		if _, ok := token.(bool); !ok {
			return refuse(path, "this should be true or false")
		}
	case reflect.Int, reflect.Int64:
		number, _ := token.(json.Number)
		if _, err := strconv.Atoi(number.String()); err != nil {
			return refuse(path, "this should be a whole number")
		}
	case reflect.Float64:
		return s.number(path, token)
	case reflect.Slice:
		return s.list(path, t, token)
	case reflect.Map, reflect.Struct:
		return s.object(path, t, token)
	default:
		return refuse(path, "this program cannot read this field")
	}
	return nil
}

func (s *strict) number(path string, token json.Token) error {
	number, ok := token.(json.Number)
	if !ok {
		return refuse(path, "this should be a number, in SI units")
	}
	if _, err := strconv.ParseFloat(number.String(), 64); err != nil {
		return refuse(path, "this number is too large")
	}
	return nil
}

// point checks a point, which is a list of two numbers.
func (s *strict) point(path string, token json.Token) error {
	const want = "this should be a point such as [0.12, 0.05], in metres"
	if token != json.Delim('[') {
		return refuse(path, want)
	}
	for range 2 {
		token, err := s.d.Token()
		if err != nil {
			return err
		}
		if _, ok := token.(json.Number); !ok {
			return refuse(path, want)
		}
		if err := s.number(path, token); err != nil {
			return err
		}
	}
	if token, err := s.d.Token(); err != nil || token != json.Delim(']') {
		return refuse(path, want)
	}
	return nil
}

// list checks a list, whose items are named by their ID where they begin with
// one, and else by their number.
func (s *strict) list(path string, t reflect.Type, token json.Token) error {
	if token != json.Delim('[') {
		return refuse(path, "this should be a list in brackets")
	}
	most, what := mostItems, "items"
	if t.Elem() == reflect.TypeFor[shape.Point]() {
		most, what = mostPoints, "points"
	}
	for i := 0; s.d.More(); i++ {
		if i == most {
			return refuse(path, "there are more than %d %s", most, what)
		}
		if err := s.value(path+"/"+strconv.Itoa(i), t.Elem()); err != nil {
			return err
		}
	}
	_, err := s.d.Token()
	return err
}

// object checks the fields of a struct or the keys of a map.
func (s *strict) object(path string, t reflect.Type, token json.Token) error {
	if token != json.Delim('{') {
		return refuse(path, "this should be an object in braces")
	}
	var known fields
	if t.Kind() == reflect.Struct {
		known = s.fields(t)
	}
	seen := map[string]bool{}
	for s.d.More() {
		token, err := s.d.Token()
		if err != nil {
			return err
		}
		name, _ := token.(string)
		here := join(path, clip(name))
		switch {
		case seen[name]:
			return refuse(here, "this is given twice")
		case len(seen) == mostItems:
			return refuse(path, "there are more than %d items", mostItems)
		}
		seen[name] = true
		f := field{t: t}
		if t.Kind() == reflect.Map {
			if !slices.Contains(options[t.Key()], name) {
				return refuse(here, "this is not one of: %s", strings.Join(options[t.Key()], ", "))
			}
			f.t = t.Elem()
		} else if found, ok := known[name]; ok {
			f = found
		} else {
			return refuse(here, "this program knows no such field here")
		}
		if path, err = s.item(path, here, name, f); err != nil {
			return err
		}
	}
	for name, f := range known {
		if f.always && !seen[name] {
			return refuse(join(path, firstMissing(known, seen, name)), "this is missing")
		}
	}
	_, err := s.d.Token()
	return err
}

// item checks one field, and returns the path of the object that it is in,
// which from its ID on ends with that.
func (s *strict) item(path, here, name string, f field) (string, error) {
	if name != "id" || !s.numbered(path) {
		return path, s.value(here, f.t)
	}
	token, err := s.d.Token()
	if err != nil {
		return path, err
	}
	id, ok := token.(string)
	if !ok {
		return path, refuse(here, "this should be text in quotes")
	}
	if id != "" && !strings.Contains(id, "/") {
		path = path[:strings.LastIndexByte(path, '/')+1] + clip(id)
	}
	return path, nil
}

// numbered tells whether a path ends with the number of an item.
func (s *strict) numbered(path string) bool {
	_, err := strconv.Atoi(path[strings.LastIndexByte(path, '/')+1:])
	return err == nil && strings.Contains(path, "/")
}

// firstMissing gives the first by name of the missing fields, so that the same
// file gives the same error.
func firstMissing(known fields, seen map[string]bool, first string) string {
	for name, f := range known {
		if f.always && !seen[name] && name < first {
			first = name
		}
	}
	return first
}

// fields gives what the JSON of a struct may hold, with that of structs
// embedded in it.
func (s *strict) fields(t reflect.Type) fields {
	if known, ok := s.names[t]; ok {
		return known
	}
	known := fields{}
	for i := range t.NumField() {
		f := t.Field(i)
		tag := f.Tag.Get("json")
		switch {
		case f.Anonymous && tag == "":
			for name, inner := range s.fields(f.Type) {
				known[name] = inner
			}
		case f.IsExported() && tag != "-":
			_, how, _ := strings.Cut(tag, ",")
			known[jsonName(f)] = field{f.Type, how != "omitempty" && how != "omitzero"}
		}
	}
	s.names[t] = known
	return known
}
