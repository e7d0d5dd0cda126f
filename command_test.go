package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestPlanCommand reads the plan of a demo job as a script would.
func TestPlanCommand(t *testing.T) {
	t.Setenv("DISPLAY", "")
	var out, problems bytes.Buffer
	if code := run([]string{"plan", "testdata/demo-poppy-stand.json"}, &out, &problems); code != 0 {
		t.Fatalf("exit %d: %s", code, problems.String())
	}
	var plan struct {
		Mold   struct{ FillLine, Depth float64 }
		Layers []struct {
			Net float64
			Mix struct{ Total, A, B, Parts float64 }
		}
		Findings []struct{ Level, Kind, Field, What string }
		Safety   []struct{ Signal, Text string }
	}
	if err := json.Unmarshal(out.Bytes(), &plan); err != nil {
		t.Fatal(err)
	}
	// (88,681 - 41,300) mm² · 12 mm, in m³.
	if len(plan.Layers) != 2 || math.Abs(plan.Layers[0].Net-568.57e-6) > 0.05e-6 || plan.Mold.FillLine != 0.028 {
		t.Errorf("the plan says %+v", plan)
	}
	if m := plan.Layers[0].Mix; math.Abs(m.A+m.B-m.Total) > 1e-9 || m.Parts != 45 {
		t.Errorf("the mix is %+v", m)
	}
	if len(plan.Findings) == 0 || len(plan.Safety) == 0 {
		t.Error("no findings or no safety notes")
	}
}

// TestBadCommands: a bad file or command gives exit 2, words on standard error
// and nothing on standard output.
func TestBadCommands(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad.json")
	data, err := os.ReadFile("testdata/demo-poppy-stand.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(bad, bytes.Replace(data, []byte(`"depth": {`), []byte(`"dephth": {`), 1), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"plan", bad}, "dephth"},
		{[]string{"plan", "testdata/nothing-here.json"}, "nothing-here.json"},
		{[]string{"plan"}, "usage"},
		{[]string{"plan", "a", "b"}, "usage"},
		{[]string{"draw", "x"}, "usage"},
		{[]string{"-colour"}, "colour"},
	} {
		var out, problems bytes.Buffer
		if code := run(c.args, &out, &problems); code != 2 || out.Len() != 0 || !strings.Contains(problems.String(), c.says) {
			t.Errorf("%v: exit %d, %q, %q", c.args, code, out.String(), problems.String())
		}
	}
}

// TestNoScreen: without a display one line says so and names what to do.
func TestNoScreen(t *testing.T) {
	t.Setenv("DISPLAY", "")
	t.Setenv("WAYLAND_DISPLAY", "")
	var out, problems bytes.Buffer
	if code := run([]string{"-notebook", filepath.Join(t.TempDir(), "n.db")}, &out, &problems); code != 1 {
		t.Errorf("exit %d", code)
	}
	if said := problems.String(); strings.Count(said, "\n") != 1 || !strings.Contains(said, "xvfb-run") {
		t.Errorf("it says %q", said)
	}
}

// TestQuietWithoutLanguage starts the program under the locale C, as scripts
// do: nothing but the plan comes out.
func TestQuietWithoutLanguage(t *testing.T) {
	cmd := exec.Command(os.Args[0], "plan", "testdata/demo-hall-shelf.json")
	cmd.Env = []string{asProgram + "=1", "LANG=C", "LC_ALL=C.UTF-8", "HOME=" + t.TempDir()}
	var problems bytes.Buffer
	cmd.Stderr = &problems
	if err := cmd.Run(); err != nil {
		t.Fatal(err)
	}
	// The plan itself goes to standard error here, standing in for the output.
	if said := problems.String(); !strings.HasPrefix(said, "{") {
		t.Errorf("before the plan it says %q", said[:min(200, len(said))])
	}
}
