package drawing

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	printing "meniscus/app/paper"
	"meniscus/model"
	"meniscus/model/unit"
)

// everyPaper is one paper of a job, as it was written, and what it promises.
type everyPaper struct {
	name   string
	file   string
	pages  int          // 0 means as many as it takes
	sizes  [][2]float64 // that its pages may have, in mm
	margin float64      // that no ink is in, in mm
	holds  func(say func(what, figure string), pages []string)
}

// everyJob gives the demo jobs twice: as they are, and for an American shop,
// which prints on Letter and reads degrees Fahrenheit.
func everyJob(t *testing.T) (list []job) {
	t.Helper()
	for _, j := range demosFull(t) {
		p := *j.p
		p.Style.Lengths, p.Style.Temperatures = unit.InInches, unit.InFahrenheit
		list = append(list, j, jobOf(t, j.name+"-letter", &p))
	}
	return list
}

// papersOf writes every paper of a job, into PAPERS_PICTURES where that is set.
func papersOf(t *testing.T, j job) (list []everyPaper) {
	t.Helper()
	dir := os.Getenv("PAPERS_PICTURES")
	if dir == "" {
		dir = t.TempDir()
	}
	sheet := [2]float64{210, 297} // ISO 216
	if strings.HasSuffix(j.name, "-letter") {
		sheet = [2]float64{215.9, 279.4} // ANSI/ASME Y14.1, size A
	}
	a6, a5, label := [2]float64{105, 148}, [2]float64{148, 210}, [2]float64{60, 30}
	add := func(name string, pages int, margin float64, holds func(func(string, string), []string), data []byte, err error, sizes ...[2]float64) {
		t.Helper()
		if err != nil {
			t.Fatalf("%s: %s: %v", j.name, name, err)
		}
		file := filepath.Join(dir, fmt.Sprintf("%s %s.pdf", j.name, name))
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		list = append(list, everyPaper{name, file, pages, sizes, margin, holds})
	}
	timed := j.c.Timed(j.pl)
	shop := model.NewShopSheet(j.p, &timed, &j.c, printedAt)
	data, err := printing.ShopSheet(shop, OnPaper{}, j.p, &timed, printedAt)
	add("shop sheet", 1, 12, func(_ func(string, string), pages []string) { j.holds(t, &shop, pages[0]) }, data, err, sheet)
	data, err = printing.Card(model.NewPourCard(j.p, &timed, &j.c, printedAt), printedAt)
	add("pour card", 0, 11, func(say func(string, string), _ []string) { j.cardHolds(&timed, say) }, data, err, a5)
	data, err = printing.CareCard(model.NewCareSheet(j.p, j.pl, printedAt), printedAt)
	add("care card", 1, 9, func(say func(string, string), _ []string) { j.careHolds(say) }, data, err, a6, a5)
	labels := model.PieceLabels(j.p, j.pl, printedAt)
	data, err = printing.Labels(labels, printedAt)
	add("labels", j.pl.Mold.Count, 2.5, func(say func(string, string), pages []string) { j.labelsHold(t, say, pages) }, data, err, label)
	data, err = printing.LabelSheet(labels, model.OnLetter(j.p.Style), printedAt)
	add("label sheet", 1, 12, func(say func(string, string), _ []string) { say("size", j.size()) }, data, err, sheet)
	for _, costs := range []bool{false, true} {
		q, err := model.NewQuote(j.p, j.pl, model.CostFacts{}, costs, printedAt)
		if err != nil {
			t.Fatal(err)
		}
		name, pages := "quote", 1
		if costs {
			name, pages = "quote with costs", 2
		}
		data, err = printing.Quote(q, printedAt)
		add(name, pages, 20, func(say func(string, string), pages []string) { j.quoteHolds(t, costs, say, pages) }, data, err, sheet)
	}
	return list
}

// size writes the finished size as the plan has it.
func (j job) size() string {
	s, trim := j.p.Style, &j.pl.Finish.Trim
	return s.Length(trim.Length.Value) + " × " + s.Length(trim.Width.Value) + " × " + s.Length(trim.Thickness.Value)
}

