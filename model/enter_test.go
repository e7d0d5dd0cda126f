package model

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

func TestEnter(t *testing.T) {
	p := demo(t, "poppy-stand")
	p.Style = unit.Style{Lengths: unit.InInches}
	for _, c := range []struct{ field, text, written string }{
		{"mold/depth", "10 3/8", "10 3/8 in"},
		{"mold/depth", "263,5 mm", "10 3/8 in"}, // shown in the project's units; the value stays
		{"mold/sides", "8", "8"},
		{"mold/across", "corners", "corners"},
		{"pieces/p1/sealed", "yes", "yes"},
		{"pieces/p1/weight", "648", "648 g"},
		{"pieces/p1/x", "1/2", "1/2 in"},
		{"pieces/p1/turn", "15", "15°"},
		{"sheets/s2/workingTime", "2.4", "2.4 h"},
		{"sheets/s2/workingTime/at", "72 °F", "72 °F"},
		{"sheets/s2/densityA", "1130", "1130 kg/m³"},
		{"sheets/s2/weightRatio/b", "45", "45"},
		{"shop/humidity", "55", "55 %"},
		{"layers/l3/tint/share", "1.5", "1.5 %"},
		{"mold/floor", "aluminium", "aluminium"},
		{"mold/thick", "3/8", "3/8 in"},
		{"shop/night", "59 °F", "59 °F"},
		{"shop/resin", "22", "22 °C"},
		{"shop/wood", "66 °F", "66 °F"},
		{"shop/bench", "metal bench", "metal bench"},
		{"shop/zone", "UTC", "UTC"},
		{"shop/planned", "Fri 27 Nov 18:40", "Fri 27 Nov 2026, 18:40"},
		{"shop/planned", "", ""},
		{"shop/wakes", "6:30", "06:30"},
		{"shop/sleeps", "10.30 pm", "22:30"},
		{"shop/sleeps", "", ""},
		{"layers/l3/lot", "A-17/3", "A-17/3"},
		{"sheets/s2/class", "slow amine", "slow amine"},
		{"sheets/s2/heat", "300", "300 J/g"},
		{"sheets/s2/heat", "0.3 kJ/g", "0.3 kJ/g"},
		{"sheets/s2/peak", "150", "150 °C"},
		{"sheets/s2/peak/mass", "200", "200 g"},
		{"sheets/s2/peakLimit", "60", "60 °C"},
		{"sheets/s2/workingOther", "4.5", "4.5 h"},
		{"sheets/s2/workingOther/at", "15", "15 °C"},
		{"sheets/s2/gelOther", "40", "40 h"},
		{"sheets/s2/gelOther/mass", "100", "100 g"},
		{"name", "A table", "A table"},
		{"mold/depth", "", ""},
	} {
		if err := Enter(&p, c.field, c.text); err != nil {
			t.Errorf("%s = %q: %v", c.field, c.text, err)
			continue
		}
		if got, _ := Show(&p, c.field); got != c.written {
			t.Errorf("%s = %q shows %q, want %q", c.field, c.text, got, c.written)
		}
	}
}

