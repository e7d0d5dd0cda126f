package app

import (
	"bytes"
	"encoding/json"
	"io"
	"strings"
	"testing"
	"time"
)

// runCommand runs a command without a painter.
func runCommand(args []string, now time.Time, out, problems io.Writer) int {
	return Commands{}.Run(args, now, out, problems)
}

// TestCureCommand simulates a demo job as a script would: every layer has its
// peak inside its band, and a window for the next pour.
func TestCureCommand(t *testing.T) {
	var out, problems bytes.Buffer
	if code := runCommand([]string{"cure", "../testdata/demo-poppy-stand.json"}, time.Time{}, &out, &problems); code != 0 || problems.Len() > 0 {
		t.Fatalf("exit %d, %s", code, problems.String())
	}
	type known struct{ Value, Low, High float64 }
	var c struct {
		Project string
		Banded  bool
		Layers  []struct {
			ID                         string
			Ready                      bool
			Peak, RecoatFrom, RecoatTo known // kelvin, seconds
		}
	}
	if err := json.Unmarshal(out.Bytes(), &c); err != nil {
		t.Fatal(err)
	}
	if c.Project != "demo-poppy" || !c.Banded || len(c.Layers) != 2 {
		t.Errorf("%s", out.String())
	}
	for _, l := range c.Layers {
		inside := func(k known) bool { return k.Low <= k.Value && k.Value <= k.High && k.Low < k.High }
		if !l.Ready || !inside(l.Peak) || l.Peak.Value < 283 || l.Peak.Value > 423 {
			t.Errorf("%s: %+v", l.ID, l)
		}
		if !inside(l.RecoatFrom) || !inside(l.RecoatTo) || l.RecoatFrom.Value >= l.RecoatTo.Value {
			t.Errorf("the window of %s: %+v", l.ID, l)
		}
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
		if code := runCommand(c.args, time.Time{}, &out, &problems); code != 2 || out.Len() > 0 || !strings.Contains(problems.String(), c.says) {
			t.Errorf("%v: exit %d, %q, %q", c.args, code, out.String(), problems.String())
		}
	}
}
