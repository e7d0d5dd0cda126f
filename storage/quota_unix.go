//go:build unix

package storage

import (
	"errors"
	"syscall"
)

// overQuota tells whether err says that the user's share of the disk is used up.
func overQuota(err error) bool { return errors.Is(err, syscall.EDQUOT) }
