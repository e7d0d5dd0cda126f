package drawing

import (
	"encoding/xml"
	"fmt"
	"image/color"
	"strconv"
	"strings"
)

// MillimetresPerDP is the size of a dp on paper: lettering of 12 dp is 3 mm
// high and lines of 1 and 2 dp are 0.25 and 0.5 mm wide.
const MillimetresPerDP = 0.25

// SVG is a Surface that writes an SVG 1.1 document in millimetres.
type SVG struct {
	body   strings.Builder
	size   Pt // dp
	fonts  *Fonts
	family string
}

// NewSVG makes a document of w by h millimetres, its text set in the font
// family that fonts measures.
func NewSVG(w, h float64, fonts *Fonts, family string) *SVG {
	return &SVG{size: Pt{w / MillimetresPerDP, h / MillimetresPerDP}, fonts: fonts, family: family}
}

// Bounds gives the sheet in dp.
func (s *SVG) Bounds() Box { return Box{Max: s.size} }

// Bytes gives the finished document.
func (s *SVG) Bytes(title string) []byte {
	w, h := mm(s.size.X), mm(s.size.Y)
	var b strings.Builder
	fmt.Fprintf(&b, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"+
		"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\" font-family=\"%s\">\n<title>%s</title>\n",
		w, h, w, h, escape(s.family), escape(title))
	b.WriteString(s.body.String())
	b.WriteString("</svg>\n")
	return []byte(b.String())
}

// Stroke draws lines.
func (s *SVG) Stroke(pen Pen, paths ...Path) {
	var d strings.Builder
	visible := s.Bounds().Grown(40)
	for _, p := range paths {
		dashes(p, nil, visible, func(points []Pt, closed bool) { trace(&d, points, closed) })
	}
	if d.Len() == 0 {
		return
	}
	dash := ""
	if len(pen.Dash) > 0 {
		parts := make([]string, len(pen.Dash))
		for i, l := range pen.Dash {
			parts[i] = mm(l)
		}
		dash = fmt.Sprintf(" stroke-dasharray=\"%s\"", strings.Join(parts, " "))
	}
	fmt.Fprintf(&s.body, "<path%s d=\"%s\" fill=\"none\" stroke=\"%s\"%s stroke-width=\"%s\"%s/>\n",
		class(pen.Name), d.String(), rgb(pen.Colour), opacity("stroke", pen.Colour), mm(pen.Width), dash)
}

// Fill colours the inside of rings.
func (s *SVG) Fill(name string, c color.NRGBA, rings ...[]Pt) {
	var d strings.Builder
	for _, r := range rings {
		if len(r) > 2 {
			trace(&d, r, true)
		}
	}
	if d.Len() > 0 {
		fmt.Fprintf(&s.body, "<path%s d=\"%s\" fill=\"%s\"%s fill-rule=\"evenodd\"/>\n",
			class(name), d.String(), rgb(c), opacity("fill", c))
	}
}

// Text writes one line of text.
func (s *SVG) Text(at Pt, text string, l Lettering) {
	anchor, weight, turn := "", "", ""
	switch l.Anchor {
	case Middle:
		anchor = " text-anchor=\"middle\""
	case End:
		anchor = " text-anchor=\"end\""
	}
	if l.Bold {
		weight = " font-weight=\"bold\""
	}
	if l.Up {
		turn = fmt.Sprintf(" transform=\"rotate(-90 %s %s)\"", mm(at.X), mm(at.Y))
	}
	fmt.Fprintf(&s.body, "<text%s x=\"%s\" y=\"%s\" font-size=\"%s\" fill=\"%s\"%s%s%s>%s</text>\n",
		class(l.Name), mm(at.X), mm(at.Y), mm(l.Size), rgb(l.Colour), anchor, weight, turn, escape(text))
}

// Measure gives the width of a text in dp.
func (s *SVG) Measure(text string, l Lettering) float64 {
	return s.fonts.Measure(text, l.Size, l.Bold)
}

func trace(d *strings.Builder, points []Pt, closed bool) {
	for i, p := range points {
		switch i {
		case 0:
			d.WriteString("M")
		case 1:
			d.WriteString("L")
		default:
			d.WriteString(" ")
		}
		d.WriteString(mm(p.X) + " " + mm(p.Y))
	}
	if closed {
		d.WriteString("Z")
	}
}

// mm writes dp as millimetres to a hundredth.
func mm(dp float64) string {
	t := strconv.FormatFloat(dp*MillimetresPerDP, 'f', 2, 64)
	t = strings.TrimSuffix(strings.TrimRight(t, "0"), ".")
	if t == "-0" {
		return "0"
	}
	return t
}

func rgb(c color.NRGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

func opacity(of string, c color.NRGBA) string {
	if c.A == 255 {
		return ""
	}
	return fmt.Sprintf(" %s-opacity=\"%.3g\"", of, float64(c.A)/255)
}

func class(name string) string {
	if name == "" {
		return ""
	}
	return " class=\"" + escape(name) + "\""
}

func escape(text string) string {
	var b strings.Builder
	// Writing to a strings.Builder cannot fail.
	_ = xml.EscapeText(&b, []byte(text))
	return b.String()
}
