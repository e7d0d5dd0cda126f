package app

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// slabFile exports a job with a traced slab of 700 by 300 mm and a tray's cavity
// of 400 by 250 mm in the middle of its near edge, and gives the file's name.
func slabFile(t *testing.T, inches, laid bool) string {
	t.Helper()
	dim := func(mm float64) unit.Dim {
		return unit.Dim{Value: unit.Length(mm) * unit.Millimetre, Written: fmt.Sprint(mm, " mm")}
	}
	p := model.Blank("j1", "Slab job")
	if inches {
		p.Style.Lengths = unit.InInches
	}
	p.Mold.Length, p.Mold.Width, p.Mold.Depth = dim(400), dim(250), dim(40)
	p.Layers[p.LayerIndex(p.AddLayer())].To = dim(26)
	slab := p.Slab(p.AddSlab("Elm slab"))
	slab.Thickness = dim(26)
	face := &slab.Upper
	face.Wide, face.High, face.By, face.Touch = 2000, 1200, model.ByCard, 1
	face.Long, face.Broad = dim(300), dim(200)
	for i, at := range [][2]float64{{600, 400}, {1200, 400}, {1200, 800}, {600, 800}} {
		face.Marks = append(face.Marks, model.Mark{ID: fmt.Sprint("k", 100+i), X: at[0], Y: at[1]})
	}
	face.Rings = []model.TracedRing{{ID: "r200", Kind: model.RingWood, Points: shape.Ring{{X: 300, Y: 300}, {X: 1700, Y: 300}, {X: 1700, Y: 900}, {X: 1000, Y: 860}, {X: 300, Y: 900}}}}
	if laid {
		l := slab.Layup(p.AddLayup(slab.ID))
		l.Name, l.Y, l.Kerf = "Over the edge", -100*unit.Millimetre, dim(3)
	}
	data, err := model.Export(p)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "job.json")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// TestCutCommand writes the cutting sheet of a job as a script would, on the
// paper that goes with its units, and the drawing where the name says so.
func TestCutCommand(t *testing.T) {
	at := time.Date(2026, 12, 1, 8, 0, 0, 0, time.UTC)
	for _, inches := range []bool{false, true} {
		from, to := slabFile(t, inches, true), filepath.Join(t.TempDir(), "sheet.PDF")
		var out, problems bytes.Buffer
		if code := runCommand([]string{"cut", from, to}, at, &out, &problems); code != 0 || problems.Len() > 0 {
			t.Fatalf("exit %d, %s", code, problems.String())
		}
		var told sawn
		if err := json.Unmarshal(out.Bytes(), &told); err != nil || told.File != to || told.Sheet.Letter != inches || len(told.Sheet.Cautions) == 0 {
			t.Fatalf("%v, %s", err, out.String())
		}
		text, err := exec.Command("pdftotext", "-layout", to, "-").Output()
		if err != nil {
			t.Fatal("pdftotext does not read the sheet; it is installed by assets/setup.sh:", err)
		}
		for _, want := range []string{"Over the edge", "page 3 of ", told.Sheet.Measures, "not fit to page", "Elm slab"} {
			if !strings.Contains(string(text), want) {
				t.Errorf("%q is not on the sheet:\n%s", want, text)
			}
		}
		size, err := exec.Command("pdfinfo", to).Output()
		if want := map[bool]string{false: "(A4)", true: "(letter)"}[inches]; err != nil || !strings.Contains(string(size), want) {
			t.Errorf("%v: not %s:\n%s", err, want, size)
		}
		drawing := filepath.Join(t.TempDir(), "blank.svg")
		if code := runCommand([]string{"cut", from, drawing}, at, &out, &problems); code != 0 {
			t.Fatal(problems.String())
		}
		if data, err := os.ReadFile(drawing); err != nil || !bytes.Contains(data, []byte("<path class=\"blank\"")) {
			t.Errorf("%v: %.200s", err, data)
		}
	}
}

// TestCutCommandRefuses: what cannot be done gives exit 2 and words.
func TestCutCommandRefuses(t *testing.T) {
	laid, bare := slabFile(t, false, true), slabFile(t, false, false)
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"cut", laid}, "usage"},
		{[]string{"cut", "nothing-here.json", "x.pdf"}, "nothing-here.json"},
		{[]string{"cut", laid, "sheet.txt"}, "sheet.txt: a cutting sheet is written as .pdf or .svg"},
		{[]string{"cut", bare, "x.pdf"}, "no lay-up"},
		{[]string{"cut", laid, filepath.Join(laid, "below.pdf")}, "below.pdf"},
	} {
		var out, problems bytes.Buffer
		if code := runCommand(c.args, time.Time{}, &out, &problems); code != 2 || out.Len() > 0 || !strings.Contains(problems.String(), c.says) {
			t.Errorf("%v: exit %d, %q, %q", c.args, code, out.String(), problems.String())
		}
	}
}
