package paper

import (
	"bytes"
	"fmt"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model"
)

// careSample, labelSample, quoteSample and shopSample have something in each of
// their parts.
func careSample() model.CareSheet {
	return model.CareSheet{Title: "Poppy stand", What: "Field maple and resin · 2026", Foot: "A hand-made piece.", Lines: []string{
		"Nothing warmer than 45 °C on it: the resin softens at 55 °C.", "Wipe it with a damp cloth.", "Keep it out of the sun.",
	}}
}

func labelSample(n int) (list []model.PaperLabel) {
	for i := range n {
		list = append(list, model.PaperLabel{Title: fmt.Sprintf("Board%d", i+1), Lines: []string{"280 mm × 120 mm × 17.7 mm", fmt.Sprintf("Lot A-%d", i+1), "Cast 30 Nov 2026"}})
	}
	return list
}

func quoteSample(lines int) model.Quote {
	q := model.Quote{Piece: "Poppy stand", Made: "30 Nov 2026", Facts: []model.QuoteFact{{Name: "Made of", Words: "Maple and resin"}, {Name: "Delivery"}},
		Prices: []model.QuotePrice{{Pieces: "1 piece", Each: "172.14 EUR", All: "172.14 EUR"}, {Pieces: "10 pieces", Each: "150.05 EUR", All: "1500.50 EUR"}},
		Valid:  "This price holds until 30 Dec 2026.", Care: []string{"Wipe it with a damp cloth."},
		Costs: &model.QuoteCosts{For: "What one piece takes",
			Sums:  []model.QuoteLine{{What: "Materials", Amount: "45.50 EUR"}, {What: "Work, 3 h", Amount: "75.00 EUR"}, {What: "Cost of all that", Amount: "120.50 EUR"}},
			Price: []model.QuoteLine{{What: "Cost of one", Amount: "120.51 EUR"}, {What: "Price of one", Amount: "172.14 EUR"}},
			Lacks: []string{"moss has no price"}}}
	for i := range lines {
		q.Costs.Lines = append(q.Costs.Lines, model.QuoteLine{What: fmt.Sprintf("thing%d", i+1), Quantity: fmt.Sprintf("%d g", i+1), Amount: fmt.Sprintf("%d.25 EUR", i+1)})
	}
	return q
}

func shopSample() model.ShopSheet {
	return model.ShopSheet{
		Piece: "Poppy stand", Made: "Mon 30 Nov 2026, 16:00 UTC", When: "base planned for Tue 1 Dec, 12:00", Room: "Room 21 °C",
		Layers: []model.SheetLayer{{Name: "1 base", Resin: "slow resin", Level: "12 mm", Depth: "12.5 mm", A: "462.3 g", B: "208.0 g", Total: "670.3 g", Tints: "grey 10.05 g", Heat: "Peak 27 °C, limit 60 °C", Times: "Sets in 24.6 h"}},
		Groups: []model.SheetGroup{{Title: "Mold", Lines: []string{"hexagon, 40 mm deep"}, Where: "Mold"}, {Title: "Cups", Lines: []string{"Pour 1, cup 1 of 1"}, Where: "Mixing"}},
		Checks: model.SheetGroup{Title: "Before", Lines: []string{"Level", "Gloves on"}, Where: "Mixing"},
		Stops:  model.SheetGroup{Title: "Stop", Lines: []string{"It leaks: seal it"}, Where: "findings"},
		Safety: model.SheetGroup{Title: "Hands", Lines: []string{"Nitrile gloves.", "Air moving."}, Where: "notes", Whole: true},
	}
}

