package assets

import (
	"bytes"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// entryName is the entry of the start menu.
const entryName = "org.meniscus.workbench.desktop"

// install runs the script in a home.
func install(t *testing.T, home string, args ...string) (said string, err error) {
	t.Helper()
	cmd := exec.Command("sh", append([]string{"install.sh"}, args...)...)
	cmd.Env = []string{"HOME=" + home, "PATH=/usr/bin:/bin"}
	out, err := cmd.CombinedOutput()
	return string(out), err
}

// files lists the files below a folder.
func files(t *testing.T, folder string) (list []string) {
	t.Helper()
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			name, _ := filepath.Rel(folder, path)
			list = append(list, name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// TestInstall: into a clean home come the program, its icon and its entry, which
// starts that very file; uninstalling takes these away and leaves all else.
func TestInstall(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the script is for Linux")
	}
	home := filepath.Join(t.TempDir(), "a home")
	own := filepath.Join(home, ".local/share/meniscus/notebook.db")
	if err := os.MkdirAll(filepath.Dir(own), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(own, []byte("kept"), 0o600); err != nil {
		t.Fatal(err)
	}
	stand := filepath.Join(t.TempDir(), "meniscus") // in the program's place
	if err := os.WriteFile(stand, []byte("#!/bin/sh\n[ \"$1\" = version ] && echo Meniscus 9\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for range 2 { // over an installed one too
		if said, err := install(t, home, stand); err != nil || !strings.Contains(said, "Meniscus 9") {
			t.Fatalf("%v: %s", err, said)
		}
	}
	list := files(t, home)
	for _, want := range []string{".local/bin/meniscus", ".local/share/applications/" + entryName,
		".local/share/icons/hicolor/scalable/apps/org.meniscus.workbench.svg", ".local/share/icons/hicolor/128x128/apps/org.meniscus.workbench.png"} {
		if !slices.Contains(list, want) {
			t.Errorf("%s is missing among %v", want, list)
		}
	}
	entry, err := os.ReadFile(filepath.Join(home, ".local/share/applications", entryName))
	if err != nil {
		t.Fatal(err)
	}
	if want := "\nExec=\"" + home + "/.local/bin/meniscus\"\n"; !strings.Contains(string(entry), want) {
		t.Errorf("the entry does not start the program: %s", entry)
	}
	validate(t, filepath.Join(home, ".local/share/applications", entryName))
	if said, err := install(t, home, "uninstall"); err != nil || !strings.Contains(said, "stays") {
		t.Errorf("%v: %s", err, said)
	}
	left := slices.DeleteFunc(files(t, home), func(name string) bool {
		return strings.HasSuffix(name, "mimeinfo.cache") || strings.HasSuffix(name, "icon-theme.cache")
	})
	if !slices.Equal(left, []string{".local/share/meniscus/notebook.db"}) {
		t.Errorf("left: %v", left)
	}
	if data, err := os.ReadFile(own); err != nil || string(data) != "kept" {
		t.Errorf("the notebook: %q, %v", data, err)
	}
}

// TestInstallRefuses: what is no program of ours changes nothing, nor does a home
// that an entry could not name.
func TestInstallRefuses(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the script is for Linux")
	}
	home := t.TempDir()
	other := filepath.Join(t.TempDir(), "other")
	if err := os.WriteFile(other, []byte("#!/bin/sh\nexit 3\n"), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, c := range [][2]string{{home, other}, {home, other + " is not there"}, {home + "/100%", other}, {"here", other}} {
		if said, err := install(t, c[0], c[1]); err == nil || !strings.HasPrefix(said, "install: ") {
			t.Errorf("%v: %v, %q", c, err, said)
		}
	}
	if left := files(t, home); len(left) > 0 {
		t.Errorf("left: %v", left)
	}
}

// TestDesktopEntry: the entry keeps to the freedesktop.org Desktop Entry
// Specification, by its own validator, names the icon as it is installed and the
// windows as they name the program.
func TestDesktopEntry(t *testing.T) {
	data, err := os.ReadFile(entryName)
	if err != nil {
		t.Fatal(err)
	}
	main, err := os.ReadFile("../main.go")
	if err != nil {
		t.Fatal(err)
	}
	id := strings.TrimSuffix(entryName, ".desktop")
	for _, line := range []string{"Icon=" + id, "StartupWMClass=" + id} {
		if !bytes.Contains(data, []byte("\n"+line+"\n")) {
			t.Errorf("the entry has no line %s", line)
		}
	}
	if !bytes.Contains(main, []byte("const id = \""+id+"\"")) {
		t.Errorf("the program names itself something other than %s", id)
	}
	validate(t, entryName)
}

// validate has the validator look at an entry.
func validate(t *testing.T, file string) {
	t.Helper()
	if _, err := exec.LookPath("desktop-file-validate"); err != nil {
		t.Log("desktop-file-validate is missing: run sh assets/setup.sh")
		return
	}
	if out, err := exec.Command("desktop-file-validate", file).CombinedOutput(); err != nil || len(out) > 0 {
		t.Errorf("%v: %s", err, out)
	}
}
