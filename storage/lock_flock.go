//go:build linux || darwin || freebsd || netbsd || openbsd || dragonfly

package storage

import (
	"errors"
	"os"
	"syscall"
	"time"
)

// lockFile takes the lock that bbolt takes too, on the same open file, so that
// the pages can be read in peace before bbolt opens them. It gives up with
// ErrInUse after the time patience.
func lockFile(f *os.File, exclusive bool, patience time.Duration) error {
	how := syscall.LOCK_SH | syscall.LOCK_NB
	if exclusive {
		how = syscall.LOCK_EX | syscall.LOCK_NB
	}
	for start := time.Now(); ; {
		err := syscall.Flock(int(f.Fd()), how)
		switch {
		case err == nil:
			return nil
		case errors.Is(err, syscall.EINTR):
		case !errors.Is(err, syscall.EWOULDBLOCK):
			return err
		case time.Since(start) > patience:
			return ErrInUse
		default:
			time.Sleep(20 * time.Millisecond)
		}
	}
}

// unlockFile gives the lock back, also while a memory map that bbolt left
// behind keeps the open file alive.
func unlockFile(f *os.File) { _ = syscall.Flock(int(f.Fd()), syscall.LOCK_UN) }

// locksFiles tells that lockFile keeps other programs out.
const locksFiles = true
