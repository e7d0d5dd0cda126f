package app

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"meniscus/app/paper"
	"meniscus/model"
)

// lines is a painter of two lines.
type lines struct{}

func (lines) Above(p *model.Project, _ *model.Plan, on *paper.Patch) {
	on.Text(1, 5, "above "+p.Name, 3, false, false)
}
func (lines) Section(_ *model.Project, _ *model.Plan, on *paper.Patch) {
	on.Line(paper.Shade{Cover: 1}, 0.25, nil, false, [][2]float64{{0, 0}, {on.Wide(), on.High()}})
}
func (lines) SVG(_ *model.Project, _ *model.Plan, above, section bool) ([]byte, error) {
	return []byte("<svg/>"), nil
}
func (lines) FinishSVG(*model.Project, *model.Plan, bool) ([]byte, error) {
	return []byte("<svg/>"), nil
}

// TestSheetCommand: a shop sheet is written of an exported piece, with the
// painter's drawings and what the answer says is on it; a drawing as an SVG.
func TestSheetCommand(t *testing.T) {
	alike(t, "TestCureCommand")
	from, dir := "../testdata/demo-hall-shelf.json", t.TempDir()
	at := time.Date(2026, 11, 30, 16, 0, 0, 0, time.UTC)
	to := filepath.Join(dir, "sheet.pdf")
	var out, problems bytes.Buffer
	if code := (Commands{Painter: lines{}}).Run([]string{"sheet", from, to}, at, &out, &problems); code != 0 || problems.Len() > 0 {
		t.Fatalf("code %d: %s", code, problems.String())
	}
	text, err := exec.Command("pdftotext", "-layout", to, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"above Hall shelf (demo)", "Shop sheet", "Check square: 40 mm", "2470.5 g"} {
		if !strings.Contains(strings.Join(strings.Fields(string(text)), " "), want) {
			t.Errorf("no %q on the sheet", want)
		}
	}
	if !strings.Contains(out.String(), `"total": "2470.5 g"`) {
		t.Errorf("the answer does not say what is on it: %.300s", out.String())
	}
	drawing := filepath.Join(dir, "drawing.svg")
	if code := (Commands{Painter: lines{}}).Run([]string{"draw", from, drawing}, at, &out, &problems); code != 0 {
		t.Fatalf("code %d: %s", code, problems.String())
	}
	if data, err := os.ReadFile(drawing); err != nil || string(data) != "<svg/>" {
		t.Errorf("%q %v", data, err)
	}
	for _, args := range [][]string{{"sheet", "no.json", to}, {"draw", "no.json", drawing}, {"draw", from, drawing}, {"sheet", from}, {"sheet", from, filepath.Join(dir, "no", "x.pdf")}} {
		problems.Reset()
		if code := runCommand(args, at, &out, &problems); code != 2 || problems.Len() == 0 {
			t.Errorf("%v: code %d, %q", args, code, problems.String())
		}
	}
}

// TestPrinterIsAsked: the system's print command gets the file, to be printed at
// its own size (print-scaling of IPP, PWG 5100.13) on the paper that it is made for
// (media by its name, or Custom.WIDTHxLENGTHmm, as lp's own manual has them; all
// values from memory), and what it says when it fails is handed on.
func TestPrinterIsAsked(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("PATH", dir)
	if FindPrinter() != nil {
		t.Error("there is a printer where there is no command")
	}
	script := func(text string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, "lp"), []byte("#!/bin/sh\n"+text), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	said := filepath.Join(dir, "said")
	script("printf '%s\n' \"$@\" > '" + said + "'\n")
	at := time.Date(2026, 11, 30, 16, 0, 0, 0, time.UTC)
	label := []model.PaperLabel{{Title: "A"}}
	long := model.CareSheet{Title: "A", Lines: []string{strings.Repeat("wipe it dry ", 60), strings.Repeat("no sun ", 60), strings.Repeat("no heat ", 60), strings.Repeat("no knife ", 60)}}
	for _, c := range []struct {
		media string
		data  func() ([]byte, error)
	}{
		{"A4", func() ([]byte, error) { return paper.Quote(model.Quote{}, at) }},
		{"Letter", func() ([]byte, error) { return paper.Quote(model.Quote{Letter: true}, at) }},
		{"A4", func() ([]byte, error) {
			return paper.ShopSheet(model.ShopSheet{}, nil, &model.Project{}, &model.Plan{}, at)
		}},
		{"Letter", func() ([]byte, error) {
			return paper.ShopSheet(model.ShopSheet{Letter: true}, nil, &model.Project{}, &model.Plan{}, at)
		}},
		{"A5", func() ([]byte, error) { return paper.Card(model.PourCard{}, at) }},
		{"A6", func() ([]byte, error) { return paper.CareCard(model.CareSheet{Title: "A"}, at) }},
		{"A5", func() ([]byte, error) { return paper.CareCard(long, at) }},
		{"A4", func() ([]byte, error) { return paper.LabelSheet(label, false, at) }},
		{"Letter", func() ([]byte, error) { return paper.LabelSheet(label, true, at) }},
		{"Custom.60x30mm", func() ([]byte, error) { return paper.Labels(label, at) }},
	} {
		data, err := c.data()
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, "b c.pdf")
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := FindPrinter()(file); err != nil {
			t.Fatal(err)
		}
		want := "-o\nprint-scaling=none\n-o\nmedia=" + c.media + "\n--\n" + file + "\n"
		if got, _ := os.ReadFile(said); string(got) != want {
			t.Errorf("the command got %q, want %q", got, want)
		}
	}
	other := filepath.Join(dir, "other.pdf")
	if err := os.WriteFile(other, []byte("%PDF-1.7"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ script, file, fails string }{
		{"exit 0", other, ""},
		{"echo 'no default destination' >&2\nexit 1\n", other, "no default destination"},
		{"exit 1\n", other, "the printer did not take it"},
		{"exit 0", filepath.Join(dir, "none.pdf"), "none.pdf"},
	} {
		script(c.script)
		if err := FindPrinter()(c.file); (err != nil) != (c.fails != "") || err != nil && !strings.Contains(err.Error(), c.fails) {
			t.Errorf("%v, want %q", err, c.fails)
		}
	}
}

