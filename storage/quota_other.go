//go:build !unix

package storage

import (
	"errors"
	"syscall"
)

// Windows error codes of a full disk (winerror.h).
const (
	handleDiskFull = syscall.Errno(39)
	diskFull       = syscall.Errno(112)
)

// overQuota tells whether err says that the disk is used up.
func overQuota(err error) bool {
	return errors.Is(err, handleDiskFull) || errors.Is(err, diskFull)
}
