package model

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"meniscus/model/shape"
)

const schemaFile = "../assets/project.schema.json"

var update = flag.Bool("update", false, "write assets/project.schema.json anew")

// entries is a JSON object that keeps its order.
type entries []struct {
	name  string
	value any
}

func (e entries) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	for i, item := range e {
		b.WriteByte(",{"[b2i(i == 0)])
		raw, err := json.Marshal(item.value)
		if err != nil {
			return nil, err
		}
		name, _ := json.Marshal(item.name)
		b.Write(name)
		b.WriteByte(':')
		b.Write(raw)
	}
	if len(e) == 0 {
		b.WriteByte('{')
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (e *entries) put(name string, value any) {
	*e = append(*e, struct {
		name  string
		value any
	}{name, value})
}

// schemer derives the schema of the file from the Go types, their tags, their
// choices of words and their comments.
type schemer struct {
	words comments
	defs  map[string]entries
}

// schema derives the whole schema.
func schema(t *testing.T) []byte {
	t.Helper()
	s := schemer{words: readComments(t, ".", "unit", "shape"), defs: map[string]entries{}}
	var top entries
	top.put("$schema", "https://json-schema.org/draft/2020-12/schema")
	top.put("title", "Project file")
	top.put("description", "One project with its journal. All numbers are SI: metre, square metre, cubic metre, kilogram, kilogram per cubic metre, kelvin, second, radian. Numbers must also lie in the range that a bench can have, and IDs must be unique within their list and point to what is there; the program says so where they do not.")
	top.put("type", "object")
	top.put("additionalProperties", false)
	top.put("required", []string{"format", "version", "project"})
	var properties entries
	properties.put("format", map[string]any{"const": exchangeFormat})
	properties.put("version", map[string]any{"const": exchangeVersion})
	properties.put("project", s.ref(reflect.TypeFor[Project]()))
	top.put("properties", properties)
	var defs entries
	for _, name := range sortedNames(s.defs) {
		defs.put(name, s.defs[name])
	}
	top.put("$defs", defs)
	raw, err := json.Marshal(top)
	if err != nil {
		t.Fatal(err)
	}
	return append(indented(raw), '\n')
}

func sortedNames[V any](m map[string]V) []string {
	names := make([]string, 0, len(m))
	for name := range m {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// ref gives the schema of a type, most of them by their name in $defs.
func (s *schemer) ref(t reflect.Type) entries {
	var e entries
	switch {
	case t == reflect.TypeFor[time.Time]():
		e.put("type", "string")
		e.put("format", "date-time")
	case t.PkgPath() == "" && t.Kind() == reflect.Slice:
		e.put("type", "array")
		e.put("maxItems", mostItems)
		e.put("items", s.ref(t.Elem()))
	case t.Kind() == reflect.Map:
		e.put("type", "object")
		e.put("propertyNames", s.ref(t.Key()))
		e.put("additionalProperties", s.ref(t.Elem()))
	case t.PkgPath() != "":
		name := defName(t)
		if _, ok := s.defs[name]; !ok {
			s.defs[name] = nil
			s.defs[name] = s.def(t)
		}
		e.put("$ref", "#/$defs/"+name)
	default:
		e.put("type", map[reflect.Kind]string{
			reflect.String: "string", reflect.Bool: "boolean", reflect.Int: "integer", reflect.Int64: "integer", reflect.Float64: "number",
		}[t.Kind()])
		if t.Kind() == reflect.String {
			e.put("maxLength", longestText)
		}
	}
	return e
}

// defName is the name of a type in $defs: TakenLength for unit.Taken[unit.Length].
func defName(t reflect.Type) string {
	name, parameter, _ := strings.Cut(strings.TrimSuffix(t.Name(), "]"), "[")
	return name + parameter[strings.LastIndexByte(parameter, '.')+1:]
}

// def gives the schema of a named type.
func (s *schemer) def(t reflect.Type) entries {
	var e entries
	base, _, _ := strings.Cut(t.Name(), "[")
	e.put("description", s.words.of(base))
	switch {
	case t == reflect.TypeFor[shape.Point]():
		e.put("type", "array")
		e.put("minItems", 2)
		e.put("maxItems", 2)
		e.put("items", map[string]any{"type": "number"})
	case t.Kind() == reflect.Slice:
		e.put("type", "array")
		e.put("maxItems", mostPoints)
		e.put("items", s.ref(t.Elem()))
	case t == reflect.TypeFor[TimeOfDay]():
		e.put("type", "string")
		e.put("pattern", "^(([01][0-9]|2[0-3]):[0-5][0-9])?$")
	case t == reflect.TypeFor[Currency]():
		e.put("type", "string")
		e.put("pattern", "^([A-Z]{3})?$")
	case t.Kind() == reflect.String:
		e.put("type", "string")
		e.put("enum", append([]string{""}, options[t]...))
	case t.Kind() == reflect.Float64:
		e.put("type", "number")
	case t.Kind() == reflect.Struct:
		s.structure(t, &e)
	}
	return e
}

// structure adds the schema of a struct's fields.
func (s *schemer) structure(t reflect.Type, e *entries) {
	var properties entries
	required := []string{}
	var add func(t reflect.Type)
	add = func(t reflect.Type) {
		base, _, _ := strings.Cut(t.Name(), "[")
		for i := range t.NumField() {
			f := t.Field(i)
			if f.Anonymous && f.Tag.Get("json") == "" {
				add(f.Type)
				continue
			}
			if !f.IsExported() {
				continue
			}
			p := s.ref(f.Type)
			if text := s.words.of(base + "." + f.Name); text != "" {
				p.put("description", text)
			}
			properties.put(jsonName(f), p)
			if _, how, _ := strings.Cut(f.Tag.Get("json"), ","); how == "" {
				required = append(required, jsonName(f))
			}
		}
	}
	add(t)
	e.put("type", "object")
	e.put("additionalProperties", false)
	if len(required) > 0 {
		e.put("required", required)
	}
	e.put("properties", properties)
}

// The schema follows from the Go types, so that the two cannot drift apart:
// change the types and run go test -run Schema -update.
func TestSchemaFollowsTheTypes(t *testing.T) {
	want := schema(t)
	if *update {
		if err := os.WriteFile(schemaFile, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(got, want) {
		return
	}
	a, b := strings.Split(string(got), "\n"), strings.Split(string(want), "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			t.Fatalf("%s differs from the Go types in line %d:\n%s\nshould be\n%s\nLook at the change, then run this test with -update.", schemaFile, i+1, a[i], b[i])
		}
	}
	t.Fatalf("%s has %d lines and should have %d", schemaFile, len(a), len(b))
}

// Every choice of words is known to the checks of a document, and every
// constant of such a type is among the choices.
func TestEveryWordIsAChoice(t *testing.T) {
	constants := readConstants(t, ".", "unit")
	// Grits and screws are rows of a table, not constants.
	tables := []reflect.Type{reflect.TypeFor[GritMark](), reflect.TypeFor[ScrewSize]()}
	for typ, list := range options {
		want := constants[typ.Name()]
		if slices.Contains(tables, typ) && len(list) > 0 {
			want = slices.Clone(list)
		}
		slices.Sort(want)
		got := slices.Sorted(slices.Values(list))
		if !slices.Equal(got, want) {
			t.Errorf("%s: choices %q, constants %q", typ.Name(), got, want)
		}
	}
	named := map[reflect.Type]bool{}
	var walk func(t reflect.Type)
	walk = func(t reflect.Type) {
		if named[t] || t == reflect.TypeFor[time.Time]() {
			return
		}
		named[t] = true
		switch t.Kind() {
		case reflect.Slice:
			walk(t.Elem())
		case reflect.Map:
			walk(t.Key())
			walk(t.Elem())
		case reflect.Struct:
			for i := range t.NumField() {
				walk(t.Field(i).Type)
			}
		}
	}
	walk(reflect.TypeFor[Project]())
	for typ := range named {
		if typ.Kind() == reflect.String && typ.PkgPath() != "" && options[typ] == nil && typ != reflect.TypeFor[TimeOfDay]() && typ != reflect.TypeFor[Currency]() {
			t.Errorf("%s has no choices", typ)
		}
	}
}
