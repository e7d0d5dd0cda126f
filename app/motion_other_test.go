//go:build !windows

package app

import (
	"context"
	"os"
	"path/filepath"
	"testing"
)

// TestDesktopAsksForStill: the desktop is asked by its own command; where there is
// none, where it fails or says anything else, things move.
func TestDesktopAsksForStill(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("PATH", dir)
	if DesktopAsksForStill(context.Background()) {
		t.Error("nothing is to move where there is no command")
	}
	asked := "[ \"$*\" = 'get org.gnome.desktop.interface enable-animations' ] || exit 1\n"
	for script, want := range map[string]bool{asked + "echo false": true, asked + "echo true": false, "echo false; exit 1": false, "echo No such schema": false} {
		if err := os.WriteFile(filepath.Join(dir, "gsettings"), []byte("#!/bin/sh\n"+script+"\n"), 0o755); err != nil {
			t.Fatal(err)
		}
		if got := DesktopAsksForStill(context.Background()); got != want {
			t.Errorf("%q: %v", script, got)
		}
	}
}