// papers makes each kind of paper with its margins in mm and its most pages.
func papers(care model.CareSheet, labels []model.PaperLabel, quote model.Quote, shop model.ShopSheet) []struct {
	name   string
	make   func() ([]byte, error)
	margin float64
	sizes  [][2]float64 // that its pages may have, mm
} {
	a4, letter := [2]float64{210, 297}, [2]float64{215.9, 279.4}
	return []struct {
		name   string
		make   func() ([]byte, error)
		margin float64
		sizes  [][2]float64
	}{
		{"care card", func() ([]byte, error) { return CareCard(care, made) }, careMargin, [][2]float64{{105, 148}, {148, 210}}},
		{"labels", func() ([]byte, error) { return Labels(labels, made) }, labelMargin, [][2]float64{{labelWide, labelHigh}}},
		{"label sheet", func() ([]byte, error) { return LabelSheet(labels, true, made) }, tileMargin, [][2]float64{letter}},
		{"quote", func() ([]byte, error) { return Quote(quote, made) }, 20, [][2]float64{a4}},
		{"shop sheet", func() ([]byte, error) { return ShopSheet(shop, nil, &model.Project{}, &model.Plan{}, made) }, tileMargin, [][2]float64{a4}},
	}
}

// beyond tells what stands beyond the margins of a paper, or lies on other
// words; nothing where all is well.
func beyond(words []word, sizes [][2]float64, margin float64, may [][2]float64) string {
	const mm = 72 / 25.4
	for _, s := range sizes {
		if !slices.ContainsFunc(may, func(f [2]float64) bool {
			return s[0] > f[0]*mm-0.5 && s[0] < f[0]*mm+0.5 && s[1] > f[1]*mm-0.5 && s[1] < f[1]*mm+0.5
		}) {
			return fmt.Sprintf("a page of %.1f by %.1f mm", s[0]/mm, s[1]/mm)
		}
	}
	const rise = 1.6 // mm: a word is as high as its typeface may rise above and hang below
	for i, w := range words {
		page := sizes[w.page-1]
		if w.x0 < (margin-0.1)*mm || w.x1 > page[0]-(margin-0.1)*mm || w.y0 < (margin-rise)*mm || w.y1 > page[1]-(margin-rise)*mm {
			return fmt.Sprintf("%q is beyond the margins of %.1f mm: %.1f to %.1f, %.1f to %.1f", w.text, margin, w.x0/mm, w.x1/mm, w.y0/mm, w.y1/mm)
		}
		for _, o := range words[:i] {
			if w.page == o.page && min(w.x1, o.x1)-max(w.x0, o.x0) > 0.5 && min(w.y1, o.y1)-max(w.y0, o.y0) > 0.45*min(w.y1-w.y0, o.y1-o.y0) {
				return fmt.Sprintf("%q lies on %q", w.text, o.text)
			}
		}
	}
	return ""
}

// TestPapersAreRead: all words are on each paper, as an independent reader finds
// them, on pages of its size and within its margins, without pictures, and the
// same twice.
func TestPapersAreRead(t *testing.T) {
	care, labels, quote, shop := careSample(), labelSample(4), quoteSample(6), shopSample()
	want := map[string][]string{"care card": append([]string{care.Title, care.What, care.Foot}, care.Lines...), "quote": append([]string{quote.Piece, quote.Made, quote.Valid, quote.Costs.For}, append(quote.Care, quote.Costs.Lacks...)...)}
	for _, f := range quote.Facts {
		want["quote"] = append(want["quote"], f.Name, f.Words)
	}
	for _, l := range append(append(slices.Clone(quote.Costs.Lines), quote.Costs.Sums...), quote.Costs.Price...) {
		want["quote"] = append(want["quote"], l.What, l.Quantity, l.Amount)
	}
	for _, p := range quote.Prices {
		want["quote"] = append(want["quote"], p.Pieces, p.Each, p.All)
	}
	for _, l := range labels {
		want["labels"] = append(append(want["labels"], l.Title), l.Lines...)
	}
	want["label sheet"] = want["labels"]
	l := shop.Layers[0]
	want["shop sheet"] = []string{shop.Piece, shop.Made, shop.When, shop.Room, l.Name, l.Resin, l.Level, l.Depth, l.A, l.B, l.Total, l.Tints, l.Heat, l.Times}
	for _, g := range append(slices.Clone(shop.Groups), shop.Checks, shop.Stops, shop.Safety) {
		want["shop sheet"] = append(append(want["shop sheet"], g.Title), g.Lines...)
	}
	for _, p := range papers(care, labels, quote, shop) {
		data, err := p.make()
		if err != nil {
			t.Fatal(p.name, err)
		}
		dir := t.TempDir()
		words, sizes := read(t, dir, data)
		if bad := beyond(words, sizes, p.margin, p.sizes); bad != "" {
			t.Errorf("%s: %s", p.name, bad)
		}
		if n := map[string]int{"labels": 4, "quote": 2}[p.name]; len(sizes) != max(n, 1) {
			t.Errorf("%s: %d pages", p.name, len(sizes))
		}
		found := map[string]bool{}
		for _, w := range words {
			found[w.text] = true
			for _, part := range strings.Fields(strings.ReplaceAll(w.text, "\u00a0", " ")) {
				found[part] = true
			}
		}
		for _, text := range want[p.name] {
			for _, w := range strings.Fields(text) {
				if !found[w] {
					t.Errorf("%s: %q of %q is not on it", p.name, w, text)
				}
			}
		}
		out, err := exec.Command("pdfimages", "-list", filepath.Join(dir, "card.pdf")).Output()
		if err != nil || bytes.Count(out, []byte("\n")) > 2 {
			t.Errorf("%s holds pictures: %s %v", p.name, out, err)
		}
		if again, err := p.make(); err != nil || !bytes.Equal(again, data) {
			t.Errorf("%s came out otherwise the second time", p.name)
		}
	}
}

