package walk

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// command runs the program without a screen and gives its exit code and what it
// said.
func command(t *testing.T, env []string, args ...string) (code int, out, problems string) {
	t.Helper()
	cmd := exec.Command(built(t), args...)
	cmd.Dir = root
	cmd.Env = append([]string{"HOME=" + t.TempDir()}, env...)
	var o, p bytes.Buffer
	cmd.Stdout, cmd.Stderr = &o, &p
	var exit *exec.ExitError
	if err := cmd.Run(); err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return cmd.ProcessState.ExitCode(), o.String(), p.String()
}

// TestPlanCommand reads the plan of a demo job as a script would.
func TestPlanCommand(t *testing.T) {
	code, out, problems := command(t, nil, "plan", "testdata/demo-poppy-stand.json")
	if code != 0 || problems != "" {
		t.Fatalf("exit %d: %s", code, problems)
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
	if err := json.Unmarshal([]byte(out), &plan); err != nil {
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
	data, err := os.ReadFile(root + "/testdata/demo-poppy-stand.json")
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
		code, out, problems := command(t, nil, c.args...)
		if code != 2 || out != "" || !strings.Contains(problems, c.says) {
			t.Errorf("%v: exit %d, %q, %q", c.args, code, out, problems)
		}
	}
}

// TestNoScreen: without a display one line says so and names what to do.
func TestNoScreen(t *testing.T) {
	code, _, said := command(t, nil, "-notebook", filepath.Join(t.TempDir(), "n.db"))
	if code != 1 || strings.Count(said, "\n") != 1 || !strings.Contains(said, "xvfb-run") {
		t.Errorf("exit %d, it says %q", code, said)
	}
}

// TestQuietWithoutLanguage starts the program under the locale C, as scripts
// do: nothing but the plan comes out.
func TestQuietWithoutLanguage(t *testing.T) {
	code, out, said := command(t, []string{"LANG=C", "LC_ALL=C.UTF-8"}, "plan", "testdata/demo-hall-shelf.json")
	if code != 0 || said != "" || !strings.HasPrefix(out, "{") {
		t.Errorf("exit %d, it says %q", code, said)
	}
}
