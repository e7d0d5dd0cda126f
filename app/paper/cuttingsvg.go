package paper

import (
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"

	"meniscus/model"
)

// CuttingDrawing writes a cutting sheet as an SVG 1.1 drawing at true size: one
// of its units is a millimetre. The blank is one closed path ("blank"); what is
// sawn of it, what is the slab's own edge and the finished faces are paths of
// their own, and beside them stands a square to measure.
func CuttingDrawing(c model.CuttingSheet) []byte {
	const rim = 10.0
	lines, wide, high := cutLines(&c)
	side := c.Square.Millimetres()
	w, h := max(wide, side)+2*rim, high+side+3*rim
	var b strings.Builder
	fmt.Fprintf(&b, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\" font-family=\"sans-serif\">\n", number(w), number(h), number(w), number(h))
	fmt.Fprintf(&b, "<title>%s</title>\n<desc>%s</desc>\n", escaped(c.Title), escaped(strings.Join(append(append([]string{}, c.Facts...), c.Cautions...), " ")))
	blank := ""
	for _, run := range cutRuns(&c, "", true, c.Blank...) {
		blank += along(run, rim)
	}
	stroke(&b, "blank", pen{width: 0.1}, blank)
	for _, l := range lines {
		stroke(&b, string(l.kind), cutPens[l.kind], along(l, rim))
	}
	y := high + 2*rim
	stroke(&b, "square", pen{width: 0.2}, fmt.Sprintf("M%s %sh%sv%sh-%sZ", number(rim), number(y), number(side), number(side), number(side)))
	fmt.Fprintf(&b, "<text x=\"%s\" y=\"%s\" font-size=\"4\">%s</text>\n", number(rim+2), number(y+side-3), escaped("Check square: "+c.Measures+" each way"))
	fmt.Fprintf(&b, "<text x=\"%s\" y=\"%s\" font-size=\"4\">%s</text>\n</svg>\n", number(rim+2), number(y+6), escaped(c.Title))
	return []byte(b.String())
}

// along writes a run as the data of a path, moved in by a rim.
func along(l cutRun, rim float64) string {
	var d strings.Builder
	for i, p := range l.points {
		if i == 0 {
			d.WriteString("M")
		} else {
			d.WriteString("L")
		}
		d.WriteString(number(rim+p.x) + " " + number(rim+p.y))
	}
	if l.closed {
		d.WriteString("Z")
	}
	return d.String()
}

// stroke writes a path that is drawn with a pen.
func stroke(b *strings.Builder, class string, p pen, data string) {
	if data == "" {
		return
	}
	dash := ""
	if len(p.dash) > 0 {
		parts := make([]string, len(p.dash))
		for i, l := range p.dash {
			parts[i] = number(l)
		}
		dash = " stroke-dasharray=\"" + strings.Join(parts, " ") + "\""
	}
	fmt.Fprintf(b, "<path class=\"%s\" d=\"%s\" fill=\"none\" stroke=\"#000000\" stroke-width=\"%s\"%s/>\n", class, data, number(p.width), dash)
}

// number writes millimetres to a thousandth.
func number(x float64) string {
	t := strconv.FormatFloat(x, 'f', 3, 64)
	t = strings.TrimSuffix(strings.TrimRight(t, "0"), ".")
	if t == "-0" {
		return "0"
	}
	return t
}

// escaped writes text so that it can stand in a document.
func escaped(text string) string {
	var b strings.Builder
	// Writing to a strings.Builder cannot fail.
	_ = xml.EscapeText(&b, []byte(text))
	return b.String()
}
