package app

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestCardCommand writes the card of a job as a script would; a session gives
// one too.
func TestCardCommand(t *testing.T) {
	alike(t, "TestCureCommand")
	at := time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC)
	from, _ := dated(t, at)
	to := filepath.Join(t.TempDir(), "card.pdf")
	var out, problems bytes.Buffer
	if code := runCommand([]string{"card", from, to}, at.Add(time.Hour), &out, &problems); code != 0 || problems.Len() > 0 {
		t.Fatalf("exit %d, %s", code, problems.String())
	}
	var told printed
	if err := json.Unmarshal(out.Bytes(), &told); err != nil || told.File != to || len(told.Card.Pours) != 1 || len(told.Card.Steps) < 3 {
		t.Fatalf("%v, %s", err, out.String())
	}
	text, err := exec.Command("pdftotext", to, "-").Output()
	if err != nil {
		t.Fatal("pdftotext does not read the card; it is installed by assets/setup.sh:", err)
	}
	for _, want := range []string{told.Card.Piece, told.Card.Steps[0].When, told.Card.Pours[0].Cups[0].Rungs[1].Reads, told.Card.Touch[1].Finds} {
		if !strings.Contains(string(text), want) {
			t.Errorf("%q is not on the card", want)
		}
	}
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil)
	if _, err := b.PourCard(); err == nil {
		t.Error("the card of no project")
	}
	data, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Import(data); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if own, err := b.PourCard(); err != nil || !bytes.HasPrefix(own, []byte("%PDF-")) {
		t.Errorf("%d bytes, %v", len(own), err)
	}
}

// TestCardCommandRefuses: what cannot be done gives exit 2 and words.
func TestCardCommandRefuses(t *testing.T) {
	alike(t, "TestCureCommand")
	from, _ := dated(t, time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC))
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"card", from}, "usage"},
		{[]string{"card", "nothing-here.json", "x.pdf"}, "nothing-here.json"},
		{[]string{"card", from, filepath.Join(from, "below.pdf")}, "below.pdf"},
	} {
		var out, problems bytes.Buffer
		if code := runCommand(c.args, time.Time{}, &out, &problems); code != 2 || out.Len() > 0 || !strings.Contains(problems.String(), c.says) {
			t.Errorf("%v: exit %d, %q, %q", c.args, code, out.String(), problems.String())
		}
	}
}
