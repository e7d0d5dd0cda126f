package paper

import (
	"bytes"
	"encoding/xml"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model"
)

// made is when the cards of these tests were made.
var made = time.Date(2026, 11, 27, 16, 0, 0, 0, time.UTC)

// sample is a card with something in each of its parts.
func sample() model.PourCard {
	return model.PourCard{
		Piece: "Poppy stand", Made: "Fri 27 Nov 2026, 16:00 UTC",
		Pours: []model.CardPour{{
			Title: "Pour 1 of 2: smoke-grey base", Facts: []string{"12 mm of slow casting resin A"},
			Before: []string{"Mold level along and across, shimmed", "Gloves, glasses and sleeves on"},
			Cups: []model.CardCup{{
				Title: "Cup 1 of 2, 660.0 g", Note: "The empty cup is not in these readings.", Into: "Into cavity 1:\u00a0330.0\u00a0g",
				Rungs: []model.CardRung{{What: "Empty cup", Reads: "42.6 g"}, {What: "A", Add: "+455.2 g", Reads: "497.8 g"}, {What: "B", Add: "+204.8 g", Reads: "702.6 g"}, {What: "Smoke grey, the darker one of the two", Add: "+9.90 g", Reads: "712.5 g"}},
			}},
			Mixing: []model.CardPrompt{{At: "start", Words: "Stir slowly"}, {At: "5 min", Words: "Look at it"}},
			Placed: []string{"copper washers, 14 of them"},
			Steps:  []model.CardStep{{When: "Fri 27 Nov, 21:26", What: "Working time ends"}, {When: "31.1 h after this pour", What: "Recoat window opens"}},
		}, {Title: "Pour 2 of 2: clear top", Why: "choose the resin for this layer"}},
		Steps:  []model.CardStep{{When: "Sat 28 Nov, 09:00", What: "Ready to demold"}},
		Touch:  []model.CardTouch{{Finds: "It strings", Means: "early"}},
		Hot:    []string{"Leave the mold where it is."},
		Safety: []string{"Nitrile gloves."},
	}
}

// said gives all the words of a card.
func said(c model.PourCard) []string {
	list := []string{c.Piece, c.Made}
	list = append(append(list, c.Hot...), c.Safety...)
	for _, p := range c.Pours {
		list = append(append(append(append(list, p.Title, p.Why), p.Facts...), p.Before...), p.Placed...)
		for _, u := range p.Cups {
			list = append(list, u.Title, u.Note, u.Into)
			for _, r := range u.Rungs {
				list = append(list, r.What, r.Add, r.Reads)
			}
		}
		for _, m := range p.Mixing {
			list = append(list, m.At, m.Words)
		}
		for _, s := range p.Steps {
			list = append(list, s.When, s.What)
		}
	}
	for _, s := range c.Steps {
		list = append(list, s.When, s.What)
	}
	for _, t := range c.Touch {
		list = append(list, t.Finds, t.Means)
	}
	return list
}

// word is a word that an independent reader finds on a page; sizes in points.
type word struct {
	page           int
	x0, y0, x1, y1 float64
	text           string
}

