package drawing

import (
	"context"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	printing "meniscus/app/paper"
	"meniscus/model"
	"meniscus/model/unit"
)

// job is a project with all that follows from it.
type job struct {
	name string
	p    *model.Project
	pl   *model.Plan
	c    model.Curing
}

// printedAt is when the papers of these tests were made.
var printedAt = time.Date(2026, 11, 30, 16, 0, 0, 0, time.UTC)

// demosFull gives the demo jobs with their plans.
func demosFull(t *testing.T) (list []job) {
	t.Helper()
	jobs, names := demoJobs(t)
	for i, p := range jobs {
		list = append(list, jobOf(t, names[i], p))
	}
	return list
}

func jobOf(t *testing.T, name string, p *model.Project) job {
	t.Helper()
	pl := model.Make(*p)
	c, err := model.Simulate(context.Background(), p, &pl)
	if err != nil {
		t.Fatal(err)
	}
	return job{name, p, &pl, c}
}

// crowded is a demo with far more of everything than a page holds.
func crowded(t *testing.T, j job) job {
	p := *j.p
	p.Name = "Crowded table with a very long name that nobody would ever give to a table, and then some more"
	for i := range 14 {
		w := p.Pieces[0]
		w.ID, w.Name = fmt.Sprintf("p%d", 100+i), fmt.Sprintf("offcut number %d from the far end of the board", i)
		p.Pieces = append(p.Pieces[:len(p.Pieces):len(p.Pieces)], w)
		in := p.Inserts[0]
		in.ID, in.Name = fmt.Sprintf("i%d", 100+i), fmt.Sprintf("pebbles of kind %d", i)
		p.Inserts = append(p.Inserts[:len(p.Inserts):len(p.Inserts)], in)
		p.Mold.Hold.Seams = append(p.Mold.Hold.Seams[:len(p.Mold.Hold.Seams):len(p.Mold.Hold.Seams)], model.Seam{ID: fmt.Sprintf("g%d", 100+i), Name: fmt.Sprintf("joint %d", i), Gap: unit.Dim{Value: 0.2 * unit.Millimetre, Written: "0.2 mm"}})
		l := p.Layers[0]
		l.ID, l.Name, l.By, l.To = fmt.Sprintf("l%d", 100+i), fmt.Sprintf("thin lift %d", i), model.ToDepth, unit.Dim{Value: unit.Millimetre, Written: "1 mm"}
		p.Layers = append(p.Layers[:len(p.Layers):len(p.Layers)], l)
	}
	return jobOf(t, "crowded", &p)
}

func (j job) sheet(t *testing.T) (model.ShopSheet, string) {
	t.Helper()
	timed := j.c.Timed(j.pl)
	s := model.NewShopSheet(j.p, &timed, &j.c, printedAt)
	data, err := printing.ShopSheet(s, OnPaper{}, j.p, &timed, printedAt)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), j.name+".pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return s, file
}

// TestShopSheetIsOnePage: the demos, in both units, each on one page within its
// margins of 12 mm, in text that does not lie on other text; with its times where
// it is planned.
func TestShopSheetIsOnePage(t *testing.T) {
	jobs := everyJob(t)
	p := *jobs[2].p // the hall shelf
	p.Shop.Planned = printedAt.Add(20 * time.Hour)
	for _, j := range append(jobs, jobOf(t, "planned", &p)) {
		s, file := j.sheet(t)
		pages, sizes := readPages(t, file)
		if len(pages) != 1 {
			t.Errorf("%s: %d pages", j.name, len(pages))
		}
		keepsApart(t, j.name, readWords(t, file), sizes)
		j.holds(t, &s, pages[0])
	}
}

// keepsApart holds the words of a shop sheet within its margins, and off each
// other.
func keepsApart(t *testing.T, name string, words []printedWord, sizes [][2]float64) {
	t.Helper()
	for i, w := range words {
		// A word is as high as its typeface may rise above and hang below.
		if size := sizes[w.page-1]; w.x0 < 11.9 || w.x1 > size[0]-11.9 || w.y0 < 10.5 || w.y1 > size[1]-11.5 {
			t.Errorf("%s: %q is beyond the margins: %.1f to %.1f, %.1f to %.1f mm", name, w.text, w.x0, w.x1, w.y0, w.y1)
		}
		for _, o := range words[:i] {
			if w.page == o.page && min(w.x1, o.x1)-max(w.x0, o.x0) > 0.3 && min(w.y1, o.y1)-max(w.y0, o.y0) > 0.45*min(w.y1-w.y0, o.y1-o.y0) {
				t.Errorf("%s: %q lies on %q", name, w.text, o.text)
			}
		}
	}
}

