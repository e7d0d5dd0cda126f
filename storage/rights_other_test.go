//go:build !linux

package storage

import "testing"

// TestReadOnly stands for the test of that name, which becomes another user as
// only Linux lets it.
func TestReadOnly(t *testing.T) { t.Skip("this system does not let a test become another user") }