// read has pdftotext, of the poppler tools, read a PDF: its words with where
// they stand, and how large each page is.
func read(t interface {
	Fatal(...any)
	Helper()
}, dir string, pdf []byte) (words []word, sizes [][2]float64) {
	t.Helper()
	file := filepath.Join(dir, "card.pdf")
	if err := os.WriteFile(file, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-bbox", file, "-").Output()
	if err != nil {
		t.Fatal("pdftotext does not read the card; it is installed by assets/setup.sh:", err)
	}
	for d := xml.NewDecoder(bytes.NewReader(out)); ; {
		token, err := d.Token()
		if err == io.EOF {
			return words, sizes
		}
		if err != nil {
			t.Fatal(err)
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		number := func(name string) float64 {
			for _, a := range start.Attr {
				if a.Name.Local == name {
					v, _ := strconv.ParseFloat(a.Value, 64)
					return v
				}
			}
			return -1
		}
		switch start.Name.Local {
		case "page":
			sizes = append(sizes, [2]float64{number("width"), number("height")})
		case "word":
			w := word{len(sizes), number("xMin"), number("yMin"), number("xMax"), number("yMax"), ""}
			if err := d.DecodeElement(&w.text, &start); err != nil {
				t.Fatal(err)
			}
			words = append(words, w)
		}
	}
}

// fits tells whether all pages are A5 (148 by 210 mm, ISO 216) and all words
// stand within their margins of 10 mm.
func fits(words []word, sizes [][2]float64) string {
	const mm = 72 / 25.4
	for _, s := range sizes {
		if s[0] < 148*mm-0.5 || s[0] > 148*mm+0.5 || s[1] < 210*mm-0.5 || s[1] > 210*mm+0.5 {
			return "a page is no A5"
		}
	}
	for _, w := range words {
		if w.x0 < 10*mm || w.x1 > 138*mm || w.y0 < 10*mm || w.y1 > 200*mm {
			return "beyond the margins: " + w.text
		}
	}
	return ""
}

// TestCardIsRead: all words are on the card, as an independent reader finds
// them, on A5 pages and within the margins, what is weighed by in large letters.
func TestCardIsRead(t *testing.T) {
	c := sample()
	pdf, err := Card(c, made)
	if err != nil {
		t.Fatal(err)
	}
	words, sizes := read(t, t.TempDir(), pdf)
	if bad := fits(words, sizes); bad != "" {
		t.Error(bad)
	}
	found := map[string][]word{}
	for _, w := range words {
		found[w.text] = append(found[w.text], w)
	}
	for _, text := range said(c) {
		for _, w := range strings.Fields(text) {
			if len(found[w]) == 0 {
				t.Errorf("%q of %q is not on the card", w, text)
			}
		}
	}
	// Read at arm's length: 11 points and more, and 16 for what is weighed by. A
	// word is as high as its letters and what they may rise above and hang below.
	for _, w := range words {
		if w.y1-w.y0 < 11 {
			t.Errorf("%q is %.1f points high", w.text, w.y1-w.y0)
		}
	}
	for _, key := range []string{"497.8", "702.6", "+455.2", "+204.8", "21:26"} {
		for _, w := range found[key] {
			if w.y1-w.y0 < 16 {
				t.Errorf("%q is %.1f points high", key, w.y1-w.y0)
			}
		}
	}
	for i, w := range words {
		for _, o := range words[:i] {
			if w.page == o.page && min(w.x1, o.x1)-max(w.x0, o.x0) > 0.5 && min(w.y1, o.y1)-max(w.y0, o.y0) > 0.45*min(w.y1-w.y0, o.y1-o.y0) {
				t.Errorf("%q lies on %q", w.text, o.text)
			}
		}
	}
	if last := found["of"]; len(sizes) < 2 || len(last) == 0 {
		t.Errorf("%d pages", len(sizes))
	}
}

// TestCardIsTheSameTwice: one card and time, one file.
func TestCardIsTheSameTwice(t *testing.T) {
	a, err := Card(sample(), made)
	if err != nil {
		t.Fatal(err)
	}
	for range 5 {
		if b, err := Card(sample(), made); err != nil || !bytes.Equal(a, b) {
			t.Fatal("the same card came out otherwise", err)
		}
	}
}

// odd draws words as a maker may type them: long ones, other scripts, signs that
// the typeface has no letter for.
func odd(t *rapid.T, what string) string {
	part := rapid.OneOf(rapid.StringN(0, 12, -1), rapid.SampledFrom([]string{"Wüstenholz", "ясень", "木", "🌲", "\u202eabc", "e\u0301", "a\tb\nc", "<&>", strings.Repeat("m", 90), strings.Repeat("long words ", 30), strings.Repeat("x", 900)}))
	return strings.Join(rapid.SliceOfN(part, 0, 4).Draw(t, what), " ")
}

// TestCardHoldsAnyWords: whatever things are called, nothing runs beyond the
// margins.
func TestCardHoldsAnyWords(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		c := sample()
		c.Piece = odd(t, "piece")
		p := &c.Pours[0]
		p.Title, p.Facts[0], p.Before[0], p.Placed[0] = odd(t, "title"), odd(t, "fact"), odd(t, "before"), odd(t, "placed")
		p.Cups[0].Title, p.Cups[0].Into, p.Cups[0].Rungs[3].What = odd(t, "cup"), odd(t, "into"), odd(t, "what")
		p.Cups[0].Rungs[3].Add, p.Cups[0].Rungs[3].Reads = "+1234567.89 g", "123 lb 12.3 oz"
		p.Steps[0].What, p.Steps[1].When = odd(t, "step"), odd(t, "when")
		pdf, err := Card(c, made)
		if err != nil {
			t.Fatal(err)
		}
		if bad := fits(read(t, dir, pdf)); bad != "" {
			t.Fatal(bad)
		}
	})
}

// FuzzCard: no text keeps a card from being written.
func FuzzCard(f *testing.F) {
	f.Add("Poppy stand", "smoke grey")
	f.Add("\x00\xff\u2028", strings.Repeat("木", 300))
	f.Fuzz(func(t *testing.T, piece, what string) {
		c := sample()
		c.Piece, c.Pours[0].Title, c.Pours[0].Cups[0].Rungs[1].What = piece, what, what
		pdf, err := Card(c, made)
		if err != nil || !bytes.HasPrefix(pdf, []byte("%PDF-")) || len(pdf) > 1<<20 {
			t.Errorf("%d bytes, %v", len(pdf), err)
		}
	})
}

func BenchmarkCard(b *testing.B) {
	for b.Loop() {
		if _, err := Card(sample(), made); err != nil {
			b.Fatal(err)
		}
	}
}