// TestPapersTakeWhatIsTyped: whatever a maker types, and however much, the papers
// keep to their pages and margins.
func TestPapersTakeWhatIsTyped(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		some := func(what string, most int) (list []string) {
			for range rapid.IntRange(0, most).Draw(t, what+"s") {
				list = append(list, odd(t, what))
			}
			return list
		}
		care := model.CareSheet{Title: odd(t, "title"), What: odd(t, "what"), Lines: some("line", 7), Foot: odd(t, "foot")}
		labels := []model.PaperLabel{{Title: odd(t, "label"), Lines: some("label line", 6)}}
		quote := quoteSample(rapid.IntRange(0, 60).Draw(t, "lines"))
		quote.Piece, quote.Care, quote.Costs.Lacks = odd(t, "piece"), some("care", 9), some("lack", 6)
		for _, words := range some("fact", 5) {
			quote.Facts = append(quote.Facts, model.QuoteFact{Name: "Fact", Words: words})
		}
		shop := shopSample()
		shop.Piece, shop.Groups[0].Lines, shop.Checks.Lines, shop.Stops.Lines = odd(t, "piece"), some("mold", 20), some("check", 30), some("stop", 5)
		shop.Layers[0].Times, shop.Layers[0].Name = odd(t, "times"), odd(t, "name")
		for range rapid.IntRange(0, 12).Draw(t, "pours") {
			shop.Layers = append(shop.Layers, shop.Layers[0])
		}
		for _, p := range rapid.SampledFrom([][]int{{0, 1}, {2, 3}, {4}}).Draw(t, "papers") {
			p := papers(care, labels, quote, shop)[p]
			data, err := p.make()
			if err != nil {
				t.Fatal(p.name, err)
			}
			words, sizes := read(t, dir, data)
			if most := map[string]int{"quote": 2, "shop sheet": 20}[p.name]; len(sizes) > max(most, 1) {
				t.Fatalf("%s: %d pages", p.name, len(sizes))
			}
			if p.name == "care card" { // more than two sizes of paper hold is cut off at the margin
				words = slices.DeleteFunc(words, func(w word) bool { return w.y1 > sizes[0][1]-careMargin*72/25.4 })
			}
			if bad := beyond(words, sizes, p.margin, p.sizes); bad != "" && !strings.Contains(bad, " lies on ") {
				t.Fatalf("%s: %s", p.name, bad)
			}
		}
	})
}