// TestCrowdedSheetCutsNothing: a project with far more than a page holds has on
// its further pages all that the first one has no room for: every safety note at
// length, every stop, every pour, every check and every line of its lists.
func TestCrowdedSheetCutsNothing(t *testing.T) {
	j := crowded(t, demosFull(t)[1]) // of the hall shelf
	s, file := j.sheet(t)
	pages, sizes := readPages(t, file)
	keepsApart(t, j.name, readWords(t, file), sizes)
	text := strings.Join(pages, " ")
	if len(pages) < 2 || len(s.Safety.Full) < 8 || len(s.Stops.Lines) < 20 || len(s.Layers) < 12 {
		t.Fatalf("not crowded: %d pages", len(pages))
	}
	say := func(list ...string) {
		for _, line := range list {
			if !strings.Contains(text, strings.Join(strings.Fields(strings.ReplaceAll(line, "\u00a0", " ")), " ")) {
				t.Errorf("%q is on no page", line)
			}
		}
	}
	say(s.Safety.Full...)
	say(s.Stops.Lines...)
	for _, l := range s.Layers {
		say(l.Total, l.Level)
		say(strings.Fields(l.Name)[1])
	}
	for _, g := range s.Groups {
		for _, line := range g.Lines {
			say(line[:min(len(line), 30)])
		}
	}
	for _, line := range s.Checks.Lines {
		say(line[:min(len(line), 30)])
	}
	if !strings.Contains(pages[0], "notes are on page 2: read them before the pour") || !strings.Contains(pages[0], fmt.Sprintf("1 of %d", len(pages))) {
		t.Errorf("the first page does not say where the rest is: %s", pages[0])
	}
}

// holds holds the text of a sheet against the plan.
func (j job) holds(t *testing.T, s *model.ShopSheet, text string) {
	t.Helper()
	say := func(what, figure string) {
		if !strings.Contains(text, strings.Join(strings.Fields(figure), " ")) {
			t.Errorf("%s: %s %q is not on the sheet", j.name, what, figure)
		}
	}
	st := j.p.Style
	say("name", j.p.Name)
	for i := range j.pl.Layers {
		l := &j.pl.Layers[i]
		say("layer", l.Name)
		say("A", st.MassTo(l.Mix.A, l.Mix.Step))
		say("B", st.MassTo(l.Mix.B, l.Mix.Step))
		say("total", st.MassTo(l.Mix.Total, l.Mix.Step))
		say("level", st.Length(l.Top))
		say("depth", st.Length(l.Depth))
		say("peak", st.Temperature(j.c.Layers[i].PeakLimit.Value))
		for _, a := range l.Mix.Additives {
			say("tint", a.Name)
		}
		if cups := j.c.CupsOf(j.pl, l.ID); cups != nil {
			for _, b := range cups.Batches {
				say("cup", st.MassTo(b.A, l.Mix.Step))
			}
		}
	}
	say("fill line", st.Length(j.pl.Mold.FillLine))
	for i := range j.pl.Inserts {
		say("insert", fmt.Sprintf("%d × %s", j.pl.Inserts[i].Count, j.pl.Inserts[i].Name))
	}
	if j.name == "planned" {
		at := j.p.Shop.Planned.Add(j.c.Layers[0].RecoatFrom.Value.Duration()).In(j.p.Shop.Place())
		set := j.p.Shop.Planned.Add(j.c.Layers[0].GelLast.Value.Duration()).In(j.p.Shop.Place())
		say("planned", j.p.Shop.Planned.In(j.p.Shop.Place()).Format("Mon 2 Jan, 15:04"))
		say("set", "set "+set.Format("Mon 2 Jan, 15:04"))
		say("next pour", "next pour from "+at.Format("15:04")) // on the day that it sets
	}
	for _, line := range s.Safety.Lines {
		for _, w := range strings.Fields(line) {
			say("safety", w)
		}
	}
	if n := len(j.pl.Safety); len(s.Safety.Lines) < n+1 {
		t.Errorf("%s: %d lines for %d safety notes", j.name, len(s.Safety.Lines), n)
	}
}

