package model

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// CuttingSheet is what a blank is sawn by: its outline at true size, in the
// directions of the cavity that it is cut for, with what is to be known at the
// saw, in words as they are printed. The outline is seen from above, as the
// wood will lie in the mold.
type CuttingSheet struct {
	Title    string      `json:"title"`    // the job, the slab and the lay-up
	Made     string      `json:"made"`     // when, as the shop's clock shows it, with its zone
	Facts    []string    `json:"facts"`    // the wood, and how it is cut
	Printing []string    `json:"printing"` // how the sheet is printed and put together
	Lines    []CutLine   `json:"lines"`    // what the lines mean
	Cautions []string    `json:"cautions"` // at the saw
	Letter   bool        `json:"letter"`   // on Letter paper; else on A4
	Square   unit.Length `json:"square"`   // side of the check square
	Measures string      `json:"measures"` // what that side is, in words

	Blank shape.Region `json:"-"` // what is cut out of the slab
	Cuts  []shape.Ring `json:"-"` // open runs of the blank's outline that are sawn
	Live  []shape.Ring `json:"-"` // and those that are the slab's own edge
	Upper shape.Region `json:"-"` // the finished piece, its upper face; nothing where it is the blank
	Under shape.Region `json:"-"` // and its other face; nothing where they are alike
}

// CutKind is a line of a cutting sheet.
type CutKind string

// The lines of a cutting sheet.
const (
	LineCut      CutKind = "cut"      // to saw along
	LineLive     CutKind = "live"     // the slab's own edge
	LineFinished CutKind = "finished" // the piece's upper face, trimmed
	LineUnder    CutKind = "under"    // its other face
)

// CutLine says what a line means.
type CutLine struct {
	Kind  CutKind `json:"kind"`
	Words string  `json:"words"`
}

// cutCautions are the usual cautions at a saw (common practice, no source).
var cutCautions = []string{
	"The saw's own manual stands above this sheet. Guard and riving knife in place, push stick at hand, eyes and ears covered, dust drawn off.",
	"A slab with a live edge has no straight side: fix it to a sled or a straight board before it goes along a fence, and never cut it freehand at a table saw.",
	"Look for nails, stones and loose knots in the way of the blade. Blade still, plug pulled, before you reach in or change anything.",
}

// errNoBlank says that a lay-up gives nothing to cut.
var errNoBlank = errors.New("there is nothing to cut yet: trace the slab and lay the cavity over its wood")

// NewCuttingSheet makes the cutting sheet of a lay-up. It gives an error where
// the lay-up is not there or has no wood.
func NewCuttingSheet(p *Project, pl *Plan, slab, layup string, now time.Time) (CuttingSheet, error) {
	s, sp := p.Slab(slab), pl.Slab(slab)
	if s == nil || sp == nil {
		return CuttingSheet{}, errNoBlank
	}
	l := s.Layup(layup)
	lay := sp.Layup(layup)
	if l == nil || lay == nil || len(lay.Blank) == 0 {
		return CuttingSheet{}, errNoBlank
	}
	c := CuttingSheet{
		Title: sheetTitle(p.Name, s.Name, orWord(l.Name, "lay-up")), Made: now.In(p.Shop.Place()).Format("Mon 2 Jan 2006, 15:04 MST"),
		Cautions: cutCautions, Letter: OnLetter(p.Style),
		Blank: lay.Blank.Turned(-l.Turn), Upper: lay.Upper.Turned(-l.Turn), Under: lay.Under.Turned(-l.Turn),
	}
	c.Square, c.Measures = 100*unit.Millimetre, "100 mm"
	if c.Letter {
		c.Square, c.Measures = 4*unit.Inch, "4 in"
	}
	own := newEdges(sp.Upper.Region.Turned(-l.Turn), sp.Under.Region.Turned(-l.Turn))
	for _, r := range c.Blank {
		cuts, live := own.split(r)
		c.Cuts, c.Live = append(c.Cuts, cuts...), append(c.Live, live...)
	}
	// What lies on a line that is drawn already is not drawn again.
	if alike(c.Upper, c.Under) {
		c.Under = nil
	}
	if alike(c.Upper, c.Blank) {
		c.Upper = nil
	}
	c.say(p, s, l, lay)
	return c, nil
}