// TestRefusedEntry: what cannot be taken says why in words and leaves the old
// value standing.
func TestRefusedEntry(t *testing.T) {
	for _, c := range []struct{ field, text, says string }{
		{"mold/depth", "0", "more than nothing"},
		{"mold/depth", "-4 mm", "more than nothing"},
		{"mold/depth", "1e9", ""},
		{"mold/depth", "forty", ""},
		{"mold/depth", "10 3/", ""},
		{"mold/span", "40 m", "at most 20 m"},
		{"mold/sides", "2", "3 to 24"},
		{"mold/sides", "many", "whole number"},
		{"mold/kind", "kidney", "not one of"},
		{"pieces/p1/sealed", "perhaps", "yes or no"},
		{"pieces/p1/traceError", "140 %", "0 to 100"},
		{"shop/room", "72 °C", "-20 to 60"},
		{"sheets/s2/weightRatio/a", "0", "more than 0"},
		{"sheets/s2/densityA", "0.01 g/ml", "0.05"},
		{"mixing/confidence", "20 %", "50 to 99.9"},
		{"pieces/p77/thickness", "4 mm", "no such field"},
		{"layers/l3/tint/colour", "moss green", "#"},
		{"layers/l3/tint/colour", "#12345", "#"},
		{"mold/floor", "concrete", "not one of"},
		{"mold/thick", "0", "0.1 to 500 mm"},
		{"shop/bench", "floor", "not one of"},
		{"shop/night", "70 °C", "-20 to 60"},
		{"shop/resin", "65 °C", "-20 to 60"},
		{"shop/planned", "tomorrow", "Fri 27 Nov 18:40"},
		{"shop/planned", "Thu 27 Nov 2026 18:40", "is a Friday"},
		{"shop/wakes", "early", "7:30"},
		{"shop/sleeps", "25:00", "7:30"},
		{"created", "2026-11-27 18:40", "cannot be typed"},
		{"sheets/s2/class", "quick", "not one of"},
		{"sheets/s2/heat", "2 J/g", "50 to 600"},
		{"sheets/s2/heat", "90 kJ/mol", "heat per mass"},
		{"sheets/s2/peak", "400 °C", "10 to 300"},
		{"sheets/s2/peakLimit", "250 °C", "10 to 200"},
		{"name", strings.Repeat("a", 3000), "2000"},
	} {
		p := demo(t, "poppy-stand")
		was, _ := json.Marshal(p)
		err := Enter(&p, c.field, c.text)
		var problem *Problem
		if !errors.As(err, &problem) || problem.Field != c.field || !strings.Contains(problem.Message, c.says) {
			t.Errorf("%s = %q: %v, want a problem that says %q", c.field, c.text, err, c.says)
		}
		if now, _ := json.Marshal(p); string(now) != string(was) {
			t.Errorf("%s = %q changed the project", c.field, c.text)
		}
	}
}

// TestUnitsDoNotDrift switches units 1,000 times: no value and nothing written
// changes.
func TestUnitsDoNotDrift(t *testing.T) {
	p := demo(t, "poppy-stand")
	if err := Enter(&p, "mold/depth", "1 9/16 in"); err != nil {
		t.Fatal(err)
	}
	value := p.Mold.Depth.Value
	for i := range 1000 {
		p.Style.Lengths = []unit.LengthUnit{unit.InMillimetres, unit.InInches, unit.InCentimetres}[i%3]
		text, _ := Show(&p, "mold/depth")
		// What is shown is entered again, as leaving a field does.
		if shown, _ := Show(&p, "mold/depth"); shown != text {
			t.Fatal("what is shown is not what was shown")
		}
	}
	p.Style.Lengths = unit.InInches
	if text, echo := Show(&p, "mold/depth"); text != "1 9/16 in" || p.Mold.Depth.Value != value || echo != "39.7 mm" {
		t.Errorf("after 1,000 switches: %q %q %v", text, echo, p.Mold.Depth.Value)
	}
	p.Style.Lengths = unit.InMillimetres
	if text, echo := Show(&p, "mold/depth"); text != "39.7 mm" || echo != "written 1 9/16 in" {
		t.Errorf("in mm it shows %q, %q", text, echo)
	}
}

