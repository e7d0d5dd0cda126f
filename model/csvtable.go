package model

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"time"

	"meniscus/model/unit"
)

// Table is one table of a project, to be reckoned with elsewhere.
type Table struct {
	Head []string // with the unit of each column's figures
	Rows [][]string
}

// TableKinds are the tables that a project has, by the names they are asked for.
var TableKinds = []string{"layers", "journal", "stations"}

// TableOf gives a table of a project and its plan: its layers with what to mix,
// its journal, or the widths that were measured at the stations. Figures are in
// millimetres, grams, millilitres and degrees Celsius whatever the maker's own
// units, with a point before the decimals; times are UTC (RFC 3339).
func TableOf(kind string, p *Project, pl *Plan) (Table, error) {
	switch kind {
	case "layers":
		return layerTable(pl), nil
	case "journal":
		return journalTable(p, pl), nil
	case "stations":
		return stationTable(p), nil
	}
	return Table{}, fmt.Errorf("there is no table “%s”: ask for %s", kind, strings.Join(TableKinds, ", "))
}

func layerTable(pl *Plan) Table {
	t := Table{Head: []string{
		"layer", "data sheet", "bottom (mm)", "top (mm)", "resin in the mold (ml)", "mass it takes (g)", "at least, 5 % (g)", "at most, 95 % (g)",
		"to mix (g)", "part A (g)", "part B (g)", "B to 100 of A by weight", "tint (g)", "state",
	}}
	for i := range pl.Layers {
		l := &pl.Layers[i]
		row := []string{cellText(l.Name), cellText(l.SheetName), cellMM(l.Bottom), cellMM(l.Top), cellML(l.Volume), cellGrams(l.Mass.Value), cellGrams(l.Mass.Low), cellGrams(l.Mass.High)}
		if m := &l.Mix; m.Ready {
			row = append(row, cellGrams(m.Total), cellGrams(m.A), cellGrams(m.B), cellFigure(m.Parts, 2), cellGrams(m.Tint))
		} else {
			row = append(row, "", "", "", "", "")
		}
		t.Rows = append(t.Rows, append(row, cellText(string(l.Status))))
	}
	return t
}

func journalTable(p *Project, pl *Plan) Table {
	t := Table{Head: []string{"time (UTC)", "what", "layer", "insert", "words", "room (°C)", "resin (°C)", "scale (g)", "empty cup (g)", "feel", "photo", "taken back"}}
	back := map[string]bool{}
	for _, e := range p.Journal {
		if e.Kind == EntryWithdrawn {
			back[e.Of] = true
		}
	}
	for _, e := range p.Journal {
		if e.Kind == EntryWithdrawn {
			continue
		}
		layer, insert, gone := "", "", "no"
		if l := pl.Layer(e.Layer); l != nil {
			layer = l.Name
		}
		if s := p.Insert(e.Insert); s != nil {
			insert = s.Name
		}
		if back[e.ID] {
			gone = "yes"
		}
		t.Rows = append(t.Rows, []string{
			e.At.UTC().Format(time.RFC3339), cellText(string(e.Kind)), cellText(layer), cellText(insert), cellText(e.Text),
			cellOf(e.Room, cellCelsius), cellOf(e.Part, cellCelsius), cellOf(e.Gross, cellGrams), cellOf(e.Cup, cellGrams), cellText(string(e.Feel)), cellText(e.Photo), gone,
		})
	}
	return t
}

func stationTable(p *Project) Table {
	t := Table{Head: []string{"piece", "face", "station", "width (mm)"}}
	add := func(piece, face string, list []unit.Dim) {
		for i, d := range list {
			t.Rows = append(t.Rows, []string{cellText(piece), cellText(face), strconv.Itoa(i + 1), cellOf(d, cellMM)})
		}
	}
	for i := range p.Pieces {
		w := &p.Pieces[i]
		add(w.Name, "under", w.Stations)
		add(w.Name, "upper", w.Top.Stations)
	}
	return t
}

// CSV writes the table as RFC 4180 has it, in UTF-8.
func (t Table) CSV() ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	if err := w.Write(t.Head); err != nil {
		return nil, err
	}
	if err := w.WriteAll(t.Rows); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// cellText makes text that somebody typed fit for a cell: a spreadsheet would take
// what begins with one of these signs for a formula and work it out (common
// practice: an apostrophe before it, which spreadsheets do not show).
func cellText(text string) string {
	if strings.HasPrefix(text, "\t") || strings.HasPrefix(text, "\r") || strings.HasPrefix(text, "\n") || strings.ContainsAny(cellStart(strings.TrimSpace(text)), "=+-@＝＋－＠") {
		return "'" + text
	}
	return text
}

// cellStart is the first character of a text; "" where it has none.
func cellStart(text string) string {
	for _, r := range text {
		return string(r)
	}
	return ""
}

// cellFigure writes a number with a point and no more decimals than places.
func cellFigure(x float64, places int) string {
	text := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}

func cellMM(l unit.Length) string           { return cellFigure(l.Millimetres(), 2) }
func cellML(v unit.Volume) string           { return cellFigure(v.Millilitres(), 1) }
func cellGrams(m unit.Mass) string          { return cellFigure(m.Grams(), 2) }
func cellCelsius(t unit.Temperature) string { return cellFigure(t.Celsius(), 1) }

// cellOf writes a figure that the maker may not have given.
func cellOf[Q unit.Quantity](q unit.Taken[Q], write func(Q) string) string {
	if !q.Given() {
		return ""
	}
	return write(q.Value)
}
