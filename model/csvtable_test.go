package model

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestTablesOfADemo: the figures of the tables are those of the plan, by the
// unit that the head of their column names.
func TestTablesOfADemo(t *testing.T) {
	p := demo(t, "hall-shelf")
	p.Journal = append(p.Journal,
		Entry{ID: "e1", At: time.Date(2026, 11, 25, 9, 30, 0, 0, time.UTC), Kind: EntryReading, Layer: p.Layers[0].ID, Room: unit.Taken[unit.Temperature]{Value: 294.65}, Text: "=HYPERLINK(1)"},
		Entry{ID: "e2", At: time.Date(2026, 11, 25, 9, 31, 0, 0, time.UTC), Kind: EntryWithdrawn, Of: "e1"})
	pl := Make(p)
	read := func(kind string) map[string][]string {
		table, err := TableOf(kind, &p, &pl)
		if err != nil {
			t.Fatal(err)
		}
		data, err := table.CSV()
		if err != nil {
			t.Fatal(err)
		}
		if bytes.Count(data, []byte("\n")) != bytes.Count(data, []byte("\r\n")) || !utf8.Valid(data) {
			t.Errorf("%s: lines do not end as RFC 4180 has it, or it is no UTF-8", kind)
		}
		rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
		if err != nil || len(rows) != len(table.Rows)+1 {
			t.Fatalf("%s: %d rows, %v", kind, len(rows), err)
		}
		columns := map[string][]string{}
		for i, head := range rows[0] {
			for _, row := range rows[1:] {
				columns[head] = append(columns[head], row[i])
			}
		}
		return columns
	}
	layers := read("layers")
	for i, l := range pl.Layers {
		for head, want := range map[string]float64{"top (mm)": l.Top.Millimetres(), "to mix (g)": l.Mix.Total.Grams(), "part A (g)": l.Mix.A.Grams(), "part B (g)": l.Mix.B.Grams(), "resin in the mold (ml)": l.Volume.Millilitres()} {
			if got, err := strconv.ParseFloat(layers[head][i], 64); err != nil || got-want > 0.051 || want-got > 0.051 {
				t.Errorf("layer %d, %s: %q, want %g", i, head, layers[head][i], want)
			}
		}
	}
	book := read("journal")
	last := len(book["time (UTC)"]) - 1
	for head, want := range map[string]string{"time (UTC)": "2026-11-25T09:30:00Z", "room (°C)": "21.5", "resin (°C)": "", "words": "'=HYPERLINK(1)", "layer": p.Layers[0].Name, "taken back": "yes"} {
		if got := book[head][last]; got != want {
			t.Errorf("journal, %s: %q, want %q", head, got, want)
		}
	}
	stations := 0
	for _, w := range p.Pieces {
		stations += len(w.Stations) + len(w.Top.Stations)
	}
	if got := read("stations"); len(got["width (mm)"]) != stations {
		t.Errorf("%d stations, want %d", len(got["width (mm)"]), stations)
	}
	if _, err := TableOf("else", &p, &pl); err == nil || !strings.Contains(err.Error(), "stations") {
		t.Errorf("a table that there is not: %v", err)
	}
}

// TestNoCellIsAFormula: whatever the maker typed comes back from the file as it
// was, or with an apostrophe before it, and never begins like a formula.
func TestNoCellIsAFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		typed := rapid.OneOf(rapid.String(), rapid.StringMatching(`[ \t]?[=+@-][A-Z0-9"',;()]*`)).Draw(t, "text")
		cell := cellText(typed)
		if cell != typed && cell != "'"+typed {
			t.Fatalf("%q became %q", typed, cell)
		}
		if start := strings.TrimSpace(cell); start != "" && strings.ContainsAny(start[:1], "=+-@") {
			t.Fatalf("%q begins like a formula", cell)
		}
		if strings.Contains(typed, "\r") { // a reader takes the two signs of a line's end for one
			return
		}
		data, err := Table{Head: []string{"a", "b"}, Rows: [][]string{{cell, "x"}}}.CSV()
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
		if err != nil || len(rows) != 2 || rows[1][0] != cell {
			t.Fatalf("%q came back as %q, %v", cell, rows, err)
		}
	})
}

func TestCellFigures(t *testing.T) {
	for x, want := range map[float64]string{0: "0", -0.001: "0", 12.5: "12.5", 1e6: "1000000", 3.14159: "3.14", -2: "-2"} {
		if got := cellFigure(x, 2); got != want {
			t.Errorf("%g: %q, want %q", x, got, want)
		}
	}
}
