package model

import (
	"fmt"
	"reflect"
	"slices"
	"testing"
)

// namePhotos writes a name of its own into every field of a value that holds
// the name of a photo, whatever it belongs to, and gives the names. A list gets
// one element.
func namePhotos(v reflect.Value, depth int, names *[]string) {
	if depth > 8 {
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Field(i)
			if !f.CanSet() {
				continue
			}
			if v.Type().Field(i).Name == "Photo" && f.Kind() == reflect.String {
				name := fmt.Sprint("photo ", len(*names))
				f.SetString(name)
				*names = append(*names, name)
				continue
			}
			namePhotos(f, depth+1, names)
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		namePhotos(v.Index(0), depth+1, names)
	}
}

// TestPhotoNamesForgetsNone: whatever in a project names a photo is listed,
// also what a later version adds.
func TestPhotoNamesForgetsNone(t *testing.T) {
	var p Project
	var want []string
	namePhotos(reflect.ValueOf(&p).Elem(), 0, &want)
	if len(want) < 3 {
		t.Fatalf("only %q name photos", want)
	}
	slices.Sort(want)
	if got := p.PhotoNames(); !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	p.Journal = append(p.Journal, p.Journal[0], Entry{Kind: EntryNote})
	if got := p.PhotoNames(); !slices.Equal(got, want) {
		t.Errorf("with a photo named twice, %q", got)
	}
}
