package app

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"meniscus/model"
)

// dated exports a demo job whose first pour was started at an instant, into a
// file of its own.
func dated(t *testing.T, at time.Time) (path string, p model.Project) {
	t.Helper()
	p, err := readProject("../testdata/demo-poppy-stand.json")
	if err != nil {
		t.Fatal(err)
	}
	p.Journal = []model.Entry{{ID: "e1", Kind: model.EntryPourStarted, Layer: p.Layers[0].ID, At: at}}
	data, err := model.Export(p)
	if err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(t.TempDir(), "piece.json")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path, p
}

// TestDatesCommand writes the dates of a job as a script would: those that the
// windows show, by the simulation.
func TestDatesCommand(t *testing.T) {
	alike(t, "TestCureCommand")
	at := time.Date(2026, 10, 24, 20, 15, 30, 0, time.UTC)
	from, p := dated(t, at)
	to := filepath.Join(t.TempDir(), "dates.ics")
	var out, problems bytes.Buffer
	if code := runCommand([]string{"dates", from, to}, at.Add(time.Hour), &out, &problems); code != 0 || problems.Len() > 0 {
		t.Fatalf("exit %d, %s", code, problems.String())
	}
	var said written
	if err := json.Unmarshal(out.Bytes(), &said); err != nil || said.File != to {
		t.Fatalf("%v, %s", err, out.String())
	}
	file, err := os.ReadFile(to)
	if err != nil {
		t.Fatal(err)
	}
	c, err := cureProject(&p)
	if err != nil {
		t.Fatal(err)
	}
	events := 0
	for _, s := range c.Steps {
		if s.Due.IsZero() {
			continue
		}
		events++
		if !bytes.Contains(file, []byte("DTSTART:"+s.Due.Format("20060102T150405Z")+"\r\n")) {
			t.Errorf("%s is not in the file at %v", s.Label, s.Due)
		}
	}
	if n := bytes.Count(file, []byte("BEGIN:VEVENT\r\n")); n != events || n != len(said.Steps) || n < 4 {
		t.Errorf("%d events, %d told of, for %d dates", n, len(said.Steps), events)
	}
}

// TestDatesCommandRefuses: what cannot be done gives exit 2, words, and no
// file.
func TestDatesCommandRefuses(t *testing.T) {
	alike(t, "TestCureCommand")
	from, _ := dated(t, time.Date(2026, 10, 24, 20, 0, 0, 0, time.UTC))
	to := filepath.Join(t.TempDir(), "dates.ics")
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"dates", from}, "usage"},
		{[]string{"dates", "nothing-here.json", to}, "nothing-here.json"},
		{[]string{"dates", "../testdata/demo-poppy-stand.json", to}, "nothing has a date yet"},
		{[]string{"dates", from, filepath.Join(to, "below")}, "dates.ics"},
	} {
		var out, problems bytes.Buffer
		if code := runCommand(c.args, time.Time{}, &out, &problems); code != 2 || out.Len() > 0 || !strings.Contains(problems.String(), c.says) {
			t.Errorf("%v: exit %d, %q, %q", c.args, code, out.String(), problems.String())
		}
		if _, err := os.Stat(to); err == nil {
			t.Errorf("%v: a file was written", c.args)
		}
	}
}

// TestSessionDates: the file has what the snapshot shows, also after a start.
func TestSessionDates(t *testing.T) {
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil)
	if _, err := b.Dates(); err == nil {
		t.Error("dates of no project")
	}
	from, _ := dated(t, b.Now().Add(-time.Hour))
	data, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Import(data); err != nil {
		t.Fatal(err)
	}
	b.settle()
	file, err := b.Dates()
	if err != nil {
		t.Fatal(err)
	}
	shot := b.Snapshot()
	for _, s := range shot.Steps() {
		if !s.Due.IsZero() && !bytes.Contains(file, []byte("DTSTART:"+s.Due.Format("20060102T150405Z")+"\r\n")) {
			t.Errorf("%s is not in it", s.Label)
		}
	}
}
