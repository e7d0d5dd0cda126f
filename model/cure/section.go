package cure

import "meniscus/model/unit"

// Strip is one column or one row of a section: so wide, in so many cells.
type Strip struct {
	Width unit.Length
	Cells int // finite volumes across it, 1 or more
}

// Block is where a column and a row of a section meet: matter of one kind,
// inert or curing, or nothing but the air of the room.
type Block struct {
	Matter
	Open bool // no matter is here: what borders it gives off heat as an upper face does

	Cure *Kinetics        // nil: inert
	From unit.Temperature // at the start
	Done float64          // conversion at the start; less than Seed counts as Seed
}

// Section is a cut across a pour that runs between wood: a grid of blocks that
// heat runs through up, down and across. It is as long as it likes: no heat
// leaves along the river. Half of a section with a line of symmetry is the
// whole of it with the side on that line insulated.
type Section struct {
	Columns []Strip   // left to right
	Rows    []Strip   // bottom to top
	Blocks  [][]Block // row by row from the bottom, each from the left

	// To the air at each edge; 0 insulated, infinite held at the room's
	// temperature.
	Below, Above, Left, Right unit.FilmCoefficient
	Room                      Room
}

// Spot is the highest temperature that the resin of a section came to.
type Spot struct {
	T  unit.Temperature
	At unit.Span
	Y  unit.Length // from the section's left edge
	Z  unit.Length // above its bottom
}

// SectionCourse is what became of a section.
type SectionCourse struct {
	Fields   []Field   // in order, equally spaced from the start to the end, and one at the peak
	Hottest  int       // the field at the peak
	Peak     Spot      // of the resin; of a section without resin it is the zero Spot
	RunsAway bool      // the resin came to the limit, where the run ends
	Ends     unit.Span // when the run ended
	Energy   Energy    // per metre of length
	Steps    int       // that the run took
}

// mostSectionCells bounds the cells of a section.
const mostSectionCells = 40000

// check tells what in a section or its options cannot be reckoned with.
func (s *Section) check(o *Options) error {
	columns, err := checkStrips("column", s.Columns)
	if err != nil {
		return err
	}
	rows, err := checkStrips("row", s.Rows)
	if err != nil {
		return err
	}
	switch {
	case columns*rows > mostSectionCells:
		return unusable("more than %d cells", mostSectionCells)
	case len(s.Blocks) != len(s.Rows):
		return unusable("%d rows of blocks for %d", len(s.Blocks), len(s.Rows))
	}
	solid := false
	for r, row := range s.Blocks {
		if len(row) != len(s.Columns) {
			return unusable("%d blocks for %d columns in row %d", len(row), len(s.Columns), r)
		}
		for c := range row {
			if row[c].Open {
				continue
			}
			solid = true
			if err := row[c].check(); err != nil {
				return err
			}
		}
	}
	switch {
	case !solid:
		return unusable("there is nothing in it")
	case !(s.Below >= 0) || !(s.Above >= 0) || !(s.Left >= 0) || !(s.Right >= 0):
		return unusable("a film below zero")
	}
	return o.check(&s.Room)
}

// checkStrips counts the cells of strips and tells what is wrong with them.
func checkStrips(what string, strips []Strip) (int, error) {
	cells := 0
	for i, x := range strips {
		switch {
		case !(x.Width > 0) || x.Width > 20:
			return 0, unusable("%s %d has a width of %g m", what, i, float64(x.Width))
		case x.Cells < 1:
			return 0, unusable("%s %d has no cells", what, i)
		case x.Cells > mostSectionCells-cells:
			return 0, unusable("more than %d cells", mostSectionCells)
		}
		cells += x.Cells
	}
	if cells == 0 {
		return 0, unusable("there is nothing in it")
	}
	return cells, nil
}

// check tells what in a block cannot be reckoned with.
func (b *Block) check() error {
	switch {
	case !b.usable():
		return unusable("%s has no density, heat capacity or conductivity", b.Name)
	case !(b.From > 0 && b.From < 1000):
		return unusable("%s starts at %g K", b.Name, float64(b.From))
	case b.Cure != nil && !b.Cure.usable():
		return unusable("the kinetics of %s", b.Name)
	}
	return nil
}
