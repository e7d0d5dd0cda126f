package model

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// travelled is a project that uses most fields.
func travelled() Project {
	dim := func(mm float64, written string) unit.Dim {
		return unit.Dim{Value: unit.Length(mm) * unit.Millimetre, Written: written, By: unit.Caliper}
	}
	warm := func(c float64) unit.Taken[unit.Temperature] {
		return unit.Taken[unit.Temperature]{Value: unit.Celsius(c), Written: fmt.Sprintf("%g °C", c)}
	}
	share := unit.Taken[unit.Share]{Value: 0.03, Written: "3 %"}
	at := time.Date(2026, 11, 25, 12, 30, 0, 500, time.UTC)
	return Project{
		ID: "board", Name: "Über <b> & “board”", Note: "two\nlines \\ and a tab\t", Demo: true, Created: at, Serial: 9,
		Style:       unit.Style{Lengths: unit.InInches, Grain: unit.Sixteenth},
		Instruments: map[unit.Instrument]unit.Length{unit.Tape: 0.0005},
		Mold: Mold{
			Name: "Tray", Kind: MoldRectangle, At: AtFloor, Length: dim(300, "300 mm"), Width: dim(203.2, `8"`), Depth: dim(40, "40 mm"),
			Draft:    Lean{Kind: LeanAngle, Angle: unit.Taken[unit.Angle]{Value: 3 * unit.Degree, Written: "3°"}},
			FillTest: FillTest{Water: unit.Taken[unit.Mass]{Value: 2, Written: "2 kg"}},
			Floor:    FloorSilicone, Thick: dim(8, "8 mm"),
		},
		Pieces: []Piece{
			{
				ID: "p1", Name: "Slab", Kind: PieceOutline, Thickness: dim(30, "30"), X: -0.01, Turn: 0.5,
				Outline: shape.Ring{{X: 0, Y: 0}, {X: 0.1, Y: 1e-3}, {X: 0.05, Y: 0.08}}, TraceErr: share,
				Voids: []Void{{ID: "v1", Kind: VoidRound, Diameter: dim(12, "12 mm"), Count: 2}},
			},
			{ID: "p2", Name: "Strip", Kind: PieceStations, Spacing: dim(50, "50"), Stations: []unit.Dim{dim(40, "40"), dim(42, "42")}, Thickness: dim(25, "25")},
		},
		Inserts: []Insert{{ID: "i1", Name: "Shell", Count: 3, Kind: InsertSphere, Diameter: dim(9, "9 mm"), On: OnLayer, Layer: "l1"}},
		Sheets: []Sheet{{
			ID: "s1", Name: "Slow", Volume: Ratio{A: unit.Taken[unit.Number]{Value: 2, Written: "2"}, B: unit.Taken[unit.Number]{Value: 1, Written: "1"}},
			WorkingTime:  Figure[unit.Span]{Taken: unit.Taken[unit.Span]{Value: 2400, Written: "40 min"}, At: unit.Taken[unit.Temperature]{Value: unit.Celsius(25), Written: "25 °C"}},
			WorkingOther: Figure[unit.Span]{Taken: unit.Taken[unit.Span]{Value: 4800, Written: "80 min"}, At: warm(15)},
			Class:        ClassFast, Heat: Figure[unit.SpecificEnergy]{Taken: unit.Taken[unit.SpecificEnergy]{Value: 3e5, Written: "300 J/g"}},
			Peak: Figure[unit.Temperature]{Taken: warm(150), Mass: unit.Taken[unit.Mass]{Value: 0.2, Written: "200 g"}},
		}},
		Layers: []Layer{{
			ID: "l1", Name: "First", By: ToDepth, To: dim(12, "12 mm"), Sheet: "s1", Lot: "A-17/3",
			Tint:      Tint{Name: "sea", Colour: "#1b6f8a", Clear: 0.4, Share: share},
			Additives: []Additive{{ID: "a1", Name: "mica", Share: share}},
		}},
		Shop: Shop{Night: warm(15), Resin: warm(21), Bench: BenchOpen, Planned: at, Wakes: "06:30", Sleeps: "22:30"},
		Journal: []Entry{
			{ID: "e1", At: at, Kind: EntryNote, Text: "cold room"}, {ID: "e2", At: at, Kind: EntryReading, Layer: "l1", Room: warm(14), Part: warm(24)},
			{ID: "e3", At: at, Kind: EntryTack, Layer: "l1", Feel: FeelTape}, {ID: "e4", At: at, Kind: EntryProbe, Layer: "l1", Part: warm(41)}, {ID: "e5", At: at, Kind: EntryDemolded, Feel: FeelStiff},
		},
		Drafts: []Draft{{Field: "mold/depth", Text: "4o", Reason: "“4o” is not a length"}},
	}
}

