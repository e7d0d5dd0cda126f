package app

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"
)

// TestCureCommand simulates the demo jobs as a script would: every layer that
// could be simulated has its peak inside its band, and the same file gives the
// same bytes.
func TestCureCommand(t *testing.T) {
	files, err := filepath.Glob("../testdata/demo-*.json")
	if err != nil || len(files) == 0 {
		t.Fatal("no demo jobs", err)
	}
	ready := 0
	var last string
	for _, file := range files {
		var out, problems bytes.Buffer
		if code := Command([]string{"cure", file}, &out, &problems); code != 0 || problems.Len() > 0 {
			t.Fatalf("%s: exit %d, %s", file, code, problems.String())
		}
		var c struct {
			Project string
			Banded  bool
			Layers  []struct {
				ID    string
				Ready bool
				Why   string
				Peak  struct{ Value, Low, High float64 } // kelvin
			}
		}
		last = out.String()
		if err := json.Unmarshal(out.Bytes(), &c); err != nil {
			t.Fatal(err)
		}
		if c.Project == "" || !c.Banded || len(c.Layers) == 0 {
			t.Errorf("%s: %s", file, last)
		}
		for _, l := range c.Layers {
			switch p := l.Peak; {
			case !l.Ready && l.Why == "":
				t.Errorf("%s: %s is not simulated, and nothing says why", file, l.ID)
			case !l.Ready:
			case p.Value < 273 || p.Value > 523 || p.Low > p.Value || p.High < p.Value:
				t.Errorf("%s: the peak of %s is %+v", file, l.ID, p)
			default:
				ready++
			}
		}
	}
	if ready == 0 {
		t.Error("nothing was simulated")
	}
	var again, problems bytes.Buffer
	Command([]string{"cure", files[len(files)-1]}, &again, &problems)
	if again.String() != last {
		t.Error("the same file gives something else the second time")
	}
}

// TestCureCommandRefuses: what cannot be taken gives exit 2, words, and nothing
// on standard output.
func TestCureCommandRefuses(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"cure"}, "usage"},
		{[]string{"cure", "a", "b"}, "usage"},
		{[]string{"melt", "a"}, "usage"},
		{[]string{"cure", "nothing-here.json"}, "nothing-here.json"},
		{[]string{"cure", "command_test.go"}, "command_test.go"},
	} {
		var out, problems bytes.Buffer
		if code := Command(c.args, &out, &problems); code != 2 || out.Len() > 0 || !strings.Contains(problems.String(), c.says) {
			t.Errorf("%v: exit %d, %q, %q", c.args, code, out.String(), problems.String())
		}
	}
}
