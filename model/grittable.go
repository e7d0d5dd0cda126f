package model

import "meniscus/model/unit"

// Grit is one grade of abrasive.
type Grit struct {
	Mark   GritMark
	Series GritSeries
	Grain  unit.Length // mean size of its grains
	Source string
}

const (
	gritsFEPA   = "mean sizes by ISO 6344, as two published grit charts have them"
	gritsCAMI   = "mean sizes by CAMI, as a published grit chart has them"
	gritsMemory = "value from memory"
	memoryFiner = unit.Length(8e-6)   // sizes of finer grains are from memory
	memoryCAMI  = unit.Length(720e-6) // and of coarser ones of CAMI
)

// gritTable holds the grades of both series, each from the coarsest to the
// finest. P12 to P220 are sorted by sieves and P240 and finer by how fast they
// settle (ISO 6344-2 and -3; the third part covers P240 to P5000 since 2021).
// The two series agree up to about 220; 320 of the one is P400 of the other,
// 400 is P800 and 600 is P1200.
var gritTable = append(
	grits(SeriesFEPA, "P", gritsFEPA,
		[]int{12, 16, 20, 24, 30, 36, 40, 50, 60, 80, 100, 120, 150, 180, 220, 240, 280, 320, 360, 400, 500, 600, 800, 1000, 1200, 1500, 2000, 2500, 3000, 5000},
		[]float64{1815, 1324, 1000, 764, 642, 538, 425, 336, 269, 201, 162, 125, 100, 82, 68, 58.5, 52.2, 46.2, 40.5, 35.0, 30.2, 25.8, 21.8, 18.3, 15.3, 12.6, 10.3, 8.4, 7, 5}),
	grits(SeriesCAMI, "", gritsCAMI,
		[]int{12, 16, 20, 24, 30, 36, 40, 50, 60, 80, 100, 120, 150, 180, 220, 240, 320, 360, 400, 500, 600, 800, 1000},
		[]float64{1842, 1320, 905, 708, 632, 530, 425, 348, 265, 190, 140, 115, 92, 82, 68, 53.0, 36.0, 28.0, 23.0, 20.0, 16.0, 12.6, 10.3})...)

// grits writes a series of grades with their sizes in micrometres. The finest
// are values from memory, and of CAMI (ANSI B74.18) the coarsest, which the chart
// leaves out: there it runs close to P12, P16 and P20 of ISO 6344.
func grits(series GritSeries, before, source string, numbers []int, sizes []float64) []Grit {
	list := make([]Grit, len(numbers))
	for i, n := range numbers {
		list[i] = Grit{GritMark(before + itoa(n)), series, unit.Length(sizes[i] * 1e-6), source}
		if g := list[i].Grain; g < memoryFiner || series == SeriesCAMI && g > memoryCAMI {
			list[i].Source = gritsMemory
		}
	}
	return list
}

// Grits lists the grades of a series, the coarsest first.
func Grits(series GritSeries) []Grit {
	if series == "" {
		series = SeriesFEPA
	}
	var list []Grit
	for _, g := range gritTable {
		if g.Series == series {
			list = append(list, g)
		}
	}
	return list
}

// GritsOnHand lists the grades that a maker of a series can have, the coarsest
// first: where the series ends coarser than the P series does, the finer ones are
// marked P.
func GritsOnHand(series GritSeries) []Grit {
	list := Grits(series)
	for _, g := range Grits(SeriesFEPA) {
		if g.Grain < list[len(list)-1].Grain {
			list = append(list, g)
		}
	}
	return list
}

// lastCoarserThan gives the mark of the finest grade of a series whose grains are
// at least so large.
func lastCoarserThan(series GritSeries, grain unit.Length) GritMark {
	mark := GritMark("")
	for _, g := range Grits(series) {
		if g.Grain >= grain {
			mark = g.Mark
		}
	}
	return mark
}

// GritOf finds a grade by its mark; false where no series has it.
func GritOf(mark GritMark) (Grit, bool) {
	for _, g := range gritTable {
		if g.Mark == mark {
			return g, true
		}
	}
	return Grit{}, false
}

// usual tells whether a grade is sold everywhere (common practice, no source):
// the coarsest are for floors, and P280 and P360 are seldom on a shelf.
func (g Grit) usual() bool {
	return g.Grain < 500e-6 && g.Mark != "P50" && g.Mark != "P280" && g.Mark != "P360"
}

// gritMarks lists all marks, for the choices of a field.
func gritMarks() []string {
	list := make([]string, len(gritTable))
	for i, g := range gritTable {
		list[i] = string(g.Mark)
	}
	return list
}

// like gives the mark in the other series whose grains are nearest in size, by
// their ratio; nothing where none is within a fifth.
func (g Grit) like() GritMark {
	other := SeriesCAMI
	if g.Series == SeriesCAMI {
		other = SeriesFEPA
	}
	near := nearestGrit(other, g.Grain)
	if r := near.Grain.Per(g.Grain); r > 1.2 || r < 1/1.2 {
		return ""
	}
	return near.Mark
}

// nearestGrit gives the grade of a series whose grains are nearest in size.
func nearestGrit(series GritSeries, grain unit.Length) Grit {
	best, apart := Grit{}, 0.0
	for _, g := range Grits(series) {
		r := g.Grain.Per(grain)
		if r < 1 {
			r = 1 / r
		}
		if best.Mark == "" || r < apart {
			best, apart = g, r
		}
	}
	return best
}

// stock is what a grit has to take off to take the scratches of the one before
// away, by a trade magazine's table for wide belts of 2014, in
// inches; the same table gives what it can take off at most.
var stockTable = []struct {
	number      int
	least, most float64
}{
	{60, .015, .035}, {80, .008, .024}, {100, .006, .017}, {120, .004, .010}, {150, .002, .006}, {180, .001, .004}, {220, .0005, .002},
}

const (
	stockSource   = "a trade magazine's table of stock removal for belts, 2014"
	stockCarried  = "carried on from the table's last row with the grain of the grit before; no source"
	stockPerGrain = 0.0005 * 25.4e-3 / 82e-6 // of the table's last row: P220 after P180
)

// leastRemoval gives what a grit has to take off after a coarser one, and where
// that is from. Where the table has the grade it is the table's; coarser than
// that as much as its first row, finer it falls with the grain of the grit
// before.
func leastRemoval(g, before Grit) (unit.Length, string) {
	for _, row := range stockTable {
		p, _ := GritOf(GritMark("P" + itoa(row.number)))
		if ratio := g.Grain.Per(p.Grain); ratio > 0.93 && ratio < 1.07 || row.number == 60 && ratio >= 1.07 {
			return unit.Length(row.least) * unit.Inch, stockSource
		}
	}
	// Between two rows of the table, by the nearest of the P series.
	if last, _ := GritOf("P220"); g.Grain > last.Grain {
		p := nearestGrit(SeriesFEPA, g.Grain)
		for _, row := range stockTable {
			if p.Mark == GritMark("P"+itoa(row.number)) {
				return unit.Length(row.least) * unit.Inch, stockSource
			}
		}
	}
	grain := before.Grain
	if grain == 0 {
		grain = g.Grain.Times(1.3)
	}
	return grain.Times(stockPerGrain), stockCarried
}
