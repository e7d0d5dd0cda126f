package paper

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
)

// pageBox finds how large a page is, in points, as this room writes it: the
// first one in a file is that of the first page.
var pageBox = regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)

// Media names to a print system the paper that a PDF of this room is made for:
// by its name, or else by its size. It is empty where the file does not say.
func Media(pdf []byte) string {
	m := pageBox.FindSubmatch(pdf)
	if m == nil {
		return ""
	}
	a, _ := strconv.ParseFloat(string(m[1]), 64) // which the expression makes sure of
	b, _ := strconv.ParseFloat(string(m[2]), 64)
	short, long := min(a, b)*point, max(a, b)*point
	near := func(x, y float64) bool { return math.Abs(x-y) < 0.2 }
	for _, f := range append([]format{paperA4, paperLetter}, careSizes...) {
		if near(short, f.wide) && near(long, f.high) {
			return f.name
		}
	}
	return fmt.Sprintf("Custom.%.0fx%.0fmm", a*point, b*point)
}