// cardHolds holds a pour card against the plan: what goes into each cup and what
// the scale reads then, how deep, by when it is in the mold, and the times after.
func (j job) cardHolds(pl *model.Plan, say func(what, figure string)) {
	s := j.p.Style
	cup := j.p.Mixing.Cup.Value
	for i := range pl.Layers {
		l := &pl.Layers[i]
		say("depth", fmt.Sprintf("%s of %s", s.Length(l.Depth), l.SheetName))
		say("below the rim", s.Length(l.BelowRim)+" below the rim")
		say("working time", "within "+s.Span(l.Times.Working.Value))
		cups := j.c.CupsOf(pl, l.ID)
		parts := [][2]unit.Mass{{l.Mix.A, l.Mix.B}}
		if cups != nil {
			parts = nil
			for _, b := range cups.Batches {
				parts = append(parts, [2]unit.Mass{b.A, b.B})
			}
		}
		for _, p := range parts {
			a, b := whole(p[0], l.Mix.Step), whole(p[1], l.Mix.Step)
			say("A", "+"+s.MassTo(a, l.Mix.Step))
			say("B", "+"+s.MassTo(b, l.Mix.Step))
			say("scale after A", s.MassTo(cup+a, l.Mix.Step))
			say("scale after B", s.MassTo(cup+a+b, l.Mix.Step))
		}
		if i+1 < len(pl.Layers) {
			say("next pour from", s.Span(l.Times.RecoatFrom.Value)+" after this pour")
			say("next pour before", s.Span(l.Times.RecoatTo.Value)+" after this pour")
		} else {
			say("demold", s.Span(l.Times.Demold.Value)+" after this pour")
		}
	}
	for i := range pl.Inserts {
		say("insert", fmt.Sprintf("%s, %d of them", pl.Inserts[i].Name, pl.Inserts[i].Count))
	}
	say("gloves", "Nitrile gloves")
}

// whole rounds a mass to a scale's steps.
func whole(m, step unit.Mass) unit.Mass { return step.Times(math.Round(m.Per(step))) }

// careHolds holds a care card against the plan: the warmest thing that it bears,
// and at what the resin softens, in whole degrees.
func (j job) careHolds(say func(what, figure string)) {
	u := &j.pl.Finish.Use
	say("name", j.p.Name)
	if u.Softens.Typical {
		say("that it is not known", "The supplier does not say at what temperature this resin softens")
		return
	}
	degrees := func(k unit.Temperature) string {
		if c := float64(k) - 273.15; j.p.Style.Temperatures == unit.InFahrenheit {
			return fmt.Sprintf("%.0f °F", c*9/5+32)
		} else {
			return fmt.Sprintf("%.0f °C", c)
		}
	}
	say("heat limit", "Nothing warmer than "+degrees(u.Limit)+" on it")
	say("softening", "softens at "+degrees(u.Softens.Value))
}

// labelsHold holds the labels against the plan: one for each piece, each with
// its size and the lots of its pours.
func (j job) labelsHold(t *testing.T, say func(what, figure string), pages []string) {
	say("name", strings.Split(j.p.Name, " (")[0])
	for i, page := range pages {
		if !strings.Contains(page, j.size()) {
			t.Errorf("%s: label %d lacks the size %s: %s", j.name, i+1, j.size(), page)
		}
		for _, l := range j.p.Layers {
			if !strings.Contains(page, l.Lot) {
				t.Errorf("%s: label %d lacks the lot %s: %s", j.name, i+1, l.Lot, page)
			}
		}
	}
}

