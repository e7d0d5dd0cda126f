package assets

import (
	"flag"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write licences.txt and icon.png anew")

// systems are those that the program is built for; what is linked differs.
var systems = []string{"linux", "windows"}

// module is what is linked into the program, with the folder of its source.
type module struct{ path, version, folder string }

// linked asks go for the modules that have a package in the program.
func linked(t *testing.T) []module {
	t.Helper()
	seen := map[module]bool{}
	for _, system := range systems {
		list := exec.Command("go", "list", "-deps", "-f", "{{if not .Standard}}{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}} {{.Dir}}{{end}}{{end}}{{end}}", ".")
		list.Dir = ".."
		list.Env = append(os.Environ(), "CGO_ENABLED=1", "GOARCH=amd64", "GOOS="+system)
		out, err := list.Output()
		if err != nil {
			t.Fatal(system, ": ", err)
		}
		for _, line := range strings.Split(string(out), "\n") {
			if f := strings.Fields(line); len(f) == 3 {
				seen[module{f[0], f[1], f[2]}] = true
			}
		}
	}
	var list []module
	for m := range seen {
		list = append(list, m)
	}
	slices.SortFunc(list, func(a, b module) int { return strings.Compare(a.path, b.path) })
	return list
}

// terms are the names of files that hold the terms of what lies beside them.
var terms = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents|unlicense)([-._].*)?$`)

// texts reads the files with terms in a folder and below.
func texts(t *testing.T, folder string) (list []LicenceText) {
	t.Helper()
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && slices.Contains([]string{"testdata", "cmd", ".git"}, d.Name()) { // which are linked nowhere
			return filepath.SkipDir
		}
		if d.Type().IsRegular() && terms.MatchString(d.Name()) && filepath.Ext(path) != ".go" {
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			name, _ := filepath.Rel(folder, path)
			list = append(list, LicenceText{filepath.ToSlash(name), strings.TrimSpace(strings.ReplaceAll(string(data), "\r\n", "\n"))})
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// goRoot is where Go itself lies.
func goRoot(t *testing.T) string {
	t.Helper()
	out, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(string(out))
}

// TestLicencesOfAllThatIsLinked: every module that go links into the program, on
// every system that it is built for, is there with its version and with the text
// of every file of terms in its source, and nothing else is.
func TestLicencesOfAllThatIsLinked(t *testing.T) {
	modules := linked(t)
	if *update {
		var b strings.Builder
		write := func(name, version string, list []LicenceText) {
			fmt.Fprintf(&b, "%s\n\n", strings.TrimSpace(partMark+name+" "+version))
			for _, x := range list {
				fmt.Fprintf(&b, "%s%s\n\n%s\n\n", fileMark, x.File, x.Text)
			}
		}
		var own []LicenceText
		for _, name := range []string{"LICENSE", "PATENTS"} {
			data, err := os.ReadFile(filepath.Join(goRoot(t), name))
			if err != nil {
				t.Fatal(err)
			}
			own = append(own, LicenceText{name, strings.TrimSpace(string(data))})
		}
		write("Go", "", own)
		for _, m := range modules {
			write(m.path, m.version, texts(t, m.folder))
		}
		if err := os.WriteFile("licences.txt", []byte(strings.TrimSpace(b.String())+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		licences = b.String()
	}
	has := map[string]Licence{}
	for _, l := range Licences() {
		if _, twice := has[l.Name]; twice {
			t.Errorf("%s is there twice", l.Name)
		}
		has[l.Name] = l
	}
	if n := len(has); n != len(modules)+2 { // the typeface and Go
		t.Errorf("%d parts for %d modules", n, len(modules))
	}
	for _, m := range modules {
		l, ok := has[m.path]
		if !ok || l.Version != m.version {
			t.Errorf("%s %s is linked, and what is told of is %q %q: run go test ./assets -run Licences -update", m.path, m.version, l.Name, l.Version)
			continue
		}
		want := texts(t, m.folder)
		if len(want) == 0 {
			t.Errorf("%s has no file of terms in its source", m.path)
		}
		if !slices.Equal(l.Texts, want) {
			t.Errorf("%s: the texts are not those of its source", m.path)
		}
	}
	for _, name := range []string{"Go", "Typeface"} {
		if l := has[name]; len(l.Texts) == 0 || !strings.Contains(l.Texts[0].Text, "Redistribution and use") {
			t.Errorf("the licence of %s is missing", name)
		}
	}
}
