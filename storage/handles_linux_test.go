package storage

import (
	"os"
	"path/filepath"
	"testing"
)

// TestLookingLeavesNothingOpen: a copy that was looked through is held open by
// nothing, or Windows would not let it have its name (open files of a process: man
// proc_pid_fd).
func TestLookingLeavesNothingOpen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "n.db")
	n := opened(t, path)
	to := filepath.Join(t.TempDir(), "copy.db")
	if err := n.Backup(to); err != nil {
		t.Fatal(err)
	}
	if whole, records := verify(to, n.schema); whole != nil || records != nil {
		t.Fatal(whole, records)
	}
	list, err := filepath.Glob("/proc/self/fd/*")
	if err != nil {
		t.Fatal(err)
	}
	for _, fd := range list {
		if file, err := os.Readlink(fd); err == nil && file == to {
			t.Errorf("%s is still open", file)
		}
	}
}
