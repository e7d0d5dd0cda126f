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

// TestSheetCommand: a shop sheet is written of an exported project, with the
// painter's drawings and what the answer says is on it; a drawing as an SVG.
func TestSheetCommand(t *testing.T) {
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
		if code := Command(args, at, &out, &problems); code != 2 || problems.Len() == 0 {
			t.Errorf("%v: code %d, %q", args, code, problems.String())
		}
	}
}

// TestPrinterIsAsked: the system's print command gets the file, to be printed at
// its own size (print-scaling of IPP, PWG 5100.13; value from memory), and what it says
// when it fails is handed on.
func TestPrinterIsAsked(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("PATH", dir)
	if FindPrinter() != nil {
		t.Error("there is a printer where there is no command")
	}
	said := filepath.Join(dir, "said")
	for _, c := range []struct{ script, fails string }{
		{"#!/bin/sh\necho \"$@\" > '" + said + "'\n", ""},
		{"#!/bin/sh\necho 'no default destination' >&2\nexit 1\n", "no default destination"},
		{"#!/bin/sh\nexit 1\n", "the printer did not take it"},
	} {
		if err := os.WriteFile(filepath.Join(dir, "lp"), []byte(c.script), 0o755); err != nil {
			t.Fatal(err)
		}
		err := FindPrinter()("/a/b c.pdf")
		if (err != nil) != (c.fails != "") || err != nil && !strings.Contains(err.Error(), c.fails) {
			t.Errorf("%v, want %q", err, c.fails)
		}
	}
	if data, _ := os.ReadFile(said); strings.TrimSpace(string(data)) != "-o print-scaling=none -- /a/b c.pdf" {
		t.Errorf("the command got %q", data)
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
