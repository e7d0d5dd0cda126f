package cure

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"meniscus/model/unit"
)

// book is testdata/cure/problems.json: castings in plain SI that reference.py
// and cvode.c solve as well.
type book struct {
	Seed     float64
	Limit    float64
	Kinetics map[string]struct {
		A1, E1, A2, E2, M, N, Heat, Gel     float64
		Liquid, Full, Lambda, Steep, Margin float64
	}
	Matter map[string]struct{ Density, Heat, Conductivity float64 }
	Slabs  []struct {
		Name                string
		Until, Below, Above float64
		Room                bookRoom
		Strata              []struct {
			Matter, Cure          string
			Thickness, From, Done float64
			Cells                 int
		}
	}
	Sections []struct {
		Name                             string
		Until, Below, Above, Left, Right float64
		Room                             bookRoom
		Columns                          []struct {
			Width float64
			Cells int
		}
		Rows []struct {
			Height float64
			Cells  int
		}
		Fill            [][]string
		Cure            string
		ResinFrom, From float64
	}
	Edges []struct {
		Slab        string
		Depth, Room [2]float64
	}
}

type bookRoom struct {
	Mean, Swing, Warmest float64
	Log                  [][2]float64
}

func (r bookRoom) room() Room {
	room := Room{Mean: unit.Temperature(r.Mean), Swing: unit.TempRise(r.Swing), Warmest: unit.Span(r.Warmest)}
	for _, x := range r.Log {
		room.Log = append(room.Log, Reading{unit.Span(x[0]), unit.Temperature(x[1])})
	}
	return room
}

// readData reads a file of testdata/cure into v.
func readData(t testing.TB, name string, v any) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "cure", name))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, v); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

func readBook(t testing.TB) *book {
	t.Helper()
	b := new(book)
	readData(t, "problems.json", b)
	if b.Seed != Seed || b.Limit != defaultLimit {
		t.Fatalf("the book has seed %g and limit %g", b.Seed, b.Limit)
	}
	return b
}

func (b *book) matter(t testing.TB, name string) Matter {
	m, ok := b.Matter[name]
	if !ok {
		t.Fatalf("no matter %q", name)
	}
	return Matter{name, unit.Density(m.Density), unit.SpecificHeat(m.Heat), unit.Conductivity(m.Conductivity), ""}
}

func (b *book) kinetics(t testing.TB, name string) *Kinetics {
	k, ok := b.Kinetics[name]
	if !ok {
		t.Fatalf("no kinetics %q", name)
	}
	return &Kinetics{
		Name: name, A1: k.A1, E1: unit.MolarEnergy(k.E1), A2: k.A2, E2: unit.MolarEnergy(k.E2), M: k.M, N: k.N,
		Heat: unit.SpecificEnergy(k.Heat), Gel: k.Gel,
		Glass: Glass{unit.Temperature(k.Liquid), unit.Temperature(k.Full), k.Lambda},
		Steep: k.Steep, Margin: unit.TempRise(k.Margin),
	}
}

// slab gives the slab of a name and how long it is left to itself.
func (b *book) slab(t testing.TB, name string) (*Slab, unit.Span) {
	t.Helper()
	for _, p := range b.Slabs {
		if p.Name != name {
			continue
		}
		s := &Slab{Below: unit.FilmCoefficient(p.Below), Above: unit.FilmCoefficient(p.Above), Room: p.Room.room()}
		for _, x := range p.Strata {
			st := Stratum{Matter: b.matter(t, x.Matter), Thickness: unit.Length(x.Thickness), Cells: x.Cells, From: unit.Temperature(x.From), Done: x.Done}
			if x.Cure != "" {
				st.Cure = b.kinetics(t, x.Cure)
			}
			s.Strata = append(s.Strata, st)
		}
		return s, unit.Span(p.Until)
	}
	t.Fatalf("no slab %q", name)
	return nil, 0
}

// section gives the section of a name and how long it is left to itself.
func (b *book) section(t testing.TB, name string) (*Section, unit.Span) {
	t.Helper()
	for _, p := range b.Sections {
		if p.Name != name {
			continue
		}
		s := &Section{
			Below: unit.FilmCoefficient(p.Below), Above: unit.FilmCoefficient(p.Above),
			Left: unit.FilmCoefficient(p.Left), Right: unit.FilmCoefficient(p.Right), Room: p.Room.room(),
		}
		for _, x := range p.Columns {
			s.Columns = append(s.Columns, Strip{unit.Length(x.Width), x.Cells})
		}
		for i, x := range p.Rows {
			s.Rows = append(s.Rows, Strip{unit.Length(x.Height), x.Cells})
			var row []Block
			for _, name := range p.Fill[i] {
				block := Block{Matter: b.matter(t, name), From: unit.Temperature(p.From)}
				if name == "resin" {
					block.Cure, block.From = b.kinetics(t, p.Cure), unit.Temperature(p.ResinFrom)
				}
				row = append(row, block)
			}
			s.Blocks = append(s.Blocks, row)
		}
		return s, unit.Span(p.Until)
	}
	t.Fatalf("no section %q", name)
	return nil, 0
}