func exported(t testing.TB, p Project) []byte {
	t.Helper()
	data, err := Export(p)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestExportImport(t *testing.T) {
	want := travelled()
	data := exported(t, want)
	got, err := Import(data)
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("back: %v\n%+v\nwant\n%+v", err, got, want)
	}
	if !bytes.Equal(exported(t, got), data) {
		t.Error("the same project gave other bytes")
	}
	got, err = Import(append([]byte("\uFEFF"), data...))
	if err != nil || got.ID != want.ID {
		t.Errorf("with a byte order mark: %v", err)
	}
}

func TestExportIsReadable(t *testing.T) {
	text := string(exported(t, travelled()))
	for _, want := range []string{
		"{\n  \"format\": \"meniscus-project\",\n  \"version\": 1,\n  \"project\": {\n    \"id\": \"board\",\n",
		"        \"outline\": [\n          [0, 0],\n          [0.1, 0.001],\n          [0.05, 0.08]\n        ],\n",
		`"name": "Über <b> & “board”"`,
		`"note": "two\nlines \\ and a tab\t"`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

func TestExportRefusesWhatIsNotFinite(t *testing.T) {
	p := travelled()
	p.Pieces[0].X = unit.Length(math.Inf(1))
	if _, err := Export(p); err == nil {
		t.Error("infinity was written")
	}
}

// changed replaces text in a good file, once.
func changed(t *testing.T, old, new string) []byte {
	t.Helper()
	data := exported(t, travelled())
	if !bytes.Contains(data, []byte(old)) {
		t.Fatalf("no %q in the file", old)
	}
	return bytes.Replace(data, []byte(old), []byte(new), 1)
}

func TestImportRefusals(t *testing.T) {
	cases := []struct {
		name, old, new string
		field, reason  string
	}{
		{"a newer version", `"version": 1`, `"version": 2`, "version", "version 2 and this program knows versions up to 1"},
		{"no version", `"version": 1,`, ``, "version", "whole number"},
		{"version as text", `"version": 1`, `"version": "1"`, "version", "whole number"},
		{"another format", "meniscus-project", "something", "format", "another kind of file"},
		{"an unknown field", `"thickness": {`, `"thicknes": 1, "thickness": {`, "pieces/p1/thicknes", "no such field"},
		{"a field in other letters", `"thickness"`, `"Thickness"`, "pieces/p1/Thickness", "no such field"},
		{"a field beside the project", `"version": 1`, `"version": 1, "more": 1`, "more", "no such field"},
		{"a field twice", `"serial": 9`, `"serial": 9, "serial": 9`, "serial", "twice"},
		{"a key of a map twice", `"tape": 0.0005`, `"tape": 0.0005, "tape": 0.0005`, "instruments/tape", "twice"},
		{"an unknown key of a map", `"tape": 0.0005`, `"string": 0.0005`, "instruments/string", "is not one of: tape"},
		{"a missing field", `"serial": 9,`, ``, "serial", "missing"},
		{"a missing value", `"value": 0.012,`, ``, "pieces/p1/voids/v1/diameter/value", "missing"},
		{"null", `"serial": 9`, `"serial": null`, "serial", "whole number"},
		{"a fraction for a whole number", `"serial": 9`, `"serial": 9.5`, "serial", "whole number"},
		{"a huge whole number", `"serial": 9`, `"serial": 99999999999999999999`, "serial", "whole number"},
		{"text for a number", `"x": -0.01`, `"x": "-0.01"`, "pieces/p1/x", "a number, in SI units"},
		{"a number as NaN", `"x": -0.01`, `"x": NaN`, "", "not whole JSON"},
		{"a number too large", `"x": -0.01`, `"x": 1e999`, "pieces/p1/x", "too large"},
		{"a number out of range", `"x": -0.01`, `"x": 1e6`, "pieces/p1/x", "20 m"},
		{"a point of three numbers", `[0.1, 0.001]`, `[0.1, 0.001, 0]`, "pieces/p1/outline/1", "point"},
		{"a point of one number", `[0.1, 0.001]`, `[0.1]`, "pieces/p1/outline/1", "point"},
		{"a point too far", `[0.1, 0.001]`, `[0.1, 1e400]`, "pieces/p1/outline/1", "too large"},
		{"a list for an object", `"thickness": {`, `"thickness": [{`, "", "not whole JSON"},
		{"text for a list", `"stations": [`, `"stations": "40", "voids": [`, "pieces/p2/stations", "list"},
		{"an unknown word", `"kind": "sphere"`, `"kind": "cube"`, "inserts/i1/kind", "“cube” is not one of"},
		{"a dangling layer", `"layer": "l1"`, `"layer": "l7"`, "inserts/i1/layer", "there is no layer"},
		{"an ID twice", `"id": "p2"`, `"id": "p1"`, "pieces/1/id", "twice"},
		{"a wrong instant", `"at": "2026-11-25`, `"at": "2026-11-35`, "journal/e1/at", "instant"},
		{"the year 9999", `"at": "2026`, `"at": "9999`, "journal/e1/at", "year"},
		{"true for text", `"demo": true`, `"demo": "true"`, "demo", "true or false"},
		{"half a character", `"name": "Slab"`, `"name": "\ud83d"`, "", "half a character"},
		{"the other half", `"name": "Slab"`, `"name": "\ude00\ud83d"`, "", "half a character"},
		{"bytes that are no UTF-8", `"name": "Slab"`, "\"name\": \"Sl\xffab\"", "", "UTF-8"},
		{"something behind it", "\n}\n", "\n}\n{}", "", "not whole JSON"},
		{"cut off", "\n}\n", "\n", "", "not whole JSON"},
		{"a control character", `"name": "Slab"`, "\"name\": \"Sl\x01ab\"", "", "not whole JSON"},
	}
	for _, c := range cases {
		p, err := Import(changed(t, c.old, c.new))
		var refused *ImportError
		if !errors.As(err, &refused) || refused.Field != c.field || !strings.Contains(refused.Reason, c.reason) {
			t.Errorf("%s: %v; want %q: %q", c.name, err, c.field, c.reason)
		}
		if !reflect.DeepEqual(p, Project{}) {
			t.Errorf("%s: something came back", c.name)
		}
	}
}

func TestImportTakesWholeCharacters(t *testing.T) {
	p, err := Import(changed(t, `"name": "Slab"`, `"name": "\ud83d\ude00 \\ud83d \u00e9"`))
	if err != nil || p.Pieces[0].Name != "😀 \\ud83d é" {
		t.Errorf("%q, %v", p.Pieces[0].Name, err)
	}
}

func TestImportLimits(t *testing.T) {
	points := strings.Repeat("[0,0],", mostPoints)
	cases := []struct {
		name, reason string
		data         []byte
	}{
		{"33 MB", "larger than 32 MB", bytes.Repeat([]byte(" "), 33<<20)},
		{"deep lists", "nested", bytes.Repeat([]byte("["), 10_001)},
		{"deep objects", "nested", bytes.Repeat([]byte(`{"project":`), 10_001)},
		{"deep within a field", "nested", changed(t, `"x": -0.01`, `"x": `+strings.Repeat("[", 100)+strings.Repeat("]", 100))},
		{"too many points", "50000 points", changed(t, "[0, 0]", points+"[0,0]")},
		{"too many items", "10000 items", changed(t, `"drafts": [`, `"drafts": [`+strings.Repeat(`{"field":"","text":"","reason":""},`, mostItems))},
		{"too many stations", "10000 items", changed(t, `"stations": [`, `"stations": [`+strings.Repeat(`{"value":1},`, mostItems))},
		{"nothing", "not whole JSON", nil},
		{"a number", "one object", []byte("1")},
		{"a list", "one object", []byte("[]")},
		{"UTF-16", "UTF-8", []byte("\xff\xfe{\x00}\x00")},
	}
	for _, c := range cases {
		if _, err := Import(c.data); err == nil || !strings.Contains(err.Error(), c.reason) {
			t.Errorf("%s: %.200v", c.name, err)
		}
	}
}

// Each file of testdata/hostile has beside it what is said about it.
func TestHostileFiles(t *testing.T) {
	files, err := filepath.Glob("../testdata/hostile/*.json")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		said, err := os.ReadFile(strings.TrimSuffix(file, ".json") + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		field, reason, _ := strings.Cut(strings.TrimSpace(string(said)), ": ")
		_, err = Import(data)
		var refused *ImportError
		if !errors.As(err, &refused) || refused.Field != field || !strings.Contains(refused.Reason, reason) {
			t.Errorf("%s: %v; want %q: %q", filepath.Base(file), err, field, reason)
		}
	}
}

func FuzzImport(f *testing.F) {
	f.Add(exported(f, travelled()))
	f.Add(exported(f, Project{ID: "a"}))
	files, err := filepath.Glob("../testdata/hostile/*.json")
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := Import(data)
		if err != nil {
			var refused *ImportError
			if !errors.As(err, &refused) || refused.Reason == "" {
				t.Fatalf("an error without words: %v", err)
			}
			return
		}
		again := exported(t, p)
		q, err := Import(again)
		if err != nil {
			t.Fatalf("what was taken once is refused: %v\n%s", err, again)
		}
		if !bytes.Equal(exported(t, q), again) {
			t.Fatalf("it changed on the way:\n%s\n%s", again, exported(t, q))
		}
	})
}

func BenchmarkImport(b *testing.B) {
	p := travelled()
	for i := range 10_000 {
		a := float64(i) / 10_000 * 2 * math.Pi
		p.Pieces[0].Outline = append(p.Pieces[0].Outline, shape.Point{X: math.Cos(a), Y: math.Sin(a)})
	}
	p.Pieces[0].Outline = p.Pieces[0].Outline[3:]
	data := exported(b, p)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := Import(data); err != nil {
			b.Fatal(err)
		}
	}
}
