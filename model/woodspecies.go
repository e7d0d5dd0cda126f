package model

import (
	"slices"
	"strings"

	"meniscus/model/unit"
)

// PoreKind is how open the face of a wood is, which decides whether it blows
// bubbles and drinks resin unless it is sealed.
type PoreKind string

// How open wood is.
const (
	PoresOpen  PoreKind = "open pores"
	PoresFine  PoreKind = "fine pores"
	PoresPunky PoreKind = "punky or spalted"
)

// Columns names figures of a row of the table of species.
type Columns uint8

// The figures of a row.
const (
	ColumnRadial Columns = 1 << iota
	ColumnTangential
	ColumnVolumetric
	ColumnGreen
	ColumnDry
	ColumnRates // both changes to a point

	columnsShrink = ColumnRadial | ColumnTangential | ColumnVolumetric
	columnsAll    = columnsShrink | ColumnGreen | ColumnDry | ColumnRates
)

// Species is one kind of wood with the handbook's figures for it (Forest
// Products Laboratory, Wood Handbook, FPL-GTR-282: shrinkage from table 4-3,
// specific gravity from table 5-3, change to a point from table 13-5). They are
// means of many trees.
type Species struct {
	Name string   // as the trade says it
	Also []string // further names that mean just this wood
	Near []string // names that can mean it, or one much like it

	Radial, Tangential, Volumetric unit.Share  // shrinkage from green to oven-dry, of the green size
	Green, Dry                     unit.Number // specific gravity on oven-dry mass: green volume, volume at 12 %; 0 is not given
	RadialRate, TangentialRate     float64     // change of size to a point of moisture, from 6 to 14 %; 0 is not given

	Pores  PoreKind
	Oily   bool    // its oil or resin keeps casting resin from bonding
	Memory Columns // figures that are a value from memory
}

// SpeciesList gives all kinds of wood that the table holds, by name.
func SpeciesList() []Species { return slices.Clone(speciesTable) }

// SpeciesOf looks up the wood that a maker's words mean: in any case, in the
// singular or plural, with words such as board or slab beside them. Near tells
// that the words can mean another wood than the one found. False where no wood
// of the table is meant.
func SpeciesOf(words string) (s Species, near, ok bool) {
	have := speciesWords(words)
	if len(have) == 0 {
		return Species{}, false, false
	}
	best, most := -1, 0
	for _, name := range speciesNames {
		if !holds(have, name.words) {
			continue
		}
		// The name with most words wins, and a sure one before a near one.
		sure := !name.near && len(name.words) == len(have)
		n := 2 * len(name.words)
		if sure {
			n++
		}
		if n > most {
			best, most, near = name.row, n, !sure
		}
	}
	if best < 0 {
		return Species{}, false, false
	}
	return speciesTable[best], near, true
}

// speciesName is a name of wood taken apart, and the row that it means.
type speciesName struct {
	words []string
	row   int
	near  bool
}

// speciesNames are all names of the table, in its order.
var speciesNames = func() (list []speciesName) {
	for i := range speciesTable {
		row := &speciesTable[i]
		for _, name := range append([]string{row.Name}, row.Also...) {
			list = append(list, speciesName{speciesWords(name), i, false})
		}
		for _, name := range row.Near {
			list = append(list, speciesName{speciesWords(name), i, true})
		}
	}
	return list
}()

// holds tells whether all of some words are among others.
func holds(have, want []string) bool {
	for _, w := range want {
		if !slices.Contains(have, w) {
			return false
		}
	}
	return len(want) > 0
}

// besideWood are words that say nothing of the kind of wood.
var besideWood = map[string]bool{
	"wood": true, "board": true, "slab": true, "offcut": true, "blank": true, "plank": true, "log": true, "live": true, "edge": true, "waney": true, "edged": true,
	"figured": true, "curly": true, "quilted": true, "flamed": true, "burl": true, "burr": true, "crotch": true, "spalted": true, "kiln": true, "air": true, "dried": true, "dry": true, "the": true, "of": true, "a": true, "piece": true,
}

// speciesWords takes a name of wood apart: small letters, no marks, no plurals
// and no words that say nothing of the kind.
func speciesWords(text string) []string {
	var list []string
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !(r >= 'a' && r <= 'z' || r > 127) }) {
		if w = singular(w); !besideWood[w] && !slices.Contains(list, w) {
			list = append(list, w)
		}
	}
	return list
}

// singular takes the plural off a name of wood: oaks, ashes, cherries, birches.
func singular(w string) string {
	switch {
	case strings.HasSuffix(w, "ies") && len(w) > 5:
		return w[:len(w)-3] + "y"
	case strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "ches"):
		return w[:len(w)-2]
	case strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !strings.HasSuffix(w, "as") && !strings.HasSuffix(w, "us"):
		return w[:len(w)-1]
	}
	return w
}
