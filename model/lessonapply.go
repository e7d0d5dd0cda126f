package model

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"meniscus/model/unit"
)

// Lessons gives what has been gathered, written in a style.
func (g *Learning) Lessons(s unit.Style) Lessons {
	film := func(l unit.Length) string { return fmt.Sprintf("%.2f mm", l.Millimetres()) }
	l := Lessons{
		Points: slices.Clone(g.points),
		Used:   learnt(&g.used, "Mixed over planned", usualUsed, func(n unit.Number) string { return fmt.Sprintf("%.2f", float64(n)) }),
		Film:   learnt(&g.film, "Film left in the cup", typicalCupFilm, s.Share),
		Least:  learnt(&g.least, "Left in a small cup", usualLeast, func(m unit.Mass) string { return s.MassTo(m, unit.Gram/10) }),
		Soak:   learnt(&g.soak, "Soak into bare wood", typicalSoak, film),
		Creep:  learnt(&g.creep, "Creep below the wood", typicalCreep, film),
	}
	slices.SortStableFunc(l.Points, func(a, b UsedPoint) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Project, b.Project))
	})
	return l
}

// Any tells whether there is anything to propose.
func (l *Lessons) Any() bool { return l.Film.Own() || l.Least.Own() || l.Soak.Own() || l.Creep.Own() }

// Apply puts the maker's own losses into a project, those of which a run has
// told; the others stay as they are. It is a *Problem where there are none.
func (l *Lessons) Apply(p *Project) error {
	if !l.Any() {
		return &Problem{"mixing", "no run has told anything yet: weigh the cups once they are emptied, and note what is left over"}
	}
	l.Losses().Apply(p)
	return nil
}

// asFilm writes a film to a hundredth of a millimetre.
func asFilm(l unit.Length) unit.Dim {
	n := math.Round(l.Millimetres() * 100)
	return unit.Dim{Value: unit.Length(n) * unit.Millimetre / 100, Written: fmt.Sprintf("%.2f mm", n/100)}
}