// TestDrawingIsTrueToItsScale: in the SVG the rim is as wide as the mold divided
// by the scale that is written beside it, and the cavity of the section as wide
// and as deep.
func TestDrawingIsTrueToItsScale(t *testing.T) {
	for _, j := range demosFull(t) {
		data, err := OnPaper{}.SVG(j.p, j.pl, true, true)
		if err != nil {
			t.Fatal(err)
		}
		var doc struct {
			Width string `xml:"width,attr"`
			View  string `xml:"viewBox,attr"`
			Paths []struct {
				Class string `xml:"class,attr"`
				D     string `xml:"d,attr"`
			} `xml:"path"`
			Texts []string `xml:"text"`
		}
		if err := xml.Unmarshal(data, &doc); err != nil {
			t.Fatal(err)
		}
		if !strings.HasSuffix(doc.Width, "mm") || !strings.HasPrefix(doc.View, "0 0 "+strings.TrimSuffix(doc.Width, "mm")+" ") {
			t.Errorf("%s: a unit is no millimetre: %s, %s", j.name, doc.Width, doc.View)
		}
		var scales []float64
		for _, text := range doc.Texts {
			if m := regexp.MustCompile(`Scale 1:(\d+), in mm`).FindStringSubmatch(text); m != nil {
				v, _ := strconv.ParseFloat(m[1], 64)
				scales = append(scales, v)
			}
		}
		if len(scales) != 2 {
			t.Fatalf("%s: scales %v", j.name, scales)
		}
		var outlines [][2]float64
		for _, p := range doc.Paths {
			if p.Class == "outline" {
				outlines = append(outlines, extentOf(p.D))
			}
		}
		rim := j.pl.Drawing.Cavities[0].Rim
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, q := range rim {
			lo, hi = min(lo, q.X), max(hi, q.X)
		}
		if got, want := outlines[0][0]*scales[0], 1000*(hi-lo); math.Abs(got-want) > 0.02*scales[0]+0.1*scales[0] {
			t.Errorf("%s: the mold is %.2f mm long, %.2f at 1:%.0f", j.name, want, got, scales[0])
		}
		cavity := j.pl.Drawing.Section.Cavity
		last := outlines[len(outlines)-1]
		if got, want := last[0]*scales[1], 1000*(cavity[len(cavity)-1].X-cavity[0].X); math.Abs(got-want) > 0.1*scales[1] {
			t.Errorf("%s: the section is %.2f mm across, %.2f at 1:%.0f", j.name, want, got, scales[1])
		}
		if got, want := last[1]*scales[1], 1000*j.pl.Drawing.Section.Depth; math.Abs(got-want) > 0.1*scales[1] {
			t.Errorf("%s: the section is %.2f mm deep, %.2f at 1:%.0f", j.name, want, got, scales[1])
		}
	}
}

// extentOf gives how wide and high a path is.
func extentOf(d string) [2]float64 {
	lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for i, n := range regexp.MustCompile(`-?[\d.]+`).FindAllString(d, -1) {
		v, _ := strconv.ParseFloat(n, 64)
		lo[i%2], hi[i%2] = min(lo[i%2], v), max(hi[i%2], v)
	}
	return [2]float64{hi[0] - lo[0], hi[1] - lo[1]}
}

// TestNothingIsDrawnOfNothing: without a mold there is no drawing, and that is
// said.
func TestNothingIsDrawnOfNothing(t *testing.T) {
	p := model.Project{}
	pl := model.Make(p)
	if _, err := (OnPaper{}).SVG(&p, &pl, true, true); err == nil || !strings.Contains(err.Error(), "measure the mold first") {
		t.Errorf("%v", err)
	}
	if data, err := printing.ShopSheet(model.NewShopSheet(&p, &pl, &model.Curing{}, printedAt), OnPaper{}, &p, &pl, printedAt); err != nil || len(data) == 0 {
		t.Errorf("an empty shop sheet: %v", err)
	}
}
