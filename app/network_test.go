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

// TestNoNetwork: no package of the program can open a connection, and of what it
// is built of only three that are known: the toolkit's own opening of web
// addresses, which the program never hands it, the desktop's message bus, a local
// socket, and the sandbox in which pictures are decoded, which is given none.
func TestNoNetwork(t *testing.T) {
	known := []string{"fyne.io/fyne/v2", "github.com/godbus/dbus/v5", "github.com/tetratelabs/wazero"}
	cmd := exec.Command("go", "list", "-deps", "-json=ImportPath,Imports,Standard", ".")
	cmd.Dir = ".."
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	ours, others := 0, 0
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p struct {
			listed
			Standard bool
		}
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		if p.Standard {
			continue
		}
		dials := slices.ContainsFunc(p.Imports, func(i string) bool {
			return i == "net" || strings.HasPrefix(i, "net/") && i != "net/url" && i != "net/netip"
		})
		switch mine := p.ImportPath == "meniscus" || strings.HasPrefix(p.ImportPath, "meniscus/"); {
		case mine:
			ours++
			if dials {
				t.Errorf("%s can open a connection", p.ImportPath)
			}
		case dials:
			others++
			if !slices.ContainsFunc(known, func(k string) bool { return p.ImportPath == k || strings.HasPrefix(p.ImportPath, k+"/") }) {
				t.Errorf("%s can open a connection, and is not one of %q", p.ImportPath, known)
			}
		}
	}
	if ours < 10 || others == 0 {
		t.Errorf("looked at %d packages of ours, and found %d others that dial", ours, others)
	}
}
