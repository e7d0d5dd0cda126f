package paper

import (
	"github.com/go-pdf/fpdf"

	"meniscus/model"
)

// Painter draws a project on a page. The painters are those of the screen, which
// stand above this room: main hands them in.
type Painter interface {
	// Above draws the mold from above with what is in it.
	Above(p *model.Project, pl *model.Plan, on *Patch)
	// Section draws the cut across it, with the levels of the pours.
	Section(p *model.Project, pl *model.Plan, on *Patch)
	// SVG gives drawings by themselves, in millimetres and true to the scale that
	// is written beside each: from above, the section, or one below the other.
	SVG(p *model.Project, pl *model.Plan, above, section bool) ([]byte, error)
	// FinishSVG gives the casting with what comes off it, from above with what is
	// screwed on, or in section, in millimetres and true to the scale beside it.
	FinishSVG(p *model.Project, pl *model.Plan, section bool) ([]byte, error)
}

// Patch is a part of a page to draw on: places and widths in mm from its upper
// left corner, y down. Lines and letters are black or grey; letters stay text.
type Patch struct {
	s          *sheet
	x, y       float64
	wide, high float64
}

// Wide gives the width in mm.
func (p *Patch) Wide() float64 { return p.wide }

// High gives the height in mm.
func (p *Patch) High() float64 { return p.high }

// Shade is how dark something is, and how much it covers what is below it: grey
// from 0, black, to 255, and cover from 0 to 1.
type Shade struct {
	Grey  int
	Cover float64
}

// Line draws a line through points, a closed one back to the first. Dash gives
// lengths of line and gap in mm; empty is continuous.
func (p *Patch) Line(shade Shade, width float64, dash []float64, closed bool, points [][2]float64) {
	if len(points) < 2 {
		return
	}
	pdf := p.s.pdf
	pdf.SetDrawColor(shade.Grey, shade.Grey, shade.Grey)
	pdf.SetLineWidth(width)
	pdf.SetDashPattern(dash, 0)
	pdf.SetLineJoinStyle("round")
	p.run(points)
	if closed {
		pdf.ClosePath()
	}
	pdf.DrawPath("D")
	pdf.SetDashPattern(nil, 0)
	pdf.SetDrawColor(0, 0, 0)
}

// Fill shades the inside of rings; a ring inside another is a hole.
func (p *Patch) Fill(shade Shade, rings [][][2]float64) {
	pdf := p.s.pdf
	pdf.SetFillColor(shade.Grey, shade.Grey, shade.Grey)
	if shade.Cover < 1 {
		pdf.SetAlpha(shade.Cover, "Normal")
	}
	any := false
	for _, r := range rings {
		if len(r) > 2 {
			p.run(r)
			pdf.ClosePath()
			any = true
		}
	}
	if any {
		pdf.DrawPath("f*")
	}
	if shade.Cover < 1 {
		pdf.SetAlpha(1, "Normal")
	}
	pdf.SetFillColor(255, 255, 255)
}

func (p *Patch) run(points [][2]float64) {
	for i, q := range points {
		if i == 0 {
			p.s.pdf.MoveTo(p.x+q[0], p.y+q[1])
		} else {
			p.s.pdf.LineTo(p.x+q[0], p.y+q[1])
		}
	}
}

// Text writes a line of text whose baseline begins at a place, its em so many mm
// high; one that stands up is read from the right.
func (p *Patch) Text(x, y float64, text string, em float64, bold, up bool) {
	p.s.font(em/point, bold)
	text = p.s.known(text)
	if !up {
		p.s.pdf.Text(p.x+x, p.y+y, text)
		return
	}
	p.s.pdf.TransformBegin()
	p.s.pdf.TransformRotate(90, p.x+x, p.y+y)
	p.s.pdf.Text(p.x+x, p.y+y, text)
	p.s.pdf.TransformEnd()
}

// Measure gives the width of a line of text in mm.
func (p *Patch) Measure(text string, em float64, bold bool) float64 {
	p.s.font(em/point, bold)
	return p.s.pdf.GetStringWidth(p.s.known(text))
}

// patch gives a part of the page to draw on, beyond which nothing is drawn,
// while do runs.
func (s *sheet) patch(x, y, wide, high float64, do func(*Patch)) {
	s.pdf.ClipRect(x, y, wide, high, false)
	do(&Patch{s, x, y, wide, high})
	s.pdf.ClipEnd()
	s.plain()
}

// plain brings the pens back to black and continuous.
func (s *sheet) plain() {
	s.pdf.SetDrawColor(0, 0, 0)
	s.pdf.SetFillColor(255, 255, 255)
	s.pdf.SetTextColor(0, 0, 0)
	s.pdf.SetDashPattern(nil, 0)
	s.pdf.SetLineCapStyle("butt")
	s.pdf.SetLineJoinStyle("miter")
}

// sized begins a document without a page on paper of a size.
func sized(f format) *fpdf.InitType {
	return &fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: f.wide, Ht: f.high}}
}
