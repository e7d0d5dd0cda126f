package storage

import (
	"bufio"
	"flag"
	"fmt"
	"math/rand/v2"
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

// noon is the instant that tests count from.
var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

// children are the parts that this test binary can play when it is run again
// by a test; see child.
var children = map[string]func(args []string){}

func TestMain(m *testing.M) {
	if part := os.Getenv("STORAGE_TEST_CHILD"); part != "" {
		children[part](os.Args[1:])
		os.Exit(0)
	}
	flag.Parse()
	if f := flag.Lookup("rapid.checks"); f.Value.String() == f.DefValue {
		_ = f.Value.Set("40") // state machines on files are slow
	}
	code := m.Run()
	for _, path := range bigPath {
		_ = os.RemoveAll(filepath.Dir(path))
	}
	os.Exit(code)
}

// child makes a command that runs this test binary again in another part.
func child(t testing.TB, part string, args ...string) *exec.Cmd {
	t.Helper()
	if children[part] == nil {
		t.Fatalf("no child %q", part)
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self, args...)
	cmd.Env = append(os.Environ(), "STORAGE_TEST_CHILD="+part)
	return cmd
}

// must ends a child that went wrong.
func must(err error) {
	if err != nil {
		fmt.Println("child:", err)
		os.Exit(3)
	}
}

// lines runs a child to its end and returns what it printed.
func lines(t *testing.T, cmd *exec.Cmd) []string {
	t.Helper()
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("child: %v\n%s", err, out)
	}
	var list []string
	for s := bufio.NewScanner(strings.NewReader(string(out))); s.Scan(); {
		list = append(list, s.Text())
	}
	return list
}

// opened opens the notebook at path and, when the test ends, closes it and
// checks every record, so that each test also is one of the whole file.
func opened(t testing.TB, path string, opts ...Option) *Notebook {
	t.Helper()
	n, err := Open(path, opts...)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := n.Close(); err != nil {
			t.Error(err)
		}
		checked(t, path, opts...)
	})
	return n
}

// checked opens the notebook at path and checks it whole.
func checked(t testing.TB, path string, opts ...Option) {
	t.Helper()
	n, err := Open(path, opts...)
	if err != nil {
		t.Error(err)
		return
	}
	if err := n.Check(); err != nil {
		t.Error(err)
	}
	if err := n.Close(); err != nil {
		t.Error(err)
	}
}

// tempPath is the path of a notebook not made yet.
func tempPath(t testing.TB) string { return filepath.Join(t.TempDir(), "notebook.db") }

// quick leaves out waiting for the disk, for tests that are not about it.
func quick(n *Notebook) { n.noSync = true }

// sample is a project whose content follows from its ID and version, about
// size points long.
func sample(id string, version, size int) model.Project {
	r := rand.New(rand.NewPCG(uint64(version), uint64(len(id))))
	p := model.Project{
		ID: id, Name: "Board " + id, Note: fmt.Sprint("version ", version),
		Created: noon, Serial: version,
		Mold:   model.Mold{Kind: model.MoldRectangle, At: model.AtRim, Depth: dim(0.02 + r.Float64()/50)},
		Pieces: []model.Piece{{ID: "p1", Name: "Slab", Kind: model.PieceOutline, Thickness: dim(0.03)}},
		Layers: []model.Layer{{ID: "l1", Name: "First", By: model.ToDepth, To: dim(r.Float64() / 100)}},
	}
	for range size {
		p.Pieces[0].Outline = append(p.Pieces[0].Outline, shape.Point{X: r.Float64(), Y: r.Float64()})
	}
	return p
}

func dim(m float64) unit.Dim {
	return unit.Dim{Value: unit.Length(m), Written: fmt.Sprintf("%.1f mm", m*1000), By: unit.Rule}
}

// card is the card of a project.
func card(p model.Project, at time.Time) model.Card {
	return model.Card{ID: p.ID, Name: p.Name, Touched: at, State: p.Note}
}

// save saves a project without ado.
func save(t testing.TB, n *Notebook, p model.Project, after int, at time.Time) model.Revision {
	t.Helper()
	r, err := n.Save(p, card(p, at), after, false, "Change", at)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// entry is a journal entry.
func entry(id string, at time.Time) model.Entry {
	return model.Entry{ID: id, At: at, Kind: model.EntryNote, Text: "what happened " + id}
}

// WithClock sets the clock that names backup files made by Open.
func WithClock(now func() time.Time) Option { return func(n *Notebook) { n.clock = now } }
