package model

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"

	"meniscus/model/shape"
)

// judge checks JSON values against the part of JSON Schema 2020-12 that
// project.schema.json uses. A keyword it does not know is an error.
type judge struct{ defs map[string]any }

func (j judge) check(path string, rule map[string]any, v any) error {
	for _, word := range sortedNames(rule) {
		if err := j.keyword(path, word, rule, v); err != nil {
			return err
		}
	}
	return nil
}

func (j judge) keyword(path, word string, rule map[string]any, v any) error {
	fail := func() error { return fmt.Errorf("%s: %v breaks %s %v", path, v, word, rule[word]) }
	object, isObject := v.(map[string]any)
	list, isList := v.([]any)
	text, isText := v.(string)
	switch arg := rule[word]; word {
	case "$schema", "title", "description", "$defs", "properties":
		if properties, ok := arg.(map[string]any); ok && word == "properties" && isObject {
			for name, inner := range object {
				if p, ok := properties[name].(map[string]any); ok {
					if err := j.check(join(path, name), p, inner); err != nil {
						return err
					}
				}
			}
		}
	case "$ref":
		def, ok := j.defs[strings.TrimPrefix(arg.(string), "#/$defs/")].(map[string]any)
		if !ok {
			return fail()
		}
		return j.check(path, def, v)
	case "type":
		n, isNumber := v.(float64)
		_, isBool := v.(bool)
		is := map[string]bool{
			"object": isObject, "array": isList, "string": isText, "boolean": isBool,
			"number": isNumber, "integer": isNumber && n == math.Trunc(n),
		}
		if !is[arg.(string)] {
			return fail()
		}
	case "const":
		if !reflect.DeepEqual(arg, v) {
			return fail()
		}
	case "enum":
		if !slices.Contains(arg.([]any), v) {
			return fail()
		}
	case "maxLength":
		if isText && utf8.RuneCountInString(text) > int(arg.(float64)) {
			return fail()
		}
	case "pattern":
		if isText && !regexp.MustCompile(arg.(string)).MatchString(text) {
			return fail()
		}
	case "format":
		if _, err := time.Parse(time.RFC3339, text); arg != "date-time" || isText && err != nil {
			return fail()
		}
	case "minItems":
		if isList && len(list) < int(arg.(float64)) {
			return fail()
		}
	case "maxItems":
		if isList && len(list) > int(arg.(float64)) {
			return fail()
		}
	case "items":
		for i, item := range list {
			if err := j.check(fmt.Sprint(path, "/", i), arg.(map[string]any), item); err != nil {
				return err
			}
		}
	case "required":
		for _, name := range arg.([]any) {
			if _, ok := object[name.(string)]; isObject && !ok {
				return fmt.Errorf("%s: no %v", path, name)
			}
		}
	case "propertyNames":
		for name := range object {
			if err := j.check(path, arg.(map[string]any), name); err != nil {
				return err
			}
		}
	case "additionalProperties":
		properties, _ := rule["properties"].(map[string]any)
		for name, inner := range object {
			if _, ok := properties[name]; ok {
				continue
			}
			if arg == false {
				return fmt.Errorf("%s: unknown %s", path, name)
			}
			if err := j.check(join(path, name), arg.(map[string]any), inner); err != nil {
				return err
			}
		}
	default:
		return fmt.Errorf("unknown keyword %s", word)
	}
	return nil
}

// bySchema checks a file against the schema.
func bySchema(t testing.TB) func(data []byte) error {
	t.Helper()
	raw, err := os.ReadFile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	var rule map[string]any
	if err := json.Unmarshal(raw, &rule); err != nil {
		t.Fatal(err)
	}
	j := judge{rule["$defs"].(map[string]any)}
	return func(data []byte) error {
		var v any
		if err := json.Unmarshal(data, &v); err != nil {
			return err
		}
		return j.check("", rule, v)
	}
}

func TestExportedFilesObeyTheSchema(t *testing.T) {
	check := bySchema(t)
	for _, p := range []Project{travelled(), {}} {
		if err := check(exported(t, p)); err != nil {
			t.Error(err)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		var p Project
		fill(t, reflect.ValueOf(&p).Elem(), 0)
		data, err := Export(p)
		if err != nil {
			t.Fatal(err)
		}
		if err := check(data); err != nil {
			t.Fatal(err)
		}
		if err := strictly(data, reflect.TypeFor[document]()); err != nil {
			t.Fatal(err)
		}
	})
}

// fill puts something into every field below v, or nothing.
func fill(t *rapid.T, v reflect.Value, depth int) {
	switch v.Addr().Interface().(type) {
	case *time.Time:
		at := time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "at"), 0).UTC()
		v.Set(reflect.ValueOf(at))
		return
	case *Currency:
		v.SetString(rapid.StringMatching("[A-Z]{3}").Draw(t, "currency"))
		return
	case *TimeOfDay:
		v.SetString(clockText(time.Duration(rapid.IntRange(0, 1439).Draw(t, "minute")) * time.Minute))
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() && (v.Type() == reflect.TypeFor[shape.Point]() || rapid.IntRange(0, 2).Draw(t, "given") > 0) {
				fill(t, v.Field(i), depth)
			}
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), rapid.IntRange(0, 2).Draw(t, "items"), 2))
		for i := range v.Len() {
			fill(t, v.Index(i), depth+1)
		}
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
		fill(t, key, depth)
		fill(t, value, depth)
		v.SetMapIndex(key, value)
	case reflect.String:
		if list := options[v.Type()]; list != nil {
			v.SetString(rapid.SampledFrom(list).Draw(t, "word"))
		} else {
			v.SetString(rapid.String().Draw(t, "text"))
		}
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, "bool"))
	case reflect.Int, reflect.Int64:
		v.SetInt(int64(rapid.IntRange(-5, 1000).Draw(t, "int")))
	case reflect.Float64:
		v.SetFloat(rapid.Float64Range(-1e6, 1e6).Draw(t, "number"))
	}
}

// What the schema forbids, Import refuses too; and of what Import refuses, the
// schema forbids all that is about form.
func TestSchemaAndImportAgree(t *testing.T) {
	check := bySchema(t)
	beyond := []string{ // what no schema can say, or only a reader of text can
		"bowtie", "dangling-layer", "dangling-sheet", "doubled-field", "doubled-id", "half-character", "huge-length",
		"negative-depth", "slash-id", "year-0000", "year-9999", "latin-1",
	}
	files, err := filepath.Glob("../testdata/hostile/*.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		if err := check(data); err == nil && !slices.Contains(beyond, name) {
			t.Errorf("%s passes the schema", name)
		}
	}
	good := exported(t, travelled())
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.IntRange(0, len(good)-1).Draw(t, "at")
		bad := bytes.Clone(good)
		bad[at] = rapid.SampledFrom([]byte(`"{}[],:0-x .e`)).Draw(t, "byte")
		_, err := Import(bad)
		var refused *ImportError
		if err != nil && !errors.As(err, &refused) {
			t.Fatalf("no words: %v", err)
		}
		if err == nil && check(bad) != nil {
			t.Fatalf("taken against the schema: %v", check(bad))
		}
	})
}
