package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestPrinterThatHangs: a print command that never ends, with what it started
// itself still holding its output, is ended, and the maker told.
func TestPrinterThatHangs(t *testing.T) {
	dir := t.TempDir()
	lp, file := filepath.Join(dir, "lp"), filepath.Join(dir, "card.pdf")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(lp, []byte("#!/bin/sh\nexit 0\n"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := printBy(lp, file, longestPrint); err != nil {
		t.Skip("no shell script runs here: ", err)
	}
	// Were it not ended it would take the file after a while, as if all were well.
	if err := os.WriteFile(lp, []byte("#!/bin/sh\nsleep 20\nexit 0\n"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := printBy(lp, file, 100*time.Millisecond); err == nil || !strings.Contains(err.Error(), "did not answer") {
		t.Errorf("it says %v", err)
	}
}
