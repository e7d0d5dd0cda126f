package drawing

import (
	"image/color"

	printing "meniscus/app/paper"
	"meniscus/model"
	"meniscus/model/unit"
)

// OnPaper draws the mold on printed pages, by the painters that the screen has.
type OnPaper struct{}

// mmPaper is the size of a dp on a page that other things stand on as well:
// figures of 13 dp are 8 points high.
const mmPaper = 0.22

// printPalette is black on white, with greys for what is cut.
var printPalette = Palette{
	Ground: grey(255), Panel: grey(255), Ink: grey(0), Faint: grey(40), Line: grey(110),
	Accent: grey(0), AccentInk: grey(255), Stop: grey(0), Check: grey(0), Good: grey(0),
	Wood: grey(222), WoodGrain: grey(120), Resin: grey(236), Dimension: grey(0),
}

func grey(v uint8) color.NRGBA { return color.NRGBA{v, v, v, 255} }

// printStyle dresses a drawing for paper in the units of a project.
func printStyle(p *model.Project) Style {
	return Style{Palette: printPalette, Length: p.Style.Length, Inches: p.Style.LengthUnit() == unit.InInches}
}

// Above draws the mold from above.
func (OnPaper) Above(p *model.Project, pl *model.Plan, on *printing.Patch) {
	c := PlanScene{Plan: pl, Mold: p.Mold, Style: printStyle(p)}
	s := printed{on}
	c.Paint(s, c.Fit(s.Bounds()))
}

// Section draws the section with its levels.
func (OnPaper) Section(p *model.Project, pl *model.Plan, on *printing.Patch) {
	c := SectionScene{Plan: pl, Style: printStyle(p)}
	s := printed{on}
	c.Paint(s, c.Fit(s.Bounds()))
}

// printed is a Surface on a part of a printed page.
type printed struct{ on *printing.Patch }

// Bounds gives the part of the page in dp.
func (s printed) Bounds() Box { return Box{Max: Pt{s.on.Wide() / mmPaper, s.on.High() / mmPaper}} }

// Stroke draws lines.
func (s printed) Stroke(pen Pen, paths ...Path) {
	dash := make([]float64, len(pen.Dash))
	for i, l := range pen.Dash {
		dash[i] = l * mmPaper
	}
	for _, p := range paths {
		dashes(p, nil, s.Bounds().Grown(40), func(points []Pt, closed bool) {
			s.on.Line(printShade(pen.Name, pen.Colour), pen.Width*mmPaper, dash, closed, inMillimetres(points))
		})
	}
}

// Fill shades the inside of rings.
func (s printed) Fill(name string, c color.NRGBA, rings ...[]Pt) {
	all := make([][][2]float64, len(rings))
	for i, r := range rings {
		all[i] = inMillimetres(r)
	}
	s.on.Fill(printShade(name, c), all)
}

// Text writes one line of text.
func (s printed) Text(at Pt, text string, l Lettering) {
	w := s.Measure(text, l)
	switch l.Anchor {
	case Start:
		w = 0
	case Middle:
		w /= 2
	}
	if l.Up {
		at.Y += w
	} else {
		at.X -= w
	}
	s.on.Text(at.X*mmPaper, at.Y*mmPaper, text, l.Size*mmPaper, l.Bold, l.Up)
}

// Measure gives the width of a text in dp.
func (s printed) Measure(text string, l Lettering) float64 {
	return s.on.Measure(text, l.Size*mmPaper, l.Bold) / mmPaper
}

// printShade turns a colour into grey by its lightness. Resin comes in any tint, also
// in black: on paper it is no darker than a light grey, so that what lies in it
// and is written on it can be read.
func printShade(name string, c color.NRGBA) printing.Shade {
	v := 0.2126*float64(c.R) + 0.7152*float64(c.G) + 0.0722*float64(c.B)
	switch name {
	case "resin", "layer":
		v = 255 - 0.25*(255-v)
	}
	return printing.Shade{Grey: int(v + 0.5), Cover: float64(c.A) / 255}
}

func inMillimetres(points []Pt) [][2]float64 {
	out := make([][2]float64, len(points))
	for i, p := range points {
		out[i] = [2]float64{p.X * mmPaper, p.Y * mmPaper}
	}
	return out
}