// quoteHolds holds a quote against the project: the price that is asked, to the
// cent, for one and for all pieces; the size; and of the maker's costs nothing on
// the customer's page.
func (j job) quoteHolds(t *testing.T, costs bool, say func(what, figure string), pages []string) {
	asked := j.p.Money.Asked.Minor
	cents := func(minor int64) string {
		return fmt.Sprintf("%d.%02d %s", minor/100, minor%100, j.p.Money.Asked.Currency)
	}
	for _, n := range []int{1, 3, 10} {
		n *= max(j.p.Money.Pieces, 1)
		say("price", fmt.Sprintf("%d piece", n))
		say("price of all", cents(asked)+" "+cents(asked*int64(n)))
	}
	say("size", j.size())
	say("until", printedAt.AddDate(0, 0, 30).Format("2 Jan 2006"))
	for i := range j.pl.Inserts {
		say("insert", fmt.Sprintf("%d × %s", j.pl.Inserts[i].Count, j.pl.Inserts[i].Name))
	}
	c, err := model.CostOf(j.p, j.pl, model.CostFacts{}, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, own := range []string{c.Total.String(), c.Work.String(), c.Materials.String(), j.p.Money.Rate.String()} {
		if strings.Contains(pages[0], " "+own) {
			t.Errorf("%s: the maker's %s is on the customer's page", j.name, own)
		}
	}
	if costs {
		say("cost", c.Total.String())
		say("work", c.Work.String())
		say("materials", c.Materials.String())
	}
}

// TestEveryPaperHoldsThePlan: of every demo job, on A4 and on Letter, each paper
// has the pages that it promises, each of its size; its fonts are embedded and its
// text is text; no ink lies in its margins; and its figures are those of the plan.
func TestEveryPaperHoldsThePlan(t *testing.T) {
	for _, j := range everyJob(t) {
		for _, p := range papersOf(t, j) {
			pages, sizes := readPages(t, p.file)
			name := j.name + ", " + p.name
			if p.pages > 0 && len(pages) != p.pages {
				t.Errorf("%s: %d pages, not %d", name, len(pages), p.pages)
			}
			for i, s := range sizes {
				near := func(f [2]float64) bool { return math.Abs(s[0]-f[0]) < 0.2 && math.Abs(s[1]-f[1]) < 0.2 }
				if !near(p.sizes[0]) && !near(p.sizes[len(p.sizes)-1]) {
					t.Errorf("%s: page %d is %.1f by %.1f mm", name, i+1, s[0], s[1])
				}
			}
			text := strings.Join(pages, " ")
			p.holds(func(what, figure string) {
				t.Helper()
				if !strings.Contains(text, strings.Join(strings.Fields(strings.ReplaceAll(figure, "\u00a0", " ")), " ")) {
					t.Errorf("%s: %s %q is not on it: %s", name, what, figure, text)
				}
			}, pages)
			for i, img := range drawn(t, p.file, 72, 0, nil) {
				if x, y, far := inked(img, 72, p.margin); far {
					t.Errorf("%s: page %d has ink at %.1f, %.1f mm, beyond its margins of %.1f mm", name, i+1, x, y, p.margin)
				}
			}
		}
	}
}

// TestCheckSquareMeasuresTrue has pdftoppm draw every demo's shop sheet on both
// papers and measures the square in it, black on white: 40 mm each way, to a
// quarter of a millimetre.
func TestCheckSquareMeasuresTrue(t *testing.T) {
	for _, j := range everyJob(t) {
		s, file := j.sheet(t)
		high := 297.0
		if s.Letter {
			high = 279.4
		}
		const dpi = 254 // ten dots a millimetre
		// The lower left corner of the page, the margins of 12 mm and all: from the
		// middle of the square outwards to its lines, across its upper half, which is
		// empty.
		left, top := 0, int(10*(high-60))
		img := drawn(t, file, dpi, 1, []int{left, top, 600, 600})[0]
		dark := func(x, y int) bool { return img.at(x, y) < 128 }
		x, y := 120+200, int(10*(high-12))-top-250
		run := func(dx, dy int) int {
			n := 0
			for !dark(x+n*dx, y+n*dy) {
				if n++; n > 300 {
					t.Fatalf("%s: there is no square", j.name)
				}
			}
			return n
		}
		foot := img.high - 1
		for !dark(x-run(-1, 0)+5, foot) {
			foot--
		}
		if w, h := run(-1, 0)+run(1, 0), foot-(y-run(0, -1)); math.Abs(float64(w)-400) > 2.5 || math.Abs(float64(h)-400) > 2.5 {
			t.Errorf("%s: the check square is %.1f by %.1f mm", j.name, float64(w)/10, float64(h)/10)
		}
		if c := img.at(5, 5); c != 255 {
			t.Errorf("%s: the paper is %d, not white", j.name, c)
		}
	}
}
