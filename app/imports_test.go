package app

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// listed is what go list says of a package.
type listed struct {
	ImportPath string
	Imports    []string
}

// TestImportsRunOneWay holds the packages to the architecture: main, views, app
// and model in that order, storage beside app, the toolkit known only above,
// the database only in storage, and nothing but arithmetic below.
func TestImportsRunOneWay(t *testing.T) {
	cmd := exec.Command("go", "list", "-tags", "ci", "-json=ImportPath,Imports", "./...")
	cmd.Dir = ".."
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	mayUse := map[string][]string{ // of our own packages
		"meniscus":               {"meniscus/app", "meniscus/app/locale", "meniscus/views", "meniscus/views/drawing", "meniscus/views/look", "meniscus/views/native", "meniscus/views/rest", "meniscus/storage", "meniscus/assets"},
		"meniscus/views":         {"meniscus/app", "meniscus/model", "meniscus/model/unit", "meniscus/model/shape", "meniscus/model/sight", "meniscus/assets", "meniscus/views/touch", "meniscus/views/drawing", "meniscus/views/look"},
		"meniscus/views/touch":   {"meniscus/views/look", "meniscus/assets"},
		"meniscus/views/look":    {"meniscus/assets"},
		"meniscus/views/drawing": {"meniscus/model", "meniscus/model/unit", "meniscus/model/shape", "meniscus/model/sight", "meniscus/app/paper", "meniscus/assets/fonts"}, // its painters print too: main hands them in
		"meniscus/views/native":  nil,
		"meniscus/views/rest":    nil,
		"meniscus/views/walk":    nil, // tests only
		"meniscus/assets":        {"meniscus/assets/fonts"},
		"meniscus/assets/fonts":  nil,
		"meniscus/app":           {"meniscus/model", "meniscus/model/unit", "meniscus/model/shape", "meniscus/model/sight", "meniscus/app/paper", "meniscus/app/picture", "meniscus/app/bundle"},
		"meniscus/app/paper":     {"meniscus/model", "meniscus/model/shape", "meniscus/model/unit", "meniscus/assets/fonts"}, // what a window prints, a command without a screen does too
		"meniscus/app/picture":   nil,                                                                                        // the only one that decodes what others wrote
		"meniscus/app/bundle":    {"meniscus/model", "meniscus/app/picture"},
		"meniscus/app/locale":    nil,
		"meniscus/storage":       {"meniscus/model"},
		"meniscus/model":         {"meniscus/model/cure", "meniscus/model/sight", "meniscus/model/shape", "meniscus/model/unit"},
		"meniscus/model/cure":    {"meniscus/model/shape", "meniscus/model/unit"},
		"meniscus/model/sight":   {"meniscus/model/shape", "meniscus/model/unit"},
		"meniscus/model/shape":   {"meniscus/model/unit"},
		"meniscus/model/unit":    nil,
	}
	seen := 0
	for decoder := json.NewDecoder(strings.NewReader(string(out))); ; seen++ {
		var p listed
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		allowed, known := mayUse[p.ImportPath]
		if !known {
			t.Errorf("%s is a room that the plan of the house does not have", p.ImportPath)
			continue
		}
		for _, i := range p.Imports {
			first, _, _ := strings.Cut(i, "/")
			switch {
			case first == "meniscus":
				if !slices.Contains(allowed, i) {
					t.Errorf("%s must not use %s", p.ImportPath, i)
				}
			case i == "fyne.io/fyne/v2/app":
				if p.ImportPath != "meniscus" {
					t.Errorf("%s must not start the toolkit", p.ImportPath)
				}
			case strings.HasPrefix(i, "fyne.io/"):
				if p.ImportPath != "meniscus" && p.ImportPath != "meniscus/assets" && !strings.HasPrefix(p.ImportPath, "meniscus/views") {
					t.Errorf("%s must not know the toolkit (%s)", p.ImportPath, i)
				}
			case strings.HasPrefix(i, "github.com/go-gl/"):
				if p.ImportPath != "meniscus/views/rest" && p.ImportPath != "meniscus/views/native" {
					t.Errorf("%s must not know what the toolkit stands on", p.ImportPath)
				}
			case strings.HasPrefix(i, "go.etcd.io/bbolt"):
				if p.ImportPath != "meniscus/storage" {
					t.Errorf("%s must not know the database", p.ImportPath)
				}
			case strings.HasPrefix(i, "github.com/go-pdf/"):
				if p.ImportPath != "meniscus/app/paper" {
					t.Errorf("%s must not know how paper is written", p.ImportPath)
				}
			case strings.HasPrefix(i, "archive/"):
				if p.ImportPath != "meniscus/app/bundle" {
					t.Errorf("%s must not know how files are packed", p.ImportPath)
				}
			case strings.HasPrefix(i, "github.com/gen2brain/"):
				if p.ImportPath != "meniscus/app/picture" {
					t.Errorf("%s must not know how pictures are decoded", p.ImportPath)
				}
			case strings.HasPrefix(p.ImportPath, "meniscus/model") && (strings.Contains(first, ".") || i == "os" || i == "math/rand" || strings.HasPrefix(i, "net")):
				t.Errorf("%s must not use %s", p.ImportPath, i)
			}
		}
	}
	if seen < len(mayUse) {
		t.Errorf("only %d of %d packages looked at", seen, len(mayUse))
	}
}