// TestPrintTellsHowItWent: a paper is printed in the background and what came of
// it is told; without a print command that is said at once.
func TestPrintTellsHowItWent(t *testing.T) {
	posts := make(chan func(), 8) // what is handed to the interface's goroutine, which is this one
	s := &Session{jobs: NewJobs(func(f func()) { posts <- f })}
	defer s.jobs.Stop()
	outcome := func(file string) (told error) {
		done := false
		s.Print(file, func(err error) { told, done = err, true })
		for !done {
			(<-posts)()
		}
		return told
	}
	if s.CanPrint() || outcome("x.pdf") == nil {
		t.Error("it was printed without a printer")
	}
	out := errors.New("out of paper")
	s.printer = func(path string) error {
		if path != "x.pdf" {
			return nil
		}
		return out
	}
	if !s.CanPrint() || !errors.Is(outcome("x.pdf"), out) {
		t.Error("it is not told what went wrong")
	}
	if outcome("y.pdf") != nil {
		t.Error("what was printed is told to have failed")
	}
}

// TestPapersLieApart: papers that are opened lie in a folder of their own that
// only this user reads, whatever they are called.
func TestPapersLieApart(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	s := &Session{}
	one, err := s.Lay("../../a shop sheet.pdf", []byte("one"))
	if err != nil {
		t.Fatal(err)
	}
	two, err := s.Lay("b.pdf", []byte("two"))
	if err != nil || filepath.Dir(one) != filepath.Dir(two) || filepath.Base(one) != "a shop sheet.pdf" {
		t.Errorf("%q and %q, %v", one, two, err)
	}
	info, err := os.Stat(filepath.Dir(one))
	if err != nil || info.Mode().Perm() != 0o700 {
		t.Errorf("%v %v", info.Mode(), err)
	}
}

// TestSheetKinds: each paper that a name leads to is a PDF that says what the
// answer says is on it; without a name it is the shop sheet, and another name is
// refused with those that there are.
func TestSheetKinds(t *testing.T) {
	from, to := "../testdata/demo-poppy-stand.json", filepath.Join(t.TempDir(), "out.pdf")
	at := time.Date(2026, 11, 30, 16, 0, 0, 0, time.UTC)
	run := func(args ...string) (string, string, int) {
		var out, problems bytes.Buffer
		code := (Commands{Painter: lines{}}).Run(append([]string{"sheet"}, args...), at, &out, &problems)
		return out.String(), problems.String(), code
	}
	for kind, want := range map[string]string{"card": `"card":`, "care": "Poppy stand", "label": "Poppy stand", "quote": "148.00 EUR", "shop": `"sheet":`} {
		os.Remove(to)
		out, problems, code := run(kind, from, to)
		data, err := os.ReadFile(to)
		if code != 0 || problems != "" || err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) || !strings.Contains(out, want) {
			t.Errorf("%s: exit %d, %q, %v, %.300q", kind, code, problems, err, out)
		}
	}
	named, _, _ := run("shop", from, to)
	if plain, _, _ := run(from, to); plain != named {
		t.Error("without a name it is not the shop sheet")
	}
	if _, problems, code := run("poem", from, to); code != 2 || !strings.Contains(problems, "shop, card, care, label, quote") {
		t.Errorf("exit %d, %q", code, problems)
	}
	if _, problems, code := run("care", "no.json", to); code != 2 || !strings.Contains(problems, "no.json") {
		t.Errorf("exit %d, %q", code, problems)
	}
}