// TestLabelsFillTheirSheet: 27 labels go on a page of A4, and the next begins
// another; labels of nothing are refused.
func TestLabelsFillTheirSheet(t *testing.T) {
	data, err := LabelSheet(labelSample(28), false, made)
	if err != nil {
		t.Fatal(err)
	}
	words, sizes := read(t, t.TempDir(), data)
	on := map[int]int{}
	for _, w := range words {
		if strings.HasPrefix(w.text, "Board") {
			on[w.page]++
		}
	}
	if len(sizes) != 2 || on[1] != 27 || on[2] != 1 {
		t.Errorf("%v on %d pages", on, len(sizes))
	}
	if _, err := Labels(nil, made); err == nil {
		t.Error("labels of nothing were made")
	}
}

// TestQuoteKeepsItsSums: a quote with more lines than a page holds says how many
// it leaves out, and keeps all sums.
func TestQuoteKeepsItsSums(t *testing.T) {
	data, err := Quote(quoteSample(80), made)
	if err != nil {
		t.Fatal(err)
	}
	words, sizes := read(t, t.TempDir(), data)
	text := ""
	for _, w := range words {
		text += w.text + " "
	}
	if len(sizes) != 2 || !strings.Contains(text, "more, see Price; the sums are of all") || !strings.Contains(text, "120.50") || !strings.Contains(text, "1500.50") {
		t.Errorf("%d pages: %s", len(sizes), text)
	}
}

// TestShopSheetShowsWhatComes: where the first page has no room for all pours,
// those that have been made go to the second.
func TestShopSheetShowsWhatComes(t *testing.T) {
	shop := shopSample()
	shop.Layers = nil
	for i := range 12 {
		shop.Layers = append(shop.Layers, model.SheetLayer{Name: fmt.Sprintf("lift%d", i+1), Poured: i < 6})
	}
	data, err := ShopSheet(shop, nil, &model.Project{}, &model.Plan{}, made)
	if err != nil {
		t.Fatal(err)
	}
	words, _ := read(t, t.TempDir(), data)
	on := map[string]int{}
	for _, w := range words {
		on[w.text] = w.page
	}
	if on["lift1"] != 2 || on["lift7"] != 1 || on["lift12"] != 1 {
		t.Errorf("of twelve pours with six made: %v", on)
	}
}

// TestShopSheetCutsNoneThatGuards: with however many notes of safety, stops and
// pours, each of them is on the sheet whole, and where all of that goes on one
// page it is one page.
func TestShopSheetCutsNoneThatGuards(t *testing.T) {
	for _, n := range []int{2, 12, 40} {
		shop := shopSample()
		shop.Layers, shop.Stops.Lines, shop.Safety.Lines, shop.Checks.Lines = nil, nil, nil, nil
		var want []string
		add := func(list *[]string, what string, some int) {
			for i := range some {
				word := fmt.Sprintf("%s%d", what, i)
				*list = append(*list, word+strings.Repeat(" and so on", 14)+" end"+word)
				want = append(want, word, "end"+word)
			}
		}
		add(&shop.Safety.Lines, "note", n)
		add(&shop.Stops.Lines, "stop", n/4)
		add(&shop.Checks.Lines, "check", n)
		for i := range n / 3 {
			name := fmt.Sprintf("lift%d", i)
			shop.Layers = append(shop.Layers, model.SheetLayer{Name: name})
			want = append(want, name)
		}
		data, err := ShopSheet(shop, nil, &model.Project{}, &model.Plan{}, made)
		if err != nil {
			t.Fatal(err)
		}
		words, sizes := read(t, t.TempDir(), data)
		if bad := beyond(words, sizes, tileMargin, [][2]float64{{210, 297}}); bad != "" {
			t.Errorf("%d: %s", n, bad)
		}
		found := map[string]bool{}
		for _, w := range words {
			found[w.text] = true
		}
		for _, w := range want {
			// Of a long check the first page shows two rows.
			if !found[w] && !strings.HasPrefix(w, "endcheck") {
				t.Errorf("%d of each: %q is on none of %d pages", n, w, len(sizes))
			}
		}
		if few := n <= 2; few != (len(sizes) == 1) {
			t.Errorf("%d of each: %d pages", n, len(sizes))
		}
	}
}