// TestEverythingEnteredIsValid: a document that only took entries never has a
// problem, and planning it never fails.
func TestEverythingEnteredIsValid(t *testing.T) {
	texts := []string{"", "0", "1", "3", "12", "10 3/8", "-5", "1e400", "½", "40 mm", "2 in", "100 %", "45", "21 °C", "2 h", "yes", "no", "rim", "floor", "polygon", "round", "oval", "outline", "rectangle", "angle", "sizes", "stations", "sphere", "ring", "layer", "level", "depth", "1000000", "0.000001", "9 kg", "∞", "6:30", "22:30", "Fri 27 Nov 18:40", "2026-11-27 18:40", "290 J/g", "HDPE", "slow amine", "wooden bench", "150 °C"}
	var fields []string
	p := demo(t, "poppy-stand")
	collect(t, &p, &fields)
	if len(fields) < 80 {
		t.Fatalf("only %d fields found", len(fields))
	}
	rapid.Check(t, func(t *rapid.T) {
		p := p.Clone()
		for range 12 {
			field := rapid.SampledFrom(fields).Draw(t, "field")
			text := rapid.OneOf(rapid.SampledFrom(texts), rapid.StringN(0, 12, 30)).Draw(t, "text")
			if field == "id" || strings.HasSuffix(field, "/id") {
				continue
			}
			_ = Enter(&p, field, text)
		}
		for _, x := range p.Validate() {
			if !strings.HasSuffix(x.Field, "/sheet") && !strings.HasSuffix(x.Field, "/layer") { // words that name another item
				t.Fatalf("after entries only: %v", x)
			}
		}
		data, err := json.Marshal(Make(p))
		if err != nil {
			t.Fatalf("the plan is no JSON: %v", err)
		}
		if strings.Contains(string(data), "NaN") || strings.Contains(string(data), "Inf") {
			t.Fatal("the plan holds what is not a number")
		}
	})
}

// collect lists the paths of all fields of a project that can be entered.
func collect(t *testing.T, p *Project, out *[]string) {
	t.Helper()
	data, _ := json.Marshal(p)
	var tree any
	if err := json.Unmarshal(data, &tree); err != nil {
		t.Fatal(err)
	}
	for _, extra := range []string{"mold/length", "mold/width", "mold/diameter", "mold/draft/angle", "mold/draft/length", "mold/fillTest/water", "mold/count", "shop/room", "finish/top", "cut", "mixing/confidence", "pieces/p1/height", "pieces/p1/density", "inserts/i5/on", "inserts/i5/kind", "sheets/s2/viscosity", "sheets/s2/activation",
		"mold/floor", "mold/thick", "shop/night", "shop/resin", "shop/wood", "shop/bench", "shop/planned", "shop/wakes", "shop/sleeps", "layers/l3/lot", "sheets/s2/class", "sheets/s2/heat", "sheets/s2/peak", "sheets/s2/peak/at", "sheets/s2/peak/mass", "sheets/s2/peakLimit", "sheets/s2/workingOther", "sheets/s2/workingOther/at", "sheets/s2/gelOther"} {
		*out = append(*out, extra)
	}
	var walk func(path string, v any)
	walk = func(path string, v any) {
		switch v := v.(type) {
		case map[string]any:
			if _, is := v["value"]; is {
				*out = append(*out, path)
			}
			for k, x := range v {
				if k != "value" && k != "written" && k != "by" {
					walk(join(path, k), x)
				}
			}
		case []any:
			for i, x := range v {
				name := itoa(i)
				if m, ok := x.(map[string]any); ok {
					if id, ok := m["id"].(string); ok {
						name = id
					}
				}
				walk(path+"/"+name, x)
			}
		default:
			*out = append(*out, path)
		}
	}
	walk("", tree)
}

func FuzzEnter(f *testing.F) {
	f.Add("mold/depth", "10 3/8")
	f.Add("shop/planned", "fri 27 nov 18:40")
	f.Add("shop/planned", "2026-13-40T99:00")
	f.Add("shop/wakes", "7 pm")
	f.Add("sheets/s2/heat", "290 J/g")
	f.Add("pieces/p1/outline/0", "3")
	f.Add("sheets/s2/weightRatio/a", "1:2")
	f.Add("layers//to", "½")
	f.Add("instruments/rule", "1")
	base := demo(f, "poppy-stand")
	f.Fuzz(func(t *testing.T, field, text string) {
		p := base.Clone()
		_ = Enter(&p, field, text)
		Show(&p, field)
		Nudge(&p, field, true)
		_ = p.Remove(field)
		Make(p)
	})
}
