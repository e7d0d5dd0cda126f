//go:build !(linux || darwin || freebsd || netbsd || openbsd || dragonfly)

package storage

import (
	"os"
	"time"
)

// lockFile leaves locking to bbolt, whose lock on this system cannot be taken
// twice by one open file.
func lockFile(*os.File, bool, time.Duration) error { return nil }

// unlockFile does nothing: closing the file gives the lock back.
func unlockFile(*os.File) {}

// locksFiles tells that lockFile does not keep other programs out, so that a
// page may change while it is read.
const locksFiles = false