// Chosen finds the lay-up that was chosen last: its slab and itself, by ID.
func (p *Project) Chosen() (slab, layup string, ok bool) {
	for i := range p.Slabs {
		for j := range p.Slabs[i].Layups {
			if p.Slabs[i].Layups[j].Chosen {
				slab, layup, ok = p.Slabs[i].ID, p.Slabs[i].Layups[j].ID, true
			}
		}
	}
	return slab, layup, ok
}

// say writes the words of a sheet.
func (c *CuttingSheet) say(p *Project, s *Slab, l *Layup, lay *LayPlan) {
	st := p.Style
	lo, hi := c.Bounds()
	first := "Slab: " + orWord(s.Name, "without a name")
	if s.Thickness.Given() {
		first += ", " + st.Length(s.Thickness.Value) + " thick"
	}
	c.Facts = append(c.Facts, first,
		fmt.Sprintf("Blank: %s by %s over all, %s of saw cut", st.Length(unit.Length(hi.X-lo.X)), st.Length(unit.Length(hi.Y-lo.Y)), st.Length(lay.Cut)),
		"Drawn as seen from above: it goes on the face that lies upward in the mold, the mold's length along the lines of the crosses.")
	kerf, gap := l.KerfTaken(), l.GapTaken()
	fine := func(l unit.Length) string { return fineLength(st, l) }
	c.Facts = append(c.Facts,
		"Kerf "+fine(kerf.Value)+usually(kerf, "; measure yours")+": the blade runs along the outside of the cut line, on the side of the ticks.",
		"Gap left to the wall of the mold: "+fine(gap.Value)+usually(gap, "")+".")
	if l.Trim.Given() && l.Trim.Value > 0 {
		c.Facts = append(c.Facts, "Left to trim on a cut edge: "+st.Length(l.Trim.Value)+", from the cut line in to the finished line.")
	}
	if l.Bevelled {
		c.Facts = append(c.Facts, "The saw is set to the lean of the walls. Try the tilt on a scrap in the mold first.")
	} else {
		c.Facts = append(c.Facts, "The saw stands upright.")
	}
	c.Facts = append(c.Facts, "The direction of the grain is not noted: draw it on the blank before it is cut.")
	c.Printing = []string{
		"Print at 100 %, not fit to page; measure the square first.",
		"The square on each page must be " + c.Measures + " each way. If it is not, set the printer's scale to 100 % and print again.",
	}
	c.Lines = []CutLine{{LineCut, "Cut line; ticks on the side of the blade"}}
	if len(c.Live) > 0 {
		c.Lines = append(c.Lines, CutLine{LineLive, "Live edge: the slab's own, not cut"})
	}
	if len(c.Upper) > 0 {
		c.Lines = append(c.Lines, CutLine{LineFinished, "Finished line, upper face"})
	}
	if len(c.Under) > 0 {
		c.Lines = append(c.Lines, CutLine{LineUnder, "Finished line, underside"})
	}
}

// sheetTitle joins what a sheet is of, from the job to the lay-up.
func sheetTitle(names ...string) string {
	names = slices.DeleteFunc(names, func(n string) bool { return strings.TrimSpace(n) == "" })
	return upperFirst(strings.Join(names, ", "))
}

// usually marks a length that is not the maker's.
func usually(k Known[unit.Length], then string) string {
	if !k.Typical {
		return ""
	}
	return " (usual, not given" + then + ")"
}

// Bounds gives the corners of the box around all that a sheet draws.
func (c *CuttingSheet) Bounds() (lo, hi shape.Point) {
	return append(append(slices.Clone(c.Blank), c.Upper...), c.Under...).Bounds()
}

// alike tells whether two regions have the same outlines, to what can be drawn.
func alike(a, b shape.Region) bool {
	const seen = 5e-5 // m
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if len(a[i]) != len(b[i]) {
			return false
		}
		for j := range a[i] {
			if dx, dy := a[i][j].X-b[i][j].X, a[i][j].Y-b[i][j].Y; dx*dx+dy*dy > seen*seen {
				return false
			}
		}
	}
	return true
}
