package drawing

import (
	"bytes"
	"fmt"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// tool runs one of the poppler tools, which assets/setup.sh installs.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		t.Fatalf("%s, which assets/setup.sh installs: %v", name, err)
	}
	return string(out)
}

// readPages has the poppler tools read a PDF: the text of each page with one
// space between words, and how large each is in mm. It holds to it that its fonts
// are embedded, that its text can be copied, and that it has no pictures.
func readPages(t *testing.T, file string) (pages []string, sizes [][2]float64) {
	t.Helper()
	const mm = 25.4 / 72
	for _, m := range regexp.MustCompile(`Page +\d+ size: +([\d.]+) x ([\d.]+) pts`).FindAllStringSubmatch(tool(t, "pdfinfo", "-f", "1", "-l", "99", file), -1) {
		wide, _ := strconv.ParseFloat(m[1], 64)
		high, _ := strconv.ParseFloat(m[2], 64)
		sizes = append(sizes, [2]float64{wide * mm, high * mm})
	}
	if images := strings.Count(tool(t, "pdfimages", "-list", file), "\n"); images > 2 {
		t.Errorf("%s holds %d images: drawings are lines", file, images-2)
	}
	fonts := strings.Split(strings.TrimSpace(tool(t, "pdffonts", file)), "\n")
	if len(fonts) < 3 {
		t.Errorf("%s has no font", file)
	}
	for _, line := range fonts[min(2, len(fonts)):] {
		if !regexp.MustCompile(`\s(yes)\s+(yes|no)\s+(yes)\s`).MatchString(line) {
			t.Errorf("%s: a font is not embedded, or its text cannot be copied: %s", file, line)
		}
	}
	text := strings.TrimSuffix(tool(t, "pdftotext", "-layout", file, "-"), "\f")
	for _, page := range strings.Split(text, "\f") {
		pages = append(pages, strings.Join(strings.Fields(strings.ReplaceAll(page, "\u00a0", " ")), " "))
	}
	if len(pages) != len(sizes) {
		t.Fatalf("%s: %d texts of %d pages", file, len(pages), len(sizes))
	}
	return pages, sizes
}

// printedWord is a word that pdftotext finds; places in mm.
type printedWord struct {
	page           int
	x0, y0, x1, y1 float64
	text           string
}

// readWords has pdftotext tell where each word stands.
func readWords(t *testing.T, file string) (words []printedWord) {
	t.Helper()
	page := 0
	for _, m := range regexp.MustCompile(`<page |<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>`).FindAllStringSubmatch(tool(t, "pdftotext", "-bbox", file, "-"), -1) {
		if m[1] == "" {
			page++
			continue
		}
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(m[1+i], 64)
			v[i] *= 25.4 / 72
		}
		words = append(words, printedWord{page, v[0], v[1], v[2], v[3], m[5]})
	}
	return words
}

// raster is a page as it was drawn, a byte a dot, 255 for white.
type raster struct {
	wide, high int
	dots       []byte
}

func (r raster) at(x, y int) byte { return r.dots[y*r.wide+x] }

// drawn has pdftoppm draw the pages of a PDF, or one of them (0 for all), or a
// part of it: left, top, width and height in dots.
func drawn(t *testing.T, file string, dpi, page int, part []int) (list []raster) {
	t.Helper()
	args := []string{"-gray", "-r", strconv.Itoa(dpi)}
	if page > 0 {
		args = append(args, "-f", strconv.Itoa(page), "-l", strconv.Itoa(page))
	}
	for i, name := range []string{"-x", "-y", "-W", "-H"} {
		if part != nil {
			args = append(args, name, strconv.Itoa(part[i]))
		}
	}
	for data := []byte(tool(t, "pdftoppm", append(args, file)...)); len(data) > 0; {
		var r raster
		var most int
		head := bytes.SplitN(data, []byte("\n"), 4) // P5, the size, 255 (netpbm's PGM)
		if len(head) < 4 {
			t.Fatalf("%s: not drawn", file)
		}
		if _, err := fmt.Sscan(string(head[1])+" "+string(head[2]), &r.wide, &r.high, &most); err != nil || string(head[0]) != "P5" || most != 255 || len(head[3]) < r.wide*r.high {
			t.Fatalf("%s: drawn as %q %q %q", file, head[0], head[1], head[2])
		}
		r.dots, data = head[3][:r.wide*r.high], head[3][r.wide*r.high:]
		list = append(list, r)
	}
	return list
}

// inked finds ink in the margins of a page, in mm; a line may run along them, half
// of it outside.
func inked(r raster, dpi int, margin float64) (x, y float64, found bool) {
	const line = 0.5
	mm := 25.4 / float64(dpi)
	in := int((margin - line) / mm) // whole dots that lie outside
	for j := range r.high {
		for i := range r.wide {
			if (i < in || j < in || i >= r.wide-in || j >= r.high-in) && r.at(i, j) < 250 {
				return float64(i) * mm, float64(j) * mm, true
			}
		}
	}
	return 0, 0, false
}
